#include <fmt/format.h>

#include "lint/rules.h"
#include "model/cost.h"

namespace gill::lint {

namespace {

std::string money(const base::Exact& amount, const std::string& currency) {
  return base::to_fixed(amount, model::decimals_of(currency)) + " " + currency;
}

void judge_drink(const analysis::Drink& drink, const model::DrinkFacts& facts, const HouseCase& judged,
                 const model::Prices& prices) {
  const auto& specs = judged.house.specs;
  if (drink.head.from_library || drink.head.has_amount_errors || !facts.valid || !facts.cost ||
      drink.status == analysis::Status::retired)
    return;
  auto price = model::price_of(facts.drink, {}, specs, prices);
  auto cost = model::decimal_of(*facts.cost);
  auto target = model::decimal_of(*specs.house.pour_cost);
  if (!price || price->without_tax <= 0 || cost <= target * price->without_tax) return;
  const model::Entry* dearest = nullptr;
  for (const auto& part : facts.entries)
    if (!part.optional && part.cost && (!dearest || *part.cost > *dearest->cost)) dearest = &part;
  const auto& currency = prices.currency();
  auto meets = model::price_for_target(specs.house, cost, currency);
  auto& finding = judged.about(drink).add(
      drink.head.name_span,
      fmt::format(
          "it costs {} and sells at {}: a pour cost of {} %, where the house aims at no more than {} %",
          money(cost, currency), money(price->entry->price->amount, price->entry->price->currency),
          base::to_fixed(100 * cost / price->without_tax, 1), base::to_decimal(100 * target, 2)),
      fmt::format("{}A price of {} would meet it.",
                  dearest ? fmt::format("`{}` is {} of it. ", dearest->name,
                                        money(model::decimal_of(*dearest->cost), currency))
                          : "",
                  money(meets.value_or(0), currency)));
  finding.related.push_back({price->entry->span, "the price stands here"});
}

}  // namespace

void over_pour_cost(const HouseCase& judged) {
  const auto& specs = judged.house.specs;
  if (!specs.house.pour_cost || *specs.house.pour_cost <= 0) return;
  diagnostics::DiagnosticSink silent;
  model::Measuring measuring(specs, judged.house.units, judged.house.facts.stock, silent);
  model::Prices prices(specs, measuring);
  for (std::size_t i = 0; i < specs.drinks.size(); ++i)
    judge_drink(specs.drinks[i], judged.house.facts.drinks[i], judged, prices);
}

}  // namespace gill::lint
