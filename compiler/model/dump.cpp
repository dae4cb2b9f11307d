#include <fmt/format.h>

#include "model/facts.h"

namespace gill::model {
namespace {

std::string show(const Figures& figures) {
  return fmt::format(
      "{:.3f} ml, {:.3f} g, {:.3f} % abv, sugar {:.3f}, acid {:.4f} g/100 ml, {:.5f} g/ml, {:.2f} C",
      figures.volume_ml, figures.mass_g, figures.abv_percent, figures.sugar_g_per_100ml,
      figures.acid_g_per_100ml, figures.density_g_per_ml, figures.temperature_c);
}

void show(std::string& out, const std::vector<Entry>& entries) {
  for (const auto& entry : entries) {
    out += fmt::format("  {}", entry.name);
    if (entry.mass_g) out += fmt::format(" {:.4f} g", *entry.mass_g);
    if (entry.volume_ml) out += fmt::format(" {:.4f} ml", *entry.volume_ml);
    if (entry.solved) out += " (worked out)";
    if (entry.optional) out += " (optional)";
    out += '\n';
  }
}

void show(std::string& out, const Allergens& allergens) {
  out += "  allergens:";
  for (const auto& route : allergens.routes) out += fmt::format(" {}{}", route.may ? "may:" : "", route.code);
  out += allergens.known ? "\n" : " (not all known)\n";
}

}  // namespace

std::string dump(const HouseFacts& facts, const analysis::Specs& specs, const units::UnitTable&) {
  std::string out;
  for (const auto& stock : facts.stock) {
    const auto& declared = specs[stock.stock];
    if (declared.head.from_library) continue;
    out += fmt::format("{} {}{}\n", declared.is_prep ? "prep" : "ingredient", declared.head.name,
                       stock.valid ? "" : " (in error)");
    out += fmt::format("  {:.3f} % abv, sugar {:.3f}, acid {:.4f} g/100 ml, {:.5f} g/ml\n", stock.abv_percent,
                       stock.sugar_g_per_100ml, stock.acid_g_per_100ml, stock.density_g_per_ml);
    if (declared.is_prep) {
      out += fmt::format("  makes {:.3f} ml, {:.3f} g, loss {:.2f} %\n", stock.yield_ml, stock.yield_g,
                         stock.loss_percent);
      show(out, stock.entries);
    }
    show(out, stock.allergens);
  }
  for (const auto& drink : facts.drinks) {
    const auto& declared = specs[drink.drink];
    if (declared.head.from_library) continue;
    out += fmt::format("drink {}{}\n  mixed {}\n  served {}\n", declared.head.name,
                       drink.valid ? "" : " (in error)", show(drink.mixed), show(drink.served));
    out += fmt::format("  dilution {:.2f} %, foam {:.2f} ml, ice {:.1f} g, level {:.2f} ml\n",
                       drink.dilution_percent, drink.in_glass.foam_ml, drink.in_glass.ice_g,
                       drink.in_glass.level_ml);
    show(out, drink.entries);
    show(out, drink.allergens);
  }
  return out;
}

}  // namespace gill::model
