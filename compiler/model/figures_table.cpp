#include "model/figures_table.h"

#include <algorithm>
#include <cmath>

#include "base/percent.h"

namespace gill::model {
namespace {

using analysis::Family;
using analysis::Property;

/// A figure that is always known.
template <double Figures::*figure>
std::optional<double> liquid(const Figures& figures) {
  return figures.*figure;
}
template <double DrinkFacts::*figure>
std::optional<double> drink(const DrinkFacts& facts) {
  return facts.*figure;
}
template <double StockFacts::*figure>
std::optional<double> stock(const StockFacts& facts) {
  return facts.*figure;
}

/// True where its sugar is not as sweet, gram for gram, as table sugar: only then is there more to say.
bool tastes_otherwise(double sweetness, double sugar) {
  constexpr double felt_share = 0.03;
  return std::abs(sweetness - sugar) >= std::max(0.05, felt_share * sugar);
}

template <typename Facts, TraceKind kind>
std::optional<double> trace(const Facts& facts) {
  return facts.traces[index_of(kind)].mg_per_l;
}
template <std::optional<double> Shown::*figure>
std::optional<double> shown(const StockFacts& facts) {
  return facts.shown.*figure;
}
/// What little is known to the density of something is to its weight, its gravity and its brix.
template <std::optional<double> Shown::*figure>
std::optional<double> tolerance_by_density(const StockFacts& facts) {
  auto at = [&](double sign) -> std::optional<double> {
    Shown moved = shown_of_density(facts.density_g_per_ml + sign * facts.shown.density_tolerance_g_per_ml,
                                   facts.shown.bottle_ml);
    return moved.*figure;
  };
  auto up = at(1), down = at(-1), now = facts.shown.*figure;
  if (!now) return std::nullopt;
  return std::max(up ? std::abs(*up - *now) : 0, down ? std::abs(*down - *now) : 0);
}

// What a figure in per cent, or in g/100 ml, is of a share, or of g/ml.
constexpr double hundredths = base::percent_of_share(1.0);

// The order is that of JSON and of the lists in print. CSV adds the columns
// that it does not know behind its own.
const DrinkFigure drink_rows[] = {
    {.row = {.key = "volume_ml",
             .words = "volume",
             .unit = "ml",
             .places = 0,
             .term = "Volume",
             .page_place = 2,
             .line = "served"},
     .of_liquid = liquid<&Figures::volume_ml>,
     .tolerance = &Tolerance::volume_ml,
     .grows = true,
     .expected_as = Property::volume,
     .tuned_as = TuneProperty::volume,
     .family_range = &Family::volume,
     .low_words = "too short",
     .high_words = "too long"},
    {.row = {.key = "mass_g", .words = "weight", .unit = "g", .places = 0, .is_compared_in_print = false},
     .of_liquid = liquid<&Figures::mass_g>,
     .grows = true},
    {.row = {.key = "abv_percent",
             .words = "strength",
             .unit = "% abv",
             .places = 1,
             .term = "Strength",
             .page_place = 1,
             .line = "served"},
     .of_liquid = liquid<&Figures::abv_percent>,
     .tolerance = &Tolerance::abv_percent,
     .per_base_unit = hundredths,
     .expected_as = Property::strength,
     .tuned_as = TuneProperty::strength,
     .family_range = &Family::strength,
     .low_words = "too weak",
     .high_words = "too strong"},
    {.row = {.key = "sugar_g_per_100ml",
             .words = "sugar",
             .unit = "g/100 ml",
             .places = 1,
             .term = "Sugar",
             .page_place = 3,
             .line = "taste",
             .lead = "sugar"},
     .of_liquid = liquid<&Figures::sugar_g_per_100ml>,
     .tolerance = &Tolerance::sugar_g_per_100ml,
     .per_base_unit = hundredths,
     .expected_as = Property::sugar,
     .tuned_as = TuneProperty::sugar,
     .family_range = &Family::sugar,
     .low_words = "too dry",
     .high_words = "too sweet"},
    {.row = {.key = "acid_g_per_100ml",
             .words = "acid",
             .unit = "g/100 ml",
             .places = 2,
             .term = "Acid, as citric",
             .page_place = 4,
             .line = "taste",
             .lead = "acid"},
     .of_liquid = liquid<&Figures::acid_g_per_100ml>,
     .tolerance = &Tolerance::acid_g_per_100ml,
     .per_base_unit = hundredths,
     .expected_as = Property::acid,
     .tuned_as = TuneProperty::acid,
     .family_range = &Family::acid,
     .low_words = "not sour enough",
     .high_words = "too sour"},
    {.row = {.key = "density_g_per_ml", .words = "density", .unit = "g/ml", .places = 3},
     .of_liquid = liquid<&Figures::density_g_per_ml>,
     .is_compared = false},
    {.row = {.key = "temperature_c",
             .words = "temperature",
             .unit = "°C",
             .places = 0,
             .term = "Temperature",
             .page_place = 6,
             .line = "served"},
     .of_liquid = liquid<&Figures::temperature_c>,
     .is_served_only = true,
     .expected_as = Property::temperature},
    {.row = {.key = "sugar_acid_ratio",
             .words = "sugar to acid",
             .unit = "",
             .places = 1,
             .term = "Balance, sugar to acid",
             .page_place = 5,
             .line = "taste",
             .lead = "balance"},
     .of_liquid = [](const Figures& figures) { return figures.sugar_acid_ratio(); },
     .tolerance = &Tolerance::sugar_acid_ratio,
     .is_served_only = true,
     .expected_as = Property::balance,
     .tuned_as = TuneProperty::balance,
     .family_range = &Family::balance,
     .low_words = "too sour",
     .high_words = "too sweet"},
    {.row = {.key = "dilution_percent",
             .words = "dilution",
             .unit = "%",
             .places = 0,
             .term = "Dilution, of what is poured",
             .page_place = 7,
             .line = "served",
             .lead = "melt"},
     .of_drink = drink<&DrinkFacts::dilution_percent>,
     .page_from = 0.05,
     .per_base_unit = hundredths,
     .expected_as = Property::dilution},
    {.row = {.key = "sweetness_g_per_100ml",
             .words = "sweetness",
             .unit = "g/100 ml of table sugar",
             .places = 1,
             .term = "As sweet as",
             .page_place = 8,
             .line = "taste",
             .lead = "as sweet as",
             .is_compared_in_print = false},
     .of_drink = drink<&DrinkFacts::sweetness_g_per_100ml>,
     .tolerance = &Tolerance::sweetness_g_per_100ml,
     .page_from = 0.05,
     .is_told =
         [](const DrinkFacts& facts) {
           return tastes_otherwise(facts.sweetness_g_per_100ml, facts.served.sugar_g_per_100ml);
         }},
    {.row = {.key = "fizz_vol",
             .words = "gas",
             .unit = "vol",
             .places = 1,
             .term = "Gas",
             .page_place = 9,
             .is_compared_in_print = false},
     .of_drink = drink<&DrinkFacts::fizz_vol>,
     .page_from = 0.05},
    {.row = {.key = "caffeine_mg_per_l",
             .words = "caffeine",
             .unit = "mg/l",
             .places = 0,
             .line = "traces",
             .lead = "caffeine",
             .is_compared_in_print = false},
     .of_drink = trace<DrinkFacts, TraceKind::caffeine>},
    {.row = {.key = "quinine_mg_per_l",
             .words = "quinine",
             .unit = "mg/l",
             .places = 0,
             .line = "traces",
             .lead = "quinine",
             .is_compared_in_print = false},
     .of_drink = trace<DrinkFacts, TraceKind::quinine>},
    {.row = {.key = "sulphites_mg_per_l",
             .words = "sulphites",
             .unit = "mg/l",
             .places = 0,
             .line = "traces",
             .lead = "sulphites",
             .is_compared_in_print = false},
     .of_drink = trace<DrinkFacts, TraceKind::sulphites>},
    {.row = {.key = "ethanol_g",
             .words = "ethanol",
             .unit = "g",
             .places = 1,
             .line = "alcohol",
             .is_compared_in_print = false},
     .of_drink = drink<&DrinkFacts::ethanol_g>,
     .grows = true},
    {.row = {.key = "energy_kcal",
             .words = "energy",
             .unit = "kcal",
             .places = 0,
             .line = "alcohol",
             .is_compared_in_print = false},
     .of_drink = drink<&DrinkFacts::energy_kcal>,
     .grows = true},
    {.row = {.key = "energy_kj", .words = "energy", .unit = "kJ", .places = 0, .is_compared_in_print = false},
     .of_drink = drink<&DrinkFacts::energy_kj>,
     .grows = true,
     .expected_as = Property::energy},
    {.row = {.key = "glass_fill_percent", .words = "fill of the glass", .unit = "%", .places = 0},
     .of_drink = [](const DrinkFacts& facts) { return facts.glass_fill_percent; }},
};

const StockFigure stock_rows[] = {
    {.row = {.key = "yield_ml", .words = "yield", .unit = "ml", .places = 0, .line = "makes"},
     .value = stock<&StockFacts::yield_ml>,
     .relative_tolerance = &StockFacts::yield_tolerance,
     .is_of_preps_only = true,
     .expected_as = Property::volume},
    {.row = {.key = "yield_g",
             .words = "yield by weight",
             .unit = "g",
             .places = 0,
             .line = "makes",
             .is_compared_in_print = false},
     .value = stock<&StockFacts::yield_g>,
     .relative_tolerance = &StockFacts::yield_tolerance,
     .is_of_preps_only = true},
    {.row = {.key = "yield_count", .words = "yield in pieces", .unit = "", .places = 0},
     .value = [](const StockFacts& facts) { return facts.yield_count; },
     .is_of_preps_only = true},
    {.row = {.key = "loss_percent",
             .words = "loss",
             .unit = "%",
             .places = 1,
             .term = "Loss",
             .line = "makes",
             .lead = "loss"},
     .value = stock<&StockFacts::loss_percent>,
     .is_of_preps_only = true},
    {.row = {.key = "abv_percent",
             .words = "strength",
             .unit = "% abv",
             .places = 1,
             .term = "Strength",
             .page_place = 1,
             .line = "holds"},
     .value = stock<&StockFacts::abv_percent>,
     .relative_tolerance = &StockFacts::strength_tolerance,
     .computed = &StockFacts::computed_abv_percent,
     .per_base_unit = hundredths,
     .expected_as = Property::strength},
    {.row = {.key = "sugar_g_per_100ml",
             .words = "sugar",
             .unit = "g/100 ml",
             .places = 1,
             .term = "Sugar",
             .page_place = 2,
             .line = "holds",
             .lead = "sugar"},
     .value = stock<&StockFacts::sugar_g_per_100ml>,
     .relative_tolerance = &StockFacts::sugar_tolerance,
     .computed = &StockFacts::computed_sugar_g_per_100ml,
     .per_base_unit = hundredths,
     .expected_as = Property::sugar},
    {.row = {.key = "acid_g_per_100ml",
             .words = "acid",
             .unit = "g/100 ml",
             .places = 2,
             .term = "Acid, as citric",
             .page_place = 4,
             .line = "holds",
             .lead = "acid"},
     .value = stock<&StockFacts::acid_g_per_100ml>,
     .relative_tolerance = &StockFacts::acid_tolerance,
     .computed = &StockFacts::computed_acid_g_per_100ml,
     .per_base_unit = hundredths,
     .expected_as = Property::acid},
    {.row = {.key = "brix",
             .words = "dissolved solids",
             .unit = "brix",
             .places = 1,
             .term = "Brix",
             .page_place = 3},
     .value = stock<&StockFacts::brix>,
     .is_on_page = [](const StockFacts& facts) { return facts.sugar_g_per_100ml >= 1; }},
    {.row = {.key = "density_g_per_ml",
             .words = "density",
             .unit = "g/ml",
             .places = 3,
             .term = "Density",
             .page_place = 6,
             .line = "holds"},
     .value = stock<&StockFacts::density_g_per_ml>,
     .computed = &StockFacts::computed_density},
    {.row = {.key = "fat_g_per_100ml",
             .words = "fat",
             .unit = "g/100 ml",
             .places = 1,
             .term = "Fat",
             .page_place = 5,
             .line = "holds",
             .lead = "fat"},
     .value = stock<&StockFacts::fat_g_per_100ml>},
    {.row = {.key = "sweetness_g_per_100ml",
             .words = "sweetness",
             .unit = "g/100 ml of table sugar",
             .places = 1,
             .term = "As sweet as",
             .page_place = 7,
             .line = "holds",
             .lead = "as sweet as",
             .is_compared_in_print = false},
     .value = stock<&StockFacts::sweetness_g_per_100ml>,
     .relative_tolerance = &StockFacts::sweetness_tolerance,
     .is_on_page =
         [](const StockFacts& facts) {
           return tastes_otherwise(facts.sweetness_g_per_100ml, facts.sugar_g_per_100ml);
         }},
    {.row = {.key = "caffeine_mg_per_l",
             .words = "caffeine",
             .unit = "mg/l",
             .places = 0,
             .term = "Caffeine",
             .page_place = 14,
             .line = "traces",
             .lead = "caffeine",
             .is_compared_in_print = false},
     .value = trace<StockFacts, TraceKind::caffeine>},
    {.row = {.key = "quinine_mg_per_l",
             .words = "quinine",
             .unit = "mg/l",
             .places = 0,
             .term = "Quinine",
             .page_place = 15,
             .line = "traces",
             .lead = "quinine",
             .is_compared_in_print = false},
     .value = trace<StockFacts, TraceKind::quinine>},
    {.row = {.key = "sulphites_mg_per_l",
             .words = "sulphites",
             .unit = "mg/l",
             .places = 0,
             .term = "Sulphites",
             .page_place = 16,
             .line = "traces",
             .lead = "sulphites",
             .is_compared_in_print = false},
     .value = trace<StockFacts, TraceKind::sulphites>},
    {.row = {.key = "refractometer_brix",
             .words = "refractometer",
             .unit = "brix",
             .places = 1,
             .term = "Refractometer shows",
             .page_place = 8,
             .line = "shows",
             .lead = "refractometer",
             .is_compared_in_print = false},
     .value = shown<&Shown::refractometer_brix>,
     .tolerance = [](const StockFacts& facts) -> std::optional<double> {
       return facts.shown.refractometer_tolerance_brix;
     },
     .is_of_preps_only = true},
    {.row = {.key = "hydrometer_specific_gravity",
             .words = "hydrometer",
             .unit = "",
             .places = 3,
             .term = "Hydrometer floats at",
             .page_place = 9,
             .line = "shows",
             .lead = "hydrometer",
             .is_compared_in_print = false},
     .value = shown<&Shown::hydrometer_specific_gravity>,
     .tolerance = tolerance_by_density<&Shown::hydrometer_specific_gravity>,
     .is_of_preps_only = true},
    {.row = {.key = "hydrometer_brix",
             .words = "saccharometer",
             .unit = "brix",
             .places = 1,
             .term = "Saccharometer shows",
             .page_place = 10,
             .line = "shows",
             .lead = "saccharometer",
             .is_compared_in_print = false},
     .value = shown<&Shown::hydrometer_brix>,
     .tolerance = tolerance_by_density<&Shown::hydrometer_brix>,
     .is_of_preps_only = true},
    {.row = {.key = "hydrometer_abv_percent",
             .words = "alcoholmeter",
             .unit = "% abv",
             .places = 1,
             .term = "Alcoholmeter shows",
             .page_place = 11,
             .line = "shows",
             .lead = "alcoholmeter",
             .is_compared_in_print = false},
     .value = shown<&Shown::hydrometer_abv_percent>,
     .tolerance = tolerance_by_density<&Shown::hydrometer_abv_percent>,
     .is_of_preps_only = true},
    {.row = {.key = "weight_of_100ml_g",
             .words = "weight of 100 ml",
             .unit = "g",
             .places = 1,
             .term = "100 ml weigh",
             .page_place = 12,
             .line = "shows",
             .lead = "100 ml weigh",
             .is_compared_in_print = false},
     .value = shown<&Shown::weight_of_100ml_g>,
     .tolerance = tolerance_by_density<&Shown::weight_of_100ml_g>,
     .is_of_preps_only = true},
    {.row = {.key = "bottle_g",
             .words = "weight in a bottle",
             .unit = "g",
             .places = 0,
             .term = "A bottle of it weighs, without the glass",
             .page_place = 13,
             .line = "shows",
             .lead = "a bottle of it",
             .is_compared_in_print = false},
     .value = shown<&Shown::bottle_g>,
     .tolerance = tolerance_by_density<&Shown::bottle_g>,
     .is_of_preps_only = true},
};

}  // namespace

std::span<const DrinkFigure> drink_figures() { return drink_rows; }
std::span<const StockFigure> stock_figures() { return stock_rows; }

std::string unit_behind(const FigureRow& row) {
  return row.unit.empty() ? std::string() : " " + std::string(row.unit);
}

bool prints_as_nothing(const FigureRow& row, double value) {
  return std::abs(value) < 0.5 * std::pow(10, -row.places);
}

std::optional<double> value_of(const DrinkFigure& figure, const DrinkFacts& facts) {
  return figure.of_liquid ? figure.of_liquid(facts.served) : figure.of_drink(facts);
}

double tolerance_of(const DrinkFigure& figure, const DrinkFacts& facts) {
  return figure.tolerance ? facts.tolerance.*figure.tolerance : 0;
}

double written_tolerance_of(const DrinkFigure& figure, const DrinkFacts& facts) {
  return figure.tolerance ? facts.written_tolerance.*figure.tolerance : 0;
}

std::optional<double> tolerance_of(const StockFigure& figure, const StockFacts& facts) {
  auto value = figure.value(facts);
  if (figure.tolerance && value) return figure.tolerance(facts);
  if (!figure.relative_tolerance || !value) return std::nullopt;
  return facts.*figure.relative_tolerance * *value;
}

std::optional<double> computed_of(const StockFigure& figure, const StockFacts& facts) {
  if (!figure.computed) return std::nullopt;
  return facts.*figure.computed;
}

std::span<const TuneProperty> tune_properties() {
  static constexpr TuneProperty all[] = {TuneProperty::strength, TuneProperty::sugar, TuneProperty::acid,
                                         TuneProperty::balance, TuneProperty::volume};
  static_assert(std::size(all) == tune_property_count);
  return all;
}

const DrinkFigure& figure_of(TuneProperty property) {
  return *std::find_if(std::begin(drink_rows), std::end(drink_rows),
                       [&](const DrinkFigure& figure) { return figure.tuned_as == property; });
}

const DrinkFigure* figure_of(analysis::Property property) {
  for (const auto& figure : drink_rows)
    if (figure.expected_as == property) return &figure;
  return nullptr;
}

const StockFigure& stock_figure(std::string_view key) {
  return *std::find_if(std::begin(stock_rows), std::end(stock_rows),
                       [&](const StockFigure& figure) { return figure.row.key == key; });
}

const StockFigure* stock_figure_of(analysis::Property property) {
  for (const auto& figure : stock_rows)
    if (figure.expected_as == property) return &figure;
  return nullptr;
}

}  // namespace gill::model
