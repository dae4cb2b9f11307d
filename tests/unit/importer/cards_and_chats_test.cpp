// How old specs were typed and sent: chats, mails that were answered, cards of two columns, sheets with lists
// in a cell, labels on lines of their own, headings that are glasses as well. The bars and the drinks are
// made up.
#include <algorithm>
#include <catch2/catch.hpp>
#include <sstream>

#include "base/characters.h"
#include "base/text.h"
#include "unit/importer/importer_fixture.h"

using namespace gill;
using gill::testing::Brought;
using gill::testing::lost_words;

namespace {

std::vector<std::string> heads_in(const std::string& text) {
  std::vector<std::string> heads;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);)
    if (line.starts_with("drink ") || line.starts_with("prep ")) heads.push_back(line);
  return heads;
}

/// The lines of a drink in one, without the gaps between their columns.
std::string own_lines(const Brought& brought, const std::string& head) {
  const auto& text = brought.specs.text;
  auto at = text.find(head + "\n");
  if (at == std::string::npos) return "no " + head;
  auto end = std::min({text.find("\ndrink ", at), text.find("\nprep ", at), text.size()});
  std::string lines;
  std::istringstream own(text.substr(at, end - at));
  for (std::string line; std::getline(own, line);) lines += base::collapse_space(line) + "\n";
  return lines;
}

/// A drink or prep with lines that it must hold and words that it must not.
struct Own {
  std::string head;
  std::vector<std::string> lines;
  std::vector<std::string> not_there = {};
};

void check_own(const std::string& source, const std::vector<Own>& specs, std::string_view numbers = {}) {
  Brought brought(source, numbers);
  INFO(source << "----\n" << brought.told);
  CHECK(brought.is_sound());
  std::vector<std::string> heads;
  for (const auto& spec : specs) heads.push_back(spec.head);
  CHECK(heads_in(brought.specs.text) == heads);
  for (const auto& spec : specs) {
    const auto own = own_lines(brought, spec.head);
    CAPTURE(spec.head);
    for (const auto& line : spec.lines) {
      CAPTURE(line);
      CHECK(own.find("\n" + line + "\n") != std::string::npos);
    }
    for (const auto& words : spec.not_there) {
      CAPTURE(words);
      CHECK(own.find("\n" + words) == std::string::npos);
    }
  }
  auto lost = lost_words(source, brought.specs.text);
  // What a label says is said by a line of its own.
  std::erase_if(lost, [](const std::string& word) {
    for (std::string_view label :
         {"method", "ingredients", "name", "glass", "glassware", "garnish", "ingredient", "drink"})
      if (word == label) return true;
    return false;
  });
  CHECK(lost == std::vector<std::string>{});
  for (const auto& finding : brought.specs.findings) CHECK(finding.line > 0);
}

const std::string below = "\nDitch Lily\n40 ml gin\n20 ml lime juice\nshake\nstrain\n";
const Own lily = {"drink Ditch Lily", {"40 ml gin", "20 ml lime juice", "shake", "strain"}};

}  // namespace

