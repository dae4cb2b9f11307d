#include "stock/price_columns.h"

#include <algorithm>
#include <initializer_list>
#include <string_view>

#include "base/characters.h"
#include "base/text.h"

namespace gill::stock {
namespace {

/// A title in small letters, its marks as spaces: what stands in brackets tells of the tax.
std::string title_words(std::string_view title) {
  std::string words;
  for (char c : title) words += base::is_ascii_letter(c) || static_cast<unsigned char>(c) >= 0x80 ? c : ' ';
  return base::fold_name(base::collapse_space(words));
}

bool has_word(const std::string& title, std::initializer_list<std::string_view> words) {
  return std::any_of(words.begin(), words.end(), [&](std::string_view word) {
    return (" " + title + " ").find(" " + std::string(word) + " ") != std::string::npos;
  });
}

bool is_of_price(const std::string& title) {
  // What guests pay, and what it was before, is not what the bar pays.
  if (has_word(title, {"retail", "rrp", "uvp", "pvp", "old", "was", "weight", "alt", "ancien"})) return false;
  return has_word(title,
                  {"price",         "cost",        "preis",       "prix",       "precio",      "prezzo",
                   "coste",         "costo",       "pu",          "p u",        "einzelpreis", "stückpreis",
                   "flaschenpreis", "kistenpreis", "kartonpreis", "nettopreis", "bruttopreis", "net",
                   "netto",         "brutto",      "gross",       "ht",         "ttc",         "ivato",
                   "kilopreis",     "literpreis"});
}

bool is_for_case(const std::string& title) {
  return has_word(title, {"case", "box", "carton", "crate", "kiste", "karton", "gebinde", "kistenpreis",
                          "kartonpreis", "caisse", "colis", "caja", "cassa", "cartone"});
}

PriceOf price_of_title(const std::string& title) {
  if (is_for_case(title)) return PriceOf::whole_case;
  if (has_word(title, {"kg", "kilo", "kilogram", "kilogramm", "kilogramme", "kilopreis"}))
    return PriceOf::kilo;
  if (has_word(title, {"litre", "liter", "ltr", "lt", "l", "litro", "literpreis"})) return PriceOf::litre;
  bool is_for_one = has_word(title, {"unit", "each", "bottle", "piece", "einzelpreis", "stück", "stückpreis",
                                     "flasche", "flaschenpreis", "unitaire", "unité", "pu", "p u",
                                     "bouteille", "unitario", "unidad", "botella", "unità", "bottiglia"});
  return is_for_one ? PriceOf::one : PriceOf::pack;
}

bool is_without_tax(const std::string& title) {
  return has_word(title, {"net", "netto", "ex", "excl", "excluding", "exclusive", "ht", "hors", "ohne",
                          "zzgl", "sin", "senza", "esclusa", "nettopreis"});
}

bool is_with_tax(const std::string& title) {
  return !is_without_tax(title) && has_word(title, {"incl", "inc", "including", "inclusive", "with", "gross",
                                                    "brutto", "bruttopreis", "inkl", "mit", "ttc", "con",
                                                    "incluido", "incluida", "inclusa", "ivato", "compresa"});
}

int rank_of(const std::string& title, const PriceColumn& column) {
  int rank = (column.has_tax ? 0 : 16) + (is_without_tax(title) ? 2 : 0);
  switch (column.of) {
    case PriceOf::whole_case:
      return rank + 8;
    case PriceOf::pack:
      return rank + 6;
    case PriceOf::one:
      return rank + 4;
    case PriceOf::kilo:
    case PriceOf::litre:
      return rank;
  }
  return rank;
}

}  // namespace

std::vector<PriceColumn> find_price_columns(const base::CsvTable& table) {
  std::vector<std::pair<int, PriceColumn>> ranked;
  for (std::size_t i = 0; i < table.header.size(); ++i) {
    std::string title = title_words(table.header[i]);
    if (!is_of_price(title)) continue;
    PriceColumn column{i, is_with_tax(title), price_of_title(title)};
    ranked.emplace_back(rank_of(title, column), column);
  }
  std::stable_sort(ranked.begin(), ranked.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<PriceColumn> columns;
  for (const auto& [rank, column] : ranked) columns.push_back(column);
  return columns;
}

}  // namespace gill::stock
