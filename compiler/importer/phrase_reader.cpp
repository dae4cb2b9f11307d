#include "importer/phrase_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdlib>

#include "base/characters.h"
#include "base/text.h"
#include "costing/words.h"
#include "importer/foreign_words.h"
#include "importer/method_clauses.h"
#include "importer/prices.h"
#include "importer/step_words.h"

namespace gill::importer {
namespace {

using costing::one_line;

/// Words as a remark behind a comma, where they can stand there.
bool is_plain_remark(const std::string& words) {
  return !words.empty() && words.size() < 60 && std::all_of(words.begin(), words.end(), [](char c) {
    auto byte = static_cast<unsigned char>(c);
    return std::isalpha(byte) || byte >= 0x80 || c == ' ' || c == '-' || c == '\'';
  });
}

std::vector<std::string> parts_between(const std::string& text, std::string_view separator) {
  std::vector<std::string> parts;
  for (std::size_t at = 0; at <= text.size();) {
    auto end = std::min(text.find(separator, at), text.size());
    while (end < text.size() && is_in_remark(text, end))
      end = std::min(text.find(separator, end + 1), text.size());
    std::string part(base::trim(std::string_view(text).substr(at, end - at)));
    if (!part.empty()) parts.push_back(std::move(part));
    at = end + separator.size();
  }
  return parts;
}

/// In the library's words where other languages have others for it.
std::string in_english(const std::string& words) {
  auto english = english_thing(words);
  return english.empty() ? words : std::string(english);
}

/// A step begins with a small letter, as the language's own lines do.
std::string with_small_letter(std::string text) {
  bool has_capital_behind = std::any_of(text.begin() + (text.empty() ? 0 : 1), text.end(),
                                        [](char c) { return c >= 'A' && c <= 'Z'; });
  bool is_word = text.size() > 1 && text[1] >= 'a' && text[1] <= 'z';
  if (is_word && !has_capital_behind && text[0] >= 'A' && text[0] <= 'Z')
    text[0] = static_cast<char>(text[0] - 'A' + 'a');
  return text;
}

std::string without_article(std::string words) {
  for (std::string_view first : {"with ", "a ", "an ", "the "})
    if (base::equals_ignoring_case(std::string_view(words).substr(0, first.size()), first))
      words.erase(0, first.size());
  return words;
}

/// `frozen glass`: how it comes, as the language says it behind the glass; empty for any other words.
std::string glass_state_of(const std::string& clause) {
  std::string folded = base::fold_name(clause);
  for (std::string_view first : {"in a ", "into a ", "a "})
    if (folded.starts_with(first)) folded.erase(0, first.size());
  for (auto [state, words] : {std::pair<std::string_view, std::string_view>{"frozen", "frozen"},
                              {"frozen", "frosted"},
                              {"chilled", "chilled"},
                              {"chilled", "cold"},
                              {"warmed", "warm"},
                              {"warmed", "warmed"}})
    if (folded == std::string(words) + " glass") return std::string(state);
  return {};
}

Phrase unread(const std::string& text, std::string doubt) {
  return {PhraseKind::unread, text, {}, std::move(doubt), false};
}

/// `keeps 1 month`, `makes 1 l`: what is said of the whole.
bool begins_property(const std::string& folded) {
  for (std::string_view first : {"keeps ", "keep ", "use ", "good ", "lasts ", "makes ", "serves ", "best "})
    if (folded.starts_with(first)) return true;
  return false;
}

/// A line whose first word the language knows: what it says of it is of use.
bool is_nearly_read(const std::string& folded) {
  if (begins_with_verb(folded) || begins_property(folded)) return true;
  auto number = leading_number(folded);
  auto behind = number ? base::trim(std::string_view(folded).substr(number->bytes)) : std::string_view();
  for (std::string_view time : {"day", "week", "month", "hour", "min"})
    if (behind.starts_with(time)) return true;
  return false;
}

/// A number without a unit that is little for millilitres.
Phrase little_amount(const std::string& text) {
  return {PhraseKind::amount,
          text,
          {},
          fmt::format("`{}` has no unit and is little for ml: write its unit, or bring the file in with "
                      "`--numbers oz` where such numbers are ounces.",
                      one_line(text)),
          true};
}

/// `bottle (keeps 1 month)`: what stands before the brackets, and what in them.
std::vector<std::string> around_brackets(const std::string& clause) {
  auto open = clause.find('(');
  auto close = clause.rfind(')');
  if (open == std::string::npos || open == 0 || close == std::string::npos || close < open) return {clause};
  std::vector<std::string> parts;
  for (auto part :
       {clause.substr(0, open), clause.substr(open + 1, close - open - 1), clause.substr(close + 1)})
    if (auto words = base::trim(part); !words.empty()) parts.emplace_back(words);
  return parts;
}

/// `orange peel (expressed)`: what stands before the brackets at the end, and what in them; the words alone
/// where there are none.
std::pair<std::string, std::string> remark_in_brackets(const std::string& words) {
  auto open = words.find('(');
  if (open == std::string::npos || open == 0 || words.find(')') + 1 != words.size()) return {words, {}};
  return {std::string(base::trim(words.substr(0, open))),
          std::string(base::trim(words.substr(open + 1, words.size() - open - 2)))};
}

/// The clauses of a line; what brackets say of the whole is one of its own.
std::vector<std::string> clauses_with_properties(const std::string& text) {
  std::vector<std::string> clauses;
  for (const auto& clause : clauses_of(text)) {
    auto parts = around_brackets(clause);
    bool says_property = std::any_of(parts.begin() + 1, parts.end(), [](const std::string& part) {
      return begins_property(base::fold_name(part));
    });
    if (says_property)
      clauses.insert(clauses.end(), parts.begin(), parts.end());
    else
      clauses.push_back(clause);
  }
  return clauses;
}

/// Parts fill the size of a drink; of a prep nobody says what they fill.
Phrase unread_parts(const std::string& text) {
  return {
      PhraseKind::amount,
      text,
      {},
      fmt::format("`{}` is in parts, and a prep is made of amounts: write what one batch takes, `500 ml` or "
                  "`500 g`, say.",
                  one_line(text)),
      false};
}

PhrasePlace place_behind(PhrasePlace place, const Phrase& phrase) {
  place.after_steps = place.after_steps || (phrase.kind == PhraseKind::step && phrase.is_read());
  return place;
}

bool is_letter(char c) {
  auto byte = static_cast<unsigned char>(c);
  return std::isalpha(byte) || byte >= 0x80;
}

bool begins_word(const std::string& text, std::size_t at) { return at == 0 || !is_letter(text[at - 1]); }

/// Whether the word stands there, whole.
bool is_word_at(const std::string& text, std::size_t at, const std::string& word) {
  const std::size_t end = at + word.size();
  return begins_word(text, at) && text.compare(at, word.size(), word) == 0 &&
         (end == text.size() || !is_letter(text[end]));
}

/// `2 parts gin`, `equal parts gin and vermouth`.
bool speaks_of_parts(const std::string& text) {
  const std::string folded = base::fold_name(text);
  for (std::size_t at = 0; at < folded.size(); ++at)
    if (is_word_at(folded, at, "part") || is_word_at(folded, at, "parts")) return true;
  return false;
}

std::string measure_and_name(const IngredientLine& line) {
  std::string measure = line.number;
  if (!line.unit.empty()) measure = fmt::format("{} {}", measure, line.unit);
  if (!line.other_measure.empty()) measure = fmt::format("{} = {}", measure, line.other_measure);
  return fmt::format("{}{}  {}", line.is_about ? "about " : "", measure, line.name);
}

}  // namespace

bool is_any(const std::vector<Phrase>& phrases, PhraseKind kind) {
  return std::any_of(phrases.begin(), phrases.end(), [&](const Phrase& one) { return one.kind == kind; });
}

bool is_any_read(const std::vector<Phrase>& phrases) {
  return std::any_of(phrases.begin(), phrases.end(), [](const Phrase& one) { return one.is_read(); });
}

PhraseReader::PhraseReader(const House& house, Phrasebook& phrases, std::string_view numbers)
    : house_(house), phrases_(phrases), finder_(house, symbols::NameSpace::stock), numbers_(numbers) {}

bool PhraseReader::is_stock(const std::string& words) const {
  return house_.names.find(symbols::NameSpace::stock, words).valid();
}

/// With the first answer of the language in the place of each word that it asks about, and those words.
std::pair<std::string, std::vector<std::string>> PhraseReader::answered(const std::string& text) const {
  const auto& asks = house_.specs.house.asks;
  const std::string folded = base::fold_name(text);
  std::string with_answers;
  std::vector<std::string> words;
  for (std::size_t at = 0; at < folded.size();) {
    auto run = begins_word(folded, at) ? longest_name_at(folded, at) : std::string();
    auto asked = asks.find(run);
    if (asked != asks.end() && !asked->second.empty()) {
      with_answers += asked->second.front();
      words.push_back(run);
    } else {
      with_answers += run.empty() ? folded.substr(at, 1) : run;
    }
    at += std::max<std::size_t>(run.size(), 1);
  }
  return {words.empty() ? text : with_answers, words};
}

/// The most words from there on that are a name of the house or a word that the language asks about: `black
/// tea` is no `tea`.
std::string PhraseReader::longest_name_at(const std::string& folded, std::size_t at) const {
  std::string longest;
  constexpr int max_words = 5;
  std::size_t end = at;
  for (int words = 0; words < max_words && end < folded.size(); ++words) {
    end = words == 0 ? end : end + 1;
    while (end < folded.size() && folded[end] != ' ' && folded[end] != ',') ++end;
    auto run = folded.substr(at, end - at);
    if (house_.specs.house.asks.contains(run) || is_stock(run)) longest = std::move(run);
    if (end < folded.size() && folded[end] == ',') break;
  }
  return longest;
}

PhraseUse PhraseReader::use_of(const std::string& text, PhrasePlace place) const {
  if (place.in_prep) return PhraseUse::prep_line;
  return speaks_of_parts(text) ? PhraseUse::sized_line : PhraseUse::drink_line;
}

/// A word that the language asks about is read: it stays, and the language asks.
bool PhraseReader::reads(PhraseUse use, const std::string& text) {
  if (phrases_.reads(use, text)) return true;
  auto [with_answers, words] = answered(text);
  return !words.empty() && phrases_.reads(use, with_answers);
}

bool PhraseReader::reads_line(const std::string& text, PhrasePlace place) {
  return reads(use_of(text, place), text);
}

std::vector<Phrase> PhraseReader::read(const OldPart& part, PhrasePlace place) {
  auto phrases = read_part(part, place);
  for (auto& phrase : phrases) {
    const auto use = use_of(phrase.gill, place);
    phrase.is_of_parts = use == PhraseUse::sized_line;
    auto [with_answers, words] = answered(phrase.gill);
    if (words.empty() || phrases_.reads(use, phrase.gill)) continue;
    phrase.asks = std::move(words);
    phrase.answered = std::move(with_answers);
  }
  return phrases;
}

std::vector<Phrase> PhraseReader::read_part(const OldPart& part, PhrasePlace place) {
  switch (part.role) {
    case LabelRole::glass:
      return read_glass(part);
    case LabelRole::garnish:
      return read_garnish(part);
    case LabelRole::ice:
      if (auto phrase = behind_keyword("ice", part, place)) return {*phrase};
      break;
    case LabelRole::rim:
      if (auto phrase = behind_keyword("rim", part, place)) return {*phrase};
      break;
    case LabelRole::makes:
      if (auto phrase = behind_keyword("makes", part, place)) return {*phrase};
      break;
    case LabelRole::serves:
      if (auto phrase = behind_keyword("serves", part, place)) return {*phrase};
      break;
    case LabelRole::keeps:
      if (auto phrase = behind_keyword("keeps", part, place)) return {*phrase};
      break;
    case LabelRole::remark:
      return {unread(part.written,
                     fmt::format("`{}` is a remark, and stands as a comment: write as text (`| …`) what "
                                 "is to be read with the drink.",
                                 one_line(part.written)))};
    case LabelRole::none:
    case LabelRole::name:
    case LabelRole::method:
    case LabelRole::amounts:
    case LabelRole::place:
      break;
  }
  return read_line(part.what.text, place);
}

std::optional<Phrase> PhraseReader::behind_keyword(std::string_view keyword, const OldPart& part,
                                                   PhrasePlace place) {
  std::string line =
      fmt::format("{}  {}", keyword, in_english(with_small_letter(without_article(part.what.text))));
  if (reads_line(line, place)) return Phrase{PhraseKind::step, part.written, line, {}, false};
  auto phrases = read_line(part.what.text, place);
  if (std::all_of(phrases.begin(), phrases.end(), [](const Phrase& one) { return one.is_read(); }))
    return std::nullopt;
  return unread(part.written, fmt::format("`{}` is no `{}` line that could be read.", part.written, keyword));
}

std::vector<Phrase> PhraseReader::read_line(const std::string& text, PhrasePlace place) {
  if (auto sentences = sentences_of(text); sentences.size() > 1) {
    std::vector<Phrase> phrases;
    for (const auto& sentence : sentences)
      for (auto& phrase : read_line(sentence, place)) {
        place = place_behind(place, phrase);
        phrases.push_back(std::move(phrase));
      }
    return phrases;
  }
  if (auto steps = read_steps_with_dashes(text, place); !steps.empty()) return steps;
  if (begins_with_verb(base::fold_name(text)) && reads_line(text, place)) return read_sentence(text, place);
  if (auto phrases = read_priced(text, place); !phrases.empty()) return phrases;
  if (auto list = parted(text, place); !list.empty()) {
    std::vector<Phrase> phrases;
    for (const auto& one : list)
      for (auto& phrase : read_line(one, place)) {
        place = place_behind(place, phrase);
        phrases.push_back(std::move(phrase));
      }
    return phrases;
  }
  auto amount = read_amount(text, place);
  if (amount && !amount->doubt.empty())
    if (auto phrases = read_steps_behind_amount(text, place); !phrases.empty()) return phrases;
  if (amount && amount->is_read()) return {*amount};
  auto steps = read_sentence(text, place);
  // `Strain over 2 cubes` is no amount of anything.
  if (begins_with_order(text)) return steps;
  bool any_read = std::any_of(steps.begin(), steps.end(), [](const Phrase& one) { return one.is_read(); });
  return amount && !any_read ? std::vector<Phrase>{*amount} : steps;
}

/// `50 ml gin, €0.99`: what one pour costs is no part of it; nothing for any other line.
std::vector<Phrase> PhraseReader::read_priced(const std::string& text, PhrasePlace place) {
  const auto priced = price_behind(text);
  if (priced.empty()) return {};
  auto line = read_ingredient_line(priced.words, house_);
  if (!line || line->unit.empty() || line->written_name.empty()) return {};
  auto amount = read_amount(priced.words, place);
  if (!amount) return {};
  amount->written = text;
  return {std::move(*amount)};
}

/// `20 ml orgeat, shake, rocks, moonleaf`: an amount with steps or a glass behind its comma; nothing where it
/// is a remark.
std::vector<Phrase> PhraseReader::read_steps_behind_amount(const std::string& text, PhrasePlace place) {
  auto comma = text.find(", ");
  if (comma == std::string::npos || is_in_remark(text, comma)) return {};
  auto amount = read_amount(text.substr(0, comma), place);
  if (!amount || !(amount->is_read() || amount->is_bare)) return {};
  auto behind = read_line(text.substr(comma + 2), place);
  const bool says_more = std::any_of(behind.begin(), behind.end(), [](const Phrase& one) {
    return one.kind == PhraseKind::glass ||
           (one.kind == PhraseKind::step && one.is_read() && begins_with_verb(base::fold_name(one.gill)));
  });
  if (!says_more) return {};
  behind.insert(behind.begin(), std::move(*amount));
  return behind;
}

/// `Shake - strain - coupe`, where each is a step, a glass or a garnish by itself; nothing for any other
/// line.
std::vector<Phrase> PhraseReader::read_steps_with_dashes(const std::string& text, PhrasePlace place) {
  for (std::string_view dash : {" - ", " – ", " — "}) {
    auto parts = parts_between(text, dash);
    if (parts.size() < 2 || !begins_with_verb(base::fold_name(parts.front()))) continue;
    std::vector<Phrase> phrases;
    for (const auto& part : parts) phrases.push_back(read_clause(part, place));
    auto stands_alone = [](const Phrase& one) {
      return one.kind == PhraseKind::glass || one.kind == PhraseKind::garnish ||
             (one.is_read() && begins_with_verb(base::fold_name(one.gill)));
    };
    if (std::all_of(phrases.begin(), phrases.end(), stands_alone)) return phrases;
  }
  return {};
}

std::vector<std::string> PhraseReader::parted(const std::string& text, PhrasePlace place) {
  for (std::string_view separator :
       {" / ", " | ", "; ", " + ", ", ", " – ", " — ", " - ", " and ", " und ", " et ", " y "})
    if (auto parts = parts_between(text, separator); is_list(parts, place)) return parts;
  auto parts = parted_at_bars(text);
  return is_list(parts, place) ? parts : std::vector<std::string>{};
}

bool PhraseReader::is_list(const std::vector<std::string>& parts, PhrasePlace place) {
  if (parts.size() < 2) return false;
  std::size_t amounts = 0, read = 0;
  for (const auto& part : parts) {
    auto amount = read_amount(part, place);
    bool has_measure = amount && (amount->is_bare || amount->is_read());
    bool says_one = has_measure && (leading_number(part) || !with_number_first(part).empty());
    if (says_one || says_measure(part)) ++amounts;
    if (has_measure || says_measure(part)) {
      ++read;
      continue;
    }
    auto clause = read_clause(part, place);
    read += clause.is_read() ? 1 : 0;
    place = place_behind(place, clause);
  }
  return amounts >= 2 || (amounts == 1 && read == parts.size());
}

/// `30 ml wobble cordial`: nobody knows the thing, and its measure is plain.
bool PhraseReader::says_measure(const std::string& part) const {
  auto number = leading_number(part);
  auto line = number ? read_ingredient_line(part, house_) : std::nullopt;
  if (!line || line->unit.empty() || line->written_name.empty() || !line->verb.empty()) return false;
  auto unit = house_.units.find(line->unit);
  return unit.valid() &&
         (house_.units[unit].kind == units::Kind::volume || house_.units[unit].kind == units::Kind::mass);
}

bool PhraseReader::ends_with_measure(const std::string& words) const {
  auto line = leading_number(words) ? std::nullopt : read_ingredient_line(words, house_);
  if (!line || line->number.empty() || !line->verb.empty()) return false;
  auto unit = house_.units.find(line->unit);
  return unit.valid() &&
         (house_.units[unit].kind == units::Kind::volume || house_.units[unit].kind == units::Kind::mass);
}

bool PhraseReader::is_known_amount(const std::string& words) const {
  auto line = read_ingredient_line(words, house_);
  return line && !line->number.empty() && (!line->unit.empty() || !line->name.empty());
}

bool PhraseReader::names_a_known_thing(const std::string& words) const {
  auto line = read_ingredient_line(words, house_);
  return line && !line->name.empty();
}

std::string PhraseReader::poured_thing_of(const std::string& amount) const {
  auto line = read_ingredient_line(amount, house_);
  if (!line || line->number.empty() || line->name.empty() || !line->verb.empty() || line->is_optional)
    return {};
  auto unit = house_.units.find(line->unit);
  if (!unit.valid() || house_.units[unit].kind != units::Kind::volume) return {};
  auto id = house_.names.find(symbols::NameSpace::stock, line->name);
  return id.valid() ? house_.specs.stock[house_.specs.index_of[id.index()]].head.name : std::string();
}

std::string PhraseReader::topped_thing_of(const std::string& step) const {
  auto line = read_ingredient_line(in_full(base::fold_name(step)), house_);
  if (!line || line->verb != "top" || !line->number.empty()) return {};
  auto id = house_.names.find(symbols::NameSpace::stock, line->name);
  return id.valid() ? house_.specs.stock[house_.specs.index_of[id.index()]].head.name : std::string();
}

bool PhraseReader::goes_into_a_glass(const std::string& clause) {
  std::string step = base::fold_name(clause);
  if (auto english = english_step(clause); !english.empty()) step = english;
  for (std::string_view before : {"into ", "in ", "to "}) {
    auto at = step.rfind(before);
    if (at == std::string::npos || (at > 0 && step[at - 1] != ' ')) continue;
    auto words = without_article(step.substr(at + before.size()));
    if (reads(PhraseUse::glass, in_english(words))) return true;
  }
  return false;
}

// ---- amounts

/// Too little to be millilitres, and no ounces either as far as anybody said.
bool PhraseReader::is_small(const std::string& number) const {
  constexpr double min_ml = 5;
  return numbers_ != "oz" && std::strtod(number.c_str(), nullptr) < min_ml;
}

/// Of what is poured a number is a measure, of what is counted it is not. Small ones count what is not
/// poured for certain, but for decimals: nobody counts 0.75 of a lime.
bool PhraseReader::is_poured(const IngredientLine& line, const std::string& number) const {
  const bool is_decimal = number.find('.') != std::string::npos && number.find("..") == std::string::npos;
  const bool may_count = is_small(number) && !is_decimal;
  std::string folded = base::fold_name(line.name.empty() ? line.written_name : line.name);
  auto last_word = folded.substr(folded.rfind(' ') + 1);
  if (auto unit = house_.units.find(last_word); unit.valid()) return false;
  auto id = house_.names.find(symbols::NameSpace::stock,
                              is_stock(line.name) ? line.name : answered(line.name).first);
  if (line.name.empty() || !id.valid()) return !line.written_name.empty() && !may_count;
  const auto& stock = house_.specs.stock[house_.specs.index_of[id.index()]];
  // `20 lime` is its juice, `2 limes` are fruits; what has a weight by the piece is counted.
  if (!stock.gives.empty()) return !folded.ends_with('s') && !may_count;
  return stock.effective_form() == analysis::Form::liquid && !stock.each.contains(analysis::UnitId{});
}

/// `40 gin` of `gin 40`, `40 ml gin` of `gin 40 ml`; empty where no number ends the words, or where nobody
/// knows what stands before it: `Ward 8`.
std::string PhraseReader::with_number_first(const std::string& text) const {
  if (leading_number(text)) return {};
  auto read = read_ingredient_line(text, house_);
  if (!read || read->name.empty() || read->number.empty() || !read->verb.empty() || !read->remark.empty() ||
      text.find_first_of("0123456789") == std::string::npos)
    return {};
  return fmt::format("{}{}{} {}", read->number, read->unit.empty() ? "" : " ", read->unit,
                     read->written_name);
}

/// With the unit that all bare numbers of the file mean.
std::string PhraseReader::with_unit(const std::string& written, bool& is_bare) const {
  const auto turned = with_number_first(written);
  const std::string& text = turned.empty() ? written : turned;
  auto number = leading_number(text);
  auto read = number ? read_ingredient_line(text, house_) : std::nullopt;
  if (!read || !read->unit.empty() || !read->verb.empty() || !is_poured(*read, number->gill)) return written;
  is_bare = true;
  if (numbers_.empty() || is_small(number->gill)) return written;
  return fmt::format("{} {} {}", number->gill, numbers_,
                     base::trim(std::string_view(text).substr(number->bytes)));
}

std::optional<Phrase> PhraseReader::read_amount(const std::string& written, PhrasePlace place) {
  bool is_bare = false;
  std::string text = with_unit(written, is_bare);
  if (base::fold_name(text).starts_with("equal parts ")) {
    if (place.in_prep) return unread_parts(written);
    return reads_line(text, place) ? std::optional(Phrase{PhraseKind::amount, written, text, {}, false})
                                   : std::nullopt;
  }
  auto line = read_ingredient_line(text, house_);
  if (!line || (line->number.empty() && line->verb.empty())) return std::nullopt;
  auto unit = house_.units.find(line->unit);
  const bool is_of_parts = unit.valid() && house_.units[unit].kind == units::Kind::part;
  if (is_of_parts && place.in_prep) return unread_parts(written);
  bool is_measure = line->unit.empty() || is_of_parts ||
                    (unit.valid() && (house_.units[unit].kind == units::Kind::volume ||
                                      house_.units[unit].kind == units::Kind::mass ||
                                      house_.units[unit].kind == units::Kind::count));
  if (!is_measure) return std::nullopt;
  if (is_bare && numbers_.empty()) return Phrase{PhraseKind::amount, written, {}, {}, true};
  if (is_bare && text == written) return little_amount(written);
  if (!line->name.empty())
    if (auto phrase = read_known_amount(*line, text, written, place, is_bare)) return phrase;
  if (!line->name.empty() && !line->other_measure.empty())
    if (auto phrase = read_one_measure(*line, text, written, place)) return phrase;
  if (leading_number(text) && reads_line(text, place))
    return Phrase{PhraseKind::amount, written, text, {}, is_bare};
  if (!line->verb.empty()) return std::nullopt;
  auto phrase = read_unknown_amount(*line, written, place);
  phrase.is_bare = is_bare;
  return phrase;
}

/// An amount of something that has a name; nothing where the language does not read it.
std::optional<Phrase> PhraseReader::read_known_amount(const IngredientLine& line, const std::string& text,
                                                      const std::string& written, PhrasePlace place,
                                                      bool is_bare) {
  if (auto phrase = read_warm_amount(line, written, place, is_bare)) return phrase;
  std::string gill = line.verb.empty() ? measure_and_name(line) : line.verb + "  " + line.name;
  if (!line.substitute.empty()) gill += ", or " + line.substitute;
  if (line.is_optional) gill += ", optional";
  bool remark =
      is_plain_remark(line.remark) && !house_.units.find(line.remark).valid() && line.remark != "chilled";
  std::string with_remark = remark ? gill + ", " + line.remark : gill;
  std::string doubt;
  if (!line.warmth.empty())
    doubt = fmt::format("`{}` is not read of `{}`; it stands as a comment.", line.warmth, one_line(written));
  if (!line.remark.empty() && !remark && line.remark != "chilled")
    doubt = fmt::format("`{}` is not read of `{}`; it stands as a comment.", one_line(line.remark), written);
  auto kind = line.verb.empty() ? PhraseKind::amount : PhraseKind::pour;
  if (kind == PhraseKind::pour && begins_with_verb(base::fold_name(text)) && reads_line(text, place))
    return Phrase{kind, written, with_small_letter(text), {}, is_bare};
  if (reads_line(with_remark, place)) return Phrase{kind, written, with_remark, doubt, is_bare};
  if (reads_line(text, place)) return Phrase{kind, written, text, {}, is_bare};
  if (remark && reads_line(gill, place))
    return Phrase{kind, written, gill,
                  fmt::format("`{}` is not read of `{}`; it stands as a comment.", line.remark, written),
                  is_bare};
  return std::nullopt;
}

/// `180 ml hot apple juice`, `60 ml milk, chilled`: as warm as the line says; nothing where it says nothing,
/// or nothing that the language reads.
std::optional<Phrase> PhraseReader::read_warm_amount(const IngredientLine& line, const std::string& written,
                                                     PhrasePlace place, bool is_bare) {
  if (line.warmth.empty() || !line.verb.empty() || !line.remark.empty() || line.is_optional)
    return std::nullopt;
  IngredientLine plain = line;
  plain.name = fmt::format("{} {}", line.warmth, line.name);
  const auto before = measure_and_name(plain);
  const auto behind = fmt::format("{}, {}", measure_and_name(line), line.warmth);
  for (const auto& gill : {before, behind})
    if (reads_line(gill, place)) return Phrase{PhraseKind::amount, written, gill, {}, is_bare};
  return std::nullopt;
}

/// Of two measures that do not agree the first, told.
std::optional<Phrase> PhraseReader::read_one_measure(IngredientLine line, const std::string& text,
                                                     const std::string& written, PhrasePlace place) {
  const auto other = std::exchange(line.other_measure, {});
  auto phrase = read_known_amount(line, text, written, place, false);
  if (phrase)
    phrase->doubt = fmt::format("`{}` of `{}` is not read beside the first measure; it stands as a comment.",
                                other, one_line(written));
  return phrase;
}

Phrase PhraseReader::read_unknown_amount(const IngredientLine& line, const std::string& text,
                                         PhrasePlace place) {
  std::string doubt;
  if (base::trim(line.written_name).empty()) {
    doubt = fmt::format("`{0}` does not say of what it is: write it as `{0} NAME`.", one_line(text));
  } else if (line.name.empty()) {
    doubt = finder_.unmatched(one_line(line.written_name), "ingredient or prep");
  } else {
    const auto gill = measure_and_name(line);
    reads_line(gill, place);
    const auto why = phrases_.why_not(use_of(gill, place), gill);
    doubt = why.empty() ? fmt::format("`{}` has no amount that could be read; write it as `30 ml NAME`.",
                                      one_line(text))
                        : fmt::format("`{}` stands as a comment: {}", one_line(text), why);
  }
  return {line.unit.empty() && line.name.empty() ? PhraseKind::unread : PhraseKind::amount,
          text,
          {},
          std::move(doubt),
          false};
}

// ---- steps

/// Each clause by itself where each stands alone; else all of it as the language reads it; else what can be
/// read of it.
std::vector<Phrase> PhraseReader::read_sentence(const std::string& text, PhrasePlace place) {
  std::vector<Phrase> phrases, finer;
  bool all_stand_alone = true, names_more_than_steps = false;
  PhrasePlace at = place;
  const auto clauses = clauses_with_properties(text);
  const bool is_parted_in_brackets = clauses.size() > clauses_of(text).size();
  for (const auto& clause : clauses) {
    phrases.push_back(read_clause(clause, at));
    at = place_behind(at, phrases.back());
    // A glass behind a comma is no remark.
    const auto kind = phrases.back().kind;
    names_more_than_steps = names_more_than_steps || kind == PhraseKind::glass || kind == PhraseKind::garnish;
    all_stand_alone =
        all_stand_alone && phrases.back().is_read() &&
        (phrases.back().kind != PhraseKind::step || begins_with_verb(base::fold_name(phrases.back().gill)));
  }
  if (phrases.empty()) return {unread(text, fmt::format("`{}` is nothing that could be read.", text))};
  if (all_stand_alone) return phrases;
  bool is_one = phrases.size() == 1 || !names_more_than_steps;
  if (!is_parted_in_brackets && is_one && reads_line(text, place))
    return {{PhraseKind::step, text, with_small_letter(text), {}, false}};
  at = place;
  for (auto& phrase : phrases) {
    auto parts = phrase.is_read() ? std::vector<Phrase>{phrase} : read_joined(phrase.written, at);
    for (auto& part : parts) {
      at = place_behind(at, part);
      finer.push_back(std::move(part));
    }
  }
  return finer;
}

/// What stands between `and` and its like, where some of it is read; else the clause as it is.
std::vector<Phrase> PhraseReader::read_joined(const std::string& clause, PhrasePlace place) {
  if (auto parts = around_brackets(clause); parts.size() > 1) {
    std::vector<Phrase> phrases;
    for (const auto& part : parts) phrases.push_back(read_clause(part, place));
    if (std::any_of(phrases.begin(), phrases.end(), [](const Phrase& one) { return one.is_read(); }))
      return phrases;
  }
  for (std::string_view separator :
       {" then ", " and ", " und ", " et ", " y ", " e ", " & ", " + ", " - ", " – ", " — ", " with "}) {
    auto parts = parts_between(clause, separator);
    if (parts.size() < 2) continue;
    std::vector<Phrase> phrases;
    bool has_garnish = false, any_read = false;
    // Behind a dash stands a remark on what is read before it.
    const bool is_list = separator != " - " && separator != " – " && separator != " — ";
    if (!is_list && !read_clause(parts.front(), place).is_read()) continue;
    for (const auto& part : parts) {
      auto phrase = read_clause(part, place);
      // Behind a garnish stands another.
      if (!phrase.is_read() && has_garnish && is_list && reads(PhraseUse::garnish, part))
        phrase = {PhraseKind::garnish, part, "garnish  " + with_small_letter(part),
                  is_stock(part) ? std::string()
                                 : fmt::format("The garnish `{}` is nothing that is declared.", part),
                  false};
      has_garnish = has_garnish || phrase.kind == PhraseKind::garnish || is_piece(phrase);
      any_read = any_read || phrase.is_read();
      phrases.push_back(std::move(phrase));
    }
    // `Shake with 1 large + 2 small cubes`: a step that is read in part says another.
    const bool is_half_step =
        !phrases.front().is_read() && begins_with_verb(base::fold_name(in_full(parts.front())));
    if (any_read && !is_half_step) return phrases;
  }
  return {read_clause(clause, place)};
}

Phrase PhraseReader::read_clause(const std::string& clause, PhrasePlace place) {
  const std::string folded = base::fold_name(clause);
  const std::string small = with_small_letter(clause);
  if (folded == "serve" || folded == "served" || folded == "enjoy")
    return {PhraseKind::served, clause, {}, {}, false};
  if (auto state = glass_state_of(clause); !state.empty())
    return {PhraseKind::glass_state, clause, state, {}, false};
  // `Garnishes` is a heading.
  if (folded.starts_with("garnish") && !folded.starts_with("garnishes")) {
    OldPart part;
    part.what.text =
        std::string(base::trim(std::string_view(clause).substr(std::string_view("garnish").size())));
    part.written = clause;
    if (part.what.text.starts_with("ed ")) part.what.text.erase(0, 3);
    if (auto phrases = read_garnish(part); phrases.size() == 1 && phrases[0].is_read()) return phrases[0];
  }
  // `gin` is the glass of it as well.
  if (!place.in_prep && !is_stock(small) && reads(PhraseUse::glass, small))
    return {PhraseKind::glass, clause, "glass  " + small, {}, false};
  if (auto piece = read_bare_piece(small, place)) return *piece;
  if (auto thing = read_foreign_thing(clause, place)) return *thing;
  for (const auto& words : {small, in_full(small)})
    if (reads_line(words, place)) return {PhraseKind::step, clause, words, {}, false};
  if (auto english = english_step(clause); !english.empty()) {
    auto phrase = read_clause(english, place);
    phrase.written = clause;
    if (phrase.is_read()) return phrase;
  }
  const auto why = phrases_.why_not(use_of(small, place), small);
  return unread(clause, is_nearly_read(folded) && !why.empty()
                            ? fmt::format("`{}` stands as a comment: {}", one_line(clause), why)
                            : fmt::format("`{}` is no step that could be read.", one_line(clause)));
}

/// `Longdrinkglas`, `Zitronenzeste`, `glaçons`: a glass, a garnish or ice in another language.
std::optional<Phrase> PhraseReader::read_foreign_thing(const std::string& clause, PhrasePlace place) {
  const std::string english(english_thing(clause));
  if (english.empty() || place.in_prep || english == base::fold_name(clause)) return std::nullopt;
  if (!is_stock(english) && reads(PhraseUse::glass, english))
    return Phrase{PhraseKind::glass, clause, "glass  " + english, {}, false};
  if (!is_stock(english) && reads(PhraseUse::ice, english))
    return Phrase{PhraseKind::step, clause, "ice  " + english, {}, false};
  auto piece = read_bare_piece(english, place);
  if (piece) piece->written = clause;
  return piece;
}

/// A line that the language reads as what is put on: `dehydrated lime`.
bool PhraseReader::is_piece(const Phrase& phrase) {
  return phrase.kind == PhraseKind::step && phrase.is_read() && !leading_number(phrase.written) &&
         !begins_with_verb(base::fold_name(phrase.written)) && reads(PhraseUse::garnish, phrase.gill);
}

/// A twist, a wheel, or behind the steps anything that is solid: the garnish.
std::optional<Phrase> PhraseReader::read_bare_piece(const std::string& clause, PhrasePlace place) {
  if (place.in_prep || leading_number(clause)) return std::nullopt;
  const auto thing = remark_in_brackets(clause).first;
  auto space = thing.rfind(' ');
  auto unit = house_.units.find(base::fold_name(thing.substr(space + 1)));
  bool is_piece = space != std::string::npos && unit.valid() && house_.units[unit].is_item_word &&
                  is_stock(base::fold_name(thing.substr(0, space)));
  auto line = read_ingredient_line("1 " + thing, house_);
  const auto words = garnish_with_remark(clause);
  if (is_piece && line && !line->name.empty() && reads(PhraseUse::garnish, words))
    return Phrase{PhraseKind::garnish, clause, "garnish  " + words, {}, false};
  if (!place.after_steps || reads_line(clause, place)) return std::nullopt;
  auto id = house_.names.find(symbols::NameSpace::stock, clause);
  if (!id.valid() ||
      house_.specs.stock[house_.specs.index_of[id.index()]].effective_form() != analysis::Form::solid ||
      !reads(PhraseUse::garnish, clause))
    return std::nullopt;
  return Phrase{PhraseKind::garnish, clause, "garnish  " + clause,
                fmt::format("`{}` without an amount is taken for the garnish.", clause), false};
}

std::vector<Phrase> PhraseReader::read_glass(const OldPart& part) {
  const auto words = in_english(with_small_letter(without_article(part.what.text)));
  if (reads(PhraseUse::glass, words))
    return {{PhraseKind::glass, part.written, "glass  " + words, {}, false}};
  std::vector<Phrase> phrases;
  bool any_read = false;
  for (const auto& clause : clauses_of(part.what.text)) {
    phrases.push_back(read_clause(in_english(without_article(clause)), {}));
    any_read = any_read || phrases.back().is_read();
    if (!phrases.back().is_read())
      phrases.back().doubt =
          fmt::format("`{}` is no glass, ice or rim that could be read.", one_line(clause));
  }
  if (any_read) return phrases;
  return {unread(part.written, fmt::format("No glass is called `{}`.", one_line(part.what.text)))};
}

/// `orange peel (expressed)` as `orange peel, expressed`, and `lime wheel (thin, no pith)` with the remark
/// quoted; other words as they are.
std::string PhraseReader::garnish_with_remark(const std::string& words) {
  auto [thing, remark] = remark_in_brackets(words);
  if (remark.empty()) return words;
  std::string said = thing + ", " + with_small_letter(remark);
  if (is_plain_remark(remark) && reads(PhraseUse::garnish, said)) return said;
  std::replace(remark.begin(), remark.end(), '"', '\'');
  std::string quoted = thing + ", \"" + one_line(remark) + "\"";
  return reads(PhraseUse::garnish, quoted) ? quoted : words;
}

std::vector<Phrase> PhraseReader::read_garnish(const OldPart& part) {
  auto garnish = [&](const std::string& written, const std::string& words, std::string doubt) {
    return Phrase{PhraseKind::garnish, written, "garnish  " + words, std::move(doubt), false};
  };
  std::string words = part.what.text;
  if (words.starts_with(":") || words.starts_with("-")) words = std::string(base::trim(words.substr(1)));
  words = in_english(with_small_letter(without_article(words)));
  if (words.empty()) return {unread(part.written, "The garnish is not named.")};
  words = garnish_with_remark(words);
  if (reads_line("garnish  " + words, {}) && reads(PhraseUse::garnish, words))
    return {garnish(part.written, words, {})};
  std::vector<Phrase> phrases;
  for (const auto& clause : clauses_of(words)) {
    auto pieces = parts_between(clause, " + ");
    for (auto& piece : pieces) {
      piece = garnish_with_remark(piece);
      auto phrase = read_clause(piece, {false, true});
      if (!phrase.is_read() && reads(PhraseUse::garnish, piece))
        phrase = garnish(piece, piece, fmt::format("The garnish `{}` is nothing that is declared.", piece));
      phrases.push_back(std::move(phrase));
    }
  }
  return phrases;
}

}  // namespace gill::importer
