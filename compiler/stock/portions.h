#pragma once
#include <optional>
#include <string>
#include <variant>

#include "base/csv_reader.h"
#include "costing/costing.h"

/// How many portions a row of a till's or a bookings' list means.
namespace gill::stock {

using namespace costing;

/// The unit of a row: behind the number in its cell, else in a column of its own.
std::string unit_of_row(const std::string& cell, const std::string& unit_cell, const base::CsvTable& table);

/// True of what counts portions whatever else of that name is bought: nothing, `glasses`, `bowls`, `pcs`. A
/// bottle may be of goods.
bool counts_portions(const std::string& unit);

/// `12`, `2 bowls`, `3 cups`: portions of a drink. A number alone counts what its menus sell it by: bowls of
/// what they sell whole, else serves; what they sell both ways is asked about. A full sentence on failure.
std::variant<double, std::string> read_portions(const std::string& cell, const std::string& unit_cell,
                                                DrinkId drink, const House& house,
                                                const base::CsvTable& table);

/// `200 ml` as a share of what one portion holds; nothing where the unit measures no drink.
std::optional<double> share_of_drink(const Exact& number, const std::string& unit, DrinkId drink,
                                     const House& house);

}  // namespace gill::stock
