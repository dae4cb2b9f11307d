// Packs as suppliers write them. Common practice, no source: how wholesalers' lists in five languages look.
#include <catch2/catch.hpp>
#include <sstream>

#include "base/date.h"
#include "stock/pack_words.h"
#include "stock/price_list.h"
#include "unit/plan/plan_fixture.h"

using namespace gill;
using gill::testing::EvaluatedHouse;

namespace {

constexpr const char* bar = R"(house Weir
  currency EUR
ingredient reed gin like London dry gin
  buy 700 ml for 21 EUR
ingredient osier tonic like tonic water
)";

/// `6 x 70 cl`, or why it is none.
std::string pack(const EvaluatedHouse& house, const std::string& text) {
  auto read = stock::read_pack(text, house.house.units, base::read_csv("a,b\n1,2\n"));
  if (auto* why = std::get_if<stock::NoPack>(&read))
    return *why == stock::NoPack::not_read           ? "not read"
           : *why == stock::NoPack::contents_missing ? "contents missing"
                                                     : "several vessels";
  const auto& written = std::get<stock::WrittenPack>(read);
  std::string one = base::to_decimal(written.number, 4);
  if (written.unit.valid()) one += " " + house.house.units[written.unit].symbol;
  return written.packs == 1 ? one : base::to_decimal(written.packs, 4) + " x " + one;
}

/// What the first row of a list is read as, or what is told of it.
std::string first_row(const EvaluatedHouse& house, const std::string& csv) {
  auto list = stock::read_price_list(csv, house.house, "EUR");
  if (!list.prices.empty()) return list.prices[0].offer;
  return list.unused().empty() ? std::string("nothing") : list.unused()[0].message;
}

}  // namespace

TEST_CASE("packs are read as suppliers write them", "[stock]") {
  EvaluatedHouse house(bar);
  const std::pair<const char*, const char*> all[] = {
      {"70cl", "70 cl"},
      {"700 ml", "700 ml"},
      {"Fl. 0,75 l", "0.75 l"},
      {"1.5 Ltr", "1.5 l"},
      {"5 Kilo", "5 kg"},
      {"250 gr", "250 g"},
      {"kg", "1 kg"},
      {"per kg", "1 kg"},
      {"6x70cl", "6 x 70 cl"},
      {"6 x 70 cl", "6 x 70 cl"},
      {"6×700 ml", "6 x 700 ml"},
      {"70cl x 6", "6 x 70 cl"},
      {"12x1L", "12 x 1 l"},
      {"12X1L", "12 x 1 l"},
      {"case 12x330ml", "12 x 330 ml"},
      {"1 case 12x330ml", "12 x 330 ml"},
      {"Kiste 24 x 0,2 l", "24 x 0.2 l"},
      {"caisse de 6 x 75 cl", "6 x 75 cl"},
      {"caja 6 botellas 70 cl", "6 x 70 cl"},
      {"cartone 6 bottiglie x 1 lt", "6 x 1 l"},
      {"2 x 6 x 330 ml", "12 x 330 ml"},
      {"850 g tin", "850 g"},
      {"1/2 l", "0.5 l"},
      {"3/4 l", "0.75 l"},
      {"1 1/2 kg", "1.5 kg"},
      {"6 x 1/2 l", "6 x 0.5 l"},
      {"24/200ml", "24 x 200 ml"},
      {"bag 2.5kg", "2.5 kg"},
      {"bunch 100 g", "100 g"},
      {"20 l keg", "20 l"},
      {"100 pcs", "100"},
      {"60 Stk", "60"},
      {"60 Stück", "60"},
      {"12 pièces", "12"},
      {"3 heads", "3"},
      {"each", "1"},
      {"box 54", "54"},
      {"tray of 30", "30"},
      {"2 dozen", "24"},
      {"100", "100"},
  };
  for (auto [text, read] : all) {
    CAPTURE(text);
    CHECK(pack(house, text) == read);
  }
}

TEST_CASE("a vessel without its contents is no pack, and neither is a number without its unit", "[stock]") {
  EvaluatedHouse house(bar);
  for (const char* text : {"1 crate", "2 boxes", "1 tray", "case", "Kiste", "1 caisse", "6 bottles"}) {
    CAPTURE(text);
    CHECK(pack(house, text) == "contents missing");
  }
  CHECK(pack(house, "2 boxes 54") == "several vessels");
  for (const char* text :
       {"", "24 x 0.2", "6 x 70", "large", "75 C", "0 ml", "1 crate of something", "-3 l", "6 x", "x"}) {
    CAPTURE(text);
    CHECK(pack(house, text) == "not read");
  }
}

TEST_CASE("a price for one stands for all of the pack, and a price of the case for the case", "[stock]") {
  EvaluatedHouse house(bar);
  auto offer = [&](const std::string& csv) { return first_row(house, csv); };
  CHECK(offer("product,size,case qty,unit price\nreed gin,70cl,6,20\n") == "6 x 70 cl for 120 EUR");
  CHECK(offer("product,size,case qty,price per bottle,case price\nreed gin,70cl,6,20,115\n") ==
        "6 x 70 cl for 115 EUR");
  CHECK(offer("Artikel;Inhalt;Stückpreis\nreed gin;6 x 0,7 l;20,50\n") == "6 x 0.7 l for 123 EUR");
  CHECK(offer("Produit;Contenance;Prix TTC;Prix HT\nreed gin;70 cl;24;20\n") == "70 cl for 20 EUR");
  CHECK(offer("Prodotto;Formato;Prezzo\nreed gin;70 cl;20\n") == "70 cl for 20 EUR");
  CHECK(offer("Producto;Envase;Precio sin IVA\nreed gin;70 cl;20\n") == "70 cl for 20 EUR");
  CHECK(offer("product,size,RRP,price ex VAT\nreed gin,70cl,35,20\n") == "70 cl for 20 EUR");
  // VAT is no currency.
  CHECK(offer("product,size,price excl. VAT\nreed gin,70cl,20\n") == "70 cl for 20 EUR");
  CHECK_THAT(offer("product,size,price (incl. VAT)\nreed gin,70cl,24\n"), Catch::Contains("holds the tax"));
  CHECK_THAT(offer("product,size,price\nreed gin,70cl,99999999999999999999999999\n"),
             Catch::Contains("more than any price"));
  // Bottles are counted; the house knows what one holds, or asks.
  CHECK(offer("product,size,price\nreed gin,6 pcs,120\n") == "6 x 700 ml for 120 EUR");
  CHECK_THAT(offer("product,size,price\nosier tonic,24,14\n"), Catch::Contains("how much one holds"));
  CHECK_THAT(offer("product,size,price\nreed gin,1 crate,120\n"),
             Catch::Contains("does not say how much it holds"));
}

