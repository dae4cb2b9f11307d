#include "stock/price_list.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <sstream>

#include "base/characters.h"
#include "base/date.h"
#include "base/text.h"
#include "costing/words.h"
#include "stock/amount_reader.h"
#include "stock/currency_words.h"
#include "stock/list_columns.h"
#include "stock/list_terms.h"
#include "stock/pack_words.h"
#include "stock/price_cell.h"
#include "stock/price_columns.h"
#include "stock/priced_by.h"
#include "stock/tax_words.h"
#include "units/money.h"

namespace gill::stock {

using units::Kind;

namespace {

// In English, German, French, Spanish and Italian.
const Titles packs_titles = {"units per case",
                             "per case",
                             "case",
                             "case size",
                             "case qty",
                             "pack qty",
                             "packs",
                             "bottles per case",
                             "units",
                             "stück pro karton",
                             "anzahl",
                             "colisage",
                             "par colis",
                             "uds por caja",
                             "unidades por caja",
                             "pezzi per cartone"};
const Titles code_titles = {
    "code",  "sku",       "item code",  "product code",  "article code",   "ref",        "reference",
    "no",    "nr",        "item no",    "artikelnummer", "artikelnr",      "artikel nr", "art nr",
    "artnr", "bestellnr", "best nr",    "bestellnummer", "référence",      "réf",        "código",
    "cód",   "cod",       "referencia", "codice",        "codice articolo"};
const Titles supplier_titles = {"supplier",    "vendor",    "sold by",  "lieferant",
                                "fournisseur", "proveedor", "fornitore"};
const Titles discount_titles = {"discount",    "disc",       "rebate",     "rabatt",    "remise",
                                "descuento",   "sconto",     "dto",        "dcto",      "desc",
                                "rem",         "nachlass",   "skonto",     "surcharge", "aufschlag",
                                "zuschlag",    "supplement", "majoration", "recargo",   "maggiorazione",
                                "supplemento", "allowance"};
const Titles currency_titles = {"currency", "cur", "währung", "devise", "moneda", "divisa", "valuta"};

/// The unit of a size that stands in a column beside it, and what the size is called there.
const Titles size_unit_titles = {"unit",  "uom",    "unit of measure", "einheit",
                                 "unité", "unidad", "unità",           "um"};
const Titles size_number_titles = {"quantity", "qty",      "amount",   "menge",
                                   "quantité", "cantidad", "quantità", "qtà"};

/// Of an invoice: how many were bought, and what the line comes to.
const Titles bought_titles = {"quantity", "qty",  "menge",    "anzahl",   "quantité",
                              "qté",      "cant", "cantidad", "quantità", "qtà"};
const Titles line_amount_titles = {"line total", "total",        "amount",     "line amount", "net amount",
                                   "total net",  "gesamt",       "betrag",     "summe",       "gesamtpreis",
                                   "montant",    "montant ht",   "total ht",   "importe",     "importo",
                                   "totale",     "importe neto", "nettobetrag"};

/// `Total`, `Zwischensumme`, `Sous-total`: in English, German, French, Spanish and Italian.
bool is_sum_word(std::string_view words) {
  static constexpr std::string_view sums[] = {"total",         "totals",      "subtotal",   "sub-total",
                                              "grand total",   "sum",         "summe",      "gesamt",
                                              "zwischensumme", "gesamtsumme", "sous-total", "suma",
                                              "totale",        "subtotale",   "somma"};
  std::string folded = base::fold_name(words);
  while (folded.ends_with(':') || folded.ends_with('.')) folded.pop_back();
  return std::find(std::begin(sums), std::end(sums), folded) != std::end(sums);
}

/// `120`, `15.80`: a price as people write it.
std::string price_words(const units::Money& price) {
  std::string plain = base::to_decimal(price.amount, 6);
  return plain.find('.') == std::string::npos ? plain : units::price_digits(price);
}

/// Reads the rows of a supplier's list into offers.
class PriceListReader {
 public:
  PriceListReader(base::CsvTable table, const House& house, const std::string& currency)
      : house_(house),
        table_(std::move(table)),
        currency_(currency),
        names_(table_, house, symbols::NameSpace::stock, name_titles),
        price_titles_(find_price_columns(table_)),
        prices_(price_titles_.columns),
        price_unit_(find_price_unit_column(table_)),
        size_(table_.column(size_titles)),
        packs_(table_.column(packs_titles)),
        code_(table_.column(code_titles)),
        supplier_(table_.column(supplier_titles)),
        discount_(table_.column(discount_titles)),
        money_(table_.column(currency_titles)),
        bought_(table_.column(bought_titles)),
        line_amount_(table_.column(line_amount_titles)),
        costing_(house) {
    // `Supplier code` is a code and names nobody.
    if (supplier_ == code_) supplier_.reset();
    if (!supplier_) supplier_ = column_titled("from");
    if (!discount_) share_ = find_share_column(table_, prices_);
    if (packs_ == size_ || is_price_column(packs_) || (packs_ && is_of_pallets(table_.header[*packs_])))
      packs_.reset();
    unit_ = table_.column(size_unit_titles);
    if (unit_ == size_ || unit_ == price_unit_ || is_price_column(unit_)) unit_.reset();
    // `VAT code` is none of the good's.
    if (code_ && said_of_tax(table_.header[*code_]).names_tax) code_.reset();
    if (!size_ && unit_) size_ = table_.column(size_number_titles);
    // `Qty, Size, Unit`: so many of that size.
    if (!packs_ && unit_ && size_) packs_ = table_.column(size_number_titles);
    if (packs_ == size_) packs_.reset();
    // `Colisage` alone says what a pack is.
    if (!size_ && packs_ && !unit_) std::swap(size_, packs_);
    if (!size_ && unit_) std::swap(size_, unit_);
    other_size_ = find_other_size();
    if (!packs_) find_counts();
    list_.problems = table_.problems;
    for (const auto& problem : table_.problems)
      if (!problem.words.empty()) list_.row_words[problem.line] = problem.words;
    list_.letterhead = table_.letterhead;
  }

