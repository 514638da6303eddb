// Wind speed from one height to another over level ground.
#pragma once
#include "base/contract.hpp"
#include "numerics/elementary.hpp"

namespace houseleek::physics {

/// What the ground does to the wind above it; short grass unless said otherwise.
struct WindProfile {
  double displacement_m = 0.08;         // two thirds of 0.12 m of grass
  double roughness_length_m = 0.01476;  // 0.123 times 0.12 m of grass
};

/// Where the wind is known and where it is wanted.
struct WindHeights {
  double from_height_m;
  double to_height_m;
  WindProfile profile = {};
};

/// Wind speed at 2 m over short grass from a measurement at another height.
/// Equation: u_2 = u_z 4.87 / ln(67.8 z - 5.42)
/// Symbols:  u_z = speed_m_per_s; z = height_m
/// Shape:    scalars in, scalar out; pure.
/// Units:    m/s and m in; m/s out.
/// Valid:    speed zero or more; height 0.5 m to 200 m.
/// Errors:   ContractViolation outside the range.
/// Source:   [allen1998] Eq. 47.   Checked by: ET-40.
[[nodiscard]] inline double wind_speed_at_2_m_m_per_s(double speed_m_per_s, double height_m) {
  expects(speed_m_per_s >= 0.0 && height_m >= 0.5 && height_m <= 200.0,
          "a wind speed of zero or more, measured 0.5 to 200 m above ground");
  return speed_m_per_s * 4.87 / numerics::log(67.8 * height_m - 5.42);
}

/// Wind speed at a height from the speed at another, neutral air, one surface.
/// Equation: u_2 = u_1 ln((z_2 - d)/z_0) / ln((z_1 - d)/z_0)
/// Symbols:  d = displacement_m; z_0 = roughness_length_m; z_1 = from_height_m; z_2 = to_height_m
/// Shape:    scalars in, scalar out; pure.
/// Units:    m/s and m in; m/s out.
/// Valid:    both heights above d + z_0, the first above d + 1.5 z_0.
/// Errors:   ContractViolation outside the range.
/// Source:   [allen1998] Eq. 46 is this with d and z_0 of grass.   Checked by: ET-40.
[[nodiscard]] inline double wind_speed_at_height_m_per_s(double speed_m_per_s, const WindHeights& heights) {
  const WindProfile& profile = heights.profile;
  expects(speed_m_per_s >= 0.0 && profile.roughness_length_m > 0.0,
          "a wind speed of zero or more over a rough surface");
  const double from = (heights.from_height_m - profile.displacement_m) / profile.roughness_length_m;
  const double to = (heights.to_height_m - profile.displacement_m) / profile.roughness_length_m;
  expects(from > 1.5 && to > 1.0, "heights above the displacement height and the roughness length");
  return speed_m_per_s * numerics::log(to) / numerics::log(from);
}

}  // namespace houseleek::physics
