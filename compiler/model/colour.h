#pragma once
#include <string>
#include <vector>

#include "analysis/specs.h"

namespace gill::model {

/// A colour as light that is let through: red, green and blue from 0 to 1.
struct Light {
  double red = 1, green = 1, blue = 1;
};

/// What a stock declares (`#rrggbb` or a word), else what its kind usually looks like.
Light light_of(const analysis::Stock& stock);
/// The colour of a mixture: each part takes light away by its share of the volume.
Light mixed(const std::vector<std::pair<Light, double>>& parts_ml);
/// `#rrggbb`.
std::string to_hex(const Light& light);

}  // namespace gill::model
