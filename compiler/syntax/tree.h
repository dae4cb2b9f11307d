#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "source/source_file.h"

namespace gill::syntax {

/// What one piece of a line is. The last ones are what people write and the language does not have.
enum class TokenKind : std::uint8_t {
  number,
  word,
  date,
  string,  ///< in double quotes; the span includes them
  comma,
  equals,
  colon,
  percent,
  arrow,
  dots,
  plus_minus,
  colour,
  dashed_mixed,  ///< `1-1/2`
  dashed_range,  ///< `10-12`
  comma_number,  ///< `22,5` or `1,000`
  open_string,   ///< a quote that nothing closes
  curly_string,  ///< in typographic quotes
  stray,         ///< a character that has no place in the language
};

std::string_view name_of(TokenKind kind);

struct Token {
  TokenKind kind;
  std::uint32_t begin;
  std::uint32_t end;
};

enum class LineKind : std::uint8_t {
  blank,
  comment,
  text,    ///< `| CommonMark`
  header,  ///< starts in the first column: a declaration
  body,    ///< indented
  bad,     ///< bytes that are no text
};

/// One line of a file. `begin` and `end` are byte offsets without the line end.
struct Line {
  LineKind kind;
  std::uint32_t begin;
  std::uint32_t end;
  std::uint32_t first_token;
  std::uint32_t token_count;
  /// Where the trailing comment or, on a text line, the text begins; `end` where there is none.
  std::uint32_t tail;
};

/// A body line with the text lines below it.
struct BodyLine {
  std::uint32_t line;
  std::vector<std::uint32_t> text_lines;
};

/// A header, its description and its body; indices are into `File::lines`.
struct Declaration {
  std::uint32_t header;
  std::vector<std::uint32_t> text_lines;
  std::vector<BodyLine> body;
};

/// The tree of one file: every line is kept, whatever it holds, so that nothing is lost.
struct File {
  source::FileId file_id;
  std::vector<Line> lines;
  std::vector<Token> tokens;
  std::vector<Declaration> declarations;
};

/// The tree as plain text, for `gill dump tree` and the tests.
std::string dump(const File& file, const source::SourceSet& sources);

}  // namespace gill::syntax
