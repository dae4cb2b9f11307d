// Whatever stands in a file, reading it ends in time and every finding has a place and words. The time limit
// is the one that ctest gives each of these.
#include <fmt/format.h>
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <numeric>
#include <random>

#include "diagnostics/render.h"
#include "support/fixture.h"
#include "support/sanitized.h"

using gill::testing::compile;
using gill::testing::compile_alone;
using gill::testing::Compiled;
using gill::testing::findings;

namespace {

/// Holds every finding to what a reader may count on.
void check_findings(const Compiled& compiled) {
  for (const auto& finding : compiled.sink.all()) {
    const auto& file = compiled.sources[finding.span.file_id];
    INFO(gill::diagnostics::info(finding.rule).name << ": " << finding.message);
    REQUIRE(finding.span.begin <= finding.span.end);
    REQUIRE(finding.span.end <= file.text.size());
    auto place = file.place_of(finding.span);
    REQUIRE(place.line >= 1);
    REQUIRE(place.line <= file.line_starts.size());
    REQUIRE(place.column >= 1);
    REQUIRE(place.length >= 1);
    REQUIRE_FALSE(finding.message.empty());
    REQUIRE_FALSE(finding.help.empty());
  }
  auto text = gill::diagnostics::render_text(compiled.sink.all(), compiled.sources, true);
  auto json = gill::diagnostics::render_json(compiled.sink.all(), compiled.sources);
  REQUIRE(text.empty() == compiled.sink.all().empty());
  REQUIRE_FALSE(json.empty());
}

/// The same without the library, which is much quicker.
Compiled survives_alone(const std::string& text) {
  auto compiled = compile_alone(text);
  check_findings(compiled);
  return compiled;
}

Compiled survives(const std::string& text) {
  auto compiled = compile(text);
  check_findings(compiled);
  return compiled;
}

std::string repeated(std::string_view piece, std::size_t bytes) {
  std::string text;
  text.reserve(bytes + piece.size());
  while (text.size() < bytes) text += piece;
  return text;
}

/// `count` pieces made by a function of their number.
template <typename Make>
std::string many(int count, Make make) {
  std::string text;
  for (int i = 0; i < count; ++i) text += make(i);
  return text;
}

constexpr std::size_t two_megabytes = gill::testing::size_of_test(2000000);
// Long enough that a step which looks at each word for each word would take minutes.
constexpr std::size_t long_line = gill::testing::size_of_test(300000);

}  // namespace

// ---- small and odd

TEST_CASE("files that hold next to nothing are read", "[robustness]") {
  for (const std::string& text : {std::string(),
                                  std::string("\xef\xbb\xbf"),
                                  std::string("\n"),
                                  std::string("\r\n"),
                                  std::string("\r"),
                                  std::string("drink X"),
                                  std::string("drink X\n  60 ml"),
                                  std::string("\xef\xbb\xbf\xef\xbb\xbf"),
                                  std::string("|"),
                                  std::string("#"),
                                  std::string("\""),
                                  std::string(" "),
                                  std::string("\t"),
                                  std::string("drink"),
                                  std::string("drink \n"),
                                  std::string("like"),
                                  std::string("drink X like"),
                                  std::string("unit"),
                                  std::string("unit ="),
                                  std::string("unit x ="),
                                  std::string("unit x = ="),
                                  std::string("house\n  "),
                                  std::string("menu M\n  section")}) {
    INFO('"' << text << '"');
    survives(text);
  }
}

TEST_CASE("zero bytes, broken UTF-8 and control characters anywhere are bad lines", "[robustness]") {
  const std::string house = "drink X\n  60 ml rye whiskey\n  | text\n  # comment\n  guest \"text\"\n";
  for (const std::string& bad : {std::string(1, '\0'), std::string("\xff"), std::string("\xc3"),
                                 std::string("\xed\xa0\x80"), std::string("\xf8\x88\x80\x80\x80"),
                                 std::string("\x1b"), std::string("\x7f"), std::string("\xc2\x85")}) {
    for (std::size_t at = 0; at <= house.size(); ++at) {
      std::string text = house;
      text.insert(at, bad);
      auto compiled = survives_alone(text);
      REQUIRE(findings(compiled).size() >= 1);
    }
  }
}

