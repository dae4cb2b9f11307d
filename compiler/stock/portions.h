#pragma once
#include <string>
#include <variant>

#include "base/csv_reader.h"
#include "costing/costing.h"

/// How many portions a row of a till's or a bookings' list means.
namespace gill::stock {

using namespace costing;

/// `12`, `2 bowls`, `3 cups`: portions of a drink. A number alone counts what its menus sell it by: bowls of
/// what they sell whole, else serves; what they sell both ways is asked about. A full sentence on failure.
std::variant<double, std::string> read_portions(const std::string& cell, DrinkId drink, const House& house,
                                                const base::CsvTable& table);

}  // namespace gill::stock
