#pragma once
#include <cstdint>
#include <string>
#include <vector>

namespace gill::importer {

/// A line of an old spec without its bullet, and where it stands.
struct OldLine {
  std::string text;
  std::size_t line = 0;
};

/// What a label before a line says that it is: `Glass: coupe`.
enum class LabelRole : std::uint8_t {
  none,
  name,
  glass,
  ice,
  garnish,
  rim,
  method,
  amounts,
  makes,
  serves,
  keeps,
  remark,  ///< `Note: …`, `PS: …`: said beside the drink
  place    ///< `Step 2: strain`, `Sweet: 15 ml honey syrup`: where in the drink, which no line of Gill says
};

/// One line of what a drink is made of and how, in its order.
struct OldPart {
  OldLine what;
  LabelRole role = LabelRole::none;
  /// The line with its label, as it was written.
  std::string written;
  /// What a person must look at of where it stands, as a full sentence; mostly empty.
  std::string doubt = {};
};

/// A drink or prep on its way in: what was written, in order.
struct OldSpec {
  OldLine name;
  bool is_prep = false;
  /// What the source calls its kind: `Cocktail`, `Syrups`; mostly nothing.
  std::vector<OldLine> categories;
  /// Lines above the name that head more than this spec.
  std::vector<OldLine> headings;
  std::vector<OldLine> description, authors, tags;
  std::vector<OldPart> parts;
  /// Prose of a method that stands as the drink's text as well, so that nothing of it needs a comment.
  std::vector<OldLine> told_steps;
  /// Comments that leave nothing in doubt.
  std::vector<OldLine> remarks;
  /// Properties that Gill has no line for.
  std::vector<OldLine> left_over;
};

}  // namespace gill::importer
