#include "diff/change_section.h"

#include <fmt/format.h>

#include "base/text.h"
#include "diff/build_rows.h"
#include "diff/page_parts.h"
#include "diff/words.h"
#include "render/document/drink_picture_part.h"
#include "render/prose/common_mark.h"

namespace gill::diff {

using namespace render::document;
using Picture = render::document::Figure;

namespace {

class ChangeSection {
 public:
  ChangeSection(const Change& change, const BothBooks* books) : change_(change), books_(books) {}

  Section build(std::string name) const {
    Section section{std::move(name), Run(change_.name), {}};
    std::vector<std::string> about;
    if (!change_.was.empty()) about.push_back(base::capitalised(rename_words(change_)) + ".");
    if (!change_.because.empty()) about.push_back(base::capitalised(because_words(change_)) + ".");
    if (!change_.either().valid)
      about.emplace_back("Its figures are not worked out: a part of it is in error, or nothing goes in yet.");
    if (!about.empty()) section.blocks.push_back(Paragraph{Run(base::join(about, " ")), Tone::normal});
    if (change_.kind == Kind::added) {
      add_whole(section);
    } else {
      add_pictures(section);
      add_builds(section);
      add_method(section);
      add_words(section);
    }
    add_figures(section);
    add_allergens(section);
    return section;
  }

 private:
  std::optional<Picture> picture(const BookIndex& book, const std::optional<std::size_t>& index) const {
    if (!index) return std::nullopt;
    auto figure = drink_figure(book, analysis::DrinkId::at(*index));
    if (figure.scene.shapes.empty()) return std::nullopt;
    return figure;
  }

  bool is_drink() const {
    const auto& sheet = change_.either_sheet();
    return sheet && sheet->is_drink;
  }

  void add_pictures(Section& section) const {
    if (!books_ || !is_drink()) return;
    Group sides{"sides", {}};
    auto add = [&](const char* name, const char* title, std::optional<Picture> figure) {
      if (!figure) return;
      Group side{name, {}};
      side.blocks.push_back(Paragraph{Run().strong(title), Tone::normal});
      side.blocks.push_back(std::move(*figure));
      sides.blocks.push_back(std::move(side));
    };
    add("before", "Before", picture(books_->before, change_.before_index));
    add("now", "Now", picture(books_->after, change_.after_index));
    if (!sides.blocks.empty()) section.blocks.push_back(std::move(sides));
  }

  /// A new drink is told whole.
  void add_whole(Section& section) const {
    if (books_ && is_drink())
      if (auto figure = picture(books_->after, change_.after_index))
        section.blocks.push_back(std::move(*figure));
    Table table{"Build", {{"", Align::start}, {"amount", Align::start}}, {}, false};
    for (const auto& pour : change_.after->pours)
      if (!is_garnish(pour.role))
        table.rows.push_back({header(pour.name), cell(words_of(pour, nullptr, Columns::all))});
    for (const auto& property : change_.after->properties)
      if (is_row(property.name)) table.rows.push_back({header(property.name), cell(property.words)});
    if (!table.rows.empty()) section.blocks.push_back(std::move(table));
    List method{List::Kind::numbered, {}};
    for (const auto& step : change_.after->method) method.items.push_back({Run(step.words), {}});
    if (!method.items.empty()) section.blocks.push_back(std::move(method));
    auto text = property_words(change_.after, "text");
    if (!text.empty()) section.blocks.push_back(Prose{text});
  }

  void add_builds(Section& section) const {
    Table table{"What is poured and how it is served",
                {{"", Align::start}, {"before", Align::start}, {"now", Align::start}},
                {},
                false};
    table.rows = build_rows(change_, books_ != nullptr && is_drink());
    if (!table.rows.empty()) section.blocks.push_back(std::move(table));
  }

