#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/percent.h"
#include "base/text.h"
#include "diff/causes.h"
#include "diff/changes.h"
#include "diff/compare_sheets.h"
#include "diff/matching.h"
#include "diff/menus.h"
#include "diff/mixture.h"
#include "diff/served.h"
#include "diff/unchanged.h"
#include "model/money.h"
#include "render/wording/measures.h"
#include "render/wording/numbers.h"

namespace gill::diff {
namespace {

bool has_cost_change(const Change& change) {
  return std::any_of(change.figures.begin(), change.figures.end(),
                     [](const FigureChange& figure) { return is_cost(figure.after.figure); });
}

bool has_effect(const Change& change) {
  bool follows = std::any_of(change.pours.begin(), change.pours.end(),
                             [](const PourChange& pour) { return pour.follows; });
  return follows || !change.figures.empty() || change.allergens.any();
}

template <typename Changed>
void sort_by_name(std::vector<Changed>& changes) {
  std::stable_sort(changes.begin(), changes.end(), [](const Changed& a, const Changed& b) {
    return std::pair(base::fold_name(a.name), a.name) < std::pair(base::fold_name(b.name), b.name);
  });
}

bool in_error(const analysis::Head& head) { return head.has_errors || head.has_amount_errors; }

class Comparer {
 public:
  Comparer(const Snapshot& before, const Snapshot& after)
      : before_(before),
        after_(after),
        matching_(match_snapshots(before, after)),
        season_(season_menus(before.specs, after.specs)),
        on_season_(drinks_on_season(before, after, matching_, season_)),
        old_sheets_(before, matching_.before, after, season_.before, on_season_),
        new_sheets_(after, matching_.after, after, season_.after, on_season_),
        old_causes_(before),
        new_causes_(after) {}

  Changes compare() {
    result_.before_label = before_.label;
    if (const auto* menu = last_menu(before_.specs, season_.before)) {
      result_.before_menu = menu->head.name;
      result_.before_from = menu->runs_from;
    }
    if (const auto* menu = last_menu(after_.specs, season_.after)) {
      result_.after_menu = menu->head.name;
      result_.after_from = menu->runs_from;
      result_.brings_menu = std::none_of(before_.specs.menus.begin(), before_.specs.menus.end(),
                                         [&](const auto& one) { return one.head.name == menu->head.name; });
    }
    result_.after_label = after_.label;
    result_.house = after_.specs.house.head.name;
    compare_house();
    compare_small();
    compare_stock();
    finish_stock();
    compare_drinks();
    note_menu_moves();
    result_.menus = compare_menus(before_, after_, matching_);
    sort_by_name(result_.drinks);
    sort_by_name(result_.preps);
    sort_by_name(result_.ingredients);
    sort_by_name(result_.not_compared);
    return std::move(result_);
  }

 private:
  std::size_t add_cause(std::string name, Cause::Shows shows) {
    causes_.push_back({std::move(name), shows});
    return causes_.size() - 1;
  }

  // ---- house and units

  void compare_house() {
    result_.house_lines = compare_properties(old_sheets_.house().properties, new_sheets_.house().properties);
    for (const auto& line : result_.house_lines) {
      bool warmth = line.name == "room" || line.name == "fridge" || line.name == "freezer" ||
                    line.name == "ice" || line.name.starts_with("hands ");
      bool money = line.name == "tax" || line.name == "rate" || line.name == "currency";
      if (!warmth && !money) continue;
      auto cause = add_cause(line.name, warmth ? Cause::Shows::with_figures : Cause::Shows::with_cost);
      old_causes_.add_house_line(cause, line.name);
      new_causes_.add_house_line(cause, line.name);
    }
    compare_units();
    if (base::fold_name(before_.specs.house.head.name) != base::fold_name(after_.specs.house.head.name) &&
        before_.specs.house.head.declaration_id.valid() && after_.specs.house.head.declaration_id.valid())
      result_.house_lines.insert(result_.house_lines.begin(),
                                 {"name", property("name", before_.specs.house.head.name),
                                  property("name", after_.specs.house.head.name)});
  }

  static Property property(const std::string& name, const std::string& words) {
    return {name, words, words, Property::Reach::none};
  }

  /// The ounce, the cup and the pint are lines of the house; other units are declared by name.
  static std::string line_of_unit(const units::Unit& unit) {
    if (unit.symbol == "oz") return "ounce";
    bool is_line =
        unit.symbol == "cup" || unit.symbol == "pint" || unit.symbol == "quart" || unit.symbol == "gallon";
    return is_line ? unit.symbol : "unit " + unit.symbol;
  }

