// What a line of a recipe becomes before it is simulated: temperatures, times, how much of what, and where
// it goes. The language's own rules, and the habits in `constants.h`.
#include <fmt/format.h>

#include "model/constants.h"
#include "model/physics/foam.h"
#include "model/physics/usual_times.h"
#include "model_house.h"

using namespace gill;
using namespace gill::model;
using testing::count;
using testing::evaluate;
using testing::first;

namespace {

BuiltProgram lowered(std::string_view lines, std::string_view before = "") {
  return evaluate(std::string(before) + "drink A\n" + std::string(lines)).lowered("A");
}

/// The last operation of that type.
template <typename Act>
const Act& last(const BuiltProgram& built) {
  const Act* found = nullptr;
  for (const auto& operation : built.program.operations)
    if (const auto* act = operation.as<Act>()) found = act;
  REQUIRE(found);
  return *found;
}

const std::string house = "house H\n  room 22 C\n  fridge 3 C\n  freezer -20 C\n";

}  // namespace

TEST_CASE("an amount is as warm as its line says, else as the room, and what is fizzy as the fridge") {
  auto start = [](std::string_view line) {
    return first<operation::Add>(lowered(fmt::format("  {}\n  build\n", line), house)).temperature.value;
  };
  CHECK(start("50 ml vodka") == 22);
  CHECK(start("50 ml vodka, chilled") == 3);
  CHECK(start("50 ml vodka, frozen") == -20);
  CHECK(start("50 ml water, hot") == 90);
  CHECK(start("50 ml water, at 55 C") == 55);
  CHECK(start("50 ml soda water") == 3);
}

TEST_CASE("what is topped is as warm as its note says") {
  auto start = [](std::string_view line) {
    return last<operation::Add>(lowered(fmt::format("  50 ml vodka\n  build\n  {}\n", line), house))
        .temperature.value;
  };
  CHECK(start("top 50 ml soda water") == 3);
  CHECK(start("top 50 ml water") == 22);
  CHECK(start("top 50 ml water, hot") == 90);
  CHECK(start("top 50 ml water, chilled") == 3);
}

TEST_CASE("a method without a time takes its usual one, one with a time takes that") {
  auto chill = [](std::string_view line) {
    return first<operation::Chill>(lowered(fmt::format("  50 ml vodka\n  {}\n  strain\n", line)));
  };
  CHECK(chill("shake").time == usual_time(ChillMethod::shake));
  CHECK(chill("shake 7 s").time == 7);
  CHECK(chill("stir").time == usual_time(ChillMethod::stir));
  CHECK(chill("stir 41 s").time == 41);
  // A throw and a roll count their passes.
  CHECK(chill("throw").time == usual_time(ChillMethod::throw_));
  CHECK(chill("throw 9").time == 9);
  CHECK(chill("throw 9").method == ChillMethod::throw_);
  CHECK(chill("roll 3").time == 3);
  CHECK(chill("roll 3").method == ChillMethod::roll);
}

TEST_CASE("ice that nobody measures is 300 g to 100 ml in a tin, and 25 g for a whip") {
  auto shake = first<operation::Chill>(lowered("  50 ml vodka\n  shake 8 s\n  strain\n"));
  CHECK(std::get<operation::IcePer100Ml>(shake.ice).amount.value == 300);
  auto whip = first<operation::Chill>(lowered("  50 ml vodka\n  whip 8 s\n  dump\n"));
  CHECK(std::get<operation::IcePer100Ml>(whip.ice).amount.value == 25);
  auto weighed =
      first<operation::Chill>(lowered("  50 ml vodka\n  shake 8 s with 120 g crushed\n  strain\n"));
  CHECK(std::get<units::Grams>(weighed.ice).value == 120);
  auto scoop = first<operation::Chill>(lowered("  50 ml vodka\n  shake 8 s with crushed\n  strain\n"));
  CHECK(std::get<operation::IcePer100Ml>(scoop.ice).amount.value == 300);
}

TEST_CASE("one large piece of ice weighs itself from sixty grams on, and pieces weigh their number") {
  auto ice_g = [](std::string_view each, std::string_view with) {
    auto built = lowered(fmt::format("  50 ml vodka\n  shake 8 s with {}\n  strain\n", with),
                         fmt::format("ice block\n  each {} g\n", each));
    auto ice = first<operation::Chill>(built).ice;
    auto* grams = std::get_if<units::Grams>(&ice);
    return grams ? grams->value : -1;
  };
  CHECK(ice_g("60", "block") == 60);
  CHECK(ice_g("59", "block") == -1);
  CHECK(ice_g("59", "3 block") == 177);
}

