#include <fmt/format.h>

#include "render/document/pages.h"
#include "render/document/shared_parts.h"
#include "render/document/stock_parts.h"
#include "render/wording/allergen_words.h"
#include "render/wording/measures.h"
#include "render/wording/numbers.h"

namespace gill::render::document {

namespace {

Run keeps_of(const BookIndex& index, analysis::StockId id) {
  const auto& prep = index.specs()[id];
  const auto& facts = index.facts()[id];
  if (prep.keeps) return keeping_words(*prep.keeps, index.units());
  if (facts.keeps_days)
    return Run(fmt::format("{} days, by its parts", wording::trimmed(*facts.keeps_days, 1)));
  return Run("not said");
}

Run quantity_or_dash(const std::optional<units::Quantity>& quantity, const BookIndex& index) {
  return quantity ? Run(wording::text_of(*quantity, index.units())) : Run("–");
}

}  // namespace

Page prep_list_page(const BookIndex& index) {
  Page page;
  page.path = "preps";
  page.title = "Preps";
  page.kind = "list";
  page.subtitle = Run("How each is kept, how much there should be, and what is in it");
  Table table;
  table.caption = "Preps of the house";
  table.is_wide = true;
  table.columns = {{"Prep", Align::start},     {"Keeps", Align::start},    {"Bottle", Align::end},
                   {"Par", Align::end},        {"Measured", Align::start}, {"Station", Align::start},
                   {"Allergens", Align::start}};
  for (auto id : index.preps()) {
    const auto& prep = index.specs()[id];
    const auto& facts = index.facts()[id];
    Run measured = prep.ph ? Run("pH " + wording::trimmed(*prep.ph, 1)) : Run("–");
    std::vector<Cell> row;
    row.push_back({index.link_to(id), {}, 1, true});
    for (auto& run : std::vector<Run>{keeps_of(index, id), quantity_or_dash(prep.bottle, index),
                                      quantity_or_dash(prep.par, index), std::move(measured),
                                      Run(prep.station.empty() ? "–" : prep.station),
                                      allergens_in_brief(facts.allergens, facts.allergens.known)})
      row.push_back({run, {}, 1, false});
    table.rows.push_back(std::move(row));
  }
  if (table.rows.empty()) {
    page.blocks.push_back(Paragraph{Run("The house declares no prep and uses none."), Tone::normal});
    return page;
  }
  page.blocks.push_back(std::move(table));
  page.blocks.push_back(
      Paragraph{Run(wording::evaluated_line + " " + wording::shared_equipment_line), Tone::small});
  return page;
}

}  // namespace gill::render::document
