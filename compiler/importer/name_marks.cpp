#include "importer/name_marks.h"

#include <algorithm>
#include <utility>

#include "base/characters.h"
#include "base/text.h"

namespace gill::importer {
namespace {

/// The sign that closes what the sign opens at the start of a name; empty where none does.
std::string_view closing_quote(std::string_view name, std::size_t& opened) {
  for (auto [open, close] : {std::pair<std::string_view, std::string_view>{"“", "”"},
                             {"„", "“"},
                             {"„", "”"},
                             {"«", "»"},
                             {"»", "«"},
                             {"‘", "’"},
                             {"\"", "\""},
                             {"'", "'"}}) {
    auto end = name.find(close, open.size());
    if (!name.starts_with(open) || end == std::string_view::npos || end == open.size()) continue;
    auto behind = name.substr(end + close.size());
    opened = open.size();
    if (behind.empty() || behind.starts_with(" (") || behind.starts_with(" -") || behind.starts_with(" –"))
      return close;
  }
  return {};
}

}  // namespace

std::string without_quotes(const std::string& name) {
  std::size_t opened = 0;
  auto close = closing_quote(name, opened);
  if (close.empty()) return name;
  auto end = name.find(close, opened);
  return std::string(base::trim(std::string_view(name).substr(opened, end - opened))) +
         name.substr(end + close.size());
}

std::size_t counting_number_at(std::string_view name) {
  auto digits = name.find_first_not_of('#'),
       end = std::min(name.find_first_not_of("0123456789", digits), name.size());
  constexpr std::size_t max_digits = 3;
  if (digits == std::string_view::npos || end == digits || end - digits > max_digits) return 0;
  for (std::string_view sign : {" - ", " – ", " — "})
    if (name.substr(end).starts_with(sign) &&
        !base::is_digit(name[std::min(end + sign.size(), name.size() - 1)]))
      return end + sign.size();
  return 0;
}

}  // namespace gill::importer
