// Texts as bars keep them, each with the drinks and the preps that stand in it: no drink runs together with
// another, none is cut in two, no step is a name, no word is gone. The bars and the drinks are made up.
#include <catch2/catch.hpp>
#include <sstream>

#include "unit/importer/importer_fixture.h"

using namespace gill;
using gill::testing::Brought;
using gill::testing::lost_words;

namespace {

struct OldText {
  std::vector<std::string> heads;
  std::string text;
  std::string numbers;
};

std::vector<std::string> heads_of(const std::string& text) {
  std::vector<std::string> heads;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);)
    if (line.starts_with("drink ") || line.starts_with("prep ")) heads.push_back(line);
  return heads;
}

/// Labels, the names that each row of a table says again, and numbers that count lines are said otherwise.
bool is_said_otherwise(const std::string& word, const std::string& text) {
  for (std::string_view label : {"spec", "method", "ingredients"})
    if (word == label) return true;
  const bool is_in_rows = text.find(";Qty;") != std::string::npos || text.find(";ml\n") != std::string::npos;
  return (is_in_rows && (word == "ebb" || word == "flow" || word == "keel" || word == "tern")) ||
         (word.size() == 1 && word[0] >= '1' && word[0] <= '3');
}

void check_texts(const std::vector<OldText>& texts) {
  for (const auto& old : texts) {
    Brought brought(old.text, old.numbers);
    INFO(old.text << "----\n" << brought.told);
    CHECK(heads_of(brought.specs.text) == old.heads);
    CHECK(brought.is_sound());
    const bool is_json = old.text.starts_with("[");
    for (const auto& word : lost_words(old.text, brought.specs.text)) {
      CAPTURE(word);
      CHECK((is_json || is_said_otherwise(word, old.text)));
    }
    for (const auto& finding : brought.specs.findings) CHECK(finding.line > 0);
  }
}

}  // namespace

TEST_CASE("names with a glass, a number or marks beside them part old texts into their drinks", "[new]") {
  check_texts({
      {{"drink Tide Line", "drink Lamp Oil", "prep Honey syrup"},
       R"text(Tide Line – coupe, lemon twist
45 ml gin
20 ml lemon juice
shake, double strain

Lamp Oil - highball, cubed ice
40 ml white rum
20 ml lime juice
top soda water
build

Honey syrup: 2:1 honey:hot water, stir, keeps 3 wks fridge
)text",
       ""},
      {{R"(drink "7 Bells")", R"(drink "2 Left Feet")", R"(drink "86 Reasons")"},
       R"text(7 Bells
60 ml bourbon
2 dashes aromatic bitters
stir
strain

2 Left Feet: 30 ml vodka, 20 ml lime juice, shake, strain

86 Reasons - rocks, big cube
50 ml rye whiskey
10 ml sweet vermouth
stir 20 s
)text",
       ""},
      {{"drink Cold Deck", "drink Warm Deck"},
       R"text(1. Cold Deck [rocks]
- 50 ml white rum
- 20 ml lime juice
- shake, strain over ice
2. Warm Deck [mug]
- 50 ml dark rum
- 100 ml hot water
- 10 ml honey syrup
- build
)text",
       ""},
      {{"drink Anchor", "drink Chain"},
       R"text(Anchor  |  rocks  |  big cube
2 oz bourbon
0.25 oz maple syrup
2 dash aromatic bitters
Stir 30 sec
----------
Chain  |  coupe
1.5 oz gin
0.75 oz lemon juice
Shake
)text",
       ""},
      {{"drink Gull's Cry", "drink Old Fashioned", "drink Mule No. 2"},
       R"text(Gull's Cry - coupe
45 ml gin
20 ml lime juice
shake

Old Fashioned - rocks, big cube
60 ml bourbon
1 sugar cube
stir

Mule No. 2 - copper mug, crushed ice
50 ml vodka
20 ml lime juice
top ginger beer
)text",
       ""},
      {{"drink A", "drink B"},
       R"text(A · coupe
45 ml gin · 20 ml lemon juice · 15 ml honey syrup
shake · double strain
B · rocks · big cube
50 ml rye whiskey · 10 ml maple syrup
stir · strain
)text",
       ""},
      {{"drink Ropemaker", "drink Sailmaker"},
       R"text(Bar Bible v3

## Ropemaker
*coupe, lemon twist*
45 ml gin
20 ml lemon juice

1. Shake 12 s
2. Double strain into 2 coupes
3. 3 drops saline

## Sailmaker
*rocks, big cube*
60 ml rye whiskey
30 ml sweet vermouth

1. Stir 25 s
)text",
       ""},
      {{"drink Keel", "drink Tern"},
       R"text(Keel......coupe
45 ml gin
20 ml lemon juice
shake

Tern......rocks
50 ml vodka
20 ml lime juice
shake
)text",
       ""},
      {{"drink TRE PORTI", "drink MOLO 4"},
       R"text(TRE PORTI - coppa
45 ml gin
20 ml succo di limone
agitare
Filtrare in 2 coppe
3 gocce di bitter

MOLO 4 - tumbler basso, ghiaccio
50 ml rum scuro
20 ml succo di lime
agitare e filtrare
)text",
       ""},
      {{"drink Keel", "drink Tern"},
       R"text(Keel [coupe / lemon twist]
45 ml gin
20 ml lemon juice
shake
Tern [rocks / big cube / no garnish]
50 ml vodka
20 ml lime juice
shake
)text",
       ""},
      {{"drink Keel", "drink Tern"},
       R"text(Keel ~ coupe ~ lemon twist
45 ml gin
20 ml lemon juice
shake

Tern ~ rocks ~ big cube
50 ml vodka
20 ml lime juice
shake
)text",
       ""},
      {{"drink KEEL", "drink TERN"},
       R"text(KEEL - shaken, coupe
45ml gin
20ml lemon
TERN - stirred, rocks
60ml rye whiskey
10ml maple syrup
)text",
       ""},
  });
}

