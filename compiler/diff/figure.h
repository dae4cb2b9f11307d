#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace gill::diff {

/// A figure of a drink, a prep or an ingredient that is compared.
enum class Figure : std::uint8_t {
  volume_ml,
  mass_g,
  abv_percent,
  sugar_g_per_100ml,
  acid_g_per_100ml,
  sugar_acid_ratio,
  temperature_c,
  dilution_percent,
  ethanol_g,
  energy_kcal,
  energy_kj,
  glass_fill_percent,
  brix,
  density_g_per_ml,
  fat_g_per_100ml,
  yield_ml,
  yield_g,
  yield_count,
  loss_percent,
  keeps_days,
  cost,
  cost_per_l,
  cost_per_kg,
  price,
  pour_cost_percent,
};

struct FigureInfo {
  /// The key in JSON, as `gill facts` has it where both know it.
  std::string_view key;
  /// In words, and the unit behind the number; money has its currency there.
  std::string_view words;
  std::string_view unit;
  /// Decimals in print; money has those of its currency.
  int places;
  bool is_money;
};

const FigureInfo& info(Figure figure);

/// One figure of one side; `value` is empty where it is not known.
struct FigureValue {
  Figure figure = Figure::volume_ml;
  std::optional<double> value;
  /// Half the width within which it lies; nothing for figures that are exact or whose width is not evaluated.
  std::optional<double> tolerance;
  /// ISO 4217 code of money, else empty.
  std::string currency;
};

/// Decimals in print: a figure's own, or those of its currency.
int places_of(const FigureValue& value);

/// The figure with its unit: `24.6 % abv`, `13.50 GBP`, `not known`.
std::string text_of(const FigureValue& value);

}  // namespace gill::diff
