#include "diff/json.h"

#include "base/json.h"
#include "diff/words.h"

namespace gill::diff {

using base::Json;
using base::number_or_null;
using base::text_or_null;

namespace {

Json codes(const std::vector<Allergen>& allergens) {
  Json list = Json::array();
  for (const auto& allergen : allergens) list.push_back(allergen.code);
  return list;
}

Json json_of(const AllergenChange& change) {
  return {{"gained", codes(change.gained)},
          {"lost", codes(change.lost)},
          {"may_gained", codes(change.possible_gained)},
          {"may_lost", codes(change.possible_lost)},
          {"known", {change.known_before, change.known_after}},
          {"not_stated_by", change.unknown_gained}};
}

Json json_of(const PourChange& change) {
  const Pour* before = change.before ? &*change.before : nullptr;
  const Pour* after = change.after ? &*change.after : nullptr;
  auto words = [](const Pour* pour, const Pour* other) {
    return pour ? Json(words_of(*pour, other, Columns::first)) : Json(nullptr);
  };
  auto pair = [&](std::optional<double> Pour::*value) {
    return Json::array({before ? number_or_null(before->*value) : Json(nullptr),
                        after ? number_or_null(after->*value) : Json(nullptr)});
  };
  Json json = {{"name", change.either().name}};
  if (before && after && before->name != after->name) json["was"] = before->name;
  json["change"] = name_of(change.kind);
  json["old"] = words(before, after);
  json["new"] = words(after, before);
  json["role"] = name_of(change.either().role);
  json["volume_ml"] = pair(&Pour::volume_ml);
  json["mass_g"] = pair(&Pour::mass_g);
  json["count"] = pair(&Pour::count);
  json["follows"] = change.follows;
  return json;
}

Json json_of(const StepChange& change) {
  auto words = [](const std::optional<MethodStep>& step) { return step ? Json(step->words) : Json(nullptr); };
  auto place = [](std::size_t step) { return step ? Json(step) : Json(nullptr); };
  return {{"change", name_of(change.kind)},
          {"old", words(change.before)},
          {"new", words(change.after)},
          {"step", {place(change.before_number), place(change.after_number)}}};
}

Json json_of(const std::vector<PropertyChange>& properties) {
  Json json = Json::object();
  for (const auto& property : properties)
    json[property.name] = {property.before ? Json(property.before->words) : Json(nullptr),
                           property.after ? Json(property.after->words) : Json(nullptr)};
  return json;
}

Json cost_of(const std::optional<Sheet>& sheet) {
  for (Figure figure : {&figures::cost, &figures::cost_per_l, &figures::cost_per_kg})
    if (const auto* value = figure_of(sheet, figure)) return number_or_null(value->value);
  return nullptr;
}

void put_figures(Json& json, const Change& change) {
  json["facts"] = Json::object();
  Json beyond = Json::object(), tolerance = Json::object();
  for (const auto& figure : change.figures) {
    if (figure.after.figure == &figures::cost) continue;
    std::string key(figure.after.figure->key);
    json["facts"][key] = {number_or_null(figure.before.value), number_or_null(figure.after.value)};
    if (figure.tolerance) tolerance[key] = *figure.tolerance;
    if (figure.beyond_tolerance) beyond[key] = *figure.beyond_tolerance;
  }
  json["difference_tolerance"] = std::move(tolerance);
  json["beyond_tolerance"] = std::move(beyond);
}

Json json_of(const Change& change, bool has_recipe) {
  Json json = {{"name", change.name},
               {"was", text_or_null(change.was)},
               {"change", name_of(change.kind)},
               {"because", change.because}};
  if (change.likeness) json["guess"] = *change.likeness;
  if (has_recipe) {
    json["ingredients"] = Json::array();
    for (const auto& pour : change.pours) json["ingredients"].push_back(json_of(pour));
    json["method"] = Json::array();
    for (const auto& step : change.method) json["method"].push_back(json_of(step));
    if (change.pour_order_changed)
      json["pour_order"] = {poured_into_glass(change.before), poured_into_glass(change.after)};
  }
  put_figures(json, change);
  json["allergens"] = json_of(change.allergens);
  json["cost"] = {cost_of(change.before), cost_of(change.after)};
  json["properties"] = json_of(change.properties);
  json["sound"] = {change.before ? Json(change.before->valid) : Json(nullptr),
                   change.after ? Json(change.after->valid) : Json(nullptr)};
  return json;
}

Json list_of(const std::vector<Change>& changes, bool has_recipe) {
  Json list = Json::array();
  for (const auto& change : changes) list.push_back(json_of(change, has_recipe));
  return list;
}

/// Glasses, ices and families: what they say.
Json short_list_of(const std::vector<Change>& changes) {
  Json list = Json::array();
  for (const auto& change : changes)
    list.push_back({{"name", change.name},
                    {"change", name_of(change.kind)},
                    {"properties", json_of(change.properties)}});
  return list;
}

Json json_of(const std::optional<MenuLine>& line) {
  if (!line) return nullptr;
  Json json = {
      {"section", line->section}, {"position", line->position}, {"sells", text_or_null(line->sells)}};
  json["price"] = line->price ? Json(base::to_double(line->price->amount)) : Json(nullptr);
  json["currency"] = line->price ? Json(line->price->currency) : Json(nullptr);
  json["sold_by"] = text_or_null(line->sold_by);
  return json;
}

Json json_of(const MenuChange& change) {
  Json json = {
      {"name", change.name}, {"change", name_of(change.kind)}, {"properties", json_of(change.properties)}};
  json["drinks"] = Json::array();
  for (const auto& line : change.lines) {
    auto price = [](const std::optional<MenuLine>& side) {
      return side && side->price ? Json(base::to_double(side->price->amount)) : Json(nullptr);
    };
    const char* kind = !line.before ? "added" : !line.after ? "removed" : line.moved ? "moved" : "changed";
    Json reported = {{"name", line.drink},
                     {"change", kind},
                     {"price", {price(line.before), price(line.after)}},
                     {"old", json_of(line.before)},
                     {"new", json_of(line.after)}};
    if (line.before && line.after && line.before->drink != line.after->drink)
      reported["was"] = line.before->drink;
    json["drinks"].push_back(std::move(reported));
  }
  return json;
}

}  // namespace

std::string to_json(const Changes& changes) {
  Json root = {{"format", "gill-diff"}, {"version", 1}};
  root["house"] = changes.house;
  root["old"] = changes.before_label;
  root["new"] = changes.after_label;
  root["allergens_gained"] = Json::array();
  for (const auto* list : {&changes.drinks, &changes.preps})
    for (const auto& change : *list)
      if (change.kind != Kind::removed && !change.is_unserved && !change.allergens.gained.empty())
        root["allergens_gained"].push_back(
            {{"name", change.name}, {"gained", codes(change.allergens.gained)}});
  for (const auto& move : changes.menu_moves)
    if (!move.allergens.gained.empty())
      root["allergens_gained"].push_back(
          {{"name", move.sheet.name}, {"gained", codes(move.allergens.gained)}});
  root["drinks"] = list_of(changes.drinks, true);
  root["preps"] = list_of(changes.preps, true);
  root["menus"] = Json::array();
  for (const auto& menu : changes.menus) root["menus"].push_back(json_of(menu));
  root["menu_moves"] = Json::array();
  for (const auto& move : changes.menu_moves)
    root["menu_moves"].push_back({{"name", move.sheet.name}, {"on_menu", move.is_on}});
  root["ingredients"] = list_of(changes.ingredients, false);
  root["glasses"] = short_list_of(changes.glasses);
  root["ices"] = short_list_of(changes.ices);
  root["families"] = short_list_of(changes.families);
  root["house_lines"] = json_of(changes.house_lines);
  root["not_compared"] = Json::array();
  for (const auto& one : changes.not_compared)
    root["not_compared"].push_back(
        {{"kind", one.kind}, {"name", one.name}, {"in_error", {one.in_before, one.in_after}}});
  return base::json_text(std::move(root));
}

namespace {

Json json_of(const StaffBuild& build) {
  Json json = {{"name", build.name}, {"was", text_or_null(build.was)}, {"was_guessed", build.was_guessed}};
  json["ingredients"] = Json::array();
  for (const auto& line : build.lines)
    json["ingredients"].push_back({{"name", line.name}, {"amount", line.amount}});
  json["method"] = build.method;
  json["serve"] = Json::object();
  for (const auto& [name, words] : build.serve) json["serve"][name] = words;
  return json;
}

Json json_of(const StaffRework& rework) {
  Json json = {{"name", rework.name}, {"was", text_or_null(rework.was)}, {"was_guessed", rework.was_guessed}};
  json["amounts"] = Json::array();
  for (const auto& line : rework.lines)
    json["amounts"].push_back(
        {{"name", line.name}, {"old", text_or_null(line.before)}, {"new", text_or_null(line.after)}});
  json["method"] = rework.method;
  json["tastes_otherwise"] = rework.tastes_otherwise;
  return json;
}

Json json_of(const Station& station) {
  Json json = {{"station", station.name}};
  auto list = [](const auto& items) {
    Json all = Json::array();
    for (const auto& item : items) all.push_back(json_of(item));
    return all;
  };
  json["learn"] = list(station.learn);
  json["change"] = list(station.change);
  json["stop"] = station.stop;
  json["preps_to_start"] = list(station.preps_to_start);
  json["preps_to_change"] = list(station.preps_to_change);
  json["preps_to_stop"] = station.preps_to_stop;
  json["pour_away"] = station.pour_away;
  json["glasses_to_pull"] = station.glasses_to_pull;
  json["glasses_to_put_away"] = station.glasses_to_put_away;
  return json;
}

}  // namespace

std::string to_json(const StaffSheet& sheet) {
  Json root = {{"format", "gill-diff"},
               {"version", 1},
               {"for", "staff"},
               {"house", sheet.house},
               {"old", sheet.before_label},
               {"new", sheet.after_label}};
  root["allergens_gained"] = Json::array();
  for (const auto& alert : sheet.alerts)
    root["allergens_gained"].push_back({{"name", alert.name},
                                        {"gained", codes(alert.change->gained)},
                                        {"may_gained", codes(alert.change->possible_gained)},
                                        {"known", alert.change->known_after}});
  root["from"] = text_or_null(sheet.from);
  root["taste"] = sheet.taste;
  root["other_menus"] = sheet.other_menus;
  root["goods_to_bring"] = sheet.goods_to_bring;
  root["goods_to_put_away"] = sheet.goods_to_put_away;
  root["stations"] = Json::array();
  for (const auto& station : sheet.stations) root["stations"].push_back(json_of(station));
  return base::json_text(std::move(root));
}

}  // namespace gill::diff
