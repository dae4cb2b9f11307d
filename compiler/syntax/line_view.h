#pragma once
#include <span>
#include <string>
#include <string_view>

#include "syntax/tree.h"

namespace gill::syntax {

/// One line with its tokens and their text at hand.
class LineView {
 public:
  LineView(const source::SourceFile& source, const File& file, std::uint32_t line)
      : source_(&source),
        file_(&file),
        line_(&file.lines[line]),
        first_(line_->first_token),
        size_(line_->token_count) {}

  /// The tokens [first, last) as a line of their own, at their place in the file.
  LineView part(std::size_t first, std::size_t last) const {
    LineView view = *this;
    view.first_ = first_ + static_cast<std::uint32_t>(first);
    view.size_ = static_cast<std::uint32_t>(last - first);
    return view;
  }

  const Line& line() const { return *line_; }
  std::size_t size() const { return size_; }
  const Token& operator[](std::size_t i) const { return file_->tokens[first_ + i]; }
  /// The kind of an item; `stray` past the end.
  TokenKind kind(std::size_t i) const { return i < size() ? (*this)[i].kind : TokenKind::stray; }
  /// Empty past the end.
  std::string_view text(std::size_t i) const {
    return i < size() ? slice((*this)[i].begin, (*this)[i].end) : std::string_view();
  }
  /// True when the item is this word or number-word, whatever its case.
  bool is_word(std::size_t i, std::string_view word) const;

  source::Span span(std::size_t i) const { return {file_->file_id, (*this)[i].begin, (*this)[i].end}; }
  /// From the first byte of token `first` to the last of token `last - 1`; never empty when there are tokens.
  source::Span span(std::size_t first, std::size_t last) const;
  /// All tokens of the line; the line itself where it has none.
  source::Span whole() const { return span(0, size()); }
  /// The source between two tokens as it was written.
  std::string_view raw(std::size_t first, std::size_t last) const;
  /// True when white space stands before the item.
  bool space_before(std::size_t i) const;
  std::string_view slice(std::uint32_t begin, std::uint32_t end) const {
    return std::string_view(source_->text).substr(begin, end - begin);
  }
  source::FileId file_id() const { return file_->file_id; }

 private:
  const source::SourceFile* source_;
  const File* file_;
  const Line* line_;
  std::uint32_t first_, size_;
};

/// True when every item in [first, last) may be part of an unquoted name; `bad` is the first that may not.
bool is_plain_name(const LineView& line, std::size_t first, std::size_t last, std::size_t& bad);

/// The name written in [first, last): without its quotes when it is one string, white space as one space.
std::string name_text(const LineView& line, std::size_t first, std::size_t last);

/// The CommonMark text of text lines, joined with newlines.
std::string joined_text(const source::SourceFile& source, const File& file,
                        std::span<const std::uint32_t> lines);

/// True for a mark of an open merge, as git writes it: `<<<<<<< HEAD`, `=======`.
bool is_merge_mark(const LineView& line);
/// True where such a mark stands within a declaration of the file, or right behind its last line: lines of it
/// are lost to the mark.
bool is_cut_by_merge(const source::SourceFile& source, const File& file, const Declaration& declaration);

}  // namespace gill::syntax
