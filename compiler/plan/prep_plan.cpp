#include "plan/prep_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "base/text.h"
#include "costing/words.h"
#include "plan/products.h"
#include "plan/shopping.h"
#include "plan/timetable.h"
#include "render/book/usage.h"

namespace gill::plan {
namespace {

std::optional<std::chrono::sys_days> date_of(const std::string& iso) {
  if (iso.size() != 10) return std::nullopt;
  std::chrono::year_month_day date{std::chrono::year(std::stoi(iso.substr(0, 4))),
                                   std::chrono::month(static_cast<unsigned>(std::stoi(iso.substr(5, 2)))),
                                   std::chrono::day(static_cast<unsigned>(std::stoi(iso.substr(8, 2))))};
  if (!date.ok()) return std::nullopt;
  return std::chrono::sys_days(date);
}

bool runs_on(const analysis::Menu& menu, std::chrono::sys_days date) {
  auto from = date_of(menu.runs_from), to = date_of(menu.runs_to);
  return (!from || *from <= date) && (!to || date <= *to);
}

/// A demand for an item: by a service (its day), or by a stage of a make (which must be laid out already).
struct Demand {
  int day = 0;
  double grams = 0;
  /// When it must be there at the latest: as the days are laid out, and (for what goes into a make) as
  /// booked.
  double latest_h = 0;
  bool by_service = false;
  std::size_t make = 0, stage = 0;
  double from_h = 0, to_h = 0;
  /// Hours from `latest_h` to the service that is waiting for it in the end.
  double lead_h = 0;
};

/// Some days of use, filled by one make.
struct Window {
  std::vector<Demand> demands;
  int made_day = 0, last_day = 0;
  double ready_by_h = 0;
  bool may_move = false;
};

/// What keeps so long is made the day before it is needed.
constexpr int keeper_days = 3;
/// How many days sooner still work may be moved off a full day, and which part of a shift fills it. Common
/// practice, no source.
constexpr int max_days_sooner = 2;
constexpr double shift_share = 0.6;

class Planner {
 public:
  Planner(const House& house, const PlanOptions& options)
      : house_(house),
        options_(options),
        costing_(house),
        products_(house, costing_, options_),
        timetable_(options_) {}

  PrepPlan plan() {
    choose_days();
    plan_.options = options_;
    demands_.resize(products_.all().size());
    used_per_day_.resize(products_.all().size(), 0);
    find_movable();
    for (std::size_t day = 0; day < plan_.days.size(); ++day) serve(day);
    for (std::size_t product : products_.users_first()) make_product(product);
    finish();
    return std::move(plan_);
  }

 private:
  void choose_days();
  void add_day(int index, std::optional<std::chrono::sys_days> date);
  bool can_serve(DrinkId drink);
  void serve(std::size_t day);
  void use_item(std::size_t product, Demand demand);
  void make_product(std::size_t product);
  void make_window(std::size_t product, Window window, double& on_hand_g);
  void find_movable();
  int days_sooner(const Make& make, const Product& product, int maximum);
  std::vector<Demand> split_service(const Product& product, const Demand& demand) const;
  double amount_to_make(const Product& product, double target_g, double used_while_it_keeps_g) const;
  void finish();
  double on_hand(const Product& product) const;

