#include "symbols/symbol_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <tuple>

#include "base/text.h"

namespace gill::symbols {
namespace {

constexpr std::array<std::string_view, 10> keywords = {"house", "unit",   "ingredient", "prep",   "glass",
                                                       "ice",   "family", "drink",      "prices", "menu"};
static_assert(name_space_count == static_cast<std::size_t>(NameSpace::menu) + 1);
static_assert(keywords.size() == static_cast<std::size_t>(DeclarationKind::menu) + 1);

// No name is longer; what is, is not looked for by its words.
constexpr std::size_t longest_name_bytes = 200;

/// The words of a folded name in alphabetical order: the same for `rye whiskey` and `whiskey rye`.
std::string sorted_words(std::string_view folded) {
  std::vector<std::string> words;
  while (!folded.empty()) {
    auto end = std::min(folded.find(' '), folded.size());
    words.emplace_back(folded.substr(0, end));
    folded.remove_prefix(std::min(end + 1, folded.size()));
  }
  std::sort(words.begin(), words.end());
  return base::join(words, " ");
}

}  // namespace

std::string_view keyword_of(DeclarationKind kind) { return keywords[static_cast<std::size_t>(kind)]; }

NameSpace name_space_of(DeclarationKind kind) {
  switch (kind) {
    case DeclarationKind::house:
      return NameSpace::house;
    case DeclarationKind::unit:
      return NameSpace::unit;
    case DeclarationKind::ingredient:
    case DeclarationKind::prep:
      return NameSpace::stock;
    case DeclarationKind::glass:
      return NameSpace::glass;
    case DeclarationKind::ice:
      return NameSpace::ice;
    case DeclarationKind::family:
      return NameSpace::family;
    case DeclarationKind::drink:
      return NameSpace::drink;
    case DeclarationKind::prices:
      return NameSpace::prices;
    case DeclarationKind::menu:
      return NameSpace::menu;
  }
  return NameSpace::stock;
}

std::string_view noun_of(NameSpace space) {
  switch (space) {
    case NameSpace::house:
      return "house";
    case NameSpace::unit:
      return "unit";
    case NameSpace::stock:
      return "ingredient or prep";
    case NameSpace::glass:
      return "glass";
    case NameSpace::ice:
      return "ice";
    case NameSpace::family:
      return "family";
    case NameSpace::drink:
      return "drink";
    case NameSpace::prices:
      return "price list";
    case NameSpace::menu:
      return "menu";
  }
  return "";
}

DeclarationId SymbolTable::find(NameSpace space, std::string_view name) const {
  return find_folded(space, base::fold_name(name));
}

std::uint64_t number_of(NameSpace space, std::string_view folded) {
  return std::hash<std::string_view>()(folded) * name_space_count + static_cast<std::uint64_t>(space);
}

DeclarationId SymbolTable::find_folded(NameSpace space, const std::string& folded) const {
  if (asked_) asked_->names.push_back(number_of(space, folded));
  const auto& house = names_of_house_[static_cast<std::size_t>(space)];
  if (auto found = house.find(folded); found != house.end()) return found->second;
  const auto& library = names_of_library_[static_cast<std::size_t>(space)];
  auto found = library.find(folded);
  if (found == library.end()) return {};
  // A house's lime is what its `limes` are, too: the library's other names go with the name that the house
  // has taken.
  if (!house.empty() || asked_) {
    auto name_of_library = base::fold_name(declarations_[found->second.index()].name);
    if (asked_) asked_->names.push_back(number_of(space, name_of_library));
    if (auto own = house.find(name_of_library); own != house.end()) return own->second;
  }
  return found->second;
}

const SymbolTable::Index& SymbolTable::index_of(NameSpace space) const {
  auto& index = index_[static_cast<std::size_t>(space)];
  if (index) return *index;
  index.emplace();
  for (const auto* table : {names_of_house_, names_of_library_})
    for (const auto& [folded, id] : table[static_cast<std::size_t>(space)])
      index->names.push_back({folded, base::bytes_in(folded), id});
  // Ties fall to the least name.
  std::sort(index->names.begin(), index->names.end(), [](const auto& a, const auto& b) {
    return std::tie(a.folded, a.id.value) < std::tie(b.folded, b.id.value);
  });
  for (const auto& [folded, bytes, id] : index->names)
    if (folded.size() <= longest_name_bytes) index->by_words.try_emplace(sorted_words(folded), id);
  return *index;
}

std::optional<std::string> SymbolTable::nearest(NameSpace space, std::string_view name) const {
  if (asked_) ++asked_->questions;
  if (asked_ && questions_left_ <= 0) ++asked_->refused;
  if (questions_left_ <= 0) return std::nullopt;
  --questions_left_;
  base::NearestWord nearest(base::fold_name(name));
  for (const auto& [folded, bytes, id] : index_of(space).names) nearest.consider(folded, bytes, folded);
  if (!nearest.best()) return std::nullopt;
  const Declaration& declaration = (*this)[find_folded(space, *nearest.best())];
  for (const auto& alias : declaration.aliases)
    if (base::fold_name(alias.name) == *nearest.best()) return alias.name;
  return declaration.name;
}

std::optional<std::string> SymbolTable::same_words(NameSpace space, std::string_view name) const {
  if (asked_) asked_->same_words = true;
  if (name.size() > longest_name_bytes) return std::nullopt;
  const auto& by_words = index_of(space).by_words;
  auto found = by_words.find(sorted_words(base::fold_name(name)));
  if (found == by_words.end()) return std::nullopt;
  return (*this)[found->second].name;
}

std::string dump(const SymbolTable& names, const source::SourceSet& sources) {
  std::string out;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const Declaration& declaration = names[DeclarationId::at(i)];
    if (declaration.from_library) continue;
    const auto& file = sources[declaration.name_span.file_id];
    out += fmt::format("{} {} ({}:{})", keyword_of(declaration.kind), declaration.name, file.path,
                       file.place_of(declaration.name_span).line);
    if (declaration.like.valid())
      out += fmt::format(" like {}{}", names[declaration.like].name,
                         names[declaration.like].from_library ? " of the library" : "");
    for (const auto& alias : declaration.aliases) out += fmt::format("\n  aka {}", alias.name);
    out += '\n';
  }
  return out;
}

}  // namespace gill::symbols
