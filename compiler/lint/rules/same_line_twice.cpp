#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"

namespace gill::lint {

namespace {

bool is_same_amount(const analysis::Amount& one, const analysis::Amount& other) {
  return one.form == analysis::Amount::Form::measured && other.form == analysis::Amount::Form::measured &&
         one.use() == other.use() && one.as_written == other.as_written;
}

template <typename Case>
void check_same_line_twice(const Case& build, const analysis::Recipe& recipe, Reporter& report) {
  const auto& order = recipe.order;
  auto tell = [&](source::Span span, std::string_view words) {
    report.add(span, fmt::format("`{}` stands here twice", words),
               "Delete one of the two lines. If twice as much is meant, write it in one line.");
  };
  for (std::size_t i = 1; i < order.size(); ++i) {
    if (order[i].is_amount) {
      // Something may be given again after a step.
      for (std::size_t j = i; j-- > 0 && order[j].is_amount;) {
        const auto& amount = recipe.amounts[order[i].index];
        if (!is_same_amount(recipe.amounts[order[j].index], amount)) continue;
        tell(build.span_of_amount(order[i].index),
             fmt::format("{} {}", amount.as_written, build.house.specs[amount.use().stock].head.name));
        break;
      }
    } else if (repeats_a_step(recipe, i)) {
      const auto& step = recipe.steps[order[i].index];
      std::string name(analysis::info(step.verb).name);
      if (step.use) name += " " + analysis::name_of(*step.use, build.house.specs, build.house.units);
      tell(build.span_of_step(order[i].index), name);
    }
  }
}

}  // namespace

void same_line_twice(const DrinkCase& drink, Reporter& report) {
  check_same_line_twice(drink, drink.drink.recipe, report);
}
void same_line_twice(const PrepCase& prep, Reporter& report) {
  check_same_line_twice(prep, prep.prep.recipe, report);
}

}  // namespace gill::lint
