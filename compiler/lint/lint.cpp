#include "lint/lint.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "base/any_of.h"
#include "lint/hazards.h"
#include "lint/parts_of_judging.h"

namespace gill::lint {

using diagnostics::Diagnostic;
using diagnostics::Rule;

Diagnostic& Reporter::add(source::Span span, std::string message, std::string help) {
  findings_.push_back(Diagnostic{rule_,
                                 diagnostics::info(rule_).severity,
                                 span,
                                 std::move(message),
                                 std::move(help),
                                 is_drink_ ? head_.name : std::string(),
                                 {},
                                 head_.declaration_id.value});
  return findings_.back();
}

namespace {

bool is_valid(const analysis::Head& head, bool facts_are_valid) {
  return !head.has_amount_errors && facts_are_valid;
}

/// True for what is said of the drink as a whole: how it is built, how it is balanced, how strong or hot it
/// comes. Where a line is refused that may have done something to it, that is not known. What is said of one
/// thing that stands there (raw egg, an allergen) is said all the same; so is a failed `expect`.
bool judges_whole(const RuleCheck& check) {
  using diagnostics::RuleGroup;
  static constexpr Rule of_amounts[] = {Rule::unlikely_amount, Rule::caustic,       Rule::strong_serve,
                                        Rule::hot_spirit,      Rule::pressure,      Rule::glass_shock,
                                        Rule::hot_serve,       Rule::over_pour_cost};
  auto group = diagnostics::info(check.rule).group;
  return (group == RuleGroup::build || group == RuleGroup::balance ||
          base::is_any_of(check.rule, of_amounts)) &&
         check.rule != Rule::unmet_expectation;
}

/// A declaration with `allow` lines, and whether all that could be found in it was.
struct AllowingDeclaration {
  const std::vector<analysis::Allow>* lines;
  bool judged_whole;
};

/// The house's declarations that have `allow` lines, by their number.
std::map<std::uint32_t, AllowingDeclaration> declarations_that_allow(const House& house) {
  std::map<std::uint32_t, AllowingDeclaration> found;
  auto add = [&](const analysis::Head& head, bool valid) {
    if (!head.allows.empty() && !head.from_library)
      found[head.declaration_id.value] = {&head.allows, !head.has_errors && is_valid(head, valid)};
  };
  const auto& specs = house.specs;
  add(specs.house.head, true);
  for (std::size_t i = 0; i < specs.stock.size(); ++i) add(specs.stock[i].head, house.facts.stock[i].valid);
  for (std::size_t i = 0; i < specs.drinks.size(); ++i)
    add(specs.drinks[i].head, house.facts.drinks[i].valid);
  for (const auto& glass : specs.glasses) add(glass.head, true);
  for (const auto& ice : specs.ices) add(ice.head, true);
  for (const auto& family : specs.families) add(family.head, true);
  for (const auto& list : specs.price_lists) add(list.head, true);
  for (const auto& menu : specs.menus) add(menu.head, true);
  return found;
}

/// Puts findings on the right side of the `allow` lines, and remembers which lines were needed.
class Suppressor {
 public:
  Suppressor(std::map<std::uint32_t, AllowingDeclaration> allowing, LintResult& judged)
      : allowing_(std::move(allowing)), judged_(judged) {}

  void add(Diagnostic finding) {
    auto found = allowing_.find(finding.subject);
    bool suppress = false;
    if (found != allowing_.end())
      for (const auto& allow : *found->second.lines) suppress = suppress || allow.rule == finding.rule;
    if (suppress) needed_.insert({finding.subject, finding.rule});
    (suppress ? judged_.suppressed : judged_.shown).push_back(std::move(finding));
  }

  void add_idle() {
    // `allow idle-allow` comes last: whether it is needed shows only when the others are judged.
    for (bool itself : {false, true})
      for (const auto& [subject, declaration] : allowing_)
        if (declaration.judged_whole)
          for (const auto& allow : *declaration.lines) {
            if ((allow.rule == Rule::idle_allow) != itself || needed_.count({subject, allow.rule})) continue;
            // What suppresses nothing does not suppress that finding about itself.
            itself ? judged_.shown.push_back(idle(allow, subject)) : add(idle(allow, subject));
          }
  }

