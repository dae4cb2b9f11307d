#pragma once
#include <compare>
#include <cstddef>
#include <cstdint>
#include <functional>

namespace gill::base {

/// A small index into a table of `Tag`s; ids of different tables do not mix.
template <typename Tag>
struct Id {
  std::uint32_t value = UINT32_MAX;

  constexpr bool valid() const { return value != UINT32_MAX; }
  constexpr std::size_t index() const { return value; }
  constexpr auto operator<=>(const Id&) const = default;

  static constexpr Id at(std::size_t index) { return Id{static_cast<std::uint32_t>(index)}; }
};

}  // namespace gill::base

template <typename Tag>
struct std::hash<gill::base::Id<Tag>> {
  std::size_t operator()(gill::base::Id<Tag> id) const noexcept { return id.value; }
};
