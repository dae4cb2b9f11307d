#include "stock/stock_report.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/date.h"
#include "base/text.h"
#include "costing/cost_report.h"
#include "costing/words.h"
#include "model/house_bottle.h"
#include "render/book/usage.h"
#include "stock/counted_bottles.h"
#include "stock/usage.h"

namespace gill::stock {
namespace {

std::string place_of(StockId stock, const House& house) {
  const auto& specs = house.specs[stock];
  // Closed goods lie as they are sold; what is made lies as it is kept.
  std::optional<analysis::Storage> storage = house.facts[stock].storage;
  if (!specs.is_prep && specs.keeps) storage = specs.keeps->storage;
  if (!storage) return "no place stated";
  switch (*storage) {
    case analysis::Storage::ambient:
      return "shelf";
    case analysis::Storage::chilled:
      return "fridge";
    case analysis::Storage::frozen:
      return "freezer";
  }
  return {};
}

/// House bottles stand in the fridge until they are poured.
void add_bottle_lines(StockReport& report, const Costing& costing, const StockInput& input) {
  const auto& house = costing.house();
  auto counted = [&](const Counts* counts, DrinkId drink) -> std::optional<StockAmount> {
    auto found = counts ? counts->bottled_g.find(drink) : std::map<DrinkId, double>::const_iterator();
    if (!counts || found == counts->bottled_g.end()) return std::nullopt;
    return StockAmount{found->second, 0, bottled_ml(drink, found->second, house), {}};
  };
  for (std::size_t i = 0; i < house.specs.drinks.size(); ++i) {
    auto drink = DrinkId::at(i);
    const auto& specs = house.specs[drink];
    if (specs.head.from_library || specs.status == analysis::Status::retired ||
        !bottled_drink(specs.head.name, house))
      continue;
    CountLine line;
    line.drink = drink;
    line.place = "fridge";
    line.pack = amount_text(model::full_bottle_ml(house.specs[drink]), 0, 0);
    line.counted = counted(input.count, drink);
    line.before = counted(input.opening, drink);
    if (auto worth = costing.cost(parts_of_bottle(drink, costing)); worth && line.counted) {
      line.value = model::settled(*worth * model::decimal_of(line.counted->grams));
      report.value += *line.value;
    }
    report.lines.push_back(std::move(line));
  }
}

void add_lines(StockReport& report, const Costing& costing, const StockInput& input) {
  const auto& house = costing.house();
  AmountReader amounts(house, costing);
  auto of_the_house = render::Usage(house.specs).of_the_house();
  for (std::size_t i = 0; i < house.specs.stock.size(); ++i) {
    auto stock = StockId::at(i);
    bool is_counted =
        input.count && (input.count->grams.contains(stock) || input.count->pieces.contains(stock));
    if ((!of_the_house[i] || costing.prices().is_free(stock)) && !is_counted) continue;
    // Juice that is pressed on the day is counted as the fruit.
    bool pressed = costing.prices().is_given(stock) && !house.specs[stock].is_prep;
    if (pressed && !is_counted) continue;
    CountLine line;
    line.stock = stock;
    line.place = place_of(stock, house);
    line.pack = amounts.usual_unit(stock);
    if (input.opening && input.opening->grams.contains(stock))
      line.before = amount_of(stock, input.opening->grams.at(stock), 0, costing);
    auto add = [&](const std::string& place, const std::optional<CountedAmount>& amount) {
      CountLine here = line;
      if (!place.empty()) here.place = place;
      if (amount) here.counted = amount_of(stock, amount->grams, amount->pieces, costing);
      if (auto worth = worth_of_a_gram(stock, costing); worth && here.counted && here.counted->grams > 0) {
        here.value = model::settled(*worth * model::decimal_of(here.counted->grams));
        report.value += *here.value;
      }
      report.lines.push_back(std::move(here));
    };
    const bool has_place = input.count && input.count->by_place.contains(stock);
    if (!has_place) add({}, std::nullopt);
    if (has_place)
      for (const auto& [place, amount] : input.count->by_place.at(stock)) add(place, amount);
  }
  add_bottle_lines(report, costing, input);
  std::sort(report.lines.begin(), report.lines.end(), [&](const CountLine& a, const CountLine& b) {
    return std::pair(name_key(a.place), name_key(name_of(a, house))) <
           std::pair(name_key(b.place), name_key(name_of(b, house)));
  });
}

}  // namespace

namespace {

std::string name_of_either(StockId stock, DrinkId bottle, const House& house) {
  return bottle.valid() ? bottle_name(bottle, house) : house.specs[stock].head.name;
}

}  // namespace

std::string name_of(const CountLine& line, const House& house) {
  return name_of_either(line.stock, line.drink, house);
}

std::string name_of(const PrepLine& line, const House& house) {
  return name_of_either(line.stock, line.drink, house);
}

namespace {

/// Whose prices the goods are valued by.
void note_price_lists(StockReport& report, const Costing& costing,
                      std::optional<std::chrono::sys_days> today) {
  std::set<StockId> bought;
  for (const auto& line : report.lines)
    if (line.counted && line.stock.valid() && !costing.house().specs[line.stock].is_prep)
      bought.insert(line.stock);
  for (const auto& line : report.usage) bought.insert(line.stock);
  auto sources = price_sources(bought, costing, today);
  if (sources.empty()) return;
  std::vector<std::string> words;
  bool is_to_come = false;
  for (const auto& source : sources) {
    words.push_back(words_of(source));
    is_to_come = is_to_come || source.age_days.value_or(0) < 0;
  }
  report.notes.push_back(fmt::format(
      "Valued by the prices of {}.{}", base::join_with_and(words),
      is_to_come && today ? fmt::format(" `--on {}` values by the lists of today.", base::iso_date(*today))
                          : ""));
}

}  // namespace

StockReport stock_report(const House& house, const StockInput& input,
                         std::optional<std::chrono::sys_days> today, const std::string& on) {
  Costing costing(house, on);
  StockReport report;
  report.currency = costing.prices().currency();
  add_lines(report, costing, input);
  if (input.sales) {
    add_usage(report, costing, input);
    add_close(report, costing, input);
  }
  std::vector<std::string> unpriced;
  for (const auto& line : report.lines)
    if (line.counted && !line.value) unpriced.push_back(name_of(line, house));
  if (!unpriced.empty())
    report.notes.push_back(
        fmt::format("Not in the value, for want of a price or a weight: {}.", base::join_with_and(unpriced)));
  note_price_lists(report, costing, today);
  return report;
}

}  // namespace gill::stock
