#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "model/constants.h"
#include "model/physics/acid.h"
#include "model/physics/foam.h"
#include "model/physics/gas.h"
#include "model/physics/heat.h"
#include "model/physics/volume.h"
#include "model/program.h"

namespace gill::model {
namespace {

using Code = Operation::Code;

/// Grams that bring a growing quantity to a target: `value(grams)` rises from below the target. Illinois
/// variant of the false-position method inside a bracket that is doubled until it holds the root; nothing
/// when it never does.
template <typename Function>
std::optional<double> solve_rising(Function value, double target, double first_guess) {
  double low = 0, low_value = value(0) - target;
  if (low_value >= 0) return 0.0;
  double high = std::max(first_guess, 1e-6), high_value = value(high) - target;
  for (int i = 0; i < 60 && high_value < 0; ++i) {
    low = high;
    low_value = high_value;
    high *= 2;
    high_value = value(high) - target;
  }
  if (high_value < 0) return std::nullopt;
  int side = 0;
  for (int i = 0; i < 100 && high - low > 1e-12 * high; ++i) {
    double middle = high - high_value * (high - low) / (high_value - low_value);
    if (!(middle > low && middle < high)) middle = (low + high) / 2;
    double middle_value = value(middle) - target;
    if (middle_value == 0) return middle;
    if (middle_value < 0) {
      low = middle;
      low_value = middle_value;
      if (side == -1) high_value /= 2;
      side = -1;
    } else {
      high = middle;
      high_value = middle_value;
      if (side == 1) low_value /= 2;
      side = 1;
    }
    if (std::abs(middle_value) <= 1e-13 * std::max(1.0, std::abs(target))) return middle;
  }
  return (low + high) / 2;
}

/// Share of the alcohol left after so many minutes at the simmer, in straight lines between the table's rows.
double alcohol_left_after(double minutes) {
  const auto* row = std::begin(alcohol_left_at_the_simmer);
  const auto* last = std::end(alcohol_left_at_the_simmer) - 1;
  if (minutes >= last->minutes) return last->share;
  while ((row + 1)->minutes <= minutes) ++row;
  const auto* next = row + 1;
  return row->share + (next->share - row->share) * (std::max(minutes, 0.0) - row->minutes) /
                          (next->minutes - row->minutes);
}

double property_of(const Masses& masses, analysis::UntilProperty property, bool by_mass) {
  double liquid = masses.liquid();
  if (liquid <= 0) return 0;
  switch (property) {
    case analysis::UntilProperty::acid:
      return by_mass ? citric_equivalents_g(masses) / liquid : acid_g_per_100_ml(masses);
    case analysis::UntilProperty::sugar:
      return by_mass ? masses[Component::sugar] / liquid : sugar_g_per_100_ml(masses);
    case analysis::UntilProperty::strength:
      return strength(masses);
  }
  return 0;
}

}  // namespace

const Masses& Simulator::per_gram(std::size_t slot) const {
  if (moved_->kind == Perturbation::Kind::slot && moved_->slot == slot) return moved_->per_gram;
  return program_.slots[slot].per_gram;
}

double Simulator::density(std::size_t slot) const {
  if (moved_->kind == Perturbation::Kind::slot && moved_->slot == slot) return moved_->density_g_per_ml;
  return program_.slots[slot].density_g_per_ml;
}

const Outcome& Simulator::run(const Perturbation& moved, std::vector<TraceStep>* trace) {
  moved_ = &moved;
  mixing_ = glass_ = Vessel{};
  mixing_.temperature_c = glass_.temperature_c = program_.room_c;
  in_glass_ = chilled_on_serving_ice_ = false;
  outcome_.mixed = outcome_.liquid = Masses{};
  outcome_.melt_g = outcome_.foam_ml = outcome_.ice_g = outcome_.held_back_g = 0;
  outcome_.reached_glass = false;
  outcome_.added_g.assign(program_.operations.size(), 0.0);
  outcome_.slot_g.assign(program_.slots.size(), 0.0);
  outcome_.unsolved.clear();
  auto state = [this] {
    const Vessel& vessel = current();
    return VesselState{vessel.masses, vessel.temperature_c, vessel.foam_rise * volume_ml(vessel.masses),
                       vessel.ice_g};
  };
  for (std::size_t i = 0; i < program_.operations.size(); ++i) {
    if (!trace) {
      step(i);
      continue;
    }
    TraceStep record;
    record.is_amount = program_.operations[i].is_amount;
    record.index = program_.operations[i].index;
    record.before = state();
    double melt = outcome_.melt_g;
    explanation_ = &record.work;
    step(i);
    explanation_ = nullptr;
    record.after = state();
    record.in_glass = in_glass_;
    record.melt_g = outcome_.melt_g - melt;
    for (std::size_t slot = 0; slot < program_.slots.size(); ++slot)
      if (outcome_.slot_g[slot] > 0) record.contents.push_back(program_.slots[slot].stock);
    trace->push_back(std::move(record));
  }
  if (!program_.is_prep) serve();
  const Vessel& last = current();
  outcome_.liquid = last.masses;
  outcome_.temperature_c = last.temperature_c;
  outcome_.ice_g = last.ice_g;
  outcome_.foam_ml = last.foam_rise * volume_ml(last.masses);
  outcome_.reached_glass = in_glass_;
  return outcome_;
}

void Simulator::step(std::size_t i) {
  const Operation& operation = program_.operations[i];
  switch (operation.code) {
    case Code::add: {
      double factor =
          moved_->kind == Perturbation::Kind::amount && moved_->operation == i ? moved_->factor : 1;
      // A volume of something denser weighs more: grams were evaluated at the unmoved density.
      double density_ratio =
          operation.by_mass ? 1 : density(operation.slot) / program_.slots[operation.slot].density_g_per_ml;
      add(operation.into_glass ? glass_ : current(), i, operation.slot,
          operation.grams * factor * density_ratio, operation.temperature_c);
      return;
    }
    case Code::fill:
      return fill(i, operation);
    case Code::until:
      return until(i, operation);
    case Code::top:
      return top(i, operation);
    case Code::chill:
      return chill_with_ice(operation);
    case Code::dry_shake:
      current().dry_shaken = true;
      return aerate(false);
    case Code::to_glass:
      return to_glass(operation);
    case Code::to_tin:
      strain_solids();
      current().masses *= 1 - strain_loss_share;
      current().heat_capacity *= 1 - strain_loss_share;
      current().ice_g = 0;
      return;
    case Code::build:
      if (!in_glass_) {
        // What is in the mixing vessel already is in the glass: `build` says which vessel it was.
        glass_ = mixing_;
        mixing_ = Vessel{};
        in_glass_ = true;
      }
      glass_.ice_g += operation.ice_g;
      return;
    case Code::heat:
      return heat(operation);
    case Code::set_temperature:
      current().temperature_c = operation.temperature_c;
      if (operation.temperature_c >= gas_gone_from_c) current().masses[Component::carbon_dioxide] = 0;
      return;
    case Code::carbonate:
      return carbonate(operation);
    case Code::strain:
      return strain_solids();
    case Code::press:
      return strain_solids(liquid_held_by_pressed_solids);
    case Code::remove:
      return remove(operation);
    case Code::clarify:
      return clarify();
    case Code::reduce:
      return reduce(operation);
    case Code::dehydrate: {
      // What is dried keeps about a tenth of its weight as water; its spirit goes with the rest.
      Masses& masses = current().masses;
      masses[Component::ethanol] = 0;
      masses[Component::water] =
          std::min(masses[Component::water], 0.1 * (masses.total() - masses[Component::water]));
      return;
    }
    case Code::none:
      return;
  }
}

void Simulator::add(Vessel& vessel, std::size_t operation, std::size_t slot, double grams,
                    double temperature_c) {
  Masses added = per_gram(slot) * grams;
  double capacity = liquid_heat_capacity_j_per_k(added, temperature_c);
  double before = vessel.heat_capacity;
  vessel.masses += added;
  if (before + capacity > 0)
    vessel.temperature_c = (vessel.temperature_c * before + temperature_c * capacity) / (before + capacity);
  vessel.heat_capacity = before + capacity;
  outcome_.mixed += added;
  outcome_.added_g[operation] += grams;
  outcome_.slot_g[slot] += grams;
}

void Simulator::fill(std::size_t i, const Operation& operation) {
  const Masses& base = current().masses;
  const Masses& more = per_gram(operation.slot);
  double factor = moved_->kind == Perturbation::Kind::amount && moved_->operation == i ? moved_->factor : 1;
  double target = operation.target * factor;
  auto total = [&](double grams) {
    Masses mixed = base + more * grams;
    return operation.by_mass ? mixed.total() : volume_ml(mixed);
  };
  double room = target - total(0);
  if (room < 0) {
    outcome_.unsolved.push_back({i, total(0)});
    return;
  }
  auto grams = solve_rising(total, target, std::max(room, 1.0));
  if (grams) add(current(), i, operation.slot, *grams, operation.temperature_c);
}

void Simulator::until(std::size_t i, const Operation& operation) {
  const Masses base = current().masses;
  Masses mix;
  for (std::size_t p = operation.first_portion; p < operation.last_portion; ++p)
    mix += per_gram(program_.portions[p].slot) * program_.portions[p].share;
  double factor = moved_->kind == Perturbation::Kind::amount && moved_->operation == i ? moved_->factor : 1;
  double target = operation.target * factor;
  auto value = [&](double grams) {
    return property_of(base + mix * grams, operation.until, operation.by_mass);
  };
  double now = value(0), limit = property_of(mix, operation.until, operation.by_mass);
  bool rising = limit > now;
  bool reachable = rising ? (now <= target && target < limit) : (limit < target && target <= now);
  if (mix.total() <= 0 || !reachable) {
    outcome_.unsolved.push_back({i, std::abs(target - now) < std::abs(target - limit) ? now : limit});
    return;
  }
  double sign = rising ? 1 : -1;
  auto grams = solve_rising([&](double g) { return sign * value(g); }, sign * target,
                            0.1 * std::max(1.0, base.total()));
  if (!grams) {
    outcome_.unsolved.push_back({i, now});
    return;
  }
  for (std::size_t p = operation.first_portion; p < operation.last_portion; ++p)
    add(current(), i, program_.portions[p].slot, *grams * program_.portions[p].share,
        operation.temperature_c);
}

void Simulator::top(std::size_t i, const Operation& operation) {
  const Masses base = current().masses;
  const Masses& more = per_gram(operation.slot);
  auto total = [&](double grams) { return volume_ml(base + more * grams); };
  double room = operation.target - total(0);
  if (room <= 0) return;
  auto grams = solve_rising(total, operation.target, room * density(operation.slot));
  if (grams) add(current(), i, operation.slot, *grams, operation.temperature_c);
}

void Simulator::chill_with_ice(const Operation& operation) {
  Vessel& vessel = current();
  double volume = volume_ml(vessel.masses);
  if (volume <= 0) return;
  IceBath bath;
  if (operation.own_ice) {
    bath.ice_g = vessel.ice_g;
    bath.ice_c = operation.ice_c;
  } else {
    bath.ice_g = operation.ice_g >= 0 ? operation.ice_g : -operation.ice_g * volume / 100;
    bath.ice_c = operation.ice_c;
  }
  // Ice that went into the glass is what the drink is served on.
  chilled_on_serving_ice_ = chilled_on_serving_ice_ || in_glass_;
  bath.surface_water_g = operation.wet * bath.ice_g;
  Chilled chilled = chill(operation.method, vessel.masses, vessel.temperature_c, bath, operation.melt_rate,
                          operation.time, program_.room_c);
  double water = operation.water_is_in ? 0 : chilled.water_added_g;
  // Blended and whipped ice is drunk: all of it counts.
  bool drunk = operation.method == ChillMethod::blend;
  if (drunk) water = bath.ice_g + bath.surface_water_g;
  vessel.masses[Component::water] += water;
  vessel.temperature_c = chilled.end_c;
  vessel.heat_capacity = liquid_heat_capacity_j_per_k(vessel.masses, vessel.temperature_c);
  vessel.ice_g = drunk ? 0 : chilled.ice_left_g;
  outcome_.melt_g += water;
  bool closed = operation.method == ChillMethod::shake || operation.method == ChillMethod::whip ||
                operation.method == ChillMethod::blend;
  if (closed) {
    vessel.masses[Component::carbon_dioxide] *= gas_left_after_shaking;
    aerate(true);
  }
  if (!explanation_) return;
  if (operation.water_is_in) {
    explanation_->push_back(
        fmt::format("The water is in the bottle already: the ice only cools, to {:.1f} C.", chilled.end_c));
    return;
  }
  if (chilled.basis == Chilled::Basis::fit) {
    explanation_->push_back(
        fmt::format("The published fit gives {:.3f} of added water to one of drink at {:.1f} % abv{}; the "
                    "ice balance of this case over "
                    "that of the reference (20 C drink, 300 g of 0 C ice to 100 ml) is {:.3f}, and the time "
                    "reaches {:.3f} of the usual.",
                    chilled.fit_dilution, 100 * strength(vessel.masses) * volume_ml(vessel.masses) / volume,
                    chilled.strength_clamped ? " (held to the fit's range of 10 to 50 %)" : "",
                    chilled.reference_melt_g > 0 ? chilled.equilibrium_melt_g / chilled.reference_melt_g : 1,
                    chilled.time_share));
  } else {
    explanation_->push_back(
        fmt::format("The energy balance with the ice at rest gives {:.1f} g of melt and {:.1f} C; the time "
                    "reaches {:.3f} of it.",
                    chilled.equilibrium_melt_g, chilled.equilibrium_c, chilled.time_share));
  }
  explanation_->push_back(fmt::format(
      "{:.1f} g of water join the drink; the energy balance puts it at {:.1f} C.", water, chilled.end_c));
}

/// What foams raises the drink; with ice after a dry shake in full, with ice alone half as far, dry last
/// further.
void Simulator::aerate(bool closed_with_ice) {
  Vessel& vessel = current();
  double rise = 0;
  for (std::size_t s = 0; s < program_.slots.size(); ++s) {
    const Slot& slot = program_.slots[s];
    if (slot.foam_rise <= 0 || outcome_.slot_g[s] <= 0) continue;
    double share = std::min(1.0, outcome_.slot_g[s] / slot.foam_full_g);
    double full = closed_with_ice ? (vessel.dry_shaken ? slot.foam_rise : slot.foam_rise / 2)
                                  : (outcome_.melt_g > 0 ? slot.foam_rise_dry_last : slot.foam_rise);
    rise = std::max(rise, share * full);
  }
  bool holds_fat = false;
  for (std::size_t s = 0; s < program_.slots.size(); ++s)
    holds_fat = holds_fat || (program_.slots[s].holds_fat && outcome_.slot_g[s] > 0);
  double free_fat_ml =
      holds_fat ? 0 : vessel.masses[Component::fat] * specific_volume_ml_per_g(Component::fat);
  if (free_fat_ml > foam_breaking_fat_ml) rise *= foam_left_with_fat;
  vessel.foam_rise = std::max(vessel.foam_rise, rise);
}

void Simulator::to_glass(const Operation& operation) {
  if (in_glass_) return;
  if (!operation.keeps_ice) {
    strain_solids();
    mixing_.masses *= 1 - strain_loss_share;
    mixing_.ice_g = 0;
  } else {
    // Ice that came along is what the drink is served on; it has chilled the drink already.
    mixing_.ice_g = operation.ice_g > 0 ? std::min(mixing_.ice_g, operation.ice_g) : mixing_.ice_g;
    chilled_on_serving_ice_ = true;
  }
  double foam = mixing_.foam_rise;
  // What is in the glass already (a rinse, a splash) stays below.
  double capacity = liquid_heat_capacity_j_per_k(mixing_.masses, mixing_.temperature_c);
  double glass_capacity = glass_.heat_capacity;
  if (capacity + glass_capacity > 0)
    glass_.temperature_c = (glass_.temperature_c * glass_capacity + mixing_.temperature_c * capacity) /
                           (capacity + glass_capacity);
  glass_.heat_capacity = capacity + glass_capacity;
  glass_.masses += mixing_.masses;
  glass_.foam_rise = foam;
  glass_.ice_g = operation.keeps_ice ? mixing_.ice_g : operation.ice_g;
  mixing_ = Vessel{};
  in_glass_ = true;
}

/// Takes the undissolved solids out; in a prep without a measured yield they keep some liquid with them.
void Simulator::strain_solids(double held_by_solids) {
  Masses& masses = current().masses;
  double solids = masses[Component::solids];
  masses[Component::solids] = 0;
  if (!program_.is_prep || program_.yield_measured || solids <= 0) return;
  double liquid = masses.total();
  double held = std::min(held_by_solids * solids, 0.9 * liquid);
  if (liquid > 0) masses *= (liquid - held) / liquid;
  outcome_.held_back_g += held;
  if (explanation_)
    explanation_->push_back(
        fmt::format("{:.1f} g of solids stay behind and keep about {:.1f} g of liquid (an estimate; `makes` "
                    "replaces it).",
                    solids, held));
}

void Simulator::remove(const Operation& operation) {
  Masses& masses = current().masses;
  double taken = outcome_.slot_g[operation.slot] * (1 - operation.share);
  Masses gone = per_gram(operation.slot) * taken;
  double fat = gone[Component::fat];
  double dry = gone[Component::solids];
  for (Component component : components) {
    // A thing that has given itself to the liquid (a tea's sugar, a peel's water) does not come out again:
    // only what does not mix is taken.
    if (component == Component::fat || component == Component::solids || component == Component::protein)
      masses[component] = std::max(0.0, masses[component] - gone[component]);
  }
  outcome_.slot_g[operation.slot] *= operation.share;
  if (program_.yield_measured) return;
  double liquid = masses.liquid();
  double held = std::min(liquid_held_by_fat * fat + liquid_held_by_solids * dry, 0.9 * liquid);
  if (liquid > 0) masses *= (liquid - held) / liquid;
  outcome_.held_back_g += held;
  if (explanation_)
    explanation_->push_back(fmt::format(
        "{:.1f} g are taken out and keep about {:.1f} g of liquid (an estimate; `makes` replaces it).",
        fat + dry, held));
}

void Simulator::clarify() {
  Masses& masses = current().masses;
  double curd =
      masses[Component::fat] * clarified_fat_share + masses[Component::protein] * clarified_protein_share;
  masses[Component::fat] *= 1 - clarified_fat_share;
  masses[Component::protein] *= 1 - clarified_protein_share;
  masses[Component::solids] = 0;
  if (program_.yield_measured) return;
  double liquid = masses.liquid();
  double held = std::min(liquid_held_by_curd * curd, 0.9 * liquid);
  if (liquid > 0) masses *= (liquid - held) / liquid;
  outcome_.held_back_g += held;
  if (explanation_)
    explanation_->push_back(fmt::format(
        "{:.1f} g of curd stay behind and keep about {:.1f} g of liquid (an estimate; `makes` replaces it).",
        curd, held));
}

/// In the open some alcohol goes off: the published retention at the simmer, less of it the further below.
void Simulator::heat(const Operation& operation) {
  Vessel& vessel = current();
  vessel.temperature_c = operation.temperature_c;
  if (operation.temperature_c >= gas_gone_from_c) vessel.masses[Component::carbon_dioxide] = 0;
  double part = std::clamp((operation.temperature_c - alcohol_goes_from_c) / (simmer_c - alcohol_goes_from_c),
                           0.0, 1.0);
  double lost = part * (1 - alcohol_left_after(operation.time / 60));
  double& ethanol = vessel.masses[Component::ethanol];
  if (lost <= 0 || ethanol <= 0) return;
  if (explanation_)
    explanation_->push_back(
        fmt::format("{:.1f} of {:.1f} g of alcohol go off in the open at {:.0f} C: an estimate, from the "
                    "retention at a simmer (USDA "
                    "Table of Nutrient Retention Factors, from memory) and none at {:.0f} C.",
                    lost * ethanol, ethanol, operation.temperature_c, alcohol_goes_from_c));
  ethanol *= 1 - lost;
}

void Simulator::carbonate(const Operation& operation) {
  Vessel& vessel = current();
  vessel.masses[Component::carbon_dioxide] =
      carbon_dioxide_g_from_volumes(operation.target, volume_ml(vessel.masses));
  if (!explanation_) return;
  auto pressure = [&](double celsius) {
    return std::max(0.0, carbonation_pressure_bar_gauge(operation.target, celsius));
  };
  explanation_->push_back(
      fmt::format("{:.2f} volumes of gas take {:.1f} bar over the air's pressure at {:.0f} C and {:.1f} bar "
                  "at the fridge's {:.0f} C (water's figures; "
                  "sugar takes a little more). Only a vessel rated for more, with a relief valve.",
                  operation.target, pressure(vessel.temperature_c), vessel.temperature_c,
                  pressure(program_.fridge_c), program_.fridge_c));
}

/// Boils down to a volume: small steps of vapour, richer in ethanol than the liquid it leaves.
void Simulator::reduce(const Operation& operation) {
  Masses& masses = current().masses;
  masses[Component::carbon_dioxide] = 0;
  double volume = volume_ml(masses);
  double target = operation.by_mass
                      ? operation.target
                      : (operation.share > 0 ? volume * (1 - operation.share) : operation.target);
  auto size = [&] { return operation.by_mass ? masses.total() : volume_ml(masses); };
  double volatile_g = masses[Component::ethanol] + masses[Component::water];
  double part = volatile_g / 2000;
  while (size() > target && masses[Component::water] + masses[Component::ethanol] > part && part > 0) {
    // The last part of the vapour is as small as what is left to go: a gram of it takes about a millilitre.
    part = std::min(part, std::max(size() - target, 1e-9 * volatile_g));
    double ethanol = masses[Component::ethanol], water = masses[Component::water];
    double share = ethanol_relative_volatility * ethanol / (ethanol_relative_volatility * ethanol + water);
    double gone = std::min(part * share, ethanol);
    masses[Component::ethanol] -= gone;
    masses[Component::water] = std::max(0.0, water - (part - gone));
  }
  if (explanation_) explanation_->push_back("Boiling drives off ethanol before water: an estimate.");
}

/// Serving ice melts a little while the drink is poured and carried; of a drink worked in its glass that is
/// in the last step.
void Simulator::serve() {
  if (!in_glass_) {
    // Nothing moved it: it is drunk from where it was mixed.
    glass_ = mixing_;
    return;
  }
  if (chilled_on_serving_ice_ || glass_.ice_g <= 0 || volume_ml(glass_.masses) <= 0) return;
  IceBath bath;
  bath.ice_g = glass_.ice_g;
  bath.ice_c = program_.served_ice_c;
  Chilled chilled = chill(ChillMethod::build, glass_.masses, glass_.temperature_c, bath,
                          program_.served_melt_rate, usual_time(ChillMethod::build), program_.room_c);
  glass_.masses[Component::water] += chilled.water_added_g;
  glass_.temperature_c = chilled.end_c;
  glass_.ice_g = chilled.ice_left_g;
  outcome_.melt_g += chilled.water_added_g;
}

Simulator::Later Simulator::stood_for(double seconds) const {
  const Vessel& vessel = in_glass_ ? glass_ : mixing_;
  Later later{vessel.masses, vessel.temperature_c, vessel.ice_g};
  if (vessel.ice_g <= 0 || volume_ml(vessel.masses) <= 0) return later;
  IceBath bath;
  bath.ice_g = vessel.ice_g;
  bath.ice_c = program_.served_ice_c;
  Chilled chilled = chill(ChillMethod::build, vessel.masses, vessel.temperature_c, bath,
                          program_.served_melt_rate / stirred_over_still, seconds, program_.room_c);
  later.liquid[Component::water] += chilled.water_added_g;
  later.temperature_c = chilled.end_c;
  later.ice_g = chilled.ice_left_g;
  return later;
}

}  // namespace gill::model
