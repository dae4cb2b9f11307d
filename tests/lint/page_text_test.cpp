#include "lint/page_text.h"

#include <catch2/catch.hpp>

#include "base/text.h"
#include "lint/pages.h"

using namespace gill;

namespace {

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  for (std::size_t begin = 0; begin < text.size();) {
    auto end = std::min(text.find('\n', begin), text.size());
    lines.push_back(text.substr(begin, end - begin));
    begin = end + 1;
  }
  return lines;
}

}  // namespace

TEST_CASE("a page's paragraphs are wrapped to the width, word for word, and no line is broken too soon") {
  const std::string paragraph = "one two three four five six seven eight nine ten eleven twelve";
  auto lines = lines_of(lint::page_as_text("# a-rule\n\n" + paragraph + "\n", 20, false));
  std::string joined;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    INFO(lines[i]);
    CHECK(base::display_width(lines[i]) <= 20);
    joined += " " + lines[i];
    // The next word would not have fitted.
    if (i + 1 < lines.size() && lines[i].find("e") != std::string::npos &&
        lines[i + 1].find(' ') != std::string::npos) {
      auto next = base::trim(lines[i + 1]);
      next = next.substr(0, next.find(' '));
      CHECK(base::display_width(lines[i]) + 1 + base::display_width(next) > 20);
    }
  }
  CHECK(base::collapse_space(joined).find(paragraph) != std::string::npos);
}

TEST_CASE("every rule's page keeps to eighty columns but for its examples, and loses no word") {
  for (auto rule : diagnostics::all_rules()) {
    auto page = lint::page_of(rule).value_or("");
    auto text = lint::page_as_text(page, 80, false);
    INFO(diagnostics::info(rule).name);
    for (const auto& line : lines_of(text))
      if (!line.starts_with("    ")) CHECK(base::display_width(line) <= 80);
    CHECK(text.size() > page.size() / 2);
  }
}

TEST_CASE("the list of rules names every one, wrapped") {
  auto text = lint::list_of_rules(60);
  for (auto rule : diagnostics::all_rules())
    CHECK(text.find("  " + std::string(diagnostics::info(rule).name)) != std::string::npos);
  for (const auto& line : lines_of(text)) CHECK(base::display_width(line) <= 60);
}

TEST_CASE("a rule is found however its name is typed, and one that is not has those like it") {
  auto egg = *lint::find_typed_rule("raw-egg");
  for (const char* typed : {"RAW-EGG", "raw_egg", "[raw-egg]", " raw egg "}) {
    INFO(typed);
    CHECK(lint::find_typed_rule(typed) == egg);
  }
  CHECK_FALSE(lint::find_typed_rule("raw-eg"));
  auto near = lint::rules_like("raw-eg");
  REQUIRE_FALSE(near.empty());
  CHECK(near.front() == "raw-egg");
  CHECK(near.size() <= 4);
  auto sharing = lint::rules_like("eggs");
  CHECK(std::find(sharing.begin(), sharing.end(), "raw-egg") != sharing.end());
  CHECK(lint::rules_like("xyzzyxyzzy").empty());
}
