#pragma once
#include <string>
#include <vector>

#include "analysis/specs.h"
#include "model/facts.h"

namespace gill::render::wording {

/// Allergens as people say them, by how sure they are.
struct AllergensInWords {
  std::vector<std::string> present, possible;
  bool all_known = true;
  /// Why not, where nothing is silent.
  std::string why_not_known;
  /// What says nothing of its allergens.
  std::vector<std::string> silent;
};
AllergensInWords in_words(const model::Allergens& allergens, const analysis::Specs& specs);

}  // namespace gill::render::wording