TEST_CASE("the messages of a chat are parted, whatever their heads look like", "[new]") {
  for (std::string_view form :
       {"12.10.26, 18:05 - @: ", "[12.10.26, 18:05] @: ", "\u200E[12.10.26, 18:05:33] @: ",
        "12/10/2026, 6:05 PM - @: ", "[10/12/26, 6:05\u202FPM] @: ", "2026-10-12 18:05 @: ",
        "12.10.2026, 18:05 – @: ", "[2026-10-12 18:05] @: "}) {
    auto head = [&](std::string_view who) {
      std::string text(form);
      return text.replace(text.find('@'), 1, who);
    };
    const std::string source = head("Bea") + "sure! Reed Cutter:\n5cl Gin\n2cl Zitrone\n" +
                               "shake, double strain, coupe\nZitronenzeste\n" + head("Bea") +
                               "and Marsh Light is 4cl Wodka, 2cl Limette, 1,5cl Zuckersirup. Dry shake, "
                               "shake, fine strain. Coupe\n" +
                               head("Mo") + "thx, and the tea syrup?\n" + head("Bea") +
                               "Tea syrup: 500 g sugar, 500 ml black tea, stir until dissolved, 2 weeks "
                               "fridge\n";
    check_own(source, {{"drink Reed Cutter",
                        {"glass coupe", "shake", "double strain"},
                        {"500", "4 cl", "stir until dissolved"}},
                       {"drink Marsh Light", {"dry shake", "glass coupe"}, {"500", "5 cl"}},
                       {"prep Tea syrup", {"stir until dissolved"}}});
  }
  // A notice of the chat is nobody's drink.
  check_own("12.10.26, 18:01 - Bea added Mo\n12.10.26, 18:05 - Bea: Frost Hollow\n50 ml rye whiskey\nstir\n",
            {{"drink Frost Hollow", {"50 ml rye whiskey", "stir"}}});
  // JSON is what goes on as JSON does.
  Brought name("[Frost Hollow]\n50 ml rye whiskey\nstir\n");
  CHECK(name.specs.drinks == 1);
  CHECK(name.has_line("50 ml rye whiskey"));
}

TEST_CASE("the line above a mail that was answered is no drink, in five languages", "[new]") {
  for (std::string_view head :
       {"On Mon, 2 Nov 2026 at 10:14, Bea wrote:", "Am 02.11.2026 um 10:14 schrieb Bea:",
        "Le lun. 2 nov. 2026 à 10:14, Bea a écrit :", "El lun, 2 nov 2026 a las 10:14, Bea escribió:",
        "Il giorno lun 2 nov 2026 alle ore 10:14 Bea ha scritto:",
        "On Mon, 2 Nov 2026 at 10:14, Bea of the bar\n> wrote:", "----- Original Message -----"})
    for (std::string_view mark : {"> > ", ">> ", ""}) {
      if (!mark.starts_with("> ") && !head.starts_with("On Mon, 2 Nov 2026 at 10:14, Bea wrote")) continue;
      const std::string m(mark);
      const std::string lines = m + "Frost Hollow\n" + m + "50 ml rye whiskey\n" + m + "stir\n";
      check_own("> " + std::string(head) + "\n" + lines + below,
                {{"drink Frost Hollow", {"50 ml rye whiskey", "stir"}}, lily});
      check_own("> " + std::string(head) + "\n>\n" + lines + below,
                {{"drink Frost Hollow", {"50 ml rye whiskey", "stir"}}, lily});
    }
}

TEST_CASE("a cell of a sheet that was typed on several lines is one list", "[new]") {
  for (char sign : {'\t', ';', ','}) {
    std::string source =
        "Name@Glass@Ingredients@Method@Garnish\n"
        "Teal@highball@\"4 cl white rum\n2 cl lime juice\n\n10 cl ginger beer\"@build@lime wheel\n"
        "Heron@coupe@\"5 cl gin\n- 2 cl lemon juice\"@\"- shake\n- double strain\"@lemon twist\n"
        "Coot@coupe@5 cl vodka@stir@none\n";
    std::replace(source.begin(), source.end(), '@', sign);
    check_own(source, {{"drink Teal",
                        {"4 cl white rum", "2 cl lime juice", "10 cl ginger beer", "glass highball", "build",
                         "garnish lime wheel"}},
                       {"drink Heron",
                        {"5 cl gin", "2 cl lemon juice", "shake", "double strain", "garnish lemon twist"}},
                       {"drink Coot", {"5 cl vodka", "stir"}}});
  }
  // A quote that nothing closes is a sign like any other.
  check_own("Frost Hollow\n50 ml rye whiskey,\"the old one\nstir\n" + below,
            {{"drink Frost Hollow", {"stir"}}, lily});
}

