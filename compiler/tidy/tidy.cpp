#include "tidy/tidy.h"

#include <optional>
#include <utility>

#include "base/text.h"
#include "syntax/parse.h"
#include "tidy/page.h"
#include "tidy/trade_words.h"

namespace gill::tidy {

using symbols::DeclarationKind;
using syntax::LineKind;
using syntax::LineView;
using Kind = PageLine::Kind;

Tidier::Place Tidier::place(source::FileId file, std::uint32_t begin) {
  return (static_cast<Place>(file.index()) << 32) | begin;
}

Tidier::Tidier(const source::SourceSet& sources, Terms terms, const analysis::Specs& specs,
               const std::vector<diagnostics::Diagnostic>& findings)
    : sources_(sources), terms_(terms) {
  for (const auto& notes : specs.notes)
    for (const auto& reading : notes.forms)
      forms_.emplace(place(reading.written.file_id, reading.written.begin), &reading);
  for (const auto& finding : findings) {
    auto group = diagnostics::info(finding.rule).group;
    if (finding.severity != diagnostics::Severity::error ||
        (group != diagnostics::RuleGroup::language && group != diagnostics::RuleGroup::units))
      continue;
    auto span = sources.written(finding.span);
    const auto& source = sources[span.file_id];
    damaged_.insert(place(span.file_id, source.line_starts[source.line_of(span.begin)]));
  }
}

/// Writes one file anew.
class FileTidier {
 public:
  FileTidier(const Tidier& house, const syntax::File& file, const std::vector<Extent>& extents)
      : house_(house), source_(house.sources_[file.file_id]), file_(file), extents_(extents) {}

  std::string write() {
    std::uint32_t line = 0;
    std::size_t declaration = 0;
    auto next_header = [&] {
      return declaration < file_.declarations.size() ? file_.declarations[declaration].header
                                                     : static_cast<std::uint32_t>(file_.lines.size());
    };
    start_block(std::nullopt, Extent::spaces);
    for (; line < next_header(); ++line) add_line(line);
    while (declaration < file_.declarations.size()) {
      finish_block(true);
      start_declaration(declaration++);
      for (; line < next_header(); ++line) add_line(line);
    }
    finish_block(false);
    return joined();
  }

 private:
  LineView view(std::uint32_t line) const { return LineView(source_, file_, line); }
  std::string_view bytes(std::uint32_t begin, std::uint32_t end) const {
    return std::string_view(source_.text).substr(begin, end - begin);
  }

  // ---- blocks: a declaration with its lines, or what stands before the first

  void start_block(std::optional<DeclarationKind> kind, Extent extent) {
    page_ = Page();
    kind_ = kind;
    extent_ = extent;
    states_glass_ = states_ice_ = false;
    text_indent_ = body_indent;
    properties_end_.reset();
  }

  void start_declaration(std::size_t declaration) {
    std::uint32_t header = file_.declarations[declaration].header;
    auto kind = kind_of(view(header));
    bool may_change = kind && !is_damaged(header);
    start_block(kind, may_change ? extents_[declaration] : Extent::nothing);
    if (!kind) return;
    for (const auto& body : file_.declarations[declaration].body) {
      auto line = view(body.line);
      states_glass_ = states_glass_ || line.is_word(0, "glass");
      states_ice_ = states_ice_ || line.is_word(0, "ice");
    }
  }

  /// A comment takes the indent of what follows; at the end of a declaration one that a blank line parts from
  /// the next header stays on the side on which it was written.
  void finish_block(bool has_next) {
    flush_readings();
    auto& lines = page_.lines();
    std::optional<std::size_t> indent;
    if (has_next) indent = 0;
    bool is_at_end = true;
    for (std::size_t i = lines.size(); i-- > 0;) {
      if (lines[i].kind == Kind::comment) {
        lines[i].indent = indent.value_or(lines[i].in_first_column ? 0 : body_indent);
      } else if (lines[i].kind == Kind::blank) {
        if (is_at_end) indent.reset();
      } else {
        indent = lines[i].indent;
        is_at_end = false;
      }
    }
    page_.print(kind_.value_or(DeclarationKind::house), output_);
  }

