#include "model/origin.h"

#include "model/allergens.h"
#include "model/routes.h"

namespace gill::model {

using analysis::Origin;
using analysis::OriginLine;
using analysis::StockKind;

namespace {

/// What a kind can only be. Wine, beer and cider may be fined with isinglass, gelatine, egg or casein
/// (Regulation (EU) 2019/934, Annex I, lists them for wine: from memory); a liqueur, a syrup or a bitter can
/// be anything, so they are not known.
std::vector<OriginLine> usual_origins(StockKind kind) {
  switch (kind) {
    case StockKind::spirit:
    case StockKind::juice:
    case StockKind::fruit:
    case StockKind::herb:
    case StockKind::spice:
    case StockKind::tea_coffee:
      return {{Origin::plant, false}};
    case StockKind::water:
    case StockKind::saline:
      return {{Origin::mineral, false}};
    case StockKind::egg:
      return {{Origin::egg, false}};
    case StockKind::wine:
    case StockKind::sparkling:
    case StockKind::fortified_wine:
    case StockKind::beer:
      return {{Origin::plant, false}, {Origin::animal, true}};
    case StockKind::unstated:
    case StockKind::liqueur:
    case StockKind::bitters:
    case StockKind::syrup:
    case StockKind::sweetener:
    case StockKind::acid:
    case StockKind::dairy:
    case StockKind::fat:
    case StockKind::mixer:
    case StockKind::additive:
    case StockKind::garnish:
      return {};
  }
  return {};
}

std::optional<Origin> origin_of_allergen(std::string_view code) {
  auto heading = heading_of(code);
  if (heading == "milk") return Origin::milk;
  if (heading == "egg") return Origin::egg;
  if (heading == "fish" || heading == "crustaceans" || heading == "molluscs") return Origin::animal;
  return std::nullopt;
}

/// Nothing excluded is in it: `no` for a sure part that is, `not known` for a possible one or a silent part.
template <typename Excluded>
Answer without(const Origins& origins, Excluded excluded) {
  bool possible = !origins.known;
  for (const auto& route : origins.routes) {
    if (!excluded(route.origin)) continue;
    if (!route.may) return Answer::no;
    possible = true;
  }
  return possible ? Answer::not_known : Answer::yes;
}

}  // namespace

bool is_of_animals(Origin origin) { return origin != Origin::plant && origin != Origin::mineral; }

bool is_surely_of_animals(const Origins& origins) { return vegan(origins) == Answer::no; }

Origins stated_origins(const analysis::Stock& stock, analysis::StockId id) {
  Origins origins;
  auto lines = stock.origins;
  if (!stock.origin_stated && !stock.is_prep) lines = usual_origins(stock.kind);
  for (const auto& line : lines)
    add_route(origins.routes, {line.origin, line.may, {id}}, &OriginRoute::origin);
  for (const auto& line : stock.allergens)
    if (auto origin = origin_of_allergen(line.code))
      add_route(origins.routes, {*origin, line.may, {id}}, &OriginRoute::origin);
  bool is_silent = lines.empty() && (!stock.is_prep || stock.origin_stated);
  if (is_silent) origins.unknown.push_back(id);
  origins.known = !is_silent && !stock.head.has_errors;
  return origins;
}

void add_origins(Origins& whole, const Origins& part, bool as_possible) {
  add_part(whole, part, as_possible, &OriginRoute::origin);
}

Answer vegan(const Origins& origins) { return without(origins, is_of_animals); }

Answer vegetarian(const Origins& origins) {
  return without(origins, [](Origin origin) { return origin == Origin::animal; });
}

}  // namespace gill::model
