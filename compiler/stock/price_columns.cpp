#include "stock/price_columns.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>
#include <string_view>

#include "base/characters.h"
#include "base/text.h"
#include "stock/currency_words.h"
#include "stock/pack_words.h"
#include "stock/tax_words.h"

namespace gill::stock {
namespace {

/// What a word of a title says of the price below it.
enum class TitleWord : std::uint8_t {
  unknown,
  filler,
  price,
  whole_case,
  pack,
  one,
  kilo,
  litre,
  without_tax,
  with_tax,
  tax,
  /// A currency by its code, sign or name.
  money,
  /// What guests pay, or what it was before: not what the bar pays.
  of_others,
};

struct Meaning {
  std::string_view word;
  TitleWord says;
};

// Titles of suppliers' lists in English, German, French, Spanish and Italian, as they are compared: without
// accents (common practice, no source).
constexpr Meaning meanings[] = {
    {"price", TitleWord::price},
    {"prices", TitleWord::price},
    {"cost", TitleWord::price},
    {"preis", TitleWord::price},
    {"prix", TitleWord::price},
    {"precio", TitleWord::price},
    {"prezzo", TitleWord::price},
    {"coste", TitleWord::price},
    {"costo", TitleWord::price},
    {"einkaufspreis", TitleWord::price},
    {"listenpreis", TitleWord::price},
    {"ek", TitleWord::price},
    {"ekp", TitleWord::price},
    {"pa", TitleWord::price},
    {"cout", TitleWord::price},
    {"pu", TitleWord::one},
    {"vk", TitleWord::of_others},
    {"vkp", TitleWord::of_others},
    {"pv", TitleWord::of_others},
    {"pvp", TitleWord::of_others},
    {"rrp", TitleWord::of_others},
    {"uvp", TitleWord::of_others},
    {"retail", TitleWord::of_others},
    {"public", TitleWord::of_others},
    {"pubblico", TitleWord::of_others},
    {"publico", TitleWord::of_others},
    {"ladenpreis", TitleWord::of_others},
    {"old", TitleWord::of_others},
    {"was", TitleWord::of_others},
    {"last", TitleWord::of_others},
    {"previous", TitleWord::of_others},
    {"alt", TitleWord::of_others},
    {"alter", TitleWord::of_others},
    {"ancien", TitleWord::of_others},
    {"anterior", TitleWord::of_others},
    {"precedente", TitleWord::of_others},
    {"weight", TitleWord::of_others},
    {"case", TitleWord::whole_case},
    {"gebinde", TitleWord::whole_case},
    {"kistenpreis", TitleWord::whole_case},
    {"kartonpreis", TitleWord::whole_case},
    {"carton", TitleWord::whole_case},
    {"pack", TitleWord::pack},
    {"packung", TitleWord::pack},
    {"confezione", TitleWord::pack},
    {"envase", TitleWord::pack},
    {"single", TitleWord::one},
    {"1", TitleWord::one},
    {"item", TitleWord::one},
    {"unit", TitleWord::one},
    {"einzelpreis", TitleWord::one},
    {"stuckpreis", TitleWord::one},
    {"flaschenpreis", TitleWord::one},
    {"unitaire", TitleWord::one},
    {"unitario", TitleWord::one},
    {"unita", TitleWord::one},
    {"cad", TitleWord::one},
    {"cadauno", TitleWord::one},
    {"kg", TitleWord::kilo},
    {"kilo", TitleWord::kilo},
    {"kilogram", TitleWord::kilo},
    {"kilogramm", TitleWord::kilo},
    {"kilogramme", TitleWord::kilo},
    {"kilopreis", TitleWord::kilo},
    {"litre", TitleWord::litre},
    {"liter", TitleWord::litre},
    {"ltr", TitleWord::litre},
    {"lt", TitleWord::litre},
    {"l", TitleWord::litre},
    {"litro", TitleWord::litre},
    {"literpreis", TitleWord::litre},
    {"uvc", TitleWord::one},
    {"uom", TitleWord::one},
    {"um", TitleWord::one},
    {"udm", TitleWord::one},
    {"dollar", TitleWord::money},
    {"dollars", TitleWord::money},
    {"pound", TitleWord::money},
    {"pounds", TitleWord::money},
    {"sterling", TitleWord::money},
    {"euro", TitleWord::money},
    {"euros", TitleWord::money},
    {"franken", TitleWord::money},
    {"francs", TitleWord::money},
    {"francos", TitleWord::money},
    {"sterline", TitleWord::money},
    {"livres", TitleWord::money},
    {"franchi", TitleWord::money},
    {"€", TitleWord::money},
    {"£", TitleWord::money},
    {"$", TitleWord::money},
};

// What says nothing by itself.
constexpr std::string_view fillers[] = {
    "per",   "the",  "a",     "an",        "in",      "of",    "for",   "by",     "our",       "your",
    "new",   "neu",  "neuer", "nouveau",   "nuevo",   "nuovo", "trade", "list",   "wholesale", "dealer",
    "tarif", "d",    "de",    "du",        "des",     "la",    "le",    "les",    "el",        "al",
    "alla",  "il",   "lo",    "die",       "der",     "das",   "fur",   "une",    "un",        "una",
    "por",   "pour", "par",   "pro",       "je",      "au",    "di",    "compra", "acquisto",  "achat",
    "p",     "u",    "swiss", "schweizer", "suisses", "us"};

TitleWord meaning_of(const std::string& word) {
  // The carton, or cents.
  if (word == "ct" || word == "cts") return TitleWord::unknown;
  for (const auto& meaning : meanings)
    if (meaning.word == word) return meaning.says;
  if (std::find(std::begin(fillers), std::end(fillers), word) != std::end(fillers)) return TitleWord::filler;
  switch (tax_word(word)) {
    case TaxWord::none:
      break;
    case TaxWord::tax:
      return TitleWord::tax;
    case TaxWord::without_tax:
      return TitleWord::without_tax;
    case TaxWord::with_tax:
    case TaxWord::maybe_with:
      return TitleWord::with_tax;
  }
  switch (vessel_of(word)) {
    case Vessel::pack:
      return TitleWord::one;
    case Vessel::offer:
      return TitleWord::whole_case;
    case Vessel::none:
      break;
  }
  return is_piece_word(word) ? TitleWord::one : TitleWord::unknown;
}

bool is_number(const std::string& word) { return std::all_of(word.begin(), word.end(), base::is_digit); }
bool is_year(const std::string& word) { return word.size() == 4 && word.starts_with("20"); }

/// What all words of a title say.
class PriceTitle {
 public:
  explicit PriceTitle(std::string_view title) {
    const auto words = words_of_title(title);
    words_ = words.size();
    note(words, base::lower_ascii(named_money(title, {}).currency));
    // `P.U. HT`, `Einzelpreis`, `Netto`, `€/kg`: no word for price, and one all the same.
    const bool says_tax_in_it = says(TitleWord::without_tax) || says(TitleWord::with_tax);
    const bool names_price = says(TitleWord::price) || title_is_compound(title) ||
                             (!says(TitleWord::unknown) && says_tax_in_it && !says(TitleWord::tax)) ||
                             (says(TitleWord::money) && (says_tax_in_it || !says(TitleWord::tax)));
    is_price_ = names_price && !says(TitleWord::of_others);
    is_by_money_ = !says(TitleWord::price) && says(TitleWord::money);
    is_per_ = !words.empty() && is_per_word(words[0]) && !says(TitleWord::whole_case);
  }

