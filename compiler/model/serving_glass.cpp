#include "model/serving_glass.h"

#include <cmath>
#include <string_view>

#include "model/glass_profile.h"

namespace gill::model {

using units::Celsius;
using units::Millilitres;

namespace {

// Heat that a millilitre of what glasses are made of takes, J/K: density times heat capacity. CRC Handbook of
// Chemistry and Physics, CRC Press, from memory: glass 2.5 g/ml and 0.84 J/g K, steel 7.9 and 0.50,
// copper 8.96 and 0.385; stoneware and what else people drink from are near glass.
struct Wall {
  std::string_view material;
  double j_per_ml_k;
};
constexpr Wall walls[] = {
    {"glass", 2.1}, {"ceramic", 2.1}, {"metal", 3.95}, {"steel", 3.95}, {"copper", 3.45}};
// A bottom is about so many times as thick as the wall. Common practice, no source.
constexpr double bottom_walls = 2;
constexpr double other_wall_j_per_ml_k = 2.1;

/// Where a glass is filled to: the middle of a range, or its one end.
Millilitres line_of(const units::Quantity& line) {
  bool open = !std::isfinite(line.low) || !std::isfinite(line.high);
  if (!open) return Millilitres((line.low + line.high) / 2);
  return Millilitres(std::isfinite(line.high) ? line.high : line.low);
}

}  // namespace

Celsius glass_temperature(const analysis::Drink& drink, const analysis::Specs& specs) {
  if (drink.glass_frozen) return Celsius(specs.house.freezer_c);
  if (drink.glass_chilled) return Celsius(specs.house.fridge_c);
  return Celsius(drink.glass_warmed ? warmed_glass_c : specs.house.room_c);
}

double glass_heat_capacity_j_per_k(const analysis::Glass& glass, Millilitres filled) {
  const GlassProfile profile(glass);
  double j_per_ml_k = other_wall_j_per_ml_k;
  for (const Wall& wall : walls)
    if (glass.material == wall.material) j_per_ml_k = wall.j_per_ml_k;
  const double touched_cm2 = profile.wetted_cm2(filled.value) + (bottom_walls - 1) * profile.wetted_cm2(0);
  return touched_cm2 * (glass.wall_mm / 10) * j_per_ml_k;
}

void choose_glass(Lowering& job, const analysis::Specs& specs) {
  if (!job.drink || !job.drink->glass.valid()) return;
  const auto& glass = specs[job.drink->glass];
  if (glass.holds) job.glass_holds = glass.holds->volume().value_or(job.glass_holds);
  job.line = glass.line ? line_of(*glass.line) : job.glass_holds * usual_line_share;
  job.program().glass_temperature = glass_temperature(*job.drink, specs);
  job.program().glass_j_per_k = glass_heat_capacity_j_per_k(glass, job.line);
}

}  // namespace gill::model
