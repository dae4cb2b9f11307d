#pragma once
#include <optional>
#include <string>

#include "analysis/specs.h"

namespace gill::render::wording {

/// `1.93 GBP`.
std::string money(double amount, const std::string& currency);

/// A menu's price without tax in the house's currency; nothing where no rate leads to it.
std::optional<double> price_without_tax(const units::Money& price, const analysis::House& house,
                                        const std::string& currency);

}  // namespace gill::render::wording
