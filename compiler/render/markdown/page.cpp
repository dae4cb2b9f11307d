#include "render/markdown/page.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "render/document/page_names.h"
#include "render/markdown/escape.h"
#include "render/prose/common_mark.h"

namespace gill::render::markdown {

using namespace document;

namespace {

std::string after_last_slash(const std::string& path) { return path.substr(path.rfind('/') + 1); }

/// Every line of a text with something in front of it.
std::string with_prefix(const std::string& text, std::string_view first, std::string_view rest) {
  std::string result;
  std::size_t begin = 0;
  bool is_first = true;
  while (begin < text.size()) {
    auto end = std::min(text.find('\n', begin), text.size());
    std::string line = text.substr(begin, end - begin);
    std::string_view prefix = is_first ? first : rest;
    if (line.empty()) prefix = prefix.substr(0, prefix.find_last_not_of(' ') + 1);
    result += std::string(prefix) + line + "\n";
    begin = end + 1;
    is_first = false;
  }
  return result;
}

class PageWriter {
 public:
  PageWriter(const Page& page, const Frame& frame, Tables tables)
      : page_(page), frame_(frame), tables_(tables), root_(path_to_root(page.path)) {}

  WrittenPage write() {
    std::string out = fmt::format("# {}\n\n", escape(page_.title, true));
    if (!page_.subtitle.empty()) out += text_of(page_.subtitle, true) + "\n\n";
    for (const auto& block : page_.blocks) out += block_text(block, 2);
    if (std::string end = foot(); !end.empty()) out += "---\n\n" + end;
    while (out.ends_with("\n\n")) out.pop_back();
    result_.text = std::move(out);
    return std::move(result_);
  }

 private:
  std::string foot() const {
    std::string out;
    for (const auto& words : frame_.foot) out += escape(words, true) + "\n\n";
    // A page alone has no book to lead to.
    if (frame_.navigation.empty()) return out;
    std::vector<std::string> links = {fmt::format("[{}]({})", escape(frame_.house, false), address("index"))};
    for (const auto& link : frame_.navigation)
      if (link.page != page_.path) links.push_back(inline_text(link));
    return out + base::join(links, " · ") + "\n";
  }

  /// Markdown has no anchors that hold everywhere, so a link leads to the page.
  std::string address(const std::string& page) const {
    return root_ + (page.empty() ? page_.path : page) + ".md";
  }

  // ---- inside a line

  std::string text_of(const Run& run, bool at_line_start) const {
    std::string out;
    for (const auto& part : run.parts) {
      bool starts = at_line_start && out.empty();
      if (const auto* plain = std::get_if<Plain>(&part))
        out += escape(plain->text, starts);
      else
        out += std::visit([&](const auto& inline_part) { return inline_text(inline_part); }, part);
    }
    return out;
  }

  static std::string inline_text(const Plain& part) { return escape(part.text, false); }
  static std::string inline_text(const Strong& part) { return "**" + escape(part.text, false) + "**"; }
  static std::string inline_text(const Emphasis& part) { return "*" + escape(part.text, false) + "*"; }
  static std::string inline_text(const Number& part) {
    return escape(part.unit.empty() ? part.number : part.number + " " + part.unit, false);
  }
  std::string inline_text(const Link& part) const {
    return fmt::format("[{}]({})", escape(part.text, false), address(part.page));
  }

  // ---- blocks

  std::string block_text(const Block& block, int level) {
    return std::visit([&](const auto& content) { return content_text(content, level); }, block.content);
  }

  std::string content_text(const Paragraph& paragraph, int) const {
    return text_of(paragraph.run, true) + "\n\n";
  }

  std::string content_text(const Prose& prose, int level) const {
    return prose::to_markdown(prose.common_mark, std::min(level + 1, 6)) + "\n";
  }

  std::string content_text(const List& list, int) const {
    std::string out;
    std::size_t number = 0;
    for (const auto& item : list.items) {
      std::string mark = list.kind == List::Kind::numbered ? fmt::format("{}. ", ++number) : "- ";
      std::string text = text_of(item.run, true) + "\n";
      if (!item.common_mark.empty()) text += "\n" + prose::to_markdown(item.common_mark, 4);
      out += with_prefix(text, mark, std::string(mark.size(), ' '));
    }
    return out + "\n";
  }

  std::string content_text(const FactList& facts, int) const {
    std::string out;
    for (const auto& fact : facts.facts) {
      std::vector<std::string> values;
      for (const auto& value : fact.values) values.push_back(text_of(value, false));
      out += fmt::format("- **{}:** {}\n", escape(fact.term, true), base::join(values, "; "));
    }
    return out + "\n";
  }

  std::string content_text(const Table& table, int) const {
    return tables_ == Tables::as_lists ? rows_as_list(table) : rows_as_table(table);
  }

