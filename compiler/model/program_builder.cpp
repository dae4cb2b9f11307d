#include "model/program_builder.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "analysis/groups.h"
#include "analysis/usual_times.h"
#include "model/lowering.h"
#include "model/physics/foam.h"
#include "model/physics/usual_times.h"
#include "model/serving_glass.h"
#include "model/serving_ice.h"

namespace gill::model {

using analysis::Amount;
using analysis::Step;
using analysis::StockKind;
using analysis::Verb;
using diagnostics::Rule;
using units::Celsius;
using units::Density;
using units::Grams;
using units::Kind;
using units::Millilitres;
using units::Seconds;

namespace {

bool frees_its_juice(Verb verb) { return verb == Verb::muddle || verb == Verb::blend || verb == Verb::heat; }

operation::Reduce reduced_to(const Step& step) {
  if (step.target)
    if (auto mass = step.target->mass()) return {*mass};
  if (step.share.value_or(0) > 0) return {units::Share(*step.share)};
  return {Millilitres(step.target ? step.target->number() : 0)};
}

/// Whole pieces of it go in; by weight it is what is left when skin and stones are off.
bool is_counted(const analysis::Recipe& recipe, analysis::StockId stock) {
  return std::any_of(recipe.amounts.begin(), recipe.amounts.end(), [&](const Amount& amount) {
    return amount.form == Amount::Form::measured && amount.quantity.kind == Kind::count &&
           amount.use().stock == stock;
  });
}

/// What nobody measured.
operation::IcePer100Ml shaker_ice_of(ChillMethod method) {
  if (method == ChillMethod::whip) return {Grams(whip_ice_g_per_100_ml)};
  return {Grams(method == ChillMethod::blend ? blend_ice_g_per_100_ml : shaker_ice_g_per_100_ml)};
}

Masses all_solid(const Masses& per_gram) {
  Masses solid;
  solid[Component::solids] = per_gram.total();
  return solid;
}

}  // namespace

BuiltProgram ProgramBuilder::build(const analysis::Drink& drink) {
  Lowering job{drink.recipe, &drink, nullptr, drink.head.name, {}};
  choose_glass(job, specs_);
  job.squeezes = !analysis::has_step(drink.recipe, {Verb::blend});
  for (const auto& line : drink.recipe.order) {
    if (line.is_amount) continue;
    const Step& step = drink.recipe.steps[line.index];
    job.frees_juice = job.frees_juice || frees_its_juice(step.verb);
    job.built = job.built || step.verb == Verb::build;
    job.dumped = job.dumped || step.verb == Verb::dump;
    job.strained = job.strained || (analysis::strains(step.verb) && !step.to_tin);
  }
  job.gets_hot = gets_hot(drink.recipe, Celsius(specs_.house.room_c));
  find_added_ice(job);
  if (drink.batched && drink.batched->with_water)
    for (const auto& amount : drink.recipe.amounts)
      job.water_is_in = job.water_is_in || specs_[amount.use().stock].kind == StockKind::water;
  choose_glass_ice(job, expected(job), specs_);
  lower(job);
  settle_glass_ice(job, specs_);
  const auto& operations = job.program().operations;
  job.program().is_mixed_in_glass =
      drink.glass.valid() && std::none_of(operations.begin(), operations.end(), moves_into_glass);
  lengthen_to_serving(job.program());
  return std::move(job.result);
}

BuiltProgram ProgramBuilder::build(const analysis::Stock& prep) {
  Lowering job{prep.recipe, nullptr, &prep, {}, {}};
  job.frees_juice = true;
  job.squeezes = analysis::has_step(prep.recipe, {Verb::strain, Verb::fine_strain, Verb::double_strain,
                                                  Verb::press, Verb::remove}) &&
                 !analysis::has_step(prep.recipe, {Verb::blend, Verb::dehydrate});
  job.frees_fat = analysis::has_step(prep.recipe, {Verb::blend, Verb::heat, Verb::simmer});
  job.program().is_prep = true;
  job.program().yield_measured = prep.makes.has_value();
  lower(job);
  return std::move(job.result);
}

/// What the amounts come to before they are evaluated exactly, with a tenth for the melt.
Millilitres ProgramBuilder::expected(const Lowering& job) const {
  Millilitres sum;
  for (const auto& amount : job.recipe.amounts)
    if (amount.form == Amount::Form::measured && !amount.optional)
      sum += poured(amount.use(), amount.quantity);
  for (const auto& step : job.recipe.steps)
    if (step.use && step.amount && analysis::goes_on_top(step.verb))
      sum += step.amount->volume().value_or(Millilitres(0));
  if (job.drink && job.drink->size) sum = std::max(sum, job.drink->size->volume().value_or(sum));
  return sum * expected_with_melt;
}

/// Of a liquid what the quantity fills, as far as it is known; nothing of anything else.
Millilitres ProgramBuilder::poured(const analysis::Use& use, const units::Quantity& quantity) const {
  if (!measuring_.is_liquid(use.stock)) return {};
  auto grams = measuring_.grams_silently(use, quantity);
  return grams ? measuring_.millilitres(use.stock, *grams).value_or(Millilitres(0)) : Millilitres(0);
}

void ProgramBuilder::lower(Lowering& job) {
  job.program().room = Celsius(specs_.house.room_c);
  job.program().fridge = Celsius(specs_.house.fridge_c);
  job.program().hands = hands_of(specs_.house);
  job.program().valid = !(job.drink ? job.drink->head.has_amount_errors : job.prep->head.has_amount_errors);
  for (const auto& line : job.recipe.order) {
    if (line.is_amount)
      amount(job, line.index);
    else
      step(job, line.index);
  }
}

void ProgramBuilder::add_operation(Lowering& job, Operation operation, std::size_t entry) {
  job.program().operations.push_back(operation);
  job.result.entry_of.push_back(entry);
}

Celsius ProgramBuilder::start_temperature(analysis::StockId stock) const {
  // Nobody pours warm soda: what is fizzy comes from the fridge.
  return Celsius(stock_[stock.index()].fizz_vol > 0 ? specs_.house.fridge_c : specs_.house.room_c);
}

Celsius ProgramBuilder::temperature_of(const Amount& amount) const {
  if (amount.temperature) return Celsius(amount.temperature->number());
  if (amount.hot) return Celsius(hot_c);
  if (amount.frozen) return Celsius(specs_.house.freezer_c);
  if (amount.chilled) return Celsius(specs_.house.fridge_c);
  return start_temperature(amount.use().stock);
}

/// A gram of a whole fruit that is muddled in a drink, or goes into a prep: it gives the juice that its
/// `gives` line says it gives squeezed, and flesh and skin keep the rest. Common practice, no source. What
/// has no such line stays as it is.
void ProgramBuilder::squeeze(Slot& slot, const analysis::Stock& fruit) const {
  const analysis::Gives* gives = juice_of(fruit);
  auto whole = fruit.each.find(units::UnitId{});
  if (!gives || whole == fruit.each.end()) return;
  auto fruit_g = whole->second.mass();
  auto juice_g = measuring_.grams_silently(gives->what, gives->quantity);
  const Masses& juice = stock_[gives->what.stock.index()].composition.per_gram;
  if (!fruit_g || *fruit_g <= Grams(0) || !juice_g || juice.total() <= 0) return;
  slot.juice = gives->what.stock;
  slot.juice_share = std::min(1.0, *juice_g / *fruit_g);
  slot.per_gram = juice * slot.juice_share;
  slot.per_gram[Component::solids] += 1 - slot.juice_share * juice.total();
}

/// What stands in the cells of fresh fruit and herbs: the juice that a whole fruit gives, else all that is no
/// solid.
void ProgramBuilder::keep_in_cells(Slot& slot, StockKind kind) const {
  const double water = slot.per_gram[Component::water];
  if (slot.juice.valid()) {
    slot.juice_in_cells = slot.per_gram.liquid();
    slot.wet_flesh = slot.per_gram[Component::solids];
  } else if ((kind == StockKind::fruit || kind == StockKind::herb) && water > fresh_water_share &&
             slot.per_gram[Component::salt] < fresh_salt_share) {
    slot.juice_in_cells = water;
  }
}

void ProgramBuilder::set_foam(Slot& slot, StockKind kind) const {
  FoamRise rise = foam_of_juice_or_pulse_water;
  slot.full_foam = Grams(20);
  if (kind == StockKind::egg) {
    bool yolk = stock_[slot.stock.index()].composition.per_gram[Component::fat] > 0.05;
    rise = yolk ? foam_of_whole_egg : foam_of_egg_white;
    slot.full_foam = Grams(15);
  } else if (kind == StockKind::dairy) {
    rise = foam_of_cream;
    slot.full_foam = Grams(25);
  }
  slot.foam_rise = slot.foam_rise_dry_last = rise.typical;
  if (rise.typical == foam_of_egg_white.typical) slot.foam_rise_dry_last = foam_of_egg_white_dry_last.typical;
}

std::size_t ProgramBuilder::slot_of(Lowering& job, analysis::StockId id) {
  auto& slots = job.program().slots;
  for (std::size_t i = 0; i < slots.size(); ++i)
    if (slots[i].stock == id) return i;
  const auto& stock = specs_[id];
  const auto& facts = stock_[id.index()];
  job.holds_fizz = job.holds_fizz || facts.fizz_vol > 0;
  Slot slot;
  slot.stock = id;
  slot.per_gram = facts.composition.per_gram;
  slot.density = Density(facts.composition.density_g_per_ml);
  slot.is_liquid = measuring_.is_liquid(id);
  // Whole fruit, herbs and nuts in a drink give nothing until they are muddled or blended.
  if (!slot.is_liquid && analysis::is_plant(stock.kind) && !job.frees_juice)
    slot.per_gram = all_solid(slot.per_gram);
  else if (job.squeezes && (job.drink || is_counted(job.recipe, id)))
    squeeze(slot, stock);
  if (job.prep && job.squeezes && !slot.is_liquid) keep_in_cells(slot, stock.kind);
  slot.sets_in_fridge = !slot.is_liquid && stock.kind == StockKind::fat;
  slot.holds_fat = facts.holds_fat;
  slot.keeps_fat = job.prep && !job.frees_fat && !slot.is_liquid &&
                   (analysis::is_plant(stock.kind) || stock.kind == StockKind::tea_coffee);
  if (facts.foams) set_foam(slot, stock.kind);
  slots.push_back(slot);
  return slots.size() - 1;
}

std::size_t ProgramBuilder::add_entry(Lowering& job, const analysis::Use& use, Role role, std::size_t index,
                                      std::string as_written) {
  Entry entry;
  entry.role = role;
  entry.use = use;
  entry.name = analysis::name_of(use, specs_, units_);
  entry.as_written = std::move(as_written);
  entry.index = index;
  job.result.entries.push_back(std::move(entry));
  return job.result.entries.size() - 1;
}

/// Parts fill the drink's size together, less what is given otherwise.
Grams ProgramBuilder::grams_of_part(Lowering& job, const Amount& amount) {
  if (!job.part) {
    const auto& size = job.drink ? job.drink->size : std::optional<units::Quantity>();
    if (!size) {
      sink_
          .add(Rule::no_density, amount.quantity.span, "parts need a size to be parts of",
               "Add `size 90 ml`: the parts together fill it, less what is given otherwise.")
          .drink = job.name;
      job.program().valid = false;
      return Grams(0);
    }
    job.part = part_of(job, *size);
  }
  Millilitres volume = *job.part * amount.quantity.number();
  if (measuring_.is_liquid(amount.use().stock))
    return volume * Density(stock_[amount.use().stock.index()].composition.density_g_per_ml);
  units::Quantity one_ml = amount.quantity;
  one_ml.kind = Kind::volume;
  one_ml.value = base::Exact(1);
  auto grams = measuring_.grams(amount.use(), one_ml, amount.quantity.span, job.name);
  if (!grams) job.program().valid = false;
  return grams.value_or(Grams(0)) * volume.value;
}

/// What one part comes to: the size less what is given otherwise, over the parts.
Millilitres ProgramBuilder::part_of(Lowering& job, const units::Quantity& size) {
  double parts = 0;
  Millilitres others;
  for (const auto& line : job.recipe.order) {
    if (!line.is_amount) continue;
    const Amount& other = job.recipe.amounts[line.index];
    if (other.form != Amount::Form::measured || other.optional) continue;
    if (other.quantity.kind == Kind::part)
      parts += other.quantity.number();
    else
      others += poured(other.use(), other.quantity);
  }
  Millilitres left = Millilitres(size.number()) - others;
  if (left <= Millilitres(0)) {
    sink_
        .add(Rule::impossible_composition, size.span,
             fmt::format("the size of {:g} ml is filled by the {:.4g} ml given otherwise, and nothing is "
                         "left for the parts",
                         size.number(), others.value),
             "Make the size larger, or write the parts as amounts.")
        .drink = job.name;
    job.program().valid = false;
  }
  return parts > 0 ? std::max(Millilitres(0), left) / parts : Millilitres(0);
}

void ProgramBuilder::amount(Lowering& job, std::size_t index) {
  const Amount& amount = job.recipe.amounts[index];
  const std::size_t first_entry = job.result.entries.size();
  for (const auto& portion : amount.portions) {
    auto entry = add_entry(job, portion.use, Role::amount, index, amount.as_written);
    job.result.entries[entry].optional = amount.optional;
    job.result.entries[entry].solved =
        amount.form != Amount::Form::measured || amount.quantity.kind == Kind::part;
  }
  if (amount.quantity.kind == Kind::count && amount.quantity.unit.valid() && !amount.use().item.valid())
    job.result.entries[first_entry].count = amount.quantity.number();
  if (amount.second) measuring_.check_equal(amount.use(), amount.quantity, *amount.second, job.name);
  switch (amount.form) {
    case Amount::Form::measured:
      return add_measured(job, amount, index, first_entry);
    case Amount::Form::fill:
      return add_operation(job, {fill_of(job, amount), true, index}, first_entry);
    case Amount::Form::until:
      return add_operation(job, {until_of(job, amount), true, index}, first_entry);
  }
}

void ProgramBuilder::add_measured(Lowering& job, const Amount& amount, std::size_t index,
                                  std::size_t entry_index) {
  const std::optional<Grams> grams =
      amount.quantity.kind == Kind::part
          ? grams_of_part(job, amount)
          : measuring_.grams(amount.use(), amount.quantity, amount.span, job.name);
  if (!grams) {
    // Optional things are in no figure: what one weighs need not be known.
    if (!amount.optional) job.program().valid = false;
    return;
  }
  Entry& entry = job.result.entries[entry_index];
  if (amount.quantity.kind == Kind::count) entry.count = amount.quantity.number();
  if (amount.optional) {
    entry.mass_g = grams->value;
    entry.volume_ml = number_of(measuring_.millilitres(amount.use().stock, *grams));
    return;
  }
  const operation::Add add{.slot = slot_of(job, amount.use().stock),
                           .amount = *grams,
                           .temperature = temperature_of(amount),
                           .is_weighed = amount.quantity.kind == Kind::mass};
  add_operation(job, {add, true, index}, entry_index);
}

operation::Fill ProgramBuilder::fill_of(Lowering& job, const Amount& amount) {
  operation::Fill fill{slot_of(job, amount.use().stock), {}, temperature_of(amount)};
  if (auto mass = amount.quantity.mass())
    fill.target = *mass;
  else
    fill.target = Millilitres(amount.quantity.number());
  return fill;
}

operation::Until ProgramBuilder::until_of(Lowering& job, const Amount& amount) {
  operation::Until until{.property = amount.until, .target = {}, .temperature = temperature_of(amount)};
  if (auto fraction = amount.quantity.mass_fraction())
    until.target = *fraction;
  else if (auto concentration = amount.quantity.mass_concentration())
    until.target = *concentration;
  else
    until.target = units::AlcoholByVolume(amount.quantity.number());
  double parts = 0;
  for (const auto& portion : amount.portions) parts += portion.parts;
  until.first_portion = job.program().portions.size();
  for (const auto& portion : amount.portions)
    job.program().portions.push_back(
        {slot_of(job, portion.use.stock), parts > 0 ? portion.parts / parts : 1});
  until.last_portion = job.program().portions.size();
  return until;
}

/// Rinses, tops, floats and mists: something named in the method that is drunk.
void ProgramBuilder::pour(Lowering& job, const Step& step, std::size_t index, Role role) {
  if (!step.use) return;
  auto entry = add_entry(job, *step.use, role, index, step.as_written);
  std::size_t slot = slot_of(job, step.use->stock);
  Celsius temperature = start_temperature(step.use->stock);
  for (const auto& note : step.notes) {
    if (note == "chilled") temperature = Celsius(specs_.house.fridge_c);
    if (note == "hot") temperature = Celsius(hot_c);
  }
  if (step.temperature) temperature = Celsius(step.temperature->number());
  if (role == Role::top && !step.amount) return top_up(job, slot, temperature, index, entry);
  std::optional<Grams> grams;
  if (step.amount) grams = measuring_.grams(*step.use, *step.amount, step.span, job.name);
  if (step.amount && !grams) {
    job.program().valid = false;
    return;
  }
  if (step.amount && step.amount->kind == Kind::count)
    job.result.entries[entry].count = step.amount->number();
  operation::Add add{.slot = slot,
                     .amount = grams.value_or(Grams(0)),
                     .temperature = temperature,
                     .is_float = role == Role::float_};
  Density density(stock_[step.use->stock.index()].composition.density_g_per_ml);
  if (role == Role::rinse) {
    Grams poured = grams.value_or(Millilitres(rinse_poured_ml) * density);
    job.result.entries[entry].mass_g = poured.value;
    add.amount = step.kept ? poured : std::min(poured, Millilitres(rinse_stays_ml) * density);
    add.into_glass = true;
  } else if (role == Role::mist) {
    add.amount = grams.value_or(Millilitres(step.count.value_or(1) * mist_ml) * density);
    add.into_glass = true;
  }
  add_operation(job, {add, false, index}, entry);
}

/// Topped to the line of the glass, or as far as it is usual.
void ProgramBuilder::top_up(Lowering& job, std::size_t slot, Celsius temperature, std::size_t index,
                            std::size_t entry) {
  job.result.entries[entry].solved = true;
  if (!job.drink || !job.drink->glass.valid()) job.program().valid = false;
  const Millilitres room = job.glass_holds * topped_up_share - job.ice_below;
  const Millilitres target = std::max(Millilitres(0), std::min(job.line, room));
  add_operation(job, {operation::Top{slot, target, temperature}, false, index}, entry);
}

/// `add ice`: in the glass from here on, or with what is mixed next.
void ProgramBuilder::add_ice(Lowering& job, const Step& step, std::size_t index) {
  const std::size_t no_entry = job.result.entries.size();
  bool is_first = job.adds_ice == &step;
  bool goes_to_glass = job.adds_ice && (is_first || !job.ice_comes_later(index));
  if (!goes_to_glass) {
    job.mixing_ice = step.ice;
    return add_operation(job, {operation::Nothing{}, false, index}, no_entry);
  }
  Grams ice = job.program().served_ice;
  if (!is_first && step.ice) {
    ice = ice_mass(*step.ice, specs_, job.glass_holds);
    if (!is_ice_measured(*step.ice, specs_)) ice = ice * more_ice_share;
  }
  add_operation(job, {operation::Build{ice}, false, index}, no_entry);
}

// What a reading of a line writes for a usual time is what the fits take it to be.
static_assert(analysis::usual_shake_s == usual_shake_s && analysis::usual_stir_s == usual_stir_s &&
              analysis::usual_whip_s == usual_whip_s);

void ProgramBuilder::chill_step(Lowering& job, const Step& step, std::size_t index, ChillMethod method) {
  auto& program = job.program();
  bool own_glass = std::any_of(program.operations.begin(), program.operations.end(), moves_into_glass);
  operation::Chill chill;
  chill.method = method;
  chill.water_is_in = job.water_is_in && !own_glass;
  chill.ice_temperature = Celsius(specs_.house.ice_c);
  double usual = usual_time(method);
  chill.time = counts_passes(method) ? step.count.value_or(usual) : step.time ? step.time->number() : usual;
  bool in_glass_method = step.verb == Verb::swizzle || step.verb == Verb::churn ||
                         (step.verb == Verb::stir && job.is_stirred_hot());
  if (in_glass_method && !own_glass && !job.strained) {
    operation::Build build{step.ice || job.ice_comes_later(index) ? Grams(0) : program.served_ice};
    add_operation(job, {build, false, index}, job.result.entries.size());
    own_glass = true;
  }
  if (!step.time && !counts_passes(method)) {
    // Nobody stirs soda for half a minute.
    if (method == ChillMethod::stir && own_glass && job.holds_fizz) chill.time = usual_lift_s;
    chill.assumed_time_s = chill.time;
  }
  const auto& worked_with = !step.ice && !own_glass ? job.mixing_ice : step.ice;
  if (worked_with) {
    set_named_ice(job, chill, *worked_with, own_glass);
  } else if (!set_usual_ice(program, chill, own_glass)) {
    // Without ice it mixes and chills nothing; the step stands in the trace all the same.
    return add_operation(job, {operation::Nothing{}, false, index}, job.result.entries.size());
  }
  if (method == ChillMethod::blend)
    job.blends_ice = true;
  else if (!own_glass)
    job.shaker_ice = worked_with.value_or(analysis::IceUse{analysis::usual_ice(specs_), {}, {}});
  add_operation(job, {chill, false, index}, job.result.entries.size());
}

/// The ice that the step or a line before it names; in a glass without ice it is what the drink is served on.
void ProgramBuilder::set_named_ice(Lowering& job, operation::Chill& chill, const analysis::IceUse& ice,
                                   bool own_glass) const {
  auto& program = job.program();
  chill.melt_rate = specs_[ice.ice].melt;
  chill.wet_share = specs_[ice.ice].wet;
  chill.kind = ice.ice;
  if (own_glass || is_ice_measured(ice, specs_))
    chill.ice = ice_mass(ice, specs_, job.glass_holds);
  else
    chill.ice = shaker_ice_of(chill.method);
  if (!own_glass || program.served_ice != Grams(0)) return;
  program.served_on = {ServedIce::Kind::ice, ice, is_ice_measured(ice, specs_)};
  program.served_ice_temperature = chill.ice_temperature;
  program.served_melt_rate = chill.melt_rate;
  program.served_wet_share = chill.wet_share;
}

/// What lies in the glass, else the bar's; false where there is none.
bool ProgramBuilder::set_usual_ice(const Program& program, operation::Chill& chill, bool own_glass) const {
  if (own_glass) {
    chill.ice = operation::GlassIce{};
    chill.melt_rate = program.served_melt_rate;
    chill.wet_share = program.served_wet_share;
    return program.served_ice > Grams(0);
  }
  chill.ice = shaker_ice_of(chill.method);
  chill.kind = analysis::usual_ice(specs_);
  chill.wet_share = specs_[chill.kind].wet;
  return chill.method != ChillMethod::blend;
}

/// What lies on, in or beside the drink: it is weighed where that can be known, and moves no figure.
void ProgramBuilder::garnish(Lowering& job, const Step& step, std::size_t index, Role role) {
  auto entry = add_entry(job, *step.use, role, index, step.as_written);
  auto& made = job.result.entries[entry];
  units::Quantity a_piece;
  a_piece.kind = Kind::count;
  a_piece.value = 1;
  a_piece.low = a_piece.high = 1;
  const auto laid = step.amount || role == Role::rim ? *step.use : measuring_.laid_as(*step.use);
  auto grams = measuring_.grams_silently(laid, step.amount.value_or(a_piece));
  if (!grams && role == Role::rim)
    grams = Grams((specs_[step.use->stock].kind == StockKind::sweetener ? sugar_rim_g : salt_rim_g) *
                  (step.half ? 0.5 : 1));
  made.mass_g = number_of(grams);
  if (grams && measuring_.is_liquid(step.use->stock))
    made.volume_ml = number_of(measuring_.millilitres(step.use->stock, *grams));
  made.optional = std::find(step.notes.begin(), step.notes.end(), "optional") != step.notes.end();
  // What is strewn is weighed, and no piece of it is counted.
  if (step.amount ? step.amount->kind == Kind::count : laid == *step.use)
    made.count = step.amount ? step.amount->number() : 1;
}

void ProgramBuilder::add_plain(Lowering& job, Operation::Act act, std::size_t index) {
  add_operation(job, {act, false, index}, job.result.entries.size());
}

/// What moves no figure stands in the trace all the same.
void ProgramBuilder::nothing(Lowering& job, const Step&, std::size_t index) {
  add_plain(job, operation::Nothing{}, index);
}

template <ChillMethod method>
void ProgramBuilder::chill(Lowering& job, const Step& step, std::size_t index) {
  // A prep is shaken, stirred and blended without ice unless its line names some.
  if (job.prep && !step.ice) return nothing(job, step, index);
  chill_step(job, step, index, method);
}

template <Role role>
void ProgramBuilder::pour(Lowering& job, const Step& step, std::size_t index) {
  pour(job, step, index, role);
}

template <Role role>
void ProgramBuilder::lay(Lowering& job, const Step& step, std::size_t index) {
  if (step.use) garnish(job, step, index, role);
  nothing(job, step, index);
}

void ProgramBuilder::flame(Lowering& job, const Step& step, std::size_t index) {
  if (analysis::is_flamed_garnish(step, specs_)) garnish(job, step, index, Role::garnish);
  nothing(job, step, index);
}

void ProgramBuilder::dry_shake(Lowering& job, const Step& step, std::size_t index) {
  // What foams in a prep has fallen by the time it is poured.
  if (job.prep) return nothing(job, step, index);
  add_plain(job, operation::DryShake{}, index);
}

void ProgramBuilder::build_in_glass(Lowering& job, const Step&, std::size_t index) {
  add_plain(job, operation::Build{ice_in_glass(job, index)}, index);
}

void ProgramBuilder::strain(Lowering& job, const Step& step, std::size_t index) {
  if (job.prep) return add_plain(job, operation::Strain{}, index);
  if (step.to_tin) return add_plain(job, operation::StrainToTin{}, index);
  add_plain(job, operation::StrainToGlass{ice_in_glass(job, index)}, index);
}

void ProgramBuilder::press(Lowering& job, const Step&, std::size_t index) {
  add_plain(job, operation::Strain{.is_pressed = true}, index);
}

void ProgramBuilder::skim(Lowering& job, const Step& step, std::size_t index) {
  if (step.use) return remove(job, step, index);
  add_plain(job, operation::Skim{}, index);
}

void ProgramBuilder::dump(Lowering& job, const Step&, std::size_t index) {
  // As much of the shaker's ice as the glass takes.
  add_plain(job, operation::Dump{ice_heap(job.glass_holds, cubes_pack)}, index);
}

void ProgramBuilder::heat(Lowering& job, const Step& step, std::size_t index) {
  const bool simmers = step.verb == Verb::simmer;
  const double otherwise_c = simmers ? simmer_c : hot_c, otherwise_s = simmers ? usual_simmer_s : 0;
  add_plain(job,
            operation::Heat{Celsius(step.temperature ? step.temperature->number() : otherwise_c),
                            Seconds(step.time ? step.time->number() : otherwise_s)},
            index);
}

void ProgramBuilder::cool(Lowering& job, const Step& step, std::size_t index) {
  const double otherwise_c = step.verb == Verb::freeze ? specs_.house.freezer_c : specs_.house.fridge_c;
  add_plain(job,
            operation::SetTemperature{Celsius(step.temperature ? step.temperature->number() : otherwise_c)},
            index);
}

void ProgramBuilder::stand(Lowering& job, const Step& step, std::size_t index) {
  if (!step.temperature) return nothing(job, step, index);
  add_plain(job, operation::SetTemperature{Celsius(step.temperature->number())}, index);
}

void ProgramBuilder::carbonate(Lowering& job, const Step& step, std::size_t index) {
  add_plain(job, operation::Carbonate{units::GasVolumes(step.target ? step.target->number() : 0)}, index);
}

void ProgramBuilder::dehydrate(Lowering& job, const Step&, std::size_t index) {
  add_plain(job, operation::Dehydrate{}, index);
}

void ProgramBuilder::reduce(Lowering& job, const Step& step, std::size_t index) {
  add_plain(job, reduced_to(step), index);
}

void ProgramBuilder::remove(Lowering& job, const Step& step, std::size_t index) {
  if (!step.use) return nothing(job, step, index);
  add_plain(job, operation::Remove{slot_of(job, step.use->stock), units::Share(step.share.value_or(0))},
            index);
}

void ProgramBuilder::muddle(Lowering& job, const Step& step, std::size_t index) {
  if (!job.prep) return nothing(job, step, index);
  add_plain(job, operation::BreakCells{}, index);
}

Grams ProgramBuilder::ice_in_glass(Lowering& job, std::size_t index) const {
  return job.ice_comes_later(index) ? Grams(0) : job.program().served_ice;
}

// One verb a line, in the order of `Verb`.
constexpr ProgramBuilder::StepLowering ProgramBuilder::step_lowerings[] = {
    {Verb::muddle, &ProgramBuilder::muddle},
    {Verb::dry_shake, &ProgramBuilder::dry_shake},
    {Verb::shake, &ProgramBuilder::chill<ChillMethod::shake>},
    {Verb::whip, &ProgramBuilder::chill<ChillMethod::whip>},
    {Verb::stir, &ProgramBuilder::chill<ChillMethod::stir>},
    {Verb::throw_, &ProgramBuilder::chill<ChillMethod::throw_>},
    {Verb::roll, &ProgramBuilder::chill<ChillMethod::roll>},
    {Verb::swizzle, &ProgramBuilder::chill<ChillMethod::swizzle>},
    {Verb::churn, &ProgramBuilder::chill<ChillMethod::churn>},
    {Verb::blend, &ProgramBuilder::chill<ChillMethod::blend>},
    {Verb::build, &ProgramBuilder::build_in_glass},
    {Verb::strain, &ProgramBuilder::strain},
    {Verb::double_strain, &ProgramBuilder::strain},
    {Verb::fine_strain, &ProgramBuilder::strain},
    {Verb::dump, &ProgramBuilder::dump},
    {Verb::rinse, &ProgramBuilder::pour<Role::rinse>},
    {Verb::top, &ProgramBuilder::pour<Role::top>},
    {Verb::float_, &ProgramBuilder::pour<Role::float_>},
    {Verb::layer, &ProgramBuilder::pour<Role::float_>},
    {Verb::mist, &ProgramBuilder::pour<Role::mist>},
    {Verb::rim, &ProgramBuilder::lay<Role::rim>},
    {Verb::flame, &ProgramBuilder::flame},
    {Verb::smoke, &ProgramBuilder::nothing},
    {Verb::heat, &ProgramBuilder::heat},
    {Verb::carbonate, &ProgramBuilder::carbonate},
    {Verb::rest, &ProgramBuilder::stand},
    {Verb::add_ice, &ProgramBuilder::add_ice},
    {Verb::garnish, &ProgramBuilder::lay<Role::garnish>},
    {Verb::side, &ProgramBuilder::lay<Role::side>},
    {Verb::serve, &ProgramBuilder::nothing},
    {Verb::do_, &ProgramBuilder::nothing},
    {Verb::dissolve, &ProgramBuilder::nothing},
    {Verb::cool, &ProgramBuilder::cool},
    {Verb::simmer, &ProgramBuilder::heat},
    {Verb::infuse, &ProgramBuilder::stand},
    {Verb::steep, &ProgramBuilder::stand},
    {Verb::macerate, &ProgramBuilder::stand},
    {Verb::chill, &ProgramBuilder::cool},
    {Verb::freeze, &ProgramBuilder::cool},
    {Verb::thaw, &ProgramBuilder::cool},
    {Verb::ferment, &ProgramBuilder::stand},
    {Verb::dehydrate, &ProgramBuilder::dehydrate},
    {Verb::skim, &ProgramBuilder::skim},
    {Verb::decant, &ProgramBuilder::nothing},
    {Verb::press, &ProgramBuilder::press},
    {Verb::clarify, &ProgramBuilder::clarify},
    {Verb::remove, &ProgramBuilder::remove},
    {Verb::reduce, &ProgramBuilder::reduce},
    {Verb::charge, &ProgramBuilder::nothing},
    {Verb::bottle, &ProgramBuilder::nothing},
};

void ProgramBuilder::step(Lowering& job, std::size_t index) {
  static_assert([] {
    for (std::size_t i = 0; i < std::size(step_lowerings); ++i)
      if (step_lowerings[i].verb != static_cast<Verb>(i)) return false;
    return std::size(step_lowerings) == static_cast<std::size_t>(Verb::bottle) + 1;
  }());
  const Step& step = job.recipe.steps[index];
  (this->*step_lowerings[static_cast<std::size_t>(step.verb)].lower)(job, step, index);
}

/// What is named is an aid unless it is an amount as well: its allergens stay either way.
void ProgramBuilder::clarify(Lowering& job, const Step& step, std::size_t index) {
  auto is_amount = [&](const Amount& amount) {
    return std::any_of(amount.portions.begin(), amount.portions.end(),
                       [&](const auto& portion) { return portion.use.stock == step.use->stock; });
  };
  const auto& amounts = job.recipe.amounts;
  if (step.use && std::none_of(amounts.begin(), amounts.end(), is_amount))
    add_entry(job, *step.use, Role::side, index, step.as_written);
  add_operation(job, {operation::Clarify{}, false, index}, job.result.entries.size());
}

}  // namespace gill::model
