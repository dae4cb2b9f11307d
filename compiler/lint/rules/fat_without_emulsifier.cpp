#include <fmt/format.h>

#include "lint/rules.h"
#include "model/physics/volume.h"

namespace gill::lint {

namespace {

// Fat below this in a serve (g) floats as a few beads and is often meant. Common practice, no source.
constexpr double min_fat_g = 1;

}  // namespace

void fat_without_emulsifier(const DrinkCase& drink, Reporter& report) {
  // On something hot it melts and is meant to lie on top.
  if (drink.facts.is_hot) return;
  double free_fat_g = 0;
  analysis::StockId fattest;
  double maximum = 0;
  bool held = false;
  std::size_t amount_index = 0;
  for (const auto& entry : drink.facts.entries) {
    if (entry.optional || !entry.mass_g || entry.role != model::Role::amount) continue;
    const auto& stock = drink.house.facts[entry.use.stock];
    held = held || stock.holds_fat;
    double fat = *entry.mass_g * stock.composition.per_gram[model::Component::fat];
    free_fat_g += fat;
    if (fat > maximum) {
      maximum = fat;
      fattest = entry.use.stock;
      amount_index = entry.index;
    }
  }
  if (held || free_fat_g < min_fat_g) return;
  report.add(drink.span_of_amount(amount_index),
             fmt::format("{:.1f} g of fat ({}) go in, and nothing holds it in the drink", free_fat_g,
                         drink.house.specs[fattest].head.name),
             "It comes out as an oil slick within a minute. Add something that holds fat (egg white, egg "
             "yolk, cream, "
             "lecithin), or wash a spirit with it as a prep.");
}

}  // namespace gill::lint
