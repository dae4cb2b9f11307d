#include "diff/page.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

#include "base/text.h"
#include "diff/change_section.h"
#include "diff/menu_section.h"
#include "diff/overview.h"
#include "diff/page_parts.h"
#include "diff/words.h"
#include "render/wording/allergen_words.h"
#include "render/wording/numbers.h"
#include "units/money.h"

namespace gill::diff {

using namespace render::document;
namespace wording = render::wording;

namespace {

/// So few changes are seen at a glance as they are.
constexpr std::size_t min_overview = 4;
/// As many causes, and moves of prices, are named at a glance; the rest is counted.
constexpr std::size_t max_causes = 3, max_moves = 6;

class PageBuilder {
 public:
  PageBuilder(const Changes& changes, const BothBooks* books)
      : changes_(changes), books_(books), overview_(overview_of(changes)) {}

  Page build() {
    page_.path = "changes";
    page_.title = "What changed";
    page_.kind = "changes";
    page_.subtitle = Run(sides_in_words(changes_));
    add_notice(alert_notice(allergen_alerts(changes_)));
    add_notice(lost_notice());
    add_notice(diff::error_notice(changes_.not_compared));
    page_.blocks.push_back(Paragraph{Run(summary()), Tone::lead});
    add_overview();
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
    // No name of the file: git sets two of these against each other, and a file that is only renamed says
    // the same.
    page_.title = "What this file says";
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
      return static_cast<std::size_t>(std::count_if(
          changes_.drinks.begin(), changes_.drinks.end(),
          [&](const Change& change) { return change.kind == kind && change.is_own && !change.is_unserved; }));
    };
    auto add = [&](std::size_t number, const std::string& what) {
      if (number > 0) parts.push_back(fmt::format("{} {}", number, what));
    };
    auto retired = static_cast<std::size_t>(
        std::count_if(changes_.drinks.begin(), changes_.drinks.end(), [](const Change& change) {
          return change.kind == Kind::changed && change.is_own && is_withdrawn(change);
        }));
    add(count(Kind::added), "new");
    add(count(Kind::removed) + retired, "gone");
    add(count(Kind::renamed), "renamed");
    add(count(Kind::changed) - retired, "changed");
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

  /// What a manager asks first; left out where so little changed that the rest says it.
  void add_overview() {
    const bool menus_move = !overview_.on_menu.empty() || !overview_.off_menu.empty() ||
                            !overview_.menu_prices.empty() || !overview_.further_menus.empty();
    if (overview_.size() < min_overview && !menus_move) return;
    List list;
    auto add = [&](const char* title, const std::vector<std::string>& parts) {
      if (!parts.empty())
        list.items.push_back({Run().strong(title).plain(": " + base::join(parts, "; ") + "."), {}});
    };
    auto told = [&](const std::vector<const Change*>& drinks, auto words) {
      std::vector<std::string> parts;
      for (const auto* change : drinks) parts.push_back(words(*change));
      return parts;
    };
    add("New", told(overview_.fresh, [](const Change& change) {
          const auto* price = figure_of(change.after, &figures::price);
          return price && price->value ? fmt::format("{} at {}", change.name, text_of(*price)) : change.name;
        }));
    add("Gone", told(overview_.gone, [](const Change& change) {
          return change.kind == Kind::removed ? change.name
                                              : fmt::format("{} ({})", change.name, withdrawn_words(change));
        }));
    add("On the menu now", moved(overview_.on_menu));
    add("Off the menu", moved(overview_.off_menu));
    std::vector<std::string> further;
    for (const auto& [menu, line] : overview_.further_menus)
      further.push_back(further_menu_words(*menu, *line));
    add("On other menus", further);
    add("Renamed", told(overview_.renamed, [](const Change& change) {
          return change.name + " (" + rename_words(change) + ")";
        }));
    add("Prices", price_parts());
    add("Made or served otherwise", told(overview_.recipes, [](const Change& change) {
          return change.name + " (" + why_of(change) + ")";
        }));
    add("Tastes otherwise, made as before", told(overview_.tastes, name_and_taste_cause));
    add("Only costs and prices move", cost_parts());
    add("Goods", goods_parts());
    if (!list.items.empty())
      page_.blocks.push_back(Section{"glance", Run("At a glance"), {Block(std::move(list))}});
  }

