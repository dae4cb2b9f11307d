#include "syntax/line_view.h"

#include "base/text.h"

namespace gill::syntax {

bool LineView::is_word(std::size_t i, std::string_view word) const {
  return i < size() && (*this)[i].kind == TokenKind::word && base::equals_ignoring_case(text(i), word);
}

source::Span LineView::span(std::size_t first, std::size_t last) const {
  if (size() == 0) return {file_->file_id, line_->begin, line_->end};
  if (first >= size()) return {file_->file_id, (*this)[size() - 1].end, (*this)[size() - 1].end};
  if (last <= first) return {file_->file_id, (*this)[first].begin, (*this)[first].begin};
  return {file_->file_id, (*this)[first].begin, (*this)[std::min(last, size()) - 1].end};
}

std::string_view LineView::raw(std::size_t first, std::size_t last) const {
  auto stretch = span(first, last);
  return slice(stretch.begin, stretch.end);
}

bool LineView::space_before(std::size_t i) const { return i == 0 || (*this)[i].begin > (*this)[i - 1].end; }

namespace {

bool may_stand_in_name(TokenKind kind) {
  return kind == TokenKind::word || kind == TokenKind::number || kind == TokenKind::date ||
         kind == TokenKind::dashed_mixed || kind == TokenKind::dashed_range;
}

}  // namespace

bool is_plain_name(const LineView& line, std::size_t first, std::size_t last, std::size_t& bad) {
  if (last == first + 1 && line.kind(first) == TokenKind::string) return true;
  for (bad = first; bad < last; ++bad) {
    if (!may_stand_in_name(line.kind(bad))) return false;
  }
  return true;
}

std::string name_text(const LineView& line, std::size_t first, std::size_t last) {
  std::string_view raw = line.raw(first, last);
  if (last == first + 1 && line.kind(first) == TokenKind::string) raw = raw.substr(1, raw.size() - 2);
  return base::collapse_space(raw);
}

bool is_merge_mark(const LineView& line) {
  auto words = line.raw(0, line.size());
  for (std::string_view mark : {"<<<<<<<", "|||||||", "=======", ">>>>>>>"})
    if (words.starts_with(mark) && (words.size() == mark.size() || words[mark.size()] == ' ')) return true;
  return false;
}

bool is_cut_by_merge(const source::SourceFile& source, const File& file, const Declaration& declaration) {
  const auto* end = file.declarations.data() + file.declarations.size();
  for (const auto* next = &declaration + 1; next < end; ++next) {
    if (!is_merge_mark({source, file, next->header})) return false;
    if (!next->body.empty()) return true;
  }
  return false;
}

std::string joined_text(const source::SourceFile& source, const File& file,
                        std::span<const std::uint32_t> lines) {
  std::string text;
  for (auto index : lines) {
    const Line& line = file.lines[index];
    if (!text.empty()) text += '\n';
    text += std::string_view(source.text).substr(line.tail, line.end - line.tail);
  }
  return text;
}

}  // namespace gill::syntax
