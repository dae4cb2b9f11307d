#include "model/serving_ice.h"

#include <algorithm>

#include "analysis/groups.h"

namespace gill::model {

using analysis::Amount;
using analysis::Step;
using analysis::Verb;
using units::Celsius;
using units::Density;
using units::Grams;
using units::Millilitres;

namespace {

Grams weight_each(const analysis::Ice& ice) {
  return ice.each ? ice.each->mass().value_or(Grams(0)) : Grams(0);
}

bool is_hot(const std::optional<units::Quantity>& temperature) {
  return temperature && temperature->number() >= hot_drink_from_c;
}

bool names_ice(const Step& step) { return step.ice || step.verb == Verb::add_ice; }

bool tops_up(const analysis::Recipe& recipe) {
  return std::any_of(recipe.steps.begin(), recipe.steps.end(),
                     [](const Step& step) { return step.verb == Verb::top && !step.amount; });
}

}  // namespace

bool makes_hot(const Amount& amount) { return amount.hot || is_hot(amount.temperature); }

bool makes_hot(const Step& step) {
  if (step.verb == Verb::heat) return !step.temperature || is_hot(step.temperature);
  return analysis::goes_on_top(step.verb) &&
         (is_hot(step.temperature) ||
          std::find(step.notes.begin(), step.notes.end(), "hot") != step.notes.end());
}

bool gets_hot(const analysis::Recipe& recipe, Celsius room) {
  return room >= Celsius(hot_drink_from_c) ||
         std::any_of(recipe.amounts.begin(), recipe.amounts.end(),
                     [](const Amount& amount) { return makes_hot(amount); }) ||
         std::any_of(recipe.steps.begin(), recipe.steps.end(),
                     [](const Step& step) { return makes_hot(step); });
}

bool Lowering::is_stirred_hot() const {
  return drink && !strained && !dumped && drink->ice.kind != analysis::GlassIce::Kind::given &&
         std::none_of(recipe.steps.begin(), recipe.steps.end(), names_ice) && gets_hot;
}

bool Lowering::ice_comes_later(std::size_t step) const {
  auto place_of = [this](std::size_t index) {
    return std::find_if(recipe.order.begin(), recipe.order.end(),
                        [&](const auto& line) { return !line.is_amount && line.index == index; });
  };
  return adds_ice && place_of(step) < place_of(adds_ice_index);
}

Grams ice_heap(Millilitres glass_holds, double packs) {
  return glass_holds * glass_heap_share * packs * Density(ice_density_g_per_ml);
}

bool is_ice_measured(const analysis::IceUse& use, const analysis::Specs& specs) {
  return use.amount || weight_each(specs[use.ice]) >= Grams(single_piece_from_g);
}

Grams ice_mass(const analysis::IceUse& use, const analysis::Specs& specs, Millilitres glass_holds) {
  const auto& ice = specs[use.ice];
  // A cup of ice is a heap of it.
  if (auto volume = use.amount ? use.amount->volume() : std::nullopt)
    return *volume * ice.packs * Density(ice_density_g_per_ml);
  if (use.amount) return use.amount->mass().value_or(weight_each(ice) * use.amount->number());
  return is_ice_measured(use, specs) ? weight_each(ice) : ice_heap(glass_holds, ice.packs);
}

bool moves_into_glass(const Operation& operation) {
  return operation.as<operation::Build>() || operation.as<operation::StrainToGlass>() ||
         operation.as<operation::Dump>();
}

std::optional<std::size_t> first_melt(const Program& program, std::optional<ChillMethod> method) {
  for (std::size_t i = 0; i < program.operations.size(); ++i) {
    const auto* chill = program.operations[i].as<operation::Chill>();
    if (chill && chill->method != ChillMethod::blend && !chill->water_is_in &&
        (!method || chill->method == *method))
      return i;
  }
  return std::nullopt;
}

void find_added_ice(Lowering& job) {
  // Nobody swizzles or churns without ice: where the drink names its own, what is added behind is more of it.
  bool has_ice = false;
  for (const auto& line : job.recipe.order) {
    if (line.is_amount) continue;
    const Step& step = job.recipe.steps[line.index];
    bool moves = step.verb == Verb::dump || (analysis::strains(step.verb) && !step.to_tin);
    if (moves) job.adds_ice = nullptr, has_ice = false;
    bool is_on_ice = step.verb == Verb::swizzle || step.verb == Verb::churn;
    if (is_on_ice && job.drink && job.drink->ice.kind == analysis::GlassIce::Kind::given) has_ice = true;
    if (step.verb == Verb::add_ice && !job.adds_ice && !has_ice) {
      job.adds_ice = &step;
      job.adds_ice_index = line.index;
    }
  }
}

void choose_glass_ice(Lowering& job, Millilitres expected, const analysis::Specs& specs) {
  const auto& stated = job.drink->ice;
  analysis::IceUse use;
  switch (stated.kind) {
    case analysis::GlassIce::Kind::none:
      break;
    case analysis::GlassIce::Kind::given:
      use = stated.use;
      break;
    case analysis::GlassIce::Kind::unstated:
      if (job.built && !job.adds_ice && !job.gets_hot) use.ice = analysis::usual_ice(specs);
      break;
  }
  // Ice that a line puts in is what the drink is served on; plain ice is whichever its own line says.
  if (job.adds_ice && job.adds_ice->ice) {
    bool is_plain = job.adds_ice->ice->ice == analysis::usual_ice(specs) && !job.adds_ice->ice->amount;
    if (!is_plain || !use.ice.valid()) use = *job.adds_ice->ice;
  }
  if (!use.ice.valid()) return;
  auto& program = job.program();
  program.served_on = {ServedIce::Kind::ice, use, is_ice_measured(use, specs)};
  program.served_ice = ice_mass(use, specs, job.glass_holds);
  // A scoop that nobody measured is as much as the glass takes beside the drink.
  if (!program.served_on.is_measured && program.served_ice > Grams(0)) {
    Millilitres room = job.glass_holds * full_with_ice_share - expected -
                       (tops_up(job.recipe) ? job.line * 0.5 : Millilitres(0));
    // Floating ice displaces its own mass of a drink of about 1 g/ml.
    program.served_ice =
        std::clamp(room * Density(1), program.served_ice * min_scoop_of_heap, program.served_ice);
  }
  program.served_ice_temperature = Celsius(specs.house.ice_c);
  program.served_melt_rate = specs[use.ice].melt;
  program.served_wet_share = specs[use.ice].wet;
  job.ice_below = program.served_ice / Density(1);
}

void settle_glass_ice(Lowering& job, const analysis::Specs& specs) {
  auto& served = job.program().served_on;
  if (served.kind != ServedIce::Kind::none) return;
  if (job.dumped && job.shaker_ice.ice.valid())
    served = {ServedIce::Kind::shakers, job.shaker_ice, is_ice_measured(job.shaker_ice, specs)};
  else if (job.blends_ice)
    served.kind = ServedIce::Kind::blended;
}

void lengthen_to_serving(Program& program) {
  bool in_glass = false;
  double built_s = 0;
  operation::Chill* last = nullptr;
  for (auto& operation : program.operations) {
    in_glass = in_glass || moves_into_glass(operation);
    auto* chill = std::get_if<operation::Chill>(&operation.act);
    if (!in_glass || !chill || seconds_of_building(chill->method, 1) <= 0) continue;
    built_s += seconds_of_building(chill->method, chill->time);
    last = chill;
  }
  double missing_s = usual_time(ChillMethod::build) - built_s;
  if (last && missing_s > 0) last->time += missing_s / seconds_of_building(last->method, 1);
}

std::vector<IceUsed> ice_used(const Program& program, const Outcome& outcome, double scale) {
  std::vector<IceUsed> all, in_tin;
  auto find = [](std::vector<IceUsed>& uses, analysis::IceId ice) -> double& {
    for (auto& use : uses)
      if (use.ice == ice) return use.grams;
    return uses.emplace_back(IceUsed{ice, 0}).grams;
  };
  auto empty_tin = [&] {
    for (const auto& use : in_tin) find(all, use.ice) += use.grams;
    in_tin.clear();
  };
  for (std::size_t i = 0; i < program.operations.size(); ++i) {
    const auto& operation = program.operations[i];
    double grams = outcome.ice_taken_g[i] * scale;
    if (operation.as<operation::StrainToTin>()) empty_tin();
    if (grams <= 0) continue;
    if (const auto* chill = operation.as<operation::Chill>()) {
      auto& taken = find(in_tin, chill->kind);
      taken = std::max(taken, grams);
    } else if (program.served_on.use.ice.valid()) {
      find(all, program.served_on.use.ice) += grams;
    }
  }
  empty_tin();
  return all;
}

}  // namespace gill::model
