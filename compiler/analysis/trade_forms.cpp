#include "analysis/trade_forms.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <optional>

#include "analysis/read_recipe.h"
#include "base/text.h"
#include "syntax/parse.h"

namespace gill::analysis {

using syntax::LineView;
using syntax::TokenKind;
using units::Kind;
using units::QuantityReader;

/// A line that is being written anew, with where each of its words comes from.
struct Reading {
  std::string text;
  std::vector<source::ReadFrom> parts;
  Implied implied = Implied::no;

  Reading& say(std::string_view words) {
    if (words.empty()) return *this;
    if (!text.empty() && words.front() != ',') text += ' ';
    text += words;
    return *this;
  }
  /// Words as they were written; nothing where there are none.
  Reading& copy(const LineView& line, std::size_t first, std::size_t last) {
    if (last <= first) return *this;
    if (!text.empty()) text += ' ';
    auto begin = static_cast<std::uint32_t>(text.size());
    text += base::collapse_space(line.raw(first, last));
    parts.push_back({begin, static_cast<std::uint32_t>(text.size()), line.span(first, last)});
    return *this;
  }
};

namespace {

/// Longest line that is looked through for the trade's forms: a line of thousands of words is no line of a
/// bar.
constexpr std::size_t max_tokens = 60;

using WordList = std::initializer_list<std::string_view>;

Reading say(std::string_view words) { return Reading().say(words); }
/// A property that a step says in passing.
Reading implied(std::string_view words) {
  Reading reading = say(words);
  reading.implied = Implied::named;
  return reading;
}
/// Over ice, whichever the drink is served on.
Reading over_ice() {
  Reading reading = say("ice cubed");
  reading.implied = Implied::any_ice;
  return reading;
}

using Readings = std::vector<Reading>;
using Match = std::optional<Readings>;

/// Tries every form on one stretch of a line.
class FormMatcher {
 public:
  FormMatcher(const LineView& line, const Context& context, bool in_prep, const RecipeState& state)
      : line_(line),
        context_(context),
        in_prep_(in_prep),
        has_shaken_(state.has_shaken),
        was_built_(state.was_built),
        has_step_(state.has_step),
        state_(state),
        end_(line.size()) {
    // Trailing full stops and articles in front are how people write, not what they mean.
    for (std::size_t i = 0; i < end_; ++i)
      words_.push_back(line.kind(i) == TokenKind::word || line.kind(i) == TokenKind::stray
                           ? base::lower_ascii(line.text(i))
                           : std::string());
    words_.resize(end_ + 8);
  }

  Match match() const {
    static constexpr std::array of_both = {
        &FormMatcher::warm_or_cold, &FormMatcher::named_amount,  &FormMatcher::bare_unit,
        &FormMatcher::word_number,  &FormMatcher::fruit_part,    &FormMatcher::range_in_words,
        &FormMatcher::two_measures, &FormMatcher::shared_amount, &FormMatcher::whole_fruit};
    static constexpr std::array of_drink = {
        &FormMatcher::warm_or_cold, &FormMatcher::bare_glass,   &FormMatcher::bare_ice,
        &FormMatcher::muddle_what,  &FormMatcher::strain_where, &FormMatcher::serve_how,
        &FormMatcher::shake_how,    &FormMatcher::until_cold,   &FormMatcher::until_seen,
        &FormMatcher::build_where,  &FormMatcher::ice_goes_in,  &FormMatcher::top_with,
        &FormMatcher::rinse_with,   &FormMatcher::rim_with,     &FormMatcher::no_garnish,
        &FormMatcher::express,      &FormMatcher::grate,        &FormMatcher::add_amount,
        &FormMatcher::adverbs,      &FormMatcher::float_amount, &FormMatcher::garnish_list};
    static constexpr std::array of_prep = {
        &FormMatcher::keeps_how_long,  &FormMatcher::place_and_time, &FormMatcher::boil,
        &FormMatcher::reduce_share,    &FormMatcher::make_up_to,     &FormMatcher::strain_through,
        &FormMatcher::until_dissolved, &FormMatcher::adverbs};
    if (end_ == 0) return std::nullopt;
    if (!in_prep_) {
      for (auto form : of_drink)
        if (auto found = (this->*form)()) return found;
    } else {
      for (auto form : of_prep)
        if (auto found = (this->*form)()) return found;
    }
    for (auto form : of_both)
      if (auto found = (this->*form)()) return found;
    return std::nullopt;
  }

 private:
  // ---- looking at words

  const std::string& word(std::size_t i) const { return words_[std::min(i, words_.size() - 1)]; }
  bool is(std::size_t i, std::string_view text) const { return i < end_ && word(i) == text; }
  bool is_any(std::size_t i, WordList list) const {
    return i < end_ && std::find(list.begin(), list.end(), word(i)) != list.end();
  }
  /// The place after a run of words; nothing where they do not stand there.
  std::optional<std::size_t> after(std::size_t i, std::string_view phrase) const {
    while (!phrase.empty()) {
      auto space = phrase.find(' ');
      if (!is(i++, phrase.substr(0, space))) return std::nullopt;
      phrase = space == std::string_view::npos ? std::string_view() : phrase.substr(space + 1);
    }
    return i;
  }
  std::optional<std::size_t> after_any(std::size_t i, WordList phrases) const {
    std::optional<std::size_t> best;
    for (auto phrase : phrases)
      if (auto next = after(i, phrase); next && (!best || *next > *best)) best = next;
    return best;
  }
  std::size_t skip_article(std::size_t i) const { return is_any(i, {"the", "a", "an", "your"}) ? i + 1 : i; }
  std::size_t comma_or_end(std::size_t i) const {
    while (i < end_ && line_.kind(i) != TokenKind::comma) ++i;
    return i;
  }
  bool begins_quantity(std::size_t i) const { return i < end_ && QuantityReader::begins_quantity(line_, i); }

  // ---- looking at names

  bool is_name(symbols::NameSpace space, std::size_t first, std::size_t last) const {
    std::size_t bad = 0;
    return last > first && syntax::is_plain_name(line_, first, last, bad) &&
           context_.names.find(space, syntax::name_text(line_, first, last)).valid();
  }
  bool is_use(std::size_t first, std::size_t last) const {
    if (last <= first) return false;
    if (find_use(LineReader(line_, context_), first, last)) return true;
    // A word with several meanings is a name, too: its reader asks.
    std::size_t bad = 0;
    return syntax::is_plain_name(line_, first, last, bad) &&
           context_.specs.house.asks.contains(base::fold_name(syntax::name_text(line_, first, last)));
  }
  /// The ice that is named, as its own name: `ice` and `cubes` are cubed; nothing where no ice is.
  std::optional<std::string> ice_named(std::size_t first, std::size_t last) const {
    if (last <= first) return std::nullopt;
    std::string name = base::fold_name(base::collapse_space(line_.raw(first, last)));
    for (std::string_view start : {"the ", "a ", "one ", "some ", "more ", "extra ", "fresh ", "new ",
                                   "lots of ", "loads of ", "plenty of ", "big block of "})
      if (name.starts_with(start)) name = start == "big block of " ? "large cube" : name.substr(start.size());
    if (name == "ice" || name == "cubes" || name == "ice cubes" || name == "cubed ice") return "cubed";
    auto known = [&](const std::string& one) {
      return context_.names.find(symbols::NameSpace::ice, one).valid();
    };
    if (known(name)) return name;
    if (name.ends_with(" ice") && known(name.substr(0, name.size() - 4)))
      return name.substr(0, name.size() - 4);
    if (name.ends_with("s") && known(name.substr(0, name.size() - 1))) return name.substr(0, name.size() - 1);
    return std::nullopt;
  }
  bool is_plain_ice(std::size_t first, std::size_t last) const {
    std::string name = base::fold_name(base::collapse_space(line_.raw(first, last)));
    return name == "ice" ||
           (name.ends_with(" ice") && ice_named(first, last) == std::string("cubed") && name != "cubed ice");
  }
  std::optional<std::size_t> verb_at(std::size_t i, Verb verb) const {
    auto found = match_verb(line_, i);
    return found && found->verb == verb && i < end_ ? std::optional(i + found->tokens) : std::nullopt;
  }
  static Reading& with_rest(Reading& reading, const LineView& line, std::size_t first, std::size_t last) {
    if (first >= last) return reading;
    if (line.kind(first) != TokenKind::comma) return reading.say(",").copy(line, first, last);
    reading.text += ",";
    return reading.copy(line, first + 1, last);
  }

  // ---- glass and ice

