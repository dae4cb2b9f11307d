#include "batch/batch.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "analysis/groups.h"
#include "base/percent.h"
#include "base/text.h"
#include "model/allergens.h"
#include "model/constants.h"
#include "model/entries.h"
#include "model/physics/acid.h"
#include "model/physics/ethanol_water.h"
#include "model/physics/freezing.h"
#include "model/physics/volume.h"
#include "model/raw_egg.h"
#include "model/serving_ice.h"
#include "render/wording/measures.h"
#include "render/wording/numbers.h"

namespace gill::batch {

using analysis::StockKind;
using analysis::Verb;
using model::Component;
using model::Entry;
using model::Masses;
using model::Role;
using render::wording::trimmed;

namespace {

constexpr double strong_from_percent = 25, wine_strong_from_percent = 15;
constexpr double strong_days = 60, wine_strong_days = 14, weak_days = 3, dairy_days = 2, diluted_days = 14;
// A juice that keeps no longer than this is a fresh one. Common practice, no source.
constexpr double fresh_juice_days = 3;
// Bitters grow stronger than the sum in a large mix, people find. Common practice, no source.
constexpr double bitters_taste_from_serves = 20;
constexpr double weighed_out_ml = 1e-6;
constexpr std::string_view fizzy_note =
    "It is fizzy: what is bottled from the keg goes flat unless it is filled under pressure, cold, by the "
    "maker's "
    "instructions.";
constexpr std::string_view at_service_hot = "it is hot: add it at service, as hot as the spec says";

/// True where the line that puts it in says a weight.
bool is_weighed(const analysis::Recipe& recipe, const Entry& entry) {
  return entry.role == Role::amount && recipe.amounts[entry.index].quantity.kind == units::Kind::mass;
}

class DrinkBatch {
 public:
  DrinkBatch(const House& house, DrinkId id, const BatchRequest& request)
      : house_(house), drink_(house.specs[id]), facts_(house.facts[id]), request_(request) {
    // The house bottle is what the drink's own line says it is.
    request_.diluted = request_.diluted || (drink_.batched && drink_.batched->with_water);
  }

  std::variant<Batch, std::string> make() {
    batch_.name = drink_.head.name;
    finished_ = finished_prep();
    for (const auto& entry : facts_.entries) {
      std::string why = reason_to_leave_out(entry);
      if (why.empty())
        take(entry);
      else
        leave_out(entry, std::move(why));
    }
    for (const auto& line : drink_.recipe.order) {
      if (line.is_amount || !drink_.recipe.steps[line.index].unknown_garnish) continue;
      batch_.left_out.push_back({{{}, drink_.recipe.steps[line.index].words, {}, {}, {}, false},
                                 "it is garnish: put it on at service"});
    }
    if (batch_.ingredients.empty())
      return fmt::format("nothing of `{}` can be put together ahead: {}.", batch_.name,
                         batch_.left_out.empty()
                             ? "it holds nothing"
                             : batch_.left_out.front().what.name + ": " + batch_.left_out.front().why);
    double melt_ml = facts_.bottle_water_ml;
    if (request_.diluted) add_water(melt_ml);
    batch_.melt_ml = melt_ml;
    batch_.served_abv_percent = facts_.served.abv_percent;
    batch_.serves_at_once = drink_.serves;
    scale();
    finish();
    return std::move(batch_);
  }

 private:
  /// The prep that is the whole drink but for what lies on it, from a keg or a bottle; else invalid.
  StockId finished_prep() const {
    StockId prep;
    for (const auto& entry : facts_.entries) {
      if (entry.optional || model::is_laid_on(entry.role)) continue;
      if (prep.valid() || !house_.specs[entry.use.stock].is_prep) return {};
      prep = entry.use.stock;
    }
    return prep;
  }

