#include "base/text.h"

#include <catch2/catch.hpp>
#include <random>

using namespace gill::base;

TEST_CASE("names compare without case in any script", "[text]") {
  CHECK(fold_name("Rye Whiskey") == fold_name("rye whiskey"));
  CHECK(fold_name("CRÈME DE CACAO") == fold_name("crème de cacao"));
  CHECK(fold_name("ΓΛΥΚΌ") == fold_name("γλυκό"));
  CHECK(fold_name("ЧЁРНЫЙ ЧАЙ") == fold_name("чёрный чай"));
  CHECK(fold_name("Straße") == fold_name("STRASSE"));
}

TEST_CASE("names compare in NFC", "[text]") {
  // e with a combining acute accent against the letter of its own.
  CHECK(fold_name("cafe\u0301") == fold_name("café"));
  CHECK(fold_name("CAFE\u0301") == fold_name("café"));
  CHECK(fold_name("a\u030angstro\u0308m") == fold_name("Ångström"));
  CHECK(fold_name("cafe") != fold_name("café"));
}

TEST_CASE("names compare with any run of white space as one space", "[text]") {
  CHECK(fold_name("rye \t  whiskey") == "rye whiskey");
  CHECK(fold_name("rye\u00a0whiskey") == "rye whiskey");
  CHECK(fold_name("\u00a0 rye whiskey \u00a0") == "rye whiskey");
  CHECK(fold_name("ryewhiskey") != fold_name("rye whiskey"));
}

TEST_CASE("both apostrophes are one", "[text]") {
  CHECK(fold_name("Sailor's") == fold_name("sailor’s"));
  CHECK(fold_name("sailors") != fold_name("sailor’s"));
}

TEST_CASE("white space is collapsed and trimmed, non-breaking spaces too", "[text]") {
  CHECK(collapse_space("  60\u00a0\u00a0ml \t gin ") == "60 ml gin");
  CHECK(collapse_space("") == "");
  CHECK(collapse_space(" \u00a0\t") == "");
  CHECK(trim("\u00a0 gin \u00a0") == "gin");
  CHECK(trim("   ") == "");
  CHECK(trim("gin") == "gin");
  // The second byte of the space is that of other letters, too.
  CHECK(trim("voilà") == "voilà");
}

TEST_CASE("a bad byte is found where it is", "[text]") {
  CHECK_FALSE(first_bad_byte("60 ml\tcrème ☕ 🍋"));
  CHECK(first_bad_byte(std::string_view("a\0b", 3)) == 1u);
  CHECK(first_bad_byte("ab\x1b[31m") == 2u);
  CHECK(first_bad_byte("ab\x7f") == 2u);
  CHECK(first_bad_byte("cr\xe8me") == 2u);           // Latin-1
  CHECK(first_bad_byte("\xc3") == 0u);               // cut off
  CHECK(first_bad_byte("a\xc0\xaf") == 1u);          // an overlong slash
  CHECK(first_bad_byte("a\xed\xa0\x80") == 1u);      // half a surrogate pair
  CHECK(first_bad_byte("a\xf4\x90\x80\x80") == 1u);  // beyond U+10FFFF
  CHECK(first_bad_byte("a\xc2\x85") == 1u);          // a C1 control character
}

TEST_CASE("columns are counted in code points", "[text]") {
  CHECK(count_code_points("") == 0);
  CHECK(count_code_points("gin") == 3);
  CHECK(count_code_points("½ oz crème") == 10);
  CHECK(count_code_points("🍋") == 1);
}

TEST_CASE("markers are placed by the width on a terminal", "[text]") {
  CHECK(display_width("gin") == 3);
  CHECK(display_width("crème") == 5);
  CHECK(display_width("cre\u0300me") == 5);
  CHECK(display_width("柚子") == 4);
}