  /// The glass and the ice named after `over`, `on`, `into` from `i` on, as implied lines; false when
  /// something else is named.
  bool vessel(std::size_t i, Readings& lines) const {
    while (i < end_) {
      if (line_.kind(i) == TokenKind::comma) return false;
      if (is(i, "up")) {
        lines.push_back(implied("ice none"));
        ++i;
        continue;
      }
      if (auto next = after_any(i, {"over", "on to", "onto", "on", "filled with", "full of", "with"})) {
        std::size_t stop = *next;
        while (stop < end_ && line_.kind(stop) != TokenKind::comma && !is_any(stop, {"in", "into"})) ++stop;
        if (auto ice = ice_named(*next, stop)) {
          lines.push_back(is_plain_ice(*next, stop) ? over_ice() : implied("ice " + *ice));
          i = stop;
          continue;
        }
        if (after(*next, "the rocks")) {
          lines.push_back(over_ice());
          i = *next + 2;
          continue;
        }
        return false;
      }
      if (auto next = after_any(i, {"into", "in to", "in"})) {
        std::size_t first = skip_article(*next);
        bool chilled = is_any(first, {"chilled", "cold"}), frozen = is(first, "frozen"), iced = false;
        if (chilled || frozen) ++first;
        if (is_any(first, {"rinsed", "prepared", "rimmed", "clean"})) ++first;
        if (is_any(first, {"ice-filled", "iced"})) iced = true, ++first;
        std::size_t stop = first;
        while (stop < end_ && line_.kind(stop) != TokenKind::comma &&
               !is_any(stop, {"over", "on", "filled", "with", "full"}))
          ++stop;
        std::size_t last = stop;
        if (last > first + 1 && word(last - 1) == "glass" && !is_name(symbols::NameSpace::glass, first, last))
          --last;
        if (last == first + 1 && is(first, "glass")) {
          i = stop;
          continue;
        }
        if (!is_name(symbols::NameSpace::glass, first, last)) return false;
        Reading glass = implied("glass");
        glass.copy(line_, first, last);
        if (chilled) glass.text += ", chilled";
        if (frozen) glass.text += ", frozen";
        lines.push_back(std::move(glass));
        if (iced) lines.push_back(over_ice());
        i = stop;
        continue;
      }
      return false;
    }
    return true;
  }

  Match strain_where() const {
    for (Verb verb : {Verb::double_strain, Verb::fine_strain, Verb::strain, Verb::dump}) {
      std::optional<std::size_t> at = verb_at(0, verb);
      if (!at && verb == Verb::double_strain)
        at = after_any(0, {"dbl strain", "double-strain", "dirty double strain"});
      if (!at && verb == Verb::fine_strain) at = after_any(0, {"fine-strain"});
      if (!at && verb == Verb::dump) at = after_any(0, {"dirty dump", "open pour", "pour unstrained"});
      if (!at) continue;
      std::size_t stop = comma_or_end(*at);
      std::string_view name = info(verb).name;
      if (*at == stop) {
        if (verb_at(0, verb)) return std::nullopt;
        Reading alone = say(name);
        with_rest(alone, line_, stop, end_);
        return Readings{alone};
      }
      if (after_any(*at, {"to tin", "to the tin"}) && verb_at(0, verb)) return std::nullopt;
      if (auto next =
              after_any(*at, {"into tin", "into the tin", "into a tin", "in the tin", "back into the tin",
                              "back into tin", "back to the tin", "into shaker", "into the shaker",
                              "into a shaker", "back into the shaker", "into a clean tin", "into a fresh tin",
                              "into the other tin", "out the ice", "off the ice"});
          next && *next == stop) {
        Reading tin = say(name).say("to tin");
        with_rest(tin, line_, stop, end_);
        return Readings{tin};
      }
      Readings lines{say(name)};
      LineView head = line_.part(0, stop);
      FormMatcher inner(head, context_, in_prep_, state_);
      if (!inner.vessel(*at, lines)) return std::nullopt;
      with_rest(lines.front(), line_, stop, end_);
      return lines;
    }
    return std::nullopt;
  }

  Match serve_how() const {
    std::size_t i = is_any(0, {"serve", "served"}) ? 1 : 0;
    std::size_t stop = comma_or_end(i);
    if (stop != end_) return std::nullopt;
    if (auto next = after_any(i, {"on the rocks", "on rocks", "on ice", "over ice", "over the rocks"});
        next && *next == stop)
      return Readings{over_ice()};
    if (auto next = after_any(i, {"up", "straight up", "without ice"});
        next && *next == stop && (i == 1 || !is(0, "up")))
      return Readings{implied("ice none")};
    if (i == 1) {
      Readings lines;
      if (i < end_ && vessel(i, lines)) return lines;
    }
    return std::nullopt;
  }

  Match build_where() const {
    auto at = verb_at(0, Verb::build);
    if (!at) return std::nullopt;
    std::size_t stop = comma_or_end(*at);
    if (*at == stop) return std::nullopt;
    Readings lines;
    LineView head = line_.part(0, stop);
    if (!FormMatcher(head, context_, in_prep_, state_).vessel(*at, lines)) return std::nullopt;
    Reading build = say("build");
    with_rest(build, line_, stop, end_);
    // The ice goes in with `build`, so it is said before.
    lines.push_back(build);
    return lines;
  }

  // ---- shaking and stirring

  static bool is_adverb(std::string_view word) {
    static constexpr std::array<std::string_view, 17> adverbs = {
        "hard",   "vigorously", "gently",     "briefly", "well",   "quickly",
        "slowly", "lightly",    "thoroughly", "softly",  "firmly", "carefully",
        "short",  "briskly",    "very",       "really",  "fast"};
    return std::find(adverbs.begin(), adverbs.end(), word) != adverbs.end();
  }

  /// `hard shake`, `shake hard 12 s`, `shake hard, 12 s`, `shake with ice for 10 s`: how and how long, in any
  /// order.
  Match adverbs() const {
    std::size_t i = 0;
    std::vector<std::size_t> how;
    while (i < end_ && is_adverb(word(i))) how.push_back(i++);
    auto verb = i < end_ ? match_verb(line_, i) : std::nullopt;
    if (!verb || info(verb->verb).takes_words || info(verb->verb).name_slot != VerbInfo::Name::never)
      return std::nullopt;
    i += verb->tokens;
    std::size_t rest = i;
    while (rest < end_ && is_adverb(word(rest))) how.push_back(rest++);
    if (how.empty()) return std::nullopt;
    // `hard shake` alone is asked for its time.
    bool leads = is_adverb(word(0));
    if (leads && rest == end_) return std::nullopt;
    Reading reading = say(info(verb->verb).name);
    std::size_t stop = comma_or_end(rest);
    if (stop == rest && rest < end_ && is_time(rest + 1, comma_or_end(rest + 1))) {
      // The time stands behind a comma.
      stop = comma_or_end(rest + 1);
      reading.copy(line_, rest + 1, stop);
    } else {
      reading.copy(line_, rest, stop);
    }
    reading.text += ", \"";
    for (std::size_t k = 0; k < how.size(); ++k) reading.text += (k > 0 ? " " : "") + word(how[k]);
    reading.text += "\"";
    with_rest(reading, line_, stop, end_);
    return Readings{reading};
  }

  bool is_time(std::size_t first, std::size_t last) const {
    if (!begins_quantity(first) || line_.kind(first) == TokenKind::comma) return false;
    std::size_t at = first + 1;
    if (at < last && line_.kind(at) == TokenKind::dots) at += 2;
    auto match = context_.units.match(line_, at);
    return match.unit.valid() && context_.units[match.unit].kind == Kind::time && at + match.tokens == last;
  }

