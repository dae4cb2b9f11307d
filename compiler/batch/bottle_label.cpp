#include "batch/bottle_label.h"

#include <algorithm>

#include "base/text.h"
#include "batch/batch_output.h"
#include "model/house_bottle.h"
#include "render/document/shared_parts.h"
#include "render/wording/measures.h"
#include "render/wording/numbers.h"
#include "render/wording/statements.h"

namespace gill::batch {

print::Label bottle_label(const render::document::BookIndex& index, analysis::DrinkId id) {
  const auto& drink = index.specs()[id];
  const auto& facts = index.facts()[id];
  print::Label label;
  label.name = drink.head.name;
  label.kind = "batch";
  BatchRequest request;
  request.diluted = drink.batched->with_water;
  request.bottle_ml = model::full_bottle_ml(drink);
  auto made = make_batch(index.input(), id, request);
  const auto* batch = std::get_if<Batch>(&made);
  label.is_error = !batch || index.is_in_error(id);
  if (label.is_error) return label;
  label.keeps_days = batch->keeps_days;
  if (batch->keeps_days) label.keeps = days_text(*batch->keeps_days);
  if (batch->storage) label.storage = base::capitalised(std::string(analysis::name_of(*batch->storage)));
  label.strength = print::strength_words(batch->abv_percent);
  if (drink.batched->bottle) label.batch = render::wording::text_of(*drink.batched->bottle, index.units());
  label.allergens = render::wording::in_words(batch->allergens, index.specs());
  // Whoever pours from the bottle is asked for the drink.
  for (auto& allergen : render::wording::in_words(facts.allergens, index.specs()).present)
    if (const auto& in_bottle = label.allergens.present;
        std::find(in_bottle.begin(), in_bottle.end(), allergen) == in_bottle.end())
      label.also_in_drink.push_back(std::move(allergen));
  label.statements = render::wording::statement_lines(facts.statements, index.specs());
  label.take_care = render::document::cautions_of_bottle(index, id, batch->held()).on_label;
  return label;
}

}  // namespace gill::batch
