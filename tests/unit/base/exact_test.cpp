#include "base/exact.h"

#include <catch2/catch.hpp>
#include <string>

using gill::base::Exact;
using gill::base::parse_exact;
using gill::base::to_decimal;
using gill::base::to_fixed;
using gill::base::to_fraction;

TEST_CASE("a number may be a whole, a decimal or a fraction in any usual spelling", "[exact]") {
  CHECK(parse_exact("60") == Exact(60));
  CHECK(parse_exact("22.5") == Exact(45, 2));
  CHECK(parse_exact(".75") == Exact(3, 4));
  CHECK(parse_exact("3/4") == Exact(3, 4));
  CHECK(parse_exact("1 1/2") == Exact(3, 2));
  CHECK(parse_exact("½") == Exact(1, 2));
  CHECK(parse_exact("1½") == Exact(3, 2));
  CHECK(parse_exact("1 ½") == Exact(3, 2));
  CHECK(parse_exact("1\u00a0½") == Exact(3, 2));
  CHECK(parse_exact("007") == Exact(7));
  CHECK(parse_exact("0") == Exact(0));
}

TEST_CASE("a sign may be a hyphen or a minus", "[exact]") {
  CHECK(parse_exact("-18") == Exact(-18));
  CHECK(parse_exact("−18") == Exact(-18));
  CHECK(parse_exact("-1 1/2") == Exact(-3, 2));
}

TEST_CASE("every fraction of Unicode is its two numbers", "[exact]") {
  // The Unicode Standard, Number Forms and Latin-1 Supplement: the compatibility mappings.
  struct Row {
    const char* text;
    int above;
    int below;
  };
  for (const Row& row : {Row{"¼", 1, 4},
                         {"½", 1, 2},
                         {"¾", 3, 4},
                         {"⅐", 1, 7},
                         {"⅑", 1, 9},
                         {"⅒", 1, 10},
                         {"⅓", 1, 3},
                         {"⅔", 2, 3},
                         {"⅕", 1, 5},
                         {"⅖", 2, 5},
                         {"⅗", 3, 5},
                         {"⅘", 4, 5},
                         {"⅙", 1, 6},
                         {"⅚", 5, 6},
                         {"⅛", 1, 8},
                         {"⅜", 3, 8},
                         {"⅝", 5, 8},
                         {"⅞", 7, 8}}) {
    INFO(row.text);
    CHECK(parse_exact(row.text) == Exact(row.above, row.below));
  }
}

TEST_CASE("what is no number gives nothing", "[exact]") {
  for (const char* text : {"",        "-", ".",  "1.", "1,5", "1/0", "1 /2", "1/ 2", "1 1",  "1.5.2", "1 1/0",
                           "1.5 1/2", "x", "1x", "½½", "½ 1", "+1",  "--1",  "1e3",  "0x10", " 1",    "1 "}) {
    INFO('"' << text << '"');
    CHECK_FALSE(parse_exact(text));
  }
}

TEST_CASE("a number holds 38 digits and no more", "[exact]") {
  CHECK(parse_exact(std::string(38, '9')));
  CHECK_FALSE(parse_exact(std::string(39, '9')));
  CHECK(parse_exact("0." + std::string(37, '3')));
  CHECK_FALSE(parse_exact("0." + std::string(38, '3')));
  CHECK(parse_exact(std::string(19, '1') + "/" + std::string(19, '7')));
  CHECK_FALSE(parse_exact(std::string(19, '1') + "/" + std::string(20, '7')));
  CHECK_FALSE(parse_exact(std::string(100000, '1')));
}

TEST_CASE("numbers beyond a machine word add, multiply, divide and compare as small ones do", "[exact]") {
  Exact maximum = *parse_exact("9223372036854775807");
  CHECK(to_decimal(maximum + 1, 0) == "9223372036854775808");
  CHECK(maximum + 1 - 1 == maximum);
  CHECK(to_decimal(maximum * maximum, 0) == "85070591730234615847396907784232501249");
  CHECK(maximum * maximum / maximum == maximum);
  CHECK(maximum / maximum == Exact(1));
  CHECK(Exact(1) / maximum * maximum == Exact(1));
  CHECK(maximum < maximum + 1);
  CHECK(maximum + 1 > Exact(1));
  CHECK(-maximum - 1 < -maximum);
  CHECK(*parse_exact("1/9223372036854775807") - *parse_exact("1/9223372036854775806") < Exact(0));
  CHECK(*parse_exact("18446744073709551616") / *parse_exact("4294967296") == *parse_exact("4294967296"));
  CHECK(to_decimal(*parse_exact(std::string(38, '9')) * *parse_exact(std::string(38, '9')), 0) ==
        std::string(37, '9') + "8" + std::string(37, '0') + "1");
}

