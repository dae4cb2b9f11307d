#include "lint/pages.h"

#include <algorithm>

namespace gill::lint {

std::optional<std::string_view> page_of(diagnostics::Rule rule) {
  std::string path(diagnostics::info(rule).name);
  std::replace(path.begin(), path.end(), '-', '_');
  path += ".md";
  auto page = base::text_of(rule_pages(), path);
  return page.empty() ? std::nullopt : std::optional(page);
}

std::vector<std::string> examples_of(std::string_view page) {
  constexpr std::string_view opening = "```gill\n", closing = "```";
  std::vector<std::string> examples;
  for (auto at = page.find(opening); at != std::string_view::npos; at = page.find(opening, at)) {
    at += opening.size();
    auto end = page.find(closing, at);
    examples.emplace_back(page.substr(at, end == std::string_view::npos ? end : end - at));
    if (end == std::string_view::npos) break;
    at = end + closing.size();
  }
  return examples;
}

}  // namespace gill::lint
