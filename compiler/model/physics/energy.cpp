#include "model/physics/energy.h"

#include <array>

namespace gill::model {
namespace {

/// Factors of Regulation (EU) No 1169/2011, Annex XIV, per gram.
struct Factor {
  double kcal, kj;
};
constexpr Factor carbohydrate{4, 17};
constexpr Factor polyol{2.4, 10};
constexpr Factor fibre{2, 8};
constexpr Factor nothing{0, 0};

constexpr Factor factor_of(Component component) noexcept {
  switch (component) {
    case Component::ethanol:
      return {7, 29};
    case Component::sugar:
      return carbohydrate;
    case Component::protein:
      return {4, 17};
    case Component::fat:
      return {9, 37};
    case Component::citric:
    case Component::malic:
    case Component::tartaric:
    case Component::lactic:
    case Component::acetic:
    case Component::ascorbic:
      return {3, 13};
    case Component::water:
    case Component::phosphoric:
    case Component::salt:
    case Component::other:
    case Component::solids:
    case Component::carbon_dioxide:
      return nothing;
  }
  return nothing;
}

void add(Energy& sum, double grams, const Factor& factor) noexcept {
  sum.kcal += grams * factor.kcal;
  sum.kj += grams * factor.kj;
}

}  // namespace

Energy energy(const Masses& masses, const MoreNutrients& more) noexcept {
  Energy sum;
  for (const Component component : components) add(sum, masses[component], factor_of(component));
  add(sum, more.digestible_carbohydrate_g, carbohydrate);
  add(sum, more.polyols_g, polyol);
  add(sum, more.fibre_g, fibre);
  return sum;
}

}  // namespace gill::model
