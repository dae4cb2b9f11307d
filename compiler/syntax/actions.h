#pragma once
#include "grammar/gill.h"
#include "syntax/tree.h"

namespace gill::syntax {

/// What the actions write while one line is read.
struct LineState {
  std::vector<Token>& tokens;
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

template <TokenKind kind>
struct AddItem {
  template <typename Input>
  static void apply(const Input& in, LineState& state) {
    auto begin = state.begin_of(in);
    state.tokens.push_back(Token{kind, begin, begin + static_cast<std::uint32_t>(in.size())});
  }
};

// clang-format off
template <> struct Action<grammar::number>       : AddItem<TokenKind::number> {};
template <> struct Action<grammar::word>         : AddItem<TokenKind::word> {};
template <> struct Action<grammar::clock>        : AddItem<TokenKind::word> {};
template <> struct Action<grammar::colour_word>  : AddItem<TokenKind::word> {};
template <> struct Action<grammar::date>         : AddItem<TokenKind::date> {};
template <> struct Action<grammar::string>       : AddItem<TokenKind::string> {};
template <> struct Action<grammar::comma>        : AddItem<TokenKind::comma> {};
template <> struct Action<grammar::equals>       : AddItem<TokenKind::equals> {};
template <> struct Action<grammar::colon>        : AddItem<TokenKind::colon> {};
template <> struct Action<grammar::percent>      : AddItem<TokenKind::percent> {};
template <> struct Action<grammar::arrow>        : AddItem<TokenKind::arrow> {};
template <> struct Action<grammar::dots>         : AddItem<TokenKind::dots> {};
template <> struct Action<grammar::plus_minus>   : AddItem<TokenKind::plus_minus> {};
template <> struct Action<grammar::colour>       : AddItem<TokenKind::colour> {};
template <> struct Action<grammar::dashed_mixed> : AddItem<TokenKind::dashed_mixed> {};
template <> struct Action<grammar::dashed_range> : AddItem<TokenKind::dashed_range> {};
template <> struct Action<grammar::comma_number> : AddItem<TokenKind::comma_number> {};
template <> struct Action<grammar::open_string>  : AddItem<TokenKind::open_string> {};
template <> struct Action<grammar::curly_string> : AddItem<TokenKind::curly_string> {};
template <> struct Action<grammar::stray>        : AddItem<TokenKind::stray> {};
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
