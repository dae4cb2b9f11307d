#include "render/facts/facts_json.h"

#include "base/json.h"
#include "model/allergens.h"
#include "model/figures_table.h"
#include "model/money.h"
#include "model/origin.h"
#include "model/prep_readings.h"
#include "render/facts/facts_selection.h"
#include "render/wording/statements.h"

namespace gill::render {

using analysis::StockId;
using base::Json;
using base::number_or_null;
using base::text_or_null;

namespace {

/// So many times a sum of money.
Json number(const std::optional<units::Money>& money, double times) {
  return money ? Json(base::to_double(money->amount * model::decimal_of(times))) : Json(nullptr);
}

/// A figure that rests on an amount in error is not known.
Json if_valid(double value, bool valid) { return valid ? Json(value) : Json(nullptr); }

class FactsWriter {
 public:
  explicit FactsWriter(const FactsInput& input) : input_(input), selection_(select_facts(input)) {}

  std::string write() {
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
    return base::json_text(std::move(root));
  }

 private:
  void put_place(Json& json, const analysis::Head& head) const {
    auto at = declared_at(head, input_.sources);
    json["name"] = head.name;
    json["file"] = at.file;
    json["line"] = at.line;
  }

  /// Figures of a liquid; of so many serves together.
  static Json figures(const model::Figures& figures, double serves, bool valid, bool is_served) {
    Json json;
    for (const auto& figure : model::drink_figures())
      if (figure.of_liquid && (is_served || !figure.is_served_only))
        json[std::string(figure.row.key)] =
            scaled(figure.of_liquid(figures), figure.grows ? serves : 1, valid);
    return json;
  }

  static Json tolerances(const model::Tolerance& tolerance, double serves, bool valid) {
    Json json;
    for (const auto& figure : model::drink_figures())
      if (figure.tolerance)
        json[std::string(figure.row.key)] =
            scaled(tolerance.*figure.tolerance, figure.grows ? serves : 1, valid);
    return json;
  }

  static Json scaled(const std::optional<double>& value, double times, bool valid) {
    return value && valid ? Json(*value * times) : Json(nullptr);
  }

  void put_stock_figures(Json& json, const analysis::Stock& stock, const model::StockFacts& facts,
                         bool valid) const {
    for (const auto& figure : model::stock_figures())
      if (stock.is_prep || !figure.is_of_preps_only)
        json[std::string(figure.row.key)] = scaled(figure.value(facts), 1, valid);
    Json tolerance = Json::object();
    for (const auto& figure : model::stock_figures())
      if ((stock.is_prep || !figure.is_of_preps_only) && (figure.tolerance || figure.relative_tolerance))
        tolerance[std::string(figure.row.key)] = scaled(model::tolerance_of(figure, facts), 1, valid);
    json["tolerance"] = std::move(tolerance);
  }

  void put_allergens(Json& json, const model::Allergens& allergens, bool known) const {
    json["allergens"] = allergens.present();
    json["allergens_may"] = allergens.possible();
    json["allergens_known"] = known;
    Json unknown = Json::array();
    for (auto id : allergens.unknown) unknown.push_back(input_.specs[id].head.name);
    for (const auto& name : allergens.undeclared) unknown.push_back(name);
    auto list = model::allergen_list(input_.specs.house.allergen_list);
    Json outside = Json::array();
    for (const auto& route : allergens.routes)
      if (model::place_on(list, route.code) == list.size()) outside.push_back(route.code);
    // Named by courtesy, or because the house cares for it: coconut is on neither the EU's list nor the UK's.
    json["allergens_outside_the_list"] = std::move(outside);
    json["allergens_not_stated_by"] = std::move(unknown);
  }

  /// Where it comes from, and what follows for a diet: true, false, or null where something does not say.
  void put_origins(Json& json, const model::Origins& origins) const {
    Json sure = Json::array(), possible = Json::array(), unknown = Json::array();
    for (const auto& route : origins.routes)
      (route.may ? possible : sure).push_back(analysis::name_of(route.origin));
    for (auto id : origins.unknown) unknown.push_back(input_.specs[id].head.name);
    for (const auto& name : origins.undeclared) unknown.push_back(name);
    json["origins"] = std::move(sure);
    json["origins_may"] = std::move(possible);
    json["origins_known"] = origins.known;
    json["origins_not_stated_by"] = std::move(unknown);
    auto answer = [](model::Answer given) {
      return given == model::Answer::not_known ? Json() : Json(given == model::Answer::yes);
    };
    json["vegan"] = answer(model::vegan(origins));
    json["vegetarian"] = answer(model::vegetarian(origins));
  }