  Match shake_how() const {
    bool reverse = is(0, "reverse") && verb_at(1, Verb::dry_shake);
    if (reverse) {
      std::size_t at = *verb_at(1, Verb::dry_shake);
      Readings lines;
      if (!has_shaken_) lines.push_back(say("shake 12 s"));
      lines.push_back(say("strain to tin"));
      Reading dry = say("dry shake");
      if (is_time(at, comma_or_end(at))) dry.copy(line_, at, comma_or_end(at));
      with_rest(dry, line_, comma_or_end(at), end_);
      lines.push_back(dry);
      return lines;
    }
    if (is(0, "wet") && is(1, "shake")) {
      Reading wet = say("shake");
      wet.copy(line_, 2, end_);
      return Readings{wet};
    }
    // `shake without ice 10 s` is a dry shake.
    if (auto next = after_any(0, {"shake without ice", "shake dry", "shake with no ice"})) {
      Reading dry = say("dry shake");
      dry.copy(line_, *next, end_);
      return Readings{dry};
    }
    // `shake with ice 10 s`, `stir over ice for 30 s`, `shake for 12 s`: the time goes first.
    auto verb = match_verb(line_, 0);
    if (!verb || !info(verb->verb).takes_ice) return std::nullopt;
    std::size_t i = verb->tokens, stop = comma_or_end(i);
    std::size_t time = stop, time_end = stop, ice = stop, ice_end = stop;
    while (i < stop) {
      if (auto next = after_any(i, {"with", "over", "on"})) {
        ice = *next;
        ice_end = ice;
        while (ice_end < stop && !is(ice_end, "for") &&
               !(ice_end > ice && is_time(ice_end, time_stop(ice_end, stop))))
          ++ice_end;
        if (is_any(ice_end - 1, {"and", "then"})) return std::nullopt;
        i = ice_end;
      } else if (is(i, "for") || is_time(i, time_stop(i, stop))) {
        time = is(i, "for") ? i + 1 : i;
        time_end = time_stop(time, stop);
        if (!is_time(time, time_end)) return std::nullopt;
        i = time_end;
      } else {
        return std::nullopt;
      }
    }
    bool plain = ice < ice_end && is_plain_ice(ice, ice_end);
    bool in_order =
        !(ice < ice_end) || (!is(verb->tokens, "with") ? time < ice && is(ice - 1, "with") : false);
    if (in_order && !(plain && was_built_) && !is(verb->tokens, "for")) return std::nullopt;
    if (ice < ice_end && !plain && !begins_quantity(ice) && !ice_named(ice, ice_end)) return std::nullopt;
    Reading reading = say(info(verb->verb).name);
    reading.copy(line_, time, time_end);
    // On the glass's own ice after `build`, plain ice is that ice.
    if (ice < ice_end && !(plain && was_built_)) reading.say("with").copy(line_, ice, ice_end);
    with_rest(reading, line_, stop, end_);
    return Readings{reading};
  }

  std::size_t time_stop(std::size_t i, std::size_t stop) const {
    for (std::size_t last = i + 2; last <= stop && last <= i + 5; ++last)
      if (is_time(i, last)) return last;
    return i;
  }

  /// `stir until cold`: as long as one usually does.
  Match until_cold() const {
    auto verb = match_verb(line_, 0);
    if (!verb || info(verb->verb).usual_s <= 0) return std::nullopt;
    std::size_t i = verb->tokens;
    while (i < end_ && is_adverb(word(i))) ++i;
    auto next = after_any(
        i, {"until cold", "until chilled", "until well chilled", "until ice cold", "until very cold",
            "until frosty", "until the tin frosts", "until frosted", "till cold", "to chill",
            "to chill and dilute", "until cold and diluted", "until chilled and diluted"});
    if (!next || comma_or_end(*next) != *next) return std::nullopt;
    Reading reading = say(fmt::format("{} {} s, \"{}\"", info(verb->verb).name, info(verb->verb).usual_s,
                                      base::collapse_space(line_.raw(verb->tokens, *next))));
    with_rest(reading, line_, *next, end_);
    return Readings{reading};
  }

  /// `blend with ice until smooth`: how one sees that it is done.
  Match until_seen() const {
    auto verb = match_verb(line_, 0);
    if (!verb || info(verb->verb).takes_words || info(verb->verb).name_slot != VerbInfo::Name::never)
      return std::nullopt;
    std::size_t i = verb->tokens;
    while (i < end_ && !is_any(i, {"until", "till", "til"}) && line_.kind(i) != TokenKind::comma) ++i;
    std::size_t stop = comma_or_end(i);
    if (i >= stop || i + 1 >= stop || !is_any(i, {"until", "till", "til"})) return std::nullopt;
    Reading reading = say(info(verb->verb).name);
    reading.copy(line_, verb->tokens, i);
    reading.text += ", \"until " + base::collapse_space(line_.raw(i + 1, stop)) + "\"";
    with_rest(reading, line_, stop, end_);
    return Readings{reading};
  }

  // ---- ice at its moment

  Match ice_goes_in() const {
    auto reading = [&](std::size_t first, std::size_t last, bool fills) -> Match {
      auto ice = ice_named(first, last);
      // `4 large cubes`: what follows the number is ice.
      if (!ice && begins_quantity(first)) {
        auto unit = unit_at(first + 1);
        if (ice_named(unit ? *unit : first + 1, last)) ice = base::collapse_space(line_.raw(first, last));
      }
      if (!ice) return std::nullopt;
      Reading add = say("add");
      if (is_plain_ice(first, last))
        add.say("ice");
      else
        add.say(*ice);
      if (fills) add.text += ", \"to the brim\"";
      with_rest(add, line_, last, end_);
      return Readings{add};
    };
    std::size_t stop = comma_or_end(0);
    if (auto next = after_any(0, {"fill with", "fill the glass with", "fill glass with", "fill up with",
                                  "fill it with", "pack with", "pack the glass with", "top with",
                                  "top up with", "cap with", "crown with", "mound with"}))
      return reading(*next, stop, false);
    if (is(0, "add") && 1 < stop) {
      std::size_t last = stop;
      for (std::size_t i = 1; i + 1 < stop; ++i)
        if (is_any(i, {"to", "into"})) {
          last = i;
          break;
        }
      if (last == stop && verb_at(0, Verb::add_ice) &&
          (is_plain_ice(1, stop) || !is_any(1, {"the", "a", "fresh"})) && ice_named(1, stop))
        return std::nullopt;
      if (!begins_quantity(1) || !is_amount(1, last)) return reading(1, last, false);
    }
    return std::nullopt;
  }

  /// `add 15 ml lime juice`: an amount at this place.
  Match add_amount() const {
    if (!is(0, "add") || !begins_quantity(1)) return std::nullopt;
    if (!is_amount(1, comma_or_end(1))) return std::nullopt;
    Reading amount;
    amount.copy(line_, 1, end_);
    return Readings{amount};
  }

  bool is_amount(std::size_t first, std::size_t last) const {
    if (!begins_quantity(first)) return false;
    LineView part = line_.part(first, last);
    std::size_t at = 0;
    diagnostics::DiagnosticSink silent;
    QuantityReader reader(part, context_.units, silent);
    auto number = reader.read_number(at);
    if (!number) return false;
    LineReader inner(part, context_);
    if (find_use(inner, at, part.size())) return true;
    auto match = context_.units.match(part, at);
    if (!match.unit.valid()) return false;
    at += match.tokens;
    if (part.is_word(at, "of")) ++at;
    return find_use(inner, at, part.size()).has_value();
  }

  // ---- tops, rinses, rims, garnish

  Match top_with() const {
    auto next = after_any(
        0, {"top with", "top up with", "top off with", "top w/", "top up w/", "fill with", "fill up with",
            "fill w/", "fill the glass with", "fill glass with", "fill to the top with", "finish with",
            "lengthen with", "charge with", "top up", "topped with", "topped up with", "finish w/"});
    if (!next) {
      // `tonic water to top`: the name first.
      std::size_t name_end = 1;
      while (name_end < end_ && !is(name_end, "to")) ++name_end;
      auto last = after_any(name_end, {"to top", "to top up", "to fill", "to finish"});
      if (!last || *last != comma_or_end(0) || begins_quantity(0) || !is_use(0, name_end))
        return std::nullopt;
      Reading top = say("top");
      top.copy(line_, 0, name_end);
      with_rest(top, line_, *last, end_);
      return Readings{top};
    }
    if (*next >= end_) return std::nullopt;
    std::size_t first = skip_article(*next), stop = comma_or_end(first);
    if (ice_named(first, stop)) return std::nullopt;
    if (after(0, "top with") && is_use(first, stop)) return std::nullopt;  // the language's own
    // `a splash of soda water`, `60 ml soda water`.
    if (auto unit = unit_at(first)) {
      std::size_t name = is(*unit, "of") ? *unit + 1 : *unit;
      if (is_use(name, stop)) {
        Reading top = say("top 1");
        top.copy(line_, first, *unit).copy(line_, name, end_);
        return Readings{top};
      }
    }
    if (!is_use(first, stop) && !begins_quantity(first)) return std::nullopt;
    Reading top = say("top");
    top.copy(line_, first, end_);
    return Readings{top};
  }

  /// After a unit that stands alone at `i` (`splash`, `bar spoon`); nothing where none does.
  std::optional<std::size_t> unit_at(std::size_t i) const {
    if (i >= end_ || line_.kind(i) != TokenKind::word) return std::nullopt;
    auto match = context_.units.match(line_, i);
    if (!match.unit.valid()) return std::nullopt;
    Kind kind = context_.units[match.unit].kind;
    if (kind != Kind::volume && kind != Kind::count && kind != Kind::mass) return std::nullopt;
    return i + match.tokens;
  }

