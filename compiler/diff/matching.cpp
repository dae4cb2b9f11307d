#include "diff/matching.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <unordered_set>

#include "base/text.h"
#include "render/book/usage.h"

namespace gill::diff {

using analysis::DrinkId;
using analysis::StockId;

namespace {

// From here on two builds are taken for one that was renamed. A drink of five parts with one of them changed
// is above it, one of four parts is not. Our own measure: no source.
constexpr double min_likeness = 0.7;
// Two builds that share less than this many parts are no guess worth telling.
constexpr std::size_t min_shared_parts = 2;
// Pairs of builds that are looked at before the search ends: a second's work at the most.
constexpr std::size_t max_pairs = 2'000'000;

/// Multisets of sorted values: how many are in both, and in either.
template <typename Value>
std::pair<std::size_t, std::size_t> shared_and_all(const std::vector<Value>& a, const std::vector<Value>& b) {
  std::size_t shared = 0, i = 0, j = 0;
  while (i < a.size() && j < b.size()) {
    if (a[i] < b[j])
      ++i;
    else if (b[j] < a[i])
      ++j;
    else
      ++shared, ++i, ++j;
  }
  return {shared, a.size() + b.size() - shared};
}

double closeness(double a, double b) {
  if (a <= 0 || b <= 0) return a <= 0 && b <= 0 ? 1 : 0;
  return std::min(a, b) / std::max(a, b);
}

/// By folded name: the same order whatever file a name stands in.
template <typename Declared>
void sort_by_name(std::vector<std::size_t>& indices, const std::vector<Declared>& table) {
  std::vector<std::pair<std::string, std::size_t>> keyed;
  for (auto index : indices) keyed.emplace_back(base::fold_name(table[index].head.name), index);
  std::sort(keyed.begin(), keyed.end());
  for (std::size_t i = 0; i < keyed.size(); ++i) indices[i] = keyed[i].second;
}

struct Guess {
  double likeness;
  std::size_t before, after;
};

/// Finds the pairs of builds that are most alike. To reach the limit two builds must share parts, so only
/// those are compared that share one of their rarer parts.
class GuessFinder {
 public:
  GuessFinder(const std::vector<Build>& before, const std::vector<Build>& after)
      : before_(before), after_(after) {}

  std::vector<Guess> match() {
    count_parts();
    std::unordered_map<std::uint64_t, std::vector<std::size_t>> by_part;
    for (std::size_t i = 0; i < before_.size(); ++i)
      for (auto what : rarer_parts(before_[i])) by_part[what].push_back(i);
    std::vector<std::size_t> seen(before_.size(), after_.size());
    std::vector<Guess> guesses;
    std::size_t pairs = 0;
    for (std::size_t j = 0; j < after_.size(); ++j)
      for (auto what : rarer_parts(after_[j])) {
        auto found = by_part.find(what);
        if (found == by_part.end()) continue;
        for (auto i : found->second) {
          if (seen[i] == j) continue;
          seen[i] = j;
          if (++pairs > max_pairs) return best(std::move(guesses));
          double likeness = likeness_of(before_[i], after_[j]);
          bool enough = shared_and_all(before_[i].parts, after_[j].parts).first >= min_shared_parts;
          if (enough && likeness >= min_likeness) guesses.push_back({likeness, i, j});
        }
      }
    return best(std::move(guesses));
  }

 private:
  void count_parts() {
    for (const auto* builds : {&before_, &after_})
      for (const auto& build : *builds)
        for (const auto& part : build.parts) ++count_[part.what];
  }

  /// The parts of which a build that is like enough must have one: all but as many as it must share, less
  /// one.
  std::vector<std::uint64_t> rarer_parts(const Build& build) const {
    std::vector<std::uint64_t> parts;
    for (const auto& part : build.parts) parts.push_back(part.what);
    std::sort(parts.begin(), parts.end(),
              [&](auto a, auto b) { return std::pair(count_.at(a), a) < std::pair(count_.at(b), b); });
    // Method and glass give a fifth at the most; the parts must bring the rest.
    constexpr double min_of_parts = (min_likeness - 0.2) / 0.8;
    auto must_share = static_cast<std::size_t>(std::ceil(min_of_parts * static_cast<double>(parts.size())));
    if (must_share > 0) parts.resize(parts.size() - must_share + 1);
    return parts;
  }

