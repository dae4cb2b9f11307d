#include <fmt/format.h>

#include <map>
#include <set>

#include "lint/rules.h"
#include "model/cost.h"

namespace gill::lint {

namespace {

using analysis::PriceList;

/// The lists that price a thing, as they are declared.
std::map<analysis::StockId, std::vector<const PriceList*>> lists_by_stock(const analysis::Specs& specs) {
  std::map<analysis::StockId, std::vector<const PriceList*>> lists;
  for (const auto& list : specs.price_lists)
    for (const auto& price : list.prices) {
      auto& of_stock = lists[price.use.stock];
      if (of_stock.empty() || of_stock.back() != &list) of_stock.push_back(&list);
    }
  return lists;
}

}  // namespace

void price_order(const HouseCase& judged) {
  const auto& specs = judged.house.specs;
  std::set<std::pair<const PriceList*, const PriceList*>> seen;
  for (const auto& [stock, lists] : lists_by_stock(specs))
    for (std::size_t i = 1; i < lists.size(); ++i)
      for (std::size_t j = 0; j < i; ++j) {
        // A pair is told once, with the first thing that both price.
        if (!seen.insert({lists[j], lists[i]}).second || model::is_order_known(*lists[j], *lists[i], specs))
          continue;
        const bool is_one_day = !lists[i]->from.empty() && lists[i]->from == lists[j]->from;
        judged.about(*lists[i]).add(
            lists[i]->head.name_span,
            fmt::format(
                "`{}` and `{}` both price `{}`, {}", lists[j]->head.name, lists[i]->head.name,
                specs[stock].head.name,
                is_one_day ? "and both count from " + lists[i]->from : "and no date says which is the newer"),
            is_one_day
                ? fmt::format("Take the line of `{}` out of one of them, or give the newer list a later day.",
                              specs[stock].head.name)
                : "Write below the head of each from which day it counts: `from 2026-04-01`.");
      }
}

}  // namespace gill::lint