TEST_CASE("colder ice of the house is as cold as the house says, and melts as its kind says") {
  auto chill = first<operation::Chill>(lowered("  50 ml vodka\n  shake 8 s with slow\n  strain\n",
                                               "house H\n  ice -7 C\nice slow\n  each 30 g\n  melt 60 %\n"));
  CHECK(chill.ice_temperature.value == -7);
  CHECK(chill.melt_rate == Approx(0.6));
}

TEST_CASE("a rinse leaves a millilitre and a half, unless it is kept or was less") {
  // Common practice, no source.
  auto rinse = [](std::string_view words) {
    auto built = lowered(fmt::format("  rinse {}\n  50 ml vodka\n  stir 30 s\n  strain\n", words));
    const auto& add = first<operation::Add>(built);
    CHECK(add.into_glass);
    double density = built.program.slots[add.slot].density.value;
    return std::pair(built.entries.front().mass_g.value() / density, add.amount.value / density);
  };
  CHECK(rinse("absinthe").first == Approx(5));
  CHECK(rinse("absinthe").second == Approx(1.5));
  CHECK(rinse("3 ml absinthe").first == Approx(3));
  CHECK(rinse("3 ml absinthe").second == Approx(1.5));
  CHECK(rinse("1 ml absinthe").second == Approx(1));
  CHECK(rinse("3 ml absinthe, kept").second == Approx(3));
}

TEST_CASE("a mist is twelve hundredths of a millilitre a press") {
  // Common practice, no source.
  auto mist_ml = [](std::string_view words) {
    auto built = lowered(fmt::format("  50 ml vodka\n  stir 30 s\n  strain\n  mist {}\n", words));
    const auto& add = last<operation::Add>(built);
    CHECK(add.into_glass);
    return add.amount.value / built.program.slots[add.slot].density.value;
  };
  CHECK(mist_ml("1 absinthe") == Approx(0.12));
  CHECK(mist_ml("3 absinthe") == Approx(0.36));
}

TEST_CASE("a rim takes a gram and a half of salt or three of sugar, half a rim half of it") {
  // Common practice, no source.
  auto rim_g = [](std::string_view words) {
    auto built = lowered(fmt::format("  rim {}\n  50 ml vodka\n  build\n", words));
    return built.entries.front().mass_g.value_or(-1);
  };
  CHECK(rim_g("salt") == 1.5);
  CHECK(rim_g("salt, half") == 0.75);
  CHECK(rim_g("white sugar") == 3);
}

TEST_CASE("a heap of ice in the glass leaves room for the drink, and is never less than a part of itself") {
  auto ice_g = [](std::string_view glass, std::string_view amount) {
    auto built = lowered(fmt::format("  glass beaker\n  {} ml vodka\n  build\n  ice cubed\n", amount),
                         fmt::format("glass beaker\n  holds {} ml\n", glass));
    return first<operation::Build>(built).glass_ice.value;
  };
  // A heap fills three quarters of the glass, and 57 % of it is ice of 0.9167 g/ml.
  double heap = 300 * 0.75 * 0.57 * 0.9167;
  CHECK(ice_g("300", "30") == Approx(heap));
  CHECK(ice_g("300", "295") == Approx(heap * min_scoop_of_heap));
  // In between: what the full glass leaves beside the drink and its melt.
  CHECK(ice_g("300", "180") == Approx(300 * full_with_ice_share - 180 * expected_with_melt));
  CHECK(ice_g("400", "30") == Approx(heap / 300 * 400));
}

TEST_CASE("a top without an amount fills to the glass's line, and leaves room for the ice in it") {
  auto top_ml = [](std::string_view glass_lines, std::string_view ice) {
    auto built =
        lowered(fmt::format("  glass beaker\n  30 ml vodka\n  build\n  ice {}\n  top soda water\n", ice),
                fmt::format("glass beaker\n  holds 300 ml\n{}", glass_lines));
    return first<operation::Top>(built).target.value;
  };
  CHECK(top_ml("  line 200 ml\n", "none") == 200);
  CHECK(top_ml("  line 180..220 ml\n", "none") == 200);
  CHECK(top_ml("  line 210 ml..\n", "none") == 210);
  CHECK(top_ml("  line ..190 ml\n", "none") == 190);
  CHECK(top_ml("", "none") == Approx(300 * usual_line_share));
  // Floating ice takes the room of its own weight of drink.
  CHECK(top_ml("  line 290 ml\n", "90 g cubed") == Approx(300 * topped_up_share - 90));
}