TEST_CASE("every line of the page's forms cut off anywhere is read", "[robustness]") {
  for (const std::string& line : {std::string("3/4 oz = 22.5 ml     lemon juice, or lime juice, at 4 C"),
                                  std::string("until acid 6 % w/v   2 parts citric acid, 1 part malic acid"),
                                  std::string("to 1 l water, hot"),
                                  std::string("shake 10..12 s with 4 cubes, hard"),
                                  std::string("expect allergens egg, nuts: almond"),
                                  std::string("batched rye whiskey, with water, bottle 750 ml"),
                                  std::string("allow raw-egg because \"it is said\""),
                                  std::string("swap rye whiskey -> 10 ml aged rum"),
                                  std::string("tasted 2026-01-05 Good."),
                                  std::string("glass coupe, chilled"),
                                  std::string("60 ml ± 3 % rye whiskey"),
                                  std::string("remove water, keeping 1 %"),
                                  std::string("cool to 4 C within 2 h"),
                                  std::string("gives 45 ml lemon juice, 9 g lemon peel"),
                                  std::string("buy 6 x 700 ml for 171 EUR from Quay Supply, code 4471"),
                                  std::string("shape 60 mm at 0 mm, 80 mm at 90 mm"),
                                  std::string("runs 2026-09-15 .. 2026-12-01"),
                                  std::string("X at 14 EUR, sells 40, Fri 60"),
                                  std::string("rye whiskey 700 ml for 28.50 EUR"),
                                  std::string("rate 1 USD = 0.92 EUR"),
                                  std::string("show ml, oz"),
                                  std::string("measures 60 ml, 45 ml"),
                                  std::string("tax 20 % included"),
                                  std::string("method anew")}) {
    std::string text = "drink Y\n";
    for (const char* header : {"drink X like Y", "prep P", "ingredient I", "house", "glass G", "ice C",
                               "family F", "prices R", "menu M"}) {
      text += std::string(header) + "\n";
      for (std::size_t length = 1; length <= line.size(); ++length) {
        // Not in the middle of a letter.
        if (length < line.size() && (static_cast<unsigned char>(line[length]) & 0xc0) == 0x80) continue;
        text += "  " + line.substr(0, length) + "\n";
      }
    }
    survives(text);
  }
}

// ---- long lines

TEST_CASE("a line of two megabytes of one thing is read", "[robustness]") {
  for (std::string_view piece :
       {"a",   "a ",    "1",     "1 ",    "1/",     ",",   ", ",   "\"",    "(",
        ".",   "..",    "-",     "->",    "± ",     "½",   "“",    "%",     ":",
        "= ",  "#",     " #",    "é",     "柚",     "1,1", "1-1 ", "9:9 ",  "2026-01-01 ",
        "or ", "a or ", "like ", "at 1 ", "for 1 ", "s ",  "ml ",  "\u00a0"}) {
    INFO(piece);
    survives("drink X\n  " + repeated(piece, two_megabytes) + "\n");
  }
}

TEST_CASE("a very long header is read", "[robustness]") {
  for (std::string_view piece : {"a", "a ", "like ", "a like ", "= ", "1 ml ", "\"a\" "}) {
    INFO(piece);
    survives("drink " + repeated(piece, long_line) + "\n");
    survives("unit x = " + repeated(piece, long_line) + "\n");
  }
}

TEST_CASE("a very long amount is read", "[robustness]") {
  for (const char* begin :
       {"60 ml ", "60 ml a", "60 ml honey syrup or ", "until acid 6 % w/v 1 part ", "60 ml rye whiskey, "})
    for (std::string_view piece : {"a ", "or a ", "or ", ", ", "1 part water, ", "1 ", "at 4 C, "}) {
      INFO(begin << piece);
      survives(std::string("drink X\n  ") + begin + repeated(piece, long_line) + "\n");
    }
}

TEST_CASE("a very long property or step is read", "[robustness]") {
  for (const char* begin :
       {"smoke lemon ", "do ", "do a, ", "garnish ", "batched ", "swap ", "without ", "tag ", "guest ",
        "expect allergens ", "shake 12 s, ", "shake with ", "allow raw-egg because ", "glass coupe, "})
    for (std::string_view piece : {"1 ", "a, ", "1, "}) {
      INFO(begin << piece);
      survives(std::string("drink Y\ndrink X like Y\n  ") + begin + repeated(piece, long_line) + "\n");
    }
}

