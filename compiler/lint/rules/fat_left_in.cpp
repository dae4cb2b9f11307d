#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"
#include "model/physics/volume.h"
#include "model/raw_egg.h"

namespace gill::lint {

namespace {

// Fat of this share is a slick. Common practice, no source.
constexpr double slick_share = 0.002;
// From this strength on it is a washed spirit, not a butter or a sauce. Common practice, no source.
constexpr double spirit_from = 0.10;

}  // namespace

void fat_left_in(const PrepCase& prep, Reporter& report) {
  if (prep.facts.trace.empty()) return;
  const auto& last = prep.facts.trace.back();
  const auto& made = prep.facts.composition.per_gram;
  if (made[model::Component::fat] < slick_share || model::strength(made) < spirit_from) return;
  for (const auto& entry : prep.facts.entries)
    if (prep.house.facts[entry.use.stock].holds_fat) return;
  for (const auto& entry : prep.facts.entries) {
    const auto& stock = prep.house.specs[entry.use.stock];
    if (stock.kind != analysis::StockKind::fat || !model::holds(last, entry.use.stock) ||
        entry.role != model::Role::amount)
      continue;
    report.add(prep.span_of_amount(entry.index),
               fmt::format("{:.3g} g of `{}` go in, and no line takes them out again",
                           entry.mass_g.value_or(0), entry.name),
               fmt::format("A filter alone is not reckoned to hold it back. Add `freeze 12 h at -18 C` and "
                           "`remove {}` below the line where it stands, then strain.",
                           stock.head.name));
    return;
  }
}

}  // namespace gill::lint
