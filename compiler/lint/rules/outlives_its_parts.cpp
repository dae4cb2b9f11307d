#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"
#include "model/physics/volume.h"

namespace gill::lint {

namespace {

using analysis::StockKind;

/// How long a part keeps once it is open, in days.
std::optional<double> open_days(const House& house, analysis::StockId id) {
  const auto& stock = house.specs[id];
  if (stock.is_prep) return house.facts[id].keeps_days;
  const auto& keeps = stock.opened ? stock.opened : stock.keeps;
  if (!keeps) return std::nullopt;
  return keeps->duration.number() / 86400;
}

/// A day's reading either way is no finding.
constexpr double same_share = 0.05;

}  // namespace

void outlives_its_parts(const PrepCase& prep, Reporter& report) {
  if (!prep.prep.keeps || prep.facts.trace.empty() || is_dried(prep.prep.recipe)) return;
  double days = prep.prep.keeps->duration.number() / 86400;
  if (prep.prep.keeps->storage == analysis::Storage::frozen) return;
  const auto& last = prep.facts.trace.back();
  bool keeps_itself =
      reaches_strength(model::strength(prep.facts.composition.per_gram), self_keeping_strength);
  std::optional<double> shortest;
  analysis::StockId which;
  for (auto id : last.contents) {
    const auto& part = prep.house.specs[id];
    // Strong spirit keeps what it holds, egg and dairy aside.
    if (keeps_itself && part.kind != StockKind::egg && part.kind != StockKind::dairy) continue;
    auto part_days = open_days(prep.house, id);
    if (!part_days || (shortest && *part_days >= *shortest)) continue;
    shortest = part_days;
    which = id;
  }
  if (!shortest || days <= *shortest * (1 + same_share)) return;
  auto found = prep.prep.property_spans.find("keeps");
  report.add(found == prep.prep.property_spans.end() ? prep.name_span() : found->second,
             fmt::format("it is said to keep {}, and `{}` in it keeps {} once open", duration_words(days),
                         prep.house.specs[which].head.name, duration_words(*shortest)),
             "Mixed food takes the date of its oldest part (FDA Food Code 2022, 3-501.17). Shorten it, or "
             "allow it with what makes "
             "it keep: measured acid, sugar, strength or heat.");
}

}  // namespace gill::lint
