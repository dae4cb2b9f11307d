#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "diagnostics/diagnostic.h"

namespace gill::diagnostics {

/// What a SARIF log says beside its findings.
struct SarifTool {
  std::string version;
  /// The folder that the findings' paths start from, as it was named: relative to where the command ran, or
  /// absolute.
  std::string folder;
  /// The page of a rule in CommonMark, or nothing.
  std::optional<std::string_view> (*page_of)(Rule) = nullptr;
};

/// Findings in the Static Analysis Results Interchange Format (SARIF) 2.1.0, OASIS Standard: one run, every
/// rule with its page, columns in code points, the corrections of findings that have one.
std::string render_sarif(const std::vector<Diagnostic>& findings, const source::SourceSet& sources,
                         const SarifTool& tool);

/// A path as a URI reference (RFC 3986): what may not stand in one is percent-encoded.
std::string path_as_uri(std::string_view path);

}  // namespace gill::diagnostics
