// Heat that the sky sends down: emissivity of clear air, clouds, long-wave.
#pragma once
#include "base/contract.hpp"
#include "numerics/elementary.hpp"
#include "physics/constants.hpp"

namespace houseleek::physics {

/// Emissivity of a clear sky from humidity near the ground.
/// Equation: 1.24 (e/T)^(1/7), not above 1
/// Symbols:  e = vapour_pressure_pa in hPa; T = air_temperature_k
/// Shape:    scalars in, scalar out; pure.
/// Units:    Pa and K in; fraction out.
/// Valid:    vapour pressure above zero to 10 kPa, 210 K to 330 K.
/// Errors:   ContractViolation outside the range.
/// Source:   [brutsaert1975] Eq. 11 (coefficients from memory).   Checked by: SKY-01, SKY-03, SKY-10.
[[nodiscard]] inline double clear_sky_emissivity_brutsaert(double vapour_pressure_pa, double air_temperature_k) {
  expects(vapour_pressure_pa > 0.0 && vapour_pressure_pa <= 10.0e3 && air_temperature_k >= 210.0 &&
              air_temperature_k <= 330.0,
          "a vapour pressure up to 10 kPa and an air temperature from 210 to 330 K");
  const double emissivity = 1.24 * numerics::pow(0.01 * vapour_pressure_pa / air_temperature_k, 1.0 / 7.0);
  return emissivity < 1.0 ? emissivity : 1.0;
}

/// What the dew point formula for a clear sky asks for.
struct ClearSkyByDewPoint {
  double dew_point_c;
  double pressure_pa = 101325.0;
  double solar_hour_h = 6.0;  // 0 at midnight; at 6 and 18 h the daily term is zero, as in a mean
};

/// Emissivity of a clear sky from the dew point.
/// Equation: 0.711 + 0.56 (d/100) + 0.73 (d/100)^2 + 0.013 cos(2 pi t/24) + 0.00012 (P - 1000), not above 1
/// Symbols:  d: dew point in degC; t: solar hour; P: pressure in hPa
/// Shape:    struct in, scalar out; pure.
/// Units:    fraction out.
/// Valid:    dew point -40 degC to 35 degC (this project's range), pressure 50 to 110 kPa, hour 0 to 24.
/// Errors:   ContractViolation outside the range.
/// Source:   [berdahl1984] (coefficients from memory).   Checked by: SKY-02, SKY-04.
[[nodiscard]] inline double clear_sky_emissivity_berdahl_martin(const ClearSkyByDewPoint& sky) {
  expects(sky.dew_point_c >= -40.0 && sky.dew_point_c <= 35.0 && sky.pressure_pa >= 50.0e3 &&
              sky.pressure_pa <= 110.0e3 && sky.solar_hour_h >= 0.0 && sky.solar_hour_h <= 24.0,
          "a dew point from -40 to 35 degC, a pressure from 50 to 110 kPa, an hour from 0 to 24");
  const double d = 0.01 * sky.dew_point_c;
  const double emissivity = 0.711 + 0.56 * d + 0.73 * d * d +
                            0.013 * numerics::cos(2.0 * pi * sky.solar_hour_h / 24.0) +
                            0.00012 * (0.01 * sky.pressure_pa - 1000.0);
  return emissivity < 1.0 ? emissivity : 1.0;
}

/// Cloud share from how far radiation stays behind a clear sky's.
/// Equation: c = 1 - s, held between 0 and 1
/// Symbols:  s = clear_share_frac: global radiation over that of a clear sky
/// Shape:    scalar in, scalar out; pure.
/// Units:    fractions.
/// Valid:    s zero or more, by day; at night hold or interpolate the share of dusk and dawn.
/// Errors:   ContractViolation if negative or not finite.
/// Source:   [crawford1999] Eq. 20 (from memory).   Checked by: SKY-06.
[[nodiscard]] inline double sky_cloud_frac(double clear_share_frac) {
  expects(clear_share_frac >= 0.0 && clear_share_frac <= 100.0, "a share of zero or more");
  return clear_share_frac >= 1.0 ? 0.0 : 1.0 - clear_share_frac;
}

/// Emissivity of a sky with clouds.
/// Equation: c + (1 - c) e0
/// Symbols:  c = cloud_frac; e0 = clear_emissivity_frac
/// Shape:    scalars in, scalar out; pure.
/// Units:    fractions.
/// Valid:    both 0 to 1.
/// Errors:   ContractViolation outside the range.
/// Source:   [crawford1999] Eq. 19 (from memory).   Checked by: SKY-05.
[[nodiscard]] inline double sky_emissivity(double clear_emissivity_frac, double cloud_frac) {
  expects(clear_emissivity_frac >= 0.0 && clear_emissivity_frac <= 1.0 && cloud_frac >= 0.0 && cloud_frac <= 1.0,
          "an emissivity and a cloud share from 0 to 1");
  return cloud_frac + (1.0 - cloud_frac) * clear_emissivity_frac;
}

/// Long-wave radiation that comes down on level ground.
/// Equation: e sigma T^4
/// Symbols:  e = emissivity_frac of the sky; sigma: Stefan and Boltzmann's constant; T = air_temperature_k near the ground
/// Shape:    scalars in, scalar out; pure.
/// Units:    fraction and K in; W/m2 out.
/// Valid:    emissivity 0 to 1, 210 K to 330 K.
/// Errors:   ContractViolation outside the range.
/// Source:   [brutsaert1975] Eq. 1.   Checked by: SKY-10.
[[nodiscard]] inline double sky_longwave_w_per_m2(double emissivity_frac, double air_temperature_k) {
  expects(emissivity_frac >= 0.0 && emissivity_frac <= 1.0 && air_temperature_k >= 210.0 && air_temperature_k <= 330.0,
          "an emissivity from 0 to 1 and an air temperature from 210 to 330 K");
  const double squared_k2 = air_temperature_k * air_temperature_k;
  return emissivity_frac * stefan_boltzmann_w_per_m2_k4 * squared_k2 * squared_k2;
}

/// Temperature of a black sky that would send down the same.
/// Equation: (e)^(1/4) T
/// Symbols:  e = emissivity_frac; T = air_temperature_k
/// Shape:    scalars in, scalar out; pure.
/// Units:    fraction and K in; K out.
/// Valid:    emissivity above 0 to 1, 210 K to 330 K.
/// Errors:   ContractViolation outside the range.
/// Source:   definition.   Checked by: SKY-03, SKY-04.
[[nodiscard]] inline double sky_temperature_k(double emissivity_frac, double air_temperature_k) {
  expects(emissivity_frac > 0.0 && emissivity_frac <= 1.0 && air_temperature_k >= 210.0 && air_temperature_k <= 330.0,
          "an emissivity up to 1 and an air temperature from 210 to 330 K");
  return air_temperature_k * numerics::sqrt(numerics::sqrt(emissivity_frac));
}

}  // namespace houseleek::physics
