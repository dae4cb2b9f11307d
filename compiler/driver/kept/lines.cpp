#include "driver/kept/lines.h"

#include "base/fingerprint.h"
#include "syntax/line_view.h"

namespace gill::driver::kept {

namespace {

/// Where a line's first token begins and its last one ends; the whole line where it has none.
std::pair<std::uint32_t, std::uint32_t> extent_of(const syntax::File& file, std::uint32_t index) {
  const auto& line = file.lines[index];
  if (line.token_count == 0) return {line.begin, line.end};
  return {file.tokens[line.first_token].begin, file.tokens[line.first_token + line.token_count - 1].end};
}

class LineKey {
 public:
  LineKey(const syntax::File& file, const source::SourceFile& source) : file_(file), source_(source) {}

  void add(std::uint32_t index) {
    const auto& line = file_.lines[index];
    put(static_cast<std::uint32_t>(line.kind));
    put(line.token_count);
    auto [begin, end] = extent_of(file_, index);
    for (std::uint32_t t = 0; t < line.token_count; ++t) {
      const auto& token = file_.tokens[line.first_token + t];
      put(static_cast<std::uint32_t>(token.kind));
      put(token.begin - begin);
    }
    key_.add(std::string_view(source_.text).substr(begin, end - begin));
  }
  void add_text(std::uint32_t index) {
    const auto& line = file_.lines[index];
    key_.add(std::string_view(source_.text).substr(line.begin, line.end - line.begin));
  }
  /// What is said of a declaration from outside of its lines.
  void add_fact(bool fact) { put(fact ? 1 : 0); }
  std::uint64_t value() const { return key_.value(); }

 private:
  void put(std::uint32_t number) {
    char bytes[sizeof number];
    for (char& byte : bytes) byte = static_cast<char>(number & 0xff), number >>= 8;
    key_.add({bytes, sizeof bytes});
  }

  const syntax::File& file_;
  const source::SourceFile& source_;
  base::Fingerprint key_;
};

}  // namespace

std::uint64_t key_of(const syntax::Declaration& declaration, const syntax::File& file,
                     const source::SourceFile& source) {
  LineKey key(file, source);
  key.add_fact(syntax::is_cut_by_merge(source, file, declaration));
  key.add(declaration.header);
  for (auto line : declaration.text_lines) key.add_text(line);
  for (const auto& body : declaration.body) {
    key.add(body.line);
    for (auto line : body.text_lines) key.add_text(line);
  }
  return key.value();
}

bool move_lines(const syntax::Declaration& old, const syntax::File& old_file, const syntax::Declaration& now,
                const syntax::File& now_file, Moves& moves) {
  struct Move {
    source::Span old;
    std::uint32_t now;
  };
  std::vector<Move> lines;
  bool any = !(old_file.file_id == now_file.file_id);
  auto add = [&](std::uint32_t from, std::uint32_t to) {
    auto [begin, end] = extent_of(old_file, from);
    lines.push_back({{old_file.file_id, begin, end}, extent_of(now_file, to).first});
    any = any || begin != lines.back().now;
  };
  add(old.header, now.header);
  for (std::size_t i = 0; i < old.body.size(); ++i) add(old.body[i].line, now.body[i].line);
  if (any)
    for (const auto& line : lines) moves.add_line(line.old, now_file.file_id, line.now);
  return any;
}

}  // namespace gill::driver::kept