TEST_CASE("parts fill the size in their proportions, whatever their order") {
  auto built = lowered("  size 90 ml\n  30 ml water\n  1 part vodka\n  2 parts sweet vermouth\n  build\n");
  double vodka = built.program.slots[1].density.value * 20,
         vermouth = built.program.slots[2].density.value * 40;
  std::vector<double> grams;
  for (const auto& operation : built.program.operations)
    if (const auto* add = operation.as<operation::Add>()) grams.push_back(add->amount.value);
  REQUIRE(grams.size() == 3);
  CHECK(grams[1] == Approx(vodka));
  CHECK(grams[2] == Approx(vermouth));
}

TEST_CASE("parts without a size, or with none left, are told and make the drink invalid") {
  auto house = evaluate(
      "drink A\n  1 part vodka\n  build\ndrink B\n  size 30 ml\n  30 ml water\n  1 part vodka\n  build\n");
  CHECK_FALSE(house.drink("A").valid);
  CHECK_FALSE(house.drink("B").valid);
  std::size_t sizes = 0, left = 0;
  for (const auto& finding : house.front.sink.all()) {
    sizes += finding.message == "parts need a size to be parts of";
    left += finding.message.find("nothing is left for the parts") != std::string::npos;
  }
  CHECK(sizes == 1);
  CHECK(left == 1);
}

TEST_CASE("fruit and herbs give what is in them only where they are muddled, blended or heated") {
  auto solids = [](std::string_view step) {
    auto built =
        lowered(fmt::format("  50 ml vodka\n  40 g strawberry\n  {}\n  shake 10 s\n  strain\n", step));
    return built.program.slots[1].per_gram[Component::solids];
  };
  CHECK(solids("shake 8 s") == 1);
  CHECK(solids("muddle") < 0.5);
  CHECK(solids("blend 8 s with 100 g crushed") < 0.5);
}

TEST_CASE("what foams does so as its kind: white further than a whole egg, cream least") {
  auto slot = [](std::string_view line) {
    auto built = lowered(fmt::format("  50 ml vodka\n  {}\n  shake 10 s\n  strain\n", line));
    return built.program.slots[1];
  };
  auto white = slot("20 ml egg white");
  CHECK(white.foam_rise == foam_of_egg_white.typical);
  CHECK(white.foam_rise_dry_last == foam_of_egg_white_dry_last.typical);
  CHECK(white.full_foam.value == 15);
  auto whole = slot("1 whole egg");
  CHECK(whole.foam_rise == foam_of_whole_egg.typical);
  CHECK(whole.foam_rise_dry_last == foam_of_whole_egg.typical);
  CHECK(whole.full_foam.value == 15);
  auto juice = slot("30 ml pineapple juice");
  CHECK(juice.foam_rise == foam_of_juice_or_pulse_water.typical);
  CHECK(juice.full_foam.value == 20);
  CHECK(slot("20 ml lime juice").foam_rise == 0);
}

TEST_CASE("a swizzle works in the glass on the glass's ice, a strain before it aside") {
  auto built = lowered("  glass highball\n  60 ml aged rum\n  swizzle 20 s\n  ice crushed\n");
  CHECK(count<operation::Build>(built) == 1);
  CHECK(std::holds_alternative<operation::GlassIce>(first<operation::Chill>(built).ice));
  auto strained =
      lowered("  glass highball\n  60 ml aged rum\n  shake 8 s\n  strain\n  swizzle 20 s\n  ice crushed\n");
  CHECK(count<operation::Build>(strained) == 0);
  // Strained after, it was worked in a tin.
  auto in_tin = lowered("  glass highball\n  60 ml aged rum\n  swizzle 20 s\n  strain\n");
  CHECK(count<operation::Build>(in_tin) == 0);
  CHECK(std::get<operation::IcePer100Ml>(first<operation::Chill>(in_tin).ice).amount.value == 300);
}

