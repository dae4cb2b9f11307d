#pragma once
#include <catch2/catch.hpp>

#include <string>

#include "base/exact.h"
#include "unit/driver/house_fixture.h"

/// The units that every house has.
namespace gill::accuracy {

class LibraryUnits {
 public:
  /// `amount` of the unit in the base unit of its kind (ml, g, mm, s, °C, bar, kJ).
  double in_base(const std::string& unit, double amount = 1) const {
    const auto id = house_->units.find(unit);
    INFO("looking for the unit " << unit);
    REQUIRE(id.valid());
    const units::Unit& found = house_->units[id];
    return amount * base::to_double(found.factor) + base::to_double(found.offset);
  }

 private:
  std::unique_ptr<driver::Compilation> house_ = test::compile("house any house\n");
};

}  // namespace gill::accuracy
