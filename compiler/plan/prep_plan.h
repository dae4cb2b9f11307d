#pragma once
#include <chrono>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "costing/costing.h"
#include "plan/calendar.h"

namespace gill::plan {

using namespace costing;

/// Portions that somebody has booked for a day.
struct Booking {
  std::chrono::sys_days date;
  DrinkId drink;
  double portions = 0;
};

/// So much on hand, made on that day.
struct DatedStock {
  double grams = 0;
  std::chrono::sys_days made;
};

/// What a plan is asked for. Hours of the day run past 24 after midnight.
struct PlanOptions {
  /// Menus to serve; without any, those that run on the first day.
  std::vector<analysis::MenuId> menus;
  int days = 1;
  /// The first service day; without one, the first day of the newest menu, else a Monday.
  std::optional<std::chrono::sys_days> from;
  double opens_h = 17, closes_h = 24;
  /// The team comes in so many hours before service.
  double shift_h = 8;
  bool drafts = false;
  /// The most pairs of hands that are in at once; without it every station has its own.
  std::optional<int> hands;
  ClosedDays closed;
  /// Portions beside what the menus expect, by date.
  std::vector<Booking> bookings;
  /// On hand at the start, by stock: grams, and pieces of what nobody weighs.
  std::map<StockId, double> on_hand_g, on_hand_pieces;
  /// What of it somebody dated.
  std::map<StockId, std::vector<DatedStock>> on_hand_dated;
  /// The same of house bottles.
  std::map<DrinkId, double> bottles_on_hand_g;
  std::map<DrinkId, std::vector<DatedStock>> bottles_on_hand_dated;
};

/// One service.
struct ServiceDay {
  /// Hours from the opening of the first service to its own.
  double opens_h = 0;
  std::size_t weekday = 0;  ///< 0 is Monday
  std::optional<std::chrono::sys_days> date;
  bool is_closed = false;
  /// Portions by drink, in the order of the menus, bookings with them.
  std::vector<std::pair<DrinkId, double>> serves;
  /// What of them is booked.
  double booked_portions = 0;
};

/// All of them together.
inline double portions_of(const std::vector<std::pair<DrinkId, double>>& serves) {
  double portions = 0;
  for (const auto& serve : serves) portions += serve.second;
  return portions;
}

/// What is made ahead: a prep, a drink's house bottle, or what a fruit gives on the day.
enum class Making : std::uint8_t { prep, house_bottle, pressing };

/// Something the plan makes.
struct Product {
  Making making = Making::prep;
  /// The prep, or the juice or peel; invalid for a house bottle.
  StockId stock;
  /// The drink of a house bottle.
  DrinkId drink;
  std::string name, station;
  /// Whole days for which it is planned to be used, the day on which it is made being the first (FDA Food
  /// Code 3-501.17 counts so): the last day of its label is kept in hand.
  int keeps_days = 1;
  /// Days from the one on which it is made to the use-by day of its label (`model::days_after_making`).
  int use_by_days = 0;
  /// False where nobody says how long it keeps.
  bool keeps_known = true;
  /// True where no `keeps` says it, and it is what the shortest-lived of its parts keeps.
  bool keeps_by_parts = false;
  /// Hours, where it keeps less than a day.
  std::optional<double> keeps_h;
  /// What the recipe as written makes, the most that can be made at once, and the level to hold, in grams.
  double recipe_g = 0, largest_g = 0, par_g = 0;
  std::optional<double> ml_per_g, pieces_per_g;
  /// The least part of the recipe that is made: 1, a half or a quarter. What is counted in it stays whole.
  double smallest_part = 0.25;
  /// Of a house bottle: the grams of it in a serve. Of a pressing: what one fruit gives.
  double serve_g = 0;
  /// Grams in a bottle of it; nothing where it has none. And its size as the house writes it.
  std::optional<double> bottle_g;
  std::string bottle_words;
  /// Of a pressing: the fruit.
  StockId fruit;
  /// Hands-on work that grows with the amount.
  double hands_on_h_per_g = 0;

  /// Hands on, then left alone.
  struct Stage {
    double hands_on_h = 0;
    double wait_h = 0;
    /// The wait must not be longer: an infusion, not a rest.
    bool wait_is_exact = false;
    /// What the wait is: `rest 4 h at 20 °C`.
    std::string wait_words;
  };
  std::vector<Stage> stages;
  /// What goes into a gram of it, and at which stage.
  struct Ingredient {
    analysis::Use use;
    double grams = 0;
    std::size_t stage = 0;
  };
  std::vector<Ingredient> ingredients;

