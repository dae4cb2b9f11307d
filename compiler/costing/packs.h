#pragma once
#include <algorithm>
#include <map>

#include "costing/costing.h"

namespace gill::costing {

/// How many of each pack cover a need most cheaply (the smaller amount of two that cost the same). `sizes`
/// and `need` are in one unit. The search is exact for what a bar buys; past some thousand packs of one size
/// it fills up with the pack that is cheapest by weight.
std::vector<int> cheapest_packs(double need, const std::vector<double>& sizes,
                                const std::vector<Exact>& prices);

/// Whole fruit that cover what is pressed, peeled and cut of it: one fruit gives its juice and its peel
/// together (an egg its white and its yolk), and what is cut gives neither.
struct FruitCount {
  /// By what is poured of it.
  std::map<StockId, double> pressed;
  double peeled = 0, cut = 0;
  double most_pressed() const {
    double most = 0;
    for (const auto& [what, count] : pressed) most = std::max(most, count);
    return most;
  }
};

/// An egg is liquid inside and counted one by one, whatever it is bought in.
bool is_whole_egg(const analysis::Stock& stock);

/// Grams of peel of one fruit; nothing where it gives none.
std::optional<double> peel_of_one(StockId fruit, const Costing& costing);
/// How many whole fruit so many grams of its pieces take: by their peel where they leave the fruit to be
/// pressed, else by its weight. None where that is not known.
FruitCount fruit_for(const analysis::Use& use, double grams, const Costing& costing);

/// A pack as it is sold: `700 ml`, `6 × 700 ml`.
std::string pack_text(const analysis::Buy& buy, const units::UnitTable& units);

}  // namespace gill::costing
