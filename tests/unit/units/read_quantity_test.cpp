#include "units/read_quantity.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "support/fixture.h"

using gill::base::Exact;
using gill::units::Kind;
using gill::units::Quantity;

namespace {

/// What one quantity reads as, with what was found.
struct Read {
  std::optional<Quantity> quantity;
  std::vector<std::string> findings;
  std::string help;
  std::string rest;
};

Read read(const std::string& text) {
  static const auto house = gill::testing::compile("");
  auto parsed = gill::testing::parse("x\n " + text);
  gill::syntax::LineView line(parsed.sources[parsed.file.file_id], parsed.file, 1);
  std::size_t at = 0;
  Read result;
  result.quantity = gill::units::QuantityReader(line, house.units, parsed.sink).read(at);
  result.findings = gill::testing::findings(parsed);
  for (const auto& finding : parsed.sink.all()) result.help += finding.message + " | " + finding.help;
  result.rest = at < line.size() ? std::string(line.raw(at, line.size())) : std::string();
  return result;
}

Quantity quantity(const std::string& text) {
  auto result = read(text);
  INFO(text << ": " << result.help);
  REQUIRE(result.quantity);
  CHECK(result.findings.empty());
  CHECK(result.rest.empty());
  return *result.quantity;
}

void is(const std::string& text, Kind kind, const Exact& value) {
  INFO(text);
  auto read = quantity(text);
  CHECK(read.kind == kind);
  CHECK(read.value == value);
}

}  // namespace

TEST_CASE("a quantity is kept in the base unit of its kind, exactly", "[quantity]") {
  is("60 ml", Kind::volume, 60);
  is("2 oz", Kind::volume, 60);
  is("1½ oz", Kind::volume, 45);
  is("1 us oz", Kind::volume, *gill::base::parse_exact("29.5735295625"));
  is(".75 l", Kind::volume, 750);
  is("2 lb", Kind::mass, *gill::base::parse_exact("907.18474"));
  is("8 leaves", Kind::count, 8);
  is("3 parts", Kind::part, 3);
  is("2 h", Kind::time, 7200);
  is("40 % abv", Kind::strength, Exact(2, 5));
  is("80 proof us", Kind::strength, Exact(2, 5));
  is("6 % w/v", Kind::mass_concentration, Exact(6, 100));
  is("60 g/l", Kind::mass_concentration, Exact(6, 100));
  is("50 brix", Kind::mass_fraction, Exact(1, 2));
  is("1.42 g/ml", Kind::density, Exact(142, 100));
  is("3.5 vol", Kind::gas, Exact(7, 2));
  is("2 bar", Kind::pressure, 2);
  is("100 kcal", Kind::energy, Exact(4184, 10));
  is("3 %", Kind::share, Exact(3, 100));
  is("90 mm", Kind::length, 90);
}

TEST_CASE("a number without a unit counts", "[quantity]") {
  is("3", Kind::count, 3);
  is("1/2", Kind::count, Exact(1, 2));
}

TEST_CASE("units need no space before them", "[quantity]") {
  is("60ml", Kind::volume, 60);
  is("3/4oz", Kind::volume, Exact(45, 2));
  is("75C", Kind::temperature, 75);
  is("75°C", Kind::temperature, 75);
  is("3%", Kind::share, Exact(3, 100));
  is("40% abv", Kind::strength, Exact(2, 5));
  is("40%abv", Kind::strength, Exact(2, 5));
}

TEST_CASE("a temperature is a point with a sign", "[quantity]") {
  is("-18 C", Kind::temperature, -18);
  is("−18 C", Kind::temperature, -18);
  is("-18°C", Kind::temperature, -18);
  is("68 F", Kind::temperature, 20);
  is("-40 F", Kind::temperature, -40);
  is("293.15 K", Kind::temperature, 20);
}

TEST_CASE("only temperatures have a sign", "[quantity]") {
  for (const char* text :
       {"-60 ml", "−2 g", "-3", "-1..5 ml", "-3 %", "-14 EUR", "60 ml ± -2 ml", "about -5 ml"}) {
    auto result = read(text);
    INFO(text);
    CHECK_FALSE(result.quantity);
    REQUIRE(result.findings.size() == 1);
    CHECK_THAT(result.findings[0], Catch::StartsWith("bad-number"));
    CHECK_THAT(result.help, Catch::Contains("sign"));
  }
  auto range = quantity("-7..-1 C");
  CHECK(range.low == -7);
  CHECK(range.high == -1);
  CHECK(quantity("-5 C .. 5 C").low == -5);
  CHECK(quantity("..-2 C").high == -2);
}