  // ---- lines

  bool is_damaged(std::uint32_t line) const { return house_.is_damaged(file_, line); }

  void add_line(std::uint32_t index) {
    const auto& line = file_.lines[index];
    if (extent_ == Extent::nothing) return add_raw(line);
    if (line.kind != LineKind::text) flush_readings();
    bool is_homeless = !kind_ && (line.kind == LineKind::body || line.kind == LineKind::text);
    if (is_homeless || is_damaged(index)) return add_raw(line);
    switch (line.kind) {
      case LineKind::blank:
        return add_blank();
      case LineKind::comment:
        return add_comment(line);
      case LineKind::text:
        return add_text(line);
      case LineKind::header:
        return add_header(index);
      case LineKind::body:
        return add_body(index);
      case LineKind::bad:
        return add_raw(line);
    }
  }

  void add(Kind kind, std::string text, std::size_t indent) {
    PageLine line;
    line.kind = kind;
    line.columns.lead = std::move(text);
    line.indent = indent;
    page_.add(std::move(line));
  }

  void add_raw(const syntax::Line& line) {
    std::string text(bytes(line.begin, line.end));
    // A line that ends otherwise than its file keeps that, too: without its last sign it may be another line.
    if (line_end_ == "\n" && std::string_view(source_.text).substr(line.end).starts_with("\r\n"))
      text += '\r';
    bool is_indented = !text.empty() && (text[0] == ' ' || text[0] == '\t');
    add(line.kind == LineKind::blank && text.empty() ? Kind::blank : Kind::raw, text,
        is_indented ? body_indent : 0);
    text_indent_ = below_line;
  }

  void add_blank() {
    const auto& lines = page_.lines();
    bool is_first = lines.empty() && output_.empty();
    bool is_second =
        lines.empty() ? !output_.empty() && output_.back().empty() : lines.back().kind == Kind::blank;
    if (!is_first && !is_second) page_.add({});
  }

  std::string comment_of(const syntax::Line& line) const {
    return std::string(base::trim(bytes(line.tail, line.end)));
  }

  void add_comment(const syntax::Line& line) {
    add(Kind::comment, comment_of(line), 0);
    page_.lines().back().in_first_column = line.tail == line.begin;
  }

  void add_text(const syntax::Line& line) {
    std::string text(bytes(line.tail, line.end));
    add(Kind::text, text.empty() ? "|" : "| " + text, text_indent_);
    flush_readings();
  }

  void add_header(std::uint32_t index) {
    add(Kind::header, header_text(view(index), *kind_, extent_, house_.terms_), 0);
    page_.lines().back().comment = comment_of(file_.lines[index]);
  }

  // ---- body lines

  void add_body(std::uint32_t index) {
    auto line = view(index);
    text_indent_ = below_line;
    if (extent_ == Extent::forms && add_forms(line, index)) return;
    add_columns(part_in_columns(line, *kind_, extent_, house_.terms_), comment_of(file_.lines[index]));
  }

  void add_columns(ColumnLine columns, std::string comment) {
    PageLine line;
    line.kind = Kind::body;
    line.indent = columns.column == ColumnLine::Column::entry ? entry_indent : body_indent;
    line.columns = std::move(columns);
    line.comment = std::move(comment);
    if (line.columns.column == ColumnLine::Column::entry) text_indent_ = entry_indent + body_indent;
    bool is_property = line.columns.is_property;
    page_.add(std::move(line));
    if (is_property && (!properties_end_ || *properties_end_ + 1 == page_.lines().size()))
      properties_end_ = page_.lines().size();
  }

