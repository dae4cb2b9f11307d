#pragma once
#include <map>
#include <string>
#include <vector>

#include "diff/changes.h"

namespace gill::diff {

/// A line of a build for those who pour it.
struct StaffLine {
  std::string name;
  std::string amount;
};

/// A whole build, to be learnt.
struct StaffBuild {
  std::string name;
  /// The old name of what was renamed, and whether nobody says so and it is a guess.
  std::string was;
  bool was_guessed = false;
  std::vector<StaffLine> lines;
  std::vector<std::string> method;
  /// Glass, ice, garnish, in words; of a prep what it makes and how long it keeps.
  std::vector<std::pair<std::string, std::string>> serve;
  /// What a guest is told of it, and what whoever sells it must say: allergens, raw egg.
  std::vector<std::string> duties;
};

struct StaffAmount {
  std::string name;
  /// Empty where the line is new or gone.
  std::string before, after;
};

/// What hands do differently in a build that they know.
struct StaffRework {
  std::string name;
  std::string was;
  bool was_guessed = false;
  /// Amounts, and glass, ice and garnish.
  std::vector<StaffAmount> lines;
  /// One sentence a change of the method.
  std::vector<std::string> method;
  /// It is made as before, and something else is in the glass.
  bool tastes_otherwise = false;
};

/// Everything for one place of work.
struct Station {
  std::string name;
  std::vector<StaffBuild> learn;
  std::vector<StaffRework> change;
  /// Drinks that are made no more.
  std::vector<std::string> stop;
  std::vector<StaffBuild> preps_to_start;
  /// With the whole new recipe of each: what it makes is new, too.
  std::vector<StaffRework> preps_to_change;
  std::vector<StaffBuild> new_recipes;
  /// What is left of the old ones, and of what was made of them.
  std::vector<std::string> pour_away;
  std::vector<std::string> preps_to_stop;
  std::vector<std::string> glasses_to_pull, glasses_to_put_away;

  bool empty() const;
};

/// Who gains an allergen, or may, or of whom it is not known any more.
struct AllergenAlert {
  std::string name;
  bool is_new = false;
  const AllergenChange* change = nullptr;
};

/// Who must be told of first: changed ones before new ones, each by name.
std::vector<AllergenAlert> allergen_alerts(const Changes& changes);

/// What hands must do differently, by station: no figures, no prices, no words. Drafts and retired drinks are
/// not made.
struct StaffSheet {
  std::string house;
  std::string before_label, after_label;
  /// Both sides as a reader knows them, and from which day (ISO 8601) the new menu runs; empty where none
  /// does.
  std::string sides, from;
  std::vector<AllergenAlert> alerts;
  /// Drinks that taste otherwise though they are made as before, each with why.
  std::vector<std::string> taste;
  /// Drinks that are served as before, and come on another menu or go off one.
  std::vector<std::string> other_menus;
  std::vector<Station> stations;
  /// What is bought and goes into something made now and into nothing before, and the other way round.
  std::vector<std::string> goods_to_bring, goods_to_put_away;
  std::vector<NotCompared> not_compared;
};

/// Points into `changes`, which must outlive it.
StaffSheet staff_sheet(const Changes& changes, const Snapshot& before, const Snapshot& after);

}  // namespace gill::diff
