// The stock report in its forms.
#include <fmt/format.h>

#include <algorithm>

#include "base/csv_reader.h"
#include "base/json.h"
#include "costing/words.h"
#include "model/money.h"
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
  if (amount.ml && !amount.is_weighed) {
    if (*amount.ml == 0) return "0 ml";
    return *amount.ml < 0 ? "−" + amount_text(-*amount.ml, 0, 0) : amount_text(amount.ml, 0, 0);
  }
  if (amount.count && !amount.is_weighed) return render::wording::trimmed(*amount.count, 1);
  return (amount.grams < 0 ? "−" : "") + amount_text(std::nullopt, std::abs(amount.grams), 0);
}

Cell cell(std::string text) { return Cell{Run(std::move(text)), {}, 1, false}; }
Cell name_cell(StockId stock, const House& house) {
  return Cell{Run(house.specs[stock].head.name), {}, 1, true};
}

/// What stands in one place, and what it is worth together; `at` moves to the next place.
Table place_table(const StockReport& report, std::size_t& at, bool has_before, const House& house) {
  const std::string place = report.lines[at].place;
  Table table;
  table.caption = place;
  table.columns = {
      {"", Align::start}, {"what", Align::start}, {"counted by", Align::start}, {"counted", Align::end}};
  if (has_before) table.columns.push_back({"before", Align::end});
  table.columns.push_back({"value", Align::end});
  std::optional<Exact> total;
  for (; at < report.lines.size() && report.lines[at].place == place; ++at) {
    const auto& line = report.lines[at];
    if (line.value) total = total.value_or(Exact(0)) + *line.value;
    std::vector<Cell> row = {cell(std::string(tick_box)), Cell{Run(name_of(line, house)), {}, 1, true},
                             cell(line.pack), cell(line.counted ? text_of(*line.counted) : "________")};
    if (has_before) row.push_back(cell(line.before ? text_of(*line.before) : "—"));
    row.push_back(cell(line.value ? units::money_text({*line.value, report.currency}) : ""));
    table.rows.push_back(std::move(row));
  }
  if (!total) return table;
  std::vector<Cell> together = {cell(""), cell("together"), cell(""), cell("")};
  if (has_before) together.push_back(cell(""));
  together.push_back(cell(units::money_text({*total, report.currency})));
  table.rows.push_back(std::move(together));
  return table;
}

Section count_section(const StockReport& report, const House& house) {
  Section section{"count", Run("Count"), {}};
  section.blocks.emplace_back(Paragraph{Run("A number alone is so many of what is counted by; else write the "
                                            "unit: 12 bottles, 2 cases, 1.5 kg."),
                                        Tone::small});
  bool has_before = std::any_of(report.lines.begin(), report.lines.end(),
                                [](const CountLine& line) { return line.before.has_value(); });
  for (std::size_t at = 0; at < report.lines.size();)
    section.blocks.emplace_back(place_table(report, at, has_before, house));
  return section;
}

/// So many grams in the measure of an amount of the same thing.
std::string text_in_measure_of(StockAmount known, double grams) {
  double factor = known.grams != 0 ? grams / known.grams : 0;
  if (known.ml) *known.ml *= factor;
  if (known.count) *known.count *= factor;
  known.grams = grams;
  return text_of(known);
}

/// The difference in the measure of what should have been used.
std::string difference_text(const UsageLine& line, double grams) {
  return text_in_measure_of(line.should.grams != 0 ? line.should : *line.went, grams);
}

bool is_something(const StockAmount& amount) { return amount.grams > 0 || amount.pieces > 0; }

