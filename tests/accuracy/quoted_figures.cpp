#include "accuracy/quoted_figures.h"

#include <regex>

namespace gill::accuracy {

std::vector<QuotedFigure> quoted_figures(const std::string& source) {
  static const std::regex bracket(R"((\S+) \(([^()]*?) g per 100 g[^()]*\))");
  static const std::regex figure(R"(\b(sugars?|fat|protein|water|fibre|starch|ash|salt) (\d+(?:\.\d+)?))");
  std::vector<QuotedFigure> quoted;
  for (std::sregex_iterator row(source.begin(), source.end(), bracket), end; row != end; ++row) {
    const std::string inside = (*row)[2];
    for (std::sregex_iterator at(inside.begin(), inside.end(), figure); at != end; ++at) {
      std::string part = (*at)[1];
      if (part == "sugars") part = "sugar";
      quoted.push_back({(*row)[1], part, std::stod((*at)[2])});
    }
  }
  return quoted;
}

}  // namespace gill::accuracy
