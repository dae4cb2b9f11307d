#include "analysis/line_parts.h"

#include <algorithm>
#include <array>
#include <iterator>

#include "analysis/declaration_reader.h"

namespace gill::analysis {

using symbols::DeclarationKind;
using syntax::LineView;
using syntax::TokenKind;
using units::QuantityReader;

std::size_t match_keyword(const LineView& line, std::string_view keyword) {
  std::size_t n = 0;
  while (!keyword.empty()) {
    auto space = keyword.find(' ');
    if (!line.is_word(n++, keyword.substr(0, space))) return 0;
    keyword = space == std::string_view::npos ? std::string_view() : keyword.substr(space + 1);
  }
  return n;
}

namespace {

std::vector<std::string_view> make_keywords(DeclarationKind kind) {
  switch (kind) {
    case DeclarationKind::house:
      return house_keywords();
    case DeclarationKind::unit:
      return {"aka", "source"};
    case DeclarationKind::ingredient:
      return ingredient_keywords();
    case DeclarationKind::prep:
      return prep_keywords();
    case DeclarationKind::glass:
      return glass_keywords();
    case DeclarationKind::ice:
      return ice_keywords();
    case DeclarationKind::family:
      return family_keywords();
    case DeclarationKind::drink:
      return drink_keywords();
    case DeclarationKind::prices:
      return {};
    case DeclarationKind::menu:
      return menu_keywords();
  }
  return {};
}

const std::vector<std::string_view>& keywords_in(DeclarationKind kind) {
  static const auto all = [] {
    std::array<std::vector<std::string_view>, static_cast<std::size_t>(DeclarationKind::menu) + 1> tables;
    for (std::size_t k = 0; k < tables.size(); ++k) {
      tables[k] = make_keywords(static_cast<DeclarationKind>(k));
      // Every declaration may quiet a rule.
      tables[k].push_back("allow");
    }
    return tables;
  }();
  return all[static_cast<std::size_t>(kind)];
}

}  // namespace

std::string_view property_keyword(const LineView& line, DeclarationKind kind) {
  // Any other line of a price list begins with a name.
  if (kind == DeclarationKind::prices)
    return line.is_word(0, "from") && line.kind(1) == TokenKind::date ? "from" : std::string_view();
  std::string_view longest;
  for (auto keyword : keywords_in(kind))
    if (keyword.size() > longest.size() && match_keyword(line, keyword) > 0) longest = keyword;
  return longest;
}

std::size_t price_name_end(const LineView& line, const units::UnitTable& units) {
  std::size_t for_at = line.size();
  for (std::size_t i = 1; i < line.size(); ++i)
    if (line.is_word(i, "for") && QuantityReader::begins_quantity(line, i + 1)) {
      for_at = i;
      break;
    }
  for (std::size_t i = 1; i < for_at; ++i) {
    if (!QuantityReader::begins_quantity(line, i)) continue;
    if (line.is_word(i + 1, "x") || i + 1 == for_at) return i;
    auto match = units.match(line, i + 1);
    if (match.unit.valid() && i + 1 + match.tokens == for_at) return i;
  }
  return line.size();
}

std::size_t comma_or_end(const LineView& line, std::size_t first) {
  while (first < line.size() && line.kind(first) != TokenKind::comma) ++first;
  return first;
}

SoldBy sold_by_word(std::string_view word) {
  // Whole or by the serve. Common practice, no source.
  static constexpr std::string_view whole_words[] = {"bowl",   "jug",      "pitcher",
                                                     "carafe", "decanter", "bottle"};
  static constexpr std::string_view serve_words[] = {"cup",   "glass", "serve", "portion",
                                                     "drink", "head",  "person"};
  const std::string folded = base::lower_ascii(word);
  auto is_it = [&](std::string_view one) { return folded == one; };
  if (std::any_of(std::begin(whole_words), std::end(whole_words), is_it)) return SoldBy::whole;
  return std::any_of(std::begin(serve_words), std::end(serve_words), is_it) ? SoldBy::serve : SoldBy::nothing;
}

SoldBy sold_by_at(const LineView& line, std::size_t at) {
  if (at + 1 >= line.size() || !(line.is_word(at, "a") || line.is_word(at, "per"))) return SoldBy::nothing;
  return sold_by_word(line.text(at + 1));
}

std::size_t entry_name_end(const LineView& line) {
  std::size_t end = comma_or_end(line, 0);
  for (std::size_t i = 1; i + 2 < end + 1 && i < end; ++i)
    if (line.is_word(i, "at") && line.kind(i + 1) == TokenKind::number && i + 2 < line.size() &&
        line.kind(i + 2) == TokenKind::word &&
        (i + 3 == end || (i + 5 == end && sold_by_at(line, i + 3) != SoldBy::nothing)))
      return i;
  const bool has_price =
      end >= 3 && line.kind(end - 2) == TokenKind::number && units::is_currency_code(line.text(end - 1));
  return has_price ? end - 2 : end;
}

}  // namespace gill::analysis