TEST_CASE("a price is of the pack, of each piece in it, or of a kilo or a litre of it, as its title says",
          "[stock]") {
  EvaluatedHouse house(bar);
  auto offer = [&](const std::string& csv) { return first_row(house, csv); };
  // 54 limes at 0.25: 13.50; 60 at 0.35: 21.
  CHECK(offer("Item,Pack,Unit price\nlime,54,0.25\n") == "54 for 13.50 EUR");
  CHECK(offer("Item,Pack,Price each\norange,60 Stk,0.35\n") == "60 for 21 EUR");
  CHECK(offer("Item,Pack,Unit price\nreed gin,6 x 70 cl,13.60\n") == "6 x 70 cl for 81.60 EUR");
  CHECK(offer("Item,Pack,Unit price,Case price\nreed gin,6 x 70 cl,15.00,\n") == "6 x 70 cl for 90 EUR");
  // 2 kg at 4.50; 100 g at 18; 4.2 l at 19.43.
  CHECK(offer("Item,Pack,Price per kg\nginger,2 kg,4.50\n") == "2 kg for 9 EUR");
  CHECK(offer("Item,Pack,Price per kg\nmint,bunch 100 g,18.00\n") == "100 g for 1.80 EUR");
  CHECK(offer("Item,Pack,Price per litre\nreed gin,6 x 70 cl,19.43\n") == "6 x 70 cl for 81.606 EUR");
  CHECK_THAT(offer("Item,Pack,Price per kg\nlemon,80,2.90\n"), Catch::Contains("price by the kilo"));
  // The unit in a column beside its number; the bottles of a case in another.
  CHECK(offer("Item,Size,Unit,Price\nwhite sugar,5,kg,6.50\n") == "5 kg for 6.50 EUR");
  CHECK(offer("Artikel;Menge;Einheit;Preis\nsalt;750;g;1\n") == "750 g for 1 EUR");
  CHECK(offer("Description,Case,Bottle size,Price\nreed gin,6,70cl,81.6\n") == "6 x 70 cl for 81.60 EUR");
  CHECK(offer("Item,Qty,Size,Unit,Price\nreed gin,6,70,cl,81.60\n") == "6 x 70 cl for 81.60 EUR");
  CHECK(offer("Item,Unit,Price\nwhite sugar,kg,1.30\n") == "1 kg for 1.30 EUR");
  // Egg whites are poured, and bought by the piece.
  CHECK(offer("Item,Pack,Price\negg white,12,2.40\n") == "12 for 2.40 EUR");
  CHECK(offer("Item,Pack,Price\nlemon,80 count,24\n") == "80 for 24 EUR");
}

TEST_CASE("a price says in its own cell what it is of, and a case says how many are in it", "[stock]") {
  EvaluatedHouse house(bar);
  auto offer = [&](const std::string& row) { return first_row(house, "Item;Pack;Price\n" + row + "\n"); };
  CHECK(offer("reed gin;6 x 70cl;34,00 each") == "6 x 70 cl for 204 EUR");
  CHECK(offer("reed gin;70cl;19,00 EUR per bottle") == "70 cl for 19 EUR");
  CHECK(offer("reed gin;6 x 70cl;19,00/Fl.") == "6 x 70 cl for 114 EUR");
  CHECK(offer("honey;5 kg;9,60/kg") == "5 kg for 48 EUR");
  CHECK(offer("reed gin;2 l;12 par litre") == "2 l for 24 EUR");
  CHECK(offer("lime;54;0,25 je Stück") == "54 for 13.50 EUR");
  CHECK(offer("reed gin;6 x 70cl;96 per case") == "6 x 70 cl for 96 EUR");
  CHECK_THAT(offer("reed gin;70cl;96 per case"), Catch::Contains("does not say how many are in it"));
  CHECK_THAT(first_row(house, "Item,Format,Price per case\nreed gin,70cl,96\n"),
             Catch::Contains("write it as 6 x 70 cl"));
  CHECK(first_row(house, "Item,Format,Price per case\nreed gin,1 keg 30 l,96\n") == "30 l for 96 EUR");
  CHECK_THAT(offer("reed gin;70cl;19,00 per sail"), Catch::Contains("is no price"));
}

TEST_CASE("an ounce, a pint and a quart of a label say whose they are", "[stock]") {
  EvaluatedHouse house(bar);
  auto offer = [](const EvaluatedHouse& of, const std::string& size) {
    return first_row(of, "Item,Pack,Price\nosier tonic," + size + ",28\n");
  };
  for (const char* size : {"24 x 6.8 fl oz", "24 x 6.8 oz"})
    CHECK_THAT(offer(house, size), Catch::Contains("Write `us oz` (29.57 ml), `imp oz` (28.41 ml)"));
  CHECK_THAT(offer(house, "1 pint"), Catch::Contains("Write `us pint` (473.2 ml) or `imp pint` (568.3 ml)"));
  CHECK(offer(house, "24 x 6.8 us fl oz") == "24 x 6.8 us oz for 28 EUR");
  CHECK(offer(house, "24 x 6.8 imp oz") == "24 x 6.8 imp oz for 28 EUR");
  CHECK(offer(house, "2 imp pints") == "2 imp pint for 28 EUR");
  EvaluatedHouse american(
      "house Weir\n  currency EUR\n  ounce us oz\ningredient osier tonic like tonic water\n");
  CHECK(offer(american, "24 x 6.8 fl oz") == "24 x 6.8 oz for 28 EUR");
}

TEST_CASE("headings of groups, sums and titles between the goods are no goods", "[stock]") {
  EvaluatedHouse house(bar);
  auto list = stock::read_price_list(
      "Artikelnr.;Bezeichnung;Gebinde;Preis netto\n;SPIRITS;;\n1001;reed gin;70 cl;20\n"
      "Artikelnr.;Bezeichnung;Gebinde;Preis netto\nWINES;;;\n;Total;;195,30\n1002;Weir White;75 cl;8\n",
      house.house, "EUR");
  REQUIRE(list.prices.size() == 1);
  CHECK(list.prices[0].offer == "70 cl for 20 EUR, code \"1001\"");
  REQUIRE(list.new_goods.size() == 1);
  CHECK(list.new_goods[0].name == "Weir White");
  std::vector<std::string> told;
  for (const auto& row : list.problems) told.push_back(std::to_string(row.line) + ": " + row.message);
  CHECK(told ==
        std::vector<std::string>{"2: `SPIRITS` stands alone in its row, without pack and price: a heading.",
                                 "4: The titles stand here once more.",
                                 "5: `WINES` stands alone in its row, without pack and price: a heading.",
                                 "6: `Total` is a sum and no good."});
}

TEST_CASE("a price that holds the tax, or may, or is no number is told with what to write", "[stock]") {
  EvaluatedHouse house(bar);
  auto offer = [&](const std::string& price) {
    return first_row(house, "Item;Pack;Price\nreed gin;70 cl;" + price + "\n");
  };
  CHECK(offer("24.00 GBP + VAT") == "70 cl for 24 GBP");
  CHECK(offer("24.00 excl. VAT") == "70 cl for 24 EUR");
  CHECK(offer("24.00 zzgl. MwSt") == "70 cl for 24 EUR");
  CHECK(offer("24.-") == "70 cl for 24 EUR");
  CHECK_THAT(offer("21.00 incl. VAT"), Catch::Contains("holds the tax") && Catch::Contains("without tax"));
  CHECK_THAT(offer("13.50 VAT"), Catch::Contains("does not say whether the tax is in it"));
  CHECK_THAT(offer("0.8.0"), Catch::Contains("is no price") && Catch::Contains("13.50"));
  CHECK_THAT(offer("1.2.3"), Catch::Contains("is no price"));
  CHECK_THAT(offer("0"), Catch::Contains("costs nothing here"));
  CHECK_THAT(offer(""), Catch::Contains("has no price in this row"));
  auto empty = stock::read_price_list("Item,Pack,Price\n", house.house, "EUR");
  REQUIRE(empty.unused().size() == 1);
  CHECK_THAT(empty.unused()[0].message, Catch::Contains("no row"));
}