  PriceListFile read() {
    auto& problems = list_.problems;
    if (!price_titles_.problem.empty()) {
      problems.push_back({table_.header_line, price_titles_.problem});
      return std::move(list_);
    }
    if (lacks(table_, names_.column(), "`name` or `product`", problems) || lacks_price() ||
        lacks(table_, size_, "`size` or `pack`", problems))
      return std::move(list_);
    if (prices_[0].has_tax) {
      problems.push_back(
          {table_.header_line, fmt::format("`{}` holds the tax, and Gill reckons without it. Add a column "
                                           "`Price excl. VAT` with the prices without tax.",
                                           table_.header[prices_[0].column])});
      return std::move(list_);
    }
    std::erase_if(prices_, [](const PriceColumn& price) { return price.has_tax; });
    if (table_.rows.empty() && problems.empty())
      problems.push_back({table_.header_line, "The list has titles and no row below them."});
    if (auto what = what_is_said_of_all(); !what.message.empty()) {
      problems.push_back(std::move(what));
      return std::move(list_);
    }
    for (const auto& row : table_.rows) {
      list_.row_words[row.line] = base::collapse_space(base::join(row.cells, " | "));
      if (auto what = what_is_no_good(row); !what.empty()) {
        problems.push_back({row.line, std::move(what)});
        continue;
      }
      const std::size_t unmatched = list_.unmatched.size();
      auto id = names_.find(row, "This row names nothing.", "ingredient", problems, list_.unmatched);
      if (!id) {
        if (list_.unmatched.size() > unmatched) add_new_good(row);
        continue;
      }
      if (house_.specs[StockId{*id}].is_prep) {
        problems.push_back({row.line, made_here(StockId{*id})});
        continue;
      }
      auto offer = offer_of(row, StockId{*id});
      if (auto* failure = std::get_if<Failure>(&offer))
        problems.push_back({row.line, std::move(failure->message)});
      else if (auto twice = why_second(row, StockId{*id}, std::get<std::string>(offer)); !twice.empty())
        problems.push_back({row.line, std::move(twice)});
      else
        list_.prices.push_back({row.line, StockId{*id}, std::move(std::get<std::string>(offer))});
    }
    return std::move(list_);
  }

 private:
  bool lacks_price() {
    if (!prices_.empty()) return false;
    list_.problems.push_back(
        {table_.header_line,
         fmt::format("No column is titled `Price`; the titles are {}. What is one of these: {}",
                     base::join_with_and(table_.header), what_to_title)});
    return true;
  }

  bool is_price_column(std::optional<std::size_t> column) const {
    return std::any_of(prices_.begin(), prices_.end(),
                       [&](const PriceColumn& price) { return price.column == column; });
  }

  /// Why a row is no offer: a full sentence.
  struct Failure {
    std::string message;
  };

  /// What stops the whole list: a line above or below it that says of all prices what no column does. A
  /// currency of all is theirs.
  base::RowProblem what_is_said_of_all() {
    std::vector<std::pair<std::size_t, std::string>> lines;
    for (const auto& words : table_.letterhead) lines.emplace_back(1, words);
    for (const auto& row : table_.rows)
      if (price_cell_is_empty(row) && table_.cell(row, size_).empty())
        lines.emplace_back(row.line, base::collapse_space(base::join(row.cells, " ")));
    for (const auto& [line, words] : lines)
      if (auto what = what_terms_ask(words); !what.empty()) return {line, std::move(what)};
    return {};
  }

  /// What a line of terms asks for, as a full sentence; empty where it asks nothing. Takes its currency.
  std::string what_terms_ask(const std::string& words) {
    const auto said = list_terms(words, currency_);
    if (said.has_tax)
      return fmt::format(
          "`{}`: Gill reckons without tax, and the list holds it. Ask for the list "
          "without tax, or add a column `Price excl. VAT`, and leave this line out.",
          words);
    if (said.is_changed)
      return fmt::format(
          "`{}`: the prices below are not what is paid. Write those that are, and leave this "
          "line out.",
          words);
    if (said.of_one && prices_[0].of == PriceOf::pack)
      return fmt::format("`{}`: title the column of the prices `Unit price`, and leave this line out.",
                         words);
    if (said.of_measure && prices_[0].of == PriceOf::pack)
      return fmt::format(
          "`{}`: title the column of the prices `Price per kg` or `Price per litre`, and leave this line "
          "out; what it "
          "is not of goes into a list of its own.",
          words);
    if (!said.money_doubt.empty()) return fmt::format("`{}`: {}.", words, said.money_doubt);
    if (!said.currency.empty()) list_currency_ = said.currency;
    return {};
  }

