#include "stock/price_list.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/date.h"
#include "base/text.h"
#include "costing/words.h"
#include "stock/amount_reader.h"
#include "stock/list_columns.h"

namespace gill::stock {

using units::Kind;

namespace {

const Titles packs_titles = {"units per case", "per case", "case size",        "case qty",
                             "pack qty",       "packs",    "bottles per case", "units"};
const Titles price_titles = {"price",      "net price", "list price", "case price",
                             "unit price", "cost",      "preis",      "prix"};
const Titles code_titles = {"code",         "sku", "item code", "product code",
                            "article code", "ref", "reference", "no"};
const Titles supplier_titles = {"supplier", "vendor", "from"};
const Titles currency_titles = {"currency", "cur", "währung", "devise"};

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

/// Reads the rows of a supplier's list into offers.
class PriceListReader {
 public:
  PriceListReader(std::string_view bytes, const House& house, const std::string& currency)
      : table_(base::read_csv(bytes)),
        currency_(currency),
        names_(table_, house, symbols::NameSpace::stock, name_titles),
        price_(table_.column(price_titles)),
        size_(table_.column(size_titles)),
        packs_(table_.column(packs_titles)),
        code_(table_.column(code_titles)),
        supplier_(table_.column(supplier_titles)),
        money_(table_.column(currency_titles)),
        costing_(house),
        amounts_(house, costing_) {
    if (packs_ == size_ || packs_ == price_) packs_.reset();
    list_.problems = table_.problems;
  }

  PriceListFile read() {
    auto& problems = list_.problems;
    if (lacks(table_, names_.column(), "`name` or `product`", problems) ||
        lacks(table_, price_, "`price`", problems) || lacks(table_, size_, "`size` or `pack`", problems))
      return std::move(list_);
    for (const auto& row : table_.rows) {
      auto id = names_.find(row, "This row names nothing.", "ingredient", problems, list_.unmatched);
      if (!id) continue;
      auto offer = offer_of(row);
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

  std::string currency_of(const base::CsvRow& row) const {
    for (const auto& cell : {table_.cell(row, price_), table_.cell(row, money_), table_.header[*price_]})
      if (auto code = currency_in(cell); !code.empty()) return code;
    return currency_;
  }

  std::variant<std::string, Failure> offer_of(const base::CsvRow& row) const {
    std::string name = names_.written(row), price = table_.cell(row, price_), size = table_.cell(row, size_);
    auto amount = table_.number(price);
    if (!amount || *amount < 0) return Failure{fmt::format("`{}` is no price of `{}`.", price, name)};
    auto currency = currency_of(row);
    if (currency.empty())
      return Failure{fmt::format("The price of `{}` has no currency, and the house states none.", name)};
    auto pack = read_pack_size(size, amounts_, table_);
    if (!pack)
      return Failure{
          fmt::format("`{}` is no size of `{}`; write it as 700 ml, 6 x 700 ml or 1 kg.", size, name)};
    if (auto text = table_.cell(row, packs_); !text.empty()) {
      auto number = table_.number(text);
      if (!number || *number <= 0) return Failure{fmt::format("`{}` is no number of packs.", text)};
      pack->packs *= *number;
    }
    std::string offer =
        pack->packs == 1 ? pack->text : fmt::format("{} x {}", base::to_decimal(pack->packs, 6), pack->text);
    offer += fmt::format(" for {} {}", base::to_decimal(*amount, 6), currency);
    if (auto from = table_.cell(row, supplier_); !from.empty()) offer += " from " + gill_name(from);
    if (auto number = table_.cell(row, code_); !number.empty()) offer += ", code " + gill_name(number);
    return offer;
  }

  base::CsvTable table_;
  const std::string& currency_;
  NameColumn names_;
  std::optional<std::size_t> price_, size_, packs_, code_, supplier_, money_;
  Costing costing_;
  AmountReader amounts_;
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
  return text;
}

}  // namespace gill::stock
