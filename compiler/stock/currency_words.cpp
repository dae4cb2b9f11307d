#include "stock/currency_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <vector>

#include "base/text.h"

namespace gill::stock {
namespace {

/// ISO 4217 (Codes for the representation of currencies), list one: what money has that people pay with, as
/// the iso-codes of Debian keep it. Three capitals that stand for anything else (`UVC`, `SKU`) are no money.
constexpr std::string_view currency_codes =
    "AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BHD BIF BMD BND "
    "BOB BRL BSD BTN BWP BYN BZD CAD CDF CHF CLP CNY COP CRC CUC CUP CVE CZK "
    "DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GNF GTQ GYD "
    "HKD HNL HRK HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR KMF "
    "KPW KRW KWD KYD KZT LAK LBP LKR LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP "
    "MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD OMR PAB PEN PGK PHP "
    "PKR PLN PYG QAR RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE SLL SOS "
    "SRD SSP STN SVC SYP SZL THB TJS TMT TND TOP TRY TTD TWD TZS UAH UGX USD "
    "UYU UZS VED VES VND VUV WST XAF XCD XOF XPF YER ZAR ZMW ZWL";

/// Codes that are words of a list as well: in capitals they mean money only where they stand alone.
constexpr std::string_view codes_like_words[] = {"ALL", "CUP", "TOP"};

struct MoneyWords {
  /// Folded, without accents.
  std::string_view words;
  /// What it means where the house's own money is none of `at_home`; empty where that has to be said.
  std::string_view currency;
  /// Codes of money that is called so.
  std::string_view at_home;
};

constexpr std::string_view francs = "CHF XAF XOF XPF DJF GNF KMF RWF BIF CDF";
constexpr std::string_view dollars = "USD CAD AUD NZD SGD HKD TWD JMD BBD BZD BSD FJD XCD TTD NAD";
constexpr std::string_view crowns = "SEK NOK DKK CZK ISK";
constexpr std::string_view pesos = "MXN ARS CLP COP UYU PHP DOP CUP";

// In English, German, French, Spanish and Italian; the longer words first. Common practice, no source.
constexpr MoneyWords money_words[] = {
    {"pounds sterling", "GBP", ""},
    {"pound sterling", "GBP", ""},
    {"livres sterling", "GBP", ""},
    {"livre sterling", "GBP", ""},
    {"libras esterlinas", "GBP", ""},
    {"libra esterlina", "GBP", ""},
    {"sterline", "GBP", ""},
    {"sterlina", "GBP", ""},
    {"sterling", "GBP", ""},
    {"britische pfund", "GBP", ""},
    {"pfund sterling", "GBP", ""},
    {"swiss francs", "CHF", ""},
    {"swiss franc", "CHF", ""},
    {"schweizer franken", "CHF", ""},
    {"francs suisses", "CHF", ""},
    {"franc suisse", "CHF", ""},
    {"francos suizos", "CHF", ""},
    {"franchi svizzeri", "CHF", ""},
    {"us dollars", "USD", ""},
    {"us dollar", "USD", ""},
    {"dollars americains", "USD", ""},
    {"dolares americanos", "USD", ""},
    {"dollari americani", "USD", ""},
    {"american dollars", "USD", ""},
    {"canadian dollars", "CAD", ""},
    {"dollars canadiens", "CAD", ""},
    {"australian dollars", "AUD", ""},
    {"schwedische kronen", "SEK", ""},
    {"norwegische kronen", "NOK", ""},
    {"danische kronen", "DKK", ""},
    {"swedish kronor", "SEK", ""},
    {"norwegian kroner", "NOK", ""},
    {"danish kroner", "DKK", ""},
    {"euros", "EUR", ""},
    {"euro", "EUR", ""},
    {"pounds", "GBP", "GBP EGP LBP GIP FKP SHP SSP SDG SYP"},
    {"pound", "GBP", "GBP EGP LBP GIP FKP SHP SSP SDG SYP"},
    {"franken", "CHF", ""},
    {"franchi", "CHF", francs},
    {"francs", "CHF", francs},
    {"francos", "CHF", francs},
    {"dollars", "", dollars},
    {"dollar", "", dollars},
    {"dolares", "", dollars},
    {"dollari", "", dollars},
    {"kronor", "", crowns},
    {"kroner", "", crowns},
    {"kronen", "", crowns},
    {"couronnes", "", crowns},
    {"coronas", "", crowns},
    {"corone", "", crowns},
    {"pesos", "", pesos},
    {"zloty", "PLN", ""},
    {"forint", "HUF", ""},
    {"yen", "JPY", ""},
};

/// Its hundredths, of which no price is reckoned.
constexpr std::string_view coin_words[] = {"cents",    "cent",      "pence",    "pennies", "rappen",
                                           "centimes", "centesimi", "centimos", "centavos"};

bool is_capital(char c) { return c >= 'A' && c <= 'Z'; }
bool is_letter_byte(char c) {
  return is_capital(c) || (c >= 'a' && c <= 'z') || (static_cast<unsigned char>(c) >= 0x80);
}

bool holds_code(std::string_view codes, std::string_view code) {
  for (std::size_t at = 0; at + 3 <= codes.size(); at += 4)
    if (codes.substr(at, 3) == code) return true;
  return false;
}

/// The last code of a text: what stands before it may be capitals for any reason.
std::string code_in(std::string_view text) {
  std::string found;
  for (std::size_t i = 0; i + 3 <= text.size(); ++i) {
    if (i > 0 && is_letter_byte(text[i - 1])) continue;
    std::size_t end = i;
    while (end < text.size() && is_letter_byte(text[end])) ++end;
    const auto word = text.substr(i, end - i);
    if (word.size() != 3 || !std::all_of(word.begin(), word.end(), is_capital) ||
        !holds_code(currency_codes, word))
      continue;
    const bool is_alone =
        std::none_of(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(i), is_letter_byte) &&
        std::none_of(text.begin() + static_cast<std::ptrdiff_t>(end), text.end(), is_letter_byte);
    const bool is_like_word = std::find(std::begin(codes_like_words), std::end(codes_like_words), word) !=
                              std::end(codes_like_words);
    if (is_alone || !is_like_word) found = word;
  }
  return found;
}

NamedMoney money_called(const MoneyWords& words, std::string_view at_home) {
  if (at_home.size() == 3 && holds_code(words.at_home, at_home)) return {std::string(at_home), {}};
  if (!words.currency.empty()) return {std::string(words.currency), {}};
  return {{},
          fmt::format("`{}` are the money of several countries; write the code of theirs, as {}", words.words,
                      words.at_home.substr(0, 3))};
}

}  // namespace

NamedMoney named_money(std::string_view text, std::string_view at_home) {
  if (auto code = code_in(text); !code.empty()) return {std::move(code), {}};
  if (text.find("€") != std::string_view::npos) return {"EUR", {}};
  if (text.find("£") != std::string_view::npos) return {"GBP", {}};
  const std::string words = " " + base::join(base::folded_words(base::fold_without_accents(text)), " ") + " ";
  auto says = [&](std::string_view word) {
    return words.find(fmt::format(" {} ", word)) != std::string::npos;
  };
  for (const auto& coin : coin_words)
    for (std::string_view before : {"in", "en"})
      if (says(fmt::format("{} {}", before, coin)))
        return {{},
                fmt::format("`{}` are parts of the money; write the prices in whole money, as 13.50", coin)};
  for (const auto& money : money_words)
    if (says(money.words)) return money_called(money, at_home);
  if (text.find('$') != std::string_view::npos) return money_called({"$", "", dollars}, at_home);
  return {};
}

}  // namespace gill::stock
