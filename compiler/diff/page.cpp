#include "diff/page.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "base/text.h"
#include "diff/words.h"
#include "render/document/drink_picture_part.h"
#include "render/prose/common_mark.h"
#include "render/wording/allergen_words.h"
#include "render/wording/numbers.h"

namespace gill::diff {

using namespace render::document;
namespace wording = render::wording;
using Picture = render::document::Figure;
using diff::Figure;

namespace {

const std::string nothing = "—";

Cell cell(std::string words, bool differs = false) {
  Cell cell;
  if (differs)
    cell.run.strong(std::move(words));
  else
    cell.run.plain(std::move(words));
  return cell;
}

Cell header(const std::string& words) {
  Cell cell;
  cell.run.plain(words);
  cell.is_header = true;
  return cell;
}

/// Properties that hands or eyes meet at the bar: told as rows of the build.
bool is_row(const std::string& property) {
  static const std::set<std::string> rows = {"glass",  "ice",     "garnish", "serves", "cup",
                                             "size",   "batched", "station", "makes",  "keeps",
                                             "opened", "bottle",  "par",     "takes",  "largest batch"};
  return rows.contains(property);
}

/// `guest` as it reads at the head of a line.
std::string title_of(const std::string& property) {
  if (property == "guest") return "Guest line";
  if (property == "text") return "Description";
  return base::capitalised(property);
}

std::string change_in_words(const FigureChange& change) {
  if (!change.before.value || !change.after.value || change.before.currency != change.after.currency)
    return {};
  int places = places_of(change.after);
  // Of the figures as they are printed, so that whoever subtracts them finds the same.
  double unit = std::pow(10.0, -places);
  double difference =
      (std::round(*change.after.value / unit) - std::round(*change.before.value / unit)) * unit;
  std::string words = (difference > 0 ? "+" : "") + wording::fixed(difference, places);
  if (change.beyond_tolerance)
    words += *change.beyond_tolerance ? ", beyond tolerance" : ", within tolerance";
  return words;
}

bool shows(const FigureChange& change) {
  return change.after.figure->is_compared_in_print && text_of(change.before) != text_of(change.after);
}

/// `strength 14.1 → 15.0 % abv (beyond tolerance)`.
std::string in_one_line(const FigureChange& change) {
  const auto& about = *change.after.figure;
  std::string before = text_of(change.before), after = text_of(change.after);
  std::string unit = about.is_money ? change.after.currency : std::string(about.unit);
  if (!unit.empty() && before.ends_with(" " + unit) && after.ends_with(" " + unit))
    before.resize(before.size() - unit.size() - 1);
  std::string words = fmt::format("{} {} → {}", about.words, before, after);
  if (change.beyond_tolerance)
    words += *change.beyond_tolerance ? " (beyond tolerance)" : " (within tolerance)";
  return words;
}

/// The allergens of `owner`, with what each comes by.
std::string codes_in_words(const std::vector<Allergen>& allergens, const std::string& owner) {
  std::vector<std::string> words;
  for (const auto& allergen : allergens) words.push_back(words_of(allergen, owner));
  return base::join(words, "; ");
}

/// The rows of both builds next to each other: what came, went, changed and (where all is told) stayed.
class BuildRows {
 public:
  BuildRows(const Change& change, bool all) : change_(change), all_(all) {}

  std::vector<std::vector<Cell>> build() {
    if (all_ && change_.after)
      for (const auto& pour : change_.after->pours) {
        const PourChange* own = change_of(pour);
        if (own)
          add(*own);
        else if (!is_garnish(pour.role))
          add_same(pour);
      }
    for (const auto& pour : change_.pours)
      if (!all_ || !pour.after) add(pour);
    add_properties();
    return std::move(rows_);
  }

 private:
  const PourChange* change_of(const Pour& pour) const {
    for (const auto& change : change_.pours)
      if (change.after && change.after->same_place_as(pour) && change.after->amount == pour.amount)
        return &change;
    return nullptr;
  }

  static std::string row_name(const Pour& pour) {
    auto role = words_of(pour.role);
    return role.empty() ? pour.name : fmt::format("{}, {}", pour.name, role);
  }

  static std::string side_words(const std::optional<Pour>& pour, const std::optional<Pour>& other) {
    return pour ? words_of(*pour, other ? &*other : nullptr, Columns::all) : nothing;
  }

