#pragma once
#include <cstddef>
#include <tuple>
#include <type_traits>

/// The fields of a plain struct, one after another, for who must look at every one of them and forget none:
/// a field that is added and not counted does not compile.
namespace gill::base {

/// How many fields a struct has; whoever walks over it says so.
template <typename Struct>
inline constexpr std::size_t field_count = 0;

/// References to all of them, in their order.
template <typename Struct>
constexpr auto fields_of(Struct& value) {
  constexpr std::size_t count = field_count<std::remove_const_t<Struct>>;
  static_assert(count > 0, "nobody says how many fields this struct has");
#define FIELDS(number, ...)        \
  if constexpr (count == number) { \
    auto& [__VA_ARGS__] = value;   \
    return std::tie(__VA_ARGS__);  \
  }
#include "base/fields.def"
#undef FIELDS
}

}  // namespace gill::base
