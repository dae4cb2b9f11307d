#pragma once
#include <algorithm>
#include <initializer_list>
#include <iterator>

namespace gill::base {

/// True when the value is one of those listed.
template <typename Value>
constexpr bool is_any_of(const Value& value, std::initializer_list<Value> values) {
  return std::find(values.begin(), values.end(), value) != values.end();
}

/// The same of a list that has a name.
template <typename Value, typename List>
constexpr bool is_any_of(const Value& value, const List& values) {
  return std::find(std::begin(values), std::end(values), value) != std::end(values);
}

}  // namespace gill::base
