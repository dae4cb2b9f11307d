#include <algorithm>
#include <cmath>
#include <utility>

#include "base/percent.h"
#include "model/constants.h"
#include "model/physics/acid.h"
#include "model/physics/foam.h"
#include "model/physics/gas.h"
#include "model/physics/heat.h"
#include "model/physics/mixture_heat.h"
#include "model/physics/volume.h"
#include "model/program.h"

namespace gill::model {
namespace {

using units::Celsius;
using units::Grams;
using units::Millilitres;

// Whatever clings to what is left behind: this much of the liquid comes through. Common practice, no source.
constexpr double max_share_held_back = 0.9;
// What is dried keeps about this much of its dry weight as water. Common practice, no source.
constexpr double water_left_when_dried = 0.1;

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

double property_of(const Masses& masses, const operation::Until& until) {
  double liquid = masses.liquid();
  if (liquid <= 0) return 0;
  switch (until.property) {
    case analysis::UntilProperty::acid:
      return until.is_by_mass() ? citric_equivalents_g(masses) / liquid : acid_g_per_100_ml(masses);
    case analysis::UntilProperty::sugar:
      return until.is_by_mass() ? masses[Component::sugar] / liquid : sugar_g_per_100_ml(masses);
    case analysis::UntilProperty::strength:
      return strength(masses);
  }
  return 0;
}

/// The target on the scale of `property_of`: g in 100 ml, or a fraction.
double target_of(const operation::Until& until) {
  return std::visit(
      [](const auto& target) {
        using Type = std::decay_t<decltype(target)>;
        return std::is_same_v<Type, units::GramsInMillilitre> ? base::per_100_ml(target.value) : target.value;
      },
      until.target);
}

const Perturbation unmoved;

// What the published fits were poured at, °C: the room's temperature, where nothing says otherwise.
constexpr double reference_pour_c = 20;

/// Heat of a liquid and of the glass that it touches as one body.
MixtureHeat heat_of(const Masses& masses, double glass_j_per_k) {
  return {masses[Component::ethanol], masses[Component::water],
          solute_heat_capacity_j_per_k(masses) + glass_j_per_k};
}

/// What a vessel comes to, on the scale on which a size is stated.
double size_of(const Masses& masses, const Millilitres&) { return volume_ml(masses); }
double size_of(const Masses& masses, const Grams&) { return masses.total(); }

}  // namespace

const Masses& Simulator::per_gram(std::size_t slot) const {
  if (!moved_->slots.empty() && moved_->slots[slot]) return moved_->slots[slot]->per_gram;
  return program_.slots[slot].per_gram;
}

units::Density Simulator::density(std::size_t slot) const {
  if (!moved_->slots.empty() && moved_->slots[slot])
    return units::Density(moved_->slots[slot]->density_g_per_ml);
  return program_.slots[slot].density;
}

double Simulator::moved_by(std::size_t operation) const {
  return moved_->amounts.empty() ? 1 : moved_->amounts[operation];
}

Celsius Simulator::at_room(Celsius temperature) const {
  return temperature == program_.room ? Celsius(temperature.value + moved_->room_k) : temperature;
}

IceBath Simulator::bath(double ice_g, double wet_share, Celsius ice_temperature, const Vessel& vessel) const {
  IceBath bath;
  bath.ice_c = std::min(0.0, ice_temperature.value + moved_->ice_k);
  bath.surface_water_g = ice_g * surface_water_share(wet_share, bath.ice_c);
  bath.ice_g = ice_g - bath.surface_water_g;
  bath.vessel_j_per_k = vessel.glass_j_per_k;
  bath.vessel_c = vessel.temperature_c();
  return bath;
}

double Simulator::melted(ChillMethod method, const Chilled& chilled, double ice_g) const {
  double water = chilled.water_added_g;
  double by_hands = water * program_.hands.melt[index_of(method)] * moved_->melt;
  // No hand melts more than there is, the water on it included.
  return std::min(by_hands, std::max(water, ice_g));
}

double Simulator::Vessel::temperature_c() const {
  if (set_c) return *set_c;
  // To what no thermometer shows: what is poured at 40 C is at 40 C.
  constexpr double steps_in_1_k = 1e7;
  return std::round(heat_of(masses, glass_j_per_k).temperature_c(enthalpy_j) * steps_in_1_k) / steps_in_1_k;
}

void Simulator::Vessel::set_temperature(double celsius) {
  enthalpy_j = heat_of(masses, glass_j_per_k).enthalpy_j(celsius);
  enthalpy_from_20_c_j = liquid_enthalpy_j(masses, reference_pour_c);
  set_c = celsius;
}

/// What is taken out of a vessel, or let into it as gas, leaves the rest as warm as it was.
struct Simulator::SameTemperature {
  explicit SameTemperature(Vessel& changed) : vessel(changed), celsius(changed.temperature_c()) {}
  ~SameTemperature() { vessel.set_temperature(celsius); }
  SameTemperature(const SameTemperature&) = delete;
  SameTemperature& operator=(const SameTemperature&) = delete;

