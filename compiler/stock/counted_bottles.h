#pragma once
#include <optional>
#include <string>
#include <variant>

#include "base/csv_reader.h"
#include "costing/costing.h"

/// House bottles of batched drinks, as they stand in a count.
namespace gill::stock {

using namespace costing;

/// What the house calls one in its lists: `Cone Six, house bottle`.
std::string bottle_name(DrinkId drink, const House& house);
/// The batched drink that a row's name means, with or without `house bottle` behind it; nothing for any
/// other.
std::optional<DrinkId> bottled_drink(const std::string& name, const House& house);
/// Grams of what a row counts: so many bottles, or a volume. A full sentence on failure.
std::variant<double, std::string> bottled_g(DrinkId drink, const Exact& number, const std::string& unit,
                                            const House& house);
/// Millilitres of so many grams.
double bottled_ml(DrinkId drink, double grams, const House& house);
/// The goods in a gram of it.
Parts parts_of_bottle(DrinkId drink, const Costing& costing);

}  // namespace gill::stock
