// A plan of real days: closed ones, bookings, hands, ice, garnish, what is on hand with its age, a calendar.
#include <fmt/format.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <sstream>

#include "base/date.h"
#include "costing/words.h"
#include "plan/prep_ics.h"
#include "plan/prep_labels.h"
#include "plan/prep_page.h"
#include "plan/timetable.h"
#include "render/terminal/page_text.h"
#include "render/wording/method_lines.h"
#include "stock/counts.h"
#include "unit/plan/plan_fixture.h"

using namespace gill;
using gill::plan::PlanOptions;
using gill::plan::PrepPlan;
using gill::testing::EvaluatedHouse;

namespace {

// 2026-09-16 is a Wednesday.
constexpr std::string_view week = R"(house Test
  currency EUR

ice test cubes
  each 30 g
ice test block
  each 400 g

ingredient test gin like London dry gin
  buy 700 ml for 21 EUR

ingredient lemon
  kind fruit
  each 120 g
  each twist 3 g
  each wheel 8 g
  gives 45 ml lemon juice, 9 g lemon peel
  buy 1 for 0.40 EUR

prep leaf gin
  700 ml test gin
  10 g mint leaves
  infuse 2 h at 20 C
  fine strain
  makes 680 ml
  keeps 10 d chilled
  takes 30 min
  station back

prep sugar syrup
  500 g white sugar
  500 g water
  dissolve
  makes 810 ml
  keeps 10 d chilled
  takes 30 min
  station pantry

drink Sour
  glass coupe
  station well
  45 ml leaf gin
  20 ml lemon juice
  15 ml sugar syrup
  shake with 150 g test cubes, 12 s
  double strain
  garnish lemon twist

drink Long
  glass highball
  ice 1 test block
  station well
  45 ml leaf gin
  10 ml sugar syrup
  build
  top 100 ml soda water
  garnish lemon wheel

menu Nightly
  runs 2026-09-16 .. 2026-12-01
  section All
    Sour at 12 EUR, sells 40
    Long at 12 EUR, sells 10
)";

std::chrono::sys_days date(std::string_view text) { return *base::read_iso_date(text); }

const EvaluatedHouse& house() {
  static const EvaluatedHouse evaluated(week);
  return evaluated;
}

PrepPlan plan_of(const PlanOptions& options) { return plan::make_prep_plan(house().house, options); }

PlanOptions days(int count) {
  PlanOptions options;
  options.days = count;
  return options;
}

/// One day of another house.
PrepPlan plan_of_day(const EvaluatedHouse& other, std::string_view day) {
  PlanOptions options = days(1);
  options.from = date(day);
  return plan::make_prep_plan(other.house, options);
}

double portions_on(const PrepPlan& plan, std::size_t day) {
  double sum = 0;
  for (const auto& serve : plan.days[day].serves) sum += serve.second;
  return sum;
}

std::vector<plan::Interval> all_work(const PrepPlan& plan) {
  std::vector<plan::Interval> work;
  for (const auto& make : plan.makes)
    if (make.make_g > 0) work.insert(work.end(), make.work.begin(), make.work.end());
  for (const auto& day : plan.cuts)
    for (const auto& cut : day) work.emplace_back(cut.from_h, cut.to_h);
  return work;
}

bool has_note(const PrepPlan& plan, std::string_view words) {
  return std::any_of(plan.notes.begin(), plan.notes.end(),
                     [&](const std::string& note) { return note.find(words) != std::string::npos; });
}

std::string text_of(const PrepPlan& plan) {
  return render::terminal::page_text(plan::prep_page(plan, house().house),
                                     costing::desk_frame(house().house));
}

}  // namespace

TEST_CASE("nothing is sold and nobody works on a day on which the bar is closed", "[prep]") {
  auto options = days(4);
  options.closed.weekdays = {3};  // Thursday, the second day
  options.closed.dates = {date("2026-09-15")};
  auto plan = plan_of(options);
  CHECK(portions_on(plan, 0) == 50);
  CHECK(plan.days[1].is_closed);
  CHECK(portions_on(plan, 1) == 0);
  CHECK(portions_on(plan, 2) == 50);
  for (const auto& [from, to] : all_work(plan)) {
    CAPTURE(from, to);
    // Closed: the day before the first, and the second.
    CHECK(plan::bar_day(to, options) != -1);
    CHECK(plan::bar_day(to, options) != 1);
  }
  CHECK(text_of(plan).find("Thu 17 Sep, closed") != std::string::npos);
}

TEST_CASE("what is booked comes on top of what a menu expects", "[prep]") {
  auto options = days(2);
  options.bookings = {{date("2026-09-17"), house().drink("Sour"), 25},
                      {date("2026-09-20"), house().drink("Sour"), 9}};
  auto plan = plan_of(options);
  CHECK(portions_on(plan, 0) == 50);
  CHECK(portions_on(plan, 1) == 75);
  CHECK(plan.days[1].booked_portions == 25);
  CHECK(has_note(plan, "Booked for days that are not planned for here: Sour on 2026-09-20."));
  CHECK(text_of(plan).find("Service: 75 portions, 25 of them booked") != std::string::npos);
}

TEST_CASE("a list of bookings is read, and a row that names no drink asks for one", "[prep]") {
  auto booked = stock::read_bookings("date,drink,portions\n2026-09-17,sour,25\n2026-09-18,,40\n18/9,Long,3\n",
                                     house().house, false);
  REQUIRE(booked.rows.size() == 1);
  CHECK(booked.rows[0].portions == 25);
  CHECK(booked.rows[0].date == date("2026-09-17"));
  REQUIRE(booked.problems.size() == 2);
  CHECK(booked.problems[0].line == 3);
  CHECK(booked.problems[1].message == "`18/9` is no date; write it as 2026-03-19.");
}

