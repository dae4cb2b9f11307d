#include <fmt/format.h>

#include <cmath>

#include "base/text.h"
#include "render/facts_json.h"
#include "render/facts_selection.h"

namespace gill::render {

using spec::StockId;

namespace {

/// The columns, in order; a row leaves out what its kind does not have.
constexpr std::string_view columns[] = {
    "what", "name", "file", "line", "kind", "family", "glass", "serves", "volume_ml", "mass_g", "abv_percent",
    "sugar_g_per_100ml", "brix", "acid_g_per_100ml", "sugar_acid_ratio", "density_g_per_ml", "temperature_c",
    "dilution_percent", "ethanol_g", "energy_kcal", "energy_kj", "glass_fill_percent", "loss_percent", "allergens",
    "allergens_may", "allergens_known", "cost", "cost_per_l", "currency", "keeps_days", "storage", "sound"};

std::string number(double value) { return std::isfinite(value) ? fmt::format("{}", value == 0 ? 0.0 : value) : std::string(); }
std::string number(const std::optional<double>& value) { return value ? number(*value) : std::string(); }

/// A text that a spreadsheet would take for a formula gets an apostrophe in front.
std::string as_text(const std::string& text) {
  bool is_formula = !text.empty() && std::string_view("=+-@\t").find(text[0]) != std::string_view::npos;
  return is_formula ? "'" + text : text;
}

std::string quoted(const std::string& field) {
  if (field.find_first_of(",\"\n\r") == std::string::npos) return field;
  std::string result = "\"";
  for (char c : field) result += c == '"' ? std::string("\"\"") : std::string(1, c);
  return result + "\"";
}

class Row {
 public:
  void put(std::string_view column, std::string value) {
    for (std::size_t i = 0; i < std::size(columns); ++i)
      if (columns[i] == column) fields_[i] = std::move(value);
  }
  std::string line() const {
    std::string result;
    for (std::size_t i = 0; i < std::size(columns); ++i) result += (i > 0 ? "," : "") + quoted(fields_[i]);
    return result + "\n";
  }

 private:
  std::string fields_[std::size(columns)];
};

class CsvWriter {
 public:
  explicit CsvWriter(const FactsInput& input) : input_(input) {}

  std::string run() {
    std::string out;
    for (auto column : columns) out += (out.empty() ? "" : ",") + std::string(column);
    out += "\n";
    auto selection = select_facts(input_);
    for (auto id : selection.drinks) out += drink(id);
    for (auto id : selection.preps) out += stock(id, "prep");
    for (auto id : selection.ingredients) out += stock(id, "ingredient");
    return out;
  }

 private:
  Row start(std::string_view what, const spec::Head& head, const model::Allergens& allergens, bool known, bool sound) const {
    Row row;
    auto at = declared_at(head, input_.sources);
    row.put("what", std::string(what));
    row.put("name", as_text(head.name));
    row.put("file", as_text(at.file));
    row.put("line", std::to_string(at.line));
    row.put("allergens", as_text(base::join(allergens.present(), "; ")));
    row.put("allergens_may", as_text(base::join(allergens.possible(), "; ")));
    row.put("allergens_known", known ? "true" : "false");
    row.put("currency", input_.facts.currency);
    row.put("sound", sound ? "true" : "false");
    return row;
  }

  std::string drink(spec::DrinkId id) const {
    const auto& drink = input_.specs[id];
    const auto& facts = input_.facts[id];
    bool sound = is_sound(drink, facts, input_.specs, input_.facts);
    Row row = start("drink", drink.head, facts.allergens, allergens_known(drink, facts, input_.specs), sound);
    if (drink.family.valid()) row.put("family", as_text(input_.specs[drink.family].head.name));
    if (drink.glass.valid()) row.put("glass", as_text(input_.specs[drink.glass].head.name));
    row.put("serves", number(facts.serves));
    if (!sound) return row.line();
    row.put("volume_ml", number(facts.served.volume_ml));
    row.put("mass_g", number(facts.served.mass_g));
    row.put("abv_percent", number(facts.served.abv_percent));
    row.put("sugar_g_per_100ml", number(facts.served.sugar_g_per_100ml));
    row.put("acid_g_per_100ml", number(facts.served.acid_g_per_100ml));
    row.put("sugar_acid_ratio", number(facts.served.sugar_acid_ratio()));
    row.put("density_g_per_ml", number(facts.served.density_g_per_ml));
    row.put("temperature_c", number(facts.served.temperature_c));
    row.put("dilution_percent", number(facts.dilution_percent));
    row.put("ethanol_g", number(facts.ethanol_g));
    row.put("energy_kcal", number(facts.energy_kcal));
    row.put("energy_kj", number(facts.energy_kj));
    row.put("glass_fill_percent", number(facts.glass_fill_percent));
    row.put("cost", number(facts.cost));
    return row.line();
  }

  std::string stock(StockId id, std::string_view what) const {
    const auto& stock = input_.specs[id];
    const auto& facts = input_.facts[id];
    bool sound = is_sound(stock, facts, input_.specs, input_.facts);
    Row row = start(what, stock.head, facts.allergens, allergens_known(stock, facts, input_.specs), sound);
    if (stock.kind != spec::StockKind::unstated) row.put("kind", std::string(spec::name_of(stock.kind)));
    row.put("keeps_days", number(facts.keeps_days));
    if (facts.storage) row.put("storage", std::string(spec::name_of(*facts.storage)));
    if (!sound) return row.line();
    if (stock.is_prep) {
      row.put("volume_ml", number(facts.yield_ml));
      row.put("mass_g", number(facts.yield_g));
      row.put("loss_percent", number(facts.loss_percent));
      row.put("brix", number(facts.brix));
    }
    row.put("abv_percent", number(facts.abv_percent));
    row.put("sugar_g_per_100ml", number(facts.sugar_g_per_100ml));
    row.put("acid_g_per_100ml", number(facts.acid_g_per_100ml));
    row.put("density_g_per_ml", number(facts.density_g_per_ml));
    if (facts.cost_per_g) row.put("cost_per_l", number(*facts.cost_per_g * facts.density_g_per_ml * 1000));
    return row.line();
  }

  const FactsInput& input_;
};

}  // namespace

std::string facts_csv(const FactsInput& input) { return CsvWriter(input).run(); }

}  // namespace gill::render