  /// Another price for the same pack of the same good: empty where it is the first, or the same.
  std::string why_second(const base::CsvRow& row, StockId stock, const std::string& offer) {
    const auto price = offer.find(" for ");
    auto behind = offer.find_first_of(",", price);
    if (auto from = offer.find(" from ", price); from < behind) behind = from;
    const std::string pack = offer.substr(0, price),
                      origin = behind == std::string::npos ? "" : offer.substr(behind);
    const auto [first, is_first] = packs_seen_.try_emplace({stock, pack + origin}, row.line, offer);
    if (is_first || first->second.second == offer) return {};
    return fmt::format("`{}` for {} has another price in row {}: keep the row that counts.",
                       names_.written(row), pack, first->second.first);
  }

  std::string made_here(StockId prep) const {
    const auto& name = house_.specs[prep].head.name;
    return fmt::format(
        "`{0}` is a prep, which costs what goes into it. Where it is bought ready, declare "
        "`ingredient {0}` with its kind, strength, sugar and allergens by the label.",
        name);
  }

  std::optional<std::size_t> column_titled(std::string_view title) const {
    for (std::size_t i = 0; i < table_.header.size(); ++i)
      if (base::fold_name(base::collapse_space(table_.header[i])) == title) return i;
    return std::nullopt;
  }

  /// A second column about the pack: `Size` with what is in one, and `Pack` with how many are in it.
  std::optional<std::size_t> find_other_size() const {
    if (!size_ || packs_) return std::nullopt;
    for (std::size_t i = 0; i < table_.header.size(); ++i) {
      const bool is_other = i == size_ || i == names_.column() || i == unit_ || i == price_unit_ ||
                            i == code_ || i == supplier_ || is_price_column(i);
      const auto title = base::fold_without_accents(base::collapse_space(table_.header[i]));
      if (!is_other && std::any_of(size_titles.begin(), size_titles.end(), [&](std::string_view known) {
            return base::fold_without_accents(known) == title;
          }))
        return i;
    }
    return std::nullopt;
  }

  /// A column of how many come together, or perhaps that, by what its title is made of.
  void find_counts() {
    for (std::size_t i = 0; size_ && !packs_ && i < table_.header.size(); ++i) {
      switch (is_column_known(i) ? CountTitle::none : count_title(table_.header[i])) {
        case CountTitle::none:
          break;
        case CountTitle::per_pack:
          packs_ = i;
          break;
        case CountTitle::unclear:
          if (!perhaps_packs_) perhaps_packs_ = i;
          break;
      }
    }
    if (packs_) perhaps_packs_.reset();
    for (std::size_t i = 0; size_ && !packs_ && !perhaps_packs_ && i < table_.header.size(); ++i)
      if (!is_column_known(i) && may_title_counts(table_.header[i]) && holds_small_counts(i))
        perhaps_packs_ = i;
  }

  bool is_column_known(std::size_t i) const {
    return i == size_ || i == other_size_ || i == names_.column() || i == unit_ || i == price_unit_ ||
           i == code_ || i == supplier_ || i == discount_ || i == share_ || i == money_ ||
           i == line_amount_ || (i == bought_ && line_amount_) || is_price_column(i) ||
           is_of_pallets(table_.header[i]);
  }

  /// Whole numbers as cases have them, and not the numbers of the rows.
  bool holds_small_counts(std::size_t column) const {
    constexpr int max_in_a_case = 200;
    std::size_t count = 0;
    bool are_rows = true, is_any_more = false;
    for (const auto& row : table_.rows) {
      const auto cell = table_.cell(row, column);
      if (cell.empty()) continue;
      auto number = table_.number(cell);
      if (!number || *number < 1 || *number > max_in_a_case || *number != base::floor(*number)) return false;
      are_rows = are_rows && *number == Exact(++count);
      is_any_more = is_any_more || *number > 1;
    }
    return is_any_more && (!are_rows || count < 2);
  }

  /// How many stand on a layer of a pallet is no pack.
  static bool is_of_pallets(const std::string& title) {
    const std::string folded = base::fold_name(title);
    for (std::string_view word : {"layer", "pallet", "lage", "couche", "capa", "strato"})
      if (folded.find(word) != std::string::npos) return true;
    return false;
  }

  /// A heading of a group, a sum, the titles once more: what a list has between its goods, as a sentence;
  /// empty for a row of goods.
  std::string what_is_no_good(const base::CsvRow& row) const {
    if (row.cells == table_.header) return "The titles stand here once more.";
    std::size_t filled = 0;
    for (const auto& cell : row.cells) filled += base::trim(cell).empty() ? 0U : 1U;
    const std::string first = first_words(row);
    if (table_.cell(row, size_).empty() && is_sum_word(first))
      return fmt::format("`{}` is a sum and no good.", first);
    if (filled == 1 && table_.cell(row, size_).empty() && price_cell_is_empty(row))
      return fmt::format("`{}` stands alone in its row, without pack and price: a heading.", first);
    return {};
  }

  /// The first cell of a row that is not blank.
  static std::string first_words(const base::CsvRow& row) {
    for (const auto& cell : row.cells)
      if (auto words = base::collapse_space(cell); !words.empty()) return words;
    return {};
  }

  bool price_cell_is_empty(const base::CsvRow& row) const {
    return std::all_of(prices_.begin(), prices_.end(),
                       [&](const PriceColumn& price) { return table_.cell(row, price.column).empty(); });
  }

  /// What nobody knows yet, with what the row says of it.
  void add_new_good(const base::CsvRow& row) {
    auto offer = offer_of(row, StockId{});
    auto* text = std::get_if<std::string>(&offer);
    list_.new_goods.push_back(
        {row.line, names_.written(row), names_.relation(row), text ? std::move(*text) : unread_offer(row)});
  }

