// The books of one step: boundary fluxes found again from the stored stage states, by code that the solver does not use.
#pragma once
#include "numerics/lane.hpp"
#include "physics/air.hpp"
#include "physics/constants.hpp"
#include "physics/film.hpp"
#include "simulation/node_balance.hpp"

namespace houseleek::simulation {

/// Heat and vapour through a stack's boundaries at one stage. Into the stack positive.
template <class L>
struct BoundaryFluxes {
  L net_w_per_m2;     // sum of all
  L gross_w_per_m2;   // sum of their sizes, gross long-wave included
  L vapour_w_per_m2;  // latent heat leaving
};

/// Boundary fluxes of a stage from its nodes. The long-wave is written as emission and absorption of the whole cover, the vapour as what the
/// outside air takes up, the short-wave as what is not reflected: none of these is a term of the solver's residuals.
template <class L, bool has_canopy, bool has_net, bool has_module>
[[nodiscard]] inline BoundaryFluxes<L> boundary_fluxes(const NodeConstants<L>& k, const NodeStage<L>& s,
                                                       const L reflected_frac, const L* x, const L room_air_c,
                                                       const L room_surface_c) {
  using N = Nodes<has_canopy, has_net, has_module>;
  using numerics::abs;
  const L sigma(physics::stefan_boltzmann_w_per_m2_k4);
  const auto black = [&](L t_c) {
    const L t_k = t_c + L(physics::zero_celsius_k);
    return sigma * (t_k * t_k) * (t_k * t_k);
  };
  const L sun = s.sun_w_per_m2 - reflected_frac * s.sun_w_per_m2;

  L absorbing(0.0), emitting(0.0);
  if constexpr (has_canopy) {
    const L leaves = k.leaf_longwave_frac * k.leaf_emissivity;
    const L ground = k.surface_emissivity - k.leaf_longwave_frac * k.surface_emissivity;
    absorbing = leaves + ground;
    emitting = leaves * black(x[N::foliage]) + ground * black(x[N::surface]);
  } else {
    absorbing = k.surface_emissivity;
    emitting = k.surface_emissivity * black(x[N::surface]);
  }
  L longwave_up;
  if constexpr (has_net) {
    const L from_net = k.net_emissivity * black(x[N::net]);
    const L down = s.sky_w_per_m2 - k.net_emissivity * s.sky_w_per_m2 + from_net;
    const L up_below = down - absorbing * down + emitting;
    longwave_up = from_net + up_below - k.net_emissivity * up_below;
  } else {
    longwave_up = s.sky_w_per_m2 - absorbing * s.sky_w_per_m2 + emitting;
  }

  L sensible(0.0), latent(0.0);
  if constexpr (has_net) {
    const L over_k = x[N::net] - s.air_c;
    sensible = L(2.0) * over_k *
               physics::film_at(s.net_forced_cubed, s.net_unstable_cubed, s.net_stable_cubed, over_k).value_w_per_m2_k;
  }
  if constexpr (has_canopy) {
    const L over_k = x[N::canopy_air] - s.air_c;
    const L h = physics::film_at(s.forced_cubed, s.unstable_cubed, s.stable_cubed, over_k).value_w_per_m2_k;
    sensible += h * over_k;
    latent = h * (x[N::vapour] - s.air_vapour_k);
  } else {
    const L over_k = x[N::surface] - s.air_c;
    const L h = physics::film_at(s.forced_cubed, s.unstable_cubed, s.stable_cubed, over_k).value_w_per_m2_k;
    sensible += h * over_k;
    const L steam_k = physics::saturation_pressure_unchecked(x[N::surface]).pressure_pa / s.pressure_per_k;
    const L open = select(s.ground_open_frac > L(0.0), s.ground_open_frac, L(1.0));
    const L by_difference = (steam_k - s.air_vapour_k) / (L(1.0) / h + s.ground_resistance_m2_k_per_w / open);
    latent = select(s.ground_open_frac > L(0.0), numerics::min(by_difference, s.ground_cap_w_per_m2), L(0.0));
  }

  L swept(0.0);
  if constexpr (has_module) {
    if (k.under == Under::ventilated_gap) {
      const L walls_c = L(0.5) * (x[N::bottom] + x[N::membrane]);
      const L air_over_k = (L(1.0) - s.gap_entering_frac) * walls_c + s.gap_entering_frac * s.air_c;
      swept = L(2.0) * s.gap_wall_w_per_m2_k * (walls_c - air_over_k);
    }
  }

  // The ceiling's film once more: rising heat 5.0, falling 0.7 W/m2K, smooth within half a kelvin.
  const L colder_k = room_air_c - x[N::ceiling];
  const L part = numerics::max(L(0.0), numerics::min(L(1.0), L(0.5) + colder_k));
  const L free_film =
      L(0.7) * (L(1.0) - part * part * (L(3.0) - L(2.0) * part)) + L(5.0) * part * part * (L(3.0) - L(2.0) * part);
  const L film = select(k.is_inside_fixed > L(0.0), k.inside_fixed_w_per_m2_k, free_film);
  const L to_room =
      film * (x[N::ceiling] - room_air_c) + k.ceiling_radiative_w_per_m2_k * (x[N::ceiling] - room_surface_c);

  const L net = sun + s.sky_w_per_m2 - longwave_up - sensible - latent - swept - to_room;
  const L gross =
      abs(sun) + abs(s.sky_w_per_m2) + abs(longwave_up) + abs(sensible) + abs(latent) + abs(swept) + abs(to_room);
  return {net, gross, latent};
}

}  // namespace houseleek::simulation
