// Snow on a flat roof after EN 1991-1-3: even, and drifted against what stands on it.
#include "physics/snow.hpp"

#include <algorithm>

#include "base/contract.hpp"

namespace houseleek::physics {
namespace {

constexpr double snow_kn_per_m3 = 2.0;
constexpr double most_shape = 2.0;
constexpr double least_length_m = 5.0;
constexpr double most_length_m = 15.0;

}  // namespace

SnowDrift snow_drift(double height_m, double ground_snow_kn_per_m2) {
  expects(height_m >= 0.0 && ground_snow_kn_per_m2 > 0.0, "a height, and snow on the ground");
  return {.peak_shape = std::clamp(snow_kn_per_m3 * height_m / ground_snow_kn_per_m2, flat_roof_snow_shape, most_shape),
          .length_m = std::clamp(2.0 * height_m, least_length_m, most_length_m)};
}

}  // namespace houseleek::physics
