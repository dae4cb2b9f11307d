#include "print/labels.h"

#include <fmt/format.h>

#include "model/keeping.h"
#include "print/menu_pdf.h"
#include "render/document/guest_menu.h"
#include "unit/print/printed.h"

using namespace gill;
using namespace gill::testing;
using namespace std::chrono_literals;

namespace {

constexpr std::chrono::sys_days day = std::chrono::year(2026) / 11 / 25;

const std::string two_preps =
    "house Shed\n\n"
    "prep shed orgeat\n  500 g white sugar\n  500 ml almond milk\n  dissolve\n  makes 800 ml\n  keeps 7 d "
    "chilled\n\n"
    "prep mint stock\n  1 l water\n  50 g mint\n  infuse 10 min\n  makes 900 ml\n  keeps 36 h chilled\n\n"
    "drink Any\n  glass rocks\n  20 ml shed orgeat\n  20 ml mint stock\n  build\n  garnish none\n";

std::vector<print::Label> labels_of(const RenderedHouse& house) {
  auto input = house.input();
  render::document::BookIndex index(input, false);
  std::vector<print::Label> labels;
  for (auto id : index.preps()) labels.push_back(print::label_of(index, id));
  return labels;
}

}  // namespace

TEST_CASE("use by is the day of making and the whole days that a thing keeps") {
  auto use_by = [](std::chrono::sys_days made, double keeps) {
    return made + std::chrono::days(model::days_after_making(keeps));
  };
  // Worked out by the Gregorian calendar (ISO 8601).
  CHECK(use_by(day, 7) == std::chrono::sys_days(std::chrono::year(2026) / 12 / 2));
  CHECK(use_by(day, 30) == std::chrono::sys_days(std::chrono::year(2026) / 12 / 25));
  CHECK(use_by(std::chrono::year(2028) / 2 / 28, 1) ==
        std::chrono::sys_days(std::chrono::year(2028) / 2 / 29));
  CHECK(use_by(std::chrono::year(2027) / 2 / 28, 1) ==
        std::chrono::sys_days(std::chrono::year(2027) / 3 / 1));
  // 36 hours from a morning end on the next day, whatever the hour was; 12 hours may end on the same.
  CHECK(use_by(day, 1.5) == day + 24h);
  CHECK(use_by(day, 0.5) == day);
  // Never longer than it keeps, and never two days less.
  for (double keeps = 0; keeps < 40; keeps += 0.37) {
    auto days = (use_by(day, keeps) - day) / 24h;
    CHECK(static_cast<double>(days) <= keeps + 1e-6);
    CHECK(static_cast<double>(days) > keeps - 1);
  }
}

// Parts that keep for a year say nothing of what is made of them: oats in water are a day's milk.
TEST_CASE("a prep that nobody says the keeping of has neither days nor a use-by date on its label") {
  RenderedHouse house("prep shed oat milk\n  1 l water\n  100 g rolled oats\n  blend\n  fine strain\n");
  auto labels = labels_of(house);
  REQUIRE(labels.size() == 1);
  CHECK_FALSE(labels.front().keeps_days);
  CHECK(labels.front().keeps.empty());
  CHECK(labels.front().storage.empty());
  print::LabelOptions options;
  options.made = day;
  auto printed = print::print_labels(labels, "Shed", options);
  REQUIRE(printed);
  CHECK(PdfFile(printed->pdf).text("-raw").find("how long it keeps is not said") != std::string::npos);
  CHECK(printed->remarks.size() == 1);
}

TEST_CASE("a label says what it is, until when, where, what it holds and how much") {
  RenderedHouse house(two_preps);
  print::LabelOptions options;
  options.made = day;
  auto printed = print::print_labels(labels_of(house), "Shed", options);
  REQUIRE(printed);
  auto text = PdfFile(printed->pdf).text("-raw");
  for (const auto* words :
       {"shed orgeat", "Made 2026-11-25", "Use by 2026-12-02", "or the oldest part’s, if earlier", "Contains",
        "almond", "Chilled", "800 ml", "initials", "mint stock", "Use by 2026-11-26"})
    CHECK(has(text, words));
}

