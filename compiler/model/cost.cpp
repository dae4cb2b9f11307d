#include "model/cost.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "base/characters.h"
#include "base/text.h"

namespace gill::model {
namespace {

/// The words of a folded name: `autumn 2026/27` has three.
std::vector<std::string> words_of_name(std::string_view name) {
  std::vector<std::string> words(1);
  for (char c : base::fold_name(name)) {
    bool in_word = base::is_digit(c) || base::is_ascii_letter(c) || static_cast<unsigned char>(c) >= 0x80;
    if (in_word)
      words.back() += c;
    else if (!words.back().empty())
      words.emplace_back();
  }
  return words;
}

bool is_number(const std::string& word, std::size_t digits) {
  return word.size() == digits && std::all_of(word.begin(), word.end(), base::is_digit);
}

// In English, German, French, Spanish and Italian, small and without accents. What is an English word too
// (`estate`, `set`) is none.
constexpr std::string_view winters[] = {"winter", "hiver", "invierno", "inverno"};
constexpr std::pair<std::string_view, std::string_view> seasons[] = {
    {"spring", "-03"}, {"fruhling", "-03"}, {"fruhjahr", "-03"}, {"printemps", "-03"}, {"primavera", "-03"},
    {"summer", "-06"}, {"sommer", "-06"},   {"ete", "-06"},      {"verano", "-06"},    {"autumn", "-09"},
    {"fall", "-09"},   {"herbst", "-09"},   {"automne", "-09"},  {"otono", "-09"},     {"autunno", "-09"},
    {"winter", "-01"}, {"hiver", "-01"},    {"invierno", "-01"}, {"inverno", "-01"}};
constexpr std::string_view other_months[][12] = {
    {"januar", "februar", "marz", "april", "mai", "juni", "juli", "august", "september", "oktober",
     "november", "dezember"},
    {"janvier", "fevrier", "mars", "avril", "mai", "juin", "juillet", "aout", "septembre", "octobre",
     "novembre", "decembre"},
    {"enero", "febrero", "marzo", "abril", "mayo", "junio", "julio", "agosto", "septiembre", "octubre",
     "noviembre", "diciembre"},
    {"gennaio", "febbraio", "marzo", "aprile", "maggio", "giugno", "luglio", "agosto", "settembre", "ottobre",
     "novembre", "dicembre"},
    {"", "", "mrz", "", "", "", "", "", "sept", "okt", "", "dez"}};

/// The month that a word says, as `-04`: a month in full or by its first three letters, a season by the month
/// in which it begins; a winter's list is the new year's.
std::string month_of(const std::string& written) {
  static constexpr std::string_view months[] = {"january",   "february", "march",    "april",
                                                "may",       "june",     "july",     "august",
                                                "september", "october",  "november", "december"};
  const std::string word = base::fold_without_accents(written);
  for (auto [season, month] : seasons)
    if (word == season) return std::string(month);
  for (const auto& language : other_months)
    for (std::size_t i = 0; i < std::size(months); ++i)
      if (word == language[i]) return fmt::format("-{:02}", i + 1);
  if (word.size() == 2 && word[0] == 'q' && word[1] >= '1' && word[1] <= '4')
    return fmt::format("-{:02}", 3 * (word[1] - '1') + 1);
  for (std::size_t i = 0; i < std::size(months); ++i)
    if (word == months[i] || word == months[i].substr(0, 3)) return fmt::format("-{:02}", i + 1);
  return {};
}

/// Digits of a day or a month, up to `most`, as `-04`; empty for any other word.
std::string two_digits(const std::string& word, int most) {
  if (!is_number(word, 1) && !is_number(word, 2)) return {};
  int number = std::stoi(word);
  return number >= 1 && number <= most ? fmt::format("-{:02}", number) : std::string();
}

bool names_winter(const std::vector<std::string>& words) {
  return std::any_of(words.begin(), words.end(), [](const std::string& word) {
    return std::find(std::begin(winters), std::end(winters), word) != std::end(winters);
  });
}

/// A winter that says no turn of the year (`winter 2026`) may be the one that begins it or the one that ends
/// it.
bool may_end_the_year(std::string_view name) {
  auto words = words_of_name(name);
  return names_winter(words) &&
         std::none_of(words.begin(), words.end(), [](const auto& word) { return is_number(word, 2); });
}

/// The year in a list's name with what else of a date stands there: `2026-04` of `April 2026`, `2026-04-03`
/// of `3 April 2026`, `2026-01` of `winter 2025/26`.
std::string date_in(std::string_view name) {
  auto words = words_of_name(name);
  auto year = std::find_if(words.begin(), words.end(), [](const auto& word) { return is_number(word, 4); });
  if (year == words.end()) return {};
  std::string date = *year;
  auto next = year + 1;
  // `winter 2025/26` begins its second year.
  if (next != words.end() && is_number(*next, 2) && std::stoi(*next) == (std::stoi(*year) + 1) % 100) {
    return names_winter(words) ? fmt::format("{}-01", std::stoi(*year) + 1) : date;
  }
  // `2026-04-01`, `2026-04`.
  for (int most : {12, 31}) {
    auto part = next != words.end() && is_number(*next, 2) ? two_digits(*next, most) : std::string();
    if (part.empty()) break;
    date += part;
    ++next;
  }
  if (date.size() > year->size()) return date;
  for (std::size_t i = 0; i < words.size(); ++i) {
    auto month = month_of(words[i]);
    if (month.empty()) continue;
    // `3 April`, `April 3`.
    std::string day = i > 0 ? two_digits(words[i - 1], 31) : std::string();
    if (day.empty() && i + 1 < words.size()) day = two_digits(words[i + 1], 31);
    return date + month + day;
  }
  return date;
}

bool same_pack(const analysis::Buy& a, const analysis::Buy& b) {
  return a.packs == b.packs && a.pack.kind == b.pack.kind && a.pack.value == b.pack.value;
}

/// The lists behind it by `like`, nearest first.
std::vector<const analysis::PriceList*> behind(const analysis::PriceList& list,
                                               const analysis::Specs& specs) {
  std::vector<const analysis::PriceList*> lists;
  for (auto like = list.like; like.valid() && lists.size() < specs.price_lists.size();
       like = lists.back()->like)
    lists.push_back(&specs.price_lists[like.index()]);
  return lists;
}

}  // namespace

std::string date_of(const analysis::PriceList& list, const analysis::Specs& specs) {
  auto own = [](const analysis::PriceList& dated) {
    return dated.from.empty() ? date_in(dated.head.name) : dated.from;
  };
  std::string date = own(list);
  // A list that says no date is younger than what it is like.
  std::string younger;
  for (const auto* like : behind(list, specs)) {
    if (!date.empty()) break;
    date = own(*like);
    younger += "~";
  }
  return date.empty() ? date : date + younger;
}

bool is_order_known(const analysis::PriceList& a, const analysis::PriceList& b,
                    const analysis::Specs& specs) {
  auto starts_from = [&](const analysis::PriceList& list, const analysis::PriceList& other) {
    auto lists = behind(list, specs);
    return std::find(lists.begin(), lists.end(), &other) != lists.end();
  };
  std::string first = date_of(a, specs), second = date_of(b, specs);
  // The last quarter of a year comes before its winter, or after it.
  auto is_late = [](const std::string& date, const std::string& winter) {
    return date.size() >= 7 && winter.size() >= 4 && date.substr(0, 4) == winter.substr(0, 4) &&
           date.substr(4, 3) >= "-09";
  };
  bool may_be_either = (a.from.empty() && may_end_the_year(a.head.name) && is_late(second, first)) ||
                       (b.from.empty() && may_end_the_year(b.head.name) && is_late(first, second));
  // `list 2026` may be older than `March 2026`, or younger.
  auto plain = [](const std::string& date) { return date.substr(0, date.find('~')); };
  const bool is_within =
      plain(first) != plain(second) && (first.starts_with(plain(second)) || second.starts_with(plain(first)));
  bool is_dated = !first.empty() && !second.empty() && first != second && !is_within && !may_be_either;
  return is_dated || starts_from(a, b) || starts_from(b, a);
}

Prices::Prices(const analysis::Specs& specs, const Measuring& measuring, const std::string& on)
    : specs_(specs), measuring_(measuring), currency_(specs.house.currency) {
  latest_.resize(specs.stock.size());
  given_by_.resize(specs.stock.size());
  std::vector<const analysis::PriceList*> lists;
  for (const auto& list : specs.price_lists) lists.push_back(&list);
  auto age = [&](const analysis::PriceList& list) {
    return std::tuple(date_of(list, specs), behind(list, specs).size(), list.head.name);
  };
  std::sort(lists.begin(), lists.end(), [&](const auto* a, const auto* b) { return age(*a) < age(*b); });
  list_of_.resize(specs.stock.size(), nullptr);
  for (const auto* list : lists)
    for (const auto& price : list->prices) {
      std::size_t stock = price.use.stock.index();
      const bool is_to_come = !on.empty() && date_of(*list, specs).substr(0, on.size()) > on;
      if (is_to_come && list_of_[stock] && list_of_[stock] != list) continue;
      if (list_of_[stock] != list) latest_[stock].clear();
      list_of_[stock] = list;
      latest_[stock].push_back(&price);
    }
  if (currency_.empty())
    for (const auto* list : lists)
      if (!list->prices.empty()) currency_ = list->prices.front().buy.price.currency;
  if (currency_.empty())
    for (const auto& stock : specs.stock)
      if (!stock.buys.empty()) currency_ = stock.buys.front().price.currency;
  // A house's fruit beats the library's; among equals the first by name, so that the order of files says
  // nothing.
  for (std::size_t i = 0; i < specs.stock.size(); ++i)
    for (const auto& gives : specs.stock[i].gives) {
      auto& current = given_by_[gives.what.stock.index()];
      auto rank = [&](analysis::StockId id) {
        return std::tuple(latest_[id.index()].empty() && specs[id].buys.empty(), specs[id].head.from_library,
                          specs[id].head.name);
      };
      auto candidate = analysis::StockId::at(i);
      if (!current.fruit.valid() || rank(candidate) < rank(current.fruit)) current = {candidate, &gives};
    }
}

std::optional<Exact> Prices::in_house_currency(const units::Money& money) const {
  auto turned = in_currency(money, currency_, specs_.house);
  return turned ? std::optional(turned->amount) : std::nullopt;
}

void Prices::raise(analysis::StockId stock, const Exact& factor) {
  auto [place, fresh] = raised_.emplace(stock, factor);
  if (!fresh) place->second *= factor;
}

Exact Prices::factor(analysis::StockId stock) const {
  auto found = raised_.find(stock);
  return found == raised_.end() ? Exact(1) : found->second;
}

/// The offer without what its packs hold.
std::optional<Offer> Prices::money_of(const analysis::Use& use, const analysis::Buy& buy) const {
  auto money = in_house_currency(buy.price);
  if (!money || buy.packs <= 0) return std::nullopt;
  Offer offer{&buy, *money * factor(use.stock), 0, 0, buy.supplier, buy.code};
  if (offer.supplier.empty())
    for (const auto& line : specs_[use.stock].buys)
      if (same_pack(line, buy)) {
        offer.supplier = line.supplier;
        offer.code = line.code;
        break;
      }
  return offer;
}

std::optional<Offer> Prices::offer(const analysis::Use& use, const analysis::Buy& buy) const {
  auto grams = number_of(measuring_.grams_silently(use, buy.pack));
  if (!grams || *grams <= 0) return std::nullopt;
  auto offer = money_of(use, buy);
  if (offer) offer->grams = *grams * buy.packs;
  return offer;
}

std::vector<std::pair<analysis::Use, const analysis::Buy*>> Prices::buy_lines(analysis::StockId id) const {
  std::vector<std::pair<analysis::Use, const analysis::Buy*>> lines;
  // `20 sprigs for 3 EUR`: the item word stands with the number.
  auto add = [&](analysis::Use use, const analysis::Buy& buy) {
    if (!use.item.valid() && buy.pack.kind == units::Kind::count) use.item = buy.pack.unit;
    lines.emplace_back(use, &buy);
  };
  for (const auto* price : latest_[id.index()]) add(price->use, price->buy);
  if (lines.empty())
    for (const auto& buy : specs_[id].buys) add(analysis::Use{id, {}, {}}, buy);
  return lines;
}

std::vector<Offer> Prices::offers(analysis::StockId id) const {
  std::vector<Offer> offers;
  for (const auto& [use, buy] : buy_lines(id))
    if (auto found = offer(use, *buy)) offers.push_back(std::move(*found));
  std::stable_sort(offers.begin(), offers.end(), [](const Offer& a, const Offer& b) {
    return a.price * decimal_of(b.grams) < b.price * decimal_of(a.grams);
  });
  return offers;
}

std::vector<Offer> Prices::piece_offers(const analysis::Use& wanted) const {
  std::vector<Offer> offers;
  for (const auto& [use, buy] : buy_lines(wanted.stock)) {
    if (buy->pack.kind != units::Kind::count || buy->pack.number() <= 0 || !(use == wanted)) continue;
    auto found = money_of(use, *buy);
    if (!found) continue;
    found->pieces = buy->pack.number() * buy->packs;
    offers.push_back(std::move(*found));
  }
  std::stable_sort(offers.begin(), offers.end(), [](const Offer& a, const Offer& b) {
    return a.price * decimal_of(b.pieces) < b.price * decimal_of(a.pieces);
  });
  return offers;
}

std::optional<Exact> Prices::exact_per_piece(const analysis::Use& use) const {
  auto all = piece_offers(use);
  double waste = specs_[use.stock].waste.value_or(0);
  if (all.empty() || waste >= 1) return std::nullopt;
  return Exact(all.front().price / decimal_of(all.front().pieces) / (1 - decimal_of(waste)));
}

std::vector<const analysis::Buy*> Prices::without_rate(analysis::StockId id) const {
  std::vector<const analysis::Buy*> lines;
  for (const auto& [use, buy] : buy_lines(id))
    if (!in_house_currency(buy->price)) lines.push_back(buy);
  return lines;
}

std::optional<Exact> Prices::bought_per_gram(analysis::StockId id) const {
  double waste = specs_[id].waste.value_or(0);
  if (waste >= 1) return std::nullopt;
  auto all = offers(id);
  if (all.empty()) return std::nullopt;
  return Exact(all.front().price / decimal_of(all.front().grams) / (1 - decimal_of(waste)));
}

bool Prices::is_free(analysis::StockId id) const {
  const auto& stock = specs_[id];
  return stock.kind == analysis::StockKind::water && !stock.fizz && stock.buys.empty() &&
         latest_[id.index()].empty();
}

std::optional<Exact> Prices::exact_per_gram(analysis::StockId id) const {
  if (auto bought = bought_per_gram(id)) return bought;
  if (is_free(id)) return Exact(0);
  const auto& [fruit, gives] = given_by_[id.index()];
  if (!fruit.valid()) return std::nullopt;
  auto fruit_cost = bought_per_gram(fruit);
  auto fruit_grams = number_of(measuring_.grams_each(analysis::Use{fruit, {}, {}}));
  double given_grams = number_of(measuring_.grams_silently(gives->what, gives->quantity)).value_or(0);
  if (!fruit_cost || !fruit_grams || given_grams <= 0) return std::nullopt;
  return Exact(*fruit_cost * decimal_of(*fruit_grams) / decimal_of(given_grams) * factor(id));
}

const analysis::Gives* given_peel(const analysis::Stock& fruit, const analysis::Specs& specs) {
  for (const auto& gives : fruit.gives) {
    std::string name = " " + base::fold_name(specs[gives.what.stock].head.name) + " ";
    if (name.find(" peel ") != std::string::npos || name.find(" zest ") != std::string::npos) return &gives;
  }
  return nullptr;
}

analysis::StockId peel_of(const analysis::Use& use, const analysis::Specs& specs,
                          const units::UnitTable& units) {
  static constexpr std::string_view pieces_of_peel[] = {"twist", "peel",  "strip",  "zest",  "coin",
                                                        "disc",  "swath", "spiral", "ribbon"};
  if (!use.item.valid() || std::find(std::begin(pieces_of_peel), std::end(pieces_of_peel),
                                     units[use.item].symbol) == std::end(pieces_of_peel))
    return {};
  const auto* peel = given_peel(specs[use.stock], specs);
  return peel ? peel->what.stock : analysis::StockId{};
}

analysis::StockId bought_as(const analysis::Use& use, const analysis::Specs& specs,
                            const units::UnitTable& units, const Prices& prices) {
  auto peel = peel_of(use, specs, units);
  return peel.valid() && prices.is_given(peel) ? peel : use.stock;
}

std::vector<bool> come_with_fruit(const std::vector<Entry>& entries, const analysis::Specs& specs,
                                  const units::UnitTable& units, const Prices& prices,
                                  const Measuring& measuring) {
  /// What an entry takes of a fruit: how many of it, for its juice, its peel, its white.
  struct FruitShare {
    std::size_t entry;
    analysis::StockId fruit, given;
    double count;
  };
  std::vector<FruitShare> shares;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const auto& entry = entries[i];
    if (entry.optional || !entry.mass_g) continue;
    auto bought = bought_as(entry.use, specs, units, prices);
    if (!prices.is_given(bought)) continue;
    const auto& [fruit, gives] = prices.given_by(bought);
    auto given = number_of(measuring.grams_silently(gives->what, gives->quantity));
    if (given && *given > 0) shares.push_back({i, fruit, bought, *entry.mass_g / *given});
  }
  std::map<analysis::StockId, std::map<analysis::StockId, double>> needs;  // by fruit, by what it gives
  for (const auto& share : shares) needs[share.fruit][share.given] += share.count;
  // Where two need the same, what is poured pays.
  auto pays_before = [&](const auto& one, const auto& other) {
    return std::tuple(one.second, measuring.is_liquid(one.first), other.first) >
           std::tuple(other.second, measuring.is_liquid(other.first), one.first);
  };
  std::vector<bool> comes(entries.size(), false);
  for (const auto& share : shares) {
    const auto& of_fruit = needs[share.fruit];
    comes[share.entry] =
        std::min_element(of_fruit.begin(), of_fruit.end(), pays_before)->first != share.given;
  }
  return comes;
}

}  // namespace gill::model
