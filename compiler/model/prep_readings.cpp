#include "model/prep_readings.h"

#include <cmath>

#include "base/percent.h"
#include "model/constants.h"
#include "model/physics/ethanol_water.h"
#include "model/physics/readings.h"
#include "model/physics/sucrose.h"
#include "model/physics/volume.h"

namespace gill::model {

using units::Kind;

namespace {

bool is_by_mass(const units::Quantity& quantity) { return quantity.kind == Kind::mass_fraction; }

/// What a titration gave, g in 100 ml or in 100 g as its line has it.
double acid_reading(const analysis::Stock& prep) {
  double measured = 0;
  for (const auto& line : prep.acids) measured += base::per_100_ml(line.quantity.number());
  return measured;
}

/// Where a hydrometer floats, as a density: its own scale, or the sugar or the strength that one as heavy
/// has.
double density_shown(const units::Quantity& hydrometer) {
  if (hydrometer.kind == Kind::mass_fraction) return sucrose::density_g_per_ml(hydrometer.number());
  if (hydrometer.kind == Kind::strength)
    return ethanol_water::density_g_per_ml(ethanol_water::mass_fraction_from_strength(hydrometer.number()));
  return hydrometer.number() * ethanol_water::water_density_g_per_ml;
}

/// The sugar with which a refractometer would show so much; as it was where no sugar does.
void read_as(DeclaredTerms& terms, double brix) {
  DeclaredTerms tried = terms;
  auto shown = [&](double sugar_fraction) {
    tried[Component::sugar] = Declared::by_mass(sugar_fraction);
    auto solved = solve_composition(tried);
    const auto* composition = std::get_if<Composition>(&solved);
    return composition ? refractometer_brix(composition->per_gram) : std::nullopt;
  };
  constexpr double least_step = 1e-7;
  double low = 0, high = sucrose::highest_mass_fraction;
  if (auto without = shown(0); !without || *without >= brix) {
    if (without) terms[Component::sugar] = Declared::by_mass(0);
    return;
  }
  while (high - low > least_step) {
    double middle = (low + high) / 2;
    auto reading = shown(middle);
    // What does not go into a millilitre is too much.
    (reading && *reading < brix ? low : high) = middle;
  }
  terms[Component::sugar] = Declared::by_mass(low);
}

/// The readings of one prep as they are written, each beside what was worked out.
class ReadingsOf {
 public:
  ReadingsOf(const analysis::Stock& prep, const StockFacts& facts, const Shown& shown)
      : prep_(prep), facts_(facts), shown_(shown), computed_(concentrations(facts.composition.per_gram)) {}

  std::vector<Reading> all() {
    if (prep_.strength)
      add_content(Reading::Of::strength, *prep_.strength, base::percent_of_share(prep_.strength->number()),
                  base::percent_of_share(computed_.strength), facts_.strength_tolerance, "% abv",
                  shown_.hydrometer_abv_percent);
    if (prep_.sugar) add_sugar(*prep_.sugar);
    if (!prep_.acids.empty()) add_acid(prep_.acids.front().quantity);
    if (prep_.density)
      add(Reading::Of::density, *prep_.density, prep_.density->number(), computed_.density_g_per_ml,
          shown_.density_tolerance_g_per_ml, jug_error_share * prep_.density->number(), "g/ml");
    if (prep_.refractometer && shown_.refractometer_brix)
      add(Reading::Of::refractometer, *prep_.refractometer,
          base::percent_of_share(prep_.refractometer->number()), *shown_.refractometer_brix,
          shown_.refractometer_tolerance_brix, refractometer_error_brix, "brix");
    if (prep_.hydrometer) add_hydrometer(*prep_.hydrometer);
    return std::move(readings_);
  }

 private:
  void add(Reading::Of of, const units::Quantity& written, double measured, double value, double tolerance,
           double instrument_error, std::string_view unit,
           std::optional<double> instrument_shows = std::nullopt) {
    readings_.push_back(
        {of, written.span, measured, value, tolerance,
         written.tolerance ? std::optional(written.relative_tolerance() * std::abs(measured)) : std::nullopt,
         instrument_error, unit, instrument_shows});
  }

  void add_content(Reading::Of of, const units::Quantity& written, double measured, double value,
                   double share, std::string_view unit, std::optional<double> instrument_shows) {
    add(of, written, measured, value, share * std::abs(value), reading_error_share * std::abs(measured), unit,
        instrument_shows);
  }

  void add_sugar(const units::Quantity& sugar) {
    const bool by_mass = is_by_mass(sugar);
    add_content(Reading::Of::sugar, sugar, base::per_100_ml(sugar.number()),
                by_mass ? computed_.brix : computed_.sugar_g_per_100_ml, facts_.sugar_tolerance,
                by_mass ? "% w/w" : "% w/v", by_mass ? shown_.refractometer_brix : std::nullopt);
  }

