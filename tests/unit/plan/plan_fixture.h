#pragma once
#include <algorithm>

#include "base/text.h"
#include "costing/costing.h"
#include "model/facts.h"
#include "support/fixture.h"
#include "unit/plan/replay.h"

namespace gill::testing {

/// A house evaluated, ready to be costed and planned.
struct EvaluatedHouse {
  Compiled compiled;
  model::HouseFacts facts;
  std::vector<diagnostics::Diagnostic> findings, suppressed;
  costing::House house;

  explicit EvaluatedHouse(std::string_view text)
      : compiled(compile(text)),
        facts(model::evaluate(compiled.specs, compiled.units, compiled.sink)),
        findings(compiled.sink.all()),
        house{compiled.specs, facts, compiled.units, compiled.names, compiled.sources, findings, suppressed} {
  }
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

/// A house with nothing in it but the library.
inline const EvaluatedHouse& library() {
  static const EvaluatedHouse house("");
  return house;
}

/// The lines of a page of text, runs of blanks made one: how wide a table's columns are is not meant.
inline std::vector<std::string> rows_of(std::string_view text) {
  std::vector<std::string> rows;
  while (!text.empty()) {
    auto end = std::min(text.find('\n'), text.size());
    rows.push_back(base::collapse_space(text.substr(0, end)));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return rows;
}

/// Whether one of the lines is that, blanks aside.
inline bool has_row(std::string_view text, std::string_view row) {
  auto rows = rows_of(text);
  return std::find(rows.begin(), rows.end(), row) != rows.end();
}

}  // namespace gill::testing
