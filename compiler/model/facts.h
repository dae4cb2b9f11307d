#pragma once
#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "analysis/specs.h"
#include "model/cause.h"
#include "model/explain.h"
#include "model/physics/components.h"
#include "model/physics/composition.h"
#include "model/traces.h"

/// What the compiler knows of a house: every ingredient, prep and drink evaluated. What is decided about a
/// drink is decided here, and whoever prints it only puts it into words.
namespace gill::model {

/// A liquid in figures. Volumes and strength at 20 °C, as labels state them; acid as citric equivalents.
struct Figures {
  double volume_ml = 0;
  double mass_g = 0;
  double abv_percent = 0;
  double sugar_g_per_100ml = 0;
  double acid_g_per_100ml = 0;
  double density_g_per_ml = 0;
  double temperature_c = 20;

  /// Sugar over acid; nothing where there is next to no acid (below 0.05 g/100 ml).
  std::optional<double> sugar_acid_ratio() const;
};

/// Half the width within which each figure lies: the root of the sum of squares of every cause's effect.
struct Tolerance {
  double abv_percent = 0;
  double sugar_g_per_100ml = 0;
  double acid_g_per_100ml = 0;
  double volume_ml = 0;
  double sugar_acid_ratio = 0;
  double sweetness_g_per_100ml = 0;
};

/// How much one cause moves the results: the mean of both ways, with the sign of the way up.
struct Influence {
  Cause cause;
  double width = 0;
  Tolerance effect;
};

/// One allergen with the stock that it comes by.
struct AllergenRoute {
  std::string code;  ///< without a space: `nuts:almond`
  bool may = false;  ///< depends on the maker, or comes with a permitted substitute
  std::vector<analysis::StockId> via;
};

struct Allergens {
  /// Present ones first, then those that may be; each in the order of the house's list, others by name.
  std::vector<AllergenRoute> routes;
  /// False while any part says nothing about allergens, or a line of it or of what it is made of could not be
  /// read: then the lists are what is known, not all there is.
  bool known = true;
  /// Nothing goes in yet, so nothing is known.
  bool is_of_nothing = false;
  /// The parts that say nothing.
  std::vector<analysis::StockId> unknown;
  /// Names written as garnish that nothing declares.
  std::vector<std::string> undeclared;

