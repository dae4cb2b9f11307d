#pragma once
#include <string>
#include <vector>

#include "editor/house_view.h"

namespace gill::editor {

/// Something that an editor offers to do at a place.
struct Action {
  enum class Kind : std::uint8_t {
    mend,     ///< ends a finding
    rewrite,  ///< says the same otherwise, or makes more of it
    extract,  ///< moves lines into a declaration of their own
    mend_all  ///< every safe mend of a file
  } kind = Kind::mend;
  std::string title;
  std::vector<diagnostics::Edit> edits;
  /// What `check --fix` would do.
  bool is_preferred = false;
  /// The finding that it ends, an index in the house's findings.
  std::optional<std::size_t> finding = std::nullopt;
};

/// What can be done within a stretch of a file: mends of findings, a missing ingredient declared, a finding
/// allowed with a reason, an amount in another measure, a drink made for more, weighed amounts made a prep.
std::vector<Action> actions(const HouseView& view, const syntax::File& file, std::uint32_t begin,
                            std::uint32_t end);

}  // namespace gill::editor
