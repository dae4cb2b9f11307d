#pragma once
#include <chrono>
#include <string>

namespace gill::base {

/// A day as ISO 8601 writes it: `2026-11-25`.
std::string iso_date(std::chrono::sys_days day);

}  // namespace gill::base
