#pragma once
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "base/csv_reader.h"
#include "costing/costing.h"

namespace gill::importer {

using namespace costing;

/// Old specs as Gill text, with what a person must look at: the line of the source (0 where it has none) and
/// why.
struct ImportedSpecs {
  std::string text;
  std::vector<base::RowProblem> findings;
  std::size_t drinks = 0;
};

/// Errors in a Gill text: the line (from 1), what is wrong and what to write.
using CheckText = std::function<std::vector<base::RowProblem>(const std::string& text)>;

/// Turns old specs into Gill: schema.org `Recipe` objects in JSON-LD (alone, in lists, or inside a page of
/// HTML), or plain lines, one ingredient a line with number, unit and name in any order, a name above them
/// and method words below. What cannot be understood stays as a comment where it stood and is told; nothing
/// is lost. `house` lends its names and units (one with the library alone will do); `check` reads the result
/// back, and lines in error become comments, too. `numbers` is the unit that numbers without one mean: `ml`,
/// `oz`, or empty where nobody says. A file that is no text gives nothing but the finding.
ImportedSpecs import_specs(std::string_view bytes, const std::string& file, const House& house,
                           const CheckText& check, std::string_view numbers = {});

}  // namespace gill::importer
