#include "model/allergens.h"

#include <algorithm>

#include "analysis/allergen_lists.h"

namespace gill::model {

std::span<const std::string_view> allergen_list(std::string_view name) {
  const auto* list = analysis::find_allergen_list(name);
  return list ? list->entries : analysis::find_allergen_list("EU")->entries;
}

std::string_view heading_of(std::string_view code) { return code.substr(0, code.find(':')); }

bool is_under(std::string_view code, std::string_view entry) {
  return code == entry || heading_of(code) == entry;
}

std::size_t place_on(std::span<const std::string_view> list, std::string_view code) {
  auto found =
      std::find_if(list.begin(), list.end(), [&](std::string_view entry) { return is_under(code, entry); });
  return static_cast<std::size_t>(found - list.begin());
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
  auto order = allergen_list(list);
  auto place = [&](const AllergenRoute& route) {
    return std::tuple(route.may, place_on(order, route.code), std::string_view(route.code));
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
