#include "diff/page.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "base/text.h"
#include "diff/change_section.h"
#include "diff/menu_section.h"
#include "diff/page_parts.h"
#include "diff/words.h"
#include "render/wording/allergen_words.h"

namespace gill::diff {

using namespace render::document;
namespace wording = render::wording;

namespace {

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
    for (const auto* list : {&changes_.drinks, &changes_.preps, &changes_.ingredients, &changes_.glasses,
                             &changes_.ices, &changes_.families})
      for (const auto& change : *list)
        if (auto section = whole_section(change)) page_.blocks.push_back(std::move(*section));
    for (const auto& menu : changes_.menus)
      if (menu.kind != Kind::removed) page_.blocks.push_back(written_menu(menu, next_name()));
    List lines;
    for (const auto& line : changes_.house_lines)
      if (line.after) lines.items.push_back({Run(fmt::format("{}: {}", line.name, line.after->words)), {}});
    if (!lines.items.empty()) page_.blocks.push_back(std::move(lines));
    return std::move(page_);
  }

 private:
  std::string next_name() { return fmt::format("change-{}", ++sections_); }

  /// What the declaration says, without what it comes to: that hangs on other files. Of what is declared
  /// elsewhere, what this file says of it; nothing where that is nothing.
  std::optional<Section> whole_section(const Change& change) {
    if (!change.after || !change.is_own) return std::nullopt;
    Section section{{}, Run(change.name), {}};
    List list;
    auto add = [&](const Property& property) {
      list.items.push_back({Run(fmt::format("{}: {}", title_of(property.name), property.words)), {}});
    };
    if (change.kind == Kind::added) {
      Change written = change;
      written.figures.clear();
      written.allergens = {};
      section = change_section(written, nullptr, {});
      for (const auto& property : change.after->properties)
        if (property.name != "text" && !is_row(property.name)) add(property);
    } else {
      for (const auto& property : change.properties)
        if (property.after) add(*property.after);
    }
    if (!list.items.empty()) section.blocks.push_back(std::move(list));
    if (section.blocks.empty() && change.kind != Kind::added) return std::nullopt;
    section.name = next_name();
    return section;
  }

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
        blocks.push_back(change_section(change, books_, next_name()));
      }
    }
    if (!gone.items.empty()) removed.push_back(std::move(gone));
    add_section("new", "New drinks", std::move(added));
    add_section("gone", "Drinks that are gone", std::move(removed));
    add_section("renamed", "Renamed drinks", std::move(renamed));
    add_section("changed", "Changed drinks", std::move(changed));
    add_section("reached", "Drinks reached by changes elsewhere", reached_blocks(reached));
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
        blocks.push_back(change_section(change, books_, next_name()));
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
    for (const auto& menu : changes_.menus) blocks.push_back(menu_section(menu, next_name()));
    add_section("menus", "Menus", std::move(blocks));
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