TEST_CASE("a booking of a drink that nobody serves is told, and so is half a portion", "[prep]") {
  EvaluatedHouse bar(
      "drink A\n  50 ml vodka\n  stir 20 s\n  strain\ndrink Z like A\n  status draft\ndrink R like A\n  "
      "status "
      "retired\n");
  const char* rows =
      "date,drink,portions\n2026-03-02,Z,5\n2026-03-02,R,7\n2026-03-02,A,2.5\n2026-03-02,A,2\n";
  auto booked = stock::read_bookings(rows, bar.house, false);
  REQUIRE(booked.rows.size() == 1);
  CHECK(booked.rows[0].portions == 2);
  REQUIRE(booked.problems.size() == 3);
  CHECK(booked.problems[0].message == "`Z` is a draft: approve it, or plan with `--drafts`.");
  CHECK(booked.problems[1].message == "`R` is retired: nobody makes it.");
  CHECK(booked.problems[2].message == "`2.5` is no whole number of portions.");
  CHECK(stock::read_bookings(rows, bar.house, true).rows.size() == 2);
}

TEST_CASE("with one pair of hands no two things are done at once, or it is told", "[prep]") {
  auto options = days(3);
  options.hands = 1;
  auto plan = plan_of(options);
  auto work = all_work(plan);
  bool told = has_note(plan, "does not fit the one pair of hands there is");
  if (!told)
    for (const auto& [from, to] : work) CHECK(plan::most_at_once(work, from, to) == 1);
  // Without it stations work side by side.
  auto free_work = all_work(plan_of(days(3)));
  int most = 0;
  for (const auto& [from, to] : free_work) most = std::max(most, plan::most_at_once(free_work, from, to));
  CHECK(most > 1);
  CHECK_FALSE(told);
  for (const auto& line : plan.hands) CHECK(line.hands <= 1);
}

TEST_CASE("hands at work are counted hour by hour", "[prep]") {
  CHECK(plan::most_at_once({{0, 1}, {0.5, 2}, {1, 3}}, 0, 3) == 2);
  CHECK(plan::most_at_once({{0, 1}, {1, 2}}, 0, 2) == 1);
  CHECK(plan::most_at_once({{0, 1}}, 2, 3) == 0);
  auto plan = plan_of(days(1));
  auto work = all_work(plan);
  REQUIRE_FALSE(plan.hands.empty());
  for (const auto& line : plan.hands) {
    CHECK(line.to_h - line.from_h == Approx(1));
    CHECK(line.hands == plan::most_at_once(work, line.from_h, line.to_h));
  }
}

TEST_CASE("ice is planned by kind, from the well and into the glass", "[prep]") {
  auto plan = plan_of(days(1));
  REQUIRE(plan.ice.size() == 1);
  std::map<std::string, plan::IceLine> by_name;
  for (const auto& line : plan.ice[0]) by_name[house().house.specs[line.ice].head.name] = line;
  // 40 tins of 150 g; 10 glasses with a block of 400 g.
  CHECK(by_name.at("test cubes").grams == Approx(40 * 150));
  CHECK_FALSE(by_name.at("test cubes").pieces);
  CHECK(by_name.at("test block").grams == Approx(10 * 400));
  CHECK(by_name.at("test block").pieces == 10);
  CHECK(text_of(plan).find("10 pieces, 4 kg") != std::string::npos);
}

TEST_CASE("garnishes are cut before the service, from so many fruit", "[prep]") {
  auto plan = plan_of(days(1));
  REQUIRE(plan.cuts.size() == 1);
  std::map<std::string, plan::CutLine> by_name;
  for (const auto& cut : plan.cuts[0]) by_name[cut.name] = cut;
  // 40 twists of 3 g, 9 g of peel a lemon: 13.3. 10 wheels of 8 g out of 120 g: 0.7.
  CHECK(by_name.at("lemon twist").pieces == 40);
  CHECK(by_name.at("lemon twist").fruit_count == 14);
  CHECK(by_name.at("lemon wheel").pieces == 10);
  CHECK(by_name.at("lemon wheel").fruit_count == 1);
  for (const auto& [name, cut] : by_name) CHECK(cut.to_h <= 1e-9);
  CHECK(text_of(plan).find("Cut 40 × lemon twist from 14 × lemon") != std::string::npos);
}

TEST_CASE("as much fruit is bought as is pressed, peeled and cut day by day", "[prep]") {
  auto lemon = house().stock("lemon");
  for (int count : {1, 2, 3, 5, 7}) {
    auto plan = plan_of(days(count));
    double cut = 0;
    std::map<int, double> pressed, peeled;
    for (std::size_t day = 0; day < plan.cuts.size(); ++day)
      for (const auto& line : plan.cuts[day])
        (line.is_peel ? peeled[static_cast<int>(day)] : cut) += line.fruit_count;
    for (const auto& make : plan.makes)
      if (const auto& product = plan.products[make.product]; product.fruit == lemon && make.make_g > 0)
        pressed[make.made_day] += std::ceil(make.make_g / product.serve_g - 1e-9);
    double whole = cut;
    for (int day = 0; day < count; ++day) whole += std::max(pressed[day], peeled[day]);
    auto line = std::find_if(plan.shopping.begin(), plan.shopping.end(),
                             [&](const auto& one) { return one.stock == lemon; });
    REQUIRE(line != plan.shopping.end());
    CHECK(line->need_count == Approx(whole));
  }
}

