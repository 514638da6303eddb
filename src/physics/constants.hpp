// Physical constants that more than one topic of physics uses, each written once.
#pragma once

namespace houseleek::physics {

inline constexpr double pi = 3.14159265358979323846;
inline constexpr double degrees_per_radian = 180.0 / pi;
inline constexpr double radians_per_degree = pi / 180.0;

/// Exact in the SI of 2019: 2 pi^5 k^4 / (15 h^3 c^2).
inline constexpr double stefan_boltzmann_w_per_m2_k4 = 5.670374419e-8;

inline constexpr double zero_celsius_k = 273.15;

/// Total irradiance at one astronomical unit, as the IAU took it in 2015 (resolution B3).
inline constexpr double solar_constant_w_per_m2 = 1361.0;

}  // namespace houseleek::physics