TEST_CASE("goods that the house does not know come out as declarations to complete", "[stock]") {
  EvaluatedHouse house(bar);
  auto list = stock::read_price_list(
      "product,size,price,code\nreed gin,70cl,20,\nsedge gin,6 x 70cl,118,Q-7\nsedge cups,1 crate,9,\n",
      house.house, "EUR");
  auto text = stock::price_list_text(list, house.house, "April", std::chrono::year(2026) / 4 / 1);
  INFO(text);
  CHECK_THAT(text, Catch::Contains("# ingredient sedge gin like ") &&
                       Catch::Contains("\n#   allergen …\n#   buy 6 x 70 cl for 118 EUR, code Q-7\n"));
  // What is read of the rest is kept, and so are the row's own words.
  CHECK_THAT(text, Catch::Contains("# ingredient sedge cups like …\n#   allergen …\n#   buy … for 9 EUR\n") &&
                       Catch::Contains("  #   sedge cups | 1 crate | 9 |"));
  // With the # taken away what is whole is Gill.
  text.erase(text.find("# ingredient sedge cups"));
  auto begins = text.find("# ingredient");
  std::string declared;
  std::istringstream lines(text.substr(begins));
  for (std::string line; std::getline(lines, line);) declared += line.substr(2) + "\n";
  // Nobody but the label says what it holds: until somebody has read it, it is an error.
  EvaluatedHouse unsaid(std::string(bar) + declared);
  CHECK(std::any_of(unsaid.compiled.sink.all().begin(), unsaid.compiled.sink.all().end(),
                    [](const auto& finding) {
                      return finding.severity == diagnostics::Severity::error &&
                             finding.message.find("still to be said") != std::string::npos;
                    }));
  declared.replace(declared.find("…"), std::string_view("…").size(), "none");
  EvaluatedHouse with(std::string(bar) + declared);
  for (const auto& finding : with.compiled.sink.all()) {
    UNSCOPED_INFO(finding.message);
    CHECK(finding.severity != diagnostics::Severity::error);
  }
  CHECK(with.stock("sedge gin").valid());
}

TEST_CASE("a good is proposed like what shares its words, never like what is only spelt alike", "[stock]") {
  EvaluatedHouse house(bar);
  auto list = stock::read_price_list(
      "Item;Pack;Price\npannacotta;1 kg;5\nlaitance;1 l;1\nWeir dry gin;70 cl;20\nnoisetiers;1 kg;3\n",
      house.house, "EUR");
  std::vector<std::string> relations;
  for (const auto& good : list.new_goods) relations.push_back(good.relation);
  CHECK(relations == std::vector<std::string>{"", "", "London dry gin", ""});
}

TEST_CASE("goods in German, French, Spanish and Italian are the library's, with their allergens", "[stock]") {
  EvaluatedHouse house(bar);
  auto named = [&](const std::string& name) {
    auto list = stock::read_price_list("Item;Pack;Price\n" + name + ";1 kg;5\n", house.house, "EUR");
    return list.prices.empty() ? std::string() : house.house.specs[list.prices[0].stock].head.name;
  };
  for (auto [written, meant] :
       {std::pair("panna", "heavy cream"), std::pair("lait", "whole milk"), std::pair("Eier", "whole egg"),
        std::pair("uova", "whole egg"), std::pair("noisettes", "hazelnut"), std::pair("crème", "heavy cream"),
        std::pair("nata", "heavy cream"), std::pair("Mandeln", "almond"), std::pair("limone", "lemon"),
        std::pair("zucchero bianco", "white sugar"), std::pair("arachidi", "peanut")}) {
    CAPTURE(written);
    CHECK(house.house.names.find(symbols::NameSpace::stock, meant) ==
          house.house.names.find(symbols::NameSpace::stock, named(written)));
  }
}

TEST_CASE("a title that speaks of a price says what the price is of, or is asked about", "[stock]") {
  EvaluatedHouse house(bar);
  auto offer = [&](const std::string& title) {
    return first_row(house, "Item;Pack;" + title + "\nreed gin;6 x 70 cl;20\n");
  };
  for (const char* title :
       {"Price/pc", "Price ea", "Price per item", "Price per btl", "Cost/btl", "Single price", "Price per 1",
        "Prezzo/pz", "Prezzo al pezzo", "Prezzo cad.", "Prix/pce", "Prix à la pièce", "Prix l'unité",
        "Preis/Stk", "Precio ud.", "P.U.", "P.U. HT", "Preis pro Flasche", "Price (each)"}) {
    CAPTURE(title);
    CHECK(offer(title) == "6 x 70 cl for 120 EUR");
  }
  for (const char* title : {"Price", "Price (EUR)", "Price excl. 20 % VAT", "Netto", "Your price",
                            "Pack price", "Price 2026", "Einkaufspreis netto", "Preis/Karton"}) {
    CAPTURE(title);
    CHECK(offer(title) == "6 x 70 cl for 20 EUR");
  }
  CHECK(offer("Price CAD") == "6 x 70 cl for 20 CAD");
  for (const char* title : {"Price per 100g", "Price/100", "Price per 1000", "Price code", "Price group"}) {
    CAPTURE(title);
    CHECK_THAT(offer(title), Catch::Contains("is not clear. Title it `Price`"));
  }
  // Beside a plain title, one with other words counts for nothing.
  auto row = [&](const std::string& titles, const std::string& cells) {
    return first_row(house, "Item;Pack;" + titles + "\nreed gin;70 cl;" + cells + "\n");
  };
  for (const char* other :
       {"Price group", "Price date", "Last price", "Promo price", "Prix public", "Old price", "RRP"}) {
    CAPTURE(other);
    CHECK(row(std::string(other) + ";Price", "28;18") == "70 cl for 18 EUR");
  }
  CHECK(row("Price/pc;Price", "1;18") == "70 cl for 18 EUR");
  CHECK_THAT(row("Price 2025;Price 2026", "17;18"), Catch::Contains("nothing says which one counts"));
}

