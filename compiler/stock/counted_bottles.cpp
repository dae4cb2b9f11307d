#include "stock/counted_bottles.h"

#include <fmt/format.h>

#include "base/text.h"
#include "model/house_bottle.h"
#include "stock/pack_words.h"

namespace gill::stock {
namespace {

constexpr std::string_view bottle_words = "house bottle";

model::HouseBottle contents(DrinkId drink, const House& house) {
  return model::house_bottle_of(house.specs[drink], house.facts[drink], house.facts);
}

double ml_of_a_gram(DrinkId drink, const House& house) {
  auto bottle = contents(drink, house);
  double grams = bottle.masses.total();
  return grams > 0 ? bottle.pour_ml / grams : 0;
}

}  // namespace

std::string bottle_name(DrinkId drink, const House& house) {
  return fmt::format("{}, {}", house.specs[drink].head.name, bottle_words);
}

std::optional<DrinkId> bottled_drink(const std::string& name, const House& house) {
  std::string written = base::collapse_space(name);
  if (written.ends_with(bottle_words)) {
    written.resize(written.size() - bottle_words.size());
    while (!written.empty() && (written.back() == ' ' || written.back() == ',')) written.pop_back();
  }
  auto id = house.names.find(symbols::NameSpace::drink, written);
  if (!id.valid()) return std::nullopt;
  DrinkId drink{house.specs.index_of[id.index()]};
  bool is_bottled = house.specs[drink].batched && house.facts[drink].valid && ml_of_a_gram(drink, house) > 0;
  return is_bottled ? std::optional(drink) : std::nullopt;
}

std::variant<double, std::string> bottled_g(DrinkId drink, const Exact& number, const std::string& unit,
                                            const House& house) {
  const double count = base::to_double(number);
  if (count < 0)
    return fmt::format("`{}` of `{}` is below nothing; count what is there.", base::to_decimal(number, 3),
                       bottle_name(drink, house));
  double ml = 0;
  if (unit.empty() || vessel_of(unit) == Vessel::pack) {
    ml = count * model::full_bottle_ml(house.specs[drink]);
  } else if (auto id = unit_of(unit, house.units);
             id.valid() && house.units[id].kind == units::Kind::volume) {
    ml = base::to_double(number * house.units[id].factor);
  } else {
    return fmt::format("`{}` measures no bottle of `{}`; write a number of bottles, or ml.", unit,
                       house.specs[drink].head.name);
  }
  return ml / ml_of_a_gram(drink, house);
}

double bottled_ml(DrinkId drink, double grams, const House& house) {
  return grams * ml_of_a_gram(drink, house);
}

Parts parts_of_bottle(DrinkId drink, const Costing& costing) {
  double serve_g = contents(drink, costing.house()).masses.total();
  return costing.parts_of_bottle(drink, serve_g > 0 ? 1 / serve_g : 0);
}

}  // namespace gill::stock
