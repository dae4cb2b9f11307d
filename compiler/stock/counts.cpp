#include "stock/counts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "base/text.h"
#include "costing/words.h"

namespace gill::stock {

using units::Kind;

namespace {

/// Titles of columns in plain words, the likeliest first.
const std::vector<std::string_view> name_titles = {
    "name",    "item",  "ingredient", "product", "product name", "item name",   "description",
    "article", "drink", "stock",      "produkt", "artikel",      "bezeichnung", "produit"};
const std::vector<std::string_view> amount_titles = {"on hand",  "counted", "count",   "amount",
                                                     "quantity", "qty",     "closing", "stock on hand",
                                                     "received", "menge",   "quantité"};
const std::vector<std::string_view> unit_titles = {"unit",    "uom",  "measure", "unit of measure",
                                                   "einheit", "unité"};
const std::vector<std::string_view> place_titles = {"place", "location", "area", "shelf", "where", "storage"};
const std::vector<std::string_view> size_titles = {"size",   "pack size", "unit size", "bottle size",
                                                   "volume", "content",   "format",    "pack",
                                                   "inhalt", "contenance"};
const std::vector<std::string_view> packs_titles = {
    "units per case", "per case", "case size", "case qty", "pack qty", "packs", "bottles per case", "units"};
const std::vector<std::string_view> price_titles = {"price",      "net price", "list price", "case price",
                                                    "unit price", "cost",      "preis",      "prix"};
const std::vector<std::string_view> code_titles = {"code",         "sku", "item code", "product code",
                                                   "article code", "ref", "reference", "no"};
const std::vector<std::string_view> supplier_titles = {"supplier", "vendor", "from"};
const std::vector<std::string_view> currency_titles = {"currency", "cur", "währung", "devise"};
const std::vector<std::string_view> sold_titles = {"sold",          "portions", "serves", "qty sold",
                                                   "quantity sold", "quantity", "qty",    "count",
                                                   "units",         "sales",    "menge"};

/// A number at the start of the text, and the words after it.
struct NumberAndWords {
  Exact number = 0;
  std::string words;
};

std::optional<NumberAndWords> split_number(const base::CsvTable& table, std::string_view text) {
  text = base::trim(text);
  std::size_t end = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    char c = text[i];
    if ((c >= '0' && c <= '9'))
      end = i + 1;
    else if (c != '.' && c != ',' && c != '-' && c != '+' && c != ' ')
      break;
  }
  auto number = table.number(text.substr(0, end));
  if (!number) return std::nullopt;
  return NumberAndWords{*number, std::string(base::trim(text.substr(end)))};
}

/// What a word for a vessel means: the pack as sold, or all packs of an offer.
enum class Vessel : std::uint8_t { none, pack, offer };

Vessel vessel_of(std::string word) {
  word = base::lower_ascii(word);
  if (word.ends_with('.')) word.pop_back();
  if (word.ends_with('s') && word.size() > 3) word.pop_back();
  static const std::set<std::string> packs = {"bottle",    "btl", "bt",   "pack", "tin", "can",
                                              "carton",    "keg", "bag",  "jar",  "tub", "flasche",
                                              "bouteille", "ea",  "each", "unit"};
  static const std::set<std::string> offers = {"case",  "cs",   "box",   "boxe",
                                               "crate", "tray", "kiste", "caisse"};
  if (packs.contains(word)) return Vessel::pack;
  return offers.contains(word) ? Vessel::offer : Vessel::none;
}

/// Turns amounts in people's words into grams of a stock.
class AmountReader {
 public:
  AmountReader(const House& house, const Costing& costing) : house_(house), costing_(costing) {}

  /// Grams, or pieces where nobody weighs them; a full sentence on failure.
  std::variant<std::pair<double, double>, std::string> read(StockId stock, const Exact& number,
                                                            const std::string& unit, const std::string& size,
                                                            const base::CsvTable& table) const {
    double n = base::to_double(number);
    if (n < 0) return std::string("An amount is below nothing; count what is there.");
    const std::string& name = house_.specs[stock].head.name;
    if (!unit.empty()) {
      if (auto id = house_.units.find(unit); id.valid()) return in_unit(stock, number, id);
      switch (vessel_of(unit)) {
        case Vessel::pack:
          return in_packs(stock, n, false, size, table);
        case Vessel::offer:
          return in_packs(stock, n, true, size, table);
        case Vessel::none:
          break;
      }
      return fmt::format(
          "`{}` is no unit that the house knows; write ml, l, g, kg, pieces, bottles or cases.", unit);
    }
    if (!size.empty()) return in_packs(stock, n, false, size, table);
    if (!costing_.measuring().is_liquid(stock)) {
      if (auto each = model::number_of(costing_.measuring().grams_each(analysis::Use{stock, {}, {}})))
        return std::pair(n * *each, 0.0);
    }
    if (auto pack = pack_grams(stock, false)) return std::pair(n * *pack, 0.0);
    if (auto bottle = house_.specs[stock].bottle)
      if (auto grams =
              model::number_of(costing_.measuring().grams_silently(analysis::Use{stock, {}, {}}, *bottle)))
        return std::pair(n * *grams, 0.0);
    return fmt::format("It is not said what `{}` of `{}` is counted in; write the unit after the number.",
                       base::to_decimal(number, 3), name);
  }

