#pragma once
#include <string>
#include <variant>
#include <vector>

#include "editor/house_view.h"

namespace gill::editor {

/// Why something is not done: a full sentence.
struct Refusal {
  std::string why;
};

/// The name at a place that may be renamed; refused where none stands there and where the library owns it.
std::variant<NamePlace, Refusal> renamed_at(const HouseView& view, const syntax::File& file,
                                            std::uint32_t offset);

/// The edits that give the thing at a place another name wherever the house names it so. Where the cursor is
/// on another name of it (`aka`), that one is changed. Refused where the new name is taken, cannot be a name,
/// or would change what any line means: the house is compiled with the edits and held against what it was.
std::variant<std::vector<diagnostics::Edit>, Refusal> rename(const HouseView& view, const syntax::File& file,
                                                             std::uint32_t offset, std::string_view new_name);

/// The house's files as they were compiled, with edits put in.
driver::HouseFiles with_edits(const HouseView& view, const std::vector<diagnostics::Edit>& edits);

}  // namespace gill::editor
