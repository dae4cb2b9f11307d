// Whole texts as bars keep them: notes of a phone, a typed card, a wiki's tables, a mail, lists in three
// languages, a sheet, a binder, bowls. The bars and the drinks are made up.
#include <catch2/catch.hpp>

#include "unit/importer/importer_fixture.h"

using namespace gill;
using gill::testing::Brought;
using gill::testing::check_lines;
using gill::testing::lost_words;

namespace {

/// A line of the source, and words of what is told of it.
struct Doubt {
  std::size_t line;
  const char* words;
};

void check_text(const std::string& source, std::size_t drinks, const std::vector<std::string>& lines,
                const std::vector<Doubt>& doubts) {
  Brought brought(source);
  check_lines(brought, lines);
  CHECK(brought.specs.drinks == drinks);
  CHECK(lost_words(source, brought.specs.text) == std::vector<std::string>{});
  for (const auto& doubt : doubts) {
    CAPTURE(doubt.line, doubt.words);
    CHECK(brought.tells(doubt.line, doubt.words));
  }
  for (const auto& finding : brought.specs.findings) CHECK(finding.line > 0);
}

}  // namespace

TEST_CASE("a phone's notes is brought in, every word of it, and every doubt is told with its line", "[new]") {
  check_text(
      R"(FRI NIGHT SPECIALS!!
(talk to Mo re prices)

tide pool
2 gin
.75 lemon
.75 honey
basil x 6
shake hard, dbl strain, coupe
gar: basil leaf

smoke signal 🔥
1.5 mezcal
0.5 aperol-ish bitter
0.75 lime
0.25 agave
3 dash bitters
shake, rocks, big ice. salt rim (half)

dock worker
2 rye, .5 amaro, .25 maple, 2 dash ango
stir n strain, up
orange peel - expressed & discarded

86 = limes til tues
)",
      3,
      {"drink tide pool", "glass coupe", "garnish basil leaf", "dbl strain", "glass rocks", "3 dash bitters",
       "salt rim (half)", "garnish orange peel", "# 86 = limes til tues"},
      {{5, "`--numbers oz`"}, {8, "`6 basil`"}, {17, "`bitters` can mean"}, {23, "expressed & discarded"}});
}

TEST_CASE("a typed card with leaders is brought in, every word of it, and every doubt is told with its line",
          "[new]") {
  check_text(R"(+-----------------------------+
|  THE LAMPLIGHTER            |
+-----------------------------+
  Glass ........ Nick & Nora
  Ice .......... none
  45 ml ........ dry gin
  20 ml ........ fino sherry
  10 ml ........ elderflower liqueur
  2 dashes ..... orange bitters
  METHOD: stir 25 sec / strain
  GARNISH: grapefruit twist (discard)
  Batch: 20 serves = 1.5 L
)",
             1,
             {"drink THE LAMPLIGHTER", "glass Nick & Nora", "ice none", "45 ml dry gin",
              "2 dashes orange bitters", "stir 25 sec", "strain", "garnish grapefruit twist, discard"},
             {{12, "Batch: 20 serves"}});
}

TEST_CASE("a wiki's tables is brought in, every word of it, and every doubt is told with its line", "[new]") {
  check_text(R"(== Harbour list ==
{| class="wikitable"
! Drink !! Spec !! Method !! Glass
|-
| Pilot Light || 50 ml bourbon, 20 ml lemon juice, 20 ml honey syrup || shake, strain || rocks
|-
| Ebb || 40 ml white rum, 20 ml lime juice, 15 ml falernum || shake, double strain || coupe
|}

| Drink | Spec | Method | Glass |
|-------|------|--------|-------|
| Slipway | 60 ml rye whiskey, 30 ml sweet vermouth | stir | coupe |
| Mooring | 45 ml gin; 20 ml lime juice | shake | highball |
)",
             4,
             {"# Harbour list", "drink Pilot Light", "drink Ebb", "drink Slipway", "drink Mooring",
              "20 ml honey syrup", "15 ml falernum", "30 ml sweet vermouth", "glass highball"},
             {});
}

TEST_CASE("a mail is brought in, every word of it, and every doubt is told with its line", "[new]") {
  check_text(R"(From: Jo
Subject: Re: new drinks for thursday

Hi all,

here are the two for Thursday. Please learn them!

> Copper Still
> 50ml bourbon
> 25ml lemon
> 15ml ginger syrup
> 1 egg white (or aquafaba)
> Dry shake, wet shake, fine strain. Coupe. Nutmeg on top.

And the long one:

> Long Shore
> 40ml vodka
> 20ml grapefruit juice
> 10ml lime
> Top soda
> Build in a highball over cubed ice, grapefruit wedge

Cheers
Jo

Sent from my phone
)",
             2,
             {"# From: Jo", "drink Copper Still", "wet shake", "nutmeg on top", "drink Long Shore",
              "top soda", "garnish grapefruit wedge", "# Cheers"},
             {{24, "Cheers"}, {25, "Jo"}, {27, "Sent from"}});
}

