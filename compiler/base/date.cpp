#include "base/date.h"

#include <fmt/format.h>

namespace gill::base {

std::string iso_date(std::chrono::sys_days day) {
  std::chrono::year_month_day date(day);
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

}  // namespace gill::base
