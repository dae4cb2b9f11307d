#include "stock/list_terms.h"

#include <algorithm>
#include <vector>

#include "base/characters.h"
#include "stock/currency_words.h"
#include "stock/pack_words.h"
#include "stock/price_columns.h"
#include "stock/priced_by.h"
#include "stock/tax_words.h"

namespace gill::stock {
namespace {

// In English, German, French, Spanish and Italian, small and without accents. Common practice, no source.
constexpr std::string_view price_words[] = {"price", "prices", "preis",   "preise", "preisen",
                                            "prix",  "precio", "precios", "prezzo", "prezzi",
                                            "tarif", "tarifs", "tarife"};
constexpr std::string_view money_heads[] = {"currency", "wahrung", "devise",   "moneda",   "valuta", "divisa",
                                            "amounts",  "betrage", "montants", "importes", "importi"};
constexpr std::string_view before_one[] = {"per", "je", "pro", "par", "por", "a", "al", "la"};
constexpr std::string_view change_words[] = {
    "discount", "discounts",  "abschlag",   "rebate",    "rabatt",        "rabatte",    "nachlass",
    "remise",   "remises",    "rabais",     "ristourne", "descuento",     "descuentos", "rebaja",
    "dto",      "sconto",     "sconti",     "ribasso",   "surcharge",     "surcharges", "aufschlag",
    "zuschlag", "supplement", "majoration", "recargo",   "maggiorazione", "supplemento"};
/// These change a price only where a share stands beside them.
constexpr std::string_view change_words_of_shares[] = {
    "less",     "minus",    "off",      "plus",    "abzuglich", "abzgl",    "zuzuglich", "zzgl",
    "moins",    "menos",    "meno",     "reduced", "uplift",    "increase", "bonus",     "vorteil",
    "erhalten", "erhaltet", "gewahren", "receive", "recevez",   "reciben",  "recibe",    "ricevete"};
constexpr std::string_view all_words[] = {"all",     "every", "alle",   "allen", "auf",   "samtliche",
                                          "gesamte", "tous",  "toutes", "todos", "todas", "todo",
                                          "tutti",   "tutte", "tutto",  "whole"};
/// What only some get, and what has come off already.
constexpr std::string_view condition_words[] = {
    "payment", "paid",       "zahlung",      "bezahlung",   "paiement", "pago",      "pagamento",
    "within",  "innerhalb",  "binnen",       "days",        "day",      "tage",      "tagen",
    "jours",   "dias",       "giorni",       "skonto",      "escompte", "cash",      "order",
    "orders",  "bestellung", "bestellungen", "bestellwert", "commande", "commandes", "pedido",
    "pedidos", "ordine",     "ordini",       "if",          "wenn",     "over",      "above",
    "uber",    "mindestens", "minimum",      "cases"};
constexpr std::string_view done_words[] = {
    "no",    "not",  "already", "after",    "bereits",   "schon",   "kein",
    "keine", "ohne", "without", "nach",     "sans",      "aucune",  "deja",
    "apres", "sin",  "senza",   "deducted", "abgezogen", "deduite", "gia"};

bool holds_share(std::string_view line, const std::vector<std::string>& words) {
  const bool has_sign = line.find('%') != std::string_view::npos ||
                        std::any_of(words.begin(), words.end(), [](const std::string& word) {
                          return word == "percent" || word == "prozent" || word == "cent" ||
                                 word == "cento" || word == "ciento";
                        });
  return has_sign && std::any_of(line.begin(), line.end(), base::is_digit);
}

template <std::size_t size>
bool holds_any(const std::vector<std::string>& words, const std::string_view (&list)[size]) {
  return std::any_of(words.begin(), words.end(), [&](const std::string& word) {
    return std::find(std::begin(list), std::end(list), word) != std::end(list);
  });
}

/// `Kundenrabatt`, `Winteraufschlag`: one German word.
bool names_compound(const std::vector<std::string>& words) {
  static constexpr std::string_view ends[] = {"rabatt", "rabatte", "nachlass", "aufschlag", "zuschlag"};
  return std::any_of(words.begin(), words.end(), [](const std::string& word) {
    return std::any_of(std::begin(ends), std::end(ends),
                       [&](std::string_view end) { return word.size() > end.size() && word.ends_with(end); });
  });
}

/// `Less 5 % on all lines`: for everybody, whatever they order and however they pay.
bool changes_all_prices(std::string_view line, const std::vector<std::string>& words) {
  const bool has_share = holds_share(line, words);
  const bool is_of_all = holds_any(words, price_words) || holds_any(words, all_words);
  // `2 % Skonto` is for whoever pays soon; `alle Preise abzgl. 3 % Skonto` is for all.
  const bool is_discount_of_all = has_share && is_of_all && holds_any(words, change_words_of_shares);
  auto conditions = words;
  if (is_discount_of_all) std::erase(conditions, "skonto");
  if (holds_any(conditions, condition_words) || holds_any(words, done_words)) return false;
  if (holds_any(words, change_words) || names_compound(words)) return has_share || is_of_all;
  const auto minus = line.find('-');
  const bool is_less = minus != std::string_view::npos && minus + 1 < line.size() &&
                       base::is_digit(line[minus + 1]) &&
                       (minus == 0 || line[minus - 1] == ' ' || line[minus - 1] == ':');
  return (is_less || holds_any(words, change_words_of_shares)) && has_share && !said_of_tax(line).names_tax;
}

}  // namespace

ListTerms list_terms(std::string_view line, std::string_view at_home) {
  const auto words = words_of_title(line);
  const bool is_of_prices = holds_any(words, price_words);
  ListTerms said;
  const auto tax = said_of_tax(line);
  const bool says_ttc = std::find(words.begin(), words.end(), "ttc") != words.end();
  said.has_tax = tax.is_with && (tax.names_tax || says_ttc || is_of_prices);
  said.is_changed = changes_all_prices(line, words);
  if (!is_of_prices && !holds_any(words, money_heads)) return said;
  auto money = named_money(line, at_home);
  said.currency = std::move(money.currency);
  said.money_doubt = std::move(money.doubt);
  if (!is_of_prices) return said;
  for (std::size_t i = 0; i + 1 < words.size(); ++i)
    if (std::find(std::begin(before_one), std::end(before_one), words[i]) != std::end(before_one)) {
      said.of_one = said.of_one || vessel_of(words[i + 1]) == Vessel::pack || is_piece_word(words[i + 1]);
      const auto of = price_of_words(words[i + 1]);
      said.of_measure = said.of_measure || of == PriceOf::kilo || of == PriceOf::litre;
    }
  return said;
}

}  // namespace gill::stock