TEST_CASE("what is left of a cut fruit is cut up on the next day before another is begun", "[prep]") {
  auto plan = plan_of(days(4));
  std::vector<double> begun;
  for (const auto& day : plan.cuts)
    for (const auto& cut : day)
      if (cut.name == "lemon wheel") begun.push_back(cut.fruit_count);
  // Two thirds of a lemon a day: 1/3 left, then 2/3, then nothing.
  CHECK(begun == std::vector<double>{1, 1, 0, 1});
  CHECK(text_of(plan).find("Cut 10 × lemon wheel from the lemon that is cut already") != std::string::npos);
}

TEST_CASE("whoever cuts first begins the fruit, and what is left goes to the next", "[prep]") {
  const std::string drink = "  glass coupe\n  50 ml vodka\n  stir 20 s\n  strain\n  garnish lime wheel\n";
  EvaluatedHouse bar("drink D\n  station well\n" + drink + "drink F\n  station service bar\n" + drink +
                     "menu M\n  runs 2026-03-01 .. 2026-06-01\n  D at 10 EUR, sells 18, Tue 22\n"
                     "  F at 10 EUR, sells 10\n");
  PlanOptions options;
  options.from = base::read_iso_date("2026-03-02");
  options.days = 2;
  auto plan = plan::make_prep_plan(bar.house, options);
  for (const auto& day : plan.cuts) {
    double before = -1e9, begun = 0, used = 0;
    for (const auto& cut : day) {
      CHECK(cut.from_h >= before);
      before = cut.from_h;
      begun += cut.fruit_count;
      used += cut.fruit_share;
      // Nobody cuts what is not there yet: at most one fruit is left of the day before.
      CHECK(used <= begun + 1 + 1e-6);
    }
  }
}

TEST_CASE("a garnish keeps what its line says it is", "[wording]") {
  auto garnish = [](const char* line) {
    EvaluatedHouse bar(
        fmt::format("drink D\n  glass coupe\n  50 ml vodka\n  stir 20 s\n  strain\n  {}\n", line));
    const auto& drink = bar.compiled.specs[bar.drink("D")];
    auto context =
        render::wording::recipe_of(drink, bar.facts[bar.drink("D")], bar.compiled.specs, bar.compiled.units);
    auto lines = render::wording::garnish_lines(context);
    return lines.empty() ? std::string() : lines[0].words;
  };
  CHECK(garnish("garnish grated nutmeg") == "grated nutmeg");
  CHECK(garnish("garnish lime wheel") == "lime wheel");
  CHECK(garnish("flame orange twist") == "orange twist, flamed");
  CHECK(garnish("flame") == "");
}

namespace {

/// When the fruit is pressed and when it is peeled.
struct FruitWork {
  plan::Interval pressed, peeled;
};

FruitWork work_of(const plan::PrepPlan& plan, const EvaluatedHouse& house, std::string_view fruit) {
  std::optional<plan::Interval> pressed, peeled;
  for (const auto& make : plan.makes) {
    const auto& product = plan.products[make.product];
    if (product.making != plan::Making::pressing || make.make_g <= 0) continue;
    if (house.compiled.specs[product.fruit].head.name == fruit)
      (product.ml_per_g ? pressed : peeled) = make.work.front();
  }
  REQUIRE((pressed && peeled));
  return {*pressed, *peeled};
}

}  // namespace

TEST_CASE("a fruit is peeled before it is pressed", "[prep]") {
  EvaluatedHouse evaluated(
      "house X\n  currency GBP\nprices p\n  lemon 1 for 0.40 GBP\ndrink Sour\n  glass coupe\n  50 ml London "
      "dry gin\n"
      "  22.5 ml lemon juice\n  20 ml simple syrup\n  shake 12 s\n  strain\n  garnish lemon peel\n"
      "menu M\n  runs 2026-03-01 .. 2026-04-30\n  section A\n    Sour at 10 GBP, sells 9\n");
  auto plan = plan_of_day(evaluated, "2026-03-04");
  auto [pressed, peeled] = work_of(plan, evaluated, "lemon");
  CHECK(peeled.second <= pressed.first + 1e-9);
  CHECK(pressed.second <= 1e-9);
}

TEST_CASE("a fruit is peeled before it is pressed for a prep that is made in several steps", "[prep]") {
  EvaluatedHouse evaluated(
      "house X\n  currency GBP\n"
      "prep mulled red\n  1.5 l red wine\n  600 ml orange juice\n  150 g white sugar\n"
      "  heat to 70 C 30 min, covered\n  strain through cloth\n  keeps 1 d hot\n"
      "drink Smoke\n  glass rocks\n  ice none\n  build\n  40 ml mezcal\n  20 ml lime juice\n"
      "  garnish orange peel\n"
      "drink Mull\n  glass rocks\n  ice none\n  build\n  150 ml mulled red\n  garnish orange slice\n"
      "menu M\n  runs 2026-03-01 .. 2026-04-30\n  section A\n    Smoke at 8 GBP, sells 5\n"
      "    Mull at 5 GBP, sells 90\n");
  auto plan = plan_of_day(evaluated, "2026-03-04");
  auto [pressed, peeled] = work_of(plan, evaluated, "orange");
  CHECK(peeled.second <= pressed.first + 1e-9);
  CHECK(plan.starts_h <= peeled.first + 1e-9);
}

