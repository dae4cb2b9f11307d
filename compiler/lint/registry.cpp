#include "lint/rules.h"

namespace gill::lint {

using diagnostics::Rule;

const std::vector<RuleCheck>& all_checks() {
  // What is said of lines that stand there whatever the amounts come to is said of a drink in error too:
  // cautions first.
  constexpr bool even_in_error = false;
  // clang-format off
  static const std::vector<RuleCheck> checks = {
      // units
      {.rule = Rule::mixed_systems, .drink = mixed_systems, .prep = mixed_systems_in_prep},
      {.rule = Rule::off_measure, .drink = off_measure},
      {.rule = Rule::unlikely_amount, .drink = unlikely_amount, .needs_valid_amounts = even_in_error},
      {.rule = Rule::unlikely_time, .drink = unlikely_time, .needs_valid_amounts = even_in_error},
      // build
      {.rule = Rule::fizz_shaken, .drink = fizz_shaken},
      {.rule = Rule::no_chill, .drink = no_chill},
      {.rule = Rule::no_strain, .drink = no_strain},
      {.rule = Rule::juice_stirred, .drink = juice_stirred},
      {.rule = Rule::spirits_shaken, .drink = spirits_shaken},
      {.rule = Rule::egg_not_dry_shaken, .drink = egg_not_dry_shaken},
      {.rule = Rule::fat_without_emulsifier, .drink = fat_without_emulsifier},
      {.rule = Rule::out_of_order, .drink = out_of_order, .prep = out_of_order_in_prep},
      {.rule = Rule::float_sinks, .drink = float_sinks},
      {.rule = Rule::glass_overflows, .drink = glass_overflows},
      {.rule = Rule::low_in_glass, .drink = low_in_glass},
      {.rule = Rule::no_glass, .drink = no_glass, .needs_valid_amounts = even_in_error},
      {.rule = Rule::no_ice, .drink = no_ice},
      {.rule = Rule::no_garnish, .drink = no_garnish, .needs_valid_amounts = even_in_error},
      {.rule = Rule::unknown_garnish, .drink = unknown_garnish, .needs_valid_amounts = even_in_error},
      {.rule = Rule::no_time, .drink = no_time, .prep = no_time_in_prep, .needs_valid_amounts = even_in_error},
      // balance
      {.rule = Rule::out_of_family, .drink = out_of_family},
      {.rule = Rule::unmet_expectation, .drink = unmet_expectation, .prep = unmet_expectation_of_prep, .needs_valid_amounts = even_in_error},
      // stock
      {.rule = Rule::no_price, .house = no_price},
      {.rule = Rule::over_pour_cost, .house = over_pour_cost},
      {.rule = Rule::unused_prep, .house = unused_prep},
      {.rule = Rule::not_on_menu, .house = not_on_menu},
      {.rule = Rule::draft_on_menu, .house = draft_on_menu},
      {.rule = Rule::retired_on_menu, .house = retired_on_menu},
      {.rule = Rule::no_menu_price, .house = no_menu_price},
      {.rule = Rule::no_shelf_life, .prep = no_shelf_life, .needs_valid_amounts = even_in_error},
      {.rule = Rule::outlives_its_parts, .prep = outlives_its_parts},
      {.rule = Rule::large_loss, .prep = large_loss},
      {.rule = Rule::perishable_in_batch, .drink = perishable_in_batch, .needs_valid_amounts = even_in_error},
      // safety
      {.rule = Rule::raw_egg, .drink = raw_egg, .prep = raw_egg_in_prep, .needs_valid_amounts = even_in_error},
      {.rule = Rule::raw_dairy, .drink = raw_dairy, .prep = raw_dairy_in_prep, .needs_valid_amounts = even_in_error},
      {.rule = Rule::allergen_carried, .prep = allergen_carried, .needs_valid_amounts = even_in_error},
      {.rule = Rule::hidden_allergen, .drink = hidden_allergen, .needs_valid_amounts = even_in_error},
      {.rule = Rule::oil_infusion, .prep = oil_infusion, .needs_valid_amounts = even_in_error},
      {.rule = Rule::weak_infusion, .prep = weak_infusion, .needs_valid_amounts = even_in_error},
      {.rule = Rule::low_acid_hold, .prep = low_acid_hold, .needs_valid_amounts = even_in_error},
      {.rule = Rule::cool_down, .prep = cool_down, .needs_valid_amounts = even_in_error},
      {.rule = Rule::ferment, .prep = ferment, .needs_valid_amounts = even_in_error},
      {.rule = Rule::pressure, .drink = pressure, .prep = pressure_in_prep, .needs_valid_amounts = even_in_error},
      {.rule = Rule::hot_egg, .drink = hot_egg, .needs_valid_amounts = even_in_error},
      {.rule = Rule::hot_shake, .drink = hot_shake, .prep = hot_shake_in_prep, .needs_valid_amounts = even_in_error},
      {.rule = Rule::hot_spirit, .drink = hot_spirit, .prep = hot_spirit_in_prep, .needs_valid_amounts = even_in_error},
      {.rule = Rule::hot_serve, .drink = hot_serve},
      {.rule = Rule::glass_shock, .drink = glass_shock, .needs_valid_amounts = even_in_error},
      {.rule = Rule::warm_wash, .prep = warm_wash, .needs_valid_amounts = even_in_error},
      {.rule = Rule::open_flame, .drink = open_flame, .needs_valid_amounts = even_in_error},
      {.rule = Rule::strong_serve, .drink = strong_serve, .needs_valid_amounts = even_in_error},
      {.rule = Rule::alcohol_in_alcohol_free, .drink = alcohol_in_alcohol_free, .needs_valid_amounts = even_in_error},
      {.rule = Rule::restricted_ingredient, .drink = restricted_ingredient, .prep = restricted_ingredient_in_prep, .needs_valid_amounts = even_in_error},
      {.rule = Rule::bare_copper, .drink = bare_copper, .needs_valid_amounts = even_in_error},
      {.rule = Rule::cryogen, .drink = cryogen, .prep = cryogen_in_prep, .needs_valid_amounts = even_in_error},
      {.rule = Rule::caustic, .drink = caustic, .prep = caustic_in_prep, .needs_valid_amounts = even_in_error},
  };
  // clang-format on
  return checks;
}

}  // namespace gill::lint
