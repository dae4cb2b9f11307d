#include "model/uncertain_inputs.h"

#include <fmt/format.h>

#include <algorithm>

namespace gill::model {

using analysis::Amount;
using analysis::Step;
using units::Kind;

namespace {

/// Moves some components by a share of themselves; water gives way, so that a gram stays a gram.
Masses moved(const Masses& per_gram, std::initializer_list<Component> which, double share) {
  Masses result = per_gram;
  double added = 0;
  for (Component component : which) {
    double more = per_gram[component] * share;
    result[component] += more;
    added += more;
  }
  result[Component::water] = std::max(0.0, result[Component::water] - added);
  return result;
}

/// Collects them, amounts first.
class UncertainInputs {
 public:
  UncertainInputs(const Program& program, const analysis::Recipe& recipe, const Measuring& measuring)
      : program_(program), recipe_(recipe), measuring_(measuring) {}

  std::vector<BuiltProgram::Uncertain> take() { return std::move(inputs_); }

  void add_amounts(const analysis::Specs& specs, const units::UnitTable& units) {
    for (std::size_t i = 0; i < program_.operations.size(); ++i) {
      const Operation& operation = program_.operations[i];
      bool is_given = operation.as<operation::Add>() != nullptr;
      double tolerance = 0;
      const analysis::Use* use = nullptr;
      if (operation.is_amount) {
        const Amount& amount = recipe_.amounts[operation.index];
        use = &amount.use();
        tolerance =
            amount.quantity.kind == Kind::part ? 0 : measuring_.relative_tolerance(*use, amount.quantity);
        if (!is_given && !amount.quantity.tolerance) tolerance = 0;
      } else if (is_given) {
        const Step& step = recipe_.steps[operation.index];
        use = &*step.use;
        if (step.amount) tolerance = measuring_.relative_tolerance(*use, *step.amount);
      }
      if (!use || tolerance <= 0) continue;
      Perturbation moved_input;
      moved_input.kind = Perturbation::Kind::amount;
      moved_input.operation = i;
      moved_input.factor = 1 + tolerance;
      inputs_.push_back(
          {moved_input, fmt::format("the amount of {}", analysis::name_of(*use, specs, units)), tolerance});
    }
  }

  void add_slots(const std::vector<StockFacts>& stock, const analysis::Specs& specs) {
    for (std::size_t s = 0; s < program_.slots.size(); ++s) {
      const Slot& slot = program_.slots[s];
      const auto& facts = stock[slot.stock.index()];
      const std::string& name = specs[slot.stock].head.name;
      auto add = [&](double tolerance, const Masses& per_gram, std::string_view what) {
        if (tolerance <= 0 || per_gram == slot.per_gram) return;
        Perturbation moved_input;
        moved_input.kind = Perturbation::Kind::slot;
        moved_input.slot = s;
        moved_input.per_gram = per_gram;
        moved_input.density = slot.density;
        inputs_.push_back({moved_input, fmt::format("the {} of {}", what, name), tolerance});
      };
      add(facts.acid_tolerance,
          moved(slot.per_gram,
                {Component::citric, Component::malic, Component::tartaric, Component::lactic,
                 Component::acetic, Component::phosphoric, Component::ascorbic},
                facts.acid_tolerance),
          "acidity");
      add(facts.sugar_tolerance, moved(slot.per_gram, {Component::sugar}, facts.sugar_tolerance), "sugar");
      add(facts.strength_tolerance, moved(slot.per_gram, {Component::ethanol}, facts.strength_tolerance),
          "strength");
    }
  }

 private:
  const Program& program_;
  const analysis::Recipe& recipe_;
  const Measuring& measuring_;
  std::vector<BuiltProgram::Uncertain> inputs_;
};

}  // namespace

std::vector<BuiltProgram::Uncertain> uncertain_inputs(const Program& program, const analysis::Recipe& recipe,
                                                      const Measuring& measuring,
                                                      const std::vector<StockFacts>& stock,
                                                      const analysis::Specs& specs,
                                                      const units::UnitTable& units) {
  UncertainInputs inputs(program, recipe, measuring);
  inputs.add_amounts(specs, units);
  inputs.add_slots(stock, specs);
  return inputs.take();
}

}  // namespace gill::model
