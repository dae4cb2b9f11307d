#include "model/cost.h"

#include <algorithm>
#include <tuple>

#include "base/text.h"

namespace gill::model {
namespace {

/// The order of price lists: by their `from` date, else by the year and season in their names, else by name.
std::tuple<std::string, std::string> age_key(const spec::PriceList& list) {
  if (!list.from.empty()) return {list.from, list.head.name};
  std::string name = base::fold_name(list.head.name);
  static constexpr std::pair<std::string_view, std::string_view> seasons[] = {
      {"spring", "-03"}, {"summer", "-06"}, {"autumn", "-09"}, {"fall", "-09"}, {"winter", "-01"}};
  std::string key;
  for (std::size_t i = 0; i + 4 <= name.size() && key.empty(); ++i) {
    auto year = name.substr(i, 4);
    if (std::all_of(year.begin(), year.end(), [](char c) { return c >= '0' && c <= '9'; })) key = year;
  }
  for (auto [season, month] : seasons)
    if (name.find(season) != std::string::npos) key += month;
  return {key, list.head.name};
}

}  // namespace

Prices::Prices(const spec::Specs& specs, const Measuring& measuring)
    : specs_(specs), measuring_(measuring), currency_(specs.house.currency) {
  latest_.resize(specs.stock.size(), nullptr);
  given_by_.resize(specs.stock.size(), {spec::StockId{}, nullptr});
  std::vector<const spec::PriceList*> lists;
  for (const auto& list : specs.price_lists) lists.push_back(&list);
  std::sort(lists.begin(), lists.end(), [](const auto* a, const auto* b) { return age_key(*a) < age_key(*b); });
  for (const auto* list : lists)
    for (const auto& price : list->prices) latest_[price.use.stock.index()] = &price;
  if (currency_.empty())
    for (const auto* list : lists)
      if (!list->prices.empty()) currency_ = list->prices.front().buy.price.currency;
  if (currency_.empty())
    for (const auto& stock : specs.stock)
      if (!stock.buys.empty()) currency_ = stock.buys.front().price.currency;
  // A house's fruit beats the library's; among equals the first by name, so that the order of files says nothing.
  for (std::size_t i = 0; i < specs.stock.size(); ++i)
    for (const auto& gives : specs.stock[i].gives) {
      auto& current = given_by_[gives.what.stock.index()];
      auto rank = [&](spec::StockId id) {
        return std::tuple(latest_[id.index()] == nullptr && specs[id].buys.empty(), specs[id].head.from_library, specs[id].head.name);
      };
      auto candidate = spec::StockId::at(i);
      if (!current.first.valid() || rank(candidate) < rank(current.first)) current = {candidate, &gives};
    }
}

std::optional<double> Prices::in_house_currency(const units::Money& money) const {
  double amount = base::to_double(money.amount);
  if (money.currency == currency_) return amount;
  for (const auto& rate : specs_.house.rates) {
    if (rate.from == money.currency && rate.to == currency_) return amount * base::to_double(rate.factor);
    if (rate.to == money.currency && rate.from == currency_) return amount / base::to_double(rate.factor);
  }
  return std::nullopt;
}

std::optional<double> Prices::offer_per_gram(const spec::Use& use, const spec::Buy& buy) const {
  auto money = in_house_currency(buy.price);
  if (!money) return std::nullopt;
  auto grams = measuring_.grams_silently(use, buy.pack);
  if (!grams || *grams <= 0) return std::nullopt;
  double waste = specs_[use.stock].waste.value_or(0);
  if (waste >= 1) return std::nullopt;
  return *money / (*grams * buy.packs) / (1 - waste);
}

std::optional<double> Prices::bought_per_gram(spec::StockId id) const {
  if (const auto* price = latest_[id.index()]) return offer_per_gram(price->use, price->buy);
  std::optional<double> best;
  for (const auto& buy : specs_[id].buys) {
    auto offer = offer_per_gram(spec::Use{id, {}, {}}, buy);
    if (offer && (!best || *offer < *best)) best = offer;
  }
  return best;
}

std::optional<double> Prices::per_gram(spec::StockId id) const {
  if (auto bought = bought_per_gram(id)) return bought;
  const auto& stock = specs_[id];
  // Water from the tap costs nothing that a bar reckons.
  if (stock.kind == spec::StockKind::water && !stock.fizz && stock.buys.empty()) return 0.0;
  auto [fruit, gives] = given_by_[id.index()];
  if (!fruit.valid()) return std::nullopt;
  auto fruit_cost = bought_per_gram(fruit);
  auto fruit_grams = measuring_.grams_each(spec::Use{fruit, {}, {}});
  auto given_grams = measuring_.grams_silently(gives->what, gives->quantity);
  if (!fruit_cost || !fruit_grams || !given_grams || *given_grams <= 0) return std::nullopt;
  return *fruit_cost * *fruit_grams / *given_grams;
}

}  // namespace gill::model
