#pragma once
#include <string>
#include <vector>

#include "editor/actions.h"

/// Findings print what to write, and most say it to a person alone: the message knows no place. An editor
/// puts the words where they may be meant, has the house compiled with them, and offers what ends the
/// finding.
namespace gill::editor {

/// What a finding prints to write, and where it may belong, the likeliest first. What stands there instead
/// is one text each.
struct PrintedMend {
  /// The finding, an index in the house's findings.
  std::size_t finding = 0;
  std::string title;
  std::vector<diagnostics::Edit> ways;
};

/// Of the findings in a stretch of a file that no edit of their own mends.
std::vector<PrintedMend> printed_mends(const HouseView& view, const syntax::File& file, std::uint32_t begin,
                                       std::uint32_t end);

/// True where a change ended the finding and brought no error: of both states all that was found.
bool has_ended(const diagnostics::Diagnostic& finding, const std::vector<diagnostics::Diagnostic>& before,
               const std::vector<diagnostics::Diagnostic>& after);

}  // namespace gill::editor
