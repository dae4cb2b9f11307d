#include "driver/kept/lines.h"

#include <algorithm>
#include <cstring>

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
    put(static_cast<std::uint64_t>(line.kind));
    put(std::uint64_t{line.token_count});
    auto [begin, end] = extent_of(file_, index);
    for (std::uint32_t t = 0; t < line.token_count; ++t) {
      const auto& token = file_.tokens[line.first_token + t];
      put((static_cast<std::uint64_t>(token.kind) << 32) + (token.begin - begin));
    }
    put(std::string_view(source_.text).substr(begin, end - begin));
  }
  void add_text(std::uint32_t index) {
    const auto& line = file_.lines[index];
    put(std::string_view(source_.text).substr(line.begin, line.end - line.begin));
  }
  /// What is said of a declaration from outside of its lines.
  void add_fact(bool fact) { put(std::uint64_t{fact ? 1U : 0U}); }
  std::uint64_t value() const { return value_; }

 private:
  // Like `base::Fingerprint`, and eight bytes at a time: every line of a file is added at each edit.
  void put(std::uint64_t number) {
    value_ = (value_ ^ number) * 0x100000001b3U;
    value_ ^= value_ >> 29;
  }
  void put(std::string_view text) {
    put(text.size());
    for (std::uint64_t number = 0; !text.empty(); text.remove_prefix(std::min(text.size(), sizeof number))) {
      number = 0;
      std::memcpy(&number, text.data(), std::min(text.size(), sizeof number));
      put(number);
    }
  }

  const syntax::File& file_;
  const source::SourceFile& source_;
  std::uint64_t value_ = 0xcbf29ce484222325U;
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
