#pragma once
#include <cctype>
#include <sstream>
#include <string>
#include <vector>

#include "base/text.h"
#include "support/fixture.h"

/// The words that no output may hold, from their one list.
namespace gill::testing {

/// The lines of tests/lint/clearing_words.txt.
inline const std::vector<std::string>& clearing_words() {
  static const std::vector<std::string> words = [] {
    std::vector<std::string> read;
    std::istringstream lines(read_file(GILL_SOURCE_DIR "/tests/lint/clearing_words.txt"));
    for (std::string line; std::getline(lines, line);)
      if (!line.empty() && line.front() != '#') read.push_back(line);
    return read;
  }();
  return words;
}

/// Those of them that stand in a text as words of their own, whatever their case.
inline std::vector<std::string> clearing_words_in(std::string_view text) {
  const std::string lower = base::lower_ascii(text);
  const auto is_word = [&](std::size_t at) {
    return at < lower.size() && (std::isalnum(static_cast<unsigned char>(lower[at])) || lower[at] == '_');
  };
  std::vector<std::string> found;
  for (const auto& word : clearing_words())
    for (auto at = lower.find(word); at != std::string::npos; at = lower.find(word, at + 1))
      if (!is_word(at - 1) && !is_word(at + word.size())) {
        found.push_back(word);
        break;
      }
  return found;
}

}  // namespace gill::testing
