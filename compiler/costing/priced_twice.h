#pragma once
#include <string>
#include <vector>

#include "costing/costing.h"

namespace gill::costing {

/// Drinks that two menus of the same days sell at two prices, in words: the price that is reckoned with
/// (`model::price_of`) first, then the other menu's. Nobody can tell which was paid.
std::vector<std::string> priced_twice(const std::vector<DrinkId>& drinks, const House& house);

}  // namespace gill::costing
