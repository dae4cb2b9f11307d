#include "driver/kept_house.h"

#include <fmt/format.h>

#include <catch2/catch.hpp>
#include <cstdlib>

#include "diagnostics/render.h"
#include "driver/kept/walk.h"
#include "render/facts/facts_json.h"
#include "support/big_house.h"
#include "support/front_end.h"
#include "support/random_edits.h"
#include "support/sanitized.h"

// What is kept between edits must never show: after each the house is what compiling it from nothing makes.

namespace {

using namespace gill;
using driver::Compilation;
using driver::HouseFiles;
using driver::KeptHouse;
using driver::Redone;

/// Every place and every number in a value, places as they stand in what was written.
template <typename Value>
std::string places_in(const Value& value, const source::SourceSet& sources) {
  std::string text;
  auto put = [&](const auto& part) {
    if constexpr (std::is_same_v<std::remove_cvref_t<decltype(part)>, source::Span>) {
      auto span = sources.written(part);
      if (span.file_id.valid())
        text += fmt::format("{}:{}-{} ", sources[span.file_id].path, span.begin, span.end);
    } else {
      text += fmt::format("{} ", part.value);
    }
  };
  driver::kept::Walker(put).walk(value);
  return text;
}

/// All that a house says, as texts by what they are of.
std::vector<std::string> told(const Compilation& house) {
  render::FactsInput facts{house.specs, house.facts, house.units, house.names, house.sources, {}};
  std::vector<std::string> texts{
      diagnostics::render_json(house.findings, house.sources),
      diagnostics::render_json(house.suppressed, house.sources),
      symbols::dump(house.names, house.sources),
      analysis::dump(house.specs, house.units),
      model::dump(house.facts, house.specs, house.units),
      render::facts_json(facts),
  };
  std::string places = places_in(house.specs.house, house.sources);
  auto add = [&](const auto& values) {
    for (const auto& value : values) places += places_in(value, house.sources) + "\n";
  };
  add(house.specs.stock), add(house.specs.glasses), add(house.specs.ices), add(house.specs.families);
  add(house.specs.drinks), add(house.specs.price_lists), add(house.specs.menus);
  for (const auto& notes : house.specs.notes) add(notes.forms), add(notes.name_uses);
  add(house.facts.drinks), add(house.facts.stock);
  texts.push_back(std::move(places));
  // What a cup of a bowl sells at stands in no dump.
  std::string prices;
  for (const auto& menu : house.specs.menus)
    for (const auto& section : menu.sections)
      for (const auto& entry : section.entries)
        prices += (entry.price ? base::to_decimal(entry.price->amount, 6) : "none") + " ";
  texts.push_back(std::move(prices));
  return texts;
}

/// From where two texts differ on, a little of both.
std::string difference(const std::string& a, const std::string& b) {
  auto at = static_cast<std::size_t>(std::mismatch(a.begin(), a.end(), b.begin(), b.end()).first - a.begin());
  auto from = at > 200 ? at - 200 : 0;
  return fmt::format("kept: …{}\nanew: …{}", a.substr(from, 400), b.substr(from, 400));
}

HouseFiles demo_house() {
  HouseFiles house{"specs", {}};
  for (auto& [path, text] : testing::texts_in("specs")) house.files.push_back({path, text});
  return house;
}

/// A house of several files with preps in preps, in the words that a bar writes.
HouseFiles generated_house() {
  std::string all = testing::big_house(30);
  HouseFiles house{"big", {}};
  for (std::size_t at = 0, n = 0; at < all.size(); ++n) {
    auto end = std::min(all.find("\nprep ", at + all.size() / 7), all.size());
    if (end < all.size()) ++end;
    house.files.push_back({fmt::format("part{:02}.gill", n), all.substr(at, end - at)});
    at = end;
  }
  return house;
}

int edits_of(int usual) {
  const char* more = std::getenv("GILL_EDITS");
  return more ? std::atoi(more) : std::max(8, testing::rounds(usual));
}

void edit_and_compare(HouseFiles house, unsigned seed, int edits, bool with_hands) {
  testing::RandomEdits edited(std::move(house), seed);
  KeptHouse kept(with_hands);
  kept.update(edited.house());
  int from_nothing = 0;
  std::string edits_so_far;
  for (int i = 0; i < edits; ++i) {
    edited.edit();
    edits_so_far += edited.last_edit() + ", ";
    const auto* now = kept.update(edited.house());
    for (const auto& redone : kept.redone()) from_nothing += redone.what == Redone::What::everything;
    auto anew = with_hands ? driver::compile(edited.house()) : driver::compile_for_findings(edited.house());
    auto of_kept = told(*now), of_anew = told(*anew);
    for (std::size_t t = 0; t < of_kept.size(); ++t) {
      INFO("seed " << seed << ", edit " << i << ": " << edited.last_edit() << ", text " << t);
      if (of_kept[t] != of_anew[t]) FAIL(difference(of_kept[t], of_anew[t]));
    }
  }
  // Else nothing was tested. (Of a handful of edits, chance may make most of them so.)
  if (edits >= 20) CHECK(from_nothing * 2 < edits);
}

}  // namespace

TEST_CASE("after any edit of the demo house all is as if it was compiled from nothing", "[kept]") {
  edit_and_compare(demo_house(), 1, edits_of(60), false);
  edit_and_compare(demo_house(), 2, edits_of(20), true);
}

TEST_CASE("after any edit of a house of preps in preps all is as if it was compiled from nothing", "[kept]") {
  edit_and_compare(generated_house(), 3, edits_of(60), false);
}

