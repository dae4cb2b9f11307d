#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "model/figures_table.h"

namespace gill::diff {

/// A figure that is compared: a row of the model's table, or one of those
/// below. Rows are compared by address.
using Figure = const model::FigureRow*;

/// What a house reckons and how long things keep: compared beside what the
/// model's table has.
namespace figures {
extern const model::FigureRow keeps_days, cost, cost_per_l, cost_per_kg, price, pour_cost_percent;
}  // namespace figures

/// One figure of one side; `value` is empty where it is not known.
struct FigureValue {
  Figure figure = nullptr;
  std::optional<double> value;
  /// Half the width within which it lies; nothing for figures that are exact or whose width is not evaluated.
  std::optional<double> tolerance;
  /// ISO 4217 code of money, else empty.
  std::string currency = {};
  /// What money of a drink for several is for: `a bowl`, `a serve`; else empty.
  std::string of = {};
  /// Of a drink's figure: what makes its tolerance, so that what both sides share can be left out.
  const model::DrinkFacts* drink = nullptr;
  const analysis::Specs* specs = nullptr;
  double model::Tolerance::*effect = nullptr;
};

/// Whether two figures of money can be set against each other.
bool is_same_money(const FigureValue& a, const FigureValue& b);

/// True for what a thing or a serve costs, and the share of its price.
bool is_cost(Figure figure);

/// Decimals in print: a figure's own, or those of its currency.
int places_of(const FigureValue& value);

/// The figure with its unit: `24.6 % abv`, `13.50 GBP`, `not known`.
std::string text_of(const FigureValue& value);

}  // namespace gill::diff