TEST_CASE("drinks that stand side by side are parted", "[new]") {
  const std::vector<Own> two = {
      {"drink FROST HOLLOW",
       {"50 ml rye whiskey", "20 ml sweet vermouth", "stir 25 s", "glass coupe"},
       {"40 ml", "shake"}},
      {"drink DITCH LILY",
       {"40 ml gin", "20 ml lime juice", "20 ml orgeat", "shake 10 s", "glass rocks"},
       {"50 ml", "stir"}}};
  check_own(R"(FROST HOLLOW                          DITCH LILY
50 ml rye whiskey                     40 ml gin
20 ml sweet vermouth                  20 ml lime juice
2 dashes orange bitters               20 ml orgeat
stir 25 s, strain                     shake 10 s, strain
coupe                                 rocks
)",
            two);
  check_own(
      "FROST HOLLOW\tDITCH LILY\n50 ml rye whiskey\t40 ml gin\n20 ml sweet vermouth\t20 ml lime juice\n"
      "stir 25 s\t20 ml orgeat\nstrain\tshake 10 s\ncoupe\trocks\n",
      two);
  // Of unequal length, with blank lines, below a title, two below each other.
  check_own(R"(    Bar Card

FROST HOLLOW                 DITCH LILY

50 ml rye whiskey            40 ml gin
20 ml sweet vermouth         20 ml lime juice
stir 25 s                    20 ml orgeat
coupe                        shake 10 s
                             rocks

Mill Lane                    Weir Light
30 ml gin                    30 ml vodka
30 ml lemon juice            15 ml lime juice
shake                        stir
)",
            {two[0],
             {"drink Mill Lane", {"30 ml gin", "30 ml lemon juice", "shake"}, {"30 ml vodka"}},
             two[1],
             {"drink Weir Light", {"30 ml vodka", "15 ml lime juice", "stir"}}});
  // Three.
  check_own(R"(Mill Lane            Weir Light           Sluice
30 ml gin            35 ml vodka          25 ml bourbon
30 ml lemon juice    15 ml lime juice     10 ml honey syrup
shake                stir                 stir
)",
            {{"drink Mill Lane", {"30 ml gin", "30 ml lemon juice", "shake"}},
             {"drink Weir Light", {"35 ml vodka", "15 ml lime juice", "stir"}},
             {"drink Sluice", {"25 ml bourbon", "10 ml honey syrup", "stir"}}});
  // The thing and its amount in columns are one drink.
  check_own(
      "Frost Hollow\n\nRye whiskey       50 ml\nSweet vermouth    20 ml\nAbsinthe          5 ml\n\nstir\n",
      {{"drink Frost Hollow", {"50 ml Rye whiskey", "20 ml Sweet vermouth", "stir"}}});
  check_own("Frost Hollow\n50 ml    rye whiskey\n20 ml    sweet vermouth\n5 ml     absinthe\nstir\n",
            {{"drink Frost Hollow", {"50 ml rye whiskey", "20 ml sweet vermouth", "5 ml absinthe", "stir"}}});
}

