#include "plan/prep_labels.h"

#include "batch/bottle_label.h"
#include "plan/prep_page.h"

namespace gill::plan {
namespace {

/// The size of its bottles, where it is measured in them.
const units::Quantity* bottle_of(const Product& product, const analysis::Specs& specs) {
  const auto* house_bottle = product.drink.valid() ? &*specs[product.drink].batched : nullptr;
  const auto& bottle = house_bottle ? house_bottle->bottle : specs[product.stock].bottle;
  return bottle && bottle->kind == units::Kind::volume && product.ml_per_g ? &*bottle : nullptr;
}

}  // namespace

std::vector<print::Label> prep_labels(const PrepPlan& plan, const render::document::BookIndex& index) {
  std::vector<print::Label> labels;
  for (const auto& make : plan.makes) {
    const auto& product = plan.products[make.product];
    if (make.make_g <= 0 || product.making == Making::pressing) continue;
    auto label = product.drink.valid() ? batch::bottle_label(index, product.drink)
                                       : print::label_of(index, product.stock);
    if (!plan.days.empty() && plan.days.front().date)
      label.made = *plan.days.front().date + std::chrono::days(make.made_day);
    const auto* bottle = bottle_of(product, index.specs());
    auto fills = bottle ? print::bottle_fills(make.make_g * *product.ml_per_g, *bottle, index.units())
                        : print::BottleFills{1, {}, amount_of_product(product, make.make_g)};
    const bool last_is_alike = fills.count == 1 || fills.each == fills.last;
    if (!last_is_alike) {
      label.batch = fills.each;
      label.copies = fills.count - 1;
      labels.push_back(label);
    }
    label.batch = fills.last;
    label.copies = last_is_alike ? fills.count : 1;
    labels.push_back(std::move(label));
  }
  return labels;
}

}  // namespace gill::plan
