#pragma once
#include <map>
#include <memory>
#include <stdexcept>
#include <string>

#include "base/text.h"
#include "driver/compile.h"
#include "render/book/book.h"

namespace gill::test {

/// Compiles files given as text, with the standard library.
inline std::unique_ptr<driver::Compilation> compile(std::map<std::string, std::string> files) {
  driver::MemoryAccess access(std::move(files));
  auto house = access.read_house("house", {});
  return driver::compile(std::get<driver::HouseFiles>(house));
}

inline std::unique_ptr<driver::Compilation> compile(const std::string& text) {
  return compile({{"a.gill", text}});
}

/// The id of a drink or of a stock of that name; throws where there is none.
inline analysis::DrinkId drink_id(const driver::Compilation& house, const std::string& name) {
  auto id = house.names.find(symbols::NameSpace::drink, name);
  if (!id.valid()) throw std::runtime_error("no drink " + name);
  return analysis::DrinkId::at(house.specs.index_of[id.index()]);
}

inline analysis::StockId stock_id(const driver::Compilation& house, const std::string& name) {
  auto id = house.names.find(symbols::NameSpace::stock, name);
  if (!id.valid()) throw std::runtime_error("no stock " + name);
  return analysis::StockId::at(house.specs.index_of[id.index()]);
}

inline const model::DrinkFacts& drink(const driver::Compilation& house, const std::string& name) {
  return house.facts[drink_id(house, name)];
}

inline const model::StockFacts& stock(const driver::Compilation& house, const std::string& name) {
  return house.facts[stock_id(house, name)];
}

/// How often a rule was found.
inline int count(const driver::Compilation& house, diagnostics::Rule rule) {
  int n = 0;
  for (const auto& finding : house.findings) n += finding.rule == rule ? 1 : 0;
  return n;
}

/// The first finding of a rule.
inline const diagnostics::Diagnostic& first(const driver::Compilation& house, diagnostics::Rule rule) {
  for (const auto& finding : house.findings)
    if (finding.rule == rule) return finding;
  throw std::runtime_error("no such finding");
}

}  // namespace gill::test