TEST_CASE("drinks on a line of their own part old texts into their drinks", "[new]") {
  check_texts({
      {{"drink Hafenlicht", "drink Nebel", "prep Ingwersirup"},
       R"text(Hafenlicht - Coupe, Zitronenzeste
5 cl Gin
2 cl Zitronensaft
schütteln
In zwei Gläser abseihen
3 Tropfen Orangenbitter

Nebel: 4 cl Rum, 2 cl Limettensaft, 1 cl Honigsirup, schütteln, abseihen, Coupe

Ingwersirup: 500 g Ingwer, 500 g Zucker, 500 ml Wasser, aufkochen
)text",
       ""},
      {{"drink Brise", "drink Le Phare"},
       R"text(Brise (coupe)
4 cl de rhum blanc
2 cl de jus de citron vert
1,5 cl de sirop de sucre
secouer
Filtrer dans deux coupes
2 traits d'angostura

Le Phare : 5 cl de gin, 2 cl de vermouth sec. Remuer, filtrer
)text",
       ""},
      {{"drink MAREA", "drink FARO"},
       R"text(MAREA - copa coupe
50 ml tequila
25 ml zumo de lima
15 ml sirope de agave
agitar
Colar en 2 copas
1 rodaja de lima

FARO: ron 45 ml, zumo de lima 20 ml. agitar, colar
)text",
       ""},
      {{"drink Quay Sour", "drink Slip Knot", "drink Rope Walk"},
       R"text(Quay Sour: 50ml bourbon/25ml lemon/20ml honey syrup/shake/strain/rocks
Slip Knot: 45ml gin/20ml lime/15ml simple syrup/shake/double strain/coupe
Rope Walk: 60ml rye whiskey/30ml sweet vermouth/2 dashes aromatic bitters/stir/strain/nick and nora
)text",
       ""},
      {{"drink Porto", "drink Riva"},
       R"text(Porto: bicchiere basso
50 ml rum bianco
20 ml succo di lime
agitare, filtrare in una coppa

Riva - 40 ml gin, 20 ml succo di limone, 20 ml sciroppo di zucchero, agitare, filtrare
)text",
       ""},
      {{"drink Kelp", "drink Coral", "prep Kelp saline"},
       R"text(Kelp
50 gin 20 lemon 15 honey syrup
shake strain coupe

Coral
50 vodka, 20 lime, 15 agave syrup
shake, strain, rocks

Kelp saline - 20 g kelp, 80 ml water, 20 g salt. Steep 1 h, strain, bottle
)text",
       "ml"},
      {{"drink Kelp", "drink Coral"},
       R"text(Kelp = 50 ml gin + 20 ml lemon juice + 15 ml honey syrup (shake, strain, coupe)
Coral = 50 ml vodka + 20 ml lime juice + 15 ml agave syrup (shake, strain, rocks)
)text",
       ""},
      {{"drink Kelp", "drink Coral"},
       R"text(WhatsApp 12/03
Kelp: gin 50 / lemon 20 / honey syrup 15. shake. coupe
Coral: vodka 50 / grapefruit juice 60. build. highball
any questions ask Mo
)text",
       "ml"},
      {{"drink Kelp", "drink Coral", "drink Moor"},
       R"text(Kelp: gin, lemon, honey. Shake, strain, coupe

Coral - vodka, grapefruit, soda. Build in a highball

Moor (rocks): rye, maple, bitters. Stir
)text",
       ""},
      {{"drink Keel", "prep Lemon sherbet", "prep Spiced rum"},
       R"text(Keel
45 ml spiced rum
20 ml lemon sherbet
stir

Lemon sherbet: 4 lemons, peel only, 200 g sugar. Rest 4 h. Add 150 ml lemon juice, strain, bottle.

Spiced rum - 700 ml aged rum, 1 cinnamon stick, 3 cloves. Infuse 2 d, strain
)text",
       ""},
      {{"drink Le Quai", "drink La Digue", "prep Sirop de miel"},
       R"text(« Le Quai » – coupe, zeste de citron
4 cl de gin
2 cl de jus de citron
1,5 cl de sirop de miel
Shaker, double filtrer

« La Digue » : 5 cl de vodka / 2 cl de jus de citron vert / compléter de ginger beer

Sirop de miel : 200 g de miel, 100 g d'eau chaude, mélanger, se garde 2 semaines au frigo
)text",
       ""},
      {{"drink Keel", "drink Tern", "prep Grenadine", R"(prep "Saline 20%")"},
       R"text(Drinks

Keel: 45 ml gin, 10 ml grenadine, 20 ml lemon juice, 2 drops saline. Shake, strain.
Tern: 50 ml vodka, 20 ml lime juice. Shake, strain.

Preps

Grenadine: 500 ml pomegranate juice, 400 g sugar, heat, bottle
Saline 20%: 20 g salt, 80 g water
)text",
       ""},
      {{"drink PUERTO TRES", "drink MUELLE 4", "prep Sirope de miel"},
       R"text(PUERTO TRES: ginebra 45 ml, zumo de limón 20 ml, sirope de miel 15 ml. Agitar y colar en copa coupe.

MUELLE 4 - vaso bajo, hielo
50 ml ron oscuro
20 ml zumo de lima
agitar y colar

Sirope de miel: 2:1 miel:agua, remover
)text",
       ""},
      {{"drink Keel", "drink Tern"},
       R"text(Keel -- coupe
45 gin / 20 lemon / 15 honey syrup
shake // strain
Tern -- highball
50 vodka / 20 lime / ginger beer top
build
)text",
       "ml"},
      {{"drink Keel", "drink Tern", "drink Gannet"},
       R"text(Keel | 45 ml gin | 20 ml lemon juice | shake | coupe
Tern | 50 ml vodka | 20 ml lime juice | shake | rocks
Gannet | vodka | lime | mint | shake
)text",
       ""},
      {{"drink Keel", "prep Black tea"},
       R"text(Keel
60 ml black tea
45 ml gin
build

Black tea - 10 g leaves, 500 ml water 95C, 4 min. Keep 1 day
)text",
       ""},
      {{"drink Keel", "drink Tern", "drink Gannet"},
       R"text(Keel (rocks, big cube): 60 ml rye whiskey, 10 ml maple syrup, stir
Tern (coupe): 45 ml gin, 20 ml lemon juice, shake
Gannet (highball): 50 ml vodka, 20 ml lime juice, ginger beer to top
)text",
       ""},
      {{"drink Keel", "drink Tern"},
       R"text(Keel: 45ml gin, 20ml lemon, 15ml honey syrup
shake, double strain, coupe
Tern: 50ml vodka, 20ml lime, 15ml agave syrup
shake, strain, rocks
)text",
       ""},
      {{"drink Keel", "drink Tern"},
       R"text(Keel, 45 gin, 20 lemon, 15 honey syrup, shake, coupe
Tern, 50 vodka, 20 lime, 10 agave syrup, shake, rocks
)text",
       "ml"},
  });
}

