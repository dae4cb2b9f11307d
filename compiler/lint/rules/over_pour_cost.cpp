#include <fmt/format.h>

#include "lint/rules.h"
#include "model/money.h"
#include "units/money.h"

namespace gill::lint {

namespace {

/// With one decimal, or with as many as it needs to look larger than what it is held to.
std::string apart_from(const base::Exact& pour_cost, const base::Exact& target) {
  constexpr unsigned most_decimals = 3;
  unsigned decimals = 1;
  while (decimals < most_decimals && base::to_fixed(pour_cost, decimals) == base::to_fixed(target, decimals))
    ++decimals;
  return base::to_fixed(pour_cost, decimals);
}

/// Of a bowl that is sold whole the price of a cup is worked out, and no price on a menu.
std::string price_words(const analysis::MenuEntry& entry) {
  return entry.whole_price ? units::money_text(*entry.price) + " a cup" : units::price_text(*entry.price);
}

void judge_drink(const analysis::Drink& drink, const model::DrinkFacts& facts, const HouseCase& judged) {
  const auto& specs = judged.house.specs;
  if (drink.head.from_library || drink.head.has_amount_errors || !facts.valid || !facts.cost ||
      drink.status == analysis::Status::retired)
    return;
  const auto& currency = judged.house.facts.currency;
  auto price = model::price_of(facts.drink, {}, specs, currency);
  const auto& cost = *facts.cost;
  auto target = model::target_pour_cost_percent(specs.house);
  auto pour_cost = price ? model::pour_cost_percent(cost.amount, price->without_tax.amount) : std::nullopt;
  if (!target || !pour_cost || *pour_cost <= *target) return;
  const model::Entry* dearest = nullptr;
  for (const auto& part : facts.entries)
    if (!part.optional && part.cost && (!dearest || part.cost->amount > dearest->cost->amount))
      dearest = &part;
  auto meets = model::price_for_target(specs.house, cost.amount, currency);
  auto& finding = judged.about(drink).add(
      drink.head.name_span,
      fmt::format(
          "it costs {} and sells at {}: a pour cost of {} %, where the house aims at no more than {} %",
          units::money_text(cost), price_words(*price->entry), apart_from(*pour_cost, *target),
          base::to_decimal(*target, 2)),
      fmt::format(
          "{}A price of {} would meet it.",
          dearest ? fmt::format("`{}` is {} of it. ", dearest->name, units::money_text(*dearest->cost)) : "",
          units::money_text({meets.value_or(0), currency})));
  finding.related.push_back({price->entry->span, "the price stands here"});
}

}  // namespace

void over_pour_cost(const HouseCase& judged) {
  const auto& specs = judged.house.specs;
  if (!specs.house.pour_cost || *specs.house.pour_cost <= 0) return;
  for (std::size_t i = 0; i < specs.drinks.size(); ++i)
    judge_drink(specs.drinks[i], judged.house.facts.drinks[i], judged);
}

}  // namespace gill::lint