Section usage_section(const StockReport& report, const House& house) {
  Section section{"usage", Run("What should have been used, and what went"), {}};
  bool has_staff = false, has_waste = false;
  for (const auto& line : report.usage) {
    has_staff = has_staff || is_something(line.staff);
    has_waste = has_waste || is_something(line.waste);
  }
  Table table;
  table.is_wide = true;
  table.columns = {{"what", Align::start}, {"sold", Align::end}};
  if (has_staff) table.columns.push_back({"staff", Align::end});
  if (has_waste) table.columns.push_back({"wasted", Align::end});
  for (auto title : {"went", "missing", "±", "%", "worth"}) table.columns.push_back({title, Align::end});
  auto money = [&](const std::optional<Exact>& amount) {
    return amount ? units::money_text({*amount, report.currency}) : std::string("—");
  };
  for (const auto& line : report.usage) {
    std::vector<Cell> row = {name_cell(line.stock, house), cell(text_of(line.should))};
    if (has_staff) row.push_back(cell(is_something(line.staff) ? text_of(line.staff) : ""));
    if (has_waste) row.push_back(cell(is_something(line.waste) ? text_of(line.waste) : ""));
    row.push_back(cell(line.went ? text_of(*line.went) : "—"));
    row.push_back(cell(line.difference_g ? difference_text(line, *line.difference_g) : "—"));
    row.push_back(
        cell(line.difference_tolerance_g ? difference_text(line, *line.difference_tolerance_g) : "—"));
    row.push_back(cell(line.difference_percent ? render::wording::fixed(*line.difference_percent, 1) : "—"));
    row.push_back(cell(money(line.difference_value)));
    table.rows.push_back(std::move(row));
  }
  if (table.rows.empty()) return section;
  section.blocks.emplace_back(std::move(table));
  section.blocks.emplace_back(Paragraph{
      Run("What is missing within its ± may be two counts of an open bottle and the pours alone: it "
          "says nothing. The ± is a rule of thumb, 5 % of a bottle a count and 2 % of what is poured."),
      Tone::small});
  return section;
}

/// The month in money, and what became of the preps.
Section close_section(const StockReport& report) {
  Section section{"close", Run("The month"), {}};
  const auto& close = *report.close;
  Table table;
  table.columns = {{"", Align::start}, {"", Align::end}, {"of revenue", Align::end}};
  auto money = [&](const Exact& amount) { return cell(units::money_text({amount, report.currency})); };
  auto row = [&](std::string name, const Exact& amount, const std::optional<Exact>& percent) {
    table.rows.push_back({Cell{Run(std::move(name)), {}, 1, true}, money(amount),
                          cell(percent ? render::wording::fixed(base::to_double(*percent), 1) + " %" : "")});
  };
  row("Revenue, without tax", close.revenue, std::nullopt);
  row("What was sold should have cost", close.should_cost, close.should_pour_cost_percent);
  if (close.staff_cost != 0)
    row("Staff drinks", close.staff_cost, model::pour_cost_percent(close.staff_cost, close.revenue));
  if (close.waste_cost != 0)
    row("Waste", close.waste_cost, model::pour_cost_percent(close.waste_cost, close.revenue));
  if (close.went_cost != 0)
    row("Missing and not accounted for", report.difference_value,
        model::pour_cost_percent(report.difference_value, close.revenue));
  if (close.went_cost != 0) row("What it did cost", close.actual_cost, close.actual_pour_cost_percent);
  section.blocks.emplace_back(std::move(table));
  if (close.actual_pour_cost_percent)
    section.blocks.emplace_back(Paragraph{Run("What it did cost is the sum of these: what was sold should "
                                              "have cost, staff drinks, waste, and what "
                                              "is missing of the goods that were counted before and after."),
                                          Tone::small});
  return section;
}

Section preps_section(const StockReport& report, const House& house) {
  Section section{"preps", Run("Preps made, used and left"), {}};
  Table table;
  table.is_wide = true;
  table.columns = {{"what", Align::start},  {"before", Align::end}, {"made", Align::end},
                   {"used", Align::end},    {"wasted", Align::end}, {"left", Align::end},
                   {"missing", Align::end}, {"worth", Align::end}};
  bool any_reckoned = false;
  for (const auto& line : report.close->preps) {
    any_reckoned = any_reckoned || !line.is_made_stated;
    table.rows.push_back(
        {Cell{Run(name_of(line, house)), {}, 1, true}, cell(line.opening ? text_of(*line.opening) : "—"),
         cell((line.is_made_stated ? "" : "about ") + text_of(line.made)), cell(text_of(line.used)),
         cell(is_something(line.waste) ? text_of(line.waste) : ""),
         cell(line.left ? text_of(*line.left) : "—"), cell(line.difference ? text_of(*line.difference) : "—"),
         cell(line.difference_value ? units::money_text({*line.difference_value, report.currency}) : "—")});
  }
  if (table.rows.empty()) return section;
  section.blocks.emplace_back(std::move(table));
  if (any_reckoned)
    section.blocks.emplace_back(Paragraph{
        Run("Where nobody wrote down what was made (`--made`), it is what was used, thrown away and "
            "left, less what was there before."),
        Tone::small});
  return section;
}

