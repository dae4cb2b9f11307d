#include "plan/prep_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/text.h"
#include "plan/makes.h"
#include "plan/services.h"
#include "plan/shopping.h"

namespace gill::plan {
namespace {

/// What the plan could not count or keep to, in full sentences.
void add_notes(PrepPlan& plan, const NotCounted& not_counted) {
  auto note = [&](const std::set<std::string>& names, std::string_view text) {
    if (!names.empty())
      plan.notes.push_back(
          fmt::format(fmt::runtime(text), base::join_with_and({names.begin(), names.end()})));
  };
  note(not_counted.without_menu,
       "No menu runs on {}: give another day with --from, or name a menu with --menu.");
  note(not_counted.in_error, "Left out, because of an error in the drink or in what it is made of: {}.");
  note(not_counted.unsold, "No sales are expected of {}: add `sells 20` to their menu lines.");
  note(not_counted.optional, "Optional, and not counted: {}.");
  note(not_counted.unweighed, "Nobody says what these weigh, so they are not counted: {}.");
  std::set<std::string> unknown_life, by_parts, over_par, stale, hands;
  for (const auto& make : plan.makes) {
    const auto& product = plan.products[make.product];
    if (!product.keeps_known) unknown_life.insert(product.name);
    if (product.keeps_by_parts) by_parts.insert(product.name);
    if (product.par_g > make.need_g && make.make_g > 0 &&
        make.make_g + make.on_hand_g < product.par_g * (1 - 1e-9))
      over_par.insert(product.name);
    if (make.needs_more_hands)
      hands.insert(fmt::format("{} ({})", product.name, product.station.empty() ? "bar" : product.station));
    if (product.stock.valid() && plan.options.on_hand_g.contains(product.stock) && product.keeps_days == 1)
      stale.insert(product.name);
  }
  note(unknown_life, "Nobody says how long these keep, so they are made for a day at a time: {}.");
  note(by_parts,
       "No `keeps` line says how long these keep; they are planned by the shortest-lived of their parts, "
       "which says "
       "nothing of the mixture: {}.");
  note(over_par, "Made below their par, which is more than sells while they keep: {}.");
  note(stale, "Counted on hand but not used, because they keep for the day on which they are made: {}.");
  note(hands, "More than one pair of hands is needed to be done in time: {}.");
}

}  // namespace

PrepPlan make_prep_plan(const House& house, const PlanOptions& options) {
  PrepPlan plan;
  plan.options = options;
  Costing costing(house);
  Products products(house, costing, options);
  Services services(house, options, products, plan);
  services.choose_days();
  Demands demands(products.all().size(), options.days);
  services.add_uses(demands);
  Makes makes(options, products, demands, plan);
  for (std::size_t product : products.users_first()) makes.make(product);

  std::erase_if(plan.makes, [](const Make& make) { return make.make_g <= 0 && make.need_g <= 0; });
  // Parts before what they go into: the planner went the other way. Of one thing, the first made first.
  std::stable_sort(plan.makes.begin(), plan.makes.end(),
                   [](const Make& a, const Make& b) { return a.product > b.product; });
  for (const auto& make : plan.makes)
    if (make.make_g > 0) plan.starts_h = std::min(plan.starts_h, make.work.front().first);
  plan.currency = costing.prices().currency();
  plan.products = products.all();
  add_shopping(plan, costing);
  add_stations(plan, house, costing);
  add_notes(plan, services.not_counted());
  return plan;
}

}  // namespace gill::plan
