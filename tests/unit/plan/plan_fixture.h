#pragma once
#include "model/facts.h"
#include "plan/costing.h"
#include "support/fixture.h"

namespace gill::testing {

/// A house worked out, ready to be costed and planned.
struct WorkedHouse {
  Compiled compiled;
  model::HouseFacts facts;
  std::vector<diagnostics::Diagnostic> findings;
  plan::House house;

  explicit WorkedHouse(std::string_view text)
      : compiled(compile(text)),
        facts(model::work_out(compiled.specs, compiled.units, compiled.sink)),
        findings(compiled.sink.all()),
        house{compiled.specs, facts, compiled.units, compiled.names, compiled.sources, findings} {}
  WorkedHouse(const WorkedHouse&) = delete;

  plan::DrinkId drink(std::string_view name) const {
    return plan::DrinkId{compiled.specs.index_of[compiled.names.find(names::NameSpace::drink, name).index()]};
  }
  plan::StockId stock(std::string_view name) const {
    return plan::StockId{compiled.specs.index_of[compiled.names.find(names::NameSpace::stock, name).index()]};
  }
  spec::MenuId menu(std::string_view name) const {
    return spec::MenuId{compiled.specs.index_of[compiled.names.find(names::NameSpace::menu, name).index()]};
  }
};

}  // namespace gill::testing
