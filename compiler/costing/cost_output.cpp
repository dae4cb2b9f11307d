// The cost report in its forms.
#include <fmt/format.h>

#include "base/csv_reader.h"
#include "base/json.h"
#include "base/percent.h"
#include "base/text.h"
#include "costing/cost_report.h"
#include "costing/words.h"
#include "units/money.h"

namespace gill::costing {
namespace {

using base::Json;
using base::number_or_null;

Json number(const units::Money& money) { return base::to_double(money.amount); }

template <typename Id>
Json names_of(const std::vector<Id>& ids, const House& house) {
  Json names = Json::array();
  for (auto id : ids) names.push_back(house.specs[id].head.name);
  return names;
}

Json carriers_json(const std::vector<Carrier>& carriers, const House& house) {
  Json list = Json::array();
  for (const auto& carrier : carriers)
    list.push_back({{"name", house.specs[carrier.stock].head.name},
                    {"cost", base::to_double(carrier.cost)},
                    {"share_percent", base::percent_of_share(carrier.share)}});
  return list;
}

std::string percent(const std::optional<Exact>& value) {
  return value ? base::to_fixed(*value < 0 ? Exact(0) : *value, 1) + " %" : "—";
}

std::string amount(const std::optional<Exact>& value, const std::string& currency) {
  return value ? units::money_digits({*value, currency}) : "—";
}

std::string amount(const units::Money& money) { return units::money_digits(money); }

std::string shown(const PriceRise& rise, const House& house) {
  Exact change = base::percent_of_share(Exact(rise.factor - 1));
  return fmt::format("{} {}{} %", house.specs[rise.stock].head.name, change < 0 ? "−" : "+",
                     base::to_decimal(change < 0 ? Exact(-change) : change, 2));
}

std::string drinks_text(const CostReport& report, const House& house) {
  bool rises = !report.rises.empty();
  std::vector<TextColumn> columns = {{"drink"}, {"cost", true}, {"±", true}};
  if (rises) columns.push_back({"before", true});
  for (const auto* title : {"price", "without tax", "pour cost", "margin", "for target"})
    columns.push_back({title, true});
  columns.push_back({"dearest part"});
  std::vector<std::vector<std::string>> rows;
  const auto target = model::target_pour_cost_percent(house.specs.house);
  for (const auto& line : report.drinks) {
    std::vector<std::string> row = {
        house.specs[line.drink].head.name, amount(line.cost, report.currency),
        line.cost ? amount(model::decimal_of(line.tolerance), report.currency) : "—"};
    if (rises) row.push_back(amount(line.cost_before, report.currency));
    bool over = target && line.pour_cost_percent && *line.pour_cost_percent > *target;
    row.push_back(line.price ? amount(line.price->with_tax) : "—");
    row.push_back(line.price ? amount(line.price->without_tax) : "—");
    row.push_back(percent(line.pour_cost_percent) + (over ? " over" : ""));
    row.push_back(amount(line.margin, report.currency));
    row.push_back(amount(line.price_for_target, report.currency));
    row.push_back(line.carriers.empty()
                      ? ""
                      : fmt::format("{} {:.0f} %", house.specs[line.carriers.front().stock].head.name,
                                    base::percent_of_share(line.carriers.front().share)));
    rows.push_back(std::move(row));
  }
  return text_table(columns, rows);
}

std::string menu_text(const MenuCost& menu, const CostReport& report, const House& house) {
  const auto& name = house.specs.menus[menu.menu.index()].head.name;
  std::string text = fmt::format(
      "\n{}: {}\n", name,
      menu.has_sales ? fmt::format("a week of {} portions as expected", base::to_decimal(menu.portions, 1))
                     : "no sales are expected on it, so each drink counts once");
  if (menu.portions == 0) return text + "No drink on it has both a cost and a price.\n";
  text += fmt::format("Costs {} of {} without tax: pour cost {}, margin {}, {} a portion.\n",
                      units::money_text({menu.cost, report.currency}),
                      units::money_text({menu.sales_without_tax, report.currency}),
                      percent(menu.pour_cost_percent), units::money_text({menu.margin, report.currency}),
                      units::money_text({*menu.margin_per_portion, report.currency}));
  if (!report.rises.empty())
    text += fmt::format("Before: {}, pour cost {}; the change is {} a week.\n",
                        units::money_text({menu.cost_before, report.currency}),
                        percent(menu.pour_cost_percent_before),
                        units::money_text({menu.cost - menu.cost_before, report.currency}));
  std::vector<std::vector<std::string>> rows;
  for (const auto& carrier : menu.carriers) {
    if (rows.size() == 8) break;
    rows.push_back({"  " + house.specs[carrier.stock].head.name, amount(carrier.cost, report.currency),
                    fmt::format("{:.1f} %", base::percent_of_share(carrier.share))});
  }
  text += text_table({{"  what carries the cost"}, {"a week", true}, {"share", true}}, rows);
  std::vector<std::string> left_out;
  for (auto drink : menu.left_out) left_out.push_back("`" + house.specs[drink].head.name + "`");
  if (!left_out.empty())
    text += text_notes(
        {fmt::format("Not counted, for want of a cost or a price: {}.", base::join_with_and(left_out))});
  return text;
}

/// `is_moved`: some prices were moved, and what it was before is told.
Json drink_json(const DrinkCost& line, bool is_moved, const House& house) {
  const auto& price = line.price;
  Json drink = {{"name", house.specs[line.drink].head.name},
                {"cost", number_or_null(line.cost)},
                {"price", price ? number(model::on_menu(*price, house.specs.house)) : Json(nullptr)},
                {"price_with_tax", price ? number(price->with_tax) : Json(nullptr)},
                {"price_without_tax", price ? number(price->without_tax) : Json(nullptr)},
                {"pour_cost_percent", number_or_null(line.pour_cost_percent)},
                {"margin", number_or_null(line.margin)},
                {"price_for_target", number_or_null(line.price_for_target)},
                {"cost_tolerance", line.cost ? Json(line.tolerance) : Json(nullptr)},
                {"menu", price ? Json(house.specs.menus[price->menu.index()].head.name) : Json(nullptr)},
                {"ingredients", carriers_json(line.carriers, house)},
                {"without_price", names_of(line.without_price, house)},
                {"without_weight", names_of(line.without_weight, house)}};
  if (is_moved) drink["cost_before"] = number_or_null(line.cost_before);
  return drink;
}

Json menu_json(const MenuCost& menu, bool is_moved, const House& house) {
  Json item = {{"name", house.specs.menus[menu.menu.index()].head.name},
               {"weighted_by_sales", menu.has_sales},
               {"portions_a_week", base::to_double(menu.portions)},
               {"cost", base::to_double(menu.cost)},
               {"sales_without_tax", base::to_double(menu.sales_without_tax)},
               {"pour_cost_percent", number_or_null(menu.pour_cost_percent)},
               {"margin", base::to_double(menu.margin)},
               {"margin_per_portion", number_or_null(menu.margin_per_portion)},
               {"ingredients", carriers_json(menu.carriers, house)}};
  if (is_moved) {
    item["cost_before"] = base::to_double(menu.cost_before);
    item["pour_cost_percent_before"] = number_or_null(menu.pour_cost_percent_before);
  }
  item["left_out"] = names_of(menu.left_out, house);
  return item;
}

/// `Prices of `April 2026` (since 2026-04-01, 240 days): gin, vodka.`
std::vector<std::string> source_notes(const CostReport& report, const House& house) {
  std::vector<std::string> notes;
  for (const auto& source : report.price_sources) {
    std::vector<std::string> names;
    for (auto stock : source.stock) names.push_back(house.specs[stock].head.name);
    notes.push_back(fmt::format("Prices of {}: {}.", words_of(source), base::join_with_and(names)));
  }
  return notes;
}

}  // namespace

std::string cost_json(const CostReport& report, const House& house) {
  const bool is_moved = !report.rises.empty();
  Json root = {
      {"format", "gill-cost"}, {"version", 1}, {"currency", report.currency}, {"drinks", Json::array()}};
  for (const auto& line : report.drinks) root["drinks"].push_back(drink_json(line, is_moved, house));
  root["preps"] = Json::array();
  for (const auto& prep : report.preps)
    root["preps"].push_back({{"name", house.specs[prep.prep].head.name},
                             {"cost", number_or_null(prep.cost)},
                             {"cost_per_l", number_or_null(prep.cost_per_l)},
                             {"cost_per_kg", number_or_null(prep.cost_per_kg)},
                             {"cost_each", number_or_null(prep.cost_each)},
                             {"without_price", names_of(prep.without_price, house)}});
  root["menus"] = Json::array();
  for (const auto& menu : report.menus) root["menus"].push_back(menu_json(menu, is_moved, house));
  if (is_moved) {
    root["if"] = Json::array();
    for (const auto& rise : report.rises)
      root["if"].push_back(
          {{"name", house.specs[rise.stock].head.name},
           {"change_percent", base::to_double(base::percent_of_share(Exact(rise.factor - 1)))}});
  }
  root["price_lists"] = Json::array();
  for (const auto& source : report.price_sources)
    root["price_lists"].push_back({{"name", source.list ? Json(source.list->head.name) : Json(nullptr)},
                                   {"from", source.from.empty() ? Json(nullptr) : Json(source.from)},
                                   {"age_days", source.age_days ? Json(*source.age_days) : Json(nullptr)},
                                   {"ingredients", names_of(source.stock, house)}});
  root["notes"] = report.notes;
  return base::json_text(std::move(root));
}

std::string cost_csv(const CostReport& report, const House& house) {
  base::CsvWriter csv({"drink", "menu", "currency", "cost", "cost tolerance", "price with tax",
                       "price without tax", "pour cost %", "margin", "price for target", "dearest part",
                       "dearest part %", "cost before"});
  unsigned decimals = units::cell_decimals(report.currency);
  for (const auto& line : report.drinks) {
    csv.text(house.specs[line.drink].head.name);
    csv.text(line.price ? house.specs.menus[line.price->menu.index()].head.name : "").text(report.currency);
    csv.number(line.cost, decimals);
    csv.number(line.cost ? std::optional<double>(line.tolerance) : std::nullopt, decimals);
    csv.number(line.price ? std::optional<Exact>(line.price->with_tax.amount) : std::nullopt, decimals);
    csv.number(line.price ? std::optional<Exact>(line.price->without_tax.amount) : std::nullopt, decimals);
    csv.number(line.pour_cost_percent, 2).number(line.margin, decimals);
    csv.number(line.price_for_target, decimals);
    bool any = !line.carriers.empty();
    csv.text(any ? house.specs[line.carriers.front().stock].head.name : "");
    csv.number(
        any ? std::optional<double>(base::percent_of_share(line.carriers.front().share)) : std::nullopt, 1);
    csv.number(report.rises.empty() ? std::nullopt : line.cost_before, decimals).end_row();
  }
  return csv.str();
}

std::string cost_text(const CostReport& report, const House& house) {
  std::string text = fmt::format("{}: costs{}, a serve\n", house.specs.house.head.name,
                                 report.currency.empty() ? "" : " in " + report.currency);
  for (const auto& rise : report.rises) text += fmt::format("If {}:\n", shown(rise, house));
  text += "\n" + drinks_text(report, house);
  std::vector<std::vector<std::string>> rows;
  for (const auto& prep : report.preps) {
    std::string by = prep.cost_each     ? units::piece_digits({*prep.cost_each, report.currency}) + " each"
                     : prep.cost_per_l  ? amount(prep.cost_per_l, report.currency) + " a litre"
                     : prep.cost_per_kg ? amount(prep.cost_per_kg, report.currency) + " a kilogram"
                                        : "—";
    rows.push_back({house.specs[prep.prep].head.name, amount(prep.cost, report.currency), by});
  }
  if (!rows.empty()) text += "\n" + text_table({{"prep"}, {"as written", true}, {"", true}}, rows);
  for (const auto& menu : report.menus) text += menu_text(menu, report, house);
  if (!report.notes.empty()) text += "\n" + text_notes(report.notes);
  if (!report.price_sources.empty()) text += "\n" + text_notes(source_notes(report, house));
  return text;
}

}  // namespace gill::costing
