#pragma once
#include <string>
#include <utility>
#include <vector>

#include "analysis/specs.h"
#include "syntax/parse.h"

/// The stages from characters to typed declarations in one call, for tests and fuzz targets.
namespace gill::testing {

/// A file: its path as messages show it, and its text.
using NamedText = std::pair<std::string, std::string>;

/// A house read through every stage up to the typed declarations, and all that was found.
struct FrontEnd {
  source::SourceSet sources;
  diagnostics::DiagnosticSink sink;
  std::vector<syntax::File> files;
  symbols::SymbolTable names;
  units::UnitTable units;
  analysis::Specs specs;

  /// Parses files; those of the library come first.
  void parse_files(const std::vector<NamedText>& texts, bool from_library);
  /// Runs the later stages over all files and puts the findings in order.
  void run();
};

/// The spec files of a folder of the project (`specs`), their paths relative to it, sorted by path.
/// Throws std::runtime_error where one cannot be read, or where the folder holds none.
std::vector<NamedText> texts_in(const std::string& folder);

/// The files of a folder below stdlib/ (all of them for an empty one), named as messages show them. Throws as
/// `texts_in`.
std::vector<NamedText> library_texts(const std::string& folder);

/// The bytes of a file. Throws std::runtime_error where it cannot be read.
std::string read_file(const std::string& path);

}  // namespace gill::testing