  void add(const PourChange& change) {
    if (is_garnish(change.either().role)) return;
    std::string before = side_words(change.before, change.after),
                after = side_words(change.after, change.before);
    if (change.follows && before == after && change.before->volume_ml && change.after->volume_ml) {
      auto measured = [](const Pour& pour) {
        return fmt::format(" ({} ml)", wording::trimmed(*pour.volume_ml, 2));
      };
      before += measured(*change.before);
      after += measured(*change.after);
    }
    rows_.push_back({header(row_name(change.either())), cell(before), cell(after, true)});
  }

  void add_same(const Pour& pour) {
    std::string words = words_of(pour, nullptr, Columns::all);
    rows_.push_back({header(row_name(pour)), cell(words), cell(words)});
  }

  void add_properties() {
    for (const auto& property : change_.properties)
      if (is_row(property.name))
        rows_.push_back({header(property.name), cell(property.before ? property.before->words : nothing),
                         cell(property.after ? property.after->words : nothing, true)});
    if (!all_ || !change_.before || !change_.after) return;
    for (const auto& property : change_.after->properties) {
      bool changed = std::any_of(change_.properties.begin(), change_.properties.end(),
                                 [&](const PropertyChange& one) { return one.name == property.name; });
      if (!changed && is_row(property.name))
        rows_.push_back({header(property.name), cell(property.words), cell(property.words)});
    }
  }

  const Change& change_;
  bool all_;
  std::vector<std::vector<Cell>> rows_;
};

class PageBuilder {
 public:
  PageBuilder(const Changes& changes, const BothBooks* books) : changes_(changes), books_(books) {}

  Page build() {
    page_.path = "changes";
    page_.title = "What changed";
    page_.kind = "changes";
    page_.subtitle =
        Run(fmt::format("{}: {} → {}", changes_.house, changes_.before_label, changes_.after_label));
    add_notice(alert_notice(allergen_alerts(changes_)));
    add_notice(lost_notice());
    add_notice(diff::error_notice(changes_.not_compared));
    page_.blocks.push_back(Paragraph{Run(summary()), Tone::lead});
    add_drinks();
    add_list("preps", "Preps", changes_.preps);
    add_list("ingredients", "Ingredients", changes_.ingredients);
    add_list("glasses", "Glasses", changes_.glasses);
    add_list("ice", "Ice", changes_.ices);
    add_list("families", "Families", changes_.families);
    add_menus();
    add_house();
    return std::move(page_);
  }

  Page run_whole() {
    page_.path = "whole";
    page_.title = changes_.after_label;
    page_.kind = "changes";
    for (const auto* list : {&changes_.drinks, &changes_.preps})
      for (const auto& change : *list)
        if (change.kind == Kind::added) page_.blocks.push_back(section_of(change));
    return std::move(page_);
  }

 private:
  void add_notice(Notice notice) {
    if (!notice.blocks.empty()) page_.blocks.push_back(std::move(notice));
  }

  void add_section(const std::string& name, const std::string& title, std::vector<Block> blocks) {
    if (!blocks.empty()) page_.blocks.push_back(Section{name, Run(title), std::move(blocks)});
  }

  Notice lost_notice() const {
    Notice notice{Notice::Role::caution, "Allergens no longer declared", {}};
    List list;
    for (const auto* changes : {&changes_.drinks, &changes_.preps, &changes_.ingredients})
      for (const auto& change : *changes) {
        if (change.kind == Kind::removed || change.allergens.lost.empty()) continue;
        ListItem item;
        item.run.strong(change.name).plain(": " + codes_in_words(change.allergens.lost, change.name));
        list.items.push_back(std::move(item));
      }
    if (list.items.empty()) return notice;
    notice.blocks.push_back(std::move(list));
    notice.blocks.push_back(Paragraph{Run("What is declared no longer is not thereby absent: go on asking, "
                                          "read the labels, and tell no guest that a drink "
                                          "is without it before somebody has checked."),
                                      Tone::small});
    return notice;
  }

  // ---- in short

