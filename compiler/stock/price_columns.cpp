#include "stock/price_columns.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>
#include <string_view>

#include "base/characters.h"
#include "base/text.h"
#include "stock/pack_words.h"
#include "stock/price_cell.h"

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
    {"net", TitleWord::without_tax},
    {"netto", TitleWord::without_tax},
    {"neto", TitleWord::without_tax},
    {"nettopreis", TitleWord::without_tax},
    {"ex", TitleWord::without_tax},
    {"excl", TitleWord::without_tax},
    {"excluding", TitleWord::without_tax},
    {"exclusive", TitleWord::without_tax},
    {"without", TitleWord::without_tax},
    {"ht", TitleWord::without_tax},
    {"hors", TitleWord::without_tax},
    {"ohne", TitleWord::without_tax},
    {"zzgl", TitleWord::without_tax},
    {"sin", TitleWord::without_tax},
    {"senza", TitleWord::without_tax},
    {"esclusa", TitleWord::without_tax},
    {"incl", TitleWord::with_tax},
    {"inc", TitleWord::with_tax},
    {"including", TitleWord::with_tax},
    {"inclusive", TitleWord::with_tax},
    {"with", TitleWord::with_tax},
    {"gross", TitleWord::with_tax},
    {"brutto", TitleWord::with_tax},
    {"bruto", TitleWord::with_tax},
    {"bruttopreis", TitleWord::with_tax},
    {"inkl", TitleWord::with_tax},
    {"mit", TitleWord::with_tax},
    {"ttc", TitleWord::with_tax},
    {"con", TitleWord::with_tax},
    {"incluido", TitleWord::with_tax},
    {"incluida", TitleWord::with_tax},
    {"inclusa", TitleWord::with_tax},
    {"ivato", TitleWord::with_tax},
    {"compresa", TitleWord::with_tax},
    {"vat", TitleWord::tax},
    {"tax", TitleWord::tax},
    {"taxes", TitleWord::tax},
    {"taxe", TitleWord::tax},
    {"gst", TitleWord::tax},
    {"hst", TitleWord::tax},
    {"mwst", TitleWord::tax},
    {"ust", TitleWord::tax},
    {"steuer", TitleWord::tax},
    {"tva", TitleWord::tax},
    {"iva", TitleWord::tax},
    {"btw", TitleWord::tax},
};

// What says nothing by itself.
constexpr std::string_view fillers[] = {
    "per",       "the",    "a",      "an",       "in",      "of",      "for",   "by",     "our",
    "your",      "new",    "neu",    "neuer",    "nouveau", "nuevo",   "nuovo", "trade",  "list",
    "wholesale", "dealer", "tarif",  "d",        "de",      "du",      "des",   "la",     "le",
    "les",       "el",     "al",     "alla",     "il",      "lo",      "die",   "der",    "das",
    "fur",       "une",    "un",     "una",      "por",     "pour",    "par",   "pro",    "je",
    "au",        "di",     "compra", "acquisto", "achat",   "p",       "u",     "prices", "dollar",
    "dollars",   "pound",  "pounds", "euro",     "euros",   "franken", "€",     "£",      "$"};