  /// `Ash at 11.00 EUR (contains almond)`.
  static std::vector<std::string> moved(const std::vector<const MenuMove*>& moves) {
    std::vector<std::string> parts;
    for (const auto* move : moves) {
      std::string words = move->sheet.name;
      for (const auto& figure : move->sheet.figures)
        if (move->is_on && figure.figure == &figures::price && figure.value)
          words += " at " + text_of(figure);
      if (!move->allergens.gained.empty())
        words += fmt::format(" (contains {})", codes_in_words(move->allergens.gained, move->sheet.name));
      parts.push_back(std::move(words));
    }
    return parts;
  }

  std::vector<std::string> price_parts() const {
    std::vector<std::string> parts;
    if (const auto& uniform = overview_.uniform_price)
      parts.push_back(
          fmt::format("{} for {}", difference_words(*uniform), counted(uniform->count, "drink", "drinks")));
    for (const auto* change : overview_.other_prices) {
      const auto *before = figure_of(change->before, &figures::price),
                 *after = figure_of(change->after, &figures::price);
      const std::string& menu = change->either().price_menu;
      parts.push_back(fmt::format("{}{} {} → {}", change->name, menu.empty() ? "" : " on " + menu,
                                  text_of(*before), text_of(*after)));
    }
    for (const auto& [menu, line] : overview_.menu_prices)
      parts.push_back(fmt::format("{} on {} {} → {}", line->drink, menu->name, price_words(*line->before),
                                  price_words(*line->after)));
    return parts;
  }

  /// How many drinks, and what bought thing is behind it.
  std::vector<std::string> cost_parts() const {
    if (overview_.money_alone.empty()) return {};
    std::set<std::string> causes;
    for (const auto* change : overview_.money_alone)
      causes.insert(change->because.begin(), change->because.end());
    std::string words = counted(overview_.money_alone.size(), "drink", "drinks");
    std::vector<std::string> names{causes.begin(), causes.end()};
    // The rest stands under the goods.
    if (names.size() > max_causes) {
      std::size_t more = names.size() - max_causes;
      names.resize(max_causes);
      names.push_back(fmt::format("{} more", more));
    }
    if (!names.empty()) words += ", because of " + base::join_with_and(names);
    return {std::move(words)};
  }

  std::vector<std::string> goods_parts() const {
    std::vector<std::string> parts;
    for (const auto& move : overview_.goods) {
      if (parts.size() == max_moves) {
        parts.push_back(fmt::format("{} more below", overview_.goods.size() - max_moves));
        break;
      }
      parts.push_back(move_words(move));
    }
    return parts;
  }

  /// Drinks of which only money moves, a row each.
  void add_costs(const std::vector<const Change*>& drinks) {
    Table table{"Costs and prices",
                {{"", Align::start},
                 {"cost", Align::end},
                 {"price", Align::end},
                 {"pour cost", Align::end},
                 {"because of", Align::start}},
                {},
                true};
    for (const auto* change : drinks) {
      std::vector<Cell> row = {header(change->name)};
      for (Figure figure : {&figures::cost, &figures::price, &figures::pour_cost_percent}) {
        auto text = [&](const std::optional<Sheet>& side) {
          const auto* value = figure_of(side, figure);
          return value && value->value ? text_of(*value) : nothing;
        };
        std::string before = text(change->before), now = text(change->after);
        row.push_back(cell(before == now ? now : fmt::format("{} → {}", before, now)));
      }
      row.push_back(cell(base::join(change->because, ", ")));
      table.rows.push_back(std::move(row));
    }
    std::vector<Block> blocks;
    if (!table.rows.empty()) blocks.push_back(std::move(table));
    add_section("costs", "Drinks of which only costs and prices move", std::move(blocks));
  }

  /// The change without a price that moves as most do: that is told once.
  Change without_uniform_price(const Change& change) const {
    Change rest = change;
    std::erase_if(rest.figures, [&](const FigureChange& figure) { return overview_.is_uniform(figure); });
    return rest;
  }

  // ---- drinks

