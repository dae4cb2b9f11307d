#include "analysis/forms/spelling.h"

#include <algorithm>
#include <cmath>

#include "analysis/forms/line_splitter.h"
#include "analysis/verbs.h"
#include "base/any_of.h"
#include "base/characters.h"
#include "base/text.h"

namespace gill::analysis {

using syntax::LineView;
using syntax::TokenKind;

namespace {

/// What a bar writes for words of a form, where it stands for the same everywhere.
struct Spelling {
  std::string_view written, meant;
};
constexpr Spelling spellings[] = {
    {"w/", "with"},        {"w", "with"},
    {"dbl", "double"},     {"til", "until"},
    {"till", "until"},     {"thru", "through"},
    {"&", "and"},          {"whip shake", "whip"},
    {"n", "and"},          {"'n'", "and"},
    {"+", "and"},          {"o/n", "overnight"},
    {"o/", "over"},        {"wout", "without"},
    {"w/o", "without"},    {"w/out", "without"},
    {"choc", "chocolate"}, {"whl", "wheel"},
    {"wdg", "wedge"},      {"spr", "sprig"},
    {"tw", "twist"},       {"btl", "bottle"},
    {"btls", "bottles"},   {"sirup", "syrup"},
    {"sirups", "syrups"},  {"hand full", "handful"},
};

/// A step said as what was done, or under another name, at the head of a step.
constexpr Spelling step_spellings[] = {
    {"shaken", "shake"},
    {"stirred", "stir"},
    {"strained", "strain"},
    {"blended", "blend"},
    {"muddled", "muddle"},
    {"swizzled", "swizzle"},
    {"churned", "churn"},
    {"rolled", "roll"},
    {"thrown", "throw"},
    {"built", "build"},
    {"dry shaken", "dry shake"},
    {"double strained", "double strain"},
    {"fine strained", "fine strain"},
    {"shake dry then with ice", "dry shake, shake"},
    {"blitz with stick blender", "blend, \"with stick blender\""},
    {"blitz with a stick blender", "blend, \"with a stick blender\""},
    {"blitz with hand blender", "blend, \"with hand blender\""},
    {"without ice shake", "dry shake"},
    {"first without ice shake", "dry shake"},
    {"shake without ice first", "dry shake"},
    {"shake dry then wet", "dry shake, shake"},
    {"dry shake then with ice", "dry shake, shake"},
    {"dry shake then wet", "dry shake, shake"},
    {"shake wet", "shake"},
    {"strain fine", "fine strain"},
    {"blend smooth", "blend, \"smooth\""},
    {"shk", "shake"},
    {"strn", "strain"},
    {"str", "strain"},
    {"dbl strn", "double strain"},
    {"dbl str", "double strain"},
    {"fine str", "fine strain"},
    {"fine strn", "fine strain"},
    {"fine-strain", "fine strain"},
    {"fine-strained", "fine strain"},
    {"double-strain", "double strain"},
    {"double-strained", "double strain"},
    {"dbl-strain", "double strain"},
    {"dry-shake", "dry shake"},
    {"hard-shake", "shake hard"},
    {"hard shaken", "shake hard"},
    {"shake shake shake", "shake"},
    {"crush with muddler", "muddle"},
    {"crush with a muddler", "muddle"},
    {"crush with the muddler", "muddle"},
    {"tip between two tins", "roll"},
    {"tip between tins", "roll"},
    {"pour between two tins", "roll"},
    {"pour between tins", "roll"},
    {"tip back and forth", "roll"},
    {"pour back and forth", "roll"},
    {"half a salted rim", "rim salt, half"},
    {"half a sugared rim", "rim sugar, half"},
    {"half a salt rim", "rim salt, half"},
    {"half a sugar rim", "rim sugar, half"},
    {"salted half rim", "rim salt, half"},
    {"half salted rim", "rim salt, half"},
    {"sugared half rim", "rim sugar, half"},
    {"half sugared rim", "rim sugar, half"},
    {"salted rim", "rim salt"},
    {"sugared rim", "rim sugar"},
    {"flash blend", "blend"},
    {"cap with", "top with"},
    {"decorate with", "garnish with"},
    {"decorated with", "garnish with"},
    {"dress with", "garnish with"},
    {"garnished with", "garnish with"},
    {"decorate :", "garnish"},
    {"decoration :", "garnish"},
    {"deco :", "garnish"},
};

/// `5 ml lemon juice, strained`: behind one amount that ends the line it says what the juice is like; behind
/// several, or behind a step, it is what was done to the drink. With a hyphen it never is a step there.
bool is_said_of_amount(const LineView& line, std::size_t i, std::string_view written) {
  if (!written.ends_with("strained") || i < 2 || line.kind(i - 1) != TokenKind::comma) return false;
  std::size_t before = i - 1;
  while (before > 0 && line.kind(before - 1) != TokenKind::comma) --before;
  if (line.kind(before) != TokenKind::number) return false;
  std::size_t words = 1 + static_cast<std::size_t>(std::count(written.begin(), written.end(), ' '));
  return written.ends_with("-strained") || (before == 0 && i + words == line.size());
}

/// The same in a prep, where nothing is chilled.
constexpr Spelling prep_step_spellings[] = {
    {"mix together", "stir"},
    {"mix well", "stir"},
    {"mix up", "stir"},
    {"mix", "stir"},
    {"combine", "stir"},
    {"whisk well", "stir"},
    {"whisk together", "stir"},
    {"dehydrator", "dehydrate"},
    {"whisk smooth", "stir, \"smooth\""},
    {"stir smooth", "stir, \"smooth\""},
    {"shake up", "shake"},
    {"chill down", "chill"},
    {"cool down", "cool"},
    {"filter x2", "fine strain, through a filter, twice"},
    {"filter twice", "fine strain, through a filter, twice"},
    {"double filter", "fine strain, through a filter, twice"},
    {"whisk", "stir"},
    {"mixed", "stir"},
    {"blitz", "blend"},
    {"blitzed", "blend"},
    {"blend up", "blend"},
    {"infused", "infuse"},
    {"steeped", "steep"},
    {"decant into bottles", "bottle"},
    {"juice it", "press"},
    {"vac-pack", "vac pack"},
    {"sous-vide", "sous vide"},
    {"soak", "steep"},
    {"soaked", "steep"},
    {"stick blend", "blend"},
    {"hand blend", "blend"},
    {"drip through", "strain through"},
    {"let drip through", "strain through"},
    {"drain through", "strain through"},
    {"juice", "press"},
    {"squeeze through", "strain through"},
    {"press through", "strain through"},
    {"push through", "strain through"},
    {"wring through", "strain through"},
    {"boil down to", "reduce to"},
    {"reduce down to", "reduce to"},
    {"cook down to", "reduce to"},
    {"reduce down by", "reduce by"},
    {"rebottle", "bottle"},
    {"re-bottle", "bottle"},
    {"bottle up", "bottle"},
    {"jar up", "bottle"},
    {"back in the bottle", "bottle"},
    {"back into the bottle", "bottle"},
    {"back into bottle", "bottle"},
    {"back to the bottle", "bottle"},
    {"return to the bottle", "bottle"},
    {"return to bottle", "bottle"},
    {"yield", "makes"},
    {"yields", "makes"},
    {"yield :", "makes"},
    {"yields :", "makes"},
    {"mash", "muddle"},
    {"mash together", "muddle"},
    {"mash up", "muddle"},
    {"crush together", "muddle"},
    {"warm", "heat"},
    {"warm up", "heat"},
    {"jar", "bottle"},
    {"marinate", "macerate"},
    {"marinade", "macerate"},
    {"whizz", "blend"},
    {"whiz", "blend"},
};

/// The tokens of a phrase at `i`; 0 where it does not stand there.
std::size_t phrase_at(const LineView& line, std::size_t i, std::string_view phrase) {
  std::size_t at = i;
  while (!phrase.empty()) {
    auto space = phrase.find(' ');
    if (!line.is_word(at, phrase.substr(0, space)) &&
        !(at < line.size() && line.text(at) == phrase.substr(0, space)))
      return 0;
    ++at;
    phrase = space == std::string_view::npos ? std::string_view() : phrase.substr(space + 1);
  }
  return at - i;
}

/// True where a step may begin: at the head of the line, behind a comma, `and` or `then`.
bool begins_step(const LineView& line, std::size_t i) {
  return i == 0 || line.kind(i - 1) == syntax::TokenKind::comma || line.is_word(i - 1, "and") ||
         line.is_word(i - 1, "then") || line.text(i - 1) == "&" || line.text(i - 1) == "+" ||
         line.is_word(i - 1, "n");
}

/// What may stand behind a step's name: not the name of a thing, as in `strained yoghurt`.
bool ends_step_name(const LineView& line, std::size_t i) {
  static constexpr std::string_view words[] = {
      "and",     "then", "over",  "into",   "in",     "with",    "on",    "for",    "hard",  "overnight",
      "well",    "up",   "once",  "off",    "until",  "til",     "till",  "gently", "to",    "by",
      "through", "n",    "about", "approx", "around", "roughly", "while", "whilst", "smooth"};
  if (i >= line.size() || line.kind(i) != syntax::TokenKind::word || line.text(i) == "&" ||
      line.text(i) == "+")
    return true;
  return std::any_of(std::begin(words), std::end(words),
                     [&](std::string_view word) { return line.is_word(i, word); });
}

/// One place of a line that is spelled otherwise: how many tokens, how many bytes of the first one stay as
/// they are written, and what stands behind those.
struct Spelled {
  std::size_t tokens = 0;
  std::string meant;
  std::size_t kept = 0;
};

/// `x5`, `5x`, `steep 30m`, `stir/strain`: signs and letters run together.
Spelled run_together(const LineView& line, std::size_t i) {
  std::string word = base::lower_ascii(line.text(i));
  bool behind_number = i > 0 && line.kind(i - 1) == syntax::TokenKind::number;
  bool in_step = match_verb(line, 0).has_value();
  if (i > 0 && word.size() > 1 && word[0] == 'x' && base::is_digit(word[1])) return {1, word.substr(1), 0};
  auto step = match_verb(line, 0);
  bool is_counted = step && info(step->verb).takes_count;
  if (word == "x" && behind_number && is_counted &&
      (i + 1 == line.size() || line.kind(i + 1) == syntax::TokenKind::comma))
    return {1, "", 0};
  if (word == "x" && i > 0 && is_counted && line.kind(i + 1) == syntax::TokenKind::number) return {1, "", 0};
  if (word == "m" && behind_number && in_step) return {1, "min", 0};
  auto is_verb = [](std::string_view one) {
    return std::any_of(all_verbs().begin(), all_verbs().end(),
                       [&](const VerbInfo& verb) { return verb.name == one; });
  };
  auto slash = word.find('/');
  if (slash != std::string::npos && slash > 0 && slash + 1 < word.size()) {
    std::string first = word.substr(0, slash), second = word.substr(slash + 1);
    if (is_verb(first) && is_verb(second)) return {1, first + ", " + second, 0};
  }
  if (word == "/" && i > 0 && i + 1 < line.size() &&
      ((in_step && match_verb(line, i + 1)) || line.is_word(i + 1, "dbl")))
    return {1, ",", 0};
  return {};
}

/// True for what a name follows: `strain through`, `garnish with`.
bool takes_name(std::string_view written) {
  return written.ends_with(" through") || written.ends_with(" with") || written.ends_with(" :");
}

template <typename Table>
Spelled step_spelled_at(const LineView& line, std::size_t i, const Table& table) {
  for (const auto& step : table)
    // `juice 3 lemons` is an amount of juice, `cook 20 min` a simmer.
    if (step.written == "juice" && i + 1 < line.size() && line.kind(i + 1) == TokenKind::number)
      continue;
    else if (std::size_t tokens = phrase_at(line, i, step.written);
             tokens > 0 && !is_said_of_amount(line, i, step.written) &&
             (takes_name(step.written) || ends_step_name(line, i + tokens)))
      return {tokens, std::string(step.meant), 0};
  return {};
}

// ---- marks

/// Words that are written short with a point: it ends no sentence.
constexpr std::string_view shortened[] = {"no",  "st", "dr", "mr",  "mt", "approx",
                                          "opt", "ca", "c",  "dbl", "w",  "v"};

class Marks {
 public:
  Marks(const LineView& line, const Context& context, bool in_prep)
      : line_(line), context_(context), in_prep_(in_prep) {}

