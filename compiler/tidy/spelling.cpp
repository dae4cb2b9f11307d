#include "tidy/spelling.h"

#include <utility>

#include "base/any_of.h"
#include "base/exact.h"
#include "base/text.h"

namespace gill::tidy {

using syntax::LineView;
using syntax::TokenKind;

namespace {

/// Fractions of one sign, as they are written with a slash.
constexpr std::pair<std::string_view, std::string_view> fractions[] = {
    {"¼", "1/4"}, {"½", "1/2"}, {"¾", "3/4"}, {"⅐", "1/7"}, {"⅑", "1/9"}, {"⅒", "1/10"},
    {"⅓", "1/3"}, {"⅔", "2/3"}, {"⅕", "1/5"}, {"⅖", "2/5"}, {"⅗", "3/5"}, {"⅘", "4/5"},
    {"⅙", "1/6"}, {"⅚", "5/6"}, {"⅛", "1/8"}, {"⅜", "3/8"}, {"⅝", "5/8"}, {"⅞", "7/8"}};

/// `1½` → `1 1/2`, `.75` → `0.75`, `−18` → `-18`.
std::string plain_number(std::string_view written) {
  std::string text = base::collapse_space(written);
  if (text.starts_with("−")) text = "-" + text.substr(std::string_view("−").size());
  for (const auto& [sign, meant] : fractions)
    if (auto at = text.find(sign); at != std::string::npos) {
      bool is_behind_digit = at > 0 && text[at - 1] != ' ' && text[at - 1] != '-';
      text.replace(at, sign.size(), (is_behind_digit ? " " : "") + std::string(meant));
    }
  if (text.starts_with(".")) text.insert(0, "0");
  return base::parse_exact(text) == base::parse_exact(written) ? text : base::collapse_space(written);
}

class Speller {
 public:
  Speller(const LineView& line, std::size_t first, std::size_t last, const Terms& terms)
      : line_(line), first_(first), last_(last), segment_(first), terms_(terms) {}

  std::string write() {
    for (std::size_t i = first_; i < last_;) {
      if (i > first_ && line_.kind(i - 1) == TokenKind::comma) segment_ = i;
      auto unit = unit_at(i);
      if (i > first_) text_ += unit.tokens > 0 ? " " : gap_before(i);
      text_ += unit.tokens > 0 ? unit_text(unit, i) : item(i);
      quantity_end_ =
          unit.tokens > 0 || is_date(i) ? i + std::max<std::size_t>(unit.tokens, 1) : quantity_end_;
      i += std::max<std::size_t>(unit.tokens, 1);
    }
    return std::move(text_);
  }

 private:
  bool is_date(std::size_t i) const { return line_.kind(i) == TokenKind::date; }

  /// The unit of the number before, where an amount may stand; none else.
  units::UnitMatch unit_at(std::size_t i) const {
    if (i == first_ || line_.kind(i - 1) != TokenKind::number || !is_amount_place(i - 1)) return {};
    auto match = terms_.units.match(line_, i);
    if (!match.unit.valid() || i + match.tokens > last_) return {};
    // `4 sticks of rhubarb`: the number counts a thing of that name.
    std::size_t end = i;
    while (end < line_.size() && line_.kind(end) != TokenKind::comma) ++end;
    bool is_name = end > i + match.tokens &&
                   terms_.names.find(symbols::NameSpace::stock, syntax::name_text(line_, i, end)).valid();
    return is_name ? units::UnitMatch{} : match;
  }

  /// Up to the first comma any number may be an amount; behind it what begins the part, or follows a word or
  /// sign of measure. All else is a remark.
  bool is_amount_place(std::size_t i) const {
    if (segment_ == first_ || i == segment_) return true;
    static constexpr TokenKind signs[] = {TokenKind::dots, TokenKind::plus_minus, TokenKind::equals};
    if (base::is_any_of(line_.kind(i - 1), signs)) return true;
    static constexpr std::string_view words[] = {"at",    "to", "for",    "within",
                                                 "about", "by", "bottle", "with"};
    return base::is_any_of(std::string_view(base::lower_ascii(line_.text(i - 1))), words);
  }