 private:
  static Diagnostic idle(const analysis::Allow& allow, std::uint32_t subject) {
    return Diagnostic{Rule::idle_allow,
                      diagnostics::info(Rule::idle_allow).severity,
                      allow.span,
                      fmt::format("nothing here needs `allow {}`", diagnostics::info(allow.rule).name),
                      "Delete the line: it would hide a finding of a later day.",
                      {},
                      {},
                      subject};
  }

  std::map<std::uint32_t, AllowingDeclaration> allowing_;
  std::set<std::pair<std::uint32_t, Rule>> needed_;
  LintResult& judged_;
};

}  // namespace

source::Span RecipeCase::span_of_step(std::size_t index) const { return span_of_line(false, index); }
source::Span RecipeCase::span_of_amount(std::size_t index) const { return span_of_line(true, index); }
source::Span RecipeCase::span_of(const model::TraceStep& trace) const {
  return span_of_line(trace.is_amount, trace.index);
}

source::Span RecipeCase::span_of_line(bool is_amount, std::size_t index) const {
  for (const auto& line : recipe.order)
    if (line.is_amount == is_amount && line.index == index && !line.inherited)
      return is_amount ? recipe.amounts[index].span : recipe.steps[index].span;
  return head.name_span;
}

void check_drink(const House& house, std::size_t index, std::vector<Diagnostic>& findings) {
  const auto& drink = house.specs.drinks[index];
  const auto& facts = house.facts.drinks[index];
  if (drink.head.from_library) return;
  const bool valid = is_valid(drink.head, facts.valid);
  for (const auto& check : all_checks()) {
    if (!check.drink || (check.needs_valid_amounts && !valid)) continue;
    if (drink.head.has_build_errors && judges_whole(check)) continue;
    Reporter report(check.rule, drink.head, true, findings);
    check.drink(DrinkCase{house, drink, facts}, report);
  }
}

void check_prep(const House& house, std::size_t index, std::vector<Diagnostic>& findings) {
  const auto& prep = house.specs.stock[index];
  const auto& facts = house.facts.stock[index];
  if (!prep.is_prep || prep.head.from_library) return;
  const bool valid = is_valid(prep.head, facts.valid);
  for (const auto& check : all_checks()) {
    if (!check.prep || (check.needs_valid_amounts && !valid)) continue;
    // What a refused line would have done, such as taking the fat off, is not judged.
    auto group = diagnostics::info(check.rule).group;
    bool hangs_on_lines = group == diagnostics::RuleGroup::build || group == diagnostics::RuleGroup::stock;
    if (prep.head.has_errors && hangs_on_lines) continue;
    Reporter report(check.rule, prep.head, false, findings);
    check.prep(PrepCase{house, prep, facts}, report);
  }
}

void count_uses(const analysis::Recipe& recipe, int times, std::vector<int>& uses) {
  auto add = [&](const analysis::Use& use) {
    if (use.stock.valid()) uses[use.stock.index()] += times;
  };
  for (const auto& amount : recipe.amounts) {
    for (const auto& portion : amount.portions) add(portion.use);
    for (const auto& use : amount.alternatives) add(use);
  }
  for (const auto& step : recipe.steps)
    if (step.use) add(*step.use);
}

std::vector<int> count_uses(const analysis::Specs& specs) {
  std::vector<int> uses(specs.stock.size());
  for (const auto& drink : specs.drinks) count_uses(drink.recipe, 1, uses);
  for (const auto& stock : specs.stock) count_uses(stock.recipe, 1, uses);
  return uses;
}

void check_house(const House& house, std::vector<Diagnostic>& findings) {
  for (const auto& check : all_checks())
    if (check.house) check.house(HouseCase(house, check.rule, findings));
}

LintResult suppress(const House& house, std::vector<Diagnostic> findings) {
  LintResult judged;
  judged.shown.reserve(findings.size());
  Suppressor suppressor(declarations_that_allow(house), judged);
  for (auto& finding : findings) suppressor.add(std::move(finding));
  suppressor.add_idle();
  return judged;
}

LintResult judge(const House& given, std::vector<Diagnostic> findings) {
  House house = given;
  house.hazards = index_hazards(house.specs);
  house.uses = count_uses(house.specs);
  for (std::size_t i = 0; i < house.specs.drinks.size(); ++i) check_drink(house, i, findings);
  for (std::size_t i = 0; i < house.specs.stock.size(); ++i) check_prep(house, i, findings);
  check_house(house, findings);
  return suppress(house, std::move(findings));
}

}  // namespace gill::lint
