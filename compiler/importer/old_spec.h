#pragma once
#include <string>
#include <vector>

namespace gill::importer {

/// A drink on its way in: what was written, in order.
struct OldSpec {
  std::string name;
  /// Lines above the name that head more than this spec.
  std::vector<std::string> headings;
  std::vector<std::string> description, ingredients, instructions, authors, tags;
  /// Lines that belong to nothing else, and properties that Gill has no line for.
  std::vector<std::string> left_over;
  std::string glass;
  double serves = 1;
  /// Where it stands, for findings: lines of the ingredients, or 0.
  std::vector<std::size_t> ingredient_lines;
  /// The same of the instructions; empty where they are prose, which stands as the drink's text as well.
  std::vector<std::size_t> instruction_lines;
  std::size_t line = 0;
};

}  // namespace gill::importer
