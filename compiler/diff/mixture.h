#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "diff/changes.h"

namespace gill::diff {

/// True where a prep's own lines make something else of it than before: other shares of what goes in, another
/// method, other measured properties. Another name, size of recipe, bottle, par, station or shelf life does
/// not. What changed in its parts is told by their own changes.
bool is_another_mixture(const Change& prep);

/// What the preps of the old house are called in the new one.
class NewNames {
 public:
  NewNames() = default;
  explicit NewNames(const std::vector<Change>& preps);

  /// For a folded name of the old house the one of the new.
  const std::string& of(const std::string& folded) const;

 private:
  std::map<std::string, std::string> names_;
};

/// True where the old house bottles of a drink hold something else than what is poured now: other shares, no
/// bottle any more, or no such drink (`now` is nothing). False where none was filled.
bool holds_old_bottles(const Snapshot& before, analysis::DrinkId was, const Snapshot& after,
                       std::optional<analysis::DrinkId> now, const NewNames& renamed);

}  // namespace gill::diff