TEST_CASE("tables with and without a head part old texts into their drinks", "[new]") {
  check_texts({
      {{"drink Ebb", "drink Flow", "drink Slack"},
       R"text(Ebb	45 ml gin, 20 ml lemon juice	shake, strain	coupe
Flow	40 ml vodka, 20 ml lime juice	build	highball
Slack	60 ml rye whiskey, 30 ml sweet vermouth	stir, strain	coupe
)text",
       ""},
      {{"drink Ebb", "drink Flow"},
       R"text(Autumn list

Drink	Base	Modifier	Acid	Sweet	Glass	Method	Garnish
Ebb	45 ml gin	10 ml dry vermouth	20 ml lemon juice	15 ml honey syrup	coupe	shake, double strain	lemon twist
Flow	50 ml vodka		20 ml lime juice		highball	build	mint sprig
)text",
       ""},
      {{"drink Ebb", "drink Flow"},
       R"text(Cocktail;Ingredient;Qty;Unit;Glass
Ebb;gin;45;ml;coupe
Ebb;lemon juice;20;ml;
;honey syrup;15;ml;
Flow;vodka;50;ml;highball
Flow;lime juice;20;ml;
)text",
       ""},
      {{"drink Ebb", "drink Flow"},
       R"text(Name,Glass,Ingredients,Method
Ebb,coupe,"45 ml gin, 20 ml lemon juice, 15 ml honey syrup","shake, strain"
Flow,highball,"50 ml vodka, 20 ml lime juice",build
)text",
       ""},
      {{"drink Ebb", "drink Flow"},
       R"text(| Cocktail | Base | Citrus | Sweet | Method |
|---|---|---|---|---|
| Ebb | 45 ml gin | 20 ml lemon juice | 15 ml honey syrup | shake, strain |
| Flow | 50 ml vodka | 20 ml lime juice | - | build |
)text",
       ""},
      {{"drink Kelp", "drink Coral"},
       R"text(Kelp
Gin	45
Lemon juice	20
Honey syrup	15
Shake, strain

Coral
Vodka	50
Lime juice	20
Build
)text",
       "ml"},
      {{"drink Keel", "drink Tern"},
       R"text(Keel	Coupe	45 ml gin, 20 ml lemon juice	Shake, double strain	Lemon twist
Tern	Rocks	60 ml rye whiskey, 10 ml maple syrup	Stir	Orange peel
)text",
       ""},
      {{"drink Keel", "drink Tern"},
       R"text(Name,Base,Citrus,Sweet,Glass
"Keel","45 ml gin","20 ml lemon juice","15 ml honey syrup",coupe
"Tern","50 ml vodka",20 ml lime juice,,rocks
)text",
       ""},
      {{"drink Keel", "drink Tern"},
       R"text(Drink;Ingredient;ml
Keel;gin;45
Keel;lemon juice;20
Tern;vodka;50
Tern;lime juice;20
)text",
       ""},
      {{"drink Keel", "drink Tern"},
       R"text(Keel    45 ml gin    20 ml lemon juice    shake    coupe
Tern    50 ml vodka    20 ml lime juice    shake    rocks
)text",
       ""},
  });
}

