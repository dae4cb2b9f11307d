#include <fmt/format.h>

#include "base/text.h"
#include "model/figures_table.h"
#include "model/money.h"
#include "model/origin.h"
#include "render/facts/facts_json.h"
#include "render/facts/facts_selection.h"
#include "render/wording/allergen_words.h"
#include "render/wording/numbers.h"
#include "render/wording/statements.h"
#include "render/wording/unfinished.h"
#include "units/money.h"

namespace gill::render {

using analysis::StockId;
using wording::fixed;
using wording::trimmed;
using wording::with_tolerance;

namespace {

class TextWriter {
 public:
  explicit TextWriter(const FactsInput& input) : input_(input) {}

  std::string write() {
    auto selection = select_facts(input_);
    for (auto id : selection.drinks) drink(id);
    for (auto id : selection.preps) prep(id);
    // Without a name asked for, ingredients would bury the rest.
    if (!input_.only.empty())
      for (auto id : selection.ingredients) ingredient(id);
    else if (!selection.ingredients.empty())
      out_ += fmt::format("{} ingredients; `--as json` or `--only NAME` tells of them.\n",
                          selection.ingredients.size());
    if (!selection.drinks.empty() || !selection.preps.empty() || !selection.ingredients.empty())
      out_ += "\n" + wording::evaluated_line + "\n" + wording::shared_equipment_line + "\n";
    return std::move(out_);
  }

 private:
  void title(std::string what, const std::string& name, const std::vector<std::string>& more) {
    for (const auto& word : more)
      if (!word.empty()) what += ", " + word;
    out_ += fmt::format("{} ({})\n", name, what);
  }

  void line(std::string_view label, const std::vector<std::string>& parts) {
    std::vector<std::string> reported;
    for (const auto& part : parts)
      if (!part.empty()) reported.push_back(part);
    if (!reported.empty()) out_ += fmt::format("  {:<11}{}\n", label, base::join(reported, "   "));
  }

  void allergens(const model::Allergens& allergens, bool known) {
    std::vector<std::string> present, possible, unknown;
    for (const auto& route : allergens.routes)
      (route.may ? possible : present).push_back(wording::allergen_words(route.code));
    for (auto id : allergens.unknown) unknown.push_back(input_.specs[id].head.name);
    for (const auto& name : allergens.undeclared) unknown.push_back(name);
    std::vector<std::string> parts;
    if (!present.empty()) parts.push_back("contains " + base::join_with_and(present));
    if (!possible.empty()) parts.push_back("may contain " + base::join_with_and(possible));
    if (!known)
      parts.push_back("not known" + (unknown.empty()
                                         ? fmt::format(": {}", wording::why_not_known(allergens))
                                         : ": nothing is said of " + base::join_with_and(unknown)));
    if (parts.empty()) parts.emplace_back("none declared");
    line("allergens", {base::join(parts, "; ")});
  }

  /// What comes from an animal, or may; nothing where no part tells of any.
  void animals(const model::Origins& origins) {
    std::vector<std::string> parts;
    for (bool may : {false, true}) {
      std::vector<std::string> names;
      for (const auto& route : origins.routes)
        if (route.may == may && model::is_of_animals(route.origin))
          for (auto id : route.via) names.push_back(input_.specs[id].head.name);
      if (!names.empty()) parts.push_back((may ? "may be: " : "") + base::join(names, ", "));
    }
    std::vector<std::string> unknown;
    for (auto id : origins.unknown) unknown.push_back(input_.specs[id].head.name);
    for (const auto& name : origins.undeclared) unknown.push_back(name);
    if (!unknown.empty()) parts.push_back("not known: " + base::join(unknown, ", "));
    if (!parts.empty()) line("animals", {base::join(parts, "; ")});
  }

  std::string cost_words(const std::optional<units::Money>& cost, const std::vector<StockId>& missing,
                         std::string_view of) const {
    if (cost) return units::money_text(*cost) + std::string(of);
    if (input_.facts.currency.empty()) return {};
    std::vector<std::string> names;
    for (auto id : missing) names.push_back(input_.specs[id].head.name);
    return "not known" + (names.empty() ? std::string() : ": no price for " + base::join_with_and(names));
  }

  void drink(analysis::DrinkId id) {
    const auto& drink = input_.specs[id];
    const auto& facts = input_.facts[id];
    title("drink", drink.head.name,
          {drink.family.valid() ? input_.specs[drink.family].head.name : "",
           drink.glass.valid() ? input_.specs[drink.glass].head.name : "",
           facts.serves > 1 ? "serves " + trimmed(facts.serves, 1) + ", figures for one" : ""});
    if (facts.valid)
      drink_figures(facts);
    else
      line("figures", {fmt::format("not worked out: {}", wording::why_not_worked_out(facts.is_empty))});
    allergens(facts.allergens, facts.allergens.known);
    animals(facts.origins);
    out_ += "\n";
  }