  /// A size as it is printed on a pack: `70cl`, `700 ml`, `1 kg`; nothing when it is none.
  std::optional<units::Quantity> size(std::string_view text, const base::CsvTable& table) const {
    auto parts = split_number(table, text);
    if (!parts || parts->number <= 0) return std::nullopt;
    auto id = house_.units.find(parts->words);
    units::Quantity quantity;
    quantity.unit = id;
    if (!id.valid()) {
      if (!parts->words.empty() && vessel_of(parts->words) == Vessel::none) return std::nullopt;
      quantity.value = parts->number;
      return quantity;
    }
    quantity.kind = house_.units[id].kind;
    quantity.value = parts->number * house_.units[id].factor + house_.units[id].offset;
    return quantity;
  }

 private:
  std::variant<std::pair<double, double>, std::string> in_unit(StockId stock, const Exact& number,
                                                               units::UnitId id) const {
    units::Quantity quantity;
    quantity.unit = id;
    quantity.kind = house_.units[id].kind;
    quantity.value = number * house_.units[id].factor + house_.units[id].offset;
    analysis::Use use{stock, house_.units[id].is_item_word ? id : units::UnitId{}, {}};
    if (auto grams = model::number_of(costing_.measuring().grams_silently(use, quantity)))
      return std::pair(*grams, 0.0);
    if (quantity.kind == Kind::count) return std::pair(0.0, quantity.number());
    return fmt::format("{} of `{}` cannot be turned into a weight: its `density` or `each` is not known.",
                       units::with_unit(base::to_decimal(number, 3), house_.units[id], number == 1),
                       house_.specs[stock].head.name);
  }

  std::optional<double> pack_grams(StockId stock, bool whole_offer) const {
    auto offers = costing_.prices().offers(stock);
    if (offers.empty()) return std::nullopt;
    // What stands on a shelf is the smallest that is sold; a case is the largest.
    auto packs = [](const model::Offer& offer) { return offer.buy->packs; };
    const auto& offer =
        whole_offer ? *std::max_element(offers.begin(), offers.end(),
                                        [&](const auto& a, const auto& b) { return packs(a) < packs(b); })
                    : offers.front();
    return whole_offer ? offer.grams : offer.grams / offer.buy->packs;
  }

  std::variant<std::pair<double, double>, std::string> in_packs(StockId stock, double n, bool whole_offer,
                                                                const std::string& size_text,
                                                                const base::CsvTable& table) const {
    if (!size_text.empty() && !whole_offer) {
      auto quantity = size(size_text, table);
      if (!quantity) return fmt::format("`{}` is no size; write it as 700 ml or 1 kg.", size_text);
      if (auto grams =
              model::number_of(costing_.measuring().grams_silently(analysis::Use{stock, {}, {}}, *quantity)))
        return std::pair(n * *grams, 0.0);
    }
    if (auto pack = pack_grams(stock, whole_offer)) return std::pair(n * *pack, 0.0);
    if (auto bottle = house_.specs[stock].bottle; bottle && !whole_offer)
      if (auto grams =
              model::number_of(costing_.measuring().grams_silently(analysis::Use{stock, {}, {}}, *bottle)))
        return std::pair(n * *grams, 0.0);
    return fmt::format("How much a {} of `{}` holds is not known: it has no `buy` line and no price.",
                       whole_offer ? "case" : "bottle", house_.specs[stock].head.name);
  }

  const House& house_;
  const Costing& costing_;
};

bool missing(base::CsvTable& table, std::optional<std::size_t> column, std::string_view what,
             std::vector<base::RowProblem>& problems) {
  if (column) return false;
  problems.push_back({1, fmt::format("No column is titled {}; the titles are {}.", what,
                                     table.header.empty() ? "missing" : base::join_with_and(table.header))});
  return true;
}

}  // namespace

