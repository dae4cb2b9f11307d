#include "stock/price_list.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/characters.h"
#include "base/date.h"
#include "base/text.h"
#include "costing/words.h"
#include "stock/list_columns.h"
#include "stock/pack_words.h"
#include "units/money.h"

namespace gill::stock {

using units::Kind;

namespace {

// In English, German, French, Spanish and Italian.
const Titles packs_titles = {
    "units per case", "per case",         "case size",    "case qty",          "pack qty",
    "packs",          "bottles per case", "units",        "stück pro karton",  "anzahl",
    "colisage",       "par colis",        "uds por caja", "unidades por caja", "pezzi per cartone"};
const Titles code_titles = {"code",          "sku",       "item code", "product code",  "article code",
                            "ref",           "reference", "no",        "artikelnummer", "art nr",
                            "bestellnummer", "référence", "código",    "referencia",    "codice"};
const Titles supplier_titles = {"supplier",    "vendor",    "from",     "lieferant",
                                "fournisseur", "proveedor", "fornitore"};
const Titles currency_titles = {"currency", "cur", "währung", "devise", "moneda", "divisa", "valuta"};

/// Taxes and terms that stand in capitals beside prices, as codes of money do.
bool is_tax_word(std::string_view word) {
  static constexpr std::string_view words[] = {"VAT", "IVA", "TVA", "GST", "HST", "PST", "TTC", "TAX", "BTW",
                                               "INC", "EXC", "EXW", "NET", "RRP", "UVP", "PVP", "PER", "PRO"};
  return std::find(std::begin(words), std::end(words), word) != std::end(words);
}

/// `120`, `15.80`: a price as people write it.
std::string price_words(const units::Money& price) {
  std::string plain = base::to_decimal(price.amount, 6);
  return plain.find('.') == std::string::npos ? plain : units::price_digits(price);
}

/// The ISO 4217 code that a price cell tells, by code or by a sign that means one currency.
std::string currency_in(const std::string& cell) {
  if (cell.find("€") != std::string::npos) return "EUR";
  if (cell.find("£") != std::string::npos) return "GBP";
  for (std::size_t i = 0; i + 3 <= cell.size(); ++i) {
    auto capital = [&](std::size_t at) { return at < cell.size() && cell[at] >= 'A' && cell[at] <= 'Z'; };
    bool is_word =
        capital(i) && capital(i + 1) && capital(i + 2) && !capital(i + 3) && (i == 0 || !capital(i - 1));
    if (is_word && !is_tax_word(cell.substr(i, 3))) return cell.substr(i, 3);
  }
  return {};
}

/// The column that tells what a pack costs.
struct PriceColumn {
  std::size_t column = 0;
  bool has_tax = false;
  /// What one costs, beside a column or a size that says how many there are.
  bool is_for_one = false;
};

/// A title in small letters, its marks as spaces: what stands in brackets tells of the tax.
std::string words_of(std::string_view title) {
  std::string words;
  for (char c : title) words += base::is_ascii_letter(c) || static_cast<unsigned char>(c) >= 0x80 ? c : ' ';
  return base::fold_name(base::collapse_space(words));
}

bool has_word(const std::string& title, std::initializer_list<std::string_view> words) {
  return std::any_of(words.begin(), words.end(), [&](std::string_view word) {
    return (" " + title + " ").find(" " + std::string(word) + " ") != std::string::npos;
  });
}

/// By the words of its title, in five languages; the price without tax before the one with it, the price of
/// the case before the price of one.
std::optional<PriceColumn> find_price_column(const base::CsvTable& table) {
  std::optional<PriceColumn> best;
  int best_rank = 0;
  for (std::size_t i = 0; i < table.header.size(); ++i) {
    std::string title = words_of(table.header[i]);
    bool is_price = has_word(
        title, {"price",         "cost",        "preis",       "prix",       "precio",      "prezzo",
                "coste",         "costo",       "pu",          "p u",        "einzelpreis", "stückpreis",
                "flaschenpreis", "kistenpreis", "kartonpreis", "nettopreis", "bruttopreis", "net",
                "netto",         "brutto",      "gross",       "ht",         "ttc",         "ivato"});
    // What guests pay, and what it was before, is not what the bar pays.
    if (!is_price ||
        has_word(title, {"retail", "rrp", "uvp", "pvp", "old", "was", "weight", "alt", "ancien"}))
      continue;
    bool without_tax = has_word(title, {"net", "netto", "ex", "excl", "excluding", "exclusive", "ht", "hors",
                                        "ohne", "zzgl", "sin", "senza", "esclusa", "nettopreis"});
    PriceColumn column{i, false, false};
    column.has_tax =
        !without_tax && has_word(title, {"incl", "inc", "including", "inclusive", "with", "gross", "brutto",
                                         "bruttopreis", "inkl", "mit", "ttc", "con", "incluido", "incluida",
                                         "inclusa", "ivato", "compresa"});
    bool is_for_case =
        has_word(title, {"case", "box", "carton", "crate", "kiste", "karton", "gebinde", "kistenpreis",
                         "kartonpreis", "caisse", "colis", "caja", "cassa", "cartone"});
    column.is_for_one =
        !is_for_case &&
        has_word(title, {"unit", "each", "bottle", "piece", "einzelpreis", "stück", "stückpreis", "flasche",
                         "flaschenpreis", "unitaire", "unité", "pu", "p u", "bouteille", "unitario", "unidad",
                         "botella", "unità", "bottiglia"});
    int rank = (column.has_tax ? 0 : 8) + (without_tax ? 2 : 0) +
               (is_for_case         ? 4
                : column.is_for_one ? 0
                                    : 3);
    if (best && rank <= best_rank) continue;
    best = column;
    best_rank = rank;
  }
  return best;
}

/// Reads the rows of a supplier's list into offers.
class PriceListReader {
 public:
  PriceListReader(std::string_view bytes, const House& house, const std::string& currency)
      : house_(house),
        table_(base::read_csv(bytes)),
        currency_(currency),
        names_(table_, house, symbols::NameSpace::stock, name_titles),
        price_(find_price_column(table_)),
        size_(table_.column(size_titles)),
        packs_(table_.column(packs_titles)),
        code_(table_.column(code_titles)),
        supplier_(table_.column(supplier_titles)),
        money_(table_.column(currency_titles)),
        costing_(house) {
    if (packs_ == size_ || (price_ && packs_ == price_->column)) packs_.reset();
    list_.problems = table_.problems;
  }

