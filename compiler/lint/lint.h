#pragma once
#include <string>
#include <vector>

#include "model/facts.h"

/// Judges a house as a head bartender would, on the simulated state.
namespace gill::lint {

struct Hazard;

/// What a rule may look at.
struct House {
  const analysis::Specs& specs;
  const model::HouseFacts& facts;
  const units::UnitTable& units;
  /// By stock: the hazards that its name speaks of. Filled by `judge`, so that a name is looked through once.
  std::vector<std::vector<const Hazard*>> hazards = {};
  /// By stock: how many times a line of a drink or a prep uses it. Filled by `judge`.
  std::vector<int> uses = {};
};

/// Where a rule puts its findings: the drink's name and declaration go with them.
class Reporter {
 public:
  Reporter(diagnostics::Rule rule, const analysis::Head& head, bool is_drink,
           std::vector<diagnostics::Diagnostic>& findings)
      : rule_(rule), head_(head), is_drink_(is_drink), findings_(findings) {}

  /// Adds a finding with the rule's own severity.
  diagnostics::Diagnostic& add(source::Span span, std::string message, std::string help);

 private:
  diagnostics::Rule rule_;
  const analysis::Head& head_;
  bool is_drink_;
  std::vector<diagnostics::Diagnostic>& findings_;
};

/// What is made by a recipe, under judgement: the places to which findings point.
struct RecipeCase {
  const House& house;
  const analysis::Head& head;
  const analysis::Recipe& recipe;

  /// Where a line stands: its own place, or the name of the drink or prep when `like` brought it.
  source::Span span_of_step(std::size_t step_index) const;
  source::Span span_of_amount(std::size_t amount_index) const;
  source::Span span_of(const model::TraceStep& trace) const;
  source::Span name_span() const { return head.name_span; }
  const analysis::Step& step(const model::TraceStep& trace) const { return recipe.steps[trace.index]; }
  source::Span span_of_line(bool is_amount, std::size_t index) const;
};

/// A drink under judgement.
struct DrinkCase : RecipeCase {
  DrinkCase(const House& house, const analysis::Drink& drink, const model::DrinkFacts& facts)
      : RecipeCase{house, drink.head, drink.recipe}, drink(drink), facts(facts) {}
  const analysis::Drink& drink;
  const model::DrinkFacts& facts;
};

/// A prep under judgement.
struct PrepCase : RecipeCase {
  PrepCase(const House& house, const analysis::Stock& prep, const model::StockFacts& facts)
      : RecipeCase{house, prep.head, prep.recipe}, prep(prep), facts(facts) {}
  const analysis::Stock& prep;
  const model::StockFacts& facts;
};

/// The whole house under judgement: what only shows across declarations (menus, prices, what nobody uses).
class HouseCase {
 public:
  HouseCase(const House& house, diagnostics::Rule rule, std::vector<diagnostics::Diagnostic>& findings)
      : house(house), rule_(rule), findings_(findings) {}

  const House& house;

  /// Where findings about one declaration go; its `allow` lines can suppress them.
  Reporter about(const analysis::Drink& drink) const { return {rule_, drink.head, true, findings_}; }
  Reporter about(const analysis::Stock& stock) const { return {rule_, stock.head, false, findings_}; }
  Reporter about(const analysis::Menu& menu) const { return {rule_, menu.head, false, findings_}; }
  Reporter about(const analysis::PriceList& list) const { return {rule_, list.head, false, findings_}; }

 private:
  diagnostics::Rule rule_;
  std::vector<diagnostics::Diagnostic>& findings_;
};

/// One rule: what it looks at. Each lives in a file of its own in rules/.
struct RuleCheck {
  diagnostics::Rule rule;
  void (*drink)(const DrinkCase&, Reporter&) = nullptr;
  void (*prep)(const PrepCase&, Reporter&) = nullptr;
  void (*house)(const HouseCase&) = nullptr;
  /// Build and balance rules keep silent where an amount is in error.
  bool needs_valid_amounts = true;
};

/// Every rule that is checked, one a line (registry.cpp).
const std::vector<RuleCheck>& all_checks();

/// Findings after the houses' `allow` lines.
struct LintResult {
  std::vector<diagnostics::Diagnostic> shown;
  /// Suppressed by an `allow`; their cautions print on book, cards, labels and plan all the same.
  std::vector<diagnostics::Diagnostic> suppressed;
};

/// Runs every rule over the house's own drinks and preps, then lets `allow` lines suppress what they name in
/// their declaration; one that suppresses nothing is `idle-allow`, unless the declaration is in error: what
/// would be found in it is then not known. `earlier` are the findings of the stages before.
LintResult judge(const House& house, std::vector<diagnostics::Diagnostic> earlier);

}  // namespace gill::lint
