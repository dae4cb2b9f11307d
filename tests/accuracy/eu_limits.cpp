#include <catch2/catch.hpp>

#include <limits>
#include <string>

#include "accuracy/table.h"
#include "unit/driver/house_fixture.h"

// What European law asks of a spirit drink or a vermouth by its name. A library figure outside would be a
// drink that may not be sold as such.

using namespace gill;
using namespace gill::accuracy;

namespace {

constexpr double open = std::numeric_limits<double>::infinity();

}  // namespace

TEST_CASE("the library's spirits are as strong as the law asks of their names", "[accuracy]") {
  // Regulation (EU) 2019/787, Annex I, as summarised in public: least strength.
  const auto house = test::compile("house H\n");
  Table table({"eu_limits-spirits", "Regulation (EU) 2019/787, Annex I, European Union",
               "strength of spirits, below the least", "% vol"},
              within(0.001));
  for (const auto& [minimum, spirits] :
       {std::pair<double, std::vector<const char*>>{
            37.5,
            {"vodka", "London dry gin", "old tom gin", "navy strength gin", "white rum", "aged rum",
             "dark rum", "overproof rum", "pot still rum", "agricole rum"}},
        {36, {"brandy", "cognac", "armagnac"}},
        {40,
         {"bourbon whiskey", "rye whiskey", "Tennessee whiskey", "blended Scotch whisky",
          "single malt whisky", "peated whisky", "Irish whiskey", "Japanese whisky", "Canadian whisky"}}})
    for (const char* spirit : spirits)
      table.add_range(spirit, minimum, open, test::stock(*house, spirit).abv_percent);
  table.check();
}

TEST_CASE("the library's liqueurs are as strong and as sweet as the law asks of their names", "[accuracy]") {
  // The same Annex: a liqueur 15 % and 100 g/l; a crème 250 g/l, that of cassis 400; maraschino 24 % and 250
  // g/l.
  struct Row {
    const char* liqueur;
    double percent, g_per_l;
  };
  const auto house = test::compile("house H\n");
  constexpr std::string_view title = "Regulation (EU) 2019/787, Annex I, European Union";
  Table strength({"eu_limits-liqueurs-strength", title, "strength of liqueurs, below the least", "% vol"},
                 within(0.001));
  Table sugar({"eu_limits-liqueurs-sugar", title, "sugar of liqueurs, below the least", "g/l"}, within(0.01));
  for (const auto& [liqueur, percent, g_per_l] :
       {Row{"orange liqueur", 15, 100}, Row{"triple sec", 15, 100}, Row{"orange curaçao", 15, 100},
        Row{"amaretto", 15, 100}, Row{"coffee liqueur", 15, 100}, Row{"elderflower liqueur", 15, 100},
        Row{"green herbal liqueur", 15, 100}, Row{"yellow herbal liqueur", 15, 100},
        Row{"ginger liqueur", 15, 100}, Row{"limoncello", 15, 100}, Row{"bitter aperitivo", 15, 100},
        Row{"crème de cacao", 15, 250}, Row{"crème de menthe", 15, 250}, Row{"crème de violette", 15, 250},
        Row{"crème de mûre", 15, 250}, Row{"crème de pêche", 15, 250}, Row{"crème de banane", 15, 250},
        Row{"crème de cassis", 15, 400}, Row{"maraschino liqueur", 24, 250}}) {
    const model::StockFacts& facts = test::stock(*house, liqueur);
    strength.add_range(liqueur, percent, open, facts.abv_percent);
    sugar.add_range(liqueur, g_per_l, open, 10 * facts.sugar_g_per_100ml);
  }
  strength.check();
  sugar.check();
}

TEST_CASE("the library's vermouths are as strong and as sweet as the law asks of their names", "[accuracy]") {
  // Regulation (EU) No 251/2014, Annexes I and II, as summarised in the trade: 14.5 to 22 %; dry, below 50
  // g/l of sugar and 16 % at least; sweet, 130 g/l at least.
  const auto house = test::compile("house H\n");
  constexpr std::string_view title = "Regulation (EU) No 251/2014, aromatised wines, European Union";
  Table strength({"eu_limits-vermouth-strength", title, "strength of vermouths, beyond the limits", "% vol"},
                 within(0.001));
  for (const auto& [vermouth, minimum] : {std::pair{"sweet vermouth", 14.5},
                                          {"dry vermouth", 16.0},
                                          {"blanc vermouth", 14.5},
                                          {"rosé vermouth", 14.5}})
    strength.add_range(vermouth, minimum, 22, test::stock(*house, vermouth).abv_percent);
  strength.check();
  Table sugar({"eu_limits-vermouth-sugar", title, "sugar of vermouths, beyond the limits", "g/l"},
              within(0.01));
  sugar.add_range("dry vermouth", 0, 50, 10 * test::stock(*house, "dry vermouth").sugar_g_per_100ml);
  sugar.add_range("sweet vermouth", 130, open, 10 * test::stock(*house, "sweet vermouth").sugar_g_per_100ml);
  sugar.check();
}
