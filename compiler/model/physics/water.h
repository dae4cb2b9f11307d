#pragma once

/// Water by itself.
namespace gill::model::water {

/// Density in g/ml: OIML R 22 from −20 to 40 °C, from there to 100 °C the table of tables.h; clamped outside.
/// (Below 0 °C it is that of supercooled water, as R 22 has it.)
double density_g_per_ml(double celsius) noexcept;

}  // namespace gill::model::water
