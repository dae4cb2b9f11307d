#pragma once
#include <vector>

#include "render/facts_json.h"
#include "render/usage.h"

namespace gill::render {

/// Which drinks, preps and ingredients facts are told of, each by name.
struct FactsSelection {
  std::vector<spec::DrinkId> drinks;
  std::vector<spec::StockId> preps, ingredients;
};

FactsSelection select_facts(const FactsInput& input);

/// Where a declaration stands.
struct DeclaredAt {
  std::string file;
  std::size_t line = 1;
};
DeclaredAt declared_at(const spec::Head& head, const source::SourceSet& sources);

}  // namespace gill::render