  /// What is known of an offer whose pack or price is not read, with a gap for the rest.
  std::string unread_offer(const base::CsvRow& row) const {
    auto read = price_of(row);
    const auto* price = std::get_if<CellPrice>(&read);
    std::string money =
        price && !price->currency.empty()
            ? fmt::format("{} {}", price_words({price->amount, price->currency}), price->currency)
            : "…";
    auto pack = pack_of(row, StockId{});
    const auto* known = std::get_if<WrittenPack>(&pack);
    return (known ? pack_text(*known) : "…") + " for " + money + origin_of(row);
  }

  /// `, code 4471`: who sells it, and as what.
  std::string origin_of(const base::CsvRow& row) const {
    std::string origin;
    if (auto from = table_.cell(row, supplier_); !from.empty()) origin += " from " + gill_name(from);
    if (auto number = table_.cell(row, code_); !number.empty()) origin += ", code " + gill_name(number);
    return origin;
  }

  /// The price that a row tells: the first of the price columns that is not blank in it.
  const PriceColumn& price_column(const base::CsvRow& row) const {
    for (const auto& price : prices_)
      if (!table_.cell(row, price.column).empty()) return price;
    return prices_[0];
  }

  /// As the cell says it, in its own currency or the row's; that is empty where nothing says one.
  std::variant<CellPrice, NoPrice> price_of(const base::CsvRow& row) const {
    auto read = read_price_cell(table_.cell(row, price_column(row).column), table_, currency_);
    if (auto* price = std::get_if<CellPrice>(&read); price && price->currency.empty()) {
      auto money = currency_of(row);
      if (!money.doubt.empty()) return NoPrice::of_several_countries;
      price->currency = std::move(money.currency);
    }
    return read;
  }

  NamedMoney currency_of(const base::CsvRow& row) const {
    for (const auto& cell : {table_.cell(row, money_), table_.header[price_column(row).column]})
      if (auto money = named_money(cell, currency_); money.names_money()) return money;
    return {list_currency_.empty() ? currency_ : list_currency_, {}};
  }

  /// The words beside a price that say what it is of, and where they stand: in the column for that, or as
  /// `per kg` in that of units.
  std::pair<std::string, std::optional<std::size_t>> words_of_measure(const base::CsvRow& row) const {
    if (auto words = table_.cell(row, price_unit_); !words.empty()) return {words, price_unit_};
    auto unit = table_.cell(row, unit_);
    return says_priced_by(unit) ? std::pair(unit, unit_)
                                : std::pair(std::string(), std::optional<std::size_t>());
  }

  /// What the price of a row is of, by the words beside it; by its cell or its title where there are none.
  std::variant<std::optional<PricedBy>, Failure> priced_by(const base::CsvRow& row,
                                                           const CellPrice& price) const {
    auto [words, column] = words_of_measure(row);
    if (words.empty()) return price.of ? std::optional(PricedBy{*price.of}) : std::nullopt;
    auto by = read_priced_by(words, house_.units, table_);
    if (!by || is_bars_ounce(by->unit))
      return Failure{
          fmt::format("`{}` below `{}` is not understood; write what the price of `{}` is of, as "
                      "bottle, case, piece, kg, 100 g or l.",
                      words, table_.header[*column], names_.written(row))};
    return by;
  }

  /// What the cells beside a price say of the tax, where it is in it or may be; empty where it is not.
  std::string why_tax(const base::CsvRow& row) const {
    for (std::size_t i = 0; i < table_.header.size() && i < row.cells.size(); ++i) {
      const bool is_other = i == names_.column() || i == size_ || i == packs_ || i == code_ ||
                            i == supplier_ || i == unit_ || is_price_column(i);
      if (is_other) continue;
      const auto cell = table_.cell(row, i);
      switch (tax_in_price(table_.header[i], cell)) {
        case TaxInPrice::not_said:
        case TaxInPrice::without:
          break;
        case TaxInPrice::with:
          return fmt::format(
              "`{}` below `{}`: the price of `{}` holds the tax, and Gill reckons without it; "
              "write the price without tax, and `excl.` in the place of `{}`.",
              cell, table_.header[i], names_.written(row), cell);
        case TaxInPrice::unclear:
          return fmt::format(
              "`{}` below `{}` does not say whether the tax is in the price of `{}`; write "
              "`excl.` with the price without tax.",
              cell, table_.header[i], names_.written(row));
      }
    }
    return {};
  }

