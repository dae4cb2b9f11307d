#pragma once
#include <optional>
#include <vector>

#include "model/facts.h"
#include "units/unit_table.h"

/// A drink made again with other amounts, by the same simulation.
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
  struct Served {
    Figures figures;
    /// Where it comes to in the glass, ice and foam with it.
    double level_ml = 0;
    double ethanol_g = 0;
  };
  Served served() const;
  /// What a serve costs with the amounts as they are now, in the house's currency; nothing while a price is
  /// missing.
  std::optional<double> cost() const;
  const analysis::Drink& drink() const { return drink_; }

 private:
  const analysis::Specs& specs_;
  const units::UnitTable& units_;
  const HouseFacts& facts_;
  analysis::DrinkId drink_id_;
  analysis::Drink drink_;
};

}  // namespace gill::model
