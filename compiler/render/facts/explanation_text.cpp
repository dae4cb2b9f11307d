#include "render/facts/explanation_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/percent.h"
#include "model/physics/acid.h"
#include "model/physics/volume.h"

namespace gill::render {
namespace {

using model::Component;

std::string figures_line(std::string_view name, const model::Figures& figures) {
  std::string ratio = figures.sugar_acid_ratio()
                          ? fmt::format(", sugar : acid {:.2f}", *figures.sugar_acid_ratio())
                          : std::string();
  return fmt::format(
      "  {:<10} {:.2f} ml, {:.2f} g, {:.2f} % abv, sugar {:.3f} g/100 ml, acid {:.4f} g/100 ml{}, {:.4f} "
      "g/ml, {:.1f} C\n",
      name, figures.volume_ml, figures.mass_g, figures.abv_percent, figures.sugar_g_per_100ml,
      figures.acid_g_per_100ml, ratio, figures.density_g_per_ml, figures.temperature_c);
}

/// The masses that are there, largest first: `water 52.10 g, ethanol 18.94 g`.
std::string masses_line(const model::Masses& masses) {
  std::vector<std::pair<double, Component>> parts;
  for (Component component : model::components)
    if (std::abs(masses[component]) >= 0.0005) parts.emplace_back(-masses[component], component);
  std::sort(parts.begin(), parts.end());
  std::string text;
  for (auto [grams, component] : parts)
    text += fmt::format("{}{} {:.3f} g", text.empty() ? "" : ", ", model::component_name(component), -grams);
  return text.empty() ? "nothing" : text;
}

class ExplanationWriter {
 public:
  explicit ExplanationWriter(const FactsInput& input) : input_(input) {}

  void stock(const model::StockFacts& facts) {
    const auto& declared = input_.specs[facts.stock];
    title(declared.head.name, declared.is_prep ? "prep" : "ingredient");
    if (!declared.is_prep) {
      ingredient_line(facts.stock);
      out_ += "  In one gram: " + masses_line(facts.composition.per_gram) + ".\n";
      return;
    }
    parts(facts.entries);
    steps(declared.recipe, facts.trace);
    heading("What it comes to");
    out_ += fmt::format(
        "  {}{:.2f} ml, {:.2f} g; {:.2f} % abv, sugar {:.3f} g/100 ml ({:.2f} brix), acid {:.4f} g/100 ml, "
        "{:.5f} g/ml.\n",
        facts.yield_measured ? "Measured yield: " : "Worked out: ", facts.yield_ml, facts.yield_g,
        facts.abv_percent, facts.sugar_g_per_100ml, facts.brix, facts.acid_g_per_100ml,
        facts.density_g_per_ml);
    out_ += fmt::format("  Loss {:.1f} % of what would be in the vessel, removed things aside.\n",
                        facts.loss_percent);
    if (facts.computed_abv_percent)
      out_ += fmt::format("  A measured strength replaces the computed {:.2f} % abv.\n",
                          *facts.computed_abv_percent);
    if (facts.computed_sugar_g_per_100ml)
      out_ += fmt::format("  A measured sugar replaces the computed {:.2f} g/100 ml.\n",
                          *facts.computed_sugar_g_per_100ml);
    if (facts.computed_acid_g_per_100ml)
      out_ += fmt::format("  A measured acid replaces the computed {:.3f} g/100 ml.\n",
                          *facts.computed_acid_g_per_100ml);
    methods();
  }

