#include "source/source_file.h"

#include <catch2/catch.hpp>

using gill::source::Place;
using gill::source::SourceFile;
using gill::source::SourceSet;
using gill::source::Span;

namespace {

/// Where a piece of a text stands.
Place place_of(const std::string& text, const std::string& piece) {
  SourceSet sources;
  auto id = sources.add("a.gill", text, false);
  auto at = static_cast<std::uint32_t>(sources[id].text.find(piece));
  return sources[id].place_of(Span{id, at, at + static_cast<std::uint32_t>(piece.size())});
}

}  // namespace

TEST_CASE("lines and columns count from one", "[source]") {
  auto place = place_of("drink X\n  60 ml gin\n", "ml");
  CHECK(place.line == 2);
  CHECK(place.column == 6);
  CHECK(place.length == 2);
}

TEST_CASE("columns and lengths are in code points, not bytes", "[source]") {
  auto place = place_of("prep crème\n  1½ oz crème de thé, hot\n", "crème de thé");
  CHECK(place.line == 2);
  CHECK(place.column == 9);
  CHECK(place.length == 12);
}

TEST_CASE("a byte-order mark is no part of the text", "[source]") {
  SourceFile file("a.gill",
                  "\xef\xbb\xbf"
                  "drink X\n",
                  false);
  CHECK(file.text == "drink X\n");
  auto place = place_of(
      "\xef\xbb\xbf"
      "drink X\n",
      "drink");
  CHECK(place.line == 1);
  CHECK(place.column == 1);
}

TEST_CASE("a line end may be LF or CRLF and is no part of the line", "[source]") {
  SourceFile file("a.gill", "one\r\ntwo\nthree\r\n", false);
  REQUIRE(file.line_starts.size() == 3);
  CHECK(file.line_text(0) == "one");
  CHECK(file.line_text(1) == "two");
  CHECK(file.line_text(2) == "three");
}

TEST_CASE("the last line needs no newline", "[source]") {
  SourceFile file("a.gill", "one\ntwo", false);
  REQUIRE(file.line_starts.size() == 2);
  CHECK(file.line_text(1) == "two");
}

TEST_CASE("an empty file and a lone newline are one empty line", "[source]") {
  CHECK(SourceFile("a.gill", "", false).line_text(0) == "");
  SourceFile newline("a.gill", "\n", false);
  CHECK(newline.line_starts.size() == 1);
  CHECK(newline.line_text(0) == "");
}

TEST_CASE("a span that runs over a line end is as long as its first line", "[source]") {
  SourceSet sources;
  auto id = sources.add("a.gill", "one two\nthree", false);
  auto place = sources[id].place_of(Span{id, 4, 13});
  CHECK(place.line == 1);
  CHECK(place.column == 5);
  CHECK(place.length == 3);
}

TEST_CASE("a span at the very end has a place", "[source]") {
  SourceSet sources;
  auto id = sources.add("a.gill", "one\n", false);
  auto place = sources[id].place_of(Span{id, 4, 4});
  CHECK(place.line == 1);
  CHECK(place.column == 4);
  CHECK(place.length == 1);  // what is missing is marked one wide
}

TEST_CASE("the text of a span is what was written", "[source]") {
  SourceSet sources;
  sources.add("a.gill", "other", false);
  auto id = sources.add("b.gill", "60 ml gin", true);
  CHECK(sources.text(Span{id, 3, 5}) == "ml");
  CHECK(sources[id].from_library);
  CHECK(sources.size() == 2);
}
