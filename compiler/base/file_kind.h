#pragma once
#include <string_view>

namespace gill::base {

/// What a file is that is no text, by its first bytes, as it goes behind "This is": `a PDF`, `a word
/// processor's file or spreadsheet (.docx, .xlsx, .odt)`; empty where it may be a text, in any encoding.
std::string_view no_text_kind(std::string_view bytes);

}  // namespace gill::base
