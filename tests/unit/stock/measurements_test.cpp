#include "stock/measurements.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

#include "unit/plan/plan_fixture.h"

using namespace gill;
using gill::testing::EvaluatedHouse;

namespace {

constexpr std::string_view measuring_house = R"(house Test

ice bergs
  each 40 g

prep mint spirit
  500 ml vodka
  100 g mint
  infuse 1 d
  strain
  keeps 7 d chilled

drink Sour
  glass coupe
  50 ml vodka
  22.5 ml lemon juice
  20 ml simple syrup
  shake 12 s
  double strain
)";

stock::Measurements read(std::string_view csv) {
  static const EvaluatedHouse house(measuring_house);
  return stock::read_measurements(csv, house.house);
}

}  // namespace

TEST_CASE("measurements are read with the units of their cells or of their titles", "[stock]") {
  auto cells = read(
      "date,drink,before,after,temperature,brix,seconds,ice,step\n"
      "2026-09-01,Sour,108 g,16.9 cl,-5.5 C,14 brix,14,250 g bergs,shake\n"
      "2026-09-02,Sour,,170,,,,6 bergs,\n");
  CHECK(cells.problems.empty());
  REQUIRE(cells.measured.size() == 2);
  const auto& first = cells.measured[0].measurement;
  CHECK(first.date == "2026-09-01");
  CHECK(first.row == 2);
  CHECK(first.before->number() == 108);
  CHECK(first.after->kind == units::Kind::volume);
  CHECK(first.after->number() == Approx(169));
  CHECK(first.temperature->number() == Approx(-5.5));
  CHECK(first.brix->number() == Approx(0.14));
  CHECK(first.time->number() == 14);
  CHECK(first.ice->amount->number() == 250);
  CHECK(first.verb == analysis::Verb::shake);
  const auto& second = cells.measured[1].measurement;
  CHECK(!second.before);
  CHECK(second.after->kind == units::Kind::mass);
  CHECK(second.ice->amount->number() == 6);

  auto titles = read(
      "day;name;before (ml);after_ml;temp F\n2026-09-01;Sour;92,5;148;21\n2026-09-03;mint spirit;;500;\n");
  CHECK(titles.problems.empty());
  REQUIRE(titles.measured.size() == 2);
  CHECK(titles.measured[0].measurement.before->number() == Approx(92.5));
  CHECK(titles.measured[0].measurement.after->kind == units::Kind::volume);
  CHECK(titles.measured[0].measurement.temperature->number() == Approx(-6.11).margin(0.01));
  CHECK(titles.measured[1].prep.valid());
}

TEST_CASE("a row that cannot be is told by its line, and the others are read", "[stock]") {
  auto table = read(
      "date,drink,before,after,temperature,seconds,ice,step\n"
      "2026-02-30,Sour,108 g,169 g,,,,\n"
      "01/09/2026,Sour,108 g,169 g,,,,\n"
      "2026-09-01,Sour,-5 g,169 g,,,,\n"
      "2026-09-01,Sour,0,169 g,,,,\n"
      "2026-09-01,Sour,108 g,1e400,,,,\n"
      "2026-09-01,Sour,108 g,99999999999999999999999 kg,,,,\n"
      "2026-09-01,Sour,108 s,169 g,,,,\n"
      "2026-09-01,Sour,108 g,,,,,\n"
      "2026-09-01,Sour,108 g,169 g,-400,,,\n"
      "2026-09-01,Sour,108 g,169 g,,90000,,\n"
      "2026-09-01,Sour,108 g,169 g,,,some,\n"
      "2026-09-01,Sour,108 g,169 g,,,3 unicorns,\n"
      "2026-09-01,Sour,108 g,169 g,,,,strain\n"
      "2026-09-01,Nobody,108 g,169 g,,,,\n"
      "2026-09-01,,108 g,169 g,,,,\n"
      "2026-09-01,vodka,108 g,169 g,,,,\n"
      "2026-09-01,Sour,108 g,169 g,,,,\n");
  REQUIRE(table.measured.size() == 1);
  CHECK(table.measured[0].measurement.row == 18);
  CHECK(table.problems.size() == 16);
  std::size_t line = 2;
  for (const auto& problem : table.problems) {
    CHECK(problem.line == line++);
    CHECK(problem.message.ends_with("."));
  }
}

TEST_CASE("a table without its columns says which", "[stock]") {
  CHECK(!read("").problems.empty());
  CHECK(!read("a,b\n1,2\n").problems.empty());
  CHECK(!read("date,after\n2026-09-01,169\n").problems.empty());
  CHECK(read("date,drink,after\n").problems.empty());
  CHECK(read("date,drink,after\n").measured.empty());
}

TEST_CASE("tables of chance are read and calibrated without a number that is none", "[stock]") {
  EvaluatedHouse house(measuring_house);
  std::mt19937 chance(3);
  const char* cells[] = {"108 g",       "169 g",      "",           "0.001 g", "100000 g", "-5 C", "1 ml",
                         "85 brix",     "0 brix",     "12",         "1e3",     "4 bergs",  "\"",   "Sour",
                         "mint spirit", "2026-09-01", "2026-13-01", "110 C",   "½",        "nan",  "inf"};
  auto any = [&] { return std::string(cells[chance() % std::size(cells)]); };
  for (int run = 0; run < 300; ++run) {
    std::string csv = "date,drink,before,after,temperature,brix,seconds,ice,step\n";
    for (int row = 0; row < 6; ++row) {
      csv += "2026-09-01," + std::string(chance() % 4 ? "Sour" : "mint spirit");
      for (int column = 0; column < 6; ++column) csv += "," + any();
      csv += ",\n";
    }
    auto measured = stock::read_measurements(csv, house.house);
    auto calibration = model::calibrate(house.house.specs, house.house.units, house.house.facts,
                                        std::move(measured.measured));
    for (const auto& finding : calibration.findings) {
      CHECK(std::isfinite(finding.value));
      CHECK(std::isfinite(finding.error));
      CHECK(finding.width >= 0);
    }
    for (const auto& point : calibration.points) {
      CHECK(std::isfinite(point.factor));
      CHECK(std::isfinite(point.found));
    }
  }
}
