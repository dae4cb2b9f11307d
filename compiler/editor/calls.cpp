#include "editor/calls.h"

#include <algorithm>

#include "render/book/usage.h"

namespace gill::editor {
namespace {

/// Where a declaration names a thing; its header where `like` brought the line.
std::vector<Span> places_in(const HouseView& view, DeclarationId holder, DeclarationId named) {
  const auto& declaration = view.house().names[holder];
  auto extent = view.extent(view.house().files[declaration.file_index], declaration.declaration_index);
  std::vector<Span> places;
  for (const auto& place : view.names().of(named))
    if (place.span.file_id == extent.file_id && place.span.begin >= extent.begin &&
        place.span.end <= extent.end)
      places.push_back(place.span);
  if (places.empty()) places.push_back(declaration.name_span);
  return places;
}

}  // namespace

std::vector<Need> needs(const HouseView& view, DeclarationId id) {
  const auto* recipe = view.recipe(id);
  std::vector<Need> found;
  if (!recipe) return found;
  for (auto part : render::Usage::parts_of(*recipe)) {
    auto needed = view.specs()[part].head.declaration_id;
    found.push_back({needed, places_in(view, id, needed)});
  }
  return found;
}

std::vector<Need> needed_by(const HouseView& view, DeclarationId id) {
  std::vector<Need> found;
  auto stock = view.stock(id);
  if (!stock) return found;
  const auto& users = view.book().usage().direct(*stock);
  auto add = [&](DeclarationId user) {
    if (user.valid()) found.push_back({user, places_in(view, user, id)});
  };
  for (auto prep : users.preps) add(view.specs()[prep].head.declaration_id);
  for (auto drink : users.drinks) add(view.specs()[drink].head.declaration_id);
  return found;
}

}  // namespace gill::editor
