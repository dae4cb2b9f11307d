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

/// The columns of a table of measurements, and its rows one by one.
class MeasurementTable {
 public:
  MeasurementTable(const base::CsvTable& table, const House& house)
      : table_(table),
        house_(house),
        drinks_(table, house, symbols::NameSpace::drink, measured_titles),
        preps_(table, house, symbols::NameSpace::stock, measured_titles) {}

  Measurements read() {
    read_.problems = table_.problems;
    if (lacks(table_, drinks_.column(), "`drink` or `name`", read_.problems) ||
        lacks(table_, date_, "`date`", read_.problems))
      return std::move(read_);
    for (const auto& row : table_.rows) read_row(row);
    return std::move(read_);
  }

 private:
  void read_row(const base::CsvRow& row) {
    auto fail = [&](std::string message) { read_.problems.push_back({row.line, std::move(message)}); };
    auto of = named_in(row);
    if (!of) return;
    auto day = date_of(table_.cell(row, date_));
    if (!day)
      return fail(fmt::format("`{}` is no day of the calendar; write year, month and day: `2026-09-15`.",
                              table_.cell(row, date_)));
    RowReader reader(table_, row, house_);
    constexpr double least_amount = 1e-3;
    Measurement& measured = of->measurement;
    measured.date = *day;
    measured.row = row.line;
    measured.before = reader.quantity(before_, {Kind::mass, Kind::volume}, "g", least_amount, most_amount);
    measured.after = reader.quantity(after_, {Kind::mass, Kind::volume}, "g", least_amount, most_amount);
    measured.temperature = reader.quantity(temperature_, {Kind::temperature}, "C", coldest_c, hottest_c);
    measured.brix = reader.quantity(brix_, {Kind::mass_fraction}, "brix", 0, 0.85);
    measured.time = reader.quantity(time_, {Kind::time}, "s", 1e-3, model::longest_by_hand);
    measured.ice = reader.ice(ice_);
    measured.verb = reader.step(step_);
    if (!reader.failure().empty()) return fail(reader.failure());
    if (!measured.after && !measured.temperature && !measured.brix)
      return fail("Nothing is measured in this row; fill in `after`, `temperature` or `brix`.");
    read_.measured.push_back(std::move(*of));
  }

  /// The drink or prep of a row; nothing, with the reason among the problems, where it names neither.
  std::optional<model::MeasuredOf> named_in(const base::CsvRow& row) {
    model::MeasuredOf of;
    std::vector<base::RowProblem> as_drink, as_prep;
    if (auto id = drinks_.find(row, "This row names no drink and no prep.", "drink", as_drink, as_drink)) {
      of.drink = analysis::DrinkId{*id};
      return of;
    }
    auto stock = preps_.find(row, "This row names no drink and no prep.", "prep", as_prep, as_prep);
    if (stock && house_.specs[analysis::StockId{*stock}].is_prep) {
      of.prep = analysis::StockId{*stock};
      return of;
    }
    read_.problems.insert(read_.problems.end(), as_drink.begin(), as_drink.end());
    return std::nullopt;
  }

  const base::CsvTable& table_;
  const House& house_;
  NameColumn drinks_, preps_;
  const std::optional<std::size_t> date_ = table_.column(date_titles), before_ = table_.column(before_titles),
                                   after_ = table_.column(after_titles),
                                   temperature_ = table_.column(temperature_titles),
                                   brix_ = table_.column(brix_titles), time_ = table_.column(time_titles),
                                   ice_ = table_.column(ice_titles), step_ = table_.column(step_titles);
  Measurements read_;
};

}  // namespace

Measurements read_measurements(std::string_view bytes, const House& house) {
  const base::CsvTable table = base::read_csv(bytes);
  return MeasurementTable(table, house).read();
}

}  // namespace gill::stock