  /// `per kg`: a price where no other column is one.
  bool is_per_measure() const { return is_per_ && is_known() && of() != PriceOf::pack; }
  bool is_price() const { return is_price_; }
  bool is_known() const { return !says(TitleWord::unknown); }

  PriceOf of() const {
    if (says(TitleWord::whole_case)) return PriceOf::whole_case;
    if (says(TitleWord::kilo)) return PriceOf::kilo;
    if (says(TitleWord::litre)) return PriceOf::litre;
    return says(TitleWord::one) && !says(TitleWord::pack) ? PriceOf::one : PriceOf::pack;
  }

  bool has_tax() const { return says(TitleWord::with_tax) && !says(TitleWord::without_tax); }

  int rank() const {
    const int by_words = is_by_money_ ? 0 : words_ == 1 ? 2 : 1;
    int rank = (has_tax() ? 0 : 32) + (says(TitleWord::without_tax) ? 4 : 0) + by_words;
    switch (of()) {
      case PriceOf::whole_case:
        return rank + 16;
      case PriceOf::pack:
        return rank + 12;
      case PriceOf::one:
        return rank + 8;
      case PriceOf::kilo:
      case PriceOf::litre:
      case PriceOf::measure:
      case PriceOf::pieces:
        return rank;
    }
    return rank;
  }