  static std::string unit_words(const units::Unit& unit) {
    static const std::map<units::Kind, std::string> base_units = {{units::Kind::volume, "ml"},
                                                                  {units::Kind::mass, "g"},
                                                                  {units::Kind::time, "s"},
                                                                  {units::Kind::length, "mm"}};
    auto base_unit = base_units.find(unit.kind);
    std::string words = base::to_decimal(unit.factor, 4);
    if (base_unit != base_units.end()) words += " " + base_unit->second;
    if (unit.tolerance)
      words += fmt::format(" ± {} %", render::wording::trimmed(base::percent_of_share(*unit.tolerance), 1));
    return words;
  }

  static std::map<std::string, units::UnitId> units_by_symbol(const units::UnitTable& units) {
    std::map<std::string, units::UnitId> symbols;
    for (std::size_t i = 0; i < units.size(); ++i) {
      auto id = units.find(units[units::UnitId::at(i)].symbol);
      if (id.valid()) symbols[units[id].symbol] = id;
    }
    return symbols;
  }

  void compare_units() {
    auto old_units = units_by_symbol(before_.units), new_units = units_by_symbol(after_.units);
    auto all = old_units;
    all.insert(new_units.begin(), new_units.end());
    for (const auto& [symbol, any] : all) {
      auto old = old_units.find(symbol), now = new_units.find(symbol);
      const units::Unit* a = old == old_units.end() ? nullptr : &before_.units[old->second];
      const units::Unit* b = now == new_units.end() ? nullptr : &after_.units[now->second];
      bool same_size = a && b && a->kind == b->kind && a->factor == b->factor && a->offset == b->offset;
      if (same_size && a->tolerance == b->tolerance) continue;
      std::string line = line_of_unit(b ? *b : *a);
      PropertyChange change{line, std::nullopt, std::nullopt};
      if (a) change.before = property(line, unit_words(*a));
      if (b) change.after = property(line, unit_words(*b));
      result_.house_lines.push_back(std::move(change));
      if (same_size || !a || !b) continue;
      auto cause = add_cause(line.starts_with("unit ") ? symbol : line, Cause::Shows::with_figures);
      old_causes_.add_unit(cause, old->second);
      new_causes_.add_unit(cause, now->second);
    }
  }

  // ---- glasses, ice, families

  template <typename Declared, typename MakeSheets, typename AddCause>
  void compare_table(const std::vector<Declared>& old_table, const std::vector<Declared>& new_table,
                     MakeSheets sheet, AddCause add, std::vector<Change>& changes) {
    auto old_names = by_folded_name(old_table), new_names = by_folded_name(new_table);
    auto is_of_house = [](const std::vector<Declared>& table, const auto& names, const std::string& name) {
      auto found = names.find(name);
      return found != names.end() && !table[found->second].head.from_library;
    };
    std::map<std::string, bool> names;
    for (const auto& [name, index] : old_names) names[name] |= is_of_house(old_table, old_names, name);
    for (const auto& [name, index] : new_names) names[name] |= is_of_house(new_table, new_names, name);
    for (const auto& [name, of_house] : names) {
      if (!of_house) continue;
      auto old = old_names.find(name), now = new_names.find(name);
      std::optional<Sheet> before, after;
      if (old != old_names.end()) before = sheet(true, old->second);
      if (now != new_names.end()) after = sheet(false, now->second);
      Change change = compare_sheets(before ? &*before : nullptr, after ? &*after : nullptr);
      if (change.kind == Kind::changed && !change.says_anything()) continue;
      if (before) change.before_index = old->second;
      if (after) change.after_index = now->second;
      if (before && after) add(change.name, old->second, now->second);
      changes.push_back(std::move(change));
    }
  }

  void compare_small() {
    compare_table(
        before_.specs.glasses, after_.specs.glasses,
        [&](bool old, std::size_t i) {
          return (old ? old_sheets_ : new_sheets_).glass(analysis::GlassId::at(i));
        },
        [&](const std::string& name, std::size_t i, std::size_t j) {
          auto cause = add_cause(name, Cause::Shows::with_figures);
          old_causes_.add_glass(cause, analysis::GlassId::at(i));
          new_causes_.add_glass(cause, analysis::GlassId::at(j));
        },
        result_.glasses);
    compare_table(
        before_.specs.ices, after_.specs.ices,
        [&](bool old, std::size_t i) {
          return (old ? old_sheets_ : new_sheets_).ice(analysis::IceId::at(i));
        },
        [&](const std::string& name, std::size_t i, std::size_t j) {
          auto cause = add_cause(name, Cause::Shows::with_figures);
          old_causes_.add_ice(cause, analysis::IceId::at(i));
          new_causes_.add_ice(cause, analysis::IceId::at(j));
        },
        result_.ices);
    compare_table(
        before_.specs.families, after_.specs.families,
        [&](bool old, std::size_t i) {
          return (old ? old_sheets_ : new_sheets_).family(analysis::FamilyId::at(i));
        },
        [](const std::string&, std::size_t, std::size_t) {}, result_.families);
  }

