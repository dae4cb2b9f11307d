#pragma once
#include <optional>
#include <string>
#include <vector>

#include "diff/sheet.h"

namespace gill::diff {

enum class Kind : std::uint8_t { added, removed, renamed, changed };
/// `added`, `removed`, `renamed`, `changed`.
std::string_view name_of(Kind kind);

/// A line of a build. `before` is empty where it is new, `after` where it is gone.
struct PourChange {
  Kind kind = Kind::changed;
  std::optional<Pour> before, after;
  /// True where the line says what it said and only comes to something else: a unit or a part of it has
  /// changed.
  bool follows = false;

  const Pour& either() const { return after ? *after : *before; }
};

/// A step of the method. Numbers are those of the steps on either side, from 1.
struct StepChange {
  enum class Kind : std::uint8_t { added, removed, changed, moved } kind = Kind::changed;
  std::optional<MethodStep> before, after;
  std::size_t before_number = 0, after_number = 0;
};
std::string_view name_of(StepChange::Kind kind);

struct PropertyChange {
  std::string name;
  std::optional<Property> before, after;

  std::string before_words() const { return before ? before->words : std::string(); }
  std::string after_words() const { return after ? after->words : std::string(); }
};

struct FigureChange {
  FigureValue before, after;
  /// Half the width within which the difference lies: what both sides share is in both alike, and leaves it.
  /// Nothing for figures that have no tolerance.
  std::optional<double> tolerance;
  /// Whether the change is larger than that.
  std::optional<bool> beyond_tolerance;
};

struct AllergenChange {
  std::vector<Allergen> gained, lost;
  /// Those that depend on the maker or on a substitute.
  std::vector<Allergen> possible_gained, possible_lost;
  bool known_before = true, known_after = true;
  /// Parts of the new one that say nothing about allergens and were not there, or said something, before.
  std::vector<std::string> unknown_gained;

  bool any() const {
    return !gained.empty() || !lost.empty() || !possible_gained.empty() || !possible_lost.empty() ||
           !unknown_gained.empty() || known_before != known_after;
  }
};

/// What changed in one declaration.
struct Change {
  Kind kind = Kind::changed;
  /// The new name; of what is gone, the old one.
  std::string name;
  /// The old name of what was renamed.
  std::string was;
  /// Of a rename that nobody declares: the share of the two builds that is the same, 0 to 1.
  std::optional<double> likeness;
  /// What was changed elsewhere and reaches this, by name; and those of it that reach more than its cost.
  std::vector<std::string> because, taste_because;
  /// True when the declaration itself says something else, and does not only follow from another.
  bool is_own = true;
  std::vector<PropertyChange> properties;
  std::vector<PourChange> pours;
  std::vector<StepChange> method;
  /// True where what goes into the glass goes in another order.
  bool pour_order_changed = false;
  std::vector<FigureChange> figures;
  AllergenChange allergens;
  /// Of a drink: true where guests get it on neither side, since it is a draft or retired.
  bool is_unserved = false;
  /// The whole of either side.
  std::optional<Sheet> before, after;
  /// Its place in the tables of either side.
  std::optional<std::size_t> before_index, after_index;

  const Sheet& either() const { return after ? *after : *before; }
  const std::optional<Sheet>& either_sheet() const { return after ? after : before; }
  /// True when anything but its name or its causes differs.
  bool says_anything() const;
};

/// One drink of a menu.
struct MenuLine {
  std::string drink;
  std::string section;
  /// From 1, in its section.
  std::size_t position = 1;
  std::optional<units::Money> price;
  /// What it is for, where the line says it: `a bowl`.
  std::string sold_by;
  /// `40, Fri 60`: what it sells a day; empty where the line does not say.
  std::string sells;
};

struct MenuLineChange {
  std::string drink;
  std::optional<MenuLine> before, after;
  bool moved = false, price_changed = false, sells_changed = false;
};

struct MenuChange {
  Kind kind = Kind::changed;
  std::string name;
  std::vector<PropertyChange> properties;
  std::vector<MenuLineChange> lines;
};

/// What guests get, by the places in the tables of either side: what is approved, and where menus say what is
/// on, what stands on one that runs. A drink on no menu of either side is served from its spec.
struct Served {
  std::vector<bool> before, after;
};

/// A drink whose spec stands on both sides, and which is on a menu that runs on one of them only.
struct MenuMove {
  bool is_on = false;
  /// It where it is on: as it is now, or as it was.
  Sheet sheet;
  std::size_t before_index = 0, after_index = 0;
  /// What whoever did not serve it before must know.
  AllergenChange allergens;
};

/// A drink or prep that could not be compared, since a line of it is in error.
struct NotCompared {
  std::string kind;
  std::string name;
  bool in_before = false, in_after = false;
};

/// Everything that changed, each list in the order of names.
struct Changes {
  std::string before_label, after_label;
  /// The menu that runs last on either side, and from when it does (ISO 8601); empty without one.
  std::string before_menu, after_menu, before_from, after_from;
  /// The menu that runs last after did not stand before: a season follows on another.
  bool brings_menu = false;
  std::string house;
  std::vector<Change> drinks, preps, ingredients, glasses, ices, families;
  std::vector<MenuChange> menus;
  std::vector<MenuMove> menu_moves;
  Served served;
  /// Lines of the house, and its units as `unit dash`.
  std::vector<PropertyChange> house_lines;
  std::vector<NotCompared> not_compared;

  bool empty() const;
};

/// Compares two houses. Names are matched folded; a drink by its `was` as well, and what is left by how much
/// two builds share. Layout, spelling, order of declarations and files, and equal amounts in other units are
/// no change. A change of a prep, an ingredient, a unit, a glass, an ice or a line of the house stands in
/// every drink and prep that it reaches, to any depth, with its name in `because`.
Changes compare(const Snapshot& before, const Snapshot& after);

}  // namespace gill::diff