  /// The lines that a line in the trade's own words was read as; false where it is written as it stands.
  bool add_forms(const LineView& line, std::uint32_t index) {
    auto found = house_.forms_.find(Tidier::place(file_.file_id, line.whole().begin));
    if (found == house_.forms_.end()) return false;
    std::vector<std::string> texts;
    for (const auto& read : found->second->lines)
      texts.push_back(with_small_first_word(std::string(house_.sources_.text(read.span)), line));
    if (!is_better_as(line, texts)) return false;
    std::vector<ColumnLine> lines, implied;
    for (std::size_t i = 0; i < texts.size(); ++i)
      (found->second->lines[i].implied ? implied : lines).push_back(parted(texts[i]));
    std::erase_if(implied, [&](const ColumnLine& one) {
      bool& is_stated = one.lead == "glass" ? states_glass_ : states_ice_;
      return std::exchange(is_stated, true);
    });
    if (lines.empty()) std::swap(lines, implied);
    if (lines.empty()) return false;
    for (auto& one : implied) insert_property(std::move(one));
    add_columns(std::move(lines.front()), comment_of(file_.lines[index]));
    readings_.assign(std::make_move_iterator(lines.begin() + 1), std::make_move_iterator(lines.end()));
    return true;
  }

  ColumnLine parted(std::string_view text) const {
    source::SourceSet sources;
    diagnostics::DiagnosticSink silent;
    auto id = sources.add({}, "  " + std::string(text), false);
    auto tree = syntax::parse(id, sources, silent);
    return part_in_columns(LineView(sources[id], tree, 0), *kind_, extent_, house_.terms_);
  }

  /// What a step said in passing joins the properties that the recipe begins with.
  void insert_property(ColumnLine columns) {
    PageLine line;
    line.kind = Kind::body;
    line.indent = body_indent;
    line.columns = std::move(columns);
    std::size_t at = properties_end_ ? *properties_end_ : first_body();
    page_.insert(at, std::move(line));
    properties_end_ = at + 1;
  }

  /// Behind the header and its texts.
  std::size_t first_body() {
    std::size_t at = 1;
    const auto& lines = page_.lines();
    while (at < lines.size() && lines[at].kind == Kind::text) ++at;
    return at;
  }

  /// A text belongs to the first line of a reading: the others stand below it.
  void flush_readings() {
    auto readings = std::exchange(readings_, {});
    for (auto& one : readings) add_columns(std::move(one), {});
  }

  std::string joined() const {
    std::size_t size = output_.size();
    while (size > 0 && output_[size - 1].empty()) --size;
    std::string text;
    for (std::size_t i = 0; i < size; ++i) text.append(output_[i]).append(line_end_);
    return text;
  }

  static constexpr std::size_t body_indent = 2, entry_indent = 4, below_line = 4;

  const Tidier& house_;
  const source::SourceFile& source_;
  const syntax::File& file_;
  const std::vector<Extent>& extents_;
  /// The first line's.
  std::string_view line_end_ =
      std::string_view(source_.text).substr(0, source_.text.find('\n')).ends_with('\r') ? "\r\n" : "\n";
  std::vector<std::string> output_;

  Page page_;
  std::optional<DeclarationKind> kind_;
  Extent extent_ = Extent::spaces;
  bool states_glass_ = false, states_ice_ = false;
  std::size_t text_indent_ = body_indent;
  /// Behind the properties that the block begins with.
  std::optional<std::size_t> properties_end_;
  /// What is still to print of a line that was read as several.
  std::vector<ColumnLine> readings_;
};

bool Tidier::is_damaged(const syntax::File& file, std::uint32_t line) const {
  return file.lines[line].kind == LineKind::bad ||
         damaged_.contains(place(file.file_id, file.lines[line].begin));
}

std::size_t Tidier::damaged_lines(const syntax::File& file) const {
  std::size_t count = 0;
  for (std::uint32_t line = 0; line < file.lines.size(); ++line) count += is_damaged(file, line) ? 1 : 0;
  return count;
}

std::string Tidier::tidied(const syntax::File& file, const std::vector<Extent>& extents) const {
  return FileTidier(*this, file, extents).write();
}

}  // namespace gill::tidy
