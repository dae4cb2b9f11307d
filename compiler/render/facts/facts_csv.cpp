#include <algorithm>
#include <iterator>
#include <variant>

#include "base/csv_writer.h"
#include "base/text.h"
#include "model/allergens.h"
#include "model/figures_table.h"
#include "model/money.h"
#include "render/facts/facts_json.h"
#include "render/facts/facts_selection.h"

namespace gill::render {

using analysis::StockId;

namespace {

/// The columns that are out, in their order, which spreadsheets count on;
/// figures that came later stand behind them. A row leaves out what its kind
/// does not have.
constexpr std::string_view known_columns[] = {"what",
                                              "name",
                                              "file",
                                              "line",
                                              "kind",
                                              "family",
                                              "glass",
                                              "serves",
                                              "volume_ml",
                                              "mass_g",
                                              "abv_percent",
                                              "sugar_g_per_100ml",
                                              "brix",
                                              "acid_g_per_100ml",
                                              "sugar_acid_ratio",
                                              "density_g_per_ml",
                                              "temperature_c",
                                              "dilution_percent",
                                              "ethanol_g",
                                              "energy_kcal",
                                              "energy_kj",
                                              "glass_fill_percent",
                                              "loss_percent",
                                              "allergens",
                                              "allergens_may",
                                              "allergens_known",
                                              "cost",
                                              "cost_per_l",
                                              "currency",
                                              "keeps_days",
                                              "storage",
                                              "sound",
                                              "yield_count",
                                              "fat_g_per_100ml"};

/// A prep's yield stands in the columns of a drink's volume and weight.
std::string_view column_of(const model::StockFigure& figure) {
  if (figure.row.key == "yield_ml") return "volume_ml";
  return figure.row.key == "yield_g" ? "mass_g" : figure.row.key;
}

const std::vector<std::string_view>& columns() {
  static const auto all = [] {
    std::vector<std::string_view> list(std::begin(known_columns), std::end(known_columns));
    auto add = [&](std::string_view key) {
      if (std::find(list.begin(), list.end(), key) == list.end()) list.push_back(key);
    };
    for (const auto& figure : model::drink_figures()) add(figure.row.key);
    for (const auto& figure : model::stock_figures()) add(column_of(figure));
    return list;
  }();
  return all;
}

class Row {
 public:
  void put(std::string_view column, std::string words) { at(column) = std::move(words); }
  void put(std::string_view column, std::optional<double> number) {
    if (number) at(column) = *number;
  }
  void put(std::string_view column, const std::optional<units::Money>& money) {
    if (money) at(column) = base::to_double(money->amount);
  }
  void write_to(base::CsvWriter& csv) const {
    for (const auto& cell : cells_)
      if (const auto* number = std::get_if<double>(&cell))
        csv.unrounded(*number);
      else
        csv.text(std::get<std::string>(cell));
    for (const auto& words : allergens_) csv.text(words);
    csv.end_row();
  }
  /// A cell for each heading of the house's allergen list.
  void put_allergens(const model::Allergens& allergens, bool known, std::span<const std::string_view> list) {
    for (auto heading : list) {
      std::string_view words = known ? "none declared" : "not known";
      for (const auto& route : allergens.routes)
        if (model::is_under(route.code, heading) && words != "yes") words = route.may ? "may" : "yes";
      allergens_.emplace_back(words);
    }
  }

 private:
  using Cell = std::variant<std::string, double>;
  Cell& at(std::string_view column) {
    const auto& all = columns();
    return cells_[static_cast<std::size_t>(std::find(all.begin(), all.end(), column) - all.begin())];
  }
  std::vector<Cell> cells_ = std::vector<Cell>(columns().size());
  std::vector<std::string> allergens_;
};

class FactsTable {
 public:
  explicit FactsTable(const FactsInput& input)
      : input_(input), list_(model::allergen_list(input.specs.house.allergen_list)) {}

  std::string write() {
    std::vector<std::string> allergen_columns;
    for (auto heading : list_) allergen_columns.push_back("allergen:" + std::string(heading));
    std::vector<std::string_view> header = columns();
    header.insert(header.end(), allergen_columns.begin(), allergen_columns.end());
    base::CsvWriter csv(header);
    auto selection = select_facts(input_);
    for (auto id : selection.drinks) drink(id).write_to(csv);
    for (auto id : selection.preps) stock(id, "prep").write_to(csv);
    for (auto id : selection.ingredients) stock(id, "ingredient").write_to(csv);
    return csv.str();
  }

 private:
  Row start(std::string_view what, const analysis::Head& head, const model::Allergens& allergens, bool known,
            bool valid) const {
    Row row;
    auto at = declared_at(head, input_.sources);
    row.put("what", std::string(what));
    row.put("name", head.name);
    row.put("file", at.file);
    row.put("line", static_cast<double>(at.line));
    row.put("allergens", base::join(allergens.present(), "; "));
    row.put("allergens_may", base::join(allergens.possible(), "; "));
    row.put("allergens_known", known ? "true" : "false");
    row.put_allergens(allergens, known, list_);
    row.put("currency", input_.facts.currency);
    row.put("sound", valid ? "true" : "false");
    return row;
  }

  Row drink(analysis::DrinkId id) const {
    const auto& drink = input_.specs[id];
    const auto& facts = input_.facts[id];
    bool valid = facts.valid;
    Row row = start("drink", drink.head, facts.allergens, facts.allergens.known, valid);
    if (drink.family.valid()) row.put("family", input_.specs[drink.family].head.name);
    if (drink.glass.valid()) row.put("glass", input_.specs[drink.glass].head.name);
    row.put("serves", facts.serves);
    if (!valid) return row;
    for (const auto& figure : model::drink_figures()) row.put(figure.row.key, model::value_of(figure, facts));
    row.put("cost", facts.cost);
    return row;
  }

  Row stock(StockId id, std::string_view what) const {
    const auto& stock = input_.specs[id];
    const auto& facts = input_.facts[id];
    bool valid = facts.valid;
    Row row = start(what, stock.head, facts.allergens, facts.allergens.known, valid);
    if (stock.kind != analysis::StockKind::unstated)
      row.put("kind", std::string(analysis::name_of(stock.kind)));
    row.put("keeps_days", facts.keeps_days);
    if (facts.storage) row.put("storage", std::string(analysis::name_of(*facts.storage)));
    if (!valid) return row;
    for (const auto& figure : model::stock_figures())
      if (stock.is_prep || !figure.is_of_preps_only) row.put(column_of(figure), figure.value(facts));
    row.put("cost_per_l", model::cost_per_l(facts));
    return row;
  }

  const FactsInput& input_;
  std::span<const std::string_view> list_;
};

}  // namespace

std::string facts_csv(const FactsInput& input) { return FactsTable(input).write(); }

}  // namespace gill::render