  Match rinse_with() const {
    std::size_t stop = comma_or_end(0);
    auto next = after_any(
        0, {"rinse with", "rinse glass with", "rinse the glass with", "rinse a glass with", "rinse w/",
            "rinse coupe with", "coat the glass with", "coat glass with", "wash the glass with"});
    if (next && *next < stop) {
      Reading rinse = say("rinse");
      rinse.copy(line_, *next, end_);
      return Readings{rinse};
    }
    if (stop >= 2 && is_any(stop - 1, {"rinse", "wash", "rinsed"}) && is_use(0, stop - 1) &&
        !is_use(0, stop)) {
      Reading rinse = say("rinse");
      rinse.copy(line_, 0, stop - 1);
      with_rest(rinse, line_, stop, end_);
      return Readings{rinse};
    }
    // `5 ml absinthe, to rinse`.
    if (stop < end_ &&
        after_any(stop + 1,
                  {"to rinse", "rinse", "rinsed", "as a rinse", "for rinsing", "rinse the glass"}) == end_ &&
        is_amount(0, stop)) {
      Reading rinse = say("rinse");
      rinse.copy(line_, 0, stop);
      return Readings{rinse};
    }
    return std::nullopt;
  }

  Match rim_with() const {
    std::size_t stop = comma_or_end(0);
    bool half = false;
    std::size_t first = 0, last = stop;
    if (auto next =
            after_any(0, {"half rim with", "half rim of", "half rim", "rim half with",
                          "rim half the glass with", "half-rim", "rim half glass with", "half-rim with"})) {
      half = true;
      first = *next;
    } else if (auto full =
                   after_any(0, {"rim with", "rim glass with", "rim the glass with", "rim w/", "rim of"})) {
      first = *full;
    } else if (stop >= 3 && is(stop - 1, "rim") && is(stop - 2, "the")) {
      last = stop - 2;
    } else if (stop >= 2 && is(stop - 1, "rim")) {
      last = stop - 1;
      if (is(0, "half")) half = true, first = 1;
      if (last >= 2 && is(last - 1, "half")) half = true, --last;
    } else {
      return std::nullopt;
    }
    if (first >= last || !is_use(first, last)) return std::nullopt;
    Reading rim = say("rim");
    rim.copy(line_, first, last);
    if (half) rim.text += ", half";
    with_rest(rim, line_, stop, end_);
    return Readings{rim};
  }

  Match no_garnish() const {
    if (auto next = after_any(0, {"no garnish", "without garnish", "garnish nothing"}); next && *next == end_)
      return Readings{say("garnish none")};
    return std::nullopt;
  }

  Match express() const {
    if (!is_any(0, {"express", "flame"})) return std::nullopt;
    bool flamed = is(0, "flame");
    std::size_t first = skip_article(1), last = first;
    while (last < end_ && line_.kind(last) != TokenKind::comma &&
           !is_any(last, {"and", "over", "on", "then", "oil", "oils", "&"}))
      ++last;
    if (last == first || (flamed && last == end_)) return std::nullopt;
    std::size_t rest = last;
    if (is_any(rest, {"oil", "oils"})) ++rest;
    if (auto over = after_any(rest, {"over the top", "over the drink", "over top", "over drink", "over glass",
                                     "over the glass", "over", "on top"}))
      rest = *over;
    if (rest < end_ && line_.kind(rest) == TokenKind::comma) ++rest;
    bool discard = false;
    if (auto gone = after_any(rest, {"and discard", "then discard", "discard", "& discard", "and throw away",
                                     "and discard it"}))
      discard = true, rest = *gone;
    bool inside = false;
    if (auto kept =
            after_any(rest, {"and drop in", "and insert", "and garnish", "drop in", "and drop it in"}))
      inside = true, rest = *kept;
    if (rest != end_) return std::nullopt;
    Reading garnish = say("garnish");
    if (is_use(first, last))
      garnish.copy(line_, first, last);
    else
      return std::nullopt;
    if (flamed && !discard && !inside) return std::nullopt;
    garnish.text += flamed ? ", flamed" : ", expressed";
    if (discard) garnish.text += " and discarded";
    return Readings{garnish};
  }

  Match grate() const {
    std::size_t stop = comma_or_end(0);
    std::size_t first = 1, last = stop;
    bool leads = is_any(0, {"grate", "grated", "dust", "shave"});
    if (!leads || stop < 2) return std::nullopt;
    std::string how = is_any(0, {"dust"}) ? "dusted over" : is(0, "shave") ? "shaved over" : "grated over";
    if (is_any(1, {"with", "fresh", "over", "some"})) ++first;
    for (std::size_t i = first; i < stop; ++i)
      if (is_any(i, {"over", "on", "onto"})) {
        last = i;
        break;
      }
    if (!is_use(first, last)) return std::nullopt;
    Reading garnish = say("garnish");
    garnish.copy(line_, first, last);
    garnish.text += ", " + how;
    with_rest(garnish, line_, stop, end_);
    return Readings{garnish};
  }

  /// `15 ml overproof rum, float` and `float of …`.
  Match float_amount() const {
    std::size_t stop = comma_or_end(0);
    if (stop < end_ && is_amount(0, stop)) {
      if (after_any(stop + 1, {"float", "floated", "floated on top", "as a float", "float on top", "to float",
                               "on top as a float"}) == end_) {
        Reading floated = say("float");
        floated.copy(line_, 0, stop);
        return Readings{floated};
      }
      if (after_any(stop + 1, {"layered", "layer", "to layer"}) == end_) {
        Reading layered = say("layer");
        layered.copy(line_, 0, stop);
        return Readings{layered};
      }
      if (after_any(stop + 1, {"to top", "top", "top up", "on top", "to finish"}) == end_) {
        Reading top = say("top");
        top.copy(line_, 0, stop);
        return Readings{top};
      }
    }
    if (stop < end_ && is_amount(0, stop) &&
        after_any(stop + 1, {"muddled", "muddle", "lightly muddled", "gently muddled"}) == end_) {
      Reading amount;
      amount.copy(line_, 0, stop);
      Readings lines{amount};
      if (!state_.has_muddled) lines.push_back(say("muddle"));
      return lines;
    }
    if (verb_at(0, Verb::float_) && is(1, "of")) {
      Reading floated = say("float");
      floated.copy(line_, 2, end_);
      return Readings{floated};
    }
    return std::nullopt;
  }

  /// Where a garnish goes and what is done to it, behind its name: the note it stands for; nothing where no
  /// such words stand.
  std::optional<std::size_t> garnish_note(std::size_t i, std::string& note, Verb& verb) const {
    struct Note {
      std::string_view words, note;
    };
    static constexpr std::array<Note, 24> notes = {{{"expressed and discarded", "expressed and discarded"},
                                                    {"express and discard", "expressed and discarded"},
                                                    {"expressed & discarded", "expressed and discarded"},
                                                    {"express & discard", "expressed and discarded"},
                                                    {"expressed and dropped in", "expressed and dropped in"},
                                                    {"expressed over the top", "expressed"},
                                                    {"expressed over", "expressed"},
                                                    {"expressed", "expressed"},
                                                    {"express", "expressed"},
                                                    {"squeezed in", "squeezed in"},
                                                    {"squeezed", "squeezed in"},
                                                    {"dropped in", "dropped in"},
                                                    {"grated over", "grated over"},
                                                    {"grated on top", "grated over"},
                                                    {"grated", "grated over"},
                                                    {"on the foam", "on the foam"},
                                                    {"on top", "on top"},
                                                    {"on the top", "on top"},
                                                    {"on a pick", "on a pick"},
                                                    {"on pick", "on a pick"},
                                                    {"on the rim", "on the rim"},
                                                    {"on rim", "on the rim"},
                                                    {"garnish", ""},
                                                    {"to garnish", ""}}};
    if (auto next = after_any(i, {"on the side", "on side"})) {
      verb = Verb::side;
      return next;
    }
    std::optional<std::size_t> best;
    for (const auto& known : notes)
      if (auto next = after(i, known.words); next && (!best || *next > *best)) {
        best = next;
        note = known.note;
      }
    return best;
  }

  bool is_garnish_by_kind(std::size_t first, std::size_t last) const {
    auto use = find_use(LineReader(line_, context_), first, last);
    if (!use) return false;
    if (use->item.valid()) return true;
    StockKind kind = context_.specs[use->stock].kind;
    std::string name = base::fold_name(context_.specs[use->stock].head.name);
    for (std::string_view item :
         {" twist", " peel", " zest", " wedge", " wheel", " slice", " leaf", " sprig", " ribbon"})
      if (name.ends_with(item)) return true;
    return has_step_ && (kind == StockKind::garnish || kind == StockKind::fruit || kind == StockKind::herb ||
                         kind == StockKind::spice);
  }