  void add_method(Section& section) const {
    List list;
    for (const auto& line : method_changes_in_words(change_)) list.items.push_back({Run(line), {}});
    if (list.items.empty()) return;
    section.blocks.push_back(Paragraph{Run().strong("Method"), Tone::normal});
    section.blocks.push_back(std::move(list));
  }

  /// What else the declaration says: guest line, status, family, descriptions.
  void add_words(Section& section) const {
    List list;
    for (const auto& property : change_.properties) {
      if (is_row(property.name)) continue;
      bool is_prose = property.name == "text";
      auto words = [&](const std::optional<Property>& side) {
        if (!side) return nothing;
        return is_prose ? render::prose::to_plain_text(side->words) : side->words;
      };
      ListItem item;
      item.run.plain(
          fmt::format("{}: {} → {}", title_of(property.name), words(property.before), words(property.after)));
      list.items.push_back(std::move(item));
    }
    if (!list.items.empty()) section.blocks.push_back(std::move(list));
  }

  void add_figures(Section& section) const {
    bool both = change_.before && change_.after;
    Table table{"What follows", {{"", Align::start}}, {}, false};
    if (both) {
      for (auto* title : {"before", "now"}) table.columns.push_back({title, Align::end});
      table.columns.push_back({"difference", Align::start});
    } else {
      table.columns.push_back({"comes to", Align::end});
    }
    for (const auto& figure : change_.figures) {
      if (!shows(figure)) continue;
      std::vector<Cell> row = {header(std::string(figure.after.figure->words))};
      if (both) {
        row.push_back(cell(text_of(figure.before)));
        row.push_back(cell(text_of(figure.after), figure.beyond_tolerance.value_or(false)));
        row.push_back(cell(change_in_words(figure)));
      } else {
        row.push_back(cell(text_of(change_.after ? figure.after : figure.before)));
      }
      table.rows.push_back(std::move(row));
    }
    if (!table.rows.empty()) section.blocks.push_back(std::move(table));
  }

  void add_allergens(Section& section) const {
    const auto& allergens = change_.allergens;
    List list;
    auto add = [&](const char* title, const std::string& words) {
      if (!words.empty()) list.items.push_back({Run().strong(title).plain(": " + words), {}});
    };
    bool is_new = change_.kind == Kind::added;
    add(is_new ? "Allergens" : "Allergens gained", codes_in_words(allergens.gained, change_.name));
    add("May contain now, by the maker or by a stand-in",
        codes_in_words(allergens.possible_gained, change_.name));
    add("Allergens no longer declared", codes_in_words(allergens.lost, change_.name));
    if (allergens.known_before && !allergens.known_after)
      add("Allergens not known",
          allergens.unknown_gained.empty()
              ? "a part of it does not state its allergens"
              : base::join_with_and(allergens.unknown_gained) + " says nothing about allergens");
    if (!list.items.empty()) section.blocks.push_back(std::move(list));
  }

  const Change& change_;
  const BothBooks* books_;
};

}  // namespace

Section change_section(const Change& change, const BothBooks* books, std::string name) {
  return ChangeSection(change, books).build(std::move(name));
}

std::vector<Block> reached_blocks(const std::vector<const Change*>& changes) {
  List list;
  for (const auto* change : changes) {
    ListItem item;
    item.run.strong(change->name);
    if (!change->because.empty()) item.run.plain(" (" + because_words(*change) + ")");
    std::vector<std::string> parts;
    if (!change->allergens.gained.empty())
      parts.push_back("allergens gained: " + codes_in_words(change->allergens.gained, change->name));
    for (const auto& figure : change->figures)
      if (shows(figure)) parts.push_back(in_one_line(figure));
    item.run.plain(": " + (parts.empty() ? std::string("taste it; its figures stay as printed")
                                         : base::join(parts, ", ")));
    list.items.push_back(std::move(item));
  }
  std::vector<Block> blocks;
  if (!list.items.empty()) blocks.push_back(std::move(list));
  return blocks;
}

}  // namespace gill::diff
