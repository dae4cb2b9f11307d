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

}  // namespace gill::lint
