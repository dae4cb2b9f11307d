// Whatever stands in a file: white space alone changes nothing that is read, and no spelling loses a comment,
// a text or a declaration. Thousands of damaged texts, read with a small pantry.
#include <catch2/catch.hpp>
#include <filesystem>
#include <random>

#include "support/fixture.h"
#include "support/tidy_check.h"

using namespace gill;

namespace {

const testing::FrontEnd& small_pantry() {
  static const testing::FrontEnd parsed = [] {
    testing::FrontEnd house;
    house.parse_files(testing::library_texts("units"), true);
    house.parse_files(testing::library_texts("ice"), true);
    house.parse_files({{"pantry.gill",
                        "glass coupe\n  holds 180 ml\n"
                        "ingredient London dry gin\n  kind spirit\n  strength 41 % abv\n"
                        "ingredient lemon juice\n  kind juice\n"
                        "ingredient mint\n  kind herb\n"}},
                      true);
    return house;
  }();
  return parsed;
}

/// Lines of every kind, some of them wrong.
const std::vector<std::string>& lines() {
  static const std::vector<std::string> all = {"drink A",
                                               "DRINK  B like A",
                                               "prep C",
                                               "house H",
                                               "unit thimble=7ml±5%",
                                               "menu M",
                                               "prices P",
                                               "glass g",
                                               "ice i",
                                               "ingredient London dry gin",
                                               "drnk D",
                                               "  60ml London dry gin",
                                               "\t3/4 oz=22.5ml  lemon juice # sharp",
                                               "  1½ oz. of lemon juice,chilled",
                                               "  8 mint leaves",
                                               "  2..3 dashes lemon juice",
                                               "  to 1l lemon juice",
                                               "  until acid 6%w/v lemon juice",
                                               "  shake 12s",
                                               "  shake and strain over ice",
                                               "  strain into a coupe",
                                               "  stir 30 s, then strain",
                                               "  absinthe rinse",
                                               "  rim salt",
                                               "  no garnish",
                                               "  garnish mint , \"so  so\"",
                                               "  serve  up",
                                               "  glass coupe",
                                               "  ice none",
                                               "  do  wait 10s,then  go",
                                               "  guest \"a  b\"",
                                               "  expect strength 10..12%abv",
                                               "  allow raw-egg because \"so\"",
                                               "  aka x , y",
                                               "  source  a  b",
                                               "  section  One",
                                               "    A at 9 EUR,sells 4",
                                               "    A 9 EUR",
                                               "  London dry gin 700ml for 20 EUR",
                                               "  runs 2026-01-01..2026-02-01",
                                               "  kind spirit",
                                               "  buy 6x700ml for 60 EUR",
                                               "  swap lemon juice→London dry gin",
                                               "  without lemon juice",
                                               "  method  anew",
                                               "# comment",
                                               "  #comment  two ",
                                               "|text",
                                               "  |  text ",
                                               "  |",
                                               "",
                                               "   ",
                                               "\t",
                                               "  60 nonsense of nothing",
                                               "  \xff",
                                               "  colour #D98C2B",
                                               "  rest overnight in the fridge",
                                               "  dissolve",
                                               "  heat to 75°C for 10min",
                                               "  keeps 3wk chilled",
                                               "  makes 1l",
                                               "  shape 20mm at 0mm,30 mm at 4mm"};
  return all;
}

std::string chance_text(std::mt19937& random) {
  auto below = [&](std::size_t n) { return std::uniform_int_distribution<std::size_t>(0, n - 1)(random); };
  static const std::vector<std::string> pieces = {" ",  "  ",       "\t", "\n", "#",    " # so", "|",
                                                  ",",  "\"",       "½",  "1",  " of ", "..",    "=",
                                                  "\r", "\xc2\xa0", "±",  "%",  ":"};
  std::string text = below(3) ? "drink Z\n" : below(2) ? "prep Z\n" : "";
  for (std::size_t count = 1 + below(12); count-- > 0;) {
    std::string line = lines()[below(lines().size())];
    if (below(4) == 0) line.insert(below(line.size() + 1), pieces[below(pieces.size())]);
    if (below(8) == 0 && !line.empty()) line.erase(below(line.size()), 1 + below(3));
    text += line + (below(20) ? "\n" : "\r\n");
  }
  return text;
}

}  // namespace

TEST_CASE("white space alone changes nothing that is read, and is put once") {
  std::mt19937 random(7);
  for (int round = 0; round < 1500; ++round) {
    std::string text = chance_text(random);
    INFO(text);
    INFO(testing::tidied(testing::read_with(small_pantry(), text), tidy::Extent::spaces));
    REQUIRE(testing::broken_by_spacing(small_pantry(), text) == "");
  }
}

TEST_CASE("no spelling loses a comment, a text or a declaration") {
  std::mt19937 random(11);
  for (int round = 0; round < 1000; ++round) {
    std::string text = chance_text(random);
    INFO(text);
    for (auto extent : {tidy::Extent::terms, tidy::Extent::forms}) {
      INFO(testing::tidied(testing::read_with(small_pantry(), text), extent));
      REQUIRE(testing::broken_by_spelling(small_pantry(), text, extent) == "");
    }
  }
}