TEST_CASE("a label alone on its line says what the next one is", "[new]") {
  const std::string hollow = "Frost Hollow\n50 ml rye whiskey\n20 ml sweet vermouth\nStir and strain.\n";
  for (std::string_view gap : {"\n", "\n\n"}) {
    const std::string between(gap), before = gap.size() > 1 ? "\n" : "";
    auto with = [&](std::string_view label, std::string_view value) {
      return hollow + before + std::string(label) + between + std::string(value) + "\n" + below;
    };
    for (std::string_view label : {"Glass", "GLASS", "Glassware", "GLASSWARE", "Vessel", "Equipment", "Glas",
                                   "Glass:", "Verre", "Copa"}) {
      Brought brought(with(label, "Coupe"));
      INFO(with(label, "Coupe") << "----\n" << brought.told);
      CHECK(heads_in(brought.specs.text) ==
            std::vector<std::string>{"drink Frost Hollow", "drink Ditch Lily"});
      CHECK(own_lines(brought, "drink Frost Hollow").find("\nglass coupe\n") != std::string::npos);
      CHECK(own_lines(brought, "drink Frost Hollow").find("strain\n") != std::string::npos);
      CHECK(own_lines(brought, "drink Ditch Lily").find("oupe") == std::string::npos);
    }
    for (std::string_view label : {"Garnish", "GARNISH", "Garnitur", "Deko", "Garnish:"}) {
      Brought brought(with(label, "Orange twist"));
      INFO(with(label, "Orange twist") << "----\n" << brought.told);
      CHECK(heads_in(brought.specs.text) ==
            std::vector<std::string>{"drink Frost Hollow", "drink Ditch Lily"});
      CHECK(own_lines(brought, "drink Frost Hollow").find("garnish orange twist\n") != std::string::npos);
    }
    check_own(with("Notes", "The first of the winter"),
              {{"drink Frost Hollow", {"# Notes: The first of the winter"}}, lily});
    check_own(with("Ice", "Large cube"), {{"drink Frost Hollow", {"ice large cube"}}, lily});
  }
  check_own(
      "Frost Hollow\n\nGLASSWARE\n\nCoupe\n\nINGREDIENTS\n\n50 ml rye whiskey\n\n20 ml sweet vermouth\n\n"
      "METHOD\n\nStir, strain\n\nGARNISH\n\nOrange twist\n\nDitch Lily\n\nGLASSWARE\n\nRocks\n\n"
      "INGREDIENTS\n\n40 ml gin\n\n20 ml lime juice\n\nMETHOD\n\nshake\n\nstrain\n",
      {{"drink Frost Hollow",
        {"glass coupe", "50 ml rye whiskey", "20 ml sweet vermouth", "stir", "strain",
         "garnish orange twist"}},
       lily});
  // A tab parts the label from its value as well.
  check_own(
      "Frost Hollow\nGlass\tCoupe\n50 ml rye whiskey\n20 ml sweet vermouth\nMethod\tStir, strain\n"
      "Garnish\tOrange twist\n",
      {{"drink Frost Hollow", {"glass coupe", "stir", "strain", "garnish orange twist"}}});
}

TEST_CASE("brackets hold together in headings, names and garnishes", "[new]") {
  for (std::string_view title :
       {"BAR CARD (laminated, do not remove!)", "THE OSIER ROOM  -  BAR CARD  (laminated, do not remove!)",
        "Bar Card [winter, v3]", "HOUSE SPECS (Bea, Mo; keep dry)"})
    check_own(std::string(title) + "\n" + below, {lily});
  for (auto [written, line] :
       {std::pair<std::string, std::string>{"garnish: orange peel (expressed)",
                                            "garnish orange peel, expressed"},
        {"garnish orange peel (expressed)", "garnish orange peel, expressed"},
        {"lemon twist (discard)", "garnish lemon twist, discard"},
        {"Garnish: lemon twist (discard)", "garnish lemon twist, discard"},
        {"garnish: 2 cherries (on the house)", "garnish 2 cherries, on the house"},
        {"garnish: lime wheel (thin, no pith)", "garnish lime wheel, \"thin, no pith\""}})
    check_own("Frost Hollow\n50 ml rye whiskey\nstir\nstrain\n" + written + "\n",
              {{"drink Frost Hollow", {line}}});
}

TEST_CASE("what stands behind the last amount of a line is read, with and without its unit", "[new]") {
  for (std::string_view last : {"shake, rocks, mint", "shake, strain, coupe", "shake, rocks, wobbleleaf"}) {
    const std::string behind(last);
    for (const auto& text :
         {"40 gin + 20 lime + 20 orgeat, " + behind, "40 gin, 20 lime, 20 orgeat, " + behind,
          "40 ml gin + 20 ml lime + 20 ml orgeat, " + behind})
      check_own("Lily\n" + text + "\n",
                {{"drink Lily", {"40 ml gin", "20 ml lime juice", "20 ml orgeat", "shake"}}}, "ml");
  }
}

