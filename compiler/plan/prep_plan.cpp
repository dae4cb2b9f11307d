#include "plan/prep_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

#include "base/date.h"
#include "base/text.h"
#include "costing/packs.h"
#include "model/entries.h"
#include "plan/makes.h"
#include "plan/prep_page.h"
#include "plan/services.h"
#include "plan/shopping.h"
#include "render/wording/numbers.h"

namespace gill::plan {
namespace {

/// A piece of ice so heavy is counted out; smaller ones are scooped. Common practice, no source.
constexpr double counted_ice_g = 40;

/// What was counted and is past its days, or was made on a day to come.
void note_strange_stock(PrepPlan& plan, const Calendar& calendar) {
  auto first = calendar.date(0), last = calendar.date(plan.options.days - 1);
  if (!first || !last) return;
  std::vector<std::string> old, ending, to_come;
  for (const auto& lot : plan.left_on_hand) {
    const auto& product = plan.products[lot.product];
    std::string words = fmt::format("{} {} of {}", amount_of_product(product, lot.grams), product.name,
                                    base::iso_date(lot.made));
    const auto use_by = lot.made + std::chrono::days(product.keeps_days);
    if (use_by < *first)
      old.push_back(std::move(words));
    else if (use_by == *first && product.keeps_days > 1)
      ending.push_back(std::move(words));
    else if (lot.made > *last)
      to_come.push_back(std::move(words));
  }
  if (!old.empty())
    plan.notes.push_back(
        fmt::format("Past its days and not counted, pour it away: {}.", base::join_with_and(old)));
  // What keeps for the day on which it is made is told by itself.
  if (!ending.empty())
    plan.notes.push_back(
        fmt::format("Its days end on {}, in the course of the service, so it is not counted: {}.",
                    base::iso_date(*first), base::join_with_and(ending)));
  if (!to_come.empty())
    plan.notes.push_back(fmt::format("Counted as made on a day still to come, look at its date: {}.",
                                     base::join_with_and(to_come)));
}

/// A sentence about all of them, where there are any.
void note(PrepPlan& plan, const std::set<std::string>& names, const std::string& text) {
  if (!names.empty())
    plan.notes.push_back(fmt::format(fmt::runtime(text), base::join_with_and({names.begin(), names.end()})));
}

void note_what_is_not_counted(PrepPlan& plan, const NotCounted& not_counted) {
  note(plan, not_counted.without_menu,
       "No menu runs on {}: give another day with --from, or name a menu with --menu.");
  note(plan, not_counted.in_error,
       "Left out, because of an error in the drink or in what it is made of: {}.");
  note(plan, not_counted.unsold, "No sales are expected of {}: add `sells 20` to their menu lines.");
  note(plan, not_counted.optional, "Optional, and not counted: {}.");
  note(plan, not_counted.unweighed, "Nobody says what these weigh, so they are not counted: {}.");
  note(plan, not_counted.other_days, "Booked for days that are not planned for here: {}.");
  note(plan, not_counted.closed_days, "Booked for a day on which the bar is closed, and not counted: {}.");
}

bool is_below_par(const Make& make, const Product& product) {
  return product.par_g > make.need_g && make.make_g > 0 &&
         make.make_g + make.on_hand_g + make.left_on_hand_g < product.par_g * (1 - 1e-9);
}

/// Where keeping decides otherwise than the recipe or the par.
void note_keeping(PrepPlan& plan) {
  std::set<std::string> unknown_life, by_parts, over_par, stale, standing;
  for (const auto& make : plan.makes) {
    const auto& product = plan.products[make.product];
    if (!product.keeps_known) unknown_life.insert(product.name);
    if (product.keeps_by_parts) by_parts.insert(product.name);
    if (is_below_par(make, product)) over_par.insert(product.name);
    if (make.make_g > 0 && make.stands_too_long)
      standing.insert(fmt::format("{} ({} h instead of {} h)", product.name,
                                  render::wording::trimmed(make.stands_too_long->stands_h, 1),
                                  render::wording::trimmed(make.stands_too_long->stated_h, 1)));
    if (product.stock.valid() && plan.options.on_hand_g.contains(product.stock) && product.keeps_days == 1)
      stale.insert(product.name);
  }
  note(plan, unknown_life, "No shelf life is given for these, so they are made for a day at a time: {}.");
  note(plan, by_parts,
       "No `keeps` line says how long these keep; they are planned by the shortest-lived of their parts, and "
       "for a week at the most, which says nothing of the mixture: {}.");
  note(plan, over_par, "Made below their par, which is more than sells while they keep: {}.");
  note(
      plan, standing,
      "Nobody is there when these are done, so they stand longer than the recipe says and come out stronger: "
      "{}. Begin them at another hour, or have somebody in to strain them.");
  note(plan, stale,
       "Counted on hand but not used, because they keep for the day on which they are made: {}.");
}

void note_hands(PrepPlan& plan) {
  std::set<std::string> hands;
  for (const auto& make : plan.makes)
    if (const auto& product = plan.products[make.product]; make.needs_more_hands)
      hands.insert(fmt::format("{} ({})", product.name, station_text(product.station)));
  for (const auto& day : plan.cuts)
    for (const auto& cut : day)
      if (cut.needs_more_hands)
        hands.insert(fmt::format("cutting {} ({})", cut.name, station_text(cut.station)));
  if (!plan.options.hands)
    return note(plan, hands, "More than one pair of hands is needed to be done in time: {}.");
  note(plan, hands,
       fmt::format("This does not fit {}: {{}}. Begin it sooner, make less of it, or have somebody more in.",
                   *plan.options.hands == 1
                       ? "the one pair of hands there is"
                       : fmt::format("the {} pairs of hands there are", *plan.options.hands)));
}

void note_parts_of_recipes(PrepPlan& plan) {
  std::set<std::string> parts;
  for (const auto& make : plan.makes)
    if (const auto& product = plan.products[make.product]; make.make_g > 0 && is_part_recipe(make, product))
      parts.insert(product.name);
  note(plan, parts,
       "Made as part of a recipe, because a whole one would not be used while it keeps: {}. A half or a "
       "quarter is made only where all that is counted in the recipe stays whole.");
}

/// What the plan could not count or keep to, in full sentences.
void add_notes(PrepPlan& plan, const NotCounted& not_counted) {
  note_what_is_not_counted(plan, not_counted);
  note_keeping(plan);
  note_hands(plan);
  note_parts_of_recipes(plan);
}

/// How much ice each service takes, by kind.
void add_ice(PrepPlan& plan, const House& house) {
  for (const auto& day : plan.days) {
    std::map<analysis::IceId, double> grams;
    for (const auto& [drink, sold] : day.serves)
      for (const auto& used : house.facts[drink].ice_used)
        grams[used.ice] += portions_made(house.specs[drink], sold) * used.grams;
    std::vector<IceLine> lines;
    for (const auto& [ice, amount] : grams) {
      IceLine line{ice, amount, std::nullopt};
      const auto& each = house.specs[ice].each;
      if (each && each->kind == units::Kind::mass && each->number() >= counted_ice_g)
        line.pieces = std::ceil(amount / each->number() - 1e-6);
      lines.push_back(line);
    }
    plan.ice.push_back(std::move(lines));
  }
}

/// True where a make that is put off from one hour to another is wanted in between.
bool is_wanted_between(const PrepPlan& plan, const Make& make, double from_h, double to_h) {
  return std::any_of(plan.consumption.begin(), plan.consumption.end(), [&](const auto& used) {
    return used.product == make.product && used.from_h >= from_h - 1e-9 && used.from_h < to_h - 1e-9;
  });
}

/// Puts the peeling where the pressing begins, and what was done from there on later by as long as it takes.
/// False, and nothing moves, where something else that is done in pieces, or is wanted before, would have to.
bool put_before(PrepPlan& plan, Make& peel, const Make& press) {
  const Interval was = peel.work.front();
  const double begins_h = press.work.front().first, peel_h = was.second - was.first;
  std::vector<Make*> later;
  for (auto& make : plan.makes) {
    if (&make == &peel || make.make_g <= 0) continue;
    const bool is_between = std::any_of(make.work.begin(), make.work.end(), [&](const Interval& work) {
      return work.first >= begins_h - 1e-9 && work.first < was.first - 1e-9;
    });
    if (!is_between) continue;
    if (make.work.size() > 1 || is_wanted_between(plan, make, make.ready_h, make.ready_h + peel_h))
      return false;
    later.push_back(&make);
  }
  for (auto* make : later) {
    make->work.front().first += peel_h;
    make->work.front().second += peel_h;
    make->ready_h += peel_h;
  }
  peel.work.front() = {begins_h, begins_h + peel_h};
  peel.ready_h = begins_h + peel_h;
  return true;
}

/// What is peeled and pressed of one fruit on one day is peeled first: in the place of the pressing, or where
/// there are hands before it.
void peel_before_pressing(PrepPlan& plan, Timetable& timetable) {
  auto is_of_fruit = [&](const Make& make, bool is_juice) {
    const auto& product = plan.products[make.product];
    return product.making == Making::pressing && product.ml_per_g.has_value() == is_juice && make.make_g > 0;
  };
  for (auto& peel : plan.makes) {
    if (!is_of_fruit(peel, false)) continue;
    const Make* first_press = nullptr;
    for (const auto& press : plan.makes)
      if (is_of_fruit(press, true) && press.made_day == peel.made_day &&
          plan.products[press.product].fruit == plan.products[peel.product].fruit &&
          press.work.front().first < peel.work.front().first &&
          (!first_press || press.work.front().first < first_press->work.front().first))
        first_press = &press;
    if (!first_press || put_before(plan, peel, *first_press)) continue;
    const auto& product = plan.products[peel.product];
    const double by_h = first_press->work.front().first;
    timetable.book(peel, product, by_h, timetable.latest(product, by_h));
  }
}

/// Cutting takes so long a piece, and so long to set up. Common practice, no source.
constexpr double cut_a_piece_h = 8.0 / 3600, cut_setup_h = 3.0 / 60;

/// Whole fruit for what is cut: of a fruit that was begun the rest is cut before another is, on its day and
/// the next (common practice, no source). What is peeled is left whole, to be pressed.
class BegunFruit {
 public:
  void next_day() {
    before_ = std::move(today_);
    today_.clear();
  }

