#include "diff/terminal.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>

#include "base/text.h"
#include "render/prose/common_mark.h"

namespace gill::diff {

using namespace render::document;

namespace {

constexpr std::size_t line_width = 88;
// A table wider than this is told line by line.
constexpr std::size_t max_table_width = 110;

/// What a terminal would act upon is shown as a question mark: text of specs holds no control characters,
/// names on the command line may.
std::string harmless(std::string text) {
  for (char& c : text)
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) c = c == '\n' || c == '\t' ? ' ' : '?';
  return text;
}

std::string text_of(const Run& run) {
  std::string text;
  for (const auto& part : run.parts) {
    if (const auto* plain = std::get_if<Plain>(&part))
      text += plain->text;
    else if (const auto* strong = std::get_if<Strong>(&part))
      text += strong->text;
    else if (const auto* emphasis = std::get_if<Emphasis>(&part))
      text += emphasis->text;
    else if (const auto* link = std::get_if<Link>(&part))
      text += link->text;
    else if (const auto* number = std::get_if<Number>(&part))
      text += number->unit.empty() ? number->number : number->number + " " + number->unit;
  }
  return harmless(std::move(text));
}

std::string padded(const std::string& text, std::size_t width, Align align) {
  std::size_t gap = width - std::min(width, base::display_width(text));
  return align == Align::end ? std::string(gap, ' ') + text : text + std::string(gap, ' ');
}

std::string without_end_spaces(std::string text) {
  while (text.ends_with(' ')) text.pop_back();
  return text;
}

class TerminalWriter {
 public:
  explicit TerminalWriter(bool colour) : colour_(colour) {}

  std::string write(const Page& page, const std::vector<std::string>& foot) {
    heading(harmless(page.title), '=');
    if (!page.subtitle.empty()) line(text_of(page.subtitle));
    line("");
    for (const auto& block : page.blocks) write(block, 0);
    for (const auto& words : foot) wrapped(words, "", "");
    return std::move(out_);
  }

 private:
  void line(const std::string& text) { out_ += without_end_spaces(mark_ + text) + "\n"; }

  std::string bold(const std::string& text) const { return colour_ ? "\x1b[1m" + text + "\x1b[0m" : text; }

  void heading(const std::string& text, char rule) {
    line(bold(text));
    line(std::string(std::max<std::size_t>(base::display_width(text), 1), rule));
  }

  /// Words in lines, the first begun with `first`, the others with `rest`.
  void wrapped(const std::string& text, const std::string& first, const std::string& rest) {
    std::istringstream words(text);
    std::string current = first;
    bool empty = true;
    for (std::string word; words >> word;) {
      std::size_t width =
          base::display_width(mark_) + base::display_width(current) + 1 + base::display_width(word);
      if (!empty && width > line_width) {
        line(current);
        current = rest;
        empty = true;
      }
      if (!empty) current += ' ';
      current += word;
      empty = false;
    }
    line(current);
  }

  void write(const Block& block, int level) {
    std::visit([&](const auto& one) { write(one, level); }, block.content);
  }

  void write(const Paragraph& paragraph, int) {
    wrapped(text_of(paragraph.run), indent_, indent_);
    line("");
  }

  void write(const Prose& prose, int) {
    wrapped(harmless(render::prose::to_plain_text(prose.common_mark)), indent_, indent_);
    line("");
  }

  void write(const List& list, int) {
    std::size_t number = 0;
    for (const auto& item : list.items) {
      std::string mark = list.kind == List::Kind::numbered ? fmt::format("{}. ", ++number) : "- ";
      wrapped(text_of(item.run), indent_ + mark, indent_ + std::string(mark.size(), ' '));
    }
    line("");
  }

  void write(const FactList& facts, int) {
    for (const auto& fact : facts.facts) {
      std::vector<std::string> values;
      for (const auto& value : fact.values) values.push_back(text_of(value));
      wrapped(fmt::format("{}: {}", fact.term, base::join(values, "; ")), indent_, indent_ + "  ");
    }
    line("");
  }

  void write(const Table& table, int) {
    std::vector<std::vector<std::string>> grid(1);
    for (const auto& column : table.columns) grid[0].push_back(column.title);
    if (!grid[0].empty() && grid[0][0].empty()) grid[0][0] = table.caption;
    for (const auto& row : table.rows) {
      grid.emplace_back();
      for (const auto& cell : row) grid.back().push_back(text_of(cell.run));
      grid.back().resize(table.columns.size());
    }
    std::vector<std::size_t> widths(table.columns.size(), 0);
    for (const auto& row : grid)
      for (std::size_t i = 0; i < row.size(); ++i)
        widths[i] = std::max(widths[i], base::display_width(row[i]));
    std::size_t total = indent_.size();
    for (auto width : widths) total += width + 2;
    if (total > max_table_width) {
      written_by_line(grid);
    } else {
      for (std::size_t r = 0; r < grid.size(); ++r) {
        std::string text;
        for (std::size_t i = 0; i < grid[r].size(); ++i)
          text += padded(grid[r][i], widths[i], table.columns[i].align) + "  ";
        text = without_end_spaces(std::move(text));
        line(indent_ + (r == 0 ? bold(text) : text));
      }
    }
    line("");
  }

  void written_by_line(const std::vector<std::vector<std::string>>& grid) {
    // The head of its first column says what the lines are about.
    if (!grid[0].empty() && !grid[0][0].empty()) line(indent_ + bold(grid[0][0]));
    for (std::size_t r = 1; r < grid.size(); ++r) {
      std::vector<std::string> parts;
      for (std::size_t i = 1; i < grid[r].size(); ++i)
        if (!grid[r][i].empty())
          parts.push_back(grid[0][i].empty() ? grid[r][i] : fmt::format("{}: {}", grid[0][i], grid[r][i]));
      wrapped(fmt::format("{}: {}", grid[r].empty() ? std::string() : grid[r][0], base::join(parts, "; ")),
              indent_ + "- ", indent_ + "  ");
    }
  }

  void write(const Notice& notice, int level) {
    std::string before = mark_;
    bool loud = notice.role == Notice::Role::allergens || notice.role == Notice::Role::error;
    mark_ = loud ? "!! " : "!  ";
    line(bold(loud ? upper(harmless(notice.title)) : harmless(notice.title)));
    for (const auto& block : notice.blocks) write(block, level);
    mark_ = before;
    // The blank line that ends a block inside would carry the mark.
    std::string end = loud ? "!!\n" : "!\n";
    if (out_.ends_with(end)) out_.resize(out_.size() - end.size());
    line("");
  }

  static std::string upper(std::string text) {
    for (char& c : text)
      if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
    return text;
  }

  void write(const Figure&, int) {}

  void write(const Section& section, int level) {
    std::string title = text_of(section.title);
    if (level == 0)
      heading(title, '-');
    else
      line(bold(title));
    std::string before = indent_;
    if (level > 0) indent_ += "  ";
    for (const auto& block : section.blocks) write(block, level + 1);
    indent_ = before;
  }

  void write(const Group& group, int level) {
    for (const auto& block : group.blocks) write(block, level);
  }

  bool colour_;
  std::string out_;
  std::string mark_, indent_;
};

}  // namespace

std::string to_terminal(const Page& page, const std::vector<std::string>& foot, bool colour) {
  return TerminalWriter(colour).write(page, foot);
}

}  // namespace gill::diff