TEST_CASE("mails and their heads part old texts into their drinks", "[new]") {
  check_texts({
      {{"drink Snow Line", R"x(drink "Fondue (no, really)")x", "drink Ice Road"},
       R"text(From: Bea
To: bar team
Date: Tue, 3 March
Subject: winter drinks

Hi all,

here they are:

3 - “Snow Line”
45ml gin
20ml lemon
shake, strain -> coupe

4 - "Fondue" (no, really)
40ml dark rum
20ml lime
stir → strain → rocks

5 - Ice Road - rocks, big cube
50ml rye whiskey
10ml maple syrup
stir 30 sec

See you Friday
Bea
)text",
       ""},
      {{"drink Nordlicht", "drink Südwind"},
       R"text(Von: Mo
An: Tresen
Betreff: neue Karte

„Nordlicht“ – Coupe
5 cl Wodka
2 cl Limettensaft
auf Eis schütteln, doppelt abseihen

„Südwind“ – Longdrinkglas, Eiswürfel
4 cl weißer Rum
10 cl Ginger Beer
im Glas bauen
)text",
       ""},
      {{"drink Keel", "drink Tern"},
       R"text(Subject: Fwd: specs
From: Al
To: Mo

> Keel: 45ml gin, 20ml lemon, 15ml honey syrup - shake, double strain, coupe
>
> Tern: 50ml vodka, 20ml lime, top ginger beer - build, highball

Ta
Al
)text",
       ""},
      {{"drink Keel"},
       R"text(Keel
45 ml gin
20 ml lemon juice
shake
strain

Cheers - Bea

PS: bring ice, limes, straws

Bea: please check the honey, we are out of it
)text",
       ""},
  });
}

