#include "stock/stock_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/percent.h"
#include "base/text.h"
#include "costing/words.h"
#include "render/book/usage.h"
#include "render/wording/measures.h"

namespace gill::stock {
namespace {

StockAmount amount_of(StockId stock, double grams, double pieces, const Costing& costing) {
  StockAmount amount{grams, pieces, {}, {}};
  const auto& measuring = costing.measuring();
  if (measuring.is_liquid(stock))
    amount.ml = model::number_of(measuring.millilitres(stock, units::Grams(grams)));
  else if (auto each = model::number_of(measuring.grams_each(analysis::Use{stock, {}, {}}));
           each && *each > 0)
    amount.count = grams / *each;
  if (grams == 0 && pieces > 0) amount.count = pieces;
  return amount;
}

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

/// Worth of one gram: what is bought at its price, unwasted; what is made at its cost.
std::optional<Exact> worth_of_a_gram(StockId stock, const Costing& costing) {
  if (costing.house().specs[stock].is_prep) return costing.cost_of_a_gram(stock);
  auto offers = costing.prices().offers(stock);
  if (!offers.empty()) return offers.front().price / model::decimal_of(offers.front().grams);
  return costing.prices().exact_per_gram(stock);
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
  std::sort(report.lines.begin(), report.lines.end(), [&](const CountLine& a, const CountLine& b) {
    return std::pair(name_key(a.place), name_key(house.specs[a.stock].head.name)) <
           std::pair(name_key(b.place), name_key(house.specs[b.stock].head.name));
  });
}

/// Amounts by bought thing, with juice and peel as the fruit that they come from: a fruit gives both.
class BoughtAmounts {
 public:
  explicit BoughtAmounts(const Costing& costing)
      : costing_(costing), grams_(costing.house().specs.stock.size(), 0), given_(grams_.size()) {}

  void add(const Parts& parts, double times) {
    for (const auto& part : parts.bought) {
      const auto& [fruit, gives] = costing_.prices().given_by(part.stock);
      auto given = costing_.prices().is_given(part.stock)
                       ? model::number_of(costing_.measuring().grams_silently(gives->what, gives->quantity))
                       : std::nullopt;
      if (given && *given > 0)
        given_[fruit.index()][part.stock] += times * part.grams / *given;
      else
        grams_[part.stock.index()] += times * part.grams;
    }
  }

  /// Grams as bought; `with_waste` puts on what is trimmed away.
  double grams(StockId stock, bool with_waste) const {
    double fruit = 0;
    for (const auto& [what, count] : given_[stock.index()]) fruit = std::max(fruit, count);
    double grams =
        grams_[stock.index()] +
        fruit * model::number_of(costing_.measuring().grams_each(analysis::Use{stock, {}, {}})).value_or(0);
    double keeps = 1 - costing_.house().specs[stock].waste.value_or(0);
    return with_waste && keeps > 0 ? grams / keeps : grams;
  }

 private:
  const Costing& costing_;
  std::vector<double> grams_;
  std::vector<std::map<StockId, double>> given_;
};

void add_counts(BoughtAmounts& amounts, const Counts* counts, double times, const Costing& costing) {
  if (!counts) return;
  for (const auto& [stock, grams] : counts->grams) {
    Parts parts = costing.parts_of_a_gram(stock);
    amounts.add(parts, times * grams);
  }
}

/// What the sales should have used.
void add_sales(BoughtAmounts& should, StockReport& report, const StockInput& input, const Costing& costing) {
  const auto& specs = costing.house().specs;
  for (const auto& [drink, portions] : input.sales->portions) {
    Parts parts = costing.parts(drink);
    should.add(parts, portions);
    if (!parts.unweighed.empty())
      report.notes.push_back(fmt::format("Of `{}` not all could be reckoned: nobody says what {} weighs.",
                                         specs[drink].head.name, specs[parts.unweighed.front()].head.name));
  }
}

/// What is worth most first, on either side; what nobody prices last.
void sort_by_worth(std::vector<UsageLine>& usage, const House& house) {
  std::stable_sort(usage.begin(), usage.end(), [&](const UsageLine& a, const UsageLine& b) {
    auto size = [](const UsageLine& line) {
      return line.difference_value ? std::abs(base::to_double(*line.difference_value)) : -1.0;
    };
    if (size(a) != size(b)) return size(a) > size(b);
    return name_key(house.specs[a.stock].head.name) < name_key(house.specs[b.stock].head.name);
  });
}

/// `went_g`: where it is known what went of it.
UsageLine usage_line(StockId stock, double should_g, std::optional<double> went_g, const Costing& costing) {
  UsageLine line;
  line.stock = stock;
  line.should = amount_of(stock, should_g, 0, costing);
  if (!went_g) return line;
  line.went = amount_of(stock, *went_g, 0, costing);
  line.difference_g = *went_g - should_g;
  if (should_g > 0) line.difference_percent = base::percent_of_share(*line.difference_g / should_g);
  if (auto worth = worth_of_a_gram(stock, costing))
    line.difference_value = model::settled(*worth * model::decimal_of(*line.difference_g));
  return line;
}

void add_usage(StockReport& report, const Costing& costing, const StockInput& input) {
  const auto& house = costing.house();
  BoughtAmounts should(costing), went(costing);
  add_sales(should, report, input, costing);
  bool has_went = input.count && input.opening;
  add_counts(went, input.opening, 1, costing);
  add_counts(went, input.received, 1, costing);
  add_counts(went, input.count, -1, costing);
  if (!has_went)
    report.notes.push_back(
        "What went is known only from an opening and a closing count: give both to see the difference.");
  // A row that stands in one count only says nothing of what went: nothing left is written as 0.
  auto is_in = [](const Counts* counts, StockId stock) {
    return counts && (counts->grams.contains(stock) || counts->pieces.contains(stock));
  };
  std::vector<std::string> counted_once;
  for (std::size_t i = 0; i < house.specs.stock.size(); ++i) {
    auto stock = StockId::at(i);
    if (house.specs.stock[i].is_prep || costing.prices().is_free(stock)) continue;
    double should_g = should.grams(stock, true), went_g = went.grams(stock, false);
    bool before = is_in(input.opening, stock) || is_in(input.received, stock),
         after = is_in(input.count, stock);
    if (has_went && before != after) counted_once.push_back("`" + house.specs[stock].head.name + "`");
    if (should_g <= 0 && (std::abs(went_g) <= 1e-9 || !before || !after)) continue;
    bool is_known = has_went && before && after;
    report.usage.push_back(
        usage_line(stock, should_g, is_known ? std::optional(went_g) : std::nullopt, costing));
    report.difference_value += report.usage.back().difference_value.value_or(0);
  }
  if (!counted_once.empty())
    report.notes.push_back(
        fmt::format("Counted only before or only after, so that what went of it is not known: {}. Write 0 "
                    "where there is none.",
                    base::join_with_and(counted_once)));
  sort_by_worth(report.usage, house);
}

}  // namespace

StockReport stock_report(const House& house, const StockInput& input) {
  Costing costing(house);
  StockReport report;
  report.currency = costing.prices().currency();
  add_lines(report, costing, input);
  if (input.sales) add_usage(report, costing, input);
  std::vector<std::string> unpriced;
  for (const auto& line : report.lines)
    if (line.counted && !line.value) unpriced.push_back(house.specs[line.stock].head.name);
  if (!unpriced.empty())
    report.notes.push_back(
        fmt::format("Not in the value, for want of a price or a weight: {}.", base::join_with_and(unpriced)));
  return report;
}

}  // namespace gill::stock