  /// Each build once, the likest pairs first; among equals the earlier name.
  std::vector<Guess> best(std::vector<Guess> guesses) const {
    std::sort(guesses.begin(), guesses.end(), [](const Guess& a, const Guess& b) {
      if (a.likeness != b.likeness) return a.likeness > b.likeness;
      // The same order whichever side is which.
      auto key = [](const Guess& guess) {
        return std::pair(std::min(guess.before, guess.after), std::max(guess.before, guess.after));
      };
      return key(a) < key(b);
    });
    std::vector<bool> old_taken(before_.size()), new_taken(after_.size());
    std::vector<Guess> kept;
    for (const auto& guess : guesses) {
      if (old_taken[guess.before] || new_taken[guess.after]) continue;
      old_taken[guess.before] = new_taken[guess.after] = true;
      kept.push_back(guess);
    }
    return kept;
  }

  const std::vector<Build>& before_;
  const std::vector<Build>& after_;
  std::unordered_map<std::uint64_t, std::size_t> count_;
};

class Matcher {
 public:
  Matcher(const Snapshot& before, const Snapshot& after) : before_(before), after_(after) {}

  Matching match() {
    match_stock();
    guess_preps();
    match_drinks();
    guess_drinks();
    return std::move(result_);
  }

 private:
  void match_stock() {
    const auto& old_stock = before_.specs.stock;
    const auto& new_stock = after_.specs.stock;
    auto& old_identities = result_.before.stock;
    auto& new_identities = result_.after.stock;
    old_identities.resize(old_stock.size());
    new_identities.resize(new_stock.size());
    for (std::size_t i = 0; i < old_stock.size(); ++i) old_identities[i] = static_cast<Identity>(i);
    for (std::size_t j = 0; j < new_stock.size(); ++j)
      new_identities[j] = static_cast<Identity>(old_stock.size() + j);
    auto old_names = by_folded_name(old_stock);
    auto new_names = by_folded_name(new_stock);
    for (const auto& [name, j] : new_names)
      if (auto found = old_names.find(name); found != old_names.end()) same_stock(found->second, j);
    match_aliases(old_names, new_names);
    auto old_used = render::Usage(before_.specs).of_the_house();
    auto new_used = render::Usage(after_.specs).of_the_house();
    std::unordered_map<Identity, std::size_t> old_by_identity;
    for (std::size_t i = 0; i < old_stock.size(); ++i)
      if (old_used[i]) old_by_identity[old_identities[i]] = i;
    for (std::size_t j = 0; j < new_stock.size(); ++j) {
      if (!new_used[j]) continue;
      auto found = old_by_identity.find(new_identities[j]);
      if (found == old_by_identity.end()) {
        result_.stock.push_back({std::nullopt, j, std::nullopt});
      } else {
        result_.stock.push_back({found->second, j, std::nullopt});
        old_by_identity.erase(found);
      }
    }
    for (std::size_t i = 0; i < old_stock.size(); ++i)
      if (auto found = old_by_identity.find(old_identities[i]);
          found != old_by_identity.end() && found->second == i)
        result_.stock.push_back({i, std::nullopt, std::nullopt});
  }

  void same_stock(std::size_t i, std::size_t j) { result_.after.stock[j] = result_.before.stock[i]; }

  /// What lost its name but kept it as an `aka`, or the other way round.
  void match_aliases(const std::unordered_map<std::string, std::size_t>& old_names,
                     const std::unordered_map<std::string, std::size_t>& new_names) {
    auto match = [&](const analysis::Specs& specs, const std::unordered_map<std::string, std::size_t>& own,
                     const std::unordered_map<std::string, std::size_t>& others, auto pair) {
      for (std::size_t k = 0; k < specs.stock.size(); ++k) {
        if (specs.stock[k].head.from_library || others.contains(base::fold_name(specs.stock[k].head.name)))
          continue;
        for (const auto& alias : specs.stock[k].aka) {
          std::string folded = base::fold_name(alias);
          auto found = others.find(folded);
          if (found == others.end() || own.contains(folded)) continue;
          pair(k, found->second);
          break;
        }
      }
    };
    std::vector<bool> old_taken(before_.specs.stock.size()), new_taken(after_.specs.stock.size());
    auto pair = [&](std::size_t i, std::size_t j) {
      if (old_taken[i] || new_taken[j]) return;
      old_taken[i] = new_taken[j] = true;
      same_stock(i, j);
    };
    match(after_.specs, new_names, old_names, [&](std::size_t j, std::size_t i) { pair(i, j); });
    match(before_.specs, old_names, new_names, [&](std::size_t i, std::size_t j) { pair(i, j); });
  }