TitleWord meaning_of(const std::string& word) {
  for (const auto& meaning : meanings)
    if (meaning.word == word) return meaning.says;
  if (std::find(std::begin(fillers), std::end(fillers), word) != std::end(fillers)) return TitleWord::filler;
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

/// The words of a title in small letters, its marks as spaces; an article that leans on the next word is one
/// of its own: `l'unité`.
std::vector<std::string> words_of_title(std::string_view title) {
  std::string plain;
  std::string folded = base::fold_without_accents(title);
  for (std::string_view article : {"l'", "l’", "d'", "d’"})
    for (auto at = folded.find(article); at != std::string::npos; at = folded.find(article, at + 1))
      if (at == 0 || folded[at - 1] == ' ') folded.replace(at, article.size(), "la ");
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

bool is_number(const std::string& word) { return std::all_of(word.begin(), word.end(), base::is_digit); }
bool is_year(const std::string& word) { return word.size() == 4 && word.starts_with("20"); }

/// What all words of a title say.
class PriceTitle {
 public:
  explicit PriceTitle(std::string_view title) {
    const auto words = words_of_title(title);
    words_ = words.size();
    const bool speaks_of_tax = std::any_of(words.begin(), words.end(), [](const std::string& word) {
      auto meaning = meaning_of(word);
      return meaning == TitleWord::tax || meaning == TitleWord::with_tax || meaning == TitleWord::without_tax;
    });
    // `P.U.`: prix unitaire, precio unitario.
    for (std::size_t i = 0; i + 1 < words.size(); ++i)
      if (words[i] == "p" && words[i + 1] == "u") says_[static_cast<std::size_t>(TitleWord::one)] = true;
    const std::string currency = base::lower_ascii(currency_in(std::string(title)));
    for (const auto& word : words) {
      // `Price excl. 20 % VAT`, `Price 2026`, `Price CAD`.
      const bool says_nothing = (is_number(word) && (speaks_of_tax || is_year(word))) || word == currency;
      says_[static_cast<std::size_t>(says_nothing ? TitleWord::filler : meaning_of(word))] = true;
    }
    // `P.U. HT`, `Einzelpreis`, `Netto`: no word for price, and one all the same.
    static constexpr TitleWord alone[] = {TitleWord::without_tax, TitleWord::with_tax};
    const bool names_price =
        says(TitleWord::price) || title_is_compound(title) ||
        (!says(TitleWord::unknown) &&
         std::any_of(std::begin(alone), std::end(alone), [&](auto word) { return says(word); }) &&
         !says(TitleWord::tax));
    is_price_ = names_price && !says(TitleWord::of_others);
  }

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
    int rank = (has_tax() ? 0 : 32) + (says(TitleWord::without_tax) ? 4 : 0) + (words_ == 1 ? 1 : 0);
    switch (of()) {
      case PriceOf::whole_case:
        return rank + 16;
      case PriceOf::pack:
        return rank + 12;
      case PriceOf::one:
        return rank + 8;
      case PriceOf::kilo:
      case PriceOf::litre:
        return rank;
    }
    return rank;
  }

 private:
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
  bool is_price_ = false;
};

constexpr std::string_view what_to_title =
    "Title it `Price` (of what the pack column says), `Unit price`, `Case price`, `Price per kg` or `Price "
    "per "
    "litre`.";

}  // namespace

std::optional<std::size_t> find_price_unit_column(const base::CsvTable& table) {
  static constexpr std::string_view titles[] = {
      "per",       "price unit",    "price per", "price uom",        "preiseinheit",   "preis je",
      "preis pro", "unité de prix", "prix par",  "unidad de precio", "unità di prezzo"};
  for (std::size_t i = 0; i < table.header.size(); ++i) {
    auto title = base::join(words_of_title(table.header[i]), " ");
    if (std::find(std::begin(titles), std::end(titles), title) == std::end(titles)) continue;
    // `Price unit` above numbers is a price.
    const bool has_numbers = std::any_of(table.rows.begin(), table.rows.end(), [&](const base::CsvRow& row) {
      return table.number(table.cell(row, i)).has_value();
    });
    if (!has_numbers) return i;
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

PricesInWords prices_in_words(std::string_view line) {
  // Common practice, no source; accents are left out.
  static constexpr std::string_view prices[] = {"price",   "prices", "preis",  "preise", "prix",   "precio",
                                                "precios", "prezzo", "prezzi", "tarif",  "tarifs", "tarife"};
  static constexpr std::string_view with_tax[] = {
      "incl",      "include",   "includes", "including", "included",     "inclusive", "inkl",    "inklusive",
      "enthalten", "ttc",       "incluido", "incluidos", "incluida",     "inclusa",   "inclusi", "compresa",
      "comprise",  "comprises", "compris",  "brutto",    "bruttopreise", "gross"};
  static constexpr std::string_view without_tax[] = {
      "excl",    "exclude", "excludes", "excluded", "excluding",   "exclusive", "plus", "not",
      "without", "ex",      "net",      "netto",    "nettopreise", "zzgl",      "exkl", "ohne",
      "hors",    "ht",      "sin",      "senza",    "esclusa",     "nicht",     "non"};
  static constexpr std::string_view before_one[] = {"per", "je", "pro", "par", "por", "a", "al", "la"};
  const auto words = words_of_title(line);
  auto is_any = [&](auto& list) {
    return std::any_of(words.begin(), words.end(), [&](const std::string& word) {
      return std::find(std::begin(list), std::end(list), word) != std::end(list);
    });
  };
  const bool speaks_of_tax = std::any_of(words.begin(), words.end(), [](const std::string& word) {
    return meaning_of(word) == TitleWord::tax || word == "ttc";
  });
  PricesInWords said;
  said.has_tax = is_any(with_tax) && !is_any(without_tax) && (speaks_of_tax || is_any(prices));
  if (!is_any(prices)) return said;
  said.currency = currency_in(std::string(line));
  for (std::size_t i = 0; i + 1 < words.size(); ++i)
    if (std::find(std::begin(before_one), std::end(before_one), words[i]) != std::end(before_one))
      said.of_one = said.of_one || vessel_of(words[i + 1]) == Vessel::pack || is_piece_word(words[i + 1]);
  return said;
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