  /// Empty for what belongs in the batch.
  std::string reason_to_leave_out(const Entry& entry) const {
    const auto& stock = house_.specs[entry.use.stock];
    const auto& facts = house_.facts[entry.use.stock];
    switch (entry.role) {
      case Role::garnish:
        return "it is garnish: put it on at service";
      case Role::side:
        return "it is served beside the drink";
      case Role::rim:
        return "it is on the rim: rim the glass at service";
      case Role::float_:
        return "it is floated: it holds only where it is poured last";
      case Role::mist:
        return "it is misted over the glass";
      case Role::rinse:
        return "it rinses the glass";
      case Role::top:
        if (model::makes_hot(drink_.recipe.steps[entry.index])) return std::string(at_service_hot);
        if (entry.solved) return "it tops the glass up to its line, which depends on the ice";
        break;
      case Role::amount:
        break;
    }
    if (entry.optional) return "it is optional: add it when it is asked for";
    if (entry.use.stock == finished_ && entry.mass_g) return {};
    if (entry.role == Role::amount && model::makes_hot(drink_.recipe.amounts[entry.index]))
      return std::string(at_service_hot);
    if (facts.fizz_vol > 0) return "it would lose its fizz: add it at service";
    if (stock.kind == StockKind::egg && !stock.is_prep)
      return "egg does not keep in a mix: crack or pour it at service";
    if (stock.is_prep && model::brings_raw_egg(house_.specs, house_.facts, entry.use.stock))
      return "raw egg is in it, which does not keep in a mix: pour it at service";
    if (!drink_.batched && goes_on_after_strain(entry))
      return "it goes on after the strain: add it at service";
    if (std::string why = juice_reason(stock, facts); !why.empty()) return why;
    if (analysis::is_plant(stock.kind) && !house_measures_as_liquid(entry))
      return "it is worked fresh in the drink: muddle or press it at service";
    if (const auto& batched = drink_.batched;
        batched && std::find(batched->uses.begin(), batched->uses.end(), entry.use) == batched->uses.end())
      return "the drink's `batched` line does not name it";
    if (!entry.mass_g) return "nobody knows what it weighs";
    return {};
  }

  /// What is put in once the drink is in its glass: a foam, a splash on top.
  bool goes_on_after_strain(const Entry& entry) const {
    if (entry.role != Role::amount) return false;
    bool is_strained = false;
    for (const auto& line : drink_.recipe.order) {
      if (line.is_amount && line.index == entry.index) return is_strained;
      if (line.is_amount) continue;
      const auto& step = drink_.recipe.steps[line.index];
      is_strained = is_strained || (analysis::strains(step.verb) && !step.to_tin);
    }
    return false;
  }

  std::string juice_reason(const analysis::Stock& stock, const model::StockFacts& facts) const {
    if (stock.kind != StockKind::juice || stock.is_prep || !stock.treated.empty()) return {};
    double keeps_h = 24 * facts.keeps_days.value_or(1);
    if (keeps_h > 24 * fresh_juice_days || (request_.within_h && keeps_h >= *request_.within_h)) return {};
    return fmt::format("fresh juice is past its best within {} h: add it at service{}", trimmed(keeps_h, 0),
                       request_.within_h ? "" : ", or say with `--within` that the batch is used up by then");
  }

  bool house_measures_as_liquid(const Entry& entry) const {
    return house_.specs[entry.use.stock].effective_form() == analysis::Form::liquid;
  }

  void take(const Entry& entry) {
    serve_ += house_.facts[entry.use.stock].composition.per_gram * *entry.mass_g;
    model::add_allergens(batch_.allergens, house_.facts[entry.use.stock].allergens, false);
    for (auto& taken : batch_.ingredients) {
      if (!(taken.use == entry.use)) continue;
      auto add = [](std::optional<double>& to, const std::optional<double>& more) {
        to = to && more ? std::optional(*to + *more) : std::nullopt;
      };
      add(taken.volume_ml, entry.volume_ml);
      add(taken.mass_g, entry.mass_g);
      add(taken.count, entry.count);
      return;
    }
    batch_.ingredients.push_back({entry.use, entry.name, entry.volume_ml, entry.mass_g, entry.count,
                                  is_weighed(drink_.recipe, entry)});
  }

