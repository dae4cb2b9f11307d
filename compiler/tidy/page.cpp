#include "tidy/page.h"

#include <algorithm>

#include "base/text.h"

namespace gill::tidy {

using symbols::DeclarationKind;
using Column = ColumnLine::Column;

namespace {

/// Between two columns, and before a comment.
constexpr std::size_t gap = 2;
/// A longer line keeps its comment to itself.
constexpr std::size_t longest_commented = 60;

std::string padded(const std::string& text, std::size_t width) {
  std::size_t length = base::display_width(text);
  return text + std::string(std::max(width, length + gap) - length, ' ');
}

bool has_columns(const PageLine& line) {
  return line.kind == PageLine::Kind::body && !line.columns.rest.empty();
}

}  // namespace

/// Leads that are too long for the column move to an overflow of their own; the others say how wide it is.
void Page::measure(DeclarationKind kind) {
  main_width_ = least_width(kind, Column::main);
  entry_width_ = least_width(kind, Column::entry);
  for (auto& line : lines_) {
    if (!has_columns(line) || line.columns.column == Column::overflow) continue;
    std::size_t length = base::display_width(line.columns.lead);
    auto& width = line.columns.column == Column::entry ? entry_width_ : main_width_;
    if (length > longest_lead(kind, line.columns.column))
      line.columns.column = Column::overflow;
    else
      width = std::max(width, length + gap);
  }
}

/// The width of the run of overflowing lines that begins here; `at` moves behind it.
std::size_t Page::overflow_width(std::size_t& at) const {
  std::size_t width = 0;
  for (; at < lines_.size() && has_columns(lines_[at]) && lines_[at].columns.column == Column::overflow; ++at)
    width = std::max(width, base::display_width(lines_[at].columns.lead) + gap);
  return width;
}

std::string Page::laid_out(const PageLine& line, std::size_t overflow) const {
  std::string text(line.indent, ' ');
  if (!has_columns(line))
    return line.kind == PageLine::Kind::raw ? line.columns.lead : text + line.columns.lead;
  std::size_t width = line.columns.column == Column::entry  ? entry_width_
                      : line.columns.column == Column::main ? main_width_
                                                            : std::max(overflow, main_width_);
  return text + padded(line.columns.lead, width) + line.columns.rest;
}

void Page::print(DeclarationKind kind, std::vector<std::string>& output) {
  measure(kind);
  std::size_t first = output.size(), comment_column = 0, overflow = 0, overflow_end = 0;
  for (std::size_t i = 0; i < lines_.size(); ++i) {
    if (i >= overflow_end) overflow = overflow_width(overflow_end = i);
    output.push_back(laid_out(lines_[i], overflow));
    std::size_t length = base::display_width(output.back());
    if (!lines_[i].comment.empty() && lines_[i].kind == PageLine::Kind::body && length <= longest_commented)
      comment_column = std::max(comment_column, length + gap);
  }
  for (std::size_t i = 0; i < lines_.size(); ++i) {
    if (lines_[i].comment.empty()) continue;
    std::size_t column = lines_[i].kind == PageLine::Kind::body ? comment_column : 0;
    output[first + i] = padded(std::move(output[first + i]), column) + lines_[i].comment;
  }
}

}  // namespace gill::tidy
