#pragma once
#include <string>
#include <string_view>

#include "analysis/specs.h"
#include "model/facts.h"
#include "source/source_file.h"
#include "symbols/symbol_table.h"
#include "units/unit_table.h"

namespace gill::render {

/// What facts are printed of. All of it outlives the call.
struct FactsInput {
  const analysis::Specs& specs;
  const model::HouseFacts& facts;
  const units::UnitTable& units;
  const symbols::SymbolTable& names;
  const source::SourceSet& sources;
  /// Only the drink, prep or ingredient of that name (or `aka`), compared as names are; empty for all.
  std::string only;
};

/// True when a drink, prep or ingredient of the house or the library goes by that name.
bool facts_know(const FactsInput& input, std::string_view name);

/// The facts as JSON, `gill-facts` version 1: keys are fixed, numbers are not rounded, `null` where nothing
/// is known. Drinks and preps come in the order of their names; preps and ingredients are the house's own and
/// the library's that it uses.
std::string facts_json(const FactsInput& input);

/// The same facts as a table, RFC 4180 with LF at the line ends: one row a drink, prep and ingredient.
std::string facts_csv(const FactsInput& input);

/// A summary to read at a terminal, figures rounded to what they are good for.
std::string facts_text(const FactsInput& input);

}  // namespace gill::render
