#pragma once
#include <fmt/format.h>

#include <optional>
#include <string>
#include <string_view>

#include "units/quantity.h"

namespace gill::diff {

/// Collects what a line says in a form that does not depend on its spelling: quantities in base units, to ten
/// figures.
class Meaning {
 public:
  Meaning& add(std::string_view words) {
    text_ += words;
    text_ += '\n';
    return *this;
  }
  Meaning& add(std::string_view name, double number) { return add(fmt::format("{} {:.10g}", name, number)); }
  Meaning& add(std::string_view name, const units::Quantity& quantity) {
    text_ += fmt::format("{} {} {:.10g}", name, static_cast<int>(quantity.kind), quantity.number());
    if (quantity.is_range) text_ += fmt::format(" {:.10g}..{:.10g}", quantity.low, quantity.high);
    if (quantity.tolerance && *quantity.tolerance > 0)
      text_ += fmt::format(" ± {:.6g}", quantity.relative_tolerance());
    return add(quantity.currency);
  }
  Meaning& add(std::string_view name, const std::optional<units::Quantity>& quantity) {
    return quantity ? add(name, *quantity) : *this;
  }
  const std::string& text() const { return text_; }

 private:
  std::string text_;
};

}  // namespace gill::diff