  /// `garnish orange slice and cherry`, `garnish with A, B & C`, and a bare `lemon twist, expressed`: each is
  /// one.
  Match garnish_list() const {
    Verb verb = Verb::garnish;
    std::size_t first = 0;
    bool named = false;
    for (Verb one : {Verb::garnish, Verb::side})
      if (auto at = verb_at(0, one)) {
        verb = one;
        first = is_any(*at, {"with", "w/"}) ? *at + 1 : *at;
        named = true;
      }
    Readings lines;
    std::size_t begin = first;
    bool noted = false;
    for (std::size_t i = first; i <= end_; ++i) {
      bool divides = i == end_ || line_.kind(i) == TokenKind::comma || is_any(i, {"and", "&", "plus", "+"});
      if (!divides) continue;
      std::string note;
      Verb own = verb;
      if (i == begin) {
        begin = i + 1;
        continue;
      }
      // `expressed and discarded` holds an `and` of its own.
      if (auto whole = garnish_note(begin, note, own);
          whole && !lines.empty() && (*whole == end_ || line_.kind(*whole) == TokenKind::comma)) {
        if (!note.empty()) lines.back().text += ", " + note;
        i = *whole;
        begin = i + 1;
        noted = true;
        continue;
      }
      std::size_t last = i, stop = i;
      begin = skip_article(begin);
      for (std::size_t k = begin + 1; k <= i && last == i; ++k)
        if (auto next = garnish_note(k, note, own); next && (*next >= i)) {
          last = k;
          stop = *next;
          noted = true;
        }
      if (is_any(begin, {"flamed", "torched", "flaming", "charred"}) && is_use(begin + 1, last)) {
        note = word(begin);
        noted = true;
        ++begin;
      } else if (is_any(begin,
                        {"long", "big", "large", "small", "wide", "thin", "fresh", "spent", "little"}) &&
                 !is_use(begin, last) && is_use(begin + 1, last)) {
        if (note.empty()) note = word(begin);
        noted = true;
        ++begin;
      }
      if (last <= begin || !(is_use(begin, last) || is_amount(begin, last))) return std::nullopt;
      if (!named && last == i && !is_garnish_by_kind(begin, last)) return std::nullopt;
      if (!named && begins_quantity(begin) && last == i) return std::nullopt;
      Reading one = say(info(own).name);
      one.copy(line_, begin, last);
      if (!note.empty()) one.text += ", " + note;
      lines.push_back(one);
      i = std::max(i, stop);
      begin = i + 1;
    }
    if (lines.empty() || (named && lines.size() < 2 && !noted)) return std::nullopt;
    return lines;
  }

  /// `coupe`, `chilled coupe`, `rocks glass, no ice`, `in a wine glass full of ice`: the drink's glass.
  Match bare_glass() const {
    std::size_t first = 0;
    if (auto next = after_any(0, {"in a", "in the", "in", "into a", "into", "served in a", "serve in a",
                                  "pour into a", "pour into", "pour in", "serve in"}))
      first = *next;
    bool chilled = is_any(first, {"chilled", "cold"}), frozen = is(first, "frozen");
    if ((chilled || frozen) && !is_name(symbols::NameSpace::glass, first, end_))
      ++first;
    else
      chilled = frozen = false;
    std::size_t last = end_;
    for (; last > first; --last) {
      std::size_t bare = last > first + 1 && word(last - 1) == "glass" ? last - 1 : last;
      if (is_name(symbols::NameSpace::glass, first, last)) break;
      if (bare < last && is_name(symbols::NameSpace::glass, first, bare)) break;
    }
    if (last == first || is_use(0, end_)) return std::nullopt;
    std::size_t bare = is_name(symbols::NameSpace::glass, first, last) ? last : last - 1;
    Readings lines;
    Reading glass = implied("glass");
    glass.copy(line_, first, bare);
    std::size_t i = last;
    while (i < end_) {
      if (line_.kind(i) == TokenKind::comma || is(i, "and")) {
        ++i;
        continue;
      }
      if (auto next = after_any(i, {"chilled", "cold"})) {
        chilled = true;
        i = *next;
        continue;
      }
      if (auto next = after_any(i, {"no ice", "without ice", "up"})) {
        lines.push_back(implied("ice none"));
        i = *next;
        continue;
      }
      std::size_t from = i;
      if (auto next = after_any(i, {"over", "with", "full of", "filled with", "of", "on"})) from = *next;
      std::size_t stop = comma_or_end(from);
      auto ice = ice_named(from, stop);
      if (!ice) return std::nullopt;
      lines.push_back(is_plain_ice(from, stop) ? over_ice() : implied("ice " + *ice));
      i = stop;
    }
    if (chilled) glass.text += ", chilled";
    if (frozen) glass.text += ", frozen";
    lines.insert(lines.begin(), glass);
    if (is(0, "pour")) lines.push_back(say("dump"));
    return lines;
  }

  /// `big rock`, `over crushed ice`, `no ice`: what the drink is served on.
  Match bare_ice() const {
    if (auto next = after_any(0, {"no ice", "without ice"}); next && *next == end_)
      return Readings{implied("ice none")};
    std::size_t first = 0;
    if (auto next = after_any(0, {"over", "on", "with"})) first = *next;
    if (!ice_named(first, end_) || is_use(0, end_)) return std::nullopt;
    return Readings{is_plain_ice(first, end_) ? over_ice() : implied("ice " + *ice_named(first, end_))};
  }

  /// `muddle lemon and mint`, `muddle in the glass`.
  Match muddle_what() const {
    auto at = verb_at(0, Verb::muddle);
    if (!at || *at >= end_) return std::nullopt;
    if (auto next = after_any(*at, {"in the glass", "in glass", "in the tin", "in tin", "in the shaker"});
        next && *next == end_) {
      Readings lines;
      if (next == after(*at, "in the glass") || next == after(*at, "in glass"))
        if (!was_built_) lines.push_back(say("build"));
      lines.push_back(say("muddle"));
      return lines;
    }
    Readings lines;
    std::size_t begin = *at;
    for (std::size_t i = begin; i <= end_; ++i) {
      bool divides = i == end_ || is_any(i, {"and", "&", "with", "+"});
      if (!divides && i < end_ && line_.kind(i) == TokenKind::comma) return std::nullopt;
      if (!divides) continue;
      begin = skip_article(begin);
      if (!is_use(begin, i)) return std::nullopt;
      Reading one = say("muddle");
      lines.push_back(one.copy(line_, begin, i));
      begin = i + 1;
    }
    if (lines.size() < 2) return std::nullopt;
    return lines;
  }

  // ---- amounts

  /// `lemon juice 30 ml`: the amount last.
  Match named_amount() const {
    std::size_t stop = comma_or_end(0);
    if (begins_quantity(0) || match_verb(line_, 0) || is(0, "until") || is(0, "to")) return std::nullopt;
    for (std::size_t i = 1; i < stop; ++i) {
      if (!begins_quantity(i) || !is_use(0, i)) continue;
      std::size_t at = i;
      diagnostics::DiagnosticSink silent;
      LineView part = line_.part(0, stop);
      QuantityReader reader(part, context_.units, silent);
      auto quantity = reader.read(at);
      if (!quantity || at != stop) continue;
      if (quantity->kind != Kind::volume && quantity->kind != Kind::mass && quantity->kind != Kind::count &&
          quantity->kind != Kind::part)
        continue;
      Reading amount;
      amount.copy(line_, i, stop).copy(line_, 0, i);
      with_rest(amount, line_, stop, end_);
      return Readings{amount};
    }
    return std::nullopt;
  }

  /// `a dash of bitters`, `dash bitters`, `an egg white`: one of it.
  Match bare_unit() const {
    std::size_t first = is_any(0, {"a", "an", "one"}) ? 1 : 0;
    std::size_t stop = comma_or_end(first);
    if (auto next = unit_at(first)) {
      if (line_.kind(first) == TokenKind::word && match_verb(line_, first) && !is(*next, "of"))
        return std::nullopt;
      std::size_t name = is(*next, "of") ? *next + 1 : *next;
      // `pinch salt` is asked for its number; `dash absinthe` is one.
      bool is_piece = context_.units[context_.units.match(line_, first).unit].kind != Kind::volume;
      if (first == 0 && name == *next && is_piece) return std::nullopt;
      if (is_any(name, {"fresh", "some"}) && !is_use(name, stop)) ++name;
      if (is_use(name, stop) && !is_use(first, stop)) {
        Reading amount = say("1");
        amount.copy(line_, first, *next).copy(line_, name, end_);
        return Readings{amount};
      }
    }
    if (first == 1 && is_use(1, stop)) {
      Reading amount = say("1");
      amount.copy(line_, 1, end_);
      return Readings{amount};
    }
    return std::nullopt;
  }

  static std::optional<std::string_view> number_of(std::string_view word) {
    static const std::map<std::string_view, std::string_view> numbers = {
        {"one", "1"},     {"two", "2"},    {"three", "3"},     {"four", "4"},  {"five", "5"},
        {"six", "6"},     {"seven", "7"},  {"eight", "8"},     {"nine", "9"},  {"ten", "10"},
        {"twelve", "12"}, {"half", "1/2"}, {"quarter", "1/4"}, {"couple", "2"}};
    auto found = numbers.find(word);
    if (found == numbers.end()) return std::nullopt;
    return found->second;
  }