  /// `- 45 ml · 1 1/2 oz · rye whiskey`: what a column is called stands before its value, but for units and
  /// names.
  std::string rows_as_list(const Table& table) const {
    std::string out;
    for (const auto& row : table.rows) {
      std::vector<std::string> parts;
      std::string below;
      std::size_t at = 0;
      for (const auto& cell : row) {
        if (at >= table.columns.size()) break;
        const Column& column = table.columns[at];
        at += cell.columns;
        std::string text = text_of(cell.run, parts.empty());
        if (!cell.common_mark.empty()) below += "\n" + prose::to_markdown(cell.common_mark, 4);
        if (text.empty()) continue;
        bool tells_itself = column.is_unit || cell.is_header || column.title.empty();
        parts.push_back(tells_itself ? text : escape(column.title, parts.empty()) + ": " + text);
      }
      out += with_prefix(base::join(parts, " · ") + "\n" + below, "- ", "  ");
    }
    return out + "\n";
  }

  std::string rows_as_table(const Table& table) const {
    std::vector<std::vector<std::string>> grid(1);
    for (const auto& column : table.columns) grid[0].push_back(escape(column.title, false));
    for (const auto& row : table.rows) grid.push_back(cells_of(table, row));
    std::vector<std::size_t> widths(table.columns.size(), 3);
    for (const auto& row : grid)
      for (std::size_t i = 0; i < row.size(); ++i)
        widths[i] = std::max(widths[i], base::display_width(row[i]));
    std::string out = line_of(table, grid[0], widths) + rule_of(table, widths);
    for (std::size_t i = 1; i < grid.size(); ++i) out += line_of(table, grid[i], widths);
    return out + "\n";
  }

  std::vector<std::string> cells_of(const Table& table, const std::vector<Cell>& row) const {
    std::vector<std::string> cells;
    for (const auto& cell : row) {
      std::string text = text_of(cell.run, false);
      if (!cell.common_mark.empty()) text += " — " + escape(prose::to_plain_text(cell.common_mark), false);
      cells.push_back(std::move(text));
      for (std::size_t more = 1; more < cell.columns; ++more) cells.emplace_back();
    }
    cells.resize(table.columns.size());
    return cells;
  }

  /// Numbers stand under each other when the file is read as it is, too.
  static std::string line_of(const Table& table, const std::vector<std::string>& cells,
                             const std::vector<std::size_t>& widths) {
    std::string out = "|";
    for (std::size_t i = 0; i < cells.size(); ++i) {
      std::string room(widths[i] - base::display_width(cells[i]), ' ');
      bool at_end = table.columns[i].align == Align::end;
      out += " " + (at_end ? room + cells[i] : cells[i] + room) + " |";
    }
    return out + "\n";
  }

  static std::string rule_of(const Table& table, const std::vector<std::size_t>& widths) {
    std::string out = "|";
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      std::string dashes(widths[i], '-');
      if (table.columns[i].align != Align::start) dashes.back() = ':';
      if (table.columns[i].align == Align::centre) dashes.front() = ':';
      out += " " + dashes + " |";
    }
    return out + "\n";
  }

  std::string content_text(const Notice& notice, int level) {
    std::string inner = fmt::format("**{}**\n\n", escape(notice.title, false));
    for (const auto& block : notice.blocks) inner += block_text(block, level);
    while (inner.ends_with("\n\n")) inner.pop_back();
    return with_prefix(inner, "> ", "> ") + "\n";
  }

  std::string content_text(const Figure& figure, int) {
    std::string name = after_last_slash(page_.path);
    if (!result_.pictures.empty()) name += fmt::format("-{}", result_.pictures.size() + 1);
    std::string folder = page_.path.substr(0, page_.path.size() - after_last_slash(page_.path).size());
    result_.pictures.push_back({folder + name + ".svg", &figure.scene});
    std::string out = fmt::format("![{}]({}.svg)\n\n", escape(figure.scene.description, false), name);
    if (!figure.caption.empty()) out += text_of(figure.caption, true) + "\n\n";
    return out;
  }

  std::string content_text(const Section& section, int level) {
    std::string out = fmt::format("{} {}\n\n", std::string(static_cast<std::size_t>(level), '#'),
                                  text_of(section.title, true));
    for (const auto& block : section.blocks) out += block_text(block, std::min(level + 1, 6));
    return out;
  }

  std::string content_text(const Group& group, int level) {
    std::string out;
    for (const auto& block : group.blocks) out += block_text(block, level);
    return out;
  }

  const Page& page_;
  const Frame& frame_;
  Tables tables_;
  std::string root_;
  WrittenPage result_;
};

}  // namespace

WrittenPage to_markdown(const Page& page, const Frame& frame, Tables tables) {
  return PageWriter(page, frame, tables).write();
}

}  // namespace gill::render::markdown