  Spelled at(std::size_t i) const {
    for (auto one : {&Marks::sentence_end,     &Marks::parting_sign,    &Marks::slash,
                     &Marks::at_sign,          &Marks::seconds,         &Marks::about_sign,
                     &Marks::two_temperatures, &Marks::every_day,       &Marks::glued,
                     &Marks::brackets,         &Marks::warmed_to,       &Marks::label,
                     &Marks::leading_word,     &Marks::said_of_time,    &Marks::range_of_time,
                     &Marks::worded_time,      &Marks::shakes_of_sauce, &Marks::simple_of,
                     &Marks::part_of_egg,      &Marks::given,           &Marks::double_strain_short,
                     &Marks::worded_serves,    &Marks::scoop_of_ice,    &Marks::or_so})
      if (auto found = (this->*one)(i); found.tokens > 0) return found;
    return {};
  }

  /// True where the word stands in a name that is known as it is written.
  bool is_part_of_name(std::size_t i) const { return is_named(i, i + 1); }

 private:
  std::string word(std::size_t i) const {
    return i < line_.size() && (line_.kind(i) == TokenKind::word || line_.kind(i) == TokenKind::stray)
               ? base::lower_ascii(line_.text(i))
               : std::string();
  }
  bool is_last(std::size_t i) const { return i + 1 >= line_.size(); }
  bool is_comma(std::size_t i) const { return i < line_.size() && line_.kind(i) == TokenKind::comma; }
  bool is_number(std::size_t i) const {
    return i < line_.size() &&
           (line_.kind(i) == TokenKind::number || line_.kind(i) == TokenKind::dashed_range);
  }
  units::UnitMatch unit(std::size_t i) const { return context_.units.match(line_, i); }
  /// The unit at `i` behind a number, and what kind; nothing where none stands.
  std::optional<units::Kind> measure_kind(std::size_t number) const {
    if (!is_number(number)) return std::nullopt;
    auto match = unit(number + 1);
    if (!match.unit.valid()) return std::nullopt;
    return context_.units[match.unit].kind;
  }
  std::size_t segment(std::size_t i) const {
    while (i > 0 && line_.kind(i - 1) != TokenKind::comma) --i;
    return i;
  }
  bool is_called(symbols::NameSpace space, std::size_t first, std::size_t last) const {
    std::size_t bad = 0;
    return last > first && last <= line_.size() && syntax::is_plain_name(line_, first, last, bad) &&
           context_.names.find(space, syntax::name_text(line_, first, last)).valid();
  }
  /// True where the words around `i` and the next are one name that is known, such as a house writes with a
  /// point.
  bool is_inside_name(std::size_t i) const { return is_named(i, i + 2); }
  /// True where a name that is known holds the word at `i` and ends at `min_last` or a little behind it.
  bool is_named(std::size_t i, std::size_t min_last) const {
    for (std::size_t first = i > 3 ? i - 3 : 0; first <= i; ++first)
      for (std::size_t last = min_last; last <= i + 4; ++last)
        for (auto space : {symbols::NameSpace::stock, symbols::NameSpace::glass})
          if (is_called(space, first, last)) return true;
    return false;
  }
  bool is_step(std::size_t i) const { return match_verb(line_, i) || begins_form_of_step(line_, i); }

