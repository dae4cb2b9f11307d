#include "plan/services.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/date.h"
#include "costing/words.h"
#include "model/house_bottle.h"

namespace gill::plan {
namespace {

bool runs_on(const analysis::Menu& menu, std::chrono::sys_days date) {
  auto from = base::read_iso_date(menu.runs_from), to = base::read_iso_date(menu.runs_to);
  return (!from || *from <= date) && (!to || date <= *to);
}

void add_portions(std::vector<std::pair<DrinkId, double>>& serves, DrinkId drink, double portions) {
  auto found =
      std::find_if(serves.begin(), serves.end(), [&](const auto& line) { return line.first == drink; });
  if (found != serves.end())
    found->second += portions;
  else
    serves.emplace_back(drink, portions);
}

/// The first day of the newest menu that is asked for, or of all.
std::optional<std::chrono::sys_days> first_day(const House& house, const PlanOptions& options) {
  if (options.from) return options.from;
  const auto& menus = house.specs.menus;
  std::optional<std::chrono::sys_days> first;
  for (std::size_t i = 0; i < menus.size(); ++i) {
    bool asked = options.menus.empty() || std::find(options.menus.begin(), options.menus.end(),
                                                    analysis::MenuId::at(i)) != options.menus.end();
    auto date = base::read_iso_date(menus[i].runs_from);
    if (asked && date && (!first || *first < *date)) first = date;
  }
  return first;
}

}  // namespace

double portions_made(const analysis::Drink& drink, double portions) {
  return drink.serves > 1 ? std::ceil(portions / drink.serves - 1e-9) * drink.serves : portions;
}

Calendar calendar_of(const House& house, const PlanOptions& options) {
  return {first_day(house, options), options.closed};
}

void Services::choose_days() {
  for (int day = 0; day < options_.days; ++day) add_day(day);
  note_other_bookings();
}

void Services::add_day(int index) {
  ServiceDay day;
  day.opens_h = 24.0 * index;
  day.date = calendar_.date(index);
  day.weekday = calendar_.weekday(index);
  day.is_closed = calendar_.is_closed(index);
  if (day.is_closed) {
    plan_.days.push_back(std::move(day));
    return;
  }
  const auto& menus = house_.specs.menus;
  bool has_menu = false;
  for (std::size_t i = 0; i < menus.size(); ++i) {
    auto id = analysis::MenuId::at(i);
    bool asked = std::find(options_.menus.begin(), options_.menus.end(), id) != options_.menus.end();
    if (options_.menus.empty() ? day.date && !runs_on(menus[i], *day.date) : !asked) continue;
    if (std::find(plan_.menus.begin(), plan_.menus.end(), id) == plan_.menus.end()) plan_.menus.push_back(id);
    add_menu(menus[i], day);
    has_menu = true;
  }
  add_bookings(day);
  if (day.date && !has_menu) not_counted_.without_menu.insert(base::iso_date(*day.date));
  plan_.days.push_back(std::move(day));
}

void Services::add_bookings(ServiceDay& day) {
  for (const auto& booking : options_.bookings) {
    if (booking.date != day.date || !can_serve(booking.drink)) continue;
    add_portions(day.serves, booking.drink, booking.portions);
    add_portions(plan_.serves, booking.drink, booking.portions);
    day.booked_portions += booking.portions;
  }
}

void Services::note_other_bookings() {
  for (const auto& booking : options_.bookings) {
    std::string words =
        fmt::format("{} on {}", house_.specs[booking.drink].head.name, base::iso_date(booking.date));
    auto day = calendar_.day(booking.date);
    if (!day || *day < 0 || *day >= options_.days)
      not_counted_.other_days.insert(std::move(words));
    else if (calendar_.is_closed(*day))
      not_counted_.closed_days.insert(std::move(words));
  }
}

void Services::add_menu(const analysis::Menu& menu, ServiceDay& day) {
  for (const auto& section : menu.sections)
    for (const auto& entry : section.entries) {
      double portions = sells_on(entry, day.weekday);
      if (sells_in_a_week(entry) <= 0) not_counted_.unsold.insert(house_.specs[entry.drink].head.name);
      if (portions <= 0 || !can_serve(entry.drink)) continue;
      add_portions(day.serves, entry.drink, portions);
      add_portions(plan_.serves, entry.drink, portions);
    }
}

bool Services::can_serve(DrinkId drink) {
  const auto& specs = house_.specs[drink];
  if (specs.status == analysis::Status::retired ||
      (specs.status == analysis::Status::draft && !options_.drafts))
    return false;
  if (house_.facts[drink].valid) return true;
  not_counted_.in_error.insert(specs.head.name);
  return false;
}

void Services::add_uses(Demands& demands) {
  for (std::size_t day = 0; day < plan_.days.size(); ++day) add_uses(day, demands);
}

void Services::add_uses(std::size_t index, Demands& demands) {
  const auto& day = plan_.days[index];
  double closes_h = day.opens_h + options_.closes_h - options_.opens_h;
  std::map<std::size_t, double> of_items;
  std::map<std::pair<StockId, units::UnitId>, std::pair<double, double>> bought;
  for (const auto& [drink, sold] : day.serves) {
    double portions = portions_made(house_.specs[drink], sold);
    if (auto bottle = products_.of(drink)) of_items[*bottle] += portions * products_.all()[*bottle].serve_g;
    for (const auto& entry : house_.facts[drink].entries) {
      if (entry.optional) {
        not_counted_.optional.insert(fmt::format("{} ({})", entry.name, house_.specs[drink].head.name));
        continue;
      }
      if (products_.of(drink) && model::is_batched(house_.specs[drink], entry)) continue;
      if (auto product = products_.of(entry.use.stock); product && entry.mass_g) {
        of_items[*product] += portions * *entry.mass_g;
        continue;
      }
      auto& use = bought[{entry.use.stock, entry.use.item}];
      if (entry.mass_g)
        use.first += portions * *entry.mass_g;
      else if (entry.count)
        use.second += portions * *entry.count;
      if (!entry.mass_g && !entry.count) not_counted_.unweighed.insert(entry.name);
    }
  }
  for (const auto& [product, grams] : of_items) {
    Demand demand;
    demand.day = static_cast<int>(index);
    demand.grams = grams;
    demand.latest_h = demand.from_h = day.opens_h;
    demand.to_h = closes_h;
    demand.by_service = true;
    demands.add(product, demand);
  }
  for (const auto& [use, amounts] : bought)
    plan_.consumption.push_back({std::nullopt, analysis::Use{use.first, use.second, {}}, amounts.first,
                                 amounts.second, day.opens_h, closes_h});
}

}  // namespace gill::plan