TEST_CASE("steps with counts, numbers and arrows part old texts into their drinks", "[new]") {
  check_texts({
      {{"drink Two", "drink Three"},
       R"text(Two
100 ml gin
40 ml lemon
shake hard
Fine strain into 2 coupes
3 drops orange bitters
Three
60 ml bourbon
10 ml maple syrup
stir
Pour over 1 large cube
orange twist
)text",
       ""},
      {{"drink Anchor", "drink Chain"},
       R"text(Anchor
Glass: rocks
Ice: big cube
Garnish: orange twist
2 oz bourbon
0.25 oz maple syrup
Step 1: stir 30 sec
Step 2: strain

Note: use the good bourbon, not the well

Chain
Glass: coupe
1.5 oz gin
0.75 oz lemon juice
Step 1: shake
Step 2: double strain
)text",
       ""},
      {{"drink Kelp", "drink Coral"},
       R"text(Kelp
50 ml gin
25 ml lemon juice
1 egg white
Dry shake
Shake with 5 cubes
Strain into 1 coupe
3 dots of bitters on top
Coral
50 ml vodka
20 ml lime juice
Shake with 5 cubes
Strain into rocks over 2 big cubes
)text",
       ""},
      {{"drink Keel", "drink Tern"},
       R"text(Keel (serves 2)
90 ml gin
40 ml lemon juice
shake
Strain into two coupes; garnish each with a lemon twist

Tern (serves 4)
200 ml vodka
80 ml lime juice
Pour into 4 shot glasses
5 ml absinthe
)text",
       ""},
      {{"drink Keel", "drink Tern"},
       R"text(- Keel
  - 45 ml gin
  - 20 ml lemon juice
  - shake -> strain -> coupe
- Tern
  - 50 ml vodka
  - 20 ml lime juice
  - shake -> fine strain -> nick & nora
)text",
       ""},
      {{"drink Keel", "drink Tern"},
       R"text(Keel
45 ml gin
20 ml lemon juice
Shake hard.
Fine strain into 2 coupes.
Serve at once with 2 straws

Tern
50 ml vodka
Add 3 drops of saline
20 ml lime juice
shake
)text",
       ""},
      {{"drink Keel", "drink Tern"},
       R"text(Keel
For one:
45 ml gin
20 ml lemon juice
Method:
Shake with ice
Strain into coupe over 2 cubes

Tern
For two:
90 ml vodka
40 ml lime juice
Method:
Shake with ice
Strain into 2 coupes
)text",
       ""},
      {{"drink Keel", "drink Tern"},
       R"text(1. Keel
   Ingredients: 45 ml gin, 20 ml lemon juice
   Method: 1. Shake. 2. Strain. 3. Serve in 2 coupes.
2. Tern
   Ingredients: 50 ml vodka, 20 ml lime juice
   Method: 1. Shake. 2. Strain.
)text",
       ""},
      {{"drink Keel", "drink Tern"},
       R"text(=== Keel ===
45 ml gin * 20 ml lemon juice * 15 ml honey syrup
shake * strain

=== Tern ===
50 ml vodka * 20 ml lime juice
build
)text",
       ""},
      {{"drink Keel", "drink Tern"},
       R"text(Keel
Gin - 45 ml
Lemon juice - 20 ml
Honey syrup - 15 ml
Shake - strain - coupe

Tern
Vodka: 50 ml
Lime juice: 20 ml
Build: highball
)text",
       ""},
      {{"drink KEEL", "drink TERN"},
       R"text(KEEL
2 oz GIN
3/4 oz LEMON JUICE
SHAKE, DOUBLE STRAIN
COUPE

TERN
2 oz VODKA
3/4 oz LIME JUICE
SHAKE
STRAIN INTO 2 COUPES
3 DROPS SALINE
)text",
       ""},
  });
}