TEST_CASE("a fruit is peeled before it is pressed, whatever else is pressed between", "[prep]") {
  EvaluatedHouse evaluated(
      "house X\n  currency GBP\n"
      "drink Amaro neat\n  glass rocks\n  ice none\n  build\n  40 ml vodka\n  garnish orange peel\n"
      "drink Juice\n  glass highball\n  ice cubed\n  200 ml orange juice\n  garnish none\n"
      "drink Lem\n  glass coupe\n  50 ml vodka\n  30 ml lemon juice\n  shake 12 s\n  strain\n  garnish none\n"
      "menu M\n  runs 2026-03-01 .. 2026-04-30\n  section A\n    Amaro neat at 8 GBP, sells 5\n"
      "    Juice at 5 GBP, sells 12\n    Lem at 4 GBP, sells 14\n");
  auto plan = plan_of_day(evaluated, "2026-03-04");
  std::vector<plan::Interval> all;
  for (const auto& make : plan.makes) {
    if (make.make_g <= 0) continue;
    all.push_back(make.work.front());
    CHECK(make.ready_h == Approx(make.work.back().second));
    CHECK(make.work.back().second <= 1e-9);
  }
  auto [pressed, peeled] = work_of(plan, evaluated, "orange");
  CHECK(peeled.second <= pressed.first + 1e-9);
  // One pair of hands does one thing at a time.
  std::sort(all.begin(), all.end());
  for (std::size_t i = 0; i + 1 < all.size(); ++i) CHECK(all[i].second <= all[i + 1].first + 1e-9);
}

TEST_CASE("an egg that is separated gives a white and a yolk: it is bought, counted and paid once",
          "[prep]") {
  EvaluatedHouse evaluated(
      "house X\n  currency GBP\nprices p\n  from 2026-01-01\n  whole egg 30 for 7.50 GBP\n"
      "  vodka 1 l for 20 GBP\n  honey 1 kg for 8 GBP\n"
      "drink White\n  glass wine glass\n  50 ml vodka\n  10 g honey\n  1 egg white\n  dry shake 10 s\n"
      "  shake 10 s\n  strain\n  garnish none\n"
      "drink Yolk\n  glass wine glass\n  50 ml vodka\n  10 g honey\n  1 egg yolk\n  shake 10 s\n"
      "  strain\n  garnish none\n"
      "drink Both\n  glass wine glass\n  50 ml vodka\n  10 g honey\n  1 egg white\n  1 egg yolk\n"
      "  shake 10 s\n  strain\n  garnish none\n"
      "drink Whole\n  glass wine glass\n  50 ml vodka\n  10 g honey\n  1 whole egg\n  shake 10 s\n"
      "  strain\n  garnish none\n"
      "menu M\n  runs 2026-03-01 .. 2026-04-30\n  section A\n    White at 10 GBP, sells 10\n"
      "    Yolk at 10 GBP, sells 4\n    Whole at 10 GBP, sells 3\n");
  // An egg of 0.25, 50 ml of vodka at 1.00, 10 g of honey at 0.08.
  for (std::string_view name : {"White", "Yolk", "Both", "Whole"})
    CHECK(base::to_double(evaluated.facts[evaluated.drink(name)].cost->amount) == Approx(1.33));
  auto plan = plan_of_day(evaluated, "2026-03-02");
  auto egg = std::find_if(plan.shopping.begin(), plan.shopping.end(),
                          [&](const auto& line) { return line.stock == evaluated.stock("whole egg"); });
  REQUIRE(egg != plan.shopping.end());
  CHECK(egg->need_as_sold == Approx(10 + 3));
  CHECK(egg->purpose == "10 × egg white, 4 × egg yolk");
  std::string text = render::terminal::page_text(plan::prep_page(plan, evaluated.house),
                                                 costing::desk_frame(evaluated.house));
  INFO(text);
  // What the yolks leave of their eggs is not bought again, nor broken.
  CHECK(text.find("Separate 4 × egg yolk from 4 × whole egg") != std::string::npos);
  CHECK(text.find("Separate 10 × egg white from 6 × whole egg and the 4 that are separated already") !=
        std::string::npos);
  CHECK(testing::has_row(text, "☐ egg white 10 separated today, for today"));
  CHECK(testing::has_row(text, "☐ whole egg 3"));
}

TEST_CASE("what is ready on the next day is told by its day, also where hands end at midnight", "[prep]") {
  EvaluatedHouse evaluated(
      "house X\ndrink D\n  glass highball\n  ice cubed\n  build\n  50 ml vodka\n  garnish dried lime\n"
      "prep dried lime\n  6 limes\n  do slice to 3 mm, 12 min\n  dehydrate 10 h at 57 C\n  makes 54\n"
      "  each 0.9 g\n  keeps 4 wk ambient\n  takes 15 min\nmenu M\n  runs 2026-03-01 .. 2026-04-30\n"
      "  section A\n    D at 10 GBP, sells 5\n");
  auto plan = plan_of_day(evaluated, "2026-03-04");
  for (const auto& make : plan.makes) {
    int begins = plan::calendar_day(make.work.front().first, plan.options),
        ready = plan::calendar_day(make.ready_h, plan.options);
    if (begins == ready || plan.products[make.product].making != plan::Making::prep) continue;
    std::string text = render::terminal::page_text(plan::prep_page(plan, evaluated.house),
                                                   costing::desk_frame(evaluated.house));
    INFO(text);
    CHECK(text.find("ready " + plan::day_text(ready, plan)) != std::string::npos);
    return;
  }
  FAIL("nothing of it is ready on another day");
}