TEST_CASE("money is a number with a code in capitals", "[quantity]") {
  auto price = quantity("18.40 EUR");
  CHECK(price.kind == Kind::money);
  CHECK(price.value == Exact(1840, 100));
  CHECK(price.currency == "EUR");
  CHECK(quantity("14EUR").currency == "EUR");
  CHECK(read("14 eur").quantity->kind == Kind::count);
}

TEST_CASE("a range has two ends, a middle, and its width for a tolerance", "[quantity]") {
  for (const char* text : {"15..20 ml", "15 .. 20 ml", "15 ml .. 20 ml", "15ml..20ml", "15…20 ml"}) {
    INFO(text);
    auto range = quantity(text);
    CHECK(range.is_range);
    CHECK(range.low == 15);
    CHECK(range.high == 20);
    CHECK(range.value == Exact(35, 2));
    CHECK(range.tolerance == Approx(2.5));
  }
}

TEST_CASE("a range may be open at one end", "[quantity]") {
  auto below = quantity("..20 ml");
  CHECK(below.is_range);
  CHECK(below.low == -INFINITY);
  CHECK(below.high == 20);
  for (const char* text : {"15.. ml", "15 ml.."}) {
    INFO(text);
    auto above = quantity(text);
    CHECK(above.is_range);
    CHECK(above.low == 15);
    CHECK(above.high == INFINITY);
  }
}

TEST_CASE("a range whose upper end is no number is no quantity, and is told once", "[quantity]") {
  for (const char* text : {"60 ml .. 1/0 ml", "60 .. 1/0 ml"}) {
    INFO(text);
    CHECK_FALSE(read(text).quantity);
    CHECK(read(text).findings.size() == 1);
  }
}

TEST_CASE("a range in two units is a range all the same", "[quantity]") {
  auto range = quantity("500 ml .. 1 l");
  CHECK(range.low == 500);
  CHECK(range.high == 1000);
  CHECK(range.value == 750);
  CHECK(range.tolerance == Approx(250));
}

TEST_CASE("a range in degrees is converted at both ends", "[quantity]") {
  auto range = quantity("32..212 F");
  CHECK(range.low == Approx(0).margin(1e-12));
  CHECK(range.high == Approx(100));
}

TEST_CASE("a range that runs backwards is offered the right way round", "[quantity]") {
  auto result = read("20..15 ml");
  CHECK_FALSE(result.quantity);
  CHECK(result.findings == std::vector<std::string>{"bad-number 2:2-6"});
  CHECK_THAT(result.help, Catch::Contains("`15..20`"));
  CHECK_FALSE(read("20 ml .. 15 ml").quantity);
}

TEST_CASE("a range has one kind", "[quantity]") {
  auto result = read("20 ml .. 30 g");
  CHECK_FALSE(result.quantity);
  CHECK(result.findings == std::vector<std::string>{"wrong-kind 2:11-4"});
}

TEST_CASE("a tolerance stands right after its measure", "[quantity]") {
  CHECK(quantity("60 ml ± 2 ml").tolerance == Approx(2));
  CHECK(quantity("60 ml +- 2 ml").tolerance == Approx(2));
  CHECK(quantity("60 ml +/- 2 ml").tolerance == Approx(2));
  CHECK(quantity("60ml±2ml").tolerance == Approx(2));
  CHECK(quantity("60 ml ± 3 %").tolerance == Approx(1.8));
  CHECK(quantity("60 ml ± 3%").tolerance == Approx(1.8));
  CHECK(quantity("1 l ± 2 cl").tolerance == Approx(20));
  CHECK(quantity("65 C ± 2 C").tolerance == Approx(2));
  CHECK(quantity("3 ± 1").tolerance == Approx(1));
  CHECK(quantity("22.5 ml ± 1").tolerance == Approx(1));
  CHECK(quantity("2 cl ± 0.1").tolerance == Approx(1));
  // What states a tolerance that cannot be read is no quantity.
  for (const char* text : {"60 ml ± few", "60 ml ±", "60 ml ± 1/0 ml"}) {
    INFO(text);
    CHECK_FALSE(read(text).quantity);
    CHECK(read(text).findings.size() == 1);
  }
  CHECK(quantity("180 F ± 9 F").tolerance == Approx(5));
  CHECK(quantity("6 % w/v ± 0.5 % w/v").tolerance == Approx(0.005));
  CHECK(quantity("40 % abv ± 1 % abv").tolerance == Approx(0.01));
  CHECK(quantity("6 % w/v ± 10 %").tolerance == Approx(0.006));
}

