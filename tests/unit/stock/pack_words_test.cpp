// Packs as suppliers write them. Common practice, no source: how wholesalers' lists in five languages look.
#include <catch2/catch.hpp>
#include <sstream>

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
  auto offer = [&](const std::string& csv) {
    auto list = stock::read_price_list(csv, house.house, "EUR");
    if (!list.prices.empty()) return list.prices[0].offer;
    return list.unused().empty() ? std::string("nothing") : list.unused()[0].message;
  };
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

TEST_CASE("goods that the house does not know come out as declarations to complete", "[stock]") {
  EvaluatedHouse house(bar);
  auto list = stock::read_price_list(
      "product,size,price,code\nreed gin,70cl,20,\nsedge gin,6 x 70cl,118,Q-7\nsedge cups,1 crate,9,\n",
      house.house, "EUR");
  auto text = stock::price_list_text(list, house.house, "April", std::chrono::year(2026) / 4 / 1);
  INFO(text);
  CHECK_THAT(text, Catch::Contains("# ingredient sedge gin like ") &&
                       Catch::Contains("\n#   buy 6 x 70 cl for 118 EUR, code Q-7\n"));
  CHECK(text.find("ingredient sedge cups") == std::string::npos);
  // With the # taken away it is Gill.
  auto begins = text.find("# ingredient");
  std::string declared;
  std::istringstream lines(text.substr(begins));
  for (std::string line; std::getline(lines, line);) declared += line.substr(2) + "\n";
  EvaluatedHouse with(std::string(bar) + declared);
  for (const auto& finding : with.compiled.sink.all()) {
    UNSCOPED_INFO(finding.message);
    CHECK(finding.severity != diagnostics::Severity::error);
  }
  CHECK(with.stock("sedge gin").valid());
}
