#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/percent.h"
#include "base/text.h"
#include "render/document/pages.h"
#include "render/document/shared_parts.h"
#include "render/document/stock_parts.h"
#include "render/drawing/drink_picture.h"
#include "render/wording/measures.h"
#include "render/wording/numbers.h"

namespace gill::render::document {

using wording::trimmed;

namespace {

class GlossaryBuilder {
 public:
  explicit GlossaryBuilder(const BookIndex& index) : index_(index) {}

  Page build() {
    Page page;
    page.path = "glossary";
    page.title = "Glossary";
    page.kind = "glossary";
    page.subtitle = Run("The glasses, measures and ices of the house, and what it means by each family");
    add_section(page.blocks, "measures", "Measures", measures());
    add_section(page.blocks, "glasses", "Glasses", all(index_.glasses(), [&](auto id) { return glass(id); }));
    add_section(page.blocks, "ices", "Ice", all(index_.ices(), [&](auto id) { return ice(id); }));
    add_section(page.blocks, "families", "Families",
                all(index_.families(), [&](auto id) { return family(id); }));
    return page;
  }

 private:
  template <typename Ids, typename Function>
  std::vector<Block> all(const Ids& ids, Function section) const {
    std::vector<Block> blocks;
    for (auto id : ids) blocks.push_back(section(id));
    return blocks;
  }

  /// The drinks for which something holds, as links.
  template <typename Test>
  Run drinks_with(Test test) const {
    std::vector<Run> runs;
    for (auto id : index_.drinks())
      if (test(index_.specs()[id])) runs.push_back(index_.link_to(id));
    return joined(runs, ", ");
  }

  Block glass(analysis::GlassId id) const {
    const auto& glass = index_.specs()[id];
    std::vector<Block> blocks;
    auto drawn = drawing::draw_glass(glass);
    drawn.scene.title = glass.head.name;
    drawn.scene.description =
        fmt::format("The glass {}, cut through the middle, with its line.", glass.head.name);
    blocks.push_back(
        Figure{std::move(drawn.scene), Run(fmt::format("Scale 1 : {}", trimmed(drawn.scale, 1)))});
    if (!glass.head.text.empty()) blocks.push_back(Prose{glass.head.text});
    FactList facts;
    if (glass.holds) add_fact(facts, "Holds, to the brim", both_units(*glass.holds));
    if (glass.line) add_fact(facts, "Line", both_units(*glass.line));
    if (glass.material != "glass") add_fact(facts, "Made of", Run(glass.material));
    add_fact(facts, "Drinks",
             drinks_with([&](const analysis::Drink& drink) { return drink.glass == id || drink.cup == id; }));
    if (!facts.facts.empty()) blocks.push_back(std::move(facts));
    return Section{index_.anchor_of(id), Run(glass.head.name), std::move(blocks)};
  }

  /// A quantity in each of the house's units of its kind.
  Run both_units(const units::Quantity& quantity) const {
    Run run;
    for (auto id : index_.house().show_drinks) {
      const auto& unit = index_.units()[id];
      if (unit.kind != quantity.kind) continue;
      auto measure = wording::measure_converted(quantity, unit);
      if (!run.empty()) run.plain(", ");
      run.number(measure.number, measure.unit);
    }
    return run.empty() ? Run(wording::text_of(quantity, index_.units())) : run;
  }

  Block ice(analysis::IceId id) const {
    const auto& ice = index_.specs()[id];
    std::vector<Block> blocks;
    if (!ice.head.text.empty()) blocks.push_back(Prose{ice.head.text});
    FactList facts;
    if (ice.each) add_fact(facts, "One piece", Run(wording::text_of(*ice.each, index_.units())));
    add_fact(facts, "Melts",
             Run(fmt::format("{} % as readily as cubed ice", trimmed(base::percent_of_share(ice.melt), 0))));
    add_fact(facts, "Drinks", drinks_with([&](const analysis::Drink& drink) {
               return drink.ice.kind == analysis::GlassIce::Kind::given && drink.ice.use.ice == id;
             }));
    blocks.push_back(std::move(facts));
    return Section{index_.anchor_of(id), Run(ice.head.name), std::move(blocks)};
  }

