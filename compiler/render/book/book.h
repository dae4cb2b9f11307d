#pragma once
#include <string>
#include <vector>

#include "analysis/specs.h"
#include "diagnostics/diagnostic.h"
#include "model/facts.h"
#include "source/source_file.h"
#include "symbols/symbol_table.h"
#include "units/unit_table.h"

namespace gill::render {

/// One file of an output, in memory. `path` is relative, of plain ASCII, with `/` between its parts.
struct OutputFile {
  std::string path;
  std::string content;
};

enum class Form : std::uint8_t {
  html,
  markdown,    ///< with tables as code hosts know them
  commonmark,  ///< CommonMark and nothing beyond: lists where Markdown has tables
  both,        ///< HTML and Markdown
};

/// Everything that a page may tell of a house. All of it outlives the call.
struct BookInput {
  const analysis::Specs& specs;
  const model::HouseFacts& facts;
  const units::UnitTable& units;
  const symbols::SymbolTable& names;
  const source::SourceSet& sources;
  /// The findings of the run. Errors are told on the page of the drink or prep in which they stand.
  const std::vector<diagnostics::Diagnostic>& findings;
  /// What `allow` lines suppressed: cautions print all the same.
  const std::vector<diagnostics::Diagnostic>& suppressed;
};

/// The staff spec book: `index`, `drinks/NAME`, `preps/NAME`, `ingredients/NAME`, `preps`, `inspection`,
/// `balance`, `allergens` and `glossary`, as `.html` (with `book.css`, `book.js` and the search's data,
/// `find.js`), as `.md` (with a drink's picture beside it, `.svg`), or both. Retired drinks are left out,
/// drafts too unless `drafts`. A drink or prep in error has its page, which marks what is not sound where it
/// would stand. The same input gives the same bytes, files in the order of their paths.
std::vector<OutputFile> make_book(const BookInput& input, Form form, bool drafts);

/// The page of a drink, a prep or an ingredient as one HTML file with its looks inside, whatever its status.
std::string page_alone(const BookInput& input, analysis::DrinkId id);
std::string page_alone(const BookInput& input, analysis::StockId id);

}  // namespace gill::render
