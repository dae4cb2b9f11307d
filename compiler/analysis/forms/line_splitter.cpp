#include "analysis/forms/line_splitter.h"

#include "analysis/forms/form_matcher.h"

namespace gill::analysis {

using syntax::LineView;
using syntax::TokenKind;

namespace {

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
      if (is_part_of_step(begin, after_divider(i))) return false;
      // Behind a garnish stands where it goes: `on the block` is no ice to serve on.
      auto verb = match_verb(line_, begin);
      bool is_garnish = verb && (verb->verb == Verb::garnish || verb->verb == Verb::side);
      return !is_garnish || match_verb(line_, after_divider(i)) ||
             begins_amount(line_.part(after_divider(i), line_.size()));
    }
    auto next = after_divider(i);
    bool step_follows = match_verb(line_, next).has_value() || begins_form_of_step(line_, next);
    bool step_before = match_verb(line_, begin).has_value() ||
                       FormMatcher(line_.part(begin, i), context_, in_prep_, state_).match();
    return step_follows && step_before;
  }

  /// `strain, through muslin`, `bottle, keg`: how the step before is done.
  bool is_part_of_step(std::size_t begin, std::size_t next) const {
    auto verb = match_verb(line_, begin);
    if (!verb) return false;
    bool strains =
        verb->verb == Verb::strain || verb->verb == Verb::double_strain || verb->verb == Verb::fine_strain;
    if (strains) return line_.is_word(next, "through");
    return verb->verb == Verb::bottle &&
           (line_.is_word(next, "keg") || line_.is_word(next, "can") || line_.is_word(next, "pouch"));
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
      return what.name_slot != VerbInfo::Name::must || i + verb->tokens < end;
    }
    LineView part = line_.part(i, end);
    if (begins_amount(part)) {
      if (part.is_word(0, "to") || part.is_word(0, "until")) return false;
      return FormMatcher(part, context_, in_prep_, state_).begins_with_amount();
    }
    return FormMatcher(part, context_, in_prep_, state_).match().has_value();
  }

  const LineView line_;
  const Context& context_;
  bool in_prep_;
  const RecipeState& state_;
};

}  // namespace

bool begins_form_of_step(const LineView& line, std::size_t i) {
  static constexpr std::string_view words[] = {
      "pour",    "serve", "leave", "let",    "mix",   "combine", "whisk", "keg",  "filter",     "fridge",
      "freezer", "wet",   "fill",  "double", "blitz", "label",   "dbl",   "pass", "refrigerate"};
  return match_verb(line, i) || std::any_of(std::begin(words), std::end(words),
                                            [&](std::string_view word) { return line.is_word(i, word); });
}

std::vector<LineView> split_line(const LineView& line, const Context& context, bool in_prep,
                                 const RecipeState& state) {
  return LineSplitter(line, context, in_prep, state).split();
}

}  // namespace gill::analysis
