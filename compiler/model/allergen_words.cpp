#include "model/allergen_words.h"

#include "model/allergens.h"

namespace gill::model {

std::string allergen_short(std::string_view code) {
  auto colon = code.find(':');
  return std::string(colon == std::string_view::npos ? code : code.substr(colon + 1));
}

std::string allergen_words(std::string_view code) {
  auto heading = heading_of(code);
  std::string word = allergen_short(code);
  if (heading == code) return word;
  if (heading == "nuts") return word + " (nut)";
  if (heading == "cereals") return word + " (cereal with gluten)";
  return word + " (" + std::string(heading) + ")";
}

std::vector<std::string> allergen_words(const std::vector<std::string>& codes) {
  std::vector<std::string> words;
  for (const auto& code : codes) words.push_back(allergen_words(std::string_view(code)));
  return words;
}

std::string allergen_as_written(std::string_view code) {
  auto colon = code.find(':');
  if (colon == std::string_view::npos) return std::string(code);
  return std::string(code.substr(0, colon)) + ": " + std::string(code.substr(colon + 1));
}

}  // namespace gill::model
