#pragma once
#include <cstdint>
#include <limits>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "diff/figure.h"
#include "diff/snapshot.h"
#include "model/cost.h"

namespace gill::diff {

/// A number that names the same thing on both sides; things that only one side has have numbers of their own.
using Identity = std::uint32_t;
inline constexpr Identity no_identity = std::numeric_limits<Identity>::max();

/// Which stock and which drink of either side is the same.
struct Identities {
  std::vector<Identity> stock;
  std::vector<Identity> drinks;
};

/// What a line of a build says to pour, apart from how it is spelt.
struct Measured {
  analysis::Amount::Form form = analysis::Amount::Form::measured;
  units::Kind kind = units::Kind::count;
  /// In the kind's base unit; of `fill` and `until` the target.
  double value = 0;
  double low = 0, high = 0;
  /// The number as written, in the unit as written.
  double number = 0;
  std::string unit;
  /// True where the line itself says how exact the amount is: `± 2 ml`, `about`, a range.
  bool states_tolerance = false;
  double tolerance = 0;
  /// `top` without an amount, `rim`: poured by eye.
  bool by_eye = false;
  /// Of `until`: the property, and the part of what is added.
  analysis::UntilProperty until = analysis::UntilProperty::acid;
  double parts = 1;
};

/// One line of a build: what is poured, rinsed, topped, floated, misted, put on the rim, on or beside the
/// drink.
struct Pour {
  /// With its item word: `lemon twist`.
  std::string name;
  Identity identity = no_identity;
  std::string item;
  model::Role role = model::Role::amount;
  Measured measured;
  /// What it comes to in the model; of a bowl, the whole.
  std::optional<double> volume_ml, mass_g, count;
  /// As it is printed, in the columns of the new house: `45 ml (1 1/2 oz)`, `2 dashes`.
  std::string amount;
  /// In the first column alone: `45 ml`.
  std::string first_amount;
  /// The temperature that the line asks for.
  std::optional<double> temperature_c;
  std::string temperature_words;
  bool optional = false;
  /// Stand-ins, notes to the maker, the text below the line.
  std::vector<std::string> remarks;

  bool same_place_as(const Pour& other) const {
    return identity == other.identity && item == other.item && role == other.role;
  }
};

/// One step of the method. Two steps are the same when their meaning is.
struct MethodStep {
  std::string meaning;
  /// The verb or `add`: what tells that a step was changed rather than replaced.
  std::string verb;
  std::string words;
};

/// Anything else that a declaration says.
struct Property {
  std::string name;
  std::string meaning;
  std::string words;
  /// How far a change of it goes: not beyond the declaration, to the cost of what is made of it, or to its
  /// taste.
  enum class Reach : std::uint8_t { none, cost, taste } reach = Reach::none;
};

struct Allergen {
  std::string code;
  /// The names of the stock by which it comes.
  std::vector<std::string> via;
};

struct AllergenSheet {
  /// By code.
  std::vector<Allergen> present, possible;
  bool known = true;
  /// The parts that say nothing.
  std::vector<std::string> unknown;
};

/// All that is compared of one declaration.
struct Sheet {
  std::string name;
  std::vector<Property> properties;
  std::vector<Pour> pours;
  std::vector<MethodStep> method;
  /// What goes straight into the glass, in the order of pouring.
  std::vector<Identity> into_glass;
  std::vector<FigureValue> figures;
  AllergenSheet allergens;
  /// False where a part of it is in error: its figures are then not told.
  bool valid = true;
  bool is_drink = false;
  /// The menu of the price, where another one has the drink at another price; else empty.
  std::string price_menu;
};

/// Makes sheets of one side. Amounts are put in the columns of `columns_of`'s house.
class SheetMaker {
 public:
  /// Drinks in `on_season` show their price on a menu of the season.
  SheetMaker(const Snapshot& snapshot, const Identities& same, const Snapshot& columns_of,
             const std::vector<bool>& is_season_menu, const std::set<Identity>& on_season);

  Sheet drink(analysis::DrinkId id) const;
  Sheet stock(analysis::StockId id) const;
  Sheet glass(analysis::GlassId id) const;
  Sheet ice(analysis::IceId id) const;
  Sheet family(analysis::FamilyId id) const;
  Sheet house() const;

  /// The price as the menu that runs last shows it; null where none has one.
  const units::Money* price_of(analysis::DrinkId id) const { return shown_[id.index()].price; }

 private:
  void add_recipe(Sheet& sheet, const analysis::Recipe& recipe, const std::vector<model::Entry>& entries,
                  double serves, bool is_prep) const;
  void add_drink_properties(Sheet& sheet, analysis::DrinkId id) const;
  void add_garnish(Sheet& sheet, const analysis::Drink& drink, const std::vector<std::string>& words) const;
  std::string batched_words(const analysis::Batched& batched) const;
  void add_drink_figures(Sheet& sheet, const model::DrinkFacts& facts) const;
  void add_drink_money(Sheet& sheet, analysis::DrinkId id) const;
  void add_stock_figures(Sheet& sheet, const analysis::Stock& stock, const model::StockFacts& facts) const;
  void add_stock_properties(Sheet& sheet, analysis::StockId id) const;
  void add_prices(Sheet& sheet, analysis::StockId id) const;
  void add_allergens(Sheet& sheet, const model::Allergens& allergens, bool known) const;

  const Snapshot& snapshot_;
  const Identities& same_;
  std::vector<units::UnitId> drink_columns_, prep_columns_;
  diagnostics::DiagnosticSink silent_;
  model::Measuring measuring_;
  model::Prices prices_;
  struct Shown {
    analysis::MenuId menu;
    const units::Money* price = nullptr;
    /// What it is for, where the menu says it: `a bowl`.
    std::string_view sold_by = {};
    /// Another menu has it at another price.
    bool is_one_of_several = false;
  };
  void show_prices(const std::vector<analysis::MenuId>& menus, const std::set<Identity>* only);

  /// By drink: its price on the menu that runs last among those that price it, of the season's first.
  std::vector<Shown> shown_;
};

}  // namespace gill::diff
