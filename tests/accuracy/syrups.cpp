#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <string>

#include "accuracy/table.h"
#include "unit/driver/house_fixture.h"

// The arithmetic of syrups, through the language: each row is a prep of a house.

using namespace gill;
using namespace gill::accuracy;

namespace {

std::unique_ptr<driver::Compilation> prep(const std::string& lines) {
  auto house = test::compile(
      "ingredient pure sugar\n  kind sweetener\n  sugar 100 % w/w\n  allergen none\n\nprep syrup here\n" +
      lines + "  dissolve\n  keeps 14 d chilled\n");
  CHECK_FALSE(house->has_errors());
  return house;
}

const model::StockFacts& syrup(const driver::Compilation& house) { return test::stock(house, "syrup here"); }

}  // namespace

TEST_CASE("sugar and water by weight come to the brix, density and content of the sugar table",
          "[accuracy]") {
  // ICUMSA Methods Book, SPS-4: 50 brix 1229.65 kg/m3, 60 brix 1286.61, 66.67 brix 1326.75, 40 brix 1176.52.
  // The library's white sugar holds a tenth of a gram of water in 100: 0.07 brix, 0.4 kg/m3 and 0.12 g in 100
  // ml are that.
  struct Row {
    const char* label;
    int sugar_g, water_g;
    double brix, kg_per_m3, g_per_100_ml;
  };
  constexpr std::string_view title = "ICUMSA Methods Book, SPS-4, sucrose density";
  Table brix({"syrups-brix", title, "brix of syrups made by weight", "brix"}, within(0.1));
  Table density({"syrups-density", title, "density of syrups made by weight", "kg/m3"}, within(0.5));
  Table content({"syrups-content", title, "sugar in 100 ml of syrups made by weight", "g/100 ml"},
                within(0.15));
  for (const Row& row :
       {Row{"2:3", 400, 600, 40, 1176.52, 47.061}, Row{"1:1", 500, 500, 50, 1229.65, 61.483},
        Row{"3:2", 600, 400, 60, 1286.61, 77.197}, Row{"2:1", 1000, 500, 200.0 / 3, 1326.75, 88.451}}) {
    const auto house = prep(fmt::format("  {} g white sugar\n  {} g water\n", row.sugar_g, row.water_g));
    brix.add(row.label, row.brix, syrup(*house).brix);
    density.add(row.label, row.kg_per_m3, 1e3 * syrup(*house).density_g_per_ml);
    content.add(row.label, row.g_per_100_ml, syrup(*house).sugar_g_per_100ml);
  }
  brix.check();
  density.check();
  content.check();
}

TEST_CASE("a syrup's yield is its mass over the density of the sugar table", "[accuracy]") {
  // 2 kg of 50 brix at 1229.65 kg/m3 and 1.5 kg of 66.67 brix at 1326.75: a kilogram of sugar fills about
  // 0.63 l.
  Table table(
      {"syrups-yield", "ICUMSA Methods Book, SPS-4, sucrose density", "yield of the library's syrups", "ml"},
      within_percent(0.05));
  const auto house = test::compile("house H\n");
  table.add("simple syrup, 1 kg and 1 kg", 2000 / 1.22965, test::stock(*house, "simple syrup").yield_ml);
  table.add("rich syrup, 1 kg and 500 g", 1500 / 1.32675, test::stock(*house, "rich syrup").yield_ml);
  table.check();
}

TEST_CASE("a syrup brought to a brix takes the sugar or the water that the proportion says", "[accuracy]") {
  // Of pure sugar: to 1 kg of water for 50 brix 1 kg. Water to 300 g of it for 60 brix 200 g, and to a 2:1
  // syrup of 900 g for 50 brix 300 g.
  Table table({"syrups-until", "Arithmetic of mass per cent", "what `until sugar N brix` adds", "g"},
              within(0.001));
  struct Row {
    const char* label;
    const char* lines;
    std::size_t entry;
    double g;
  };
  for (const Row& row : {Row{"sugar into 1 kg of water, to 50 brix",
                             "  1 kg water\n  until sugar 50 brix pure sugar\n", 1, 1000},
                         Row{"water onto 300 g of sugar, to 60 brix",
                             "  300 g pure sugar\n  until sugar 60 brix water\n", 1, 200},
                         Row{"water into 900 g of rich syrup, to 50 brix",
                             "  600 g pure sugar\n  300 g water\n  until sugar 50 brix water\n", 2, 300}}) {
    const auto house = prep(row.lines);
    table.add(row.label, row.g, syrup(*house).entries.at(row.entry).mass_g.value());
  }
  table.check();
}

TEST_CASE("a syrup of equal volumes is weaker than one of equal weights", "[accuracy]") {
  // Granulated sugar weighs 0.80 to 0.90 g/ml in a cup, 0.85 as a rule (common practice, no source): equal
  // volumes give 46 brix and 1208 kg/m3, where equal weights give 50.
  const auto house = test::compile(
      "ingredient cup sugar\n  kind sweetener\n  sugar 100 % w/w\n  density 0.85 g/ml\n  allergen none\n\n"
      "prep syrup here\n  250 ml cup sugar\n  250 ml water\n  dissolve\n  keeps 14 d chilled\n");
  Table brix({"syrups-by-volume-brix", "Common practice, no source (sugar 0.85 g/ml in a cup)",
              "syrup of equal volumes", "brix"},
             within(0.2));
  brix.add("1:1 by volume", 46, syrup(*house).brix);
  brix.check();
  Table density(
      {"syrups-by-volume-density", "Common practice; density by ICUMSA", "syrup of equal volumes", "kg/m3"},
      within(1));
  density.add("1:1 by volume", 1208, 1e3 * syrup(*house).density_g_per_ml);
  density.check();
}

TEST_CASE("honey is as heavy as the honey table says, and its syrup is half of its sugar", "[accuracy]") {
  const auto house = test::compile("house H\n");
  // Density at 20 °C against water, 1.423 at 17 % of water and 1.417 at 18 %: product data of honey packers.
  Table density({"syrups-honey-density", "Product data of honey packers, 17 to 18 % of water",
                 "density of honey", "g/ml"},
                within(0.005));
  density.add_range("honey", 1.417 * 0.9982, 1.423 * 0.9982, test::stock(*house, "honey").density_g_per_ml);
  density.check();
  // 81 to 82 g of sugar in 100 g of honey (the same): 40.5 to 41 in a syrup of equal weights.
  Table sugar({"syrups-honey-sugar", "Product data of honey packers, 17 to 18 % of water",
               "sugar of a 1:1 honey syrup", "brix"},
              within(0.3));
  sugar.add_range("honey syrup", 40.5, 41, test::stock(*house, "honey syrup").brix);
  sugar.check();
}