 private:
  void note(TitleWord word) { says_[static_cast<std::size_t>(word)] = true; }

  /// `currency`: the code that the title names, in small letters.
  void note(const std::vector<std::string>& words, const std::string& currency) {
    const bool speaks_of_tax = std::any_of(words.begin(), words.end(),
                                           [](const auto& word) { return tax_word(word) != TaxWord::none; });
    for (std::size_t i = 0; i < words.size(); ++i) {
      const auto& word = words[i];
      const bool is_last = i + 1 == words.size() || tax_word(words[i + 1]) != TaxWord::none ||
                           meaning_of(words[i + 1]) == TitleWord::money || words[i + 1] == currency;
      // `P.U.`: prix unitaire, precio unitario; `Prezzo un.`, `Prix/u`.
      const bool is_unit = (word == "u" && i > 0 && words[i - 1] == "p") ||
                           ((word == "u" || word == "un") && i > 0 && is_last);
      // `Price per pound` is of a weight.
      const bool is_weight = (word == "pound" || word == "pounds") && i > 0 && is_per_word(words[i - 1]);
      // `Price excl. 20 % VAT`, `Price 2026`.
      if (is_number(word) && (speaks_of_tax || is_year(word))) continue;
      note(word == currency ? TitleWord::money
           : is_unit        ? TitleWord::one
           : is_weight      ? TitleWord::unknown
                            : meaning_of(word));
    }
  }

  static bool is_per_word(const std::string& word) {
    return word == "per" || word == "je" || word == "pro" || word == "par" || word == "por";
  }

  bool says(TitleWord word) const { return says_[static_cast<std::size_t>(word)]; }

  /// `Stückpreis`, `Nettopreis`, `PU`: a word that is a price by itself.
  static bool title_is_compound(std::string_view title) {
    auto words = words_of_title(title);
    for (std::size_t i = 0; i < words.size(); ++i) {
      const auto& word = words[i];
      const bool is_p_u = word == "p" && i + 1 < words.size() && words[i + 1] == "u";
      if (is_p_u || word == "pu" || (word.size() > 5 && word.ends_with("preis") && word != "ladenpreis"))
        return true;
    }
    return false;
  }

