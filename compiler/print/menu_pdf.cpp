#include "print/menu_pdf.h"

#include <algorithm>

#include "print/flow.h"
#include "print/painter.h"
#include "print/pdf_writer.h"
#include "render/prose/common_mark.h"

namespace gill::print {

using namespace render::document;

namespace {

// Points on A4. The column is as long as is read with ease: some 75 letters.
constexpr double margin_top = 62, margin_bottom = 56, column_width = 372;
constexpr double menu_title_pt = 27, house_pt = 9.5, section_pt = 15.5, drink_pt = 12.5, menu_words_pt = 10,
                 menu_small_pt = 7.8;
constexpr double price_room = 64;

/// A run with its strong parts in bold; numbers are left out where they are set apart.
StyledText styled(const Run& run, const TextStyle& style, bool with_numbers = true) {
  StyledText text;
  for (const auto& part : run.parts) {
    Run single;
    single.parts.push_back(part);
    bool is_number = std::holds_alternative<Number>(part);
    if (is_number && !with_numbers) continue;
    TextStyle its = style;
    its.bold |= std::holds_alternative<Strong>(part);
    its.italic |= std::holds_alternative<Emphasis>(part);
    text.push_back({plain_text(single), its});
  }
  return text;
}

std::string numbers_of(const Run& run) {
  Run numbers;
  for (const auto& part : run.parts)
    if (std::holds_alternative<Number>(part)) numbers.parts.push_back(part);
  return plain_text(numbers);
}

class MenuComposer {
 public:
  MenuComposer(const Page& page, const Frame& frame)
      : page_(page), frame_(frame), writer_(page.title, frame.house) {}

  std::optional<std::string> print() {
    add_title();
    for (const auto& block : page_.blocks) add(block, 0);
    add_foot();
    double room = a4.height_pt() - margin_top - margin_bottom;
    double left = (a4.width_pt() - column_width) / 2;
    for (auto& sheet : flow(std::move(type_blocks_), room, room)) {
      std::vector<Placed> parts;
      stack(std::move(sheet), left, margin_top, parts);
      paint(writer_.begin_page(a4), typesetter_, parts);
      writer_.end_page();
    }
    return writer_.finish();
  }

 private:
  /// A paragraph below what the type_block has already.
  void add_to(TypeBlock& type_block, const StyledText& text, double space, Side side = Side::start,
              double width = column_width) {
    if (text.empty()) return;
    auto words = typesetter_.set(text, {width, side, 0});
    double top = type_block.height + (type_block.parts.empty() ? 0 : space);
    type_block.height = top + words.height;
    type_block.parts.push_back(PlacedText{std::move(words), 0, top});
  }

  void add_title() {
    TypeBlock type_block;
    add_to(type_block, {{frame_.house, sans(house_pt, false, inks::soft)}}, 0, Side::middle);
    add_to(type_block, {{page_.title, serif(menu_title_pt, true, inks::green)}}, 2, Side::middle);
    if (!page_.subtitle.empty())
      add_to(type_block, styled(page_.subtitle, sans(menu_words_pt, false, inks::soft)), 2, Side::middle);
    type_block.height += 10;
    double middle = column_width / 2;
    type_block.parts.push_back(
        PlacedRule{middle - 30, type_block.height, middle + 30, type_block.height, 1, inks::green, 0});
    type_block.height += 6;
    type_blocks_.push_back(std::move(type_block));
  }

  void add(const Block& block, int level) {
    if (const auto* section = std::get_if<Section>(&block.content)) {
      bool holds_drinks = std::any_of(section->blocks.begin(), section->blocks.end(), [](const Block& inner) {
        return std::holds_alternative<Section>(inner.content);
      });
      if (level == 0 && holds_drinks)
        add_section(*section);
      else
        add_drink(*section);
    } else if (const auto* notice = std::get_if<Notice>(&block.content)) {
      add_notice(*notice);
    } else if (const auto* group = std::get_if<Group>(&block.content)) {
      for (const auto& inner : group->blocks) add(inner, level);
    } else {
      TypeBlock type_block;
      type_block.space_before = 8;
      add_words(type_block, block);
      if (!type_block.parts.empty()) type_blocks_.push_back(std::move(type_block));
    }
  }

