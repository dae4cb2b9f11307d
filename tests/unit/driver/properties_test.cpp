#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <numeric>
#include <random>

#include "diagnostics/render.h"
#include "house_fixture.h"
#include "model/physics/acid.h"
#include "support/front_end.h"
#include "support/sanitized.h"

using namespace gill;
using model::Component;
using test::compile;
using test::drink;

namespace {

struct Line {
  double ml;
  std::string name;
};

const std::vector<std::string> liquids = {"rye whiskey",    "London dry gin", "aged rum",    "lemon juice",
                                          "lime juice",     "simple syrup",   "honey syrup", "sweet vermouth",
                                          "orange liqueur", "pineapple juice"};

std::vector<Line> random_build(std::mt19937& random) {
  std::vector<Line> build;
  auto n = std::uniform_int_distribution<int>(2, 6)(random);
  for (int i = 0; i < n; ++i)
    build.push_back({0.5 * std::uniform_int_distribution<int>(5, 120)(random),
                     liquids[std::uniform_int_distribution<std::size_t>(0, liquids.size() - 1)(random)]});
  return build;
}

std::string text_of(const std::string& name, const std::vector<Line>& build, const std::string& method,
                    double scale = 1) {
  std::string text = fmt::format("drink {}\n", name);
  for (const auto& line : build) text += fmt::format("  {} ml {}\n", line.ml * scale, line.name);
  return text + method;
}

double held(const driver::Compilation& house, const std::vector<Line>& build, Component component) {
  double grams = 0;
  for (const auto& line : build) {
    const auto& composition = test::stock(house, line.name).composition;
    grams += composition.of_ml(line.ml)[component];
  }
  return grams;
}

}  // namespace

TEST_CASE("ethanol, sugar and acid are conserved through any program of steps") {
  std::mt19937 random(11);
  for (int round = 0; round < testing::rounds(60); ++round) {
    auto build = random_build(random);
    static const char* methods[] = {"  shake 12 s\n  strain\n",
                                    "  dry shake 10 s\n  shake 9 s\n  double strain\n",
                                    "  stir 40 s\n  strain\n",
                                    "  build\n  stir 10 s\n",
                                    "  blend 15 s with 100 g crushed\n  dump\n",
                                    "  throw 6\n  strain\n"};
    std::string method = methods[round % 6];
    auto house = compile(text_of("A", build, method));
    const auto& facts = drink(*house, "A");
    REQUIRE(facts.valid);
    const auto& last = facts.trace.back().after.masses;
    // A strain leaves one part in a hundred behind: a stated loss.
    double share = method.find("strain") != std::string::npos ? 0.99 : 1;
    for (auto component : {Component::ethanol, Component::sugar, Component::citric, Component::malic}) {
      double expected = held(*house, build, component) * share;
      CHECK(last[component] == Approx(expected).epsilon(1e-9).margin(1e-12));
    }
  }
}

TEST_CASE("scaling a build scales its figures and leaves its strength") {
  std::mt19937 random(12);
  for (int round = 0; round < testing::rounds(20); ++round) {
    auto build = random_build(random);
    auto house = compile(text_of("A", build, "  shake 12 s\n  strain\n") +
                         text_of("B", build, "  shake 12 s\n  strain\n", 3));
    const auto &a = drink(*house, "A"), &b = drink(*house, "B");
    CHECK(b.served.volume_ml == Approx(3 * a.served.volume_ml).epsilon(1e-6));
    CHECK(b.ethanol_g == Approx(3 * a.ethanol_g).epsilon(1e-9));
    CHECK(b.served.abv_percent == Approx(a.served.abv_percent).epsilon(1e-6));
    CHECK(b.served.acid_g_per_100ml == Approx(a.served.acid_g_per_100ml).epsilon(1e-6));
  }
}

TEST_CASE("the order of additions to one vessel does not matter") {
  std::mt19937 random(13);
  for (int round = 0; round < testing::rounds(20); ++round) {
    auto build = random_build(random);
    auto shuffled = build;
    std::shuffle(shuffled.begin(), shuffled.end(), random);
    auto house = compile(text_of("A", build, "  stir 30 s\n  strain\n") +
                         text_of("B", shuffled, "  stir 30 s\n  strain\n"));
    const auto &a = drink(*house, "A"), &b = drink(*house, "B");
    CHECK(a.served.volume_ml == Approx(b.served.volume_ml).epsilon(1e-9));
    CHECK(a.served.abv_percent == Approx(b.served.abv_percent).epsilon(1e-9));
    CHECK(a.served.temperature_c == Approx(b.served.temperature_c).margin(1e-6));
  }
}

namespace {

std::map<std::string, std::string> demo_files() {
  auto texts = testing::texts_in("specs");
  return {texts.begin(), texts.end()};
}

/// The facts that must not depend on where a declaration stands, as text in the order of names.
std::string facts_by_name(const driver::Compilation& house) {
  std::map<std::string, std::string> lines;
  for (const auto& facts : house.facts.drinks)
    lines[house.specs[facts.drink].head.name] = fmt::format(
        "{} {} {} {} {}", facts.served.volume_ml, facts.served.abv_percent, facts.served.temperature_c,
        facts.cost ? base::to_double(facts.cost->amount) : -1, base::join(facts.allergens.present(), ","));
  std::string text;
  for (const auto& [name, line] : lines) text += name + ": " + line + "\n";
  return text;
}

}  // namespace

TEST_CASE("facts do not depend on the order of files or of declarations") {
  auto files = demo_files();
  std::string before = facts_by_name(*compile(files));
  std::map<std::string, std::string> renamed;
  int n = 99;
  for (const auto& [path, text] : files) renamed[fmt::format("{:02}.gill", n--)] = text;
  CHECK(facts_by_name(*compile(renamed)) == before);
  // All in one file, last file first.
  std::string one;
  for (auto it = files.rbegin(); it != files.rend(); ++it) one += it->second + "\n";
  CHECK(facts_by_name(*compile(one)) == before);
}

TEST_CASE("the demo house checks without an error") {
  auto house = compile(demo_files());
  for (const auto& finding : house->findings) {
    INFO(house->sources[finding.span.file_id].path << ": " << finding.message);
    CHECK(finding.severity != diagnostics::Severity::error);
  }
  CHECK(house->specs.drinks.size() >= 26);
  CHECK(house->specs.menus.size() >= 3);
}

TEST_CASE("a house compiled for its findings finds the same, and knows what is written as well") {
  driver::HouseFiles files;
  files.name = "house";
  files.files.push_back(
      {"house.gill",
       "drink A\n  family sour\n  glass coupe\n  50 ml London dry gin\n  60 ml lemon juice\n"
       "  20 ml simple syrup\n  shake 12 s\n  strain\n  garnish none\n"});
  auto whole = driver::compile(files), findings = driver::compile_for_findings(files);
  CHECK(diagnostics::render_text(findings->findings, findings->sources, false) ==
        diagnostics::render_text(whole->findings, whole->sources, false));
  const auto& all = test::drink(*whole, "A");
  const auto& written = test::drink(*findings, "A");
  CHECK(written.written_tolerance.abv_percent == all.written_tolerance.abv_percent);
  CHECK(written.tolerance.abv_percent == written.written_tolerance.abv_percent);
  CHECK(all.tolerance.abv_percent > all.written_tolerance.abv_percent);
}