  void add_acid(const units::Quantity& first) {
    const bool by_mass = is_by_mass(first);
    add_content(
        Reading::Of::acid, first, acid_reading(prep_),
        by_mass ? computed_.acid_g_per_100_ml / computed_.density_g_per_ml : computed_.acid_g_per_100_ml,
        facts_.acid_tolerance, by_mass ? "% w/w" : "% w/v", std::nullopt);
  }

  void add_hydrometer(const units::Quantity& hydrometer) {
    const double water = ethanol_water::water_density_g_per_ml;
    add(Reading::Of::hydrometer, hydrometer, density_shown(hydrometer) / water,
        computed_.density_g_per_ml / water, shown_.density_tolerance_g_per_ml / water,
        hydrometer_error_g_per_ml / water, "");
    // Its tolerance is on the scale on which it was read.
    if (hydrometer.kind != Kind::count) readings_.back().measured_tolerance.reset();
  }

  const analysis::Stock& prep_;
  const StockFacts& facts_;
  const Shown& shown_;
  const Concentrations computed_;
  std::vector<Reading> readings_;
};

}  // namespace

std::string_view name_of(Reading::Of of) {
  static constexpr std::string_view names[] = {"strength", "sugar",         "acid",
                                               "density",  "refractometer", "hydrometer"};
  static_assert(std::size(names) == static_cast<std::size_t>(Reading::Of::hydrometer) + 1);
  return names[static_cast<std::size_t>(of)];
}

bool is_measured(const analysis::Stock& prep) {
  return prep.strength || prep.sugar || !prep.acids.empty() || prep.density || prep.refractometer ||
         prep.hydrometer;
}

DeclaredTerms measured_terms(const analysis::Stock& prep, const Composition& made) {
  Concentrations computed = concentrations(made.per_gram);
  DeclaredTerms terms;
  double liquid = made.per_gram.liquid();
  for (Component component : components) {
    if (component == Component::water || component == Component::ethanol ||
        component == Component::carbon_dioxide || component == Component::solids)
      continue;
    if (made.per_gram[component] > 0)
      terms[component] = Declared::per_100_ml(
          base::per_100_ml(made.per_gram[component] / liquid * computed.density_g_per_ml));
  }
  terms.strength = prep.strength ? prep.strength->number() : computed.strength;
  if (prep.sugar)
    terms[Component::sugar] = prep.sugar->kind == Kind::mass_fraction
                                  ? Declared::by_mass(prep.sugar->number())
                                  : Declared::per_100_ml(base::per_100_ml(prep.sugar->number()));
  if (!prep.acids.empty()) {
    // A titration gives citric equivalents: the acids that are there keep their proportions.
    double reading = acid_reading(prep);
    double per_100_ml =
        is_by_mass(prep.acids.front().quantity) ? reading * computed.density_g_per_ml : reading;
    double scale = computed.acid_g_per_100_ml > 0 ? per_100_ml / computed.acid_g_per_100_ml : 0;
    for (Component acid : acids) terms[acid] *= scale;
    if (scale == 0) terms[Component::citric] = Declared::per_100_ml(per_100_ml);
  }
  if (prep.density) terms.density_g_per_ml = prep.density->number();
  if (prep.hydrometer) terms.density_g_per_ml = density_shown(*prep.hydrometer);
  if (prep.refractometer) read_as(terms, base::percent_of_share(prep.refractometer->number()));
  return terms;
}

std::vector<Reading> readings_of(const analysis::Stock& prep, const StockFacts& facts, const Shown& shown) {
  return ReadingsOf(prep, facts, shown).all();
}

void add_measured_moves(const analysis::Stock& prep, analysis::StockId id, const Composition& made,
                        StockMoves& moves) {
  auto solved = [](const DeclaredTerms& terms, const Composition& otherwise) {
    auto composition = solve_composition(terms);
    const auto* found = std::get_if<Composition>(&composition);
    return found ? *found : otherwise;
  };
  for (auto& move : moves) {
    move.up = solved(measured_terms(prep, move.up), move.up);
    move.down = solved(measured_terms(prep, move.down), move.down);
  }
  const DeclaredTerms terms = measured_terms(prep, made);
  auto add = [&](Cause::Kind kind, double width) {
    if (width <= 0) return;
    auto moved = [&](double sign) {
      DeclaredTerms changed = terms;
      move_declared(changed, kind, sign * width);
      return solved(changed, made);
    };
    moves.push_back({{kind, id, {}}, width, moved(1), moved(-1)});
  };
  if (prep.strength) add(Cause::Kind::strength, prep.strength->tolerance.value_or(0));
  if (prep.sugar) add(Cause::Kind::sugar, prep.sugar->relative_tolerance());
  if (prep.refractometer) add(Cause::Kind::sugar, prep.refractometer->relative_tolerance());
  if (!prep.acids.empty()) add(Cause::Kind::acid, prep.acids.front().quantity.relative_tolerance());
}

}  // namespace gill::model
