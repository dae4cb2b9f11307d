#include "language_server/text_positions.h"

#include <catch2/catch.hpp>

#include "language_server/framing.h"
#include "language_server/uri.h"

using namespace gill::language_server;

// Code units by the Unicode Standard, section 3.9; an emoji takes four bytes in UTF-8 and two units in
// UTF-16.
TEST_CASE("a character behind an emoji stands at its code units", "[positions]") {
  std::string text = "a🍸é€b\r\nc\rd\n";
  TextPositions utf16(text, Encoding::utf16), utf8(text, Encoding::utf8);
  auto b = static_cast<std::uint32_t>(text.find('b'));
  CHECK(utf16.position(b) == Position{0, 5});
  CHECK(utf8.position(b) == Position{0, 10});
  CHECK(utf16.offset({0, 5}) == b);
  CHECK(utf8.offset({0, 10}) == b);
  CHECK(utf16.line_count() == 4);
  CHECK(utf16.position(static_cast<std::uint32_t>(text.find('d'))) == Position{2, 0});
}

TEST_CASE("every character's place leads back to it", "[positions]") {
  std::string text = "é🍸\n\n\r\n  x🍋y\xff\xf0\x9f z\nend";
  for (auto encoding : {Encoding::utf8, Encoding::utf16}) {
    TextPositions positions(text, encoding);
    for (std::uint32_t at = 0; at <= text.size(); ++at) {
      bool is_inside = at < text.size() && (static_cast<unsigned char>(text[at]) & 0xc0) == 0x80;
      bool is_line_end = at > 0 && at < text.size() && text[at] == '\n' && text[at - 1] == '\r';
      if (is_inside || is_line_end) continue;
      INFO(at);
      CHECK(positions.offset(positions.position(at)) == at);
    }
  }
}

TEST_CASE("what is out of range is the nearest there is", "[positions]") {
  std::string text = "ab\ncd🍸";
  TextPositions positions(text, Encoding::utf16);
  CHECK(positions.offset({0, 99}) == 2);
  CHECK(positions.offset({1, 3}) == 5);
  CHECK(positions.offset({1, UINT32_MAX}) == text.size());
  CHECK(positions.offset({UINT32_MAX, 0}) == text.size());
  CHECK(positions.position(UINT32_MAX) == Position{1, 4});
  CHECK(TextPositions("", Encoding::utf8).position(5) == Position{0, 0});
}

TEST_CASE("messages are cut out of bytes however they come", "[framing]") {
  std::string bytes = framed("{\"a\":1}") + framed("") + "junk\r\n\r\n" + framed("{}");
  for (std::size_t step : {1u, 2u, 7u, 1000u}) {
    FrameReader reader;
    std::vector<std::string> got;
    for (std::size_t at = 0; at < bytes.size(); at += step) {
      reader.add(bytes.substr(at, step));
      while (auto frame = reader.next()) got.push_back(frame->trouble.empty() ? frame->content : "trouble");
    }
    INFO(step);
    CHECK(got == std::vector<std::string>{"{\"a\":1}", "", "trouble", "{}"});
  }
}

// RFC 8089, The "file" URI Scheme; RFC 3986 for what is percent-encoded.
TEST_CASE("a file's address is its path and back", "[uri]") {
  CHECK(path_of_uri("file:///a/b%20c/%C3%A9.gill") == "/a/b c/é.gill");
  CHECK(path_of_uri("FILE://localhost/a/./b/../c") == "/a/c");
  CHECK_FALSE(path_of_uri("file://host/a").has_value());
  CHECK_FALSE(path_of_uri("untitled:x").has_value());
  CHECK_FALSE(path_of_uri("file:///a%00b").has_value());
  for (const char* path : {"/a/b c/é.gill", "/100%/#1?.gill", "/a:b/c"})
    CHECK(path_of_uri(uri_of_path(path)) == path);
  CHECK(name_of_uri("untitled:") == "untitled");
  CHECK(name_of_uri("gill:stdlib/x.gill") == "x.gill");
}
