#include <fmt/format.h>

#include <algorithm>

#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

namespace {

/// What hands do behind a bar, in seconds. Common practice, no source.
struct UsualTime {
  analysis::Verb verb;
  double shortest, longest;
  std::string_view usual;
};
constexpr UsualTime usual_times[] = {
    {analysis::Verb::dry_shake, 3, 60, "10 to 20 s"}, {analysis::Verb::shake, 3, 60, "8 to 15 s"},
    {analysis::Verb::whip, 2, 60, "5 to 10 s"},       {analysis::Verb::stir, 3, 180, "20 to 45 s"},
    {analysis::Verb::swizzle, 3, 90, "15 to 25 s"},   {analysis::Verb::churn, 3, 90, "10 to 20 s"},
    {analysis::Verb::blend, 2, 120, "15 to 25 s"},
};

const UsualTime* usual_time_of(analysis::Verb verb) {
  auto found = std::find_if(std::begin(usual_times), std::end(usual_times),
                            [&](const UsualTime& usual) { return usual.verb == verb; });
  return found == std::end(usual_times) ? nullptr : &*found;
}

/// `90 s`, `30 min`, `2 h`.
std::string time_words(double seconds) {
  if (seconds < 600) return fmt::format("{:.3g} s", seconds);
  return seconds < 2 * 3600 ? fmt::format("{:.3g} min", seconds / 60) : duration_words(seconds / 86400);
}

// A shake has the drink and its ice in balance by then: it gets no colder. Common practice, no source.
constexpr double balanced_after_s = 25;

/// True for what is shaken on for its foam: egg, dairy, and what else stands up.
bool is_shaken_for_foam(const DrinkCase& drink, const model::TraceStep& trace) {
  return std::any_of(trace.contents.begin(), trace.contents.end(), [&](analysis::StockId id) {
    auto kind = drink.house.specs[id].kind;
    return kind == analysis::StockKind::egg || kind == analysis::StockKind::dairy ||
           drink.house.facts[id].foams;
  });
}

/// A shake longer than it chills: what it still does is melt ice.
void check_long_shakes(const DrinkCase& drink, Reporter& report) {
  for (const auto& trace : drink.facts.trace) {
    if (trace.is_amount || trace.melt_g <= 0) continue;
    const auto& step = drink.step(trace);
    if (step.verb != analysis::Verb::shake || !step.time || step.time->number() <= balanced_after_s ||
        is_shaken_for_foam(drink, trace))
      continue;
    if (step.time->number() > usual_time_of(step.verb)->longest) continue;
    report
        .add(drink.span_of(trace),
             fmt::format("the shake of {} ends at {:.0f} C, where drink and ice are in balance long before",
                         time_words(step.time->number()), trace.after.temperature_c),
             "What a longer shake adds is water and chips of ice: 8 to 15 s are usual, 20 s with one large "
             "cube.")
        .severity = diagnostics::Severity::note;
  }
}

/// How long nobody leaves a thing in, in hours. Common practice, no source.
struct LongestSteep {
  std::string_view words;
  double hours;
  std::string_view usual;
};
constexpr LongestSteep longest_steeps[] = {
    {"tea", 36,
     "A tea is steeped for minutes hot and for 2 to 12 h cold or in spirit, and turns bitter after."},
    {"chilli", 168, "Chilli is out after hours: taste it every 30 min, and strain."},
    {"jalape", 168, "Chilli is out after hours: taste it every 30 min, and strain."},
    {"habanero", 168, "Chilli is out after hours: taste it every 30 min, and strain."},
    {"clove", 1440, "Cloves are out after 1 to 3 d."},
    {"star anise", 1440, "Star anise is out after 1 to 3 d."},
    {"cinnamon", 2160, "Cinnamon is out after 1 to 14 d."},
};

bool steeps(analysis::Verb verb) {
  return verb == analysis::Verb::steep || verb == analysis::Verb::infuse ||
         verb == analysis::Verb::macerate || verb == analysis::Verb::rest;
}

const LongestSteep* longest_steep_of(const analysis::Stock& stock) {
  bool leaf =
      stock.kind == analysis::StockKind::tea_coffee && stock.effective_form() != analysis::Form::liquid;
  bool plant = leaf || stock.kind == analysis::StockKind::spice || stock.kind == analysis::StockKind::fruit ||
               stock.kind == analysis::StockKind::herb;
  if (!plant || stock.is_prep) return nullptr;
  for (const auto& longest : longest_steeps)
    if (stock.head.name.find(longest.words) != std::string::npos) return &longest;
  return nullptr;
}

}  // namespace

void unlikely_time(const DrinkCase& drink, Reporter& report) {
  // A bowl takes longer than a glass.
  if (drink.drink.serves > 1) return;
  check_long_shakes(drink, report);
  for (const auto& line : drink.drink.recipe.order) {
    if (line.is_amount || line.inherited) continue;
    const auto& step = drink.drink.recipe.steps[line.index];
    if (!step.time) continue;
    const auto* usual = usual_time_of(step.verb);
    double seconds = step.time->number();
    if (!usual || (seconds >= usual->shortest && seconds <= usual->longest)) continue;
    report.add(
        step.time->span,
        fmt::format("{1} is no usual time for a {0}", analysis::info(step.verb).name, time_words(seconds)),
        fmt::format("A usual one takes {}. Was another unit meant?", usual->usual));
  }
}

void unlikely_time(const PrepCase& prep, Reporter& report) {
  for (const auto& trace : prep.facts.trace) {
    if (trace.is_amount) continue;
    const auto& step = prep.step(trace);
    if (!steeps(step.verb) || !step.time) continue;
    for (auto id : trace.contents) {
      const auto* longest = longest_steep_of(prep.house.specs[id]);
      if (!longest || step.time->number() <= longest->hours * 3600) continue;
      report.add(prep.span_of(trace),
                 fmt::format("`{}` stays in it for {}", prep.house.specs[id].head.name,
                             duration_words(step.time->number() / 86400)),
                 fmt::format("{} Was another unit meant?", longest->usual));
      return;
    }
  }
}

}  // namespace gill::lint