TEST_CASE("what is strewn is set out and bought by the pinch", "[prep]") {
  EvaluatedHouse evaluated(
      "house X\n  currency GBP\nprices p\n  from 2026-01-01\n  nutmeg 50 g for 3.20 GBP\n"
      "  ground cinnamon 50 g for 3.20 GBP\n  dark rum 700 ml for 20 GBP\n"
      "drink Damper\n  glass wine glass\n  50 ml dark rum\n  stir 10 s\n  strain\n  grate nutmeg over\n"
      "  garnish ground cinnamon\nmenu M\n  runs 2026-03-01 .. 2026-04-01\n  section A\n"
      "    Damper at 10 GBP, sells 10\n");
  auto plan = plan_of_day(evaluated, "2026-03-02");
  std::map<std::string, const plan::ShoppingLine*> by_name;
  for (const auto& line : plan.shopping) by_name[evaluated.compiled.specs[line.stock].head.name] = &line;
  // The library's pinches: 0.05 g of nutmeg, 0.2 g of cinnamon. Common practice, no source.
  CHECK(by_name.at("nutmeg")->need_g == Approx(10 * 0.05));
  CHECK(by_name.at("ground cinnamon")->need_g == Approx(10 * 0.2));
  CHECK(by_name.at("ground cinnamon")->cost.has_value());
  // Rum 50/700 of 20, nutmeg 0.001 of 3.20, cinnamon 0.004 of 3.20.
  CHECK(base::to_double(evaluated.facts[evaluated.drink("Damper")].cost->amount) ==
        Approx(1.428571 + 0.0032 + 0.0128).epsilon(1e-4));
}

TEST_CASE("what is on hand is used while it keeps, the oldest first, by the day on which it was made",
          "[prep]") {
  auto gin = house().stock("leaf gin");
  auto with = [&](std::vector<plan::DatedStock> lots) {
    auto options = days(1);
    for (const auto& lot : lots) options.on_hand_g[gin] += lot.grams;
    options.on_hand_dated[gin] = std::move(lots);
    auto plan = plan_of(options);
    for (const auto& make : plan.makes)
      if (plan.products[make.product].stock == gin) return make;
    throw std::runtime_error("no leaf gin");
  };
  // It keeps 10 days, the day on which it was made the first: made on the 7th it is planned for the 16th.
  auto fresh = with({{300, date("2026-09-14")}, {200, date("2026-09-07")}});
  CHECK(fresh.on_hand_g == Approx(500));
  CHECK(fresh.on_hand_made == date("2026-09-07"));
  CHECK(fresh.on_hand_made_last == date("2026-09-14"));
  auto stale = with({{300, date("2026-09-14")}, {200, date("2026-09-06")}});
  CHECK(stale.on_hand_g == Approx(300));
  CHECK(stale.on_hand_made == date("2026-09-14"));
  CHECK(stale.on_hand_made_last == stale.on_hand_made);
  // A count that says when each was made.
  auto counts = stock::read_counts("name,amount,unit,made\nleaf gin,300,g,2026-09-14\nleaf gin,200,g,\n",
                                   house().house);
  REQUIRE(counts.made_g[gin].size() == 1);
  CHECK(counts.made_g[gin][0].second == Approx(300));
  CHECK(counts.grams[gin] == Approx(500));
}

TEST_CASE(
    "the day on which a thing was made is read in five languages, and no other day is left out in silence",
    "[prep]") {
  EvaluatedHouse evaluated("house X\n");
  for (const char* title : {"made", "Made on", "Date made", "Prep date", "Production date", "Fait le",
                            "Fabriqué le", "Date de préparation", "Prodotto il", "Data di produzione",
                            "Elaborado el", "Gemacht am", "Hergestellt (am)"}) {
    INFO(title);
    const std::string list =
        std::string("name,amount,unit,") + title + "\nLondon dry gin,300,ml,2026-11-01\n";
    auto counts = stock::read_on_hand(list, evaluated.house);
    CHECK(counts.made_g.size() == 1);
    CHECK(counts.problems.empty());
  }
  for (const char* title : {"Date", "Use by", "MHD", "Data"}) {
    INFO(title);
    const std::string list = std::string("name,amount,unit,") + title + "\nLondon dry gin,300,ml,1.11.2026\n";
    auto problems = stock::read_on_hand(list, evaluated.house).problems;
    REQUIRE(problems.size() == 1);
    CHECK(problems[0].message.find("title it `made`") != std::string::npos);
  }
}

TEST_CASE("eggs without a price are still bought by the egg", "[prep]") {
  EvaluatedHouse evaluated(
      "house X\ndrink White\n  glass wine glass\n  50 ml vodka\n  1 egg white\n  dry shake 10 s\n"
      "  shake 10 s\n  strain\n  garnish none\n"
      "menu M\n  runs 2026-03-01 .. 2026-04-30\n  section A\n    White at 10 GBP, sells 5\n");
  auto plan = plan_of_day(evaluated, "2026-03-02");
  auto egg = std::find_if(plan.shopping.begin(), plan.shopping.end(),
                          [&](const auto& line) { return line.stock == evaluated.stock("whole egg"); });
  REQUIRE(egg != plan.shopping.end());
  CHECK_FALSE(egg->need_ml);
  REQUIRE(egg->need_count);
  CHECK(*egg->need_count == Approx(5));
}