TEST_CASE("a German list is brought in, every word of it, and every doubt is told with its line", "[new]") {
  check_text(R"(Barkarte Winter

Nebelbank
4 cl Rum
2 cl Limettensaft
1 EL Honig
1 Ei
Auf Eis schütteln, in eine Cocktailschale abseihen.
Deko: Muskatnuss

Kranführer
6 cl Whisky
1 cl Ahornsirup
3 Spritzer Angostura
Im Rührglas auf Eis rühren
Tumbler, großer Eiswürfel
Garnitur: Orangenzeste

Hausgemachter Ingwersirup
500 g Zucker
500 ml Wasser
200 g Ingwer
aufkochen, 20 Min ziehen lassen, abseihen. 2 Wochen im Kühlschrank haltbar.
)",
             3,
             {"drink Nebelbank", "4 cl Rum", "1 whole egg # 1 Ei", "shake with ice", "strain into coupe",
              "drink Kranführer", "glass tumbler", "prep Hausgemachter Ingwersirup",
              "200 g ginger # 200 g Ingwer", "bring to the boil"},
             {{4, "`rum` can mean"}, {14, "Angostura"}, {16, "Eiswürfel"}, {23, "20 Min"}, {23, "Wochen"}});
}

TEST_CASE("a French list is brought in, every word of it, and every doubt is told with its line", "[new]") {
  check_text(
      R"(Quai Nord
- 4 cl de rhum ambré
- 2 cl jus de citron vert
- 1,5 cl sirop de sucre
- 2 traits d'angostura
- 6 feuilles de menthe
Shaker avec des glaçons, filtrer deux fois dans une coupette.
Décor : zeste de citron vert

Le Phare
5 cl gin – 2 cl vermouth sec – 1 trait de bitter orange
Verre : coupe
Remuer, filtrer
)",
      2,
      {"drink Quai Nord", "4 cl aged rum # 4 cl de rhum ambré", "shake with ice", "double strain into coupe",
       "drink Le Phare", "glass coupe", "2 cl vermouth sec", "1 dash orange bitters", "stir", "strain"},
      {{5, "d'angostura"}});
}

TEST_CASE("a Spanish list is brought in, every word of it, and every doubt is told with its line", "[new]") {
  check_text(R"(MAREA ALTA
50 ml tequila
25 ml zumo de lima
15 ml sirope de agave
Sal en el borde
Agitar con hielo y colar
Vaso: old fashioned
Decoración: rodaja de lima

Faro
45 ml ron añejo
90 ml cerveza de jengibre
1/2 lima
Directo en vaso largo con hielo
)",
             2,
             {"drink MAREA ALTA", "25 ml lime juice # 25 ml zumo de lima", "shake with ice", "strain",
              "glass old fashioned", "drink Faro", "1/2 lime # 1/2 lima"},
             {{5, "Sal en el borde"}});
}

TEST_CASE("a sheet saved as text is brought in, every word of it, and every doubt is told with its line",
          "[new]") {
  check_text(R"(Name;Glass;Ingredients;Method;Garnish
Tar & Rope;rocks;50 ml aged rum, 10 ml demerara syrup, 2 dashes aromatic bitters;stir;orange peel
Gullwing;coupe;45 ml gin, 20 ml lemon juice, 15 ml triple sec;shake;
)",
             2,
             {"# Name | Glass | Ingredients | Method | Garnish", "drink Tar & Rope", "glass rocks",
              "10 ml demerara syrup", "garnish orange peel", "drink Gullwing", "15 ml triple sec"},
             {});
}

TEST_CASE("a binder is brought in, every word of it, and every doubt is told with its line", "[new]") {
  check_text(R"(** COFFEE & DESSERT **

1) Night Shift (hot)
   Irish whiskey      40ml
   Espresso           1 shot
   Demerara syrup     15ml
   Cream              float
   -- serve in a warmed glass mug
   NB: cream must be cold!!

2) Last Bus
   Coffee liqueur     1oz
   Vodka              1 1/2oz
   Espresso           1oz
   Shake *hard*; fine-strain into coupe; 3 coffee beans

Prep: Vanilla cream
   500ml cream, 30g sugar, 1 vanilla pod. Whip lightly. 2 days.
)",
             3,
             {"# COFFEE & DESSERT", "drink Night Shift (hot)", "cream float", "serve in a warmed glass mug",
              "drink Last Bus", "shake hard", "3 coffee beans", "prep Vanilla cream", "30 g sugar"},
             {{5, "Espresso 1 shot"}, {9, "cream must be cold"}, {18, "2 days"}});
}

TEST_CASE("bowls in parts and bottles is brought in, every word of it, and every doubt is told with its line",
          "[new]") {
  check_text(R"(House Punch -- for 20
equal parts rum, pineapple juice, black tea
1/2 part lime
1/4 part sugar
grate nutmeg over
ladle over block ice

Sangria Jug (makes 1.5 l)
1 bottle red wine
100 ml brandy
100 ml orange juice
2 oranges, sliced
1 lemon, sliced
50 g sugar
stir, rest overnight in fridge
top with soda to serve
)",
             2,
             {"drink House Punch", "equal parts rum, pineapple juice, black tea", "1/2 part lime juice",
              "serves 20 # for 20", "drink Sangria Jug", "# 1 bottle red wine", "makes 1.5 l"},
             {{1, "`size 90 ml`"}, {2, "`rum` can mean"}, {9, "bottle red wine"}, {16, "soda to serve"}});
}
