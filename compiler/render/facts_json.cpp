#include "render/facts_json.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "render/facts_selection.h"

namespace gill::render {

using Json = nlohmann::ordered_json;
using spec::StockId;

namespace {

/// Whole numbers print without a decimal point.
Json number(double value) {
  constexpr double exact_whole = 9007199254740992.0;
  if (!std::isfinite(value)) return nullptr;
  if (value == std::floor(value) && std::abs(value) < exact_whole) return static_cast<std::int64_t>(value);
  return value;
}

Json number(const std::optional<double>& value) { return value ? number(*value) : Json(nullptr); }

/// A figure that rests on an amount in error is not known.
Json told(double value, bool sound) { return sound ? number(value) : Json(nullptr); }

Json text_or_null(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }

class FactsWriter {
 public:
  explicit FactsWriter(const FactsInput& input) : input_(input), selection_(select_facts(input)) {}

  std::string run() {
    Json root;
    root["format"] = "gill-facts";
    root["version"] = 1;
    root["house"] = input_.specs.house.head.name;
    root["drinks"] = Json::array();
    for (auto id : selection_.drinks) root["drinks"].push_back(drink(id));
    root["preps"] = Json::array();
    for (auto id : selection_.preps) root["preps"].push_back(prep(id));
    root["ingredients"] = Json::array();
    for (auto id : selection_.ingredients) root["ingredients"].push_back(ingredient(id));
    return root.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
  }

 private:
  void put_place(Json& json, const spec::Head& head) const {
    auto at = declared_at(head, input_.sources);
    json["name"] = head.name;
    json["file"] = at.file;
    json["line"] = at.line;
  }

  static Json figures(const model::Figures& figures, double serves, bool sound) {
    return {{"volume_ml", told(figures.volume_ml * serves, sound)},
            {"mass_g", told(figures.mass_g * serves, sound)},
            {"abv_percent", told(figures.abv_percent, sound)},
            {"sugar_g_per_100ml", told(figures.sugar_g_per_100ml, sound)},
            {"acid_g_per_100ml", told(figures.acid_g_per_100ml, sound)},
            {"density_g_per_ml", told(figures.density_g_per_ml, sound)}};
  }

  void put_allergens(Json& json, const model::Allergens& allergens, bool known) const {
    json["allergens"] = allergens.present();
    json["allergens_may"] = allergens.possible();
    json["allergens_known"] = known;
    Json unknown = Json::array();
    for (auto id : allergens.unknown) unknown.push_back(input_.specs[id].head.name);
    for (const auto& name : allergens.undeclared) unknown.push_back(name);
    json["allergens_not_stated_by"] = std::move(unknown);
  }

  static std::string_view name_of(model::Role role) {
    static constexpr std::string_view names[] = {"amount", "rinse", "top", "float", "mist", "rim", "garnish", "side"};
    return names[static_cast<std::size_t>(role)];
  }

  Json entries(const std::vector<model::Entry>& entries, double serves) const {
    Json list = Json::array();
    auto scaled = [&](const std::optional<double>& value) { return value ? number(*value * serves) : Json(nullptr); };
    for (const auto& entry : entries)
      list.push_back({{"name", entry.name},
                      {"as_written", entry.as_written},
                      {"volume_ml", scaled(entry.volume_ml)},
                      {"mass_g", scaled(entry.mass_g)},
                      {"count", scaled(entry.count)},
                      {"cost", scaled(entry.cost)},
                      {"role", name_of(entry.role)},
                      {"solved", entry.solved},
                      {"optional", entry.optional}});
    return list;
  }

  /// The figures of a serve, or of `serves` of them together.
  void put_drink_figures(Json& json, const spec::Drink& drink, const model::DrinkFacts& facts, double serves) const {
    bool sound = is_sound(drink, facts, input_.specs, input_.facts);
    json["mixed"] = figures(facts.mixed, serves, sound);
    json["served"] = figures(facts.served, serves, sound);
    json["served"]["temperature_c"] = told(facts.served.temperature_c, sound);
    json["served"]["sugar_acid_ratio"] = sound ? number(facts.served.sugar_acid_ratio()) : Json(nullptr);
    json["tolerance"] = {{"abv_percent", told(facts.tolerance.abv_percent, sound)},
                         {"sugar_g_per_100ml", told(facts.tolerance.sugar_g_per_100ml, sound)},
                         {"acid_g_per_100ml", told(facts.tolerance.acid_g_per_100ml, sound)},
                         {"volume_ml", told(facts.tolerance.volume_ml * serves, sound)},
                         {"sugar_acid_ratio", told(facts.tolerance.sugar_acid_ratio, sound)}};
    json["dilution_percent"] = told(facts.dilution_percent, sound);
    json["ethanol_g"] = told(facts.ethanol_g * serves, sound);
    json["energy_kcal"] = told(facts.energy_kcal * serves, sound);
    json["energy_kj"] = told(facts.energy_kj * serves, sound);
    json["alcohol_units"] = Json::object();
    for (const auto& [country, units] : facts.alcohol_units) json["alcohol_units"][country] = told(units * serves, sound);
    json["glass_fill_percent"] = sound ? number(facts.glass_fill_percent) : Json(nullptr);
    put_allergens(json, facts.allergens, allergens_known(drink, facts, input_.specs));
    json["cost"] = {{"amount", facts.cost && sound ? number(*facts.cost * serves) : Json(nullptr)},
                    {"currency", text_or_null(input_.facts.currency)}};
    json["ingredients"] = entries(facts.entries, serves);
  }

