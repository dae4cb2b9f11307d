#pragma once
#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace gill::base {

/// A day as ISO 8601 writes it: `2026-11-25`.
std::string iso_date(std::chrono::sys_days day);
/// Reads such a day; nothing where the text is no date of that form or no day of the calendar.
std::optional<std::chrono::sys_days> read_iso_date(std::string_view text);

}  // namespace gill::base
