#include <fmt/format.h>

#include <algorithm>

#include "analysis/groups.h"
#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

namespace {

using analysis::Verb;
using model::TraceStep;

bool dresses_the_glass(Verb verb) { return verb == Verb::rinse || verb == Verb::rim; }

bool mixes(Verb verb) {
  return analysis::mixes_in_vessel(verb) || verb == Verb::stir || verb == Verb::muddle;
}

// Melt below this share of the drink does not count as watering it, and this is as cold as a first mix on ice
// leaves it, °C. Common practice, no source.
constexpr double min_melt_share = 0.01;
constexpr double ice_cold_c = 3;

/// One way in which a line can stand in the wrong place: what is wrong, and where it belongs.
struct Misplaced {
  std::string message, help;
};

class OrderCheck {
 public:
  explicit OrderCheck(const DrinkCase& drink) : drink_(drink), trace_(drink.facts.trace) {}

  std::optional<Misplaced> at(std::size_t i) const {
    const TraceStep& now = trace_[i];
    return now.is_amount ? amount(i) : step(i, drink_.step(now));
  }

 private:
  bool was_in_glass(std::size_t i) const { return i > 0 && trace_[i - 1].in_glass; }

  bool is_moved_after(std::size_t i) const {
    return std::any_of(trace_.begin() + static_cast<std::ptrdiff_t>(i) + 1, trace_.end(),
                       [](const TraceStep& later) { return later.in_glass; });
  }

  std::size_t place_of(const TraceStep& trace) const {
    const auto& order = drink_.drink.recipe.order;
    for (std::size_t place = 0; place < order.size(); ++place)
      if (order[place].is_amount == trace.is_amount && order[place].index == trace.index) return place;
    return 0;
  }

  /// True where a mix in the shaker comes only after this line, and nothing above it was mixed.
  bool is_mixed_in_a_vessel_after(std::size_t i) const {
    auto mixes_here = [&](const TraceStep& trace) {
      return !trace.is_amount && analysis::mixes_in_vessel(drink_.step(trace).verb);
    };
    auto here = trace_.begin() + static_cast<std::ptrdiff_t>(i);
    return std::none_of(trace_.begin(), here, mixes_here) && std::any_of(here + 1, trace_.end(), mixes_here);
  }

  /// True for a mix on ice in the shaker of what an earlier one has made as cold as ice makes it.
  bool is_chilled_before(std::size_t i) const {
    const TraceStep& now = trace_[i];
    if (!melts_in_the_vessel(now) || now.before.temperature_c > ice_cold_c) return false;
    return std::any_of(trace_.begin(), trace_.begin() + static_cast<std::ptrdiff_t>(i),
                       [&](const TraceStep& earlier) { return melts_in_the_vessel(earlier); });
  }

  bool melts_in_the_vessel(const TraceStep& trace) const {
    return !trace.is_amount && !trace.in_glass && mixes(drink_.step(trace).verb) &&
           trace.melt_g > min_melt_share * trace.before.masses.total();
  }

  /// Something joins cold, mixed drink in the shaker, and no later line mixes it in.
  std::optional<Misplaced> amount(std::size_t i) const {
    const TraceStep& now = trace_[i];
    if (now.in_glass || now.before.ice_g <= 0 || !is_moved_after(i)) return std::nullopt;
    for (std::size_t later = i + 1; later < trace_.size() && !trace_[later].in_glass; ++later)
      if (!trace_[later].is_amount && mixes(drink_.step(trace_[later]).verb)) return std::nullopt;
    const auto* entry = entry_of_amount(drink_.facts.entries, now.index);
    return Misplaced{fmt::format("`{}` goes into the shaker after its last mixing, so nothing mixes it in",
                                 entry ? entry->name : "this"),
                     "Move it above the shake or stir, or below the strain if it belongs on top."};
  }

