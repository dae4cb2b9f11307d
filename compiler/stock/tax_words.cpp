#include "stock/tax_words.h"

#include <algorithm>
#include <sstream>
#include <vector>

#include "base/characters.h"
#include "base/text.h"

namespace gill::stock {
namespace {

// As they are compared: small, without accents and points. Common practice, no source.
constexpr std::string_view names_of_tax[] = {
    "vat",          "tax",    "taxes", "taxe", "gst", "hst", "pst", "mwst", "ust", "mehrwertsteuer",
    "umsatzsteuer", "steuer", "tva",   "iva",  "btw", "igic"};
constexpr std::string_view without_words[] = {
    "+",          "plus",        "ex",      "exc",     "excl",    "excluded",  "excluding", "exclude",
    "excludes",   "exclusive",   "without", "not",     "net",     "nett",      "netto",     "neto",
    "nettopreis", "nettopreise", "ht",      "hors",    "exkl",    "exklusive", "ohne",      "zzgl",
    "nicht",      "sin",         "senza",   "esclusa", "escluso", "excluido",  "excluida",  "non"};
constexpr std::string_view with_words[] = {
    "incl",      "inc",       "include",  "includes",  "included", "including",   "inclusive",    "inkl",
    "inklusive", "enthalten", "gross",    "brutto",    "bruto",    "bruttopreis", "bruttopreise", "ttc",
    "incluido",  "incluidos", "incluida", "inclusa",   "incluso",  "inclusi",     "ivato",        "ivati",
    "compresa",  "compreso",  "comprise", "comprises", "compris"};
constexpr std::string_view maybe_with_words[] = {"with", "mit", "con", "avec"};
constexpr std::string_view yes_words[] = {"yes", "y", "ja",   "j",    "oui",  "o", "si",
                                          "s",   "x", "true", "wahr", "vrai", "✓", "✔"};
constexpr std::string_view no_words[] = {"no", "n", "nein", "non", "false", "falsch", "faux", "-"};

template <std::size_t size>
bool is_any(std::string_view word, const std::string_view (&words)[size]) {
  return std::find(std::begin(words), std::end(words), word) != std::end(words);
}

std::string without_points(std::string word) {
  std::erase(word, '.');
  return word;
}

std::vector<std::string> tax_words_of(std::string_view text) {
  std::string spaced;
  for (char c : base::fold_without_accents(text)) {
    const bool parts = std::string_view(" ,;:()[]/*%").find(c) != std::string_view::npos;
    spaced += parts ? std::string(" ") : c == '+' ? std::string(" + ") : std::string(1, c);
  }
  std::vector<std::string> words;
  std::istringstream stream(spaced);
  for (std::string word; stream >> word;) words.push_back(without_points(std::move(word)));
  std::erase(words, "");
  return words;
}

bool is_number(std::string_view word) {
  return std::all_of(word.begin(), word.end(), [](char c) { return base::is_digit(c); });
}

}  // namespace

TaxWord tax_word(std::string_view word) {
  if (is_any(word, names_of_tax)) return TaxWord::tax;
  if (is_any(word, without_words)) return TaxWord::without_tax;
  if (is_any(word, with_words)) return TaxWord::with_tax;
  return is_any(word, maybe_with_words) ? TaxWord::maybe_with : TaxWord::none;
}

SaidOfTax said_of_tax(std::string_view text) {
  SaidOfTax said;
  bool may_be_with = false;
  said.is_of_tax_alone = true;
  for (const auto& word : tax_words_of(text)) switch (tax_word(word)) {
      case TaxWord::none:
        said.is_of_tax_alone = said.is_of_tax_alone && is_number(word);
        break;
      case TaxWord::tax:
        said.names_tax = true;
        break;
      case TaxWord::with_tax:
        said.is_with = true;
        break;
      case TaxWord::without_tax:
        said.is_without = true;
        break;
      case TaxWord::maybe_with:
        may_be_with = true;
        break;
    }
  said.is_with = said.is_with || (may_be_with && said.names_tax);
  // `not included`, `hors TVA comprise`.
  if (said.is_without) said.is_with = false;
  return said;
}

TaxInPrice tax_in_price(std::string_view title, std::string_view cell) {
  const auto of_title = said_of_tax(title), of_cell = said_of_tax(cell);
  const bool is_tax_column = of_title.names_tax || of_title.is_with || of_title.is_without;
  if (!is_tax_column && !of_cell.is_of_tax_alone) return TaxInPrice::not_said;
  if (of_cell.is_without) return TaxInPrice::without;
  // `19 %` below `MwSt. inkl.`.
  const bool is_rate = cell.find('%') != std::string_view::npos;
  if (of_cell.is_with || (of_title.is_with && is_rate)) return TaxInPrice::with;
  if (!is_tax_column) return TaxInPrice::not_said;
  const std::string word = without_points(base::fold_without_accents(base::trim(cell)));
  if (is_any(word, no_words)) return of_title.is_without ? TaxInPrice::with : TaxInPrice::without;
  if (!is_any(word, yes_words)) return TaxInPrice::not_said;
  return of_title.is_with      ? TaxInPrice::with
         : of_title.is_without ? TaxInPrice::without
                               : TaxInPrice::unclear;
}

}  // namespace gill::stock
