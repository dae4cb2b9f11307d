#include "costing/name_finder.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <tuple>

#include "base/text.h"
#include "costing/foreign_goods.h"

namespace gill::costing {
NameFinder::NameFinder(const House& house, symbols::NameSpace space) : house_(house), space_(space) {
  auto add = [&](const std::string& name, const std::string& shown) {
    std::string folded = base::fold_name(name);
    known_.push_back({folded, shown, base::folded_words(folded)});
  };
  for (auto id : house.names.in_order()) {
    const auto& declaration = house.names[id];
    if (symbols::name_space_of(declaration.kind) != space) continue;
    add(declaration.name, declaration.name);
    for (const auto& alias : declaration.aliases) add(alias.name, declaration.name);
  }
}

std::optional<std::uint32_t> NameFinder::find(std::string_view name) const {
  auto id = house_.names.find(space_, name);
  if (!id.valid() && space_ == symbols::NameSpace::stock) id = house_.names.find(space_, english_good(name));
  if (!id.valid()) return space_ == symbols::NameSpace::drink ? renamed(name) : std::nullopt;
  return house_.specs.index_of[id.index()];
}

/// The drink that was called so, where there is one: a till keeps the old name for a while.
std::optional<std::uint32_t> NameFinder::renamed(std::string_view name) const {
  const auto& drinks = house_.specs.drinks;
  std::optional<std::uint32_t> found;
  for (std::size_t i = 0; i < drinks.size(); ++i) {
    if (drinks[i].was.empty() || base::fold_name(drinks[i].was) != base::fold_name(name)) continue;
    if (found) return std::nullopt;
    found = static_cast<std::uint32_t>(i);
  }
  return found;
}

std::string NameFinder::relation(std::string_view name) const {
  // Words that many goods have, and that make no two of them alike (common practice, no source).
  static constexpr std::string_view small[] = {
      "de",  "di",   "du",     "la",    "le",    "al",    "the",   "and",   "of",    "with",  "white",
      "red", "dry",  "fresh",  "large", "small", "dark",  "light", "black", "green", "extra", "old",
      "new", "gold", "silver", "blue",  "house", "crème", "creme", "free",  "style"};
  auto is_small = [](const std::string& word) {
    return word.size() < 3 || std::find(std::begin(small), std::end(small), word) != std::end(small) ||
           word.find_first_not_of("0123456789") == std::string::npos;
  };
  auto words = base::folded_words(name);
  std::erase_if(words, is_small);
  const Known* best = nullptr;
  std::size_t most = 0;
  for (const auto& known : known_) {
    auto shared = static_cast<std::size_t>(std::count_if(words.begin(), words.end(), [&](const auto& word) {
      return std::find(known.words.begin(), known.words.end(), word) != known.words.end();
    }));
    const bool is_shorter = best && shared == most && known.words.size() < best->words.size();
    if (shared > most || (shared > 0 && is_shorter)) best = &known, most = shared;
  }
  return best ? best->shown : std::string();
}

std::vector<std::string> NameFinder::nearest(std::string_view name) const {
  std::string folded = base::fold_name(name);
  auto words = base::folded_words(folded);
  struct Candidate {
    std::size_t shared;
    std::size_t distance;
    const Known* known;
  };
  constexpr std::size_t farthest = 12;
  std::vector<Candidate> candidates;
  for (const auto& known : known_) {
    std::size_t shared = 0;
    for (const auto& word : words)
      shared += std::find(known.words.begin(), known.words.end(), word) != known.words.end() ? 1 : 0;
    std::size_t distance = base::edit_distance(folded, known.folded, farthest);
    bool near = distance <= std::max<std::size_t>(2, folded.size() / 3);
    if (shared > 0 || near) candidates.push_back({shared, distance, &known});
  }
  std::stable_sort(candidates.begin(), candidates.end(), [](const Candidate& a, const Candidate& b) {
    return std::tuple(-static_cast<int>(a.shared), a.distance, a.known->shown) <
           std::tuple(-static_cast<int>(b.shared), b.distance, b.known->shown);
  });
  std::vector<std::string> names;
  for (const auto& candidate : candidates) {
    if (names.size() == 3) break;
    if (std::find(names.begin(), names.end(), candidate.known->shown) == names.end())
      names.push_back(candidate.known->shown);
  }
  return names;
}

std::string NameFinder::unmatched(std::string_view name, std::string_view noun) const {
  std::vector<std::string> near;
  for (const auto& one : nearest(name)) near.push_back("`" + one + "`");
  return fmt::format("No {} is called `{}`{}", noun, name,
                     near.empty() ? "."
                                  : fmt::format("; near it {}. Add an `aka` line, or correct the name.",
                                                base::join_with_or(near)));
}

}  // namespace gill::costing