TEST_CASE("what is on hand and past its days, or made on a day to come, is told", "[prep]") {
  auto gin = house().stock("leaf gin");
  auto options = days(1);
  options.on_hand_g[gin] = 500;
  options.on_hand_dated[gin] = {{300, date("2026-09-01")}, {200, date("2026-12-01")}};
  auto plan = plan_of(options);
  CHECK(has_note(plan, "Past its days and not counted, pour it away: "));
  CHECK(has_note(plan, "leaf gin of 2026-09-01"));
  CHECK(has_note(plan, "made on a day still to come"));
  options.on_hand_g[gin] = 300;
  options.on_hand_dated[gin] = {{300, date("2026-09-14")}};
  CHECK_FALSE(has_note(plan_of(options), "pour it away"));
  // What is made on the second day is not there on the first.
  options = days(2);
  options.on_hand_g[gin] = 1e6;
  options.on_hand_dated[gin] = {{1e6, date("2026-09-17")}};
  for (const auto& make : plan_of(options).makes)
    if (make.made_day < 0 && plan_of(options).products[make.product].stock == gin) CHECK(make.make_g > 0);
}

TEST_CASE("what is used before its days are over is not poured away", "[prep]") {
  EvaluatedHouse bar(
      "prep tea\n  24 g black tea leaves\n  1 l water, hot\n  steep 5 min at 95 C\n  fine strain\n"
      "  cool to 20 C within 1 h\n  makes 1 l\n  keeps 2 d chilled\n"
      "prep mooring\n  500 ml tea\n  500 ml vodka\n  stir\n  makes 1 l\n  keeps 14 d chilled\n"
      "drink A\n  glass highball\n  ice cubed\n  build\n  100 ml mooring\n  garnish none\n"
      "menu M\n  runs 2026-03-01 .. 2026-04-30\n  section All\n    A at 5 EUR, sells 10\n");
  PlanOptions options;
  options.from = date("2026-03-06");
  options.on_hand_g[bar.stock("tea")] = 1000;
  options.on_hand_dated[bar.stock("tea")] = {{1000, date("2026-03-04")}};
  auto plan = plan::make_prep_plan(bar.house, options);
  double used_g = 0;
  for (const auto& make : plan.makes)
    if (plan.products[make.product].stock == bar.stock("tea")) used_g += make.on_hand_g;
  double left_g = 0;
  for (const auto& lot : plan.left_on_hand) left_g += lot.grams;
  CHECK(used_g > 0);
  CHECK(used_g + left_g == Approx(1000));
  CHECK_FALSE(has_note(plan, "1 l tea of 2026-03-04"));
}

TEST_CASE("a part of a recipe is made only where what is counted in it stays whole", "[prep]") {
  auto part_of = [](std::string_view eggs) {
    EvaluatedHouse evaluated(
        fmt::format("prep batter\n  {} egg yolks\n  200 ml whole milk\n  blend 10 s\n  makes 400 ml\n  keeps "
                    "2 d chilled\n"
                    "drink A\n  glass coupe\n  30 ml batter\n  shake 10 s\n  double strain\n"
                    "menu M\n  runs 2026-09-16 .. 2026-12-01\n  section All\n    A at 5 EUR, sells 2\n",
                    eggs));
    auto plan = plan::make_prep_plan(evaluated.house, {});
    for (const auto& make : plan.makes)
      if (plan.products[make.product].name == "batter")
        return make.make_g / plan.products[make.product].recipe_g;
    throw std::runtime_error("no batter");
  };
  CHECK(part_of("4") == Approx(0.25));
  CHECK(part_of("2") == Approx(0.5));
  CHECK(part_of("3") == Approx(1));
}

TEST_CASE("the part of a recipe follows from the days that one making is for, whatever else is planned",
          "[prep]") {
  EvaluatedHouse evaluated(
      "prep tea\n  24 g black tea leaves\n  1 l water, hot\n  steep 5 min at 95 C\n  fine strain\n"
      "  cool to 20 C within 1 h\n  makes 1 l\n  keeps 1 d chilled\n"
      "drink A\n  glass highball\n  ice cubed\n  build\n  100 ml tea\n  garnish none\n"
      "menu M\n  runs 2026-03-01 .. 2026-04-30\n  section All\n    A at 5 EUR, sells 2, fri 9\n");
  auto parts = [&](int count) {
    PlanOptions options;
    options.from = base::read_iso_date("2026-03-05");  // a Thursday
    options.days = count;
    auto plan = plan::make_prep_plan(evaluated.house, options);
    std::vector<double> made;
    for (const auto& make : plan.makes)
      if (plan.products[make.product].name == "tea")
        made.push_back(make.make_g / plan.products[make.product].recipe_g);
    return made;
  };
  // 200 ml of a litre, and 900.
  CHECK(parts(1) == std::vector<double>{0.25});
  CHECK(parts(2) == std::vector<double>{0.25, 1});
  CHECK(parts(3) == std::vector<double>{0.25, 1, 0.25});
}

TEST_CASE("what is done past midnight stands under the date on which it is done", "[prep]") {
  PlanOptions options;
  CHECK(plan::calendar_day(6.9, options) == 0);  // 23:54
  CHECK(plan::calendar_day(7, options) == 1);    // midnight
  CHECK(plan::calendar_day(-17, options) == 0);
  CHECK(plan::calendar_day(-17.1, options) == -1);
  // The night after a service is still its bar day.
  CHECK(plan::bar_day(6.9, options) == 0);
}

TEST_CASE("a label's use-by day is the plan's", "[prep]") {
  auto plan = plan_of(days(2));
  for (const auto& make : plan.makes) {
    const auto& product = plan.products[make.product];
    if (product.making != plan::Making::prep) continue;
    CHECK(make.use_by_day == make.made_day + 10);
  }
}

