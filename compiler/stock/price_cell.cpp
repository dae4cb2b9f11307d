#include "stock/price_cell.h"

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>
#include <optional>
#include <sstream>
#include <string_view>
#include <utility>

#include "base/characters.h"
#include "base/text.h"
#include "stock/currency_words.h"
#include "stock/priced_by.h"
#include "stock/tax_words.h"

namespace gill::stock {
namespace {

using base::Exact;

/// A cell without its words about tax, and what they say.
struct WithoutTaxWords {
  std::string text;
  bool names_tax = false, is_without = false, is_with = false, names_deposit = false;
};

/// What comes back with the empties, in five languages (common practice, no source).
bool is_deposit_word(std::string_view word) {
  static constexpr std::string_view words[] = {"pfand",     "leergut",  "deposit",  "deposits", "consigne",
                                               "consignes", "deposito", "cauzione", "fianza"};
  return std::find(std::begin(words), std::end(words), base::fold_without_accents(word)) != std::end(words);
}

WithoutTaxWords without_tax_words(const std::string& cell) {
  WithoutTaxWords result;
  std::string spaced;
  for (char c : cell) {
    if (c == '(' || c == ')') continue;
    // `+VAT`, `24.00+VAT`: the plus is a word.
    spaced += c == '+' && !spaced.empty() ? std::string(" + ") : std::string(1, c);
  }
  std::istringstream words(spaced);
  for (std::string word; words >> word;) {
    std::string plain = base::lower_ascii(word);
    while (!plain.empty() && (plain.back() == '.' || plain.back() == ',') && plain.size() > 1)
      plain.pop_back();
    if (is_deposit_word(plain)) {
      result.names_deposit = true;
      continue;
    }
    const auto says = tax_word(plain);
    result.names_tax |= says == TaxWord::tax;
    result.is_without |= says == TaxWord::without_tax;
    result.is_with |= says == TaxWord::with_tax || says == TaxWord::maybe_with;
    if (says == TaxWord::none) result.text += (result.text.empty() ? "" : " ") + word;
  }
  return result;
}

/// `24.-`, `24,--`: how Swiss lists write whole money.
std::string without_dash(std::string text) {
  auto at = text.find_first_of(".,");
  if (at == std::string::npos || at + 1 >= text.size() || text[at + 1] != '-') return text;
  auto end = text.find_first_not_of('-', at + 1);
  return text.substr(0, at) + (end == std::string::npos ? std::string() : text.substr(end));
}

/// Takes `each`, `/kg`, `per bottle`, `je Flasche`, `la bouteille` off the end of a price.
std::optional<PriceOf> take_price_of(std::string& text) {
  const std::string folded = base::fold_name(text);
  for (std::string_view word : {" each", " ea", " p.p."})
    if (folded.ends_with(word)) {
      text.resize(text.size() - word.size());
      return PriceOf::one;
    }
  for (std::string_view sign : {" / ", "/ ", " /", "/", " per ", " a ", " je ", " pro ", " la ", " le ",
                                " par ", " por ", " al ", " alla ", " à ", " the "}) {
    auto at = folded.rfind(sign);
    if (at == std::string::npos || at == 0 || folded.size() != text.size()) continue;
    if (auto of = price_of_words(folded.substr(at + sign.size()))) {
      text.resize(at);
      return of;
    }
  }
  return std::nullopt;
}

}  // namespace

std::variant<CellPrice, NoPrice> read_price_cell(const std::string& cell, const base::CsvTable& table,
                                                 std::string_view at_home) {
  // What a bar pays for one pack stays below this; more is a slip of the file.
  static const Exact max_price = 100'000'000;
  // `(34.00)`: how ledgers write what is below nothing.
  if (cell.starts_with('(') && cell.ends_with(')') && table.number(cell.substr(1, cell.size() - 2)))
    return NoPrice::negative;
  auto plain = without_tax_words(cell);
  if (plain.names_deposit && !plain.is_without) return NoPrice::holds_deposit;
  if (plain.is_with && !plain.is_without) return NoPrice::holds_tax;
  if (plain.names_tax && !plain.is_without) return NoPrice::may_hold_tax;
  auto of = take_price_of(plain.text);
  auto amount = table.number(without_dash(plain.text));
  if (!amount) return NoPrice::not_read;
  if (*amount < 0) return NoPrice::negative;
  if (*amount == 0) return NoPrice::nothing;
  if (*amount > max_price) return NoPrice::too_much;
  auto money = named_money(plain.text, at_home);
  if (!money.doubt.empty()) return NoPrice::of_several_countries;
  const bool has_words = std::any_of(plain.text.begin(), plain.text.end(), base::is_ascii_letter);
  if (money.currency.empty() && has_words) return NoPrice::not_read;
  return CellPrice{*amount, std::move(money.currency), of};
}

std::string no_price_message(NoPrice why, const std::string& cell, const std::string& name) {
  switch (why) {
    case NoPrice::not_read:
      if (cell.empty()) return fmt::format("`{}` has no price in this row; write one, as 13.50.", name);
      return fmt::format("`{}` is no price of `{}`; write it as 13.50.", cell, name);
    case NoPrice::of_several_countries:
      return fmt::format("`{}` of `{}` may be the money of several countries; write its code, as 13.50 USD.",
                         cell, name);
    case NoPrice::negative:
      return fmt::format("`{}` is no price of `{}`: it is below nothing; write what the pack costs.", cell,
                         name);
    case NoPrice::nothing:
      return fmt::format("`{}` costs nothing here (`{}`); write its price, or leave the row out.", name,
                         cell);
    case NoPrice::too_much:
      return fmt::format("`{}` is more than any price of `{}`.", cell, name);
    case NoPrice::holds_tax:
      return fmt::format(
          "`{}` of `{}` holds the tax, and Gill reckons without it; write the price without tax.", cell,
          name);
    case NoPrice::holds_deposit:
      return fmt::format(
          "`{}` of `{}` holds the deposit, which comes back with the empties; write the price without it.",
          cell, name);
    case NoPrice::may_hold_tax:
      return fmt::format(
          "`{}` of `{}` does not say whether the tax is in it; write the price without tax, as 13.50 + VAT.",
          cell, name);
  }
  return {};
}

}  // namespace gill::stock