/// The whole table, without any limit.
std::size_t distance_by_table(std::string_view a, std::string_view b) {
  std::vector<std::vector<std::size_t>> table(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i)
    for (std::size_t j = 0; j <= b.size(); ++j) {
      if (i == 0 || j == 0) {
        table[i][j] = i + j;
        continue;
      }
      table[i][j] = std::min(
          {table[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1), table[i - 1][j] + 1, table[i][j - 1] + 1});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        table[i][j] = std::min(table[i][j], table[i - 2][j - 2] + 1);
    }
  return table[a.size()][b.size()];
}

TEST_CASE("changes of letters are counted as the whole table counts them, up to the limit", "[text]") {
  std::mt19937 chance(1);
  auto word = [&] {
    std::string made(chance() % 11, 'a');
    for (char& c : made) c = "abc"[chance() % 3];
    return made;
  };
  for (int i = 0; i < 20000; ++i) {
    std::string a = word(), b = word();
    const std::size_t limit = chance() % 6, counted = edit_distance(a, b, limit);
    if (counted != std::min(distance_by_table(a, b), limit + 1))
      FAIL(a << " and " << b << " within " << limit);
  }
}

TEST_CASE("edit distance counts inserts, deletes, replacements and swaps of neighbours", "[text]") {
  CHECK(edit_distance("whiskey", "whiskey", 3) == 0);
  CHECK(edit_distance("whisky", "whiskey", 3) == 1);
  CHECK(edit_distance("whiskeyy", "whiskey", 3) == 1);
  CHECK(edit_distance("whixkey", "whiskey", 3) == 1);
  CHECK(edit_distance("wihskey", "whiskey", 3) == 1);
  CHECK(edit_distance("", "gin", 3) == 3);
  CHECK(edit_distance("shaek", "shake", 3) == 1);
}

TEST_CASE("edit distance stops counting past its limit", "[text]") {
  CHECK(edit_distance("rum", "cognac", 2) == 3);
  CHECK(edit_distance("abcdefgh", "hgfedcba", 2) == 3);
  CHECK(edit_distance(std::string(100000, 'a'), std::string(100000, 'b'), 2) == 3);
}

TEST_CASE("the nearest word is offered when it is near enough", "[text]") {
  NearestWord nearest("lemn juice");
  for (const char* word : {"lime juice", "lemon juice", "orange juice"}) nearest.consider(word, word);
  CHECK(nearest.best() == "lemon juice");

  NearestWord none("xylophone");
  for (const char* word : {"gin", "rum", "cognac"}) none.consider(word, word);
  CHECK_FALSE(none.best());

  NearestWord exact("gin");
  exact.consider("gin", "Gin");
  exact.consider("gin", "another");
  CHECK(exact.best() == "Gin");
}

TEST_CASE("a lone letter is not answered with just any other", "[text]") {
  NearestWord nearest("q");
  for (const char* word : {"shake", "stir", "A", "l"}) nearest.consider(word, word);
  CHECK_FALSE(nearest.best());
}

TEST_CASE("lists read as a person says them", "[text]") {
  CHECK(join_with_and({}) == "");
  CHECK(join_with_and({"gin"}) == "gin");
  CHECK(join_with_and({"gin", "rum"}) == "gin and rum");
  CHECK(join_with_and({"gin", "rum", "rye"}) == "gin, rum and rye");
  CHECK(join_with_or({"a volume", "a mass", "a count"}) == "a volume, a mass or a count");
  CHECK(join({"a", "b"}, " / ") == "a / b");
}

TEST_CASE("an article fits its word", "[text]") {
  CHECK(article("shake") == "a");
  CHECK(article("ingredient") == "an");
  CHECK(article("Ice") == "an");
}

TEST_CASE("only ASCII letters are folded where keywords are compared", "[text]") {
  CHECK(equals_ignoring_case("ML", "ml"));
  CHECK_FALSE(equals_ignoring_case("ml", "mlx"));
  CHECK_FALSE(equals_ignoring_case("É", "é"));
  CHECK(lower_ascii("Dry SHAKE É") == "dry shake É");
}
