#pragma once

namespace gill::analysis {

/// How long these usually take, s: what a line that says no time is read as. The model asserts that its fits
/// take the same. Common practice, no source.
inline constexpr int usual_shake_s = 12, usual_stir_s = 30, usual_whip_s = 6;

}  // namespace gill::analysis
