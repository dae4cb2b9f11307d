#include "lint/hazards.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "base/any_of.h"
#include "base/text.h"
#include "lint/parts.h"
#include "lint/parts_of_judging.h"

namespace gill::lint {

using analysis::StockKind;
using diagnostics::Rule;

namespace {

bool is_letter(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) || (static_cast<unsigned char>(c) & 0x80);
}

bool names_it(std::string_view folded_text, const std::vector<std::string>& folded_names) {
  return std::any_of(folded_names.begin(), folded_names.end(),
                     [&](const std::string& name) { return has_words(folded_text, name); });
}

/// The names of a line of hazards.def, folded once: every stock of the house is held against all of them.
std::vector<std::string> folded(std::string_view names) {
  std::vector<std::string> all;
  while (!names.empty()) {
    auto bar = names.find('|');
    all.push_back(base::fold_name(names.substr(0, bar)));
    names = bar == std::string_view::npos ? std::string_view() : names.substr(bar + 1);
  }
  return all;
}

/// What grows, or is bought dry: not a bottle whose maker has answered for it.
bool may_be_a_plant(const analysis::Stock& stock) {
  if (stock.kind == StockKind::tea_coffee) return true;
  return !stock.is_prep &&
         base::is_any_of(stock.kind, {StockKind::unstated, StockKind::fruit, StockKind::herb,
                                      StockKind::spice, StockKind::garnish, StockKind::additive});
}

/// A bottle that is drunk: a word of its brand's name says nothing of what is in it.
bool is_bottled_drink(const analysis::Stock& stock) {
  return !stock.is_prep &&
         base::is_any_of(stock.kind,
                         {StockKind::spirit, StockKind::liqueur, StockKind::fortified_wine, StockKind::wine,
                          StockKind::sparkling, StockKind::beer, StockKind::bitters, StockKind::mixer});
}

template <typename Case>
void report_lines(Rule rule, const Case& build, const analysis::Recipe& recipe, Reporter& report) {
  auto add = [&](source::Span span, const std::string& name, const Hazard& hazard) {
    report
        .add(span, fmt::format("`{}` {}", name, hazard.what),
             fmt::format("Leave it out, or have what you do with it looked at first. {} (Source: {}.)",
                         who_decides, hazard.source))
        .severity = hazard.severity;
  };
  for (const auto& entry : build.facts.entries) {
    const auto& stock = build.house.specs[entry.use.stock];
    if (const auto* hazard = find_hazard(rule, build.house, entry.use.stock))
      add(entry.role == model::Role::amount ? build.span_of_amount(entry.index)
                                            : build.span_of_step(entry.index),
          stock.head.name, *hazard);
  }
  // Steps in words and garnishes that nothing declares can only be read.
  for (std::size_t i = 0; i < recipe.steps.size(); ++i) {
    const auto& step = recipe.steps[i];
    const Hazard* hazard = step.words.empty() ? nullptr : find_hazard(rule, step.words);
    if (hazard) add(build.span_of_step(i), step.words, *hazard);
  }
}

}  // namespace

bool has_words(std::string_view text, std::string_view words) {
  for (auto at = text.find(words); at != std::string_view::npos; at = text.find(words, at + 1)) {
    bool starts = at == 0 || !is_letter(text[at - 1]);
    std::size_t end = at + words.size();
    if (starts && (end == text.size() || !is_letter(text[end]))) return true;
  }
  return false;
}

const std::vector<Hazard>& all_hazards() {
  using diagnostics::Severity;
  using enum Hazard::Where;
  static const std::vector<Hazard> hazards = {
#define HAZARD(rule, severity, where, names, what, source) \
  {Rule::rule, Severity::severity, where, folded(names), what, source},
#include "lint/hazards.def"
#undef HAZARD
  };
  return hazards;
}

const Hazard* find_hazard(Rule rule, std::string_view text) {
  std::string folded = base::fold_name(text);
  for (const auto& hazard : all_hazards())
    if (hazard.rule == rule && names_it(folded, hazard.names)) return &hazard;
  return nullptr;
}

namespace {

void add_hazards(const analysis::Stock& stock, const std::string& folded, std::vector<const Hazard*>& found) {
  for (const auto& hazard : all_hazards()) {
    bool known = std::any_of(found.begin(), found.end(),
                             [&](const Hazard* other) { return other->rule == hazard.rule; });
    if (known || (hazard.where == Hazard::Where::plants && !may_be_a_plant(stock))) continue;
    bool is_whole_name = std::find(hazard.names.begin(), hazard.names.end(), folded) != hazard.names.end();
    if (hazard.rule == Rule::caustic && is_bottled_drink(stock) && !is_whole_name) continue;
    if (names_it(folded, hazard.names)) found.push_back(&hazard);
  }
}

}  // namespace

std::vector<const Hazard*> hazards_of(const analysis::Stock& stock) {
  std::vector<const Hazard*> found;
  add_hazards(stock, base::fold_name(stock.head.name), found);
  for (const auto& name : stock.aka) add_hazards(stock, base::fold_name(name), found);
  return found;
}

std::vector<std::vector<const Hazard*>> index_hazards(const analysis::Specs& specs) {
  std::vector<std::vector<const Hazard*>> index;
  for (const auto& stock : specs.stock) index.push_back(hazards_of(stock));
  return index;
}

const Hazard* find_hazard(Rule rule, const House& house, analysis::StockId stock) {
  for (const Hazard* hazard : house.hazards[stock.index()])
    if (hazard->rule == rule) return hazard;
  return nullptr;
}

void report_hazards(Rule rule, const DrinkCase& drink, Reporter& report) {
  report_lines(rule, drink, drink.drink.recipe, report);
}
void report_hazards(Rule rule, const PrepCase& prep, Reporter& report) {
  report_lines(rule, prep, prep.prep.recipe, report);
}

}  // namespace gill::lint
