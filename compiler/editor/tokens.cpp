#include "editor/tokens.h"

#include <algorithm>

#include "analysis/verbs.h"
#include "syntax/line_view.h"

namespace gill::editor {

using syntax::LineKind;
using syntax::TokenKind;

namespace {

class Colourer {
 public:
  Colourer(const HouseView& view, const syntax::File& file) : view_(view), file_(file) {}

  std::vector<ColouredToken> colour() {
    for (std::uint32_t i = 0; i < file_.lines.size(); ++i) add_line(i);
    for (const auto& place : view_.names().all())
      if (place.span.file_id == file_.file_id)
        names_.push_back(
            {place.span.begin, place.span.end, place.declares ? TokenType::declared : TokenType::named});
    return merged();
  }

 private:
  void add(std::uint32_t begin, std::uint32_t end, TokenType type) {
    if (end > begin) words_.push_back({begin, end, type});
  }

  /// Where a line begins that is set in.
  std::uint32_t first_mark(const syntax::Line& line) const {
    auto begin = view_.text(file_).text.find_first_not_of(" \t", line.begin);
    return begin < line.end ? static_cast<std::uint32_t>(begin) : line.end;
  }

  void add_line(std::uint32_t index) {
    const auto& line = file_.lines[index];
    switch (line.kind) {
      case LineKind::blank:
      case LineKind::bad:
        return;
      case LineKind::comment:
        return add(first_mark(line), line.end, TokenType::comment);
      case LineKind::text:
        return add(first_mark(line), line.end, TokenType::text);
      case LineKind::header:
      case LineKind::body:
        break;
    }
    add_words(syntax::LineView(view_.text(file_), file_, index), line.kind == LineKind::header);
    if (line.tail < line.end) add(line.tail, line.end, TokenType::comment);
  }

  void add_words(const syntax::LineView& line, bool is_header) {
    std::size_t first = 0;
    // Elsewhere a word of a step begins a name: `Rest  at 12 EUR` on a menu.
    auto verb = in_recipe_ ? analysis::match_verb(line, 0) : std::nullopt;
    if (is_header && line.size() > 0) {
      add(line[0].begin, line[0].end, TokenType::keyword);
      in_recipe_ = line.is_word(0, symbols::keyword_of(symbols::DeclarationKind::drink)) ||
                   line.is_word(0, symbols::keyword_of(symbols::DeclarationKind::prep));
      first = 1;
    } else if (verb) {
      add(line[0].begin, line[verb->tokens - 1].end, TokenType::step);
      first = verb->tokens;
    } else if (line.kind(0) == TokenKind::word && line.size() > 1) {
      add(line[0].begin, line[0].end, TokenType::property);
      first = 1;
    }
    for (std::size_t i = first; i < line.size(); ++i) {
      if (line.kind(i) == TokenKind::string) add(line[i].begin, line[i].end, TokenType::text);
      if (line.kind(i) == TokenKind::date) add(line[i].begin, line[i].end, TokenType::number);
      if (line.kind(i) != TokenKind::number) continue;
      add(line[i].begin, line[i].end, TokenType::number);
      if (auto unit = view_.house().units.match(line, i + 1); unit.unit.valid())
        add(line[i + 1].begin, line[i + unit.tokens].end, TokenType::unit);
    }
  }

  /// Names win over what else was seen in the same words.
  std::vector<ColouredToken> merged() {
    auto by_begin = [](const ColouredToken& a, const ColouredToken& b) { return a.begin < b.begin; };
    std::vector<ColouredToken> all;
    auto add_free = [&](const std::vector<ColouredToken>& tokens) {
      std::vector<ColouredToken> taken = all;
      std::sort(taken.begin(), taken.end(), by_begin);
      for (const auto& token : tokens) {
        auto after = std::lower_bound(taken.begin(), taken.end(), token, by_begin);
        bool is_free = (after == taken.end() || after->begin >= token.end) &&
                       (after == taken.begin() || std::prev(after)->end <= token.begin);
        if (is_free) all.push_back(token);
      }
    };
    std::stable_sort(names_.begin(), names_.end(), by_begin);
    std::uint32_t end = 0;
    for (const auto& name : names_)
      if (name.begin >= end) all.push_back(name), end = name.end;
    add_free(words_);
    std::sort(all.begin(), all.end(), by_begin);
    return all;
  }

  const HouseView& view_;
  const syntax::File& file_;
  bool in_recipe_ = false;
  std::vector<ColouredToken> words_, names_;
};

}  // namespace

std::vector<ColouredToken> coloured_tokens(const HouseView& view, const syntax::File& file) {
  return Colourer(view, file).colour();
}

}  // namespace gill::editor