  Block family(analysis::FamilyId id) const {
    const auto& family = index_.specs()[id];
    std::vector<Block> blocks;
    if (!family.head.text.empty()) blocks.push_back(Prose{family.head.text});
    FactList facts;
    if (family.ice) add_fact(facts, "Ice", Run(index_.specs()[family.ice->ice].head.name));
    if (family.method) add_fact(facts, "Method", Run(std::string(analysis::info(*family.method).name)));
    auto add = [&](const std::string& term, const std::optional<units::Quantity>& range) {
      if (range) add_fact(facts, term, Run(wording::text_of(*range, index_.units())));
    };
    add("Strength", family.strength);
    add("Sugar", family.sugar);
    add("Acid, as citric", family.acid);
    add("Balance, sugar to acid", family.balance);
    add("Volume", family.volume);
    add_fact(facts, "Drinks", drinks_with([&](const analysis::Drink& drink) { return drink.family == id; }));
    if (!facts.facts.empty()) blocks.push_back(std::move(facts));
    return Section{index_.anchor_of(id), Run(family.head.name), std::move(blocks)};
  }

  std::vector<Block> measures() const {
    std::vector<Block> blocks;
    if (auto table = jiggers(); !table.rows.empty()) blocks.push_back(std::move(table));
    if (auto table = small_measures(); !table.rows.empty()) blocks.push_back(std::move(table));
    return blocks;
  }

  /// The jiggers in each of the house's units.
  Table jiggers() const {
    Table table;
    table.caption = "Jiggers";
    for (auto id : index_.house().show_drinks)
      table.columns.push_back({index_.units()[id].symbol, Align::end});
    if (table.columns.empty()) return table;
    for (const auto& quantity : index_.house().measures) {
      std::vector<Cell> row;
      for (auto id : index_.house().show_drinks) {
        const auto& unit = index_.units()[id];
        auto measure = quantity.unit == id ? wording::measure_as_given(quantity, index_.units())
                                           : wording::measure_converted(quantity, unit);
        row.push_back({Run().number(measure.number, measure.unit), {}, 1, false});
      }
      table.rows.push_back(std::move(row));
    }
    return table;
  }

  /// What a dash, a barspoon and a house's own measure come to: those that the specs use.
  Table small_measures() const {
    Table table;
    table.caption = "Small and house measures";
    table.columns = {{"Measure", Align::start}, {"Comes to", Align::end}, {"Give or take", Align::end}};
    for (auto id : used_units()) {
      const auto& unit = index_.units()[id];
      double size = base::to_double(unit.factor);
      auto ml = unit.kind == units::Kind::mass ? "g" : "ml";
      Run tolerance =
          unit.tolerance ? Run().number(trimmed(base::percent_of_share(*unit.tolerance), 0), "%") : Run("–");
      table.rows.push_back({{Run("1 " + unit.symbol), {}, 1, true},
                            {Run().number(trimmed(size, 2), ml), {}, 1, false},
                            {std::move(tolerance), {}, 1, false}});
    }
    return table;
  }

  /// Units of volume or mass that the book's recipes use and that are neither metric nor the house's columns.
  std::vector<units::UnitId> used_units() const {
    std::vector<bool> used(index_.units().size());
    auto mark = [&](const std::optional<units::Quantity>& quantity) {
      if (quantity && quantity->unit.valid()) used[quantity->unit.index()] = true;
    };
    auto mark_recipe = [&](const analysis::Recipe& recipe) {
      for (const auto& amount : recipe.amounts) mark(amount.quantity);
      for (const auto& step : recipe.steps) mark(step.amount);
    };
    for (auto id : index_.drinks()) mark_recipe(index_.specs()[id].recipe);
    for (auto id : index_.preps()) mark_recipe(index_.specs()[id].recipe);
    std::vector<units::UnitId> result;
    for (std::size_t i = 0; i < used.size(); ++i) {
      auto id = units::UnitId::at(i);
      const auto& unit = index_.units()[id];
      bool measures = unit.kind == units::Kind::volume || unit.kind == units::Kind::mass;
      bool metric =
          wording::is_metric_volume(unit) || unit.symbol == "g" || unit.symbol == "kg" || unit.symbol == "mg";
      const auto& show = index_.house().show_drinks;
      bool shown = std::find(show.begin(), show.end(), id) != show.end();
      if (used[i] && measures && !metric && !shown) result.push_back(id);
    }
    std::sort(result.begin(), result.end(),
              [&](auto a, auto b) { return index_.units()[a].symbol < index_.units()[b].symbol; });
    return result;
  }

  const BookIndex& index_;
};

}  // namespace

Page glossary_page(const BookIndex& index) { return GlossaryBuilder(index).build(); }

}  // namespace gill::render::document