  std::string unit_text(const units::UnitMatch& match, std::size_t i) const {
    const auto& unit = terms_.units[match.unit];
    auto number = base::parse_exact(line_.text(i - 1));
    bool is_one = number && *number <= 1;
    const std::string& text = is_one ? unit.symbol : unit.plural;
    std::string written = base::collapse_space(line_.raw(i, i + match.tokens));
    // `2 parts`, `3 pints`: some are printed in their singular, and nobody writes them so.
    bool is_plural = !is_one && unit.plural == unit.symbol && base::lower_ascii(written) == unit.symbol + "s";
    if (is_plural) return base::lower_ascii(written);
    return terms_.units.find(text) == match.unit ? text : written;
  }

  std::string item(std::size_t i) const {
    switch (line_.kind(i)) {
      case TokenKind::number:
        return line_.space_before(i) && (i + 1 == line_.size() || stands_alone(i))
                   ? plain_number(line_.text(i))
                   : std::string(line_.text(i));
      case TokenKind::plus_minus:
        return "±";
      case TokenKind::arrow:
        return "->";
      case TokenKind::dots:
        return "..";
      case TokenKind::word:
      case TokenKind::date:
      case TokenKind::string:
      case TokenKind::comma:
      case TokenKind::equals:
      case TokenKind::colon:
      case TokenKind::percent:
      case TokenKind::colour:
      case TokenKind::dashed_mixed:
      case TokenKind::dashed_range:
      case TokenKind::comma_number:
      case TokenKind::open_string:
      case TokenKind::curly_string:
      case TokenKind::stray:
        return std::string(line_.text(i));
    }
    return std::string(line_.text(i));
  }

  /// A number that is no part of a word: `7` of `7-Up` is not touched.
  bool stands_alone(std::size_t i) const {
    return line_.space_before(i + 1) || line_.kind(i + 1) != TokenKind::word ||
           terms_.units.match(line_, i + 1).unit.valid();
  }

  std::string_view gap_before(std::size_t i) const {
    TokenKind before = line_.kind(i - 1), here = line_.kind(i);
    // Behind a space it would begin a comment.
    if (line_.text(i).starts_with('#') && !line_.space_before(i)) return "";
    if (here == TokenKind::comma || here == TokenKind::colon) return "";
    static constexpr TokenKind spaced[] = {TokenKind::equals, TokenKind::plus_minus, TokenKind::arrow};
    if (before == TokenKind::comma || before == TokenKind::colon || base::is_any_of(here, spaced) ||
        base::is_any_of(before, spaced))
      return " ";
    if (here == TokenKind::percent && before == TokenKind::number) return " ";
    if (here == TokenKind::dots) return before == TokenKind::number ? "" : " ";
    // `60 ml .. 75 ml` and days: the points stand free. `13..21` and `..20`: they do not.
    if (before == TokenKind::dots)
      return quantity_end_ + 1 == i && here != TokenKind::word ? " " : dots_gap(i);
    return line_.space_before(i) ? " " : "";
  }

  std::string_view dots_gap(std::size_t i) const {
    return line_.kind(i) == TokenKind::number ? "" : line_.space_before(i) ? " " : "";
  }

  const LineView& line_;
  std::size_t first_, last_, segment_;
  const Terms& terms_;
  /// Behind the last unit or day.
  std::size_t quantity_end_ = 0;
  std::string text_;
};

/// The items with one space where there was any.
std::string spaced_once(const LineView& line, std::size_t first, std::size_t last) {
  std::string text;
  for (std::size_t i = first; i < last; ++i) {
    if (i > first && line.space_before(i)) text += ' ';
    text += line.text(i);
  }
  return text;
}

}  // namespace

std::string spelled(const LineView& line, std::size_t first, std::size_t last, Content content, Extent extent,
                    const Terms& terms) {
  if (!is_spelled(extent) || content == Content::words) return spaced_once(line, first, last);
  return Speller(line, first, last, terms).write();
}

}  // namespace gill::tidy
