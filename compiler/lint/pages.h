#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/embedded_file.h"
#include "diagnostics/diagnostic.h"

/// The page of every rule: what it finds, why it matters, an example and its mended text, the source. Written
/// beside the rules as `rules/NAME.md`, carried inside the program.
namespace gill::lint {

/// Every page, in the order of their paths.
const std::vector<base::EmbeddedFile>& rule_pages();
/// The page of a rule in CommonMark, or nothing when nobody wrote it.
std::optional<std::string_view> page_of(diagnostics::Rule rule);

}  // namespace gill::lint
