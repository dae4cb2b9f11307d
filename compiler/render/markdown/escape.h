#pragma once
#include <string>
#include <string_view>

namespace gill::render::markdown {

/// Plain text as CommonMark that says the same, on one line: what would be markup is escaped, the rest stays
/// readable. `at_line_start` also takes care of what is markup only there (`#`, `-`, `1.` …).
std::string escape(std::string_view text, bool at_line_start);

}  // namespace gill::render::markdown
