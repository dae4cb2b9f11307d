#pragma once
#include <vector>

#include "model/facts.h"

/// What is asked of the things of a build.
namespace gill::model {

/// It lies on, in or beside the drink, and moves no figure of the liquid.
constexpr bool is_laid_on(Role role) noexcept {
  return role == Role::rim || role == Role::garnish || role == Role::side;
}

/// The entry that brings the most alcohol into a drink or prep; null where none brings any. What lies on or
/// beside it, and what is optional, is none.
struct StrongestPart {
  const Entry* entry = nullptr;
  double ethanol_g = 0;
};

StrongestPart strongest_part(const std::vector<Entry>& entries, const HouseFacts& facts);

}  // namespace gill::model
