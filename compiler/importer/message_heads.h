#pragma once
#include <vector>

#include "importer/raw_lines.h"

namespace gill::importer {

/// Who sent a message of a chat, and when, on a line above what it says (`12.10.26, 18:05 - Bea:`), and the
/// line above a mail that was answered (`On Mon, 2 Nov 2026 at 10:14, Bea wrote:`) marked as one. What stands
/// below either begins a paragraph.
std::vector<RawLine> with_message_heads_apart(std::vector<RawLine> lines);

}  // namespace gill::importer