  void leave_out(const Entry& entry, std::string why) {
    batch_.left_out.push_back({{entry.use, entry.name, entry.volume_ml, entry.mass_g, entry.count,
                                is_weighed(drink_.recipe, entry)},
                               std::move(why),
                               loose_measure(entry)});
  }

  /// Dashes and drops, as the spec says them; empty for measures that a jigger pours.
  std::string loose_measure(const Entry& entry) const {
    const std::optional<units::Quantity> amount = entry.role == Role::amount
                                                      ? drink_.recipe.amounts[entry.index].quantity
                                                      : drink_.recipe.steps[entry.index].amount;
    if (!amount || !amount->unit.valid() || !house_.units[amount->unit].tolerance) return {};
    return render::wording::text_of(render::wording::measure_as_given(*amount, house_.units));
  }

  void add_water(double ml) {
    serve_[Component::water] += ml * model::ethanol_water::water_density_g_per_ml;
    batch_.water_ml = ml;
  }

  /// From one serve to what is asked for.
  void scale() {
    batch_.ml_a_serve = model::volume_ml(serve_);
    double bottle = request_.bottle_ml.value_or(0);
    double serves = request_.serves      ? *request_.serves
                    : request_.volume_ml ? *request_.volume_ml / batch_.ml_a_serve
                                         : bottle / batch_.ml_a_serve;
    batch_.serves = serves;
    batch_.masses = serve_ * serves;
    batch_.water_ml *= serves;
    batch_.melt_ml *= serves;
    for (auto& taken : batch_.ingredients)
      for (auto* measure : {&taken.volume_ml, &taken.mass_g, &taken.count})
        if (*measure) **measure *= serves;
  }

  void finish() {
    model::order_allergens(batch_.allergens, house_.specs.house.allergen_list);
    auto in = model::concentrations(batch_.masses);
    batch_.volume_ml = in.volume_ml;
    batch_.mass_g = batch_.masses.total();
    batch_.abv_percent = base::percent_of_share(in.strength);
    batch_.sugar_g_per_100ml = in.sugar_g_per_100_ml;
    batch_.acid_g_per_100ml = in.acid_g_per_100_ml;
    batch_.freezes_at_c = model::freezing_point_c(batch_.masses);
    std::optional<double> bottle = request_.bottle_ml;
    if (!bottle && drink_.batched && drink_.batched->bottle) bottle = drink_.batched->bottle->number();
    if (!bottle && finished_.valid())
      if (const auto& own = house_.specs[finished_].bottle; own && own->kind == units::Kind::volume)
        bottle = own->number();
    set_bottles(batch_, bottle);
    set_keeping();
    add_notes();
  }

  void set_keeping() {
    if (finished_.valid()) {
      // Nothing is mixed: it keeps as the prep does.
      const auto& prep = house_.facts[finished_];
      batch_.keeps_days = prep.keeps_days;
      batch_.storage = prep.storage;
      batch_.is_keeping_stated = prep.is_keeping_stated;
      if (prep.fizz_vol > 0) batch_.notes.emplace_back(fizzy_note);
      return;
    }
    bool holds_dairy =
        std::any_of(batch_.ingredients.begin(), batch_.ingredients.end(),
                    [&](const BatchIngredient& taken) { return is_dairy(house_.specs[taken.use.stock]); });
    double days = max_days_of_mix(batch_.abv_percent, request_.diluted, holds_dairy);
    std::vector<std::string> unknown;
    for (const auto& taken : batch_.ingredients) {
      const auto& facts = house_.facts[taken.use.stock];
      const auto& stock = house_.specs[taken.use.stock];
      if (facts.keeps_days)
        days = std::min(days, *facts.keeps_days);
      else if (stock.kind != StockKind::water)
        unknown.push_back("`" + taken.name + "`");
    }
    batch_.keeps_days = days;
    batch_.storage = analysis::Storage::chilled;
    if (!unknown.empty())
      batch_.notes.push_back(fmt::format("How long {} keeps is not stated: reckon with less if it is less.",
                                         base::join_with_and(unknown)));
  }

