#include <fmt/format.h>
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>

#include "accuracy/quoted_figures.h"
#include "accuracy/table.h"
#include "unit/driver/house_fixture.h"

// The library's own lines held against the figures that their sources quote: a source that says 17.9 g of
// water stands at an entry that has 17.9 g of water. (The figures themselves are held against the outside
// table where that is at hand: nutrition_table.cpp.)

using namespace gill;
using namespace gill::accuracy;
using model::Component;

namespace {

// A quoted figure is met within 5 % of itself or half a gram, or within the entry's own ±.
constexpr double share_of_figure = 0.05;
constexpr double rounding_g = 0.5;

/// Grams of it in 100 g of the entry; nothing where a line of its own tells it and the masses do not
/// (`starch`, `fibre` and `ash` are parts of the rest).
double grams_of(const analysis::Stock& stock, const model::StockFacts& facts, const std::string& part) {
  const model::Masses masses = facts.composition.of_grams(100);
  auto stated = [](const std::optional<units::Quantity>& line) { return line ? 100 * line->number() : 0.0; };
  if (part == "sugar") return masses[Component::sugar];
  if (part == "fat") return masses[Component::fat];
  if (part == "protein") return masses[Component::protein];
  if (part == "water") return masses[Component::water];
  if (part == "salt") return masses[Component::salt];
  if (part == "starch") return stated(stock.starch);
  if (part == "fibre") return stated(stock.fibre);
  return stated(stock.ash);
}

}  // namespace

TEST_CASE("entries of the library hold what their sources say", "[accuracy]") {
  const auto house = test::compile("house H\n");
  Table table({"library_sources", "Standard library: the figures that its sources quote",
               "entry against its source", "g/100 g"},
              within(rounding_g));
  std::size_t quoted = 0;
  for (std::size_t i = 0; i < house->specs.stock.size(); ++i) {
    const auto& stock = house->specs.stock[i];
    if (stock.is_prep || !stock.head.from_library || stock.head.source.starts_with("as ")) continue;
    const auto& facts = house->facts.stock[i];
    for (const auto& figure : quoted_figures(stock.head.source)) {
      double share = share_of_figure;
      if (figure.part == "sugar") share = std::max(share, facts.sugar_tolerance);
      table.add(fmt::format("{}: {} ({})", stock.head.name, figure.part, figure.code), figure.g,
                grams_of(stock, facts, figure.part), {rounding_g, share});
      ++quoted;
    }
  }
  CHECK(quoted > 60);
  table.check();
}