  /// `White Rum.`, `SHAKE. STRAIN.`, `Shake!`: where a sentence ends, a new line of the build may begin.
  Spelled sentence_end(std::size_t i) const {
    if (word(i) == "!") return {1, is_last(i) || is_comma(i + 1) ? "" : ",", 0};
    std::string text = word(i);
    if (text.size() < 2 || text.back() != '.') return {};
    std::string plain = text.substr(0, text.size() - 1);
    if (plain == "dbl") return {1, "double", 0};
    if (is_last(i) || is_comma(i + 1)) {
      if (is_part_of_name(i)) return {};
      return {1, "", plain.size()};
    }
    if (base::is_any_of(std::string_view(plain), shortened)) return {};
    // `oz.`, `sec.`: the point of a unit, which ends the line's part where a step or an amount follows a
    // time.
    if (i > 0 && is_number(i - 1) && unit(i).unit.valid()) {
      if (context_.units[unit(i).unit].kind != units::Kind::time || !is_step(i + 1)) return {};
      return {1, ",", plain.size()};
    }
    auto known = context_.units.find(plain);
    if (is_inside_name(i) || (known.valid() && !context_.units[known].is_item_word)) return {};
    return {1, ",", plain.size()};
  }

  /// `gin 1 l; vermouth 1 l`
  Spelled parting_sign(std::size_t i) const {
    if (word(i) != ";") return {};
    return {1, is_last(i) ? "" : ",", 0};
  }

