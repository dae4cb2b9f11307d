#include "stock/usage.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/percent.h"
#include "base/text.h"
#include "costing/packs.h"
#include "costing/words.h"
#include "stock/amount_reader.h"
#include "stock/counted_bottles.h"

namespace gill::stock {

StockAmount amount_of(StockId stock, double grams, double pieces, const Costing& costing) {
  StockAmount amount{grams, pieces, {}, {}, false};
  const auto& measuring = costing.measuring();
  auto offers = costing.prices().offers(stock);
  const analysis::Buy* pack = offers.empty() ? nullptr : offers.front().buy;
  // What is bought by the piece is counted by it, be it liquid inside: eggs.
  if (pack && pack->pack.kind == units::Kind::count && offers.front().grams > 0)
    amount.count = grams / offers.front().grams * pack->packs * pack->pack.number();
  else if (measuring.is_liquid(stock) && !is_whole_egg(costing.house().specs[stock]))
    amount.ml = model::number_of(measuring.millilitres(stock, units::Grams(grams)));
  else if (auto each = model::number_of(measuring.grams_each(analysis::Use{stock, {}, {}}));
           each && *each > 0)
    amount.count = grams / *each;
  amount.is_weighed = pack && pack->pack.kind == units::Kind::mass && !grams_of_counted_piece(stock, costing);
  if (grams == 0 && pieces > 0) amount.count = pieces;
  return amount;
}

std::optional<Exact> worth_of_a_gram(StockId stock, const Costing& costing) {
  if (costing.house().specs[stock].is_prep) return costing.cost_of_a_gram(stock);
  auto offers = costing.prices().offers(stock);
  if (!offers.empty()) return offers.front().price / model::decimal_of(offers.front().grams);
  return costing.prices().exact_per_gram(stock);
}

BoughtAmounts::BoughtAmounts(const Costing& costing)
    : costing_(costing), grams_(costing.house().specs.stock.size(), 0), given_(grams_.size()) {}

void BoughtAmounts::add(const Parts& parts, double times) {
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

void BoughtAmounts::add(const Counts* counts, double times) {
  if (!counts) return;
  for (const auto& [stock, grams] : counts->grams) add(costing_.parts_of_a_gram(stock), times * grams);
  for (const auto& [drink, grams] : counts->bottled_g) add(parts_of_bottle(drink, costing_), times * grams);
}

void BoughtAmounts::add(const Sales* sales) {
  if (!sales) return;
  for (const auto& [drink, portions] : sales->portions) add(costing_.parts(drink), portions);
}

double BoughtAmounts::grams(StockId stock, bool with_waste) const {
  double fruit = 0;
  for (const auto& [what, count] : given_[stock.index()]) fruit = std::max(fruit, count);
  double grams =
      grams_[stock.index()] +
      fruit * model::number_of(costing_.measuring().grams_each(analysis::Use{stock, {}, {}})).value_or(0);
  double keeps = 1 - costing_.house().specs[stock].waste.value_or(0);
  return with_waste && keeps > 0 ? grams / keeps : grams;
}

namespace {

// What a count and a jigger are good to. Common practice, no source: a bottle that is open is read to a tenth
// of it, either way by half of that, and a jigger is good to 2 % of what it pours.
constexpr double open_bottle_error_share = 0.05, pour_error_share = 0.02;

void note_unweighed(StockReport& report, const Sales& sales, const Costing& costing) {
  const auto& specs = costing.house().specs;
  for (const auto& [drink, portions] : sales.portions) {
    Parts parts = costing.parts(drink);
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

/// Half the width within which nothing is missing: two counts of an open bottle, and the pours.
double difference_tolerance_g(StockId stock, double used_g, const Costing& costing) {
  auto offers = costing.prices().offers(stock);
  bool is_bottle = costing.measuring().is_liquid(stock) && !offers.empty();
  double bottle_g = is_bottle ? offers.front().grams / offers.front().buy->packs : 0;
  return std::hypot(open_bottle_error_share * bottle_g * std::sqrt(2.0), pour_error_share * used_g);
}

/// What left the house beside what was sold.
struct OtherUse {
  double staff_g = 0, waste_g = 0;
};

/// `went_g`: where it is known what went of it.
UsageLine usage_line(StockId stock, double should_g, const OtherUse& other, std::optional<double> went_g,
                     const Costing& costing) {
  UsageLine line;
  line.stock = stock;
  line.should = amount_of(stock, should_g, 0, costing);
  line.staff = amount_of(stock, other.staff_g, 0, costing);
  line.waste = amount_of(stock, other.waste_g, 0, costing);
  auto worth = worth_of_a_gram(stock, costing);
  auto value = [&](double grams) {
    return worth ? std::optional<Exact>(model::settled(*worth * model::decimal_of(grams))) : std::nullopt;
  };
  line.should_value = value(should_g);
  if (!went_g) return line;
  line.went = amount_of(stock, *went_g, 0, costing);
  line.went_value = value(*went_g);
  double explained_g = should_g + other.staff_g + other.waste_g;
  line.difference_g = *went_g - explained_g;
  line.difference_tolerance_g = difference_tolerance_g(stock, explained_g, costing);
  if (explained_g > 0) line.difference_percent = base::percent_of_share(*line.difference_g / explained_g);
  line.difference_value = value(*line.difference_g);
  return line;
}

}  // namespace

void add_usage(StockReport& report, const Costing& costing, const StockInput& input) {
  const auto& house = costing.house();
  BoughtAmounts should(costing), staff(costing), waste(costing), went(costing);
  should.add(input.sales);
  note_unweighed(report, *input.sales, costing);
  staff.add(input.staff);
  if (input.waste) {
    waste.add(&input.waste->stock, 1);
    waste.add(&input.waste->drinks);
  }
  bool has_went = input.count && input.opening;
  went.add(input.opening, 1);
  went.add(input.received, 1);
  went.add(input.count, -1);
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
    OtherUse other{staff.grams(stock, true), waste.grams(stock, true)};
    bool before = is_in(input.opening, stock) || is_in(input.received, stock),
         after = is_in(input.count, stock);
    if (has_went && before != after) counted_once.push_back("`" + house.specs[stock].head.name + "`");
    if (should_g + other.staff_g + other.waste_g <= 0 && (std::abs(went_g) <= 1e-9 || !before || !after))
      continue;
    bool is_known = has_went && before && after;
    report.usage.push_back(
        usage_line(stock, should_g, other, is_known ? std::optional(went_g) : std::nullopt, costing));
    report.difference_value += report.usage.back().difference_value.value_or(0);
  }
  if (!counted_once.empty())
    report.notes.push_back(
        fmt::format("Counted only before or only after, so that what went of it is not known: {}. Write 0 "
                    "where there is none.",
                    base::join_with_and(counted_once)));
  sort_by_worth(report.usage, house);
}

}  // namespace gill::stock
