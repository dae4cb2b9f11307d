#pragma once
#include <vector>

#include "render/book/usage.h"
#include "render/facts/facts_json.h"

namespace gill::render {

/// Which drinks, preps and ingredients facts are told of, each by name.
struct FactsSelection {
  std::vector<analysis::DrinkId> drinks;
  std::vector<analysis::StockId> preps, ingredients;
};

FactsSelection select_facts(const FactsInput& input);

/// Where a declaration stands.
struct DeclaredAt {
  std::string file;
  std::size_t line = 1;
};
DeclaredAt declared_at(const analysis::Head& head, const source::SourceSet& sources);

}  // namespace gill::render
