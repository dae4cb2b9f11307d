#include "analysis/forms/line_splitter.h"

#include "analysis/forms/form_matcher.h"
#include "base/any_of.h"

namespace gill::analysis {

using syntax::LineView;
using syntax::TokenKind;

namespace {

/// Takes a line apart where it holds several amounts or steps.
class LineSplitter {
 public:
  LineSplitter(const LineView& line, const Context& context, bool in_prep, const RecipeState& state)
      : line_(line), context_(context), in_prep_(in_prep), state_(state) {}

  std::vector<Stretch> split() {
    std::vector<Stretch> lines;
    std::size_t begin = 0;
    // `equal parts A, B (30 ml each)` is one list.
    bool is_shared = line_.is_word(0, "equal") && line_.is_word(1, "parts");
    bool is_bowl = !in_prep_ && FormMatcher(line_, context_, in_prep_, state_).is_bowl_with_cups();
    // `30/20 ml gin, vermouth`: to each its own.
    bool is_row = line_.kind(0) == TokenKind::number && line_.text(0).find('/') != std::string_view::npos &&
                  FormMatcher(line_, context_, in_prep_, state_).is_row_of_amounts();
    // `ice first, then wine, then bitter`: one sentence.
    if (!in_prep_ && !is_row && says_order() &&
        FormMatcher(line_, context_, in_prep_, state_).is_order_in_words())
      return {{0, line_.size()}};
    // `boil 500 ml water, 200 g sugar`: the step comes behind all of them.
    if (begins_step_on_amounts() && FormMatcher(line_, context_, in_prep_, state_).is_step_on_amounts())
      return {{0, line_.size()}};
    if (line_.is_word(0, "until") || is_shared || is_words(0) || is_bowl || is_row)
      return {{0, line_.size()}};
    for (std::size_t i = 1; i < line_.size(); ++i) {
      std::size_t next = after_divider(i);
      if (next >= line_.size()) continue;
      // Behind a strain a time is how long it keeps: `strain, 3 weeks refrigerated`.
      if (in_prep_ && strains_at(begin)) state_.is_finished = true;
      if (next == i ? !runs_on(begin, i) : !starts_line(next) || !may_end_at(begin, i)) continue;
      lines.push_back({begin, i});
      begin = next;
      i = next;
      if (is_words(begin)) break;
    }
    lines.push_back({begin, line_.size()});
    return lines;
  }

 private:
  bool strains_at(std::size_t i) const {
    auto verb = match_verb(line_, i);
    return verb &&
           (verb->verb == Verb::strain || verb->verb == Verb::double_strain ||
            verb->verb == Verb::fine_strain || verb->verb == Verb::press || verb->verb == Verb::bottle);
  }

  /// True where a word of an order stands in the line at all.
  bool says_order() const {
    for (std::size_t i = 1; i < line_.size(); ++i)
      for (std::string_view word : {"first", "last", "before", "after"})
        if (line_.is_word(i, word)) return true;
    return false;
  }

  /// True where a number follows the first word, which may be a step.
  bool begins_step_on_amounts() const {
    if (line_.kind(0) != TokenKind::word) return false;
    auto verb = match_verb(line_, 0);
    return line_.kind(verb ? verb->tokens : 1) == TokenKind::number;
  }

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
    if (line_.is_word(next, "and") || line_.is_word(next, "&") || line_.is_word(next, "plus")) ++next;
    if (line_.is_word(next, "then")) ++next;
    if (next == i && line_.is_word(next, "studded") && line_.is_word(next + 1, "with")) next += 2;
    return next;
  }

