#include "diff/unchanged.h"
#include "units/money.h"

#include <algorithm>

namespace gill::diff {

namespace {

template <typename Value, typename Same>
bool all_same(const std::vector<Value>& a, const std::vector<Value>& b, Same same) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), same);
}

std::vector<units::UnitId> same_units(const units::UnitTable& before, const units::UnitTable& after) {
  std::vector<units::UnitId> same(before.size());
  for (std::size_t i = 0; i < before.size(); ++i) {
    const auto& unit = before[units::UnitId::at(i)];
    auto id = after.find(unit.symbol);
    if (before.find(unit.symbol) != units::UnitId::at(i) || !id.valid()) continue;
    const auto& other = after[id];
    if (unit.kind == other.kind && unit.factor == other.factor && unit.offset == other.offset &&
        unit.tolerance == other.tolerance && unit.plural == other.plural)
      same[i] = id;
  }
  return same;
}

}  // namespace

UnchangedDrinks::UnchangedDrinks(const Snapshot& before, const Snapshot& after, const Matching& matching)
    : before_(before), after_(after), matching_(matching), unit_(same_units(before.units, after.units)) {}

bool UnchangedDrinks::operator()(std::size_t before, std::size_t after) const {
  return same(before_.specs.drinks[before], after_.specs.drinks[after]) &&
         same(before_.facts.drinks[before], after_.facts.drinks[after]);
}

template <typename Id>
bool UnchangedDrinks::same_name(Id a, Id b) const {
  if (a.valid() != b.valid()) return false;
  return !a.valid() || before_.specs[a].head.name == after_.specs[b].head.name;
}

bool UnchangedDrinks::same(const units::Quantity& a, const units::Quantity& b) const {
  bool same_unit = a.unit.valid() == b.unit.valid() && (!a.unit.valid() || unit_[a.unit.index()] == b.unit);
  return same_unit && a.kind == b.kind && a.value == b.value && a.low == b.low && a.high == b.high &&
         a.is_range == b.is_range && a.tolerance == b.tolerance && a.currency == b.currency;
}

bool UnchangedDrinks::same(const std::optional<units::Quantity>& a,
                           const std::optional<units::Quantity>& b) const {
  return a.has_value() == b.has_value() && (!a || same(*a, *b));
}

bool UnchangedDrinks::same(const analysis::Use& a, const analysis::Use& b) const {
  bool same_item = a.item.valid() == b.item.valid() && (!a.item.valid() || unit_[a.item.index()] == b.item);
  return same_item && matching_.before.stock[a.stock.index()] == matching_.after.stock[b.stock.index()] &&
         same_name(a.stock, b.stock);
}

bool UnchangedDrinks::same(const analysis::Amount& a, const analysis::Amount& b) const {
  auto same_use = [&](const analysis::Use& x, const analysis::Use& y) { return same(x, y); };
  auto same_portion = [&](const analysis::Portion& x, const analysis::Portion& y) {
    return x.parts == y.parts && same(x.use, y.use);
  };
  return a.form == b.form && same(a.quantity, b.quantity) && same(a.second, b.second) && a.until == b.until &&
         all_same(a.portions, b.portions, same_portion) &&
         all_same(a.alternatives, b.alternatives, same_use) && same(a.temperature, b.temperature) &&
         a.chilled == b.chilled && a.frozen == b.frozen && a.hot == b.hot && a.optional == b.optional &&
         a.sealed == b.sealed && a.notes == b.notes && a.text == b.text && a.as_written == b.as_written;
}

bool UnchangedDrinks::same(const analysis::IceUse& a, const analysis::IceUse& b) const {
  return same_name(a.ice, b.ice) && same(a.amount, b.amount);
}

