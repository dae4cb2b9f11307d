#include "stock/counts.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/date.h"
#include "model/money.h"
#include "stock/counted_bottles.h"
#include "stock/list_columns.h"
#include "stock/pack_words.h"
#include "stock/portions.h"
#include "stock/price_columns.h"

namespace gill::stock {
namespace {

const Titles amount_titles = {
    "on hand",  "counted",  "count",    "amount",   "quantity", "qty",     "closing",   "stock on hand",
    "received", "menge",    "quantité", "bestand",  "anzahl",   "gezählt", "geliefert", "compté",
    "reçu",     "cantidad", "contado",  "recibido", "quantità", "qtà",     "contato",   "ricevuto",
    "giacenza", "qté",      "uds",      "unidades", "pezzi",    "pz",      "stück",     "stk"};
const Titles unit_titles = {"unit",   "uom",   "measure", "unit of measure", "einheit", "unité",
                            "unidad", "unità", "um"};
const Titles place_titles = {"place",       "location", "area",      "shelf", "where",
                             "storage",     "ort",      "lagerort",  "lager", "lieu",
                             "emplacement", "lugar",    "ubicación", "luogo", "posizione"};
const Titles made_titles = {"made",       "made on",      "prepared",          "prepared on",
                            "prepped",    "prep date",    "produced",          "production",
                            "batched on", "hergestellt",  "herstellungsdatum", "gemacht",
                            "produziert", "produktion",   "préparé",           "préparation",
                            "fait",       "fabriqué",     "fabrication",       "hecho",
                            "elaborado",  "elaboración",  "producción",        "fatto",
                            "preparato",  "preparazione", "prodotto il",       "produzione"};
const Titles booked_date_titles = {"date", "day",   "for", "datum", "tag",
                                   "jour", "fecha", "día", "data",  "giorno"};
const Titles sold_titles = {
    "sold",    "portions", "serves",   "qty sold", "quantity sold", "quantity",  "qty",      "count",
    "units",   "sales",    "menge",    "verkauft", "anzahl",        "portionen", "vendu",    "vendus",
    "ventes",  "quantité", "vendido",  "vendidos", "ventas",        "porciones", "cantidad", "venduto",
    "venduti", "vendite",  "porzioni", "quantità", "qtà",           "qté",       "uds",      "unidades",
    "pezzi",   "pz",       "stück",    "stk",      "pièces",        "anz"};

/// More than this of one drink in one row is a slip of the file.
constexpr double max_portions = 1e6;

}  // namespace

namespace {

/// The column of units: `Unit price` is none.
std::optional<std::size_t> unit_column(const base::CsvTable& table) {
  auto unit = table.column(unit_titles);
  const auto prices = find_price_columns(table).columns;
  const bool is_price = std::any_of(prices.begin(), prices.end(),
                                    [&](const PriceColumn& price) { return price.column == unit; });
  return is_price ? std::nullopt : unit;
}

/// Rows of waste that name a drink. Of goods and of house bottles that are called as a drink is, the unit
/// says that they are meant.
class WastedDrinks {
 public:
  WastedDrinks(const base::CsvTable& table, const House& house, Sales& drinks)
      : table_(table),
        house_(house),
        drinks_(drinks),
        names_(table, house, symbols::NameSpace::drink, name_titles),
        goods_(table, house, symbols::NameSpace::stock, name_titles),
        amount_(table.column(amount_titles)),
        unit_(unit_column(table)) {}

