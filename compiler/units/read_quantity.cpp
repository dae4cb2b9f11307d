#include "units/read_quantity.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/percent.h"
#include "base/text.h"

namespace gill::units {

using base::Exact;
using diagnostics::Rule;
using syntax::TokenKind;

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// `about` means ten per cent either way.
constexpr double about_tolerance = 0.10;

bool looks_like_number(TokenKind kind) {
  return kind == TokenKind::number || kind == TokenKind::dashed_mixed || kind == TokenKind::dashed_range ||
         kind == TokenKind::comma_number;
}

std::string replace_all(std::string text, std::string_view from, std::string_view to) {
  for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
  return text;
}

/// `1,000` and `12,500,000` group thousands; `22,5` is a decimal comma.
std::string without_comma(std::string_view text) {
  // Nobody groups `0,125`.
  bool grouped = !text.starts_with("0,");
  for (auto at = text.find(','); at != std::string_view::npos; at = text.find(',', at + 1)) {
    auto next = text.find_first_not_of("0123456789", at + 1);
    auto length = (next == std::string_view::npos ? text.size() : next) - at - 1;
    grouped = grouped && length == 3;
  }
  return replace_all(std::string(text), ",", grouped ? "" : ".");
}

/// True where one comma can only part decimals: three digits behind it may be thousands.
bool is_decimal_comma(std::string_view text) {
  return std::count(text.begin(), text.end(), ',') == 1 &&
         without_comma(text).find('.') != std::string::npos && text.find('.') == std::string_view::npos;
}

/// Makes a quantity the range from its value to `high`.
void run_up_to(Quantity& quantity, const Exact& high) {
  quantity.high = base::to_double(high);
  quantity.value = (quantity.value + high) / 2;
  quantity.tolerance = (quantity.high - quantity.low) / 2;
}

/// `30-45` as `30..45`, whichever dash it is.
std::string with_two_points(const std::string& range) {
  for (std::string_view dash : {"‒", "–", "—", "-"}) {
    auto split = range.find(dash);
    if (split == std::string::npos) continue;
    return fmt::format("{}..{}", base::trim(std::string_view(range).substr(0, split)),
                       base::trim(std::string_view(range).substr(split + dash.size())));
  }
  return range;
}

/// True where it runs from less to more: it can only be a range then.
bool rises(const std::string& range) {
  std::string points = with_two_points(range);
  auto split = points.find("..");
  if (split == std::string::npos) return false;
  auto low = base::parse_exact(points.substr(0, split)), high = base::parse_exact(points.substr(split + 2));
  return low && high && *low < *high;
}

/// `30/15`: two amounts in a row, which as a fraction would be another; `7/16` is a fraction.
bool is_row_of_numbers(std::string_view text) {
  auto slash = text.find('/');
  auto space = text.find(' ');
  if (slash == std::string_view::npos || space != std::string_view::npos) return false;
  auto above = base::parse_exact(text.substr(0, slash)), below = base::parse_exact(text.substr(slash + 1));
  constexpr int largest_plain = 9, rulers[] = {10, 12, 16, 32, 64, 100};
  if (!above || !below || *above <= Exact(1) || *below <= Exact(largest_plain)) return false;
  bool is_ruler =
      std::any_of(std::begin(rulers), std::end(rulers), [&](int one) { return *below == Exact(one); });
  return !is_ruler || *above >= *below;
}

}  // namespace

