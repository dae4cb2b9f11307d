#include "model/evaluation.h"

#include "model/evaluator.h"
#include "units/money.h"

namespace gill::model {

class Evaluation::Work {
 public:
  Work(const analysis::Specs& specs, const units::UnitTable& units, HouseFacts& facts, bool with_hands)
      : specs(specs), facts(facts), evaluator(specs, units, facts, sink, with_hands) {}

  /// What was found meanwhile.
  std::vector<diagnostics::Diagnostic> found() {
    auto all = std::move(sink.all());
    sink.all().clear();
    return all;
  }

  const analysis::Specs& specs;
  const HouseFacts& facts;
  diagnostics::DiagnosticSink sink;
  Evaluator evaluator;
};

Evaluation::Evaluation(const analysis::Specs& specs, const units::UnitTable& units, HouseFacts& facts,
                       bool with_hands)
    : work_(std::make_unique<Work>(specs, units, facts, with_hands)) {}
Evaluation::~Evaluation() = default;

void Evaluation::all_stock() {
  const std::size_t count = work_->specs.stock.size();
  of_stock.assign(count, {});
  work_->evaluator.clear_stock();
  for (std::size_t i = 0; i < count; ++i)
    if (!work_->specs.stock[i].is_prep) ingredient(i);
  read_prices();
  price_ingredients();
  auto order = work_->evaluator.prep_order();
  of_circles = work_->found();
  for (std::size_t index : order) prep(index);
}

std::optional<std::vector<std::size_t>> Evaluation::preps_in_order() {
  bool had_circles = !of_circles.empty();
  auto order = work_->evaluator.prep_order();
  of_circles = work_->found();
  if (had_circles || !of_circles.empty()) return std::nullopt;
  return order;
}

void Evaluation::ingredient(std::size_t index) {
  work_->evaluator.ingredient(index);
  of_stock[index] = work_->found();
}

void Evaluation::prep(std::size_t index) {
  work_->evaluator.prep(index);
  of_stock[index] = work_->found();
}

void Evaluation::drink(std::size_t index) {
  work_->evaluator.drink(index);
  of_drinks[index] = work_->found();
}

void Evaluation::read_prices() { work_->evaluator.read_prices(); }
void Evaluation::price_ingredients() { work_->evaluator.price_ingredients(); }
void Evaluation::price_prep(std::size_t index) { work_->evaluator.price_prep(index); }

bool Evaluation::price_drink(std::size_t index) {
  const DrinkFacts& facts = work_->facts.drinks[index];
  auto costs = [&] {
    std::vector<std::optional<units::Money>> all{facts.cost};
    for (const auto& entry : facts.entries) all.push_back(entry.cost);
    return all;
  };
  auto before = costs();
  auto without = facts.without_price;
  work_->evaluator.price_drink(index);
  return before != costs() || without != facts.without_price;
}

}  // namespace gill::model