  /// `two dashes bitters`, `half an ounce gin`, `half a lemon`, `three quarters of an ounce gin`.
  Match word_number() const {
    std::size_t i = is(0, "a") && is_any(1, {"half", "quarter", "couple"}) ? 1 : 0;
    if (i >= end_ || line_.kind(i) != TokenKind::word) return std::nullopt;
    auto number = number_of(word(i));
    if (!number) return std::nullopt;
    std::string text(*number);
    std::size_t next = i + 1;
    if (*number == "3" && is_any(next, {"quarter", "quarters"})) text = "3/4", ++next;
    if (is(next, "of")) ++next;
    if (is_any(next, {"a", "an", "the"})) ++next;
    std::size_t stop = comma_or_end(next);
    if (next >= stop) return std::nullopt;
    bool known = is_use(next, stop);
    if (auto unit = unit_at(next)) known = known || is_use(is(*unit, "of") ? *unit + 1 : *unit, stop);
    if (!known) return std::nullopt;
    Reading amount = say(text);
    amount.copy(line_, next, end_);
    return Readings{amount};
  }

  /// `juice of half a lime`, `zest of 2 limes`: what the fruit gives, by its own `gives` line.
  Match fruit_part() const {
    if (!is_any(0, {"juice", "zest", "peel"}) || !is(1, "of")) return std::nullopt;
    std::size_t at = 2;
    base::Exact fruits = 1;
    if (begins_quantity(at)) {
      diagnostics::DiagnosticSink silent;
      QuantityReader reader(line_, context_.units, silent);
      auto number = reader.read_number(at);
      if (!number) return std::nullopt;
      fruits = number->value;
    } else if (auto number = at < end_ ? number_of(word(at)) : std::nullopt) {
      fruits = *number == "1/2"   ? base::Exact(1, 2)
               : *number == "1/4" ? base::Exact(1, 4)
                                  : base::Exact(std::stoi(std::string(*number)));
      ++at;
      if (is(at, "of")) ++at;
    }
    at = skip_article(at);
    std::size_t stop = comma_or_end(at);
    auto use = find_use(LineReader(line_, context_), at, stop);
    if (!use) return std::nullopt;
    bool wants_juice = is(0, "juice");
    for (const auto& gives : context_.specs[use->stock].gives) {
      if (!gives.what.stock.valid()) continue;
      if ((gives.quantity.kind == Kind::volume) != wants_juice) continue;
      Reading amount =
          say(fmt::format("{} {} {}", base::to_decimal(gives.quantity.value * fruits, 2),
                          gives.quantity.unit.valid() ? context_.units[gives.quantity.unit].symbol
                                                      : std::string(wants_juice ? "ml" : "g"),
                          context_.specs[gives.what.stock].head.name));
      if (gives.quantity.kind == Kind::volume || gives.quantity.kind == Kind::mass)
        amount = say(fmt::format("{} {} {}", base::to_decimal(gives.quantity.value * fruits, 2),
                                 wants_juice ? "ml" : "g", context_.specs[gives.what.stock].head.name));
      with_rest(amount, line_, stop, end_);
      return Readings{amount};
    }
    return std::nullopt;
  }

  /// `1/2 lime, squeezed`, `12 limes, juiced`: the juice that the fruit gives.
  Match whole_fruit() const {
    std::size_t stop = comma_or_end(0);
    if (stop == end_ || !begins_quantity(0)) return std::nullopt;
    auto done = after_any(stop + 1, {"squeezed", "juiced", "freshly squeezed", "pressed", "squeezed in"});
    if (!done || comma_or_end(*done) != *done) return std::nullopt;
    std::size_t at = 0;
    diagnostics::DiagnosticSink silent;
    QuantityReader reader(line_, context_.units, silent);
    auto number = reader.read_number(at);
    if (!number) return std::nullopt;
    auto use = find_use(LineReader(line_, context_), at, stop);
    if (!use || use->item.valid()) return std::nullopt;
    for (const auto& gives : context_.specs[use->stock].gives) {
      if (!gives.what.stock.valid() || gives.quantity.kind != Kind::volume) continue;
      Reading amount = say(fmt::format("{} ml {}", base::to_decimal(gives.quantity.value * number->value, 2),
                                       context_.specs[gives.what.stock].head.name));
      with_rest(amount, line_, *done, end_);
      return Readings{amount};
    }
    return std::nullopt;
  }

  /// `200 ml hot water`, `top boiling water`, `60 ml cold cream`: how warm it is, behind the name. A thing
  /// that is called so
  /// (`hot sauce`, `iced tea`) keeps its name.
  Match warm_or_cold() const {
    std::size_t at = 0;
    if (auto top = verb_at(0, Verb::top); top && !in_prep_) {
      at = is(*top, "with") ? *top + 1 : *top;
    } else if (begins_quantity(0) && line_.kind(0) == TokenKind::number) {
      diagnostics::DiagnosticSink silent;
      QuantityReader reader(line_, context_.units, silent);
      if (!reader.read_number(at)) return std::nullopt;
      auto match = context_.units.match(line_, at);
      if (match.unit.valid()) at += match.tokens;
      if (is(at, "of")) ++at;
    } else {
      return std::nullopt;
    }
    std::size_t stop = comma_or_end(at);
    bool hot = is(at, "hot"), boiling = is(at, "boiling"),
         cold = is_any(at, {"cold", "chilled", "iced", "ice-cold"});
    if (!hot && !boiling && !cold) return std::nullopt;
    auto whole = context_.names.find(symbols::NameSpace::stock, syntax::name_text(line_, at, stop));
    bool is_own_name = whole.valid() && base::fold_name(context_.names[whole].name) ==
                                            base::fold_name(syntax::name_text(line_, at, stop));
    if (is_own_name || (!whole.valid() && !is_use(at + 1, stop))) return std::nullopt;
    Reading amount;
    amount.copy(line_, 0, at);
    if (whole.valid())
      amount.say(context_.names[whole].name);
    else
      amount.copy(line_, at + 1, stop);
    amount.text += hot ? ", hot" : boiling ? ", at 100 C" : ", chilled";
    with_rest(amount, line_, stop, end_);
    return Readings{amount};
  }

  /// `2 to 3 drops saline`.
  Match range_in_words() const {
    if (line_.kind(0) != TokenKind::number || !is_any(1, {"to", "or"}) ||
        line_.kind(2) != TokenKind::number || end_ < 4)
      return std::nullopt;
    if (is(1, "or") && !(unit_at(3) || is_use(3, comma_or_end(3)))) return std::nullopt;
    Reading amount =
        say(base::collapse_space(line_.raw(0, 1)) + ".." + base::collapse_space(line_.raw(2, 3)));
    amount.copy(line_, 3, end_);
    return Readings{amount};
  }

  /// `30 ml/1 oz gin`, `30 ml / 1 oz gin`: two measures that must agree.
  Match two_measures() const {
    if (line_.kind(0) != TokenKind::number) return std::nullopt;
    std::size_t stop = comma_or_end(0);
    for (std::size_t i = 1; i < stop && i < 5; ++i) {
      if (line_.kind(i) != TokenKind::word) continue;
      std::string_view text = line_.text(i);
      auto slash = text.find('/');
      if (slash == std::string_view::npos) continue;
      std::string left = base::collapse_space(line_.raw(0, i)) + " " + std::string(text.substr(0, slash));
      std::string right(text.substr(slash + 1));
      if (right.empty() ? line_.kind(i + 1) != TokenKind::number
                        : !std::isdigit(static_cast<unsigned char>(right.front())))
        continue;
      if (context_.units.find(base::lower_ascii(text)).valid()) continue;
      Reading amount = say(left).say("=").say(right);
      amount.copy(line_, i + 1, end_);
      return Readings{amount};
    }
    return std::nullopt;
  }

  /// `equal parts A, B, C`; `1 oz each A, B, C`.
  Match shared_amount() const {
    std::size_t first = 0;
    std::string amount;
    if (auto next = after_any(0, {"equal parts of", "equal parts"})) {
      amount = "1 part";
      first = *next;
    } else if (line_.kind(0) == TokenKind::number) {
      std::size_t i = 1;
      while (i < end_ && i < 6 && !is(i, "each")) ++i;
      if (!is(i, "each")) return std::nullopt;
      amount = base::collapse_space(line_.raw(0, i));
      first = i + 1;
      if (is(first, "of")) ++first;
    } else {
      return std::nullopt;
    }
    if (first < end_ && (line_.kind(first) == TokenKind::colon || line_.kind(first) == TokenKind::comma))
      ++first;
    Readings lines;
    std::size_t begin = first;
    for (std::size_t i = first; i <= end_; ++i) {
      bool divides = i == end_ || line_.kind(i) == TokenKind::comma || is_any(i, {"and", "&", "plus"});
      if (!divides) continue;
      if (i > begin) {
        if (!is_use(begin, i)) return std::nullopt;
        Reading one = say(amount);
        one.copy(line_, begin, i);
        lines.push_back(one);
      }
      begin = i + 1;
    }
    if (lines.size() < 2) return std::nullopt;
    return lines;
  }

