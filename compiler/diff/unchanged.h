#pragma once
#include "diff/matching.h"

namespace gill::diff {

/// True when a drink is the same to the last figure on both sides, without putting any of it in words: most
/// drinks of most comparisons. False says nothing: the sheets tell.
class UnchangedDrinks {
 public:
  UnchangedDrinks(const Snapshot& before, const Snapshot& after, const Matching& matching);
  bool operator()(std::size_t before, std::size_t after) const;

 private:
  bool same(const std::optional<units::Quantity>& a, const std::optional<units::Quantity>& b) const;
  bool same(const units::Quantity& a, const units::Quantity& b) const;
  bool same(const analysis::Use& a, const analysis::Use& b) const;
  bool same(const analysis::Amount& a, const analysis::Amount& b) const;
  bool same(const analysis::Step& a, const analysis::Step& b) const;
  bool same(const analysis::IceUse& a, const analysis::IceUse& b) const;
  bool same(const analysis::Recipe& a, const analysis::Recipe& b) const;
  bool same(const analysis::Drink& a, const analysis::Drink& b) const;
  bool same(const model::DrinkFacts& a, const model::DrinkFacts& b) const;
  bool same(const model::Allergens& a, const model::Allergens& b) const;
  template <typename Id>
  bool same_name(Id a, Id b) const;

  const Snapshot& before_;
  const Snapshot& after_;
  const Matching& matching_;
  /// By unit of the old table: the same unit, with the same meaning, in the new one.
  std::vector<units::UnitId> unit_;
};

}  // namespace gill::diff
