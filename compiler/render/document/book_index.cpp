#include "render/document/book_index.h"

#include <algorithm>

#include "base/text.h"
#include "render/document/page_names.h"
#include "render/facts/sort_by_name.h"

namespace gill::render::document {

using analysis::DrinkId;
using analysis::FamilyId;
using analysis::GlassId;
using analysis::IceId;
using analysis::StockId;
using diagnostics::Diagnostic;

namespace {

/// The ids of a table whose declaration is the house's or which are marked.
template <typename Id, typename Table>
std::vector<Id> own_or_marked(const Table& table, const std::vector<bool>& marked) {
  std::vector<Id> ids;
  for (std::size_t i = 0; i < table.size(); ++i)
    if (marked[i] || !table[i].head.from_library) ids.push_back(Id::at(i));
  return ids;
}

}  // namespace

BookIndex::BookIndex(const BookInput& input, bool drafts) : input_(input), usage_(input.specs) {
  choose_pages(drafts);
  choose_glossary();
  name_pages();
  place_on_menus();
  sort_findings();
}

void BookIndex::choose_pages(bool drafts) {
  const auto& specs = input_.specs;
  variations_.resize(specs.drinks.size());
  for (std::size_t i = 0; i < specs.drinks.size(); ++i) {
    const auto& drink = specs.drinks[i];
    bool shown =
        drink.status == analysis::Status::approved || (drafts && drink.status == analysis::Status::draft);
    if (shown && !drink.head.from_library) drinks_.push_back(DrinkId::at(i));
  }
  sort_by_name(drinks_, specs);
  for (auto id : drinks_)
    if (specs[id].like.valid()) variations_[specs[id].like.index()].push_back(id);
  auto used = usage_.of_the_house();
  for (std::size_t i = 0; i < specs.stock.size(); ++i)
    if (used[i]) (specs.stock[i].is_prep ? preps_ : ingredients_).push_back(StockId::at(i));
  sort_by_name(preps_, specs);
  sort_by_name(ingredients_, specs);
}

void BookIndex::choose_glossary() {
  const auto& specs = input_.specs;
  std::vector<bool> glasses(specs.glasses.size()), ices(specs.ices.size()), families(specs.families.size());
  for (auto id : drinks_) {
    const auto& drink = specs[id];
    if (drink.glass.valid()) glasses[drink.glass.index()] = true;
    if (drink.cup.valid()) glasses[drink.cup.index()] = true;
    if (drink.family.valid()) families[drink.family.index()] = true;
    if (drink.ice.use.ice.valid()) ices[drink.ice.use.ice.index()] = true;
    if (input_.facts[id].in_glass.ice.valid()) ices[input_.facts[id].in_glass.ice.index()] = true;
    for (const auto& step : drink.recipe.steps)
      if (step.ice && step.ice->ice.valid()) ices[step.ice->ice.index()] = true;
  }
  glasses_ = own_or_marked<GlassId>(specs.glasses, glasses);
  ices_ = own_or_marked<IceId>(specs.ices, ices);
  families_ = own_or_marked<FamilyId>(specs.families, families);
  sort_by_name(glasses_, specs);
  sort_by_name(ices_, specs);
  sort_by_name(families_, specs);
}

void BookIndex::name_pages() {
  const auto& specs = input_.specs;
  auto name_all = [&](const auto& ids, std::vector<std::string>& paths, std::size_t size,
                      const std::string& prefix) {
    PageNames names;
    paths.resize(size);
    for (auto id : ids) paths[id.index()] = prefix + names.take(specs[id].head.name);
  };
  name_all(drinks_, drink_paths_, specs.drinks.size(), "drinks/");
  name_all(preps_, stock_paths_, specs.stock.size(), "preps/");
  PageNames names;
  for (auto id : ingredients_) stock_paths_[id.index()] = "ingredients/" + names.take(specs[id].head.name);
  name_all(glasses_, glass_anchors_, specs.glasses.size(), "glass-");
  name_all(ices_, ice_anchors_, specs.ices.size(), "ice-");
  name_all(families_, family_anchors_, specs.families.size(), "family-");
}

void BookIndex::place_on_menus() {
  const auto& specs = input_.specs;
  on_menus_.resize(specs.drinks.size());
  for (std::size_t m = 0; m < specs.menus.size(); ++m)
    if (!specs.menus[m].head.from_library) menus_.push_back(m);
  std::sort(menus_.begin(), menus_.end(), [&](std::size_t a, std::size_t b) {
    auto key = [&](std::size_t i) {
      const auto& menu = specs.menus[i];
      return std::tuple(std::string_view(menu.runs_from), std::string_view(menu.runs_to),
                        std::string_view(menu.head.name));
    };
    return key(a) > key(b);
  });
  for (auto m : menus_)
    for (std::size_t s = 0; s < specs.menus[m].sections.size(); ++s)
      for (std::size_t e = 0; e < specs.menus[m].sections[s].entries.size(); ++e)
        on_menus_[specs.menus[m].sections[s].entries[e].drink.index()].push_back({m, s, e});
}

/// A finding belongs to the drink that it names, else to the declaration in which it stands.
void BookIndex::sort_findings() {
  drink_findings_.resize(specs().drinks.size());
  stock_findings_.resize(specs().stock.size());
  // By file, where the line of each declaration's name begins.
  std::map<std::uint32_t, std::vector<std::pair<std::uint32_t, symbols::DeclarationId>>> starts;
  for (std::size_t i = 0; i < input_.names.size(); ++i) {
    auto id = symbols::DeclarationId::at(i);
    const auto& span = input_.names[id].name_span;
    if (!span.file_id.valid()) continue;
    const auto& file = input_.sources[span.file_id];
    starts[span.file_id.value].emplace_back(file.line_starts[file.line_of(span.begin)], id);
  }
  for (auto& [file, places] : starts) std::sort(places.begin(), places.end());
  auto declaration_at = [&](const source::Span& span) -> symbols::DeclarationId {
    auto file = starts.find(span.file_id.value);
    if (file == starts.end()) return {};
    auto after = std::upper_bound(file->second.begin(), file->second.end(),
                                  std::pair(span.begin, symbols::DeclarationId{}));
    return after == file->second.begin() ? symbols::DeclarationId{} : std::prev(after)->second;
  };
  auto file = [&](const Diagnostic& finding) {
    auto id = finding.drink.empty() ? declaration_at(finding.span)
                                    : input_.names.find(symbols::NameSpace::drink, finding.drink);
    if (!id.valid()) return;
    auto kind = input_.names[id].kind;
    std::uint32_t index = specs().index_of[id.index()];
    if (kind == symbols::DeclarationKind::drink) drink_findings_[index].push_back(&finding);
    bool is_stock = kind == symbols::DeclarationKind::prep || kind == symbols::DeclarationKind::ingredient;
    if (is_stock) stock_findings_[index].push_back(&finding);
  };
  for (const auto& finding : input_.findings) file(finding);
  for (const auto& finding : input_.suppressed) file(finding);
}

Run BookIndex::link_to(DrinkId id) const {
  const auto& name = specs()[id].head.name;
  return path_of(id).empty() ? Run(name) : Run().link(name, path_of(id));
}

Run BookIndex::link_to(StockId id, const std::string& words) const {
  const auto& name = words.empty() ? specs()[id].head.name : words;
  return path_of(id).empty() ? Run(name) : Run().link(name, path_of(id));
}

Run BookIndex::link_to(GlassId id) const {
  const auto& name = specs()[id].head.name;
  return anchor_of(id).empty() ? Run(name) : Run().link(name, "glossary", anchor_of(id));
}

Run BookIndex::link_to(IceId id, const std::string& words) const {
  const auto& name = words.empty() ? specs()[id].head.name : words;
  return anchor_of(id).empty() ? Run(name) : Run().link(name, "glossary", anchor_of(id));
}

Run BookIndex::link_to(FamilyId id) const {
  const auto& name = specs()[id].head.name;
  return anchor_of(id).empty() ? Run(name) : Run().link(name, "glossary", anchor_of(id));
}

std::vector<DrinkId> BookIndex::variations_of(DrinkId id) const { return variations_[id.index()]; }

namespace {

template <typename Wanted>
std::vector<const Diagnostic*> chosen(const std::vector<const Diagnostic*>& findings, Wanted wanted) {
  std::vector<const Diagnostic*> result;
  for (const auto* finding : findings)
    if (wanted(*finding)) result.push_back(finding);
  return result;
}

bool is_error(const Diagnostic& finding) { return finding.severity == diagnostics::Severity::error; }
bool is_safety(const Diagnostic& finding) {
  return diagnostics::info(finding.rule).group == diagnostics::RuleGroup::safety;
}

}  // namespace

std::vector<const Diagnostic*> BookIndex::errors_of(DrinkId id) const {
  return chosen(drink_findings_[id.index()], is_error);
}
std::vector<const Diagnostic*> BookIndex::errors_of(StockId id) const {
  return chosen(stock_findings_[id.index()], is_error);
}
bool BookIndex::is_in_error(DrinkId id) const {
  return !facts()[id].valid || specs()[id].head.has_errors || !errors_of(id).empty();
}
bool BookIndex::is_in_error(StockId id) const {
  return !facts()[id].valid || specs()[id].head.has_errors || !errors_of(id).empty();
}
std::vector<const Diagnostic*> BookIndex::safety_of(DrinkId id) const {
  return chosen(drink_findings_[id.index()], is_safety);
}
std::vector<const Diagnostic*> BookIndex::safety_of(StockId id) const {
  return chosen(stock_findings_[id.index()], is_safety);
}

}  // namespace gill::render::document