TEST_CASE("columns that change a price are read or asked about", "[stock]") {
  EvaluatedHouse house(bar);
  auto row = [&](const std::string& titles, const std::string& cells) {
    return first_row(house, "Item;" + titles + "\nreed gin;" + cells + "\n");
  };
  CHECK(row("Pack;Price;Price unit", "6x70cl;20,00;per bottle") == "6 x 70 cl for 120 EUR");
  CHECK(row("Pack;Price;per", "6x70cl;20,00;bottle") == "6 x 70 cl for 120 EUR");
  CHECK(row("Pack;Price;per", "6x70cl;20,00;case") == "6 x 70 cl for 20 EUR");
  CHECK_THAT(row("Pack;UOM;Price", "6x70cl;BTL;20"),
             Catch::Contains("for one (`BTL`), or for all of `6x70cl`?"));
  CHECK(row("Pack;UOM;Price", "70cl;BTL;20") == "70 cl for 20 EUR");
  CHECK_THAT(row("Pack;Price;Discount", "70cl;20;10%"),
             Catch::Contains("`10%` below `Discount` stands beside the price"));
  CHECK(row("Pack;Price;Discount", "70cl;20;0 %") == "70 cl for 20 EUR");
  CHECK_THAT(row("Pack;Price", "70cl;(34.00)"), Catch::Contains("below nothing"));
  CHECK(row("Pack;Packs per layer;Price", "70cl;12;18") == "70 cl for 18 EUR");
  CHECK(row("Pack;Price;Valid from", "70cl;18;01.12.2026") == "70 cl for 18 EUR");
  CHECK(row("Pack;Price;From", "70cl;18;Quay Supply") == "70 cl for 18 EUR from Quay Supply");
  CHECK(row("Volume (ml);Price", "700;18") == "700 ml for 18 EUR");
  CHECK(row("Size cl;Case;Price", "70;6;108") == "6 x 70 cl for 108 EUR");
  CHECK(row("Case size;Unit size;Case cost", "1;70cl;19.90") == "70 cl for 19.90 EUR");
}

TEST_CASE("per cents beside a price are a tax, a strength, or asked about", "[stock]") {
  EvaluatedHouse house(bar);
  auto row = [&](const std::string& title) {
    return first_row(house, "Item;Pack;Price;" + title + "\nreed gin;70cl;20;10\n");
  };
  for (const char* title :
       {"Discount", "Dto.", "Dto. %", "% dto", "Desc. %", "Rem. %", "Nachlass", "Rabatt %"})
    CHECK_THAT(row(title),
               Catch::Contains("`10` below `" + std::string(title) + "` stands beside the price"));
  for (const char* title : {"% Marge", "Sc. %", "Promo %"})
    CHECK_THAT(row(title),
               Catch::Contains("nothing says what `" + std::string(title) + "` takes off or adds"));
  for (const char* title : {"IVA %", "MwSt. (%)", "% VAT", "% vol", "ABV %", "Alk. %"})
    CHECK(row(title) == "70 cl for 20 EUR");
}

TEST_CASE("a unit of what is sold by weight is the box or the kilogram: it is asked which", "[stock]") {
  EvaluatedHouse house(bar);
  auto row = [&](const std::string& title, const std::string& cells) {
    return first_row(house, "Item;Pack;" + title + "\nlime;" + cells + "\n");
  };
  for (const char* pack : {"caja 15 kg", "5 kg", "bag 25 kg", "Sack 25 kg"})
    CHECK_THAT(row("Precio unitario", std::string(pack) + ";1,40"),
               Catch::Contains("or for a kilogram? Title the price `Price`"));
  CHECK(row("Precio unitario", "500 g;1,40") == "500 g for 1.40 EUR");
  CHECK(row("Unit price", "6 x 2 kg;1,40") == "6 x 2 kg for 8.40 EUR");
  CHECK(row("Price", "caja 15 kg;21,00") == "15 kg for 21 EUR");
  CHECK(row("Price per kg", "caja 15 kg;1,40") == "15 kg for 21 EUR");
}

TEST_CASE("a unit beside a pack of more than one of it is asked about", "[stock]") {
  EvaluatedHouse house(bar);
  for (const char* title : {"Unit", "UOM", "Einheit", "Unidad"}) {
    auto row = [&](const std::string& cells) {
      return first_row(house, "Item;Pack;Price;" + std::string(title) + "\nlime;" + cells + "\n");
    };
    CHECK_THAT(row("5 kg;9,20;kg"), Catch::Contains("for one kg, or for all of `5 kg`?"));
    CHECK(row("1 kg;9,20;kg") == "1 kg for 9.20 EUR");
    CHECK(row("5;9,20;kg") == "5 kg for 9.20 EUR");
  }
}

TEST_CASE("what stands above or below a list is heeded", "[stock]") {
  EvaluatedHouse house(bar);
  auto list = [&](const std::string& above, const std::string& below = {}) {
    return stock::read_price_list(
        "Quay Drinks\n" + above + "Item,Pack,Price\nreed gin,6 x 70 cl,120\n" + below, house.house, "EUR");
  };
  for (const char* words : {"All prices include VAT", "Alle Preise inkl. 19% MwSt", "Tarifs TTC",
                            "Precios con IVA incluido", "Prezzi IVA inclusa", "Bruttopreise inkl. USt"}) {
    INFO(words);
    CHECK(list(std::string(words) + "\n").prices.empty());
    CHECK(list("", std::string(words) + "\n").prices.empty());
  }
  for (const char* words : {"All prices exclude VAT", "Alle Preise zzgl. MwSt", "Tarifs HT",
                            "Precios sin IVA", "Prices valid from 1 March", "Tax number 123"}) {
    INFO(words);
    CHECK(list(std::string(words) + "\n").prices.size() == 1);
  }
  CHECK(list("Prices per bottle\n").prices.empty());
  auto in_dollars = list("All prices in USD\n");
  REQUIRE(in_dollars.prices.size() == 1);
  CHECK(in_dollars.prices[0].offer == "6 x 70 cl for 120 USD");
}

TEST_CASE("a second price for the same pack in one list is told", "[stock]") {
  EvaluatedHouse house(bar);
  auto list = [&](const std::string& rows) {
    return stock::read_price_list("Artikel;Gebinde;Preis;Code;Gültig ab\n" + rows, house.house, "EUR");
  };
  auto twice = list("reed gin;1 l;20;;01.01.2026\nreed gin;1 l;22;;01.11.2026\n");
  CHECK(twice.prices.size() == 1);
  REQUIRE(twice.problems.size() == 1);
  CHECK_THAT(twice.problems[0].message, Catch::Contains("has another price in row 2"));
  CHECK(list("reed gin;1 l;20;A;\nreed gin;1 l;22;B;\n").problems.empty());
  CHECK(list("reed gin;1 l;20;;\nreed gin;70 cl;16;;\n").problems.empty());
}

TEST_CASE("titles are known without their accents and in capitals, packs in five languages", "[stock]") {
  EvaluatedHouse house(bar);
  for (const char* titles : {"DESIGNATION;CONDITIONNEMENT;PRIX HT", "Artikelbezeichnung;Größe;EK netto €",
                             "Articulo;Tamaño;Precio", "ARTÍCULO;TAMANO;PRECIO NETO",
                             "Denominazione;Capacita;Prezzo", "Denominación;Formato;Coste"}) {
    INFO(titles);
    auto offer = first_row(house, std::string(titles) + "\nreed gin;70 cl;18,00\n");
    CHECK_THAT(offer, Catch::StartsWith("70 cl for 18 EUR"));
  }
  for (const char* pack : {"bag-in-box 10 l", "Kanister 10 l", "tanica 10 l", "FÛT 10 L"}) {
    INFO(pack);
    CHECK(first_row(house, std::string("Item;Pack;Price\nreed gin;") + pack + ";80\n") == "10 l for 80 EUR");
  }
}

