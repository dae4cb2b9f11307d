#include "render/wording/allergens_in_words.h"

#include "render/wording/allergen_words.h"
#include "render/wording/unfinished.h"

namespace gill::render::wording {

AllergensInWords in_words(const model::Allergens& allergens, const analysis::Specs& specs) {
  AllergensInWords words;
  for (const auto& route : allergens.routes)
    (route.may ? words.possible : words.present).push_back(allergen_words(route.code));
  words.all_known = allergens.known;
  if (!allergens.known) words.why_not_known = why_not_known(allergens);
  for (auto id : allergens.unknown) words.silent.push_back(specs[id].head.name);
  words.silent.insert(words.silent.end(), allergens.undeclared.begin(), allergens.undeclared.end());
  return words;
}

}  // namespace gill::render::wording
