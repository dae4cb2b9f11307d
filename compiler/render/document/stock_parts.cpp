#include "render/document/stock_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "model/money.h"
#include "render/document/shared_parts.h"
#include "render/wording/measures.h"
#include "render/wording/numbers.h"
#include "units/money.h"

namespace gill::render::document {

using analysis::StockId;

namespace {

/// Links to those that have a page; `without` is in the order of the table.
template <typename Id>
std::vector<Run> links(const BookIndex& index, const std::vector<Id>& ids, const std::vector<Id>& without) {
  std::vector<Run> runs;
  for (auto id : ids)
    if (!index.path_of(id).empty() && !std::binary_search(without.begin(), without.end(), id))
      runs.push_back(index.link_to(id));
  return runs;
}

/// More links than a person reads; what most things use is told by number.
constexpr std::size_t max_links = 200;

void add_links(FactList& facts, const std::string& term, std::vector<Run> runs) {
  if (runs.empty()) return;
  std::size_t left_out = runs.size() > max_links ? runs.size() - max_links : 0;
  runs.resize(runs.size() - left_out);
  Run all = joined(runs, ", ");
  if (left_out > 0) all.plain(fmt::format(" and {} more", left_out));
  facts.facts.push_back({term, {std::move(all)}});
}

}  // namespace

std::vector<Block> stock_notices(const BookIndex& index, StockId id, bool valid) {
  const auto& stock = index.specs()[id];
  const auto& facts = index.facts()[id];
  std::vector<Block> blocks;
  auto errors = error_notice(index, id);
  if (!errors.blocks.empty()) blocks.push_back(std::move(errors));
  blocks.push_back(
      allergens_notice(index, facts.allergens, facts.allergens.known, stock.recipe, &facts.origins));
  if (valid) add_statements(blocks, index, facts.statements);
  return blocks;
}

std::vector<Block> used_in(const BookIndex& index, StockId id) {
  const Users& near = index.usage().direct(id);
  Users all = index.usage().all(id);
  FactList facts;
  add_links(facts, "Drinks", links(index, near.drinks, {}));
  add_links(facts, "Preps", links(index, near.preps, {}));
  add_links(facts, "Through preps, in drinks", links(index, all.drinks, near.drinks));
  add_links(facts, "Through preps, in preps", links(index, all.preps, near.preps));
  std::vector<Block> blocks;
  if (!facts.facts.empty()) blocks.push_back(std::move(facts));
  return blocks;
}

FactList composition_facts(const BookIndex& index, StockId id, bool valid) {
  const auto& stock = index.specs()[id];
  const auto& facts = index.facts()[id];
  FactList list;
  if (!valid) {
    list.facts.push_back({"Figures", {Run("not worked out: there is an error in it")}});
    return list;
  }
  for (const auto* figure : model::on_page(model::stock_figures())) {
    auto value = figure->value(facts);
    auto computed = model::computed_of(*figure, facts);
    bool is_told = figure->is_on_page ? figure->is_on_page(facts)
                                      : value && !model::prints_as_nothing(figure->row, *value);
    if (!value || (!is_told && !computed)) continue;
    Run run;
    // A figure that is called after its unit says it once.
    std::string unit(base::lower_ascii(figure->row.term) == figure->row.unit ? "" : figure->row.unit);
    run.number(
        wording::with_tolerance(*value, model::tolerance_of(*figure, facts).value_or(0), figure->row.places),
        unit);
    if (computed)
      run.plain(", measured (")
          .number(wording::fixed(*computed, figure->row.places), unit)
          .plain(" by what goes in)");
    list.facts.push_back({std::string(figure->row.term), {std::move(run)}});
  }
  auto add = [&](const std::string& term, double value, const std::string& unit) {
    if (std::abs(value) >= 0.05) list.facts.push_back({term, {Run().number(wording::fixed(value, 1), unit)}});
  };
  if (stock.ph) add("pH, measured", *stock.ph, "");
  add("Gas", facts.fizz_vol, "vol");
  return list;
}

Run cost_words(const BookIndex& index, StockId id, bool valid) {
  const auto& facts = index.facts()[id];
  Run run;
  if (index.facts().currency.empty()) return run;
  if (!valid) return run.plain("not worked out");
  if (!facts.cost_per_g) {
    run.plain("not known");
    std::vector<Run> missing;
    for (auto part : facts.without_price)
      if (part != id) missing.push_back(index.link_to(part));
    return missing.empty() ? run : run.plain(": no price for ").append(joined_with_and(missing));
  }
  bool liquid = index.specs()[id].effective_form() == analysis::Form::liquid;
  auto cost = model::unit_cost(facts, liquid);
  if (!cost) return run.plain("not known");
  return run
      .number(cost->is_piece ? units::piece_digits(cost->money) : units::money_digits(cost->money),
              cost->money.currency)
      .plain(" " + std::string(cost->words));
}

Run keeping_words(const analysis::Keeps& keeps, const units::UnitTable& units) {
  return Run(wording::text_of(keeps.duration, units) + ", " + std::string(analysis::name_of(keeps.storage)));
}

Run in_columns(const BookIndex& index, double volume_ml, const std::vector<units::UnitId>& show) {
  Run run;
  for (auto id : show) {
    const auto& unit = index.units()[id];
    if (unit.kind != units::Kind::volume) continue;
    auto measure = wording::measure_in(volume_ml, unit);
    if (!run.empty()) run.plain(", ");
    run.number(measure.number, measure.unit);
  }
  return run;
}

}  // namespace gill::render::document