TEST_CASE("what a swizzle is built in comes of the step, as the swizzle itself") {
  auto built =
      lowered("  glass highball\n  60 ml aged rum\n  20 ml lime juice\n  swizzle 20 s\n  ice crushed\n");
  for (const auto& operation : built.program.operations) {
    if (!operation.as<operation::Build>() && !operation.as<operation::Chill>()) continue;
    CHECK_FALSE(operation.is_amount);
    CHECK(operation.index == 0);
  }
  CHECK(count<operation::Build>(built) == 1);
}

TEST_CASE("a cup of ice is a heap of it") {
  // 57 % of a heap of cubes is ice of 0.9167 g/ml.
  auto built = lowered("  60 ml aged rum\n  shake 8 s with 100 ml cubed\n  strain\n");
  CHECK(std::get<units::Grams>(first<operation::Chill>(built).ice).value == Approx(100 * 0.57 * 0.9167));
}

TEST_CASE("a scoop of ice leaves half the line for a top, and the room of a top that is measured") {
  auto ice_g = [](std::string_view ml, std::string_view top) {
    auto built = lowered(fmt::format("  glass beaker\n  {} ml vodka\n  build\n  ice cubed\n{}", ml, top),
                         "glass beaker\n  holds 300 ml\n  line 240 ml\n");
    return first<operation::Build>(built).glass_ice.value;
  };
  CHECK(ice_g("60", "  top soda water\n") == Approx(300 * 0.95 - 60 * 1.1 - 120));
  CHECK(ice_g("150", "  top 30 ml soda water\n") == Approx(300 * 0.95 - 180 * 1.1));
  CHECK(ice_g("150", "  float 30 ml aged rum\n") == Approx(300 * 0.95 - 180 * 1.1));
}

TEST_CASE("more ice on top is a quarter of a heap, or what is weighed") {
  auto ice_g = [](std::string_view more) {
    auto built = lowered(fmt::format("  glass beaker\n  60 ml vodka\n  build\n  add cubed\n  add {}\n", more),
                         "glass beaker\n  holds 300 ml\n");
    return last<operation::Build>(built).glass_ice.value;
  };
  CHECK(ice_g("cubed") == Approx(300 * 0.75 * 0.57 * 0.9167 * 0.25));
  CHECK(ice_g("40 g cubed") == 40);
}

TEST_CASE("a drink that is heated to forty degrees and built stands on no ice") {
  auto ice_g = [](int degrees) {
    auto built = lowered(fmt::format("  100 ml water\n  heat to {} C\n  build\n", degrees));
    return first<operation::Build>(built).glass_ice.value;
  };
  CHECK(ice_g(40) == 0);
  CHECK(ice_g(39) > 0);
}

TEST_CASE("a top without a glass to fill makes the drink invalid") {
  CHECK_FALSE(lowered("  30 ml vodka\n  build\n  ice none\n  top soda water\n").program.valid);
  CHECK(lowered("  glass highball\n  30 ml vodka\n  build\n  ice none\n  top soda water\n").program.valid);
}

TEST_CASE("a measured piece of ice in the shaker is measured in the glass that it is dumped into") {
  auto dumped = lowered("  60 ml aged rum\n  shake 8 s with 4 cubed\n  dump\n");
  CHECK(dumped.program.served_on.kind == ServedIce::Kind::shakers);
  CHECK(dumped.program.served_on.is_measured);
  CHECK_FALSE(lowered("  60 ml aged rum\n  shake 8 s with cubed\n  dump\n").program.served_on.is_measured);
}

TEST_CASE("without ice to work on, a stir in the glass and a blend only mix") {
  auto stirred = lowered("  60 ml aged rum\n  build\n  stir 10 s\n  ice none\n");
  CHECK(count<operation::Chill>(stirred) == 0);
  auto blended = lowered("  60 ml aged rum\n  blend 10 s\n  dump\n");
  CHECK(count<operation::Chill>(blended) == 0);
  CHECK(blended.program.operations.size() == 3);
}

