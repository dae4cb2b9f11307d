#pragma once
#include "print/card_part.h"

namespace gill::print {

/// The amounts of the build in columns: figures stand on each other's decimal point.
class CardAmounts : CardPart {
 public:
  /// Makes the columns as wide as these pours need.
  CardAmounts(CardMeasures& measures, const std::vector<CardPour>& pours);

  /// How far the columns reach, points.
  double width() const { return amounts_width_; }
  /// The amounts of one pour, all on the base line at `base`.
  void place(TypeBlock& block, const CardPour& pour, double base);
  /// A figure in the largest type of the columns: it decides where a line stands.
  ShapedText figure() const;

 private:
  /// What stands between a figure and its unit, points.
  static constexpr double unit_gap = 2.2;

  struct Column {
    double before = 0, after = 0, unit = 0;
    bool has_fractions = false;
    double gap() const { return unit > 0 ? unit_gap : 0; }
    double width() const { return before + after + gap() + unit; }
  };

  /// The same within a column: where fractions stand in it, figures stand on its right edge.
  std::size_t point_in(std::size_t column, const std::string& number) const;
  TextStyle amount_style(std::size_t column, const CardMeasure& measure) const;
  TextStyle unit_style() const;
  std::string before_point(std::size_t column, const CardMeasure& measure, bool about) const;
  std::string after_point(std::size_t column, const CardMeasure& measure) const;
  double column_gap() const { return mm(2.4); }
  double width_of(const std::string& words, const TextStyle& style) const;
  void measure_column(std::size_t column, const CardPour& pour);
  double width_across(const CardPour& pour) const;
  void place_whole(TypeBlock& block, const CardMeasure& measure, bool about, double base);

  std::vector<Column> columns_;
  double amounts_width_ = 0;
};

}  // namespace gill::print
