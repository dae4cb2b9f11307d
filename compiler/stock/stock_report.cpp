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

/// What the house uses, and the fruit and the eggs that it comes of where it is not bought as such.
std::vector<bool> counted_stock(const Costing& costing) {
  const auto& specs = costing.house().specs;
  auto counted = render::Usage(specs).of_the_house();
  for (std::size_t i = 0; i < counted.size(); ++i)
    if (auto stock = StockId::at(i); counted[i] && costing.prices().is_given(stock) && !specs[stock].is_prep)
      counted[costing.prices().given_by(stock).fruit.index()] = true;
  return counted;
}

/// What was counted at one place, and before.
struct AtPlace {
  std::string words;
  std::optional<CountedAmount> counted, before;
};

/// The places of the count and of the one before; one without a name where neither says any.
std::vector<AtPlace> places_of(StockId stock, const StockInput& input) {
  std::vector<AtPlace> places;
  auto at = [&](const std::string& words) -> AtPlace& {
    auto found = std::find_if(places.begin(), places.end(), [&](const AtPlace& place) {
      return base::fold_name(place.words) == base::fold_name(words);
    });
    return found != places.end() ? *found : places.emplace_back(AtPlace{words, {}, {}});
  };
  auto read = [&](const Counts* counts, std::optional<CountedAmount> AtPlace::*amount) {
    if (!counts) return;
    auto by_place = counts->by_place.find(stock);
    if (by_place == counts->by_place.end()) return;
    for (const auto& [words, counted] : by_place->second) at(words).*amount = counted;
  };
  read(input.count, &AtPlace::counted);
  read(input.opening, &AtPlace::before);
  // One of the two counts says where, the other only how much: it is the same place.
  if (places.size() == 2 && !places[0].before && !places[1].counted &&
      (places[0].words.empty() || places[1].words.empty())) {
    places[0].before = places[1].before;
    if (places[0].words.empty()) places[0].words = places[1].words;
    places.pop_back();
  }
  if (places.empty()) places.emplace_back();
  return places;
}

void add_lines(StockReport& report, const Costing& costing, const StockInput& input) {
  const auto& house = costing.house();
  AmountReader amounts(house, costing);
  const auto is_of_sheet = counted_stock(costing);
  for (std::size_t i = 0; i < house.specs.stock.size(); ++i) {
    auto stock = StockId::at(i);
    bool is_counted =
        input.count && (input.count->grams.contains(stock) || input.count->pieces.contains(stock));
    if ((!is_of_sheet[i] || costing.prices().is_free(stock)) && !is_counted) continue;
    // Juice that is pressed on the day is counted as the fruit.
    bool pressed = costing.prices().is_given(stock) && !house.specs[stock].is_prep;
    if (pressed && !is_counted) continue;
    auto amount = [&](const std::optional<CountedAmount>& counted) {
      return counted ? std::optional(amount_of(stock, counted->grams, counted->pieces, costing))
                     : std::nullopt;
    };
    for (const auto& [words, counted, before] : places_of(stock, input)) {
      CountLine line;
      line.stock = stock;
      line.place = words.empty() ? place_of(stock, house) : words;
      line.pack = amounts.usual_unit(stock);
      line.before = amount(before);
      line.counted = amount(counted);
      if (auto worth = worth_of_a_gram(stock, costing); worth && line.counted && line.counted->grams > 0) {
        line.value = model::settled(*worth * model::decimal_of(line.counted->grams));
        report.value += *line.value;
      }
      report.lines.push_back(std::move(line));
    }
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

/// What to say of a list that counts from a later day: that the lists of today can be asked for, or, where
/// they were, what only this one has a price of.
std::string words_of_coming_list(const PriceSource& source, const House& house, bool is_asked_by_day,
                                 std::chrono::sys_days today) {
  if (!is_asked_by_day) return fmt::format(" `--on {}` values by the lists of today.", base::iso_date(today));
  std::vector<std::string> names;
  for (auto stock : source.stock) names.push_back(house.specs[stock].head.name);
  return fmt::format(" No earlier list has a price of {}.", base::join_with_and(names));
}

/// Whose prices the goods are valued by.
void note_price_lists(StockReport& report, const Costing& costing, std::optional<std::chrono::sys_days> today,
                      bool is_asked_by_day) {
  std::set<StockId> bought;
  for (const auto& line : report.lines)
    if (line.counted && line.stock.valid() && !costing.house().specs[line.stock].is_prep)
      bought.insert(line.stock);
  for (const auto& line : report.usage) bought.insert(line.stock);
  auto sources = price_sources(bought, costing, today);
  if (sources.empty()) return;
  std::vector<std::string> words;
  std::string coming;
  for (const auto& source : sources) {
    words.push_back(words_of(source));
    if (source.age_days.value_or(0) < 0 && today && (coming.empty() || is_asked_by_day))
      coming += words_of_coming_list(source, costing.house(), is_asked_by_day, *today);
  }
  report.notes.push_back(fmt::format("Valued by the prices of {}.{}", base::join_with_and(words), coming));
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
  note_price_lists(report, costing, today, !on.empty());
  return report;
}

}  // namespace gill::stock