  void add_notes() {
    double melt = batch_.melt_ml;
    bool blended = analysis::has_step(drink_.recipe, {Verb::blend});
    if (blended)
      batch_.notes.push_back(
          "The drink is blended with its ice at service: that ice is not water to put in.");
    if (analysis::has_step(drink_.recipe, {Verb::heat, Verb::simmer}))
      batch_.notes.push_back("The drink is heated: heat each serve as the spec says before it is served.");
    if (!request_.diluted && melt > weighed_out_ml)
      batch_.notes.push_back(
          fmt::format("Without water in it: shake, stir or throw it on ice at service as written, which adds "
                      "about {} ml a serve. `--diluted` puts that in up front.",
                      trimmed(melt / *batch_.serves, 1)));
    if (request_.diluted && melt > weighed_out_ml)
      batch_.notes.push_back("The water is in it: pour it cold, and do not shake or stir it on ice again.");
    if (request_.diluted && melt <= weighed_out_ml)
      batch_.notes.push_back("The method melts no ice before the glass, so no water is put in.");
    bool liquid_left_out = std::any_of(batch_.left_out.begin(), batch_.left_out.end(),
                                       [](const LeftOut& out) { return out.what.volume_ml.value_or(0) > 2; });
    if (request_.diluted && melt > weighed_out_ml && liquid_left_out)
      batch_.notes.push_back(
          "The water is that of the whole drink. What is added at service must be cold too; where it has to "
          "be shaken with ice after all (an egg, for its foam), batch without `--diluted`.");
    for (const auto& taken : batch_.ingredients)
      if (house_.specs[taken.use.stock].kind == StockKind::bitters &&
          *batch_.serves >= bitters_taste_from_serves) {
        batch_.notes.push_back(
            "Put three quarters of the bitters in, taste, then the rest: in a large mix they come forward. "
            "Common practice.");
        break;
      }
  }

  static void set_bottles(Batch& batch, const std::optional<double>& size) {
    if (size && *size > 0) batch.bottles.push_back(model::split_into_bottles(batch.volume_ml, *size));
  }

  friend class PrepBatch;
  const House& house_;
  const analysis::Drink& drink_;
  const model::DrinkFacts& facts_;
  BatchRequest request_;
  StockId finished_;
  Batch batch_;
  /// What is in the batch of one serve.
  Masses serve_;
};

class PrepBatch {
 public:
  PrepBatch(const House& house, StockId id, const BatchRequest& request)
      : prep_(house.specs[id]), facts_(house.facts[id]), request_(request) {}

