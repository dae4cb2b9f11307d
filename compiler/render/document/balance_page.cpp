#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "base/percent.h"
#include "base/text.h"
#include "render/document/page_names.h"
#include "render/document/pages.h"
#include "render/document/shared_parts.h"
#include "render/drawing/balance_chart.h"
#include "render/wording/numbers.h"

namespace gill::render::document {

namespace {

using analysis::DrinkId;

class BalancePageBuilder {
 public:
  explicit BalancePageBuilder(const BookIndex& index) : index_(index) {}

  Page build() {
    Page page;
    page.path = "balance";
    page.title = "Balance";
    page.kind = "balance";
    page.subtitle =
        Run("Each menu by strength and by sugar to acid, as served; dashed outlines are what the house means "
            "by a family");
    for (auto menu : index_.menus()) add_menu(page.blocks, index_.specs().menus[menu]);
    if (index_.menus().empty()) add_chart(page.blocks, "drinks", "All drinks", index_.drinks());
    if (page.blocks.empty())
      page.blocks.push_back(Paragraph{Run("There is no drink to show."), Tone::normal});
    return page;
  }

 private:
  void add_menu(std::vector<Block>& blocks, const analysis::Menu& menu) {
    std::vector<DrinkId> drinks;
    for (const auto& section : menu.sections)
      for (const auto& entry : section.entries)
        if (!index_.path_of(entry.drink).empty() &&
            std::find(drinks.begin(), drinks.end(), entry.drink) == drinks.end())
          drinks.push_back(entry.drink);
    add_chart(blocks, names_.take("menu " + menu.head.name), menu.head.name, drinks);
  }

  void add_chart(std::vector<Block>& blocks, const std::string& anchor, const std::string& title,
                 const std::vector<DrinkId>& drinks) {
    std::vector<DrinkId> valid;
    std::vector<Run> invalid;
    for (auto id : drinks) {
      bool works = index_.facts()[id].valid;
      if (works)
        valid.push_back(id);
      else
        invalid.push_back(index_.link_to(id));
    }
    std::vector<Block> parts;
    if (!valid.empty()) {
      parts.push_back(chart(title, valid));
      parts.push_back(table(title, valid));
    }
    if (!invalid.empty())
      parts.push_back(Paragraph{Run("Not shown, for there is an error in it: ").append(joined(invalid, ", ")),
                                Tone::normal});
    add_section(blocks, anchor, title, std::move(parts));
  }

  Figure chart(const std::string& title, const std::vector<DrinkId>& drinks) const {
    std::vector<drawing::ChartPoint> points;
    for (std::size_t i = 0; i < drinks.size(); ++i) points.push_back(point(i + 1, drinks[i]));
    Figure figure;
    figure.scene = drawing::draw_balance_chart(points, areas(drinks));
    figure.scene.title = title + " by strength and balance";
    figure.scene.description = fmt::format(
        "{} drinks by strength as served and by sugar to acid. The table below says the same in figures.",
        drinks.size());
    figure.caption = Run("Numbers are those of the table. Bars: where the figure may lie.");
    return figure;
  }

  drawing::ChartPoint point(std::size_t number, DrinkId id) const {
    const auto& facts = index_.facts()[id];
    drawing::ChartPoint point;
    point.number = fmt::format("{}", number);
    point.name = index_.specs()[id].head.name;
    point.strength_percent = facts.served.abv_percent;
    point.strength_tolerance = facts.tolerance.abv_percent;
    point.balance = facts.served.sugar_acid_ratio();
    point.balance_tolerance = facts.tolerance.sugar_acid_ratio;
    point.link = {index_.path_of(id), point.name};
    return point;
  }

  /// The families of the drinks that say what strength and balance they mean, each once.
  std::vector<drawing::ChartArea> areas(const std::vector<DrinkId>& drinks) const {
    std::vector<analysis::FamilyId> families;
    for (auto id : drinks) {
      auto family = index_.specs()[id].family;
      if (family.valid() && std::find(families.begin(), families.end(), family) == families.end())
        families.push_back(family);
    }
    std::vector<drawing::ChartArea> areas;
    for (auto id : families) {
      const auto& family = index_.specs()[id];
      if (!family.strength || !family.balance) continue;
      areas.push_back({family.head.name, base::percent_of_share(family.strength->low),
                       base::percent_of_share(family.strength->high), family.balance->low,
                       family.balance->high});
    }
    return areas;
  }

  Table table(const std::string& title, const std::vector<DrinkId>& drinks) const {
    Table table;
    table.caption = title + ", as served";
    table.is_wide = true;
    table.columns = {{"No.", Align::end},
                     {"Drink", Align::start},
                     {"Family", Align::start},
                     {"Strength, % abv", Align::end},
                     {"Sugar, g/100 ml", Align::end},
                     {"Acid, g/100 ml", Align::end},
                     {"Sugar to acid", Align::end}};
    for (std::size_t i = 0; i < drinks.size(); ++i) {
      const auto& facts = index_.facts()[drinks[i]];
      const auto& family = index_.specs()[drinks[i]].family;
      auto ratio = facts.served.sugar_acid_ratio();
      std::vector<Run> cells = {
          Run(fmt::format("{}", i + 1)),
          index_.link_to(drinks[i]),
          family.valid() ? index_.link_to(family) : Run("–"),
          Run(wording::with_tolerance(facts.served.abv_percent, facts.tolerance.abv_percent, 1)),
          Run(wording::with_tolerance(facts.served.sugar_g_per_100ml, facts.tolerance.sugar_g_per_100ml, 1)),
          Run(wording::with_tolerance(facts.served.acid_g_per_100ml, facts.tolerance.acid_g_per_100ml, 2)),
          ratio ? Run(wording::with_tolerance(*ratio, facts.tolerance.sugar_acid_ratio, 1))
                : Run("next to no acid")};
      std::vector<Cell> row;
      for (std::size_t cell = 0; cell < cells.size(); ++cell) row.push_back({cells[cell], {}, 1, cell == 1});
      table.rows.push_back(std::move(row));
    }
    return table;
  }

  const BookIndex& index_;
  PageNames names_;
};

}  // namespace

Page balance_page(const BookIndex& index) { return BalancePageBuilder(index).build(); }

}  // namespace gill::render::document
