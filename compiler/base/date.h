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
/// True for a day in whatever form of numbers: `2026-12-05`, `5.12.26`, `12/5/2026`.
bool is_day_of_numbers(std::string_view text);
/// What to say of a text that is no such day, without a full stop: `` `5.12.2026` is no date; write it as
/// 2026-12-05``. A day of numbers comes as it would be written, both readings of `5/12/2026`; any other text
/// with an example.
std::string not_a_date(std::string_view text);

}  // namespace gill::base