  std::variant<Batch, std::string> make() {
    batch_.name = prep_.head.name;
    batch_.is_prep = true;
    if (facts_.yield_g <= 0) return fmt::format("what `{}` makes is not known.", batch_.name);
    if (request_.serves && !facts_.yield_count)
      return fmt::format(
          "`{}` is a prep that makes no count of pieces, so it has no serves; ask with `--volume` or "
          "`--bottle`.",
          batch_.name);
    if (!request_.serves && facts_.yield_ml <= 0)
      return fmt::format("the volume of `{}` is not known; ask with `--serves`.", batch_.name);
    double times = request_.serves
                       ? *request_.serves / *facts_.yield_count
                       : request_.volume_ml.value_or(request_.bottle_ml.value_or(0)) / facts_.yield_ml;
    for (const auto& entry : facts_.entries) {
      auto scaled = [&](const std::optional<double>& measure) {
        return measure ? std::optional(*measure * times) : std::nullopt;
      };
      BatchIngredient what{entry.use,
                           entry.name,
                           scaled(entry.volume_ml),
                           scaled(entry.mass_g),
                           scaled(entry.count),
                           is_weighed(prep_.recipe, entry)};
      if (entry.optional)
        batch_.left_out.push_back({std::move(what), "it is optional"});
      else
        batch_.ingredients.push_back(std::move(what));
    }
    batch_.serves = request_.serves;
    batch_.masses = facts_.composition.per_gram * (facts_.yield_g * times);
    batch_.volume_ml = facts_.yield_ml * times;
    batch_.mass_g = facts_.yield_g * times;
    batch_.abv_percent = facts_.abv_percent;
    batch_.sugar_g_per_100ml = facts_.sugar_g_per_100ml;
    batch_.acid_g_per_100ml = facts_.acid_g_per_100ml;
    batch_.freezes_at_c = model::freezing_point_c(batch_.masses);
    batch_.keeps_days = facts_.keeps_days;
    batch_.storage = facts_.storage;
    batch_.is_keeping_stated = facts_.is_keeping_stated;
    batch_.allergens = facts_.allergens;
    std::optional<double> bottle = request_.bottle_ml;
    if (!bottle && prep_.bottle && prep_.bottle->kind == units::Kind::volume) bottle = prep_.bottle->number();
    DrinkBatch::set_bottles(batch_, bottle);
    add_notes();
    return std::move(batch_);
  }

 private:
  void add_notes() {
    if (const auto& largest = prep_.largest_batch) {
      double maximum = std::isfinite(largest->high) ? largest->high : largest->number();
      double made = largest->kind == units::Kind::mass ? batch_.mass_g : batch_.volume_ml;
      if (maximum > 0 && made > maximum * (1 + 1e-9)) {
        batch_.goes = static_cast<int>(std::min(std::ceil(made / maximum - 1e-9), 1e9));
        batch_.notes.push_back(fmt::format("The kitchen makes at most {} {} at once: make it in {} goes.",
                                           trimmed(maximum, 1),
                                           largest->kind == units::Kind::mass ? "g" : "ml", batch_.goes));
      }
    }
    if (request_.diluted)
      batch_.notes.push_back("A prep is made as it is written: `--diluted` puts no water in.");
    batch_.notes.push_back(
        facts_.yield_measured
            ? "The yield is the measured one, scaled: a larger pot and a larger strainer lose less, a longer "
              "rest more. Measure it again."
            : "The yield is worked out, not measured: measure it, and write `makes` in the prep.");
    if (facts_.fizz_vol > 0) batch_.notes.emplace_back(fizzy_note);
    if (!batch_.keeps_days) batch_.notes.push_back("How long it keeps is not stated.");
  }

  const analysis::Stock& prep_;
  const model::StockFacts& facts_;
  const BatchRequest& request_;
  Batch batch_;
};

}  // namespace

std::vector<StockId> Batch::held() const {
  std::vector<StockId> stock;
  for (const auto& part : ingredients)
    if (std::find(stock.begin(), stock.end(), part.use.stock) == stock.end()) stock.push_back(part.use.stock);
  return stock;
}

bool is_dairy(const analysis::Stock& stock) { return stock.kind == StockKind::dairy && !stock.is_prep; }

double max_days_of_mix(double abv_percent, bool is_diluted, bool holds_dairy) {
  double days = abv_percent >= strong_from_percent        ? strong_days
                : abv_percent >= wine_strong_from_percent ? wine_strong_days
                                                          : weak_days;
  if (is_diluted) days = std::min(days, diluted_days);
  return holds_dairy ? std::min(days, dairy_days) : days;
}

std::variant<Batch, std::string> make_batch(const House& house, DrinkId drink, const BatchRequest& request) {
  return DrinkBatch(house, drink, request).make();
}

std::variant<Batch, std::string> make_batch(const House& house, StockId prep, const BatchRequest& request) {
  return PrepBatch(house, prep, request).make();
}

}  // namespace gill::batch