TEST_CASE("a drink worked briefly on its own ice stands on it for the usual eight seconds all the same") {
  auto time = [](std::string_view stir) {
    return last<operation::Chill>(
               lowered(
                   fmt::format("  glass rocks\n  60 ml aged rum\n  build\n  stir {}\n  ice cubed\n", stir)))
        .time;
  };
  double brief = time("1 s"), longer = time("2 s");
  // What is missing to the usual time is added to the last step.
  double per_stirred = seconds_of_building(ChillMethod::stir, 1);
  CHECK(brief == Approx(usual_time(ChillMethod::build) / per_stirred));
  CHECK(longer == Approx(std::max(2.0, brief)));
  CHECK(time("60 s") == 60);
}

TEST_CASE("what is batched with its water is not watered by the method, but by its own ice it is") {
  auto chills = [](std::string_view batched) {
    auto built =
        lowered(fmt::format("  glass rocks\n  60 ml aged rum\n  20 ml water\n  stir 30 s\n  strain\n"
                            "  batched aged rum{}\n",
                            batched));
    return first<operation::Chill>(built).water_is_in;
  };
  CHECK(chills(", with water"));
  CHECK_FALSE(chills(""));
}

TEST_CASE("the steps of a prep become what they do to it") {
  auto house = evaluate(
      "prep P\n  100 g white sugar\n  1 l water\n  heat to 80 C\n  simmer 10 min\n  cool to 20 C within 1 "
      "h\n  chill\n"
      "  freeze 12 h\n  strain\n  press\n  reduce by 25 %\n  clarify\n  steep 5 min at 60 C\n  steep 5 "
      "min\n");
  diagnostics::DiagnosticSink unheard;
  ProgramBuilder builder(house.front.specs, house.front.units, house.facts.stock, unheard);
  auto built = builder.build(house.front.stock("P"));
  CHECK(built.program.is_prep);
  CHECK(count<operation::Heat>(built) == 2);
  CHECK(first<operation::Heat>(built).to.value == 80);
  CHECK(first<operation::Heat>(built).time.value == 0);
  CHECK(last<operation::Heat>(built).to.value == simmer_c);
  CHECK(last<operation::Heat>(built).time.value == 600);
  std::vector<double> set;
  for (const auto& operation : built.program.operations)
    if (const auto* temperature = operation.as<operation::SetTemperature>())
      set.push_back(temperature->to.value);
  CHECK(set ==
        std::vector<double>{20, house.front.specs.house.fridge_c, house.front.specs.house.freezer_c, 60});
  CHECK_FALSE(first<operation::Strain>(built).is_pressed);
  CHECK(last<operation::Strain>(built).is_pressed);
  CHECK(std::get<units::Share>(first<operation::Reduce>(built).to).value == Approx(0.25));
  CHECK(count<operation::Clarify>(built) == 1);
}

TEST_CASE("each operation says whether an amount's line or a step's made it, and which") {
  const auto house = evaluate(
      "drink A\n  glass rocks\n  ice cubed\n  rinse absinthe\n  50 ml vodka\n  20 ml lime juice\n"
      "  shake 12 s\n  strain\n  add ice\n  top soda water\n  float 10 ml dark rum\n  garnish lime wedge\n"
      "drink B\n  glass collins\n  50 ml vodka\n  swizzle 15 s\n  mint sprig\n  20 ml lime juice\n  add ice\n"
      "prep P\n  1 l water\n  heat 80 C\n  20 g black tea\n  infuse 4 min\n  until sugar 10 % w/w  white "
      "sugar\n  fine strain\n  keeps 1 d chilled\n");
  auto check = [](const analysis::Recipe& recipe, const BuiltProgram& built) {
    std::size_t amounts = 0, steps = 0;
    for (const auto& operation : built.program.operations) {
      ++(operation.is_amount ? amounts : steps);
      REQUIRE(operation.index < (operation.is_amount ? recipe.amounts.size() : recipe.steps.size()));
      // Only what is poured by a line of its own is an amount.
      const bool pours = operation.as<operation::Add>() || operation.as<operation::Fill>() ||
                         operation.as<operation::Until>() || operation.as<operation::Top>();
      CHECK((pours || !operation.is_amount));
    }
    CHECK(amounts == recipe.amounts.size());
    CHECK(steps >= recipe.steps.size());
  };
  for (const char* name : {"A", "B"}) check(house.front.drink(name).recipe, house.lowered(name));
  diagnostics::DiagnosticSink unheard;
  ProgramBuilder builder(house.front.specs, house.front.units, house.facts.stock, unheard);
  const auto& prep = house.front.specs[house.stock("P").stock];
  check(prep.recipe, builder.build(prep));
}
