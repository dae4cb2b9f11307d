#pragma once
#include <algorithm>
#include <cstddef>

/// What a run with sanitizers does less often. Reading one text costs it twenty times as long, and a long
/// round of chance or a whole folder of texts leads it into no code that a tenth of them has not reached.
namespace gill::testing {

#ifdef GILL_SANITIZED
inline constexpr int sanitized_share = 15;
#else
inline constexpr int sanitized_share = 1;
#endif

/// So many rounds of a test of chance; with sanitizers a fifteenth of them.
constexpr int rounds(int usual) { return std::max(1, usual / sanitized_share); }

/// So many bytes or pieces; with sanitizers a fifteenth of them.
constexpr std::size_t size_of_test(std::size_t usual) { return usual / sanitized_share; }

/// Whether a text is among those that are read: each, with sanitizers one of fifteen.
constexpr bool is_tried(std::size_t index) { return index % sanitized_share == 0; }

}  // namespace gill::testing
