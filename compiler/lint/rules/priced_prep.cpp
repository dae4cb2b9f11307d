#include <fmt/format.h>

#include "lint/rules.h"

namespace gill::lint {

void priced_prep(const HouseCase& judged) {
  const auto& specs = judged.house.specs;
  for (const auto& list : specs.price_lists)
    for (const auto& price : list.prices) {
      const auto& stock = specs[price.use.stock];
      // `like` brings the lines of another list, where each is told.
      if (!stock.is_prep || price.span.begin < list.head.name_span.begin ||
          price.span.file_id != list.head.name_span.file_id)
        continue;
      judged.about(list).add(
          price.span,
          fmt::format("`{}` is a prep, which costs what goes into it: nobody reckons with this price",
                      stock.head.name),
          fmt::format("Take the line out. Where it is bought ready, declare `ingredient {}` with its kind, "
                      "strength, sugar and allergens by the label; the prep's recipe is then used no more.",
                      stock.head.name));
    }
}

}  // namespace gill::lint
