#include <regex>

#include "base/text.h"
#include "print/page_pdf.h"
#include "unit/print/printed.h"

using namespace gill;
using namespace gill::testing;

namespace {

const std::string one_drink =
    "house Shed\n  allergen list EU\n\n"
    "drink Plain Sour\n  family sour\n  glass coupe, chilled\n  45 ml gin\n  22.5 ml lemon juice\n  20 ml "
    "simple syrup\n"
    "  2 dashes aromatic bitters\n\n  shake 12 s\n  double strain\n  garnish lemon twist\n\n"
    "  right when \"It is clear under a thin head.\"\n";

/// Everything that makes a card hard: much of it, long names, other scripts, nothing at all.
const std::string hard_house = [] {
  std::string text =
      "house A House With A Name That Goes On And On Until It Is Longer Than Any Card Is Wide\n\n";
  text += "ingredient ماء الورد البلدي المقطر\n  kind water\n  allergen none\n";
  text += "ingredient 山椒の木の芽シロップ\n  kind syrup\n  sugar 60 % w/w\n  allergen none\n";
  text +=
      "ingredient Ρακόμελο του βουνού\n  kind liqueur\n  strength 24 % abv\n  sugar 20 % w/v\n  allergen "
      "milk\n";
  text += "ingredient " + std::string(80, 'W') + "\n  kind spirit\n  strength 40 % abv\n";
  std::string pour;
  for (int i = 1; i <= 14; ++i) {
    text += "ingredient the very particular bottle number " + std::to_string(i) +
            " of the long shelf\n  kind liqueur\n  strength 20 % abv\n"
            "  sugar 10 % w/v\n  allergen " +
            std::string(i % 2 ? "milk" : "nuts: almond") + "\n";
    pour += "  7.5 ml the very particular bottle number " + std::to_string(i) + " of the long shelf\n";
  }
  text +=
      "\ndrink Fourteen\n  glass highball\n  ice cubed\n" + pour + "  shake 12 s\n  strain\n  garnish none\n";
  text += "  right when \"Somebody has counted.\"\n";
  text += "\ndrink " + std::string(40, 'M') + " " + std::string(39, 'm') + "\n  glass coupe\n  45 ml " +
          std::string(80, 'W') + "\n  20 ml ماء الورد البلدي المقطر\n  stir 30 s\n  strain\n  garnish none\n";
  text +=
      "\ndrink \"شراب الورد 山椒 🍋 Ρόδο\"\n  glass coupe\n  20 ml ماء الورد البلدي المقطر\n  30 ml "
      "山椒の木の芽シロップ\n"
      "  30 ml Ρακόμελο του βουνού\n  shake 10 s\n  double strain\n  garnish none\n";
  text += "\ndrink Bare\n  30 ml gin\n";
  text += "\ndrink Begun\n  family sour\n\ndrink Begun Otherwise\n  garnish none\n\ndrink Name Alone\n";
  text += "\ndrink Wordy\n  | " + std::string(60, 'x');
  for (int i = 0; i < 80; ++i) text += " and another word";
  text += "\n  glass rocks\n  30 ml gin\n  build\n";
  for (int i = 0; i < 20; ++i)
    text += "  do walk round the bar with it and say its name to everybody in the third row\n";
  text += "  garnish none\n";
  return text;
}();

const std::vector<std::pair<std::string, print::Paper>> sizes = {
    {"A6", print::a6}, {"A5", print::a5}, {"4x6 in", print::card_4x6in}};

std::string mark_of(const std::string& text) {
  RenderedHouse house(text);
  auto cards = cards_of(house, {});
  REQUIRE(cards.cards.size() == 1);
  return cards.cards[0].mark;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  auto at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("no word of the demo house leaves its card or meets another") {
  for (const auto& [name, paper] : sizes)
    for (bool has_back : {false, true}) {
      print::CardOptions options;
      options.size = paper;
      options.has_back = has_back;
      auto cards = cards_of(demo_house(), options);
      for (const auto& card : cards.cards)
        expect_words_keep_apart(card, paper, name + " " + demo_house().compiled.specs[card.drink].head.name);
    }
}

TEST_CASE("fourteen parts, names of eighty letters and other scripts stay on their cards") {
  RenderedHouse house(hard_house);
  for (const auto& [name, paper] : sizes)
    for (bool has_back : {false, true}) {
      print::CardOptions options;
      options.size = paper;
      options.has_back = has_back;
      auto cards = cards_of(house, options);
      CHECK(cards.cards.size() == 8);
      for (const auto& card : cards.cards)
        expect_words_keep_apart(card, paper, name + " " + house.compiled.specs[card.drink].head.name);
    }
}

TEST_CASE("no type on a card is smaller than six points") {
  RenderedHouse house(hard_house);
  for (const auto& card : cards_of(house, {}).cards)
    for (const auto& words : card.words) CHECK(words.min_size_pt >= 5.99);
}

TEST_CASE("what does not go on one card goes on to another and is told") {
  RenderedHouse house(hard_house);
  auto cards = cards_of(house, {});
  auto told = [&](const std::string& words) {
    return std::any_of(cards.remarks.begin(), cards.remarks.end(),
                       [&](const auto& remark) { return has(remark.words, words); });
  };
  CHECK(told("`Fourteen` takes 2 cards"));
  PdfFile pdf(cards.pdf);
  auto text = pdf.text("-layout");
  CHECK(has(text, "Fourteen, continued"));
  for (int i = 1; i <= 14; ++i) CHECK(has(pdf.text("-raw"), "number " + std::to_string(i) + " of"));
}

TEST_CASE("a card has the size it is asked for, and a sheet its own") {
  const auto& house = demo_house();
  auto size_of = [&](const print::CardOptions& options) {
    auto info = PdfFile(cards_of(house, options).pdf).told_by("pdfinfo");
    std::smatch match;
    REQUIRE(std::regex_search(info, match, std::regex("Page size: +([0-9.]+) x ([0-9.]+) pts")));
    return std::pair(std::stod(match[1]), std::stod(match[2]));
  };
  print::CardOptions options;
  // ISO 216: A6 is 105 by 148 mm, A5 148 by 210, A4 210 by 297; a point is 1/72 in, an inch 25.4 mm (ISO
  // 31-1).
  CHECK(size_of(options).first == Approx(105 / 25.4 * 72).margin(0.01));
  CHECK(size_of(options).second == Approx(148 / 25.4 * 72).margin(0.01));
  options.size = print::a5;
  CHECK(size_of(options).second == Approx(210 / 25.4 * 72).margin(0.01));
  options.size = print::card_4x6in;
  CHECK(size_of(options) == std::pair(288.0, 432.0));
  options.sheet = print::letter;
  CHECK(size_of(options).first == Approx(8.5 * 72).margin(0.01));
  CHECK(size_of(options).second == Approx(11.0 * 72).margin(0.01));
}

TEST_CASE("four A6 cards stand on an A4 sheet, two A5 ones, two of 4 by 6 inches") {
  const auto& house = demo_house();
  auto count = drinks_of(house).size();
  auto pages = [&](print::Paper size, bool has_back) {
    print::CardOptions options;
    options.size = size;
    options.sheet = print::a4;
    options.has_back = has_back;
    auto cards = cards_of(house, options);
    std::size_t faces = 0;
    for (const auto& card : cards.cards) faces += card.faces;
    std::string info = PdfFile(cards.pdf).told_by("pdfinfo");
    CHECK(std::regex_search(info, std::regex("Pages: +" + std::to_string(cards.pages) + "\n")));
    return std::pair(cards.pages, faces);
  };
  auto [a6_pages, a6_faces] = pages(print::a6, false);
  CHECK(a6_faces >= count);
  CHECK(a6_pages == (a6_faces + 3) / 4);
  auto [a5_pages, a5_faces] = pages(print::a5, false);
  CHECK(a5_pages == (a5_faces + 1) / 2);
  auto [inch_pages, inch_faces] = pages(print::card_4x6in, false);
  CHECK(inch_pages == (inch_faces + 1) / 2);
  // With backs every sheet has two sides, and every card an even number of faces.
  auto [both_pages, both_faces] = pages(print::a6, true);
  CHECK(both_faces % 2 == 0);
  CHECK(both_pages == 2 * ((both_faces / 2 + 3) / 4));
}

TEST_CASE("the back of a card stands behind its front on a sheet turned on its long edge") {
  RenderedHouse house(one_drink + "\ndrink Second Sour like Plain Sour\n  30 ml gin\n");
  print::CardOptions options;
  options.sheet = print::a4;
  options.has_back = true;
  PdfFile pdf(cards_of(house, options).pdf);
  const std::string left = "-r 72 -x 0 -y 0 -W 297 -H 420", right = "-r 72 -x 298 -y 0 -W 297 -H 420";
  CHECK(has(pdf.text("-f 1 -l 1 " + left), "Plain Sour"));
  CHECK(has(pdf.text("-f 1 -l 1 " + right), "Second Sour"));
  CHECK(has(pdf.text("-f 2 -l 2 " + right), "Plain Sour"));
  CHECK(has(pdf.text("-f 2 -l 2 " + left), "Second Sour"));
}

TEST_CASE("every face of type is in the PDF, and its text can be taken out") {
  RenderedHouse house(one_drink);
  PdfFile pdf(cards_of(house, {}).pdf);
  auto fonts = pdf.told_by("pdffonts");
  std::size_t count = 0;
  std::istringstream lines(fonts);
  for (std::string line; std::getline(lines, line);) {
    if (line.find('+') == std::string::npos) continue;
    ++count;
    // emb, sub, uni
    CHECK(std::regex_search(line, std::regex(" yes +yes +yes +[0-9]+ +0 *$")));
  }
  CHECK(count >= 3);
  auto text = pdf.text("-layout");
  for (const auto* words :
       {"Plain Sour", "Coupe, chilled", "No ice", "Lemon twist", "45", "22.5", "lemon juice", "dashes",
        "aromatic bitters", "Shake 12 s.", "Double strain into the glass.", "Right when",
        "It is clear under a thin head.", "% abv", "as served", "spec "})
    CHECK(has(text, words));
}

TEST_CASE("the same house gives the same bytes, without the time in them") {
  print::CardOptions options;
  options.has_back = true;
  auto first = cards_of(demo_house(), options).pdf, second = cards_of(demo_house(), options).pdf;
  CHECK(first == second);
  CHECK_FALSE(has(first, "CreationDate"));
  CHECK_FALSE(has(PdfFile(first).told_by("pdfinfo"), "CreationDate"));
}

TEST_CASE("the day of printing stands on a card only when it is given") {
  RenderedHouse house(one_drink);
  CHECK_FALSE(has(PdfFile(cards_of(house, {}).pdf).text(), "printed"));
  print::CardOptions options;
  options.printed_on = "2026-11-25";
  auto cards = cards_of(house, options);
  CHECK(has(PdfFile(cards.pdf).text(), "printed 2026-11-25"));
  CHECK(cards.cards[0].mark == cards_of(house, {}).cards[0].mark);
}

TEST_CASE("a blank card has no amount, time or temperature, and the mark of the full one") {
  const auto& house = demo_house();
  print::CardOptions options;
  options.is_blank = true;
  auto blank = cards_of(house, options), full = cards_of(house, {});
  REQUIRE(blank.cards.size() == full.cards.size());
  for (std::size_t i = 0; i < blank.cards.size(); ++i) {
    CHECK(blank.cards[i].mark == full.cards[i].mark);
    std::size_t last = 0;
    bool is_serves = false;
    for (const auto& words : blank.cards[i].words) {
      bool is_foot = has(words.words, "spec " + blank.cards[i].mark),
           is_number_of_step = words.words.size() <= 2;
      bool is_name = words.words == house.compiled.specs[blank.cards[i].drink].head.name;
      INFO(words.words);
      if (is_number_of_step && !is_serves && std::isdigit(static_cast<unsigned char>(words.words[0]))) {
        // Steps are numbered 1, 2, 3 …: nothing else that short is left.
        CHECK(std::stoul(words.words) == last + 1);
        ++last;
      } else if (!is_foot && !is_name && !is_serves && !has(words.words, ": ") && !has(words.words, ". ")) {
        CHECK_FALSE(std::regex_search(words.words, std::regex("[0-9]")));
      }
      // For how many a bowl is stays: it is no amount of it.
      is_serves = words.words == "Serves";
    }
  }
}

TEST_CASE("the mark changes with what a card says and not with how the spec is laid out") {
  auto mark = mark_of(one_drink);
  CHECK(std::regex_match(mark, std::regex("[0-9a-f]{6}")));
  CHECK(mark_of(replaced(one_drink, "22.5 ml lemon", "20 ml lemon")) != mark);
  CHECK(mark_of(replaced(one_drink, "shake 12 s", "shake 13 s")) != mark);
  CHECK(mark_of(replaced(one_drink, "lemon twist", "orange twist")) != mark);
  CHECK(mark_of(replaced(one_drink, "coupe, chilled", "coupe")) != mark);
  CHECK(mark_of(replaced(one_drink, "Plain Sour", "Plainer Sour")) != mark);
  CHECK(mark_of(replaced(one_drink, "  45 ml gin", "  # poured first\n  45 ml      gin   # from the well")) ==
        mark);
  CHECK(mark_of("# a comment\n\n" + one_drink) == mark);
}

TEST_CASE("a drink in error is a card that says so, and no amount of it") {
  RenderedHouse house(replaced(one_drink, "45 ml gin", "45 mll gin"));
  auto cards = cards_of(house, {});
  REQUIRE(cards.cards.size() == 1);
  CHECK(cards.cards[0].is_error);
  auto text = PdfFile(cards.pdf).text("-layout");
  CHECK(has(text, "cannot be printed"));
  CHECK(has(text, "Ask before you pour it."));
  CHECK_FALSE(has(text, "22.5"));
}

TEST_CASE("allergens stand on every face of a front, as sure as they are") {
  RenderedHouse house(hard_house);
  auto cards = cards_of(house, {});
  for (const auto& card : cards.cards) {
    for (std::size_t face = 0; face < card.faces; ++face) {
      bool tells = std::any_of(card.words.begin(), card.words.end(), [&](const auto& words) {
        return words.face == face && (words.words == "Contains" || words.words == "Allergens" ||
                                      words.words == "Not known" || words.words == "May contain");
      });
      CHECK((tells || card.is_error));
    }
  }
  auto text = PdfFile(cards.pdf).text("-layout");
  CHECK(has(text, "almond (nut)"));
  CHECK(has(text, "read the label"));
}

TEST_CASE("a house without drinks prints one page that says so") {
  RenderedHouse house("house Empty\n");
  auto cards = cards_of(house, {});
  CHECK(cards.pages == 1);
  CHECK(has(PdfFile(cards.pdf).text(), "There is no drink to print."));
}

TEST_CASE("one pour is told in one measure, in the build and in the step", "[cards]") {
  RenderedHouse house(
      "house Shed\n  show ml, oz\n\ndrink Long\n  glass highball\n  1 1/2 oz gin\n  build\n"
      "  top 3 oz soda water\n  garnish none\n");
  std::string all = base::collapse_space(PdfFile(cards_of(house, {}).pdf).text());
  INFO(all);
  CHECK(all.find("Top with 90 ml soda water") != std::string::npos);
  CHECK(all.find("Top with 3 oz") == std::string::npos);
}

TEST_CASE("the card of a bottle with its water in says for whom the mixing below it is", "[cards]") {
  RenderedHouse house(
      "drink Cone\n  glass nick and nora\n  55 ml London dry gin\n  20 ml dry vermouth\n"
      "  batched London dry gin, dry vermouth, with water, bottle 700 ml\n  stir 30 s\n  strain\n"
      "  garnish lemon twist\n");
  std::string all = base::collapse_space(PdfFile(cards_of(house, {}).pdf).text());
  INFO(all);
  CHECK(all.find("do not dilute it again") != std::string::npos);
  CHECK(all.find("one made without the bottle") != std::string::npos);
}
