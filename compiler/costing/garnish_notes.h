#pragma once
#include <set>
#include <string>
#include <vector>

#include "costing/costing.h"

/// What is told of garnishes that nobody can reckon with: the same in costs and in the plan.
namespace gill::costing {

/// Garnishes that nothing declares, of these drinks, each as `` `horse's neck` (Slipway)``.
std::set<std::string> undeclared_garnishes(const House& house, const std::vector<DrinkId>& drinks);
/// A full sentence; empty where there are none. `what` says what is done without them: `costs are told`.
std::string note_on_undeclared(const std::set<std::string>& garnishes, std::string_view what);
/// The same of goods whose garnish nobody weighs.
std::string note_on_unweighed(const std::set<std::string>& goods, std::string_view what);

}  // namespace gill::costing