  void add_drinks() {
    std::vector<Block> added, removed, renamed, changed, unserved;
    List gone;
    std::vector<const Change*> reached, money;
    bool tells_money_apart = overview_.money_alone.size() >= min_overview;
    for (const auto& change : changes_.drinks) {
      // They stand in the order of the drinks.
      bool is_money = std::binary_search(overview_.money_alone.begin(), overview_.money_alone.end(), &change);
      if (change.is_unserved && change.kind == Kind::removed) {
        unserved.push_back(
            Paragraph{Run().strong(change.name).plain(": gone, and not served before."), Tone::normal});
      } else if (change.is_unserved) {
        unserved.push_back(change_section(change, books_, next_name()));
      } else if (change.kind == Kind::removed) {
        gone.items.push_back({Run().strong(change.name), {}});
        if (!change.before->valid) gone.items.back().run.plain(" (in error in the old house)");
      } else if (change.kind == Kind::changed && is_withdrawn(change)) {
        gone.items.push_back(
            {Run().strong(change.name).plain(fmt::format(" ({})", withdrawn_words(change))), {}});
      } else if (is_money && tells_money_apart) {
        money.push_back(&change);
      } else if (!change.is_own) {
        reached.push_back(&change);
      } else {
        auto& blocks = change.kind == Kind::added ? added : change.kind == Kind::renamed ? renamed : changed;
        blocks.push_back(change_section(without_uniform_price(change), books_, next_name()));
      }
    }
    if (!gone.items.empty()) removed.push_back(std::move(gone));
    add_section("new", "New drinks", std::move(added));
    add_section("gone", "Drinks that are gone", std::move(removed));
    add_section("renamed", "Renamed drinks", std::move(renamed));
    add_section("changed", "Changed drinks", std::move(changed));
    add_section("reached", "Drinks reached by changes elsewhere", reached_blocks(reached));
    add_costs(money);
    add_section("unserved", "Drafts and retired drinks: nobody is served these", std::move(unserved));
  }

  // ---- the rest

  /// What is what it was and costs otherwise, a row each, the largest move first.
  Table goods_table(std::vector<const Change*> goods) const {
    std::stable_sort(goods.begin(), goods.end(), [](const Change* a, const Change* b) {
      return std::abs(*price_move(*a)) > std::abs(*price_move(*b));
    });
    Table table{"Prices of goods",
                {{"", Align::start}, {"bought for", Align::start}, {"now", Align::start}, {"", Align::end}},
                {},
                true};
    for (const auto* change : goods) {
      const auto& bought = change->properties;
      double percent = *price_move(*change);
      table.rows.push_back({header(change->name), cell(bought.empty() ? nothing : bought[0].before_words()),
                            cell(bought.empty() ? nothing : bought[0].after_words()),
                            cell(fmt::format("{}{} %", percent < 0 ? "−" : "+",
                                             render::wording::trimmed(std::abs(percent), 1)))});
    }
    return table;
  }

  void add_list(const std::string& name, const std::string& title, const std::vector<Change>& changes) {
    std::vector<Block> blocks;
    List short_ones;
    std::vector<const Change*> goods;
    for (const auto& change : changes)
      if (price_move(change)) goods.push_back(&change);
    if (goods.size() < min_overview) goods.clear();
    if (!goods.empty()) blocks.push_back(goods_table(goods));
    std::vector<const Change*> reached;
    for (const auto& change : changes) {
      if (change.kind == Kind::removed) {
        short_ones.items.push_back({Run().strong(change.name).plain(": gone"), {}});
      } else if (change.kind == Kind::added && change.after->pours.empty()) {
        short_ones.items.push_back({Run().strong(change.name).plain(": new"), {}});
      } else if (!change.is_own) {
        reached.push_back(&change);
      } else if (std::find(goods.begin(), goods.end(), &change) == goods.end()) {
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
  const Overview overview_;
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

std::string sides_in_words(const Changes& changes) {
  std::string labels = fmt::format("{} → {}", changes.before_label, changes.after_label);
  const std::string &before = changes.before_menu, &after = changes.after_menu;
  if (after.empty() || before == after || !changes.brings_menu)
    return fmt::format("{}: {}", changes.house, labels);
  return fmt::format("{}: {} → {} ({})", changes.house, before.empty() ? "no menu" : before, after, labels);
}

std::vector<std::string> standing_lines() {
  return {wording::evaluated_line, wording::shared_equipment_line};
}

Page whole_page(const Changes& changes) { return PageBuilder(changes, nullptr).run_whole(); }

Page change_page(const Changes& changes, const BothBooks* books) {
  return PageBuilder(changes, books).build();
}

}  // namespace gill::diff
