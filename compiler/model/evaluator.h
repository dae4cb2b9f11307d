#pragma once
#include "model/colour.h"
#include "model/cost.h"
#include "model/physics/energy.h"
#include "model/program_builder.h"
#include "model/sweetness.h"
#include "model/uncertain_inputs.h"

namespace gill::model {

/// Evaluates a house, step by step: ingredients, then preps after their parts, then drinks.
class Evaluator {
 public:
  /// Fills `facts`. `with_hands`: the tolerances of drinks count what hands do, not only what is written.
  Evaluator(const analysis::Specs& specs, const units::UnitTable& units, HouseFacts& facts,
            diagnostics::DiagnosticSink& sink, bool with_hands = true);
  void evaluate();

  // The same in parts, of which each may be done again after an edit: what a part stands on goes before it.

  /// Forgets all of the stock and makes room for it.
  void clear_stock();
  /// What one ingredient is, without what it costs.
  void ingredient(std::size_t index);
  /// Prices as the specs now have them.
  void read_prices();
  /// Costs of a gram of what is bought.
  void price_ingredients();
  /// Preps after the preps that they are made of. One in a circle is reported and left invalid.
  std::vector<std::size_t> prep_order();
  void prep(std::size_t index);
  void drink(std::size_t index);
  /// Costs again, and no more.
  void price_prep(std::size_t index) { set_costs(facts_.stock[index]); }
  void price_drink(std::size_t index) { set_costs(facts_.drinks[index]); }

 private:
  // ingredients (evaluate_ingredient.cpp)
  void evaluate_ingredient(std::size_t index);
  static void set_label_tolerances(const analysis::Stock& stock, StockFacts& facts);
  DeclaredTerms declared_terms(const analysis::Stock& stock) const;
  void report_impossible(const analysis::Stock& stock, const Impossible& impossible);
  static std::optional<Composition> composition_of(const analysis::Stock& stock, const DeclaredTerms& terms,
                                                   Impossible* why = nullptr);
  StockMoves moves_of_ingredient(std::size_t index) const;

  // preps (evaluate_prep.cpp)
  void evaluate_prep(std::size_t index);
  void set_nothing_made(const analysis::Stock& prep, StockFacts& facts, bool empty);
  void report_circle(const std::vector<std::size_t>& circle);
  void add_stated(const analysis::Stock& prep, StockFacts& facts) const;
  void set_foaming(const analysis::Stock& prep, StockFacts& facts, const BuiltProgram& built) const;
  Light light_of_parts(const BuiltProgram& built, const Outcome& outcome) const;
  static void set_yield(const analysis::Stock& prep, StockFacts& facts, const Outcome& outcome);
  void set_measured(const analysis::Stock& prep, StockFacts& facts, const StockMoves& moves);
  StockMoves moves_of_prep(const analysis::Stock& prep, StockFacts& facts, const BuiltProgram& built,
                           Simulator& simulator);
  static void set_prep_tolerances(StockFacts& facts, const StockMoves& moves);
  void set_keeping(const analysis::Stock& prep, StockFacts& facts);
  void set_figures(StockFacts& facts);

  // beside the masses (evaluate_traces.cpp)
  /// Of a gram of a stock: how sweet its sugar is, and what is in it by the milligram.
  struct Extras {
    RelativeSweetness sweetness;
    /// Share of its sugar that is not known to be table sugar.
    double other_sugars = 0;
    std::array<double, trace_kinds.size()> mg_in_a_gram{};
  };
  void set_traces_of_ingredient(StockFacts& facts);
  static void set_sweetness(StockFacts& facts, const RelativeSweetness& sweetness);
  Extras extras_of(const BuiltProgram& built, const Outcome& outcome, Traces& traces) const;
  void add_sulphites(const std::vector<Statement>& statements, Allergens& allergens) const;
  void set_traces(const analysis::Drink& drink, DrinkFacts& facts, const BuiltProgram& built,
                  const Outcome& outcome);
  void set_traces(const analysis::Stock& prep, StockFacts& facts, const BuiltProgram& built,
                  const Outcome& outcome);
  Shown shown_of(const analysis::Stock& prep, const StockFacts& facts, const StockMoves& moves) const;