  /// A divider without a comma parts steps alone: `gin and 30 ml lime juice` is not taken apart in names.
  bool may_end_at(std::size_t begin, std::size_t i) const {
    if (in_prep_ && is_held(begin, after_divider(i))) return false;
    if (!in_prep_ && (is_without_ice(begin, after_divider(i)) || is_poured_away(begin, after_divider(i))))
      return false;
    if (line_.kind(i) == TokenKind::comma) {
      if (is_more_fruit(begin, after_divider(i))) return false;
      if (is_part_of_step(begin, after_divider(i)) || is_one_shelf_life(begin, after_divider(i)))
        return false;
      // Behind a garnish stands where it goes: `on the block` is no ice to serve on.
      auto verb = match_verb(line_, begin);
      bool is_garnish = verb && (verb->verb == Verb::garnish || verb->verb == Verb::side);
      return !is_garnish || match_verb(line_, after_divider(i)) ||
             begins_amount(line_.part(after_divider(i), line_.size()));
    }
    auto next = after_divider(i);
    // `35 ml cognac & 35 ml amaretto`: an amount on either side; `top with prosecco and a splash of soda`.
    auto verb = match_verb(line_, begin);
    bool pours = is_amount_on(begin, i) || (verb && verb->verb == Verb::top && !in_prep_);
    // `zest of 2 lemons and 2 limes`: of both.
    bool is_of_fruit = (line_.is_word(begin, "zest") || line_.is_word(begin, "juice") ||
                        line_.is_word(begin, "peel") || line_.is_word(begin, "peels")) &&
                       line_.is_word(begin + 1, "of");
    if (is_of_fruit && line_.kind(next) == TokenKind::number &&
        FormMatcher(line_.part(begin, stretch_end(next)), context_, in_prep_, state_).match())
      return false;
    if (pours && amount_stop(next) > next) return true;
    std::size_t verb_at = next;
    while (verb_at < line_.size() && FormMatcher::is_how(line_.text(verb_at))) ++verb_at;
    // `spray and throw away` is no step.
    if (line_.is_word(next, "throw") && line_.is_word(next + 1, "away")) return false;
    bool step_follows =
        match_verb(line_, next).has_value() || (verb_at > next && match_verb(line_, verb_at).has_value()) ||
        begins_form_of_step(line_, next) ||
        FormMatcher(line_.part(next, stretch_end(next)), context_, in_prep_, state_).is_filter();
    // `lots of ice and a slice of lemon`
    FormMatcher setting(line_.part(begin, i), context_, in_prep_, state_);
    if (!in_prep_ && setting.names_setting() &&
        FormMatcher(line_.part(next, stretch_end(next)), context_, in_prep_, state_).match())
      return true;
    bool step_before = match_verb(line_, begin).has_value() ||
                       FormMatcher(line_.part(begin, i), context_, in_prep_, state_).match();
    return step_follows && step_before;
  }

  /// `zest of 4 lemons, 2 limes`: of both.
  bool is_more_fruit(std::size_t begin, std::size_t next) const {
    bool is_of_fruit = (line_.is_word(begin, "zest") || line_.is_word(begin, "juice") ||
                        line_.is_word(begin, "peel") || line_.is_word(begin, "peels")) &&
                       line_.is_word(begin + 1, "of");
    if (!is_of_fruit || line_.kind(next) != TokenKind::number) return false;
    auto use = find_use(LineReader(line_, context_), next + 1, stretch_end(next));
    return use && !use->item.valid() && context_.specs[use->stock].kind == StockKind::fruit;
  }

  /// `shake 10 s, no ice`: the shake's, or the glass's; its reader asks.
  bool is_without_ice(std::size_t begin, std::size_t next) const {
    auto verb = match_verb(line_, begin);
    static constexpr Verb on_ice[] = {Verb::shake, Verb::dry_shake, Verb::whip,
                                      Verb::stir,  Verb::blend,     Verb::dump};
    bool is_none =
        (line_.is_word(next, "no") || line_.is_word(next, "without")) && line_.is_word(next + 1, "ice");
    return verb && is_none && base::is_any_of(verb->verb, on_ice) && next + 2 == stretch_end(next);
  }

  /// `rinse absinthe and dump`: the rinse, not the drink.
  bool is_poured_away(std::size_t begin, std::size_t next) const {
    auto verb = match_verb(line_, begin);
    // `absinthe rinse, dump the rest`
    bool rinses = verb && verb->verb == Verb::rinse;
    for (std::size_t i = begin + 1; i < next && !rinses; ++i)
      rinses = line_.is_word(i, "rinse") || line_.is_word(i, "rinsed") ||
               ((line_.is_word(begin, "coat") || line_.is_word(begin, "swirl")) && line_.is_word(i, "with"));
    if (!rinses || next >= line_.size()) return false;
    return FormMatcher(line_, context_, in_prep_, state_).is_discarded(next, stretch_end(next));
  }

  /// `heat to 70 C, hold 20 min`: held at that heat.
  bool is_held(std::size_t begin, std::size_t next) const {
    return (line_.is_word(next, "hold") || line_.is_word(next, "keep") || line_.is_word(next, "held")) &&
           FormMatcher(line_.part(begin, stretch_end(next)), context_, in_prep_, state_).is_held_heat();
  }

  /// True where the stretch is an amount, or one that is added or poured.
  bool is_amount_on(std::size_t first, std::size_t last) const {
    while (first < last && line_.kind(first) == TokenKind::word &&
           (line_.is_word(first, "add") || line_.is_word(first, "pour")))
      ++first;
    return is_amount(first, last);
  }

