#include <fmt/format.h>

#include <algorithm>

#include "analysis/groups.h"
#include "base/any_of.h"
#include "lint/parts.h"
#include "lint/rules.h"
#include "model/physics/volume.h"

namespace gill::lint {

namespace {

using analysis::StockKind;
using analysis::Verb;

// From this strength on nothing long is poured in that would mix it. Common practice, no source.
constexpr double strong_from = 0.15;
constexpr double min_sugar_g = 2;

// Mixed in the glass; the last two are in the drinker's hands, or as the words say.
constexpr Verb mixing_in_glass[] = {Verb::stir,     Verb::swizzle, Verb::churn, Verb::muddle,
                                    Verb::dissolve, Verb::do_,     Verb::serve};

bool mixes_at_last(Verb verb) {
  return analysis::mixes_in_vessel(verb) || moves_to_the_glass(verb) ||
         base::is_any_of(verb, mixing_in_glass);
}

bool is_poured_on_purpose(Verb verb) { return verb == Verb::layer || verb == Verb::float_; }

bool has_body(StockKind kind) {
  return kind == StockKind::spirit || kind == StockKind::liqueur || kind == StockKind::fortified_wine ||
         kind == StockKind::juice || kind == StockKind::syrup || kind == StockKind::sweetener;
}

bool is_fizzy(const DrinkCase& drink, analysis::StockId id) {
  return drink.house.facts[id].fizz_vol >= flat_below_volumes;
}

class Judge {
 public:
  Judge(const DrinkCase& drink, Reporter& report)
      : drink_(drink), trace_(drink.facts.trace), report_(report) {}

  void check() {
    if (drink_.drink.serves > 1) return;
    for (std::size_t i = 0; i < trace_.size(); ++i)
      if (joins_after_the_mixing(i)) return;
    check_build();
  }

 private:
  const model::Entry* entry(std::size_t i) const {
    return entry_of_amount(drink_.facts.entries, trace_[i].index);
  }

  /// True where a later line stirs, or something fizzy poured on top does.
  bool is_mixed_after(std::size_t i) const {
    for (std::size_t later = i + 1; later < trace_.size(); ++later) {
      if (trace_[later].is_amount) {
        const auto* poured = entry(later);
        if (poured && is_fizzy(drink_, poured->use.stock)) return true;
        continue;
      }
      const auto& step = drink_.step(trace_[later]);
      if (mixes_at_last(step.verb) || (step.verb == Verb::top && step.use)) return true;
    }
    return false;
  }

  /// An amount line below the strain.
  bool joins_after_the_mixing(std::size_t i) {
    if (!trace_[i].is_amount || !trace_[i].in_glass) return false;
    bool strained = std::any_of(trace_.begin(), trace_.begin() + static_cast<std::ptrdiff_t>(i),
                                [&](const model::TraceStep& earlier) {
                                  return !earlier.is_amount && moves_to_the_glass(drink_.step(earlier).verb);
                                });
    const auto* poured = entry(i);
    if (!strained || !poured || poured->optional || is_fizzy(drink_, poured->use.stock)) return false;
    if (!has_body(drink_.house.specs[poured->use.stock].kind) ||
        poured->volume_ml.value_or(0) < seasoning_below_ml || is_mixed_after(i))
      return false;
    report_.add(drink_.span_of(trace_[i]),
                fmt::format("{:.3g} ml of `{}` go in below the strain, and nothing mixes them in",
                            *poured->volume_ml, poured->name),
                "Move the line above the shake or stir, or write `float` or `top` before it if it is to stay "
                "apart.");
    return true;
  }

  /// A short, strong drink built and never stirred, or sugar that nothing dissolves.
  void check_build() {
    const model::Entry* sugar = nullptr;
    std::size_t bodies = 0;
    for (std::size_t i = 0; i < trace_.size(); ++i) {
      if (!trace_[i].is_amount) {
        const auto& step = drink_.step(trace_[i]);
        if (mixes_at_last(step.verb) || is_poured_on_purpose(step.verb)) return;
        if (step.verb == Verb::top && step.use) return;
        continue;
      }
      const auto* poured = entry(i);
      if (!poured || poured->optional) continue;
      if (is_fizzy(drink_, poured->use.stock)) return;
      const auto& stock = drink_.house.specs[poured->use.stock];
      bool dry = stock.effective_form() != analysis::Form::liquid;
      if (dry && stock.kind == StockKind::sweetener && poured->mass_g.value_or(0) >= min_sugar_g)
        sugar = poured;
      if (!dry && has_body(stock.kind) && poured->volume_ml.value_or(0) >= seasoning_below_ml) ++bodies;
    }
    if (trace_.empty() || !trace_.back().in_glass) return;
    if (sugar)
      report_.add(drink_.span_of_amount(sugar->index),
                  fmt::format("{:.2g} g of `{}` stay on the floor of the glass: nothing stirs them in",
                              *sugar->mass_g, sugar->name),
                  "Add `stir 20 s` below the last amount, or use a syrup.");
    else if (bodies > 1 && reaches_strength(model::strength(trace_.back().after.masses), strong_from))
      report_.add(drink_.name_span(),
                  fmt::format("{} liquids lie in the glass, and nothing stirs them", bodies),
                  "Add `stir 15 s` below the last amount, or write `layer` before what is to lie on top.");
  }

  const DrinkCase& drink_;
  const std::vector<model::TraceStep>& trace_;
  Reporter& report_;
};

}  // namespace

void unmixed_in_glass(const DrinkCase& drink, Reporter& report) { Judge(drink, report).check(); }

}  // namespace gill::lint
