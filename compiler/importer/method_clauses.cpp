#include "importer/method_clauses.h"

#include <algorithm>
#include <cctype>
#include <utility>

#include "base/characters.h"
#include "base/text.h"
#include "importer/step_words.h"

namespace gill::importer {
namespace {

/// A point behind a short word ends no sentence: `dbl. strain`.
bool ends_abbreviation(std::string_view text, std::size_t point) {
  for (std::string_view word :
       {"dbl", "approx", "ca", "oz", "ml", "cl", "tbsp", "tsp", "w", "ltr", "pc", "pcs", "st", "no"}) {
    if (point < word.size() ||
        !base::equals_ignoring_case(text.substr(point - word.size(), word.size()), word))
      continue;
    auto before = point - word.size();
    if (before == 0 || !std::isalpha(static_cast<unsigned char>(text[before - 1]))) return true;
  }
  return false;
}

/// `w/ ice`: the bar of a short `with`.
bool ends_with_w(std::string_view text, std::size_t bar) {
  if (bar == 0 || (text[bar - 1] != 'w' && text[bar - 1] != 'W')) return false;
  return bar == 1 || !std::isalnum(static_cast<unsigned char>(text[bar - 2]));
}

/// One of the signs, but not among the digits of a number.
bool is_parted_at(std::string_view text, std::size_t i, std::string_view signs) {
  if (signs.find(text[i]) == std::string_view::npos) return false;
  const bool digit_behind = i + 1 < text.size() && base::is_digit(text[i + 1]);
  bool in_number = i > 0 && digit_behind && base::is_digit(text[i - 1]);
  // `.75 oz`: three quarters, and no end of a sentence.
  in_number |=
      text[i] == '.' && digit_behind && (i == 0 || !std::isalnum(static_cast<unsigned char>(text[i - 1])));
  return !in_number &&
         !(text[i] == '.' && ends_abbreviation(text, i) && !begins_with_order(text.substr(i + 1))) &&
         !(text[i] == '/' && ends_with_w(text, i));
}

/// The number in `1. Shake. 2. Strain.`
bool counts_steps(std::string_view part) {
  auto number = base::trim(part);
  constexpr std::size_t max_digits = 2;
  return !number.empty() && number.size() <= max_digits &&
         std::all_of(number.begin(), number.end(), base::is_digit);
}

std::vector<std::string> parted_at(std::string_view text, std::string_view signs) {
  std::vector<std::string> parts(1);
  for (std::size_t i = 0; i < text.size(); ++i)
    if (!is_parted_at(text, i, signs) || is_in_remark(text, i))
      parts.back() += text[i];
    else if (text[i] == '.' && counts_steps(parts.back()))
      parts.back().clear();
    else
      parts.emplace_back();
  for (auto& part : parts) part = base::collapse_space(part);
  std::erase_if(parts, [](const std::string& part) { return part.empty(); });
  return parts;
}

/// Puts in full what a note writes short at the start of the text; the bytes that it takes, or 0. `6 % w/v`
/// is a measure.
std::size_t abbreviation_at(std::string_view text, std::string& full) {
  for (std::string_view measure : {"w/v", "w/w"})
    if (text.starts_with(measure) &&
        (text.size() == measure.size() || !std::isalpha(static_cast<unsigned char>(text[measure.size()]))))
      return 0;
  for (auto [word, meant] : {std::pair<std::string_view, std::string_view>{"w/", "with "},
                             {"dbl. ", "double "},
                             {"dbl ", "double "}})
    if (base::equals_ignoring_case(text.substr(0, word.size()), word)) {
      full += meant;
      return word.size();
    }
  return 0;
}

/// Arrows part steps as a bar does, and dots in the middle of a line a list: `shake -> strain · coupe`.
std::string with_bars_for_arrows(std::string_view text) {
  std::string plain(text);
  for (std::string_view sign :
       {"-->", "->", "=>", "→", "➔", "➜", "⇒", " >> ", " > ", " | ", " * ", " ~ ", "·", "•"})
    for (auto at = plain.find(sign); at != std::string::npos; at = plain.find(sign))
      plain.replace(at, sign.size(), " / ");
  return plain;
}

}  // namespace

bool is_in_remark(std::string_view text, std::size_t at) {
  auto open = text.rfind('(', at), close = text.find(')', at);
  if (open == std::string_view::npos || close == std::string_view::npos) return false;
  const auto inside = text.substr(open + 1, close - open - 1);
  return inside.find_first_of("()0123456789") == std::string_view::npos;
}

std::string in_full(std::string_view line) {
  std::string text;
  for (std::size_t i = 0; i < line.size(); ++i) {
    auto rest = line.substr(i);
    bool begins_word = i == 0 || !std::isalpha(static_cast<unsigned char>(line[i - 1]));
    auto taken = begins_word ? abbreviation_at(rest, text) : 0;
    if (taken == 0) text += line[i];
    i += taken > 0 ? taken - 1 : 0;
  }
  return base::collapse_space(text);
}

std::vector<std::string> sentences_of(std::string_view line) { return parted_at(line, ".;"); }

std::vector<std::string> clauses_of(std::string_view line) {
  return parted_at(with_bars_for_arrows(line), ".,;/");
}

std::vector<std::string> parted_at_bars(std::string_view line) {
  return parted_at(with_bars_for_arrows(line), "/");
}

}  // namespace gill::importer
