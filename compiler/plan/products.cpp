#include "plan/products.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/percent.h"
#include "batch/batch.h"
#include "model/house_bottle.h"
#include "model/keeping.h"
#include "model/physics/volume.h"
#include "render/wording/measures.h"
#include "render/wording/numbers.h"

namespace gill::plan {

using analysis::Verb;

namespace {

// Common practice, no source: work that nobody has timed, in hours.
constexpr double untimed_prep_h = 15.0 / 60;
constexpr double house_bottle_h = 15.0 / 60;
constexpr double press_setup_h = 5.0 / 60;
constexpr double press_a_fruit_h = 20.0 / 3600;
/// A wait shorter than this is stood by; a longer one leaves the hands free.
constexpr double stood_by_h = 0.5;

/// How a step of a prep's method is waited for, and how long where the line does not say. Common practice, no
/// source, but for cooling: the two hours from 57 to 21 °C of FDA Food Code 3-501.14.
struct Wait {
  double usual_h = 0;
  bool is_exact = false;
};

std::optional<Wait> wait_of(Verb verb) {
  switch (verb) {
    case Verb::rest:
      return Wait{1, false};
    case Verb::freeze:
      return Wait{12, false};
    case Verb::thaw:
      return Wait{4, false};
    case Verb::cool:
      return Wait{2, false};
    case Verb::chill:
      return Wait{1, false};
    case Verb::infuse:
    case Verb::macerate:
      return Wait{12, true};
    case Verb::steep:
      return Wait{10.0 / 60, true};
    case Verb::simmer:
      return Wait{15.0 / 60, true};
    case Verb::heat:
      return Wait{0, true};
    case Verb::ferment:
      return Wait{48, true};
    case Verb::dehydrate:
      return Wait{6, true};
    case Verb::muddle:
    case Verb::dry_shake:
    case Verb::shake:
    case Verb::whip:
    case Verb::stir:
    case Verb::throw_:
    case Verb::roll:
    case Verb::swizzle:
    case Verb::churn:
    case Verb::blend:
    case Verb::build:
    case Verb::strain:
    case Verb::double_strain:
    case Verb::fine_strain:
    case Verb::dump:
    case Verb::rinse:
    case Verb::top:
    case Verb::float_:
    case Verb::layer:
    case Verb::mist:
    case Verb::rim:
    case Verb::flame:
    case Verb::smoke:
    case Verb::carbonate:
    case Verb::add_ice:
    case Verb::garnish:
    case Verb::side:
    case Verb::serve:
    case Verb::do_:
    case Verb::dissolve:
    case Verb::skim:
    case Verb::decant:
    case Verb::press:
    case Verb::clarify:
    case Verb::remove:
    case Verb::reduce:
    case Verb::charge:
    case Verb::bottle:
      break;
  }
  return std::nullopt;
}

double hours(const units::Quantity& time) { return time.number() / 3600; }

/// The prep's method as stages: hands on, then left alone. `stage_of_amount[i]` is where amount `i` is
/// needed.
std::vector<Product::Stage> stages_of(const analysis::Stock& prep, const units::UnitTable& units,
                                      std::vector<std::size_t>& stage_of_amount) {
  std::vector<Product::Stage> stages(1);
  std::vector<double> lines(1, 0);
  double timed_h = 0;
  stage_of_amount.assign(prep.recipe.amounts.size(), 0);
  for (const auto& line : prep.recipe.order) {
    if (line.is_amount) {
      stage_of_amount[line.index] = stages.size() - 1;
      lines.back() += 1;
      continue;
    }
    const auto& step = prep.recipe.steps[line.index];
    auto wait = wait_of(step.verb);
    const auto& time = step.verb == Verb::cool && step.within ? step.within : step.time;
    double h = time ? hours(*time) : wait ? wait->usual_h : 0;
    if (!wait || h < stood_by_h) {
      timed_h += h;
      lines.back() += 1;
      continue;
    }
    std::string words(analysis::info(step.verb).name);
    words += " " + (time ? render::wording::text_of(*time, units) : render::wording::trimmed(h, 1) + " h");
    if (step.temperature)
      words += (step.verb == Verb::cool || step.verb == Verb::chill ? " to " : " at ") +
               render::wording::text_of(*step.temperature, units);
    if (lines.back() == 0 && stages.size() > 1) {
      // Nothing is done between two waits: they are one.
      auto& before = stages[stages.size() - 2];
      before.wait_h += h;
      before.wait_is_exact = before.wait_is_exact && wait->is_exact;
      before.wait_words += ", then " + words;
      continue;
    }
    stages.back().wait_h = h;
    stages.back().wait_is_exact = wait->is_exact;
    stages.back().wait_words = words;
    stages.emplace_back();
    lines.push_back(0);
  }
  if (lines.back() == 0 && stages.size() > 1) {
    stages.pop_back();
    lines.pop_back();
    for (auto& stage : stage_of_amount) stage = std::min(stage, stages.size() - 1);
  }
  double hands_on_h = prep.takes ? hours(*prep.takes) : std::max(untimed_prep_h, timed_h);
  double all = 0;
  for (double n : lines) all += std::max(n, 1.0);
  for (std::size_t i = 0; i < stages.size(); ++i)
    stages[i].hands_on_h = hands_on_h * std::max(lines[i], 1.0) / all;
  return stages;
}

/// How many whole things a line counts: eggs, fruit, and the peel of so many fruit; 0 of what is measured.
double counted_in(const analysis::Amount& amount, const Costing& costing) {
  if (amount.quantity.kind == units::Kind::count) return amount.quantity.number();
  if (amount.quantity.kind != units::Kind::mass) return 0;
  const auto* gives = costing.prices().given_by(amount.use().stock).gives;
  if (!gives || gives->quantity.kind != units::Kind::mass || gives->quantity.number() <= 0) return 0;
  double fruit = amount.quantity.number() / gives->quantity.number();
  return std::abs(fruit - std::round(fruit)) < 1e-6 ? std::round(fruit) : 0;
}

/// A half or a quarter of a recipe is made where all that is counted in it stays whole.
double smallest_part_of(const analysis::Recipe& recipe, const Costing& costing) {
  for (double part : {0.25, 0.5}) {
    bool stays_whole = std::all_of(recipe.amounts.begin(), recipe.amounts.end(), [&](const auto& amount) {
      double counted = counted_in(amount, costing) * part;
      return std::abs(counted - std::round(counted)) < 1e-9;
    });
    if (stays_whole) return part;
  }
  return 1;
}

}  // namespace

double Product::takes_h() const {
  double h = 0;
  for (const auto& stage : stages) h += stage.hands_on_h + stage.wait_h;
  return h;
}

Products::Products(const House& house, const Costing& costing, const PlanOptions& options)
    : house_(house),
      costing_(costing),
      by_stock_(house.specs.stock.size()),
      by_drink_(house.specs.drinks.size()) {
  for (std::size_t i = 0; i < house.specs.drinks.size(); ++i) {
    const auto& drink = house.specs.drinks[i];
    if (drink.batched && drink.status != analysis::Status::retired &&
        (options.drafts || drink.status != analysis::Status::draft))
      add_house_bottle(DrinkId::at(i));
  }
  auto preps = preps_after_parts(house);
  for (auto prep = preps.rbegin(); prep != preps.rend(); ++prep)
    if (house.facts[*prep].yield_g > 0) add_prep(*prep);
  for (std::size_t i = 0; i < house.specs.stock.size(); ++i) add_pressing(StockId::at(i));
  // Added users first: bottles, then preps from the last made to the first, then what is pressed.
  for (std::size_t i = 0; i < products_.size(); ++i) users_first_.push_back(i);
}

Product Products::stock_item(StockId stock, Making making) const {
  const auto& specs = house_.specs[stock];
  const auto& facts = house_.facts[stock];
  Product product;
  product.making = making;
  product.stock = stock;
  product.name = specs.head.name;
  product.station = specs.station;
  if (auto ml = costing_.measuring().millilitres(stock, units::Grams(1));
      ml && costing_.measuring().is_liquid(stock))
    product.ml_per_g = ml->value;
  if (facts.yield_count && *facts.yield_count > 0 && facts.yield_g > 0)
    product.pieces_per_g = *facts.yield_count / facts.yield_g;
  product.keeps_known = facts.keeps_days.has_value();
  product.keeps_by_parts = making == Making::prep && facts.keeps_days && !facts.is_keeping_stated;
  double days = model::days_to_plan_with(facts.keeps_days.value_or(1), !product.keeps_by_parts);
  product.keeps_days = static_cast<int>(std::clamp(std::floor(days + 1e-9), 1.0, 3650.0));
  product.use_by_days = model::days_after_making(days);
  if (days < 1) product.keeps_h = 24 * days;
  return product;
}

void Products::add_prep(StockId prep) {
  const auto& specs = house_.specs[prep];
  const auto& facts = house_.facts[prep];
  Product product = stock_item(prep, Making::prep);
  product.recipe_g = facts.yield_g;
  auto grams = [&](const std::optional<units::Quantity>& quantity) {
    return quantity
               ? model::number_of(costing_.measuring().grams_silently(analysis::Use{prep, {}, {}}, *quantity))
                     .value_or(0)
               : 0;
  };
  if (const auto& largest = specs.largest_batch) {
    // `batch ..4 l`: the upper end.
    units::Quantity maximum = *largest;
    if (std::isfinite(maximum.high)) maximum.value = model::decimal_of(maximum.high);
    product.largest_g = grams(maximum);
  }
  product.par_g = grams(specs.par);
  if (specs.bottle) {
    product.bottle_g = grams(specs.bottle);
    product.bottle_words =
        render::wording::text_of(render::wording::measure_as_given(*specs.bottle, house_.units));
  }
  std::vector<std::size_t> stage_of_amount;
  product.stages = stages_of(specs, house_.units, stage_of_amount);
  for (const auto& entry : facts.entries) {
    if (entry.optional || !entry.mass_g || *entry.mass_g <= 0) continue;
    bool is_amount = entry.role == model::Role::amount && entry.index < stage_of_amount.size();
    product.ingredients.push_back(
        {entry.use, *entry.mass_g / facts.yield_g, is_amount ? stage_of_amount[entry.index] : 0});
  }
  product.smallest_part = smallest_part_of(specs.recipe, costing_);
  by_stock_[prep.index()] = products_.size();
  products_.push_back(std::move(product));
}

void Products::add_house_bottle(DrinkId drink) {
  const auto& specs = house_.specs[drink];
  const auto& facts = house_.facts[drink];
  Product product;
  product.making = Making::house_bottle;
  product.drink = drink;
  product.name = specs.head.name;
  product.station = specs.station;
  const model::HouseBottle bottle = model::house_bottle_of(specs, facts, house_.facts);
  double keeps_days = 3650;
  bool holds_dairy = false;
  for (std::size_t i : bottle.entries) {
    const auto& entry = facts.entries[i];
    product.ingredients.push_back({entry.use, *entry.mass_g, 0});
    const auto& part = house_.specs[entry.use.stock];
    holds_dairy = holds_dairy || batch::is_dairy(part);
    keeps_days = std::min(keeps_days, house_.facts[entry.use.stock].keeps_days.value_or(keeps_days));
  }
  product.serve_g = bottle.masses.total();
  if (product.ingredients.empty() || product.serve_g <= 0) return;
  keeps_days =
      std::min(keeps_days, batch::max_days_of_mix(base::percent_of_share(model::strength(bottle.masses)),
                                                  specs.batched->with_water, holds_dairy));
  product.keeps_days = static_cast<int>(std::max(1.0, std::floor(keeps_days + 1e-9)));
  product.use_by_days = model::days_after_making(keeps_days);
  for (auto& part : product.ingredients) part.grams /= product.serve_g;
  product.ml_per_g = bottle.pour_ml / product.serve_g;
  product.recipe_g = product.serve_g;
  if (specs.batched->bottle && bottle.pour_ml > 0) {
    product.bottle_g = specs.batched->bottle->number() / *product.ml_per_g;
    product.bottle_words =
        render::wording::text_of(render::wording::measure_as_given(*specs.batched->bottle, house_.units));
  }
  product.stages = {{house_bottle_h, 0, false, {}}};
  by_drink_[drink.index()] = products_.size();
  products_.push_back(std::move(product));
}

/// Juice and peel that are bought as fruit: from fruit of the day, for the day.
void Products::add_pressing(StockId stock) {
  const auto& prices = costing_.prices();
  const auto& [fruit, gives] = prices.given_by(stock);
  if (!fruit.valid() || house_.specs[stock].is_prep || !prices.offers(stock).empty()) return;
  auto given = model::number_of(costing_.measuring().grams_silently(gives->what, gives->quantity));
  if (!given || *given <= 0) return;
  Product product = stock_item(stock, Making::pressing);
  product.keeps_days = 1;
  product.use_by_days = 0;
  product.keeps_h.reset();
  product.keeps_known = true;
  product.fruit = fruit;
  product.serve_g = product.recipe_g = *given;
  if (gives->quantity.kind == units::Kind::count) product.pieces_per_g = gives->quantity.number() / *given;
  product.stages = {{press_setup_h, 0, false, {}}};
  product.hands_on_h_per_g = press_a_fruit_h / *given;
  by_stock_[stock.index()] = products_.size();
  products_.push_back(std::move(product));
}

}  // namespace gill::plan
