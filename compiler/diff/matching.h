#pragma once
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "diff/sheet.h"

namespace gill::diff {

/// One thing on both sides, or on one.
struct Match {
  std::optional<std::size_t> before, after;
  /// Of a rename that nobody declares: how much of the builds is the same, 0 to 1.
  std::optional<double> likeness;
};

/// Who is who on the two sides.
struct Matching {
  Identities before, after;
  /// The house's own stock and what it uses of the library's.
  std::vector<Match> stock;
  std::vector<Match> drinks;
};

/// Matches by folded name; stock by an `aka` of either side as well, drinks by `was`; then preps and drinks
/// that are left by how much their builds share.
Matching match_snapshots(const Snapshot& before, const Snapshot& after);

/// The declaration that a name means in a table: the house's before the library's.
template <typename Declared>
std::unordered_map<std::string, std::size_t> by_folded_name(const std::vector<Declared>& table);

/// A build as it is compared with others: what goes in with how much of it, the verbs of the method, the
/// glass.
struct Build {
  struct Part {
    /// Stock, item word and role in one number.
    std::uint64_t what = 0;
    double amount = 0;
    bool operator<(const Part& other) const { return what < other.what; }
  };
  std::vector<Part> parts;
  std::vector<std::uint8_t> verbs;
  std::string glass;
};

/// The share of two builds that is the same, 0 to 1: four fifths for what goes in and how much of it, a tenth
/// each for the method and the glass. The same either way round.
double likeness_of(const Build& a, const Build& b);

}  // namespace gill::diff
