#pragma once
#include "plan/prep_plan.h"

namespace gill::plan {

/// Everything of a house that can be made ahead, and which of it a line of a recipe means.
class Products {
 public:
  Products(const House& house, const Costing& costing, const PlanOptions& options);

  const std::vector<Product>& all() const { return products_; }
  /// The prep or pressing that a stock is; nothing for what is bought as it is.
  std::optional<std::size_t> of(StockId stock) const { return by_stock_[stock.index()]; }
  /// The house bottle of a drink.
  std::optional<std::size_t> of(DrinkId drink) const { return by_drink_[drink.index()]; }
  /// Every item before what goes into it.
  const std::vector<std::size_t>& users_first() const { return users_first_; }

 private:
  void add_prep(StockId prep);
  void add_house_bottle(DrinkId drink);
  void add_pressing(StockId stock);
  Product stock_item(StockId stock, Making making) const;

  const House& house_;
  const Costing& costing_;
  std::vector<Product> products_;
  std::vector<std::optional<std::size_t>> by_stock_, by_drink_;
  std::vector<std::size_t> users_first_;
};

}  // namespace gill::plan