TEST_CASE("a name before a list is one, though a glass or a unit is called so", "[new]") {
  for (std::string_view name : {"Toddy", "Highball", "Collins", "Sling", "Mug", "Copita", "Snifter", "Julep",
                                "Pinch Me", "Dash Away", "Splash Down", "50/50", "1920"})
    for (std::string_view sign : {" - ", ": "}) {
      if (name == "1920" && sign == " - ") continue;
      const std::string head = std::any_of(name.begin(), name.end(), base::is_digit)
                                   ? "drink \"" + std::string(name) + "\""
                                   : "drink " + std::string(name);
      check_own("Lily Spritz - 50 ml gin, 90 ml prosecco. Wine glass, mint.\n" + std::string(name) +
                    std::string(sign) + "50 ml bourbon, 20 ml honey. Stir.\n",
                {{"drink Lily Spritz", {"50 ml gin", "90 ml prosecco"}, {"50 ml bourbon"}},
                 {head, {"50 ml bourbon", "stir"}}});
    }
  check_own(
      "2. Lily Spritz - 50 ml gin, 90 ml prosecco. Wine glass, mint.\nHOT\n"
      "3. Toddy - 50 ml dark rum, 20 ml honey, 120 ml hot water. Mug, lemon wedge.\n",
      {{"drink Lily Spritz", {"90 ml prosecco"}, {"glass hot", "50 ml dark rum"}},
       {"drink Toddy", {"glass mug"}}});
  // A glass with what is served in it is no name.
  Brought served("Lily\n50 ml gin\n20 ml lime juice\nshake\nCoupe - lemon twist\n10 ml soda water\n");
  CHECK(served.specs.drinks == 1);
}

TEST_CASE("a heading between blank lines is nobody's glass and nobody's step", "[new]") {
  for (std::string_view heading :
       {"SHOTS", "Shots", "Shooters",  "Coupes", "Flutes",      "Mugs",      "Punch",
        "PUNCH", "Wine",  "Beer",      "Tea",    "Beer & Wine", "Garnishes", "GARNISHES",
        "Rinse", "0%",    "HIGHBALLS", "HOT",    "FROZEN",      "ON TAP",    "Neat"})
    check_own("Lily\n50 ml gin\nshake\n\n" + std::string(heading) + "\n" + below,
              {{"drink Lily", {"50 ml gin", "shake"}, {"glass", "garnish", "rinse"}}, lily});
}

TEST_CASE("a step's word with a small one behind it is a name", "[new]") {
  for (std::string_view name : {"Blend In", "Muddle Through", "Stir Crazy", "Shake It Off", "Pour Over"})
    for (std::string_view blank : {"", "\n"})
      check_own("Lily\n50 ml gin\nshake\n" + std::string(blank) + std::string(name) +
                    "\n50 ml bourbon\n100 ml soda\nbuild\n",
                {{"drink Lily", {"50 ml gin", "shake"}, {"50 ml bourbon"}},
                 {"drink " + std::string(name), {"50 ml bourbon", "build"}}});
}

TEST_CASE("a bowl for many serves them", "[new]") {
  check_own("Bowl for 10 - 500 ml gin, 200 ml lemon juice, 200 ml honey syrup. Stir.\n",
            {{"drink Bowl", {"serves 10 # for 10", "500 ml gin", "stir"}}});
  check_own("Autumn Punch for 12\n500 ml gin\n200 ml lemon juice\nstir\n",
            {{"drink Autumn Punch", {"serves 12 # for 12", "500 ml gin"}}});
  check_own("Table for 4\n50 ml gin\n20 ml lemon juice\nstir\n", {{"drink \"Table for 4\"", {"50 ml gin"}}});
}