  std::vector<std::string> present() const;
  std::vector<std::string> possible() const;
};

/// Where a thing or a whole comes from, each kind with what it comes by.
struct OriginRoute {
  analysis::Origin origin = analysis::Origin::plant;
  /// True where it depends on the maker, on a stand-in or on what is optional.
  bool may = false;
  std::vector<analysis::StockId> via;
};

/// Does it hold so? Never answered by silence.
enum class Answer : std::uint8_t { no, yes, not_known };

struct Origins {
  std::vector<OriginRoute> routes;
  /// False where a part says nothing of where it comes from, or a line could not be read.
  bool known = true;
  std::vector<analysis::StockId> unknown;
  /// Names written as garnish that nothing declares.
  std::vector<std::string> undeclared;
};

/// Alcohol units of a country (labelling.md's table).
using AlcoholUnits = std::map<std::string, double>;

/// What an entry of a build is.
enum class Role : std::uint8_t { amount, rinse, top, float_, mist, rim, garnish, side };

/// One thing that goes into a drink or prep, turned into every measure that is known. Of a drink: for one
/// serve.
struct Entry {
  Role role = Role::amount;
  analysis::Use use;
  /// Name with its item word.
  std::string name;
  std::string as_written;
  std::optional<double> volume_ml, mass_g, count;
  std::optional<units::Money> cost;
  bool solved = false;    ///< `until`, `to`, a part or a top: the amount was evaluated
  bool optional = false;  ///< not in figures or cost
  /// Index in the recipe's amounts, or in its steps where `role` is not `amount`.
  std::size_t index = 0;
};

/// The vessel's liquid at a moment, for lint and `--work`.
struct VesselState {
  Masses masses;
  double temperature_c = 20;
  double foam_ml = 0;
  /// Ice lying in it (glass) or with it (shaker), g.
  double ice_g = 0;
};

/// One line of the recipe as it was simulated.
struct TraceStep {
  bool is_amount = true;
  /// Index in the recipe's amounts or steps.
  std::size_t index = 0;
  bool in_glass = false;
  VesselState before, after;
  double melt_g = 0;
  /// What a step that melts ice was reckoned with, s, where its line gives no time.
  std::optional<double> assumed_time_s;
  /// The hottest that the step poured into the glass, °C; nothing where it poured nothing there.
  std::optional<double> poured_into_glass_c;
  /// Which stock is in the vessel after the step (index into Specs::stock), in the order in which it went in.
  std::vector<analysis::StockId> contents;
  /// The method used, with its figures; `explain` makes sentences of them.
  std::vector<Reckoning> work;
};

/// On what ice a drink is served.
struct ServedIce {
  enum class Kind : std::uint8_t {
    none,
    ice,      ///< `use` says which, and how much where a line does
    shakers,  ///< what it was shaken with comes along
    blended,  ///< blended into the drink and drunk with it
  };
  Kind kind = Kind::none;
  analysis::IceUse use;
  /// True when a count, a weight or a single piece says how much there is; a scoop is what the glass takes.
  bool is_measured = false;
};

/// Ice of one kind that a serve takes from the well: what it is shaken, stirred, whipped or blended with, and
/// what goes into the glass.
struct IceUsed {
  analysis::IceId ice;
  double grams = 0;
};

/// What stands in the glass at the moment it is served.
struct InGlass {
  double liquid_ml = 0;
  double foam_ml = 0;
  /// Volume of floats and layers, lowest first, part of `liquid_ml`.
  std::vector<std::pair<analysis::StockId, double>> floats;
  analysis::IceId ice;
  double ice_g = 0;
  double ice_below_ml = 0;  ///< part of the ice under the surface
  double ice_above_ml = 0;
  /// Liquid, foam and the ice below the surface: where the drink comes to.
  double level_ml = 0;
};

/// A drink with one permitted substitute in place of what it stands in for.
struct Alternative {
  analysis::StockId instead_of, substitute;
  Figures served;
};

/// A drink that has stood on its ice for a while, untouched: an estimate.
struct ServedLater {
  double minutes = 0;
  Figures figures;
  double ice_g = 0;
};

struct DrinkFacts {
  analysis::DrinkId drink;
  /// False where an amount of it, or of anything that it is made of, is in error: the figures are then what
  /// could be evaluated, and must not be trusted.
  bool valid = true;
  /// No amount is written yet: it is not valid then, and in no error.
  bool is_empty = false;
  double serves = 1;
  ServedIce served_on;
  /// By kind, each once. None of it for what a house bottle is mixed of: that is chilled as it stands.
  std::vector<IceUsed> ice_used;
  /// From which glass or cup a guest drinks it: the cup of a bowl that several share, else the glass; invalid
  /// where none is named.
  analysis::GlassId drunk_from;
  /// True for a cup filled from a bowl that several share: the ice stays in the bowl.
  bool shared = false;
  /// Served warm enough to be a hot drink (`hot_drink_from_c`).
  bool is_hot = false;
  // Everything below is for one serve.
  Figures mixed, served;
  /// Of all causes, and of what is written alone (labels, juices, loose units): a recipe is judged by the
  /// second.
  Tolerance tolerance, written_tolerance;
  std::vector<Influence> influences;
  /// After 5 and 10 minutes on the ice in the glass; empty without ice.
  std::vector<ServedLater> served_later;
  double dilution_percent = 0;
  /// The melt of the method up to the glass, ml: the water that a bottle batched for the drink holds in place
  /// of it. What the ice in the glass gives as the drink is served comes then as ever; ice that is blended in
  /// is the drink's own.
  double bottle_water_ml = 0;
  /// Sugar as so much table sugar as tastes as sweet, and how far the kinds of sugar leave that open.
  double sweetness_g_per_100ml = 0, sweetness_width = 0;
  /// As served.
  Traces traces;
  std::vector<Statement> statements;
  /// Volumes of CO2 as served.
  double fizz_vol = 0;
  double ethanol_g = 0;
  double energy_kcal = 0, energy_kj = 0;
  AlcoholUnits alcohol_units;
  std::optional<double> glass_fill_percent;
  /// More than the glass holds, whatever of it is loose: with half of a scoop that nobody measured, and
  /// within what its amounts are good for.
  bool overflows = false;
  InGlass in_glass;
  Allergens allergens;
  /// In the house's currency, to the billionth; nothing while a price is missing.
  std::optional<units::Money> cost;
  std::vector<analysis::StockId> without_price;
  std::vector<Entry> entries;
  std::vector<TraceStep> trace;
  /// True where a step moved the liquid to the glass.
  bool reached_glass = false;
  Origins origins;
  std::vector<Alternative> alternatives;
  /// The drink's colour, `#rrggbb`, from what its ingredients declare.
  std::string colour;
  /// Preps and ingredients used, each once, through preps to any depth.
  std::vector<analysis::StockId> uses;
};

/// What instruments would show of a liquid at 20 °C. They read acid, alcohol and extract as sugar.
struct Shown {
  std::optional<double> refractometer_brix;
  double refractometer_tolerance_brix = 0;
  std::optional<double> hydrometer_specific_gravity;
  /// A saccharometer's scale, for what is no lighter than water; an alcoholmeter's, for what is no heavier.
  std::optional<double> hydrometer_brix, hydrometer_abv_percent;
  std::optional<double> weight_of_100ml_g;
  double density_tolerance_g_per_ml = 0;
  /// What the liquid of a full bottle weighs, where a line says how large it is.
  std::optional<double> bottle_g, bottle_ml;
};

/// What follows of a liquid's density alone.
Shown shown_of_density(double density_g_per_ml, std::optional<double> bottle_ml);

/// A value that somebody measured of a prep, beside what goes in would make; both in `unit`.
struct Reading {
  enum class Of : std::uint8_t { strength, sugar, acid, density, refractometer, hydrometer };
  Of of = Of::strength;
  source::Span span;
  double measured = 0, computed = 0;
  /// The tolerance of what goes in.
  double computed_tolerance = 0;
  /// What the line states about its own exactness; nothing where it states none.
  std::optional<double> measured_tolerance;
  /// What such an instrument is good for where the line states nothing.
  double instrument_error = 0;
  std::string_view unit;
  /// What the usual instrument for it would show, which sees only light or weight: a refractometer for sugar,
  /// an alcoholmeter for strength; in the same unit.
  std::optional<double> shown;
};

/// An ingredient or a prep, evaluated.
struct StockFacts {
  analysis::StockId stock;
  /// False where an amount or a figure of it, or of anything that it is made of, is in error.
  bool valid = true;
  /// No amount is written yet: it is not valid then, and in no error.
  bool is_empty = false;
  Composition composition;
  double abv_percent = 0, sugar_g_per_100ml = 0, acid_g_per_100ml = 0, fat_g_per_100ml = 0, brix = 0;
  double density_g_per_ml = 1;
  /// Relative tolerances of the composition: strength, sugar, acid.
  double strength_tolerance = 0, sugar_tolerance = 0, acid_tolerance = 0;
  /// And of its yield; 0 where `makes` states it.
  double yield_tolerance = 0;
  /// Its sugar as so much table sugar as tastes as sweet, with its relative tolerance.
  double sweetness_g_per_100ml = 0, sweetness_tolerance = 0;
  Traces traces;
  std::vector<Statement> statements;
  Allergens allergens;
  /// Cost of one gram in the house's currency; nothing while a price is missing.
  std::optional<units::Money> cost_per_g;
  std::vector<analysis::StockId> without_price;
  /// What its `keeps` says; of a prep without one, what the shortest-lived of its parts keeps by itself,
  /// which says nothing of the mixture.
  std::optional<double> keeps_days;
  std::optional<analysis::Storage> storage;
  bool is_keeping_stated = false;
  bool foams = false, holds_fat = false;
  /// Volumes of CO2.
  double fizz_vol = 0;
  Origins origins;
  std::string colour;

