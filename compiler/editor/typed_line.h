#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "symbols/symbol_table.h"
#include "syntax/line_view.h"

namespace gill::editor {

/// The line that is being typed, up to the cursor, with what it belongs to.
class TypedLine {
 public:
  TypedLine(std::string_view text, std::uint32_t offset);

  /// The tokens in front of the cursor; their places are in the line.
  const syntax::LineView& view() const { return *view_; }
  /// Where the line begins in the text.
  std::uint32_t begin() const { return begin_; }
  /// What the declaration's header begins with; nothing in front of the first one, and for no known word.
  std::optional<symbols::DeclarationKind> kind() const { return kind_; }
  bool is_header() const { return is_header_; }
  /// True inside a comment or a text for people: nothing is offered there.
  bool is_prose() const { return is_prose_; }
  /// True where the cursor stands behind white space: a new word begins.
  bool at_new_word() const { return at_new_word_; }
  /// Where the token begins in the text; the cursor, behind the last one.
  std::uint32_t place_of(std::size_t token) const;

 private:
  void find_kind(std::string_view text);

  std::uint32_t begin_ = 0, offset_ = 0;
  std::optional<symbols::DeclarationKind> kind_;
  bool is_header_ = false, is_prose_ = false, at_new_word_ = false;
  source::SourceSet sources_;
  syntax::File file_;
  std::optional<syntax::LineView> view_;
};

/// The kind of declaration that a word begins.
std::optional<symbols::DeclarationKind> kind_called(std::string_view word);

}  // namespace gill::editor
