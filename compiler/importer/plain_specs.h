#pragma once
#include <string_view>
#include <vector>

#include "costing/costing.h"
#include "importer/old_spec.h"

namespace gill::importer {

/// The drinks of a text of plain lines: a name, ingredients one a line (or parted by commas), and method
/// words below. Lines that belong to nothing are kept in `left_over`; none is lost.
std::vector<OldSpec> plain_specs(std::string_view text, const costing::House& house);

}  // namespace gill::importer