TEST_CASE("without a day there are lines to write on") {
  RenderedHouse house(two_preps);
  auto printed = print::print_labels(labels_of(house), "Shed", {});
  REQUIRE(printed);
  auto text = PdfFile(printed->pdf).text("-raw");
  CHECK(has(text, "Made ___"));
  CHECK(has(text, "Use by ___"));
  CHECK_FALSE(has(text, "2026"));
}

TEST_CASE(
    "no word of a label of the demo house leaves it or meets another, on small labels and on large ones") {
  auto labels = labels_of(demo_house());
  REQUIRE(labels.size() > 10);
  for (const auto* sheet :
       {"63.5x38.1mm/3x7", "99.1x67.7mm/2x4", "4x2in/2x5@letter", "62x29mm", "70x37mm/3x8"}) {
    print::LabelOptions options;
    auto read = print::read_label_sheet(sheet);
    REQUIRE(read);
    options.sheet = *read;
    options.made = day;
    auto printed = print::print_labels(labels, "The Fulling Stock", options);
    REQUIRE(printed);
    for (const auto& report : printed->reports) expect_words_keep_apart(report, read->label, sheet);
  }
}

TEST_CASE("copies and gone labels fill sheets") {
  RenderedHouse house(two_preps);
  auto labels = labels_of(house);
  REQUIRE(labels.size() == 2);
  print::LabelOptions options;
  options.copies = 10;
  auto printed = print::print_labels(labels, "Shed", options);
  REQUIRE(printed);
  CHECK(printed->labels == 20);
  CHECK(printed->pages == 1);
  options.skipped = 2;
  CHECK(print::print_labels(labels, "Shed", options)->pages == 2);
}

TEST_CASE("a sheet of labels is read by its dimensions") {
  auto usual = print::read_label_sheet("63.5x38.1mm/3x7");
  REQUIRE(usual);
  CHECK(usual->count() == 21);
  CHECK(usual->column_gap_mm == 2.5);
  auto own = print::read_label_sheet("70x42.3mm/3x7+0x0mm@a4");
  REQUIRE(own);
  CHECK(own->column_gap_mm == 0);
  auto inches = print::read_label_sheet("4x2in/2x5+0.1875x0in@letter");
  REQUIRE(inches);
  CHECK(inches->label.width_mm == Approx(101.6));
  CHECK(inches->page == print::letter);
  auto roll = print::read_label_sheet("62x40mm");
  REQUIRE(roll);
  CHECK(roll->page == roll->label);
  for (const auto* bad : {"", "62", "62x40", "62x40mm/", "62x40mm/9x9", "0x0mm", "nanx3mm", "62x40mm/1.5x2",
                          "62x40mm/2x2@b5", "62x40mm/2x2 ", "-62x40mm", "1e9x40mm"})
    CHECK_FALSE(print::read_label_sheet(bad));
}

TEST_CASE("the printed menu tells each drink's price and allergens, and is the same twice") {
  auto input = demo_house().input();
  render::document::BookIndex index(input, false);
  REQUIRE_FALSE(index.menus().empty());
  auto menu = index.menus().front();
  auto page = render::document::guest_menu_page(index, menu);
  auto frame = render::document::guest_menu_frame(index);
  auto pdf = print::menu_pdf(page, frame);
  REQUIRE(pdf);
  CHECK(*pdf == *print::menu_pdf(page, frame));
  auto text = PdfFile(*pdf).text("-layout");
  for (const auto& section : demo_house().compiled.specs.menus[menu].sections)
    for (const auto& entry : section.entries)
      if (!index.path_of(entry.drink).empty())
        CHECK(has(text, demo_house().compiled.specs[entry.drink].head.name));
  CHECK(has(text, "Before you order"));
}

