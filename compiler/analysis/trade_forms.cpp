#include "analysis/trade_forms.h"

#include <algorithm>
#include <map>

#include "analysis/forms/form_matcher.h"
#include "analysis/forms/line_splitter.h"
#include "base/characters.h"
#include "base/text.h"
#include "syntax/parse.h"

namespace gill::analysis {

using syntax::LineView;

namespace {

/// Longest line that is looked through for the trade's forms: a line of thousands of words is no line of a
/// bar.
constexpr std::size_t max_tokens = 60;

}  // namespace

namespace {

/// What a bar writes for words of a form, where it stands for the same everywhere.
struct Spelling {
  std::string_view written, meant;
};
constexpr Spelling spellings[] = {
    {"w/", "with"},    {"w", "with"},       {"dbl", "double"}, {"til", "until"},
    {"till", "until"}, {"thru", "through"}, {"&", "and"},      {"whip shake", "whip"},
    {"n", "and"},      {"'n'", "and"},      {"+", "and"},
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
    {"shake dry then wet", "dry shake, shake"},
    {"dry shake then with ice", "dry shake, shake"},
    {"dry shake then wet", "dry shake, shake"},
    {"shake wet", "shake"},
};

/// The same in a prep, where nothing is chilled.
constexpr Spelling prep_step_spellings[] = {
    {"mix together", "stir"},
    {"mix well", "stir"},
    {"mix up", "stir"},
    {"mix", "stir"},
    {"combine", "stir"},
    {"whisk well", "stir"},
    {"whisk together", "stir"},
    {"whisk", "stir"},
    {"mixed", "stir"},
    {"blitz", "blend"},
    {"blitzed", "blend"},
    {"blend up", "blend"},
    {"infused", "infuse"},
    {"steeped", "steep"},
    {"decant into bottles", "bottle"},
    {"juice it", "press"},
    {"juice", "press"},
    {"squeeze through", "strain through"},
    {"press through", "strain through"},
    {"push through", "strain through"},
    {"wring through", "strain through"},
    {"boil down to", "reduce to"},
    {"reduce down to", "reduce to"},
    {"cook down to", "reduce to"},
    {"reduce down by", "reduce by"},
    {"double filter", "double strain"},
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
  static constexpr std::string_view words[] = {"and", "then", "over",   "into", "in",   "with",    "on",
                                               "for", "hard", "well",   "up",   "once", "off",     "until",
                                               "til", "till", "gently", "to",   "by",   "through", "n"};
  if (i >= line.size() || line.kind(i) != syntax::TokenKind::word || line.text(i) == "&" ||
      line.text(i) == "+")
    return true;
  return std::any_of(std::begin(words), std::end(words),
                     [&](std::string_view word) { return line.is_word(i, word); });
}

/// One place of a line that is spelled otherwise: how many tokens, and what they mean.
struct Spelled {
  std::size_t tokens = 0;
  std::string meant;
};

/// `x5`, `5x`, `steep 30m`, `stir/strain`: signs and letters run together.
Spelled run_together(const LineView& line, std::size_t i) {
  std::string word = base::lower_ascii(line.text(i));
  bool behind_number = i > 0 && line.kind(i - 1) == syntax::TokenKind::number;
  bool in_step = match_verb(line, 0).has_value();
  if (i > 0 && word.size() > 1 && word[0] == 'x' && base::is_digit(word[1])) return {1, word.substr(1)};
  if (word == "x" && behind_number && in_step &&
      (i + 1 == line.size() || line.kind(i + 1) == syntax::TokenKind::comma))
    return {1, ""};
  if (word == "x" && i > 0 && in_step && line.kind(i + 1) == syntax::TokenKind::number) return {1, ""};
  if (word == "m" && behind_number && in_step) return {1, "min"};
  auto is_verb = [](std::string_view one) {
    return std::any_of(all_verbs().begin(), all_verbs().end(),
                       [&](const VerbInfo& verb) { return verb.name == one; });
  };
  auto slash = word.find('/');
  if (slash != std::string::npos && slash > 0 && slash + 1 < word.size()) {
    std::string first = word.substr(0, slash), second = word.substr(slash + 1);
    if (is_verb(first) && is_verb(second)) return {1, first + ", " + second};
  }
  if (word == "/" && i > 0 && i + 1 < line.size() &&
      ((in_step && match_verb(line, i + 1)) || line.is_word(i + 1, "dbl")))
    return {1, ","};
  return {};
}

template <typename Table>
Spelled step_spelled_at(const LineView& line, std::size_t i, const Table& table) {
  for (const auto& step : table)
    if (std::size_t tokens = phrase_at(line, i, step.written);
        tokens > 0 && (step.written.ends_with(" through") || ends_step_name(line, i + tokens)))
      return {tokens, std::string(step.meant)};
  return {};
}

Spelled spelled_at(const LineView& line, std::size_t i, bool in_prep) {
  if (begins_step(line, i)) {
    if (auto step = step_spelled_at(line, i, step_spellings); step.tokens > 0) return step;
    if (in_prep)
      if (auto step = step_spelled_at(line, i, prep_step_spellings); step.tokens > 0) return step;
  }
  for (const auto& spelling : spellings)
    if (std::size_t tokens = phrase_at(line, i, spelling.written); tokens > 0) {
      // A sign between names is theirs to read; between steps it is `and`.
      bool is_sign = spelling.meant == "and";
      if (is_sign && !begins_form_of_step(line, i + 1)) continue;
      return {tokens, std::string(spelling.meant)};
    }
  return run_together(line, i);
}

/// The line with its abbreviations spelled out; nothing where it has none.
std::optional<Reading> without_abbreviations(const LineView& line, bool in_prep) {
  Reading reading;
  bool changed = false;
  std::size_t done = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    auto spelled = spelled_at(line, i, in_prep);
    if (spelled.tokens == 0) continue;
    reading.copy(line, done, i);
    reading.say(spelled.meant);
    i += spelled.tokens - 1;
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

void TradeForms::see_amount(const LineView& line) {
  std::size_t stop = 0;
  while (stop < line.size() && line.kind(stop) != syntax::TokenKind::comma) ++stop;
  auto use = use_of_amount(line.part(0, stop), context_);
  if (!use) return;
  const auto& stock = context_.specs[use->stock];
  if (in_prep_ && stock.kind == StockKind::fat) state_.fat = stock.head.name;
  if (stock.is_prep || stock.effective_form() == Form::liquid)
    state_.liquids.push_back(use->stock);
  else
    state_.solids.push_back(use->stock);
}

void TradeForms::see(const LineView& line) {
  auto verb = match_verb(line, 0);
  if (!verb) return see_amount(line);
  state_.has_step = true;
  switch (verb->verb) {
    case Verb::shake:
      state_.has_shaken = true;
      [[fallthrough]];
    case Verb::dry_shake:
    case Verb::whip:
    case Verb::throw_:
    case Verb::roll:
    case Verb::heat:
      state_.is_mixed = true;
      break;
    case Verb::blend:
      state_.is_mixed = state_.is_blended = true;
      break;
    case Verb::stir:
      state_.is_mixed = state_.is_mixed || !state_.was_built;
      break;
    case Verb::build:
      state_.was_built = true;
      state_.is_finished = state_.is_finished || !state_.liquids.empty();
      break;
    case Verb::muddle:
      state_.has_muddled = true;
      state_.is_finished = false;
      break;
    case Verb::rim:
      state_.has_rim = true;
      break;
    case Verb::strain:
    case Verb::double_strain:
    case Verb::fine_strain:
    case Verb::dump:
      if (line.is_word(verb->tokens, "to")) break;
      state_.is_mixed = false;
      state_.is_finished = true;
      break;
    case Verb::top:
    case Verb::float_:
    case Verb::layer:
    case Verb::swizzle:
    case Verb::churn:
    case Verb::garnish:
      state_.is_finished = true;
      break;
    case Verb::rinse:
    case Verb::mist:
    case Verb::flame:
    case Verb::smoke:
    case Verb::carbonate:
    case Verb::rest:
    case Verb::add_ice:
    case Verb::side:
    case Verb::serve:
    case Verb::do_:
    case Verb::dissolve:
    case Verb::cool:
    case Verb::simmer:
    case Verb::infuse:
    case Verb::steep:
    case Verb::macerate:
    case Verb::chill:
    case Verb::freeze:
    case Verb::thaw:
    case Verb::ferment:
    case Verb::dehydrate:
    case Verb::skim:
    case Verb::decant:
    case Verb::press:
    case Verb::clarify:
    case Verb::remove:
    case Verb::reduce:
    case Verb::charge:
    case Verb::bottle:
      break;
  }
}

std::vector<ReadLine> TradeForms::read(const LineView& written) {
  if (written.size() == 0 || written.size() > max_tokens) return {{written, Implied::no}};
  LineView line = written;
  bool is_words = false;
  if (auto verb = match_verb(line, 0)) is_words = info(verb->verb).takes_words;
  if (!is_words)
    if (auto plain = without_abbreviations(line, in_prep_)) line = add(std::move(*plain), written.whole());
  std::vector<ReadLine> lines;
  for (const auto& part : split_line(line, context_, in_prep_, state_)) {
    // A property keeps its own words; what followed its comma was a line of its own.
    bool is_property = part.is_word(0, "glass") || part.is_word(0, "ice");
    auto match = is_property ? std::nullopt : FormMatcher(part, context_, in_prep_, state_).match();
    if (!match) {
      see(part);
      lines.push_back({part, Implied::no});
      continue;
    }
    for (auto& reading : *match) {
      Implied implied = reading.implied;
      auto view = add(std::move(reading), part.whole());
      // How a step is done is put aside first: what is left may be a form of its own.
      auto again =
          implied == Implied::no ? FormMatcher(view, context_, in_prep_, state_).match() : std::nullopt;
      if (!again) {
        see(view);
        lines.push_back({view, implied});
        continue;
      }
      for (auto& inner : *again) {
        Implied inner_implied = inner.implied;
        auto inner_view = add(std::move(inner), part.whole());
        see(inner_view);
        lines.push_back({inner_view, inner_implied});
      }
    }
  }
  return lines;
}

}  // namespace gill::analysis
