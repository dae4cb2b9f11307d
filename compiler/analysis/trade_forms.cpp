#include "analysis/trade_forms.h"

#include <algorithm>
#include <map>

#include "analysis/forms/form_matcher.h"
#include "analysis/forms/line_splitter.h"
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
  for (const auto& part : split_line(line, context_, in_prep_, state_)) {
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
