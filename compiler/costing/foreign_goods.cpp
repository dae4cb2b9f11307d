#include "costing/foreign_goods.h"

#include <algorithm>
#include <array>

#include "base/text.h"

namespace gill::costing {
namespace {

using Meant = std::pair<std::string_view, std::string_view>;

constexpr auto goods = std::to_array<Meant>({
#define FOREIGN_GOOD(foreign, english) {foreign, english},
#include "costing/foreign_goods.def"
#undef FOREIGN_GOOD
});

}  // namespace

/// Folded, with the straight apostrophe.
std::string folded_plainly(std::string_view words) {
  std::string folded = base::collapse_space(base::fold_name(words));
  constexpr std::string_view curly = "’";
  for (auto at = folded.find(curly); at != std::string::npos; at = folded.find(curly))
    folded.replace(at, curly.size(), "'");
  return folded;
}

std::string without_foreign_article(std::string words) {
  for (std::string_view first : {"einem ", "einer ", "ein ", "eine ", "une ", "un ", "una ", "de l'", "d'un ",
                                 "d'une ", "du ", "la ", "le ", "el ", "d'", "de ", "di "})
    if (words.starts_with(first)) return words.substr(first.size());
  return words;
}

std::string_view english_good(std::string_view words) {
  std::string folded = folded_plainly(words);
  for (std::size_t articles = 0; articles < 2; ++articles) {
    auto found =
        std::find_if(goods.begin(), goods.end(), [&](const Meant& one) { return one.first == folded; });
    if (found != goods.end()) return found->second;
    folded = without_foreign_article(std::move(folded));
  }
  return {};
}

std::vector<Meant> foreign_goods() { return {goods.begin(), goods.end()}; }

}  // namespace gill::costing
