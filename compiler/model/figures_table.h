#pragma once
#include <algorithm>
#include <span>

#include "model/tune.h"

/// Every figure that is told of a drink, a prep or an ingredient: one row each,
/// with its key, its words, its unit, its decimals and how it is got. Facts in
/// every form, the comparison, `expect`, families, `tune` and the pages of the
/// book walk these rows, so a new figure is evaluated in one place and named in
/// one row here.
namespace gill::model {

/// How a figure is called and printed.
struct FigureRow {
  /// In JSON and CSV: fixed once it is out.
  std::string_view key;
  /// As a noun in a sentence or a table: `strength`.
  std::string_view words;
  std::string_view unit;
  /// Decimals in print: what the figure is good for.
  int places = 0;
  /// Of a page's list of figures: its term, and its place from the top; 0 where
  /// pages do not tell it so.
  std::string_view term = {};
  int page_place = 0;
  /// Of `gill facts`: the line it stands on, and the word before it; no line,
  /// not there.
  std::string_view line = {}, lead = {};
  /// Printed with its currency and that currency's decimals.
  bool is_money = false;
  /// False where the printed comparison leaves it to the JSON.
  bool is_compared_in_print = true;
};

/// The unit with the space before it, behind a number; nothing for a figure
/// without one.
std::string unit_behind(const FigureRow& row);
/// True for less than half of the last decimal.
bool prints_as_nothing(const FigureRow& row, double value);

/// A figure of a drink, for one serve.
struct DrinkFigure {
  FigureRow row;
  /// Of the liquid as mixed or as served; null for what is the drink's alone.
  std::optional<double> (*of_liquid)(const Figures&) = nullptr;
  /// Of the drink; null for a figure of its liquid.
  std::optional<double> (*of_drink)(const DrinkFacts&) = nullptr;
  /// Half the width within which it lies; null where that is not evaluated.
  double Tolerance::*tolerance = nullptr;
  /// True for an amount, of which several serves have so many times as much.
  bool grows = false;
  /// True for what only a served drink has.
  bool is_served_only = false;
  /// False where a comparison has another figure that says it.
  bool is_compared = true;
  /// Pages leave out what is less, whatever its sign.
  double page_from = 0;
  /// Whether print has a word for it; null where it always has.
  bool (*is_told)(const DrinkFacts&) = nullptr;
  /// What it is of the language's base unit: 100 for a per cent of a share, or
  /// g/100 ml of g/ml.
  double per_base_unit = 1;
  /// The property by which a spec expects it, a family bounds it and `tune`
  /// moves it; nothing where none does.
  std::optional<analysis::Property> expected_as = std::nullopt;
  std::optional<TuneProperty> tuned_as = std::nullopt;
  std::optional<units::Quantity> analysis::Family::*family_range = nullptr;
  /// Below and above its family.
  std::string_view low_words = {}, high_words = {};
};

std::span<const DrinkFigure> drink_figures();
/// The figure as the drink is served.
std::optional<double> value_of(const DrinkFigure& figure, const DrinkFacts& facts);
/// Its tolerance; 0 where none is evaluated.
double tolerance_of(const DrinkFigure& figure, const DrinkFacts& facts);
/// What of it comes of what is written, and not of hands: by this a recipe is judged.
double written_tolerance_of(const DrinkFigure& figure, const DrinkFacts& facts);
const DrinkFigure& figure_of(TuneProperty property);
/// All that can be tuned, in the order of the enumeration.
std::span<const TuneProperty> tune_properties();
/// Null for what is no number (allergens), is money, or depends on the country
/// (units).
const DrinkFigure* figure_of(analysis::Property property);

/// A figure of an ingredient or a prep.
struct StockFigure {
  FigureRow row;
  std::optional<double> (*value)(const StockFacts&) = nullptr;
  /// The tolerance as a share of the value, or itself; both null where none is evaluated.
  double StockFacts::*relative_tolerance = nullptr;
  std::optional<double> (*tolerance)(const StockFacts&) = nullptr;
  /// What goes in would make it, where a measured value stands in its place.
  std::optional<double> StockFacts::*computed = nullptr;
  bool is_of_preps_only = false;
  /// In print, whether it is worth a line; null where it is whenever it prints
  /// as more than nothing.
  bool (*is_on_page)(const StockFacts&) = nullptr;
  double per_base_unit = 1;
  std::optional<analysis::Property> expected_as = std::nullopt;
};

std::span<const StockFigure> stock_figures();

/// Those of a table that pages tell, from the top.
template <typename Figure>
std::vector<const Figure*> on_page(std::span<const Figure> table) {
  std::vector<const Figure*> told;
  for (const auto& figure : table)
    if (figure.row.page_place > 0) told.push_back(&figure);
  std::sort(told.begin(), told.end(),
            [](const Figure* a, const Figure* b) { return a->row.page_place < b->row.page_place; });
  return told;
}
/// Half the width within which it lies; nothing where that is not evaluated.
std::optional<double> tolerance_of(const StockFigure& figure, const StockFacts& facts);
/// What goes in would make, where a measured value stands in its place; else nothing.
std::optional<double> computed_of(const StockFigure& figure, const StockFacts& facts);
/// The row of that key, which is one of the table's.
const StockFigure& stock_figure(std::string_view key);
const StockFigure* stock_figure_of(analysis::Property property);

}  // namespace gill::model
