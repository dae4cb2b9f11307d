#pragma once
#include <map>
#include <set>
#include <string>
#include <utility>

#include "driver/compile.h"

namespace gill::driver {

/// A declaration's place: the file among the house's, and the declaration in it.
using DeclarationPlace = std::pair<std::size_t, std::size_t>;

/// What differs between two states of a house whose files hold the same declarations in the same order.
struct MeaningDifference {
  /// Where what differs can be laid to declarations: these. What only follows from others is left out where
  /// those are known.
  std::set<DeclarationPlace> declarations;
  /// Something differs that no declaration can be named for.
  bool elsewhere = false;

  bool any() const { return elsewhere || !declarations.empty(); }
};

/// Compares what two states of a house mean: typed declarations, facts, findings without their places, and
/// what a comparison of houses tells. How a thing is spelt is no difference.
class HouseMeaning {
 public:
  explicit HouseMeaning(const Compilation& house);
  MeaningDifference difference(const HouseMeaning& other) const;

 private:
  void add_typed();
  void add_facts();
  void add_findings();
  using Meanings = std::map<DeclarationPlace, std::string>;
  std::string& of(Meanings& meanings, const std::string& kind, const std::string& name);
  static void add_differences(const Meanings& a, const Meanings& b, MeaningDifference& difference);
  void add_changes(const HouseMeaning& other, MeaningDifference& difference) const;

  const Compilation& house_;
  /// By kind and folded name.
  std::map<std::string, DeclarationPlace> places_;
  /// What a declaration says itself, and what follows from it and others.
  Meanings said_, following_;
  std::string elsewhere_;
};

/// True where two states of a house mean the same.
bool mean_the_same(const HouseFiles& a, const HouseFiles& b);

}  // namespace gill::driver
