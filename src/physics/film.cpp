// Outside film of a flat roof: its coefficients.
#include "physics/film.hpp"

#include "base/contract.hpp"

namespace houseleek::physics {

FilmLaw outside_film_law(double wind_m_per_s, double length_m) {
  expects(wind_m_per_s >= 0.0 && wind_m_per_s <= 60.0, "roof wind between 0 and 60 m/s");
  expects(length_m >= 0.1 && length_m <= 500.0, "a roof length between 0.1 and 500 m");
  constexpr FilmAir air;
  constexpr double still_air_w_per_m2_k =
      0.1;  // conduction through calm air; keeps the film defined with no wind and no difference
  const double diffusivity_m2_per_s = air.kinematic_viscosity_m2_per_s / air.prandtl;
  double forced_w_per_m2_k = 0.0;
  if (wind_m_per_s > 0.0) {
    const double reynolds = wind_m_per_s * length_m / air.kinematic_viscosity_m2_per_s;
    forced_w_per_m2_k =
        0.037 * numerics::pow(reynolds, 0.8) * numerics::cbrt(air.prandtl) * air.conductivity_w_per_m_k / length_m;
  }
  const double rayleigh_per_m3_k =
      air.gravity_m_per_s2 * air.expansion_per_k / (air.kinematic_viscosity_m2_per_s * diffusivity_m2_per_s);
  const double unstable = 0.15 * air.conductivity_w_per_m_k;
  const double stable = 0.27 * air.conductivity_w_per_m_k / length_m *
                        numerics::sqrt(numerics::sqrt(rayleigh_per_m3_k * length_m * length_m * length_m));
  return {.forced_cubed = forced_w_per_m2_k * forced_w_per_m2_k * forced_w_per_m2_k +
                          still_air_w_per_m2_k * still_air_w_per_m2_k * still_air_w_per_m2_k,
          .unstable_cubed = unstable * unstable * unstable * rayleigh_per_m3_k,
          .stable_cubed = stable * stable * stable};
}

}  // namespace houseleek::physics
