#include "support/fixture.h"

#include <fmt/format.h>

#include <algorithm>
#include <catch2/catch.hpp>

#include "base/text.h"

namespace gill::testing {
namespace {

/// The standard library, parsed once a program.
const FrontEnd& library() {
  static const FrontEnd parsed = [] {
    FrontEnd result;
    result.parse_files(library_texts(""), true);
    return result;
  }();
  return parsed;
}

Compiled compile_onto(const FrontEnd& library, const std::vector<NamedText>& files) {
  Compiled compiled{library};
  compiled.parse_files(files, false);
  compiled.run();
  return compiled;
}

template <typename Table>
const auto& find(const Compiled& compiled, symbols::NameSpace space, std::string_view name,
                 const Table& table) {
  auto id = compiled.names.find(space, name);
  INFO("looking for `" << name << "`");
  REQUIRE(id.valid());
  return table[compiled.specs.index_of[id.index()]];
}

std::string shown(const diagnostics::Diagnostic& finding, const source::SourceSet& sources) {
  auto place = sources[finding.span.file_id].place_of(finding.span);
  return fmt::format("{} {}:{}-{}", diagnostics::info(finding.rule).name, place.line, place.column,
                     place.length);
}

std::vector<std::string> shown(const diagnostics::DiagnosticSink& sink, const source::SourceSet& sources) {
  std::vector<std::string> lines;
  for (const auto& finding : sink.all()) lines.push_back(shown(finding, sources));
  return lines;
}

/// One comment that says what must be found on the next line that is none.
struct Expected {
  std::string finding;  ///< `error wrong-kind 3:14-17`
  std::string words;
};

std::string_view take_until(std::string_view& text, std::string_view end) {
  auto at = text.find(end);
  REQUIRE(at != std::string_view::npos);
  auto taken = text.substr(0, at);
  text.remove_prefix(at + end.size());
  return taken;
}

/// Reads `# error: 14-17 [rule] words`; false when the line is no such comment.
bool read_expected(std::string_view line, Expected& expected, std::string& place) {
  line = base::trim(line);
  for (std::string_view severity : {"error", "warning", "note"}) {
    if (!line.starts_with("# " + std::string(severity) + ": ")) continue;
    line.remove_prefix(severity.size() + 4);
    place = take_until(line, " [");
    expected = {fmt::format("{} {}", severity, take_until(line, "]")), std::string(base::trim(line))};
    return true;
  }
  return false;
}

std::vector<Expected> expectations(std::string_view text) {
  std::vector<Expected> all, waiting;
  std::vector<std::string> places;
  std::size_t number = 0;
  while (!text.empty()) {
    ++number;
    auto end = std::min(text.find('\n'), text.size());
    Expected expected;
    std::string place;
    if (read_expected(text.substr(0, end), expected, place)) {
      waiting.push_back(expected);
      places.push_back(place);
    } else {
      for (std::size_t i = 0; i < waiting.size(); ++i)
        all.push_back({fmt::format("{} {}:{}", waiting[i].finding, number, places[i]), waiting[i].words});
      waiting.clear();
      places.clear();
    }
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  REQUIRE(waiting.empty());
  return all;
}

}  // namespace

const analysis::Stock& Compiled::stock(std::string_view name) const {
  return find(*this, symbols::NameSpace::stock, name, specs.stock);
}
const analysis::Glass& Compiled::glass(std::string_view name) const {
  return find(*this, symbols::NameSpace::glass, name, specs.glasses);
}
const analysis::Ice& Compiled::ice(std::string_view name) const {
  return find(*this, symbols::NameSpace::ice, name, specs.ices);
}
const analysis::Family& Compiled::family(std::string_view name) const {
  return find(*this, symbols::NameSpace::family, name, specs.families);
}
const analysis::Drink& Compiled::drink(std::string_view name) const {
  return find(*this, symbols::NameSpace::drink, name, specs.drinks);
}
const analysis::Menu& Compiled::menu(std::string_view name) const {
  return find(*this, symbols::NameSpace::menu, name, specs.menus);
}
const analysis::PriceList& Compiled::prices(std::string_view name) const {
  return find(*this, symbols::NameSpace::prices, name, specs.price_lists);
}

std::vector<std::string> Compiled::lines(const analysis::Recipe& recipe) const {
  std::vector<std::string> result;
  for (const auto& line : recipe.order) {
    if (line.is_amount) {
      const auto& amount = recipe.amounts[line.index];
      result.push_back(amount.as_written + " " + name_of(amount.use()));
    } else {
      const auto& step = recipe.steps[line.index];
      std::string text(analysis::info(step.verb).name);
      if (step.use) text += " " + name_of(*step.use);
      result.push_back(text);
    }
  }
  return result;
}

Compiled compile_files(const std::vector<NamedText>& files) { return compile_onto(library(), files); }

Compiled compile(std::string_view text) { return compile_files({{"house.gill", std::string(text)}}); }

Compiled compile_alone(std::string_view text) {
  return compile_onto({}, {{"house.gill", std::string(text)}});
}

std::string Parsed::tokens(std::size_t line) const {
  std::string text;
  syntax::LineView view(sources[file.file_id], file, static_cast<std::uint32_t>(line));
  for (std::size_t i = 0; i < view.size(); ++i)
    text += fmt::format("{}{}({})", i > 0 ? " " : "", syntax::name_of(view.kind(i)), view.text(i));
  return text;
}

std::vector<syntax::LineKind> Parsed::kinds() const {
  std::vector<syntax::LineKind> kinds;
  for (const auto& line : file.lines) kinds.push_back(line.kind);
  return kinds;
}

Parsed parse(std::string_view text) {
  Parsed parsed;
  auto id = parsed.sources.add("house.gill", std::string(text), false);
  parsed.file = syntax::parse(id, parsed.sources, parsed.sink);
  return parsed;
}

std::vector<std::string> findings(const Compiled& compiled) { return shown(compiled.sink, compiled.sources); }
std::vector<std::string> findings(const Parsed& parsed) { return shown(parsed.sink, parsed.sources); }
std::vector<std::string> findings(std::string_view text) { return findings(compile(text)); }

void expect_findings(std::string_view text) {
  auto compiled = compile(text);
  const auto& found = compiled.sink.all();
  auto expected = expectations(text);
  std::vector<std::string> wanted, got;
  for (const auto& one : expected) wanted.push_back(one.finding);
  for (const auto& one : found)
    got.push_back(fmt::format("{} {}", diagnostics::name_of(one.severity), shown(one, compiled.sources)));
  INFO(text);
  for (const auto& one : found) UNSCOPED_INFO(one.message << " | " << one.help);
  CHECK(got == wanted);
  if (got != wanted) return;
  for (std::size_t i = 0; i < expected.size(); ++i) {
    INFO(wanted[i]);
    if (!expected[i].words.empty())
      CHECK_THAT(found[i].message + " | " + found[i].help, Catch::Contains(expected[i].words));
  }
}

void in_drink(const std::string& expected, const std::string& line) {
  expect_findings("drink X\n  # error: " + expected + "\n  " + line + "\n");
}

void in_prep(const std::string& expected, const std::string& line) {
  expect_findings("prep X\n  # error: " + expected + "\n  " + line + "\n");
}

}  // namespace gill::testing