  /// The pack of a row, in all its packs. `stock` is invalid for what nobody knows.
  std::variant<WrittenPack, Failure> pack_of(const base::CsvRow& row, StockId stock) const {
    std::string name = names_.written(row), size = size_of(row), other = table_.cell(row, other_size_);
    // Which of the two columns says what is in one shows in the row.
    if (!other.empty() && !says_measure(size) && (size.empty() || says_measure(other)))
      std::swap(size, other);
    auto read = read_pack(size, house_.units, table_);
    if (auto* why = std::get_if<NoPack>(&read)) {
      switch (*why) {
        case NoPack::contents_missing:
          return Failure{contents_missing(size, name)};
        case NoPack::several_vessels:
          return Failure{fmt::format(
              "`{}` of `{}` may be the contents of one or of all; write how much all of it holds.", size,
              name)};
        case NoPack::not_read:
          if (auto which = which_measure(size); !which.empty())
            return Failure{fmt::format("`{}` of `{}`: {}", size, name, which)};
          return Failure{fmt::format("`{}` is no size of `{}`; write it as {}.", size, name, example(stock))};
      }
    }
    auto pack = std::get<WrittenPack>(read);
    if (is_bars_ounce(pack.unit))
      return Failure{
          fmt::format("`{}` of `{}`: no label's ounce is the bar's {}. Write `us oz` (29.57 ml), "
                      "`imp oz` (28.41 ml) or, of weight, `oz wt`; or say it once in the house: "
                      "`ounce us oz`.",
                      size, name, "30 ml")};
    if (auto text = table_.cell(row, packs_); !text.empty()) {
      auto number = number_of_packs(text);
      if (!number || *number <= 0)
        return Failure{fmt::format(
            "`{}` below `{}` does not say how many packs of `{}` come together; write a number, as 6.", text,
            table_.header[*packs_], name)};
      pack.packs *= *number;
    }
    if (auto perhaps = number_of_packs(table_.cell(row, perhaps_packs_));
        perhaps && *perhaps != 1 && pack.packs == 1)
      return Failure{fmt::format(
          "`{0}` below `{1}`: do {0} of `{2}` come together for the price of `{3}`? Then title the column "
          "`Units per case`; otherwise leave it out.",
          table_.cell(row, perhaps_packs_), table_.header[*perhaps_packs_], size, name)};
    if (!other.empty())
      if (auto why = take_other_size(pack, size, other, name); !why.empty()) return Failure{std::move(why)};
    if (!pack.unit.valid() || house_.units[pack.unit].is_item_word)
      return in_pieces(std::move(pack), size, name, stock);
    return pack;
  }

  /// `6`, `x6`, `6 btl`, `carton de 6`, `1 dozen`: how many there are.
  std::optional<Exact> number_of_packs(std::string_view text) const {
    if (auto counted = split_number(table_, text);
        counted && (counted->words.empty() || says_one(counted->words)))
      return counted->number;
    for (std::string_view times : {"x", "X", "×"})
      if (text.starts_with(times)) return table_.number(base::trim(text.substr(times.size())));
    auto read = read_pack(text, house_.units, table_);
    const auto* pack = std::get_if<WrittenPack>(&read);
    return pack && !pack->unit.valid() ? std::optional(Exact(pack->packs * pack->number)) : std::nullopt;
  }

  bool says_measure(const std::string& text) const {
    auto read = read_pack(text, house_.units, table_);
    const auto* pack = std::get_if<WrittenPack>(&read);
    return pack && pack->unit.valid() && !house_.units[pack->unit].is_item_word;
  }

  /// Takes into a pack what the second column says of it: how many, or the whole once more. Empty, or why the
  /// two do not go together.
  std::string take_other_size(WrittenPack& pack, const std::string& size, const std::string& other,
                              const std::string& name) const {
    auto read = read_pack(other, house_.units, table_);
    const auto* more = std::get_if<WrittenPack>(&read);
    if (!more && says_one(other)) return {};
    if (!more)
      return fmt::format("`{}` of `{}` does not say how many of `{}` are in it; write it as 6 x {}.", other,
                         name, size, size);
    const bool is_measure = more->unit.valid() && !house_.units[more->unit].is_item_word;
    const Exact count = is_measure ? more->packs : Exact(more->packs * more->number);
    const bool is_same_size =
        !is_measure ||
        (pack.unit.valid() && house_.units[pack.unit].kind == house_.units[more->unit].kind &&
         pack.number * house_.units[pack.unit].factor == more->number * house_.units[more->unit].factor);
    if (!is_same_size || (pack.packs != 1 && count != 1 && pack.packs != count))
      return fmt::format("`{}` and `{}` of `{}` are two packs; write the one that its price is of.", size,
                         other, name);
    if (pack.packs == 1) pack.packs = count;
    pack.is_priced_by_one = pack.is_priced_by_one || more->is_priced_by_one;
    return {};
  }

  /// An ounce of 30 ml is how a bar pours, and nobody's label.
  bool is_bars_ounce(units::UnitId unit) const {
    return unit.valid() && unit == house_.units.find("oz") && house_.units[unit].factor == 30;
  }

  /// `1 pint`: which pint, where a word of a size means several measures; empty where none does.
  std::string which_measure(const std::string& size) const {
    std::istringstream words(size);
    for (std::string word; words >> word;)
      if (auto unknown = house_.units.explain_unknown(word); unknown.units.size() > 1)
        return unknown.message + ". " + unknown.help;
    return {};
  }

  /// With the unit that stands in a column of its own.
  std::string size_of(const base::CsvRow& row) const {
    std::string size = table_.cell(row, size_), unit = table_.cell(row, unit_);
    if (!size_ || !table_.number(size)) return size;
    if (!unit.empty() && !says_one(unit)) return size + " " + unit;
    auto of_title = unit_of_title(table_.header[*size_]);
    return of_title.empty() ? size : size + " " + of_title;
  }

  /// `Volume (ml)`, `Size cl`: the unit that a title says; empty where it says none.
  std::string unit_of_title(const std::string& title) const {
    std::string words = base::collapse_space(title);
    std::replace_if(
        words.begin(), words.end(),
        [](char c) { return std::string_view("()[]/,").find(c) != std::string_view::npos; }, ' ');
    auto last = std::string(base::trim(words));
    last = last.substr(last.find_last_of(' ') + 1);
    auto unit = last == words ? units::UnitId{} : unit_of(last, house_.units);
    const bool is_measure =
        unit.valid() && !house_.units[unit].is_item_word &&
        (house_.units[unit].kind == Kind::volume || house_.units[unit].kind == Kind::mass);
    return is_measure ? last : std::string();
  }

