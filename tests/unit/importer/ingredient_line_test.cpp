#include "importer/ingredient_line.h"

#include <catch2/catch.hpp>

#include "unit/plan/plan_fixture.h"

using namespace gill;
using gill::testing::library;
using importer::leading_number;
using importer::read_ingredient_line;

namespace {

std::string number_of(std::string_view text) {
  auto number = leading_number(text);
  return number ? number->gill + "|" + std::string(text.substr(number->bytes)) : "none";
}

/// Whether a name of a line stands for that thing of the library.
bool is(const std::string& name, const std::string& stock) {
  const auto& names = library().compiled.names;
  auto one = names.find(symbols::NameSpace::stock, name);
  return one.valid() && one == names.find(symbols::NameSpace::stock, stock);
}

importer::IngredientLine line_of(const std::string& text) {
  auto line = read_ingredient_line(text, library().house);
  INFO(text);
  REQUIRE(line);
  return *line;
}

}  // namespace

TEST_CASE("a number at the start is read as people write it, and the rest is left") {
  struct Row {
    const char* text;
    const char* read;
  };
  for (const Row& row : {Row{"2 oz", "2| oz"},
                         Row{"  2 oz", "2| oz"},
                         Row{"12", "12|"},
                         Row{"1/2 oz", "1/2| oz"},
                         Row{"1 1/2 oz", "1 1/2| oz"},
                         Row{"1-1/2 oz", "1 1/2| oz"},
                         Row{"1½ oz", "1 1/2| oz"},
                         Row{"1 ½ oz", "1 1/2| oz"},
                         Row{"½ oz", "1/2| oz"},
                         Row{"⅚ oz", "5/6| oz"},
                         Row{"22.5 ml", "22.5| ml"},
                         Row{"22,5 ml", "22.5| ml"},
                         Row{".75 oz", "0.75| oz"},
                         Row{"2.", "2|."},
                         Row{"2,", "2|,"},
                         Row{"1/", "1|/"},
                         Row{"1/x", "1|/x"},
                         Row{"two dashes", "2| dashes"},
                         Row{"Half a lime", "1/2| a lime"},
                         Row{"a dash", "1| dash"},
                         Row{"an egg", "1| egg"},
                         Row{"ten", "none"},
                         Row{"apple", "none"},
                         Row{"anise 2", "none"},
                         Row{"", "none"},
                         Row{".", "none"},
                         Row{"-2", "none"},
                         Row{"1 2 3", "1| 2 3"}}) {
    INFO(row.text);
    CHECK(number_of(row.text) == row.read);
  }
}

TEST_CASE("a range is read with a dash, with `to` or with points, and never of fractions") {
  struct Row {
    const char* text;
    const char* read;
  };
  for (const Row& row :
       {Row{"2-3 dashes", "2..3| dashes"}, Row{"2 - 3 dashes", "2..3| dashes"},
        Row{"2–3 dashes", "2..3| dashes"}, Row{"2 — 3 dashes", "2..3| dashes"},
        Row{"2 to 3 dashes", "2..3| dashes"}, Row{"2..3 dashes", "2..3| dashes"},
        Row{"1.5-2 oz", "1.5..2| oz"}, Row{"1/2-3 oz", "1/2|-3 oz"}, Row{"2-½ oz", "2 1/2| oz"},
        Row{"2 to taste", "2| to taste"}, Row{"2-row malt", "2|-row malt"}, Row{"2 -", "2| -"}}) {
    INFO(row.text);
    CHECK(number_of(row.text) == row.read);
  }
}

TEST_CASE("a measure stands before or behind its name, with or without a bullet") {
  for (const char* text :
       {"30 ml vodka", "30ml vodka", "30 ml of vodka", "- 30 ml vodka", "* 30 ml vodka", "• 30 ml vodka",
        "30 ml vodka.", "30 ml vodka,", "vodka 30 ml", "vodka: 30 ml", "vodka - 30 ml", "Vodka – 30 ml",
        "vodka, 30 ml", "30 ML Vodka", "30 ml fresh vodka", "30 ml the vodka"}) {
    INFO(text);
    auto line = line_of(text);
    CHECK(line.number == "30");
    CHECK(base::lower_ascii(line.unit) == "ml");
    CHECK(base::lower_ascii(line.name) == "vodka");
    CHECK(line.remark.empty());
    CHECK(line.verb.empty());
    CHECK_FALSE(line.is_optional);
  }
}