TEST_CASE("a very long line of a house, a glass, a menu or a price list is read", "[robustness]") {
  for (const char* begin : {"house\n  measures ", "house\n  show ", "glass G\n  shape ",
                            "ingredient I\n  aka ", "ingredient I\n  allergen ", "ingredient I\n  gives ",
                            "menu M\n  ", "prices P\n  ", "menu M\n  section "})
    for (std::string_view piece : {"1 ml, ", "a, ", "a ", "egg, ", "1 mm at 1 mm, ", "at 1 ", "1 x "}) {
      INFO(begin << piece);
      survives(begin + repeated(piece, long_line) + "\n");
    }
}

// ---- many declarations

TEST_CASE("20,000 declarations are read", "[robustness]") {
  auto compiled = survives(many(20000, [](int i) {
    return fmt::format("drink D{0}\n  60 ml rye whiskey\n  shake 12 s\n  strain\n", i);
  }));
  CHECK(findings(compiled).empty());
  CHECK(compiled.specs.drinks.size() == 20000);
}

TEST_CASE("20,000 ingredients with aliases are read", "[robustness]") {
  auto compiled = survives(
      many(20000, [](int i) { return fmt::format("ingredient i{0}\n  kind syrup\n  aka a{0}, b{0}\n", i); }));
  CHECK(findings(compiled).empty());
}

TEST_CASE("a chain of 20,000 likes is read, whichever end comes first", "[robustness]") {
  auto forward =
      survives("drink D0\n  60 ml rye whiskey\n  shake 12 s\n" + many(20000, [](int i) {
                 return fmt::format("drink D{} like D{}\n  {} ml rye whiskey\n", i + 1, i, i % 60 + 1);
               }));
  CHECK(findings(forward).empty());
  CHECK(forward.drink("D20000").recipe.order.size() == 2);
  auto backward = survives(many(20000, [](int i) { return fmt::format("drink D{} like D{}\n", i, i + 1); }) +
                           "drink D20000\n  60 ml rye whiskey\n");
  CHECK(findings(backward).empty());
  CHECK(backward.drink("D0").recipe.order.size() == 1);
}

TEST_CASE("a circle of 20,000 likes is one finding", "[robustness]") {
  auto compiled =
      survives(many(20000, [](int i) { return fmt::format("drink D{} like D{}\n", i, (i + 1) % 20000); }));
  CHECK(findings(compiled).size() == 1);
}

TEST_CASE("what 20,000 likes bring is bounded", "[robustness]") {
  std::string ingredients =
      many(2000, [](int i) { return fmt::format("ingredient i{}\n  kind spirit\n", i); });
  std::string base = "drink B\n" + many(900, [](int i) { return fmt::format("  1 ml i{}\n", i); });
  std::string copies = many(20000, [](int i) { return fmt::format("drink D{} like B\n", i); });
  std::string chain = "drink C0\n" + many(20000, [](int i) {
                        return fmt::format("drink C{} like C{}\n  1 ml i{}\n", i + 1, i, i % 2000);
                      });
  for (const std::string& text : {ingredients + base + copies, ingredients + chain}) {
    auto compiled = survives(text);
    CHECK_FALSE(findings(compiled).empty());
    std::size_t lines = 0;
    for (const auto& drink : compiled.specs.drinks)
      lines += drink.recipe.amounts.size() + drink.recipe.steps.size();
    CHECK(lines < 400000);
  }
}

TEST_CASE("amounts that a chain of likes takes out again do not pile up", "[robustness]") {
  auto compiled =
      survives("drink D0\n  30 ml white rum\n" + many(5000, [](int i) {
                 return fmt::format("drink D{} like D{}\n  without {}\n  30 ml {}\n", i + 1, i,
                                    i % 2 ? "aged rum" : "white rum", i % 2 ? "white rum" : "aged rum");
               }));
  CHECK(findings(compiled).empty());
  CHECK(compiled.drink("D5000").recipe.amounts.size() < 5);
}

