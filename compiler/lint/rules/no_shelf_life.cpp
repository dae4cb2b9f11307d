#include <fmt/format.h>

#include "lint/parts.h"
#include "lint/rules.h"
#include "model/keeping.h"

namespace gill::lint {

void no_shelf_life(const PrepCase& prep, Reporter& report) {
  if (prep.prep.keeps || prep.prep.head.has_errors) return;
  std::string help = "Add `keeps 7 d chilled`, say: labels, batches and the plan use it.";
  if (prep.facts.keeps_days)
    help += fmt::format(
        " Until then the plan reckons with {}, the time of its shortest-lived part and never more than a "
        "week: that says nothing of the mixture.",
        duration_words(model::days_to_plan_with(*prep.facts.keeps_days, false)));
  report.add(prep.name_span(), fmt::format("no shelf life is given for `{}`", prep.prep.head.name), help);
}

}  // namespace gill::lint
