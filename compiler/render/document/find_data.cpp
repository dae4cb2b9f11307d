#include "render/document/find_data.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "base/percent.h"
#include "base/text.h"
#include "model/allergens.h"
#include "model/entries.h"
#include "render/wording/allergen_words.h"

namespace gill::render::document {

using analysis::DrinkId;
using analysis::StockId;
using nlohmann::json;

namespace {

// Less alcohol than this, g, is no base: a dash of bitters holds a third of it. Common practice, no source.
constexpr double min_base_g = 0.8;
// What is sold as alcohol-free may hold so much, % abv: the United Kingdom's and the European Union's usual
// limit.
constexpr double max_free_abv_percent = 0.5;

/// Whether the simulation agrees that a drink declared as alcohol-free is so.
bool is_alcohol_free(const BookIndex& index, DrinkId id) {
  const auto& drink = index.specs()[id];
  const auto& facts = index.facts()[id];
  if (!drink.alcohol || drink.alcohol->high > base::share_of_percent(max_free_abv_percent) + 1e-9)
    return false;
  return facts.valid && facts.served.abv_percent <= max_free_abv_percent;
}

std::string name_of_glass(const BookIndex& index, const analysis::Drink& drink) {
  return drink.glass.valid() ? index.specs()[drink.glass].head.name : std::string();
}

std::string name_of_family(const BookIndex& index, const analysis::Drink& drink) {
  return drink.family.valid() ? index.specs()[drink.family].head.name : std::string();
}

std::vector<Choice> choices_of(const std::set<std::string>& words) {
  std::vector<std::pair<std::string, std::string>> sorted;
  for (const auto& word : words)
    if (!word.empty()) sorted.emplace_back(base::fold_name(word), word);
  std::sort(sorted.begin(), sorted.end());
  std::vector<Choice> choices;
  for (const auto& [key, word] : sorted) choices.push_back({word, word});
  return choices;
}

/// The headings of the house's list, each with what drinks and their parts hold of it below, and others at
/// the end.
std::vector<std::string> allergens_to_avoid(const BookIndex& index) {
  std::set<std::string> codes;
  auto collect = [&](const model::Allergens& allergens) {
    for (const auto& route : allergens.routes) codes.insert(route.code);
  };
  for (auto id : index.drinks()) collect(index.facts()[id].allergens);
  for (auto id : index.preps()) collect(index.facts()[id].allergens);
  for (auto id : index.ingredients()) collect(index.facts()[id].allergens);
  std::vector<std::string> result;
  for (auto heading : model::allergen_list(index.house().allergen_list)) {
    result.emplace_back(heading);
    for (const auto& code : codes)
      if (code != heading && model::is_under(code, heading)) result.push_back(code);
  }
  for (const auto& code : codes)
    if (std::find(result.begin(), result.end(), code) == result.end()) result.push_back(code);
  return result;
}

class FindDataWriter {
 public:
  explicit FindDataWriter(const BookIndex& index) : index_(index), places_(index.specs().stock.size(), -1) {}

  std::string write() {
    json book;
    book["stock"] = json::array();
    for (auto id : index_.preps()) add_stock(book["stock"], id, "prep");
    for (auto id : index_.ingredients()) add_stock(book["stock"], id, "ingredient");
    book["drinks"] = json::array();
    for (auto id : index_.drinks()) book["drinks"].push_back(drink(id));
    book["allergens"] = json::object();
    for (const auto& code : allergens_to_avoid(index_))
      book["allergens"][code] = wording::allergen_short(code);
    return "gillBook(" + book.dump(-1, ' ', false, json::error_handler_t::replace) + ");\n";
  }

 private:
  void add_stock(json& list, StockId id, const std::string& kind) {
    const auto& stock = index_.specs()[id];
    places_[id.index()] = static_cast<int>(list.size());
    json page = {{"name", stock.head.name}, {"kind", kind}, {"path", index_.path_of(id)}, {"aka", stock.aka}};
    add_allergens(page, index_.facts()[id].allergens);
    list.push_back(std::move(page));
  }

  json drink(DrinkId id) const {
    const auto& drink = index_.specs()[id];
    const auto& facts = index_.facts()[id];
    json page = {{"name", drink.head.name},
                 {"kind", "drink"},
                 {"path", index_.path_of(id)},
                 {"was", drink.was},
                 {"tags", drink.tags},
                 {"family", name_of_family(index_, drink)},
                 {"base", base_of(index_, id)},
                 {"glass", name_of_glass(index_, drink)},
                 {"known", facts.allergens.known},
                 {"free", is_alcohol_free(index_, id)},
                 {"uses", uses_of(id)}};
    std::set<std::string> menus;
    for (const auto& place : index_.places_on_menus(id))
      menus.insert(index_.specs().menus[place.menu].head.name);
    page["menus"] = menus;
    add_allergens(page, facts.allergens);
    return page;
  }

  /// The places in `stock` of all that is in it, to any depth, permitted substitutes included.
  std::vector<int> uses_of(DrinkId id) const {
    std::set<int> uses;
    for (auto stock :
         Usage::everything_in(index_.specs()[id].recipe, index_.facts()[id].uses, index_.facts()))
      if (places_[stock.index()] >= 0) uses.insert(places_[stock.index()]);
    return {uses.begin(), uses.end()};
  }

  static void add_allergens(json& page, const model::Allergens& allergens) {
    page["has"] = allergens.present();
    page["may"] = allergens.possible();
  }

  const BookIndex& index_;
  std::vector<int> places_;
};

}  // namespace

std::string base_of(const BookIndex& index, DrinkId id) {
  const auto strongest = model::strongest_part(index.facts()[id].entries, index.facts());
  if (strongest.ethanol_g < min_base_g) return {};
  StockId part = strongest.entry->use.stock;
  // A prep is asked for its own strongest part; a circle of preps ends with the number of them.
  for (std::size_t depth = 0; depth < index.specs().stock.size() && index.specs()[part].is_prep; ++depth) {
    const auto inner = model::strongest_part(index.facts()[part].entries, index.facts());
    if (!inner.entry) break;
    part = inner.entry->use.stock;
  }
  const auto& names = index.input().names;
  auto name = index.specs()[part].head.declaration_id;
  for (std::size_t depth = 0; depth < names.size() && names[name].like.valid() && !names[name].from_library;
       ++depth)
    name = names[name].like;
  return names[name].name;
}

Finder finder_of(const BookIndex& index) {
  Finder finder;
  std::set<std::string> families, bases, glasses;
  for (auto id : index.drinks()) {
    const auto& drink = index.specs()[id];
    families.insert(name_of_family(index, drink));
    glasses.insert(name_of_glass(index, drink));
    bases.insert(base_of(index, id));
  }
  for (auto menu : index.menus())
    finder.menus.push_back({index.specs().menus[menu].head.name, index.specs().menus[menu].head.name});
  finder.families = choices_of(families);
  finder.bases = choices_of(bases);
  finder.glasses = choices_of(glasses);
  for (const auto& code : allergens_to_avoid(index))
    finder.allergens.push_back({wording::allergen_words(code), code});
  finder.allergen_note =
      wording::shared_equipment_line +
      " Listed is what has no declaration; what may hold it and what is not all known are left "
      "out. " +
      wording::evaluated_line;
  return finder;
}

std::string find_data(const BookIndex& index) { return FindDataWriter(index).write(); }

}  // namespace gill::render::document