  static Build build_of(const std::vector<model::Entry>& entries, const analysis::Recipe& recipe,
                        const Identities& same, const Snapshot& snapshot, analysis::GlassId glass) {
    Build build;
    for (const auto& entry : entries) {
      auto identity = static_cast<std::uint64_t>(same.stock[entry.use.stock.index()]);
      auto item =
          entry.use.item.valid() ? std::hash<std::string>()(snapshot.units[entry.use.item].symbol) : 0;
      Build::Part part;
      part.what = (identity << 24) | ((item & 0xffff) << 8) | static_cast<std::uint64_t>(entry.role);
      part.amount = entry.volume_ml.value_or(entry.mass_g.value_or(entry.count.value_or(0)));
      build.parts.push_back(part);
    }
    std::sort(build.parts.begin(), build.parts.end());
    for (const auto& step : recipe.steps) build.verbs.push_back(static_cast<std::uint8_t>(step.verb));
    std::sort(build.verbs.begin(), build.verbs.end());
    if (glass.valid()) build.glass = base::fold_name(snapshot.specs[glass].head.name);
    return build;
  }

  /// Takes the single ones of a list whose builds are alike together.
  template <typename Declared, typename MakeBuild>
  std::vector<Match> guess(std::vector<Match>& matches, const std::vector<Declared>& old_table,
                           const std::vector<Declared>& new_table, MakeBuild build) {
    std::vector<std::size_t> old_single, new_single;
    for (const auto& match : matches) {
      if (match.before && !match.after) old_single.push_back(*match.before);
      if (match.after && !match.before) new_single.push_back(*match.after);
    }
    sort_by_name(old_single, old_table);
    sort_by_name(new_single, new_table);
    std::vector<Build> old_builds, new_builds;
    for (auto i : old_single) old_builds.push_back(build(true, i));
    for (auto j : new_single) new_builds.push_back(build(false, j));
    std::vector<Match> found;
    std::unordered_set<std::size_t> old_found, new_found;
    for (const auto& one : GuessFinder(old_builds, new_builds).match()) {
      found.push_back({old_single[one.before], new_single[one.after], one.likeness});
      old_found.insert(old_single[one.before]);
      new_found.insert(new_single[one.after]);
    }
    std::erase_if(matches, [&](const Match& match) {
      return match.before ? !match.after && old_found.contains(*match.before)
                          : new_found.contains(*match.after);
    });
    matches.insert(matches.end(), found.begin(), found.end());
    return found;
  }

  void guess_preps() {
    std::vector<Match> preps, others;
    for (const auto& match : result_.stock) {
      const auto& stock = match.after ? after_.specs.stock[*match.after] : before_.specs.stock[*match.before];
      bool readable = stock.is_prep && !stock.head.has_errors && !stock.head.has_amount_errors;
      (readable ? preps : others).push_back(match);
    }
    auto found =
        guess(preps, before_.specs.stock, after_.specs.stock, [&](bool is_before, std::size_t index) {
          const auto& snapshot = is_before ? before_ : after_;
          return build_of(snapshot.facts.stock[index].entries, snapshot.specs.stock[index].recipe,
                          is_before ? result_.before : result_.after, snapshot, {});
        });
    for (const auto& pair : found) same_stock(*pair.before, *pair.after);
    preps.insert(preps.end(), others.begin(), others.end());
    result_.stock = std::move(preps);
  }

  // ---- drinks

