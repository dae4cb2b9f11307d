#include <algorithm>
#include <map>

#include "base/text.h"
#include "render/document/find_data.h"
#include "render/document/page_names.h"
#include "render/document/pages.h"
#include "render/document/shared_parts.h"
#include "render/wording/numbers.h"
#include "units/money.h"

namespace gill::render::document {

namespace {

using analysis::DrinkId;

class IndexPageBuilder {
 public:
  explicit IndexPageBuilder(const BookIndex& index) : index_(index) {}

  Page build() {
    Page page;
    page.path = "index";
    page.title = index_.house().head.name;
    page.kind = "index";
    page.subtitle = Run("Spec book");
    if (!index_.drinks().empty()) page.finder = finder_of(index_);
    if (!index_.house().head.text.empty()) page.blocks.push_back(Prose{index_.house().head.text});
    for (auto menu : index_.menus()) add_menu(page.blocks, menu);
    add_families(page.blocks);
    add_preps(page.blocks);
    add_ingredients(page.blocks);
    return page;
  }

 private:
  void add_menu(std::vector<Block>& blocks, std::size_t number) {
    const auto& menu = index_.specs().menus[number];
    std::vector<Block> parts;
    if (!menu.runs_from.empty())
      parts.push_back(Paragraph{
          Run("From " + menu.runs_from + (menu.runs_to.empty() ? "" : " to " + menu.runs_to)), Tone::small});
    if (!menu.head.text.empty()) parts.push_back(Prose{menu.head.text});
    std::string anchor = names_.take("menu " + menu.head.name);
    for (const auto& section : menu.sections) {
      List list;
      list.kind = List::Kind::index;
      for (const auto& entry : section.entries)
        if (!index_.path_of(entry.drink).empty()) list.items.push_back({entry_line(entry), {}});
      if (list.items.empty()) continue;
      if (section.name.empty()) {
        parts.push_back(std::move(list));
        continue;
      }
      std::vector<Block> inner;
      if (!section.text.empty()) inner.push_back(Prose{section.text});
      inner.push_back(std::move(list));
      parts.push_back(Section{names_.take(anchor + " " + section.name), Run(section.name), std::move(inner)});
    }
    blocks.push_back(Section{anchor, Run(menu.head.name), std::move(parts)});
  }

  Run entry_line(const analysis::MenuEntry& entry) const {
    Run run = drink_line(entry.drink);
    if (!entry.price) return run;
    const auto& printed = *entry.printed_price();
    run.plain(" · ").number(units::price_digits(printed), printed.currency);
    if (!entry.sold_by.empty()) run.plain(" " + entry.sold_by);
    return run;
  }

  /// Name, glass, strength, allergens.
  Run drink_line(DrinkId id) const {
    const auto& drink = index_.specs()[id];
    const auto& facts = index_.facts()[id];
    Run run = index_.link_to(id);
    if (drink.status == analysis::Status::draft) run.plain(" ").emphasis("draft");
    if (drink.glass.valid()) run.plain(" · " + index_.specs()[drink.glass].head.name);
    if (facts.valid)
      run.plain(" · ").number(wording::fixed(facts.served.abv_percent, 1), "%");
    else
      run.plain(" · ").strong(facts.is_empty ? "nothing goes in yet" : "has an error");
    run.plain(" · ").append(allergens_in_brief(facts.allergens, facts.allergens.known));
    return run;
  }

  void add_families(std::vector<Block>& blocks) {
    std::map<std::pair<std::string, std::uint32_t>, std::vector<DrinkId>> by_family;
    std::vector<DrinkId> without;
    for (auto id : index_.drinks()) {
      auto family = index_.specs()[id].family;
      if (!family.valid())
        without.push_back(id);
      else
        by_family[{base::fold_name(index_.specs()[family].head.name), family.value}].push_back(id);
    }
    std::vector<Block> parts;
    auto add = [&](const std::string& title, const std::vector<DrinkId>& drinks) {
      List list;
      list.kind = List::Kind::index;
      for (auto id : drinks) list.items.push_back({drink_line(id), {}});
      parts.push_back(Section{names_.take("family " + title), Run(title), {std::move(list)}});
    };
    for (const auto& [key, drinks] : by_family)
      add(index_.specs()[analysis::FamilyId{key.second}].head.name, drinks);
    if (!without.empty()) add("Of no family", without);
    add_section(blocks, names_.take("families"), "By family", std::move(parts));
  }

  void add_preps(std::vector<Block>& blocks) {
    std::map<std::string, std::vector<analysis::StockId>> by_station;
    for (auto id : index_.preps()) by_station[index_.specs()[id].station].push_back(id);
    std::vector<Block> parts;
    for (const auto& [station, preps] : by_station) {
      List list;
      list.kind = List::Kind::index;
      for (auto id : preps) {
        const auto& facts = index_.facts()[id];
        Run run = index_.link_to(id);
        run.plain(" · ").append(allergens_in_brief(facts.allergens, facts.allergens.known));
        list.items.push_back({std::move(run), {}});
      }
      std::string title = station.empty() ? std::string("Without a station") : station;
      parts.push_back(Section{names_.take("station " + title), Run(title), {std::move(list)}});
    }
    add_section(blocks, names_.take("preps"), "Preps", std::move(parts));
  }

  void add_ingredients(std::vector<Block>& blocks) {
    std::vector<Run> runs;
    for (auto id : index_.ingredients()) runs.push_back(index_.link_to(id));
    std::vector<Block> parts;
    if (!runs.empty()) parts.push_back(Paragraph{joined(runs, " · "), Tone::normal});
    add_section(blocks, names_.take("ingredients"), "Ingredients", std::move(parts));
  }

  const BookIndex& index_;
  PageNames names_;
};

}  // namespace

Page index_page(const BookIndex& index) { return IndexPageBuilder(index).build(); }

}  // namespace gill::render::document
