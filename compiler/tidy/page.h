#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "tidy/columns.h"

namespace gill::tidy {

/// One line on its way to the page.
struct PageLine {
  enum class Kind : std::uint8_t {
    blank,
    raw,      ///< byte for byte
    comment,  ///< a line of its own: it takes the indent of what follows
    text,
    header,
    body
  } kind = Kind::blank;
  /// Of a body line its columns; of every other its text is the lead.
  ColumnLine columns;
  std::size_t indent = 0;
  /// It was written there.
  bool in_first_column = false;
  /// The comment behind it, from its `#` on.
  std::string comment;
};

/// The lines of one declaration, or of what stands before the first.
class Page {
 public:
  void add(PageLine line) { lines_.push_back(std::move(line)); }
  void insert(std::size_t at, PageLine line) {
    lines_.insert(lines_.begin() + static_cast<std::ptrdiff_t>(at), std::move(line));
  }
  std::vector<PageLine>& lines() { return lines_; }

  /// The lines in their columns, comments below each other, appended to the output.
  void print(symbols::DeclarationKind kind, std::vector<std::string>& output);

 private:
  void measure(symbols::DeclarationKind kind);
  std::size_t overflow_width(std::size_t& at) const;
  std::string laid_out(const PageLine& line, std::size_t overflow) const;

  std::vector<PageLine> lines_;
  std::size_t main_width_ = 0, entry_width_ = 0;
};

}  // namespace gill::tidy