  /// `sugar 8.0 ± 0.1 g/100 ml`.
  static std::string words_of(const model::FigureRow& row, double value, double tolerance) {
    std::string words = row.lead.empty() ? std::string() : std::string(row.lead) + " ";
    return words + with_tolerance(value, tolerance, row.places) + model::unit_behind(row);
  }

  /// Alcohol in the units of the house's country; empty where it has none.
  std::string unit_words(const model::DrinkFacts& facts) const {
    auto country = facts.alcohol_units.find(input_.specs.house.alcohol_unit);
    return country == facts.alcohol_units.end()
               ? std::string()
               : fixed(country->second, 1) + " units (" + country->first + ")";
  }

  void drink_figures(const model::DrinkFacts& facts) {
    for (std::string_view name : {"served", "taste", "alcohol", "traces"}) {
      std::vector<std::string> parts;
      for (const auto& figure : model::drink_figures()) {
        auto value = model::value_of(figure, facts);
        if (figure.row.line != name || !value || (figure.is_told && !figure.is_told(facts))) continue;
        parts.push_back(words_of(figure.row, *value, model::tolerance_of(figure, facts)));
        if (figure.row.key == "ethanol_g") parts.push_back(unit_words(facts));
      }
      line(name, parts);
    }
    statements(facts.statements);
    line("cost", {cost_words(facts.cost, facts.without_price, "")});
  }

  /// What a law asks to be said; sulphites are among the allergens.
  void statements(const std::vector<model::Statement>& statements) {
    line("say", {base::join(wording::statement_lines(statements, input_.specs), " ")});
  }

  /// One line of an ingredient's or a prep's figures; what prints as nothing is
  /// left out but for a yield.
  void stock_line(std::string_view name, const model::StockFacts& facts) {
    std::vector<std::string> parts;
    for (const auto& figure : model::stock_figures()) {
      auto value = figure.value(facts);
      bool is_told =
          value && (!figure.is_on_page || figure.row.line.empty() || figure.is_on_page(facts)) &&
          (name == "makes" && figure.row.lead.empty() ? true : !model::prints_as_nothing(figure.row, *value));
      // What a jug, a scale and an instrument show is told with its ±, which says whether a reading is off.
      double tolerance =
          name == "shows" || name == "makes" ? model::tolerance_of(figure, facts).value_or(0) : 0;
      if (figure.row.line == name && is_told) parts.push_back(words_of(figure.row, *value, tolerance));
      if (figure.row.key == "yield_g" && name == "makes" && facts.yield_count)
        parts.push_back(trimmed(*facts.yield_count, 1) + " pieces");
    }
    line(name, parts);
  }

  void prep(StockId id) {
    const auto& prep = input_.specs[id];
    const auto& facts = input_.facts[id];
    title("prep", prep.head.name, {});
    holding(facts, {"makes", "holds", "traces", "shows"});
    out_ += "\n";
  }

  /// What a prep or an ingredient is and holds, in the lines of figures that it has.
  void holding(const model::StockFacts& facts, std::initializer_list<std::string_view> lines) {
    if (facts.valid) {
      for (auto name : lines) stock_line(name, facts);
      statements(facts.statements);
      bool is_liquid = input_.specs[facts.stock].effective_form() == analysis::Form::liquid;
      auto cost = model::unit_cost(facts, is_liquid);
      if (cost && cost->is_piece)
        line("cost", {fmt::format("{} {} each", units::piece_digits(cost->money), cost->money.currency)});
      else
        line("cost", {cost_words(cost ? std::optional(cost->money) : std::nullopt, facts.without_price,
                                 cost ? " " + std::string(cost->words) : "")});
    } else {
      line("figures", {fmt::format("not worked out: {}", wording::why_not_worked_out(facts.is_empty))});
    }
    keeping(facts);
    allergens(facts.allergens, facts.allergens.known);
    animals(facts.origins);
  }

  void keeping(const model::StockFacts& facts) {
    if (!facts.keeps_days) return;
    std::string days = trimmed(*facts.keeps_days, 1) + " d" +
                       (facts.storage ? " " + std::string(analysis::name_of(*facts.storage)) : "");
    line("keeps",
         {facts.is_keeping_stated ? days
                                  : "not said; the shortest-lived of its parts " + days + " by itself"});
  }

  void ingredient(StockId id) {
    const auto& stock = input_.specs[id];
    const auto& facts = input_.facts[id];
    title("ingredient", stock.head.name, {std::string(analysis::name_of(stock.kind))});
    holding(facts, {"holds", "traces"});
    line("source", {stock.head.source});
    out_ += "\n";
  }

  const FactsInput& input_;
  std::string out_;
};

}  // namespace

std::string facts_text(const FactsInput& input) { return TextWriter(input).write(); }

}  // namespace gill::render