TEST_CASE("the digits of a number are those of its longer part", "[exact]") {
  using gill::base::digits_in;
  CHECK(digits_in(Exact(0)) <= 1);
  CHECK(digits_in(Exact(7)) == 1);
  CHECK(digits_in(*parse_exact("1/3000000")) == 7);
  CHECK(digits_in(*parse_exact(std::string(38, '9'))) == 38);
  CHECK(digits_in(*parse_exact(std::string(38, '9')) * *parse_exact(std::string(38, '9'))) >= 75);
}

TEST_CASE("numbers stay exact however often they are added", "[exact]") {
  Exact sum = 0;
  for (int i = 0; i < 1000; ++i) sum += *parse_exact("0.1");
  CHECK(sum == Exact(100));
  CHECK(*parse_exact("1/3") * 3 == Exact(1));
}

TEST_CASE("a decimal is rounded half up and loses its trailing zeros", "[exact]") {
  CHECK(to_decimal(Exact(45, 2), 2) == "22.5");
  CHECK(to_decimal(Exact(1, 3), 2) == "0.33");
  CHECK(to_decimal(Exact(2, 3), 2) == "0.67");
  CHECK(to_decimal(*parse_exact("0.125"), 2) == "0.13");
  CHECK(to_decimal(*parse_exact("2.5"), 0) == "3");
  CHECK(to_decimal(*parse_exact("0.005"), 2) == "0.01");
  CHECK(to_decimal(*parse_exact("1.005"), 2) == "1.01");
  CHECK(to_decimal(Exact(100), 3) == "100");
  CHECK(to_decimal(Exact(0), 3) == "0");
  CHECK(to_decimal(*parse_exact("-2.5"), 0) == "-3");
  CHECK(to_decimal(*parse_exact("-22.50"), 2) == "-22.5");
}

TEST_CASE("nothing is printed as minus zero", "[exact]") {
  CHECK(to_decimal(*parse_exact("-0.001"), 2) == "0");
  CHECK(to_fixed(*parse_exact("-0.001"), 2) == "0.00");
  CHECK(to_decimal(*parse_exact("-0.4"), 0) == "0");
}

TEST_CASE("money keeps its places", "[exact]") {
  CHECK(to_fixed(Exact(14), 2) == "14.00");
  CHECK(to_fixed(*parse_exact("18.405"), 2) == "18.41");
  CHECK(to_fixed(Exact(1, 100), 2) == "0.01");
  CHECK(to_fixed(*parse_exact("-3.5"), 2) == "-3.50");
  CHECK(to_fixed(Exact(7), 0) == "7");
}

TEST_CASE("eighths and thirds are written as bars write them", "[exact]") {
  CHECK(to_fraction(Exact(3, 2)) == "1 1/2");
  CHECK(to_fraction(Exact(3, 4)) == "3/4");
  CHECK(to_fraction(Exact(7, 8)) == "7/8");
  CHECK(to_fraction(Exact(2, 3)) == "2/3");
  CHECK(to_fraction(Exact(2)) == "2");
  CHECK(to_fraction(Exact(0)) == "0");
  CHECK(to_fraction(Exact(1, 5)) == "0.2");
  CHECK(to_fraction(Exact(1, 16)) == "0.06");
  CHECK(to_fraction(Exact(-1, 2)) == "-0.5");
}

TEST_CASE("a number becomes the nearest double", "[exact]") {
  CHECK(gill::base::to_double(*parse_exact("0.1")) == 0.1);
  CHECK(gill::base::to_double(*parse_exact("29.5735295625")) == 29.5735295625);
  CHECK(gill::base::to_double(Exact(1, 3)) == 1.0 / 3.0);
  CHECK(gill::base::to_double(*parse_exact(std::string(38, '9'))) == 1e38);
}