  /// Puts a row that means portions of a drink, or a share of one, with the drinks; false for any other.
  bool add(const base::CsvRow& row) {
    std::vector<base::RowProblem> unheard;
    auto id = names_.find(row, "", "drink", unheard, unheard);
    if (!id) return false;
    const std::string cell = table_.cell(row, amount_),
                      unit = unit_of_row(cell, table_.cell(row, unit_), table_);
    const bool is_of_goods = unit_of(unit, house_.units).valid() || vessel_of(unit) != Vessel::none;
    if (!counts_portions(unit) && is_of_goods) {
      const bool is_bought = goods_.find(row, "", "ingredient", unheard, unheard).has_value();
      if (is_bought || bottled_drink(names_.written(row), house_)) return false;
    }
    auto read = portions_of(cell, unit, DrinkId{*id});
    const auto* portions = std::get_if<double>(&read);
    if (portions && *portions > 0 && *portions <= max_portions)
      drinks_.portions[DrinkId{*id}] += *portions;
    else
      drinks_.problems.push_back({row.line, portions ? fmt::format("`{}` is no number of portions.", cell)
                                                     : std::get<std::string>(read)});
    return true;
  }

 private:
  std::variant<double, std::string> portions_of(const std::string& cell, const std::string& unit,
                                                DrinkId drink) const {
    if (auto number = split_number(table_, cell))
      if (auto share = share_of_drink(number->number, unit, drink, house_)) return *share;
    return read_portions(cell, unit, drink, house_, table_);
  }

  const base::CsvTable& table_;
  const House& house_;
  Sales& drinks_;
  NameColumn names_, goods_;
  std::optional<std::size_t> amount_, unit_;
};

/// The day that a row says; nothing where it says none, or none that is a date, which is told.
std::optional<std::chrono::sys_days> made_day(const base::CsvRow& row, const std::string& date,
                                              std::vector<base::RowProblem>& problems) {
  if (date.empty()) return std::nullopt;
  auto day = base::read_iso_date(date);
  if (!day) problems.push_back({row.line, base::not_a_date(date) + ". It is counted as undated."});
  return day;
}

/// A row that counts the house bottle of a drink; false for any other.
bool add_bottles(const base::CsvRow& row, const base::CsvTable& table, const std::string& name,
                 const std::string& amount, const std::string& unit, const std::string& made,
                 const House& house, Counts& counts) {
  auto drink = bottled_drink(name, house);
  if (!drink) return false;
  if (amount.empty()) return true;
  auto parts = split_number(table, amount);
  if (!parts) {
    counts.problems.push_back(
        {row.line, fmt::format("`{}` is no amount of `{}`; write a number.", amount, name)});
    return true;
  }
  auto grams = bottled_g(*drink, parts->number, parts->words.empty() ? unit : parts->words, house);
  if (auto* failure = std::get_if<std::string>(&grams)) {
    counts.problems.push_back({row.line, *failure});
    return true;
  }
  counts.bottled_g[*drink] += std::get<double>(grams);
  if (auto day = made_day(row, made, counts.problems))
    counts.bottled_made_g[*drink].emplace_back(*day, std::get<double>(grams));
  return true;
}

/// The columns of a count sheet that Gill wrote itself: an amount in each measure.
struct SheetColumns {
  std::optional<std::size_t> list, ml, g, count;

  explicit SheetColumns(const base::CsvTable& table) {
    for (std::size_t i = 0; i < table.header.size(); ++i) {
      const auto& title = table.header[i];
      (title == "list" ? list : title == "ml" ? ml : title == "g" ? g : title == "count" ? count : none_) = i;
    }
  }
  bool are_all() const { return list && ml && g && count; }

