#pragma once
#include <span>
#include <string>
#include <string_view>

namespace gill::analysis {

/// What a place's law asks to be named: groups (`milk`) and single kinds (`cereals:wheat`), in the law's
/// order.
struct AllergenList {
  std::string_view name;  ///< as `allergen list` takes it: EU, UK, US
  std::span<const std::string_view> entries;
  std::string_view source;
};

std::span<const AllergenList> allergen_lists() noexcept;

/// The list of that name, or nothing where nobody wrote one down. GB stands for UK.
const AllergenList* find_allergen_list(std::string_view name) noexcept;

/// `EU, UK, US …`, for messages.
std::string allergen_list_names();

/// True for a country code of ISO 3166-1 (alpha-2).
bool is_country_code(std::string_view code) noexcept;

}  // namespace gill::analysis