  void put_statements(Json& json, const std::vector<model::Statement>& statements) const {
    Json list = Json::array();
    for (const auto& statement : statements) {
      Json by = Json::array();
      for (auto id : statement.via) by.push_back(input_.specs[id].head.name);
      list.push_back({{"statement", wording::code_of(statement.kind)},
                      {"mg_per_l", statement.mg_per_l},
                      {"by", std::move(by)},
                      {"words", wording::words_of(statement, input_.specs)}});
    }
    json["statements"] = std::move(list);
  }

  /// What was measured of a prep, beside what would have been shown.
  static Json readings(const model::StockFacts& facts) {
    Json list = Json::array();
    for (const auto& reading : facts.readings)
      list.push_back({{"of", model::name_of(reading.of)},
                      {"measured", reading.measured},
                      {"computed", reading.computed},
                      {"computed_tolerance", reading.computed_tolerance},
                      {"instrument_would_show", number_or_null(reading.shown)},
                      {"unit", text_or_null(std::string(reading.unit))}});
    return list;
  }

  static std::string_view name_of(model::Role role) {
    static constexpr std::string_view names[] = {"amount", "rinse", "top",     "float",
                                                 "mist",   "rim",   "garnish", "side"};
    static_assert(std::size(names) == static_cast<std::size_t>(model::Role::side) + 1);
    return names[static_cast<std::size_t>(role)];
  }

  Json entries(const std::vector<model::Entry>& entries, double serves) const {
    Json list = Json::array();
    auto scaled = [&](const std::optional<double>& value) {
      return value ? Json(*value * serves) : Json(nullptr);
    };
    for (const auto& entry : entries)
      list.push_back({{"name", entry.name},
                      {"as_written", entry.as_written},
                      {"volume_ml", scaled(entry.volume_ml)},
                      {"mass_g", scaled(entry.mass_g)},
                      {"count", scaled(entry.count)},
                      {"cost", number(entry.cost, serves)},
                      {"role", name_of(entry.role)},
                      {"solved", entry.solved},
                      {"optional", entry.optional}});
    return list;
  }

  /// The drink untouched on its ice: an estimate.
  static Json served_later(const model::DrinkFacts& facts, double serves, bool valid) {
    Json list = Json::array();
    if (!valid) return list;
    for (const auto& later : facts.served_later) {
      Json row = {{"minutes", later.minutes}};
      row.update(figures(later.figures, serves, valid, true));
      row["ice_g"] = later.ice_g * serves;
      list.push_back(std::move(row));
    }
    return list;
  }

  /// The drink's ice as a word for programs, and which ice that is.
  Json served_on(const model::ServedIce& ice) const {
    return {{"ice", name_of(ice.kind)},
            {"name", ice.use.ice.valid() ? Json(input_.specs[ice.use.ice].head.name) : Json(nullptr)}};
  }

  static std::string_view name_of(model::ServedIce::Kind kind) {
    switch (kind) {
      case model::ServedIce::Kind::none:
        return "none";
      case model::ServedIce::Kind::ice:
        return "glass";
      case model::ServedIce::Kind::shakers:
        return "shaker";
      case model::ServedIce::Kind::blended:
        return "blended";
    }
    return {};
  }

  /// The figures of a serve, or of `serves` of them together.
  void put_drink_figures(Json& json, const model::DrinkFacts& facts, double serves) const {
    bool valid = facts.valid;
    json["mixed"] = figures(facts.mixed, serves, valid, false);
    json["served"] = figures(facts.served, serves, valid, true);
    json["tolerance"] = tolerances(facts.tolerance, serves, valid);
    json["written_tolerance"] = tolerances(facts.written_tolerance, serves, valid);
    for (const auto& figure : model::drink_figures())
      if (figure.of_drink)
        json[std::string(figure.row.key)] = scaled(figure.of_drink(facts), figure.grows ? serves : 1, valid);
    json["alcohol_units"] = Json::object();
    for (const auto& [country, units] : facts.alcohol_units)
      json["alcohol_units"][country] = if_valid(units * serves, valid);
    json["served_later"] = served_later(facts, serves, valid);
    put_statements(json, facts.statements);
    put_allergens(json, facts.allergens, facts.allergens.known);
    put_origins(json, facts.origins);
    json["cost"] = {{"amount", valid ? number(facts.cost, serves) : Json(nullptr)},
                    {"currency", text_or_null(input_.facts.currency)}};
    json["ingredients"] = entries(facts.entries, serves);
  }