TEST_CASE("a price of one beside a pack of many is the price of all of them", "[stock]") {
  EvaluatedHouse house(bar);
  const std::string titles = "Item,Pack,Price\n";
  CHECK(first_row(house, titles + "reed gin,6 x 70cl (per bottle),23.60\n") == "6 x 70 cl for 141.60 EUR");
  CHECK(first_row(house, titles + "reed gin,6 x 70cl je Flasche,23.60\n") == "6 x 70 cl for 141.60 EUR");
  CHECK(first_row(house, titles + "lime,54 (price each),0.25\n") == "54 for 13.50 EUR");
  CHECK(first_row(house, titles + "reed gin,per case of 6 x 70 cl,60\n") == "6 x 70 cl for 60 EUR");
  CHECK(first_row(house, titles + "reed gin,70 cl per bottle,12\n") == "70 cl for 12 EUR");
}

TEST_CASE("a letterhead is no title, and a row that is left out keeps its words", "[stock]") {
  EvaluatedHouse house(bar);
  auto list = stock::read_price_list(
      "Quay Drinks Ltd,,\nPrice list spring\nItem,Pack,Price\nreed gin,70 cl,12\nreed gin,1 l,15,extra\n",
      house.house, "EUR");
  REQUIRE(list.prices.size() == 1);
  REQUIRE(list.problems.size() == 1);
  auto text = stock::price_list_text(list, house.house, "Quay", *base::read_iso_date("2026-03-01"));
  CHECK(text.find("  # Quay Drinks Ltd\n") != std::string::npos);
  CHECK(text.find("reed gin | 1 l | 15 | extra") != std::string::npos);
}

TEST_CASE("a column about the tax is heeded row by row", "[stock]") {
  EvaluatedHouse house(bar);
  auto row = [&](const std::string& title, const std::string& cell) {
    return first_row(house, "Item;Pack;Price;" + title + "\nreed gin;70 cl;20;" + cell + "\n");
  };
  const std::pair<const char*, const char*> with_tax[] = {
      {"VAT", "incl."},      {"VAT", "inc"},          {"VAT", "included"},    {"VAT", "inclusive"},
      {"MwSt.", "inkl."},    {"IVA", "inclusa"},      {"IVA", "22% incl."},   {"TVA", "TTC"},
      {"MwSt. inkl.", "ja"}, {"Price type", "gross"}, {"Steuer", "brutto"},   {"Tax included", "yes"},
      {"IVA", "con IVA"},    {"excl. VAT", "no"},     {"MwSt. inkl.", "19 %"}};
  for (const auto& [title, cell] : with_tax) {
    CAPTURE(title, cell);
    CHECK_THAT(row(title, cell), Catch::Contains("holds the tax") && Catch::Contains(cell));
  }
  const std::pair<const char*, const char*> without_tax[] = {
      {"VAT", "excl."}, {"VAT", "20%"},   {"VAT", "20"},         {"TVA", "HT"},      {"MwSt. inkl.", "nein"},
      {"VAT", ""},      {"IVA", "+ IVA"}, {"Price type", "net"}, {"Organic", "yes"}, {"VAT code", "A"}};
  for (const auto& [title, cell] : without_tax) {
    CAPTURE(title, cell);
    CHECK(row(title, cell) == "70 cl for 20 EUR");
  }
  CHECK_THAT(row("VAT", "yes"), Catch::Contains("does not say whether the tax is in"));
  auto both = stock::read_price_list("Produit;Format;Prix;TVA\nreed gin;70 cl;24;TTC\nlime;54;9;HT\n",
                                     house.house, "EUR");
  REQUIRE(both.prices.size() == 1);
  CHECK(both.prices[0].offer == "54 for 9 EUR");
  CHECK(both.problems.size() == 1);
}

TEST_CASE("what a price is of stands beside it, and a row that is not understood is told alone", "[stock]") {
  EvaluatedHouse house(bar);
  auto row = [&](const std::string& good, const std::string& pack, const std::string& price,
                 const std::string& per) {
    return first_row(house, "Item;Pack;Price;Per\n" + good + ";" + pack + ";" + price + ";" + per + "\n");
  };
  // 5 kg of 100 g at 0.82 are 50 of them; a pound is 453.59237 g (NIST Handbook 44, Appendix C).
  CHECK(row("honey", "5 kg", "0,82", "100 g") == "5 kg for 41 EUR");
  CHECK(row("honey", "5 kg", "8,20", "1 kg") == "5 kg for 41 EUR");
  CHECK(row("honey", "907,18474 g", "4", "lb") == "907.18474 g for 8 EUR");
  CHECK(row("milk", "12 x 1 l", "1,10", "litre") == "12 x 1 l for 13.20 EUR");
  CHECK(row("reed gin", "6 x 70 cl", "2", "10 cl") == "6 x 70 cl for 84 EUR");
  CHECK(row("lemon", "100", "2,80", "10") == "100 for 28 EUR");
  CHECK(row("lemon", "100", "0,28", "1") == "100 for 28 EUR");
  CHECK(row("lemon", "60", "3", "dozen") == "60 for 15 EUR");
  CHECK(row("lemon", "60", "0,25", "ea") == "60 for 15 EUR");
  CHECK(row("reed gin", "6 x 70 cl", "16", "bottle") == "6 x 70 cl for 96 EUR");
  CHECK(row("reed gin", "6 x 70 cl", "96", "case") == "6 x 70 cl for 96 EUR");
  CHECK(row("reed gin", "70 cl", "16", "1") == "70 cl for 16 EUR");
  CHECK_THAT(row("reed gin", "6 x 70 cl", "16", "1"), Catch::Contains("is a price by `1`"));
  CHECK_THAT(row("honey", "5 kg", "8", "litre"), Catch::Contains("price by the litre"));
  CHECK_THAT(row("honey", "5 kg", "8", "hogshead"),
             Catch::Contains("`hogshead` below `Per` is not understood") && Catch::Contains("100 g"));
  auto list = stock::read_price_list(
      "Item;Pack;Price;Per\nmilk;12 x 1 l;1,10;litre\nhoney;5 kg;0,82;hogshead\nlemon;60;3;dozen\n",
      house.house, "EUR");
  REQUIRE(list.prices.size() == 2);
  CHECK(list.prices[0].offer == "12 x 1 l for 13.20 EUR");
  CHECK(list.prices[1].offer == "60 for 15 EUR");
  for (const char* unit : {"per kg", "/kg", "pro kg", "al kg", "le kg"}) {
    CAPTURE(unit);
    CHECK(first_row(house, "Item,Pack,Price,Unit\nhoney,5 kg,9.20," + std::string(unit) + "\n") ==
          "5 kg for 46 EUR");
  }
  // So many of an order, beside a price; prices below the same title.
  CHECK(first_row(house, "Item;Pack;Price;Price unit\nlemon;200;28;100\n") == "200 for 56 EUR");
  CHECK(first_row(house, "Item;Pack;Price unit\nlemon;200;0,28\n") == "200 for 56 EUR");
}

