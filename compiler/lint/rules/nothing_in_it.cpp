#include <fmt/format.h>

#include "lint/rules.h"

namespace gill::lint {

void nothing_in_it(const DrinkCase& drink, Reporter& report) {
  if (!drink.facts.is_empty) return;
  report.add(drink.name_span(), fmt::format("nothing goes into `{}` yet", drink.drink.head.name),
             "Write its amounts below the name, a line each: `60 ml London dry gin`, say.");
}

void nothing_in_it(const PrepCase& prep, Reporter& report) {
  if (!prep.facts.is_empty) return;
  report.add(prep.name_span(), fmt::format("nothing goes into `{}` yet", prep.prep.head.name),
             "Write its amounts below the name, a line each: `500 g white sugar`, say.");
}

}  // namespace gill::lint
