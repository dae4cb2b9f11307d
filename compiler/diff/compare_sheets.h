#pragma once
#include "diff/changes.h"

namespace gill::diff {

/// What differs between two sheets of one thing; a null one is not there on its side.
Change compare_sheets(const Sheet* before, const Sheet* after);

/// What differs between two lists of properties, in the order of the new one.
std::vector<PropertyChange> compare_properties(const std::vector<Property>& before,
                                               const std::vector<Property>& after);

/// True when both lines ask for the same amount, whatever units they are written in.
bool same_amount(const Pour& before, const Pour& after);

/// Which members of two sequences are the same, in the same order in both: pairs of indices, as many as can
/// be.
std::vector<std::pair<std::size_t, std::size_t>> common_sequence(const std::vector<std::string_view>& before,
                                                                 const std::vector<std::string_view>& after);

}  // namespace gill::diff
