#include "stock/measurements.h"

#include <fmt/format.h>

#include <cmath>

#include "base/date.h"
#include "base/text.h"
#include "stock/amount_reader.h"
#include "stock/list_columns.h"

namespace gill::stock {

namespace {

using analysis::Measurement;
using units::Kind;
using units::Quantity;

const Titles date_titles = {"date", "day", "datum", "on"};
const Titles measured_titles = {"drink", "prep", "name", "item", "what"};
const Titles before_titles = {"before", "in", "before ice", "poured"};
const Titles after_titles = {"after", "out", "after ice", "strained"};
const Titles temperature_titles = {"temperature", "temp", "degrees"};
const Titles brix_titles = {"brix", "refractometer", "reading"};
const Titles time_titles = {"seconds", "time", "secs", "sec", "duration"};
const Titles ice_titles = {"ice"};
const Titles step_titles = {"step", "method"};

// What nobody pours, tastes or waits for: a slip of the hand.
constexpr double most_amount = 100000, hottest_c = 110, coldest_c = -60;

/// Reads one row's cells; the first thing that is wrong is told.
class RowReader {
 public:
  RowReader(const base::CsvTable& table, const base::CsvRow& row, const House& house)
      : table_(table), row_(row), house_(house) {}

  const std::string& failure() const { return failure_; }

  /// The quantity of a cell: nothing where it is empty or wrong.
  std::optional<Quantity> quantity(std::optional<std::size_t> column, std::initializer_list<Kind> kinds,
                                   std::string_view usual_unit, double least, double most) {
    std::string text = table_.cell(row_, column);
    if (text.empty() || !failure_.empty()) return std::nullopt;
    // A sign, as instruments print it.
    bool is_below = text.starts_with("-") || text.starts_with("−");
    std::string digits = is_below ? text.substr(text.starts_with("-") ? 1 : std::string("−").size()) : text;
    auto parts = split_number(table_, digits);
    if (!parts) return fail(text);
    std::string unit_words = parts->words.empty() ? unit_of_title(*column, usual_unit) : parts->words;
    auto id = house_.units.find(unit_words);
    if (!id.valid()) return fail(text);
    const auto& unit = house_.units[id];
    bool fits = false;
    for (Kind kind : kinds) fits = fits || unit.kind == kind;
    if (!fits) return fail(text);
    Quantity quantity;
    quantity.kind = unit.kind;
    base::Exact number = is_below ? -parts->number : parts->number;
    quantity.value = number * unit.factor + unit.offset;
    quantity.low = quantity.high = quantity.number();
    quantity.unit = id;
    if (!(quantity.number() >= least) || !(quantity.number() <= most)) return fail(text);
    return quantity;
  }

  std::optional<analysis::IceUse> ice(std::optional<std::size_t> column) {
    std::string text = table_.cell(row_, column);
    if (text.empty() || !failure_.empty()) return std::nullopt;
    auto parts = split_number(table_, text);
    if (!parts) return fail_ice(text);
    analysis::IceUse use;
    use.ice = analysis::usual_ice(house_.specs);
    auto space = parts->words.find(' ');
    std::string first = parts->words.substr(0, space);
    auto id = house_.units.find(first.empty() ? "g" : first);
    std::string name = space == std::string::npos ? std::string() : parts->words.substr(space + 1);
    Quantity amount;
    if (id.valid() && house_.units[id].kind == Kind::mass) {
      amount.kind = Kind::mass;
      amount.value = parts->number * house_.units[id].factor;
    } else {
      amount.kind = Kind::count;
      amount.value = parts->number;
      if (base::fold_name(first) != "cubes" && base::fold_name(first) != "cube") name = parts->words;
    }
    if (!name.empty()) {
      use.ice = {};
      for (std::size_t i = 0; i < house_.specs.ices.size(); ++i)
        if (base::fold_name(house_.specs.ices[i].head.name) == base::fold_name(name))
          use.ice = analysis::IceId::at(i);
    }
    amount.low = amount.high = amount.number();
    if (!use.ice.valid() || !(amount.number() > 0) || !(amount.number() <= most_amount))
      return fail_ice(text);
    use.amount = amount;
    return use;
  }

  std::optional<analysis::Verb> step(std::optional<std::size_t> column) {
    std::string text = base::fold_name(table_.cell(row_, column));
    if (text.empty() || !failure_.empty()) return std::nullopt;
    for (const auto& verb : analysis::all_verbs())
      if (base::fold_name(verb.name) == text && model::chill_method_of(verb.verb)) return verb.verb;
    failure_ = fmt::format(
        "`{}` is no step in which hands melt ice; write shake, stir, build, swizzle, throw or roll.",
        table_.cell(row_, column));
    return std::nullopt;
  }

