#include "syntax/parse.h"

#include <catch2/catch.hpp>

#include "support/fixture.h"

using gill::syntax::LineKind;
using gill::testing::findings;
using gill::testing::parse;
using Lines = std::vector<LineKind>;
using Findings = std::vector<std::string>;

TEST_CASE("each line has its kind", "[parse]") {
  auto parsed = parse(
      "# a comment\n"
      "drink X\n"
      "  | text\n"
      "\n"
      "  60 ml gin  # mine\n"
      "  # another\n");
  CHECK(parsed.kinds() == Lines{LineKind::comment, LineKind::header, LineKind::text, LineKind::blank,
                                LineKind::body, LineKind::comment});
  CHECK(findings(parsed).empty());
}

TEST_CASE("comments and blank lines part nothing", "[parse]") {
  auto parsed = parse("drink X\n  60 ml gin\n\n# first column\n\n  30 ml rum\ndrink Y\n");
  REQUIRE(parsed.file.declarations.size() == 2);
  CHECK(parsed.file.declarations[0].body.size() == 2);
}

TEST_CASE("a text line in the first column belongs to the declaration above", "[parse]") {
  auto parsed = parse("drink X\n| text\n  60 ml gin\n| more\n|\n");
  REQUIRE(parsed.file.declarations.size() == 1);
  const auto& drink = parsed.file.declarations[0];
  CHECK(drink.text_lines.size() == 1);
  REQUIRE(drink.body.size() == 1);
  CHECK(drink.body[0].text_lines.size() == 2);
}

TEST_CASE("text keeps everything after its bar and one space", "[parse]") {
  auto parsed = parse("drink X\n  | one # no comment\n  |  two\n  |\n  |four  \n");
  const auto& source = parsed.sources[parsed.file.file_id];
  CHECK(gill::syntax::joined_text(source, parsed.file, parsed.file.declarations[0].text_lines) ==
        "one # no comment\n two\n\nfour  ");
}

TEST_CASE("indentation has no meaning but that of a body", "[parse]") {
  auto parsed = parse("menu X\n section A\n\t\tY\n\u00a0Z\n");
  CHECK(parsed.kinds() == Lines{LineKind::header, LineKind::body, LineKind::body, LineKind::body});
}

TEST_CASE("a comment starts after white space, at the start of a line, and nowhere else", "[parse]") {
  CHECK(parse("  a #b").tokens(0) == "word(a)");
  CHECK(parse("  a\u00a0#b").tokens(0) == "word(a)");
  CHECK(parse("  a#b").tokens(0) == "word(a) stray(#) word(b)");
  CHECK(parse("  \"a #b\" c").tokens(0) == "string(\"a #b\") word(c)");
  CHECK(parse("  60 ml gin# no").tokens(0) == "number(60) word(ml) word(gin) stray(#) word(no)");
}

TEST_CASE("the value of colour is no comment", "[parse]") {
  CHECK(parse("  colour #D98C2B").tokens(0) == "word(colour) colour(#D98C2B)");
  CHECK(parse("  color  #d98c2b # amber").tokens(0) == "word(color) colour(#d98c2b)");
  CHECK(parse("  COLOUR #abc").tokens(0) == "word(COLOUR) colour(#abc)");
  CHECK(parse("  colour amber # not red").tokens(0) == "word(colour) word(amber)");
  CHECK(parse("  colours #abc").tokens(0) == "word(colours)");
}

TEST_CASE("numbers are parted from the words that follow", "[parse]") {
  CHECK(parse("  60ml gin").tokens(0) == "number(60) word(ml) word(gin)");
  CHECK(parse("  3/4oz gin").tokens(0) == "number(3/4) word(oz) word(gin)");
  CHECK(parse("  75C").tokens(0) == "number(75) word(C)");
  CHECK(parse("  1½oz gin").tokens(0) == "number(1½) word(oz) word(gin)");
  CHECK(parse("  .75 oz gin").tokens(0) == "number(.75) word(oz) word(gin)");
  CHECK(parse("  1 1/2 oz gin").tokens(0) == "number(1 1/2) word(oz) word(gin)");
  CHECK(parse("  2 1/2oz gin").tokens(0) == "number(2 1/2) word(oz) word(gin)");
}

