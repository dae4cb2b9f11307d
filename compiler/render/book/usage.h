#pragma once
#include <vector>

#include "analysis/specs.h"
#include "model/facts.h"

namespace gill::render {

/// Who uses a stock, each in the order of its table.
struct Users {
  std::vector<analysis::DrinkId> drinks;
  std::vector<analysis::StockId> preps;
};

/// Which stock is used by what: poured, garnished with, or permitted as a substitute.
class Usage {
 public:
  explicit Usage(const analysis::Specs& specs);

  /// What names the stock in a line of its own.
  const Users& direct(analysis::StockId stock) const { return direct_[stock.index()]; }
  /// What uses it directly or through preps, to any depth.
  Users all(analysis::StockId stock) const;
  /// What a recipe names, each once, in the order of its lines.
  static std::vector<analysis::StockId> parts_of(const analysis::Recipe& recipe);
  /// What is in a recipe that uses `uses`, to any depth, permitted substitutes and what is in them included,
  /// each once.
  static std::vector<analysis::StockId> everything_in(const analysis::Recipe& recipe,
                                                      const std::vector<analysis::StockId>& uses,
                                                      const model::HouseFacts& facts);
  /// The house's own stock, and what it uses of the library's to any depth; by index.
  std::vector<bool> of_the_house() const;

 private:
  const analysis::Specs& specs_;
  std::vector<Users> direct_;
};

}  // namespace gill::render
