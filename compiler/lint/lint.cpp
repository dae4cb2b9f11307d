#include "lint/lint.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace gill::lint {

using diagnostics::Diagnostic;
using diagnostics::Rule;

Diagnostic& Reporter::add(source::Span span, std::string message, std::string help) {
  findings_.push_back(Diagnostic{rule_, diagnostics::info(rule_).severity, span, std::move(message), std::move(help),
                                 is_drink_ ? head_.name : std::string(), {}, head_.declaration_id.value});
  return findings_.back();
}

namespace {

source::Span span_in(const spec::Recipe& recipe, bool is_amount, std::size_t index, source::Span otherwise) {
  for (const auto& line : recipe.order)
    if (line.is_amount == is_amount && line.index == index)
      return line.inherited ? otherwise : is_amount ? recipe.amounts[index].span : recipe.steps[index].span;
  return otherwise;
}

std::vector<Diagnostic> check_all(const House& house) {
  std::vector<Diagnostic> findings;
  for (const auto& check : all_checks()) {
    if (check.drink) {
      for (std::size_t i = 0; i < house.specs.drinks.size(); ++i) {
        const auto& drink = house.specs.drinks[i];
        if (drink.head.from_library) continue;
        if (check.needs_sound_amounts && (drink.head.has_amount_errors || !house.facts.drinks[i].sound)) continue;
        Reporter report(check.rule, drink.head, true, findings);
        check.drink(DrinkCase{house, drink, house.facts.drinks[i]}, report);
      }
    }
    if (check.prep) {
      for (std::size_t i = 0; i < house.specs.stock.size(); ++i) {
        const auto& prep = house.specs.stock[i];
        if (!prep.is_prep || prep.head.from_library) continue;
        if (check.needs_sound_amounts && (prep.head.has_amount_errors || !house.facts.stock[i].sound)) continue;
        Reporter report(check.rule, prep.head, false, findings);
        check.prep(PrepCase{house, prep, house.facts.stock[i]}, report);
      }
    }
  }
  return findings;
}

bool is_checked(Rule rule) {
  return std::any_of(all_checks().begin(), all_checks().end(), [&](const RuleCheck& check) { return check.rule == rule; });
}

/// The `allow` lines of every declaration, by its number.
std::map<std::uint32_t, const std::vector<spec::Allow>*> allows_of(const spec::Specs& specs) {
  std::map<std::uint32_t, const std::vector<spec::Allow>*> allows;
  auto add = [&](const spec::Head& head) {
    if (!head.allows.empty()) allows[head.declaration_id.value] = &head.allows;
  };
  add(specs.house.head);
  for (const auto& stock : specs.stock) add(stock.head);
  for (const auto& glass : specs.glasses) add(glass.head);
  for (const auto& ice : specs.ices) add(ice.head);
  for (const auto& family : specs.families) add(family.head);
  for (const auto& drink : specs.drinks) add(drink.head);
  for (const auto& list : specs.price_lists) add(list.head);
  for (const auto& menu : specs.menus) add(menu.head);
  return allows;
}

}  // namespace

source::Span DrinkCase::span_of_step(std::size_t index) const {
  return span_in(drink.recipe, false, index, drink.head.name_span);
}
source::Span DrinkCase::span_of_amount(std::size_t index) const {
  return span_in(drink.recipe, true, index, drink.head.name_span);
}
source::Span DrinkCase::span_of(const model::TraceStep& step) const {
  return span_in(drink.recipe, step.is_amount, step.index, drink.head.name_span);
}

Judged judge(const House& house, std::vector<Diagnostic> earlier) {
  Judged judged;
  std::vector<Diagnostic> findings = std::move(earlier);
  for (auto& finding : check_all(house)) findings.push_back(std::move(finding));
  auto allows = allows_of(house.specs);
  std::map<std::pair<std::uint32_t, Rule>, bool> used;
  for (auto& finding : findings) {
    auto found = allows.find(finding.subject);
    bool quiet = false;
    if (found != allows.end())
      for (const auto& allow : *found->second)
        if (allow.rule == finding.rule) {
          quiet = true;
          used[{finding.subject, finding.rule}] = true;
        }
    (quiet ? judged.quieted : judged.shown).push_back(std::move(finding));
  }
  for (const auto& [subject, lines] : allows) {
    for (const auto& allow : *lines) {
      if (used.count({subject, allow.rule}) || !is_checked(allow.rule)) continue;
      judged.shown.push_back(Diagnostic{Rule::idle_allow, diagnostics::info(Rule::idle_allow).severity, allow.span,
                                        fmt::format("nothing here needs `allow {}`", diagnostics::info(allow.rule).name),
                                        "Delete the line: it would hide a finding of a later day.", {}, {}, subject});
    }
  }
  return judged;
}

}  // namespace gill::lint