  std::string summary() const {
    if (changes_.empty()) return "No difference was found between the two in what they say or come to.";
    std::vector<std::string> parts;
    auto count = [&](Kind kind) {
      return static_cast<std::size_t>(
          std::count_if(changes_.drinks.begin(), changes_.drinks.end(),
                        [&](const Change& change) { return change.kind == kind && change.is_own; }));
    };
    auto add = [&](std::size_t number, const std::string& what) {
      if (number > 0) parts.push_back(fmt::format("{} {}", number, what));
    };
    add(count(Kind::added), "new");
    add(count(Kind::removed), "gone");
    add(count(Kind::renamed), "renamed");
    add(count(Kind::changed), "changed");
    auto reached = static_cast<std::size_t>(std::count_if(
        changes_.drinks.begin(), changes_.drinks.end(), [](const Change& change) { return !change.is_own; }));
    add(reached, "reached by changes elsewhere");
    std::string text = parts.empty() ? "No drink changed." : "Drinks: " + base::join(parts, ", ") + ".";
    std::vector<std::string> others;
    auto add_other = [&](std::size_t number, const char* one, const char* many) {
      if (number > 0) others.push_back(counted(number, one, many));
    };
    add_other(changes_.preps.size(), "prep", "preps");
    add_other(changes_.ingredients.size(), "ingredient", "ingredients");
    add_other(changes_.glasses.size() + changes_.ices.size() + changes_.families.size(),
              "glass, ice or family", "glasses, ices and families");
    add_other(changes_.menus.size(), "menu", "menus");
    add_other(changes_.house_lines.size(), "line of the house", "lines of the house");
    return others.empty() ? text : fmt::format("{} Also different: {}.", text, base::join_with_and(others));
  }

  // ---- drinks

  void add_drinks() {
    std::vector<Block> added, removed, renamed, changed;
    List gone;
    std::vector<const Change*> reached;
    for (const auto& change : changes_.drinks) {
      if (change.kind == Kind::removed) {
        gone.items.push_back({Run().strong(change.name), {}});
        if (!change.before->valid) gone.items.back().run.plain(" (in error in the old house)");
      } else if (!change.is_own) {
        reached.push_back(&change);
      } else {
        auto& blocks = change.kind == Kind::added ? added : change.kind == Kind::renamed ? renamed : changed;
        blocks.push_back(section_of(change));
      }
    }
    if (!gone.items.empty()) removed.push_back(std::move(gone));
    add_section("new", "New drinks", std::move(added));
    add_section("gone", "Drinks that are gone", std::move(removed));
    add_section("renamed", "Renamed drinks", std::move(renamed));
    add_section("changed", "Changed drinks", std::move(changed));
    add_section("reached", "Drinks reached by changes elsewhere", reached_blocks(reached));
  }

  Section section_of(const Change& change) {
    Section section{fmt::format("change-{}", ++sections_), Run(change.name), {}};
    std::vector<std::string> about;
    if (!change.was.empty()) about.push_back(base::capitalised(rename_words(change)) + ".");
    if (!change.because.empty()) about.push_back(base::capitalised(because_words(change)) + ".");
    if (!change.either().valid)
      about.emplace_back("A part of it is in error: its figures are not worked out.");
    if (!about.empty()) section.blocks.push_back(Paragraph{Run(base::join(about, " ")), Tone::normal});
    if (change.kind == Kind::added) {
      add_whole(section, change);
    } else {
      add_pictures(section, change);
      add_builds(section, change);
      add_method(section, change);
      add_words(section, change);
    }
    add_figures(section, change);
    add_allergens(section, change);
    return section;
  }

  std::optional<Picture> picture(const BookIndex& book, const std::optional<std::size_t>& index) const {
    if (!index) return std::nullopt;
    auto figure = drink_figure(book, analysis::DrinkId::at(*index));
    if (figure.scene.shapes.empty()) return std::nullopt;
    return figure;
  }

  static bool is_drink(const Change& change) {
    const auto& sheet = change.either_sheet();
    return sheet && sheet->is_drink;
  }

  void add_pictures(Section& section, const Change& change) const {
    if (!books_ || !is_drink(change)) return;
    Group sides{"sides", {}};
    auto add = [&](const char* name, const char* title, std::optional<Picture> figure) {
      if (!figure) return;
      Group side{name, {}};
      side.blocks.push_back(Paragraph{Run().strong(title), Tone::normal});
      side.blocks.push_back(std::move(*figure));
      sides.blocks.push_back(std::move(side));
    };
    add("before", "Before", picture(books_->before, change.before_index));
    add("now", "Now", picture(books_->after, change.after_index));
    if (!sides.blocks.empty()) section.blocks.push_back(std::move(sides));
  }

  /// A new drink is told whole.
  void add_whole(Section& section, const Change& change) const {
    if (books_ && is_drink(change))
      if (auto figure = picture(books_->after, change.after_index))
        section.blocks.push_back(std::move(*figure));
    Table table{"Build", {{"", Align::start}, {"amount", Align::start}}, {}, false};
    for (const auto& pour : change.after->pours)
      if (!is_garnish(pour.role))
        table.rows.push_back({header(pour.name), cell(words_of(pour, nullptr, Columns::all))});
    for (const auto& property : change.after->properties)
      if (is_row(property.name)) table.rows.push_back({header(property.name), cell(property.words)});
    if (!table.rows.empty()) section.blocks.push_back(std::move(table));
    List method{List::Kind::numbered, {}};
    for (const auto& step : change.after->method) method.items.push_back({Run(step.words), {}});
    if (!method.items.empty()) section.blocks.push_back(std::move(method));
    auto text = property_words(change.after, "text");
    if (!text.empty()) section.blocks.push_back(Prose{text});
  }