  /// How a pack of it is written.
  std::string_view example(StockId stock) const {
    bool is_poured = !stock.valid() || costing_.measuring().is_liquid(stock);
    return is_poured ? "700 ml, 6 x 700 ml or 1 kg" : "1 kg, 500 g or, of pieces, 54";
  }

  /// Pieces of what is poured are bottles, and it is their contents that count; a bag of something holds what
  /// its `each` says.
  std::variant<WrittenPack, Failure> in_pieces(WrittenPack pack, const std::string& size,
                                               const std::string& name, StockId stock) const {
    const auto& measuring = costing_.measuring();
    if (pack.unit.valid()) {
      units::Quantity one;
      one.kind = Kind::count;
      one.value = 1;
      if (stock.valid() && measuring.grams_silently(analysis::Use{stock, pack.unit, {}}, one)) return pack;
      return Failure{contents_missing(size, name)};
    }
    // Egg whites are poured, and bought by the piece.
    if (!stock.valid() || !measuring.is_liquid(stock) || measuring.grams_each(analysis::Use{stock, {}, {}}))
      return pack;
    auto offers = costing_.prices().offers(stock);
    if (pack.is_bare_number || offers.empty() || !offers.front().buy->pack.unit.valid())
      return Failure{fmt::format("`{}` of `{}` does not say how much one holds; write it as {} x 700 ml.",
                                 size, name, base::to_decimal(pack.number, 6))};
    const auto& one = offers.front().buy->pack;
    pack.packs *= pack.number;
    pack.number = one.value / house_.units[one.unit].factor;
    pack.unit = one.unit;
    return pack;
  }

  static std::string contents_missing(const std::string& size, const std::string& name) {
    return fmt::format(
        "`{}` of `{}` does not say how much it holds; write it as 6 x 700 ml, 1 kg or, of pieces, 54.", size,
        name);
  }

  /// `BTL`, `EA`.
  static bool says_one(const std::string& unit) {
    return !unit.empty() && (vessel_of(unit) == Vessel::pack || is_piece_word(unit));
  }

  /// The same beside a pack of several.
  static bool is_sold_by_one(const std::string& unit, const WrittenPack& pack) {
    return says_one(unit) && (pack.packs != 1 || (!pack.unit.valid() && pack.number != 1));
  }

  /// `kg` beside `5 kg`: the price may be of one of it. A unit that the size itself lacked is its own.
  bool is_more_than_one(const base::CsvRow& row, const WrittenPack& pack) const {
    const auto unit = table_.cell(row, unit_);
    const bool is_of_size = table_.number(table_.cell(row, size_)).has_value();
    auto id = unit.empty() || is_of_size ? units::UnitId{} : unit_of(unit, house_.units);
    if (!id.valid() || house_.units[id].is_item_word || !pack.unit.valid() ||
        house_.units[id].kind != house_.units[pack.unit].kind)
      return false;
    return pack.packs * pack.number * house_.units[pack.unit].factor != house_.units[id].factor;
  }

  /// `VPE 12`, `Einheit Liter`: so many of a unit come together.
  bool is_count_of_units(const base::CsvRow& row) const {
    static constexpr std::string_view titles[] = {"ve", "vpe", "verpackungseinheit"};
    const auto title = base::join(words_of_title(table_.header[*size_]), " ");
    const bool is_count = std::find(std::begin(titles), std::end(titles), title) != std::end(titles) ||
                          count_title(table_.header[*size_]) == CountTitle::per_pack;
    auto number = table_.number(table_.cell(row, size_));
    return is_count && number && *number != 1 && !table_.cell(row, unit_).empty();
  }

  /// `Units per case 12`, `Unit litre`: the size is its unit alone.
  bool is_count_of_bare_units(const base::CsvRow& row) const {
    auto number = number_of_packs(table_.cell(row, packs_));
    const auto size = table_.cell(row, size_);
    return packs_ && number && *number != 1 && size.find_first_of("0123456789") == std::string::npos &&
           unit_of(size, house_.units).valid();
  }

  /// One box of more than a kilogram: its unit may be the box, or the kilogram.
  bool is_sold_by_weight(const WrittenPack& pack) const {
    return pack.packs == 1 && pack.unit.valid() && house_.units[pack.unit].kind == Kind::mass &&
           pack.number * house_.units[pack.unit].factor > 1000;
  }

  /// `0`, `0 %`, `-`, or nothing.
  static bool is_nothing(const std::string& cell) {
    return cell.find_first_of("123456789") == std::string::npos;
  }

  /// What stands beside a price and changes it; empty where nothing does.
  std::string why_not_paid(const base::CsvRow& row) const {
    const auto name = names_.written(row);
    if (auto discount = table_.cell(row, discount_); !is_nothing(discount))
      return fmt::format(
          "`{}` below `{}` stands beside the price of `{}`: write the price that is paid, without that "
          "column.",
          discount, table_.header[*discount_], name);
    if (auto share = table_.cell(row, share_); !is_nothing(share))
      return fmt::format(
          "`{}` stands beside the price of `{}`, and nothing says what `{}` takes off or adds: "
          "write the price that is paid, without that column.",
          share, name, table_.header[*share_]);
    return why_tax(row);
  }