  // ---- stock

  Change compare_match(const Match& match, const std::optional<Sheet>& before,
                       const std::optional<Sheet>& after) const {
    Change change = compare_sheets(before ? &*before : nullptr, after ? &*after : nullptr);
    if (before && after && base::fold_name(before->name) != base::fold_name(after->name)) {
      change.kind = Kind::renamed;
      change.was = before->name;
      change.likeness = match.likeness;
    }
    change.before_index = match.before;
    change.after_index = match.after;
    return change;
  }

  /// Reports a declaration of which a line is in error on a side, where there is another side to compare it
  /// with.
  bool note_error(const char* kind, const Match& match, const analysis::Head* old,
                  const analysis::Head* now) {
    if (!match.before || !match.after || (!in_error(*old) && !in_error(*now))) return false;
    result_.not_compared.push_back({kind, now->name, in_error(*old), in_error(*now)});
    return true;
  }

  /// How far a change of a stock's own goes.
  static Property::Reach reach_of(const Change& change, bool is_prep) {
    if (is_prep && is_another_mixture(change)) return Property::Reach::taste;
    if (!is_prep && change.kind == Kind::renamed && change.likeness) return Property::Reach::taste;
    auto reach = Property::Reach::none;
    bool bought_otherwise = false;
    for (const auto& property : change.properties) {
      auto one = (property.after ? property.after : property.before)->reach;
      bought_otherwise |= one == Property::Reach::cost;
      if (one == Property::Reach::taste && !is_prep) reach = one;
    }
    if (!is_prep) {
      if (change.allergens.any()) reach = Property::Reach::taste;
      for (const auto& figure : change.figures)
        if (!is_cost(figure.after.figure)) reach = Property::Reach::taste;
    }
    return reach == Property::Reach::none && bought_otherwise ? Property::Reach::cost : reach;
  }

  void compare_stock() {
    for (const auto& match : matching_.stock) {
      const analysis::Stock* old = match.before ? &before_.specs.stock[*match.before] : nullptr;
      const analysis::Stock* now = match.after ? &after_.specs.stock[*match.after] : nullptr;
      bool is_prep = (now ? now : old)->is_prep;
      if (note_error(is_prep ? "prep" : "ingredient", match, old ? &old->head : nullptr,
                     now ? &now->head : nullptr))
        continue;
      std::optional<Sheet> before, after;
      if (old) before = old_sheets_.stock(analysis::StockId::at(*match.before));
      if (now) after = new_sheets_.stock(analysis::StockId::at(*match.after));
      Change change = compare_match(match, before, after);
      if (old && now) add_stock_cause(change, match, is_prep);
      stock_changes_.emplace_back(std::move(change), is_prep);
    }
  }

  void add_stock_cause(Change& change, const Match& match, bool is_prep) {
    auto reach = reach_of(change, is_prep);
    bool own = std::any_of(change.pours.begin(), change.pours.end(),
                           [](const PourChange& pour) { return !pour.follows; });
    change.is_own =
        own || reach != Property::Reach::none || !change.properties.empty() || change.kind == Kind::renamed;
    if (reach == Property::Reach::none) return;
    auto cause = add_cause(change.name,
                           reach == Property::Reach::taste ? Cause::Shows::always : Cause::Shows::with_cost);
    old_causes_.add_stock(cause, *match.before);
    new_causes_.add_stock(cause, *match.after);
  }

  void finish_stock() {
    for (auto& [change, is_prep] : stock_changes_) {
      if (change.before && change.after) {
        add_because(change, old_causes_.reached().stock[*change.before_index],
                    new_causes_.reached().stock[*change.after_index]);
        if (change.kind == Kind::changed && !change.says_anything() && change.because.empty()) continue;
      }
      (is_prep ? result_.preps : result_.ingredients).push_back(std::move(change));
    }
  }

  /// A price reaches only what is still made of the thing; what was taken out had its taste.
  void add_because(Change& change, const std::vector<std::size_t>& old,
                   const std::vector<std::size_t>& now) const {
    std::vector<std::size_t> causes = old;
    causes.insert(causes.end(), now.begin(), now.end());
    std::sort(causes.begin(), causes.end());
    causes.erase(std::unique(causes.begin(), causes.end()), causes.end());
    for (auto index : causes) {
      const auto& cause = causes_[index];
      bool shows = cause.shows == Cause::Shows::always ||
                   (cause.shows == Cause::Shows::with_figures && has_effect(change)) ||
                   (cause.shows == Cause::Shows::with_cost && has_cost_change(change) &&
                    std::find(now.begin(), now.end(), index) != now.end());
      if (!shows) continue;
      change.because.push_back(cause.name);
      if (cause.shows != Cause::Shows::with_cost) change.taste_because.push_back(cause.name);
    }
    for (auto* names : {&change.because, &change.taste_because}) {
      std::sort(names->begin(), names->end());
      names->erase(std::unique(names->begin(), names->end()), names->end());
    }
  }