  /// How many are begun for so much of a fruit.
  double take(StockId fruit, double share) {
    for (auto* left : {&before_[fruit], &today_[fruit]}) {
      double used = std::min(share, *left);
      *left -= used;
      share -= used;
    }
    double begun = std::ceil(share - 1e-6);
    today_[fruit] += begun - share;
    return begun;
  }

 private:
  std::map<StockId, double> before_, today_;
};

/// The hour by which a cut is done: before the service, and of a peel before its fruit is pressed that day.
double cut_by_h(const PrepPlan& plan, const CutLine& cut, std::size_t day) {
  double by_h = plan.days[day].opens_h;
  if (!cut.is_peel) return by_h;
  for (const auto& make : plan.makes) {
    const auto& product = plan.products[make.product];
    const bool is_press = product.making == Making::pressing && product.ml_per_g && make.make_g > 0 &&
                          product.fruit == cut.use.stock;
    if (is_press && make.made_day == static_cast<int>(day)) by_h = std::min(by_h, make.work.front().first);
  }
  return by_h;
}

/// The garnishes that are cut from fruit for each service, as late as they can be.
void add_cuts(PrepPlan& plan, const Costing& costing, Timetable& timetable) {
  BegunFruit begun;
  for (std::size_t day = 0; day < plan.stations.size(); ++day) {
    begun.next_day();
    std::vector<CutLine> cuts;
    for (const auto& station : plan.stations[day])
      for (const auto& line : station.lines) {
        auto cut = cut_of(line, station.station, costing);
        if (!cut) continue;
        Product work;
        work.station = station.station;
        work.stages = {{cut_setup_h + cut_a_piece_h * cut->pieces, 0, false, {}}};
        Make make;
        const double by_h = cut_by_h(plan, *cut, day);
        timetable.book(make, work, by_h, timetable.latest(work, by_h));
        std::tie(cut->from_h, cut->to_h) = make.work.front();
        cut->needs_more_hands = make.needs_more_hands;
        cuts.push_back(std::move(*cut));
      }
    // Who cuts first begins the fruit.
    std::stable_sort(cuts.begin(), cuts.end(), [](const CutLine& a, const CutLine& b) {
      return std::pair(a.from_h, a.to_h) < std::pair(b.from_h, b.to_h);
    });
    for (auto& cut : cuts)
      if (!cut.is_peel) cut.fruit_count = begun.take(cut.use.stock, cut.fruit_share);
    plan.cuts.push_back(std::move(cuts));
  }
}

/// Hour by hour, how many pairs of hands are at work at once.
void add_hands(PrepPlan& plan) {
  std::vector<Interval> work;
  for (const auto& make : plan.makes)
    if (make.make_g > 0) work.insert(work.end(), make.work.begin(), make.work.end());
  for (const auto& day : plan.cuts)
    for (const auto& cut : day) work.emplace_back(cut.from_h, cut.to_h);
  if (work.empty()) return;
  double first = work.front().first, last = work.front().second;
  for (const auto& [from, to] : work) {
    first = std::min(first, from);
    last = std::max(last, to);
  }
  // Hours of the clock.
  double to_the_hour = plan.options.opens_h - std::floor(plan.options.opens_h);
  for (double from = std::floor(first + to_the_hour) - to_the_hour; from < last; ++from)
    if (int hands = most_at_once(work, from, from + 1)) plan.hands.push_back({from, from + 1, hands});
}

}  // namespace

std::optional<CutLine> cut_of(const StationLine& line, const std::string& station, const Costing& costing) {
  const auto& house = costing.house();
  const auto& fruit = house.specs[line.use.stock];
  if (!line.is_garnish || line.product || !line.use.item.valid() || fruit.is_prep ||
      fruit.kind != analysis::StockKind::fruit)
    return std::nullopt;
  auto piece_g = model::number_of(costing.measuring().grams_each(line.use));
  CutLine cut;
  cut.station = station;
  cut.name = line.name;
  cut.use = line.use;
  cut.pieces = std::ceil((piece_g && *piece_g > 0 ? line.grams / *piece_g : line.pieces) - 1e-6);
  cut.is_peel = model::is_peel(line.use, house.specs, house.units);
  auto fruit_needed = fruit_for(line.use, line.grams, costing);
  cut.fruit_share = fruit_needed.peeled + fruit_needed.cut;
  cut.fruit_count = std::ceil(cut.fruit_share - 1e-6);
  if (cut.pieces <= 0) return std::nullopt;
  return cut;
}

bool is_part_recipe(const Make& make, const Product& product) {
  double recipes = make.make_g / product.recipe_g;
  return product.making == Making::prep && product.largest_g <= 0 &&
         std::abs(recipes - std::round(recipes)) > 1e-6;
}

PrepPlan make_prep_plan(const House& house, const PlanOptions& options) {
  PrepPlan plan;
  plan.options = options;
  // A day that was asked for has its own prices.
  Costing costing(house, options.from ? base::iso_date(*options.from) : std::string());
  Products products(house, costing, options);
  const Calendar calendar = calendar_of(house, options);
  Services services(house, options, calendar, products, plan);
  services.choose_days();
  Demands demands(products.all().size(), options.days);
  services.add_uses(demands);
  Timetable timetable(options, calendar);
  Makes makes(options, calendar, products, demands, timetable, plan);
  for (std::size_t product : products.users_first()) makes.make(product);

  std::erase_if(plan.makes, [](const Make& make) { return make.make_g <= 0 && make.need_g <= 0; });
  // Parts before what they go into: the planner went the other way. Of one thing, the first made first.
  std::stable_sort(plan.makes.begin(), plan.makes.end(),
                   [](const Make& a, const Make& b) { return a.product > b.product; });
  plan.currency = costing.prices().currency();
  plan.products = products.all();
  peel_before_pressing(plan, timetable);
  for (const auto& make : plan.makes)
    if (make.make_g > 0) plan.starts_h = std::min(plan.starts_h, make.work.front().first);
  add_stations(plan, house, costing);
  add_cuts(plan, costing, timetable);
  add_shopping(plan, costing);
  add_ice(plan, house);
  add_hands(plan);
  add_notes(plan, services.not_counted());
  note_strange_stock(plan, calendar);
  return plan;
}

}  // namespace gill::plan
