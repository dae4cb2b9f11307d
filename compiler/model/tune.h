#pragma once
#include <limits>
#include <optional>
#include <string_view>
#include <vector>

#include "model/facts.h"
#include "units/unit_table.h"

/// Amounts of a drink moved among what the house can pour, until it comes out as it should.
namespace gill::model {

/// Every volume, in ml and rising, that is one of the house's measures or two of them together.
std::vector<double> pourable_ml(const analysis::House& house);

/// A drink whose poured amounts can be moved, and how it would come out. Amounts are the recipe's, of the
/// whole bowl where the drink is one; figures are a serve's, by the same simulation as the drink's own.
class TrialDrink {
 public:
  /// All three must outlive the trial.
  TrialDrink(const analysis::Specs& specs, const units::UnitTable& units, const HouseFacts& facts,
             analysis::DrinkId drink);

  /// True for an amount line that states a volume, or parts of the drink's size, of one thing: what can be
  /// poured more or less of. Solved, optional and weighed amounts stay.
  bool can_move(std::size_t amount_index) const;
  /// True when the amount is measured with a jigger: not by the dash, spoon or drop.
  bool is_jiggered(std::size_t amount_index) const;
  /// Of an amount that can be moved, its volume as it is now.
  double millilitres(std::size_t amount_index) const;
  void set_millilitres(std::size_t amount_index, double millilitres);
  /// The drink as it is served with the amounts as they are now.
  Figures served() const;
  const analysis::Drink& drink() const { return drink_; }

 private:
  const analysis::Specs& specs_;
  const units::UnitTable& units_;
  const HouseFacts& facts_;
  analysis::DrinkId drink_id_;
  analysis::Drink drink_;
};

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

struct TuneRequest {
  analysis::DrinkId drink;
  /// By property; those left out may come to anything.
  std::array<std::optional<TuneTarget>, tune_property_count> targets;
  /// The ingredients that may change; every jiggered one when empty.
  std::vector<analysis::StockId> vary;
  /// The most amounts that may change together.
  std::size_t max_changes = 3;

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

struct Tuned {
  Figures now, reached;
  /// What is changed; nothing when the drink is there already, or when no change comes nearer.
  std::vector<TunedAmount> amounts;
  /// The properties that no change among the house's measures brings in: `reached` is then the nearest found.
  std::vector<TuneProperty> unmet;
};

/// The fewest and smallest changes, in measures the house can pour (of a bowl: that many times its serves),
/// that bring the drink to its targets; where none does, the nearest. Deterministic. Singles are tried
/// against the whole simulation; for several together the single effects are added, and the best of them are
/// simulated.
Tuned tune(const analysis::Specs& specs, const units::UnitTable& units, const HouseFacts& facts,
           const TuneRequest& request);

}  // namespace gill::model