  /// `Unité de vente`: what is sold, so that a price of one unit may be of all that is in it.
  bool is_size_of_what_is_sold() const {
    static constexpr std::string_view titles[] = {"unit of sale",    "sales unit",      "sale unit",
                                                  "selling unit",    "unite de vente",  "verkaufseinheit",
                                                  "unidad de venta", "unita di vendita"};
    return std::any_of(std::begin(titles), std::end(titles), [&](std::string_view known) {
      return known == base::join(words_of_title(table_.header[*size_]), " ");
    });
  }

  /// An invoice: the line comes to as many of the price as were bought, whatever was counted.
  bool is_paid_as_often_as_bought(const base::CsvRow& row) const {
    auto amount = table_.number(table_.cell(row, line_amount_));
    auto bought = bought_ == packs_ ? std::nullopt : table_.number(table_.cell(row, bought_)),
         price = table_.number(table_.cell(row, price_column(row).column));
    return amount && bought && price && *amount == *bought * *price;
  }

  /// What the title leaves open of a price that says nothing itself: empty where it is clear.
  std::string why_open(const base::CsvRow& row, const WrittenPack& pack) const {
    const auto& column = price_column(row);
    const auto name = names_.written(row), cell = table_.cell(row, column.column),
               unit = table_.cell(row, unit_);
    if (column.of == PriceOf::pack && is_sold_by_one(unit, pack))
      return fmt::format(
          "`{0}` of `{1}`: for one (`{2}`), or for all of `{3}`? Title the price `Unit "
          "price` or `Case price`.",
          cell, name, unit, size_of(row));
    const bool is_bare = is_count_of_bare_units(row);
    if (column.of == PriceOf::pack && (is_bare || is_count_of_units(row)))
      return fmt::format(
          "`{0}` of `{1}`: for one (`{2}`), or for all of `{3}`? Title the price `Case price`, or write what "
          "it is "
          "of, as `bottle`, `kg` or `l`, in a column `Per` beside it.",
          cell, name, is_bare ? size_of(row) : unit,
          is_bare ? table_.cell(row, packs_) + " x " + size_of(row) : size_of(row));
    const bool is_of_unit = column.of == PriceOf::pack || column.of == PriceOf::one;
    if (column.of == PriceOf::one && is_sold_by_weight(pack))
      return fmt::format(
          "`{0}` of `{1}`: for all of `{2}`, or for a kilogram? Title the price `Price` (of the "
          "whole pack) or `Price per kg`.",
          cell, name, size_of(row));
    if (is_of_unit && is_more_than_one(row, pack))
      return fmt::format(
          "`{0}` of `{1}`: for one {2}, or for all of `{3}`? Title the price `Price per kg`, `Price "
          "per litre` or `Case price`.",
          cell, name, unit, size_of(row));
    const bool is_several = pack.packs != 1 || (!pack.unit.valid() && pack.number != 1);
    if (column.of == PriceOf::one && is_several &&
        (is_size_of_what_is_sold() || is_paid_as_often_as_bought(row)))
      return fmt::format(
          "`{0}` of `{1}`: for one, or for all of `{2}`? Title the price `Case price`, or write `bottle` or "
          "`piece` in a column `Per` beside it.",
          cell, name, size_of(row));
    if (column.of == PriceOf::one && is_several && vessel_of(unit) == Vessel::offer)
      return fmt::format(
          "`{0}` of `{1}`: for one, or for the {2}? Write `bottle`, `piece` or `{2}` in a column "
          "`Per` beside it.",
          cell, name, unit);
    return {};
  }

  /// How many times its price a pack costs, or why that is not known.
  std::variant<Exact, Failure> times_of(const base::CsvRow& row, const WrittenPack& pack,
                                        const PricedBy& by) const {
    const auto cell = table_.cell(row, price_column(row).column), name = names_.written(row),
               size = size_of(row);
    if (auto times = prices_in(pack, by, house_.units)) return *times;
    switch (by.of) {
      case PriceOf::whole_case:
        // A case of one, as its column says.
        if (!table_.cell(row, packs_).empty()) return Exact(1);
        return Failure{
            fmt::format("`{}` of `{}` is the price of a case, and `{}` does not say how many are in "
                        "it; write it as 6 x {}.",
                        cell, name, size, pack_text(pack))};
      case PriceOf::measure:
      case PriceOf::pieces:
        return Failure{
            fmt::format("`{}` of `{}` is a price by `{}`, and `{}` does not say how many of that it "
                        "is; write what the whole pack costs.",
                        cell, name, words_of_measure(row).first, size)};
      case PriceOf::pack:
      case PriceOf::one:
      case PriceOf::kilo:
      case PriceOf::litre:
        break;
    }
    return Failure{
        fmt::format("`{}` of `{}` is a price by the {}, and `{}` does not say how much that is; "
                    "write what the whole pack costs.",
                    cell, name, by.of == PriceOf::kilo ? "kilo" : "litre", size)};
  }