  void drink(const model::DrinkFacts& facts) {
    const auto& declared = input_.specs[facts.drink];
    title(declared.head.name,
          facts.serves > 1
              ? fmt::format("drink for {:g}; amounts and figures are those of one serve", facts.serves)
              : "drink");
    parts(facts.entries);
    steps(declared.recipe, facts.trace);
    heading("What it comes to");
    out_ += figures_line("mixed", facts.mixed) + figures_line("served", facts.served);
    for (const auto& later : facts.served_later)
      out_ += figures_line(fmt::format("{:g} min on", later.minutes), later.figures);
    if (!facts.served_later.empty())
      out_ += "  Later on its ice: untouched, an estimate from the energy balance.\n";
    out_ += fmt::format("  Dilution: water from the ice over the mixed volume, {:.1f} %.\n",
                        facts.dilution_percent);
    out_ += fmt::format("  Ethanol {:.2f} g; energy {:.0f} kcal, {:.0f} kJ.\n", facts.ethanol_g,
                        facts.energy_kcal, facts.energy_kj);
    for (const auto& [country, units] : facts.alcohol_units)
      out_ += fmt::format("  Alcohol units ({}): {:.2f}.\n", country, units);
    if (facts.glass_fill_percent)
      out_ += fmt::format(
          "  In the glass: {:.1f} ml of liquid, {:.1f} ml of ice below the surface, {:.1f} ml of foam; "
          "{:.0f} % of the brim.\n",
          facts.in_glass.liquid_ml, facts.in_glass.ice_below_ml, facts.in_glass.foam_ml,
          *facts.glass_fill_percent);
    uncertainty(facts);
    methods();
  }

  std::string take() { return std::move(out_); }

 private:
  void title(const std::string& name, const std::string& what) {
    out_ += fmt::format("{} ({})\n", name, what);
  }
  void heading(std::string_view text) { out_ += fmt::format("\n{}\n", text); }

  void ingredient_line(analysis::StockId id) {
    const auto& stock = input_.specs[id];
    const auto& facts = input_.facts[id];
    out_ += fmt::format(
        "  {}: {:.2f} % abv, sugar {:.3f}, acid {:.4f} g/100 ml (citric equivalents), {:.5f} g/ml",
        stock.head.name, facts.abv_percent, facts.sugar_g_per_100ml, facts.acid_g_per_100ml,
        facts.density_g_per_ml);
    out_ += facts.composition.density_declared ? " (density declared)\n" : " (density worked out)\n";
    if (stock.is_prep)
      out_ += fmt::format("    from its own spec; see `gill facts --work --only \"{}\"`\n", stock.head.name);
    else
      out_ += fmt::format("    source: {}\n", stock.head.source.empty() ? std::string("the house's own lines")
                                                                        : stock.head.source);
  }

  void parts(const std::vector<model::Entry>& entries) {
    heading("What goes in");
    for (const auto& entry : entries) {
      std::string written =
          entry.role == model::Role::amount ? entry.as_written + " " + entry.name : entry.as_written;
      out_ += fmt::format("  {}", written);
      if (entry.volume_ml) out_ += fmt::format(" = {:.3f} ml", *entry.volume_ml);
      if (entry.mass_g) out_ += fmt::format(" = {:.3f} g", *entry.mass_g);
      if (entry.solved) out_ += " (worked out)";
      if (entry.optional) out_ += " (optional: in no figure)";
      out_ += '\n';
    }
    heading("What those are");
    std::vector<analysis::StockId> reported;
    for (const auto& entry : entries) {
      if (std::find(reported.begin(), reported.end(), entry.use.stock) != reported.end()) continue;
      reported.push_back(entry.use.stock);
      ingredient_line(entry.use.stock);
    }
  }

  void steps(const analysis::Recipe& recipe, const std::vector<model::TraceStep>& trace) {
    heading("Step by step");
    int n = 1;
    for (const auto& step : trace) {
      std::string what =
          step.is_amount ? "add " + recipe.amounts[step.index].as_written + " " +
                               analysis::name_of(recipe.amounts[step.index].use(), input_.specs, input_.units)
                         : recipe.steps[step.index].as_written;
      out_ += fmt::format("  {}. {}\n     vessel: {}; {:.2f} ml, {:.1f} C\n", n++, what,
                          masses_line(step.after.masses), model::volume_ml(step.after.masses),
                          step.after.temperature_c);
      for (const auto& reckoning : step.work) out_ += fmt::format("     {}\n", model::explain(reckoning));
    }
  }

