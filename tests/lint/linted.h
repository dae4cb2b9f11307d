#pragma once
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "driver/compile.h"

/// What the lint tests share: a text is judged in one call, findings are compared as short lines.
namespace gill::testing {

/// A house of one file through every stage.
std::unique_ptr<driver::Compilation> linted(std::string_view text);

/// The findings of a rule as `severity line: message`; in the order of their places.
std::vector<std::string> findings_of(const driver::Compilation& house, std::string_view rule);
/// How often the rule is found in the text.
std::size_t count(std::string_view text, std::string_view rule);
/// The only finding of the rule in a text; fails the test when there is none, or more.
diagnostics::Diagnostic only(std::string_view text, std::string_view rule);
/// The findings of the house's own files that are no notes, as `rule line: message`, for a failed test's
/// output.
std::string all_findings(const driver::Compilation& house);

/// The ```gill examples of a rule's page, in their order: the first shows the finding, the second is mended.
std::vector<std::string> examples_of(std::string_view page);

/// Every file of a folder below tests/lint with that ending, as path and text, in the order of their paths.
std::vector<std::pair<std::string, std::string>> files_below(const std::string& folder,
                                                             std::string_view ending);

}  // namespace gill::testing
