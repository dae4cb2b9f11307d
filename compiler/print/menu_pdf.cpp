#include "print/menu_pdf.h"

#include <algorithm>
#include <limits>
#include <span>

#include "print/flow.h"
#include "print/painter.h"
#include "print/pdf_writer.h"
#include "render/prose/common_mark.h"

namespace gill::print {

using namespace render::document;

namespace {

/// How a menu is set, in points on A4.
struct MenuSetting {
  double margin_top = 62, margin_bottom = 56;
  int columns = 1;
  /// As long as is read with ease: some 75 letters.
  double column_width = 372, column_gap = 0;
  double title_pt = 27, house_pt = 9.5, section_pt = 15.5, drink_pt = 12.5, words_pt = 10, small_pt = 7.8;
  double price_room = 64;
  /// Of the space between things.
  double spacing = 1;
};

/// Two columns; type and space so much smaller than usual.
MenuSetting compact_setting(double scale) {
  MenuSetting setting{
      .margin_top = 40, .margin_bottom = 36, .columns = 2, .column_width = 244, .column_gap = 26};
  setting.title_pt = 20 * scale;
  setting.section_pt = 12.5 * scale;
  setting.drink_pt = 10.5 * scale;
  setting.words_pt = 9 * scale;
  setting.small_pt = std::max(6.5, 7.5 * scale);
  setting.price_room = 54;
  setting.spacing = 0.55 * scale;
  return setting;
}

/// The usual setting with type and space a little smaller.
MenuSetting full_setting(double scale) {
  MenuSetting setting;
  for (double* size : {&setting.title_pt, &setting.section_pt, &setting.drink_pt, &setting.words_pt,
                       &setting.small_pt, &setting.spacing})
    *size *= scale;
  return setting;
}

constexpr double compact_scales[] = {1, 0.94, 0.88, 0.82, 0.76};
/// A guest sees no difference between these.
constexpr double full_scales[] = {1, 0.97, 0.94, 0.91};
/// A page that is not even so full is a leftover of the one before.
constexpr double leftover_share = 0.2;
constexpr std::size_t max_compact_pages = 2;

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
  MenuComposer(const Page& page, const Frame& frame, const MenuSetting& setting)
      : page_(page), frame_(frame), setting_(setting) {}

  /// Its pages, each as what is placed on it.
  std::vector<std::vector<Placed>> compose() {
    TypeBlock title = set_title();
    find_notes();
    for (const auto& block : page_.blocks) add(block, 0);
    add_foot();
    double all_notes = 0;
    for (const auto& note : notes_) all_notes += note.height + note_space;
    double room = a4.height_pt() - setting_.margin_top - setting_.margin_bottom -
                  (all_notes > 0 ? all_notes + notes_above : 0);
    auto columns = static_cast<std::size_t>(setting_.columns);
    // The first page has the title over all of its columns.
    std::vector<std::vector<TypeBlock>> faces = flow_columns(room - title.height, room);
    std::vector<std::vector<Placed>> pages;
    double left = (a4.width_pt() - page_width()) / 2;
    for (std::size_t i = 0; i < faces.size(); ++i) {
      bool is_first = i < columns;
      if (i % columns == 0) pages.emplace_back();
      auto& parts = pages.back();
      if (i == 0) stack({title}, left, setting_.margin_top, parts);
      unsigned& notes = notes_of_page(pages.size() - 1);
      for (const auto& block : faces[i]) notes |= block.notes;
      double bottom =
          stack(std::move(faces[i]),
                left + static_cast<double>(i % columns) * (setting_.column_width + setting_.column_gap),
                setting_.margin_top + (is_first ? title.height : 0), parts);
      last_page_share_ =
          std::max(i % columns == 0 ? 0 : last_page_share_, (bottom - setting_.margin_top) / room);
    }
    for (std::size_t page = 0; page < pages.size(); ++page)
      place_notes(notes_of_page(page), left, pages[page]);
    return pages;
  }

  const Typesetter& typesetter() const { return typesetter_; }
  /// How much of the last page's height is used, once composed.
  double last_page_share() const { return last_page_share_; }

 private:
  static constexpr double note_space = 3, notes_above = 12;

  double page_width() const {
    return setting_.columns * setting_.column_width + (setting_.columns - 1) * setting_.column_gap;
  }

