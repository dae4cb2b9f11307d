#include "syntax/parse.h"

#include <fmt/format.h>

#include "base/text.h"
#include "syntax/actions.h"

namespace gill::syntax {
namespace {

using diagnostics::DiagnosticSink;
using diagnostics::Rule;

class Parser {
 public:
  Parser(source::FileId file_id, const source::SourceSet& sources, DiagnosticSink& sink)
      : source_(sources[file_id]), sink_(sink) {
    file_.file_id = file_id;
    file_.lines.reserve(source_.line_starts.size());
  }

  File parse() {
    if (!source_.text.empty())
      for (std::size_t i = 0; i < source_.line_starts.size(); ++i) read_line(i);
    return std::move(file_);
  }

 private:
  void read_line(std::size_t index) {
    std::string_view text = source_.line_text(index);
    auto begin = source_.line_starts[index];
    Line line{LineKind::body,
              begin,
              begin + static_cast<std::uint32_t>(text.size()),
              static_cast<std::uint32_t>(file_.tokens.size()),
              0,
              0};
    line.tail = line.end;
    if (auto bad = base::first_bad_byte(text)) {
      report_bad_byte(text, begin, *bad);
      line.kind = LineKind::bad;
    } else {
      read_items(text, line);
    }
    file_.lines.push_back(line);
    attach(static_cast<std::uint32_t>(file_.lines.size() - 1));
  }

  void read_items(std::string_view text, Line& line) {
    grammar::pegtl::memory_input<grammar::pegtl::tracking_mode::lazy> input(text.data(), text.size(), "line");
    LineState state{file_.tokens, line.begin, LineKind::body, line.end};
    grammar::pegtl::parse<grammar::line, Action>(input, state);
    line.kind = state.kind;
    line.tail = state.tail;
    line.token_count = static_cast<std::uint32_t>(file_.tokens.size()) - line.first_token;
    if (line.kind == LineKind::body && starts_in_first_column(text)) line.kind = LineKind::header;
  }

  static bool starts_in_first_column(std::string_view text) { return base::trim(text).data() == text.data(); }

  void report_bad_byte(std::string_view text, std::uint32_t begin, std::size_t at) {
    auto byte = static_cast<unsigned char>(text[at]);
    source::Span span{file_.file_id, begin + static_cast<std::uint32_t>(at),
                      begin + static_cast<std::uint32_t>(at) + 1};
    if (byte < 0x20 || byte == 0x7f)
      sink_.add(Rule::bad_line, span,
                fmt::format("a control character (byte {:02X}) cannot stand in a spec", byte),
                "Delete it; only spaces and tabs may stand between words.");
    else
      sink_.add(Rule::bad_line, span, fmt::format("the byte {:02X} is no UTF-8 text", byte),
                "Save the file as UTF-8; the rest of this line is left out.");
  }

  /// Hangs a line on the declaration and body line that it belongs to.
  void attach(std::uint32_t index) {
    const Line& line = file_.lines[index];
    switch (line.kind) {
      case LineKind::blank:
      case LineKind::comment:
        return;
      case LineKind::header:
        file_.declarations.push_back(Declaration{index, {}, {}});
        return;
      case LineKind::text:
        attach_text(index);
        return;
      case LineKind::bad:
      case LineKind::body:
        if (!file_.declarations.empty())
          file_.declarations.back().body.push_back(BodyLine{index, {}});
        else if (line.kind == LineKind::body)
          report_homeless(line, "an indented line belongs to the declaration above it, and there is none");
        return;
    }
  }

  void attach_text(std::uint32_t index) {
    if (file_.declarations.empty()) {
      report_homeless(file_.lines[index],
                      "a text line belongs to the declaration above it, and there is none");
      return;
    }
    Declaration& declaration = file_.declarations.back();
    (declaration.body.empty() ? declaration.text_lines : declaration.body.back().text_lines).push_back(index);
  }

  void report_homeless(const Line& line, std::string message) {
    std::string_view text = std::string_view(source_.text).substr(line.begin, line.end - line.begin);
    auto inner = base::trim(text);
    auto offset = line.begin + static_cast<std::uint32_t>(inner.data() - text.data());
    sink_.add(Rule::bad_line, {file_.file_id, offset, offset + static_cast<std::uint32_t>(inner.size())},
              std::move(message), "Start a declaration in the first column, such as `drink NAME`, above it.");
  }

  const source::SourceFile& source_;
  DiagnosticSink& sink_;
  File file_;
};

}  // namespace

File parse(source::FileId file_id, const source::SourceSet& sources, DiagnosticSink& sink) {
  return Parser(file_id, sources, sink).parse();
}

}  // namespace gill::syntax