  // preps
  double yield_ml = 0, yield_g = 0;
  std::optional<double> yield_count;
  double loss_percent = 0;
  /// True where `makes` states the yield; else it is evaluated.
  bool yield_measured = false;
  /// The yield that what goes in comes to, whatever `makes` says.
  double would_be_ml = 0, would_be_g = 0;
  std::vector<Entry> entries;
  std::vector<TraceStep> trace;
  /// Computed values where a measured one replaced them.
  std::optional<double> computed_abv_percent, computed_sugar_g_per_100ml, computed_acid_g_per_100ml,
      computed_density;
  std::vector<Reading> readings;
  Shown shown;
  std::vector<analysis::StockId> uses;
};

/// Everything evaluated; indexed like `Specs`.
struct HouseFacts {
  std::vector<StockFacts> stock;
  std::vector<DrinkFacts> drinks;
  std::string currency;

  const StockFacts& operator[](analysis::StockId id) const { return stock[id.index()]; }
  const DrinkFacts& operator[](analysis::DrinkId id) const { return drinks[id.index()]; }
};

/// Evaluates a house. Reports what only shows here: `impossible-composition`, `no-density`, `ounce-of-solid`,
/// `unequal-measures`, `name-cycle` of preps, and amounts that have no solution. Every finding of a drink
/// carries its name.
HouseFacts evaluate(const analysis::Specs& specs, const units::UnitTable& units,
                    diagnostics::DiagnosticSink& sink);

/// The figures as plain text, for `gill dump model`.
std::string dump(const HouseFacts& facts, const analysis::Specs& specs, const units::UnitTable& units);

}  // namespace gill::model
