#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

namespace {

// From this share of fat on it is flavoured oil, not a spirit with some in it.
constexpr double oil_from_share = 0.3;

bool is_plant(const analysis::Stock& stock) {
  using analysis::StockKind;
  return stock.kind == StockKind::herb || stock.kind == StockKind::fruit || stock.kind == StockKind::spice;
}

}  // namespace

void oil_infusion(const PrepCase& prep, Reporter& report) {
  const auto& made = prep.facts.composition.per_gram;
  if (made[model::Component::fat] < oil_from_share) return;
  // Nothing grows in a freezer: it is what the caution itself advises.
  if (prep.facts.storage == analysis::Storage::frozen) return;
  for (const auto& entry : prep.facts.entries) {
    const auto& stock = prep.house.specs[entry.use.stock];
    if (!is_plant(stock)) continue;
    bool warm = prep.facts.storage == analysis::Storage::ambient;
    std::string kept =
        prep.facts.keeps_days
            ? fmt::format(
                  ", kept {}{}", duration_words(*prep.facts.keeps_days),
                  prep.facts.storage ? fmt::format(" {}", analysis::name_of(*prep.facts.storage)) : "")
            : ", with no shelf life given";
    report.add(entry.role == model::Role::amount ? prep.span_of_amount(entry.index) : prep.name_span(),
               fmt::format("{}`{}` is stored in oil{}", warm ? "do not store this at room temperature: " : "",
                           entry.name, kept),
               fmt::format("Oil shuts out air, and botulism grows where there is none. Garlic in oil is "
                           "named as needing time and temperature control in the FDA Food "
                           "Code; extension services give 2 to 10 days cold, four of them common. Keep it at "
                           "{}, use it within days, freeze "
                           "it, or use what is dried. {}",
                           cold_limit(prep.house.specs), who_decides));
    return;
  }
}

}  // namespace gill::lint