TEST_CASE("the labels of a plan are one for each of its bottles, with what that holds and its day",
          "[prep]") {
  EvaluatedHouse evaluated(
      "prep cordial\n  300 g white sugar\n  300 ml water\n  dissolve\n  makes 405 ml\n  bottle 350 ml\n"
      "  keeps 10 d chilled\nprep dry salt\n  20 g salt\n  blend 10 s\n  keeps 10 d ambient\n"
      "drink D\n  glass rocks\n  50 ml vodka\n  25 ml cordial\n  stir 20 s\n  strain\n  rim dry salt\n"
      "menu M\n  runs 2026-03-02 .. 2026-04-30\n  section A\n    D at 10 GBP, sells 60\n");
  PlanOptions options;
  auto plan = plan::make_prep_plan(evaluated.house, options);
  render::document::BookIndex index(evaluated.house, false);
  auto labels = plan::prep_labels(plan, index);
  int bottles = 0;
  double labelled_ml = 0;
  for (const auto& label : labels) {
    if (label.name != "cordial") continue;
    bottles += label.copies;
    labelled_ml += label.copies * std::stod(label.batch);
    CHECK(label.made <= base::read_iso_date("2026-03-02"));
  }
  // 60 × 25 ml are 1.5 l, four recipes of 405 ml: four full bottles, and a fifth with 220 ml.
  CHECK(bottles == 5);
  CHECK(labelled_ml == Approx(4 * 405));
  auto page = render::terminal::page_text(plan::prep_page(plan, evaluated.house),
                                          costing::desk_frame(evaluated.house));
  CHECK(page.find("5 × 350 ml") != std::string::npos);
}

TEST_CASE("house bottles that are there are poured before more are made", "[prep]") {
  EvaluatedHouse bar(
      "drink Cone\n  glass nick and nora\n  60 ml London dry gin\n  15 ml dry vermouth\n"
      "  batched London dry gin, dry vermouth, bottle 750 ml\n  stir 30 s\n  strain\n  garnish none\n"
      "menu M\n  runs 2026-03-02 .. 2026-04-30\n  section A\n    Cone at 10 EUR, sells 10\n");
  PlanOptions options;
  auto counts = stock::read_counts("name,amount,unit,made\nCone,2,bottles,2026-03-01\n", bar.house);
  options.bottles_on_hand_g = counts.bottled_g;
  REQUIRE(counts.bottled_made_g.size() == 1);
  auto plan = plan::make_prep_plan(bar.house, options);
  REQUIRE(plan.makes.size() == 1);
  CHECK(plan.makes[0].on_hand_g == Approx(plan.makes[0].need_g));
  CHECK(plan.makes[0].make_g == 0);
  // Past its days it is poured away, and made anew.
  const auto& [drink, lots] = *counts.bottled_made_g.begin();
  options.bottles_on_hand_dated[drink] = {{lots[0].second, *base::read_iso_date("2025-12-01")}};
  plan = plan::make_prep_plan(bar.house, options);
  CHECK(plan.makes[0].make_g > 0);
  CHECK(has_note(plan, "pour it away"));
}

TEST_CASE("the plan goes into a calendar, line by line as RFC 5545 has them", "[prep]") {
  auto plan = plan_of(days(2));
  auto calendar = plan::prep_ics(plan, house().house);
  REQUIRE(calendar);
  CHECK(calendar == plan::prep_ics(plan, house().house));
  std::size_t events = 0, at = 0;
  std::string unfolded;
  while (at < calendar->size()) {
    auto end = calendar->find("\r\n", at);
    REQUIRE(end != std::string::npos);
    std::string line = calendar->substr(at, end - at);
    CHECK(line.size() <= 75);
    CHECK(line.find('\n') == std::string::npos);
    unfolded += line.starts_with(' ') ? line.substr(1) : "\n" + line;
    events += line == "BEGIN:VEVENT" ? 1 : 0;
    at = end + 2;
  }
  CHECK(events == plan::work_lines(plan, house().house).size());
  CHECK(unfolded.find("\nDTSTART:20260916T170000\n") != std::string::npos);
  // In UTC, as RFC 5545 asks: the first day that the plan is for, not the hour at which somebody asked.
  CHECK(unfolded.find("\nDTSTAMP:20260916T000000Z\n") != std::string::npos);
  CHECK(unfolded.find("\nDTEND:20260917T000000\n") != std::string::npos);
  CHECK(unfolded.find("SUMMARY:Service: 50 portions") != std::string::npos);
  CHECK(unfolded.find("\\, then ") == std::string::npos);
  EvaluatedHouse undated("drink A\n  30 ml vodka\n  build\nmenu M\n  section All\n    A at 5 EUR, sells 2\n");
  CHECK_FALSE(plan::prep_ics(plan::make_prep_plan(undated.house, {}), undated.house));
}

namespace {

/// Two drinks, one with a twist on Mondays and one of pressed juice on Tuesdays.
const std::string two_drinks = R"(house X
  currency GBP
prices p
  from 2026-01-01
  orange 1 for 0.90 GBP
drink S
  glass rocks
  50 ml vodka
  stir 20 s
  strain
  garnish orange twist
drink J
  glass rocks
  50 ml vodka
  60 ml orange juice
  shake 10 s
  strain
  garnish none
menu M
  runs 2026-03-01 .. 2026-04-30
  section A
    S at 10 GBP, sells 30, Tue 0
    J at 10 GBP, sells 0, Tue 10
)";

std::string with_tuesday_on_wednesday(std::string text) {
  text.replace(text.find("Tue 0"), 5, "Tue 0, Wed 0");
  return text.replace(text.find("Tue 10"), 6, "Wed 10");
}