  std::variant<std::string, Failure> offer_of(const base::CsvRow& row, StockId stock) const {
    const auto& column = price_column(row);
    std::string name = names_.written(row);
    auto price = price_of(row);
    if (auto* why = std::get_if<NoPrice>(&price))
      return Failure{no_price_message(*why, table_.cell(row, column.column), name)};
    const auto& cell_price = std::get<CellPrice>(price);
    if (cell_price.currency.empty())
      return Failure{fmt::format("The price of `{}` has no currency, and the house states none.", name)};
    if (auto why = why_not_paid(row); !why.empty()) return Failure{std::move(why)};
    auto said = priced_by(row, cell_price);
    if (auto* failure = std::get_if<Failure>(&said)) return *failure;
    auto read = pack_of(row, stock);
    if (auto* failure = std::get_if<Failure>(&read)) return *failure;
    const auto& pack = std::get<WrittenPack>(read);
    auto by = std::get<std::optional<PricedBy>>(said);
    const bool is_title_of_all = column.of == PriceOf::pack || column.of == PriceOf::whole_case;
    if (!by && pack.is_priced_by_one && is_title_of_all) by = PricedBy{PriceOf::one};
    if (!by) {
      if (auto why = why_open(row, pack); !why.empty()) return Failure{std::move(why)};
      by = PricedBy{column.of};
    }
    auto times = times_of(row, pack, *by);
    if (auto* failure = std::get_if<Failure>(&times)) return *failure;
    return offer_text(pack, {cell_price.amount * std::get<Exact>(times), cell_price.currency}) +
           origin_of(row);
  }

  std::string offer_text(const WrittenPack& pack, const units::Money& price) const {
    return pack_text(pack) + fmt::format(" for {} {}", price_words(price), price.currency);
  }

  std::string pack_text(const WrittenPack& pack) const {
    std::string offer = base::to_decimal(pack.number, 6);
    if (pack.unit.valid()) offer = units::with_unit(offer, house_.units[pack.unit], pack.number == 1);
    if (pack.packs != 1) offer = fmt::format("{} x {}", base::to_decimal(pack.packs, 6), offer);
    return offer;
  }

  const House& house_;
  base::CsvTable table_;
  const std::string& currency_;
  NameColumn names_;
  PriceColumns price_titles_;
  std::vector<PriceColumn> prices_;
  std::optional<std::size_t> price_unit_, size_, other_size_, packs_, code_, supplier_, discount_, share_,
      money_, bought_, line_amount_, unit_, perhaps_packs_;
  Costing costing_;
  PriceListFile list_;
  /// What the letterhead says.
  std::string list_currency_;
  /// By good and pack: the first row with its offer.
  std::map<std::pair<StockId, std::string>, std::pair<std::size_t, std::string>> packs_seen_;
};

/// A row that names the columns below it, and no good: a price's title among words, and no number.
bool holds_titles(const base::CsvRow& row, const base::CsvTable& table) {
  base::CsvTable below = table;
  below.header = row.cells;
  below.rows.clear();
  std::size_t words = 0;
  for (const auto& cell : row.cells) {
    if (cell.find_first_of("0123456789") != std::string::npos) return false;
    words += base::trim(cell).empty() ? 0U : 1U;
  }
  constexpr std::size_t min_titles = 3;
  return words >= min_titles && !find_price_columns(below).columns.empty();
}

/// A list in several parts, each below titles of its own, as a table for each. What stands above all of them
/// is said of each.
std::vector<base::CsvTable> parts_of(base::CsvTable table) {
  const auto rows = std::move(table.rows);
  table.rows.clear();
  std::vector<base::CsvTable> parts = {table};
  table.problems.clear();
  for (const auto& row : rows) {
    if (row.cells == parts.back().header || !holds_titles(row, table)) {
      parts.back().rows.push_back(row);
      continue;
    }
    table.header = row.cells;
    table.header_line = row.line;
    parts.push_back(table);
  }
  return parts;
}

template <typename Items>
void append(Items& to, Items&& from) {
  to.insert(to.end(), std::make_move_iterator(from.begin()), std::make_move_iterator(from.end()));
}

}  // namespace

PriceListFile read_price_list(std::string_view bytes, const House& house, const std::string& currency) {
  PriceListFile list;
  for (auto& part : parts_of(base::read_csv(bytes))) {
    auto read = PriceListReader(std::move(part), house, currency).read();
    append(list.prices, std::move(read.prices));
    append(list.problems, std::move(read.problems));
    append(list.unmatched, std::move(read.unmatched));
    append(list.new_goods, std::move(read.new_goods));
    list.letterhead = std::move(read.letterhead);
    list.row_words.merge(read.row_words);
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

std::string price_list_text(const PriceListFile& list, const House& house, const std::string& name,
                            std::chrono::sys_days from) {
  std::string text = fmt::format("prices {}\n  from {}\n", gill_name(name), base::iso_date(from));
  for (const auto& line : list.letterhead) text += "  # " + one_line(line) + "\n";
  std::size_t widest = 0;
  for (const auto& price : list.prices)
    widest = std::max(widest, base::display_width(gill_name(house.specs[price.stock].head.name)));
  for (const auto& price : list.prices) {
    std::string stock = gill_name(house.specs[price.stock].head.name);
    text += "  " + stock + std::string(widest - base::display_width(stock) + 2, ' ') + price.offer + "\n";
  }
  for (const auto& row : list.unused()) {
    text += fmt::format("  # line {}: {}\n", row.line, row.message);
    if (auto words = list.row_words.find(row.line); words != list.row_words.end())
      text += fmt::format("  #   {}\n", words->second);
  }
  if (!list.new_goods.empty())
    text +=
        "\n# Goods that the house does not know. Take away the # of what you buy. Write behind `like` what "
        "it is, or "
        "is nearest to,\n# and behind `allergen` what its label says: `allergen none` where it says none. A "
        "bottle wants its "
        "label's `strength` too.\n";
  for (const auto& good : list.new_goods)
    text += fmt::format("# ingredient {} like {}\n#   allergen …\n#   buy {}\n", gill_name(good.name),
                        good.relation.empty() ? "…" : gill_name(good.relation), good.offer);
  return text;
}

}  // namespace gill::stock
