#pragma once
#include "grammar/gill.h"
#include "syntax/tree.h"

namespace gill::syntax {

/// What the actions write while one line is read.
struct LineState {
  std::vector<Item>& items;
  std::uint32_t line_begin;
  LineKind kind;
  std::uint32_t tail;

  template <typename Input>
  std::uint32_t begin_of(const Input& in) const {
    return line_begin + static_cast<std::uint32_t>(in.begin() - in.input().begin());
  }
};

template <typename Rule>
struct Action : grammar::pegtl::nothing<Rule> {};

template <ItemKind kind>
struct AddItem {
  template <typename Input>
  static void apply(const Input& in, LineState& state) {
    auto begin = state.begin_of(in);
    state.items.push_back(Item{kind, begin, begin + static_cast<std::uint32_t>(in.size())});
  }
};

// clang-format off
template <> struct Action<grammar::number>       : AddItem<ItemKind::number> {};
template <> struct Action<grammar::word>         : AddItem<ItemKind::word> {};
template <> struct Action<grammar::clock>        : AddItem<ItemKind::word> {};
template <> struct Action<grammar::colour_word>  : AddItem<ItemKind::word> {};
template <> struct Action<grammar::date>         : AddItem<ItemKind::date> {};
template <> struct Action<grammar::string>       : AddItem<ItemKind::string> {};
template <> struct Action<grammar::comma>        : AddItem<ItemKind::comma> {};
template <> struct Action<grammar::equals>       : AddItem<ItemKind::equals> {};
template <> struct Action<grammar::colon>        : AddItem<ItemKind::colon> {};
template <> struct Action<grammar::percent>      : AddItem<ItemKind::percent> {};
template <> struct Action<grammar::arrow>        : AddItem<ItemKind::arrow> {};
template <> struct Action<grammar::dots>         : AddItem<ItemKind::dots> {};
template <> struct Action<grammar::plus_minus>   : AddItem<ItemKind::plus_minus> {};
template <> struct Action<grammar::colour>       : AddItem<ItemKind::colour> {};
template <> struct Action<grammar::dashed_mixed> : AddItem<ItemKind::dashed_mixed> {};
template <> struct Action<grammar::dashed_range> : AddItem<ItemKind::dashed_range> {};
template <> struct Action<grammar::comma_number> : AddItem<ItemKind::comma_number> {};
template <> struct Action<grammar::open_string>  : AddItem<ItemKind::open_string> {};
template <> struct Action<grammar::curly_string> : AddItem<ItemKind::curly_string> {};
template <> struct Action<grammar::stray>        : AddItem<ItemKind::stray> {};
// clang-format on

template <LineKind line_kind>
struct SetKind {
  template <typename Input>
  static void apply(const Input& in, LineState& state) {
    state.kind = line_kind;
    state.tail = state.begin_of(in);
  }
};

template <>
struct Action<grammar::text_content> : SetKind<LineKind::text> {};

template <>
struct Action<grammar::blank_line> {
  static void apply0(LineState& state) { state.kind = LineKind::blank; }
};

template <>
struct Action<grammar::comment_line> {
  static void apply0(LineState& state) { state.kind = LineKind::comment; }
};

template <>
struct Action<grammar::comment> {
  template <typename Input>
  static void apply(const Input& in, LineState& state) {
    state.tail = state.begin_of(in);
  }
};

}  // namespace gill::syntax
