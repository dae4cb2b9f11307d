#pragma once
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "diff/changes.h"

/// What a manager asks first of a change of season.
namespace gill::diff {

/// A difference that many changed prices share.
struct UniformPrice {
  double difference = 0;
  std::string currency;
  std::size_t count = 0;
};
/// Fewer prices than this that move alike are told one by one.
inline constexpr std::size_t min_uniform_prices = 3;

/// A move of a price in ten thousandths of its currency, by which moves are the same: prices are decimal.
long long price_step(double difference);
double difference_of_step(long long step);
/// `0.50 EUR more`.
std::string difference_words(const UniformPrice& price);

/// Goods that are what they were and cost so many per cent more, or less.
struct GoodsMove {
  double percent = 0;
  std::vector<const Change*> goods;
};
/// How much what is bought costs more by the litre or the kilo, in per cent to a tenth; nothing where more
/// than its price differs, or where it is not known.
std::optional<double> price_move(const Change& change);
/// `4 % more for 17 goods`, `vodka 10.7 % less`.
std::string move_words(const GoodsMove& move);

/// The drinks of a comparison by what it means to the bar. Points into the changes.
struct Overview {
  /// Withdrawn is gone, whatever else the spec says.
  std::vector<const Change*> fresh, gone, renamed;
  /// Made, served or told otherwise; then those whose taste moves though hands do not; then those of which
  /// only costs and prices move.
  std::vector<const Change*> recipes, tastes, money_alone;

  std::optional<UniformPrice> uniform_price;
  /// Prices that move otherwise.
  std::vector<const Change*> other_prices;
  /// Prices that move on a menu which is not the one whose price the drink's figures show.
  std::vector<std::pair<const MenuChange*, const MenuLineChange*>> menu_prices;
  /// Drinks that are served on both sides, and come on one of several menus or go off it.
  std::vector<std::pair<const MenuChange*, const MenuLineChange*>> further_menus;
  /// Drinks that come on the menu, or go off it, while their specs stay.
  std::vector<const MenuMove*> on_menu, off_menu;
  /// What suppliers ask, those that many share first.
  std::vector<GoodsMove> goods;

  bool is_uniform(const FigureChange& figure) const;
  std::size_t size() const {
    return on_menu.size() + off_menu.size() + fresh.size() + gone.size() + renamed.size() + recipes.size() +
           tastes.size() + money_alone.size();
  }
};

Overview overview_of(const Changes& changes);

/// `Gin Tonic on Market Stall at 11.00 EUR`, `Gin Tonic off Bar Winter`.
std::string further_menu_words(const MenuChange& menu, const MenuLineChange& line);

/// True where the spec takes a drink from guests that they got before: retired, or a draft again.
bool is_withdrawn(const Change& change);
/// `retired`, `a draft again`.
std::string withdrawn_words(const Change& change);

/// What goes in of one thing in place of another, in the same role: before and now.
using Swap = std::pair<const PourChange*, const PourChange*>;
/// Each line of the build once.
std::vector<Swap> swaps_of(const Change& change);
bool is_in(const std::vector<Swap>& swaps, const PourChange& pour);

/// Why a drink is another, in one line: `Frisket rye in place of Tympan rye; shaken otherwise`.
std::string why_of(const Change& change);

}  // namespace gill::diff
