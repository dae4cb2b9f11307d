#pragma once
#include "costing/costing.h"
#include "model/facts.h"
#include "support/fixture.h"

namespace gill::testing {

/// A house evaluated, ready to be costed and planned.
struct EvaluatedHouse {
  Compiled compiled;
  model::HouseFacts facts;
  std::vector<diagnostics::Diagnostic> findings;
  costing::House house;

  explicit EvaluatedHouse(std::string_view text)
      : compiled(compile(text)),
        facts(model::evaluate(compiled.specs, compiled.units, compiled.sink)),
        findings(compiled.sink.all()),
        house{compiled.specs, facts, compiled.units, compiled.names, compiled.sources, findings} {}
  EvaluatedHouse(const EvaluatedHouse&) = delete;

  costing::DrinkId drink(std::string_view name) const {
    return costing::DrinkId{
        compiled.specs.index_of[compiled.names.find(symbols::NameSpace::drink, name).index()]};
  }
  costing::StockId stock(std::string_view name) const {
    return costing::StockId{
        compiled.specs.index_of[compiled.names.find(symbols::NameSpace::stock, name).index()]};
  }
  analysis::MenuId menu(std::string_view name) const {
    return analysis::MenuId{
        compiled.specs.index_of[compiled.names.find(symbols::NameSpace::menu, name).index()]};
  }
};

}  // namespace gill::testing