 private:
  std::nullopt_t fail(const std::string& text) {
    failure_ = fmt::format(
        "`{}` cannot have been measured there; write a number with its unit, as in `108 g`, `-5 C`, "
        "`14 brix` or `12 s`.",
        text);
    return std::nullopt;
  }
  std::nullopt_t fail_ice(const std::string& text) {
    failure_ = fmt::format("`{}` is no amount of an ice of this house; write `250 g` or `4 cubes`.", text);
    return std::nullopt;
  }

  /// `before g`, `temperature (C)`: the unit stands last in the title.
  std::string unit_of_title(std::size_t column, std::string_view usual) const {
    if (column >= table_.header.size()) return std::string(usual);
    std::string title = table_.header[column];
    for (char& letter : title)
      if (letter == '(' || letter == ')' || letter == '[' || letter == ']' || letter == '_' || letter == ',')
        letter = ' ';
    title = base::collapse_space(title);
    auto space = title.find_last_of(' ');
    if (space == std::string::npos) return std::string(usual);
    std::string last = title.substr(space + 1);
    return house_.units.find(last).valid() ? last : std::string(usual);
  }

  const base::CsvTable& table_;
  const base::CsvRow& row_;
  const House& house_;
  std::string failure_;
};

/// A date of the calendar, in a cell that spreadsheets like to dress up.
std::optional<std::string> date_of(const std::string& text) {
  std::string day = text.substr(0, 10);
  if (!base::read_iso_date(day)) return std::nullopt;
  return day;
}

}  // namespace

Measurements read_measurements(std::string_view bytes, const House& house) {
  base::CsvTable table = base::read_csv(bytes);
  Measurements read;
  read.problems = table.problems;
  NameColumn drinks(table, house, symbols::NameSpace::drink, measured_titles);
  NameColumn preps(table, house, symbols::NameSpace::stock, measured_titles);
  auto date = table.column(date_titles), before = table.column(before_titles),
       after = table.column(after_titles);
  auto temperature = table.column(temperature_titles), brix = table.column(brix_titles);
  auto time = table.column(time_titles), ice = table.column(ice_titles), step = table.column(step_titles);
  if (lacks(table, drinks.column(), "`drink` or `name`", read.problems) ||
      lacks(table, date, "`date`", read.problems))
    return read;
  for (const auto& row : table.rows) {
    auto fail = [&](std::string message) { read.problems.push_back({row.line, std::move(message)}); };
    model::MeasuredOf of;
    std::vector<base::RowProblem> as_drink, as_prep;
    if (auto id = drinks.find(row, "This row names no drink and no prep.", "drink", as_drink, as_drink)) {
      of.drink = analysis::DrinkId{*id};
    } else if (auto stock = preps.find(row, "This row names no drink and no prep.", "prep", as_prep, as_prep);
               stock && house.specs[analysis::StockId{*stock}].is_prep) {
      of.prep = analysis::StockId{*stock};
    } else {
      read.problems.insert(read.problems.end(), as_drink.begin(), as_drink.end());
      continue;
    }
    auto day = date_of(table.cell(row, date));
    if (!day) {
      fail(fmt::format("`{}` is no day of the calendar; write year, month and day: `2026-09-15`.",
                       table.cell(row, date)));
      continue;
    }
    RowReader reader(table, row, house);
    constexpr double least_amount = 1e-3;
    Measurement& measured = of.measurement;
    measured.date = *day;
    measured.row = row.line;
    measured.before = reader.quantity(before, {Kind::mass, Kind::volume}, "g", least_amount, most_amount);
    measured.after = reader.quantity(after, {Kind::mass, Kind::volume}, "g", least_amount, most_amount);
    measured.temperature = reader.quantity(temperature, {Kind::temperature}, "C", coldest_c, hottest_c);
    measured.brix = reader.quantity(brix, {Kind::mass_fraction}, "brix", 0, 0.85);
    measured.time = reader.quantity(time, {Kind::time}, "s", 1e-3, model::longest_by_hand);
    measured.ice = reader.ice(ice);
    measured.verb = reader.step(step);
    if (!reader.failure().empty()) {
      fail(reader.failure());
      continue;
    }
    if (!measured.after && !measured.temperature && !measured.brix) {
      fail("Nothing is measured in this row; fill in `after`, `temperature` or `brix`.");
      continue;
    }
    read.measured.push_back(std::move(of));
  }
  return read;
}

}  // namespace gill::stock