  /// The faces of the first page are shorter by the title.
  std::vector<std::vector<TypeBlock>> flow_columns(double first_room, double later_room) {
    auto faces = flow(std::move(type_blocks_), first_room, setting_.columns > 1 ? first_room : later_room);
    auto columns = static_cast<std::size_t>(setting_.columns);
    if (columns == 1 || faces.size() <= columns) return faces;
    std::vector<TypeBlock> rest;
    for (std::size_t i = columns; i < faces.size(); ++i)
      for (auto& block : faces[i]) rest.push_back(std::move(block));
    faces.resize(columns);
    for (auto& face : flow(std::move(rest), later_room, later_room)) faces.push_back(std::move(face));
    return faces;
  }

  unsigned& notes_of_page(std::size_t page) {
    if (page_notes_.size() <= page) page_notes_.resize(page + 1);
    return page_notes_[page];
  }

  /// What the marks mean: the paragraphs of the notice that begin with one.
  static std::string mark_of(const Block& block) {
    const auto* paragraph = std::get_if<Paragraph>(&block.content);
    std::string text = paragraph ? plain_text(paragraph->run) : "";
    for (std::string_view mark : {"*", "†"})
      if (text.starts_with(std::string(mark) + " ")) return std::string(mark);
    return {};
  }

  void find_notes() {
    for (const auto& block : page_.blocks) {
      const auto* notice = std::get_if<Notice>(&block.content);
      if (!notice) continue;
      for (const auto& inner : notice->blocks) {
        std::string mark = mark_of(inner);
        if (mark.empty()) continue;
        marks_.push_back(mark);
        TypeBlock note;
        add_to(note, styled(std::get<Paragraph>(inner.content).run, sans(setting_.small_pt)), 0, Side::start,
               page_width());
        notes_.push_back(std::move(note));
      }
    }
  }

  void place_notes(unsigned which, double left, std::vector<Placed>& parts) {
    double height = 0;
    for (std::size_t i = 0; i < notes_.size(); ++i)
      if (which & (1U << i)) height += notes_[i].height + note_space;
    if (height <= 0) return;
    double y = a4.height_pt() - setting_.margin_bottom - height;
    parts.push_back(
        PlacedRule{left, y - note_space, left + page_width(), y - note_space, 0.6, inks::text, 0});
    for (std::size_t i = 0; i < notes_.size(); ++i)
      if (which & (1U << i)) y = stack({notes_[i]}, left, y, parts) + note_space;
  }

  /// A paragraph below what the type_block has already.
  void add_to(TypeBlock& type_block, const StyledText& text, double space, Side side = Side::start,
              double width = 0) {
    if (text.empty()) return;
    auto words = typesetter_.set(text, {width > 0 ? width : setting_.column_width, side, 0});
    double top = type_block.height + (type_block.parts.empty() ? 0 : space);
    type_block.height = top + words.height;
    type_block.parts.push_back(PlacedText{std::move(words), 0, top});
  }

  TypeBlock set_title() {
    TypeBlock type_block;
    double width = page_width();
    add_to(type_block, {{frame_.house, sans(setting_.house_pt, false, inks::soft)}}, 0, Side::middle, width);
    add_to(type_block, {{page_.title, serif(setting_.title_pt, true, inks::green)}}, 2, Side::middle, width);
    if (!page_.subtitle.empty())
      add_to(type_block, styled(page_.subtitle, sans(setting_.words_pt, false, inks::soft)), 2, Side::middle,
             width);
    type_block.height += 10 * setting_.spacing;
    double middle = width / 2;
    type_block.parts.push_back(
        PlacedRule{middle - 30, type_block.height, middle + 30, type_block.height, 1, inks::green, 0});
    type_block.height += 24 * setting_.spacing;
    return type_block;
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
      type_block.space_before = 8 * setting_.spacing;
      add_words(type_block, block);
      if (!type_block.parts.empty()) type_blocks_.push_back(std::move(type_block));
    }
  }

  void add_section(const Section& section) {
    TypeBlock type_block;
    type_block.space_before = 24 * setting_.spacing;
    type_block.keeps_next = true;
    add_to(type_block, {{plain_text(section.title), serif(setting_.section_pt, true, inks::green)}}, 0,
           Side::middle);
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
    type_block.space_before = 15 * setting_.spacing;
    std::string price = numbers_of(drink.title);
    add_to(type_block, styled(drink.title, serif(setting_.drink_pt, true), false), 0, Side::start,
           setting_.column_width - setting_.price_room);
    if (!price.empty()) {
      auto words = typesetter_.set(price, sans(setting_.drink_pt - 1.5, true));
      double left = setting_.column_width - words.width;
      const auto* name =
          type_block.parts.empty() ? nullptr : std::get_if<PlacedText>(&type_block.parts.front());
      double top = name ? name->text.base_line - words.base_line : 0;
      type_block.parts.push_back(PlacedText{std::move(words), left, top});
    }
    for (std::size_t i = 0; i < marks_.size(); ++i)
      if (plain_text(drink.title).find(marks_[i]) != std::string::npos) type_block.notes |= 1U << i;
    for (const auto& block : drink.blocks) add_words(type_block, block);
    type_blocks_.push_back(std::move(type_block));
  }