TEST_CASE("about is ten per cent either way", "[quantity]") {
  auto about = quantity("about 250 ml");
  CHECK(about.value == 250);
  CHECK(about.tolerance == Approx(25));
  CHECK(quantity("ABOUT 1 l").tolerance == Approx(100));
}

TEST_CASE("a unit lends its tolerance where the line states none", "[quantity]") {
  auto dashes = quantity("2 dashes");
  CHECK(dashes.value == Exact(18, 10));
  CHECK(dashes.tolerance == Approx(0.63));
  CHECK(quantity("2 dashes ± 10 %").tolerance == Approx(0.18));
  CHECK_FALSE(quantity("60 ml").tolerance);
  CHECK(quantity("2 dashes").relative_tolerance() == Approx(0.35));
}

TEST_CASE("a tolerance of another kind is an error at it", "[quantity]") {
  auto result = read("60 ml ± 2 g");
  CHECK_FALSE(result.quantity);
  CHECK(result.findings == std::vector<std::string>{"wrong-kind 2:10-3"});
}

TEST_CASE("near misses of a number are met with what to write", "[quantity]") {
  struct Row {
    const char* text;
    const char* finding;
    const char* fix;
  };
  for (const Row& row :
       {Row{"1-1/2 oz", "bad-number 2:2-8", "`1 1/2 oz`"}, Row{"10-12 s", "bad-number 2:2-7", "`10..12 s`"},
        Row{"10 – 12 s", "bad-number 2:2-9", "`10..12 s`"},
        Row{"1/2-3/4 oz", "bad-number 2:2-10", "`1/2..3/4 oz`"},
        Row{"1 1/2-2 oz", "bad-number 2:2-10", "`1 1/2..2 oz`"},
        Row{"22,5 ml", "bad-number 2:2-7", "`22.5 ml`"}, Row{"1,000 ml", "bad-number 2:2-8", "`1000 ml`"},
        Row{"12,500,000 ml", "bad-number 2:2-13", "`12500000 ml`"},
        Row{"1,000.50 EUR", "bad-number 2:2-8", "`1000.50`"},
        Row{"1/0 oz", "bad-number 2:2-3", "divided by zero"}}) {
    INFO(row.text);
    auto result = read(row.text);
    CHECK_FALSE(result.quantity);
    CHECK(result.findings == std::vector<std::string>{row.finding});
    CHECK_THAT(result.help, Catch::Contains(row.fix));
  }
}

TEST_CASE("a number of more than 38 digits is a bad number", "[quantity]") {
  CHECK(read(std::string(38, '1') + " ml").quantity);
  auto result = read(std::string(39, '1') + " ml");
  CHECK_FALSE(result.quantity);
  CHECK(result.findings == std::vector<std::string>{"bad-number 2:2-39"});
  CHECK_THAT(result.help, Catch::Contains("38 digits"));
}

TEST_CASE("a number that is missing is said at its place", "[quantity]") {
  CHECK(read(".. ml").findings.size() == 1);
  CHECK(read("60 ml ± x").findings == std::vector<std::string>{"bad-number 2:10-1"});
}

TEST_CASE("the unit is the longest run of words that is one", "[quantity]") {
  CHECK(read("60 ml gin").rest == "gin");
  CHECK(read("2 us fl oz gin").rest == "gin");
  CHECK(read("2 oz wt butter").quantity->kind == Kind::mass);
  CHECK(read("1 bar spoon syrup").rest == "syrup");
  CHECK(read("40 % abv spirit").rest == "spirit");
  CHECK(read("3 % of it").rest == "of it");
}
