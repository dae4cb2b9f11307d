#include <fmt/format.h>

#include <set>

#include "base/text.h"
#include "editor/outline.h"
#include "editor/words.h"

namespace gill::editor {

using symbols::DeclarationKind;

namespace {

std::string counted(std::size_t n, std::string_view one, std::string_view more) {
  return fmt::format("{} {}", n, n == 1 ? one : more);
}

/// `in 5 drinks, 1 prep`; empty where nothing uses it.
std::string users_words(const HouseView& view, analysis::StockId id) {
  auto users = view.book().usage().all(id);
  std::vector<std::string> words;
  if (!users.drinks.empty()) words.push_back(counted(users.drinks.size(), "drink", "drinks"));
  if (!users.preps.empty()) words.push_back(counted(users.preps.size(), "prep", "preps"));
  return words.empty() ? std::string() : "in " + base::join(words, ", ");
}

/// `on Winter 2026`, `on no menu`.
std::string menus_words(const HouseView& view, analysis::DrinkId id) {
  std::vector<std::string> menus;
  std::set<std::size_t> seen;
  for (const auto& place : view.book().places_on_menus(id))
    if (seen.insert(place.menu).second) menus.push_back(view.specs().menus[place.menu].head.name);
  return menus.empty() ? "on no menu" : "on " + base::join_with_and(menus);
}

void add_drink(const HouseView& view, DeclarationId id, analysis::DrinkId drink, std::vector<Lens>& lenses) {
  const auto& span = view.house().names[id].name_span;
  lenses.push_back({Lens::Kind::figures, span, figures_in_brief(view, drink), id});
  lenses.push_back({Lens::Kind::users, span, menus_words(view, drink), id});
  lenses.push_back({Lens::Kind::preview, span, "preview", id});
}

void add_stock(const HouseView& view, DeclarationId id, analysis::StockId stock, std::vector<Lens>& lenses) {
  const auto& span = view.house().names[id].name_span;
  lenses.push_back({Lens::Kind::figures, span, figures_in_brief(view, stock), id});
  auto users = users_words(view, stock);
  lenses.push_back({Lens::Kind::users, span, users.empty() ? "used nowhere" : users, id});
  if (view.specs()[stock].is_prep) lenses.push_back({Lens::Kind::preview, span, "preview", id});
}

}  // namespace

std::vector<Lens> lenses(const HouseView& view, const syntax::File& file) {
  std::vector<Lens> lenses;
  for (std::size_t i = 0; i < file.declarations.size(); ++i) {
    auto id = view.declared(view.index_of(file), i);
    if (auto drink = view.drink(id)) add_drink(view, id, *drink, lenses);
    if (auto stock = view.stock(id)) add_stock(view, id, *stock, lenses);
  }
  std::erase_if(lenses, [](const Lens& lens) { return lens.words.empty(); });
  return lenses;
}

}  // namespace gill::editor
