// Whatever is written in a spec: tidying it twice is tidying it once, its facts and findings are what they
// were, every comment and text word is still there, and a line that cannot be read stands byte for byte.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <random>
#include <set>

#include "driver/tidy_files.h"
#include "house_fixture.h"
#include "render/facts/facts_json.h"
#include "support/front_end.h"
#include "support/sanitized.h"

using namespace gill;

namespace {

std::string tidied(const std::string& text) { return driver::tidy_text("a.gill", text).files.at(0).after; }

/// What was written, and where, is no fact.
void drop_spelling(nlohmann::json& json) {
  if (json.is_object()) {
    json.erase("as_written");
    json.erase("line");
  }
  if (json.is_structured())
    for (auto& part : json) drop_spelling(part);
}

nlohmann::json bare_facts_of(const driver::Compilation& house) {
  auto json = nlohmann::json::parse(
      render::facts_json({house.specs, house.facts, house.units, house.names, house.sources, {}}));
  drop_spelling(json);
  return json;
}

/// Rule, drink and message of every finding; what a message repeats of the line is left out.
std::multiset<std::string> told_findings_of(const driver::Compilation& house) {
  std::multiset<std::string> all;
  for (const auto& finding : house.findings) {
    std::string told(diagnostics::info(finding.rule).name);
    told += "|" + finding.drink + "|";
    bool quoted = false;
    for (char c : finding.message) {
      quoted = quoted != (c == '`');
      if (!quoted && c != ' ') told += c;
    }
    all.insert(told);
  }
  return all;
}

std::vector<std::string> split_lines_of(const std::string& text) {
  std::vector<std::string> lines(1);
  for (char c : text)
    if (c == '\n')
      lines.emplace_back();
    else if (c != '\r')
      lines.back() += c;
  return lines;
}

/// The comments, the texts and the lines in error of a house's one file, white space as one space in
/// comments.
struct Kept {
  std::multiset<std::string> comments, texts, damaged;
};

Kept parts_kept_of(const driver::Compilation& house) {
  Kept kept;
  const auto& file = house.files.back();
  const auto& text = house.sources[file.file_id].text;
  std::set<std::size_t> damaged;
  for (const auto& finding : house.findings) {
    auto group = diagnostics::info(finding.rule).group;
    bool of_reading = group == diagnostics::RuleGroup::language || group == diagnostics::RuleGroup::units;
    if (finding.severity != diagnostics::Severity::error || !of_reading) continue;
    auto span = house.sources.written(finding.span);
    damaged.insert(house.sources[span.file_id].line_of(span.begin));
  }
  for (std::size_t i = 0; i < file.lines.size(); ++i) {
    const auto& line = file.lines[i];
    if (line.kind == syntax::LineKind::bad || damaged.count(i))
      kept.damaged.insert(text.substr(line.begin, line.end - line.begin));
    else if (line.tail < line.end && line.kind == syntax::LineKind::text)
      kept.texts.insert(text.substr(line.tail, line.end - line.tail));
    else if (line.tail < line.end || line.kind == syntax::LineKind::comment)
      kept.comments.insert(
          base::collapse_space(std::string_view(text).substr(line.tail, line.end - line.tail)));
  }
  return kept;
}

void hold(const std::string& text) {
  INFO(text);
  std::string once = tidied(text);
  INFO(once);
  CHECK(tidied(once) == once);
  auto before = test::compile(text), after = test::compile(once);
  CHECK(bare_facts_of(*before) == bare_facts_of(*after));
  CHECK(told_findings_of(*before) == told_findings_of(*after));
  auto old = parts_kept_of(*before), now = parts_kept_of(*after);
  CHECK(old.comments == now.comments);
  CHECK(old.texts == now.texts);
  auto lines = split_lines_of(once);
  for (const auto& line : old.damaged) {
    INFO(line);
    CHECK(std::find(lines.begin(), lines.end(), line) != lines.end());
  }
}

/// The specs below a folder, each by itself.
std::vector<std::string> all_texts(const std::string& folder) {
  namespace fs = std::filesystem;
  std::vector<std::string> texts;
  for (const auto& entry : fs::recursive_directory_iterator(GILL_SOURCE_DIR "/" + folder))
    if (entry.path().extension() == ".gill") texts.push_back(testing::read_file(entry.path().string()));
  std::sort(texts.begin(), texts.end());
  return texts;
}

/// The declarations of all texts, one by one: what mutations are made of.
std::vector<std::string> declarations() {
  std::vector<std::string> all;
  for (const char* folder : {"specs", "tests"})
    for (const auto& text : all_texts(folder))
      for (const auto& line : split_lines_of(text)) {
        bool begins = !line.empty() && line[0] != ' ' && line[0] != '#' && line[0] != '|' && line[0] != '\t';
        if (begins) all.emplace_back();
        if (!all.empty()) all.back() += line + "\n";
      }
  return all;
}

std::string mutated(std::string text, std::mt19937& random) {
  static const std::vector<std::string> pieces = {
      " ",         "  ",     "\t",   "\n",     "\n\n", "#",    " # so",         "|",  ",",
      "\"",        "½",      "1½ ",  " oz ",   "ml",   "..",   "±5 %",          "=",  " and ",
      " over ice", " then ", "\r\n", "about ", "\xff", "\x01", "  | said so\n", "de", "X",
      "%",         " of "};
  auto below = [&](std::size_t n) { return std::uniform_int_distribution<std::size_t>(0, n - 1)(random); };
  for (std::size_t changes = 1 + below(4); changes-- > 0 && !text.empty();) {
    std::size_t at = below(text.size());
    switch (below(4)) {
      case 0:
        text.insert(at, pieces[below(pieces.size())]);
        break;
      case 1:
        text.erase(at, 1 + below(6));
        break;
      case 2:
        text[at] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[at])));
        break;
      case 3:
        text.insert(at, text.substr(below(text.size()), 1 + below(20)));
        break;
    }
  }
  return text;
}

}  // namespace

