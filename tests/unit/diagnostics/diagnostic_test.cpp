#include "diagnostics/diagnostic.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <set>

#include "diagnostics/render.h"

using namespace gill::diagnostics;
using gill::source::SourceSet;
using gill::source::Span;

TEST_CASE("every rule has a name of its own in lower case with dashes", "[diagnostics]") {
  std::set<std::string_view> names;
  for (Rule rule : all_rules()) {
    INFO(info(rule).name);
    CHECK(names.insert(info(rule).name).second);
    CHECK(info(rule).name.find_first_not_of("abcdefghijklmnopqrstuvwxyz-") == std::string_view::npos);
    CHECK_FALSE(info(rule).summary.empty());
    CHECK(find_rule(info(rule).name) == rule);
  }
  CHECK_FALSE(find_rule("no-such-rule"));
}

TEST_CASE("findings carry their rule's severity", "[diagnostics]") {
  DiagnosticSink sink;
  CHECK(sink.add(Rule::wrong_kind, {}, "a").severity == Severity::error);
  CHECK(sink.add(Rule::raw_egg, {}, "b").severity == Severity::warning);
  CHECK(sink.add(Rule::off_measure, {}, "c").severity == Severity::note);
  CHECK(sink.add(Rule::alcohol_in_alcohol_free, {}, "d").severity == Severity::error);
  CHECK(sink.count(Severity::error) == 2);
  CHECK(sink.has_errors());
}

TEST_CASE("a message that quotes a very long line is cut at a whole letter", "[diagnostics]") {
  DiagnosticSink sink;
  std::string long_word;
  for (int i = 0; i < 1000; ++i) long_word += "é";
  auto message = sink.add(Rule::bad_line, {}, "a" + long_word).message;
  CHECK(message.size() < 700);
  CHECK_THAT(message, Catch::EndsWith("é…"));
}

TEST_CASE("findings are sorted by file and place, whatever order the files came in", "[diagnostics]") {
  SourceSet sources;
  auto later = sources.add("b.gill", "one two three", false);
  auto earlier = sources.add("a.gill", "one two three", false);
  DiagnosticSink sink;
  sink.add(Rule::bad_line, Span{later, 0, 3}, "third");
  sink.add(Rule::bad_line, Span{earlier, 4, 7}, "second");
  sink.add(Rule::bad_line, Span{earlier, 0, 3}, "first");
  sort_by_place(sink.all(), sources);
  REQUIRE(sink.all().size() == 3);
  CHECK(sink.all()[0].message == "first");
  CHECK(sink.all()[1].message == "second");
  CHECK(sink.all()[2].message == "third");
}

TEST_CASE("one finding said twice is said once", "[diagnostics]") {
  SourceSet sources;
  auto id = sources.add("a.gill", "one two three", false);
  DiagnosticSink sink;
  sink.add(Rule::bad_line, Span{id, 0, 3}, "same");
  sink.add(Rule::unknown_word, Span{id, 0, 3}, "same");
  sink.add(Rule::bad_line, Span{id, 0, 3}, "same");
  sort_by_place(sink.all(), sources);
  CHECK(sink.all().size() == 2);
}

namespace {

SourceSet one_file(const std::string& text) {
  SourceSet sources;
  sources.add("sours.gill", text, false);
  return sources;
}

std::vector<Diagnostic> one_finding(std::uint32_t begin, std::uint32_t end) {
  DiagnosticSink sink;
  sink.add(Rule::wrong_kind, Span{gill::source::FileId::at(0), begin, end},
           "a shake takes a time, and 30 ml is a volume", "Write it as `12 s`.");
  return sink.all();
}

}  // namespace

TEST_CASE("text findings begin in the GNU form, then show the line with a marker, then what to do",
          "[diagnostics]") {
  auto sources = one_file("drink X\n  shake 30 ml\n");
  CHECK(render_text(one_finding(16, 21), sources, false) ==
        "sours.gill:2:9: error: a shake takes a time, and 30 ml is a volume [wrong-kind]\n"
        "  |   shake 30 ml\n"
        "  |         ^^^^^\n"
        "  Write it as `12 s`.\n");
}

TEST_CASE("colour adds no word and takes none away", "[diagnostics]") {
  auto sources = one_file("drink X\n  shake 30 ml\n");
  auto plain = render_text(one_finding(16, 21), sources, false);
  auto coloured = render_text(one_finding(16, 21), sources, true);
  CHECK(coloured != plain);
  std::string stripped;
  for (std::size_t i = 0; i < coloured.size(); ++i) {
    if (coloured[i] == '\x1b') {
      while (coloured[i] != 'm') ++i;
    } else {
      stripped += coloured[i];
    }
  }
  CHECK(stripped == plain);
}

TEST_CASE("the marker stands under wide letters, too", "[diagnostics]") {
  auto sources = one_file("  柚子 30 ml\n");
  auto text = render_text(one_finding(9, 14), sources, false);
  CHECK_THAT(text, Catch::Contains("sours.gill:1:6: error"));
  CHECK_THAT(text, Catch::Contains("\n  |        ^^^^^\n"));
}

TEST_CASE("a terminal never gets a control character or broken text from a spec", "[diagnostics]") {
  auto sources = one_file("  a\x1b[31mb\xff\tc\n");
  auto text = render_text(one_finding(3, 4), sources, false);
  CHECK(text.find('\x1b') == std::string::npos);
  CHECK(text.find('\xff') == std::string::npos);
}

TEST_CASE("a very long line is cut around the marker", "[diagnostics]") {
  auto sources = one_file(std::string(5000, 'a') + "30 ml" + std::string(5000, 'b'));
  auto text = render_text(one_finding(5000, 5005), sources, false);
  CHECK(text.size() < 500);
  CHECK_THAT(text, Catch::Contains("30 ml"));
}

TEST_CASE("an empty span still gets its marker", "[diagnostics]") {
  auto sources = one_file("  shake");
  CHECK_THAT(render_text(one_finding(7, 7), sources, false), Catch::Contains("\n  |        ^\n"));
}

TEST_CASE("JSON findings have the fixed keys, and a drink of null where there is none", "[diagnostics]") {
  auto sources = one_file("drink X\n  shake 30 ml\n");
  auto findings = one_finding(16, 21);
  findings.push_back(findings.front());
  findings.back().drink = "X";
  auto document = nlohmann::json::parse(render_json(findings, sources));
  REQUIRE(document["findings"].size() == 2);
  auto first = document["findings"][0];
  CHECK(first == nlohmann::json{{"rule", "wrong-kind"},
                                {"severity", "error"},
                                {"message", "a shake takes a time, and 30 ml is a volume"},
                                {"file", "sours.gill"},
                                {"line", 2},
                                {"column", 9},
                                {"length", 5},
                                {"help", "Write it as `12 s`."},
                                {"drink", nullptr}});
  CHECK(document["findings"][1]["drink"] == "X");
}

TEST_CASE("JSON stays JSON when the source is broken text", "[diagnostics]") {
  auto sources = one_file("  \xff\n");
  auto findings = one_finding(2, 3);
  findings.front().message = "the word \xff is broken";
  CHECK_NOTHROW(nlohmann::json::parse(render_json(findings, sources)));
}

TEST_CASE("no findings are an empty list, and no text", "[diagnostics]") {
  SourceSet sources;
  CHECK(render_text({}, sources, false) == "");
  CHECK(nlohmann::json::parse(render_json({}, sources)) ==
        nlohmann::json{{"findings", nlohmann::json::array()}});
}