TEST_CASE("a title of money says what it is of, and the trade's short words for one are known", "[stock]") {
  EvaluatedHouse house(bar);
  auto honey = [&](const std::string& title) {
    return first_row(house, "Product;Pack;" + title + "\nhoney;5 kg;8.20\n");
  };
  for (const char* title : {"EUR/kg", "€/kg", "€ / kg", "€ per kg", "Euro/kg", "per kg", "je kg", "€ HT/kg",
                            "EUR pro Kilo", "Prix/kg"}) {
    CAPTURE(title);
    CHECK(honey(title) == "5 kg for 41 EUR");
  }
  CHECK(honey("£ per kg") == "5 kg for 41 GBP");
  CHECK(honey("CHF/kg") == "5 kg for 41 CHF");
  auto gin = [&](const std::string& title) {
    return first_row(house, "Product;Pack;" + title + "\nreed gin;6 x 70 cl;16\n");
  };
  for (const char* title :
       {"€/Stk", "€/bt", "€/btl", "€/pz", "€/bottiglia", "EUR per bottle", "Prezzo un.", "Prezzo/un",
        "Prix un.", "Prix u.", "Prix/u", "Prix U HT", "Prix UVC", "Prix / UVC", "Price per UOM"}) {
    CAPTURE(title);
    CHECK(gin(title) == "6 x 70 cl for 96 EUR");
  }
  for (const char* title : {"€", "EUR", "Case EUR", "Price in euro"}) {
    CAPTURE(title);
    CHECK(gin(title) == "6 x 70 cl for 16 EUR");
  }
  CHECK(gin("Price in Swiss francs") == "6 x 70 cl for 16 CHF");
  CHECK_THAT(gin("Price ($)"), Catch::Contains("several countries"));
  CHECK_THAT(gin("Price in dollars"), Catch::Contains("several countries"));
  CHECK_THAT(honey("Price per pound"), Catch::Contains("is not clear. Title it"));
  CHECK_THAT(honey("€ per Eimerchen"), Catch::Contains("is not clear. Title it `Price`"));
  CHECK_THAT(honey("Amount"), Catch::Contains("`Price per kg`") && Catch::Contains("`Unit price`"));
  CHECK_THAT(first_row(house, "Item;Pack;Price\nreed gin;70 cl;16 UVC\n"), Catch::Contains("is no price"));
  CHECK(first_row(house, "VAT €;Item;Pack;Price\n2;reed gin;70 cl;16\n") == "70 cl for 16 EUR");
}

TEST_CASE("a change of all prices, or their money in words, is heeded above and below a list", "[stock]") {
  EvaluatedHouse house(bar);
  auto list = [&](const std::string& above, const std::string& below = {}) {
    return stock::read_price_list(
        "Quay Drinks\n" + above + "Item,Pack,Price\nreed gin,6 x 70 cl,120\n" + below, house.house, "EUR");
  };
  for (const char* words :
       {"All prices less 10% until Christmas", "Sconto 10% su tutti i prezzi",
        "Remise 10 % sur tous les prix", "Less 5% trade discount on all lines",
        "All prices subject to 10% discount", "Discount: 10 percent", "10% Rabatt auf alle Artikel",
        "Descuento del 10 % en todos los precios", "All prices plus 3% surcharge", "Alle Preise abzgl. 5 %",
        "Prices in cents", "Prices in dollars", "Prezzi in corone"}) {
    CAPTURE(words);
    CHECK(list(std::string(words) + "\n").prices.empty());
    auto below = list("", std::string(words) + "\n");
    CHECK(below.prices.empty());
    REQUIRE(below.problems.size() == 1);
    CHECK_THAT(below.problems[0].message, Catch::Contains(words));
  }
  const std::pair<const char*, const char*> money[] = {
      {"Prices in pounds sterling", "GBP"}, {"Preise in Schweizer Franken", "CHF"},
      {"Prix en francs suisses", "CHF"},    {"ALL PRICES IN GBP", "GBP"},
      {"Prezzi in sterline", "GBP"},        {"Prices in euro", "EUR"},
      {"Currency: Swiss francs", "CHF"}};
  for (const auto& [words, code] : money) {
    CAPTURE(words);
    auto read = list(std::string(words) + "\n");
    REQUIRE(read.prices.size() == 1);
    CHECK(read.prices[0].offer == "6 x 70 cl for 120 " + std::string(code));
  }
  for (const char* words : {"2 % Skonto bei Zahlung innerhalb 10 Tagen", "5% discount on orders over 500 EUR",
                            "Discount already deducted", "Preise ohne Rabatt", "Minus Three Spirits",
                            "Prices plus 20% VAT", "Tel. +39 045 000"}) {
    CAPTURE(words);
    CHECK(list(std::string(words) + "\n").prices.size() == 1);
  }
}

TEST_CASE("a column of sizes and one of packs are read together", "[stock]") {
  EvaluatedHouse house(bar);
  auto offer = [&](const std::string& titles, const std::string& cells) {
    return first_row(house, titles + "\nLondon dry gin;" + cells + "\n");
  };
  for (const char* titles : {"Description;Size;Pack;Price", "Désignation;Contenance;Conditionnement;Prix",
                             "Descrizione;Formato;Confezione;Prezzo", "Artikel;Inhalt;Gebinde;Preis",
                             "Producto;Tamaño;Envase;Precio", "Description;Volume;Pack;Price"}) {
    INFO(titles);
    CHECK(offer(titles, "100 cl;6;96") == "6 x 100 cl for 96 EUR");
    CHECK(offer(titles, "100 cl;6 x 100 cl;96") == "6 x 100 cl for 96 EUR");
    CHECK(offer(titles, "100 cl;carton de 6;96") == "6 x 100 cl for 96 EUR");
    CHECK(offer(titles, "100 cl;;16") == "100 cl for 16 EUR");
    CHECK(offer(titles, "100 cl;bottle;16") == "100 cl for 16 EUR");
  }
  CHECK(offer("Description;Pack;Size;Price", "6;100 cl;96") == "6 x 100 cl for 96 EUR");
  CHECK(offer("Description;Size;Pack;Unit price", "100 cl;6;16") == "6 x 100 cl for 96 EUR");
  CHECK(offer("Description;Size;Pack;Price", "100 cl;case;96").find("does not say how many") !=
        std::string::npos);
  CHECK(offer("Description;Size;Pack;Price", "70 cl;6 x 100 cl;96").find("are two packs") !=
        std::string::npos);
}

