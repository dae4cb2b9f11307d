#include "syntax/tree.h"

#include <fmt/format.h>

namespace gill::syntax {
namespace {

std::string_view name_of(LineKind kind) {
  switch (kind) {
    case LineKind::blank:
      return "blank";
    case LineKind::comment:
      return "comment";
    case LineKind::text:
      return "text";
    case LineKind::header:
      return "header";
    case LineKind::body:
      return "line";
    case LineKind::bad:
      return "bad";
  }
  return "";
}

class Dumper {
 public:
  Dumper(const File& file, const source::SourceSet& sources) : file_(file), source_(sources[file.file_id]) {}

  std::string print() {
    for (const auto& declaration : file_.declarations) {
      line(declaration.header, 0);
      texts(declaration.text_lines, 1);
      for (const auto& body : declaration.body) {
        line(body.line, 1);
        texts(body.text_lines, 2);
      }
    }
    return std::move(out_);
  }

 private:
  void line(std::uint32_t index, int depth) {
    const Line& line = file_.lines[index];
    out_ += fmt::format("{:{}}{}", "", 2 * depth, name_of(line.kind));
    for (std::uint32_t i = 0; i < line.token_count; ++i) {
      const Token& token = file_.tokens[line.first_token + i];
      out_ += fmt::format(" {}({})", syntax::name_of(token.kind), slice(token.begin, token.end));
    }
    if (line.tail < line.end) out_ += fmt::format(" {{{}}}", slice(line.tail, line.end));
    out_ += '\n';
  }

  void texts(const std::vector<std::uint32_t>& lines, int depth) {
    for (auto index : lines) line(index, depth);
  }

  std::string_view slice(std::uint32_t begin, std::uint32_t end) const {
    return std::string_view(source_.text).substr(begin, end - begin);
  }

  const File& file_;
  const source::SourceFile& source_;
  std::string out_;
};

}  // namespace

std::string_view name_of(TokenKind kind) {
  switch (kind) {
    case TokenKind::number:
      return "number";
    case TokenKind::word:
      return "word";
    case TokenKind::date:
      return "date";
    case TokenKind::string:
      return "string";
    case TokenKind::comma:
      return "comma";
    case TokenKind::equals:
      return "equals";
    case TokenKind::colon:
      return "colon";
    case TokenKind::percent:
      return "percent";
    case TokenKind::arrow:
      return "arrow";
    case TokenKind::dots:
      return "dots";
    case TokenKind::plus_minus:
      return "plus-minus";
    case TokenKind::colour:
      return "colour";
    case TokenKind::dashed_mixed:
      return "dashed-mixed";
    case TokenKind::dashed_range:
      return "dashed-range";
    case TokenKind::comma_number:
      return "comma-number";
    case TokenKind::open_string:
      return "open-string";
    case TokenKind::curly_string:
      return "curly-string";
    case TokenKind::stray:
      return "stray";
  }
  return "";
}

std::string dump(const File& file, const source::SourceSet& sources) { return Dumper(file, sources).print(); }

}  // namespace gill::syntax