PrepPlan plan_from(const EvaluatedHouse& bar, const char* day, int days, double shift_h = 5) {
  PlanOptions options;
  options.from = date(day);
  options.days = days;
  options.shift_h = shift_h;
  return plan::make_prep_plan(bar.house, options);
}

}  // namespace

TEST_CASE("fruit that is peeled on one day is pressed on the next, and the line says so", "[prep]") {
  EvaluatedHouse bar(two_drinks);
  auto bought = [&](const char* day, int days) {
    auto plan = plan_from(bar, day, days);
    double count = 0;
    for (const auto& line : plan.shopping)
      if (line.stock == bar.stock("orange")) count = line.need_count.value_or(0);
    return count;
  };
  CHECK(bought("2026-03-02", 1) == 9);
  CHECK(bought("2026-03-03", 1) == 8);
  CHECK(bought("2026-03-02", 2) == 9);
  CHECK(text_of(plan_from(bar, "2026-03-02", 2)).find("first the 8 peeled the day before") !=
        std::string::npos);
  // Two days later they are fresh ones.
  EvaluatedHouse later(with_tuesday_on_wednesday(two_drinks));
  auto plan = plan_from(later, "2026-03-02", 3);
  CHECK(text_of(plan).find("peeled the day before") == std::string::npos);
  for (const auto& line : plan.shopping)
    if (line.stock == later.stock("orange")) CHECK(line.need_count == 17);
}

TEST_CASE("a twist is cut before its fruit is pressed, since the two share it", "[prep]") {
  EvaluatedHouse bar(R"(house X
prep fresh cordial
  200 ml lemon juice
  200 g white sugar
  dissolve
  rest 2 h
  keeps 1 d chilled
drink S
  glass rocks
  50 ml vodka
  25 ml lemon juice
  20 ml fresh cordial
  shake 10 s
  strain
  garnish lemon twist
menu M
  runs 2026-03-01 .. 2026-04-30
  section A
    S at 12 GBP, sells 12
)");
  auto plan = plan_from(bar, "2026-03-02", 1);
  REQUIRE(plan.cuts.at(0).size() == 1);
  bool is_pressed = false;
  for (const auto& make : plan.makes) {
    if (plan.products[make.product].making != plan::Making::pressing) continue;
    is_pressed = true;
    CHECK(plan.cuts[0][0].to_h <= make.work.front().first + 1e-9);
  }
  CHECK(is_pressed);
}

TEST_CASE("a recipe with the peel of so many fruit is made in parts that leave the fruit whole", "[prep]") {
  auto made_recipes = [](const std::string& first_line) {
    EvaluatedHouse bar(
        "house X\nprep pp\n  " + first_line +
        "\n  500 ml vodka\n  infuse 1 d at 20 C\n  strain\n  keeps 1 d chilled\ndrink S\n  glass "
        "rocks\n  60 ml pp\n  stir 10 s\n  strain\n  garnish none\nmenu M\n  runs 2026-03-01 .. "
        "2026-04-30\n  section A\n    S at 10 EUR, sells 2\n");
    auto plan = plan_from(bar, "2026-03-04", 1);
    for (const auto& make : plan.makes)
      if (plan.products[make.product].name == "pp") return make.make_g / plan.products[make.product].recipe_g;
    return 0.0;
  };
  CHECK(made_recipes("2 oranges, peel only") == Approx(0.5));
  CHECK(made_recipes("1 orange, peel only") == Approx(1));
  CHECK(made_recipes("20 g orange peel") == Approx(0.25));
}

TEST_CASE("an infusion that nobody is there to strain in time is told", "[prep]") {
  EvaluatedHouse bar(R"(house X
prep rum of nib
  700 ml aged rum
  40 g cocoa nibs
  infuse 6 h at 20 C
  fine strain
  keeps 30 d
prep two
  500 ml rum of nib
  100 g white sugar
  dissolve
  keeps 1 d chilled
drink S
  glass rocks
  50 ml two
  stir 10 s
  strain
  garnish none
menu M
  runs 2026-03-01 .. 2026-04-30
  section A
    S at 12 GBP, sells 12
)");
  CHECK(has_note(plan_from(bar, "2026-03-04", 1), "rum of nib (12 h instead of 6 h)"));
  CHECK_FALSE(has_note(plan_from(bar, "2026-03-04", 1, 12), "instead of 6 h"));
}

TEST_CASE("what is on hand counts towards the par", "[prep]") {
  EvaluatedHouse bar(R"(house X
prep hs
  300 g honey
  300 g water
  dissolve
  makes 600 ml
  keeps 14 d chilled
  par 2 l
drink S
  glass rocks
  50 ml vodka
  30 ml hs
  stir 10 s
  strain
  garnish none
menu M
  runs 2026-03-01 .. 2026-04-30
  section A
    S at 12 GBP, sells 14
)");
  for (const char* there : {"1", "1.9"}) {
    CAPTURE(there);
    auto counts =
        stock::read_counts("name,amount,unit,made\nhs," + std::string(there) + ",l,2026-03-01\n", bar.house);
    PlanOptions options;
    options.from = date("2026-03-02");
    options.days = 6;
    options.on_hand_g = counts.grams;
    for (const auto& [stock, lots] : counts.made_g)
      for (const auto& [made, grams] : lots) options.on_hand_dated[stock].push_back({grams, made});
    CHECK_FALSE(has_note(plan::make_prep_plan(bar.house, options), "below their par"));
  }
}