bool is_currency_code(std::string_view word) {
  return word.size() == 3 &&
         std::all_of(word.begin(), word.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
}

bool QuantityReader::begins_quantity(const syntax::LineView& line, std::size_t at) {
  if (at >= line.size()) return false;
  if (looks_like_number(line.kind(at))) return true;
  if (line.kind(at) == TokenKind::dots) return looks_like_number(line.kind(at + 1));
  return line.is_word(at, "about") && begins_quantity(line, at + 1);
}

/// Reports a number written in another way than the language's, with the number and its unit as they should
/// stand. A line that is looked at twice is reported once.
void QuantityReader::offer(std::size_t at, std::string message, const std::string& number, bool safe) {
  auto number_span = line_.span(at);
  auto match = units_.match(line_, at + 1);
  auto span = line_.span(at, at + 1 + match.tokens);
  for (auto known = sink_.all().rbegin();
       known != sink_.all().rend() && known->span.begin >= line_.whole().begin; ++known)
    if (known->rule == Rule::bad_number && known->span == span) return;
  std::string unit =
      match.tokens > 0 ? " " + base::collapse_space(line_.raw(at + 1, at + 1 + match.tokens)) : std::string();
  sink_.add(Rule::bad_number, span, std::move(message), fmt::format("Write `{}{}`.", number, unit)).fix =
      diagnostics::Fix{{{number_span, number}}, safe};
}

void QuantityReader::report_near_miss(std::size_t at) {
  std::string text(line_.text(at));
  switch (line_.kind(at)) {
    case TokenKind::dashed_mixed: {
      auto fix = text.replace(text.find('-'), 1, " ");
      return offer(at, "a whole and a fraction have a space between them, not a dash", fix, false);
    }
    case TokenKind::dashed_range:
      return offer(at, "a range is written with two points, not a dash", with_two_points(text), rises(text));
    case TokenKind::comma_number:
      return offer(at, "a comma cannot stand in a number: it could part thousands or decimals",
                   without_comma(text), is_decimal_comma(text));
    case TokenKind::number:
      sink_.add(Rule::bad_number, line_.span(at),
                text.find("/0") != std::string::npos
                    ? std::string("nothing can be divided by zero")
                    : fmt::format("a number holds at most {} digits", base::max_digits),
                "Write the number as it would stand on a card.");
      return;
    case TokenKind::word:
    case TokenKind::date:
    case TokenKind::string:
    case TokenKind::comma:
    case TokenKind::equals:
    case TokenKind::colon:
    case TokenKind::percent:
    case TokenKind::arrow:
    case TokenKind::dots:
    case TokenKind::plus_minus:
    case TokenKind::colour:
    case TokenKind::open_string:
    case TokenKind::curly_string:
    case TokenKind::stray:
      sink_.add(Rule::bad_number, line_.span(at, at + 1), "a number is missing here",
                "Write a number, such as `30 ml`.");
  }
}

std::optional<Exact> QuantityReader::read_exact(std::size_t& at) {
  if (line_.kind(at) == TokenKind::number && is_row_of_numbers(line_.text(at))) {
    sink_.add(Rule::bad_number, line_.span(at),
              fmt::format("`{}` could be a fraction or two amounts", line_.text(at)),
              "Write each amount on its own line.");
    return std::nullopt;
  }
  if (line_.kind(at) == TokenKind::number)
    if (auto value = base::parse_exact(line_.text(at))) return ++at, value;
  report_near_miss(at);
  return meant(at);
}

/// The number that a near miss plainly means, past it: the rest of the line can then be read, too.
std::optional<Exact> QuantityReader::meant(std::size_t& at) {
  std::string text(line_.text(at));
  if (!mistaken_) return std::nullopt;
  if (line_.kind(at) == TokenKind::comma_number)
    text = without_comma(text);
  else if (line_.kind(at) == TokenKind::dashed_mixed)
    text[text.find('-')] = ' ';
  else
    return std::nullopt;
  auto value = base::parse_exact(text);
  if (!value) return std::nullopt;
  *mistaken_ = true;
  ++at;
  return value;
}

std::optional<Quantity> QuantityReader::read_number(std::size_t& at) {
  std::size_t first = at;
  Quantity quantity;
  bool about = line_.is_word(at, "about");
  if (about) ++at;
  if (line_.kind(at) == TokenKind::dots) {
    ++at;
    auto high = read_exact(at);
    if (!high) return std::nullopt;
    quantity.value = *high;
    quantity.low = -infinity;
    quantity.high = base::to_double(*high);
    quantity.is_range = true;
  } else {
    auto low = read_exact(at);
    if (!low) return std::nullopt;
    quantity.value = *low;
    quantity.low = quantity.high = base::to_double(*low);
    if (line_.kind(at) == TokenKind::dots) {
      ++at;
      quantity.is_range = true;
      quantity.high = infinity;
      if (looks_like_number(line_.kind(at))) {
        auto high = read_exact(at);
        if (!high) return std::nullopt;
        if (*high < *low) {
          sink_.add(Rule::bad_number, line_.span(first, at), "a range runs from its lower end to its higher",
                    fmt::format("Write `{}..{}`.", base::to_decimal(*high, 6), base::to_decimal(*low, 6)));
          return std::nullopt;
        }
        run_up_to(quantity, *high);
      }
    }
  }
  if (about) quantity.tolerance = std::abs(quantity.number()) * about_tolerance;
  if (!check_signs(first, at)) return std::nullopt;
  quantity.span = line_.span(first, at);
  return quantity;
}

/// Only a temperature has a sign; `end` is where the unit of the numbers before it would stand.
bool QuantityReader::check_signs(std::size_t first, std::size_t end) {
  for (std::size_t i = first; i < end; ++i) {
    if (line_.kind(i) != TokenKind::number) continue;
    if (!line_.text(i).starts_with('-') && !line_.text(i).starts_with("−")) continue;
    auto match = units_.match(line_, end);
    if (match.unit.valid() && units_[match.unit].kind == Kind::temperature) return true;
    sink_.add(Rule::bad_number, line_.span(i), "only a temperature has a sign",
              "Write the number without it.");
    return false;
  }
  return true;
}

/// The upper end of `500 ml .. 1 l`, the cursor at the points; without a unit it is in the lower end's.
bool QuantityReader::read_upper_end(std::size_t& at, Quantity& lower) {
  ++at;
  lower.is_range = true;
  lower.high = infinity;
  if (!looks_like_number(line_.kind(at))) return true;
  std::size_t first = at;
  auto number = read_exact(at);
  if (!number) return false;
  auto match = units_.match(line_, at);
  at += match.tokens;
  const Unit& unit = units_[match.unit.valid() ? match.unit : lower.unit];
  if (unit.kind != lower.kind) {
    sink_.add(Rule::wrong_kind, line_.span(first, at),
              fmt::format("a range has one kind: it begins with {}, and this is {}", noun_of(lower.kind),
                          noun_of(unit.kind)),
              "Write both ends in units of one kind.");
    return false;
  }
  Exact high = *number * unit.factor + unit.offset;
  if (high < lower.value) {
    sink_.add(Rule::bad_number, line_.span(first, at), "a range runs from its lower end to its higher",
              "Write the lower end first.");
    return false;
  }
  run_up_to(lower, high);
  return true;
}

void QuantityReader::apply_unit(Quantity& quantity, UnitId id) const {
  const Unit& unit = units_[id];
  double factor = base::to_double(unit.factor), offset = base::to_double(unit.offset);
  quantity.kind = unit.kind;
  quantity.unit = id;
  quantity.value = quantity.value * unit.factor + unit.offset;
  if (quantity.is_range) {
    quantity.low = quantity.low * factor + offset;
    quantity.high = quantity.high * factor + offset;
  } else {
    quantity.low = quantity.high = quantity.number();
  }
  if (quantity.tolerance)
    *quantity.tolerance *= factor;
  else if (unit.tolerance)
    quantity.tolerance = std::abs(quantity.number()) * *unit.tolerance;
}

bool QuantityReader::read_money(std::size_t& at, Quantity& quantity) {
  // `1 TSP` on a card in capitals is a spoon, not a sum.
  if (line_.kind(at) != TokenKind::word || !is_currency_code(line_.text(at)) ||
      units_.match(line_, at).unit.valid())
    return false;
  quantity.kind = Kind::money;
  quantity.currency = std::string(line_.text(at++));
  return true;
}

bool QuantityReader::read_tolerance(std::size_t& at, Quantity& quantity) {
  if (line_.kind(at) != TokenKind::plus_minus) return true;
  std::size_t number_at = ++at;
  auto width = read_exact(at);
  if (!width) return false;
  if (*width < 0) {
    sink_.add(Rule::bad_number, line_.span(number_at), "a tolerance has no sign of its own: ± says both ways",
              "Write the number without it.");
    return false;
  }
  auto match = units_.match(line_, at);
  // `± 2 % w/v` is absolute; a bare `%` is a share of the value.
  const bool bare_percent = line_.kind(at) == TokenKind::percent &&
                            !units_.match(line_, at + 1).unit.valid() && !line_.is_word(at + 1, "abv") &&
                            !line_.is_word(at + 1, "w/v") && !line_.is_word(at + 1, "w/w");
  if (bare_percent || (match.unit.valid() && units_[match.unit].kind == Kind::share)) {
    quantity.tolerance = std::abs(quantity.number()) * base::share_of_percent(base::to_double(*width));
    at += bare_percent ? 1 : match.tokens;
    return true;
  }
  if (match.unit.valid() && units_[match.unit].kind == quantity.kind) {
    quantity.tolerance = base::to_double(*width * units_[match.unit].factor);
    at += match.tokens;
    return true;
  }
  if (match.unit.valid() && units_[match.unit].kind != Kind::count) {
    sink_.add(Rule::wrong_kind, line_.span(number_at, at + match.tokens),
              fmt::format("this is {}, and the tolerance of {} is of the same kind",
                          noun_of(units_[match.unit].kind), noun_of(quantity.kind)),
              "Write it in the unit of its measure, or as a share: `± 3 %`.");
    return false;
  }
  // `22.5 ± 1 ml`: the tolerance shares the unit of what stands before it.
  quantity.tolerance =
      base::to_double(*width) * (quantity.unit.valid() ? base::to_double(units_[quantity.unit].factor) : 1.0);
  return true;
}

std::optional<Quantity> QuantityReader::read(std::size_t& at) {
  std::size_t first = at;
  auto quantity = read_number(at);
  if (!quantity) return std::nullopt;
  if (!read_money(at, *quantity)) {
    auto match = units_.match(line_, at);
    if (match.unit.valid()) {
      at += match.tokens;
      apply_unit(*quantity, match.unit);
      // `60 ml .. 75 ml` names its unit twice.
      if (!quantity->is_range && line_.kind(at) == TokenKind::dots && !read_upper_end(at, *quantity))
        return std::nullopt;
    }
  }
  if (!read_tolerance(at, *quantity)) return std::nullopt;
  quantity->span = line_.span(first, at);
  return quantity;
}

}  // namespace gill::units
