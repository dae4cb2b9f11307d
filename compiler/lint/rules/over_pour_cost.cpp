#include <fmt/format.h>

#include <cmath>

#include "lint/rules.h"

namespace gill::lint {

namespace {

/// The drink's line on the menu that runs last, among those that give it a price.
const spec::MenuEntry* last_price(const DrinkCase& drink) {
  const spec::MenuEntry* found = nullptr;
  std::string last;
  for (const auto& menu : drink.house.specs.menus)
    for (const auto& section : menu.sections)
      for (const auto& entry : section.entries) {
        if (entry.drink != drink.facts.drink || !entry.price) continue;
        std::string until = menu.runs_to.empty() ? "9999" : menu.runs_to;
        if (found && until < last) continue;
        found = &entry;
        last = until;
      }
  return found;
}

/// The lowest price, tax as the menu shows it, that meets the target.
double price_for_target(const spec::House& house, double cost) {
  double price = cost / *house.pour_cost * (house.tax && house.tax->included ? 1 + house.tax->rate : 1);
  if (!house.round_prices_to) return price;
  double step = base::to_double(*house.round_prices_to);
  return step > 0 ? std::ceil(price / step - 1e-9) * step : price;
}

}  // namespace

void over_pour_cost(const DrinkCase& drink, Reporter& report) {
  const auto& house = drink.house.specs.house;
  if (!house.pour_cost || *house.pour_cost <= 0 || !drink.facts.cost || drink.drink.status == spec::Status::retired) return;
  const auto* entry = last_price(drink);
  const std::string& currency = drink.house.facts.currency;
  if (!entry || entry->price->currency != currency) return;
  double price = base::to_double(entry->price->amount);
  double without_tax = price / (house.tax && house.tax->included ? 1 + house.tax->rate : 1);
  if (without_tax <= 0 || *drink.facts.cost <= *house.pour_cost * without_tax * (1 + 1e-9)) return;
  const model::Entry* dearest = nullptr;
  for (const auto& part : drink.facts.entries)
    if (!part.optional && part.cost && (!dearest || *part.cost > *dearest->cost)) dearest = &part;
  auto& finding = report.add(
      drink.name_span(),
      fmt::format("it costs {:.2f} {} and sells at {:.2f} {}: a pour cost of {:.1f} %, where the house aims at no more than {:.3g} %",
                  *drink.facts.cost, currency, price, currency, 100 * *drink.facts.cost / without_tax, 100 * *house.pour_cost),
      fmt::format("{}A price of {:.2f} {} would meet it.",
                  dearest ? fmt::format("`{}` is {:.2f} {} of it. ", dearest->name, *dearest->cost, currency) : "",
                  price_for_target(house, *drink.facts.cost), currency));
  finding.related.push_back({entry->span, "the price stands here"});
}

}  // namespace gill::lint