  /// `50 ml gin / 20 ml lime juice`, `stir / strain / coupe`: a slash parts amounts, steps and the glass.
  /// Between two things that are laid on a drink it may be an `or`, and between two measures of one thing it
  /// is `=`.
  Spelled slash(std::size_t i) const {
    bool is_dash = word(i) == "-" || word(i) == "–" || word(i) == "—";
    // `warm to 70 C - never boil`
    if (is_dash && i > 2 && !is_last(i) && (word(0) == "warm" || word(0) == "heat" || word(0) == "bring") &&
        line_.kind(i + 1) == TokenKind::word)
      return {1, ",", 0};
    if ((word(i) != "/" && word(i) != "//" && !(is_dash && match_verb(line_, segment(i)))) || i == 0 ||
        is_last(i))
      return {};
    std::size_t first = segment(i);
    for (std::size_t k = first; k < i; ++k)
      if (word(k) == "/" || word(k) == "//") first = k + 1;
    if (measure_kind(first) && first + 1 + unit(first + 1).tokens == i) return {};
    if (is_inside_name(i - 1)) return {};
    std::size_t stop = i + 1;
    while (stop < line_.size() && line_.kind(stop) != TokenKind::comma && word(stop) != "/" &&
           word(stop) != "//")
      ++stop;
    auto verb = match_verb(line_, first);
    bool lays_on =
        verb && (verb->verb == Verb::garnish || verb->verb == Verb::side || verb->verb == Verb::rim);
    bool left_ends = !lays_on && (is_step(first) || is_called(symbols::NameSpace::glass, first, i));
    bool right_begins =
        is_number(i + 1) || is_step(i + 1) || is_called(symbols::NameSpace::glass, i + 1, stop);
    // `gin 30 ml / vermouth 30 ml`
    auto ends_in_measure = [&](std::size_t begin, std::size_t end) {
      return end >= begin + 3 && measure_kind(end - 2) && line_.kind(begin) == TokenKind::word;
    };
    left_ends = left_ends || (ends_in_measure(first, i) && ends_in_measure(i + 1, stop));
    if (!left_ends && !right_begins) return {};
    return {1, ",", 0};
  }

  /// `300 g water @ 60C`, `infuse 2 h @ 20C`
  Spelled at_sign(std::size_t i) const {
    if (word(i) != "@" || i == 0) return {};
    std::size_t first = segment(i);
    bool is_amount = is_number(first) && measure_kind(first) != units::Kind::time;
    return {1, is_amount && !is_comma(i - 1) ? ", at" : "at", 0};
  }

