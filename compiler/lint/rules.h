#pragma once
#include "lint/lint.h"

// One function a rule and kind of declaration; each is defined in the file of its name in rules/.
namespace gill::lint {

// units
void mixed_systems(const DrinkCase& drink, Reporter& report);
void mixed_systems_in_prep(const PrepCase& prep, Reporter& report);
void off_measure(const DrinkCase& drink, Reporter& report);
void unlikely_amount(const DrinkCase& drink, Reporter& report);
void unlikely_time(const DrinkCase& drink, Reporter& report);

// build
void fizz_shaken(const DrinkCase& drink, Reporter& report);
void no_chill(const DrinkCase& drink, Reporter& report);
void no_strain(const DrinkCase& drink, Reporter& report);
void juice_stirred(const DrinkCase& drink, Reporter& report);
void spirits_shaken(const DrinkCase& drink, Reporter& report);
void egg_not_dry_shaken(const DrinkCase& drink, Reporter& report);
void fat_without_emulsifier(const DrinkCase& drink, Reporter& report);
void out_of_order(const DrinkCase& drink, Reporter& report);
void out_of_order_in_prep(const PrepCase& prep, Reporter& report);
void float_sinks(const DrinkCase& drink, Reporter& report);
void glass_overflows(const DrinkCase& drink, Reporter& report);
void low_in_glass(const DrinkCase& drink, Reporter& report);
void no_glass(const DrinkCase& drink, Reporter& report);
void no_ice(const DrinkCase& drink, Reporter& report);
void no_garnish(const DrinkCase& drink, Reporter& report);
void unknown_garnish(const DrinkCase& drink, Reporter& report);
void no_time(const DrinkCase& drink, Reporter& report);
void no_time_in_prep(const PrepCase& prep, Reporter& report);

// balance
void out_of_family(const DrinkCase& drink, Reporter& report);
void unmet_expectation(const DrinkCase& drink, Reporter& report);
void unmet_expectation_of_prep(const PrepCase& prep, Reporter& report);

// stock
void no_price(const HouseCase& house);
void over_pour_cost(const HouseCase& house);
void unused_prep(const HouseCase& house);
void not_on_menu(const HouseCase& house);
void draft_on_menu(const HouseCase& house);
void retired_on_menu(const HouseCase& house);
void no_menu_price(const HouseCase& house);
void no_shelf_life(const PrepCase& prep, Reporter& report);
void outlives_its_parts(const PrepCase& prep, Reporter& report);
void large_loss(const PrepCase& prep, Reporter& report);
void perishable_in_batch(const DrinkCase& drink, Reporter& report);

// safety
void raw_egg(const DrinkCase& drink, Reporter& report);
void raw_egg_in_prep(const PrepCase& prep, Reporter& report);
void raw_dairy(const DrinkCase& drink, Reporter& report);
void raw_dairy_in_prep(const PrepCase& prep, Reporter& report);
void allergen_carried(const PrepCase& prep, Reporter& report);
void hidden_allergen(const DrinkCase& drink, Reporter& report);
void oil_infusion(const PrepCase& prep, Reporter& report);
void weak_infusion(const PrepCase& prep, Reporter& report);
void low_acid_hold(const PrepCase& prep, Reporter& report);
void cool_down(const PrepCase& prep, Reporter& report);
void ferment(const PrepCase& prep, Reporter& report);
void pressure(const DrinkCase& drink, Reporter& report);
void pressure_in_prep(const PrepCase& prep, Reporter& report);
void hot_egg(const DrinkCase& drink, Reporter& report);
void hot_shake(const DrinkCase& drink, Reporter& report);
void hot_shake_in_prep(const PrepCase& prep, Reporter& report);
void hot_spirit(const DrinkCase& drink, Reporter& report);
void hot_spirit_in_prep(const PrepCase& prep, Reporter& report);
void hot_serve(const DrinkCase& drink, Reporter& report);
void glass_shock(const DrinkCase& drink, Reporter& report);
void warm_wash(const PrepCase& prep, Reporter& report);
void open_flame(const DrinkCase& drink, Reporter& report);
void strong_serve(const DrinkCase& drink, Reporter& report);
void alcohol_in_alcohol_free(const DrinkCase& drink, Reporter& report);
void restricted_ingredient(const DrinkCase& drink, Reporter& report);
void restricted_ingredient_in_prep(const PrepCase& prep, Reporter& report);
void bare_copper(const DrinkCase& drink, Reporter& report);
void cryogen(const DrinkCase& drink, Reporter& report);
void cryogen_in_prep(const PrepCase& prep, Reporter& report);
void caustic(const DrinkCase& drink, Reporter& report);
void caustic_in_prep(const PrepCase& prep, Reporter& report);

}  // namespace gill::lint
