#include "importer/named_list.h"

#include <algorithm>
#include <array>

#include "base/characters.h"
#include "base/text.h"
#include "importer/method_clauses.h"
#include "importer/name_marks.h"
#include "importer/spec_labels.h"
#include "importer/step_words.h"

namespace gill::importer {
namespace {

// What parts a name from the list behind it.
constexpr auto name_ends =
    std::to_array<std::string_view>({": ", " - ", " – ", " — ", " -- ", " = ", " (", " [", ", ", " / ", " | ",
                                     " -> ", " → ", " · ", " • ", " ~ ", "; "});

// Words before a colon or a dash that speak of the drink above (common practice, no source).
constexpr auto aside_words = std::to_array<std::string_view>(
    {"note",        "notes",     "nb",         "n.b",        "ps",          "p.s",
     "tip",         "tips",      "allergens",  "allergen",   "cost",        "costs",
     "price",       "source",    "story",      "taste",      "flavour",     "flavor",
     "variation",   "variant",   "option",     "optional",   "finish",      "to finish",
     "to serve",    "service",   "step",       "first",      "then",        "last",
     "finally",     "today",     "mise",       "base",       "spirit",      "spirits",
     "citrus",      "sweet",     "sour",       "mod",        "modifier",    "bitters",
     "mixer",       "top",       "on top",     "pairing",    "abv",         "strength",
     "style",       "season",    "created by", "by",         "from",        "to",
     "date",        "subject",   "why",        "history",    "remember",    "warning",
     "important",   "tools",     "equipment",  "hinweis",    "achtung",     "allergene",
     "preis",       "remarque",  "prix",       "allergènes", "nota",        "precio",
     "prezzo",      "allergeni", "alérgenos",  "day",        "for the rim", "for the garnish",
     "on the side", "side"});

bool is_aside(const std::string& name) {
  std::string folded = base::fold_name(name);
  while (!folded.empty() && (base::is_digit(folded.back()) || folded.back() == ' ' || folded.back() == '.'))
    folded.pop_back();
  return std::find(aside_words.begin(), aside_words.end(), folded) != aside_words.end();
}

std::size_t words_in_clause(const std::string& clause) {
  return static_cast<std::size_t>(std::count(clause.begin(), clause.end(), ' ')) + 1;
}

/// What stands behind the sign that ends a name; of brackets, what is in them.
std::string behind_sign(const std::string& text, std::size_t at, std::string_view sign) {
  std::string rest = text.substr(at + sign.size());
  if ((sign == " (" && rest.ends_with(')')) || (sign == " [" && rest.ends_with(']'))) rest.pop_back();
  return rest;
}

/// What parts a name from its list and is no sign of a list.
bool is_strong_sign(std::string_view sign) {
  return sign == ": " || sign == " - " || sign == " – " || sign == " — " || sign == " -- ";
}

/// `50/50`, `1920`: a name without a letter. `100 - 120 ml gin` is a range.
bool is_name_of_figures(const std::string& words, std::string_view sign) {
  constexpr std::ptrdiff_t fewest_digits = 3;
  const bool holds_bar = words.find('/') != std::string::npos;
  return !words.empty() && words.find_first_not_of("0123456789/") == std::string::npos &&
         base::is_digit(words.front()) && base::is_digit(words.back()) && (holds_bar || sign == ": ") &&
         std::count_if(words.begin(), words.end(), base::is_digit) >= fewest_digits;
}

/// `Marsh Light` of `and Marsh Light`; all of the words where no capitals end them.
std::string capitals_at_end(const std::string& words) {
  std::string name = words;
  bool is_any_title = is_title_case(name);
  for (auto space = words.find(' '); !is_any_title && space != std::string::npos;
       space = words.find(' ', space + 1)) {
    is_any_title = is_title_case(words.substr(space + 1));
    if (is_any_title) name = words.substr(space + 1);
  }
  return name;
}

/// `Moor (coupe)`, `Moor - coupe`: where the name ends.
std::size_t own_name_end(const std::string& name) {
  for (std::string_view sign : {" (", " [", " - ", " – ", " — ", ", "})
    if (auto at = name.find(sign, counting_number_at(name)); at != std::string::npos && at > 0) return at;
  return std::string::npos;
}

}  // namespace

bool is_manner(const std::string& words) {
  static constexpr auto manners_of_drinks =
      std::to_array<std::string_view>({"hot", "cold", "warm", "frozen", "chilled", "short", "long", "tall",
                                       "up", "sour", "large", "small", "neat"});
  return std::find(manners_of_drinks.begin(), manners_of_drinks.end(), base::fold_name(words)) !=
         manners_of_drinks.end();
}

NamedList NamedListReader::named(std::string_view name, const std::vector<std::string>& parts) const {
  NamedList list;
  list.name = std::string(base::trim(name));
  for (const auto& part : parts) list.parts.push_back({{part, 0}, LabelRole::none, part});
  return list;
}

std::vector<Phrase> NamedListReader::read(const std::string& text, bool in_prep) {
  return reader_.read({{text, 0}, LabelRole::none, text}, {in_prep, false});
}

NamedList NamedListReader::whole_spec(const std::string& text, bool in_preps) {
  for (auto sign : name_ends) {
    auto at = text.find(sign, counting_number_at(text));
    if (at == std::string::npos) continue;
    std::string rest = behind_sign(text, at, sign);
    auto parts = parts_of(rest, in_preps);
    const auto name = text.substr(0, at);
    if (parts.empty() || !(is_spec_name(name, sign) || is_named_like_a_glass(name, sign, parts))) continue;
    auto list = named(name, parts);
    take_what_is_served(list);
    return list;
  }
  auto list = whole_sentence(text, in_preps);
  return list.empty() ? whole_spec_before_number(text, in_preps) : list;
}

/// `and Marsh Light is 40 ml vodka, 20 ml lime juice`, as people write to each other.
NamedList NamedListReader::whole_sentence(const std::string& text, bool in_preps) {
  for (std::string_view is : {" is ", " ist ", " est ", " es ", " è "}) {
    auto at = text.find(is);
    if (at == std::string::npos || !leading_number(text.substr(at + is.size()))) continue;
    const auto name = capitals_at_end(text.substr(0, at));
    auto parts = parts_of(text.substr(at + is.size()), in_preps);
    if (parts.empty() || !is_spec_name(name, ": ")) continue;
    auto list = named(name, parts);
    list.is_sentence = true;
    return list;
  }
  return {};
}

/// `Toddy - 50 ml bourbon, 20 ml honey`: what stands before a list of amounts is a name, though a glass is
/// called so; `Hot: …` and `Up: …` say how.
bool NamedListReader::is_named_like_a_glass(const std::string& words, std::string_view sign,
                                            const std::vector<std::string>& parts) {
  const auto name = words.substr(counting_number_at(words));
  if (!(is_strong_sign(sign) || sign == " | ") || !is_title_case(name) || !looks_like_a_name(name) ||
      is_manner(name) || label_of(name + ":").role != LabelRole::none)
    return false;
  auto phrases = read(name.substr(0, own_name_end(name)));
  if (phrases.size() != 1 || phrases.front().kind != PhraseKind::glass) return false;
  std::ptrdiff_t amounts = 0;
  for (const auto& part : parts) {
    const auto read_of_part = read(part);
    amounts += std::count_if(read_of_part.begin(), read_of_part.end(),
                             [](const Phrase& one) { return one.kind == PhraseKind::amount; });
  }
  return amounts >= 2;
}

/// `Pinch Me`, `Splash Down`: a unit's word, and nothing behind it that anybody could measure.
bool NamedListReader::is_named_like_a_measure(const std::string& words) const {
  return !leading_number(words) && is_title_case(words) && !reader_.names_a_known_thing(words);
}

/// `Grenadine 500 ml pomegranate juice, 250 g sugar`: a name with nothing between it and its list.
NamedList NamedListReader::whole_spec_before_number(const std::string& text, bool in_preps) {
  auto at = text.find_first_of("0123456789");
  auto comma = text.find_first_of(",;/");
  if (at == std::string::npos || at < 2 || text[at - 1] != ' ' || comma == std::string::npos || comma < at)
    return {};
  const std::string name = text.substr(0, at - 1);
  auto amount = read(text.substr(at, comma - at));
  if (!is_title_case(name) || is_aside(name) || is_any_read(read(text.substr(0, comma))) ||
      !is_any_read(amount) || !is_any(amount, PhraseKind::amount) || !is_spec_name(name, " "))
    return {};
  auto parts = parts_of(text.substr(at), in_preps);
  return parts.empty() ? NamedList{} : named(name, parts);
}

/// What a spec on one line is made of: a list with amounts, and the sentences behind it.
std::vector<std::string> NamedListReader::parts_of(const std::string& rest, bool in_preps) {
  auto sentences = sentences_of(rest);
  if (sentences.empty()) return {};
  if (!reader_.parted(rest, {}).empty()) return parts_of_sentences(sentences);
  auto parts = reader_.parted(sentences.front(), {in_preps, false});
  if (parts.empty() && in_preps) {
    auto listed = read(sentences.front(), true);
    if (is_any(listed, PhraseKind::amount) || is_any_read(listed)) parts = clauses_of(sentences.front());
  }
  if (!parts.empty()) parts.insert(parts.end(), sentences.begin() + 1, sentences.end());
  return parts;
}

/// Each list by its parts, each other sentence whole.
std::vector<std::string> NamedListReader::parts_of_sentences(const std::vector<std::string>& sentences) {
  std::vector<std::string> all;
  for (const auto& sentence : sentences) {
    auto parts = reader_.parted(sentence, {});
    if (parts.empty()) parts = {sentence};
    all.insert(all.end(), parts.begin(), parts.end());
  }
  return all;
}

bool NamedListReader::is_spec_name(const std::string& words, std::string_view sign) {
  const bool is_strong = is_strong_sign(sign);
  if (is_strong && is_name_of_figures(words, sign)) return true;
  if (words.empty() || !looks_like_a_name(words) || section_of(words) != SectionKind::none) return false;
  // `To serve: …`
  if (sign == ": " && is_aside(words)) return false;
  // `2 Left Feet: …`, `One Last Time: …`
  if (leading_number(words) && !(is_strong && may_be_own_name(words))) return false;
  // A thing in a list is no name; before a colon it is what the list makes: `Honey syrup: 500 g honey, …`.
  bool in_list = sign == ", " || sign == " / " || sign == " | " || sign == "; ";
  bool holds_amount =
      std::any_of(words.begin(), words.end(), base::is_digit) || begins_with_verb(base::fold_name(words));
  if (in_list && (holds_amount || reader_.is_stock(base::fold_name(words)))) return false;
  auto own = is_strong ? words.substr(0, own_name_end(words)) : words;
  auto phrases = read(own);
  return !is_any_read(phrases) &&
         (!is_any(phrases, PhraseKind::amount) ||
          (is_strong && (is_numbered_name(words) || is_named_like_a_measure(words))));
}

/// `2 Left Feet`, `86 Reasons`, `4 - Ice Road`: no amount of anything that is known.
bool NamedListReader::is_numbered_name(const std::string& words) {
  auto number = counting_number_at(words);
  auto name = words.substr(number, own_name_end(words) - number);
  return leading_number(words) && is_title_case(name) && !reader_.is_known_amount(name);
}

/// What may stand before a colon or a dash as a name, though it begins with a number.
bool NamedListReader::may_be_own_name(const std::string& words) {
  bool has_letter = std::any_of(words.begin(), words.end(), [](char c) {
    return base::is_ascii_letter(c) || static_cast<unsigned char>(c) >= 0x80;
  });
  if (!has_letter || !looks_like_a_name(words) || is_aside(words) || tells_a_step(words, true)) return false;
  if (label_of(words + ":").role != LabelRole::none || section_of(words) != SectionKind::none) return false;
  if (leading_number(words)) return is_numbered_name(words);
  // `Tea (English breakfast)`: what brackets say of it may be in any letters.
  if (is_title_case(words.substr(0, words.find(" ("))) && is_drink_of_glass(words)) return true;
  auto phrases = read(words.substr(0, own_name_end(words)));
  return !is_any(phrases, PhraseKind::amount) && !is_any(phrases, PhraseKind::pour) &&
         (!is_any_read(phrases) || names_a_prep(words));
}

/// `Moor (coupe)`: the glass of a name is a line of its own.
void NamedListReader::take_what_is_served(NamedList& list) {
  auto at = own_name_end(list.name);
  if (at == std::string::npos) return;
  auto behind = list.name.substr(list.name.find_first_not_of(" ([,–—-", at));
  if (behind.ends_with(')') || behind.ends_with(']')) behind.pop_back();
  if (!says_what_is_served(behind, true) || is_manner(behind)) return;
  list.name.resize(at);
  list.parts.insert(list.parts.begin(), {{behind, 0}, LabelRole::none, behind});
}

NamedList NamedListReader::name_with_its_glass(const std::string& text) {
  for (auto sign : name_ends) {
    auto at = text.find(sign, counting_number_at(text));
    if (at == std::string::npos || sign == " = ") continue;
    const auto name = text.substr(0, at), rest = behind_sign(text, at, sign);
    const bool is_weak = sign == ", " || sign == " / ";
    if (!may_have_a_glass(name, is_weak) || !says_what_is_served(rest, is_weak)) continue;
    auto first = read(name.substr(counting_number_at(name)));
    const bool names_glass = first.size() == 1 && first.front().kind == PhraseKind::glass;
    const bool is_amount = is_any(first, PhraseKind::amount) && !is_numbered_name(name);
    if ((is_any_read(first) && (!names_glass || is_weak)) || is_amount) continue;
    auto list = named(name, clauses_of(rest));
    list.is_named_like_a_glass = names_glass;
    return list;
  }
  return {};
}

bool NamedListReader::may_have_a_glass(const std::string& name, bool is_weak) {
  if (!looks_like_a_name(name) || label_of(name + ":").role != LabelRole::none || is_aside(name))
    return false;
  if (leading_number(name) && (is_weak || !is_numbered_name(name))) return false;
  return !tells_a_step(name, true) && !(is_weak && begins_with_verb(base::fold_name(name)));
}

/// A glass, a garnish or steps, and no amount. Behind a sign that parts any list all of it is read.
bool NamedListReader::says_what_is_served(const std::string& rest, bool is_weak) {
  auto phrases = read(rest);
  const bool is_whole =
      std::all_of(phrases.begin(), phrases.end(), [](const Phrase& one) { return one.is_read(); });
  const bool is_served = std::any_of(phrases.begin(), phrases.end(), [&](const Phrase& one) {
    return (one.kind == PhraseKind::glass || one.kind == PhraseKind::garnish) && !is_manner(one.written);
  });
  const bool says_steps = is_whole && is_any(phrases, PhraseKind::step);
  return (is_served || says_steps) && (is_whole || !is_weak) && !is_any(phrases, PhraseKind::amount);
}

namespace {

/// Where the name of a list ends, and where its list begins: the first sign of several.
std::pair<std::size_t, std::size_t> own_list_at(const std::string& text) {
  std::pair<std::size_t, std::size_t> ends(std::string::npos, 0);
  for (std::string_view sign : {":", " - ", " – ", " — ", " -- ", " → ", " -> ", " | "})
    if (auto found = text.find(sign, counting_number_at(text)); found < ends.first)
      ends = {found, found + sign.size()};
  // `Tea (English breakfast) 250 ml water`
  if (auto close = text.find(") "); ends.first == std::string::npos && close != std::string::npos)
    if (is_drink_of_glass(text.substr(0, close)) &&
        base::is_digit(text[std::min(close + 2, text.size() - 1)]))
      return {close + 1, close + 2};
  return ends;
}

}  // namespace

NamedList NamedListReader::list_of_its_own(const std::string& text) {
  const auto [at, end] = own_list_at(text);
  if (at == std::string::npos || end >= text.size()) return {};
  const auto name = std::string(base::trim(std::string_view(text).substr(0, at)));
  const auto rest = std::string(base::trim(std::string_view(text).substr(end)));
  if (name.empty() || rest.empty() || !may_be_own_name(name)) return {};
  // `Beer - 500 ml lager` says of what; `Gin - 45 ml` and `Soda: to top` do not.
  const bool is_drink =
      is_drink_of_glass(name) && leading_number(rest) && !reader_.poured_thing_of(rest).empty();
  auto whole = read(text);
  if (!is_drink && whole.size() == 1 &&
      (whole[0].kind == PhraseKind::amount || whole[0].kind == PhraseKind::pour || whole[0].is_bare))
    return {};
  NamedList list = named(name, {});
  list.is_named_like_a_glass = is_drink;
  list.is_row = text.substr(at, end - at) == " | ";
  for (const auto& sentence : sentences_of(rest)) {
    auto parts = reader_.parted(sentence, {});
    auto phrases = read(sentence);
    bool is_read =
        std::all_of(phrases.begin(), phrases.end(), [](const Phrase& one) { return one.is_read(); });
    if (parts.empty()) parts = is_read ? std::vector<std::string>{sentence} : clauses_of(sentence);
    for (const auto& part : parts) list.parts.push_back({{part, 0}, LabelRole::none, part});
  }
  if (!is_evident(list)) return {};
  take_what_is_served(list);
  return list;
}

/// Something behind the name is an amount, a step or a glass; or it is a list of a few words each.
bool NamedListReader::is_evident(NamedList& list) {
  bool is_any_evident = false, are_all_short = list.parts.size() > 1;
  constexpr std::size_t max_words = 3;
  for (const auto& part : list.parts) {
    auto phrases = read(part.what.text, names_a_prep(list.name));
    list.says_a_step = list.says_a_step || is_any(phrases, PhraseKind::step);
    is_any_evident = is_any_evident || is_any_read(phrases) || is_any(phrases, PhraseKind::amount);
    are_all_short = are_all_short && words_in_clause(part.what.text) <= max_words;
  }
  const bool is_named_well =
      is_title_case(list.name.substr(0, list.name.find(" ("))) || names_a_prep(list.name);
  if (reader_.is_stock(base::fold_name(list.name)) && !names_a_prep(list.name) && !is_any_evident)
    return false;
  return list.parts.size() > 1 ? is_any_evident || (are_all_short && is_named_well)
                               : is_any_evident && is_named_well;
}

}  // namespace gill::importer
