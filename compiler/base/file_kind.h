#pragma once
#include <string_view>

namespace gill::base {

/// How a text in UTF-32 begins.
constexpr std::string_view utf32_mark_little("\xFF\xFE\0\0", 4), utf32_mark_big("\0\0\xFE\xFF", 4);

/// What a file is that is no text, by its first bytes, as it goes behind "This is": `a PDF`, `a word
/// processor's file or spreadsheet (.docx, .xlsx, .odt)`; empty where it may be a text, in any encoding.
std::string_view no_text_kind(std::string_view bytes);

}  // namespace gill::base