namespace {

using TextEdits = std::vector<std::pair<std::string, std::string>>;

/// Each edit there and back again.
void compare_edits_of(const std::string& text, const TextEdits& edits) {
  for (const auto& [from, to] : edits) {
    INFO(from << " -> " << to);
    std::string after = text;
    auto at = after.find(from);
    REQUIRE(at != std::string::npos);
    after.replace(at, from.size(), to);
    KeptHouse kept;
    kept.update({"bar", {{"bar.gill", text}}});
    for (const auto& now : {after, text}) {
      const HouseFiles house{"bar", {{"bar.gill", now}}};
      auto of_kept = told(*kept.update(house)), of_anew = told(*driver::compile(house));
      for (std::size_t t = 0; t < of_kept.size(); ++t)
        if (of_kept[t] != of_anew[t]) FAIL_CHECK(difference(of_kept[t], of_anew[t]));
    }
  }
}

}  // namespace

TEST_CASE("what a thing is reaches the lines that name it", "[kept]") {
  const std::string text = R"(house Bar
ingredient quay lime
  kind fruit
  each 60 g
  gives 30 ml lime juice
ingredient sea tonic
  kind mixer
  form liquid
  fizz 3 vol
ingredient shore berry
  kind fruit
  form solid
  each 4 g
drink Sour
  glass highball
  50 ml gin
  juice of half a quay lime
  1/2 quay lime, squeezed
  2 quay limes, muddled
  3 shore berries
  20 shore berry
  shake 12 s
  strain
  top sea tonic
  float 10 ml sea tonic
  garnish shore berry
)";
  compare_edits_of(text, {{"  gives 30 ml lime juice\n", ""},
                          {"  each 60 g\n", ""},
                          {"  each 60 g\n", "  each 80 g\n"},
                          {"  fizz 3 vol\n", ""},
                          {"  form solid\n  each 4 g\n", "  form liquid\n"},
                          {"  each 4 g\n", ""},
                          {"kind mixer\n  form liquid", "kind spice\n  form solid"},
                          {"  gives 30 ml lime juice\n", "  gives 20 ml lime juice\n"}});
}

TEST_CASE("for how many a bowl is reaches what a cup of it sells at", "[kept]") {
  const std::string text = R"(house Bar
  currency EUR
drink Bowl
  serves 8
  glass punch bowl
  400 ml gin
  200 ml lemon juice
  200 ml simple syrup
  stir 30 s
menu Summer
  section Bowls
    Bowl at 96 EUR a bowl
)";
  compare_edits_of(text, {{"serves 8", "serves 12"}, {"at 96 EUR a bowl", "at 96 EUR"}});
}

namespace {

/// What was done again after the text of the small bar changed as said: `read A, worked out A`.
std::string redone_after(const std::string& from, const std::string& to) {
  std::string text = R"(house Bar
  currency EUR
ingredient own gin like London dry gin
  buy 700 ml for 20 EUR
prep base
  500 g white sugar
  500 ml water
  dissolve
  keeps 7 d chilled
prep cordial
  300 ml base
  100 ml lime juice
  keeps 7 d chilled
drink Sour
  50 ml own gin
  20 ml cordial
  10 ml base
  20 ml lemon juice
  shake 12 s
drink Plain
  50 ml vodka
  20 ml lemon juice
  shake 12 s
prices spring 2026
  white sugar 1 kg for 1.20 EUR
)";
  KeptHouse kept;
  kept.update({"bar", {{"bar.gill", text}}});
  auto at = text.find(from);
  REQUIRE(at != std::string::npos);
  text.replace(at, from.size(), to);
  kept.update({"bar", {{"bar.gill", text}}});
  std::string all;
  for (const auto& line : kept.redone())
    if (line.what != Redone::What::read_file && line.what != Redone::What::judged)
      all += driver::dump({{line.what, line.name, {}}});
  return all;
}

}  // namespace

TEST_CASE("an edit is done again as far as it reaches", "[kept]") {
  SECTION("a remark reaches nothing") {
    CHECK(redone_after("  20 ml cordial\n", "  20 ml cordial  # ours\n\n# noted\n").empty());
  }
  SECTION("an amount reaches its drink") {
    CHECK(redone_after("50 ml vodka", "40 ml vodka") == "read Plain: \nworked out Plain: \n");
  }
  SECTION("a prep reaches those that are made of it, to any depth") {
    CHECK(redone_after("500 ml water", "400 ml water") ==
          "read base: \nworked out base: \nworked out cordial: \nworked out Sour: \n");
  }
  SECTION("the words of a prep reach no reading of another line") {
    CHECK(redone_after("  dissolve\n", "  dissolve\n  | By hand.\n").find("read Sour") == std::string::npos);
  }
  SECTION("a price reaches what things cost, and no figures") {
    CHECK(redone_after("for 1.20 EUR", "for 1.50 EUR") == "read spring 2026: \npriced Sour: \n");
    CHECK(redone_after("for 20 EUR", "for 25 EUR") ==
          "read own gin: \nworked out own gin: \npriced Sour: \n");
  }
  SECTION("another name reaches those that ask for it, known before or not") {
    CHECK(redone_after("  buy 700 ml for 20 EUR", "  aka vodka\n  buy 700 ml for 20 EUR")
              .find("worked out Plain") != std::string::npos);
    CHECK(redone_after("drink Plain", "drink Plainer") == "read Plainer: \nworked out Plainer: \n");
  }
  SECTION("a declaration that comes moves the others and reaches none of them") {
    CHECK(redone_after("drink Sour\n", "drink First\n  50 ml vodka\ndrink Sour\n") ==
          "read First: \nworked out First: \n");
  }
  SECTION("what the house sets reaches everything") {
    CHECK(redone_after("currency EUR", "currency GBP") == "everything: \n");
  }
}