  std::optional<Misplaced> step(std::size_t i, const analysis::Step& step) const {
    const TraceStep& now = trace_[i];
    if (repeats_a_step(drink_.drink.recipe, place_of(now))) return std::nullopt;  // same-line-twice
    auto name = analysis::info(step.verb).name;
    bool in_vessel = analysis::mixes_in_vessel(step.verb) || moves_to_the_glass(step.verb);
    if (is_chilled_before(i))
      return Misplaced{
          fmt::format("the {} puts it on ice a second time, and dilutes it twice", name),
          "One of the two is enough. For a shake without ice after one with it, write `strain to tin` and "
          "`dry shake`."};
    if (in_vessel && was_in_glass(i))
      return Misplaced{fmt::format("the drink is in the glass already when the {} comes", name),
                       "Move the line up, before what moves the drink to the glass."};
    if (moves_to_the_glass(step.verb) && !step.to_tin && is_mixed_in_a_vessel_after(i))
      return Misplaced{fmt::format("the {} comes before the shake that it should follow", name),
                       "Move it down, below the last line that mixes in the shaker."};
    bool muddles_nothing = step.verb == Verb::muddle && !step.use;
    if ((in_vessel || step.verb == Verb::stir || muddles_nothing) && now.before.masses.total() <= 0)
      return Misplaced{fmt::format("nothing is in the vessel yet when the {} comes", name),
                       "Move the line down, below the amounts it works on."};
    if (step.verb == Verb::dry_shake && now.before.ice_g > 0)
      return Misplaced{"the dry shake comes while the ice is still in the tin",
                       "Write `strain to tin` between the two shakes."};
    if (step.verb == Verb::muddle && !now.in_glass && now.before.ice_g > 0)
      return Misplaced{"the muddle comes when the ice is in the tin already",
                       "Move it up: fruit is pressed before the ice goes in."};
    if (goes_on_top(step.verb) && !now.in_glass && is_moved_after(i))
      return Misplaced{fmt::format("the {} goes into the shaker: the drink is not in the glass yet", name),
                       "Move it below the line that moves the drink to the glass."};
    // Where `like` puts a new line was not the writer's choice.
    if (dresses_the_glass(step.verb) && was_in_glass(i) && !drink_.drink.like.valid())
      return Misplaced{fmt::format("the glass is full when the {} comes", name),
                       "Move it up: the glass is made ready before the drink is poured."};
    return std::nullopt;
  }

  const DrinkCase& drink_;
  const std::vector<TraceStep>& trace_;
};

}  // namespace

void out_of_order(const DrinkCase& drink, Reporter& report) {
  OrderCheck judge(drink);
  for (std::size_t i = 0; i < drink.facts.trace.size(); ++i)
    if (auto found = judge.at(i))
      report.add(drink.span_of(drink.facts.trace[i]), found->message, found->help);
}

void out_of_order(const PrepCase& prep, Reporter& report) {
  for (const auto& trace : prep.facts.trace) {
    if (trace.is_amount) continue;
    const auto& step = prep.step(trace);
    auto name = analysis::info(step.verb).name;
    bool works_on_something = mixes(step.verb) || moves_to_the_glass(step.verb) || step.verb == Verb::press ||
                              step.verb == Verb::skim || step.verb == Verb::decant ||
                              step.verb == Verb::remove || step.verb == Verb::dissolve ||
                              step.verb == Verb::reduce || step.verb == Verb::freeze;
    if (works_on_something && trace.before.masses.total() <= 0)
      report.add(prep.span_of(trace), fmt::format("nothing is in the vessel yet when the {} comes", name),
                 "Move the line down, below the amounts it works on.");
  }
  // Something is taken out before it went in.
  std::vector<analysis::StockId> added;
  for (const auto& line : prep.prep.recipe.order) {
    if (line.is_amount) {
      for (const auto& portion : prep.prep.recipe.amounts[line.index].portions)
        added.push_back(portion.use.stock);
      continue;
    }
    const auto& step = prep.prep.recipe.steps[line.index];
    bool takes_out = (step.verb == Verb::remove || step.verb == Verb::skim) && step.use;
    if (takes_out && !added.empty() && std::find(added.begin(), added.end(), step.use->stock) == added.end())
      report.add(prep.span_of_step(line.index),
                 fmt::format("`{}` is taken out here, and no line above puts it in",
                             prep.house.specs[step.use->stock].head.name),
                 "Move the line below the amount, or name what is to come out.");
  }
}

}  // namespace gill::lint
