// Lines that are neither amount, property nor step: what they were meant to be.
#include <fmt/format.h>

#include "analysis/declaration_reader.h"
#include "analysis/typo.h"
#include "base/text.h"

namespace gill::analysis {

using diagnostics::Rule;
using syntax::TokenKind;
using units::Kind;

namespace {

class UnknownLine {
 public:
  UnknownLine(LineReader& reader, const std::vector<std::string_view>& words, bool with_verbs, bool in_prep)
      : reader_(reader), line_(reader.line()), words_(words), with_verbs_(with_verbs), in_prep_(in_prep) {}

  bool report() {
    if (line_.kind(0) == TokenKind::curly_string) {
      reader_.fail(Rule::bad_line, line_.span(0), "names stand in straight quotes, not typographic ones",
                   "Use the plain double quote \".");
      return false;
    }
    if (with_verbs_ && (report_article() || report_juice() || report_bare_unit())) return true;
    if (with_verbs_ && report_turned_verb()) return false;
    report_unknown_word();
    return with_verbs_ && holds_quantity();
  }

 private:
  std::string raw(std::size_t first, std::size_t last) const {
    return base::collapse_space(line_.raw(first, last));
  }
  const units::UnitTable& units() const { return reader_.context().units; }
  bool is_article(std::size_t i) const {
    return line_.is_word(i, "a") || line_.is_word(i, "an") || line_.is_word(i, "one");
  }
  bool is_here(const VerbInfo& verb) const { return in_prep_ ? verb.in_prep : verb.in_drink; }

  bool begins_without_number(std::size_t end, const std::string& fix) {
    return !reader_.fail(Rule::bad_line, line_.span(0, end), "an amount begins with a number",
                         fmt::format("Write `{}`.", fix));
  }

  /// `a barspoon of absinthe`, `an egg white`.
  bool report_article() {
    if (!is_article(0) || line_.size() < 2) return false;
    auto match = units().match(line_, 1);
    std::size_t rest = 1 + match.tokens;
    if (line_.is_word(rest, "of")) ++rest;
    if (match.unit.valid() && rest < line_.size())
      return begins_without_number(
          rest, fmt::format("1 {} {}", units()[match.unit].symbol, raw(rest, line_.size())));
    std::size_t end = reader_.comma_or_end();
    if (!find_use(reader_, 1, end)) return false;
    return begins_without_number(1, fmt::format("1 {}", raw(1, line_.size())));
  }

  /// `juice of 1/2 lime`, `juice of half a lime`, `juice of a lime`.
  bool report_juice() {
    if (!line_.is_word(0, "juice") || !line_.is_word(1, "of") || line_.size() < 3) return false;
    std::size_t at = 2;
    base::Exact fruits = 1;
    if (units::QuantityReader::begins_quantity(line_, at)) {
      auto number = reader_.quantities().read_number(at);
      if (!number) return reader_.close(), true;
      fruits = number->value;
    } else if (line_.is_word(at, "half")) {
      ++at;
      fruits = base::Exact(1, 2);
    }
    if (is_article(at)) ++at;
    std::size_t end = reader_.comma_or_end();
    auto use = find_use(reader_, at, end);
    std::string help = fmt::format("Write the volume: `15 ml {} juice`.", raw(at, end));
    if (use)
      for (const auto& gives : reader_.context().specs[use->stock].gives)
        if (gives.quantity.kind == Kind::volume && gives.what.stock.valid())
          help = fmt::format("Write `{} ml {}`.", base::to_decimal(gives.quantity.value * fruits, 1),
                             reader_.context().specs[gives.what.stock].head.name);
    return !reader_.fail(Rule::bad_line, line_.whole(), "fruits differ, so juice is written as a volume",
                         help);
  }

  /// `pinch salt`.
  bool report_bare_unit() {
    auto match = units().match(line_, 0);
    if (!match.unit.valid() || match.tokens >= line_.size()) return false;
    std::size_t rest = match.tokens + (line_.is_word(match.tokens, "of") ? 1 : 0);
    return begins_without_number(match.tokens,
                                 fmt::format("1 {} {}", units()[match.unit].symbol, raw(rest, line_.size())));
  }

