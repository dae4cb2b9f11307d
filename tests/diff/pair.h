#pragma once
#include <map>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>

#include "diff/forms.h"
#include "driver/compile.h"

/// What the tests of a comparison share: two houses given as text, compared in one call.
namespace gill::testing {

/// A house as `path → text`.
using Files = std::map<std::string, std::string>;

/// Two houses with what changed between them.
struct Pair {
  std::unique_ptr<driver::Compilation> before, after;
  diff::Changes changes;

  diff::Snapshot old_snapshot() const { return {"old", before->specs, before->facts, before->units}; }
  diff::Snapshot new_snapshot() const { return {"new", after->specs, after->facts, after->units}; }
  nlohmann::json json() const;
  /// The forms that people read.
  std::string text() const;
  std::string markdown() const;
  std::string html() const;
  diff::StaffSheet staff() const;
  /// The change of a drink; fails the test when there is none.
  const diff::Change& drink(const std::string& name) const;
  const diff::Change& prep(const std::string& name) const;
};

Pair compare(const Files& before, const Files& after);
/// Each house in one file.
Pair compare(const std::string& before, const std::string& after);

/// The `.gill` files below a folder of the project.
Files house_in(const std::string& folder);

/// The object of that name in an array of objects; fails the test when there is none.
const nlohmann::json& named(const nlohmann::json& list, const std::string& name);

/// The text with its first `what` put `by`; fails the test where there is none.
std::string with(std::string text, const std::string& what, const std::string& by);

}  // namespace gill::testing
