#pragma once
#include <algorithm>
#include <vector>

/// What is known of a drink's or a prep's parts, with the ways by which it comes: allergens and origins are
/// summed by the same rule.
namespace gill::model {

template <typename Value>
void add_once(std::vector<Value>& list, const Value& value) {
  if (std::find(list.begin(), list.end(), value) == list.end()) list.push_back(value);
}

/// Adds a route; one of the same `key` (a member of the route) and certainty gets its ways.
template <typename Route, typename Key>
void add_route(std::vector<Route>& routes, const Route& route, Key Route::*key) {
  auto same = std::find_if(routes.begin(), routes.end(), [&](const Route& known) {
    return known.*key == route.*key && known.may == route.may;
  });
  if (same == routes.end())
    routes.push_back(route);
  else
    for (auto id : route.via) add_once(same->via, id);
}

/// Adds what is known of a part to a whole. `as_possible`: it may be in it, and need not.
template <typename Declared, typename Route, typename Key>
void add_part(Declared& whole, const Declared& part, bool as_possible, Key Route::*key) {
  for (auto route : part.routes) {
    route.may = route.may || as_possible;
    add_route(whole.routes, route, key);
  }
  if (!part.known) whole.known = false;
  for (auto id : part.unknown) add_once(whole.unknown, id);
  for (const auto& name : part.undeclared) add_once(whole.undeclared, name);
}

}  // namespace gill::model