  void add_section(const Section& section) {
    TypeBlock type_block;
    type_block.space_before = 24;
    type_block.keeps_next = true;
    add_to(type_block, {{plain_text(section.title), serif(section_pt, true, inks::green)}}, 0, Side::middle);
    type_blocks_.push_back(std::move(type_block));
    for (const auto& block : section.blocks) {
      add(block, 1);
      if (!std::holds_alternative<Section>(block.content) && !type_blocks_.empty())
        type_blocks_.back().keeps_next = true;
    }
  }

  /// A drink with all that belongs to it: never parted.
  void add_drink(const Section& drink) {
    TypeBlock type_block;
    type_block.space_before = 15;
    std::string price = numbers_of(drink.title);
    add_to(type_block, styled(drink.title, serif(drink_pt, true), false), 0, Side::start,
           column_width - price_room);
    if (!price.empty()) {
      auto words = typesetter_.set(price, sans(drink_pt - 1.5, true));
      double left = column_width - words.width;
      const auto* name =
          type_block.parts.empty() ? nullptr : std::get_if<PlacedText>(&type_block.parts.front());
      double top = name ? name->text.base_line - words.base_line : 0;
      type_block.parts.push_back(PlacedText{std::move(words), left, top});
    }
    for (const auto& block : drink.blocks) add_words(type_block, block);
    type_blocks_.push_back(std::move(type_block));
  }

  void add_words(TypeBlock& type_block, const Block& block) {
    if (const auto* paragraph = std::get_if<Paragraph>(&block.content)) {
      bool is_small = paragraph->tone == Tone::small;
      add_to(type_block, styled(paragraph->run, sans(is_small ? menu_small_pt : menu_words_pt)),
             is_small ? 2.5 : 1.5);
    } else if (const auto* prose = std::get_if<Prose>(&block.content)) {
      add_to(
          type_block,
          {{render::prose::to_plain_text(prose->common_mark), serif(menu_words_pt, false, inks::soft, true)}},
          2);
    } else if (const auto* list = std::get_if<List>(&block.content)) {
      for (const auto& item : list->items) {
        StyledText text = {{"– ", sans(menu_words_pt)}};
        auto words = styled(item.run, sans(menu_words_pt));
        text.insert(text.end(), words.begin(), words.end());
        add_to(type_block, text, 2);
      }
    } else if (const auto* facts = std::get_if<FactList>(&block.content)) {
      for (const auto& fact : facts->facts)
        for (const auto& value : fact.values)
          add_to(type_block,
                 {{fact.term + ": ", sans(menu_words_pt, true)}, {plain_text(value), sans(menu_words_pt)}},
                 2);
    }
  }

  void add_notice(const Notice& notice) {
    TypeBlock head;
    head.space_before = 30;
    head.keeps_next = true;
    head.parts.push_back(PlacedRule{0, 0, column_width, 0, 1, inks::text, 0});
    head.height = 7;
    auto title = typesetter_.set(notice.title, sans(menu_words_pt, true), {column_width, Side::start, 0});
    double height = title.height;
    head.parts.push_back(PlacedText{std::move(title), 0, head.height});
    head.height += height;
    type_blocks_.push_back(std::move(head));
    for (const auto& block : notice.blocks) {
      TypeBlock type_block;
      type_block.space_before = 3;
      type_block.keeps_next = &block != &notice.blocks.back();
      add_words(type_block, block);
      if (!type_block.parts.empty()) type_blocks_.push_back(std::move(type_block));
    }
  }

  void add_foot() {
    for (const auto& words : frame_.foot) {
      TypeBlock type_block;
      type_block.space_before = 4;
      add_to(type_block, {{words, sans(menu_small_pt, false, inks::soft)}}, 0);
      type_blocks_.push_back(std::move(type_block));
    }
  }

  const Page& page_;
  const Frame& frame_;
  Typesetter typesetter_;
  PdfWriter writer_;
  std::vector<TypeBlock> type_blocks_;
};

}  // namespace

std::optional<std::string> menu_pdf(const Page& page, const Frame& frame) {
  return MenuComposer(page, frame).print();
}

}  // namespace gill::print