TEST_CASE("ranges and tolerances are signs between numbers", "[parse]") {
  CHECK(parse("  15..20 ml").tokens(0) == "number(15) dots(..) number(20) word(ml)");
  CHECK(parse("  15 .. 20 ml").tokens(0) == "number(15) dots(..) number(20) word(ml)");
  CHECK(parse("  ..20 ml").tokens(0) == "dots(..) number(20) word(ml)");
  CHECK(parse("  15.. ml").tokens(0) == "number(15) dots(..) word(ml)");
  CHECK(parse("  ...5").tokens(0) == "dots(..) number(.5)");
  CHECK(parse("  60 ml +- 2 ml").tokens(0) == "number(60) word(ml) plus-minus(+-) number(2) word(ml)");
  CHECK(parse("  60 ml ±3%").tokens(0) == "number(60) word(ml) plus-minus(±) number(3) percent(%)");
}

TEST_CASE("names hold what the page says they hold", "[parse]") {
  CHECK(parse("  Siete’s & Co. (aged) A-1/2").tokens(0) ==
        "word(Siete’s) word(&) word(Co.) word((aged)) word(A-1/2)");
  CHECK(parse("  9:30 Special").tokens(0) == "word(9:30) word(Special)");
  CHECK(parse("  2026-09-15").tokens(0) == "date(2026-09-15)");
  CHECK(parse("  No. 9").tokens(0) == "word(No.) number(9)");
}

TEST_CASE("near misses have kinds of their own", "[parse]") {
  CHECK(parse("  1-1/2 oz").tokens(0) == "dashed-mixed(1-1/2) word(oz)");
  CHECK(parse("  10-12").tokens(0) == "dashed-range(10-12)");
  CHECK(parse("  10 – 12 s").tokens(0) == "dashed-range(10 – 12) word(s)");
  CHECK(parse("  22,5 ml").tokens(0) == "comma-number(22,5) word(ml)");
  CHECK(parse("  “Two Words” x").tokens(0) == "curly-string(“Two Words”) word(x)");
  CHECK(parse("  \"two words").tokens(0) == "open-string(\"two words)");
}

TEST_CASE("a comma that is followed by a space parts a list", "[parse]") {
  CHECK(parse("  60 ml, 45 ml").tokens(0) == "number(60) word(ml) comma(,) number(45) word(ml)");
  CHECK(parse("  ml,oz").tokens(0) == "word(ml) comma(,) word(oz)");
}

TEST_CASE("a bad byte is a bad line at its place, and the rest is read", "[parse]") {
  auto parsed = parse("drink X\n  60 ml cr\xe8me\n  30 ml gin\n");
  CHECK(parsed.kinds() == Lines{LineKind::header, LineKind::bad, LineKind::body});
  CHECK(findings(parsed) == Findings{"bad-line 2:11-1"});
  CHECK(parsed.file.declarations[0].body.size() == 2);
}

TEST_CASE("a control character is a bad line at its place", "[parse]") {
  CHECK(findings(parse("drink X\n  6\x07 ml gin\n")) == Findings{"bad-line 2:4-1"});
  CHECK(findings(parse(std::string("drink X\n\0\n", 10))) == Findings{"bad-line 2:1-1"});
  CHECK(findings(parse("drink X\n  | text\x1b[31m\n")) == Findings{"bad-line 2:9-1"});
}

TEST_CASE("a carriage return inside a line is a control character", "[parse]") {
  CHECK(findings(parse("drink X\r\n  60 ml gin\r\n")).empty());
  CHECK(findings(parse("drink X\n  60 ml\rgin\n")) == Findings{"bad-line 2:8-1"});
}

TEST_CASE("what stands before the first declaration has no home", "[parse]") {
  CHECK(findings(parse("  60 ml gin\n| text\ndrink X\n")) == Findings{"bad-line 1:3-9", "bad-line 2:1-6"});
}

TEST_CASE("a byte-order mark and CRLF change nothing", "[parse]") {
  auto plain = parse("drink X\n  60 ml gin\n");
  auto dressed = parse(
      "\xef\xbb\xbf"
      "drink X\r\n  60 ml gin\r\n");
  CHECK(findings(dressed).empty());
  CHECK(plain.kinds() == dressed.kinds());
  CHECK(plain.tokens(1) == dressed.tokens(1));
}

TEST_CASE("an empty file has no lines and no findings", "[parse]") {
  CHECK(parse("").file.lines.empty());
  CHECK(parse("\xef\xbb\xbf").file.lines.empty());
  CHECK(findings(parse("\n\n  \n")).empty());
}
