#include <fmt/format.h>

#include <map>
#include <set>

#include "lint/rules.h"
#include "model/cost.h"

namespace gill::lint {

namespace {

using analysis::PriceList;

/// The lists that price a thing, newest first as far as their dates say.
std::map<analysis::StockId, std::vector<const PriceList*>> lists_by_stock(const analysis::Specs& specs) {
  std::map<analysis::StockId, std::vector<const PriceList*>> lists;
  for (const auto& list : specs.price_lists)
    for (const auto& price : list.prices) {
      auto& of_stock = lists[price.use.stock];
      if (of_stock.empty() || of_stock.back() != &list) of_stock.push_back(&list);
    }
  return lists;
}

/// A list that starts from another comes after it.
bool starts_from(const PriceList& list, const PriceList& other, const analysis::Specs& specs) {
  const PriceList* at = &list;
  for (std::size_t i = 0; i < specs.price_lists.size() && at->like.valid(); ++i) {
    at = &specs.price_lists[at->like.index()];
    if (at == &other) return true;
  }
  return false;
}

}  // namespace

void price_order(const HouseCase& judged) {
  const auto& specs = judged.house.specs;
  std::set<std::pair<const PriceList*, const PriceList*>> told;
  for (const auto& [stock, lists] : lists_by_stock(specs))
    for (std::size_t i = 1; i < lists.size(); ++i)
      for (std::size_t j = 0; j < i; ++j) {
        std::string first = model::date_of(*lists[j], specs), second = model::date_of(*lists[i], specs);
        bool is_ordered = (!first.empty() && !second.empty() && first != second) ||
                          starts_from(*lists[i], *lists[j], specs) ||
                          starts_from(*lists[j], *lists[i], specs);
        if (is_ordered || !told.insert({lists[j], lists[i]}).second) continue;
        judged.about(*lists[i]).add(
            lists[i]->head.name_span,
            fmt::format("`{}` and `{}` both price `{}`, and no date says which is the newer",
                        lists[j]->head.name, lists[i]->head.name, specs[stock].head.name),
            "Write below the head of each from which day it counts: `from 2026-04-01`.");
      }
}

}  // namespace gill::lint