  /// What is less than that no figure shows: it is told as nothing.
  static constexpr double least_width = 0.0005;

  static std::string width_words(double width) {
    return width < least_width ? "0" : wording::trimmed(wording::to_two_figures(width), 4);
  }

  /// One figure's doubt, and what makes it: of what is written, and of hands.
  void doubt(std::string_view property, double model::Tolerance::*effect, std::string_view unit,
             const model::DrinkFacts& facts) {
    double total = facts.tolerance.*effect, written = facts.written_tolerance.*effect;
    if (total <= 0) return;
    double hands = std::sqrt(std::max(0.0, total * total - written * written));
    out_ += fmt::format("  {} ± {} {}: {}; {}\n", property, width_words(total), unit,
                        part("what is written", written, effect, false, facts),
                        part("hands", hands, effect, true, facts));
  }

  /// `hands ± 0.85, most of it the dilution (± 15 %)`.
  std::string part(std::string_view what, double width, double model::Tolerance::*effect, bool is_of_hands,
                   const model::DrinkFacts& facts) const {
    const model::Influence* largest = nullptr;
    for (const auto& influence : facts.influences) {
      if (model::is_of_hands(influence.cause.kind) != is_of_hands) continue;
      if (!largest || std::abs(influence.effect.*effect) > std::abs(largest->effect.*effect))
        largest = &influence;
    }
    std::string text = fmt::format("{} ± {}", what, width_words(width));
    if (!largest || width < least_width) return text;
    double share = std::pow(largest->effect.*effect / width, 2);
    return text + fmt::format(", {} of it {} ({})",
                              share > 0.9   ? "nearly all"
                              : share > 0.5 ? "most"
                                            : "the largest part",
                              model::words_of(largest->cause, input_.specs),
                              model::width_text(largest->cause, largest->width));
  }

  void uncertainty(const model::DrinkFacts& facts) {
    if (facts.influences.empty()) return;
    heading("How sure that is");
    doubt("strength", &model::Tolerance::abv_percent, "% abv", facts);
    doubt("sugar", &model::Tolerance::sugar_g_per_100ml, "g/100 ml", facts);
    doubt("acid", &model::Tolerance::acid_g_per_100ml, "g/100 ml", facts);
    doubt("volume", &model::Tolerance::volume_ml, "ml", facts);
    out_ +=
        "  Each cause is moved alone, up and down, through the whole simulation, and everything that it "
        "reaches with it; the\n"
        "  effects add as squares. Findings and `expect` reckon with what is written alone.\n";
  }

  void methods() {
    heading("By these methods");
    out_ +=
        "  Volume and strength of ethanol and water: OIML R 22. Sugar: the ICUMSA sucrose density. Other "
        "solutes: partial\n"
        "  volumes from the CRC Handbook of Chemistry and Physics. Acid: titratable protons, as citric acid. "
        "Freezing points: the\n"
        "  CRC Handbook. Dilution: the fits of Liquid Intelligence (W. W. Norton, 2014; from memory), "
        "corrected by the energy\n"
        "  balance with the ice. Energy: Regulation (EU) No 1169/2011, Annex XIV.\n"
        "  These are estimates from the spec, not a lab result.\n";
  }

  const FactsInput& input_;
  std::string out_;
};

}  // namespace

std::string explanation_text(const FactsInput& input) {
  ExplanationWriter writer(input);
  if (auto id = input.names.find(symbols::NameSpace::drink, input.only); id.valid())
    writer.drink(input.facts.drinks[input.specs.index_of[id.index()]]);
  if (auto id = input.names.find(symbols::NameSpace::stock, input.only); id.valid())
    writer.stock(input.facts.stock[input.specs.index_of[id.index()]]);
  return writer.take();
}

}  // namespace gill::render