  // ---- preps

  /// `keeps 2 weeks in the fridge`, `7 days in the fridge`, `good for 1 month chilled`: a prep's shelf life.
  Match keeps_how_long() const {
    std::size_t i = 0;
    std::string place;
    auto takes_place = [&](std::size_t at) -> std::size_t {
      if (auto next = after_any(at, {"in the fridge", "in fridge", "in a fridge", "fridge", "refrigerated",
                                     "in the refrigerator", "chilled"}))
        return place = "chilled", *next;
      if (auto next = after_any(at, {"in the freezer", "in freezer", "freezer", "frozen"}))
        return place = "frozen", *next;
      if (auto next =
              after_any(at, {"at room temperature", "at room temp", "on the shelf", "ambient", "room temp"}))
        return place = "ambient", *next;
      return at;
    };
    auto said = after_any(0, {"keeps for", "keeps", "keep for", "keep", "good for", "lasts", "lasts for",
                              "store", "will keep", "keeps about"});
    if (said) i = *said;
    if (std::size_t next = takes_place(i); next > i) i = next;
    bool one = is_any(i, {"a", "one"});
    std::size_t time = one ? i + 1 : i, stop = 0;
    if (one) {
      auto match = time < end_ ? context_.units.match(line_, time) : units::UnitMatch{};
      if (!match.unit.valid() || context_.units[match.unit].kind != Kind::time) return std::nullopt;
      stop = time + match.tokens;
    } else {
      stop = time_stop(time, end_);
    }
    if (stop <= time) return std::nullopt;
    std::size_t last = place.empty() ? takes_place(stop) : stop;
    if (place.empty() || last != end_) return std::nullopt;
    // The language's own form stays as it is.
    if (after(0, "keeps") == i && !one && last == stop + 1 && is_any(stop, {"chilled", "frozen", "ambient"}))
      return std::nullopt;
    Reading keeps = say("keeps");
    if (one) keeps.say("1");
    keeps.copy(line_, time, stop).say(place);
    return Readings{keeps};
  }

  std::string fridge() const { return fmt::format("at {:g} C", context_.specs.house.fridge_c); }
  std::string room() const { return fmt::format("at {:g} C", context_.specs.house.room_c); }
  std::string freezer() const { return fmt::format("at {:g} C", context_.specs.house.freezer_c); }

  std::optional<std::size_t> take_place(std::size_t i, std::string& place) const {
    if (auto next = after_any(
            i, {"in the fridge", "in fridge", "in the refrigerator", "refrigerated", "in the walk-in"}))
      return place = fridge(), next;
    if (auto next = after_any(i, {"at room temperature", "at room temp", "on the counter", "at ambient"}))
      return place = room(), next;
    if (auto next = after_any(i, {"in the freezer", "in freezer"})) return place = freezer(), next;
    return std::nullopt;
  }

  /// `rest overnight`, `infuse 24 h in the fridge`, `let stand 2 h at room temperature`, `leave overnight`.
  Match place_and_time() const {
    std::size_t i = 0;
    std::string verb;
    if (auto next =
            after_any(0, {"let rest", "let stand", "let sit", "let it rest", "let it stand", "leave to stand",
                          "leave to rest", "leave", "stand", "sit", "leave to infuse", "let infuse"})) {
      verb = after_any(0, {"leave to infuse", "let infuse"}) ? "infuse" : "rest";
      i = *next;
    } else if (auto next_cool = after_any(0, {"let cool", "let it cool", "leave to cool", "allow to cool"})) {
      verb = "cool";
      i = *next_cool;
    } else if (auto found = match_verb(line_, 0)) {
      if (info(found->verb).time == VerbInfo::Time::never || !info(found->verb).takes_temperature)
        return std::nullopt;
      verb = info(found->verb).name;
      i = found->tokens;
    } else {
      return std::nullopt;
    }
    bool cools = verb == "cool" || verb == "chill" || verb == "thaw" || verb == "heat";
    bool changed = !match_verb(line_, 0);
    std::string time, place;
    std::size_t tail = i;
    while (tail < end_) {
      if (line_.kind(tail) == TokenKind::comma) {
        std::string other;
        if (!take_place(tail + 1, other) && !is(tail + 1, "overnight") &&
            !is_time(tail + 1, comma_or_end(tail + 1)))
          break;
        ++tail;
        changed = true;
        continue;
      }
      if (auto next = after_any(tail, {"overnight", "over night"})) {
        time = "12 h";
        tail = *next;
        changed = true;
      } else if (auto at = take_place(tail, place)) {
        tail = *at;
        changed = true;
      } else if (cools && after_any(tail, {"to room temperature", "to room temp", "to fridge temperature"})) {
        place = fmt::format("to {:g} C", after(tail, "to fridge temperature") ? context_.specs.house.fridge_c
                                                                              : context_.specs.house.room_c);
        tail += 3;
        changed = true;
      } else if (cools && after_any(tail, {"completely", "down", "fully"})) {
        ++tail;
        changed = true;
      } else if (std::size_t last = time_stop(is(tail, "for") ? tail + 1 : tail, comma_or_end(tail));
                 last > tail + 1) {
        std::size_t first = is(tail, "for") ? tail + 1 : tail;
        time = base::collapse_space(line_.raw(first, last));
        changed = changed || is(tail, "for");
        tail = last;
      } else {
        break;
      }
    }
    if (!changed || (tail < end_ && line_.kind(tail) != TokenKind::comma)) return std::nullopt;
    if (verb == "cool" && place.starts_with("at ")) place = "to " + place.substr(3);
    if (verb == "cool" && place.empty()) place = "to " + room().substr(3);
    Reading reading = say(verb).say(time).say(place);
    with_rest(reading, line_, tail, end_);
    return Readings{reading};
  }

  Match boil() const {
    auto next = after_any(0, {"bring to the boil", "bring to a boil", "bring to boil", "boil"});
    if (!next) return std::nullopt;
    Reading heat = say("heat to 100 C");
    std::size_t i = is(*next, "for") ? *next + 1 : *next, stop = comma_or_end(i);
    if (i < stop) {
      if (!is_time(i, stop)) return std::nullopt;
      heat.say("for").copy(line_, i, stop);
    }
    with_rest(heat, line_, stop, end_);
    return Readings{heat};
  }

  Match reduce_share() const {
    auto next = after_any(0, {"reduce by"});
    if (!next) return std::nullopt;
    static const std::map<std::string_view, std::string_view> shares = {
        {"half", "50 %"},      {"a half", "50 %"},      {"one half", "50 %"},
        {"a third", "33.3 %"}, {"one third", "33.3 %"}, {"two thirds", "66.7 %"},
        {"a quarter", "25 %"}, {"one quarter", "25 %"}, {"three quarters", "75 %"}};
    std::size_t stop = comma_or_end(*next);
    auto share = shares.find(base::lower_ascii(base::collapse_space(line_.raw(*next, stop))));
    if (share == shares.end()) return std::nullopt;
    Reading reduce = say("reduce by").say(share->second);
    with_rest(reduce, line_, stop, end_);
    return Readings{reduce};
  }

  Match make_up_to() const {
    auto next = after_any(
        0, {"make up to", "top up to", "fill up to", "bring up to", "make it up to", "top to", "fill to"});
    if (!next || !begins_quantity(*next)) return std::nullopt;
    std::size_t with = *next;
    while (with < end_ && !is(with, "with") && line_.kind(with) != TokenKind::comma) ++with;
    Reading fill = say("to");
    fill.copy(line_, *next, with);
    if (is(with, "with")) {
      std::size_t stop = comma_or_end(with);
      fill.copy(line_, with + 1, stop);
      with_rest(fill, line_, stop, end_);
    } else {
      fill.say("water");
      with_rest(fill, line_, with, end_);
    }
    return Readings{fill};
  }

  Match strain_through() const {
    for (Verb verb : {Verb::double_strain, Verb::fine_strain, Verb::strain}) {
      auto at = verb_at(0, verb);
      if (!at || !is(*at, "through") || *at + 1 >= end_) continue;
      Reading strain = say(info(verb).name);
      strain.text += ",";
      strain.copy(line_, *at, end_);
      return Readings{strain};
    }
    if (is(0, "filter")) {
      Reading strain = say("fine strain");
      if (is(1, "through")) {
        strain.text += ",";
        strain.copy(line_, 1, end_);
      } else if (end_ == 1) {
        strain.text += ", through a filter";
      } else {
        return std::nullopt;
      }
      return Readings{strain};
    }
    return std::nullopt;
  }