  /// `shake 15"`, `simmer 20'`
  Spelled seconds(std::size_t i) const {
    if (i == 0 || !is_number(i - 1) || !is_step(segment(i))) return {};
    if (line_.kind(i) == TokenKind::open_string && base::collapse_space(line_.text(i)) == "\"")
      return {1, "s", 0};
    if (word(i) == "''") return {1, "s", 0};
    if (word(i) == "'" && in_prep_) return {1, "min", 0};
    return {};
  }

  /// `~10 mint leaves`
  Spelled about_sign(std::size_t i) const {
    if (word(i) != "~" || !is_number(i + 1) || line_.kind(i + 1) != TokenKind::number) return {};
    return {1, "about", 0};
  }

  /// `80C/176F`: one warmth in two scales, where they agree.
  Spelled two_temperatures(std::size_t i) const {
    if (i == 0 || line_.kind(i - 1) != TokenKind::number) return {};
    std::string text = word(i);
    if (text.size() < 4 || text[1] != '/' || text.find_first_not_of("0123456789", 2) != text.size() - 1)
      return {};
    char from = text[0], to = text.back();
    if (!((from == 'c' && to == 'f') || (from == 'f' && to == 'c'))) return {};
    auto first = base::parse_exact(line_.text(i - 1)),
         second = base::parse_exact(text.substr(2, text.size() - 3));
    if (!first || !second) return {};
    double celsius = base::to_double(from == 'c' ? *first : *second),
           fahrenheit = base::to_double(from == 'c' ? *second : *first);
    constexpr double rounded_c = 1.5;  // what people round to
    if (std::abs(celsius - (fahrenheit - 32) / 1.8) > rounded_c) return {};
    return {1, std::string(1, static_cast<char>(from - 'a' + 'A')), 0};
  }

  /// `macerate 2 wk, shake daily`: no step of its own, but how the one before it goes on.
  Spelled every_day(std::size_t i) const {
    if (i == 0 || !is_comma(i - 1)) return {};
    if (!line_.is_word(i, "shake") && !line_.is_word(i, "stir") && !line_.is_word(i, "agitate") &&
        !line_.is_word(i, "turn") && !line_.is_word(i, "skim") && !line_.is_word(i, "burp") &&
        !line_.is_word(i, "swirl") && !line_.is_word(i, "taste"))
      return {};
    if (line_.is_word(i, "taste"))
      return {segment_end(i) - i, "\"" + base::collapse_space(line_.raw(i, segment_end(i))) + "\"", 0};
    for (std::string_view often :
         {"daily", "every day", "once a day", "twice a day", "twice daily", "every hour", "every few hours",
          "occasionally", "now and then", "from time to time"})
      if (std::size_t tokens = phrase_at(line_, i + 1, often);
          tokens > 0 && (i + 1 + tokens >= line_.size() || is_comma(i + 1 + tokens)))
        return {1 + tokens, "\"" + base::collapse_space(line_.raw(i, i + 1 + tokens)) + "\"", 0};
    return {};
  }

  /// `gin40ml`, `w/ice`, `o/crushed`
  Spelled glued(std::size_t i) const {
    std::string text = word(i);
    if (text.size() > 2 && text[1] == '/' && (text[0] == 'w' || text[0] == 'o') && text != "o/n" &&
        text != "w/v" && text != "w/w" && text != "o/j" && text != "w/o" && text != "w/out")
      return {1, (text[0] == 'w' ? "with " : "over ") + text.substr(2), 0};
    std::size_t digits = text.find_first_of("0123456789");
    if (digits == std::string::npos || digits < 2 || is_part_of_name(i)) return {};
    std::size_t letters = text.find_first_not_of("0123456789.", digits);
    if (letters == std::string::npos ||
        text.find_first_not_of("abcdefghijklmnopqrstuvwxyz", letters) != text.npos ||
        text.find_first_not_of("abcdefghijklmnopqrstuvwxyz") != digits)
      return {};
    static constexpr std::string_view glued_units[] = {"ml", "cl", "dl", "l", "g", "kg", "oz"};
    if (!base::is_any_of(std::string_view(text).substr(letters), glued_units)) return {};
    return {1, std::string(line_.text(i)).substr(digits), digits};
  }