 private:
  std::optional<std::size_t> none_;
};

/// A count sheet as CSV as any other count: its lines of the count, each with an amount and a unit.
base::CsvTable with_amounts(base::CsvTable table) {
  SheetColumns columns(table);
  if (!columns.are_all()) return table;
  std::erase_if(table.rows,
                [&](const base::CsvRow& row) { return table.cell(row, columns.list) != "count"; });
  // The pieces are written without their measure.
  for (auto& row : table.rows) {
    std::string ml = table.cell(row, columns.ml), g = table.cell(row, columns.g),
                count = table.cell(row, columns.count);
    auto grams = table.number(g);
    row.cells.resize(table.header.size());
    row.cells.push_back(!ml.empty() ? ml : grams && *grams > 0 ? g : !count.empty() ? count : g);
    row.cells.push_back(!ml.empty() ? "ml" : grams && *grams > 0 ? "g" : "");
  }
  table.header[*columns.count] = "pieces";
  table.header.emplace_back("amount");
  table.header.emplace_back("unit");
  return table;
}

/// Reads the rows that name something of the stock. `drinks`: where rows that name a drink go, and count
/// portions.
Counts read_stock_rows(const base::CsvTable& table, const House& house, Sales* drinks) {
  Counts counts;
  counts.problems = table.problems;
  std::optional<WastedDrinks> wasted;
  if (drinks) wasted.emplace(table, house, *drinks);
  NameColumn names(table, house, symbols::NameSpace::stock, name_titles);
  auto amount = table.column(amount_titles), unit = unit_column(table);
  auto place = table.column(place_titles), size = table.column(size_titles);
  auto made = table.column(made_titles);
  if (lacks(table, names.column(), "`name` or `item`", counts.problems) ||
      lacks(table, amount, "`count` or `amount`", counts.problems))
    return counts;
  Costing costing(house);
  AmountReader reader(house, costing);
  for (const auto& row : table.rows) {
    auto fail = [&](std::string message) { counts.problems.push_back({row.line, std::move(message)}); };
    if (wasted && wasted->add(row)) continue;
    std::vector<base::RowProblem> unmatched;
    auto id = names.find(row, "This row names nothing.", "ingredient or prep", counts.problems, unmatched);
    if (!id && add_bottles(row, table, names.written(row), table.cell(row, amount), table.cell(row, unit),
                           table.cell(row, made), house, counts))
      continue;
    counts.problems.insert(counts.problems.end(), unmatched.begin(), unmatched.end());
    if (!id) continue;
    StockId stock{*id};
    std::string text = table.cell(row, amount);
    auto& here = counts.by_place[stock][table.cell(row, place)];
    if (text.empty()) continue;
    auto parts = split_number(table, text);
    if (!parts) {
      fail(fmt::format("`{}` is no amount of `{}`; write a number.", text, names.written(row)));
      continue;
    }
    auto counted =
        reader.read(stock, parts->number, parts->words.empty() ? table.cell(row, unit) : parts->words,
                    table.cell(row, size), table);
    if (auto* failure = std::get_if<std::string>(&counted)) {
      fail(*failure);
      continue;
    }
    auto [grams, pieces] = std::get<CountedAmount>(counted);
    if (!here) here = CountedAmount{};
    here->grams += grams;
    here->pieces += pieces;
    // A thing that stands in two places is counted twice: both count.
    counts.grams[stock] += grams;
    if (pieces > 0) counts.pieces[stock] += pieces;
    if (auto day = made_day(row, table.cell(row, made), counts.problems))
      counts.made_g[stock].emplace_back(*day, grams);
  }
  return counts;
}

/// Why nobody serves a drink, as a full sentence; empty where somebody does.
std::string why_not_served(const analysis::Drink& drink, bool with_drafts) {
  switch (drink.status) {
    case analysis::Status::approved:
      return {};
    case analysis::Status::draft:
      return with_drafts
                 ? std::string()
                 : fmt::format("`{}` is a draft: approve it, or plan with `--drafts`.", drink.head.name);
    case analysis::Status::retired:
      return fmt::format("`{}` is retired: nobody makes it.", drink.head.name);
  }
  return {};
}

}  // namespace

Counts read_counts(std::string_view bytes, const House& house) {
  return read_stock_rows(with_amounts(base::read_csv(bytes)), house, nullptr);
}

namespace {

/// `Age (days)`, `Alter`, `Edad (días)`: in five languages (common practice, no source).
bool is_title_of_age(const std::string& title) {
  static constexpr std::string_view words[] = {
      "age",   "old",  "alter",  "edad",   "eta",      "anciennete", "days",    "tage",
      "jours", "dias", "giorni", "opened", "geoffnet", "ouvert",     "abierto", "aperto"};
  const auto written = base::folded_words(base::fold_without_accents(title));
  return std::any_of(written.begin(), written.end(), [](const std::string& word) {
    return std::find(std::begin(words), std::end(words), word) != std::end(words);
  });
}

std::vector<base::RowProblem> unread_days(const base::CsvTable& table) {
  std::vector<base::RowProblem> problems;
  auto made = table.column(made_titles);
  for (const auto& title : table.header)
    if (!made && is_title_of_age(title))
      problems.push_back(
          {table.header_line,
           fmt::format("The column `{}` is not read: write the day on which each was made in a "
                       "column `made`. Until then all of it counts as fresh.",
                       title)});
  for (std::size_t i = 0; i < table.header.size(); ++i) {
    const bool holds_days = std::any_of(table.rows.begin(), table.rows.end(), [&](const base::CsvRow& row) {
      return base::is_day_of_numbers(table.cell(row, i));
    });
    if (i == made || !holds_days) continue;
    problems.push_back(
        {table.header_line,
         fmt::format(
             "The column `{}` holds days and is not read: {}.", table.header[i],
             made ? fmt::format("what things are reckoned from is the day in `{}`", table.header[*made])
                  : "title it `made` if these are the days on which things were made, and their age "
                    "counts. Until then all of it counts as fresh")});
  }
  return problems;
}

}  // namespace

Counts read_on_hand(std::string_view bytes, const House& house) {
  const auto table = base::read_csv(bytes);
  auto counts = read_stock_rows(with_amounts(table), house, nullptr);
  for (auto& problem : unread_days(table)) counts.problems.push_back(std::move(problem));
  return counts;
}

Waste read_waste(std::string_view bytes, const House& house) {
  Waste waste;
  waste.stock = read_stock_rows(base::read_csv(bytes), house, &waste.drinks);
  waste.problems = waste.stock.problems;
  waste.problems.insert(waste.problems.end(), waste.drinks.problems.begin(), waste.drinks.problems.end());
  return waste;
}

namespace {

/// `drink`, before what any list may call its names.
Titles drink_titles() {
  Titles titles = {"drink"};
  titles.insert(titles.end(), name_titles.begin(), name_titles.end());
  return titles;
}

}  // namespace

BookedList read_bookings(std::string_view bytes, const House& house, bool with_drafts) {
  base::CsvTable table = base::read_csv(bytes);
  BookedList booked;
  booked.problems = table.problems;
  NameColumn names(table, house, symbols::NameSpace::drink, drink_titles());
  Titles counts = {"portions", "serves", "guests", "booked"};
  counts.insert(counts.end(), sold_titles.begin(), sold_titles.end());
  auto date = table.column(booked_date_titles), portions = table.column(counts), unit = unit_column(table);
  if (unit == portions) unit.reset();
  if (lacks(table, names.column(), "`drink` or `item`", booked.problems) ||
      lacks(table, date, "`date` or `day`", booked.problems) ||
      lacks(table, portions, "`portions` or `quantity`", booked.problems))
    return booked;
  for (const auto& row : table.rows) {
    auto id = names.find(row, "This row names no drink: write one row for each drink that is booked.",
                         "drink", booked.problems, booked.problems);
    if (!id) continue;
    auto fail = [&](std::string message) { booked.problems.push_back({row.line, std::move(message)}); };
    auto day = base::read_iso_date(table.cell(row, date));
    auto read = read_portions(table.cell(row, portions), table.cell(row, unit), DrinkId{*id}, house, table);
    const auto* number = std::get_if<double>(&read);
    if (!day)
      fail(base::not_a_date(table.cell(row, date)) + ".");
    else if (!number)
      fail(std::get<std::string>(read));
    else if (*number <= 0 || *number > max_portions)
      fail(fmt::format("`{}` is no number of portions.", table.cell(row, portions)));
    else if (auto why = why_not_served(house.specs[DrinkId{*id}], with_drafts); !why.empty())
      fail(why);
    else
      booked.rows.push_back({*day, DrinkId{*id}, *number});
  }
  return booked;
}

namespace {

/// The menus of the house by their folded names.
std::map<std::string, analysis::MenuId> menus_by_name(const House& house) {
  std::map<std::string, analysis::MenuId> menus;
  for (std::size_t i = 0; i < house.specs.menus.size(); ++i)
    menus[base::fold_name(house.specs.menus[i].head.name)] = analysis::MenuId::at(i);
  return menus;
}

/// The column that says on which menu it was sold: one below which a menu of the house stands. A till's
/// groups are none.
std::optional<std::size_t> menu_column(const base::CsvTable& table,
                                       const std::map<std::string, analysis::MenuId>& menus) {
  static const std::vector<std::string_view> titles = {"menu", "outlet", "carte", "carta"};
  auto column = table.column(titles);
  const bool names_one = std::any_of(table.rows.begin(), table.rows.end(), [&](const base::CsvRow& row) {
    return menus.contains(base::fold_name(table.cell(row, column)));
  });
  return names_one ? column : std::nullopt;
}

/// The menu on which a row's drink was sold, invalid where the row says none; or why that is none of its
/// menus.
std::variant<analysis::MenuId, std::string> menu_of_row(
    const std::string& written, DrinkId drink, const House& house,
    const std::map<std::string, analysis::MenuId>& menus) {
  if (written.empty()) return analysis::MenuId{};
  auto found = menus.find(base::fold_name(written));
  const auto& name = house.specs[drink].head.name;
  if (found == menus.end())
    return fmt::format("No menu is called `{}`, on which `{}` was sold.", written, name);
  if (!model::price_of(drink, found->second, house.specs, house.facts.currency))
    return fmt::format("`{}` stands on the menu `{}` with no price.", name,
                       house.specs.menus[found->second.index()].head.name);
  return found->second;
}

void add_sold(Sales& sales, DrinkId drink, analysis::MenuId menu, double portions) {
  sales.portions[drink] += portions;
  if (menu.valid()) sales.on_menu[drink][menu] += portions;
}

}  // namespace

Sales read_sales(std::string_view bytes, const House& house) {
  base::CsvTable table = base::read_csv(bytes);
  Sales sales;
  sales.problems = table.problems;
  NameColumn names(table, house, symbols::NameSpace::drink, drink_titles());
  auto sold = table.column(sold_titles), unit = unit_column(table);
  if (unit == sold) unit.reset();
  const auto menus = menus_by_name(house);
  const auto menu_at = menu_column(table, menus);
  if (lacks(table, names.column(), "`drink` or `item`", sales.problems) ||
      lacks(table, sold, "`sold` or `quantity`", sales.problems))
    return sales;
  for (const auto& row : table.rows) {
    auto id = names.find(row, "This row names no drink.", "drink", sales.problems, sales.problems);
    if (!id) continue;
    std::string text = table.cell(row, sold);
    // A return is written as less than nothing.
    auto read = read_portions(text, table.cell(row, unit), DrinkId{*id}, house, table);
    auto menu = menu_of_row(table.cell(row, menu_at), DrinkId{*id}, house, menus);
    if (const auto* why = std::get_if<std::string>(&read))
      sales.problems.push_back({row.line, *why});
    else if (const auto* no_menu = std::get_if<std::string>(&menu))
      sales.problems.push_back({row.line, *no_menu});
    else if (double portions = std::get<double>(read); std::abs(portions) <= max_portions)
      add_sold(sales, DrinkId{*id}, std::get<analysis::MenuId>(menu), portions);
    else
      sales.problems.push_back({row.line, fmt::format("`{}` is more than any bar sells of `{}`.", text,
                                                      house.specs.drinks[*id].head.name)});
  }
  return sales;
}

}  // namespace gill::stock
