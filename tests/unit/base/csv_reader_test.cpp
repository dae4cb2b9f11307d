#include "base/csv_reader.h"

#include <catch2/catch.hpp>

using namespace gill;
using namespace gill::base;

namespace {

std::vector<std::vector<std::string>> cells(const CsvTable& table) {
  std::vector<std::vector<std::string>> rows;
  for (const auto& row : table.rows) rows.push_back(row.cells);
  return rows;
}

using Rows = std::vector<std::vector<std::string>>;

}  // namespace

// Common Format and MIME Type for Comma-Separated Values (CSV) Files, RFC 4180 (IETF), section 2: the
// numbered rules.
TEST_CASE("the examples of RFC 4180 are read as it says", "[csv]") {
  CHECK(cells(read_csv("a,b,c\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n")) ==
        Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(cells(read_csv("a,b,c\r\naaa,bbb,ccc")) == Rows{{"aaa", "bbb", "ccc"}});
  CHECK(cells(read_csv("a,b,c\r\n\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx")) ==
        Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(cells(read_csv("a,b,c\r\n\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx")) ==
        Rows{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(cells(read_csv("a,b,c\r\n\"aaa\",\"b\"\"bb\",\"ccc\"")) == Rows{{"aaa", "b\"bb", "ccc"}});
}

TEST_CASE("lines are counted through cells of several lines", "[csv]") {
  auto table = read_csv("name,price\n\"two\nlines\",1\nthree,x\n");
  REQUIRE(table.rows.size() == 2);
  CHECK(table.rows[0].line == 2);
  CHECK(table.rows[1].line == 4);
}

TEST_CASE("encodings of real exports are read", "[csv]") {
  CHECK(read_csv("\xEF\xBB\xBFname,x\ncaf\xC3\xA9,1").rows[0].cells[0] == "café");
  CHECK(read_csv("name;x\ncaf\xE9;1").rows[0].cells[0] == "café");
  CHECK(read_csv("name;x\n\x80 5;1").rows[0].cells[0] == "€ 5");
  std::string little(
      "\xFF\xFEn\0,\0x\0\n\0\xE9\0,\0"
      "1\0",
      16);
  CHECK(read_csv(little).rows[0].cells[0] == "é");
  std::string big(
      "\xFE\xFF\0n\0,\0x\0\n\0\xE9\0,\0"
      "1",
      16);
  CHECK(read_csv(big).rows[0].cells[0] == "é");
}

TEST_CASE("the separator is found, or told", "[csv]") {
  CHECK(read_csv("a;b\n1,5;2").rows[0].cells == std::vector<std::string>{"1,5", "2"});
  CHECK(read_csv("a\tb\n1\t2").rows[0].cells == std::vector<std::string>{"1", "2"});
  auto table = read_csv("sep=;\na;b\n1;2");
  CHECK(table.header == std::vector<std::string>{"a", "b"});
  CHECK(table.rows[0].line == 3);
}

TEST_CASE("numbers are read as people and exports write them", "[csv]") {
  auto points = read_csv("a,b\n1.5,2"), commas = read_csv("a;b\n1,5;2");
  auto same = [](const std::optional<base::Exact>& read, base::Exact wanted) {
    return read && *read == wanted;
  };
  CHECK(same(points.number("1,234.50"), base::Exact(12345, 10)));
  CHECK(same(points.number("1.234,50"), base::Exact(12345, 10)));
  CHECK(same(points.number("1,234"), base::Exact(1234)));
  CHECK(same(commas.number("1.234"), base::Exact(1234)));
  CHECK(same(commas.number("12,5"), base::Exact(25, 2)));
  CHECK(same(points.number("1 234.5"), base::Exact(2469, 2)));
  CHECK(same(points.number("1\xC2\xA0"
                           "234,50"),
             base::Exact(12345, 10)));
  CHECK(same(points.number("£12.50"), base::Exact(25, 2)));
  CHECK(same(points.number("€ 3,20"), base::Exact(16, 5)));
  CHECK(same(points.number("12.50 GBP"), base::Exact(25, 2)));
  CHECK(same(points.number("−5"), base::Exact(-5)));
  CHECK(same(points.number("0.125"), base::Exact(1, 8)));
  CHECK_FALSE(points.number("twelve"));
  CHECK_FALSE(points.number("12 bottles"));
  CHECK_FALSE(points.number(""));
  CHECK_FALSE(points.number("1.2.3,4,5"));
  // The mark of thousands stands before three digits, or of two where lakhs are written.
  CHECK_FALSE(points.number("0.8.0"));
  CHECK_FALSE(points.number("2+1"));
  CHECK_FALSE(points.number("12.50+1"));
  CHECK_FALSE(points.number("12 50"));
  CHECK_FALSE(points.number("5-"));
  CHECK(same(points.number("+5"), base::Exact(5)));
  CHECK(same(points.number("1 234 567"), base::Exact(1234567)));
  CHECK_FALSE(points.number("1,2,3"));
  CHECK_FALSE(points.number("1,234.5.6"));
  CHECK_FALSE(points.number("1,2345.0"));
  CHECK(same(points.number("1,234,567.5"), base::Exact(12345675, 10)));
  CHECK(same(points.number("1.234.567"), base::Exact(1234567)));
  CHECK(same(points.number("1,00,000.00"), base::Exact(100000)));
}

TEST_CASE("bad rows are told with their line and left out", "[csv]") {
  auto table = read_csv("name,price\na,1\n\"b\"x,2\nc,3,4\nd,5\n\"e,6\n");
  CHECK(cells(table) == Rows{{"a", "1"}, {"d", "5"}});
  REQUIRE(table.problems.size() == 3);
  CHECK(table.problems[0].line == 3);
  CHECK(table.problems[1].line == 4);
  CHECK(table.problems[2].line == 6);
  CHECK_THAT(table.problems[2].message, Catch::Contains("never closed"));
}

TEST_CASE("the separator is what parts most lines alike, whatever stands above the titles", "[csv]") {
  auto table = read_csv("The Mill\nWeir Street 5, Ludd\n\nname;price\na;1,50\nb;2,50\n");
  CHECK(table.separator == ';');
  CHECK(table.header_line == 4);
  CHECK(cells(table) == Rows{{"a", "1,50"}, {"b", "2,50"}});
  CHECK(read_csv("name|price\na, b|1,5\nc|2,5\n").separator == '|');
  CHECK(read_csv("name,price\n\"a; b; c\",1\nd,2\n").separator == ',');
  CHECK(read_csv("name\tprice\na, b\t1,5\n").separator == '\t');
}

TEST_CASE("columns are known by their titles in plain words", "[csv]") {
  auto table = read_csv("Product No.,Product Name,Net price (EUR),Pack-Size\n1,2,3,4");
  CHECK(table.column({"name", "product name"}) == 1);
  CHECK(table.column({"price"}) == 2);
  CHECK(table.column({"size"}) == 3);
  CHECK_FALSE(table.column({"supplier"}));
}

TEST_CASE("what is written can be read again", "[csv][property]") {
  for (unsigned seed = 1; seed < 200; ++seed) {
    unsigned state = seed;
    auto next = [&state] { return state = state * 1664525u + 1013904223u; };
    std::vector<std::string> words;
    for (int i = 0; i < 3; ++i) {
      std::string word = "w";
      static const std::string pieces[] = {"a", "b", ",", ";", "\"", "\n", " ", "é"};
      for (unsigned n = next() >> 28; n > 0; --n) word += pieces[(next() >> 24) % 8];
      word += "w";
      words.push_back(word);
    }
    CsvWriter csv({"a", "b", "c"});
    for (const auto& word : words) csv.text(word);
    csv.end_row();
    auto table = read_csv(csv.str());
    INFO(csv.str());
    REQUIRE(table.rows.size() == 1);
    CHECK(table.rows[0].cells == words);
  }
}
