// Air between a module and the deck: closed, or swept by the wind.
#pragma once
#include "numerics/elementary.hpp"
#include "numerics/lane.hpp"
#include "physics/film.hpp"

namespace houseleek::physics {

/// Nusselt number of a closed horizontal layer and its slope by temperature difference.
template <class L>
struct GapNusselt {
  L value;
  L slope_per_k;
};

/// Closed horizontal air layer; `rayleigh_per_k` is Ra for 1 K.
/// Equation: Nu = 1 + 1.44 [1 - 1708/Ra]+ + [(Ra/5830)^(1/3) - 1]+ when heated from below, else 1
/// Symbols:  Ra = rayleigh_per_k * difference_k
/// Shape:    lanes in, lanes out; pure.
/// Units:    difference_k in K, lower face minus upper face; result dimensionless and per K.
/// Valid:    difference_k below 200 K; any sign.
/// Errors:   none.
/// Source:   [hollands1976], coefficients from memory.   Checked by: GAP-01, GAP-02.
template <class L>
[[nodiscard]] inline GapNusselt<L> closed_gap_nusselt(const L rayleigh_per_k, const L difference_k) {
  using numerics::mask_and;
  using numerics::max;
  using numerics::select;
  const L warm_k = max(difference_k, L(1e-9));
  const L rayleigh = rayleigh_per_k * warm_k;
  const auto is_rolling = mask_and(difference_k > L(0.0), rayleigh > L(1708.0));
  const auto is_strong = mask_and(difference_k > L(0.0), rayleigh > L(5830.0));
  const L onset = L(1708.0) / max(rayleigh, L(1.0));
  const L third = numerics::cbrt(rayleigh / L(5830.0));
  const L value =
      L(1.0) + select(is_rolling, L(1.44) * (L(1.0) - onset), L(0.0)) + select(is_strong, third - L(1.0), L(0.0));
  const L slope =
      select(is_rolling, L(1.44) * onset / warm_k, L(0.0)) + select(is_strong, third / (L(3.0) * warm_k), L(0.0));
  return {value, slope};
}

/// Rayleigh number of a layer for 1 K.
/// Equation: Ra = g b dT d^3/(nu a)
/// Symbols:  air at 300 K as in FilmAir; d: height_m
/// Shape:    scalar in, scalar out; pure.
/// Units:    height_m in m; result per K.
/// Valid:    height_m above 0, below 1 m.
/// Errors:   throws ContractViolation outside the valid range.
/// Source:   [incropera] Eq. 9.25, from memory.   Checked by: GAP-01.
[[nodiscard]] double gap_rayleigh_per_k(double height_m);

/// Wall exchange and what share of the entering air's temperature the gap's air keeps.
struct GapSweep {
  double wall_w_per_m2_k = 0.0;  // of each face to the gap's air
  double entering_frac = 0.0;    // phi: mean gap air = (1 - phi) mean wall + phi entering air
};

/// Gap swept by air between two warm walls, averaged along its length.
/// Equation: h = 7.541 k/(2 b); N = 2 h l/(rho c v b); phi = (1 - exp(-N))/N
/// Symbols:  b: height_m; l: length_m; v: speed_m_per_s; rho c: air_heat_j_per_m3_k
/// Shape:    scalars in, two values out; pure.
/// Units:    m, m, m/s, J/m3K; result in W/m2K and a fraction.
/// Valid:    all above 0.
/// Errors:   throws ContractViolation outside the valid range.
/// Source:   [incropera] Table 8.1 (parallel plates at one temperature), Eq. 8.41b, from memory.   Checked by: GAP-03.
[[nodiscard]] GapSweep swept_gap(double height_m, double length_m, double speed_m_per_s, double air_heat_j_per_m3_k);

}  // namespace houseleek::physics
