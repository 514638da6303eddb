// The massless nodes of one stack solved from given slices: surface, canopy air and net above, the two faces of the
// gap below a module. Written from docs/equations/stack.md alone, with the C library's functions.
#pragma once
#include <cmath>

#include "dual.hpp"
#include "simulation/group.hpp"

namespace houseleek::tests::second_opinion {

inline constexpr double stefan_boltzmann_w_per_m2_k4 = 5.670374419e-8;
inline constexpr double gas_constant_air_j_per_kg_k = 287.05;
inline constexpr double heat_capacity_air_j_per_kg_k = 1010.0;
inline constexpr double heat_capacity_water_j_per_kg_k = 4190.0;
inline constexpr double density_water_kg_per_m3 = 1000.0;
inline constexpr double gravity_m_per_s2 = 9.80665;
inline constexpr double zero_celsius_k = 273.15;

// Air at 300 K, for films and gaps.
inline constexpr double film_conductivity_w_per_m_k = 0.026248;
inline constexpr double film_viscosity_m2_per_s = 1.5689e-5;
inline constexpr double film_prandtl = 0.70751;
inline constexpr double film_diffusivity_m2_per_s = film_viscosity_m2_per_s / film_prandtl;
inline constexpr double film_expansion_per_k = 1.0 / 300.0;

template <class T>
T saturation_vapour_pressure_pa(const T& temperature_c) {
  using std::exp;
  return 610.8 * exp(17.27 * temperature_c / (temperature_c + 237.3));
}

template <class T>
T radiated_w_per_m2(const T& temperature_c) {
  const T kelvin = temperature_c + zero_celsius_k;
  const T square = kelvin * kelvin;
  return stefan_boltzmann_w_per_m2_k4 * (square * square);
}

/// The outside film at one wind: forced and still parts known, natural part from the temperature difference.
struct Film {
  bool is_fixed = false;
  double fixed_w_per_m2_k = 0.0;
  double forced_cubed = 0.0;        // h_f^3 + 0.1^3
  double warm_per_k = 0.0;          // h_n^3 = warm_per_k * dT for dT > 0
  double cool_cubed_per_k34 = 0.0;  // h_n^3 = cool_cubed_per_k34 * |dT|^(3/4) for dT < 0

  template <class T>
  [[nodiscard]] T h_w_per_m2_k(const T& difference_k) const {
    using std::cbrt;
    using std::pow;
    if (is_fixed) return T(fixed_w_per_m2_k);
    T cubed(forced_cubed);
    if (value_of(difference_k) > 0.0) cubed = cubed + warm_per_k * difference_k;
    if (value_of(difference_k) < 0.0) cubed = cubed + cool_cubed_per_k34 * pow(0.0 - difference_k, 0.75);
    return cbrt(cubed);
  }
};
[[nodiscard]] Film make_film(const simulation::OutsideFilm& film, double roof_wind_m_per_s);

/// Short-wave shares of what arrives above everything.
struct SunShares {
  double net = 0.0;
  double leaves = 0.0;
  double ground = 0.0;
  double below_net = 1.0;        // Dn
  double reflected_below = 0.0;  // alpha: of what arrives below the net
};
[[nodiscard]] SunShares sun_shares(const simulation::Stack& stack);

/// All that is known while T_n, T_c, E_c and T_g are sought.
struct SurfaceKnown {
  bool has_net = false;
  bool has_canopy = false;
  double air_c = 0.0;
  double air_vapour_k = 0.0;  // E_a
  double gamma_pa_per_k = 66.0;
  double sky_w_per_m2 = 0.0;
  double sun_net_w_per_m2 = 0.0;
  double sun_leaves_w_per_m2 = 0.0;
  double sun_ground_w_per_m2 = 0.0;
  double net_emissivity = 0.0;
  double leaf_emissivity = 0.0;
  double ground_emissivity = 0.0;
  double long_cover_frac = 0.0;  // sl
  Film film_above;
  Film film_below;
  double leaf_air_w_per_m2_k = 0.0;       // gb
  double ground_air_w_per_m2_k = 0.0;     // gs
  double leaf_vapour_w_per_m2_k = 0.0;    // gvf
  double ground_vapour_w_per_m2_k = 0.0;  // gvg below a canopy; without one the part below the film
  double rain_w_per_m2_k = 0.0;           // c_w P
  double rain_c = 0.0;
  double watering_w_per_m2_k = 0.0;         // c_w I
  double top_conductance_w_per_m2_k = 0.0;  // 2 lambda_0 / d_0
  double first_slice_c = 0.0;
  double foliage_c = 0.0;
};

struct SurfaceNodes {
  double net_c = 0.0;
  double canopy_air_c = 0.0;
  double canopy_vapour_k = 0.0;
  double surface_c = 0.0;
};

struct SurfaceFluxes {
  double foliage_w_per_m2 = 0.0;        // C_f dT_f/dt
  double leaf_latent_w_per_m2 = 0.0;    // LE_f
  double ground_latent_w_per_m2 = 0.0;  // LE_g
  double leaf_sensible_w_per_m2 = 0.0;
  double ground_sensible_w_per_m2 = 0.0;
  double into_layers_w_per_m2 = 0.0;  // q_top
};

/// Newton from `nodes`, which it replaces; false where it does not converge.
[[nodiscard]] bool solve_surface(const SurfaceKnown& known, SurfaceNodes& nodes, SurfaceFluxes& fluxes);

/// What the gap under a module is at one moment.
struct GapKnown {
  simulation::Under under = simulation::Under::nothing;
  double contact_w_per_m2_k = 0.0;
  double radiation_factor = 0.0;  // F
  double height_m = 0.0;
  double wall_w_per_m2_k = 0.0;               // h_w
  double fresh_frac = 0.0;                    // phi
  double air_c = 0.0;                         // outside
  double above_conductance_w_per_m2_k = 0.0;  // 2 lambda_n / d_n
  double above_c = 0.0;
  double below_conductance_w_per_m2_k = 0.0;
  double below_c = 0.0;
};
[[nodiscard]] GapKnown make_gap(const simulation::Stack& stack, double roof_wind_m_per_s, double density_kg_per_m3,
                                double air_c);

struct GapNodes {
  double bottom_c = 0.0;    // T_b
  double membrane_c = 0.0;  // T_m
};
[[nodiscard]] bool solve_gap(const GapKnown& known, GapNodes& nodes);

/// Convection number of a closed layer heated from below.
template <class T>
T closed_gap_nusselt(const T& rayleigh) {
  using std::cbrt;
  T result(1.0);
  const double ra = value_of(rayleigh);
  if (ra > 1708.0) result = result + 1.44 * (1.0 - 1708.0 / rayleigh);
  if (ra > 5830.0) result = result + (cbrt((1.0 / 5830.0) * rayleigh) - 1.0);
  return result;
}

}  // namespace houseleek::tests::second_opinion