  // drinks (evaluate_drink.cpp)
  void evaluate_drink(std::size_t index);
  void set_states(const analysis::Drink& drink, DrinkFacts& facts, const BuiltProgram& built,
                  const Outcome& outcome, const Simulator& simulator);
  void set_alcohol_units(DrinkFacts& facts) const;
  static void note_unknown_garnishes(const analysis::Drink& drink, DrinkFacts& facts);
  void set_tolerances(const analysis::Drink& drink, DrinkFacts& facts, const BuiltProgram& built,
                      Simulator& simulator);
  /// What feeds in a gram of the dissolved rest (`other`) and of the undissolved (`solids`).
  struct Rest {
    MoreNutrients of_other, of_solids;
  };
  static MoreNutrients nutrients_of(const Masses& masses, const Rest& rest);
  static Rest rest_of(const analysis::Stock& stock, const Composition& composition);
  /// Of what went in together.
  Rest rest_of(const BuiltProgram& built, const Outcome& outcome) const;
  void set_energy(DrinkFacts& facts, const BuiltProgram& built, const Masses& drunk, const Rest& rest);
  void set_in_glass(DrinkFacts& facts, const BuiltProgram& built, const Outcome& outcome);
  void set_alternatives(const analysis::Drink& drink, DrinkFacts& facts, const BuiltProgram& built,
                        Simulator& simulator);
  void set_colour(const analysis::Drink& drink, DrinkFacts& facts, const Outcome& outcome);

  // shared (evaluator.cpp)
  /// What moves a stock; an ingredient's are worked out when something first asks.
  const StockMoves& moves_of(analysis::StockId id);
  UncertainInputs uncertain_inputs(const BuiltProgram& built, const analysis::Recipe& recipe,
                                   const analysis::Head& head);
  /// Findings made by `work` are about this declaration.
  template <typename Work>
  void about(const analysis::Head& head, Work work);
  static std::vector<Entry> entries_of(const BuiltProgram& built, const Outcome& outcome, double scale);
  void add_without_price(std::vector<analysis::StockId>& all, analysis::StockId id) const;
  /// What may take a thing's place is possible, not sure.
  template <typename Facts>
  void add_alternatives(const analysis::Recipe& recipe, Facts& facts) const;
  /// What `serve` and `do` name is brought to the guest as well: its allergens and origins are the drink's.
  void add_named(const analysis::Recipe& recipe, DrinkFacts& facts) const;
  /// What the entries cost, and all together.
  template <typename Facts>
  void set_costs(Facts& facts) const;
  /// Puts amounts, cost and allergens on the entries and sums them; `scale` is one over the serves.
  template <typename Facts>
  void finish_entries(Facts& facts, const BuiltProgram& built, const Outcome& outcome, double scale);
  void report_unsolved(const BuiltProgram& built, const Outcome& outcome, const analysis::Recipe& recipe,
                       const std::string& drink);
  void add_uses(std::vector<analysis::StockId>& uses, analysis::StockId id) const;
  const analysis::Specs& specs_;
  const units::UnitTable& units_;
  diagnostics::DiagnosticSink& sink_;
  bool with_hands_;
  HouseFacts& facts_;
  /// By stock.
  std::vector<Rest> rest_;
  std::vector<Extras> extras_;
  std::vector<std::optional<StockMoves>> moves_;
  /// Preps that are made of themselves, as `prep_order` found them.
  std::vector<bool> in_circle_;
  Measuring measuring_;
  ProgramBuilder builder_;
  std::optional<Prices> prices_;
};

/// The cost of some entries together; nothing while a price is missing.
struct CostSum {
  Exact amount = 0;
  bool complete = true;
};

}  // namespace gill::model
