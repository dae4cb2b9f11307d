// The stock report in its forms.
#include <fmt/format.h>

#include "base/csv_reader.h"
#include "base/json.h"
#include "costing/words.h"
#include "render/wording/numbers.h"
#include "stock/stock_report.h"
#include "units/money.h"

namespace gill::stock {

using namespace render::document;

namespace {

using base::Json;
using base::number_or_null;

Json amount_json(const StockAmount& amount) {
  return {{"ml", number_or_null(amount.ml)},
          {"g", amount.grams != 0 ? Json(amount.grams) : Json(nullptr)},
          {"count", number_or_null(amount.count)}};
}

std::string text_of(const StockAmount& amount) {
  if (amount.ml) return *amount.ml < 0 ? "−" + amount_text(-*amount.ml, 0, 0) : amount_text(amount.ml, 0, 0);
  if (amount.count) return render::wording::trimmed(*amount.count, 1);
  return (amount.grams < 0 ? "−" : "") + amount_text(std::nullopt, std::abs(amount.grams), 0);
}

Cell cell(std::string text) { return Cell{Run(std::move(text)), {}, 1, false}; }
Cell name_cell(StockId stock, const House& house) {
  return Cell{Run(house.specs[stock].head.name), {}, 1, true};
}

Section count_section(const StockReport& report, const House& house) {
  Section section{"count", Run("Count"), {}};
  section.blocks.emplace_back(Paragraph{Run("A number alone is so many of what is counted by; else write the "
                                            "unit: 12 bottles, 2 cases, 1.5 kg."),
                                        Tone::small});
  std::size_t at = 0;
  while (at < report.lines.size()) {
    const std::string place = report.lines[at].place;
    Table table;
    table.caption = place;
    table.columns = {{"", Align::start},
                     {"what", Align::start},
                     {"counted by", Align::start},
                     {"counted", Align::end},
                     {"value", Align::end}};
    Exact total = 0;
    bool any = false;
    for (; at < report.lines.size() && report.lines[at].place == place; ++at) {
      const auto& line = report.lines[at];
      if (line.value) {
        total += *line.value;
        any = true;
      }
      table.rows.push_back({cell(std::string(tick_box)), name_cell(line.stock, house), cell(line.pack),
                            cell(line.counted ? text_of(*line.counted) : "________"),
                            cell(line.value ? units::money_text({*line.value, report.currency}) : "")});
    }
    if (any)
      table.rows.push_back({cell(""), cell("together"), cell(""), cell(""),
                            cell(units::money_text({total, report.currency}))});
    section.blocks.emplace_back(std::move(table));
  }
  return section;
}

Section usage_section(const StockReport& report, const House& house) {
  Section section{"usage", Run("What should have been used, and what went"), {}};
  Table table;
  table.is_wide = true;
  table.columns = {{"what", Align::start},     {"should", Align::end}, {"went", Align::end},
                   {"difference", Align::end}, {"%", Align::end},      {"worth", Align::end}};
  for (const auto& line : report.usage) {
    std::string difference = "—", percent = "—", worth = "—";
    if (line.difference_g && line.should.grams != 0) {
      StockAmount amount = line.should;
      double factor = *line.difference_g / line.should.grams;
      if (amount.ml) *amount.ml *= factor;
      if (amount.count) *amount.count *= factor;
      amount.grams = *line.difference_g;
      difference = text_of(amount);
    } else if (line.went) {
      difference = text_of(*line.went);
    }
    if (line.difference_percent) percent = render::wording::fixed(*line.difference_percent, 1);
    if (line.difference_value) worth = units::money_text({*line.difference_value, report.currency});
    table.rows.push_back({name_cell(line.stock, house), cell(text_of(line.should)),
                          cell(line.went ? text_of(*line.went) : "—"), cell(difference), cell(percent),
                          cell(worth)});
  }
  if (!table.rows.empty()) section.blocks.emplace_back(std::move(table));
  return section;
}

}  // namespace

std::string stock_json(const StockReport& report, const House& house) {
  Json root = {
      {"format", "gill-stock"}, {"version", 1}, {"currency", report.currency}, {"lines", Json::array()}};
  for (const auto& line : report.lines)
    root["lines"].push_back({{"name", house.specs[line.stock].head.name},
                             {"place", line.place},
                             {"counted_by", line.pack},
                             {"counted", line.counted ? amount_json(*line.counted) : Json(nullptr)},
                             {"value", number_or_null(line.value)}});
  root["value"] = base::to_double(report.value);
  root["usage"] = Json::array();
  for (const auto& line : report.usage)
    root["usage"].push_back({{"name", house.specs[line.stock].head.name},
                             {"should", amount_json(line.should)},
                             {"went", line.went ? amount_json(*line.went) : Json(nullptr)},
                             {"difference_g", number_or_null(line.difference_g)},
                             {"difference_percent", number_or_null(line.difference_percent)},
                             {"difference_value", number_or_null(line.difference_value)}});
  root["difference_value"] = base::to_double(report.difference_value);
  root["notes"] = report.notes;
  return base::json_text(std::move(root));
}

std::string stock_csv(const StockReport& report, const House& house) {
  base::CsvWriter csv({"list", "name", "place", "counted by", "ml", "g", "count", "value", "should g",
                       "went g", "difference g", "difference %", "difference value", "currency"});
  for (const auto& line : report.lines) {
    csv.text("count").text(house.specs[line.stock].head.name).text(line.place).text(line.pack);
    auto counted = line.counted.value_or(StockAmount{});
    csv.number(counted.ml, 2)
        .number(line.counted ? std::optional<double>(counted.grams) : std::nullopt, 2)
        .number(counted.count, 2);
    csv.number(line.value, units::cell_decimals(report.currency)).blank(5).text(report.currency).end_row();
  }
  for (const auto& line : report.usage) {
    csv.text("usage").text(house.specs[line.stock].head.name).blank(6);
    csv.number(line.should.grams, 2)
        .number(line.went ? std::optional<double>(line.went->grams) : std::nullopt, 2);
    csv.number(line.difference_g, 2)
        .number(line.difference_percent, 2)
        .number(line.difference_value, units::cell_decimals(report.currency))
        .text(report.currency)
        .end_row();
  }
  return csv.str();
}

Page stock_page(const StockReport& report, const House& house) {
  Page page;
  page.path = "stock";
  page.kind = "plan";
  page.title = "Stock";
  page.subtitle = Run(house.specs.house.head.name);
  bool counted = false;
  for (const auto& line : report.lines) counted = counted || line.counted;
  if (counted)
    page.blocks.emplace_back(Paragraph{Run("Worth ")
                                           .strong(units::money_text({report.value, report.currency}))
                                           .plain(", without tax, as far as it was counted."),
                                       Tone::normal});
  page.blocks.emplace_back(count_section(report, house));
  auto usage = usage_section(report, house);
  if (!usage.blocks.empty()) page.blocks.emplace_back(std::move(usage));
  if (!report.notes.empty()) {
    List list;
    for (const auto& note : report.notes) list.items.push_back({Run(note), {}});
    Section notes{"notes", Run("Notes"), {}};
    notes.blocks.emplace_back(std::move(list));
    page.blocks.emplace_back(std::move(notes));
  }
  return page;
}

}  // namespace gill::stock
