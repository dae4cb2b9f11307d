#include "plan/makes.h"

#include <algorithm>
#include <cmath>

namespace gill::plan {
namespace {

/// What keeps so long is made the day before it is needed.
constexpr int keeper_days = 3;
/// How many days sooner still work may be moved off a full day, and which part of a shift fills it. Common
/// practice, no source.
constexpr int max_days_sooner = 2;
constexpr double shift_share = 0.6;

}  // namespace

/// Some days of use, filled by one make.
struct Makes::Window {
  std::vector<Demand> demands;
  int made_day = 0, last_day = 0;
  double ready_by_h = 0;
  bool may_move = false;
};

Makes::Makes(const PlanOptions& options, const Calendar& calendar, const Products& products, Demands& demands,
             Timetable& timetable, PrepPlan& plan)
    : options_(options),
      calendar_(calendar),
      products_(products),
      demands_(demands),
      plan_(plan),
      timetable_(timetable) {
  find_movable();
}

/// The windows follow from the days alone, not from amounts: less sold never moves a make to where it would
/// buy more.
void Makes::make(std::size_t index) {
  const Product& product = products_.all()[index];
  auto there = on_hand(product);
  std::vector<Demand> demands;
  for (const auto& demand : demands_.of(index))
    for (const auto& part : split_service(product, demand)) demands.push_back(part);
  std::stable_sort(demands.begin(), demands.end(),
                   [](const Demand& a, const Demand& b) { return a.latest_h < b.latest_h; });
  for (std::size_t at = 0; at < demands.size();) fill(index, window_from(demands, at, index), there);
  for (const auto& lot : there)
    if (lot.made && lot.grams > 0) plan_.left_on_hand.push_back({index, lot.grams, *lot.made});
}

/// The window that begins with the demand at `at`, which is moved behind it.
Makes::Window Makes::window_from(const std::vector<Demand>& demands, std::size_t& at,
                                 std::size_t index) const {
  const Product& product = products_.all()[index];
  int first_day = demands[at].day;
  Window window;
  window.made_day = window.last_day = first_day;
  window.ready_by_h = demands[at].latest_h;
  if (product.keeps_h) {
    window.demands = {demands[at++]};
    return window;
  }
  window.ready_by_h = std::min(24.0 * first_day, demands[at].latest_h);
  bool by_service = true;
  for (std::size_t i = at; i < demands.size() && demands[i].day == first_day; ++i)
    by_service = by_service && demands[i].by_service;
  if (by_service && product.keeps_days >= keeper_days) {
    // What keeps for days is done the day before, so that the day itself is for what does not.
    int before = calendar_.open_before(first_day);
    if (before + product.keeps_days > first_day) window.made_day = before;
    window.ready_by_h = 24.0 * window.made_day;
  }
  window.may_move = by_service && may_move_[index];
  // Waits that must not be longer can put it a day sooner than it is wanted.
  if (std::any_of(product.stages.begin(), product.stages.end(),
                  [](const Product::Stage& stage) { return stage.wait_is_exact && stage.wait_h > 0; })) {
    auto latest = timetable_.latest(product, window.ready_by_h);
    double done_h = latest.back().second + product.stages.back().wait_h;
    window.made_day =
        std::clamp(bar_day(done_h, options_), first_day - product.keeps_days + 1, window.made_day);
  }
  window.last_day = window.made_day + product.keeps_days - 1;
  while (at < demands.size() && demands[at].day <= window.last_day) window.demands.push_back(demands[at++]);
  return window;
}

void Makes::fill(std::size_t index, Window window, std::vector<OnHand>& on_hand) {
  const Product& product = products_.all()[index];
  Make make;
  make.product = index;
  make.made_day = window.made_day;
  make.last_day = window.last_day;
  for (const auto& demand : window.demands) {
    make.need_g += demand.grams;
    make.start_before_h = std::max(make.start_before_h, demand.lead_h);
  }
  make.start_before_h += product.takes_h();
  use_on_hand(make, window, on_hand);
  set_amount(make, window, on_hand);
  if (window.may_move && make.make_g > 0) move_sooner(make, window);
  auto latest = timetable_.latest(product, window.ready_by_h);
  if (make.make_g > 0) {
    book(make, window, latest);
  } else {
    make.work = latest;
    make.ready_h = latest.back().second + product.stages.back().wait_h;
  }
  make.use_by_day = make.made_day + product.use_by_days;
  use_ingredients(make, latest);
  use_made(index, window);
  plan_.makes.push_back(std::move(make));
}

/// What is on hand comes first while it keeps, the oldest before the rest.
void Makes::use_on_hand(Make& make, const Window& window, std::vector<OnHand>& on_hand) {
  for (const auto& demand : window.demands) {
    double needed_g = demand.grams;
    for (auto& there : on_hand) {
      if (there.last_day < demand.day || there.first_day > demand.day) continue;
      double used_g = std::min(needed_g, there.grams);
      if (used_g <= 0) continue;
      needed_g -= used_g;
      there.grams -= used_g;
      make.on_hand_g += used_g;
      if (there.made && (!make.on_hand_made || *there.made < *make.on_hand_made))
        make.on_hand_made = there.made;
      if (there.made && (!make.on_hand_made_last || *there.made > *make.on_hand_made_last))
        make.on_hand_made_last = there.made;
    }
  }
}

/// What is made fills the rest of the need, up to the level to hold.
void Makes::set_amount(Make& make, const Window& window, const std::vector<OnHand>& on_hand) const {
  const Product& product = products_.all()[make.product];
  for (const auto& there : on_hand)
    if (there.last_day >= window.demands.back().day) make.left_on_hand_g += there.grams;
  // Of the days behind the plan nobody knows more than how much a day of it uses.
  int days_behind = std::clamp(make.last_day - (options_.days - 1), 0, product.keeps_days);
  double used_while_it_keeps_g = make.need_g + days_behind * demands_.used_per_day(make.product);
  double target_g = make.need_g - make.on_hand_g;
  if (make.need_g > 0)
    target_g = std::max(
        target_g, std::min(product.par_g, used_while_it_keeps_g) - make.on_hand_g - make.left_on_hand_g);
  if (target_g <= 1e-9 * (1 + make.need_g)) target_g = 0;
  make.make_g = amount_to_make(product, target_g, used_while_it_keeps_g);
  if (product.making == Making::prep) {
    double unit = product.largest_g > 0 ? product.largest_g : product.recipe_g;
    make.batches = static_cast<int>(std::min(10000.0, std::max(1.0, std::ceil(make.make_g / unit - 1e-9))));
  }
}

void Makes::move_sooner(Make& make, Window& window) const {
  int most = std::min(max_days_sooner, make.last_day - window.demands.back().day);
  int sooner = days_sooner(make, products_.all()[make.product], most);
  make.made_day -= sooner;
  make.last_day -= sooner;
  window.ready_by_h -= 24.0 * sooner;
}

void Makes::book(Make& make, const Window& window, const std::vector<Interval>& latest) {
  const Product& product = products_.all()[make.product];
  double booked_by_h = window.ready_by_h;
  for (const auto& demand : window.demands) {
    double needed_h = demand.by_service ? demand.from_h : plan_.makes[demand.make].work[demand.stage].first;
    if (demand.grams > 0) booked_by_h = std::min(booked_by_h, needed_h);
  }
  timetable_.book(make, product, booked_by_h, latest);
  for (const auto& [from, to] : make.work) {
    load_h_[{product.station, bar_day(to, options_)}] += to - from;
    day_load_h_[bar_day(to, options_)] += to - from;
  }
}

void Makes::use_ingredients(const Make& make, const std::vector<Interval>& latest) {
  const Product& product = products_.all()[make.product];
  for (const auto& part : product.ingredients) {
    double stage_lead_h = make.start_before_h;
    for (std::size_t i = 0; i < part.stage; ++i)
      stage_lead_h -= product.stages[i].hands_on_h + product.stages[i].wait_h;
    double grams = part.grams * make.make_g;
    double start_h = make.work[part.stage].first;
    if (auto used = products_.of(part.use.stock)) {
      Demand demand;
      demand.day = bar_day(latest[part.stage].first, options_);
      demand.grams = grams;
      // What keeps for hours is made for the very hour.
      demand.latest_h = products_.all()[*used].keeps_h ? start_h : latest[part.stage].first;
      demand.make = plan_.makes.size();
      demand.stage = part.stage;
      demand.from_h = demand.to_h = start_h;
      demand.lead_h = stage_lead_h;
      demands_.add(*used, demand);
    } else if (grams > 0) {
      plan_.consumption.push_back({std::nullopt, part.use, grams, 0, start_h, start_h});
    }
  }
}

void Makes::use_made(std::size_t index, const Window& window) {
  for (const auto& demand : window.demands) {
    if (demand.grams <= 0) continue;
    double from_h = demand.from_h, to_h = demand.to_h;
    if (!demand.by_service) from_h = to_h = plan_.makes[demand.make].work[demand.stage].first;
    analysis::Use use{products_.all()[index].stock, {}, {}};
    plan_.consumption.push_back({index, use, demand.grams, 0, from_h, to_h});
  }
}

/// The day, up to some days sooner, on which the station has room for the work.
int Makes::days_sooner(const Make& make, const Product& product, int maximum) const {
  double work_h = 0;
  for (const auto& stage : product.stages) work_h += stage.hands_on_h * hands_on_factor(make.batches);
  double room_h = shift_share * options_.shift_h;
  int best = 0;
  double minimum = 1e300;
  auto at = [](const auto& loads, const auto& key) {
    auto found = loads.find(key);
    return found == loads.end() ? 0 : found->second;
  };
  for (int sooner = 0; sooner <= maximum; ++sooner) {
    int day = make.made_day - sooner;
    if (sooner > 0 && calendar_.is_closed(day)) continue;
    double load_h = at(load_h_, std::pair(product.station, day));
    bool hands_are_free = !options_.hands || at(day_load_h_, day) + work_h <= *options_.hands * room_h;
    if (load_h + work_h <= room_h && hands_are_free) return sooner;
    if (load_h < minimum) {
      minimum = load_h;
      best = sooner;
    }
  }
  return best;
}

/// Whole recipes where what is left over is used while it keeps, else halves, else quarters; the largest
/// batch of the kitchen takes the place of a recipe that is larger. House bottles are filled whole on the
/// same terms.
double Makes::amount_to_make(const Product& product, double target_g, double used_while_it_keeps_g) const {
  if (target_g <= 0) return 0;
  auto multiple = [&](double unit) { return std::ceil(target_g / unit - 1e-9) * unit; };
  auto is_used = [&](double grams) { return grams <= used_while_it_keeps_g * (1 + 1e-9); };
  if (product.making == Making::pressing) return target_g;
  if (product.making == Making::house_bottle) {
    if (product.bottle_g && is_used(multiple(*product.bottle_g))) return multiple(*product.bottle_g);
    return multiple(product.serve_g);
  }
  double unit = product.largest_g > 0 ? std::min(product.recipe_g, product.largest_g) : product.recipe_g;
  for (double part : {1.0, 0.5})
    if (part >= product.smallest_part && is_used(multiple(unit * part))) return multiple(unit * part);
  return multiple(unit * product.smallest_part);
}

/// A service that is longer than an item keeps is served by several makes.
std::vector<Demand> Makes::split_service(const Product& product, const Demand& demand) const {
  if (!demand.by_service || !product.keeps_h) return {demand};
  double hours = demand.to_h - demand.from_h;
  // Work ends on the clock's five minutes: what keeps so many hours is planned for some minutes less.
  double planned_h = std::max(*product.keeps_h - 0.5, *product.keeps_h / 2);
  auto parts = static_cast<std::size_t>(std::clamp(std::ceil(hours / planned_h - 1e-9), 1.0, 100.0));
  std::vector<Demand> split(parts, demand);
  for (std::size_t i = 0; i < parts; ++i) {
    split[i].grams = demand.grams / static_cast<double>(parts);
    split[i].latest_h = split[i].from_h =
        demand.from_h + hours * static_cast<double>(i) / static_cast<double>(parts);
    split[i].to_h = split[i].from_h + hours / static_cast<double>(parts);
  }
  return split;
}

/// Which items may be made some days sooner without moving a make of anything that does not keep: all that
/// goes into them outlasts the plan, and nothing of it is pressed.
void Makes::find_movable() {
  may_move_.assign(products_.all().size(), false);
  std::vector<bool> outlasts(products_.all().size(), false);
  const auto& order = products_.users_first();
  for (auto index = order.rbegin(); index != order.rend(); ++index) {
    const Product& product = products_.all()[*index];
    bool all_outlast = true;
    for (const auto& part : product.ingredients)
      if (auto inner = products_.of(part.use.stock)) all_outlast = all_outlast && outlasts[*inner];
    may_move_[*index] = product.making == Making::prep && all_outlast && product.keeps_days >= 7;
    outlasts[*index] = product.making == Making::prep && all_outlast &&
                       product.keeps_days >= options_.days + max_days_sooner + 2;
  }
}

/// By the day until which it keeps. What nobody dated was made the day before at the latest.
std::vector<Makes::OnHand> Makes::on_hand(const Product& product) const {
  std::vector<OnHand> all;
  const double* grams = product.stock.valid() ? found_in(options_.on_hand_g, product.stock)
                                              : found_in(options_.bottles_on_hand_g, product.drink);
  if (!grams) return all;
  double undated_g = *grams;
  if (const auto* dated = dated_lots(options_, product))
    for (const auto& lot : *dated) {
      auto made_day = calendar_.day(lot.made);
      if (!made_day) continue;
      undated_g -= lot.grams;
      all.push_back({lot.grams, *made_day, *made_day + product.keeps_days - 1, lot.made});
    }
  if (undated_g > 0)
    all.push_back({undated_g, -1 - product.keeps_days, product.keeps_days - 2, std::nullopt});
  std::stable_sort(all.begin(), all.end(),
                   [](const OnHand& a, const OnHand& b) { return a.last_day < b.last_day; });
  return all;
}

}  // namespace gill::plan