  void add_builds(Section& section, const Change& change) const {
    Table table{"What is poured and how it is served",
                {{"", Align::start}, {"before", Align::start}, {"now", Align::start}},
                {},
                false};
    table.rows = BuildRows(change, books_ != nullptr && is_drink(change)).build();
    if (!table.rows.empty()) section.blocks.push_back(std::move(table));
  }

  void add_method(Section& section, const Change& change) const {
    List list;
    for (const auto& line : method_changes_in_words(change)) list.items.push_back({Run(line), {}});
    if (list.items.empty()) return;
    section.blocks.push_back(Paragraph{Run().strong("Method"), Tone::normal});
    section.blocks.push_back(std::move(list));
  }

  /// What else the declaration says: guest line, status, family, descriptions.
  void add_words(Section& section, const Change& change) const {
    List list;
    for (const auto& property : change.properties) {
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

  static void add_figures(Section& section, const Change& change) {
    bool both = change.before && change.after;
    Table table{"What follows", {{"", Align::start}}, {}, false};
    if (both) {
      for (auto* title : {"before", "now"}) table.columns.push_back({title, Align::end});
      table.columns.push_back({"difference", Align::start});
    } else {
      table.columns.push_back({"comes to", Align::end});
    }
    for (const auto& figure : change.figures) {
      if (!shows(figure)) continue;
      std::vector<Cell> row = {header(std::string(figure.after.figure->words))};
      if (both) {
        row.push_back(cell(text_of(figure.before)));
        row.push_back(cell(text_of(figure.after), figure.beyond_tolerance.value_or(false)));
        row.push_back(cell(change_in_words(figure)));
      } else {
        row.push_back(cell(text_of(change.after ? figure.after : figure.before)));
      }
      table.rows.push_back(std::move(row));
    }
    if (!table.rows.empty()) section.blocks.push_back(std::move(table));
  }

  static void add_allergens(Section& section, const Change& change) {
    const auto& allergens = change.allergens;
    List list;
    auto add = [&](const char* title, const std::string& words) {
      if (!words.empty()) list.items.push_back({Run().strong(title).plain(": " + words), {}});
    };
    bool is_new = change.kind == Kind::added;
    add(is_new ? "Allergens" : "Allergens gained", codes_in_words(allergens.gained, change.name));
    add("May contain now, by the maker or by a stand-in",
        codes_in_words(allergens.possible_gained, change.name));
    add("Allergens no longer declared", codes_in_words(allergens.lost, change.name));
    if (allergens.known_before && !allergens.known_after)
      add("Allergens not known",
          allergens.unknown_gained.empty()
              ? "a part of it does not state its allergens"
              : base::join_with_and(allergens.unknown_gained) + " says nothing about allergens");
    if (!list.items.empty()) section.blocks.push_back(std::move(list));
  }

  /// One line a drink: why, and what follows.
  static std::vector<Block> reached_blocks(const std::vector<const Change*>& changes) {
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

  // ---- the rest

  void add_list(const std::string& name, const std::string& title, const std::vector<Change>& changes) {
    std::vector<Block> blocks;
    List short_ones;
    std::vector<const Change*> reached;
    for (const auto& change : changes) {
      if (change.kind == Kind::removed) {
        short_ones.items.push_back({Run().strong(change.name).plain(": gone"), {}});
      } else if (change.kind == Kind::added && change.after->pours.empty()) {
        short_ones.items.push_back({Run().strong(change.name).plain(": new"), {}});
      } else if (!change.is_own) {
        reached.push_back(&change);
      } else {
        blocks.push_back(section_of(change));
      }
    }
    if (!short_ones.items.empty()) blocks.insert(blocks.begin(), std::move(short_ones));
    for (auto& block : reached_blocks(reached)) {
      blocks.push_back(Paragraph{Run("Reached by changes elsewhere:"), Tone::normal});
      blocks.push_back(std::move(block));
    }
    add_section(name, title, std::move(blocks));
  }

  void add_menus() {
    std::vector<Block> blocks;
    for (const auto& menu : changes_.menus) {
      Section section{fmt::format("change-{}", ++sections_), Run(menu.name), {}};
      if (menu.kind == Kind::added) section.title.plain(": new");
      if (menu.kind == Kind::removed) section.title.plain(": gone");
      List list;
      if (menu.kind != Kind::removed) {
        for (const auto& property : menu.properties)
          list.items.push_back({Run(fmt::format("{}: {} → {}", title_of(property.name),
                                                property.before ? property.before->words : nothing,
                                                property.after ? property.after->words : nothing)),
                                {}});
        for (const auto& line : menu.lines) list.items.push_back({menu_line(line), {}});
      }
      if (!list.items.empty()) section.blocks.push_back(std::move(list));
      blocks.push_back(std::move(section));
    }
    add_section("menus", "Menus", std::move(blocks));
  }

  static Run menu_line(const MenuLineChange& line) {
    Run run;
    run.strong(line.drink);
    if (!line.before)
      return run.plain(fmt::format(": new under {}, {}", line.after->section, words_of(line.after->price)));
    if (!line.after)
      return run.plain(
          fmt::format(": off (was under {}, {})", line.before->section, words_of(line.before->price)));
    std::vector<std::string> parts;
    if (line.moved && base::fold_name(line.before->section) != base::fold_name(line.after->section))
      parts.push_back(fmt::format("moved from {} to {}", line.before->section, line.after->section));
    else if (line.moved)
      parts.push_back(fmt::format("moved from place {} to place {} under {}", line.before->position,
                                  line.after->position, line.after->section));
    if (line.price_changed)
      parts.push_back(
          fmt::format("price {} → {}", words_of(line.before->price), words_of(line.after->price)));
    if (line.sells_changed) {
      auto sells = [](const std::string& words) { return words.empty() ? nothing : words; };
      parts.push_back(fmt::format("sells {} → {}", sells(line.before->sells), sells(line.after->sells)));
    }
    return run.plain(": " + base::join(parts, "; "));
  }

  void add_house() {
    if (changes_.house_lines.empty()) return;
    Table table{"Lines of the house",
                {{"", Align::start}, {"before", Align::start}, {"now", Align::start}},
                {},
                false};
    for (const auto& line : changes_.house_lines)
      table.rows.push_back({header(line.name), cell(line.before ? line.before->words : nothing),
                            cell(line.after ? line.after->words : nothing, true)});
    std::vector<Block> blocks;
    blocks.push_back(std::move(table));
    add_section("house", "The house", std::move(blocks));
  }

  const Changes& changes_;
  const BothBooks* books_;
  Page page_;
  std::size_t sections_ = 0;
};

}  // namespace

Notice alert_notice(const std::vector<AllergenAlert>& alerts) {
  Notice notice{Notice::Role::allergens, "Allergens gained: tell everybody first", {}};
  List list;
  for (const auto& alert : alerts) {
    std::vector<std::string> parts;
    const auto& change = *alert.change;
    if (!change.gained.empty())
      parts.push_back((alert.is_new ? "contains " : "now contains ") +
                      codes_in_words(change.gained, alert.name));
    if (!change.possible_gained.empty())
      parts.push_back("may contain " + codes_in_words(change.possible_gained, alert.name));
    if (!change.known_after && (change.known_before || !change.unknown_gained.empty()))
      parts.push_back(change.unknown_gained.empty()
                          ? std::string("allergens not known: a part of it does not state them")
                          : "allergens not known: " + base::join_with_and(change.unknown_gained) +
                                " does not state them");
    if (parts.empty()) continue;
    ListItem item;
    item.run.strong(alert.is_new ? alert.name + " (new)" : alert.name).plain(": " + base::join(parts, "; "));
    list.items.push_back(std::move(item));
  }
  if (!list.items.empty()) notice.blocks.push_back(std::move(list));
  return notice;
}

Notice error_notice(const std::vector<NotCompared>& not_compared) {
  Notice notice{Notice::Role::error, "Not compared", {}};
  List list;
  for (const auto& one : not_compared) {
    const char* where = one.in_before && one.in_after ? "both houses"
                        : one.in_after                ? "the new house"
                                                      : "the old house";
    ListItem item;
    item.run.strong(one.name).plain(fmt::format(": a line of this {} is in error in {}", one.kind, where));
    list.items.push_back(std::move(item));
  }
  if (!list.items.empty()) notice.blocks.push_back(std::move(list));
  return notice;
}

std::vector<std::string> standing_lines() {
  return {wording::evaluated_line, wording::shared_equipment_line};
}

Page whole_page(const Changes& changes) { return PageBuilder(changes, nullptr).run_whole(); }

Page change_page(const Changes& changes, const BothBooks* books) {
  return PageBuilder(changes, books).build();
}

}  // namespace gill::diff
