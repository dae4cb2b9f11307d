#include <fmt/format.h>

#include <cmath>

#include "lint/rules.h"

namespace gill::lint {

namespace {

// Outside by more than this share of the band's width is far. House rule of the balance table.
constexpr double far_share = 0.25;

struct Judgement {
  std::string_view property, unit, low_words, high_words;
  const std::optional<units::Quantity>& range;
  double value, tolerance, scale;
};

void judge(const DrinkCase& drink, const Judgement& it, Reporter& report) {
  if (!it.range) return;
  double low = it.range->low * it.scale, high = it.range->high * it.scale;
  bool below = it.value + it.tolerance < low, above = it.value - it.tolerance > high;
  if (!below && !above) return;
  double distance = below ? low - it.value : it.value - high;
  double width = std::isfinite(low) && std::isfinite(high) ? high - low : std::max(std::abs(std::isfinite(low) ? low : high), 1.0);
  const auto& family = drink.house.specs[drink.drink.family];
  std::string range = std::isfinite(low) && std::isfinite(high) ? fmt::format("{:.3g} to {:.3g}", low, high)
                      : std::isfinite(low)                      ? fmt::format("at least {:.3g}", low)
                                                                : fmt::format("at most {:.3g}", high);
  auto& finding = report.add(
      drink.name_span(),
      fmt::format("{} for {} {}: {} {:.3g}{}, and the family's is {}{}", below ? it.low_words : it.high_words,
                  family.head.name.find_first_of("aeiou") == 0 ? "an" : "a", family.head.name, it.property, it.value, it.unit,
                  range, it.unit),
      below ? fmt::format("Raise the {}, choose another family, or allow it with a reason.", it.property)
            : fmt::format("Lower the {}, choose another family, or allow it with a reason.", it.property));
  if (distance > far_share * width) finding.severity = diagnostics::Severity::warning;
}

}  // namespace

void out_of_family(const DrinkCase& drink, Reporter& report) {
  if (!drink.drink.family.valid() || drink.facts.entries.empty()) return;
  const auto& family = drink.house.specs[drink.drink.family];
  const auto& served = drink.facts.served;
  const auto& tolerance = drink.facts.tolerance;
  judge(drink, {"strength", " % abv", "weak", "strong", family.strength, served.abv_percent, tolerance.abv_percent, 100}, report);
  judge(drink, {"sugar", " g/100 ml", "dry", "sweet", family.sugar, served.sugar_g_per_100ml, tolerance.sugar_g_per_100ml, 100}, report);
  judge(drink, {"acid", " g/100 ml", "flat", "sharp", family.acid, served.acid_g_per_100ml, tolerance.acid_g_per_100ml, 100}, report);
  if (auto ratio = served.sugar_acid_ratio())
    judge(drink, {"balance of sugar to acid", "", "sour", "sweet against its acid", family.balance, *ratio, tolerance.sugar_acid_ratio, 1}, report);
  judge(drink, {"volume", " ml", "short", "long", family.volume, served.volume_ml, tolerance.volume_ml, 1}, report);
}

}  // namespace gill::lint
