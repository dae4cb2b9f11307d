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
    {"lg", "large"},       {"lge", "large"},
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
    {"blitz with stick blender", "blend with stick blender"},
    {"blitz with a stick blender", "blend with a stick blender"},
    {"blitz with hand blender", "blend with hand blender"},
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
    {"no ice shake", "dry shake"},
    {"iceless shake", "dry shake"},
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
    {"back in bottle", "bottle"},
    {"back in bottles", "bottle"},
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
    for (auto one : {&Marks::sentence_end,
                     &Marks::parting_sign,
                     &Marks::slash,
                     &Marks::at_sign,
                     &Marks::seconds,
                     &Marks::about_sign,
                     &Marks::two_temperatures,
                     &Marks::every_day,
                     &Marks::then_with_ice,
                     &Marks::poured_how,
                     &Marks::half_in_brackets,
                     &Marks::glued,
                     &Marks::filter_in_brackets,
                     &Marks::brackets,
                     &Marks::warmed_to,
                     &Marks::label,
                     &Marks::leading_word,
                     &Marks::said_of_time,
                     &Marks::range_of_time,
                     &Marks::worded_time,
                     &Marks::shakes_of_sauce,
                     &Marks::simple_of,
                     &Marks::part_of_egg,
                     &Marks::given,
                     &Marks::double_strain_short,
                     &Marks::worded_serves,
                     &Marks::scoop_of_ice,
                     &Marks::or_so,
                     &Marks::two_names_in_one,
                     &Marks::last_word_in_short,
                     &Marks::dashes_in_short,
                     &Marks::least_time,
                     &Marks::roughly_made,
                     &Marks::time_at_the_end,
                     &Marks::dashed_measure,
                     &Marks::half_a_rim,
                     &Marks::place_in_brackets,
                     &Marks::said_while,
                     &Marks::one_bottle,
                     &Marks::warmth_said,
                     &Marks::then_rests,
                     &Marks::bottles_of,
                     &Marks::hours_in_the_warm,
                     &Marks::all_agave,
                     &Marks::floats_on_top})
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
    // `garnish - lemon twist`: the dash parts the keyword from what it says.
    static constexpr std::string_view keywords[] = {"garnish", "garn", "glass", "ice",
                                                    "method",  "rim",  "side",  "serve"};
    if (is_dash && i == 1 && !is_last(i) && !in_prep_ && base::is_any_of(std::string_view(word(0)), keywords))
      return {1, "", 0};
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
        !line_.is_word(i, "swirl") && !line_.is_word(i, "taste") && !line_.is_word(i, "tasting") &&
        !line_.is_word(i, "checking") && !line_.is_word(i, "shaking") && !line_.is_word(i, "stirring") &&
        !line_.is_word(i, "turning"))
      return {};
    if (line_.is_word(i, "taste") || line_.is_word(i, "tasting") || line_.is_word(i, "checking"))
      return {segment_end(i) - i, "\"" + base::collapse_space(line_.raw(i, segment_end(i))) + "\"", 0};
    // `stir every 10 min`
    if (std::size_t stop = segment_end(i);
        line_.is_word(i + 1, "every") && i + 4 == stop && is_number(i + 2) && is_time_unit(i + 3))
      return {4, "\"" + base::collapse_space(line_.raw(i, stop)) + "\"", 0};
    for (std::string_view often :
         {"daily", "every day", "once a day", "twice a day", "twice daily", "every hour", "every few hours",
          "occasionally", "now and then", "from time to time"})
      if (std::size_t tokens = phrase_at(line_, i + 1, often);
          tokens > 0 && (i + 1 + tokens >= line_.size() || is_comma(i + 1 + tokens)))
        return {1 + tokens, "\"" + base::collapse_space(line_.raw(i, i + 1 + tokens)) + "\"", 0};
    return {};
  }

  /// `dry shake 20 s then with ice 60 s`
  Spelled then_with_ice(std::size_t i) const {
    auto verb = match_verb(line_, segment(i));
    if (in_prep_ || i == 0 || word(i) != "then" || !verb || verb->verb != Verb::dry_shake) return {};
    for (std::string_view again :
         {"then with ice", "then hard with ice", "then over ice", "then wet", "then again with ice"})
      if (std::size_t tokens = phrase_at(line_, i, again); tokens > 0 && is_number(i + tokens))
        return {tokens, is_comma(i - 1) ? "shake" : ", shake", 0};
    return {};
  }

  /// `top with 2 oz soda poured slow`: how.
  Spelled poured_how(std::size_t i) const {
    if (in_prep_ || i < 2 || is_comma(i - 1) || word(i) != "poured" ||
        !FormMatcher::is_how(word(i + 1) == "slow" ? "slowly" : word(i + 1)))
      return {};
    if (i + 2 != segment_end(i)) return {};
    return {2, ", \"" + base::collapse_space(line_.raw(i, i + 2)) + "\"", 0};
  }

  /// `salt rim (half)`
  Spelled half_in_brackets(std::size_t i) const {
    if (i == 0 || word(i) != "(half)" || word(i - 1) != "rim") return {};
    return {1, ", half", 0};
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
    // `soda on top (90 ml)`
    if (!in_prep_ && base::is_digit(text[1]) && word(i - 1) == "top" && i > first + 1) {
      std::size_t end = i;
      while (end < line_.size() && !is_comma(end) && !word(end).ends_with(")")) ++end;
      if (end < line_.size() && word(end).ends_with(")")) {
        std::string measure = base::collapse_space(line_.raw(i, end + 1));
        return {end + 1 - i, ", " + measure.substr(1, measure.size() - 2), 0};
      }
    }
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
    // `rest a further 24 h`, `for a good 2 h`
    if (i > 0 && word(i) == "a" && is_number(i + 2) && is_time_unit(i + 3))
      for (std::string_view more : {"further", "good", "full", "solid", "total"})
        if (word(i + 1) == more) return {2, "", 0};
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

  /// `limejuice`, `eggwhite`, `gingerbeer`: two words of a name that are run together.
  Spelled two_names_in_one(std::size_t i) const {
    constexpr std::size_t shortest = 6, longest = 30, shortest_part = 3;
    std::string text = word(i);
    if (text.size() < shortest || text.size() > longest || is_part_of_name(i) || unit(i).unit.valid() ||
        is_step(i))
      return {};
    if (text.find_first_not_of("abcdefghijklmnopqrstuvwxyz") != std::string::npos) return {};
    for (std::size_t split = shortest_part; split + shortest_part <= text.size(); ++split) {
      std::string parted = text.substr(0, split) + " " + text.substr(split);
      if (context_.names.find(symbols::NameSpace::stock, parted).valid()) return {1, parted, 0};
    }
    return {};
  }

  /// `25 ml lemon j`, `coffee liq 25 ml`, `sweet verm`: a name whose last word is written short.
  Spelled last_word_in_short(std::size_t i) const {
    static constexpr Spelling shorts[] = {{"j", "juice"},          {"jc", "juice"},      {"jce", "juice"},
                                          {"juic", "juice"},       {"juce", "juice"},    {"liq", "liqueur"},
                                          {"liqueuer", "liqueur"}, {"verm", "vermouth"}, {"syr", "syrup"},
                                          {"syp", "syrup"},        {"bitt", "bitters"},  {"purre", "puree"}};
    if (i == 0) return {};
    auto found = std::find_if(std::begin(shorts), std::end(shorts),
                              [&](const Spelling& one) { return one.written == word(i); });
    if (found == std::end(shorts) || is_part_of_name(i)) return {};
    for (std::size_t first = i >= 3 ? i - 3 : 0; first < i; ++first) {
      std::size_t bad = 0;
      std::string whole = base::collapse_space(line_.raw(first, i)) + " " + std::string(found->meant);
      if (syntax::is_plain_name(line_, first, i, bad) &&
          context_.names.find(symbols::NameSpace::stock, whole).valid())
        return {1, std::string(found->meant), 0};
    }
    return {};
  }

  /// `2 ds aromatic bitters`: behind a number nothing is strained.
  Spelled dashes_in_short(std::size_t i) const {
    static constexpr std::string_view shorts[] = {"ds", "dsh", "dshs", "dhs", "dsh.", "ds."};
    if (i == 0 || !is_number(i - 1) || !base::is_any_of(std::string_view(word(i)), shorts)) return {};
    std::size_t name = word(i + 1) == "of" ? i + 2 : i + 1, stop = segment_end(i);
    bool is_bitters = name < stop && context_.names
                                         .find(symbols::NameSpace::stock,
                                               base::collapse_space(line_.raw(name, stop)) + " bitters")
                                         .valid();
    if (name >= stop || !(find_use(LineReader(line_, context_), name, stop) || is_bitters)) return {};
    return {1, "dashes", 0};
  }

  /// `at least 24 h`, `24 h minimum`, `min 24 h`: so long, and that it is no less is said behind it.
  Spelled least_time(std::size_t i) const {
    if (i == 0 || !is_step(segment(i))) return {};
    if (i > 1 && is_time_unit(i - 1) && is_number(i - 2) && (is_last(i) || is_comma(i + 1))) {
      for (std::string_view behind : {"minimum", "at least", "or more", "or longer", "plus"})
        if (std::size_t tokens = phrase_at(line_, i, behind);
            tokens > 0 && (i + tokens >= line_.size() || is_comma(i + tokens)))
          return {tokens, ", \"" + std::string(behind) + "\"", 0};
      return {};
    }
    for (std::string_view before : {"at least", "minimum", "a minimum of", "no less than", "min", "min.",
                                    "for at least", "for minimum", "for a minimum of"})
      if (std::size_t tokens = phrase_at(line_, i, before); tokens > 0 && is_number(i + tokens)) {
        std::size_t time = i + tokens, stop = time + 1 + unit(time + 1).tokens;
        if (!is_time_unit(time + 1)) return {};
        std::string said = base::collapse_space(line_.raw(time, stop));
        if (stop >= line_.size() || is_comma(stop)) return {stop - i, said + ", \"at least\"", 0};
      }
    return {};
  }

  /// `stir over ice in the jug 30 s`: the time behind the place.
  Spelled time_at_the_end(std::size_t i) const {
    auto verb = match_verb(line_, segment(i));
    if (!verb || in_prep_ || segment(i) + verb->tokens != i) return {};
    if (verb->verb != Verb::stir && verb->verb != Verb::swizzle && verb->verb != Verb::churn &&
        verb->verb != Verb::muddle)
      return {};
    std::size_t stop = segment_end(i), time = stop;
    bool has_place = false;
    for (std::size_t k = i; k + 1 < stop; ++k) {
      has_place = has_place || word(k) == "in" || word(k) == "into";
      if (has_place && is_number(k) && is_time_unit(k + 1) && k + 1 + unit(k + 1).tokens == stop) time = k;
    }
    if (time == stop || time <= i) return {};
    std::size_t place = word(time - 1) == "for" ? time - 1 : time;
    return {stop - i,
            base::collapse_space(line_.raw(time, stop)) + " " + base::collapse_space(line_.raw(i, place)), 0};
  }

  /// `soda on top - about 60 ml`: the dash parts how much.
  Spelled dashed_measure(std::size_t i) const {
    if (i < 2 || in_prep_ || (word(i) != "-" && word(i) != "–" && word(i) != "—")) return {};
    std::size_t number = word(i + 1) == "about" || word(i + 1) == "approx" ? i + 2 : i + 1;
    if (!measure_kind(number) || number + 1 + unit(number + 1).tokens != segment_end(i)) return {};
    for (std::size_t k = segment(i); k < i; ++k)
      if (word(k) == "top" || word(k) == "float" || word(k) == "fill") return {1, ",", 0};
    return {};
  }

  /// `1/2 salt rim`
  Spelled half_a_rim(std::size_t i) const {
    if (in_prep_ || !begins_step(line_, i) || i >= line_.size() ||
        (line_.text(i) != "1/2" && line_.text(i) != "½"))
      return {};
    std::size_t stop = segment_end(i);
    for (std::size_t k = i + 1; k < stop && k < i + 4; ++k)
      if (word(k) == "rim") return {1, "half", 0};
    return {};
  }

  /// `2 weeks (fridge)`: where it keeps.
  Spelled place_in_brackets(std::size_t i) const {
    static constexpr std::string_view places[] = {"(fridge)",  "(chilled)",      "(frozen)", "(freezer)",
                                                  "(ambient)", "(refrigerated)", "(shelf)"};
    if (!in_prep_ || i == 0 || !base::is_any_of(std::string_view(word(i)), places) || !is_time_unit(i - 1))
      return {};
    std::string text = word(i);
    return {1, text.substr(1, text.size() - 2), 0};
  }

  /// `1 l water, boiling`: how warm it goes in, and no remark.
  Spelled warmth_said(std::size_t i) const {
    static constexpr Spelling warmths[] = {
        {"boiling", "at 100 C"},  {"boiling hot", "at 100 C"}, {"at the boil", "at 100 C"},
        {"just boiled", "hot"},   {"very hot", "hot"},         {"piping hot", "hot"},
        {"steaming hot", "hot"},  {"still hot", "hot"},        {"warm", "at 50 C"},
        {"warmed", "at 50 C"},    {"steamed", "at 65 C"},      {"still warm", "at 50 C"},
        {"lukewarm", "at 35 C"},  {"ice cold", "chilled"},     {"ice-cold", "chilled"},
        {"very cold", "chilled"}, {"fridge cold", "chilled"}};
    if (i < 2 || !is_comma(i - 1) || line_.kind(segment(i - 1)) != TokenKind::number) return {};
    for (const auto& one : warmths)
      if (std::size_t tokens = phrase_at(line_, i, one.written); tokens > 0 && i + tokens == segment_end(i))
        return {tokens, std::string(one.meant), 0};
    return {};
  }

  /// `stir, then 6 h at room temperature`: it rests so long.
  Spelled then_rests(std::size_t i) const {
    if (!in_prep_ || i == 0 || word(i) != "then" || !is_number(i + 1) || !is_time_unit(i + 2)) return {};
    std::size_t place = i + 2 + unit(i + 2).tokens;
    static constexpr std::string_view leads[] = {"at",     "in",           "on",     "room",
                                                 "fridge", "refrigerated", "covered"};
    if (!base::is_any_of(std::string_view(word(place)), leads)) return {};
    return {1, is_comma(i - 1) ? "rest" : ", rest", 0};
  }

  /// `mix, 3 hours at room temperature`: nobody keeps a thing for hours in the warm.
  Spelled hours_in_the_warm(std::size_t i) const {
    if (!in_prep_ || i == 0 || !is_comma(i - 1) || line_.kind(i) != TokenKind::number || !is_time_unit(i + 1))
      return {};
    const auto& time = context_.units[unit(i + 1).unit].symbol;
    std::size_t place = i + 1 + unit(i + 1).tokens;
    if ((time != "h" && time != "min") || !(match_verb(line_, segment(i - 1)))) return {};
    for (std::string_view warm : {"room temp", "room temperature", "at room temp", "at room temperature",
                                  "on the counter", "on the bench"})
      if (std::size_t tokens = phrase_at(line_, place, warm);
          tokens > 0 && place + tokens == segment_end(i)) {
        std::string said = base::collapse_space(line_.raw(i, place));
        return {place - i, "rest " + said, 0};
      }
    return {};
  }

  /// `tequila 100% agave`: what the label says.
  Spelled all_agave(std::size_t i) const {
    bool is_all =
        i > 0 && i + 2 < line_.size() && line_.text(i) == "100" && line_.kind(i + 1) == TokenKind::percent;
    return is_all && word(i + 2) == "agave" ? Spelled{3, "", 0} : Spelled{};
  }

  /// `float lightly whipped cream on top`
  Spelled floats_on_top(std::size_t i) const {
    auto verb = match_verb(line_, segment(i));
    if (in_prep_ || !verb || (verb->verb != Verb::float_ && verb->verb != Verb::layer)) return {};
    for (std::string_view where : {"on top", "over the top", "on the top"})
      if (std::size_t tokens = phrase_at(line_, i, where); tokens > 0 && i + tokens == segment_end(i))
        return {tokens, ", \"" + std::string(where) + "\"", 0};
    return {};
  }

  /// `filter (V60)`: through that.
  Spelled filter_in_brackets(std::size_t i) const {
    std::string text = word(i);
    if (!in_prep_ || i == 0 || word(i - 1) != "filter" || text.size() < 3 || text[0] != '(' ||
        text.back() != ')')
      return {};
    return {1, "through " + text.substr(1, text.size() - 2), 0};
  }

  /// `bottles 750 ml`
  Spelled bottles_of(std::size_t i) const {
    if (!in_prep_ || word(i) != "bottles" || !begins_step(line_, i)) return {};
    return measure_kind(i + 1) == units::Kind::volume ? Spelled{1, "bottle", 0} : Spelled{};
  }

  /// `sugar 300 g while hot`: when it goes in.
  Spelled said_while(std::size_t i) const {
    if (!in_prep_ || i < 2 || is_comma(i - 1) || is_step(segment(i))) return {};
    for (std::string_view when :
         {"while hot", "while warm", "while still hot", "while still warm", "whilst hot"})
      if (std::size_t tokens = phrase_at(line_, i, when); tokens > 0 && i + tokens == segment_end(i))
        return {tokens, ", \"" + std::string(when) + "\"", 0};
    return {};
  }

  /// `dark rum 1 bottle 75 cl`: as much as it holds.
  Spelled one_bottle(std::size_t i) const {
    bool is_one = i < line_.size() && line_.kind(i) == TokenKind::number && line_.text(i) == "1";
    if (!is_one || i == 0 || (word(i + 1) != "bottle" && word(i + 1) != "can" && word(i + 1) != "carton"))
      return {};
    std::size_t size = word(i + 2) == "of" ? i + 3 : i + 2;
    if (measure_kind(size) != units::Kind::volume || size + 1 + unit(size + 1).tokens != segment_end(i))
      return {};
    return {size + 1 - i, std::string(line_.text(size)), 0};
  }

  /// `makes 1 l or so`, `yields approx 1 l`
  Spelled roughly_made(std::size_t i) const {
    if (word(0) != "makes" || i < 2 || !is_number(1) || !unit(2).unit.valid()) return {};
    if (i != 2 + unit(2).tokens) return {};
    for (std::string_view behind :
         {"or so", "or thereabouts", "approx", "approximately", "roughly", "ish", "-ish"})
      if (phrase_at(line_, i, behind) == line_.size() - i) return {line_.size() - i, "", 0};
    return {};
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
    for (std::string_view cook :
         {"cook down", "cook on low heat", "cook on a low heat", "cook on low", "cook gently",
          "cook over low heat", "cook over a low heat", "cook slowly", "cook low"})
      if (std::size_t tokens = in_prep ? phrase_at(line, i, cook) : 0;
          tokens > 0 && (line.kind(i + tokens) == TokenKind::number || line.is_word(i + tokens, "for")))
        return {tokens, "simmer", 0};
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
