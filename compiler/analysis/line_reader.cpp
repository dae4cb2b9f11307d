#include "analysis/line_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>

#include "analysis/typo.h"
#include "analysis/verbs.h"
#include "base/any_of.h"
#include "base/characters.h"
#include "base/date.h"
#include "base/text.h"

namespace gill::analysis {

using diagnostics::Rule;
using syntax::TokenKind;
using units::Kind;

std::string_view example_of(Kind kind) {
  switch (kind) {
    case Kind::volume:
      return "30 ml";
    case Kind::mass:
      return "20 g";
    case Kind::count:
      return "2";
    case Kind::part:
      return "2 parts";
    case Kind::time:
      return "12 s";
    case Kind::temperature:
      return "65 C";
    case Kind::strength:
      return "40 % abv";
    case Kind::mass_concentration:
      return "6 % w/v";
    case Kind::mass_fraction:
      return "50 % w/w";
    case Kind::density:
      return "1.04 g/ml";
    case Kind::gas:
      return "3.5 vol";
    case Kind::pressure:
      return "2 bar";
    case Kind::energy:
      return "200 kcal";
    case Kind::money:
      return "14 EUR";
    case Kind::share:
      return "3 %";
    case Kind::length:
      return "90 mm";
  }
  return "";
}

LineReader::LineReader(const syntax::LineView& line, const Context& context)
    : line_(line), context_(context) {}

// A line with more is no line of a spec; who fixes these sees the rest.
constexpr std::size_t max_mistakes_reported = 20;

bool LineReader::fail(Rule rule, Span span, std::string message, std::string help,
                      std::optional<diagnostics::Fix> fix) {
  mistake(rule, span, std::move(message), std::move(help), std::move(fix));
  failed_ = true;
  return false;
}

void LineReader::mistake(Rule rule, Span span, std::string message, std::string help,
                         std::optional<diagnostics::Fix> fix) {
  if (!failed_ && reported_ < max_mistakes_reported)
    context_.sink.add(rule, span, std::move(message), std::move(help)).fix = std::move(fix);
  ++reported_;
  mistaken_ = true;
}

std::optional<diagnostics::Fix> LineReader::name_fix(symbols::NameSpace space, Span span,
                                                     std::string_view wrong,
                                                     const std::optional<std::string>& near) const {
  auto needs_quotes = [](char c) {
    return base::is_digit(c) || std::string_view("\",:=#|").find(c) != std::string_view::npos;
  };
  if (!near || std::any_of(near->begin(), near->end(), needs_quotes)) return std::nullopt;
  if (is_trade_word(wrong)) return std::nullopt;
  auto find = [&](const std::string& name) { return context_.names.find(space, name); };
  auto meant = only_meaning(wrong, find);
  return diagnostics::Fix{{{span, *near}}, !meant.empty() && find(*near) == find(*meant.begin())};
}

std::optional<diagnostics::Fix> LineReader::unit_fix(Span span, std::string_view wrong) const {
  if (is_trade_word(wrong)) return std::nullopt;
  auto meant =
      only_meaning(wrong, [&](const std::string& spelling) { return context_.units.find(spelling); });
  if (meant.empty()) return std::nullopt;
  const auto& unit = context_.units[context_.units.find(*meant.begin())];
  bool is_plural =
      meant.count(unit.plural) && (!meant.count(unit.symbol) || base::lower_ascii(wrong).ends_with('s'));
  return diagnostics::Fix{{{span, is_plural ? unit.plural : unit.symbol}}, true};
}

bool LineReader::is_trade_word(std::string_view word) const {
  // Words of the bar that are no names, units or steps of the language.
  static constexpr std::array<std::string_view, 44> words = {
      "neat",    "up",    "tin",    "cap",   "can",   "zest",   "straight", "pour",   "gum",
      "keg",     "jug",   "flask",  "whisk", "spoon", "shaker", "jigger",   "over",   "with",
      "without", "from",  "glass",  "lid",   "pot",   "pan",    "coarse",   "straw",  "cook",
      "boil",    "chuck", "served", "ds",    "ws",    "shake",  "tip",      "blanch", "taste",
      "shock",   "float", "steam",  "pass",  "lift",  "burp",   "ask",      "sink"};
  std::string lower = base::lower_ascii(word);
  std::string singular = lower.ends_with('s') ? lower.substr(0, lower.size() - 1) : lower;
  if (std::find(words.begin(), words.end(), lower) != words.end() ||
      std::find(words.begin(), words.end(), singular) != words.end() || context_.units.find(lower).valid() ||
      context_.specs.house.asks.contains(lower))
    return true;
  for (auto space : {symbols::NameSpace::stock, symbols::NameSpace::glass, symbols::NameSpace::ice})
    if (context_.names.find(space, lower).valid()) return true;
  return std::any_of(all_verbs().begin(), all_verbs().end(),
                     [&](const VerbInfo& verb) { return verb.name == lower; });
}

units::UnknownUnit LineReader::explain_unit(std::string_view word) const {
  auto explained = context_.units.explain_unknown(word);
  // `tin` is no `min`, and `cap` no `cup`.
  if (is_trade_word(word) && explained.help.starts_with("Did you mean"))
    explained.help =
        fmt::format("Write the amount in a unit (`30 ml`, `20 g`), or declare it: `unit {} = 30 ml`.", word);
  return explained;
}

bool LineReader::take_word(std::string_view word) {
  if (!at_word(word)) return false;
  ++at_;
  return true;
}

bool LineReader::take_words(std::initializer_list<std::string_view> words) {
  std::size_t at = at_;
  for (auto word : words)
    if (!line_.is_word(at++, word)) return false;
  at_ = at;
  return true;
}

bool LineReader::take_comma() {
  if (line_.kind(at_) != TokenKind::comma || done()) return false;
  ++at_;
  return true;
}

std::string LineReader::written(Span span) const { return base::collapse_space(context_.sources.text(span)); }

bool LineReader::missing(std::string_view subject, std::string_view what) {
  bool colon = !done() && line_.kind(at_) == TokenKind::colon;
  return fail(Rule::bad_line, colon ? line_.span(at_) : line_.whole(),
              colon ? std::string("no colon stands after a keyword")
                    : fmt::format("{} takes {}, and none stands here", subject, what),
              colon ? "Delete the colon." : fmt::format("Write {} there.", what));
}

bool LineReader::report_unknown_unit() {
  auto unknown = explain_unit(line_.text(at_));
  return fail(Rule::unknown_unit, line_.span(at_), unknown.message, unknown.help,
              unit_fix(line_.span(at_), line_.text(at_)));
}

bool LineReader::wrong_kind(const Quantity& quantity, std::initializer_list<Kind> kinds,
                            std::string_view subject) {
  std::vector<std::string> nouns, examples;
  for (Kind kind : kinds) {
    nouns.emplace_back(units::noun_of(kind));
    examples.push_back(fmt::format("`{}`", example_of(kind)));
  }
  std::string noun(units::noun_of(quantity.kind));
  if (quantity.kind == Kind::share &&
      std::find(kinds.begin(), kinds.end(), Kind::mass_concentration) != kinds.end())
    return fail(
        Rule::wrong_kind, quantity.span,
        fmt::format("{} takes {}, and a bare % does not say of what", subject, base::join_with_or(nouns)),
        "Write `% w/v` (g in 100 ml) or `% w/w` (g in 100 g).");
  // `sugar 300 g`: what goes in, and no share.
  if (quantity.kind == Kind::mass && base::is_any_of(Kind::mass_concentration, kinds))
    return fail(Rule::wrong_kind, quantity.span,
                fmt::format("{} takes {}, and {} is {}", subject, base::join_with_or(nouns),
                            written(quantity.span), noun),
                "What goes in is an amount, and its weight stands before its name.");
  // A bare number, and a minute written `m`, are meant; only the unit is missing.
  bool takes_time = std::find(kinds.begin(), kinds.end(), Kind::time) != kinds.end();
  bool is_bare = quantity.kind == Kind::count && !quantity.unit.valid();
  if (takes_time && (is_bare || quantity.kind == Kind::length)) {
    std::string number(written(quantity.span));
    while (!number.empty() && !base::is_digit(number.back())) number.pop_back();
    examples = {fmt::format("`{} s`", number), fmt::format("`{} min`", number)};
    if (quantity.kind == Kind::length) examples.erase(examples.begin());
  }
  // `heat to 60`: no kitchen heats to 60 F, and none to 160 C.
  if (base::is_any_of(Kind::temperature, kinds) && !takes_time && is_bare) {
    constexpr double hottest_c = 120;
    examples = {fmt::format("`{} {}`", written(quantity.span), quantity.number() > hottest_c ? "F" : "C")};
  }
  return fail(Rule::wrong_kind, quantity.span,
              fmt::format("{} takes {}, and {} is {}", subject, base::join_with_or(nouns),
                          written(quantity.span), noun),
              fmt::format("Write it as {}.", base::join_with_or(examples)));
}

std::optional<Quantity> LineReader::any_quantity() {
  auto quantity = quantities().read(at_);
  if (!quantity) failed_ = true;
  return quantity;
}

std::optional<Quantity> LineReader::quantity(std::initializer_list<Kind> kinds, std::string_view subject) {
  if (failed_) return std::nullopt;
  if (!at_quantity()) return missing(subject, units::noun_of(*kinds.begin())), std::nullopt;
  auto quantity = any_quantity();
  if (!quantity) return std::nullopt;
  auto allows = [&](Kind kind) { return std::find(kinds.begin(), kinds.end(), kind) != kinds.end(); };
  // A bare `%` after a strength is by volume.
  if (quantity->kind == Kind::share && allows(Kind::strength)) {
    quantity->kind = Kind::strength;
    quantity->unit = context_.units.find("% abv");
  }
  if (allows(quantity->kind)) return quantity;
  if (quantity->kind == Kind::count && !done() && line_.kind(at_) == TokenKind::word) {
    report_unknown_unit();
    return std::nullopt;
  }
  wrong_kind(*quantity, kinds, subject);
  return std::nullopt;
}

std::optional<Quantity> LineReader::plain_number(std::string_view subject) {
  if (failed_) return std::nullopt;
  if (!at_quantity()) return missing(subject, "a number"), std::nullopt;
  std::size_t at = at_;
  auto number = quantities().read_number(at_);
  if (!number) return failed_ = true, std::nullopt;
  auto match = context_.units.match(line_, at_);
  if (!match.unit.valid()) return number;
  fail(Rule::wrong_kind, line_.span(at, at_ + match.tokens),
       fmt::format("{} takes a plain number, and {} is {}", subject,
                   written(line_.span(at, at_ + match.tokens)),
                   units::noun_of(context_.units[match.unit].kind)),
       "Write the number without a unit.");
  return std::nullopt;
}

bool LineReader::expect_known_unit(const Quantity& quantity) {
  if (quantity.kind != Kind::count || quantity.unit.valid() || done() || line_.kind(at_) != TokenKind::word)
    return true;
  return report_unknown_unit();
}

std::optional<units::Money> LineReader::money(std::string_view subject) {
  if (failed_) return std::nullopt;
  if (!at_quantity()) return missing(subject, "a price"), std::nullopt;
  auto quantity = any_quantity();
  if (!quantity) return std::nullopt;
  if (quantity->kind == Kind::money) return units::Money{quantity->value, quantity->currency};
  if (quantity->kind == Kind::count && !done() && line_.kind(at_) == TokenKind::word) {
    std::string word(line_.text(at_)), upper = word;
    std::transform(upper.begin(), upper.end(), upper.begin(),
                   [](unsigned char c) { return std::toupper(c); });
    fail(Rule::wrong_kind, line_.span(at_), fmt::format("`{}` is no currency code", word),
         units::is_currency_code(upper) ? fmt::format("Currency codes are in capitals: `{}`.", upper)
                                        : "Write the ISO 4217 code, three capitals: `14 EUR`.");
    return std::nullopt;
  }
  fail(Rule::wrong_kind, quantity->span,
       fmt::format("{} takes a price, and {} has no currency", subject, written(quantity->span)),
       "Write the ISO 4217 code after the number: `14 EUR`.");
  return std::nullopt;
}

std::optional<double> LineReader::share(std::string_view subject) {
  auto share = quantity({Kind::share}, subject);
  if (!share) return std::nullopt;
  return share->number();
}

std::optional<std::string> LineReader::date() {
  if (failed_) return std::nullopt;
  if (line_.kind(at_) == TokenKind::date && !done()) {
    std::string text(line_.text(at_));
    if (base::read_iso_date(text)) return ++at_, text;
    fail(Rule::bad_line, line_.span(at_), fmt::format("`{}` is no day of the calendar", text),
         "Write year, month and day: `2026-09-15`.");
    return std::nullopt;
  }
  fail(Rule::bad_line, done() ? line_.whole() : line_.span(at_), "a date is missing here",
       "Write year, month and day with dashes: `2026-09-15`.");
  return std::nullopt;
}

std::size_t LineReader::comma_or_end() const {
  std::size_t end = at_;
  while (end < line_.size() && line_.kind(end) != TokenKind::comma) ++end;
  return end;
}

std::string LineReader::name(std::size_t end, std::string_view noun) {
  if (failed_) return {};
  if (end <= at_) {
    fail(Rule::bad_line, at_ > 0 ? line_.span(at_ - 1) : line_.whole(),
         fmt::format("{} {} is missing here", base::article(noun), noun),
         fmt::format("Write the name of {} {} there.", base::article(noun), noun));
    return {};
  }
  std::size_t bad = at_;
  if (!syntax::is_plain_name(line_, at_, end, bad)) {
    auto stands_behind_verb = [&](std::size_t i) {
      auto verb = match_verb(line_, 0);
      return verb && verb->tokens == i;
    };
    switch (line_.kind(bad)) {
      case TokenKind::curly_string:
        fail(Rule::bad_line, line_.span(bad), "names stand in straight quotes, not typographic ones",
             "Use the plain double quote \" on both sides.");
        break;
      case TokenKind::open_string:
        fail(Rule::bad_line, line_.span(bad), "this quote is not closed on its line", "Add the closing \".");
        break;
      case TokenKind::colon:
        fail(Rule::bad_line, line_.span(bad), "no colon stands after a keyword or in a name",
             "Delete the colon.", diagnostics::Fix{{{line_.span(bad), ""}}, stands_behind_verb(bad)});
        break;
      case TokenKind::comma_number:
        fail(Rule::bad_number, line_.span(bad), "a comma cannot stand in a number",
             "Write a point for decimals.");
        break;
      case TokenKind::number:
      case TokenKind::word:
      case TokenKind::date:
      case TokenKind::string:
      case TokenKind::comma:
      case TokenKind::equals:
      case TokenKind::percent:
      case TokenKind::arrow:
      case TokenKind::dots:
      case TokenKind::plus_minus:
      case TokenKind::colour:
      case TokenKind::dashed_mixed:
      case TokenKind::dashed_range:
      case TokenKind::stray:
        fail(Rule::bad_line, line_.span(bad),
             fmt::format("`{}` cannot stand in a name without quotes", line_.text(bad)),
             fmt::format("Write \"{}\" if it is part of the name.",
                         base::collapse_space(line_.raw(at_, end))));
    }
    return {};
  }
  std::string name = syntax::name_text(line_, at_, end);
  at_ = end;
  return name;
}

/// Quotes that are not closed or not straight; typographic ones count only where they hold all that stands
/// there.
bool LineReader::report_broken_string(std::size_t end) {
  for (std::size_t i = at_; i < end; ++i)
    if (line_.kind(i) == TokenKind::open_string)
      return !fail(Rule::bad_line, line_.span(i), "this quote is not closed on its line",
                   "Add the closing \".");
  if (end == at_ + 1 && line_.kind(at_) == TokenKind::curly_string)
    return !fail(Rule::bad_line, line_.span(at_), "text stands in straight quotes, not typographic ones",
                 "Use the plain double quote \" on both sides, or none.");
  return false;
}

std::string LineReader::words(std::size_t end) {
  if (failed_ || report_broken_string(end)) return {};
  std::string text = end > at_ ? base::collapse_space(line_.raw(at_, end)) : std::string();
  at_ = end;
  return text;
}

std::string LineReader::string_or_rest(std::string_view subject) {
  if (failed_) return {};
  if (done()) return missing(subject, "a few words"), std::string();
  if (report_broken_string(line_.size())) return {};
  std::string text;
  if (line_.size() == at_ + 1 && line_.kind(at_) == TokenKind::string) {
    text = syntax::name_text(line_, at_, at_ + 1);
  } else {
    text = base::collapse_space(line_.raw(at_, line_.size()));
  }
  at_ = line_.size();
  return text;
}

DeclarationId LineReader::declaration(symbols::NameSpace space, std::size_t end) {
  std::size_t first = at_;
  std::string wanted = name(end, symbols::noun_of(space));
  if (failed_) return {};
  auto id = context_.names.find(space, wanted);
  if (id.valid()) return context_.notes.name_uses.push_back({line_.span(first, end), id}), id;
  auto near = context_.names.nearest(space, wanted);
  fail(Rule::unknown_name, line_.span(first, end),
       fmt::format("no {} is called `{}`", symbols::noun_of(space), wanted),
       near ? fmt::format("Did you mean `{}`?", *near) : "Declare it, or correct the name.",
       name_fix(space, line_.span(first, end), wanted, near));
  return {};
}

bool LineReader::expect_end(std::string_view form) {
  if (failed_) return false;
  if (done()) return true;
  return fail(
      Rule::bad_line, line_.span(at_, line_.size()),
      fmt::format("`{}` is more than this line takes", base::collapse_space(line_.raw(at_, line_.size()))),
      fmt::format("The form is `{}`; put remarks in a comment (#) or a text line (|).", form));
}

}  // namespace gill::analysis
