#include "base/file_kind.h"

#include <utility>

namespace gill::base {

std::string_view no_text_kind(std::string_view bytes) {
  for (auto [begins, what] :
       {std::pair<std::string_view, std::string_view>{"%PDF-", "a PDF"},
        {"\xD0\xCF\x11\xE0", "an old word processor's file or spreadsheet (.doc, .xls)"},
        {"{\\rtf", "a word processor's file (RTF)"},
        {"PK\x03\x04", "a word processor's file or spreadsheet (.docx, .xlsx, .odt)"}})
    if (bytes.starts_with(begins)) return what;
  // Bytes that no text holds: a picture, a program.
  const bool is_wide =
      bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF") || bytes.starts_with(utf32_mark_big);
  return bytes.find('\0') != std::string_view::npos && !is_wide ? "a picture, a program or the like" : "";
}

}  // namespace gill::base
