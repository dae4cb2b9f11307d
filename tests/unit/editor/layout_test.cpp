#include <catch2/catch.hpp>
#include <random>

#include "editor/hints.h"
#include "editor/line_changes.h"
#include "editor/outline.h"
#include "editor/tokens.h"
#include "editor/typed_line.h"
#include "support/fixture.h"
#include "unit/editor/editor_fixture.h"

using namespace gill::editor;

namespace {

std::string applied(std::string_view text, const std::vector<LineChange>& changes) {
  std::string result;
  std::size_t at = 0;
  for (const auto& change : changes) {
    REQUIRE(change.begin >= at);
    result += text.substr(at, change.begin - at);
    result += change.text;
    at = change.end;
  }
  return result += text.substr(at);
}

}  // namespace

TEST_CASE("changes of lines make one text of any other", "[editor]") {
  std::mt19937 chance(5);
  const char* pieces[] = {"a\n", " a\n", "b  c\n", "bc\n", "\n", "  \n", "d", "e\r\n", "f g\n"};
  auto text = [&] {
    std::string made;
    for (auto n = chance() % 12; n > 0; --n) made += pieces[chance() % std::size(pieces)];
    return made;
  };
  for (int round = 0; round < 5000; ++round) {
    std::string before = text(), after = text();
    auto changes = line_changes(before, after);
    INFO(before << "---\n" << after);
    CHECK(applied(before, changes) == after);
    for (std::size_t i = 1; i < changes.size(); ++i) CHECK(changes[i].begin > changes[i - 1].begin);
    if (before == after) CHECK(changes.empty());
  }
}

TEST_CASE("lines that differ in spaces are changes of their own", "[editor]") {
  auto changes = line_changes("drink A\n 60ml gin\n  30 ml x\n  \n", "drink A\n  60 ml  gin\n  30 ml  x\n");
  REQUIRE(changes.size() == 3);
  CHECK(changes[0].text == "  60 ml  gin\n");
  CHECK((changes[1].first_line == 2 && changes[1].last_line == 3));
  CHECK((changes[2].first_line == 3 && changes[2].text.empty()));
}

TEST_CASE("tokens of every spec stand in order, on one line each, and hold what they say", "[editor]") {
  for (const auto& [path, text] : gill::testing::texts_in("specs")) {
    EditedHouse house(text);
    INFO(path);
    std::uint32_t end = 0;
    std::size_t numbers = 0;
    for (const auto& token : coloured_tokens(house.view, house.file)) {
      CHECK(token.begin >= end);
      CHECK(token.end > token.begin);
      end = token.end;
      auto words = std::string_view(house.text).substr(token.begin, token.end - token.begin);
      CHECK(words.find('\n') == std::string_view::npos);
      numbers += token.type == TokenType::number;
      if (token.type == TokenType::comment) CHECK(words.starts_with('#'));
    }
    CHECK(numbers > 5);
  }
}

TEST_CASE("hints stand behind the words of their lines, before a comment", "[editor]") {
  EditedHouse house(
      "drink Bench\n  glass coupe\n  60 ml gin  # cold\n  1 dash aromatic bitters\n  shake 12 s\n  strain\n");
  auto found = hints(house.view, house.file, 0, UINT32_MAX);
  REQUIRE(found.size() >= 3);
  CHECK(found[0].offset == house.at(" gin"));
  CHECK(found[0].words == "= 2 oz");
  CHECK(found[1].offset == house.at("  # cold"));
  CHECK(found[1].words == "60 ml, 43.0 % abv");
  auto few = hints(house.view, house.file, 0, house.at(" gin"));
  CHECK(few.size() == 1);
}

TEST_CASE("a declaration ends with its last line, and the comment above the next belongs to that one",
          "[editor]") {
  EditedHouse house("# first\ndrink A\n  60 ml gin\n  # inside\n\n# about B\ndrink B\n  30 ml gin\n\n");
  auto entries = outline(house.view, house.file);
  REQUIRE(entries.size() == 2);
  CHECK(house.words_of(entries[0].whole) == "drink A\n  60 ml gin\n  # inside");
  CHECK(house.words_of(entries[1].whole) == "drink B\n  30 ml gin");
  CHECK(house.view.holder(house.file, house.at("inside"))->declaration_index == 0);
  CHECK_FALSE(house.view.holder(house.file, 0).has_value());
}

TEST_CASE("the line that is typed knows its declaration and where its words begin", "[editor]") {
  std::string text = "# x\ndrink A\n  60 ml lemon ju\n| no\n";
  TypedLine typed(text, static_cast<std::uint32_t>(text.find(" ju") + 3));
  CHECK(typed.kind() == gill::symbols::DeclarationKind::drink);
  CHECK_FALSE(typed.at_new_word());
  CHECK(typed.place_of(2) == text.find("lemon"));
  CHECK(TypedLine(text, 1).is_prose());
  CHECK_FALSE(TypedLine(text, 0).kind().has_value());
  CHECK(TypedLine(text, static_cast<std::uint32_t>(text.size())).is_header());
  CHECK(TypedLine(text, UINT32_MAX).is_header());
}
