// Snow on a flat roof after EN 1991-1-3: even, and drifted against what stands on it.
#pragma once

namespace houseleek::physics {

/// Snow on a flat roof over snow on the ground. Source: [en1991_1_3] 5.3.2, from memory.
inline constexpr double flat_roof_snow_shape = 0.8;

/// A drift against a parapet, a hatch, a chimney.
struct SnowDrift {
  double peak_shape = flat_roof_snow_shape;  // at its foot, over snow on the ground
  double length_m = 0.0;                     // from there it thins out to even snow in a straight line
};

/// Equation: mu_2 = gamma h/s_k, not below 0.8 nor above 2.0; l = 2 h, not below 5 m nor above 15 m
/// Symbols:  gamma = 2 kN/m3; h: height over the roof; s_k: snow on the ground
/// Shape:    scalars in; struct out; pure.
/// Units:    m; kN/m2.
/// Valid:    level roofs. Not the snow that slides or blows down from a higher roof, nor the exceptional drifts that some
///           countries ask for. Both limits are the code's own.
/// Errors:   ContractViolation for a height below zero or no snow.
/// Source:   [en1991_1_3] 6.2, a copy of the clause seen.   Checked by: SNOW-01 to SNOW-07.
[[nodiscard]] SnowDrift snow_drift(double height_m, double ground_snow_kn_per_m2);

}  // namespace houseleek::physics