  Match until_dissolved() const {
    auto next = after_any(0, {"stir until dissolved", "stir to dissolve", "stir until the sugar dissolves",
                              "stir until the sugar is dissolved", "mix until dissolved",
                              "whisk until dissolved", "shake until dissolved"});
    if (!next || comma_or_end(*next) != *next) return std::nullopt;
    Reading dissolve = say("dissolve");
    with_rest(dissolve, line_, *next, end_);
    return Readings{dissolve};
  }

  const LineView& line_;
  const Context& context_;
  bool in_prep_;
  bool has_shaken_, was_built_, has_step_;
  const RecipeState& state_;
  std::size_t end_;
  std::vector<std::string> words_;
};

/// Takes a line apart where it holds several amounts or steps.
class LineSplitter {
 public:
  LineSplitter(const LineView& line, const Context& context, bool in_prep, const RecipeState& state)
      : line_(line), context_(context), in_prep_(in_prep), state_(state) {}

  std::vector<LineView> split() const {
    std::vector<LineView> lines;
    std::size_t begin = 0;
    if (line_.is_word(0, "until") || is_words(0)) return {line_};
    for (std::size_t i = 1; i < line_.size(); ++i) {
      std::size_t next = after_divider(i);
      if (next == i || next >= line_.size() || !starts_line(next) || !may_end_at(begin, i)) continue;
      lines.push_back(line_.part(begin, i));
      begin = next;
      i = next;
      if (is_words(begin)) break;
    }
    lines.push_back(line_.part(begin, line_.size()));
    return lines;
  }

 private:
  bool is_words(std::size_t i) const {
    auto verb = match_verb(line_, i);
    return verb && info(verb->verb).takes_words;
  }

  /// After `,`, `, then`, `then`, `and`, `and then`, `&`, `;`-less dividers at `i`; `i` itself where none
  /// stands.
  std::size_t after_divider(std::size_t i) const {
    std::size_t next = i;
    bool is_stop = next < line_.size() && line_.kind(next) == TokenKind::stray && line_.text(next) == ";";
    bool is_plus = next < line_.size() && line_.kind(next) == TokenKind::stray && line_.text(next) == "+";
    if (line_.kind(next) == TokenKind::comma || is_stop || is_plus) ++next;
    if (line_.is_word(next, "and") || line_.is_word(next, "&")) ++next;
    if (line_.is_word(next, "then")) ++next;
    return next;
  }

  /// A divider without a comma parts steps alone: `gin and 30 ml lime juice` is not taken apart in names.
  bool may_end_at(std::size_t begin, std::size_t i) const {
    if (line_.kind(i) == TokenKind::comma) {
      // Behind a garnish stands where it goes: `on the block` is no ice to serve on.
      auto verb = match_verb(line_, begin);
      bool is_garnish = verb && (verb->verb == Verb::garnish || verb->verb == Verb::side);
      return !is_garnish || match_verb(line_, after_divider(i)) ||
             begins_amount(line_.part(after_divider(i), line_.size()));
    }
    auto next = after_divider(i);
    bool step_follows = match_verb(line_, next).has_value();
    bool step_before = match_verb(line_, begin).has_value() ||
                       FormMatcher(line_.part(begin, i), context_, in_prep_, state_).match();
    return step_follows && step_before;
  }

  std::size_t stretch_end(std::size_t i) const {
    while (i < line_.size() && line_.kind(i) != TokenKind::comma) ++i;
    return i;
  }

  bool starts_line(std::size_t i) const {
    std::size_t end = stretch_end(i);
    if (auto verb = match_verb(line_, i)) {
      const VerbInfo& what = info(verb->verb);
      if (!(in_prep_ ? what.in_prep : what.in_drink)) return false;
      // `15 ml overproof rum, float`: it says how, and is no step of its own.
      if (what.name_slot == VerbInfo::Name::must && i + verb->tokens >= end) return false;
      if (what.takes_words) return true;
      return true;
    }
    LineView part = line_.part(i, end);
    if (begins_amount(part)) {
      LineReader reader(part, context_);
      diagnostics::DiagnosticSink silent;
      std::size_t at = 0;
      QuantityReader quantities(part, context_.units, silent);
      if (part.is_word(0, "to") || part.is_word(0, "until")) return false;
      auto number = quantities.read_number(at);
      if (!number) return false;
      if (find_use(reader, at, part.size())) return true;
      auto match = context_.units.match(part, at);
      at += match.tokens;
      if (part.is_word(at, "of")) ++at;
      return match.unit.valid() && find_use(reader, at, part.size()).has_value();
    }
    return FormMatcher(part, context_, in_prep_, state_).match().has_value();
  }

  const LineView& line_;
  const Context& context_;
  bool in_prep_;
  const RecipeState& state_;
};

}  // namespace

namespace {

/// Abbreviations that a bar writes for a word of a form; the word, or nothing.
std::string_view spelled_out(std::string_view word) {
  static const std::map<std::string_view, std::string_view> words = {{"w/", "with"},    {"w", "with"},
                                                                     {"dbl", "double"}, {"til", "until"},
                                                                     {"till", "until"}, {"thru", "through"}};
  auto found = words.find(word);
  return found == words.end() ? std::string_view() : found->second;
}

/// The line with its abbreviations spelled out; nothing where it has none. `x5` is five times, `stir/strain`
/// two steps.
std::optional<Reading> without_abbreviations(const LineView& line) {
  Reading reading;
  bool changed = false;
  std::size_t done = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    std::string word = base::lower_ascii(line.text(i));
    std::string meant(spelled_out(word));
    auto slash = word.find('/');
    if (meant.empty() && i > 0 && word.size() > 1 && word[0] == 'x' &&
        std::isdigit(static_cast<unsigned char>(word[1])))
      meant = word.substr(1);
    if (meant.empty() && slash != std::string::npos && slash > 0 && slash + 1 < word.size()) {
      std::string_view first = std::string_view(word).substr(0, slash),
                       second = std::string_view(word).substr(slash + 1);
      auto is_verb = [](std::string_view one) {
        return std::any_of(all_verbs().begin(), all_verbs().end(),
                           [&](const VerbInfo& verb) { return verb.name == one; });
      };
      if (is_verb(first) && is_verb(second)) meant = std::string(first) + ", " + std::string(second);
    }
    if (meant.empty() && word == "/" && i > 0 && i + 1 < line.size() && match_verb(line, 0) &&
        match_verb(line, i + 1))
      meant = ",";
    if (meant.empty() && word == "/" && i > 0 && line.is_word(i + 1, "dbl")) meant = ",";
    if (meant.empty()) continue;
    reading.copy(line, done, i);
    reading.say(meant);
    done = i + 1;
    changed = true;
  }
  if (!changed) return std::nullopt;
  reading.copy(line, done, line.size());
  return reading;
}

}  // namespace

LineView TradeForms::add(Reading reading, const Span& written) {
  // A reading is a body line: it is indented.
  constexpr std::uint32_t indent = 2;
  for (auto& read_from : reading.parts) read_from.begin += indent, read_from.end += indent;
  auto id = context_.sources.add_reading(std::string(indent, ' ') + reading.text, written,
                                         std::move(reading.parts));
  diagnostics::DiagnosticSink silent;
  context_.readings.push_back(syntax::parse(id, context_.sources, silent));
  return LineView(context_.sources[id], context_.readings.back(), 0);
}

void TradeForms::see(const LineView& line) {
  auto verb = match_verb(line, 0);
  if (!verb) return;
  state_.has_step = true;
  state_.has_shaken = state_.has_shaken || verb->verb == Verb::shake;
  state_.was_built = state_.was_built || verb->verb == Verb::build;
  state_.has_muddled = state_.has_muddled || verb->verb == Verb::muddle;
}

std::vector<ReadLine> TradeForms::read(const LineView& written) {
  if (written.size() == 0 || written.size() > max_tokens) return {{written, Implied::no}};
  LineView line = written;
  bool is_words = false;
  if (auto verb = match_verb(line, 0)) is_words = info(verb->verb).takes_words;
  if (!is_words)
    if (auto plain = without_abbreviations(line)) line = add(std::move(*plain), written.whole());
  std::vector<ReadLine> lines;
  for (const auto& part : LineSplitter(line, context_, in_prep_, state_).split()) {
    auto match = FormMatcher(part, context_, in_prep_, state_).match();
    if (!match) {
      see(part);
      lines.push_back({part, Implied::no});
      continue;
    }
    for (auto& reading : *match) {
      Implied implied = reading.implied;
      auto view = add(std::move(reading), part.whole());
      see(view);
      lines.push_back({view, implied});
    }
  }
  return lines;
}

}  // namespace gill::analysis
