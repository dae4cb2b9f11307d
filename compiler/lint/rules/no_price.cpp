#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "lint/rules.h"

namespace gill::lint {

namespace {

/// A house reckons cost when it has stated any price of its own.
bool reckons_cost(const analysis::Specs& specs) {
  return !specs.price_lists.empty() ||
         std::any_of(specs.stock.begin(), specs.stock.end(), [](const analysis::Stock& stock) {
           return !stock.head.from_library && !stock.buys.empty();
         });
}

struct UnpricedUse {
  std::size_t drinks = 0;
  /// The first that wants it, where it has no declaration in the house.
  const analysis::Drink* drink = nullptr;
  const analysis::Stock* prep = nullptr;
};

}  // namespace

void no_price(const HouseCase& judged) {
  const auto& specs = judged.house.specs;
  if (!reckons_cost(specs)) return;
  std::vector<UnpricedUse> wants(specs.stock.size());
  for (std::size_t i = 0; i < specs.drinks.size(); ++i) {
    if (specs.drinks[i].head.from_library || specs.drinks[i].status == analysis::Status::retired) continue;
    for (auto id : judged.house.facts.drinks[i].without_price) {
      auto& want = wants[id.index()];
      ++want.drinks;
      if (!want.drink) want.drink = &specs.drinks[i];
    }
  }
  for (std::size_t i = 0; i < specs.stock.size(); ++i) {
    if (!specs.stock[i].is_prep || specs.stock[i].head.from_library) continue;
    for (auto id : judged.house.facts.stock[i].without_price)
      if (!wants[id.index()].prep) wants[id.index()].prep = &specs.stock[i];
  }
  for (std::size_t i = 0; i < specs.stock.size(); ++i) {
    const auto& stock = specs.stock[i];
    const auto& want = wants[i];
    if (!want.drink && !want.prep) continue;
    const std::string& name = stock.head.name;
    std::string of = want.drinks == 0   ? fmt::format("`{}`", want.prep->head.name)
                     : want.drinks == 1 ? fmt::format("`{}`", want.drink->head.name)
                                        : fmt::format("{} drinks", want.drinks);
    std::string message = fmt::format("no price is known for `{}`, so the cost of {} is not known", name, of);
    std::string help = fmt::format("Add `buy 1 l for 10 {}` to it, or a line for it to a `prices` list.",
                                   judged.house.facts.currency);
    if (!stock.head.from_library)
      judged.about(stock).add(stock.head.name_span, message, help);
    else if (want.drink)
      judged.about(*want.drink).add(want.drink->head.name_span, message, help);
    else
      judged.about(*want.prep).add(want.prep->head.name_span, message, help);
  }
}

}  // namespace gill::lint