  bool is_amount(std::size_t first, std::size_t last) const {
    if (last <= first || line_.is_word(first, "to") || line_.is_word(first, "until")) return false;
    LineView part = line_.part(first, last);
    FormMatcher matcher(part, context_, in_prep_, state_);
    if (!begins_amount(part)) return matcher.reads_as_amount();
    if (!matcher.begins_with_amount()) return false;
    // Once the drink is in its glass, what is counted lies on it: a list of garnishes.
    auto unit = context_.units.match(line_, first + 1);
    return !state_.is_finished || (unit.unit.valid() && !context_.units[unit.unit].is_item_word);
  }

  bool is_divider(std::size_t i) const { return i >= line_.size() || after_divider(i) > i; }

  /// Where the amount of something known ends that begins at `i`, at a divider or before another amount; `i`
  /// where none does.
  std::size_t amount_stop(std::size_t i) const {
    for (std::size_t last = i + 2; last <= line_.size(); ++last) {
      bool ends = is_divider(last) || line_.kind(last) == TokenKind::number;
      if (ends && is_amount(i, last)) return last;
      if (last < line_.size() && line_.kind(last) == TokenKind::comma) break;
    }
    return i;
  }

  /// `30 ml vodka 15 ml triple sec`: behind a whole amount begins another, with its unit.
  bool runs_on(std::size_t begin, std::size_t i) const {
    if (strains_behind_time(begin, i)) return true;
    if (line_.kind(i) != TokenKind::number || i < begin + 2) return false;
    auto unit = context_.units.match(line_, i + 1);
    if (!unit.unit.valid()) return false;
    auto kind = context_.units[unit.unit].kind;
    if (kind != units::Kind::volume && kind != units::Kind::mass) return false;
    return is_amount_on(begin, i) && amount_stop(i) > i;
  }

  /// `shake 10 s fine strain`: behind a step and its time begins the strain.
  bool strains_behind_time(std::size_t begin, std::size_t i) const {
    auto before = match_verb(line_, begin), here = match_verb(line_, i);
    if (in_prep_ || !before || !here || i < begin + 3 || line_.kind(i - 2) != TokenKind::number) return false;
    auto unit = context_.units.match(line_, i - 1);
    bool is_time = unit.unit.valid() && context_.units[unit.unit].kind == units::Kind::time;
    return is_time && info(before->verb).takes_ice &&
           (here->verb == Verb::strain || here->verb == Verb::double_strain ||
            here->verb == Verb::fine_strain || here->verb == Verb::dump);
  }

  /// `6 weeks, fridge`: how long and where; and a time behind a comma is no shelf life where something only
  /// stands so long (`cover, 24 h fridge`).
  bool is_one_shelf_life(std::size_t begin, std::size_t next) const {
    if (!in_prep_) return false;
    LineView both = line_.part(begin, stretch_end(next));
    // `quart container, 1 month fridge`
    bool is_vessel = false;
    for (std::string_view vessel :
         {"container", "containers", "jar", "jars", "deli", "tub", "cambro", "bottle", "bottles"})
      is_vessel = is_vessel || (next >= 2 && line_.is_word(next - 2, vessel));
    if (is_vessel &&
        FormMatcher(line_.part(next, stretch_end(next)), context_, in_prep_, state_).is_shelf_life())
      return false;
    if (FormMatcher(both, context_, in_prep_, state_).is_shelf_life()) return true;
    if (line_.kind(next) != TokenKind::number) return false;
    auto unit = context_.units.match(line_, next + 1);
    if (!unit.unit.valid() || context_.units[unit.unit].kind != units::Kind::time) return false;
    auto verb = match_verb(line_, begin);
    static constexpr Verb last_steps[] = {Verb::bottle, Verb::strain, Verb::double_strain, Verb::fine_strain,
                                          Verb::cool,   Verb::chill,  Verb::decant};
    return !verb || !base::is_any_of(verb->verb, last_steps);
  }

  /// `strain, through muslin`, `bottle, keg`: how the step before is done.
  bool is_part_of_step(std::size_t begin, std::size_t next) const {
    auto verb = match_verb(line_, begin);
    if (!verb) return false;
    bool strains =
        verb->verb == Verb::strain || verb->verb == Verb::double_strain || verb->verb == Verb::fine_strain;
    if (strains)
      return line_.is_word(next, "through") ||
             FormMatcher(line_.part(next, stretch_end(next)), context_, in_prep_, state_).is_filter();
    // `steep 18 h, fridge`: where it stands so long.
    bool stands =
        in_prep_ && info(verb->verb).takes_temperature && info(verb->verb).time == VerbInfo::Time::should;
    if (stands && (line_.is_word(next, "fridge") || line_.is_word(next, "freezer") ||
                   line_.is_word(next, "refrigerated")))
      return next + 1 == stretch_end(next);
    return verb->verb == Verb::bottle &&
           (line_.is_word(next, "keg") || line_.is_word(next, "can") || line_.is_word(next, "pouch"));
  }

