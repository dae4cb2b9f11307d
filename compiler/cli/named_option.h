#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "driver/compile.h"

/// What a command line names of a house: declarations by their names, quantities as Gill writes them.
namespace gill::cli {

/// The index of a declaration in the table of its kind. Where nothing is called so, says on standard error
/// what the nearest name is (`noun` is what was looked for) and gives nothing.
std::optional<std::uint32_t> find_named(const driver::Compilation& house, symbols::NameSpace space,
                                        std::string_view noun, const std::string& name);

/// A quantity as a line of Gill would hold it: `700 ml`, `20..22`, `about 1 l`. Where the text is none, says
/// why on standard error (`option` is the option that holds it) and gives nothing.
std::optional<units::Quantity> read_quantity(const units::UnitTable& units, std::string_view option,
                                             const std::string& text);

}  // namespace gill::cli
