#pragma once
#include <vector>

#include "model/facts.h"
#include "spec/specs.h"

namespace gill::render {

/// Who uses a stock, each in the order of its table.
struct Users {
  std::vector<spec::DrinkId> drinks;
  std::vector<spec::StockId> preps;
};

/// Which stock is used by what: poured, garnished with, or permitted as a stand-in.
class Usage {
 public:
  explicit Usage(const spec::Specs& specs);

  /// What names the stock in a line of its own.
  const Users& direct(spec::StockId stock) const { return direct_[stock.index()]; }
  /// What uses it directly or through preps, to any depth.
  Users all(spec::StockId stock) const;
  /// What a recipe names, each once, in the order of its lines.
  static std::vector<spec::StockId> parts_of(const spec::Recipe& recipe);
  /// What is in a recipe that uses `uses`, to any depth, permitted stand-ins and what is in them included, each once.
  static std::vector<spec::StockId> everything_in(const spec::Recipe& recipe, const std::vector<spec::StockId>& uses,
                                                  const model::HouseFacts& facts);
  /// The house's own stock, and what it uses of the library's to any depth; by index.
  std::vector<bool> of_the_house() const;

 private:
  const spec::Specs& specs_;
  std::vector<Users> direct_;
};

/// True when the drink and all that it is made of could be read and worked out.
bool is_sound(const spec::Drink& drink, const model::DrinkFacts& drink_facts, const spec::Specs& specs,
              const model::HouseFacts& facts);
bool is_sound(const spec::Stock& stock, const model::StockFacts& stock_facts, const spec::Specs& specs,
              const model::HouseFacts& facts);

/// True only when every part of it says what allergens it holds, and every line of it and of its preps could be read.
bool allergens_known(const spec::Drink& drink, const model::DrinkFacts& drink_facts, const spec::Specs& specs);
bool allergens_known(const spec::Stock& stock, const model::StockFacts& stock_facts, const spec::Specs& specs);

}  // namespace gill::render