TEST_CASE("a fraction slash, a plural in brackets and a point behind a unit are read over") {
  CHECK(line_of("1⁄2 oz vodka").number == "1/2");
  CHECK(line_of("2 dash(es) orange bitters").unit == "dash");
  CHECK(line_of("2 part(s) vodka").name == "vodka");
  CHECK(line_of("2 dash(es) orange bitters").name == "orange bitters");
  CHECK(line_of("2 oz. vodka").name == "vodka");
  CHECK(line_of("dash of orange bitters").number == "1");
  CHECK(line_of("dash of orange bitters").name == "orange bitters");
}

TEST_CASE("remarks stand in brackets or behind a comma, and what is optional says so in any way") {
  auto line = line_of("30 ml lemon juice (fresh) (cold)");
  CHECK(line.name == "lemon juice");
  CHECK(line.remark == "fresh; cold");
  CHECK(line_of("30 ml lemon juice, from the cold shelf").remark == "from the cold shelf");
  CHECK(line_of("30 ml lemon juice (fresh), from the shelf").remark == "fresh; from the shelf");
  for (const char* text : {"1 egg white, optional", "1 egg white optional", "1 egg white (optional)"}) {
    INFO(text);
    CHECK(line_of(text).is_optional);
    CHECK(line_of(text).name == "egg white");
    CHECK(line_of(text).remark.empty());
  }
}

TEST_CASE("a name is found behind praise, turned about, in the plural, or as one of two") {
  for (const char* text :
       {"30 ml lemon juice", "30 ml freshly squeezed lemon juice", "30 ml good cold lemon juice",
        "30 ml juice, lemon", "30 ml the lemon juice", "30 ml homemade lemon juice"}) {
    INFO(text);
    CHECK(is(line_of(text).name, "lemon juice"));
  }
  CHECK(line_of("30 ml whiskey, rye").name == "rye whiskey");
  CHECK(is(line_of("2 lemons").name, "lemon"));
  auto either = line_of("10 ml honey syrup or maple syrup");
  CHECK(either.name == "honey syrup");
  CHECK(either.substitute == "maple syrup");
  CHECK(line_of("10 ml honey syrup or moon dust").name.empty());
  CHECK(line_of("10 ml moon dust").name.empty());
  CHECK(line_of("10 ml moon dust").written_name == "moon dust");
}

TEST_CASE("a volume of fruit is its juice, and the juice of a fruit is what one gives") {
  CHECK(line_of("1 oz fresh lime").name == "lime juice");
  CHECK(line_of("1 lime").name == "lime");
  const auto& lime = library().compiled.stock("lime");
  double gives = 0;
  for (const auto& one : lime.gives)
    if (one.quantity.kind == units::Kind::volume && gives == 0) gives = one.quantity.number();
  REQUIRE(gives > 0);
  for (auto [text, share] : {std::pair{"juice of 1/2 lime", 0.5},
                             {"the juice of 2 limes", 2.0},
                             {"Juice of a lime", 1.0},
                             {"juice from 1 lime", 1.0}}) {
    INFO(text);
    auto line = line_of(text);
    CHECK(line.name == "lime juice");
    CHECK(line.unit == "ml");
    CHECK(base::to_double(*base::parse_exact(line.number)) == Approx(share * gives).margin(0.01));
  }
}

TEST_CASE("what tops or rinses is told by words before or behind it") {
  for (const char* text :
       {"top with soda water", "Top up with soda water", "top soda water", "soda water to top",
        "soda water, to top", "soda water to top up", "fill with soda water"}) {
    INFO(text);
    CHECK(line_of(text).verb == "top");
    CHECK(line_of(text).name == "soda water");
  }
  for (const char* text : {"absinthe rinse", "absinthe, to rinse", "rinse of absinthe"}) {
    INFO(text);
    CHECK(line_of(text).verb == "rinse");
    CHECK(line_of(text).name == "absinthe");
  }
}

TEST_CASE("a line without a number is no ingredient") {
  for (const char* text : {"Shake and strain", "", "rye", "to taste"}) {
    INFO(text);
    CHECK_FALSE(read_ingredient_line(text, library().house));
  }
}