bool UnchangedDrinks::same(const analysis::Step& a, const analysis::Step& b) const {
  bool same_use = a.use.has_value() == b.use.has_value() && (!a.use || same(*a.use, *b.use));
  bool same_ice = a.ice.has_value() == b.ice.has_value() && (!a.ice || same(*a.ice, *b.ice));
  return a.verb == b.verb && same_use && same_ice && same(a.time, b.time) &&
         same(a.temperature, b.temperature) && same(a.within, b.within) && same(a.amount, b.amount) &&
         same(a.target, b.target) && a.share == b.share && a.count == b.count && a.words == b.words &&
         a.unknown_garnish == b.unknown_garnish && a.garnish_none == b.garnish_none && a.kept == b.kept &&
         a.to_tin == b.to_tin && a.notes == b.notes && a.text == b.text;
}

bool UnchangedDrinks::same(const analysis::Recipe& a, const analysis::Recipe& b) const {
  return all_same(a.order, b.order, [&](const analysis::RecipeLine& x, const analysis::RecipeLine& y) {
    if (x.is_amount != y.is_amount) return false;
    return x.is_amount ? same(a.amounts[x.index], b.amounts[y.index])
                       : same(a.steps[x.index], b.steps[y.index]);
  });
}

bool UnchangedDrinks::same(const analysis::Drink& a, const analysis::Drink& b) const {
  bool same_batched = a.batched.has_value() == b.batched.has_value();
  if (same_batched && a.batched)
    same_batched = a.batched->with_water == b.batched->with_water &&
                   same(a.batched->bottle, b.batched->bottle) &&
                   all_same(a.batched->uses, b.batched->uses,
                            [&](const analysis::Use& x, const analysis::Use& y) { return same(x, y); });
  return a.head.name == b.head.name && a.head.text == b.head.text && a.head.has_errors == b.head.has_errors &&
         a.head.has_amount_errors == b.head.has_amount_errors && same_name(a.family, b.family) &&
         same_name(a.glass, b.glass) && a.glass_chilled == b.glass_chilled &&
         a.glass_frozen == b.glass_frozen && a.glass_notes == b.glass_notes && a.ice.kind == b.ice.kind &&
         (a.ice.kind != analysis::GlassIce::Kind::given || same(a.ice.use, b.ice.use)) &&
         same_name(a.cup, b.cup) && a.right_when == b.right_when && same(a.alcohol, b.alcohol) &&
         a.serves == b.serves && same_batched && same(a.size, b.size) && a.station == b.station &&
         a.tags == b.tags && a.guest == b.guest && a.status == b.status && a.cautions == b.cautions &&
         same(a.recipe, b.recipe);
}

bool UnchangedDrinks::same(const model::Allergens& a, const model::Allergens& b) const {
  if (a.known != b.known || a.undeclared != b.undeclared || a.unknown.size() != b.unknown.size())
    return false;
  return all_same(a.routes, b.routes, [&](const model::AllergenRoute& x, const model::AllergenRoute& y) {
    return x.code == y.code && x.may == y.may;
  });
}

bool UnchangedDrinks::same(const model::DrinkFacts& a, const model::DrinkFacts& b) const {
  auto same_figures = [](const model::Figures& x, const model::Figures& y) {
    return x.volume_ml == y.volume_ml && x.mass_g == y.mass_g && x.abv_percent == y.abv_percent &&
           x.sugar_g_per_100ml == y.sugar_g_per_100ml && x.acid_g_per_100ml == y.acid_g_per_100ml &&
           x.temperature_c == y.temperature_c;
  };
  auto same_entry = [](const model::Entry& x, const model::Entry& y) {
    return x.volume_ml == y.volume_ml && x.mass_g == y.mass_g && x.count == y.count;
  };
  return a.valid == b.valid && same_figures(a.mixed, b.mixed) && same_figures(a.served, b.served) &&
         a.dilution_percent == b.dilution_percent && a.energy_kcal == b.energy_kcal &&
         a.glass_fill_percent == b.glass_fill_percent && a.cost == b.cost && same(a.allergens, b.allergens) &&
         a.served_on.kind == b.served_on.kind && a.is_hot == b.is_hot &&
         all_same(a.entries, b.entries, same_entry);
}

}  // namespace gill::diff
