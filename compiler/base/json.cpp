#include "base/json.h"

#include <cmath>

namespace gill::base {
namespace {

/// Beyond it a double no longer holds every whole number.
constexpr double exact_whole = 9007199254740992.0;

void print_whole_numbers_whole(Json& value) {
  if (value.is_structured()) {
    for (auto& inner : value) print_whole_numbers_whole(inner);
  } else if (value.is_number_float()) {
    double number = value.get<double>();
    if (number == std::floor(number) && std::abs(number) < exact_whole)
      value = static_cast<std::int64_t>(number);
  }
}

}  // namespace

Json number_or_null(const std::optional<double>& value) { return value ? Json(*value) : Json(nullptr); }

Json number_or_null(const std::optional<Exact>& value) {
  return value ? Json(to_double(*value)) : Json(nullptr);
}

Json text_or_null(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }

std::string json_text(Json root) {
  print_whole_numbers_whole(root);
  return root.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace gill::base
