#include "model/allergens.h"

#include <algorithm>

#include "analysis/allergen_lists.h"
#include "model/routes.h"

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

void add_allergens(Allergens& whole, const Allergens& part, bool as_possible) {
  add_part(whole, part, as_possible, &AllergenRoute::code);
}

Allergens stated_allergens(const analysis::Stock& stock, analysis::StockId id) {
  Allergens allergens;
  for (const auto& line : stock.allergens)
    add_route(allergens.routes, {line.code, line.may, {id}}, &AllergenRoute::code);
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