  /// `stir well (30 sec)`, `strain (coffee filter)`: what a step says in brackets it says.
  Spelled brackets(std::size_t i) const {
    std::string text = word(i);
    std::size_t first = segment(i);
    if (i == first || text.size() < 2 || text[0] != '(') return {};
    bool names_glass =
        word(first) == "glass" && first + 1 < i && is_called(symbols::NameSpace::glass, first + 1, i);
    bool is_thing =
        line_.kind(first) == TokenKind::word && !match_verb(line_, first) &&
        (names_glass || is_called(symbols::NameSpace::glass, first, i) ||
         (!in_prep_ && (find_use(LineReader(line_, context_), first, i) ||
                        FormMatcher(line_.part(first, i), context_, in_prep_, {}).reads_as_amount())));
    if (!is_step(first) && !is_thing) return {};
    auto verb = match_verb(line_, first);
    if (verb && (verb->verb == Verb::top || verb->verb == Verb::float_) && !in_prep_ && text.size() > 1 &&
        (base::is_digit(text[1]) || text.starts_with("(approx") || text.starts_with("(about"))) {
      // `top with soda (90 ml)`
      std::size_t end = i;
      while (end < line_.size() && !is_comma(end) && !word(end).ends_with(")")) ++end;
      if (end >= line_.size() || !word(end).ends_with(")")) return {};
      std::string measure = base::collapse_space(line_.raw(i, end + 1));
      return {end + 1 - i, ", " + measure.substr(1, measure.size() - 2), 0};
    }
    bool is_half = verb && verb->verb == Verb::rim && (text == "(half)" || text == "(optional)");
    if (verb && info(verb->verb).name_slot != VerbInfo::Name::never && !is_half) return {};
    // `(gin is cold already)`, `(no longer, bitter)`: said aside.
    static constexpr std::string_view aside[] = {"no",   "not",     "don't",   "do", "is",    "are", "it",
                                                 "it's", "already", "because", "so", "never", "else"};
    std::size_t close = i;
    bool is_aside = base::is_any_of(std::string_view(text).substr(1), aside);
    while (close < line_.size() && (is_thing || is_aside || line_.kind(close) != TokenKind::comma) &&
           !word(close).ends_with(")")) {
      ++close;
      is_aside = is_aside || base::is_any_of(std::string_view(word(close)), aside);
    }
    if (close >= line_.size() || !word(close).ends_with(")")) return {};
    std::string inner = base::collapse_space(line_.raw(i, close + 1));
    inner = inner.substr(1, inner.size() - 2);
    if (inner.empty() || inner.find_first_of("()\"") != std::string::npos) return {};
    bool is_figure = base::is_digit(inner[0]);
    if (is_thing && is_figure) return {};
    if (is_aside && !is_thing && inner.find_first_of("0123456789") == std::string::npos)
      return {close + 1 - i, ", \"" + inner + "\"", 0};
    return {close + 1 - i, (is_figure ? "" : ", ") + inner, 0};
  }

  /// `Method: shake, strain`: the word over a card's steps says nothing of its own.
  Spelled label(std::size_t i) const {
    static constexpr std::string_view labels[] = {"method",       "procedure", "directions", "technique",
                                                  "instructions", "process",   "steps",      "build"};
    if (i > 0 || line_.kind(1) != TokenKind::colon || !base::is_any_of(std::string_view(word(0)), labels))
      return {};
    if (word(0) == "build" && !is_step(2)) return {};
    return {2, "", 0};
  }

  /// `then shake`, `finally top with soda water`: the order of the lines says it already.
  Spelled leading_word(std::size_t i) const {
    if (i > 0) return {};
    for (std::string_view lead :
         {"then", "next", "finally", "lastly", "now", "afterwards", "and then", "and"})
      if (std::size_t tokens = phrase_at(line_, 0, lead); tokens > 0) {
        std::size_t next = is_comma(tokens) ? tokens + 1 : tokens;
        if (next < line_.size() && (is_step(next) || lead == "then")) return {next, "", 0};
      }
    return {};
  }

  bool is_time_unit(std::size_t i) const {
    if (i >= line_.size() || line_.kind(i) != TokenKind::word) return false;
    auto match = unit(i);
    return match.unit.valid() && context_.units[match.unit].kind == units::Kind::time;
  }
  /// The end of the part of the line that holds `i`.
  std::size_t segment_end(std::size_t i) const {
    while (i < line_.size() && !is_comma(i)) ++i;
    return i;
  }

  /// `stir approx 30 s`, `20 seconds or so`: how sure a time is.
  Spelled said_of_time(std::size_t i) const {
    static constexpr std::string_view about[] = {"approx",  "approx.", "approximately", "around",
                                                 "roughly", "circa",   "maybe",         "ca"};
    if (base::is_any_of(std::string_view(word(i)), about) && line_.kind(i + 1) == TokenKind::number &&
        unit(i + 2).unit.valid())
      return {1, "about", 0};
    if (i == 0 || !is_time_unit(i - 1) || i < 2 || !is_number(i - 2)) return {};
    for (std::string_view behind : {"or so", "or thereabouts", "approx", "approximately", "roughly", "only",
                                    "ish", "or until cold", "or until chilled"})
      if (std::size_t tokens = phrase_at(line_, i, behind); tokens > 0) {
        std::size_t next = i + tokens;
        bool ends = next >= line_.size() || is_comma(next) || word(next) == "and" || word(next) == "then" ||
                    word(next).starts_with("(") || word(next) == "over" || word(next) == "with";
        if (ends && (is_step(segment(i)) || match_verb(line_, 0))) return {tokens, "", 0};
      }
    return {};
  }

