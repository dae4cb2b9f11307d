#pragma once
#include <algorithm>

#include "analysis/specs.h"
#include "base/any_of.h"

/// Steps and kinds of stock that several stages treat alike.
namespace gill::analysis {

/// True for the three strains, which move a drink out of what it was made in (into the tin where the step
/// says so).
constexpr bool strains(Verb verb) {
  return verb == Verb::strain || verb == Verb::double_strain || verb == Verb::fine_strain;
}

/// True for what is done in a tin, a jar or a second vessel, from which a drink must be moved; stirring may
/// be done in the glass.
constexpr bool mixes_in_vessel(Verb verb) {
  return verb == Verb::dry_shake || verb == Verb::shake || verb == Verb::whip || verb == Verb::throw_ ||
         verb == Verb::roll || verb == Verb::blend;
}

/// True for what is done in a vessel that is shut.
constexpr bool is_done_closed(Verb verb) {
  return verb == Verb::shake || verb == Verb::dry_shake || verb == Verb::whip || verb == Verb::blend;
}

/// True for what is poured on a drink that stands in its glass.
constexpr bool goes_on_top(Verb verb) {
  return verb == Verb::top || verb == Verb::float_ || verb == Verb::layer;
}

/// True for what pours something into the glass by itself: such a step is where its drink has that
/// ingredient.
constexpr bool pours(Verb verb) { return verb == Verb::rinse || goes_on_top(verb); }

/// A flamed twist is a garnish, as a twist is; a flamed spirit is in the drink already.
inline bool is_flamed_garnish(const Step& step, const Specs& specs) {
  return step.verb == Verb::flame && step.use && specs[step.use->stock].effective_form() != Form::liquid;
}

/// True where the method has a step of one of these verbs.
inline bool has_step(const Recipe& recipe, std::initializer_list<Verb> verbs) {
  return std::any_of(recipe.steps.begin(), recipe.steps.end(),
                     [&](const Step& step) { return base::is_any_of(step.verb, verbs); });
}

/// True for what lies in a drink whole and gives nothing until it is muddled, blended or steeped.
constexpr bool is_plant(StockKind kind) {
  return kind == StockKind::fruit || kind == StockKind::herb || kind == StockKind::spice ||
         kind == StockKind::garnish;
}

/// A shell egg, or a part of one, that nobody says is pasteurised.
inline bool is_raw_egg(const Stock& stock) {
  return !stock.is_prep && stock.kind == StockKind::egg &&
         stock.treated.find("pasteuris") == std::string::npos &&
         stock.treated.find("pasteuriz") == std::string::npos;
}

}  // namespace gill::analysis
