#include <fmt/format.h>

#include "base/percent.h"
#include "lint/parts.h"
#include "lint/rules.h"
#include "model/physics/acid.h"

namespace gill::lint {

namespace {

using analysis::StockKind;

// Less protein than this (g in one g) and there is nothing to set.
constexpr double min_protein = 0.01;

/// Milk, cream or a liqueur of cream: what holds milk and its protein.
bool sets_with_acid(const House& house, analysis::StockId id) {
  const auto& stock = house.specs[id];
  // Coconut cream and oat milk stand among the dairy, and hold no casein.
  bool holds_milk = stock.kind == StockKind::dairy && !stock.allergens_stated;
  bool holds_egg = false;
  for (const auto& line : stock.allergens) {
    holds_milk = holds_milk || (line.code == "milk" && !line.may);
    holds_egg = holds_egg || (line.code == "egg" && !line.may);
  }
  // In a liqueur of egg the protein is the yolk's, which lime juice leaves smooth. Common practice, no
  // source.
  if (holds_egg && stock.kind != StockKind::dairy) return false;
  return holds_milk && stock.kind != StockKind::fat &&
         house.facts[id].composition.per_gram[model::Component::protein] >= min_protein;
}

bool is_mixed_in(const model::Entry& entry) {
  return !entry.optional && (entry.role == model::Role::amount || entry.role == model::Role::top);
}

/// What is poured together: its volume, the acid that does not come with the dairy, and the dairy.
struct Mixture {
  double volume_ml = 0, acid_g = 0;
  const model::Entry* dairy = nullptr;
  const model::Entry* sourest = nullptr;

  double acid() const { return volume_ml > 0 ? base::per_100_ml(acid_g / volume_ml) : 0; }
  bool curdles() const { return dairy && sourest && acid() >= curdling_acid; }
};

Mixture mixture_of(const House& house, const std::vector<model::Entry>& entries) {
  Mixture all;
  double most_acid = 0;
  for (const auto& entry : entries) {
    if (!is_mixed_in(entry)) continue;
    all.volume_ml += entry.volume_ml.value_or(entry.mass_g.value_or(0));
    if (sets_with_acid(house, entry.use.stock)) {
      if (!all.dairy) all.dairy = &entry;
      continue;
    }
    double acid = model::citric_equivalents_g(house.facts[entry.use.stock].composition.per_gram) *
                  entry.mass_g.value_or(0);
    all.acid_g += acid;
    if (acid > most_acid) most_acid = acid, all.sourest = &entry;
  }
  return all;
}

std::string message(const Mixture& all) {
  return fmt::format("{:.2g} g/100 ml of acid, most of it from `{}`, meets `{}`: it curdles", all.acid(),
                     all.sourest->name, all.dairy->name);
}

template <typename Case>
source::Span span_of_entry(const Case& build, const model::Entry& entry) {
  return entry.role == model::Role::amount ? build.span_of_amount(entry.index)
                                           : build.span_of_step(entry.index);
}

}  // namespace

void dairy_curdles(const DrinkCase& drink, Reporter& report) {
  auto all = mixture_of(drink.house, drink.facts.entries);
  if (!all.curdles()) return;
  // Egg white beaten in with the cream keeps its curd too fine to be seen. Common practice, no source.
  for (const auto& entry : drink.facts.entries)
    if (drink.house.specs[entry.use.stock].kind == StockKind::egg && is_mixed_in(entry)) return;
  report.add(
      span_of_entry(drink, *all.dairy), message(all),
      "Take one of the two out, use coconut cream or another cream that acid does not set, or clear it "
      "on purpose as a milk punch in a prep (`clarify`).");
}

void dairy_curdles(const PrepCase& prep, Reporter& report) {
  auto all = mixture_of(prep.house, prep.facts.entries);
  if (!all.curdles()) return;
  for (const auto& step : prep.prep.recipe.steps) {
    bool takes_curd_out = step.verb == analysis::Verb::remove || step.verb == analysis::Verb::skim;
    if (step.verb == analysis::Verb::clarify || takes_curd_out) return;
  }
  report.add(span_of_entry(prep, *all.dairy), message(all),
             "Take one of the two out. If the curd is meant to clear it, write `clarify` below the rest.");
}

}  // namespace gill::lint
