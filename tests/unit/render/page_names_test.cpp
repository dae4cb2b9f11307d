#include <algorithm>
#include <catch2/catch.hpp>

#include "render/document/page_names.h"

using namespace gill::render::document;

TEST_CASE("a name becomes a plain file name", "[render]") {
  CHECK(plain_file_name("Clog Money") == "clog-money");
  CHECK(plain_file_name("Fuller's Earth") == "fullers-earth");
  CHECK(plain_file_name("Fuller’s Earth") == "fullers-earth");
  CHECK(plain_file_name("Écheveau orange liqueur") == "echeveau-orange-liqueur");
  CHECK(plain_file_name("E\u0301cheveau") == "echeveau");
  CHECK(plain_file_name("Æbleskål ½ ß") == "aebleskal-1-2-ss");
  CHECK(plain_file_name("Whose Clogs?") == "whose-clogs");
  CHECK(plain_file_name("  A -- B  ") == "a-b");
}

TEST_CASE("no name leads out of its folder", "[render]") {
  for (const char* name : {"../../etc/passwd", "..", ".", "/", "\\\\server\\share", "a/b", "C:\\x",
                           "a\u202eb", "x\ty", "%2e%2e"}) {
    std::string plain = plain_file_name(name);
    INFO(name << " -> " << plain);
    CHECK_FALSE(plain.empty());
    CHECK(std::all_of(plain.begin(), plain.end(),
                      [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; }));
    CHECK(plain.front() != '-');
    CHECK(plain.back() != '-');
  }
  CHECK(plain_file_name(std::string(500, 'a')).size() == 60);
}

// Microsoft, "Naming Files, Paths, and Namespaces": names that Windows keeps for devices, from memory.
TEST_CASE("a device of Windows is no file name", "[render]") {
  for (const char* name : {"CON", "prn", "Aux", "nul", "COM1", "lpt9"})
    CHECK(plain_file_name(name).ends_with("-page"));
  CHECK(plain_file_name("Console") == "console");
  CHECK(plain_file_name("com12") == "com12");
}

TEST_CASE("a name without Latin letters still has a file name of its own", "[render]") {
  std::string one = plain_file_name("ハイボール"), other = plain_file_name("ジントニック");
  CHECK(one != other);
  CHECK(one == plain_file_name("ハイボール"));
  CHECK(one.size() == 9);
}

TEST_CASE("names that look alike get files that differ", "[render]") {
  PageNames names;
  CHECK(names.take("Café Sour") == "cafe-sour");
  CHECK(names.take("Cafe Sour") == "cafe-sour-2");
  CHECK(names.take("Cafe Sour 2") == "cafe-sour-2-2");
  CHECK(names.take("cafe  sour") == "cafe-sour-3");
}
