#include "importer/prices.h"

#include <algorithm>
#include <array>

#include "base/characters.h"
#include "base/text.h"

namespace gill::importer {
namespace {

// As lists and cards write them; not every currency, but those in which their bars sell.
constexpr auto currency_words = std::to_array<std::string_view>(
    {"€", "£", "$", "eur", "euro", "euros", "gbp", "usd", "chf", "fr.", "sfr.", "aud", "cad", "kr", "kr."});

/// `12`, `9.50`, `9,5`, `12.-`, `12,-`.
bool is_sum(std::string_view text, bool has_decimals) {
  constexpr std::size_t most_digits = 4;
  const auto digits = std::min(text.find_first_not_of("0123456789"), text.size());
  if (digits == 0 || digits > most_digits) return false;
  auto rest = text.substr(digits);
  if (rest.empty()) return !has_decimals;
  if (rest.front() != '.' && rest.front() != ',') return false;
  rest.remove_prefix(1);
  if (rest == "-" || rest == "–") return true;
  return !rest.empty() && rest.size() <= 2 && (!has_decimals || rest.size() == 2) &&
         std::all_of(rest.begin(), rest.end(), base::is_digit);
}

bool is_sum_with_currency(std::string_view text) {
  const std::string folded = base::fold_name(text);
  for (auto word : currency_words) {
    if (folded.starts_with(word) && is_sum(base::trim(std::string_view(folded).substr(word.size())), false))
      return true;
    if (folded.ends_with(word) &&
        is_sum(base::trim(std::string_view(folded).substr(0, folded.size() - word.size())), false))
      return true;
  }
  return false;
}

/// Without the signs that part a price from the words before it.
std::string without_sign_at_end(std::string_view words) {
  for (bool is_more = true; is_more;) {
    words = base::trim(words);
    is_more = false;
    for (std::string_view sign : {",", ";", ":", "|", "/", " -", " –", " —", "@"})
      if (words.size() > sign.size() && words.ends_with(sign)) {
        words.remove_suffix(sign.size());
        is_more = true;
      }
  }
  return std::string(words);
}

}  // namespace

bool is_price(std::string_view text) {
  text = base::trim(text);
  if (text.starts_with("(") && text.ends_with(")")) text = text.substr(1, text.size() - 2);
  return is_sum_with_currency(text) || (text.ends_with("-") && is_sum(text, false));
}

Priced price_behind(std::string_view text) {
  text = base::trim(text);
  // The longest price at the end: `12 €` rather than `€`.
  for (auto space = text.find(' '); space != std::string_view::npos; space = text.find(' ', space + 1)) {
    const auto price = base::trim(text.substr(space));
    if (!is_price(price) && !is_sum(price, true)) continue;
    auto words = without_sign_at_end(text.substr(0, space));
    if (words.empty()) return {};
    return {std::move(words), std::string(price)};
  }
  return {};
}

}  // namespace gill::importer
