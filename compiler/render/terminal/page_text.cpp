#include "render/terminal/page_text.h"

#include <algorithm>

#include "base/text.h"
#include "render/terminal/text_table.h"

namespace gill::render::terminal {

using namespace render::document;

namespace {

void add_block(std::string& text, const Block& block, std::size_t level);

void add_blocks(std::string& text, const std::vector<Block>& blocks, std::size_t level) {
  for (const auto& block : blocks) add_block(text, block, level);
}

void add_table(std::string& text, const Table& table) {
  std::vector<TextColumn> columns;
  for (const auto& column : table.columns) columns.push_back({column.title, column.align == Align::end});
  std::vector<std::vector<std::string>> rows;
  for (const auto& row : table.rows) {
    std::vector<std::string> cells;
    for (const auto& cell : row) cells.push_back(plain_text(cell.run));
    rows.push_back(std::move(cells));
  }
  if (!table.caption.empty()) text += table.caption + "\n";
  text += text_table(columns, rows);
}

void add_block(std::string& text, const Block& block, std::size_t level) {
  std::visit(
      [&](const auto& content) {
        using Content = std::decay_t<decltype(content)>;
        if constexpr (std::is_same_v<Content, Paragraph>) {
          text += plain_text(content.run) + "\n";
        } else if constexpr (std::is_same_v<Content, Prose>) {
          text += content.common_mark + "\n";
        } else if constexpr (std::is_same_v<Content, List>) {
          std::vector<std::string> items;
          for (const auto& item : content.items) items.push_back(plain_text(item.run));
          text += text_notes(items);
        } else if constexpr (std::is_same_v<Content, FactList>) {
          for (const auto& fact : content.facts) {
            std::vector<std::string> values;
            for (const auto& value : fact.values) values.push_back(plain_text(value));
            text += text_notes({fact.term + ": " + base::join(values, "; ")});
          }
        } else if constexpr (std::is_same_v<Content, Table>) {
          add_table(text, content);
        } else if constexpr (std::is_same_v<Content, Notice>) {
          if (content.blocks.empty()) return;
          text += content.title + "\n";
          add_blocks(text, content.blocks, level);
        } else if constexpr (std::is_same_v<Content, Group>) {
          add_blocks(text, content.blocks, level);
        } else if constexpr (std::is_same_v<Content, Section>) {
          std::string title = plain_text(content.title);
          text +=
              "\n" + title + "\n" + std::string(base::display_width(title), level == 0 ? '=' : '-') + "\n";
          add_blocks(text, content.blocks, level + 1);
        } else {
          static_assert(std::is_same_v<Content, Figure>,
                        "a picture says nothing in plain text; all else does");
        }
      },
      block.content);
}

}  // namespace

std::string page_text(const Page& page, const Frame& frame) {
  std::string text = page.title + "\n";
  if (!page.subtitle.empty()) text += plain_text(page.subtitle) + "\n";
  add_blocks(text, page.blocks, 0);
  if (!frame.foot.empty()) text += "\n" + text_notes(frame.foot);
  return text;
}

}  // namespace gill::render::terminal
