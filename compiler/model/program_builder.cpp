#include "model/program_builder.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "model/constants.h"
#include "model/physics/foam.h"

namespace gill::model {

using analysis::Amount;
using analysis::Step;
using analysis::StockKind;
using analysis::Verb;
using diagnostics::Rule;
using units::Kind;

namespace {

using Code = Operation::Code;

// A drink warmer than this when it is put together is a hot one: no ice is assumed. Common practice, no
// source.
constexpr double hot_from_c = 40;
// What a glass that is not named holds, and what comes into it. Common practice, no source.
constexpr double unnamed_glass_ml = 300;

bool frees_its_juice(Verb verb) {
  switch (verb) {
    case Verb::muddle:
    case Verb::blend:
    case Verb::heat:
      return true;
    default:
      return false;
  }
}

ChillMethod method_of(Verb verb) {
  switch (verb) {
    case Verb::stir:
      return ChillMethod::stir;
    case Verb::whip:
      return ChillMethod::whip;
    case Verb::throw_:
      return ChillMethod::throw_;
    case Verb::roll:
      return ChillMethod::roll;
    case Verb::swizzle:
      return ChillMethod::swizzle;
    case Verb::churn:
      return ChillMethod::churn;
    case Verb::blend:
      return ChillMethod::blend;
    default:
      return ChillMethod::shake;
  }
}

Masses all_solid(const Masses& per_gram) {
  Masses solid;
  solid[Component::solids] = per_gram.total();
  return solid;
}

/// Moves some components by a share of themselves; water gives way, so that a gram stays a gram.
Masses moved(const Masses& per_gram, std::initializer_list<Component> which, double share) {
  Masses result = per_gram;
  double added = 0;
  for (Component component : which) {
    double more = per_gram[component] * share;
    result[component] += more;
    added += more;
  }
  result[Component::water] = std::max(0.0, result[Component::water] - added);
  return result;
}

bool is_hot(const analysis::Recipe& recipe, double room_c) {
  for (const auto& line : recipe.order) {
    if (line.is_amount) {
      const Amount& amount = recipe.amounts[line.index];
      if (amount.hot || (amount.temperature && amount.temperature->number() >= hot_from_c)) return true;
    } else {
      const Step& step = recipe.steps[line.index];
      if (step.verb == Verb::heat && step.temperature && step.temperature->number() >= hot_from_c)
        return true;
    }
  }
  return room_c >= hot_from_c;
}

bool tops_up(const analysis::Recipe& recipe) {
  return std::any_of(recipe.steps.begin(), recipe.steps.end(),
                     [](const Step& step) { return step.verb == Verb::top && !step.amount; });
}

}  // namespace

double ice_mass_g(const analysis::IceUse& use, const analysis::Specs& specs, double glass_holds_ml) {
  const auto& ice = specs[use.ice];
  double each = ice.each ? ice.each->number() : 0;
  if (use.amount) {
    if (use.amount->kind == Kind::mass) return use.amount->number();
    return use.amount->number() * each;
  }
  if (each >= single_piece_from_g) return each;
  return glass_holds_ml * glass_heap_share * ice.packs * ice_density_g_per_ml;
}

struct ProgramBuilder::Job {
  const analysis::Recipe& recipe;
  const analysis::Drink* drink = nullptr;
  const analysis::Stock* prep = nullptr;
  std::string name;  ///< the drink's, for findings
  BuiltProgram result;
  bool frees_juice = false;  ///< muddled or blended somewhere: solids give what is in them
  bool built = false, strained = false, dumped = false;
  /// Water is poured into the house bottle by an amount line: the method's ice is not used.
  bool water_is_in = false;
  double glass_holds_ml = unnamed_glass_ml;
  double line_ml = 0;
  double ice_below_ml = 0;
  double part_ml = -1;

