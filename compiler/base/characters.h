#pragma once

namespace gill::base {

/// True for `0` to `9`, whatever the locale.
constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// True for an ASCII letter of either case, whatever the locale.
constexpr bool is_ascii_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

}  // namespace gill::base