  // ---- drinks

  bool is_always_reached(const Match& match) const {
    auto always = [&](std::size_t cause) { return causes_[cause].shows == Cause::Shows::always; };
    const auto& old = old_causes_.reached().drinks[*match.before];
    const auto& now = new_causes_.reached().drinks[*match.after];
    return std::any_of(old.begin(), old.end(), always) || std::any_of(now.begin(), now.end(), always);
  }

  bool has_same_price(const Match& match) const {
    const auto* old = old_sheets_.price_of(analysis::DrinkId::at(*match.before));
    const auto* now = new_sheets_.price_of(analysis::DrinkId::at(*match.after));
    return old && now ? old->amount == now->amount && old->currency == now->currency : !old && !now;
  }

  void compare_drinks() {
    UnchangedDrinks unchanged(before_, after_, matching_);
    const auto& old_tax = before_.specs.house.tax;
    const auto& new_tax = after_.specs.house.tax;
    bool same_money =
        before_.facts.currency == after_.facts.currency && old_tax.has_value() == new_tax.has_value() &&
        (!old_tax || (old_tax->rate == new_tax->rate && old_tax->included == new_tax->included));
    auto approved = [](const analysis::Drink* drink) { return drink && is_approved(*drink); };
    for (const auto& match : matching_.drinks) {
      const analysis::Drink* old = match.before ? &before_.specs.drinks[*match.before] : nullptr;
      const analysis::Drink* now = match.after ? &after_.specs.drinks[*match.after] : nullptr;
      if (note_error("drink", match, old ? &old->head : nullptr, now ? &now->head : nullptr)) continue;
      if (old && now && same_money && !is_always_reached(match) && has_same_price(match) &&
          unchanged(*match.before, *match.after))
        continue;
      std::optional<Sheet> before, after;
      // Nobody made the draft that is approved now: to hands and guests it is new.
      const bool is_fresh = old && now && !approved(old) && approved(now);
      if (old && !is_fresh) before = old_sheets_.drink(analysis::DrinkId::at(*match.before));
      if (now) after = new_sheets_.drink(analysis::DrinkId::at(*match.after));
      Change change = compare_match(match, before, after);
      change.is_unserved = !approved(old) && !approved(now);
      if (before && after) {
        change.is_own = is_own(change);
        add_because(change, old_causes_.reached().drinks[*match.before],
                    new_causes_.reached().drinks[*match.after]);
        if (change.kind == Kind::changed && !change.says_anything() && change.because.empty()) continue;
      }
      result_.drinks.push_back(std::move(change));
    }
  }

  /// Drinks that come on or off while their specs stay.
  void note_menu_moves() {
    result_.served = served_drinks(before_, after_, matching_.drinks, season_);
    for (const auto& match : matching_.drinks) {
      if (!match.before || !match.after || !is_approved(before_.specs.drinks[*match.before]) ||
          !is_approved(after_.specs.drinks[*match.after]))
        continue;
      const bool was = result_.served.before[*match.before], is = result_.served.after[*match.after];
      if (was == is) continue;
      MenuMove move;
      move.is_on = is;
      move.before_index = *match.before;
      move.after_index = *match.after;
      move.sheet = is ? new_sheets_.drink(analysis::DrinkId::at(*match.after))
                      : old_sheets_.drink(analysis::DrinkId::at(*match.before));
      if (is) move.allergens = compare_sheets(nullptr, &move.sheet).allergens;
      result_.menu_moves.push_back(std::move(move));
    }
    std::stable_sort(result_.menu_moves.begin(), result_.menu_moves.end(),
                     [](const MenuMove& a, const MenuMove& b) {
                       return base::fold_name(a.sheet.name) < base::fold_name(b.sheet.name);
                     });
  }

  static bool is_own(const Change& change) {
    if (change.kind != Kind::changed || !change.properties.empty() || !change.method.empty() ||
        change.pour_order_changed)
      return true;
    for (const auto& figure : change.figures)
      if (figure.after.figure == &figures::price) return true;
    return std::any_of(change.pours.begin(), change.pours.end(),
                       [](const PourChange& pour) { return !pour.follows; });
  }

  const Snapshot& before_;
  const Snapshot& after_;
  Matching matching_;
  SeasonMenus season_;
  std::set<Identity> on_season_;
  SheetMaker old_sheets_, new_sheets_;
  CauseFinder old_causes_, new_causes_;
  std::vector<Cause> causes_;
  std::vector<std::pair<Change, bool>> stock_changes_;
  Changes result_;
};

}  // namespace

Changes compare(const Snapshot& before, const Snapshot& after) { return Comparer(before, after).compare(); }

}  // namespace gill::diff