TEST_CASE("a hurried text that is tidied means what it meant and is tidy", "[tidy]") {
  auto texts = all_texts("tests/corpus/hurried");
  REQUIRE(texts.size() > 80);
  for (std::size_t i = 0; i < texts.size(); ++i)
    if (testing::is_tried(i)) hold(texts[i]);
}

TEST_CASE("a text of the tree that is tidied means what it meant and is tidy", "[tidy]") {
  std::size_t count = 0;
  for (const char* folder :
       {"specs", "tests/corpus/drinks", "tests/corpus/mistakes", "tests/diff", "tests/golden", "tests/lint",
        "tests/regress", "tests/season", "compiler/importer/new_house"})
    for (const auto& text : all_texts(folder)) {
      if (testing::is_tried(count)) hold(text);
      ++count;
    }
  CHECK(count > 150);
}

TEST_CASE("a damaged text that is tidied means what it meant and is tidy", "[tidy]") {
  auto all = declarations();
  REQUIRE(all.size() > 500);
  std::mt19937 random(2026);
  const char* rounds = std::getenv("GILL_ROUNDS");
  for (int round = 0; round < (rounds ? std::atoi(rounds) : testing::rounds(120)); ++round) {
    std::size_t first = std::uniform_int_distribution<std::size_t>(0, all.size() - 3)(random);
    hold(mutated(all[first] + all[first + 1], random));
  }
}

TEST_CASE("few declarations must keep their words", "[tidy]") {
  std::size_t kept = 0, all = 0;
  for (const auto& text : all_texts("tests/corpus/hurried")) {
    kept += driver::tidy_text("a.gill", text).kept;
    for (const auto& line : split_lines_of(text))
      all += line.starts_with("drink ") || line.starts_with("prep ");
  }
  INFO(kept << " of " << all);
  CHECK(all > 500);
  CHECK(kept * 30 < all);
}
