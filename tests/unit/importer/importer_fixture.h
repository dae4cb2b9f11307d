#pragma once
#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <sstream>

#include "diagnostics/diagnostic.h"
#include "importer/import_specs.h"
#include "unit/plan/plan_fixture.h"

namespace gill::testing {

/// What is wrong in a text, with the lines on which it was written.
inline std::vector<base::RowProblem> errors_in(const std::string& text) {
  EvaluatedHouse house(text);
  auto findings = house.compiled.sink.all();
  diagnostics::sort_by_place(findings, house.compiled.sources);
  std::vector<base::RowProblem> errors;
  for (const auto& finding : findings)
    if (finding.severity == diagnostics::Severity::error)
      errors.push_back({house.compiled.sources[finding.span.file_id].place_of(finding.span).line,
                        finding.help.empty() ? finding.message : finding.message + ". " + finding.help});
  return errors;
}

/// A word with several meanings; parts whose size is not said.
inline bool is_question(const std::string& message) {
  return message.find("can mean several things") != std::string::npos ||
         message.find("parts need a size") != std::string::npos;
}

/// What came of a text, with all of it told when a check fails.
struct Brought {
  importer::ImportedSpecs specs;
  std::string told;

  explicit Brought(std::string_view bytes, std::string_view numbers = {})
      : specs(importer::import_specs(bytes, "old.txt", library().house, errors_in, numbers)),
        told(specs.text) {
    for (const auto& finding : specs.findings)
      told += std::to_string(finding.line) + ": " + finding.message + "\n";
  }
  bool has_line(std::string_view line) const { return has_row(specs.text, line); }
  bool holds(std::string_view words) const { return specs.text.find(words) != std::string::npos; }
  bool tells(std::size_t line, std::string_view words) const {
    return std::any_of(specs.findings.begin(), specs.findings.end(), [&](const auto& finding) {
      return finding.line == line && finding.message.find(words) != std::string::npos;
    });
  }
  /// Nothing is wrong in it but what the language asks and one answer mends.
  bool is_sound() const {
    auto errors = errors_in(specs.text);
    return std::all_of(errors.begin(), errors.end(),
                       [](const auto& error) { return is_question(error.message); });
  }
};

/// The words and numbers of a text, without case; labels and `and` are said by lines of their own.
inline std::vector<std::string> words_in(const std::string& text) {
  std::vector<std::string> words;
  std::string word;
  for (char c : text + " ") {
    bool digit = c >= '0' && c <= '9', letter = std::isalpha(static_cast<unsigned char>(c)) != 0;
    bool goes_on = !word.empty() && (word.back() >= '0' && word.back() <= '9') == digit;
    if (!word.empty() && (!goes_on || (!digit && !letter))) {
      words.push_back(word);
      word.clear();
    }
    if (digit || letter) word += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return words;
}

/// Those that stand more often in the source than in what came of it.
inline std::vector<std::string> lost_words(const std::string& source, const std::string& written) {
  std::map<std::string, int> counts;
  auto head = written.find('\n', written.find('\n') + 1);
  for (const auto& word : words_in(written.substr(std::min(head, written.size())))) ++counts[word];
  std::vector<std::string> lost;
  // The numbers and labels at the start of a line are said otherwise.
  std::istringstream lines(source);
  for (std::string line; std::getline(lines, line);) {
    auto digits = line.find_first_not_of("0123456789");
    if (digits != std::string::npos && digits > 0 && (line[digits] == '.' || line[digits] == ')') &&
        digits + 1 < line.size() && line[digits + 1] == ' ')
      line.erase(0, digits + 2);
    line.erase(0, std::min(line.find_first_not_of(" >-"), line.size()));
    for (std::string_view label : {"Method: ", "Name: ", "METHOD: ", "Prep: ", "gar: ", "Deko: ",
                                   "Garnitur: ", "Décor : ", "Verre : ", "Vaso: ", "Decoración: "})
      if (line.starts_with(label)) line.erase(0, label.size());
    for (const auto& word : words_in(line))
      if (word != "and" && --counts[word] < 0) lost.push_back(word);
  }
  return lost;
}

inline void check_lines(const Brought& brought, const std::vector<std::string>& lines) {
  INFO(brought.told);
  CHECK(brought.is_sound());
  for (const auto& line : lines) {
    CAPTURE(line);
    CHECK(brought.has_line(line));
  }
}

}  // namespace gill::testing