  const House& house_;
  PlanOptions options_;
  Costing costing_;
  Products products_;
  Timetable timetable_;
  PrepPlan plan_;
  std::vector<std::vector<Demand>> demands_;
  std::vector<double> used_per_day_;
  std::vector<bool> may_move_;
  /// Hands-on hours by station and bar day.
  std::map<std::pair<std::string, int>, double> load_h_;
  std::set<std::string> unsold_, in_error_, optional_, unweighed_;
};

void Planner::choose_days() {
  const auto& menus = house_.specs.menus;
  std::optional<std::chrono::sys_days> first = options_.from;
  if (!first) {
    // The newest menu that is asked for, or of all.
    for (std::size_t i = 0; i < menus.size(); ++i) {
      bool asked = options_.menus.empty() || std::find(options_.menus.begin(), options_.menus.end(),
                                                       analysis::MenuId::at(i)) != options_.menus.end();
      auto date = date_of(menus[i].runs_from);
      if (asked && date && (!first || *first < *date)) first = date;
    }
  }
  for (int day = 0; day < options_.days; ++day)
    add_day(day, first ? std::optional(*first + std::chrono::days(day)) : std::nullopt);
}

void Planner::add_day(int index, std::optional<std::chrono::sys_days> date) {
  ServiceDay day;
  day.opens_h = 24.0 * index;
  day.date = date;
  day.weekday = date ? std::chrono::weekday(*date).iso_encoding() - 1 : static_cast<std::size_t>(index % 7);
  const auto& menus = house_.specs.menus;
  for (std::size_t i = 0; i < menus.size(); ++i) {
    auto id = analysis::MenuId::at(i);
    bool asked = std::find(options_.menus.begin(), options_.menus.end(), id) != options_.menus.end();
    if (options_.menus.empty() ? date && !runs_on(menus[i], *date) : !asked) continue;
    if (std::find(plan_.menus.begin(), plan_.menus.end(), id) == plan_.menus.end()) plan_.menus.push_back(id);
    for (const auto& section : menus[i].sections) {
      for (const auto& entry : section.entries) {
        double portions = sells_on(entry, day.weekday);
        if (sells_in_a_week(entry) <= 0) unsold_.insert(house_.specs[entry.drink].head.name);
        if (portions <= 0 || !can_serve(entry.drink)) continue;
        auto add = [&, drink = entry.drink](std::vector<std::pair<DrinkId, double>>& serves) {
          auto found = std::find_if(serves.begin(), serves.end(),
                                    [&](const auto& line) { return line.first == drink; });
          if (found != serves.end())
            found->second += portions;
          else
            serves.emplace_back(drink, portions);
        };
        add(day.serves);
        add(plan_.serves);
      }
    }
  }
  plan_.days.push_back(std::move(day));
}

bool Planner::can_serve(DrinkId drink) {
  const auto& specs = house_.specs[drink];
  if (specs.status == analysis::Status::retired ||
      (specs.status == analysis::Status::draft && !options_.drafts))
    return false;
  if (house_.facts[drink].valid) return true;
  in_error_.insert(specs.head.name);
  return false;
}

/// What a service uses, each thing once.
void Planner::serve(std::size_t index) {
  const auto& day = plan_.days[index];
  double closes_h = day.opens_h + options_.closes_h - options_.opens_h;
  std::map<std::size_t, double> of_items;
  std::map<std::pair<StockId, units::UnitId>, std::pair<double, double>> bought;
  for (const auto& [drink, portions] : day.serves) {
    if (auto bottle = products_.of(drink)) of_items[*bottle] += portions * products_.all()[*bottle].serve_g;
    for (const auto& entry : house_.facts[drink].entries) {
      if (entry.optional) {
        optional_.insert(fmt::format("{} ({})", entry.name, house_.specs[drink].head.name));
        continue;
      }
      if (products_.of(drink) && products_.is_batched(drink, entry)) continue;
      if (auto product = products_.of(entry.use.stock); product && entry.mass_g) {
        of_items[*product] += portions * *entry.mass_g;
        continue;
      }
      auto& use = bought[{entry.use.stock, entry.use.item}];
      if (entry.mass_g)
        use.first += portions * *entry.mass_g;
      else if (entry.count)
        use.second += portions * *entry.count;
      if (!entry.mass_g && !entry.count) unweighed_.insert(entry.name);
    }
  }
  for (const auto& [product, grams] : of_items) {
    Demand demand;
    demand.day = static_cast<int>(index);
    demand.grams = grams;
    demand.latest_h = demand.from_h = day.opens_h;
    demand.to_h = closes_h;
    demand.by_service = true;
    use_item(product, demand);
  }
  for (const auto& [use, amounts] : bought)
    plan_.consumption.push_back({std::nullopt, analysis::Use{use.first, use.second, {}}, amounts.first,
                                 amounts.second, day.opens_h, closes_h});
}

void Planner::use_item(std::size_t product, Demand demand) {
  used_per_day_[product] += demand.grams / options_.days;
  demands_[product].push_back(demand);
}

double Planner::on_hand(const Product& product) const {
  if (!product.stock.valid()) return 0;
  auto found = options_.on_hand_g.find(product.stock);
  return found == options_.on_hand_g.end() ? 0 : found->second;
}

/// A service that is longer than an item keeps is served by several makes.
std::vector<Demand> Planner::split_service(const Product& product, const Demand& demand) const {
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

/// Parts the days on which an item is used into windows that it keeps through, and fills each with one make.
/// The windows follow from the days alone, not from amounts: less sold never moves a make to where it would
/// buy more.
void Planner::make_product(std::size_t index) {
  const Product& product = products_.all()[index];
  double on_hand_g = on_hand(product);
  std::vector<Demand> demands;
  for (const auto& demand : demands_[index])
    for (auto& part : split_service(product, demand)) demands.push_back(std::move(part));
  std::stable_sort(demands.begin(), demands.end(),
                   [](const Demand& a, const Demand& b) { return a.latest_h < b.latest_h; });
  std::size_t at = 0;
  while (at < demands.size()) {
    int first_day = demands[at].day;
    Window window;
    window.made_day = first_day;
    window.ready_by_h =
        std::min(product.keeps_h ? demands[at].latest_h : 24.0 * first_day, demands[at].latest_h);
    if (product.keeps_h) {
      window.last_day = first_day;
      window.demands = {demands[at++]};
    } else {
      bool by_service = true;
      for (std::size_t i = at; i < demands.size() && demands[i].day == first_day; ++i)
        by_service = by_service && demands[i].by_service;
      if (by_service && product.keeps_days >= keeper_days) {
        // What keeps for days is done the day before, so that the day itself is for what does not.
        window.made_day = first_day - 1;
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
      while (at < demands.size() && demands[at].day <= window.last_day)
        window.demands.push_back(demands[at++]);
    }
    make_window(index, std::move(window), on_hand_g);
  }
}

/// Which items may be made some days sooner without moving a make of anything that does not keep: all that
/// goes into them outlasts the plan, and nothing of it is pressed.
void Planner::find_movable() {
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

/// The day, up to some days sooner, on which the station has room for the work.
int Planner::days_sooner(const Make& make, const Product& product, int maximum) {
  double work_h = 0;
  for (const auto& stage : product.stages) work_h += stage.hands_on_h * hands_on_factor(make.batches);
  double room_h = shift_share * options_.shift_h;
  int best = 0;
  double minimum = 1e300;
  for (int sooner = 0; sooner <= maximum; ++sooner) {
    double load_h = load_h_[{product.station, make.made_day - sooner}];
    if (load_h + work_h <= room_h) return sooner;
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
double Planner::amount_to_make(const Product& product, double target_g, double used_while_it_keeps_g) const {
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
    if (is_used(multiple(unit * part))) return multiple(unit * part);
  return multiple(unit / 4);
}

void Planner::make_window(std::size_t index, Window window, double& on_hand_g) {
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
  // What is on hand was made yesterday at the latest.
  const int hand_keeps_until = product.keeps_days - 2;
  double while_hand_keeps_g = 0;
  for (const auto& demand : window.demands)
    if (demand.day <= hand_keeps_until) while_hand_keeps_g += demand.grams;
  make.on_hand_g = std::min(on_hand_g, while_hand_keeps_g);
  on_hand_g -= make.on_hand_g;
  bool hand_keeps = window.demands.back().day <= hand_keeps_until;
  double used_while_it_keeps_g = used_per_day_[index] * product.keeps_days;
  double target_g = make.need_g - make.on_hand_g;
  if (make.need_g > 0)
    target_g = std::max(target_g, std::min(product.par_g, used_while_it_keeps_g) - make.on_hand_g -
                                      (hand_keeps ? on_hand_g : 0));
  if (target_g <= 1e-9 * (1 + make.need_g)) target_g = 0;
  make.make_g = amount_to_make(product, target_g, used_while_it_keeps_g);
  if (product.making == Making::prep) {
    double unit = product.largest_g > 0 ? product.largest_g : product.recipe_g;
    make.batches = static_cast<int>(std::min(10000.0, std::max(1.0, std::ceil(make.make_g / unit - 1e-9))));
  }
  if (window.may_move && make.make_g > 0) {
    int sooner =
        days_sooner(make, product, std::min(max_days_sooner, make.last_day - window.demands.back().day));
    make.made_day -= sooner;
    make.last_day -= sooner;
    window.ready_by_h -= 24.0 * sooner;
  }
  auto latest = timetable_.latest(product, window.ready_by_h);
  double booked_by_h = window.ready_by_h;
  for (const auto& demand : window.demands) {
    double needed_h = demand.by_service ? demand.from_h : plan_.makes[demand.make].work[demand.stage].first;
    if (demand.grams > 0) booked_by_h = std::min(booked_by_h, needed_h);
  }
  if (make.make_g > 0) {
    timetable_.book(make, product, booked_by_h, latest);
    for (const auto& [from, to] : make.work) load_h_[{product.station, bar_day(to, options_)}] += to - from;
  } else {
    make.work = latest;
    make.ready_h = latest.back().second + product.stages.back().wait_h;
  }
  std::size_t number = plan_.makes.size();
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
      demand.make = number;
      demand.stage = part.stage;
      demand.from_h = demand.to_h = start_h;
      demand.lead_h = stage_lead_h;
      use_item(*used, demand);
    } else if (grams > 0) {
      plan_.consumption.push_back({std::nullopt, part.use, grams, 0, start_h, start_h});
    }
  }
  for (const auto& demand : window.demands) {
    if (demand.grams <= 0) continue;
    double from_h = demand.from_h, to_h = demand.to_h;
    if (!demand.by_service) from_h = to_h = plan_.makes[demand.make].work[demand.stage].first;
    plan_.consumption.push_back({index, analysis::Use{product.stock, {}, {}}, demand.grams, 0, from_h, to_h});
  }
  plan_.makes.push_back(std::move(make));
}

void Planner::finish() {
  std::erase_if(plan_.makes, [](const Make& make) { return make.make_g <= 0 && make.need_g <= 0; });
  // Parts before what they go into: the planner went the other way. Of one thing, the first made first.
  std::stable_sort(plan_.makes.begin(), plan_.makes.end(),
                   [](const Make& a, const Make& b) { return a.product > b.product; });
  plan_.products = std::move(products_.all());
  for (const auto& make : plan_.makes)
    if (make.make_g > 0) plan_.starts_h = std::min(plan_.starts_h, make.work.front().first);
  plan_.currency = costing_.prices().currency();
  add_shopping(plan_, costing_);
  add_stations(plan_, house_, costing_);

  auto note = [&](const std::set<std::string>& names, std::string_view text) {
    if (!names.empty())
      plan_.notes.push_back(
          fmt::format(fmt::runtime(text), base::join_with_and({names.begin(), names.end()})));
  };
  note(in_error_, "Left out, because of an error in the drink or in what it is made of: {}.");
  note(unsold_, "No sales are expected of {}: add `sells 20` to their menu lines.");
  note(optional_, "Optional, and not counted: {}.");
  note(unweighed_, "Nobody says what these weigh, so they are not counted: {}.");
  std::set<std::string> unknown_life, over_par, stale, hands;
  for (const auto& make : plan_.makes) {
    const auto& product = plan_.products[make.product];
    if (!product.keeps_known) unknown_life.insert(product.name);
    if (product.par_g > make.need_g && make.make_g > 0 &&
        make.make_g + make.on_hand_g < product.par_g * (1 - 1e-9))
      over_par.insert(product.name);
    if (make.needs_more_hands)
      hands.insert(fmt::format("{} ({})", product.name, product.station.empty() ? "bar" : product.station));
    if (product.stock.valid() && options_.on_hand_g.contains(product.stock) && product.keeps_days == 1)
      stale.insert(product.name);
  }
  note(unknown_life, "Nobody says how long these keep, so they are made for a day at a time: {}.");
  note(over_par, "Made below their par, which is more than sells while they keep: {}.");
  note(stale, "Counted on hand but not used, because they keep for the day on which they are made: {}.");
  note(hands, "More than one pair of hands is needed to be done in time: {}.");
}

}  // namespace

PrepPlan make_prep_plan(const House& house, const PlanOptions& options) {
  return Planner(house, options).plan();
}

}  // namespace gill::plan
