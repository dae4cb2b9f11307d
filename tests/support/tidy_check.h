#pragma once
#include <algorithm>
#include <string>
#include <vector>

#include "base/text.h"
#include "support/front_end.h"
#include "tidy/tidy.h"

/// What holds of any text that is tidied, for tests and fuzz targets.
namespace gill::testing {

/// A house of a pantry and one text.
inline FrontEnd read_with(const FrontEnd& pantry, const std::string& text) {
  FrontEnd house = pantry;
  house.parse_files({{"a.gill", text}}, false);
  house.run();
  return house;
}

/// The last file of a house, each of its declarations as far as `extent` goes.
inline std::string tidied(const FrontEnd& house, tidy::Extent extent) {
  const auto& file = house.files.back();
  tidy::Tidier tidier(house.sources, {house.names, house.units}, house.specs, house.sink.all());
  return tidier.tidied(file, std::vector<tidy::Extent>(file.declarations.size(), extent));
}

/// All that was read, and the rules that found something.
inline std::string reading_of(const FrontEnd& house) {
  std::vector<std::string> rules;
  for (const auto& finding : house.sink.all()) rules.emplace_back(diagnostics::info(finding.rule).name);
  std::sort(rules.begin(), rules.end());
  return analysis::dump(house.specs, house.units) + base::join(rules, " ");
}

/// The comments and texts of the last file, one a line.
inline std::string words_beside(const FrontEnd& house) {
  const auto& file = house.files.back();
  const auto& text = house.sources[file.file_id].text;
  std::string words;
  for (const auto& line : file.lines)
    if (line.tail < line.end)
      words += base::collapse_space(std::string_view(text).substr(line.tail, line.end - line.tail)) + "\n";
  return words;
}

/// What does not hold when only white space may change; empty where all does.
inline std::string broken_by_spacing(const FrontEnd& pantry, const std::string& text) {
  FrontEnd before = read_with(pantry, text);
  std::string once = tidied(before, tidy::Extent::spaces);
  FrontEnd after = read_with(pantry, once);
  if (tidied(after, tidy::Extent::spaces) != once) return "it is not tidy the second time";
  if (reading_of(before) != reading_of(after)) return "it is read otherwise";
  if (words_beside(before) != words_beside(after)) return "a comment or a text is another";
  return {};
}

/// What does not hold when words may change as far as `extent` goes.
inline std::string broken_by_spelling(const FrontEnd& pantry, const std::string& text, tidy::Extent extent) {
  FrontEnd before = read_with(pantry, text);
  FrontEnd after = read_with(pantry, tidied(before, extent));
  if (before.files.back().declarations.size() != after.files.back().declarations.size())
    return "a declaration is gone or new";
  return words_beside(before) != words_beside(after) ? "a comment or a text is another" : "";
}

}  // namespace gill::testing