Json preps_json(const StockReport& report, const House& house) {
  Json list = Json::array();
  auto amount = [](const std::optional<StockAmount>& known) {
    return known ? amount_json(*known) : Json(nullptr);
  };
  for (const auto& line : report.close->preps)
    list.push_back({{"name", name_of(line, house)},
                    {"opening", amount(line.opening)},
                    {"made", amount_json(line.made)},
                    {"made_stated", line.is_made_stated},
                    {"used", amount_json(line.used)},
                    {"waste", amount_json(line.waste)},
                    {"left", amount(line.left)},
                    {"difference_g", line.difference ? Json(line.difference->grams) : Json(nullptr)},
                    {"difference_value", number_or_null(line.difference_value)}});
  return list;
}

Json close_json(const StockReport& report, const House& house) {
  if (!report.close) return nullptr;
  const auto& close = *report.close;
  return {{"revenue", base::to_double(close.revenue)},
          {"should_cost", base::to_double(close.should_cost)},
          {"went_cost", base::to_double(close.went_cost)},
          {"actual_cost", base::to_double(close.actual_cost)},
          {"compared_should_cost", base::to_double(close.compared_should_cost)},
          {"staff_cost", base::to_double(close.staff_cost)},
          {"waste_cost", base::to_double(close.waste_cost)},
          {"should_pour_cost_percent", number_or_null(close.should_pour_cost_percent)},
          {"actual_pour_cost_percent", number_or_null(close.actual_pour_cost_percent)},
          {"preps", preps_json(report, house)}};
}

}  // namespace

std::string stock_json(const StockReport& report, const House& house) {
  Json root = {
      {"format", "gill-stock"}, {"version", 1}, {"currency", report.currency}, {"lines", Json::array()}};
  for (const auto& line : report.lines)
    root["lines"].push_back({{"name", name_of(line, house)},
                             {"place", line.place},
                             {"counted_by", line.pack},
                             {"counted", line.counted ? amount_json(*line.counted) : Json(nullptr)},
                             {"before", line.before ? amount_json(*line.before) : Json(nullptr)},
                             {"value", number_or_null(line.value)}});
  root["value"] = base::to_double(report.value);
  root["usage"] = Json::array();
  for (const auto& line : report.usage)
    root["usage"].push_back({{"name", house.specs[line.stock].head.name},
                             {"should", amount_json(line.should)},
                             {"staff", amount_json(line.staff)},
                             {"waste", amount_json(line.waste)},
                             {"went", line.went ? amount_json(*line.went) : Json(nullptr)},
                             {"should_value", number_or_null(line.should_value)},
                             {"went_value", number_or_null(line.went_value)},
                             {"difference_g", number_or_null(line.difference_g)},
                             {"difference_tolerance_g", number_or_null(line.difference_tolerance_g)},
                             {"difference_percent", number_or_null(line.difference_percent)},
                             {"difference_value", number_or_null(line.difference_value)}});
  root["difference_value"] = base::to_double(report.difference_value);
  root["close"] = close_json(report, house);
  root["notes"] = report.notes;
  return base::json_text(std::move(root));
}

std::string stock_csv(const StockReport& report, const House& house) {
  base::CsvWriter csv({"list", "name", "place", "counted by", "ml", "g", "count", "value", "should g",
                       "went g", "difference g", "difference %", "difference value", "currency"});
  for (const auto& line : report.lines) {
    csv.text("count").text(name_of(line, house)).text(line.place).text(line.pack);
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
  if (report.close) page.blocks.emplace_back(close_section(report));
  page.blocks.emplace_back(count_section(report, house));
  auto usage = usage_section(report, house);
  if (!usage.blocks.empty()) page.blocks.emplace_back(std::move(usage));
  if (report.close)
    if (auto preps = preps_section(report, house); !preps.blocks.empty())
      page.blocks.emplace_back(std::move(preps));
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
