#pragma once

namespace gill::model {

/// The times, s, at which the published fits hold. Common practice, no source.
inline constexpr double usual_shake_s = 12, usual_stir_s = 30, usual_whip_s = 6;
/// One lift of the spoon through what is fizzy, in its glass. Common practice, no source.
inline constexpr double usual_lift_s = 3;

}  // namespace gill::model
