#pragma once
#include <string_view>

#include "model/facts.h"

/// Why something is not known of a spec.
namespace gill::render::wording {

/// Why its figures are not worked out, behind a colon: `an amount is in error`.
constexpr std::string_view why_not_worked_out(bool is_empty) {
  return is_empty ? "nothing goes in yet" : "an amount is in error";
}

/// Why its allergens are not known where every part tells of its own.
inline std::string_view why_not_known(const model::Allergens& allergens) {
  return allergens.is_of_nothing ? "nothing goes in yet" : "a line could not be read";
}

}  // namespace gill::render::wording
