// Lines that are neither amount, property nor step: what they were meant to be.
#include <fmt/format.h>

#include "analysis/declaration_reader.h"
#include "analysis/remark.h"
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
    if (with_verbs_ && (report_price() || report_two_meanings())) return false;
    if (in_prep_ && report_shelf_life()) return false;
    if (with_verbs_ && (report_article() || report_juice() || report_bare_unit())) return true;
    if (with_verbs_ && report_turned_verb()) return false;
    if (with_verbs_ && report_asked_name()) return false;
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

  /// Words of the bar that two bartenders would read in two ways.
  bool report_two_meanings() {
    struct Meanings {
      std::string_view words;
      bool in_prep;
      std::string_view message, help;
    };
    static constexpr Meanings asked[] = {
        {"tall", false, "`tall` names no glass", "Write `glass collins` or `glass highball`."},
        {"whisk", false, "`whisk` does not say whether ice goes with it",
         "Write `whip` where ice melts in it, or `do whisk` where nothing does."},
        {"mix", false, "`mix` does not say how", "Write `shake` or `stir`."},
        {"ds", false, "`DS` could be a dry shake or a double strain",
         "Write `dry shake` or `double strain`."},
        {"dry", true, "`dry` could be in a dehydrator or on the shelf",
         "Write `dehydrate 12 h` or `rest 12 h`."},
        {"pour", false, "`pour` after mixing could leave the ice behind or not",
         "Write `strain`, or `dump` where the ice goes along."}};
    // `pour 110 ml over block ice`: a pour of the batch, which is measured already.
    if (!in_prep_ && line_.is_word(0, "pour") && line_.kind(1) == TokenKind::number)
      return !reader_.fail(
                 Rule::unknown_word, line_.whole(), "a measured pour names nothing that is poured",
                 "How many serves it is says `serves`, and what it is served on `ice` and `glass`.") ||
             true;
    // `pour straight from the freezer`: it may only be said.
    if (!in_prep_ && line_.is_word(0, "pour") && line_.size() > 2 &&
        is_plain_remark(reader_, 1, line_.size()))
      return !reader_.fail(
                 Rule::unknown_word, line_.span(0), "`pour` after mixing could leave the ice behind or not",
                 fmt::format("Write `strain`, or `dump` where the ice goes along, or `do {}` where it is "
                             "only said.",
                             raw(0, line_.size()))) ||
             true;
    // `up with a twist`: of which fruit.
    if (!in_prep_ && line_.is_word(line_.size() - 1, "twist") &&
        (line_.is_word(0, "up") || line_.is_word(0, "twist") || line_.is_word(0, "a"))) {
      std::string up = line_.is_word(0, "up") ? "`ice none` and " : "";
      return !reader_.fail(
                 Rule::unknown_word, line_.whole(), "a twist is of lemon, of orange or of another fruit",
                 fmt::format("Write {}`garnish lemon twist`, or {}`garnish orange twist`.", up, up)) ||
             true;
    }
    for (const auto& one : asked)
      if (one.in_prep == in_prep_ && line_.is_word(0, one.words))
        return !reader_.fail(Rule::unknown_word, line_.span(0), std::string(one.message),
                             std::string(one.help)) ||
               true;
    return false;
  }

  /// `price 10 EUR`: a guest's price stands on a menu.
  bool report_price() {
    if (!line_.is_word(0, "price") && !line_.is_word(0, "price:") && !line_.is_word(0, "sell") &&
        !line_.is_word(0, "sells") && !line_.is_word(0, "cost"))
      return false;
    std::size_t at = 1;
    while (at < line_.size() && line_.kind(at) != TokenKind::number) ++at;
    if (at >= line_.size()) return false;
    bool has_currency = line_.kind(at + 1) == TokenKind::word && units::is_currency_code(line_.text(at + 1));
    return !reader_.fail(
               Rule::unknown_word, line_.whole(),
               in_prep_ ? "a prep costs what its parts cost" : "the price of a drink stands on a menu",
               in_prep_ ? std::string("Delete the line: prices stand with `buy` and in price lists.")
                        : fmt::format("Delete the line here. In a menu, below its `section`, the drink has "
                                      "the line `NAME at {} {}`.",
                                      line_.text(at),
                                      has_currency ? line_.text(at + 1) : std::string_view("EUR"))) ||
           true;
  }

  /// `use within 5 days`: how long it keeps, and nobody says where.
  bool report_shelf_life() {
    bool is_life = line_.is_word(0, "use") || line_.is_word(0, "shelf") || line_.is_word(0, "best") ||
                   line_.is_word(0, "lasts") || line_.is_word(0, "keep") || line_.is_word(0, "good") ||
                   line_.is_word(0, "same") || line_.is_word(0, "make") || line_.is_word(0, "day") ||
                   line_.is_word(0, "store") || line_.is_word(0, "will") || line_.is_word(0, "drink") ||
                   line_.is_word(0, "consume");
    if (!is_life) return false;
    for (std::size_t i = 0; i < line_.size(); ++i) {
      bool one = is_article(i);
      bool is_day = line_.is_word(i, "same") || line_.is_word(i, "daily") || line_.is_word(i, "the");
      if (is_day && (line_.is_word(i, "daily") || line_.is_word(i + 1, "day"))) one = true;
      if (line_.kind(i) != TokenKind::number && !one) continue;
      auto unit = line_.is_word(i, "daily") ? units::UnitMatch{} : units().match(line_, i + 1);
      bool is_daily = line_.is_word(i, "daily");
      if (!is_daily && (!unit.unit.valid() || units()[unit.unit].kind != Kind::time)) continue;
      std::string time = is_daily ? std::string("1 day")
                         : one    ? "1 " + raw(i + 1, i + 1 + unit.tokens)
                                  : raw(i, i + 1 + unit.tokens);
      return !reader_.fail(Rule::bad_line, line_.whole(),
                           fmt::format("it keeps {}, and nobody says where", time),
                           fmt::format("Write `keeps {0} chilled` or `keeps {0} ambient`.", time)) ||
             true;
    }
    return false;
  }

  /// `chilli slice`: a word with several meanings, with an item word behind it.
  bool report_asked_name() {
    std::size_t end = reader_.comma_or_end();
    for (std::size_t last = end; last > 0 && last + 1 >= end; --last) {
      const auto* meanings = answers_to(reader_, 0, last);
      if (!meanings) continue;
      std::string name = raw(0, last), behind = last < end ? " " + raw(last, end) : std::string();
      std::vector<std::string> answers;
      for (const auto& answer : *meanings)
        answers.push_back(fmt::format("`{}{}{}`", in_prep_ ? "" : "garnish ", answer, behind));
      return !reader_.fail(Rule::unknown_name, line_.span(0, last),
                           fmt::format("`{}` can mean several things", name),
                           fmt::format("Write {}.", base::join_with_or(answers))) ||
             true;
    }
    return false;
  }

  /// `double vodka`: two measures of a house, and houses differ.
  bool report_measure_of_house() {
    if (in_prep_ || line_.size() < 2 || !find_use(reader_, 1, reader_.comma_or_end())) return false;
    const auto& stock = reader_.context().specs[find_use(reader_, 1, reader_.comma_or_end())->stock];
    if (!stock.is_prep && stock.effective_form() != Form::liquid) return false;
    bool is_single = line_.is_word(0, "single"), is_double = line_.is_word(0, "double");
    if (!is_single && !is_double) return false;
    std::string name = raw(1, line_.size());
    return !reader_.fail(
        Rule::bad_line, line_.span(0),
        fmt::format("a {} is another measure in every house", is_single ? "single" : "double"),
        fmt::format("Write `{0} ml {2}` or `{1} ml {2}`, as the house pours it.", is_single ? 25 : 50,
                    is_single ? 35 : 70, name));
  }

  /// `a barspoon of absinthe`, `an egg white`.
  bool report_article() {
    if (report_measure_of_house()) return true;
    // `a few dashes of bitters`: how many nobody says.
    std::size_t few = is_article(0) ? 1 : 0;
    if (line_.is_word(few, "few") || line_.is_word(few, "some") || line_.is_word(few, "several")) {
      auto unit = units().match(line_, few + 1);
      std::size_t name = few + 1 + unit.tokens;
      if (line_.is_word(name, "of")) ++name;
      if (name < line_.size() && find_use(reader_, name, reader_.comma_or_end()))
        return !reader_.fail(Rule::bad_line, line_.span(0, few + 1), "how many is not said",
                             fmt::format("Write `3 {}`, or as many as it is.",
                                         raw(few + 1, few + 1 + unit.tokens) + (unit.tokens > 0 ? " " : "") +
                                             raw(name, line_.size())));
    }
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
    if (!find_use(reader_, rest, reader_.comma_or_end()) &&
        !is_asked_about(reader_, rest, reader_.comma_or_end()) && rest + 1 < line_.size() &&
        !holds_quantity())
      return false;
    // `pinch salt, pinch pepper`: a line for each.
    std::vector<std::string> lines;
    for (std::size_t i = 0; i < line_.size();) {
      std::size_t stop = i;
      while (stop < line_.size() && line_.kind(stop) != TokenKind::comma) ++stop;
      auto unit = units().match(line_, i);
      std::size_t name = i + unit.tokens;
      if (line_.is_word(name, "of")) ++name;
      if (!unit.unit.valid() || name >= stop || !find_use(reader_, name, stop)) break;
      lines.push_back(fmt::format("`1 {} {}`", units()[unit.unit].symbol, raw(name, stop)));
      i = stop + 1;
      if (i >= line_.size() && lines.size() > 1)
        return !reader_.fail(Rule::bad_line, line_.whole(),
                             "an amount begins with a number, and here are several things",
                             fmt::format("Write {}, each on its own line.", base::join_with_and(lines))) ||
               true;
    }
    // `pinch salt & pepper`: one of each.
    for (std::size_t i = rest + 1; i + 1 < line_.size(); ++i) {
      bool divides = line_.is_word(i, "and") || line_.text(i) == "&" || line_.text(i) == "+";
      if (!divides || !find_use(reader_, rest, i) || !find_use(reader_, i + 1, line_.size())) continue;
      const auto& symbol = units()[match.unit].symbol;
      return !reader_.fail(Rule::bad_line, line_.whole(),
                           "an amount begins with a number, and here are two things",
                           fmt::format("Write `1 {} {}` and `1 {} {}`, each on its own line.", symbol,
                                       raw(rest, i), symbol, raw(i + 1, line_.size()))) ||
             true;
    }
    return begins_without_number(match.tokens,
                                 fmt::format("1 {} {}", units()[match.unit].symbol, raw(rest, line_.size())));
  }

  /// `hard shake`: the verb comes first, how after a comma. `dobule strain`: a verb of two words, misspelt.
  bool report_turned_verb() {
    // `don't shake` is the other way round, and a sentence that comes to a step is no step.
    constexpr std::size_t most_words_before = 3;
    for (std::size_t i = 1; i < line_.size() && i <= most_words_before; ++i) {
      if (line_.is_word(i - 1, "don't") || line_.is_word(i - 1, "not") || line_.is_word(i - 1, "no") ||
          line_.is_word(i - 1, "never") || line_.is_word(i - 1, "to") || line_.is_word(i - 1, "between"))
        return false;
      auto verb = match_verb(line_, i);
      if (!verb || !is_here(info(verb->verb))) continue;
      if (info(verb->verb).name_slot == VerbInfo::Name::must) return false;
      if (i == 1 && report_misspelt_pair(info(verb->verb).name)) return true;
      std::string rest = raw(i + verb->tokens, line_.size());
      if (i + verb->tokens >= line_.size() && info(verb->verb).time == VerbInfo::Time::should) rest = "12 s";
      if (!is_plain_remark(reader_, 0, i)) return false;
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
      if (known.size() == 2 && first_word.size() == 2) continue;  // `no` is no slip of `do`
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
    else if (std::string garnish = with_verbs_ && !in_prep_ ? laid_on() : std::string(); !garnish.empty())
      help = fmt::format(
          "Write {} if it is put on the drink. Else a line is an amount, a property or a step.", garnish);
    else if (with_verbs_ && is_words())
      help = fmt::format(
          "Write `do {}` if it is a step in words. Else a line is an amount, a property or a step.",
          raw(0, line_.size()));
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

  /// True for a sentence of several words that names nothing and says no figure.
  bool is_words() const {
    constexpr std::size_t fewest_words = 3, most_words = 20;
    if (line_.size() < fewest_words || line_.size() > most_words) return false;
    for (std::size_t i = 0; i < line_.size(); ++i)
      if (line_.kind(i) != TokenKind::word && line_.kind(i) != TokenKind::comma &&
          line_.kind(i) != TokenKind::stray)
        return false;
    return is_plain_remark(reader_, 0, line_.size());
  }

  /// The lines that would put it on the drink: each thing by the longest name that is known, and what is said
  /// of it behind a comma. Empty where something of it is known for nothing that lies on a drink.
  std::string laid_on() const {
    constexpr std::size_t most_words = 12;
    if (line_.size() > most_words) return {};
    std::vector<std::string> lines;
    for (std::size_t first = 0; first < line_.size();) {
      std::size_t stop = first;
      auto divides = [&](std::size_t i) {
        return line_.kind(i) == TokenKind::comma || line_.is_word(i, "and") || line_.text(i) == "&" ||
               line_.text(i) == "+";
      };
      while (stop < line_.size() && !divides(stop)) ++stop;
      std::size_t begin = is_article(first) ? first + 1 : first, last = stop;
      while (last > begin && !find_use(reader_, begin, last)) --last;
      if (last == begin) return {};
      const auto& stock = reader_.context().specs[find_use(reader_, begin, last)->stock];
      if (stock.is_prep || stock.effective_form() == Form::liquid) return {};
      for (std::size_t i = last; i < stop; ++i)
        if (line_.kind(i) != TokenKind::word) return {};
      // `juniper berries (3)`: so many of them.
      std::string behind = last < stop ? raw(last, stop) : std::string();
      bool is_count = behind.size() > 2 && behind.front() == '(' && behind.back() == ')' &&
                      behind.find_first_not_of("0123456789", 1) == behind.size() - 1;
      lines.push_back(
          is_count ? fmt::format("`garnish {} {}`", behind.substr(1, behind.size() - 2), raw(begin, last))
                   : fmt::format("`garnish {}{}`", raw(begin, last),
                                 behind.empty() ? std::string() : ", \"" + behind + "\""));
      first = stop + 1;
    }
    return base::join_with_and(lines);
  }

  bool holds_quantity() const {
    for (std::size_t i = 0; i < line_.size(); ++i)
      if (units::QuantityReader::begins_quantity(line_, i)) return true;
    return false;
  }

  LineReader& reader_;
  const syntax::LineView line_;
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
              "Delete the colon.", diagnostics::Fix{{{reader.line().span(reader.at()), ""}}, true});
}

}  // namespace gill::analysis