Counts read_counts(std::string_view bytes, const House& house) {
  base::CsvTable table = base::read_csv(bytes);
  Counts counts;
  counts.problems = table.problems;
  auto name = table.column(name_titles), amount = table.column(amount_titles),
       unit = table.column(unit_titles);
  auto place = table.column(place_titles), size = table.column(size_titles);
  if (missing(table, name, "`name` or `item`", counts.problems) ||
      missing(table, amount, "`count` or `amount`", counts.problems))
    return counts;
  Costing costing(house);
  AmountReader reader(house, costing);
  NameFinder finder(house, symbols::NameSpace::stock);
  for (const auto& row : table.rows) {
    std::string named = table.cell(row, name), text = table.cell(row, amount);
    if (named.empty()) {
      counts.problems.push_back({row.line, "This row names nothing."});
      continue;
    }
    auto id = finder.find(named);
    if (!id) {
      counts.problems.push_back({row.line, finder.unmatched(named, "ingredient or prep")});
      continue;
    }
    StockId stock{*id};
    if (auto words = table.cell(row, place); !words.empty()) counts.places[stock] = words;
    if (text.empty()) continue;
    auto parts = split_number(table, text);
    if (!parts) {
      counts.problems.push_back(
          {row.line, fmt::format("`{}` is no amount of `{}`; write a number.", text, named)});
      continue;
    }
    auto read = reader.read(stock, parts->number, parts->words.empty() ? table.cell(row, unit) : parts->words,
                            table.cell(row, size), table);
    if (auto* failure = std::get_if<std::string>(&read)) {
      counts.problems.push_back({row.line, *failure});
      continue;
    }
    auto [grams, pieces] = std::get<0>(read);
    // A thing that stands in two places is counted twice: both count.
    counts.grams[stock] += grams;
    if (pieces > 0) counts.pieces[stock] += pieces;
  }
  return counts;
}

Sales read_sales(std::string_view bytes, const House& house) {
  base::CsvTable table = base::read_csv(bytes);
  Sales sales;
  sales.problems = table.problems;
  std::vector<std::string_view> titles = {"drink"};
  titles.insert(titles.end(), name_titles.begin(), name_titles.end());
  auto name = table.column(titles), sold = table.column(sold_titles);
  if (missing(table, name, "`drink` or `item`", sales.problems) ||
      missing(table, sold, "`sold` or `quantity`", sales.problems))
    return sales;
  NameFinder finder(house, symbols::NameSpace::drink);
  for (const auto& row : table.rows) {
    std::string named = table.cell(row, name), text = table.cell(row, sold);
    if (named.empty()) {
      sales.problems.push_back({row.line, "This row names no drink."});
      continue;
    }
    auto id = finder.find(named);
    if (!id) {
      sales.problems.push_back({row.line, finder.unmatched(named, "drink")});
      continue;
    }
    auto number = table.number(text);
    if (!number) {
      sales.problems.push_back({row.line, fmt::format("`{}` is no number of portions.", text)});
      continue;
    }
    // A return is written as less than nothing.
    sales.portions[DrinkId{*id}] += base::to_double(*number);
  }
  return sales;
}

// ---- price lists

namespace {

/// `6 x 700 ml`, `12x70cl`, `700ml`, `100`: packs and the size of one.
struct PackSize {
  Exact packs = 1;
  std::string text;
};

std::optional<PackSize> read_pack_size(std::string_view text, const AmountReader& reader,
                                       const base::CsvTable& table) {
  std::string line = base::lower_ascii(base::collapse_space(text));
  PackSize pack;
  std::string rest = line;
  for (std::string_view times : {"×", "x", "*"}) {
    auto at = line.find(times);
    if (at == std::string::npos || at == 0) continue;
    auto number = table.number(std::string_view(line).substr(0, at));
    if (!number || *number <= 0) continue;
    pack.packs = *number;
    rest = std::string(base::trim(std::string_view(line).substr(at + times.size())));
    break;
  }
  auto quantity = reader.size(rest, table);
  if (!quantity ||
      (quantity->kind != Kind::volume && quantity->kind != Kind::mass && quantity->kind != Kind::count))
    return std::nullopt;
  auto parts = split_number(table, rest);
  pack.text = base::to_decimal(parts->number, 6);
  if (quantity->unit.valid()) pack.text += " " + parts->words;
  return pack;
}

/// The ISO 4217 code that a price cell tells, by code or by a sign that means one currency.
std::string currency_in(const std::string& cell) {
  if (cell.find("€") != std::string::npos) return "EUR";
  if (cell.find("£") != std::string::npos) return "GBP";
  for (std::size_t i = 0; i + 3 <= cell.size(); ++i) {
    auto capital = [&](std::size_t at) { return at < cell.size() && cell[at] >= 'A' && cell[at] <= 'Z'; };
    if (capital(i) && capital(i + 1) && capital(i + 2) && !capital(i + 3) && (i == 0 || !capital(i - 1)))
      return cell.substr(i, 3);
  }
  return {};
}

}  // namespace