  Json drink(analysis::DrinkId id) const {
    const auto& drink = input_.specs[id];
    const auto& facts = input_.facts[id];
    Json json;
    put_place(json, drink.head);
    json["family"] = drink.family.valid() ? Json(input_.specs[drink.family].head.name) : Json(nullptr);
    json["glass"] = drink.glass.valid() ? Json(input_.specs[drink.glass].head.name) : Json(nullptr);
    json["serves"] = facts.serves;
    json["served_on"] = served_on(facts.served_on);
    json["hot"] = facts.is_hot;
    put_drink_figures(json, facts, 1);
    json["alternatives"] = Json::array();
    for (const auto& alternative : facts.alternatives)
      json["alternatives"].push_back({{"instead_of", input_.specs[alternative.instead_of].head.name},
                                      {"stand_in", input_.specs[alternative.substitute].head.name},
                                      {"served", figures(alternative.served, 1, true, false)}});
    json["colour"] = text_or_null(facts.colour);
    json["status"] = name_of(drink.status);
    json["sound"] = facts.valid;
    if (facts.serves > 1) {
      Json whole;
      put_drink_figures(whole, facts, facts.serves);
      json["whole"] = std::move(whole);
    }
    return json;
  }

  static std::string_view name_of(analysis::Status status) {
    static constexpr std::string_view names[] = {"approved", "draft", "retired"};
    return names[static_cast<std::size_t>(status)];
  }

  Json prep(StockId id) const {
    const auto& prep = input_.specs[id];
    const auto& facts = input_.facts[id];
    bool valid = facts.valid;
    Json json;
    put_place(json, prep.head);
    put_stock_figures(json, prep, facts, valid);
    put_statements(json, facts.statements);
    json["readings"] = readings(facts);
    put_allergens(json, facts.allergens, facts.allergens.known);
    put_origins(json, facts.origins);
    json["cost_per_l"] = valid ? number(model::cost_per_l(facts), 1) : Json(nullptr);
    json["currency"] = text_or_null(input_.facts.currency);
    json["keeps_days"] = number_or_null(facts.keeps_days);
    json["storage"] = facts.storage ? Json(analysis::name_of(*facts.storage)) : Json(nullptr);
    json["ph"] = number_or_null(prep.ph);
    json["from_library"] = prep.head.from_library;
    json["sound"] = valid;
    json["ingredients"] = entries(facts.entries, 1);
    return json;
  }

  Json ingredient(StockId id) const {
    const auto& stock = input_.specs[id];
    const auto& facts = input_.facts[id];
    bool valid = facts.valid;
    Json json;
    put_place(json, stock.head);
    json["kind"] =
        stock.kind == analysis::StockKind::unstated ? Json(nullptr) : Json(analysis::name_of(stock.kind));
    put_stock_figures(json, stock, facts, valid);
    put_statements(json, facts.statements);
    put_allergens(json, facts.allergens, facts.allergens.known);
    put_origins(json, facts.origins);
    json["source"] = stock.head.source;
    json["cost_per_l"] = valid ? number(model::cost_per_l(facts), 1) : Json(nullptr);
    json["currency"] = text_or_null(input_.facts.currency);
    json["keeps_days"] = number_or_null(facts.keeps_days);
    json["storage"] = facts.storage ? Json(analysis::name_of(*facts.storage)) : Json(nullptr);
    json["ph"] = number_or_null(stock.ph);
    json["from_library"] = stock.head.from_library;
    json["sound"] = valid;
    return json;
  }

  const FactsInput& input_;
  FactsSelection selection_;
};

}  // namespace

std::string facts_json(const FactsInput& input) { return FactsWriter(input).write(); }

}  // namespace gill::render