TEST_CASE("price lists and menus that are like each other are bounded", "[robustness]") {
  auto lists = survives(many(3000, [](int i) { return fmt::format("ingredient i{}\n  kind spirit\n", i); }) +
                        "prices P0\n" + many(3000, [](int i) {
                          return fmt::format("prices P{} like P{}\n  i{} 1 l for 1 EUR\n", i + 1, i, i);
                        }));
  std::size_t prices = 0;
  for (const auto& list : lists.specs.price_lists) prices += list.prices.size();
  CHECK(prices < 400000);
  auto menus = survives("drink X\nmenu M0\n" + many(3000, [](int i) {
                          return fmt::format("menu M{} like M{}\n  X at 1 EUR\n", i + 1, i);
                        }));
  std::size_t entries = 0;
  for (const auto& menu : menus.specs.menus)
    for (const auto& section : menu.sections) entries += section.entries.size();
  CHECK(entries < 400000);
}

TEST_CASE("5,000 preps, each of the one before, are read", "[robustness]") {
  auto compiled = survives("prep p0\n  1 l water\n" + many(5000, [](int i) {
                             return fmt::format("prep p{}\n  1 l p{}\n  stir 1 min\n", i + 1, i);
                           }));
  CHECK(findings(compiled).empty());
}

TEST_CASE("20,000 units, each defined by the next, are read in any order", "[robustness]") {
  std::vector<int> order(20000);
  std::iota(order.begin(), order.end(), 0);
  auto house = [&] {
    std::string text = "unit u20000 = 1 ml\n";
    for (int i : order) text += fmt::format("unit u{} = 1 u{}\n", i, i + 1);
    return text;
  };
  CHECK(findings(survives(house())).empty());
  std::reverse(order.begin(), order.end());
  CHECK(findings(survives(house())).empty());
  std::shuffle(order.begin(), order.end(), std::mt19937(1));
  auto compiled = survives(house());
  CHECK(findings(compiled).empty());
  CHECK(compiled.units[compiled.units.find("u0")].factor == 1);
}

TEST_CASE("units that grow without end are refused", "[robustness]") {
  auto compiled =
      survives("unit u0 = 99999999999999999999999999999999999999 ml\n" + many(5000, [](int i) {
                 return fmt::format("unit u{} = 99999999999999999999999999999999999999 u{}\n", i + 1, i);
               }));
  CHECK(findings(compiled).size() == 1);
}

TEST_CASE("20,000 unknown names among 20,000 known ones are met in time", "[robustness]") {
  auto compiled = survives(
      many(20000, [](int i) { return fmt::format("ingredient some ingredient {}\n  kind syrup\n", i); }) +
      many(20000, [](int i) {
        return fmt::format("drink D{}\n  1 ml smoe ingredeint {}x\n  1 mlx honey\n  galss coupe\n", i, i);
      }));
  CHECK(findings(compiled).size() == 60000);
}

TEST_CASE("20,000 duplicates are met in time", "[robustness]") {
  CHECK(findings(survives(repeated("drink X\n", 8 * 20000))).size() == 19999);
}

TEST_CASE("a drink of 20,000 lines is read or refused by its limit", "[robustness]") {
  auto amounts = survives("drink X\n" + repeated("  1 ml rye whiskey\n", 19 * 20000));
  CHECK(amounts.drink("X").recipe.order.size() == 1000);
  // Told once, with the limit.
  CHECK(findings(amounts).size() == 1);
  survives("drink X\n" + repeated("  shake 1 s\n", 12 * 20000));
  survives("drink X\n" + repeated("  shaek 1 s\n", 12 * 20000));
  survives("drink X\n" + repeated("  | text\n", 9 * 20000));
  survives("drink X\n" + repeated("  garnish none\n", 15 * 20000));
  survives("menu M\n" + repeated("  section S\n", 12 * 20000));
  survives("ingredient I\n" + repeated("  buy 1 l for 1 EUR\n", 20 * 20000));
}

// ---- numbers

