// Outside film of a flat roof: forced convection over its length, helped by natural convection.
#pragma once
#include "numerics/elementary.hpp"
#include "numerics/lane.hpp"

namespace houseleek::physics {

/// Dry air at 300 K and the standard's gravity, as used by the films [incropera, Table A.4, from memory].
struct FilmAir {
  double conductivity_w_per_m_k = 0.026248;
  double kinematic_viscosity_m2_per_s = 1.5689e-5;
  double prandtl = 0.70751;
  double expansion_per_k = 1.0 / 300.0;
  double gravity_m_per_s2 = 9.80665;
};

/// Cubed coefficients from which a film follows at any temperature difference.
struct FilmLaw {
  double forced_cubed = 0.0;    // (W/m2K)^3, with the still-air floor in it
  double unstable_cubed = 0.0;  // (W/m2K)^3 per K: surface warmer than the air
  double stable_cubed = 0.0;    // (W/m2K)^3 per K^(3/4): surface colder than the air
};

/// A film and what Newton's method needs of it.
template <class L>
struct Film {
  L value_w_per_m2_k;
  L slope_w_per_m2_k2;  // d value / d difference
};

/// Coefficients of the outside film over a flat roof.
/// Equation: h_f = 0.037 Re^0.8 Pr^(1/3) k/L; h_n^3 = (0.15 k)^3 g b dT/(nu a) when warmer than the air;
///           h_n = 0.27 (k/L) Ra^(1/4) when colder; still-air floor 0.1 W/m2K added to the cubes
/// Symbols:  Re = u L/nu; Ra = g b |dT| L^3/(nu a); a = nu/Pr; u: wind_m_per_s; L: length_m
/// Shape:    scalars in, three coefficients out; pure.
/// Units:    wind_m_per_s in m/s at roof height; length_m in m; result in (W/m2K)^3 and per K or per K^(3/4).
/// Valid:    wind_m_per_s 0 to 60; length_m 0.1 to 500; outside it a contract violation.
/// Errors:   throws ContractViolation outside the valid range.
/// Source:   [incropera] Eqs. 7.41 (turbulent from the edge), 9.31, 9.32 (older form), from memory.   Checked by: FILM-01, FILM-02.
[[nodiscard]] FilmLaw outside_film_law(double wind_m_per_s, double length_m);

/// Film coefficient at a temperature difference.
/// Equation: h = (h_f^3 + h_n^3)^(1/3)
/// Symbols:  h_f^3: law.forced_cubed; h_n^3 from law.unstable_cubed or law.stable_cubed
/// Shape:    lanes in, lanes out; pure.
/// Units:    difference_k in K, surface minus air; result in W/m2K and W/m2K2.
/// Valid:    |difference_k| below 200 K.
/// Errors:   none; the slope near 0 K on the stable side is limited (it only steers Newton's method).
/// Source:   [incropera] Sec. 9.9 (n = 3), from memory.   Checked by: FILM-01, FILM-02.
template <class L>
[[nodiscard]] inline Film<L> film_at(const L forced_cubed, const L unstable_cubed, const L stable_cubed,
                                     const L difference_k) {
  using numerics::abs;
  using numerics::max;
  using numerics::select;
  using numerics::sqrt;
  const L size_k = abs(difference_k);
  const L root = sqrt(sqrt(size_k));
  const auto is_warm = difference_k > L(0.0);
  const L natural_cubed = select(is_warm, unstable_cubed * size_k, stable_cubed * root * root * root);
  const L value = numerics::cbrt(forced_cubed + natural_cubed);
  const L slope_cubed = select(is_warm, unstable_cubed, L(-0.75) * stable_cubed / max(root, L(0.03)));
  return {value, slope_cubed / (L(3.0) * value * value)};
}

}  // namespace houseleek::physics