  /// `shake hard, 10 to 12 seconds`
  Spelled range_of_time(std::size_t i) const {
    if (line_.kind(i) != TokenKind::number || (word(i + 1) != "to" && word(i + 1) != "or") ||
        i + 3 >= line_.size() || line_.kind(i + 2) != TokenKind::number || !is_time_unit(i + 3))
      return {};
    return {3, std::string(line_.text(i)) + ".." + std::string(line_.text(i + 2)), 0};
  }

  /// `rest one week`, `shake for two more minutes`, `stand half an hour`: a number in words before a time.
  Spelled worded_time(std::size_t i) const {
    // `another 10 s` is as long.
    if (i > 0 && (word(i) == "another" || word(i) == "further") && is_number(i + 1) && is_time_unit(i + 2))
      return {1, "", 0};
    if (i == 0) return {};
    bool behind_step = match_verb(line_, segment(i)) || begins_form_of_step(line_, segment(i));
    std::size_t next = i + 1;
    auto number = FormMatcher::number_of(word(i));
    bool is_article = word(i) == "a" || word(i) == "an";
    if (!number && !(is_article && behind_step)) return {};
    if (word(i - 1) == "once" || word(i - 1) == "twice" || word(i - 1) == "times" || word(i - 1) == "every" ||
        word(i - 1) == "per")
      return {};
    if (word(i) == "couple") return {};
    if (word(i) == "half" && (word(next) == "a" || word(next) == "an")) ++next;
    if (word(next) == "more" || word(next) == "full" || word(next) == "whole" || word(next) == "good") ++next;
    if (!is_time_unit(next) || word(next).size() < 3) return {};
    // Something may be called so: `two day ginger`.
    for (std::size_t end = next + 1; end <= segment_end(i); ++end)
      if (is_called(symbols::NameSpace::stock, i, end)) return {};
    return {next - i, std::string(is_article ? "1" : *number), 0};
  }

  /// `4 shakes hot sauce`: dashes of it.
  Spelled shakes_of_sauce(std::size_t i) const {
    if (i == 0 || !is_number(i - 1) || (word(i) != "shakes" && word(i) != "shake")) return {};
    std::size_t name = word(i + 1) == "of" ? i + 2 : i + 1;
    if (name >= line_.size() || !find_use(LineReader(line_, context_), name, segment_end(i))) return {};
    return {1, "dashes", 0};
  }

  /// `3/4 oz basil simple`: the syrup of it.
  Spelled simple_of(std::size_t i) const {
    if (word(i) != "simple" || i == 0 || i + 1 < segment_end(i)) return {};
    for (std::size_t first = i >= 3 ? i - 3 : 0; first < i; ++first) {
      std::size_t bad = 0;
      if (is_called(symbols::NameSpace::stock, first, i + 1)) return {};
      if (!syntax::is_plain_name(line_, first, i, bad)) continue;
      if (context_.names.find(symbols::NameSpace::stock, syntax::name_text(line_, first, i) + " syrup")
              .valid())
        return {1, "syrup", 0};
    }
    return {};
  }

  /// `white of one egg`
  Spelled part_of_egg(std::size_t i) const {
    if (i > 0 && !is_comma(i - 1)) return {};
    for (std::string_view one : {"white of one egg", "white of an egg", "white of 1 egg",
                                 "the white of an egg", "the white of one egg"})
      if (std::size_t tokens = phrase_at(line_, i, one); tokens > 0) return {tokens, "1 egg white", 0};
    for (std::string_view one : {"yolk of one egg", "yolk of an egg", "yolk of 1 egg", "the yolk of an egg"})
      if (std::size_t tokens = phrase_at(line_, i, one); tokens > 0) return {tokens, "1 egg yolk", 0};
    return {};
  }

  /// `give it a quick stir`, `a gentle stir`: the step, and how.
  Spelled given(std::size_t i) const {
    if (!begins_step(line_, i)) return {};
    std::size_t next = i;
    for (std::string_view one : {"give it a", "give it one", "give it all a", "give everything a",
                                 "give the drink a", "give a", "give it another", "a", "one"})
      if (std::size_t tokens = phrase_at(line_, i, one); tokens > 0) {
        next = i + tokens;
        break;
      }
    if (next == i) return {};
    std::size_t verb = next;
    static constexpr std::string_view hows[] = {"last",   "final",  "nice", "proper",
                                                "little", "gentle", "brief"};
    while (verb < line_.size() &&
           (FormMatcher::is_how(line_.text(verb)) || base::is_any_of(std::string_view(word(verb)), hows)))
      ++verb;
    bool is_worked = word(verb) == "stir" || word(verb) == "shake" || word(verb) == "swizzle" ||
                     word(verb) == "churn" || word(verb) == "blend";
    std::size_t behind = verb + 1;
    bool ends = behind >= line_.size() || is_comma(behind) || word(behind) == "and" ||
                word(behind) == "for" || word(behind) == "with" || word(behind) == "over" ||
                word(behind) == "to" || word(behind) == "in" || is_number(behind);
    if (!is_worked || !ends || is_part_of_name(verb)) return {};
    if (verb == next) return {verb + 1 - i, std::string(word(verb)), 0};
    std::string how = base::collapse_space(line_.raw(next, verb));
    return {verb + 1 - i,
            (behind >= line_.size() || is_comma(behind)) ? word(verb) + ", \"" + how + "\"" : word(verb), 0};
  }