  std::size_t stretch_end(std::size_t i) const {
    while (i < line_.size() && line_.kind(i) != TokenKind::comma) ++i;
    return i;
  }

  /// `3 cardamom pods, crushed`: behind an amount it says how that goes in, and names no ice.
  bool is_said_of_amount(std::size_t i, std::size_t end) const {
    if (i < 3 || line_.kind(i - 1) != TokenKind::comma) return false;
    std::size_t first = i - 1;
    while (first > 0 && line_.kind(first - 1) != TokenKind::comma) --first;
    while (i + 1 < end && FormMatcher::is_how(line_.text(i))) ++i;
    return begins_amount(line_.part(first, i - 1)) && i + 1 == end &&
           (line_.is_word(i, "crushed") || line_.is_word(i, "cracked") || line_.is_word(i, "cubed") ||
            line_.is_word(i, "shaved") || line_.is_word(i, "cubes") || line_.is_word(i, "block"));
  }

  /// `strain, add 300 g sugar and 15 g citric acid`
  bool adds_several(std::size_t i, std::size_t end) const {
    for (std::size_t k = i + 2; k < end; ++k)
      if (line_.is_word(k, "and") || line_.text(k) == "&" || line_.text(k) == "+")
        return FormMatcher(line_.part(i, k), context_, in_prep_, state_).match().has_value();
    return false;
  }

  bool starts_line(std::size_t i) const {
    std::size_t end = stretch_end(i);
    if (is_said_of_amount(i, end)) return false;
    // `jug, serves 5`
    if (line_.is_word(i, "serves") && line_.kind(i + 1) == TokenKind::number && i + 2 == end) return true;
    // `strain, keeps 2 wk chilled`, `bottle, makes 600 ml`: a prep's own lines.
    if (in_prep_ && (line_.is_word(i, "keeps") || line_.is_word(i, "makes"))) return i + 1 < end;
    // `do not boil` says how.
    if (line_.is_word(i, "do") && line_.is_word(i + 1, "not"))
      return i > 1 && line_.kind(i - 1) == TokenKind::comma &&
             FormMatcher(line_.part(0, i - 1), context_, in_prep_, state_).names_setting();
    // `strain, tall, crushed ice`: which glass is asked.
    if (!in_prep_ && line_.is_word(i, "tall") && i + 1 == end) return true;
    // `dry overnight`: asked about as a line of its own.
    if (in_prep_ && line_.is_word(i, "dry") && !match_verb(line_, i) && i + 1 < end) return true;
    if (auto verb = match_verb(line_, i)) {
      const VerbInfo& what = info(verb->verb);
      if (!(in_prep_ ? what.in_prep : what.in_drink))
        return (line_.is_word(i, "add") || line_.is_word(i, "chill")) &&
               (FormMatcher(line_.part(i, end), context_, in_prep_, state_).match().has_value() ||
                adds_several(i, end));
      // `15 ml overproof rum, float`: it says how, and is no step of its own.
      return what.name_slot != VerbInfo::Name::must || i + verb->tokens < end;
    }
    LineView part = line_.part(i, end);
    // `bottle, 3 weeks chilled`: how long it keeps begins with a number, too.
    if (begins_amount(part))
      return amount_stop(i) > i || FormMatcher(part, context_, in_prep_, state_).match();
    if (FormMatcher(part, context_, in_prep_, state_).match()) return true;
    // `fill with crushed ice and stir`: a step runs on behind the first.
    if (!line_.is_word(i, "fill") && !line_.is_word(i, "top") && !line_.is_word(i, "pack")) return false;
    for (std::size_t k = i + 1; k < end; ++k)
      if (line_.is_word(k, "and"))
        return FormMatcher(line_.part(i, k), context_, in_prep_, state_).match().has_value();
    return false;
  }

  const LineView line_;
  const Context& context_;
  bool in_prep_;
  /// As the line goes on.
  RecipeState state_;
};

}  // namespace

bool begins_form_of_step(const LineView& line, std::size_t i) {
  static constexpr std::string_view words[] = {
      "pour",    "serve", "leave", "let",    "mix",   "combine", "whisk", "keg",    "filter",      "fridge",
      "freezer", "wet",   "fill",  "double", "blitz", "label",   "dbl",   "pass",   "refrigerate", "hold",
      "stand",   "sit",   "cover", "seal",   "wait",  "burp",    "give",  "served", "poured"};
  return match_verb(line, i) || std::any_of(std::begin(words), std::end(words),
                                            [&](std::string_view word) { return line.is_word(i, word); });
}

std::vector<Stretch> split_line(const LineView& line, const Context& context, bool in_prep,
                                const RecipeState& state) {
  return LineSplitter(line, context, in_prep, state).split();
}

}  // namespace gill::analysis