  /// Hours from the first hand on it until it may be used, one batch at a time.
  double takes_h() const;
};

/// What a map holds of an id; null where nothing.
template <typename Id, typename Value>
const Value* found_in(const std::map<Id, Value>& map, Id id) {
  auto found = map.find(id);
  return found == map.end() ? nullptr : &found->second;
}
/// What of it is on hand with the day on which it was made; null where nobody dated any.
inline const std::vector<DatedStock>* dated_lots(const PlanOptions& options, const Product& product) {
  return product.stock.valid() ? found_in(options.on_hand_dated, product.stock)
                               : found_in(options.bottles_on_hand_dated, product.drink);
}

/// Some of an item, made at one time for the days during which it keeps.
struct Make {
  std::size_t product = 0;
  double need_g = 0;     ///< what is used of it before the next one
  double on_hand_g = 0;  ///< part of the need that is there already
  /// What is there besides, and keeps to the end of its days.
  double left_on_hand_g = 0;
  /// The days on which the oldest and the newest of it were made; nothing where nobody dated it.
  std::optional<std::chrono::sys_days> on_hand_made, on_hand_made_last;
  double make_g = 0;
  int batches = 1;
  /// By stage, in hours from the opening of the first service: when its hands-on work begins and ends.
  std::vector<std::pair<double, double>> work;
  double ready_h = 0;
  /// The bar day on which it is finished, and the last on which it may be used. Day 0 is the first service
  /// day.
  int made_day = 0, last_day = 0;
  /// The use-by day that stands on its label.
  int use_by_day = 0;
  /// Hours before the service that first needs it at which it must begin at the latest, with all that it goes
  /// into.
  double start_before_h = 0;
  /// More hands than the station's own are needed to be done in time.
  bool needs_more_hands = false;
  /// Hours that it stands in all, and should, where nobody is there to end an infusion in time.
  struct Standing {
    double stands_h = 0, stated_h = 0;
  };
  std::optional<Standing> stands_too_long;
  /// Of a juice: how many of its fruit were peeled the day before, and are pressed first.
  double peeled_before = 0;
};

/// One use of an item or of something bought: by a make, or spread over the hours of a service.
struct Consumption {
  /// Index of the item; nothing for what is bought.
  std::optional<std::size_t> product;
  /// What is used, of what is bought.
  analysis::Use use;
  double grams = 0, pieces = 0;
  double from_h = 0, to_h = 0;
};

/// A pack to buy, so many times.
struct PackLine {
  std::string size;
  int count = 0;
  /// Of all of them.
  Exact cost;
  std::string code;
};

/// Something to buy. Where it is bought for what it gives, `for_juice` and the like say what for.
struct ShoppingLine {
  StockId stock;
  /// What is used, waste put on; of fruit as whole fruit. Pieces are of what nobody weighs.
  double need_g = 0, need_pieces = 0;
  /// What was counted on hand and is taken off before packs are bought.
  double on_hand_g = 0, on_hand_pieces = 0;
  std::optional<double> need_ml, need_count;
  /// What it is sold by, and how many of those are needed (g, ml, pieces); nothing where no pack is known.
  std::optional<units::Kind> sold_by;
  double need_as_sold = 0;
  std::vector<PackLine> packs;
  std::optional<Exact> cost;
  std::string supplier;
  /// `1.2 l lemon juice, 12 twists`.
  std::string purpose;
};

/// What a station sets up for one service.
struct StationLine {
  std::string name;
  /// Index of the item; nothing for what is bought.
  std::optional<std::size_t> product;
  analysis::Use use;
  double grams = 0, pieces = 0;
  std::optional<double> ml;
  bool is_garnish = false, is_pressed_today = false;
  /// Every drink counts it: so many eggs, and not so many millilitres of them.
  bool is_counted = true;
  /// On the rim, and not weighed: so many glasses.
  bool is_rim = false;
};

struct StationDay {
  std::string station;
  std::vector<StationLine> lines;
};

/// What a service takes of one kind of ice, melt in the well aside.
struct IceLine {
  analysis::IceId ice;
  double grams = 0;
  /// Pieces, where one is so large that it is counted.
  std::optional<double> pieces;
};

/// Garnishes to cut before a service.
struct CutLine {
  std::string station, name;
  /// The twist, wheel or wedge of the fruit.
  analysis::Use use;
  double pieces = 0;
  /// What they come to as fruit, and the whole ones that are taken for them: none where what is left of
  /// another cut is enough.
  double fruit_share = 0, fruit_count = 0;
  /// The fruit is left to be pressed.
  bool is_peel = false;
  double from_h = 0, to_h = 0;
  bool needs_more_hands = false;
};

/// For how long so many pairs of hands are at work at once.
struct HandsLine {
  double from_h = 0, to_h = 0;
  int hands = 0;
};

/// Dated stock that the plan does not use.
struct LeftOnHand {
  std::size_t product = 0;
  double grams = 0;
  std::chrono::sys_days made;
};

struct PrepPlan {
  std::vector<LeftOnHand> left_on_hand;
  std::vector<analysis::MenuId> menus;
  PlanOptions options;
  std::vector<ServiceDay> days;
  /// Portions over all days.
  std::vector<std::pair<DrinkId, double>> serves;
  std::vector<Product> products;
  /// In an order in which they can be made: parts before what they go into.
  std::vector<Make> makes;
  std::vector<Consumption> consumption;
  std::vector<ShoppingLine> shopping;
  /// What the shopping costs as far as prices are known.
  Exact cost = 0;
  std::string currency;
  /// By day.
  std::vector<std::vector<StationDay>> stations;
  std::vector<std::vector<IceLine>> ice;
  std::vector<std::vector<CutLine>> cuts;
  /// Hands-on work before and between services, hour by hour; hours without any are left out.
  std::vector<HandsLine> hands;
  /// Hours before the first service at which the first work begins.
  double starts_h = 0;
  std::vector<std::string> notes;
};

/// What of a fruit a station's line is cut from; nothing for what is not cut.
std::optional<CutLine> cut_of(const StationLine& line, const std::string& station, const Costing& costing);
/// A half or a quarter of a recipe, or so much over whole ones.
bool is_part_recipe(const Make& make, const Product& product);

/// Works the plan out. Drinks in error are left out and told in the notes.
PrepPlan make_prep_plan(const House& house, const PlanOptions& options);

/// The day of the calendar on which an hour falls, by its number: past midnight it is the next.
int calendar_day(double hour, const PlanOptions& options);
/// The bar day to which an hour belongs: the night after a service is still its day.
int bar_day(double hour, const PlanOptions& options);

/// `gill-prep` version 1.
std::string prep_json(const PrepPlan& plan, const House& house);
/// One table: what to make, to press, to cut, to buy and to set up, and the ice.
std::string prep_csv(const PrepPlan& plan, const House& house);

}  // namespace gill::plan
