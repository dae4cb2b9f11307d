#pragma once
#include <array>
#include <limits>
#include <optional>
#include <string_view>
#include <vector>

#include "model/trial_drink.h"

/// Amounts of a drink moved among what the house can pour, until it comes out as it should.
namespace gill::model {

/// Where one property should come to, both ends in. A single value is met within `near_share` of itself.
struct TuneTarget {
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();

  static TuneTarget value(double wanted);
  bool holds(double figure) const { return figure >= low && figure <= high; }

  /// What counts as met of a single value: jiggers do not go finer. Common practice, no source.
  static constexpr double near_share = 0.02;
};

/// The served properties that can be asked for, in the units of `Figures`.
enum class TuneProperty : std::uint8_t { strength, sugar, acid, balance, volume };
inline constexpr std::size_t tune_property_count = 5;
std::string_view name_of(TuneProperty property);
/// The figure of that property; nothing for the balance of a drink with next to no acid.
std::optional<double> figure_of(const Figures& figures, TuneProperty property);

/// The range that a family gives the property, in the units of `Figures`; nothing where it gives none.
std::optional<TuneTarget> family_range(const analysis::Family& family, TuneProperty property);

struct TuneRequest {
  analysis::DrinkId drink;
  /// By property; those left out may come to anything that the drink can still be served with.
  std::array<std::optional<TuneTarget>, tune_property_count> targets;
  /// The ingredients that may change; every jiggered one when empty.
  std::vector<analysis::StockId> vary;
  /// The most amounts that may change together.
  std::size_t max_changes = 3;
  /// Whether a second answer is looked for.
  bool wants_other = false;

  std::optional<TuneTarget>& operator[](TuneProperty property) {
    return targets[static_cast<std::size_t>(property)];
  }
};

struct TunedAmount {
  /// Index in the recipe's amounts.
  std::size_t amount_index = 0;
  analysis::StockId stock;
  double old_ml = 0, new_ml = 0;
};

/// Something that a drink has to keep so that it can still be served, whatever is asked of it.
struct TuneLimit {
  enum class Of : std::uint8_t {
    /// Where it comes to in the glass, ml: from the glass's line to its brim.
    level,
    /// A property that is not asked for, within the range of the drink's family.
    family,
    /// What a serve costs, at the menu's price and the house's pour cost.
    cost,
    /// Grams of alcohol in a serve, at most the house's `strongest`.
    alcohol,
  };
  Of of = Of::level;
  /// Of `family`.
  TuneProperty property = TuneProperty::strength;
  /// Where it has to stay; what is outside already need only come no further out.
  TuneTarget range;
  double now = 0, reached = 0;

  bool holds(double value) const;
  bool is_kept() const { return holds(reached); }
};

/// Amounts, and what the drink comes to with them.
struct TuneAnswer {
  Figures reached;
  /// What is changed; nothing when the drink is there already, or when no change comes nearer.
  std::vector<TunedAmount> amounts;
  /// The properties that no change among the house's measures brings in: `reached` is then the nearest found.
  std::vector<TuneProperty> unmet;
  std::vector<TuneLimit> limits;

  bool keeps_limits() const;
};

struct Tuned : TuneAnswer {
  Figures now;
  /// Where it is wanted: an answer of another kind, which changes something that the first does not, and not
  /// all that it does. Where only a limit stands between the first answer and the target, the one that breaks
  /// it.
  std::optional<TuneAnswer> other;
};

/// The fewest and smallest changes, in measures the house can pour (of a bowl: that many times its serves),
/// that bring the drink to its targets and keep its limits; where none does, the nearest that keeps them.
/// Deterministic. Singles are tried against the whole simulation; for several together the single effects are
/// added, and the best of them are simulated.
Tuned tune(const analysis::Specs& specs, const units::UnitTable& units, const HouseFacts& facts,
           const TuneRequest& request);

}  // namespace gill::model