TEST_CASE("absurd numbers are read or said to be so", "[robustness]") {
  const std::string nines(38, '9'), zeros = "0." + std::string(36, '0') + "1",
                                    hair = "1/" + std::string(37, '9');
  for (const std::string& number :
       {nines, zeros, hair, std::string(39, '9'), std::string("0"), std::string("0/1"), std::string("1/0"),
        std::string("0.0"), std::string("00000000000000000000000000000001"), nines + ".." + nines,
        zeros + ".." + nines, "1.." + nines, std::string("-") + nines, std::string("½½"),
        std::string("1 1/2 1/2"), std::string("..")}) {
    INFO(number);
    std::string text = "house\n";
    for (const char* line :
         {"measures {} ml", "room {} C", "strongest {} g", "tax {} % added", "pour cost {} %",
          "gross profit {} %", "rate {} USD = {} EUR", "round prices to {}", "ounce {} ml"})
      text += "  " + fmt::format(fmt::runtime(line), number, number) + "\n";
    text += fmt::format("unit blob = {} ml ± {} %\ningredient I\n  kind syrup\n", number, number);
    for (const char* line :
         {"strength {} % abv", "sugar {} % w/w", "acid {} g/l", "density {} g/ml", "each {} g", "fizz {} vol",
          "pH {}", "keeps {} y", "buy {} l for {} EUR", "waste {} %"})
      text += "  " + fmt::format(fmt::runtime(line), number, number) + "\n";
    text += "drink X\n";
    for (const char* line :
         {"{} ml rye whiskey ", "{} ml ± {} ml cream", "{} blobs milk", "shake {} s with {} cubes",
          "serves {}", "size {} ml", "throw {}", "expect units {}", "until sugar {} brix white sugar",
          "{} F water", "60 ml milk, at {} F", "heat to {} K", "alcohol {} %"})
      text += "  " + fmt::format(fmt::runtime(line), number, number) + "\n";
    auto compiled = survives(text);
    gill::analysis::dump(compiled.specs, compiled.units);
  }
}

// ---- noise

namespace {

std::string demo_text() {
  static const std::string text = [] {
    std::string all;
    for (const auto& [path, text_of_file] : gill::testing::texts_in("specs")) all += text_of_file;
    return all;
  }();
  return text;
}

std::size_t below(std::mt19937& random, std::size_t bound) {
  return std::uniform_int_distribution<std::size_t>(0, bound - 1)(random);
}

/// One of a few small changes somewhere in the text.
void mutate(std::string& text, std::mt19937& random) {
  static const std::vector<std::string> tokens = {
      " ",  "\n",       "\n  ", "\"",     "|",     "#",      ",",      "..", "±", "1/2", "½",
      "-",  "like ",    "or ",  "at ",    "with ", "60 ml ", "oz",     "%",  "=", "->",  ":",
      "\t", "\xc2\xa0", "\xff", "until ", "to ",   "swap ",  "about ", "(",  "“"};
  std::size_t at = below(random, text.size());
  std::size_t length = std::min(text.size() - at, below(random, 40) + 1);
  switch (below(random, 6)) {
    case 0:
      text.erase(at, length);
      break;
    case 1:
      text.insert(at, tokens[below(random, tokens.size())]);
      break;
    case 2:
      text[at] = static_cast<char>(below(random, 256));
      break;
    case 3:
      text.insert(below(random, text.size()), text.substr(at, length));
      break;
    case 4:
      text.replace(at, length, tokens[below(random, tokens.size())]);
      break;
    case 5:
      std::swap(text[at], text[below(random, text.size())]);
      break;
  }
}

}  // namespace

TEST_CASE("a line of nothing but mistakes is told by its first twenty", "[robustness]") {
  auto compiled = compile_alone("drink X\n  batched " + repeated("nothing, ", 9000) + "nothing\n");
  CHECK(findings(compiled).size() == 20);
}

TEST_CASE("random bytes are read", "[robustness]") {
  std::mt19937 random(20260115);
  for (int round = 0; round < gill::testing::rounds(60); ++round) {
    std::string text(below(random, 4000), ' ');
    for (char& c : text) c = static_cast<char>(below(random, 256));
    INFO("round " << round);
    survives(text);
  }
}

TEST_CASE("random letters of the language are read", "[robustness]") {
  std::mt19937 random(20260116);
  const std::string letters = "drink prep\n\n\n\n  60 ml oz %,,..=:\"|#½±-/x1234567890shake with likegarnish";
  for (int round = 0; round < gill::testing::rounds(60); ++round) {
    std::string text = "drink X\n";
    for (std::size_t i = below(random, 4000); i > 0; --i) text += letters[below(random, letters.size())];
    INFO("round " << round);
    survives(text);
  }
}

TEST_CASE("the demo house with a few things changed anywhere is read", "[robustness]") {
  for (unsigned seed = 0; seed < static_cast<unsigned>(gill::testing::rounds(60)); ++seed) {
    std::mt19937 random(seed);
    std::string text = demo_text();
    for (std::size_t changes = below(random, 60) + 1; changes > 0; --changes) mutate(text, random);
    INFO("seed " << seed);
    survives(text);
  }
}
