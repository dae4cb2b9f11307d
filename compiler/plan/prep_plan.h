#pragma once
#include <chrono>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "costing/costing.h"

namespace gill::plan {

using namespace costing;

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
  /// On hand at the start, by stock: grams, and pieces of what nobody weighs.
  std::map<StockId, double> on_hand_g, on_hand_pieces;
};

/// One service.
struct ServiceDay {
  /// Hours from the opening of the first service to its own.
  double opens_h = 0;
  std::size_t weekday = 0;  ///< 0 is Monday
  std::optional<std::chrono::sys_days> date;
  /// Portions by drink, in the order of the menus.
  std::vector<std::pair<DrinkId, double>> serves;
};

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
  /// Whole days for which it may be used, the day on which it is made being the first (FDA Food Code 3-501.17
  /// counts so).
  int keeps_days = 1;
  /// False where nobody says how long it keeps.
  bool keeps_known = true;
  /// True where no `keeps` says it, and it is what the shortest-lived of its parts keeps.
  bool keeps_by_parts = false;
  /// Hours, where it keeps less than a day.
  std::optional<double> keeps_h;
  /// What the recipe as written makes, the most that can be made at once, and the level to hold, in grams.
  double recipe_g = 0, largest_g = 0, par_g = 0;
  std::optional<double> ml_per_g, pieces_per_g;
  /// Of a house bottle: the grams of it in a serve. Of a pressing: what one fruit gives.
  double serve_g = 0;
  /// Grams in a bottle of it; nothing where it has none.
  std::optional<double> bottle_g;
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

/// Some of an item, made at one time for the days during which it keeps.
struct Make {
  std::size_t product = 0;
  double need_g = 0;     ///< what is used of it before the next one
  double on_hand_g = 0;  ///< part of the need that is there already
  double make_g = 0;
  int batches = 1;
  /// By stage, in hours from the opening of the first service: when its hands-on work begins and ends.
  std::vector<std::pair<double, double>> work;
  double ready_h = 0;
  /// The bar day on which it is finished, and the last on which it may be used. Day 0 is the first service
  /// day.
  int made_day = 0, last_day = 0;
  /// Hours before the service that first needs it at which it must begin at the latest, with all that it goes
  /// into.
  double start_before_h = 0;
  /// More hands than the station's own are needed to be done in time.
  bool needs_more_hands = false;
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
};

struct StationDay {
  std::string station;
  std::vector<StationLine> lines;
};

struct PrepPlan {
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
  /// Hours before the first service at which the first work begins.
  double starts_h = 0;
  std::vector<std::string> notes;
};

/// Works the plan out. Drinks in error are left out and told in the notes.
PrepPlan make_prep_plan(const House& house, const PlanOptions& options);

/// The bar day to which an hour belongs: the night after a service is still its day.
int bar_day(double hour, const PlanOptions& options);

/// `gill-prep` version 1.
std::string prep_json(const PrepPlan& plan, const House& house);
/// One table: what to make, what to press, what to buy, what to set up.
std::string prep_csv(const PrepPlan& plan, const House& house);

}  // namespace gill::plan