TEST_CASE("a price of one is asked about where the list says that it is sold by more", "[stock]") {
  EvaluatedHouse house(bar);
  for (const char* titles : {"Libellé;Unité de vente;PU HT", "Artikel;Verkaufseinheit;Einzelpreis",
                             "Product;Unit of sale;Unit price"}) {
    INFO(titles);
    auto row = [&](const std::string& cells) { return first_row(house, titles + ("\n" + cells + "\n")); };
    CHECK_THAT(row("lime;54;16,20"),
               Catch::Contains("for one, or for all of `54`? Title the price `Case price`"));
    CHECK_THAT(row("reed gin;6 x 70 cl;108,00"), Catch::Contains("or for all of `6 x 70 cl`?"));
    CHECK(row("reed gin;70 cl;18,00") == "70 cl for 18 EUR");
  }
  CHECK(first_row(house, "Libellé;Unité de vente;Case price HT\nlime;54;16,20\n") == "54 for 16.20 EUR");
  CHECK(first_row(house, "Libellé;Unité de vente;PU HT;Per\nlime;54;0,30;piece\n") == "54 for 16.20 EUR");
  // 2 x 96 = 192: the price is of what was bought, bottles or cases.
  for (const char* titles :
       {"Qté;Désignation;Conditionnement;PU HT;Montant HT", "Menge;Artikel;Gebinde;Einzelpreis;Gesamt",
        "Qty;Description;Pack;Unit price;Line total"}) {
    INFO(titles);
    auto row = [&](const std::string& cells) { return first_row(house, titles + ("\n" + cells + "\n")); };
    CHECK_THAT(row("2;reed gin;6 x 1 l;96;192"), Catch::Contains("or for all of `6 x 1 l`?"));
    CHECK(row("2;reed gin;6 x 1 l;16;192") == "6 x 1 l for 96 EUR");
    CHECK(row("2;reed gin;1 l;16;32") == "1 l for 16 EUR");
  }
}

TEST_CASE("how many packs come together is read in whatever way it is written", "[stock]") {
  EvaluatedHouse house(bar);
  auto row = [&](const std::string& count) {
    return first_row(house, "Item;Size;Case size;Price\nreed gin;70 cl;" + count + ";120\n");
  };
  for (const char* six : {"6", "x6", "x 6", "6 btl", "carton de 6", "1/2 dozen"}) {
    INFO(six);
    CHECK(row(six) == "6 x 70 cl for 120 EUR");
  }
  CHECK(row("1 dozen") == "12 x 70 cl for 120 EUR");
  CHECK(row("2 doz") == "24 x 70 cl for 120 EUR");
  CHECK_THAT(row("several"), Catch::Contains("`several` below `Case size` does not say how many packs"));
}

TEST_CASE("a deposit in a price is no tax", "[stock]") {
  EvaluatedHouse house(bar);
  auto row = [&](const std::string& price) {
    return first_row(house, "Artikel;Gebinde;Preis\nreed gin;6 x 70 cl;" + price + "\n");
  };
  for (const char* price : {"98,40 inkl. Pfand", "98,40 incl. deposit", "98,40 consigne comprise"})
    CHECK_THAT(row(price), Catch::Contains("holds the deposit"));
  CHECK(row("98,40 zzgl. Pfand") == "6 x 70 cl for 98.40 EUR");
  CHECK_THAT(row("98,40 inkl. MwSt"), Catch::Contains("holds the tax"));
}

TEST_CASE("what stands beside a price and changes it is told, by its own title", "[stock]") {
  EvaluatedHouse house(bar);
  for (const char* title : {"Surcharge", "Zuschlag", "Supplément", "Discount"})
    CHECK_THAT(first_row(house, std::string("Item;Pack;Price;") + title + "\nreed gin;70 cl;20;1,50\n"),
               Catch::Contains("`1,50` below `" + std::string(title) + "` stands beside the price"));
  // What nobody knows keeps its pack.
  auto list = stock::read_price_list("Item;Pack;Price;Discount\nHeron cordial;6 x 70 cl;20;1,50\n",
                                     house.house, "EUR");
  REQUIRE(list.new_goods.size() == 1);
  CHECK(list.new_goods[0].offer == "6 x 70 cl for 20 EUR");
}

TEST_CASE("a supplier's code is no supplier", "[stock]") {
  EvaluatedHouse house(bar);
  CHECK(first_row(house, "Supplier code;Item;Pack;Price\nP1;reed gin;70 cl;20\n") ==
        "70 cl for 20 EUR, code P1");
}

TEST_CASE("a list in UTF-32 is read", "[stock]") {
  EvaluatedHouse house(bar);
  const std::u32string text = U"Artikel;Gebinde;Preis\nreed gin;70 cl;20 €\n";
  for (bool little : {true, false}) {
    std::string bytes = little ? std::string("\xFF\xFE\0\0", 4) : std::string("\0\0\xFE\xFF", 4);
    for (char32_t c : text)
      for (int k = 0; k < 4; ++k)
        bytes += static_cast<char>((static_cast<std::uint32_t>(c) >> (8 * (little ? k : 3 - k))) & 0xFF);
    CHECK(first_row(house, bytes) == "70 cl for 20 EUR");
  }
}

TEST_CASE("a count a case is known by what its title is made of, and is never dropped", "[stock]") {
  EvaluatedHouse house(bar);
  auto row = [&](const std::string& title, const std::string& count) {
    return first_row(house, "Product;Size;" + title + ";Price\nreed gin;70 cl;" + count + ";84\n");
  };
  for (const char* title :
       {"Uds/Caja",     "Uds./Caja", "Ud/caja",    "Uds. caja", "Bot/caja",         "Bot./caja",
        "Stk/Karton",   "Stk./VE",   "St/VE",      "Stück/VE",  "Stück je VE",      "Fl/Kasten",
        "Fl. je Kiste", "Menge/VE",  "VE-Inhalt",  "Cs Qty",    "Ctn qty",          "Pcs/ctn",
        "Cases of",     "U/C",       "Units/case", "Btl/Case",  "Pezzi per cartone"}) {
    INFO(title);
    CHECK(row(title, "6") == "6 x 70 cl for 84 EUR");
  }
  for (const char* title :
       {"Geb.", "Karton", "Kasten", "Kiste", "CTN", "Outer", "Bottles", "Count", "Pk", "x"}) {
    INFO(title);
    CHECK_THAT(
        row(title, "6"),
        Catch::Contains("come together for the price of `reed gin`? Then title the column `Units per case`"));
    CHECK(row(title, "1") == "70 cl for 84 EUR");
    CHECK(row(title, "") == "70 cl for 84 EUR");
  }
  CHECK(row("Uds por pallet", "60") == "70 cl for 84 EUR");
  CHECK(first_row(house, "Product;Size;Price per case\nreed gin;btl 70 cl;84\n")
            .find("write it as 6 x 70 cl.") != std::string::npos);
}

