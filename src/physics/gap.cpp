// Air between a module and the deck: its coefficients.
#include "physics/gap.hpp"

#include "base/contract.hpp"

namespace houseleek::physics {

double gap_rayleigh_per_k(double height_m) {
  expects(height_m > 0.0 && height_m < 1.0, "a gap height between 0 and 1 m");
  constexpr FilmAir air;
  const double diffusivity_m2_per_s = air.kinematic_viscosity_m2_per_s / air.prandtl;
  return air.gravity_m_per_s2 * air.expansion_per_k * height_m * height_m * height_m /
         (air.kinematic_viscosity_m2_per_s * diffusivity_m2_per_s);
}

GapSweep swept_gap(double height_m, double length_m, double speed_m_per_s, double air_heat_j_per_m3_k) {
  expects(height_m > 0.0 && length_m > 0.0 && speed_m_per_s > 0.0 && air_heat_j_per_m3_k > 0.0,
          "a gap with positive height, length, speed and heat capacity of its air");
  constexpr FilmAir air;
  const double wall_w_per_m2_k = 7.541 * air.conductivity_w_per_m_k / (2.0 * height_m);
  const double units = 2.0 * wall_w_per_m2_k * length_m / (air_heat_j_per_m3_k * speed_m_per_s * height_m);
  // Below 1e-4 the difference 1 - exp(-N) loses digits; the series is exact to 1e-9 there.
  const double entering_frac =
      units < 1e-4 ? 1.0 - units / 2.0 + units * units / 6.0 : (1.0 - numerics::exp(-units)) / units;
  return {.wall_w_per_m2_k = wall_w_per_m2_k, .entering_frac = entering_frac};
}

}  // namespace houseleek::physics
