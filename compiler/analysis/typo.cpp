#include "analysis/typo.h"

#include <algorithm>

#include "base/text.h"

namespace gill::analysis {

std::set<std::string> one_typo_away(std::string_view typed) {
  constexpr std::size_t min_letters = 3, max_letters = 60;
  constexpr std::string_view letters = "abcdefghijklmnopqrstuvwxyz -'";
  std::string word = base::lower_ascii(typed);
  std::set<std::string> spellings;
  bool is_ascii =
      std::all_of(word.begin(), word.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; });
  if (!is_ascii || word.size() < min_letters || word.size() > max_letters) return spellings;
  for (std::size_t i = 0; i <= word.size(); ++i) {
    std::string before = word.substr(0, i), after = word.substr(i);
    for (char letter : letters) spellings.insert(before + letter + after);
    if (after.empty()) continue;
    spellings.insert(before + after.substr(1));
    for (char letter : letters) spellings.insert(before + letter + after.substr(1));
    if (after.size() > 1) spellings.insert(before + after[1] + after[0] + after.substr(2));
  }
  spellings.erase(word);
  return spellings;
}

diagnostics::Fix word_fix(source::Span span, std::string_view wrong,
                          const std::vector<std::string_view>& words, std::string_view meant) {
  std::set<std::string_view> near;
  auto typos = one_typo_away(wrong);
  for (auto word : words)
    if (typos.count(base::lower_ascii(word))) near.insert(word);
  return {{{span, std::string(meant)}}, near.size() == 1 && *near.begin() == meant};
}

}  // namespace gill::analysis