  PriceListFile read() {
    auto& problems = list_.problems;
    if (lacks(table_, names_.column(), "`name` or `product`", problems) ||
        lacks(table_, price_ ? std::optional(price_->column) : std::nullopt, "`price`", problems) ||
        lacks(table_, size_, "`size` or `pack`", problems))
      return std::move(list_);
    if (price_->has_tax) {
      problems.push_back(
          {1,
           fmt::format("`{}` holds the tax, and no column has the prices without it: Gill reckons without.",
                       table_.header[price_->column])});
      return std::move(list_);
    }
    for (const auto& row : table_.rows) {
      const std::size_t unmatched = list_.unmatched.size();
      auto id = names_.find(row, "This row names nothing.", "ingredient", problems, list_.unmatched);
      if (!id) {
        if (list_.unmatched.size() > unmatched) add_new_good(row);
        continue;
      }
      auto offer = offer_of(row, StockId{*id});
      if (auto* failure = std::get_if<Failure>(&offer))
        problems.push_back({row.line, std::move(failure->message)});
      else
        list_.prices.push_back({row.line, StockId{*id}, std::move(std::get<std::string>(offer))});
    }
    return std::move(list_);
  }

 private:
  /// Why a row is no offer: a full sentence.
  struct Failure {
    std::string message;
  };

  /// What nobody knows yet, with what the row says of it.
  void add_new_good(const base::CsvRow& row) {
    auto offer = offer_of(row, StockId{});
    if (auto* text = std::get_if<std::string>(&offer))
      list_.new_goods.push_back({row.line, names_.written(row), names_.nearest(row), std::move(*text)});
  }