  /// `hard shake`: the verb comes first, how after a comma. `dobule strain`: a verb of two words, misspelt.
  bool report_turned_verb() {
    for (std::size_t i = 1; i < line_.size(); ++i) {
      auto verb = match_verb(line_, i);
      if (!verb || !is_here(info(verb->verb))) continue;
      if (i == 1 && report_misspelt_pair(info(verb->verb).name)) return true;
      std::string rest = raw(i + verb->tokens, line_.size());
      if (i + verb->tokens >= line_.size() && info(verb->verb).time == VerbInfo::Time::should) rest = "12 s";
      return !reader_.fail(Rule::unknown_word, line_.span(0, i),
                           fmt::format("`{}` starts no line", raw(0, i)),
                           fmt::format("Write the step first and how after a comma: `{}{}{}, {}`.",
                                       info(verb->verb).name, rest.empty() ? "" : " ", rest, raw(0, i)));
    }
    return false;
  }

  bool report_misspelt_pair(std::string_view second) {
    std::string ending = " " + std::string(second);
    std::vector<std::string_view> firsts;
    base::NearestWord nearest(base::lower_ascii(line_.text(0)));
    for (const auto& verb : all_verbs()) {
      if (!is_here(verb) || !verb.name.ends_with(ending)) continue;
      firsts.push_back(verb.name.substr(0, verb.name.size() - ending.size()));
      nearest.consider(firsts.back(), verb.name);
    }
    if (!nearest.best()) return false;
    auto meant = std::string_view(*nearest.best()).substr(0, nearest.best()->size() - ending.size());
    return !reader_.fail(Rule::unknown_word, line_.span(0), fmt::format("`{}` starts no line", line_.text(0)),
                         fmt::format("Did you mean `{}`?", *nearest.best()),
                         word_fix(line_.span(0), line_.text(0), firsts, meant));
  }

  /// Every word or two that may start a line here.
  std::vector<std::string_view> known_words() const {
    std::vector<std::string_view> known = words_;
    if (with_verbs_)
      for (const auto& verb : all_verbs())
        if (is_here(verb)) known.push_back(verb.name);
    return known;
  }

  std::optional<std::string> nearest_word() const {
    if (reader_.is_trade_word(line_.text(0))) return std::nullopt;
    std::string first_word = base::lower_ascii(line_.text(0));
    base::NearestWord nearest(first_word),
        nearest_two(line_.size() > 1 ? first_word + " " + base::lower_ascii(line_.text(1)) : first_word);
    for (auto known : known_words()) {
      nearest.consider(known, known);
      if (known.find(' ') != std::string_view::npos) nearest_two.consider(known, known);
    }
    return nearest.best() ? nearest.best() : nearest_two.best();
  }

  /// What stands for the first word; nothing where another word has to go with it, or a colon behind it.
  std::optional<diagnostics::Fix> first_word_fix(const std::optional<std::string>& best) const {
    if (!best || best->find(' ') != std::string::npos || line_.kind(1) == TokenKind::colon)
      return std::nullopt;
    return word_fix(line_.span(0), line_.text(0), known_words(), *best);
  }

  void report_unknown_word() {
    auto best = line_.size() > 0 ? nearest_word() : std::nullopt;
    std::string help;
    if (best)
      help = fmt::format("Did you mean `{}`?", *best);
    else if (with_verbs_)
      help =
          "A line is an amount (`60 ml London dry gin`), a property (`glass coupe`) or a step (`shake 12 "
          "s`).";
    else
      help = fmt::format("The lines here are {}.",
                         base::join_with_and(std::vector<std::string>(words_.begin(), words_.end())));
    if (line_.kind(1) == TokenKind::colon) help += " No colon stands after a keyword.";
    reader_.fail(Rule::unknown_word, line_.size() > 0 ? line_.span(0) : line_.whole(),
                 fmt::format("`{}` is no line of this declaration",
                             line_.size() > 0 ? line_.text(0) : std::string_view()),
                 help, first_word_fix(best));
  }

  bool holds_quantity() const {
    for (std::size_t i = 0; i < line_.size(); ++i)
      if (units::QuantityReader::begins_quantity(line_, i)) return true;
    return false;
  }

  LineReader& reader_;
  const syntax::LineView& line_;
  const std::vector<std::string_view>& words_;
  bool with_verbs_;
  bool in_prep_;
};

}  // namespace

bool report_unknown_line(LineReader& reader, const std::vector<std::string_view>& words, bool with_verbs,
                         bool in_prep) {
  return UnknownLine(reader, words, with_verbs, in_prep).report();
}

void report_colon(LineReader& reader) {
  reader.fail(Rule::bad_line, reader.line().span(reader.at()), "no colon stands after a keyword",
              "Delete the colon.");
}

}  // namespace gill::analysis
