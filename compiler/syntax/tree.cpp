#include "syntax/tree.h"

#include <fmt/format.h>

namespace gill::syntax {
namespace {

std::string_view name_of(LineKind kind) {
  switch (kind) {
    case LineKind::blank: return "blank";
    case LineKind::comment: return "comment";
    case LineKind::text: return "text";
    case LineKind::header: return "header";
    case LineKind::body: return "line";
    case LineKind::bad: return "bad";
  }
  return "";
}

class Dumper {
 public:
  Dumper(const File& file, const source::SourceSet& sources) : file_(file), source_(sources[file.file_id]) {}

  std::string run() {
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
    for (std::uint32_t i = 0; i < line.item_count; ++i) {
      const Item& item = file_.items[line.first_item + i];
      out_ += fmt::format(" {}({})", syntax::name_of(item.kind), slice(item.begin, item.end));
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

std::string_view name_of(ItemKind kind) {
  switch (kind) {
    case ItemKind::number: return "number";
    case ItemKind::word: return "word";
    case ItemKind::date: return "date";
    case ItemKind::string: return "string";
    case ItemKind::comma: return "comma";
    case ItemKind::equals: return "equals";
    case ItemKind::colon: return "colon";
    case ItemKind::percent: return "percent";
    case ItemKind::arrow: return "arrow";
    case ItemKind::dots: return "dots";
    case ItemKind::plus_minus: return "plus-minus";
    case ItemKind::colour: return "colour";
    case ItemKind::dashed_mixed: return "dashed-mixed";
    case ItemKind::dashed_range: return "dashed-range";
    case ItemKind::comma_number: return "comma-number";
    case ItemKind::open_string: return "open-string";
    case ItemKind::curly_string: return "curly-string";
    case ItemKind::stray: return "stray";
  }
  return "";
}

std::string dump(const File& file, const source::SourceSet& sources) { return Dumper(file, sources).run(); }

}  // namespace gill::syntax