  /// `8 or so mint leaves`: about as many.
  Spelled or_so(std::size_t i) const {
    if (i == 0 || line_.kind(i - 1) != TokenKind::number || word(i) != "or" || word(i + 1) != "so") return {};
    return {2, "", 0};
  }

  /// `blend with a cup of ice`
  Spelled scoop_of_ice(std::size_t i) const {
    if (i == 0 || word(i) != "a" || word(i - 1) != "with" || word(i + 1) != "cup") return {};
    return {1, "1", 0};
  }

  /// `shake, ds into a coupe`: behind a shake it is the double strain.
  Spelled double_strain_short(std::size_t i) const {
    // `hard shake, fine strain`: alone it is asked for its time.
    if (word(i) == "hard" && word(i + 1) == "shake" && begins_step(line_, i) && line_.size() > 2 &&
        (is_last(i + 1) || is_comma(i + 2) || word(i + 2) == "and" || word(i + 2) == "then" ||
         word(i + 2) == "&" || word(i + 2) == "+"))
      return {2, "shake, \"hard\"", 0};
    if (word(i) != "ds" || i == 0 || !begins_step(line_, i)) return {};
    for (std::size_t k = 0; k < i; ++k)
      if (word(k) == "shake" || word(k) == "shaken") return {1, "double strain", 0};
    return {};
  }

  /// `serves two`
  Spelled worded_serves(std::size_t i) const {
    if (i == 0 || word(i - 1) != "serves") return {};
    auto number = FormMatcher::number_of(word(i));
    if (!number || number->find('/') != std::string_view::npos) return {};
    return {1, std::string(*number), 0};
  }

  /// `250 ml milk, heated to 70 C`: how warm it goes in.
  Spelled warmed_to(std::size_t i) const {
    if (i == 0 || !is_comma(i - 1) || !is_number(segment(i - 1))) return {};
    for (std::string_view how : {"heated to", "heated up to", "warmed to", "warmed up to", "brought to",
                                 "brought up to", "cooled to", "chilled to"})
      if (std::size_t tokens = phrase_at(line_, i, how);
          tokens > 0 && measure_kind(i + tokens) == units::Kind::temperature)
        return {tokens, "at", 0};
    return {};
  }

  const LineView line_;
  const Context& context_;
  bool in_prep_;
};

Spelled spelled_at(const LineView& line, const Context& context, std::size_t i, bool in_prep) {
  if (begins_step(line, i)) {
    if (auto step = step_spelled_at(line, i, step_spellings); step.tokens > 0) return step;
    if (in_prep)
      if (auto step = step_spelled_at(line, i, prep_step_spellings); step.tokens > 0) return step;
    bool cooks = in_prep && i == 0 && line.is_word(0, "cook");
    if (cooks && (line.kind(1) == TokenKind::number || line.is_word(1, "for"))) return {1, "simmer", 0};
  }
  for (const auto& spelling : spellings)
    if (std::size_t tokens = phrase_at(line, i, spelling.written); tokens > 0) {
      // A sign between names is theirs to read; between steps it is `and`. `n` stands for nothing else.
      bool is_sign = spelling.meant == "and";
      bool is_letter =
          spelling.written == "n" && line.text(i) == "n" && i > 0 && !line.is_word(i - 1, "nick");
      if (is_sign && !is_letter && !begins_form_of_step(line, i + 1)) continue;
      // A house may call a thing so itself.
      if (Marks(line, context, in_prep).is_part_of_name(i)) continue;
      return {tokens, std::string(spelling.meant), 0};
    }
  if (auto marked = Marks(line, context, in_prep).at(i); marked.tokens > 0) return marked;
  return run_together(line, i);
}

}  // namespace

std::optional<Reading> spelled_out(const LineView& line, const Context& context, bool in_prep) {
  Reading reading;
  bool changed = false;
  std::size_t done = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    // From a step in words on, everything is theirs.
    bool begins = i == 0 || line.kind(i - 1) == TokenKind::comma || (changed && done == i);
    if (auto verb = begins ? match_verb(line, i) : std::nullopt; verb && info(verb->verb).takes_words) break;
    auto spelled = spelled_at(line, context, i, in_prep);
    if (spelled.tokens == 0) continue;
    reading.copy(line, done, i);
    reading.copy_start(line, i, spelled.kept).say(spelled.meant);
    i += spelled.tokens - 1;
    done = i + 1;
    changed = true;
  }
  if (!changed) return std::nullopt;
  reading.copy(line, done, line.size());
  return reading;
}

}  // namespace gill::analysis
