#include "editor/language_words.h"

#include <fmt/format.h>

#include "analysis/declaration_reader.h"
#include "analysis/verbs.h"

namespace gill::editor {

using symbols::DeclarationKind;

namespace {

constexpr DeclarationKind all_kinds[] = {
    DeclarationKind::house, DeclarationKind::unit,   DeclarationKind::ingredient, DeclarationKind::prep,
    DeclarationKind::glass, DeclarationKind::ice,    DeclarationKind::family,     DeclarationKind::drink,
    DeclarationKind::menu,  DeclarationKind::prices,
};

std::vector<std::string_view> property_words(DeclarationKind kind) {
  switch (kind) {
    case DeclarationKind::house:
      return analysis::house_keywords();
    case DeclarationKind::ingredient:
      return analysis::ingredient_keywords();
    case DeclarationKind::prep:
      return analysis::prep_keywords();
    case DeclarationKind::glass:
      return analysis::glass_keywords();
    case DeclarationKind::ice:
      return analysis::ice_keywords();
    case DeclarationKind::family:
      return analysis::family_keywords();
    case DeclarationKind::drink:
      return analysis::drink_keywords();
    case DeclarationKind::menu:
      return analysis::menu_keywords();
    case DeclarationKind::prices:
      return {"from", "source"};
    case DeclarationKind::unit:
      return {"aka", "source"};
  }
  return {};
}

}  // namespace

bool is_recipe(DeclarationKind kind) {
  return kind == DeclarationKind::drink || kind == DeclarationKind::prep;
}

std::vector<std::string_view> line_words(DeclarationKind kind) {
  auto words = property_words(kind);
  // What changes the recipe that this one is like.
  if (is_recipe(kind)) words.insert(words.end(), {"swap", "without", "method"});
  words.push_back(allow_word);
  return words;
}

std::string dump_words(const units::UnitTable& units) {
  std::string text;
  for (auto kind : all_kinds) text += fmt::format("declaration {}\n", symbols::keyword_of(kind));
  for (auto kind : all_kinds)
    for (auto word : line_words(kind)) text += fmt::format("line {} {}\n", symbols::keyword_of(kind), word);
  for (const auto& verb : analysis::all_verbs()) text += fmt::format("step {}\n", verb.name);
  for (const auto& spelling : units.spellings()) text += fmt::format("unit {}\n", spelling);
  return text;
}

}  // namespace gill::editor
