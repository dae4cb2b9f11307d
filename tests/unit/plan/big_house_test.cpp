#include "support/big_house.h"

#include <catch2/catch.hpp>

#include "costing/cost_report.h"
#include "plan/prep_plan.h"
#include "unit/plan/plan_fixture.h"

using namespace gill;
using gill::testing::EvaluatedHouse;

// How long it takes is the benchmark's to say (tests/bench/plan_bench.cpp).
TEST_CASE("2,000 drinks with preps 8 deep are planned and costed", "[prep]") {
  EvaluatedHouse house(gill::testing::big_house(2000));
  plan::PlanOptions options;
  options.days = 3;
  auto plan = plan::make_prep_plan(house.house, options);
  CHECK(plan.serves.size() == 2000);
  CHECK(plan::replay(plan, house.house).empty());
  CHECK_FALSE(plan::prep_json(plan, house.house).empty());
  CHECK(costing::cost_report(house.house, {}, {}).drinks.size() == 2000);
}