namespace {

/// A menu that takes several pages, with raw egg in its first drink alone.
std::string long_menu(int drinks) {
  std::string text = "house Long\n  currency GBP\n\n", menu = "menu Long\n  section All\n";
  for (int i = 0; i < drinks; ++i) {
    std::string name = fmt::format("Number {}", i);
    text += fmt::format(
        "drink {}\n  glass coupe\n  guest \"Gin, lemon, sugar.\"\n  50 ml London dry gin\n  25 ml lemon "
        "juice\n{}  shake 12 s\n  strain\n\n",
        name, i == 0 ? "  1 egg white\n" : "");
    menu += fmt::format("    {} at {} GBP\n", name, i == 1 ? "11.50" : "12");
  }
  return text + menu;
}

std::string page_of(const std::string& pdf, int page) {
  return PdfFile(pdf).text(fmt::format("-layout -f {} -l {}", page, page));
}

}  // namespace

TEST_CASE("what a mark on a menu means stands on the page of the drink that has it", "[print]") {
  RenderedHouse house(long_menu(40));
  house.compiled.sink.add(diagnostics::Rule::raw_egg, {}, "`egg white` is raw egg").drink = "Number 0";
  auto input = house.input();
  render::document::BookIndex index(input, false);
  auto page = render::document::guest_menu_page(index, index.menus().front());
  auto frame = render::document::guest_menu_frame(index);
  auto pdf = print::menu_pdf(page, frame);
  REQUIRE(pdf);
  CHECK(has(page_of(*pdf, 1), "Number 0*"));
  CHECK(has(page_of(*pdf, 1), "Raw egg can carry illness"));
  CHECK_FALSE(has(page_of(*pdf, 2), "Raw egg can carry illness"));
  // The notices that are for every drink stand at the end.
  CHECK_FALSE(has(page_of(*pdf, 1), "are shared"));
  auto whole = PdfFile(*pdf).text("-layout");
  CHECK(has(whole, "are shared"));
}

TEST_CASE("a menu's last page holds more than its notices", "[print]") {
  for (int drinks = 8; drinks <= 28; drinks += 2) {
    RenderedHouse house(long_menu(drinks));
    auto input = house.input();
    render::document::BookIndex index(input, false);
    for (bool compact : {false, true}) {
      auto pdf = print::menu_pdf(render::document::guest_menu_page(index, index.menus().front(), compact),
                                 render::document::guest_menu_frame(index), compact);
      REQUIRE(pdf);
      auto info = PdfFile(*pdf).told_by("pdfinfo");
      INFO(drinks << (compact ? " drinks, compact" : " drinks"));
      CHECK(has(page_of(*pdf, std::stoi(info.substr(info.find("Pages:") + 6))), "Number "));
    }
  }
}

TEST_CASE("a compact menu of forty drinks takes two pages, and says all allergens", "[print]") {
  RenderedHouse house(long_menu(40));
  auto input = house.input();
  render::document::BookIndex index(input, false);
  auto menu = index.menus().front();
  auto frame = render::document::guest_menu_frame(index);
  auto pages = [](const std::string& pdf) {
    auto info = PdfFile(pdf).told_by("pdfinfo");
    return std::stoi(info.substr(info.find("Pages:") + 6));
  };
  auto usual = print::menu_pdf(render::document::guest_menu_page(index, menu), frame);
  auto compact = print::menu_pdf(render::document::guest_menu_page(index, menu, true), frame, true);
  REQUIRE(usual);
  REQUIRE(compact);
  CHECK(pages(*usual) > 2);
  CHECK(pages(*compact) == 2);
  auto text = PdfFile(*compact).text("-layout");
  for (int i = 0; i < 40; ++i) CHECK(has(text, fmt::format("Number {}", i)));
  CHECK(has(text, "Allergens: egg"));
  // One form for all prices, with the sign of the house's currency.
  CHECK(has(text, "£12.00"));
  CHECK(has(text, "£11.50"));
}
