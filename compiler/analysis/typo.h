#pragma once
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "diagnostics/diagnostic.h"

/// Corrections that can mean only one thing.
namespace gill::analysis {

/// Every spelling that is one slip of the hand away from a word: a letter left out, struck twice, struck
/// wrong or changed over with its neighbour. ASCII letters alone; nothing of a word that is too long to be a
/// slip, or too short to be sure.
std::set<std::string> one_typo_away(std::string_view word);

/// The spellings one slip away that `find` knows, where all of them mean one thing; empty where none does, or
/// several. `find` gives something comparable with `valid()`: an id.
template <typename Find>
std::set<std::string> only_meaning(std::string_view word, Find find) {
  std::set<std::string> known;
  decltype(find(std::string())) meant;
  for (const auto& spelling : one_typo_away(word)) {
    auto found = find(spelling);
    if (!found.valid()) continue;
    if (meant.valid() && meant != found) return {};
    meant = found;
    known.insert(spelling);
  }
  return known;
}

/// The correction of a word that should be one of a closed list: safe where one of them alone is a slip away.
diagnostics::Fix word_fix(source::Span span, std::string_view wrong,
                          const std::vector<std::string_view>& words, std::string_view meant);

}  // namespace gill::analysis