  void add_words(TypeBlock& type_block, const Block& block) {
    if (const auto* paragraph = std::get_if<Paragraph>(&block.content)) {
      bool is_small = paragraph->tone == Tone::small;
      add_to(type_block, styled(paragraph->run, sans(is_small ? setting_.small_pt : setting_.words_pt)),
             is_small ? 2.5 : 1.5);
    } else if (const auto* prose = std::get_if<Prose>(&block.content)) {
      add_to(type_block,
             {{render::prose::to_plain_text(prose->common_mark),
               serif(setting_.words_pt, false, inks::soft, true)}},
             2);
    } else if (const auto* list = std::get_if<List>(&block.content)) {
      for (const auto& item : list->items) {
        StyledText text = {{"– ", sans(setting_.words_pt)}};
        auto words = styled(item.run, sans(setting_.words_pt));
        text.insert(text.end(), words.begin(), words.end());
        add_to(type_block, text, 2);
      }
    } else if (const auto* facts = std::get_if<FactList>(&block.content)) {
      for (const auto& fact : facts->facts)
        for (const auto& value : fact.values)
          add_to(type_block,
                 {{fact.term + ": ", sans(setting_.words_pt, true)},
                  {plain_text(value), sans(setting_.words_pt)}},
                 2);
    }
  }

  void add_notice(const Notice& notice) {
    TypeBlock head;
    head.space_before = 30 * setting_.spacing;
    head.keeps_next = true;
    // No page holds nothing but notices: the last drink goes with them.
    if (!type_blocks_.empty()) type_blocks_.back().keeps_next = true;
    head.parts.push_back(PlacedRule{0, 0, setting_.column_width, 0, 1, inks::text, 0});
    head.height = 7;
    auto title =
        typesetter_.set(notice.title, sans(setting_.words_pt, true), {setting_.column_width, Side::start, 0});
    double height = title.height;
    head.parts.push_back(PlacedText{std::move(title), 0, head.height});
    head.height += height;
    type_blocks_.push_back(std::move(head));
    for (const auto& block : notice.blocks) {
      if (!mark_of(block).empty()) continue;
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
      add_to(type_block, {{words, sans(setting_.small_pt, false, inks::soft)}}, 0);
      type_blocks_.push_back(std::move(type_block));
    }
  }

  const Page& page_;
  const Frame& frame_;
  const MenuSetting setting_;
  Typesetter typesetter_;
  std::vector<TypeBlock> type_blocks_;
  /// What stands at the foot of pages, each with its mark; and which of it by page.
  std::vector<std::string> marks_;
  std::vector<TypeBlock> notes_;
  std::vector<unsigned> page_notes_;
  double last_page_share_ = 0;
};

}  // namespace

std::optional<std::string> menu_pdf(const Page& page, const Frame& frame, bool compact) {
  auto print = [&](const MenuComposer& composer, const std::vector<std::vector<Placed>>& pages) {
    PdfWriter writer(page.title, frame.house);
    for (const auto& parts : pages) {
      paint(writer.begin_page(a4), composer.typesetter(), parts);
      writer.end_page();
    }
    return writer.finish();
  };
  // The largest setting with no more pages than may be, and none of them a leftover; else with no more pages.
  const std::span<const double> scales = compact ? std::span<const double>(compact_scales) : full_scales;
  const std::size_t max_pages = compact ? max_compact_pages : std::numeric_limits<std::size_t>::max();
  std::optional<std::string> found;
  for (double scale : scales) {
    MenuComposer composer(page, frame, compact ? compact_setting(scale) : full_setting(scale));
    auto pages = composer.compose();
    if (pages.size() > max_pages && scale != scales.back()) continue;
    const bool is_leftover = pages.size() > 1 && composer.last_page_share() < leftover_share;
    if (!found || !is_leftover) found = print(composer, pages);
    if (!is_leftover) break;
  }
  return found;
}

}  // namespace gill::print