PriceListFile read_price_list(std::string_view bytes, const House& house, const std::string& currency) {
  base::CsvTable table = base::read_csv(bytes);
  PriceListFile list;
  list.problems = table.problems;
  auto name = table.column(name_titles), price = table.column(price_titles), size = table.column(size_titles),
       packs = table.column(packs_titles);
  auto code = table.column(code_titles), supplier = table.column(supplier_titles),
       money = table.column(currency_titles);
  if (packs == size || packs == price) packs.reset();
  if (missing(table, name, "`name` or `product`", list.problems) ||
      missing(table, price, "`price`", list.problems) ||
      missing(table, size, "`size` or `pack`", list.problems))
    return list;
  Costing costing(house);
  AmountReader reader(house, costing);
  NameFinder finder(house, symbols::NameSpace::stock);
  for (const auto& row : table.rows) {
    std::string named = table.cell(row, name), price_cell = table.cell(row, price),
                size_cell = table.cell(row, size);
    auto fail = [&](std::string message) { list.problems.push_back({row.line, std::move(message)}); };
    if (named.empty()) {
      fail("This row names nothing.");
      continue;
    }
    auto id = finder.find(named);
    if (!id) {
      list.unmatched.push_back({row.line, finder.unmatched(named, "ingredient")});
      continue;
    }
    auto amount = table.number(price_cell);
    if (!amount || *amount < 0) {
      fail(fmt::format("`{}` is no price of `{}`.", price_cell, named));
      continue;
    }
    std::string code_of_money = currency_in(price_cell);
    if (code_of_money.empty()) code_of_money = currency_in(table.cell(row, money));
    if (code_of_money.empty() && price) code_of_money = currency_in(table.header[*price]);
    if (code_of_money.empty()) code_of_money = currency;
    if (code_of_money.empty()) {
      fail(fmt::format("The price of `{}` has no currency, and the house states none.", named));
      continue;
    }
    auto pack = read_pack_size(size_cell, reader, table);
    if (!pack) {
      fail(fmt::format("`{}` is no size of `{}`; write it as 700 ml, 6 x 700 ml or 1 kg.", size_cell, named));
      continue;
    }
    if (auto text = table.cell(row, packs); !text.empty()) {
      auto number = table.number(text);
      if (!number || *number <= 0) {
        fail(fmt::format("`{}` is no number of packs.", text));
        continue;
      }
      pack->packs *= *number;
    }
    std::string offer =
        pack->packs == 1 ? pack->text : fmt::format("{} x {}", base::to_decimal(pack->packs, 6), pack->text);
    offer += fmt::format(" for {} {}", base::to_decimal(*amount, 6), code_of_money);
    if (auto from = table.cell(row, supplier); !from.empty()) offer += " from " + gill_name(from);
    if (auto number = table.cell(row, code); !number.empty()) offer += ", code " + gill_name(number);
    list.prices.push_back({row.line, StockId{*id}, std::move(offer)});
  }
  return list;
}

std::vector<base::RowProblem> PriceListFile::unused() const {
  auto rows = problems;
  rows.insert(rows.end(), unmatched.begin(), unmatched.end());
  std::stable_sort(rows.begin(), rows.end(),
                   [](const base::RowProblem& a, const base::RowProblem& b) { return a.line < b.line; });
  return rows;
}

std::string price_list_text(const PriceListFile& list, const House& house, const std::string& name) {
  std::string text = fmt::format("prices {}\n", gill_name(name));
  std::size_t widest = 0;
  for (const auto& price : list.prices)
    widest = std::max(widest, base::display_width(gill_name(house.specs[price.stock].head.name)));
  for (const auto& price : list.prices) {
    std::string stock = gill_name(house.specs[price.stock].head.name);
    text += "  " + stock + std::string(widest - base::display_width(stock) + 2, ' ') + price.offer + "\n";
  }
  for (const auto& row : list.unused()) text += fmt::format("  # line {}: {}\n", row.line, row.message);
  return text;
}

}  // namespace gill::stock
