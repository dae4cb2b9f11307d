#include "analysis/trade_forms.h"

#include "analysis/forms/form_matcher.h"
#include "analysis/forms/line_splitter.h"
#include "analysis/forms/spelling.h"
#include "base/any_of.h"
#include "base/text.h"
#include "syntax/parse.h"

namespace gill::analysis {

using syntax::LineView;

namespace {

/// Longest line that is looked through for the trade's forms: a line of thousands of words is no line of a
/// bar.
constexpr std::size_t max_tokens = 60;
/// How often a line is spelled out anew at most.
constexpr int max_spellings = 6;
/// How often a reading may be a form of its own at most.
constexpr int max_readings = 3;

}  // namespace

LineView TradeForms::add(Reading reading, const Span& written) {
  // A reading is a body line: it is indented.
  constexpr std::uint32_t indent = 2;
  for (auto& read_from : reading.parts) read_from.begin += indent, read_from.end += indent;
  auto& [files, free, taken] = context_.readings;
  std::string text = std::string(indent, ' ') + reading.text;
  source::FileId id;
  if (free.empty()) {
    taken.push_back(files.size());
    files.emplace_back();
    id = context_.sources.add_reading(std::move(text), written, std::move(reading.parts));
  } else {
    taken.push_back(free.back());
    free.pop_back();
    id = files[taken.back()].file_id;
    context_.sources.replace_reading(id, std::move(text), written, std::move(reading.parts));
  }
  diagnostics::DiagnosticSink silent;
  files[taken.back()] = syntax::parse(id, context_.sources, silent);
  return LineView(context_.sources[id], files[taken.back()], 0);
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
  state_.was_setting = line.is_word(0, "glass");
  // It stands in its glass once it was worked and its glass is named.
  if (!in_prep_ && line.is_word(0, "glass") && (state_.is_mixed || state_.was_built) &&
      !state_.liquids.empty()) {
    state_.is_finished = state_.has_setting = true;
    return;
  }
  if (!in_prep_ && (line.is_word(0, "glass") || line.is_word(0, "ice"))) state_.has_setting = true;
  if (line.is_word(0, "ice") && !line.is_word(1, "none")) state_.has_ice = true;
  if (!verb) return see_amount(line);
  state_.has_step = true;
  static constexpr Verb working[] = {Verb::shake, Verb::dry_shake, Verb::whip,  Verb::stir,  Verb::throw_,
                                     Verb::roll,  Verb::swizzle,   Verb::churn, Verb::blend, Verb::heat};
  state_.was_worked = state_.was_worked || base::is_any_of(verb->verb, working);
  switch (verb->verb) {
    case Verb::shake:
      state_.has_shaken = true;
      [[fallthrough]];
    case Verb::dry_shake:
      state_.has_dry_shaken = state_.has_dry_shaken || verb->verb == Verb::dry_shake;
      [[fallthrough]];
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
    case Verb::serve:
      state_.is_finished = state_.is_finished || !state_.liquids.empty();
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
      state_.has_rinsed = true;
      break;
    case Verb::mist:
    case Verb::flame:
    case Verb::smoke:
    case Verb::carbonate:
    case Verb::rest:
    case Verb::add_ice:
    case Verb::side:
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
    case Verb::clarify:
    case Verb::reduce:
    case Verb::charge:
      break;
    case Verb::skim:
    case Verb::decant:
    case Verb::press:
    case Verb::remove:
    case Verb::bottle:
      // Nothing steeps in it any more.
      state_.is_finished = state_.is_finished || in_prep_;
      break;
  }
}

void TradeForms::read_part(const LineView& part, std::vector<ReadLine>& lines) {
  // A property keeps its own words; what followed its comma was a line of its own.
  bool is_property =
      !in_prep_ && (part.is_word(0, "glass") ||
                    (part.is_word(0, "ice") && !part.is_word(1, "to") && !part.is_word(1, "in") &&
                     !part.is_word(1, "full") && !part.is_word(1, "up")));
  // `dry shake, ice, shake again`: into the tin.
  if (part.size() == 1 && part.is_word(0, "ice") && state_.has_dry_shaken && !state_.has_shaken)
    is_property = false;
  auto match = is_property ? std::nullopt : FormMatcher(part, context_, in_prep_, state_).match();
  if (!match) {
    see(part);
    lines.push_back({part, Implied::no});
    return;
  }
  read_readings(std::move(*match), part.whole(), 1, lines);
}

void TradeForms::read_readings(std::vector<Reading> readings, const Span& written, int depth,
                               std::vector<ReadLine>& lines) {
  for (auto& reading : readings) {
    Implied implied = reading.implied;
    auto view = add(std::move(reading), written);
    // How a step is done is put aside first: what is left may be a form of its own.
    auto again = implied == Implied::no && depth < max_readings
                     ? FormMatcher(view, context_, in_prep_, state_).match()
                     : std::nullopt;
    if (again) {
      read_readings(std::move(*again), written, depth + 1, lines);
      continue;
    }
    see(view);
    lines.push_back({view, implied});
  }
}

std::vector<ReadLine> TradeForms::read(const LineView& written) {
  if (written.size() == 0 || written.size() > max_tokens) return {{written, Implied::no}};
  LineView line = written;
  bool is_words = false;
  if (auto verb = match_verb(line, 0)) is_words = info(verb->verb).takes_words;
  // What is spelled out may be read as spelled otherwise again: `(30 sec).` loses its point, then its
  // brackets.
  for (int pass = 0; !is_words && pass < max_spellings; ++pass) {
    auto plain = spelled_out(line, context_, in_prep_);
    if (!plain) break;
    line = add(std::move(*plain), written.whole());
  }
  std::vector<ReadLine> lines;
  // What the first part did is known before the rest is looked at: `strain, martini glass, 3 beans`.
  for (std::size_t at = 0; at < line.size();) {
    LineView rest = line.part(at, line.size());
    auto stretches = split_line(rest, context_, in_prep_, state_);
    read_part(rest.part(stretches[0].first, stretches[0].last), lines);
    if (stretches.size() == 1) break;
    at += stretches[1].first;
  }
  return lines;
}

}  // namespace gill::analysis
