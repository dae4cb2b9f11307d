#include "editor/typed_line.h"

#include "base/text.h"
#include "syntax/parse.h"

namespace gill::editor {

using symbols::DeclarationKind;

namespace {

/// A line of a megabyte is not completed.
constexpr std::size_t longest_line = 4096;

bool is_space(char c) { return c == ' ' || c == '\t'; }

}  // namespace

std::optional<DeclarationKind> kind_called(std::string_view word) {
  for (int i = 0; i <= static_cast<int>(DeclarationKind::menu); ++i)
    if (base::equals_ignoring_case(symbols::keyword_of(static_cast<DeclarationKind>(i)), word))
      return static_cast<DeclarationKind>(i);
  return std::nullopt;
}

TypedLine::TypedLine(std::string_view text, std::uint32_t offset)
    : offset_(std::min(offset, static_cast<std::uint32_t>(text.size()))) {
  auto newline = text.substr(0, offset_).rfind('\n');
  begin_ = newline == std::string_view::npos ? 0 : static_cast<std::uint32_t>(newline + 1);
  std::string_view typed = text.substr(begin_, offset_ - begin_);
  if (typed.size() > longest_line) typed = {}, is_prose_ = true;
  is_header_ = typed.empty() || !is_space(typed[0]);
  at_new_word_ = typed.empty() || is_space(typed.back());
  auto trimmed = base::trim(typed);
  is_prose_ = is_prose_ || trimmed.starts_with('|');
  diagnostics::DiagnosticSink ignored;
  auto id = sources_.add("typed", std::string(typed), false);
  file_ = syntax::parse(id, sources_, ignored);
  if (file_.lines.empty()) file_.lines.push_back({syntax::LineKind::blank, 0, 0, 0, 0, 0});
  const auto& line = file_.lines[0];
  is_prose_ = is_prose_ || line.kind == syntax::LineKind::comment || line.tail < line.end;
  view_.emplace(sources_[id], file_, 0);
  find_kind(text);
}

/// The nearest line above that begins in the first column with a word.
void TypedLine::find_kind(std::string_view text) {
  for (std::size_t at = begin_;;) {
    std::string_view line = text.substr(at, text.find('\n', at) - at);
    if (!line.empty() && !is_space(line[0]) && line[0] != '#' && line[0] != '|' && line[0] != '\r') {
      kind_ = kind_called(line.substr(0, line.find_first_of(" \t\r")));
      return;
    }
    if (at == 0) return;
    auto before = text.substr(0, at - 1).rfind('\n');
    at = before == std::string_view::npos ? 0 : before + 1;
  }
}

std::uint32_t TypedLine::place_of(std::size_t token) const {
  return token < view_->size() ? begin_ + (*view_)[token].begin : offset_;
}

}  // namespace gill::editor
