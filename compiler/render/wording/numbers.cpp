#include "render/wording/numbers.h"

#include <fmt/format.h>

#include <cmath>

namespace gill::render::wording {
namespace {

bool is_zero(const std::string& digits) { return digits.find_first_not_of("-0.") == std::string::npos; }

}  // namespace

std::string fixed(double value, int places) {
  if (!std::isfinite(value)) return "not known";
  std::string digits = fmt::format("{:.{}f}", value, places);
  if (digits.front() != '-') return digits;
  return is_zero(digits) ? digits.substr(1) : "−" + digits.substr(1);
}

std::string trimmed(double value, int places) {
  std::string digits = fixed(value, places);
  if (digits.find('.') == std::string::npos) return digits;
  while (digits.back() == '0') digits.pop_back();
  if (digits.back() == '.') digits.pop_back();
  return digits;
}

std::string with_tolerance(double value, double tolerance, int places) {
  std::string digits = fixed(value, places);
  std::string width = fixed(tolerance, places);
  return is_zero(width) || !std::isfinite(tolerance) ? digits : digits + " ± " + width;
}

double to_two_figures(double value) {
  if (value <= 0) return value;
  double step = std::pow(10, std::floor(std::log10(value)) - 1);
  return std::round(value / step) * step;
}

}  // namespace gill::render::wording