  void match_drinks() {
    const auto& old_drinks = before_.specs.drinks;
    const auto& new_drinks = after_.specs.drinks;
    result_.before.drinks.resize(old_drinks.size());
    result_.after.drinks.resize(new_drinks.size());
    for (std::size_t i = 0; i < old_drinks.size(); ++i) result_.before.drinks[i] = static_cast<Identity>(i);
    for (std::size_t j = 0; j < new_drinks.size(); ++j)
      result_.after.drinks[j] = static_cast<Identity>(old_drinks.size() + j);
    auto old_names = by_folded_name(old_drinks);
    auto new_names = by_folded_name(new_drinks);
    std::vector<std::optional<std::size_t>> old_of(new_drinks.size()), new_of(old_drinks.size());
    auto pair = [&](std::size_t i, std::size_t j) {
      if (old_of[j] || new_of[i]) return;
      old_of[j] = i;
      new_of[i] = j;
      result_.after.drinks[j] = result_.before.drinks[i];
    };
    for (const auto& [name, j] : new_names)
      if (auto found = old_names.find(name); found != old_names.end()) pair(found->second, j);
    auto by_was = [&](const std::vector<analysis::Drink>& drinks, const auto& others, auto pair_them) {
      std::vector<std::size_t> renamed;
      for (std::size_t k = 0; k < drinks.size(); ++k)
        if (!drinks[k].was.empty()) renamed.push_back(k);
      sort_by_name(renamed, drinks);
      for (auto k : renamed) {
        auto found = others.find(base::fold_name(drinks[k].was));
        if (found != others.end()) pair_them(k, found->second);
      }
    };
    by_was(new_drinks, old_names, [&](std::size_t j, std::size_t i) { pair(i, j); });
    by_was(old_drinks, new_names, [&](std::size_t i, std::size_t j) { pair(i, j); });
    for (std::size_t j = 0; j < new_drinks.size(); ++j)
      if (!new_drinks[j].head.from_library) result_.drinks.push_back({old_of[j], j, std::nullopt});
    for (std::size_t i = 0; i < old_drinks.size(); ++i)
      if (!old_drinks[i].head.from_library && !new_of[i])
        result_.drinks.push_back({i, std::nullopt, std::nullopt});
  }

  void guess_drinks() {
    std::vector<Match> readable, others;
    for (const auto& match : result_.drinks) {
      const auto& drink =
          match.after ? after_.specs.drinks[*match.after] : before_.specs.drinks[*match.before];
      (drink.head.has_errors || drink.head.has_amount_errors ? others : readable).push_back(match);
    }
    auto found =
        guess(readable, before_.specs.drinks, after_.specs.drinks, [&](bool is_before, std::size_t index) {
          const auto& snapshot = is_before ? before_ : after_;
          const auto& drink = snapshot.specs.drinks[index];
          return build_of(snapshot.facts.drinks[index].entries, drink.recipe,
                          is_before ? result_.before : result_.after, snapshot, drink.glass);
        });
    for (const auto& pair : found) result_.after.drinks[*pair.after] = result_.before.drinks[*pair.before];
    readable.insert(readable.end(), others.begin(), others.end());
    result_.drinks = std::move(readable);
  }

  const Snapshot& before_;
  const Snapshot& after_;
  Matching result_;
};

}  // namespace

template <typename Declared>
std::unordered_map<std::string, std::size_t> by_folded_name(const std::vector<Declared>& table) {
  std::unordered_map<std::string, std::size_t> names;
  for (std::size_t i = 0; i < table.size(); ++i) {
    auto [place, fresh] = names.try_emplace(base::fold_name(table[i].head.name), i);
    if (!fresh && table[place->second].head.from_library && !table[i].head.from_library) place->second = i;
  }
  return names;
}

template std::unordered_map<std::string, std::size_t> by_folded_name(const std::vector<analysis::Stock>&);
template std::unordered_map<std::string, std::size_t> by_folded_name(const std::vector<analysis::Drink>&);
template std::unordered_map<std::string, std::size_t> by_folded_name(const std::vector<analysis::Glass>&);
template std::unordered_map<std::string, std::size_t> by_folded_name(const std::vector<analysis::Ice>&);
template std::unordered_map<std::string, std::size_t> by_folded_name(const std::vector<analysis::Family>&);
template std::unordered_map<std::string, std::size_t> by_folded_name(const std::vector<analysis::Menu>&);

double likeness_of(const Build& a, const Build& b) {
  double same = 0, all = 0;
  std::size_t i = 0, j = 0;
  while (i < a.parts.size() || j < b.parts.size()) {
    all += 1;
    bool only_a = j == b.parts.size() || (i < a.parts.size() && a.parts[i].what < b.parts[j].what);
    bool only_b = !only_a && (i == a.parts.size() || b.parts[j].what < a.parts[i].what);
    if (!only_a && !only_b) same += closeness(a.parts[i].amount, b.parts[j].amount);
    if (!only_b) ++i;
    if (!only_a) ++j;
  }
  if (all == 0) return 0;
  auto [verbs, all_verbs] = shared_and_all(a.verbs, b.verbs);
  double method = all_verbs == 0 ? 1 : static_cast<double>(verbs) / static_cast<double>(all_verbs);
  return 0.8 * same / all + 0.1 * method + (a.glass == b.glass ? 0.1 : 0);
}

Matching match_snapshots(const Snapshot& before, const Snapshot& after) {
  return Matcher(before, after).match();
}

}  // namespace gill::diff