  Json drink(spec::DrinkId id) const {
    const auto& drink = input_.specs[id];
    const auto& facts = input_.facts[id];
    Json json;
    put_place(json, drink.head);
    json["family"] = drink.family.valid() ? Json(input_.specs[drink.family].head.name) : Json(nullptr);
    json["glass"] = drink.glass.valid() ? Json(input_.specs[drink.glass].head.name) : Json(nullptr);
    json["serves"] = number(facts.serves);
    put_drink_figures(json, drink, facts, 1);
    json["alternatives"] = Json::array();
    for (const auto& alternative : facts.alternatives)
      json["alternatives"].push_back({{"instead_of", input_.specs[alternative.instead_of].head.name},
                                      {"stand_in", input_.specs[alternative.stand_in].head.name},
                                      {"served", figures(alternative.served, 1, true)}});
    json["colour"] = text_or_null(facts.colour);
    json["status"] = name_of(drink.status);
    json["sound"] = is_sound(drink, facts, input_.specs, input_.facts);
    if (facts.serves > 1) {
      Json whole;
      put_drink_figures(whole, drink, facts, facts.serves);
      json["whole"] = std::move(whole);
    }
    return json;
  }

  static std::string_view name_of(spec::Status status) {
    static constexpr std::string_view names[] = {"approved", "draft", "retired"};
    return names[static_cast<std::size_t>(status)];
  }

  static std::optional<double> cost_per_l(const model::StockFacts& facts) {
    if (!facts.cost_per_g) return std::nullopt;
    return *facts.cost_per_g * facts.density_g_per_ml * 1000;
  }

  Json prep(StockId id) const {
    const auto& prep = input_.specs[id];
    const auto& facts = input_.facts[id];
    bool sound = is_sound(prep, facts, input_.specs, input_.facts);
    Json json;
    put_place(json, prep.head);
    json["yield_ml"] = told(facts.yield_ml, sound);
    json["yield_g"] = told(facts.yield_g, sound);
    json["yield_count"] = number(facts.yield_count);
    json["loss_percent"] = told(facts.loss_percent, sound);
    json["abv_percent"] = told(facts.abv_percent, sound);
    json["sugar_g_per_100ml"] = told(facts.sugar_g_per_100ml, sound);
    json["brix"] = told(facts.brix, sound);
    json["acid_g_per_100ml"] = told(facts.acid_g_per_100ml, sound);
    json["density_g_per_ml"] = told(facts.density_g_per_ml, sound);
    json["fat_g_per_100ml"] = told(facts.fat_g_per_100ml, sound);
    put_allergens(json, facts.allergens, allergens_known(prep, facts, input_.specs));
    json["cost_per_l"] = sound ? number(cost_per_l(facts)) : Json(nullptr);
    json["currency"] = text_or_null(input_.facts.currency);
    json["keeps_days"] = number(facts.keeps_days);
    json["storage"] = facts.storage ? Json(spec::name_of(*facts.storage)) : Json(nullptr);
    json["ph"] = number(prep.ph);
    json["from_library"] = prep.head.from_library;
    json["sound"] = sound;
    json["ingredients"] = entries(facts.entries, 1);
    return json;
  }

  Json ingredient(StockId id) const {
    const auto& stock = input_.specs[id];
    const auto& facts = input_.facts[id];
    bool sound = is_sound(stock, facts, input_.specs, input_.facts);
    Json json;
    put_place(json, stock.head);
    json["kind"] = stock.kind == spec::StockKind::unstated ? Json(nullptr) : Json(spec::name_of(stock.kind));
    json["abv_percent"] = told(facts.abv_percent, sound);
    json["sugar_g_per_100ml"] = told(facts.sugar_g_per_100ml, sound);
    json["acid_g_per_100ml"] = told(facts.acid_g_per_100ml, sound);
    json["density_g_per_ml"] = told(facts.density_g_per_ml, sound);
    json["fat_g_per_100ml"] = told(facts.fat_g_per_100ml, sound);
    put_allergens(json, facts.allergens, allergens_known(stock, facts, input_.specs));
    json["source"] = stock.head.source;
    json["cost_per_l"] = sound ? number(cost_per_l(facts)) : Json(nullptr);
    json["currency"] = text_or_null(input_.facts.currency);
    json["keeps_days"] = number(facts.keeps_days);
    json["storage"] = facts.storage ? Json(spec::name_of(*facts.storage)) : Json(nullptr);
    json["ph"] = number(stock.ph);
    json["from_library"] = stock.head.from_library;
    json["sound"] = sound;
    return json;
  }

  const FactsInput& input_;
  FactsSelection selection_;
};

}  // namespace

std::string facts_json(const FactsInput& input) { return FactsWriter(input).run(); }

}  // namespace gill::render