  std::string currency_of(const base::CsvRow& row) const {
    for (const auto& cell :
         {table_.cell(row, price_->column), table_.cell(row, money_), table_.header[price_->column]})
      if (auto code = currency_in(cell); !code.empty()) return code;
    return currency_;
  }

  /// The pack of a row, in all its packs. `stock` is invalid for what nobody knows.
  std::variant<WrittenPack, Failure> pack_of(const base::CsvRow& row, StockId stock) const {
    std::string name = names_.written(row), size = table_.cell(row, size_);
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
          return Failure{
              fmt::format("`{}` is no size of `{}`; write it as 700 ml, 6 x 700 ml or 1 kg.", size, name)};
      }
    }
    auto pack = std::get<WrittenPack>(read);
    if (auto text = table_.cell(row, packs_); !text.empty()) {
      auto number = table_.number(text);
      if (!number || *number <= 0) return Failure{fmt::format("`{}` is no number of packs.", text)};
      pack.packs *= *number;
    }
    if (!pack.unit.valid() || house_.units[pack.unit].is_item_word)
      return in_pieces(std::move(pack), size, name, stock);
    return pack;
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
    if (!stock.valid() || !measuring.is_liquid(stock)) return pack;
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

  std::variant<std::string, Failure> offer_of(const base::CsvRow& row, StockId stock) const {
    // What a bar pays for one pack stays below this; more is a slip of the file.
    static const Exact max_price = 100'000'000;
    std::string name = names_.written(row), price = table_.cell(row, price_->column);
    auto amount = table_.number(price);
    if (!amount || *amount < 0) return Failure{fmt::format("`{}` is no price of `{}`.", price, name)};
    if (*amount > max_price) return Failure{fmt::format("`{}` is more than any price of `{}`.", price, name)};
    auto currency = currency_of(row);
    if (currency.empty())
      return Failure{fmt::format("The price of `{}` has no currency, and the house states none.", name)};
    auto read = pack_of(row, stock);
    if (auto* failure = std::get_if<Failure>(&read)) return *failure;
    const auto& pack = std::get<WrittenPack>(read);
    if (price_->is_for_one) *amount *= pack.packs;
    std::string offer = base::to_decimal(pack.number, 6);
    if (pack.unit.valid()) offer = units::with_unit(offer, house_.units[pack.unit], pack.number == 1);
    if (pack.packs != 1) offer = fmt::format("{} x {}", base::to_decimal(pack.packs, 6), offer);
    offer += fmt::format(" for {} {}", price_words({*amount, currency}), currency);
    if (auto from = table_.cell(row, supplier_); !from.empty()) offer += " from " + gill_name(from);
    if (auto number = table_.cell(row, code_); !number.empty()) offer += ", code " + gill_name(number);
    return offer;
  }

  const House& house_;
  base::CsvTable table_;
  const std::string& currency_;
  NameColumn names_;
  std::optional<PriceColumn> price_;
  std::optional<std::size_t> size_, packs_, code_, supplier_, money_;
  Costing costing_;
  PriceListFile list_;
};

}  // namespace

PriceListFile read_price_list(std::string_view bytes, const House& house, const std::string& currency) {
  return PriceListReader(bytes, house, currency).read();
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
  std::size_t widest = 0;
  for (const auto& price : list.prices)
    widest = std::max(widest, base::display_width(gill_name(house.specs[price.stock].head.name)));
  for (const auto& price : list.prices) {
    std::string stock = gill_name(house.specs[price.stock].head.name);
    text += "  " + stock + std::string(widest - base::display_width(stock) + 2, ' ') + price.offer + "\n";
  }
  for (const auto& row : list.unused()) text += fmt::format("  # line {}: {}\n", row.line, row.message);
  if (!list.new_goods.empty())
    text +=
        "\n# Goods that the house does not know. Take away the # of what you buy, and write behind `like` "
        "what it is nearest "
        "to;\n# a bottle wants its label's `strength` too.\n";
  for (const auto& good : list.new_goods)
    text += fmt::format("# ingredient {} like {}\n#   buy {}\n", gill_name(good.name),
                        good.nearest.empty() ? "…" : gill_name(good.nearest), good.offer);
  return text;
}

}  // namespace gill::stock
