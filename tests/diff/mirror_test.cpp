// A comparison the other way round says the opposite, and what it says leads from the old facts to the new
// ones.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <regex>
#include <tuple>

#include "diff/pair.h"
#include "render/facts/facts_json.h"

using namespace gill;
using namespace gill::testing;
using Json = nlohmann::json;

namespace {

const std::map<std::string, std::string> opposite = {{"added", "removed"},
                                                     {"removed", "added"},
                                                     {"renamed", "renamed"},
                                                     {"changed", "changed"},
                                                     {"moved", "moved"}};

Json swapped(const Json& pair) { return Json::array({pair.at(1), pair.at(0)}); }

void swap_pairs(Json& object) {
  for (auto& [key, pair] : object.items()) pair = swapped(pair);
}

void swap_old_new(Json& object) { std::swap(object["old"], object["new"]); }

void sort_by_dump(Json& list) {
  std::sort(list.begin(), list.end(), [](const Json& a, const Json& b) { return a.dump() < b.dump(); });
}

void mirror_line(Json& line) {
  line["change"] = opposite.at(line["change"]);
  swap_old_new(line);
  for (auto* key : {"volume_ml", "mass_g", "count", "step"})
    if (line.contains(key)) line[key] = swapped(line[key]);
  if (line.contains("was")) std::swap(line["was"], line["name"]);
}

void mirror_change(Json& change) {
  change["change"] = opposite.at(change["change"]);
  if (!change["was"].is_null()) std::swap(change["was"], change["name"]);
  for (auto* key : {"ingredients", "method"}) {
    if (!change.contains(key)) continue;
    for (auto& line : change[key]) mirror_line(line);
    sort_by_dump(change[key]);
  }
  for (auto* key : {"cost", "sound", "pour_order"})
    if (change.contains(key)) change[key] = swapped(change[key]);
  swap_pairs(change["facts"]);
  swap_pairs(change["properties"]);
  auto& allergens = change["allergens"];
  std::swap(allergens["gained"], allergens["lost"]);
  std::swap(allergens["may_gained"], allergens["may_lost"]);
  allergens["known"] = swapped(allergens["known"]);
}

/// What does not depend on which side is told in full: the order of lists, and what only the new side is
/// asked for.
void settle(Json& root) {
  for (auto* list : {"drinks", "preps", "ingredients"}) {
    for (auto& change : root[list]) {
      for (auto* key : {"ingredients", "method"})
        if (change.contains(key)) sort_by_dump(change[key]);
      change["allergens"].erase("not_stated_by");
    }
    sort_by_dump(root[list]);
  }
  for (auto& menu : root["menus"]) sort_by_dump(menu["drinks"]);
  for (auto* list : {"menus", "glasses", "ices", "families"}) sort_by_dump(root[list]);
  root.erase("allergens_gained");
  root.erase("house");
}

Json mirror(Json root) {
  swap_old_new(root);
  for (auto* list : {"drinks", "preps", "ingredients"})
    for (auto& change : root[list]) mirror_change(change);
  for (auto& menu : root["menus"]) {
    menu["change"] = opposite.at(menu["change"]);
    swap_pairs(menu["properties"]);
    for (auto& line : menu["drinks"]) {
      line["change"] = opposite.at(line["change"]);
      line["price"] = swapped(line["price"]);
      swap_old_new(line);
      if (line.contains("was")) std::swap(line["was"], line["name"]);
    }
  }
  for (auto* list : {"glasses", "ices", "families"})
    for (auto& change : root[list]) {
      change["change"] = opposite.at(change["change"]);
      swap_pairs(change["properties"]);
    }
  swap_pairs(root["house_lines"]);
  for (auto& one : root["not_compared"]) one["in_error"] = swapped(one["in_error"]);
  settle(root);
  return root;
}

void check_mirror(const Files& before, const Files& after) {
  Json there = compare(before, after).json(), back = compare(after, before).json();
  back["old"] = "new", back["new"] = "old";
  settle(back);
  auto expected = mirror(there);
  CHECK(Json::diff(expected, back).dump(1) == "[]");
}

Json facts_of(const driver::Compilation& house) {
  return Json::parse(
      render::facts_json({house.specs, house.facts, house.units, house.names, house.sources, {}}));
}

/// A figure of a drink stands under `served` in facts, or beside it.
Json& figure_place(Json& drink, const std::string& key) {
  return drink.contains("served") && drink["served"].contains(key) ? drink["served"][key] : drink[key];
}

void apply_list(Json& list, const Json& gained, const Json& lost) {
  Json kept = Json::array();
  for (const auto& one : list)
    if (std::find(lost.begin(), lost.end(), one) == lost.end()) kept.push_back(one);
  for (const auto& one : gained) kept.push_back(one);
  std::sort(kept.begin(), kept.end());
  list = kept;
}

void apply_builds(Json& build, const Json& changes) {
  for (const auto& change : changes) {
    auto name = change.value("was", change["name"].get<std::string>());
    auto same = [&](const Json& line) {
      auto amount = [&](const char* key) {
        const auto &here = line[key], &there = change[key][0];
        return here.is_number() && there.is_number() ? here.get<double>() == Approx(there.get<double>())
                                                     : here == there;
      };
      return line["name"] == name && line["role"] == change["role"] && amount("volume_ml") &&
             amount("mass_g");
    };
    if (change["change"] != "added") {
      auto place = std::find_if(build.begin(), build.end(), same);
      REQUIRE(place != build.end());
      build.erase(place);
    }
    if (change["change"] != "removed")
      build.push_back({{"name", change["name"]},
                       {"role", change["role"]},
                       {"volume_ml", change["volume_ml"][1]},
                       {"mass_g", change["mass_g"][1]},
                       {"count", change["count"][1]}});
  }
}

/// By name, what it is there for, and its volume to a tenth of a millilitre.
void sort_by_place(Json& list) {
  auto place = [](const Json& line) {
    double volume = line["volume_ml"].is_number() ? line["volume_ml"].get<double>() : 0;
    return std::tuple(line["name"].get<std::string>(), line["role"].get<std::string>(),
                      std::lround(10 * volume));
  };
  std::stable_sort(list.begin(), list.end(),
                   [&](const Json& a, const Json& b) { return place(a) < place(b); });
}

/// Facts with nothing but what a comparison speaks of.
Json reduced(const Json& facts, const char* list) {
  Json all = Json::object();
  for (const auto& one : facts[list]) {
    Json kept = one;
    for (auto* key : {"file", "line", "mixed", "tolerance", "written_tolerance", "alcohol_units",
                      "alternatives", "colour", "whole", "family", "glass", "status", "served_later",
                      "density_g_per_ml", "allergens_not_stated_by"})
      kept.erase(key);
    if (kept.contains("served")) kept["served"].erase("density_g_per_ml");
    for (auto* key : {"allergens", "allergens_may"}) std::sort(kept[key].begin(), kept[key].end());
    Json build = Json::array();
    // Of a bowl a comparison tells the whole.
    for (const auto& line : one.contains("whole") ? one["whole"]["ingredients"] : one["ingredients"])
      build.push_back({{"name", line["name"]},
                       {"role", line["role"]},
                       {"volume_ml", line["volume_ml"]},
                       {"mass_g", line["mass_g"]},
                       {"count", line["count"]}});
    kept["ingredients"] = build;
    all[one["name"].get<std::string>()] = kept;
  }
  return all;
}

void apply(Json& facts, const Json& changes, const char* cost_key) {
  for (const auto& change : changes) {
    auto name = change["name"].get<std::string>();
    auto was = change["was"].is_null() ? name : change["was"].get<std::string>();
    if (change["change"] == "removed") {
      facts.erase(name);
      continue;
    }
    Json one = change["change"] == "added" ? Json::object() : facts.at(was);
    facts.erase(was);
    if (change["change"] == "added")
      one = {{"ingredients", Json::array()}, {"allergens", Json::array()}, {"allergens_may", Json::array()}};
    one["name"] = name;
    for (const auto& [key, pair] : change["facts"].items()) {
      auto& place = figure_place(one, key);
      if (change["change"] != "added") {
        INFO(name << " " << key);
        if (place.is_number() && pair[0].is_number())
          CHECK(place.get<double>() == Approx(pair[0].get<double>()));
      }
      place = pair[1];
    }
    apply_list(one["allergens"], change["allergens"]["gained"], change["allergens"]["lost"]);
    apply_list(one["allergens_may"], change["allergens"]["may_gained"], change["allergens"]["may_lost"]);
    one["allergens_known"] = change["allergens"]["known"][1];
    if (one.contains("cost") && one["cost"].is_object())
      one["cost"]["amount"] = change["cost"][1];
    else if (change["change"] != "added" || change["cost"][1].is_number())
      one[cost_key] = change["cost"][1];
    apply_builds(one["ingredients"], change["ingredients"]);
    facts[name] = one;
  }
}

/// Numbers that stand under the same keys and are the same but for rounding; what only the facts have is left
/// alone.
void check_same(const Json& got, const Json& wanted, const std::string& where) {
  INFO(where);
  if (wanted.is_number() && got.is_number()) {
    CHECK(got.get<double>() == Approx(wanted.get<double>()).epsilon(1e-8).margin(1e-8));
  } else {
    CHECK(got == wanted);
  }
}

void check_applies(const Files& before, const Files& after) {
  auto pair = compare(before, after);
  auto changes = pair.json();
  auto old_facts = facts_of(*pair.before), new_facts = facts_of(*pair.after);
  for (auto [list, cost] : {std::pair("drinks", "cost"), std::pair("preps", "cost_per_l")}) {
    Json got = reduced(old_facts, list), wanted = reduced(new_facts, list);
    apply(got, changes[list], cost);
    REQUIRE(got.size() == wanted.size());
    for (auto& [name, facts] : wanted.items()) {
      INFO(name);
      REQUIRE(got.contains(name));
      auto& applied = got[name];
      for (const auto& [key, value] : applied.items()) {
        if (key == "price" || key == "pour_cost_percent" || key == "sound") continue;
        // Told among the build's lines, in words: `ice`.
        if (key == "served_on") continue;
        // In words, what the figures in mg/l say.
        if (key == "statements") continue;
        if (key == "served") {
          for (const auto& [figure, number] : facts["served"].items())
            check_same(value[figure], number, name + " " + figure);
        } else if (key == "ingredients") {
          sort_by_place(applied["ingredients"]);
          sort_by_place(facts["ingredients"]);
          CHECK(value.size() == facts["ingredients"].size());
          for (std::size_t i = 0; i < value.size(); ++i)
            for (const auto& [figure, number] : facts["ingredients"][i].items())
              // The same volume of a prep that has changed weighs otherwise, and nobody pours otherwise for
              // that.
              if (figure != "mass_g" || !value[i]["volume_ml"].is_number())
                check_same(value[i][figure], number,
                           name + " " + facts["ingredients"][i]["name"].get<std::string>() + " " + figure);
        } else if (key == "cost") {
          check_same(value.is_object() ? value["amount"] : value, facts["cost"]["amount"], name + " cost");
        } else if (facts.contains(key)) {
          check_same(value, facts[key], name + " " + key);
        }
      }
    }
  }
}

/// Another season of a house: amounts, times, glasses and garnishes that somebody has thought about again.
Files next_season(const Files& house, std::mt19937& random) {
  static const std::regex amount(R"(^(  +)([0-9]+)( ml .*)$)"),
      time(R"(^(  +(dry )?shake +)([0-9]+)( s.*)$)");
  Files edited;
  for (const auto& [path, text] : house) {
    std::string result;
    std::size_t begin = 0;
    while (begin < text.size()) {
      auto end = text.find('\n', begin);
      if (end == std::string::npos) end = text.size();
      std::string line = text.substr(begin, end - begin);
      std::smatch match;
      if (random() % 6 == 0 && std::regex_match(line, match, amount))
        line = match[1].str() + std::to_string(std::stoi(match[2]) + 5) + match[3].str();
      else if (random() % 4 == 0 && std::regex_match(line, match, time))
        line = match[1].str() + std::to_string(std::stoi(match[3]) + 3) + match[4].str();
      result += line + "\n";
      begin = end + 1;
    }
    edited[path] = result;
  }
  return edited;
}

Files spring() { return house_in("tests/diff/two_seasons/spring"); }
Files autumn() { return house_in("tests/diff/two_seasons/autumn"); }

}  // namespace

TEST_CASE("the other way round a comparison says the opposite", "[diff]") {
  check_mirror(spring(), autumn());
  std::mt19937 random(21);
  for (int round = 0; round < 3; ++round)
    check_mirror(house_in("specs"), next_season(house_in("specs"), random));
}

TEST_CASE("against nothing at all everything is new, and the other way round everything is gone", "[diff]") {
  Files nothing = {{"empty.gill", ""}};
  check_mirror(nothing, spring());
  auto pair = compare(nothing, spring());
  CHECK(pair.changes.drinks.size() == 8);
  for (const auto& change : pair.changes.drinks) CHECK(change.kind == diff::Kind::added);
}

TEST_CASE("what a comparison says leads from the old facts to the new ones", "[diff]") {
  check_applies(spring(), autumn());
  check_applies(autumn(), spring());
  std::mt19937 random(22);
  for (int round = 0; round < 3; ++round)
    check_applies(house_in("specs"), next_season(house_in("specs"), random));
}
