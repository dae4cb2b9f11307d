// Minor units: ISO 4217, list one of 2024-06-25. Rounding of halves away from nothing: common practice, no
// source.
#include <catch2/catch.hpp>

#include "units/money.h"

using gill::base::Exact;
using namespace gill::units;

TEST_CASE("money is printed with the decimals of its own currency") {
  CHECK(money_text({Exact(36369, 100), "JPY"}) == "364 JPY");
  CHECK(money_text({Exact(2), "GBP"}) == "2.00 GBP");
  CHECK(money_text({Exact(5, 4), "KWD"}) == "1.250 KWD");
  CHECK(money_text({Exact(5, 4), "CLF"}) == "1.2500 CLF");
  CHECK(money_text({Exact(5, 4), "XQQ"}) == "1.25 XQQ");
  CHECK(money_text({Exact(1, 3), ""}) == "0.33");
}

TEST_CASE("a sum is rounded half away from nothing, with a real minus sign and none before nothing") {
  CHECK(money_digits({Exact(1005, 1000), "EUR"}) == "1.01");
  CHECK(money_digits({-Exact(1005, 1000), "EUR"}) == "−1.01");
  CHECK(money_digits({-Exact(1, 1000), "EUR"}) == "0.00");
  CHECK(money_digits({-Exact(1, 2), "JPY"}) == "−1");
}

TEST_CASE("a price that was written more finely than the coin is printed as it was written") {
  CHECK(price_text({Exact(14), "EUR"}) == "14.00 EUR");
  CHECK(price_text({Exact(1, 8), "EUR"}) == "0.125 EUR");
  CHECK(price_text({Exact(25, 2), "JPY"}) == "12.5 JPY");
  CHECK(price_text({Exact(1800), "JPY"}) == "1800 JPY");
}

TEST_CASE("the cells of a spreadsheet keep a hundredth of the coin") {
  CHECK(cell_decimals("EUR") == 4);
  CHECK(cell_decimals("JPY") == 2);
  CHECK(cell_decimals("TND") == 5);
}