  Program& program() { return result.program; }
};

namespace {

/// A drink that is worked briefly on its serving ice stands on it until it is served all the same: the last
/// such step lasts at least as long as that.
void lengthen_to_serving(Program& program) {
  bool in_glass = false;
  double built_s = 0;
  Operation* last = nullptr;
  for (auto& operation : program.operations) {
    in_glass = in_glass || operation.code == Code::build || operation.code == Code::to_glass;
    if (!in_glass || operation.code != Code::chill || seconds_of_building(operation.method, 1) <= 0) continue;
    built_s += seconds_of_building(operation.method, operation.time);
    last = &operation;
  }
  double missing_s = usual_time(ChillMethod::build) - built_s;
  if (last && missing_s > 0) last->time += missing_s / seconds_of_building(last->method, 1);
}

}  // namespace

BuiltProgram ProgramBuilder::build(const analysis::Drink& drink) {
  Job job{drink.recipe, &drink, nullptr, drink.head.name, {}};
  if (drink.glass.valid()) {
    const auto& glass = specs_[drink.glass];
    if (glass.holds) job.glass_holds_ml = glass.holds->number();
    if (glass.line) {
      bool open = !std::isfinite(glass.line->low) || !std::isfinite(glass.line->high);
      job.line_ml = open ? (std::isfinite(glass.line->high) ? glass.line->high : glass.line->low)
                         : (glass.line->low + glass.line->high) / 2;
    } else {
      job.line_ml = 0.85 * job.glass_holds_ml;
    }
  }
  for (const auto& line : drink.recipe.order) {
    if (line.is_amount) continue;
    const Step& step = drink.recipe.steps[line.index];
    job.frees_juice = job.frees_juice || frees_its_juice(step.verb);
    job.built = job.built || step.verb == Verb::build;
    job.dumped = job.dumped || step.verb == Verb::dump;
    job.strained =
        job.strained ||
        ((step.verb == Verb::strain || step.verb == Verb::double_strain || step.verb == Verb::fine_strain) &&
         !step.to_tin);
  }
  if (drink.batched && drink.batched->with_water)
    for (const auto& amount : drink.recipe.amounts)
      job.water_is_in = job.water_is_in || specs_[amount.use().stock].kind == StockKind::water;
  auto& program = job.program();
  analysis::IceUse served = drink.ice.use;
  bool has_ice = drink.ice.kind == analysis::GlassIce::Kind::given;
  if (drink.ice.kind == analysis::GlassIce::Kind::unstated && job.built &&
      !is_hot(drink.recipe, specs_.house.room_c)) {
    for (std::size_t i = 0; i < specs_.ices.size(); ++i)
      if (specs_.ices[i].head.name == "cubed") served.ice = analysis::IceId::at(i);
    has_ice = served.ice.valid();
  }
  if (has_ice && served.ice.valid()) {
    program.served_ice = served.ice;
    program.served_ice_g = ice_mass_g(served, specs_, job.glass_holds_ml);
    bool heap = !served.amount && program.served_ice_g > 0 &&
                (!specs_[served.ice].each || specs_[served.ice].each->number() < single_piece_from_g);
    // A scoop that nobody measured is as much as the glass takes beside the drink.
    if (heap) {
      double room =
          0.95 * job.glass_holds_ml - expected_ml(job) - (tops_up(drink.recipe) ? job.line_ml / 2 : 0);
      program.served_ice_g = std::clamp(room, 0.25 * program.served_ice_g, program.served_ice_g);
    }
    program.served_ice_c = specs_.house.ice_c;
    program.served_melt_rate = specs_[served.ice].melt;
    job.ice_below_ml =
        program.served_ice_g;  // floating ice displaces its own mass of a drink of about 1 g/ml
  }
  lower(job);
  lengthen_to_serving(program);
  return std::move(job.result);
}

BuiltProgram ProgramBuilder::build(const analysis::Stock& prep) {
  Job job{prep.recipe, nullptr, &prep, {}, {}};
  job.frees_juice = true;
  job.program().is_prep = true;
  job.program().yield_measured = prep.makes.has_value();
  lower(job);
  return std::move(job.result);
}

/// What the amounts come to before they are evaluated exactly, with a tenth for the melt.
double ProgramBuilder::expected_ml(const Job& job) const {
  double ml = 0;
  for (const auto& amount : job.recipe.amounts)
    if (amount.form == Amount::Form::measured && !amount.optional && measuring_.is_liquid(amount.use().stock))
      if (auto grams = measuring_.grams_silently(amount.use(), amount.quantity))
        ml += measuring_.millilitres(amount.use().stock, *grams).value_or(0);
  for (const auto& step : job.recipe.steps)
    if (step.use && step.amount && step.amount->kind == Kind::volume &&
        (step.verb == Verb::top || step.verb == Verb::float_ || step.verb == Verb::layer))
      ml += step.amount->number();
  if (job.drink && job.drink->size) ml = std::max(ml, job.drink->size->number());
  return 1.1 * ml;
}

void ProgramBuilder::lower(Job& job) {
  job.program().room_c = specs_.house.room_c;
  job.program().fridge_c = specs_.house.fridge_c;
  job.program().valid = !(job.drink ? job.drink->head.has_amount_errors : job.prep->head.has_amount_errors);
  for (const auto& line : job.recipe.order) {
    if (line.is_amount)
      amount(job, line.index);
    else
      step(job, line.index);
  }
  find_uncertain(job);
}

void ProgramBuilder::add_operation(Job& job, Operation operation, std::size_t entry) {
  job.program().operations.push_back(operation);
  job.result.entry_of.push_back(entry);
}

double ProgramBuilder::start_temperature(analysis::StockId stock) const {
  // Nobody pours warm soda: what is fizzy comes from the fridge.
  return stock_[stock.index()].fizz_vol > 0 ? specs_.house.fridge_c : specs_.house.room_c;
}

double ProgramBuilder::temperature_of(const Amount& amount) const {
  if (amount.temperature) return amount.temperature->number();
  if (amount.hot) return hot_c;
  if (amount.frozen) return specs_.house.freezer_c;
  if (amount.chilled) return specs_.house.fridge_c;
  return start_temperature(amount.use().stock);
}

std::size_t ProgramBuilder::slot_of(Job& job, analysis::StockId id) {
  auto& slots = job.program().slots;
  for (std::size_t i = 0; i < slots.size(); ++i)
    if (slots[i].stock == id) return i;
  const auto& stock = specs_[id];
  const auto& facts = stock_[id.index()];
  Slot slot;
  slot.stock = id;
  slot.per_gram = facts.composition.per_gram;
  slot.density_g_per_ml = facts.composition.density_g_per_ml;
  slot.is_liquid = measuring_.is_liquid(id);
  // Whole fruit, herbs and nuts in a drink give nothing until they are muddled or blended.
  bool whole = stock.kind == StockKind::fruit || stock.kind == StockKind::herb ||
               stock.kind == StockKind::spice || stock.kind == StockKind::garnish;
  if (!slot.is_liquid && whole && !job.frees_juice) slot.per_gram = all_solid(slot.per_gram);
  slot.holds_fat = facts.holds_fat;
  if (facts.foams) {
    FoamRise rise = foam_of_juice_or_pulse_water;
    slot.foam_full_g = 20;
    if (stock.kind == StockKind::egg) {
      bool yolk = facts.composition.per_gram[Component::fat] > 0.05;
      rise = yolk ? foam_of_whole_egg : foam_of_egg_white;
      slot.foam_full_g = 15;
    } else if (stock.kind == StockKind::dairy) {
      rise = foam_of_cream;
      slot.foam_full_g = 25;
    }
    slot.foam_rise = slot.foam_rise_dry_last = rise.typical;
    if (rise.typical == foam_of_egg_white.typical)
      slot.foam_rise_dry_last = foam_of_egg_white_dry_last.typical;
  }
  slots.push_back(slot);
  return slots.size() - 1;
}

std::size_t ProgramBuilder::add_entry(Job& job, const analysis::Use& use, Role role, std::size_t index,
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
double ProgramBuilder::grams_of_part(Job& job, const Amount& amount) {
  if (job.part_ml < 0) {
    const auto& size = job.drink ? job.drink->size : std::optional<units::Quantity>();
    if (!size) {
      sink_
          .add(Rule::no_density, amount.quantity.span, "parts need a size to be parts of",
               "Add `size 90 ml`: the parts together fill it, less what is given otherwise.")
          .drink = job.name;
      job.program().valid = false;
      return 0;
    }
    double parts = 0, others_ml = 0;
    for (const auto& line : job.recipe.order) {
      if (!line.is_amount) continue;
      const Amount& other = job.recipe.amounts[line.index];
      if (other.form != Amount::Form::measured || other.optional) continue;
      if (other.quantity.kind == Kind::part) {
        parts += other.quantity.number();
      } else if (auto grams = measuring_.grams_silently(other.use(), other.quantity)) {
        others_ml += measuring_.is_liquid(other.use().stock)
                         ? measuring_.millilitres(other.use().stock, *grams).value_or(0)
                         : 0;
      }
    }
    double left = size->number() - others_ml;
    if (left <= 0) {
      sink_
          .add(Rule::impossible_composition, size->span,
               fmt::format("the size of {:g} ml is filled by the {:.4g} ml given otherwise, and nothing is "
                           "left for the parts",
                           size->number(), others_ml),
               "Make the size larger, or write the parts as amounts.")
          .drink = job.name;
      job.program().valid = false;
    }
    job.part_ml = parts > 0 ? std::max(0.0, left) / parts : 0;
  }
  units::Quantity volume = amount.quantity;
  volume.kind = Kind::volume;
  double ml = job.part_ml * amount.quantity.number();
  if (!measuring_.is_liquid(amount.use().stock)) {
    volume.value = base::Exact(1);
    auto grams = measuring_.grams(amount.use(), volume, amount.quantity.span, job.name);
    if (!grams) job.program().valid = false;
    return grams.value_or(0) * ml;
  }
  return ml * stock_[amount.use().stock.index()].composition.density_g_per_ml;
}

void ProgramBuilder::amount(Job& job, std::size_t index) {
  const Amount& amount = job.recipe.amounts[index];
  Operation operation;
  operation.index = index;
  operation.temperature_c = temperature_of(amount);
  std::size_t first_entry = job.result.entries.size();
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
    case Amount::Form::measured: {
      std::optional<double> grams;
      if (amount.quantity.kind == Kind::part)
        grams = grams_of_part(job, amount);
      else
        grams = measuring_.grams(amount.use(), amount.quantity, amount.span, job.name);
      if (!grams) {
        // Optional things are in no figure: what one weighs need not be known.
        if (!amount.optional) job.program().valid = false;
        return;
      }
      operation.grams = *grams;
      operation.by_mass = amount.quantity.kind == Kind::mass;
      if (amount.quantity.kind == Kind::count)
        job.result.entries[first_entry].count = amount.quantity.number();
      if (amount.optional) {
        job.result.entries[first_entry].mass_g = *grams;
        job.result.entries[first_entry].volume_ml = measuring_.millilitres(amount.use().stock, *grams);
        return;
      }
      operation.code = Code::add;
      break;
    }
    case Amount::Form::fill:
      operation.code = Code::fill;
      operation.target = amount.quantity.number();
      operation.by_mass = amount.quantity.kind == Kind::mass;
      break;
    case Amount::Form::until: {
      operation.code = Code::until;
      operation.until = amount.until;
      operation.by_mass = amount.quantity.kind == Kind::mass_fraction;
      operation.target = amount.quantity.number();
      // g in 1 ml on the line, g in 100 ml in the model.
      if (amount.quantity.kind == Kind::mass_concentration) operation.target *= 100;
      operation.first_portion = job.program().portions.size();
      double parts = 0;
      for (const auto& portion : amount.portions) parts += portion.parts;
      for (const auto& portion : amount.portions)
        job.program().portions.push_back(
            {slot_of(job, portion.use.stock), parts > 0 ? portion.parts / parts : 1});
      operation.last_portion = job.program().portions.size();
      break;
    }
  }
  operation.slot = slot_of(job, amount.use().stock);
  add_operation(job, operation, first_entry);
}

/// Rinses, tops, floats and mists: something named in the method that is drunk.
void ProgramBuilder::pour(Job& job, const Step& step, std::size_t index, Operation operation, Role role) {
  if (!step.use) return;
  auto entry = add_entry(job, *step.use, role, index, step.as_written);
  operation.slot = slot_of(job, step.use->stock);
  operation.temperature_c = start_temperature(step.use->stock);
  operation.is_float = role == Role::float_;
  for (const auto& note : step.notes) {
    if (note == "chilled") operation.temperature_c = specs_.house.fridge_c;
    if (note == "hot") operation.temperature_c = hot_c;
  }
  double density = stock_[step.use->stock.index()].composition.density_g_per_ml;
  if (role == Role::top && !step.amount) {
    operation.code = Code::top;
    double room = 0.97 * job.glass_holds_ml - job.ice_below_ml;
    operation.target = std::max(0.0, std::min(job.line_ml, room));
    job.result.entries[entry].solved = true;
    if (!job.drink || !job.drink->glass.valid()) job.program().valid = false;
  } else {
    operation.code = Code::add;
    std::optional<double> grams;
    if (step.amount) grams = measuring_.grams(*step.use, *step.amount, step.span, job.name);
    if (step.amount && !grams) {
      job.program().valid = false;
      return;
    }
    if (step.amount && step.amount->kind == Kind::count)
      job.result.entries[entry].count = step.amount->number();
    switch (role) {
      case Role::rinse: {
        double poured = grams.value_or(rinse_poured_ml * density);
        job.result.entries[entry].mass_g = poured;
        operation.grams = step.kept ? poured : std::min(poured, rinse_stays_ml * density);
        operation.into_glass = true;
        break;
      }
      case Role::mist:
        operation.grams = grams.value_or(step.count.value_or(1) * mist_ml * density);
        operation.into_glass = true;
        break;
      default:
        operation.grams = grams.value_or(0);
        break;
    }
  }
  add_operation(job, operation, entry);
}

void ProgramBuilder::chill_step(Job& job, const Step& step, Operation operation) {
  bool own_glass =
      job.program().operations.end() !=
      std::find_if(job.program().operations.begin(), job.program().operations.end(),
                   [](const Operation& o) { return o.code == Code::build || o.code == Code::to_glass; });
  operation.code = Code::chill;
  operation.water_is_in = job.water_is_in && !own_glass;
  operation.method = method_of(step.verb);
  operation.ice_c = specs_.house.ice_c;
  double usual = usual_time(operation.method);
  operation.time = counts_passes(operation.method) ? step.count.value_or(usual)
                   : step.time                     ? step.time->number()
                                                   : usual;
  operation.time_assumed = counts_passes(operation.method) ? !step.count : !step.time;
  bool in_glass_method = step.verb == Verb::swizzle || step.verb == Verb::churn;
  if (in_glass_method && !own_glass && !job.strained) {
    Operation into;
    into.code = Code::build;
    into.is_amount = false;
    into.index = operation.index;
    into.ice_g = step.ice ? 0 : job.program().served_ice_g;
    add_operation(job, into, job.result.entries.size());
    own_glass = true;
  }
  if (step.ice) {
    const auto& ice = specs_[step.ice->ice];
    operation.melt_rate = ice.melt;
    bool unspecified = !step.ice->amount && (!ice.each || ice.each->number() < single_piece_from_g);
    operation.ice_g =
        unspecified && !own_glass
            ? -(operation.method == ChillMethod::whip ? whip_ice_g_per_100_ml : shaker_ice_g_per_100_ml)
            : ice_mass_g(*step.ice, specs_, job.glass_holds_ml);
    if (own_glass && job.program().served_ice_g == 0) job.program().served_ice = step.ice->ice;
  } else if (own_glass) {
    if (job.program().served_ice_g <= 0) return;
    operation.own_ice = true;
    operation.melt_rate = job.program().served_melt_rate;
  } else if (operation.method == ChillMethod::blend) {
    return;  // nothing cold in the blender: it only mixes
  } else {
    operation.ice_g =
        operation.method == ChillMethod::whip ? -whip_ice_g_per_100_ml : -shaker_ice_g_per_100_ml;
  }
  add_operation(job, operation, job.result.entries.size());
}

void ProgramBuilder::step(Job& job, std::size_t index) {
  const Step& step = job.recipe.steps[index];
  Operation operation;
  operation.is_amount = false;
  operation.index = index;
  if (job.prep) return prep_step(job, step, operation);
  const std::size_t no_entry = job.result.entries.size();
  switch (step.verb) {
    case Verb::dry_shake:
      operation.code = Code::dry_shake;
      break;
    case Verb::shake:
    case Verb::whip:
    case Verb::stir:
    case Verb::throw_:
    case Verb::roll:
    case Verb::swizzle:
    case Verb::churn:
    case Verb::blend:
      return chill_step(job, step, operation);
    case Verb::build:
      operation.code = Code::build;
      operation.ice_g = job.program().served_ice_g;
      break;
    case Verb::strain:
    case Verb::double_strain:
    case Verb::fine_strain:
      operation.code = step.to_tin ? Code::to_tin : Code::to_glass;
      operation.ice_g = step.to_tin ? 0 : job.program().served_ice_g;
      break;
    case Verb::dump:
      operation.code = Code::to_glass;
      operation.keeps_ice = true;
      // As much of the shaker's ice as the glass takes.
      operation.ice_g = job.glass_holds_ml * glass_heap_share * 0.57 * ice_density_g_per_ml;
      break;
    case Verb::rinse:
      return pour(job, step, index, operation, Role::rinse);
    case Verb::top:
      return pour(job, step, index, operation, Role::top);
    case Verb::float_:
    case Verb::layer:
      return pour(job, step, index, operation, Role::float_);
    case Verb::mist:
      return pour(job, step, index, operation, Role::mist);
    case Verb::rim:
    case Verb::garnish:
    case Verb::side: {
      if (!step.use) break;
      Role role = step.verb == Verb::rim ? Role::rim : step.verb == Verb::side ? Role::side : Role::garnish;
      auto entry = add_entry(job, *step.use, role, index, step.as_written);
      auto& made = job.result.entries[entry];
      units::Quantity one;
      one.kind = Kind::count;
      one.value = 1;
      one.low = one.high = 1;
      auto grams = measuring_.grams_silently(*step.use, step.amount.value_or(one));
      if (!grams && role == Role::rim)
        grams = specs_[step.use->stock].kind == StockKind::sweetener ? sugar_rim_g : salt_rim_g;
      made.mass_g = grams;
      if (grams)
        made.volume_ml = measuring_.is_liquid(step.use->stock)
                             ? measuring_.millilitres(step.use->stock, *grams)
                             : std::nullopt;
      if (!step.amount || step.amount->kind == Kind::count)
        made.count = step.amount ? step.amount->number() : 1;
      break;
    }
    case Verb::heat:
      operation.code = Code::heat;
      operation.temperature_c = step.temperature ? step.temperature->number() : hot_c;
      operation.time = step.time ? step.time->number() : 0;
      break;
    case Verb::carbonate:
      operation.code = Code::carbonate;
      operation.target = step.target ? step.target->number() : 0;
      break;
    case Verb::rest:
      if (step.temperature) {
        operation.code = Code::set_temperature;
        operation.temperature_c = step.temperature->number();
      }
      break;
    default:
      break;
  }
  add_operation(job, operation, no_entry);
}

void ProgramBuilder::prep_step(Job& job, const Step& step, Operation operation) {
  const std::size_t no_entry = job.result.entries.size();
  auto temperature = [&](double otherwise) {
    operation.code = Code::set_temperature;
    operation.temperature_c = step.temperature ? step.temperature->number() : otherwise;
  };
  switch (step.verb) {
    case Verb::shake:
    case Verb::whip:
    case Verb::stir:
    case Verb::churn:
    case Verb::blend:
      if (step.ice) return chill_step(job, step, operation);
      break;
    case Verb::heat:
    case Verb::simmer: {
      bool simmers = step.verb == Verb::simmer;
      temperature(simmers ? simmer_c : hot_c);
      operation.code = Code::heat;
      operation.time = step.time ? step.time->number() : simmers ? usual_simmer_s : 0;
      break;
    }
    case Verb::cool:
    case Verb::thaw:
    case Verb::chill:
      temperature(specs_.house.fridge_c);
      break;
    case Verb::freeze:
      temperature(specs_.house.freezer_c);
      break;
    case Verb::rest:
    case Verb::infuse:
    case Verb::steep:
    case Verb::macerate:
    case Verb::ferment:
      if (step.temperature) temperature(0);
      break;
    case Verb::dehydrate:
      operation.code = Code::dehydrate;
      break;
    case Verb::strain:
    case Verb::double_strain:
    case Verb::fine_strain:
      operation.code = Code::strain;
      break;
    case Verb::press:
      operation.code = Code::press;
      break;
    case Verb::clarify:
      operation.code = Code::clarify;
      if (step.use) {
        // What is named is an aid unless it is an amount as well: its allergens stay either way.
        bool is_amount = false;
        for (const auto& amount : job.recipe.amounts)
          for (const auto& portion : amount.portions)
            is_amount = is_amount || portion.use.stock == step.use->stock;
        if (!is_amount) add_entry(job, *step.use, Role::side, operation.index, step.as_written);
      }
      break;
    case Verb::skim:
    case Verb::remove:
      if (!step.use) break;
      operation.code = Code::remove;
      operation.slot = slot_of(job, step.use->stock);
      operation.share = step.share.value_or(0);
      break;
    case Verb::reduce:
      operation.code = Code::reduce;
      operation.share = step.share.value_or(0);
      if (step.target) {
        operation.target = step.target->number();
        operation.by_mass = step.target->kind == Kind::mass;
      }
      break;
    case Verb::carbonate:
      operation.code = Code::carbonate;
      operation.target = step.target ? step.target->number() : 0;
      break;
    default:
      break;
  }
  add_operation(job, operation, no_entry);
}

void ProgramBuilder::find_uncertain(Job& job) {
  auto& program = job.program();
  for (std::size_t i = 0; i < program.operations.size(); ++i) {
    const Operation& operation = program.operations[i];
    double tolerance = 0;
    const analysis::Use* use = nullptr;
    if (operation.is_amount) {
      const Amount& amount = job.recipe.amounts[operation.index];
      use = &amount.use();
      tolerance =
          amount.quantity.kind == Kind::part ? 0 : measuring_.relative_tolerance(*use, amount.quantity);
      if (operation.code != Code::add && !amount.quantity.tolerance) tolerance = 0;
    } else if (operation.code == Code::add) {
      const Step& step = job.recipe.steps[operation.index];
      use = &*step.use;
      if (step.amount) tolerance = measuring_.relative_tolerance(*use, *step.amount);
    }
    if (!use || tolerance <= 0 || operation.code == Code::none) continue;
    Perturbation moved_input;
    moved_input.kind = Perturbation::Kind::amount;
    moved_input.operation = i;
    moved_input.factor = 1 + tolerance;
    job.result.uncertain.push_back(
        {moved_input, fmt::format("the amount of {}", analysis::name_of(*use, specs_, units_)), tolerance});
  }
  for (std::size_t s = 0; s < program.slots.size(); ++s) {
    const Slot& slot = program.slots[s];
    const auto& facts = stock_[slot.stock.index()];
    const std::string& name = specs_[slot.stock].head.name;
    auto add = [&](double tolerance, const Masses& per_gram, std::string_view what) {
      if (tolerance <= 0 || per_gram == slot.per_gram) return;
      Perturbation moved_input;
      moved_input.kind = Perturbation::Kind::slot;
      moved_input.slot = s;
      moved_input.per_gram = per_gram;
      moved_input.density_g_per_ml = slot.density_g_per_ml;
      job.result.uncertain.push_back({moved_input, fmt::format("the {} of {}", what, name), tolerance});
    };
    add(facts.acid_tolerance,
        moved(slot.per_gram,
              {Component::citric, Component::malic, Component::tartaric, Component::lactic, Component::acetic,
               Component::phosphoric, Component::ascorbic},
              facts.acid_tolerance),
        "acidity");
    add(facts.sugar_tolerance, moved(slot.per_gram, {Component::sugar}, facts.sugar_tolerance), "sugar");
    add(facts.strength_tolerance, moved(slot.per_gram, {Component::ethanol}, facts.strength_tolerance),
        "strength");
  }
}

}  // namespace gill::model