  Vessel& vessel;
  const double celsius;
};

void Simulator::strain(Vessel& vessel, double lost_share, bool is_pressed) {
  const SameTemperature kept(vessel);
  const double celsius = kept.celsius;
  if (program_.is_prep && celsius <= solid_fat_sets_c) {
    const double fat = free_fat_g();
    const double set = celsius <= any_fat_sets_c ? fat : std::min(fat, setting_fat_g_);
    if (set > 0) take_fat(strained_set_fat_share * set / fat);
  }
  leave_solids(is_pressed ? liquid_held_by_pressed_solids : liquid_held_by_solids, is_pressed);
  vessel.masses *= 1 - lost_share;
}

void Simulator::record(const Reckoning& reckoning) {
  if (reckonings_) reckonings_->push_back(reckoning);
}

void Simulator::begin(const Perturbation& moved) {
  moved_ = &moved;
  mixing_ = glass_ = Vessel{};
  glass_.glass_j_per_k = program_.glass_j_per_k;
  glass_.set_temperature(at_room(program_.glass_temperature).value);
  if (program_.is_mixed_in_glass) mixing_ = glass_;
  in_glass_ = chilled_on_serving_ice_ = false;
  outcome_.mixed = outcome_.liquid = Masses{};
  outcome_.melt_g = outcome_.foam_ml = outcome_.ice_g = outcome_.held_back_g = 0;
  outcome_.reached_glass = false;
  fat_in_solids_g_ = setting_fat_g_ = juice_in_cells_g_ = juice_in_cooked_cells_g_ = wet_flesh_g_ = 0;
  outcome_.added_g.assign(program_.operations.size(), 0.0);
  outcome_.ice_taken_g.assign(program_.operations.size(), 0.0);
  outcome_.slot_g.assign(program_.slots.size(), 0.0);
  outcome_.put_g.assign(program_.slots.size(), 0.0);
  outcome_.unsolved.clear();
}

VesselState Simulator::state() const {
  const Vessel& vessel = current();
  const double celsius = vessel.masses.total() > 0 ? vessel.temperature_c() : at_room(program_.room).value;
  return {vessel.masses, celsius, vessel.foam_rise * volume_ml(vessel.masses), vessel.ice_g};
}

TraceStep Simulator::traced_step(std::size_t i) {
  TraceStep line;
  line.is_amount = program_.operations[i].is_amount;
  line.index = program_.operations[i].index;
  line.before = state();
  poured_into_glass_c_.reset();
  double melt = outcome_.melt_g;
  reckonings_ = &line.work;
  step(i);
  reckonings_ = nullptr;
  line.after = state();
  line.poured_into_glass_c = poured_into_glass_c_;
  line.in_glass = in_glass_;
  line.melt_g = outcome_.melt_g - melt;
  if (const auto* chill = program_.operations[i].as<operation::Chill>())
    line.assumed_time_s = chill->assumed_time_s;
  for (std::size_t slot = 0; slot < program_.slots.size(); ++slot)
    if (outcome_.slot_g[slot] > 0) line.contents.push_back(program_.slots[slot].stock);
  return line;
}

const Outcome& Simulator::run(const Perturbation& moved, std::vector<TraceStep>* trace) {
  begin(moved);
  for (std::size_t i = 0; i < program_.operations.size(); ++i) {
    if (trace)
      trace->push_back(traced_step(i));
    else
      step(i);
  }
  if (!program_.is_prep) serve();
  const Vessel& last = current();
  outcome_.liquid = last.masses;
  outcome_.temperature_c = last.temperature_c();
  outcome_.ice_g = last.ice_g;
  outcome_.foam_ml = last.foam_rise * volume_ml(last.masses);
  outcome_.reached_glass = in_glass_;
  moved_ = &unmoved;
  return outcome_;
}

void Simulator::step(std::size_t i) {
  std::visit([&](const auto& what) { act(i, what); }, program_.operations[i].act);
}

void Simulator::act(std::size_t, const operation::Nothing&) {}

void Simulator::act(std::size_t i, const operation::Add& add) {
  // A volume of something denser weighs more: grams were evaluated at the unmoved density.
  double density_ratio = add.is_weighed ? 1 : density(add.slot) / program_.slots[add.slot].density;
  pour(add.into_glass ? glass_ : current(), i, add.slot, add.amount * moved_by(i) * density_ratio,
       add.temperature);
}

void Simulator::pour(Vessel& vessel, std::size_t operation, std::size_t slot, Grams amount,
                     Celsius temperature) {
  Masses added = per_gram(slot) * amount.value;
  temperature = at_room(temperature);
  const MixtureHeat heat(added);
  if (reckonings_ && (&vessel == &glass_ || program_.is_mixed_in_glass)) {
    // What is in the glass already takes the edge off it.
    const double there = liquid_heat_capacity_j_per_k(vessel.masses, 20),
                 more = heat.heat_capacity_j_per_k(20);
    const double now = there > 0 ? vessel.temperature_c() : 0;
    if (there + more > 0) note_poured_into_glass((there * now + more * temperature.value) / (there + more));
  }
  vessel.masses += added;
  vessel.set_c.reset();
  vessel.enthalpy_j += heat.enthalpy_j(temperature.value);
  vessel.enthalpy_from_20_c_j += heat.enthalpy_j(reference_pour_c);
  outcome_.mixed += added;
  outcome_.added_g[operation] += amount.value;
  outcome_.slot_g[slot] += amount.value;
  outcome_.put_g[slot] += amount.value;
  const Slot& from = program_.slots[slot];
  if (from.keeps_fat) fat_in_solids_g_ += added[Component::fat];
  if (from.sets_in_fridge) setting_fat_g_ += added[Component::fat];
  juice_in_cells_g_ += from.juice_in_cells * amount.value;
  wet_flesh_g_ += from.wet_flesh * amount.value;
}

void Simulator::act(std::size_t i, const operation::Fill& fill) {
  const Masses& base = current().masses;
  const Masses& more = per_gram(fill.slot);
  std::visit(
      [&](const auto& size) {
        double target = size.value * moved_by(i);
        auto total = [&](double grams) { return size_of(base + more * grams, size); };
        double room = target - total(0);
        if (room < 0) {
          outcome_.unsolved.push_back({i, total(0)});
          return;
        }
        auto grams = solve_rising(total, target, std::max(room, 1.0));
        if (grams) pour(current(), i, fill.slot, Grams(*grams), fill.temperature);
      },
      fill.target);
}

void Simulator::act(std::size_t i, const operation::Until& until) {
  const Masses base = current().masses;
  Masses mix;
  for (std::size_t p = until.first_portion; p < until.last_portion; ++p)
    mix += per_gram(program_.portions[p].slot) * program_.portions[p].share;
  double target = target_of(until) * moved_by(i);
  auto value = [&](double grams) { return property_of(base + mix * grams, until); };
  double now = value(0), limit = property_of(mix, until);
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
  for (std::size_t p = until.first_portion; p < until.last_portion; ++p)
    pour(current(), i, program_.portions[p].slot, Grams(*grams * program_.portions[p].share),
         until.temperature);
}

void Simulator::act(std::size_t i, const operation::Top& top) {
  const Masses base = current().masses;
  const Masses& more = per_gram(top.slot);
  auto total = [&](double grams) { return volume_ml(base + more * grams); };
  Millilitres target = top.target * moved_by(i);
  Millilitres room = target - Millilitres(total(0));
  if (room <= Millilitres(0)) return;
  auto grams = solve_rising(total, target.value, (room * density(top.slot)).value);
  if (grams) pour(current(), i, top.slot, Grams(*grams), top.temperature);
}

double Simulator::ice_of(const operation::Chill& chilling, const Vessel& vessel) {
  if (const auto* amount = std::get_if<Grams>(&chilling.ice)) return amount->value;
  if (const auto* share = std::get_if<operation::IcePer100Ml>(&chilling.ice))
    return share->amount.value * volume_ml(vessel.masses) / 100;
  return vessel.ice_g;
}

void Simulator::act(std::size_t i, const operation::Chill& chilling) {
  Vessel& vessel = current();
  if (volume_ml(vessel.masses) <= 0) return;
  const double ice_g = ice_of(chilling, vessel);
  if (!std::holds_alternative<operation::GlassIce>(chilling.ice) && !chilling.water_is_in)
    outcome_.ice_taken_g[i] = ice_g;
  const bool is_drained = vessel.ice_is_drained && std::holds_alternative<operation::GlassIce>(chilling.ice);
  IceBath ice = bath(ice_g, is_drained ? 0 : chilling.wet_share, chilling.ice_temperature, vessel);
  // Ice that went into the glass is what the drink is served on.
  chilled_on_serving_ice_ = chilled_on_serving_ice_ || in_glass_;
  double before = reckonings_ ? strength(vessel.masses) : 0;
  const FitCase fit{MixtureHeat(vessel.masses).temperature_c(vessel.enthalpy_from_20_c_j),
                    in_glass_ || program_.is_mixed_in_glass};
  Chilled chilled = chill(chilling.method, vessel.masses, ice.vessel_c, ice, chilling.melt_rate,
                          chilling.time, at_room(program_.room).value, fit);
  double water = chilling.water_is_in ? 0 : melted(chilling.method, chilled, ice_g);
  // Blended ice is drunk: all of it counts. Whipped ice is a few pebbles that melt wholly where the drink has
  // the heat for it; what is left of more of it stays ice, to be strained off or tipped along.
  bool blended = chilling.method == ChillMethod::blend;
  if (blended) water = ice_g;
  vessel.masses[Component::water] += water;
  bool closed = chilling.method == ChillMethod::shake || chilling.method == ChillMethod::whip || blended;
  if (closed) vessel.masses[Component::carbon_dioxide] *= gas_left_after_shaking;
  vessel.set_temperature(chilled.end_c);
  vessel.ice_is_drained = true;
  double more_melt = chilling.water_is_in ? 0 : water - chilled.water_added_g;
  vessel.ice_g = blended ? 0 : std::max(0.0, chilled.ice_left_g - more_melt);
  outcome_.melt_g += water;
  if (closed) aerate(true);
  if (reckonings_) record_chill(chilling, chilled, before, water);
}

/// How it came to be as cold and as dilute: the fit or the balance, then the hands.
void Simulator::record_chill(const operation::Chill& chilling, const Chilled& chilled, double strength_before,
                             double water_g) {
  if (chilling.water_is_in) return record(reckoning::CooledOnly{chilled.end_c});
  switch (chilled.basis) {
    case Chilled::Basis::fit:
      record(reckoning::Fitted{
          chilled.fit_dilution, strength_before, chilled.strength_clamped,
          chilled.reference_melt_g > 0 ? chilled.equilibrium_melt_g / chilled.reference_melt_g : 1,
          chilled.time_share});
      break;
    case Chilled::Basis::balance:
      record(reckoning::Balanced{chilled.equilibrium_melt_g, chilled.equilibrium_c, chilled.time_share});
      break;
  }
  const bool blended = chilling.method == ChillMethod::blend;
  if (double hands = program_.hands.melt[index_of(chilling.method)]; hands != 1 && !blended)
    record(reckoning::ByHands{hands});
  record(reckoning::Diluted{water_g, chilled.end_c, blended, chilled.water_added_g - chilled.melt_g});
}

void Simulator::act(std::size_t, const operation::DryShake&) {
  current().dry_shaken = true;
  aerate(false);
}

/// What foams raises the drink; with ice after a dry shake in full, with ice alone half as far, dry last
/// further.
void Simulator::aerate(bool closed_with_ice) {
  Vessel& vessel = current();
  double rise = 0;
  for (std::size_t s = 0; s < program_.slots.size(); ++s) {
    const Slot& slot = program_.slots[s];
    if (slot.foam_rise <= 0 || outcome_.slot_g[s] <= 0) continue;
    double share = std::min(1.0, outcome_.slot_g[s] / slot.full_foam.value);
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

void Simulator::act(std::size_t i, const operation::StrainToGlass& onto) {
  outcome_.ice_taken_g[i] = onto.glass_ice.value;
  if (in_glass_) return;
  strain(mixing_, strain_loss_share);
  move_to_glass(onto.glass_ice);
}

void Simulator::act(std::size_t, const operation::Dump& dump) {
  if (in_glass_) return;
  // Ice that came along is what the drink is served on; it has chilled the drink already.
  chilled_on_serving_ice_ = true;
  glass_.ice_is_drained = mixing_.ice_is_drained;
  move_to_glass(Grams(dump.max_ice > Grams(0) ? std::min(mixing_.ice_g, dump.max_ice.value) : mixing_.ice_g));
}

void Simulator::move_to_glass(Grams glass_ice) {
  pour_into_glass();
  glass_.ice_g = glass_ice.value;
}

void Simulator::note_poured_into_glass(double celsius) {
  poured_into_glass_c_ = std::max(poured_into_glass_c_.value_or(celsius), celsius);
}

void Simulator::pour_into_glass() {
  // What is in the glass already (a rinse, a splash) stays below.
  const bool is_told = reckonings_ && mixing_.masses.total() > 0;
  reckoning::MetGlass met;
  if (is_told) {
    met = {glass_.temperature_c(), mixing_.temperature_c(), 0};
    note_poured_into_glass(met.before_c);
  }
  glass_.set_c.reset();
  glass_.masses += mixing_.masses;
  glass_.enthalpy_j += mixing_.enthalpy_j;
  glass_.enthalpy_from_20_c_j += mixing_.enthalpy_from_20_c_j;
  glass_.foam_rise = mixing_.foam_rise;
  glass_.dry_shaken = mixing_.dry_shaken;
  mixing_ = Vessel{};
  in_glass_ = true;
  if (!is_told || glass_.glass_j_per_k <= 0) return;
  met.after_c = glass_.temperature_c();
  record(met);
}

void Simulator::act(std::size_t, const operation::StrainToTin&) {
  strain(current(), strain_loss_share);
  current().ice_g = 0;
}

void Simulator::act(std::size_t i, const operation::Build& build) {
  outcome_.ice_taken_g[i] = build.glass_ice.value;
  if (!in_glass_) {
    // What is in the mixing vessel already is in the glass: `build` says which vessel it was.
    glass_.ice_g += mixing_.ice_g;
    pour_into_glass();
  }
  glass_.ice_g += build.glass_ice.value;
}

void Simulator::act(std::size_t, const operation::Strain& through) {
  strain(current(), 0, through.is_pressed);
}

/// Takes the undissolved solids out; in a prep they keep some liquid with them.
void Simulator::leave_solids(double held_by_solids, bool is_pressed) {
  Masses& masses = current().masses;
  double solids = masses[Component::solids];
  masses[Component::solids] = 0;
  double fat = std::min(fat_in_solids_g_, masses[Component::fat]);
  masses[Component::fat] -= fat;
  fat_in_solids_g_ = 0;
  const double in_cells =
      is_pressed ? 0 : kept_by_cells * juice_in_cells_g_ + kept_by_cooked_cells * juice_in_cooked_cells_g_;
  if (program_.is_prep && solids + fat + in_cells > 0)
    hold_back(reckoning::HeldBack::What::solids, solids + fat,
              held_by_solids * std::max(solids - wet_flesh_g_, 0.0) + liquid_held_by_fat * fat + in_cells);
  juice_in_cells_g_ = juice_in_cooked_cells_g_ = wet_flesh_g_ = 0;
}

double Simulator::free_fat_g() const {
  for (std::size_t s = 0; s < program_.slots.size(); ++s)
    if (program_.slots[s].holds_fat && outcome_.slot_g[s] > 0) return 0;
  const Vessel& vessel = current();
  return std::max(0.0, vessel.masses[Component::fat] - fat_in_solids_g_);
}

void Simulator::take_fat(double share) {
  const double taken = share * free_fat_g();
  if (taken <= 0) return;
  current().masses[Component::fat] -= taken;
  setting_fat_g_ = std::max(0.0, setting_fat_g_ - taken);
  hold_back(reckoning::HeldBack::What::fat, taken, liquid_held_by_fat * taken);
}

void Simulator::act(std::size_t, const operation::BreakCells&) {
  juice_in_cells_g_ = juice_in_cooked_cells_g_ = 0;
}

void Simulator::act(std::size_t, const operation::Skim&) {
  const SameTemperature kept(current());
  take_fat(skimmed_share);
}

void Simulator::hold_back(reckoning::HeldBack::What what, double left_g, double clinging_g) {
  if (program_.yield_measured) return;
  clinging_g *= program_.hands.hold * moved_->hold;
  Masses& masses = current().masses;
  double liquid = masses.liquid();
  double held = std::min(clinging_g, max_share_held_back * liquid);
  if (liquid > 0) masses *= (liquid - held) / liquid;
  outcome_.held_back_g += held;
  record(reckoning::HeldBack{what, left_g, held});
}

void Simulator::act(std::size_t, const operation::Remove& remove) {
  const SameTemperature kept(current());
  Masses& masses = current().masses;
  double taken = outcome_.slot_g[remove.slot] * (1 - remove.stays.value);
  Masses gone = per_gram(remove.slot) * taken;
  double fat = gone[Component::fat];
  double dry = gone[Component::solids];
  // A thing that has given itself to the liquid (a tea's sugar, a peel's water) does not come out again: only
  // what does not mix is taken.
  for (Component component : {Component::fat, Component::solids, Component::protein})
    masses[component] = std::max(0.0, masses[component] - gone[component]);
  outcome_.slot_g[remove.slot] *= remove.stays.value;
  const Slot& from = program_.slots[remove.slot];
  if (from.keeps_fat) fat_in_solids_g_ = std::max(0.0, fat_in_solids_g_ - fat);
  if (from.sets_in_fridge) setting_fat_g_ = std::max(0.0, setting_fat_g_ - fat);
  const double unbroken = std::min(from.juice_in_cells * taken, juice_in_cells_g_);
  const double cooked = std::min(from.juice_in_cells * taken - unbroken, juice_in_cooked_cells_g_);
  const double flesh = std::min(from.wet_flesh * taken, wet_flesh_g_);
  juice_in_cells_g_ -= unbroken;
  juice_in_cooked_cells_g_ -= cooked;
  wet_flesh_g_ -= flesh;
  hold_back(reckoning::HeldBack::What::removed, fat + dry,
            liquid_held_by_fat * fat + liquid_held_by_solids * std::max(dry - flesh, 0.0) +
                kept_by_cells * unbroken + kept_by_cooked_cells * cooked);
}

void Simulator::act(std::size_t, const operation::Clarify&) {
  const SameTemperature kept(current());
  Masses& masses = current().masses;
  double curd =
      masses[Component::fat] * clarified_fat_share + masses[Component::protein] * clarified_protein_share;
  masses[Component::fat] *= 1 - clarified_fat_share;
  masses[Component::protein] *= 1 - clarified_protein_share;
  masses[Component::solids] = 0;
  hold_back(reckoning::HeldBack::What::curd, curd, liquid_held_by_curd * curd);
}

/// In the open some alcohol goes off: the published retention at the simmer, less of it the further below.
void Simulator::act(std::size_t, const operation::Heat& heat) {
  Vessel& vessel = current();
  if (heat.to.value >= cells_soften_from_c) juice_in_cooked_cells_g_ += std::exchange(juice_in_cells_g_, 0);
  if (heat.to.value >= gas_gone_from_c) vessel.masses[Component::carbon_dioxide] = 0;
  double part =
      std::clamp((heat.to.value - alcohol_goes_from_c) / (simmer_c - alcohol_goes_from_c), 0.0, 1.0);
  double lost = part * (1 - alcohol_left_after(heat.time.value / 60));
  double& ethanol = vessel.masses[Component::ethanol];
  if (lost > 0 && ethanol > 0) {
    record(reckoning::BoiledOff{lost * ethanol, ethanol, heat.to.value});
    ethanol *= 1 - lost;
  }
  vessel.set_temperature(heat.to.value);
}

void Simulator::act(std::size_t, const operation::SetTemperature& set) {
  if (set.to.value >= gas_gone_from_c) current().masses[Component::carbon_dioxide] = 0;
  current().set_temperature(set.to.value);
}

void Simulator::act(std::size_t, const operation::Carbonate& carbonate) {
  Vessel& vessel = current();
  const SameTemperature kept(vessel);
  double volumes = carbonate.to.value, fridge_c = program_.fridge.value;
  vessel.masses[Component::carbon_dioxide] = carbon_dioxide_g_from_volumes(volumes, volume_ml(vessel.masses));
  auto pressure = [&](double celsius) {
    return std::max(0.0, carbonation_pressure_bar_gauge(volumes, gas_solvent(vessel.masses, celsius)));
  };
  record(reckoning::Carbonated{volumes, pressure(kept.celsius), kept.celsius, pressure(fridge_c), fridge_c});
}

/// Boils down to a size: small steps of vapour, richer in ethanol than the liquid it leaves.
void Simulator::act(std::size_t, const operation::Reduce& reduce) {
  const SameTemperature kept(current());
  Masses& masses = current().masses;
  masses[Component::carbon_dioxide] = 0;
  bool by_mass = std::holds_alternative<Grams>(reduce.to);
  auto size = [&] { return by_mass ? masses.total() : volume_ml(masses); };
  double target = 0;
  if (const auto* share = std::get_if<units::Share>(&reduce.to))
    target = size() * (1 - share->value);
  else if (const auto* volume = std::get_if<Millilitres>(&reduce.to))
    target = volume->value;
  else
    target = std::get<Grams>(reduce.to).value;
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
  record(reckoning::Reduced{});
}

/// What is dried keeps a little water; its spirit goes with the rest.
void Simulator::act(std::size_t, const operation::Dehydrate&) {
  const SameTemperature kept(current());
  Masses& masses = current().masses;
  masses[Component::ethanol] = 0;
  masses[Component::water] =
      std::min(masses[Component::water], water_left_when_dried * (masses.total() - masses[Component::water]));
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
  const IceBath ice = bath(glass_.ice_g, program_.served_wet_share, program_.served_ice_temperature, glass_);
  Chilled chilled = chill(ChillMethod::build, glass_.masses, ice.vessel_c, ice, program_.served_melt_rate,
                          usual_time(ChillMethod::build), at_room(program_.room).value);
  double water = melted(ChillMethod::build, chilled, glass_.ice_g);
  glass_.masses[Component::water] += water;
  glass_.set_temperature(chilled.end_c);
  glass_.ice_g = std::max(0.0, chilled.ice_left_g + chilled.water_added_g - water);
  outcome_.melt_g += water;
}

Simulator::Later Simulator::stood_for(double seconds) const {
  const Vessel& vessel = current();
  Later later{vessel.masses, vessel.temperature_c(), vessel.ice_g};
  if (vessel.ice_g <= 0 || volume_ml(vessel.masses) <= 0) return later;
  // The water on the ice went into the drink when it was served.
  Chilled chilled = chill(ChillMethod::build, vessel.masses, later.temperature_c,
                          bath(vessel.ice_g, 0, program_.served_ice_temperature, vessel),
                          program_.served_melt_rate / stirred_over_still, seconds, program_.room.value);
  later.liquid[Component::water] += chilled.water_added_g;
  later.temperature_c = chilled.end_c;
  later.ice_g = chilled.ice_left_g;
  return later;
}

}  // namespace gill::model
