#pragma once
#include <concepts>
#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "driver/kept/field_counts.h"

/// Walks over every part of a value.
namespace gill::driver::kept {

template <typename Type>
concept PlainStruct = base::field_count<std::remove_const_t<Type>> >
0;

/// What holds neither a place nor an id, and is compared as it is.
template <typename Type>
concept Atom = std::is_arithmetic_v<Type> || std::is_enum_v<Type> ||
    std::same_as<std::remove_const_t<Type>, std::string> ||
    std::same_as<std::remove_const_t<Type>, std::string_view> ||
    std::same_as<std::remove_const_t<Type>, base::Exact>;

/// Calls `visit` with every `source::Span` and every id in a value, whatever it is made of.
template <typename Visit>
class Walker {
 public:
  explicit Walker(Visit visit) : visit_(visit) {}

  template <Atom Type>
  void walk(Type&) {}
  void walk(source::Span& span) { visit_(span); }
  void walk(const source::Span& span) { visit_(span); }
  template <typename Tag>
  void walk(base::Id<Tag>& id) {
    visit_(id);
  }
  template <typename Tag>
  void walk(const base::Id<Tag>& id) {
    visit_(id);
  }
  // Figures without places.
  void walk(const model::Masses&) {}
  void walk(const model::Composition&) {}
  void walk(const model::Shown&) {}
  void walk(const model::Reckoning&) {}
  template <PlainStruct Type>
  void walk(Type& value) {
    std::apply([&](auto&... field) { (walk(field), ...); }, base::fields_of(value));
  }
  template <typename Type>
  void walk(std::optional<Type>& value) {
    if (value) walk(*value);
  }
  template <typename Type>
  void walk(const std::optional<Type>& value) {
    if (value) walk(*value);
  }
  template <typename Type>
  void walk(std::vector<Type>& values) {
    for (auto& value : values) walk(value);
  }
  template <typename Type>
  void walk(const std::vector<Type>& values) {
    for (auto& value : values) walk(value);
  }
  template <typename Type, std::size_t count>
  void walk(std::array<Type, count>& values) {
    for (auto& value : values) walk(value);
  }
  template <typename Type, std::size_t count>
  void walk(const std::array<Type, count>& values) {
    for (auto& value : values) walk(value);
  }
  template <typename First, typename Second>
  void walk(std::pair<First, Second>& pair) {
    walk(pair.first);
    walk(pair.second);
  }
  template <typename First, typename Second>
  void walk(const std::pair<First, Second>& pair) {
    walk(pair.first);
    walk(pair.second);
  }
  /// Keys are words and units, which nothing moves.
  template <typename Key, typename Type>
  void walk(std::map<Key, Type>& values) {
    for (auto& [key, value] : values) walk(value);
  }
  template <typename Key, typename Type>
  void walk(const std::map<Key, Type>& values) {
    for (auto& [key, value] : values) walk(value);
  }

 private:
  Visit visit_;
};

}  // namespace gill::driver::kept
