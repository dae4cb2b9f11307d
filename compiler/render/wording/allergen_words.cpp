#include "render/wording/allergen_words.h"

#include <algorithm>

#include "model/allergens.h"

namespace gill::render::wording {

const std::string evaluated_line =
    "Worked out from the listed ingredients. Check each label and your local code.";
const std::string shared_equipment_line =
    "Shakers, strainers, jiggers and glasses are shared: any drink can carry traces of what another holds.";
const std::string local_code_line = "Your local code and licensed practice decide.";

std::string with_allergen_words(std::string_view text) {
  auto is_letter = [](char c) { return c >= 'a' && c <= 'z'; };
  std::string result(text);
  for (std::size_t colon = result.find(':'); colon != std::string::npos;
       colon = result.find(':', colon + 1)) {
    std::size_t begin = colon, end = colon + 1;
    while (begin > 0 && is_letter(result[begin - 1])) --begin;
    while (end < result.size() && is_letter(result[end])) ++end;
    bool is_code = begin < colon && end > colon + 1 &&
                   is_on_list(std::string_view(result).substr(begin, colon - begin), "EU");
    if (!is_code) continue;
    std::string words = allergen_words(std::string_view(result).substr(begin, end - begin));
    result.replace(begin, end - begin, words);
    colon = begin;
  }
  return result;
}

bool is_on_list(std::string_view code, std::string_view list) {
  auto entries = model::allergen_list(list);
  return model::place_on(entries, code) < entries.size();
}

}  // namespace gill::render::wording
