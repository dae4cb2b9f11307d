#pragma once
#include "lint/lint.h"

// One function a rule and kind of declaration; each is defined in the file of its name in rules/.
namespace gill::lint {

void fizz_shaken(const DrinkCase& drink, Reporter& report);
void no_chill(const DrinkCase& drink, Reporter& report);
void no_strain(const DrinkCase& drink, Reporter& report);
void fat_without_emulsifier(const DrinkCase& drink, Reporter& report);
void glass_overflows(const DrinkCase& drink, Reporter& report);
void no_glass(const DrinkCase& drink, Reporter& report);
void no_time(const DrinkCase& drink, Reporter& report);
void no_time_in_prep(const PrepCase& prep, Reporter& report);
void unknown_garnish(const DrinkCase& drink, Reporter& report);
void out_of_family(const DrinkCase& drink, Reporter& report);
void unmet_expectation(const DrinkCase& drink, Reporter& report);
void unmet_expectation_of_prep(const PrepCase& prep, Reporter& report);
void raw_egg(const DrinkCase& drink, Reporter& report);
void raw_egg_in_prep(const PrepCase& prep, Reporter& report);
void alcohol_in_alcohol_free(const DrinkCase& drink, Reporter& report);

}  // namespace gill::lint
