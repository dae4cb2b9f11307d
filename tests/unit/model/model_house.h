#pragma once
#include <catch2/catch.hpp>
#include <string_view>

#include "model/facts.h"
#include "model/program_builder.h"
#include "support/fixture.h"

/// A house that is read and evaluated in one call.
namespace gill::testing {

struct ModelHouse {
  Compiled front;
  model::HouseFacts facts;

  const model::DrinkFacts& drink(std::string_view name) const {
    for (const auto& drink : facts.drinks)
      if (front.specs[drink.drink].head.name == name) return drink;
    FAIL("no drink " << name);
    return facts.drinks.front();
  }
  const model::StockFacts& stock(std::string_view name) const {
    for (const auto& stock : facts.stock)
      if (front.specs[stock.stock].head.name == name) return stock;
    FAIL("no stock " << name);
    return facts.stock.front();
  }
  std::string_view ice_of(const model::DrinkFacts& drink) const {
    auto ice = drink.served_on.use.ice;
    return ice.valid() ? std::string_view(front.specs[ice].head.name) : std::string_view();
  }
  /// The drink lowered, for what its operations hold.
  model::BuiltProgram lowered(std::string_view name) const {
    diagnostics::DiagnosticSink unheard;
    model::ProgramBuilder builder(front.specs, front.units, facts.stock, unheard);
    return builder.build(front.drink(name));
  }
  /// The findings that are errors, a line each.
  std::vector<std::string> errors() const {
    std::vector<std::string> found;
    for (const auto& finding : front.sink.all())
      if (finding.severity == diagnostics::Severity::error) found.push_back(finding.message);
    return found;
  }
};

inline ModelHouse evaluate(std::string_view text) {
  ModelHouse house{compile(text), {}};
  house.facts = model::evaluate(house.front.specs, house.front.units, house.front.sink);
  return house;
}

/// The first operation of that type; fails the test when there is none.
template <typename Act>
const Act& first(const model::BuiltProgram& built) {
  for (const auto& operation : built.program.operations)
    if (const auto* act = operation.as<Act>()) return *act;
  FAIL("no such operation");
  std::abort();
}

template <typename Act>
std::size_t count(const model::BuiltProgram& built) {
  std::size_t found = 0;
  for (const auto& operation : built.program.operations) found += operation.as<Act>() != nullptr;
  return found;
}

/// What the cause of those words does to the drink; null where it does nothing.
inline const model::Influence* find_influence(const ModelHouse& house, const model::DrinkFacts& facts,
                                              std::string_view words) {
  for (const auto& influence : facts.influences)
    if (words_of(influence.cause, house.front.specs) == words) return &influence;
  return nullptr;
}

/// The same; fails the test where it does nothing.
inline const model::Influence& influence_of(const ModelHouse& house, const model::DrinkFacts& facts,
                                            std::string_view words) {
  const auto* found = find_influence(house, facts, words);
  INFO("what moves the drink: " << words);
  REQUIRE(found);
  return *found;
}

/// A house with nothing in it but the library.
inline const ModelHouse& library() {
  static const auto house = evaluate("");
  return house;
}

}  // namespace gill::testing
