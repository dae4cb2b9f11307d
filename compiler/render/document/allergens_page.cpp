#include <algorithm>

#include "model/allergens.h"
#include "render/document/pages.h"
#include "render/document/shared_parts.h"
#include "render/wording/allergen_words.h"
#include "render/wording/unfinished.h"

namespace gill::render::document {

namespace {

using analysis::DrinkId;

/// Every code that a drink of the book holds or may hold, in the order of the house's list, others last.
std::vector<std::string> codes_of(const BookIndex& index) {
  std::vector<std::string> codes;
  for (auto id : index.drinks())
    for (const auto& route : index.facts()[id].allergens.routes)
      if (std::find(codes.begin(), codes.end(), route.code) == codes.end()) codes.push_back(route.code);
  auto list = model::allergen_list(index.house().allergen_list);
  auto key = [&](const std::string& code) {
    return std::pair(model::place_on(list, code), std::string_view(code));
  };
  std::sort(codes.begin(), codes.end(),
            [&](const std::string& a, const std::string& b) { return key(a) < key(b); });
  return codes;
}

Run mark_of(const model::Allergens& allergens, bool known, const std::string& code) {
  for (const auto& route : allergens.routes)
    if (route.code == code) return route.may ? Run("may") : Run().strong("yes");
  return known ? Run("–") : Run().emphasis("not known");
}

Table matrix(const BookIndex& index, const std::vector<std::string>& codes) {
  Table table;
  table.caption = "Drinks by allergen";
  table.is_wide = true;
  table.columns.push_back({"Drink", Align::start});
  for (const auto& code : codes) table.columns.push_back({wording::allergen_short(code), Align::centre});
  for (auto id : index.drinks()) {
    const auto& facts = index.facts()[id];
    bool known = facts.allergens.known;
    std::vector<Cell> row = {{index.link_to(id), {}, 1, true}};
    for (const auto& code : codes) row.push_back({mark_of(facts.allergens, known, code), {}, 1, false});
    table.rows.push_back(std::move(row));
  }
  return table;
}

/// For each allergen, which drinks hold it and which may.
FactList by_allergen(const BookIndex& index, const std::vector<std::string>& codes) {
  FactList facts;
  for (const auto& code : codes) {
    std::vector<Run> present, possible;
    for (auto id : index.drinks())
      for (const auto& route : index.facts()[id].allergens.routes)
        if (route.code == code) (route.may ? possible : present).push_back(index.link_to(id));
    Fact fact{wording::allergen_words(code), {}};
    if (!wording::is_on_list(code, index.house().allergen_list)) fact.term += ", outside the list";
    if (!present.empty()) fact.values.push_back(Run("In ").append(joined(present, ", ")));
    if (!possible.empty()) fact.values.push_back(Run("May be in ").append(joined(possible, ", ")));
    facts.facts.push_back(std::move(fact));
  }
  return facts;
}

/// The drinks of which not everything is known, and what is silent in them.
List not_known(const BookIndex& index) {
  List list;
  for (auto id : index.drinks()) {
    const auto& facts = index.facts()[id];
    if (facts.allergens.known) continue;
    std::vector<Run> silent;
    for (auto stock : facts.allergens.unknown) silent.push_back(index.link_to(stock));
    for (const auto& name : facts.allergens.undeclared) silent.push_back(Run(name));
    Run run = index.link_to(id);
    run.plain(": ");
    if (silent.empty())
      run.plain(std::string(wording::why_not_known(facts.allergens)));
    else
      run.plain("nothing is said of ").append(joined_with_and(silent));
    list.items.push_back({std::move(run), {}});
  }
  return list;
}

}  // namespace

Page allergens_page(const BookIndex& index) {
  Page page;
  page.path = "allergens";
  page.title = "Allergens";
  page.kind = "list";
  page.subtitle = Run("By the " + index.house().allergen_list + " list, in its order");
  Notice notice{Notice::Role::allergens, "Before you answer a guest", {}};
  notice.blocks.push_back(Paragraph{Run(wording::evaluated_line), Tone::lead});
  notice.blocks.push_back(Paragraph{Run(wording::shared_equipment_line), Tone::lead});
  for (const auto& words : index.house().notices)
    notice.blocks.push_back(Paragraph{Run(words), Tone::normal});
  page.blocks.push_back(std::move(notice));
  auto codes = codes_of(index);
  auto unknown = not_known(index);
  if (!unknown.items.empty()) add_section(page.blocks, "not-known", "Not all known", {std::move(unknown)});
  if (codes.empty()) {
    page.blocks.push_back(
        Paragraph{Run("No drink of this book has a declared allergen in its specs."), Tone::normal});
    return page;
  }
  add_section(page.blocks, "by-drink", "By drink",
              {matrix(index, codes), Paragraph{Run("yes: an ingredient declares it. may: it depends on the "
                                                   "maker or on a substitute. –: nothing in the spec "
                                                   "declares it, which is no promise. not known: something "
                                                   "in the drink says nothing of its allergens."),
                                               Tone::small}});
  add_section(page.blocks, "by-allergen", "By allergen", {by_allergen(index, codes)});
  return page;
}

}  // namespace gill::render::document
