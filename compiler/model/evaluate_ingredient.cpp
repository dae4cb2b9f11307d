#include <fmt/format.h>

#include <cmath>

#include "base/percent.h"
#include "model/allergens.h"
#include "model/colour.h"
#include "model/constants.h"
#include "model/evaluator.h"
#include "model/origin.h"
#include "model/physics/acid.h"
#include "model/physics/ethanol_water.h"
#include "model/physics/volume.h"

namespace gill::model {

using analysis::Form;
using analysis::StockKind;
using diagnostics::Rule;
using units::Kind;

namespace {

Component component_of(analysis::Acid acid) {
  switch (acid) {
    case analysis::Acid::citric:
      return Component::citric;
    case analysis::Acid::malic:
      return Component::malic;
    case analysis::Acid::tartaric:
      return Component::tartaric;
    case analysis::Acid::lactic:
      return Component::lactic;
    case analysis::Acid::acetic:
      return Component::acetic;
    case analysis::Acid::phosphoric:
      return Component::phosphoric;
    case analysis::Acid::ascorbic:
      return Component::ascorbic;
  }
  return Component::citric;
}

Declared declared(const units::Quantity& quantity) {
  return quantity.kind == Kind::mass_concentration ? Declared::per_100_ml(base::per_100_ml(quantity.number()))
                                                   : Declared::by_mass(quantity.number());
}

/// One line of contents: which component it is, and what a gram of it feeds.
struct Content {
  std::optional<units::Quantity> analysis::Stock::*line;
  Component component;
  MoreNutrients feeds;
};

// What is dissolved and is none of the named parts (the extract of wine and juice, the dextrins of beer)
// counts as carbohydrate by difference, as food tables reckon it.
constexpr Content contents[] = {
    {&analysis::Stock::water, Component::water, {}},
    {&analysis::Stock::sugar, Component::sugar, {}},
    {&analysis::Stock::fat, Component::fat, {}},
    {&analysis::Stock::protein, Component::protein, {}},
    {&analysis::Stock::salt, Component::salt, {}},
    {&analysis::Stock::other, Component::other, {.digestible_carbohydrate_g = 1}},
    {&analysis::Stock::dextrin, Component::other, {.digestible_carbohydrate_g = 1}},
    {&analysis::Stock::gum, Component::other, {.fibre_g = 1}},
    {&analysis::Stock::polyol, Component::other, {.polyols_g = 1}},
    {&analysis::Stock::ash, Component::other, {}},
    {&analysis::Stock::inert, Component::other, {}},
    {&analysis::Stock::starch, Component::solids, {.digestible_carbohydrate_g = 1}},
    {&analysis::Stock::fibre, Component::solids, {.fibre_g = 1}},
};

/// What the undeclared rest of an ingredient is. Where its lines tell of its water the rest is what no line
/// names: dissolved in a liquid, undissolved in a solid. Else a liquid is water (oil, a fat), and a solid
/// that a house declares without its water is taken for what its kind usually is; the library's say it all.
Component remainder_of(const analysis::Stock& stock) {
  bool is_liquid = stock.effective_form() == Form::liquid;
  if (stock.water) return is_liquid ? Component::other : Component::solids;
  if (is_liquid) return stock.kind == StockKind::fat ? Component::fat : Component::water;
  switch (stock.kind) {
    case StockKind::sweetener:
    case StockKind::acid:
    case StockKind::dairy:
    case StockKind::egg:
      return Component::water;
    case StockKind::saline:
      return Component::salt;
    case StockKind::additive:
      return Component::other;
    case StockKind::unstated:
    case StockKind::spirit:
    case StockKind::liqueur:
    case StockKind::fortified_wine:
    case StockKind::wine:
    case StockKind::sparkling:
    case StockKind::beer:
    case StockKind::bitters:
    case StockKind::juice:
    case StockKind::syrup:
    case StockKind::fat:
    case StockKind::fruit:
    case StockKind::herb:
    case StockKind::spice:
    case StockKind::tea_coffee:
    case StockKind::mixer:
    case StockKind::water:
    case StockKind::garnish:
      return Component::solids;
  }
  return Component::solids;
}

/// How far the bottle may lie from its label, v/v; 0 for what has no strength to label.
double strength_width(const analysis::Stock& stock) {
  if (!stock.strength) return 0;
  double strength = stock.strength->number();
  if (stock.strength->tolerance) return *stock.strength->tolerance;
  if (strength <= labelled_from_strength) return 0;
  if (stock.kind == StockKind::sparkling) return sparkling_strength_width;
  if (stock.kind != StockKind::beer) return label_strength_width;
  return strength <= weak_beer_to_strength ? weak_beer_strength_width : sparkling_strength_width;
}

}  // namespace

DeclaredTerms Evaluator::declared_terms(const analysis::Stock& stock) const {
  DeclaredTerms terms;
  terms.remainder = remainder_of(stock);
  terms.form =
      stock.effective_form() == Form::liquid ? DeclaredTerms::Form::liquid : DeclaredTerms::Form::solid;
  if (stock.strength) terms.strength = stock.strength->number();
  for (const auto& content : contents)
    if (const auto& quantity = stock.*content.line) terms[content.component] += declared(*quantity);
  for (const auto& line : stock.acids) terms[component_of(line.acid)] = declared(line.quantity);
  if (stock.fizz) terms.carbon_dioxide_volumes = stock.fizz->number();
  if (stock.density) terms.density_g_per_ml = stock.density->number();
  // A fat that says nothing of its content is all fat.
  if (stock.kind == StockKind::fat && !stock.fat && !stock.water && !stock.density && !stock.strength)
    terms[Component::fat] = Declared::by_mass(1);
  return terms;
}

void Evaluator::report_impossible(const analysis::Stock& stock, const Impossible& impossible) {
  std::string message, help;
  switch (impossible.reason) {
    case Impossible::Reason::out_of_range:
      message = fmt::format("`{}` cannot hold {:.4g} of {}", stock.head.name, impossible.declared,
                            component_name(impossible.component));
      help = "Correct the figure; a share is between nothing and the whole.";
      break;
    case Impossible::Reason::parts_over_whole:
      message = fmt::format("the parts of `{}` weigh {:.4g} g in {:.4g} g of it", stock.head.name,
                            impossible.declared, impossible.possible);
      help =
          "One of its figures is too large, or its density too small; check `% w/v` (g in 100 ml) against `% "
          "w/w`.";
      break;
    case Impossible::Reason::water_negative:
      message = fmt::format("the parts of `{}` take up {:.4g} ml in 100 ml, before any water",
                            stock.head.name, impossible.declared);
      help = "One of its figures is too large; check `% w/v` (g in 100 ml) against `% w/w`.";
      break;
    case Impossible::Reason::density_misfit:
      message = fmt::format("`{}` is said to weigh {:.4g} g/ml, and its parts make {:.4g} g/ml",
                            stock.head.name, impossible.declared, impossible.possible);
      help = "Correct the density, or the parts; without a density it is worked out.";
      break;
  }
  // The line most likely to be wrong is the one that says most.
  source::Span span = stock.head.name_span;
  for (std::string_view keyword : {"density", "strength", "sugar", "acid"})
    if (auto found = stock.property_spans.find(std::string(keyword)); found != stock.property_spans.end()) {
      span = found->second;
      break;
    }
  sink_.add(Rule::impossible_composition, span, std::move(message), std::move(help));
}

/// Nothing where the terms cannot be met, and `why`, if it is asked for.
std::optional<Composition> Evaluator::composition_of(const analysis::Stock& stock, const DeclaredTerms& terms,
                                                     Impossible* why) {
  auto solved = solve_composition(terms);
  if (auto* impossible = std::get_if<Impossible>(&solved)) {
    if (why) *why = *impossible;
    return std::nullopt;
  }
  auto composition = std::get<Composition>(solved);
  // Of a house's own fruit and herbs that say nothing of their water, most of the rest is taken for it.
  bool fruit = stock.kind == StockKind::fruit, herb = stock.kind == StockKind::herb;
  Masses& per_gram = composition.per_gram;
  if (!stock.water && (fruit || herb) && stock.effective_form() != Form::liquid &&
      per_gram[Component::sugar] < dried_fruit_sugar) {
    double water = per_gram[Component::solids] * (fruit ? water_share_of_fruit : water_share_of_herbs);
    per_gram[Component::water] += water;
    per_gram[Component::solids] -= water;
  }
  return composition;
}

/// An ingredient again with its strength, its sugar or its acids as far to either side as its lines say, or
/// else as labels and juices lie.
StockMoves Evaluator::moves_of_ingredient(std::size_t index) const {
  const auto& stock = specs_.stock[index];
  const auto& facts = facts_.stock[index];
  StockMoves moves;
  if (!facts.valid) return moves;
  const DeclaredTerms terms = declared_terms(stock);
  auto add = [&](Cause::Kind kind, double width) {
    if (width <= 0) return;
    auto made = [&](double sign) {
      DeclaredTerms moved = terms;
      move_declared(moved, kind, sign * width);
      return composition_of(stock, moved).value_or(facts.composition);
    };
    moves.push_back({{kind, facts.stock, {}}, width, made(1), made(-1)});
  };
  add(Cause::Kind::strength, strength_width(stock));
  add(Cause::Kind::sugar, facts.sugar_tolerance);
  add(Cause::Kind::acid, facts.acid_tolerance);
  return moves;
}

void Evaluator::set_label_tolerances(const analysis::Stock& stock, StockFacts& facts) {
  if (double width = strength_width(stock); width > 0)
    facts.strength_tolerance = width / stock.strength->number();
  if (stock.sugar) facts.sugar_tolerance = stock.sugar->relative_tolerance();
  // The acids of one thing rise and fall together, as a fruit ripens: their tolerances add as they are.
  double all = 0, uncertain = 0;
  for (const auto& line : stock.acids) {
    double equivalents = line.quantity.number() * citric_equivalent_factor(component_of(line.acid));
    all += equivalents;
    uncertain += equivalents * line.quantity.relative_tolerance();
  }
  if (all > 0) facts.acid_tolerance = uncertain / all;
  if (stock.kind == StockKind::juice) {
    if (stock.sugar && facts.sugar_tolerance <= 0) facts.sugar_tolerance = juice_sugar_share;
    if (all > 0 && uncertain <= 0) facts.acid_tolerance = juice_acid_share;
  }
}

void Evaluator::evaluate_ingredient(std::size_t index) {
  const auto& stock = specs_.stock[index];
  auto& facts = facts_.stock[index];
  Impossible impossible;
  if (auto composition = composition_of(stock, declared_terms(stock), &impossible)) {
    facts.composition = *composition;
  } else {
    facts.valid = false;
    facts.composition.per_gram = only(Component::water, 1);
    report_impossible(stock, impossible);
  }
  if (stock.head.has_errors) facts.valid = facts.valid && !stock.head.has_amount_errors;
  set_figures(facts);
  set_label_tolerances(stock, facts);
  facts.allergens = stated_allergens(stock, facts.stock);
  facts.allergens.known = stock.allergens_stated && !stock.head.has_errors;
  if (!stock.allergens_stated) facts.allergens.unknown.push_back(facts.stock);
  order_allergens(facts.allergens, specs_.house.allergen_list);
  facts.foams = stock.foams.value_or(false);
  facts.holds_fat = stock.holds_fat.value_or(false);
  facts.fizz_vol = stock.fizz ? stock.fizz->number() : 0;
  if (const auto& keeps = stock.opened ? stock.opened : stock.keeps) {
    facts.keeps_days = keeps->duration.number() / 86400;
    facts.storage = keeps->storage;
    facts.is_keeping_stated = true;
  }
  rest_[index] = rest_of(stock, facts.composition);
  set_traces_of_ingredient(facts);
  facts.origins = stated_origins(stock, facts.stock);
  facts.colour = to_hex(light_of(stock));
}

/// What feeds in the rest of an ingredient, by the lines that it is made of. What no line names feeds nobody
/// in a solid (it is fibre and ash), and counts as carbohydrate where it is dissolved.
Evaluator::Rest Evaluator::rest_of(const analysis::Stock& stock, const Composition& composition) {
  Rest rest;
  double named_other = 0;
  for (const auto& content : contents) {
    const auto& quantity = stock.*content.line;
    if (!quantity) continue;
    double grams = declared(*quantity).in_a_gram(composition.density_g_per_ml);
    if (content.component == Component::solids) rest.of_solids += content.feeds * grams;
    if (content.component != Component::other) continue;
    rest.of_other += content.feeds * grams;
    named_other += grams;
  }
  double other = composition.per_gram[Component::other], solids = composition.per_gram[Component::solids];
  rest.of_other.digestible_carbohydrate_g += std::max(0.0, other - named_other);
  rest.of_other = other > 0 ? rest.of_other * (1 / other) : MoreNutrients{};
  rest.of_solids = solids > 0 ? rest.of_solids * (1 / solids) : MoreNutrients{};
  return rest;
}

void Evaluator::set_figures(StockFacts& facts) {
  const Composition& composition = facts.composition;
  Masses in_100_ml = composition.of_ml(100);
  facts.density_g_per_ml = composition.density_g_per_ml;
  auto figures = concentrations(composition.per_gram);
  facts.brix = figures.brix;
  if (composition.density_declared && facts.yield_g == 0) {
    // A declared density decides what 100 ml are.
    facts.abv_percent = in_100_ml[Component::ethanol] / ethanol_water::ethanol_density_g_per_ml;
    facts.sugar_g_per_100ml = in_100_ml[Component::sugar];
    facts.acid_g_per_100ml = citric_equivalents_g(in_100_ml);
  } else {
    facts.abv_percent = base::percent_of_share(figures.strength);
    facts.sugar_g_per_100ml = figures.sugar_g_per_100_ml;
    facts.acid_g_per_100ml = figures.acid_g_per_100_ml;
  }
  facts.fat_g_per_100ml = in_100_ml[Component::fat];
}

}  // namespace gill::model
