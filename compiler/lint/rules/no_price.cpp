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

using Packs = std::vector<const analysis::Buy*>;

/// By stock: the packs that the house has for it, by its own `buy` lines and its price lists.
std::vector<Packs> packs_by_stock(const analysis::Specs& specs) {
  std::vector<Packs> packs(specs.stock.size());
  for (std::size_t i = 0; i < specs.stock.size(); ++i)
    for (const auto& buy : specs.stock[i].buys) packs[i].push_back(&buy);
  for (const auto& list : specs.price_lists)
    for (const auto& price : list.prices) packs[price.use.stock.index()].push_back(&price.buy);
  return packs;
}

struct WhyUnpriced {
  std::string message, help;
};

/// What is not known of the cost of a thing: its price, the rate of its money, or what a piece weighs.
WhyUnpriced why_unpriced(const analysis::Stock& stock, const Packs& packs, const std::string& currency) {
  const std::string& name = stock.head.name;
  for (const auto* pack : packs) {
    if (pack->price.currency != currency)
      return {fmt::format("`{}` is priced in {}, and the house states no rate for it", name,
                          pack->price.currency),
              fmt::format("Add `rate 1 {} = 0.90 {}` to the house, with the rate of the day.",
                          pack->price.currency, currency)};
    if (pack->pack.kind == units::Kind::count)
      return {fmt::format("`{}` is priced by the piece, and nobody says what one weighs", name),
              "Price it by weight, or say in its declaration what one weighs: `each 400 g`."};
  }
  bool is_poured = stock.effective_form() == analysis::Form::liquid;
  return {fmt::format("no price is known for `{}`", name),
          fmt::format("Add `buy {} for 10 {}` to it, or a line for it to a `prices` list.",
                      is_poured ? "1 l" : "1 kg", currency)};
}

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
  const auto packs = packs_by_stock(specs);
  for (std::size_t i = 0; i < specs.stock.size(); ++i) {
    const auto& stock = specs.stock[i];
    const auto& want = wants[i];
    if (!want.drink && !want.prep) continue;
    std::string of = want.drinks == 0   ? fmt::format("`{}`", want.prep->head.name)
                     : want.drinks == 1 ? fmt::format("`{}`", want.drink->head.name)
                                        : fmt::format("{} drinks", want.drinks);
    auto [why, help] = why_unpriced(stock, packs[i], judged.house.facts.currency);
    std::string message = fmt::format("{}, so the cost of {} is not known", why, of);
    if (!stock.head.from_library)
      judged.about(stock).add(stock.head.name_span, message, help);
    else if (want.drink)
      judged.about(*want.drink).add(want.drink->head.name_span, message, help);
    else
      judged.about(*want.prep).add(want.prep->head.name_span, message, help);
  }
}

}  // namespace gill::lint
