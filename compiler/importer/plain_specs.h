#pragma once
#include <string_view>
#include <vector>

#include "costing/costing.h"
#include "importer/old_spec.h"

namespace gill::importer {

/// Specs, and the lines with a number, no unit and something that is poured.
struct PlainSpecs {
  std::vector<OldSpec> specs;
  std::vector<std::size_t> bare_numbers;
};

/// The drinks of a text of plain lines: a name, ingredients one a line (or parted by commas), and method
/// words below. `numbers` is the unit that bare numbers mean, or empty. Lines that belong to nothing are kept
/// in `left_over`; none is lost.
PlainSpecs plain_specs(std::string_view text, const costing::House& house, std::string_view numbers);

}  // namespace gill::importer