TEST_CASE("what a box weighs and how many are in it are one box", "[stock]") {
  EvaluatedHouse house(bar);
  for (const char* box : {"15kg (110 pcs)", "15 kg (ca. 110)", "15 kg (60 Stk)", "15 kg ca 54 St",
                          "15kg 110 pcs", "15 kg (10 Bund)"})
    CHECK(pack(house, box) == "15 kg");
  CHECK(pack(house, "60 Stk (15 kg)") == "60");
  // Nobody knows whether that is in one of them or in all.
  for (const char* box :
       {"110 pcs / 15 kg", "110/15kg", "15 kg (6)", "30 (1.8 kg)", "60 (15 kg)", "4.2 l (6)", "1 l 6 St"}) {
    INFO(box);
    CHECK(pack(house, box) == "several vessels");
  }
  CHECK(pack(house, "70 cl (6 btl)") == "6 x 70 cl");
  CHECK(pack(house, "6 (70 cl)") == "6 x 70 cl");
  CHECK(pack(house, "carton (6 x 70 cl)") == "6 x 70 cl");
  CHECK(pack(house, "1/5kg") == "5 kg");
  CHECK(pack(house, "1/10 kg") == "10 kg");
  CHECK(pack(house, "1/2 kg") == "0.5 kg");
  CHECK(pack(house, "6/70cl") == "6 x 70 cl");
}

TEST_CASE("so many of a unit beside a price may be its one or its all", "[stock]") {
  EvaluatedHouse house(bar);
  auto row = [&](const std::string& price, const std::string& cells) {
    return first_row(house, "Bezeichnung;VPE;Einheit;" + price + "\n" + cells + "\n");
  };
  CHECK_THAT(row("Preis", "reed gin;6;Flasche 0,7l;14,00"),
             Catch::Contains("for one (`Flasche 0,7l`), or for all of"));
  CHECK_THAT(row("Preis", "whole milk;12;Liter;1,10"),
             Catch::Contains("for one (`Liter`), or for all of `12 Liter`?"));
  CHECK_THAT(row("Preis", "lemon;5;kg;8,50"), Catch::Contains("Title the price `Case price`"));
  CHECK(row("Case price", "reed gin;6;Flasche 0,7l;84,00") == "6 x 0.7 l for 84 EUR");
  CHECK(row("Preis;Per", "whole milk;12;Liter;1,10;l") == "12 l for 13.20 EUR");
  CHECK(row("Preis", "whole milk;1;Liter;1,10") == "1 l for 1.10 EUR");
  CHECK(first_row(house, "Item;Size;Unit;Price\nlemon;500;g;2\n") == "500 g for 2 EUR");
}

TEST_CASE("a discount in one German word stops the list", "[stock]") {
  EvaluatedHouse house(bar);
  auto count = [&](const std::string& words) {
    return stock::read_price_list(words + "\nItem,Pack,Price\nreed gin,6 x 70 cl,120\n", house.house, "EUR")
        .prices.size();
  };
  for (const char* words : {"Ihr Kundenrabatt: 5 %", "Auf alle Preise 5 % Winterrabatt",
                            "Sie erhalten 5 % auf das gesamte Sortiment", "Alle Preise abzgl. 3 % Skonto"}) {
    INFO(words);
    CHECK(count(words) == 0);
  }
  for (const char* words :
       {"2 % Skonto bei Zahlung innerhalb 10 Tagen", "Kundenrabatt bereits abgezogen", "2 % Skonto"}) {
    INFO(words);
    CHECK(count(words) == 1);
  }
}

TEST_CASE("a list in several parts is read by the titles above each", "[stock]") {
  EvaluatedHouse house(bar);
  auto list = stock::read_price_list(
      "Product,Pack,Price\nreed gin,6 x 70 cl,84\nProduce,,\nProduct,Pack,Price per kg\nlemon,5 kg,2.10\n"
      "Price,Description,Size\n1.10,whole milk,12 x 1 l\nProduct,Pack,Unit price\nreed gin,6 x 1 l,20\n",
      house.house, "EUR");
  std::vector<std::string> offers;
  for (const auto& price : list.prices) offers.push_back(price.offer);
  CHECK(offers == std::vector<std::string>{"6 x 70 cl for 84 EUR", "5 kg for 10.50 EUR",
                                           "12 x 1 l for 1.10 EUR", "6 x 1 l for 120 EUR"});
  CHECK(list.new_goods.empty());
  // What is said above all of them holds for each.
  CHECK(stock::read_price_list("All prices include VAT\nProduct,Pack,Price\nreed gin,70 cl,20\n"
                               "Product,Pack,Price per kg\nlemon,5 kg,2\n",
                               house.house, "EUR")
            .prices.empty());
}

TEST_CASE("small whole numbers under a title that nobody knows are asked about", "[stock]") {
  EvaluatedHouse house(bar);
  auto row = [&](const std::string& title, const std::string& count) {
    return first_row(house, "Product;Size;" + title + ";Price\nreed gin;70 cl;" + count + ";84\n");
  };
  for (const char* title :
       {"Flaschen im Karton", "Cant. caja", "PCB", "UVC/colis", "C/S", "Packing", "Abpackung", "Carton de",
        "Lot de", "N. pezzi", "Qtd/cx", "Multipack", "Kolli", "Qty", "Quantity", "Menge", "Set", "Config"}) {
    INFO(title);
    const auto read = row(title, "6");
    CHECK(
        (read == "6 x 70 cl for 84 EUR" || read.find("come together for the price of") != std::string::npos));
  }
  for (const char* title :
       {"Pos.", "Bestand", "Stock", "Min. order", "Jahrgang", "MwSt %", "Lieferzeit (Tage)"}) {
    INFO(title);
    CHECK(row(title, "6") == "70 cl for 84 EUR");
  }
  // The numbers of the rows, whatever their title.
  CHECK(first_row(house, "#;Product;Size;Price\n1;reed gin;70 cl;84\n2;lemon;1 kg;2\n") ==
        "70 cl for 84 EUR");
}

TEST_CASE("titles of a part need no known word for the name, and a heading may say what its prices are of",
          "[stock]") {
  EvaluatedHouse house(bar);
  auto list = stock::read_price_list(
      "Artikel;Gebinde;Preis\nreed gin;6 x 0,7 l;84,00\nObst;Kiste;EUR/kg\nlemon;5 kg;2,10\n", house.house,
      "EUR");
  for (const auto& price : list.prices) CHECK(price.offer != "5 kg for 2.10 EUR");
  auto heading = stock::read_price_list(
      "Product,Pack,Price\nreed gin,6 x 70 cl,84\nFRUIT (price per kg),,\nlemon,5 kg,2.10\n", house.house,
      "EUR");
  CHECK(heading.prices.empty());
  CHECK_THAT(heading.unused().at(0).message, Catch::Contains("`Price per kg` or `Price per litre`"));
}

TEST_CASE("cartons and cents are two words of three letters", "[stock]") {
  EvaluatedHouse house(bar);
  for (const char* title : {"Price ct", "Price CT", "Preis/CT"})
    CHECK(first_row(house, std::string("Item;Pack;") + title + "\nreed gin;6 x 70 cl;84\n").find(" for ") ==
          std::string::npos);
}

TEST_CASE("units a case beside a bare unit may be priced by the one or by all", "[stock]") {
  EvaluatedHouse house(bar);
  CHECK_THAT(first_row(house, "Product,Units per case,Unit,Price\nwhole milk,12,litre,1.10\n"),
             Catch::Contains("for one (`litre`), or for all of `12 x litre`?"));
  CHECK(first_row(house, "Product,Units per case,Unit,Case price\nwhole milk,12,litre,13.20\n") ==
        "12 x 1 l for 13.20 EUR");
}
