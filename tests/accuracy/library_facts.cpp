#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>

#include "accuracy/table.h"
#include "unit/driver/house_fixture.h"

// The standard library held against itself: what it says of a thing must hang together, and say where it
// comes from.

using namespace gill;
using namespace gill::accuracy;

namespace {

const driver::Compilation& library() {
  static const auto house = test::compile("");
  return *house;
}

bool holds(std::string_view text, std::string_view part) { return text.find(part) != std::string_view::npos; }

/// What a source may rest on. Published works, by the words their titles have in the library.
constexpr std::array published = {"USDA SR27",          "IFCT 2017",     "Regulation (E",
                                  "Directive",          "CFR",           "NOM-006",
                                  "NIST Handbook 44",   "SI Brochure",   "Weights and Measures",
                                  "CRC Handbook",       "pH of Foods",   "ICUMSA",
                                  "OIML R 22",          "specification", "Specification",
                                  "Liquid Intelligence"};
constexpr std::array grounds = {"common practice",
                                "Common practice",
                                "from memory",
                                "trade tables",
                                "convention",
                                "apothecaries' measure",
                                "computed from list proportions",
                                "computed for three and four"};
/// Worked out from what the line itself states.
constexpr std::array arithmetic = {"g/mol", "molar masses", "mm: ", "cube of 32 mm"};

template <typename List>
bool holds_any(std::string_view text, const List& list) {
  return std::any_of(list.begin(), list.end(), [&](const char* part) { return holds(text, part); });
}

/// `as NAME`: where another thing of the library, which has a source of its own, is pointed to.
bool points_to_another(std::string_view source) {
  if (source.substr(0, 3) != "as ") return false;
  std::string_view name = source.substr(3);
  name = name.substr(0, name.find_first_of(";,:("));
  while (!name.empty() && name.back() == ' ') name.remove_suffix(1);
  return library().names.find(symbols::NameSpace::stock, name).valid();
}

bool says_where_from(std::string_view source) {
  return holds_any(source, published) || holds_any(source, grounds) || holds_any(source, arithmetic) ||
         points_to_another(source);
}

}  // namespace

TEST_CASE("every density of the library is that of its composition", "[accuracy]") {
  // By the model: OIML R 22 for alcohol, ICUMSA for sugar, partial volumes of the CRC Handbook for the rest.
  Table table({"library_facts-density", "Standard library: declared against worked out of the composition",
               "density of liquids", "g/ml"},
              within_percent(1.5));
  for (std::size_t i = 0; i < library().specs.stock.size(); ++i) {
    const auto& stock = library().specs.stock[i];
    if (stock.is_prep || !stock.density || stock.effective_form() != analysis::Form::liquid) continue;
    const auto& composition = library().facts.stock[i].composition;
    double declared = stock.density->number();
    table.add(stock.head.name, declared, declared * (1 + composition.density_disagreement));
  }
  table.check();
}

TEST_CASE("every source of the library names a published work, common practice, or memory", "[accuracy]") {
  std::size_t read = 0, from_published = 0, from_memory = 0;
  auto read_source = [&](const analysis::Head& head) {
    INFO(head.name << ": " << head.source);
    CHECK(says_where_from(head.source));
    ++read;
    from_published += holds_any(head.source, published) ? 1 : 0;
    from_memory += holds(head.source, "from memory") ? 1 : 0;
  };
  const auto& specs = library().specs;
  for (const auto& stock : specs.stock) read_source(stock.head);
  for (const auto& glass : specs.glasses) read_source(glass.head);
  for (const auto& ice : specs.ices) read_source(ice.head);
  for (const auto& family : specs.families) read_source(family.head);
  UNSCOPED_INFO(read << " sources: " << from_published << " name a published work, " << from_memory
                     << " are from memory in part or whole");
  CHECK(read > 600);
  CHECK(from_published > 200);
}

TEST_CASE("a source that says nothing is told from one that does", "[accuracy]") {
  CHECK(says_where_from("USDA SR27 09152 (sugar 2.52 g per 100 g)"));
  CHECK(says_where_from("as mint"));
  CHECK_FALSE(says_where_from("as no such thing"));
  CHECK_FALSE(says_where_from("a good book"));
  CHECK_FALSE(says_where_from(""));
}

TEST_CASE("beer, wine and coffee have the energy of the USDA table", "[accuracy]") {
  // USDA National Nutrient Database, release 27, rows 14003, 14096, 14106 and 14209, kcal in 100 g: from
  // memory. What is dissolved beside sugar (dextrins, extract) counts as carbohydrate by difference, as that
  // table has it.
  Table table(
      {"library_facts-energy", "National Nutrient Database, release 27, US Dept of Agriculture (memory)",
       "energy of 100 g of beer, wine, coffee", "kcal"},
      within_percent(5));
  auto energy_of_100_g = [](const std::string& name) {
    auto house = test::compile("drink A\n  100 g " + name + "\n");
    return test::drink(*house, "A").energy_kcal;
  };
  table.add("lager", 43, energy_of_100_g("lager"));
  table.add("dry red wine", 85, energy_of_100_g("dry red wine"));
  table.add("dry white wine", 82, energy_of_100_g("dry white wine"));
  table.add_outside("brewed coffee", 1, 1, energy_of_100_g("brewed coffee"), within(0.5),
                    "what is dissolved counts as carbohydrate here, and the table counts none of coffee's");
  table.check();
}
