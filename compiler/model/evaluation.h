#pragma once
#include <memory>
#include <optional>
#include <vector>

#include "model/facts.h"

namespace gill::model {

/// The facts of a house that stay as edits go by: each part may be worked out again. What `specs` and `facts`
/// are stays where it is; what a part stands on goes before it: ingredients, prices, preps in their order,
/// drinks.
class Evaluation {
 public:
  /// `with_hands`: as `evaluate` does it, else as `evaluate_written`.
  Evaluation(const analysis::Specs& specs, const units::UnitTable& units, HouseFacts& facts, bool with_hands);
  ~Evaluation();
  Evaluation(const Evaluation&) = delete;
  Evaluation& operator=(const Evaluation&) = delete;

  /// Every ingredient and prep from nothing, prices with them.
  void all_stock();
  /// The preps, each after those that it is made of; nothing where some are made of themselves, now or when
  /// all were worked out: then all are worked out together.
  std::optional<std::vector<std::size_t>> preps_in_order();
  void ingredient(std::size_t index);
  void prep(std::size_t index);
  void drink(std::size_t index);
  /// Prices as the specs now have them: needed after any stock or price list was read again.
  void read_prices();
  /// Costs of a gram of what is bought, of one prep, of one drink; the rest of the facts stands.
  void price_ingredients();
  void price_prep(std::size_t index);
  /// True where that changes what it costs, or what is known of it.
  bool price_drink(std::size_t index);

  /// What was found, by stock and by drink, and of preps that are made of themselves.
  std::vector<std::vector<diagnostics::Diagnostic>> of_stock, of_drinks;
  std::vector<diagnostics::Diagnostic> of_circles;

 private:
  class Work;
  std::unique_ptr<Work> work_;
};

}  // namespace gill::model
