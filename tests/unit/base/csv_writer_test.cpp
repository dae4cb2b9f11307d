#include "base/csv_writer.h"

#include <catch2/catch.hpp>

using gill::base::CsvWriter;
using gill::base::Exact;

TEST_CASE("no words that leave can act as a formula", "[csv]") {
  CsvWriter csv({"name", "amount"});
  csv.text("=1+1").number(Exact(-1, 2), 2).end_row();
  csv.text("@x").text("+x").end_row();
  csv.text("-x").text("\tx").end_row();
  csv.text("＝1").text("\rx").end_row();
  CHECK(csv.str() == "name,amount\r\n'=1+1,-0.5\r\n'@x,'+x\r\n'-x,\"'\tx\"\r\n'＝1,\"'\rx\"\r\n");
}

// Common Format and MIME Type for Comma-Separated Values (CSV) Files, RFC 4180 (IETF), section 2: rules 1, 5,
// 6 and 7.
TEST_CASE("cells are quoted, and rows end, as RFC 4180 says", "[csv]") {
  CsvWriter csv({"a", "b"});
  csv.text("a \"b\", c").text("two\nlines").end_row();
  CHECK(csv.str() == "a,b\r\n\"a \"\"b\"\", c\",\"two\nlines\"\r\n");
}

TEST_CASE("numbers stay numbers", "[csv]") {
  CsvWriter csv({"a"});
  csv.number(12.5, 2)
      .number(-0.001, 2)
      .number(std::optional<double>(), 2)
      .number(3.0, 0)
      .number(1e9, 1)
      .end_row();
  csv.unrounded(0.1).unrounded(-0.0).unrounded(1.0 / 0.0).unrounded(std::nullopt).unrounded(2.5e-7).end_row();
  csv.number(Exact(1, 3), 4).number(std::optional<Exact>(), 4).blank(2).text("x").end_row();
  CHECK(csv.str() == "a\r\n12.5,0,,3,1000000000\r\n0.1,0,,,2.5e-07\r\n0.3333,,,,x\r\n");
}