TEST_CASE("drinks and preps of a kitchen part old texts into their drinks", "[new]") {
  check_texts({
      {{"drink Sea Foam", "prep Ginger foam", "prep Pepper tincture"},
       R"text(Sea Foam
45 ml gin
20 ml lemon juice
15 ml honey syrup
Shake with ice, double strain into a coupe

Ginger foam: 200 ml ginger juice, 100 ml egg white, 50 g sugar, charge twice

Pepper tincture - 20 g black pepper, 200 ml vodka, infuse 2 d, strain
)text",
       ""},
      {{"drink Anchor", "prep Smoke syrup", "drink Chain"},
       R"text(Anchor
2 oz bourbon
0.5 oz smoke syrup
stir
strain

Smoke syrup
200 g sugar
200 ml lapsang tea
stir til dissolved. bottle. 2 wks

Chain
1.5 oz gin
shake
)text",
       ""},
      {{"drink Ebb", "prep Sea brine"},
       R"text([{"@type":"Recipe","name":"Ebb","recipeCategory":"Cocktail","recipeIngredient":["45 ml gin","20 ml lemon juice"],"recipeInstructions":["Shake with ice.","Strain into a coupe."]},
{"@type":"Recipe","name":"Sea brine","recipeYield":"500 ml","recipeIngredient":["500 ml water","30 g salt"],"recipeInstructions":["Stir until dissolved.","Bottle, keep in the fridge."]}]
)text",
       ""},
      {{"drink Last Cordial", "drink Winter Mix"},
       R"text([{"@type":"Recipe","name":"Last Cordial","recipeCategory":["Drinks","Cocktails"],"recipeIngredient":["45 ml gin"],"recipeInstructions":"Stir."},
{"@type":"Recipe","name":"Winter Mix","recipeIngredient":["45 ml gin"],"recipeInstructions":[{"@type":"HowToStep","text":"Build in a highball over ice."},{"@type":"HowToStep","text":"Garnish with mint."}]}]
)text",
       ""},
      {{"drink Kelp", "drink Coral", "prep Oleo"},
       R"text(DRINK: Kelp
SPEC: 50 ml gin, 20 ml lemon juice
METHOD: shake > strain
GLASS: coupe

DRINK: Coral
SPEC: 50 ml vodka, 20 ml lime juice
METHOD: build
GLASS: highball

PREP: Oleo
SPEC: 200 g lemon peel, 200 g sugar
METHOD: rest overnight
)text",
       ""},
      {{"drink Keel"},
       R"text(Keel

Spirit: 45 ml gin

Citrus: 20 ml lemon juice

Sweet: 15 ml honey syrup

Method: shake, double strain

Glass: coupe
)text",
       ""},
      {{"drink Pisco Kick", "prep Egg white foam"},
       R"text([{"@type":"Recipe","name":"Pisco Kick","recipeIngredient":["45 ml pisco","20 ml lime juice"],"recipeInstructions":"Shake with ice. Strain into a rocks glass. Top with foam."},
{"@type":"Recipe","name":"Egg white foam","recipeCategory":"Prep","recipeIngredient":["100 ml egg white","50 ml simple syrup"],"recipeInstructions":"Shake. Charge twice."}]
)text",
       ""},
      {{"drink Keel", "prep Tea", "drink Tern"},
       R"text(Keel
45 ml gin
60 ml tea
build

prep: Tea
10 g black tea leaves
500 ml water
steep 4 min

Tern
50 ml vodka
build
)text",
       ""},
  });
}
