#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "support/front_end.h"

/// What tests share: a house is read in one call, and findings are compared as short lines of text.
namespace gill::testing {

/// A house that was read, with what tests ask of it.
struct Compiled : FrontEnd {
  /// The declaration of that name; fails the test when there is none.
  const analysis::Stock& stock(std::string_view name) const;
  const analysis::Glass& glass(std::string_view name) const;
  const analysis::Ice& ice(std::string_view name) const;
  const analysis::Family& family(std::string_view name) const;
  const analysis::Drink& drink(std::string_view name) const;
  const analysis::Menu& menu(std::string_view name) const;
  const analysis::PriceList& prices(std::string_view name) const;
  /// What is used, by name: `mint leaf`.
  std::string name_of(const analysis::Use& use) const { return analysis::name_of(use, specs, units); }
  /// The recipe in its order, a line each: `45 ml rye whiskey`, `shake`, `garnish lemon twist`.
  std::vector<std::string> lines(const analysis::Recipe& recipe) const;
};

/// Reads a house of one file with the standard library.
Compiled compile(std::string_view text);
/// Reads a house of several files.
Compiled compile_files(const std::vector<NamedText>& files);
/// Reads a house without the library: only what the compiler itself knows.
Compiled compile_alone(std::string_view text);

/// One file through the parser alone.
struct Parsed {
  source::SourceSet sources;
  diagnostics::DiagnosticSink sink;
  syntax::File file;

  /// The tokens of a line (from 0) as `number(60) word(ml)`.
  std::string tokens(std::size_t line) const;
  /// The kinds of all lines.
  std::vector<syntax::LineKind> kinds() const;
};
Parsed parse(std::string_view text);

/// The findings as `rule line:column-length`, in the order of their places.
std::vector<std::string> findings(const Compiled& compiled);
std::vector<std::string> findings(const Parsed& parsed);
/// The same of a text that is compiled with the library.
std::vector<std::string> findings(std::string_view text);

/// Compiles the text and holds its findings to the comments in it. Above the line it concerns a comment says
/// `# error: 14-17 [wrong-kind] 12 s`: the severity, the column and the length, the rule, and (if anything
/// follows) words that its message or help must hold. Several comments may stand above one line.
void expect_findings(std::string_view text);
/// The same of one line in a drink, or in a prep, above which such a comment would stand.
void in_drink(const std::string& expected, const std::string& line);
void in_prep(const std::string& expected, const std::string& line);

}  // namespace gill::testing
