#include "print/card_amounts.h"

#include <algorithm>

#include "base/characters.h"

namespace gill::print {
namespace {

// Sizes of type on a card of A6 at scale 1, in points. The amounts have figures of 3.3 mm: 20 minutes of arc
// at 570 mm, an arm's length; ISO 9241-303 asks for 16 at the least and likes 20 to 22 (from memory).
constexpr double amount_pt = 13.2, unit_pt = 8.6, other_amount_pt = 10.8;

std::size_t point_of(const std::string& number) { return std::min(number.find('.'), number.size()); }

bool begins_with_digit(const std::string& number) { return !number.empty() && base::is_digit(number[0]); }

}  // namespace

CardAmounts::CardAmounts(CardMeasures& measures, const std::vector<CardPour>& pours) : CardPart(measures) {
  columns_.resize(1);
  for (const auto& pour : pours) {
    columns_.resize(std::max(columns_.size(), pour.columns.size()));
    for (std::size_t i = 0; i < pour.columns.size(); ++i)
      columns_[i].has_fractions |= !pour.whole && pour.columns[i].number.find('/') != std::string::npos;
  }
  for (const auto& pour : pours) {
    for (std::size_t i = 0; i < pour.columns.size(); ++i) measure_column(i, pour);
    if (pour.whole && begins_with_digit(pour.whole->number))
      columns_[0].before = std::max(columns_[0].before, width_of(before_point(0, *pour.whole, pour.is_about),
                                                                 amount_style(0, *pour.whole)));
  }
  for (const auto& column : columns_)
    amounts_width_ += column.width() + (column.width() > 0 ? column_gap() : 0);
  // What stands across the columns may be wider than they are, up to two fifths of the card.
  for (const auto& pour : pours)
    if (pour.whole) amounts_width_ = std::max(amounts_width_, std::min(width_across(pour), width_ * 0.4));
  amounts_width_ = std::min(amounts_width_, width_ * 0.55);
}

double CardAmounts::width_of(const std::string& words, const TextStyle& style) const {
  return words.empty() ? 0.0 : try_set(words, style).width;
}

void CardAmounts::measure_column(std::size_t i, const CardPour& pour) {
  const auto& measure = pour.columns[i];
  if (pour.whole || measure.empty()) return;
  auto style = amount_style(i, measure);
  auto& column = columns_[i];
  column.before = std::max(column.before, width_of(before_point(i, measure, pour.is_about && i == 0), style));
  column.after = std::max(column.after, width_of(after_point(i, measure), style));
  column.unit = std::max(column.unit, width_of(measure.unit, unit_style()));
}

double CardAmounts::width_across(const CardPour& pour) const {
  double rest = width_of(after_point(0, *pour.whole), amount_style(0, *pour.whole)) + unit_gap +
                width_of(pour.whole->unit, unit_style());
  return columns_[0].before + rest + column_gap();
}

ShapedText CardAmounts::figure() const { return try_set("0", sans(amount_pt * type_, true)); }

std::size_t CardAmounts::point_in(std::size_t column, const std::string& number) const {
  return columns_[column].has_fractions ? number.size() : point_of(number);
}

TextStyle CardAmounts::amount_style(std::size_t column, const CardMeasure& measure) const {
  if (column == 0) return sans(amount_pt * type_, true);
  return sans(other_amount_pt * type_, !measure.is_converted, measure.is_converted ? inks::soft : inks::text);
}

TextStyle CardAmounts::unit_style() const { return sans(unit_pt * type_, false, inks::soft); }

std::string CardAmounts::before_point(std::size_t column, const CardMeasure& measure, bool about) const {
  return (about ? "≈ " : "") + measure.number.substr(0, point_in(column, measure.number));
}

std::string CardAmounts::after_point(std::size_t column, const CardMeasure& measure) const {
  return measure.number.substr(point_in(column, measure.number));
}

void CardAmounts::place(TypeBlock& block, const CardPour& pour, double base) {
  if (pour.whole) {
    place_whole(block, *pour.whole, pour.is_about, base);
    return;
  }
  double left = 0;
  for (std::size_t i = 0; i < pour.columns.size(); ++i) {
    const auto& column = columns_[i];
    const auto& measure = pour.columns[i];
    auto style = amount_style(i, measure);
    if (!measure.empty()) {
      double point = left + column.before;
      auto before = set(before_point(i, measure, pour.is_about && i == 0), style);
      place_on(block, before, point - before.width, base);
      if (auto after = after_point(i, measure); !after.empty())
        place_on(block, set(after, style), point, base);
      if (!measure.unit.empty())
        place_on(block, set(measure.unit, unit_style()), point + column.after + column.gap(), base);
    }
    left += column.width() + (column.width() > 0 ? column_gap() : 0);
  }
}

void CardAmounts::place_whole(TypeBlock& block, const CardMeasure& measure, bool about, double base) {
  bool is_number = begins_with_digit(measure.number) || measure.number == blank_line;
  if (!is_number) {
    std::string words = measure.number + (measure.unit.empty() ? "" : " " + measure.unit);
    place_on(block,
             set(words, sans(name_pt * type_, true), {amounts_width_ - column_gap() / 2, Side::start, 1}), 0,
             base);
    return;
  }
  auto style = amount_style(0, measure);
  auto before = set(before_point(0, measure, about), style);
  double x = std::max(0.0, columns_[0].before - before.width);
  double end = x + before.width;
  place_on(block, before, x, base);
  if (auto after = after_point(0, measure); !after.empty()) {
    auto set_after = set(after, style);
    place_on(block, set_after, end, base);
    end += set_after.width;
  }
  if (measure.unit.empty()) return;
  double room = amounts_width_ - column_gap() / 2 - end - unit_gap;
  place_on(block, set(measure.unit, sans(unit_pt * type_, false), {std::max(room, 12.0), Side::start, 1}),
           end + unit_gap, base);
}

}  // namespace gill::print