  bool says_[static_cast<std::size_t>(TitleWord::of_others) + 1] = {};
  std::size_t words_ = 0;
  bool is_price_ = false, is_by_money_ = false, is_per_ = false;
};

}  // namespace

const std::string_view what_to_title =
    "Title it `Price` (of what the pack column says), `Unit price`, `Case price`, `Price per kg` or `Price "
    "per "
    "litre`.";

std::vector<std::string> words_of_title(std::string_view title) {
  std::string plain;
  std::string folded = base::fold_without_accents(title);
  for (std::string_view article : {"l'", "l’", "d'", "d’"})
    for (auto at = folded.find(article); at != std::string::npos; at = folded.find(article, at + 1))
      if (at == 0 || folded[at - 1] == ' ') folded.replace(at, article.size(), "la ");
  for (std::string_view sign : {"€", "£"})
    for (auto at = folded.find(sign); at != std::string::npos; at = folded.find(sign, at + sign.size() + 2))
      folded.replace(at, sign.size(), " " + std::string(sign) + " ");
  for (char c : folded) {
    const bool is_word =
        base::is_ascii_letter(c) || base::is_digit(c) || c == '$' || static_cast<unsigned char>(c) >= 0x80;
    plain += is_word ? c : ' ';
  }
  std::istringstream stream(plain);
  std::vector<std::string> words;
  for (std::string word; stream >> word;) words.push_back(std::move(word));
  return words;
}

CountTitle count_title(std::string_view title) {
  // Beside the words of packs and pieces: common practice, no source.
  static constexpr std::string_view packs[] = {"ve", "vpe", "geb", "gebinde", "outer", "outers", "inner"};
  static constexpr std::string_view counts[] = {"qty",    "quantity", "menge",    "anzahl",   "inhalt",
                                                "number", "contents", "cantidad", "quantite", "quantita",
                                                "qta",    "qte",      "stuckzahl"};
  static constexpr std::string_view between[] = {"per", "je", "pro", "par", "por", "in",
                                                 "of",  "a",  "al",  "la",  "x",   "each"};
  auto is_any = [](const std::string& word, const auto& words) {
    return std::find(std::begin(words), std::end(words), word) != std::end(words);
  };
  bool names_pack = false, names_count = false, has_of = false;
  const auto words = words_of_title(title);
  if (base::join(words, " ") == "u c") return CountTitle::per_pack;
  for (const auto& word : words) {
    const bool is_pack =
        vessel_of(word) == Vessel::offer || vessel_kind_of(word) == VesselKind::carton || is_any(word, packs);
    const bool is_count = is_piece_word(word) || vessel_of(word) == Vessel::pack || is_any(word, counts);
    if (!is_pack && !is_count && !is_any(word, between)) return CountTitle::none;
    names_pack |= is_pack;
    names_count |= is_count && !is_pack;
    has_of |= word == "of" && names_pack;
  }
  if (names_pack && (names_count || has_of)) return CountTitle::per_pack;
  return words.empty() ? CountTitle::none : CountTitle::unclear;
}

namespace {

bool is_word_of_prices(const std::string& word) {
  const auto says = meaning_of(word);
  return says == TitleWord::price || says == TitleWord::of_others || says == TitleWord::money ||
         word.ends_with("preis");
}

}  // namespace

bool may_title_counts(std::string_view title) {
  // What small whole numbers are that count no packs. Common practice, no source.
  static constexpr std::string_view others[] = {
      "pos",     "position", "nr",     "no",     "num",      "numero",  "lfd",      "row",       "line",
      "zeile",   "page",     "seite",  "id",     "stock",    "bestand", "lager",    "dispo",     "available",
      "lead",    "days",     "tage",   "jours",  "dias",     "giorni",  "delivery", "min",       "mindest",
      "minimum", "moq",      "abv",    "alc",    "alk",      "vol",     "vat",      "tax",       "mwst",
      "ust",     "tva",      "iva",    "year",   "jahrgang", "vintage", "annata",   "millesime", "anada",
      "age",     "alter",    "rating", "points", "rank",     "shelf",   "regal",    "layer",     "pallet",
      "palette", "lage",     "class",  "group",  "gruppe",   "valid",   "week",     "woche",     "kw",
      "month",   "monat",    "date",   "datum"};
  const auto words = words_of_title(title);
  return !words.empty() && std::none_of(words.begin(), words.end(), [](const std::string& word) {
    return std::find(std::begin(others), std::end(others), word) != std::end(others) ||
           word.starts_with("liefer") || word.starts_with("mindest") || word.starts_with("bestell") ||
           tax_word(word) != TaxWord::none || is_word_of_prices(word);
  });
}

namespace {

bool is_priced_beside(const base::CsvTable& table, std::size_t column) {
  for (std::size_t i = 0; i < table.header.size(); ++i)
    if (PriceTitle title(table.header[i]); i != column && title.is_price() && title.is_known()) return true;
  return false;
}

/// Numbers below `Price unit` are prices, but for `1`, `100`, `1000` beside a price: so many it is of.
bool holds_prices(const base::CsvTable& table, std::size_t column) {
  bool has_numbers = false, are_powers = true;
  for (const auto& row : table.rows) {
    const auto cell = table.cell(row, column);
    if (!table.number(cell)) continue;
    has_numbers = true;
    are_powers = are_powers && (cell == "1" || cell == "10" || cell == "100" || cell == "1000");
  }
  return has_numbers && (!are_powers || !is_priced_beside(table, column));
}

}  // namespace

std::optional<std::size_t> find_price_unit_column(const base::CsvTable& table) {
  static constexpr std::string_view of_both[] = {"price unit",      "unite de prix", "unidad de precio",
                                                 "unita di prezzo", "price per",     "price uom"};
  static constexpr std::string_view of_units[] = {"per",      "preiseinheit", "preis je", "preis pro",
                                                  "prix par", "je",           "pro"};
  auto is_any = [](const std::string& title, auto& titles) {
    return std::find(std::begin(titles), std::end(titles), title) != std::end(titles);
  };
  for (std::size_t i = 0; i < table.header.size(); ++i) {
    const auto title = base::join(words_of_title(table.header[i]), " ");
    if (is_any(title, of_units) || (is_any(title, of_both) && !holds_prices(table, i))) return i;
  }
  return std::nullopt;
}

std::optional<std::size_t> find_share_column(const base::CsvTable& table,
                                             const std::vector<PriceColumn>& prices) {
  // Common practice, no source.
  static constexpr std::string_view words[] = {"vat",  "tax",     "gst",     "hst",  "mwst",  "ust",
                                               "tva",  "iva",     "abv",     "alc",  "vol",   "gl",
                                               "alk",  "alco",    "alkohol", "btw",  "igic",  "steuer",
                                               "taxe", "alcohol", "alcool",  "grad", "waste", "strength"};
  for (std::size_t i = 0; i < table.header.size(); ++i) {
    const auto& title = table.header[i];
    const auto written = base::folded_words(title);
    const bool says_tax_or_strength =
        std::any_of(written.begin(), written.end(), [](const std::string& word) {
          return std::find(std::begin(words), std::end(words), word) != std::end(words);
        });
    const bool is_price =
        std::any_of(prices.begin(), prices.end(), [&](const auto& price) { return price.column == i; });
    if (title.find('%') != std::string::npos && !says_tax_or_strength && !is_price) return i;
  }
  return std::nullopt;
}

PriceColumns find_price_columns(const base::CsvTable& table) {
  struct Ranked {
    int rank;
    PriceColumn column;
  };
  std::vector<Ranked> ranked;
  std::string unknown;
  const auto unit_column = find_price_unit_column(table);
  for (std::size_t i = 0; i < table.header.size(); ++i) {
    PriceTitle title(table.header[i]);
    if (!title.is_price() || unit_column == i) continue;
    if (title.is_known())
      ranked.push_back({title.rank(), {i, title.has_tax(), title.of()}});
    else if (unknown.empty())
      unknown = table.header[i];
  }
  for (std::size_t i = 0; ranked.empty() && i < table.header.size(); ++i)
    if (PriceTitle title(table.header[i]); title.is_per_measure() && unit_column != i)
      ranked.push_back({title.rank(), {i, title.has_tax(), title.of()}});
  std::stable_sort(ranked.begin(), ranked.end(),
                   [](const auto& a, const auto& b) { return a.rank > b.rank; });
  PriceColumns found;
  for (const auto& one : ranked) found.columns.push_back(one.column);
  if (ranked.empty() && !unknown.empty())
    found.problem = fmt::format("What a price below `{}` is of is not clear. {}", unknown, what_to_title);
  if (ranked.size() > 1 && ranked[0].rank == ranked[1].rank)
    found.problem = fmt::format(
        "`{}` and `{}` both tell a price, and nothing says which one counts: leave "
        "one of the columns out.",
        table.header[ranked[0].column.column], table.header[ranked[1].column.column]);
  return found;
}

}  // namespace gill::stock
