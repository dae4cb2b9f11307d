#include "model/allergens.h"

#include <algorithm>

namespace gill::model {

const std::vector<std::string_view>& allergen_list(std::string_view name) {
  static const std::vector<std::string_view> eu = {"cereals",  "crustaceans", "egg",   "fish",    "peanuts",
                                                   "soybeans", "milk",        "nuts",  "celery",  "mustard",
                                                   "sesame",   "sulphites",   "lupin", "molluscs"};
  static const std::vector<std::string_view> us = {"milk",    "egg",     "fish",     "crustaceans", "nuts",
                                                   "cereals", "peanuts", "soybeans", "sesame"};
  return name == "US" ? us : eu;
}

std::string_view heading_of(std::string_view code) { return code.substr(0, code.find(':')); }

bool is_animal_allergen(std::string_view code) {
  auto heading = heading_of(code);
  return heading == "milk" || heading == "egg" || heading == "fish" || heading == "crustaceans" ||
         heading == "molluscs";
}

namespace {

template <typename Value>
void add_once(std::vector<Value>& list, const Value& value) {
  if (std::find(list.begin(), list.end(), value) == list.end()) list.push_back(value);
}

}  // namespace

void add_allergens(Allergens& whole, const Allergens& part, bool as_possible) {
  for (const auto& route : part.routes) {
    bool may = route.may || as_possible;
    auto same = std::find_if(whole.routes.begin(), whole.routes.end(), [&](const AllergenRoute& known) {
      return known.code == route.code && known.may == may;
    });
    if (same == whole.routes.end()) {
      whole.routes.push_back({route.code, may, route.via});
    } else {
      for (auto id : route.via) add_once(same->via, id);
    }
  }
  if (!part.known) whole.known = false;
  for (auto id : part.unknown) add_once(whole.unknown, id);
  for (const auto& name : part.undeclared) add_once(whole.undeclared, name);
}

Allergens stated_allergens(const analysis::Stock& stock, analysis::StockId id) {
  Allergens allergens;
  for (const auto& line : stock.allergens) {
    auto same = std::find_if(
        allergens.routes.begin(), allergens.routes.end(),
        [&](const AllergenRoute& known) { return known.code == line.code && known.may == line.may; });
    if (same == allergens.routes.end()) allergens.routes.push_back({line.code, line.may, {id}});
  }
  return allergens;
}

void order_allergens(Allergens& allergens, std::string_view list) {
  const auto& order = allergen_list(list);
  auto place = [&](const AllergenRoute& route) {
    auto found = std::find(order.begin(), order.end(), heading_of(route.code));
    return std::tuple(route.may, found - order.begin(), std::string_view(route.code));
  };
  std::erase_if(allergens.routes, [&](const AllergenRoute& route) {
    return route.may &&
           std::any_of(allergens.routes.begin(), allergens.routes.end(),
                       [&](const AllergenRoute& other) { return !other.may && other.code == route.code; });
  });
  std::sort(allergens.routes.begin(), allergens.routes.end(),
            [&](const AllergenRoute& a, const AllergenRoute& b) { return place(a) < place(b); });
  for (auto& route : allergens.routes) std::sort(route.via.begin(), route.via.end());
}

std::vector<std::string> Allergens::present() const {
  std::vector<std::string> codes;
  for (const auto& route : routes)
    if (!route.may) codes.push_back(route.code);
  return codes;
}

std::vector<std::string> Allergens::possible() const {
  std::vector<std::string> codes;
  for (const auto& route : routes)
    if (route.may) codes.push_back(route.code);
  return codes;
}

}  // namespace gill::model
