#pragma once

#include "model/physics/components.h"

/// Titratable acid, as grams of citric acid that would take the same alkali to pH 8.2.
namespace gill::model {

/// Grams of citric acid (anhydrous) per gram of this acid, by protons titrated; 0 for what is no acid.
/// From molar masses: citric 192.124/3, malic 134.087/2, tartaric 150.087/2, lactic 90.078, acetic 60.052,
/// phosphoric 97.995/2 (two of its three protons by pH 8.2), ascorbic 176.12 (one).
constexpr double citric_equivalent_factor(Component component) noexcept {
  constexpr double citric_g_per_equivalent = 192.124 / 3;
  switch (component) {
    case Component::citric:
      return 1.0;
    case Component::malic:
      return citric_g_per_equivalent / (134.087 / 2);
    case Component::tartaric:
      return citric_g_per_equivalent / (150.087 / 2);
    case Component::lactic:
      return citric_g_per_equivalent / 90.078;
    case Component::acetic:
      return citric_g_per_equivalent / 60.052;
    case Component::phosphoric:
      return citric_g_per_equivalent / (97.995 / 2);
    case Component::ascorbic:
      return citric_g_per_equivalent / 176.12;
    case Component::water:
    case Component::ethanol:
    case Component::sugar:
    case Component::fat:
    case Component::protein:
    case Component::salt:
    case Component::other:
    case Component::solids:
    case Component::carbon_dioxide:
      return 0.0;
  }
  return 0.0;
}

/// Grams of citric equivalents in all.
constexpr double citric_equivalents_g(const Masses& masses) noexcept {
  double sum = 0;
  for (const Component acid : acids) sum += citric_equivalent_factor(acid) * masses[acid];
  return sum;
}

}  // namespace gill::model
