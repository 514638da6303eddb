// Balances of the nodes without mass (and the foliage) of one stack, with their exact derivatives for Newton's method.
//
// Equations and signs: docs/equations/stack.md. Each residual is the heat into the node, W/m2.
#pragma once
#include <array>

#include "numerics/banded.hpp"
#include "numerics/lane.hpp"
#include "physics/air.hpp"
#include "physics/constants.hpp"
#include "physics/film.hpp"
#include "physics/gap.hpp"
#include "simulation/group.hpp"

namespace houseleek::simulation {

// A plain double has no namespace to be found by.
using numerics::lane_at;
using numerics::select;
using numerics::set_lane;

/// Where each unknown stands, top to bottom; with the band that their coupling fills.
template <bool has_canopy, bool has_net, bool has_module>
struct Nodes {
  static constexpr int canopy = has_canopy ? 1 : 0;
  static constexpr int net_count = has_net ? 1 : 0;
  static constexpr int canopy_air = 0;
  static constexpr int vapour = 1;  // canopy air's vapour pressure over gamma, K
  static constexpr int net = 2 * canopy;
  static constexpr int foliage = 2 * canopy + net_count;
  static constexpr int surface = 3 * canopy + net_count;
  static constexpr int bottom = surface + 1;  // of the module
  static constexpr int membrane = has_module ? surface + 2 : surface;
  static constexpr int ceiling = membrane + 1;
  static constexpr int count = ceiling + 1;
  static constexpr int band = has_canopy ? 3 + net_count : 1;
};

/// What does not change during a run.
template <class L>
struct NodeConstants {
  L net_sun_frac, leaves_sun_frac, ground_sun_frac;
  L leaf_longwave_frac;  // sl
  L leaf_emissivity, surface_emissivity, exchange_emissivity;
  L net_emissivity;
  L leaf_capacity_j_per_m2_k;
  L gap_radiation_factor, gap_conduction_w_per_m2_k, gap_rayleigh_per_k, contact_resistance_m2_k_per_w;
  L ceiling_radiative_w_per_m2_k;
  L is_inside_fixed;  // 1 or 0
  L inside_fixed_w_per_m2_k;
  Under under = Under::nothing;
};

/// What is known in a stage before Newton's method starts.
template <class L>
struct NodeStage {
  L air_c, sun_w_per_m2, sky_w_per_m2, air_vapour_k;         // vapour pressure over gamma
  L pressure_per_k;                                          // gamma, Pa/K
  L forced_cubed, unstable_cubed, stable_cubed;              // film under the net, or the only one
  L net_forced_cubed, net_unstable_cubed, net_stable_cubed;  // film above
  L boundary_w_per_m2_k, ground_air_w_per_m2_k;              // gb, gs
  L leaf_vapour_w_per_m2_k;                                  // gvf
  L ground_vapour_w_per_m2_k;                                // gvg with a canopy
  L ground_open_frac, ground_resistance_m2_k_per_w;          // a_g and r' without one
  L leaf_cap_w_per_m2, ground_cap_w_per_m2;
  L rain_w_per_m2_k;                           // c_w (P + I)
  L rain_w_per_m2;                             // c_w (P T_rain + I T_a)
  L foliage_known_c, foliage_rate_w_per_m2_k;  // C_f/(gamma h)
  L gap_wall_w_per_m2_k, gap_entering_frac;
  // Two-face maps: T_first = first + first_by_top T_top + first_by_bottom T_bottom, and so for the last slice.
  L module_top_w_per_m2_k, module_bottom_w_per_m2_k;
  L module_first, module_first_by_top, module_first_by_bottom;
  L module_last, module_last_by_top, module_last_by_bottom;
  L deck_top_w_per_m2_k, deck_bottom_w_per_m2_k;
  L deck_first, deck_first_by_top, deck_first_by_bottom;
  L deck_last, deck_last_by_top, deck_last_by_bottom;
};

/// Heat from the ceiling to the room.
template <class L>
struct CeilingFlux {
  L convective_w_per_m2;
  L slope_w_per_m2_k;  // by the ceiling's temperature; minus that by the air's
  L radiative_w_per_m2;
};

template <class L>
[[nodiscard]] inline CeilingFlux<L> ceiling_flux(const NodeConstants<L>& k, const L ceiling_c, const L room_air_c,
                                                 const L room_surface_c) {
  const L colder_k = room_air_c - ceiling_c;
  const L y = numerics::min(numerics::max(colder_k + L(0.5), L(0.0)), L(1.0));
  const L smooth = L(0.7) + L(4.3) * y * y * (L(3.0) - L(2.0) * y);
  const L film = select(k.is_inside_fixed > L(0.5), k.inside_fixed_w_per_m2_k, smooth);
  const L bend = select(k.is_inside_fixed > L(0.5), L(0.0), L(25.8) * y * (L(1.0) - y));
  return {L(0.0) - film * colder_k, film + bend * colder_k,
          k.ceiling_radiative_w_per_m2_k * (ceiling_c - room_surface_c)};
}

/// Vapour from a surface into air, held back by the water left.
template <class L>
struct VapourFlux {
  L value_w_per_m2;
  L by_surface_w_per_m2_k;
  L by_air_w_per_m2_k;  // by E of the air, negative
};

template <class L>
[[nodiscard]] inline VapourFlux<L> capped(VapourFlux<L> flux, const L cap_w_per_m2) {
  const auto is_free = flux.value_w_per_m2 <= cap_w_per_m2;
  return {select(is_free, flux.value_w_per_m2, cap_w_per_m2), select(is_free, flux.by_surface_w_per_m2_k, L(0.0)),
          select(is_free, flux.by_air_w_per_m2_k, L(0.0))};
}

template <class L, class N>
struct NodeSystem {
  std::array<L, static_cast<std::size_t>(N::count)> residual_w_per_m2;  // later the unknowns' changes
  numerics::Banded<L, N::count, N::band> slope;
  L leaf_vapour_w_per_m2, ground_vapour_w_per_m2;  // after the caps
  CeilingFlux<L> to_room;
};

/// Residuals and derivatives at a guess.
/// Shape:    unknowns in the order of Nodes; one lane a stack.
/// Units:    W/m2 and W/m2K.
template <class L, bool has_canopy, bool has_net, bool has_module>
inline void evaluate_nodes(const NodeConstants<L>& k, const NodeStage<L>& s, const L* x, const L room_air_c,
                           const L room_surface_c, NodeSystem<L, Nodes<has_canopy, has_net, has_module>>& out) {
  using N = Nodes<has_canopy, has_net, has_module>;
  const L sigma(physics::stefan_boltzmann_w_per_m2_k4);
  const L kelvin(physics::zero_celsius_k);
  auto& r = out.residual_w_per_m2;
  auto& j = out.slope;
  r.fill(L(0.0));
  j.entries.fill(L(0.0));
  const auto fourth = [&](const L t_c, L& slope) {
    const L t_k = t_c + kelvin;
    const L cube = sigma * t_k * t_k * t_k;
    slope = L(4.0) * cube;
    return cube * t_k;
  };

  // Long-wave arriving under the net.
  L arriving = s.sky_w_per_m2, arriving_by_net(0.0), net_out(0.0), net_out_slope(0.0);
  if constexpr (has_net) {
    net_out = k.net_emissivity * fourth(x[N::net], net_out_slope);
    net_out_slope = k.net_emissivity * net_out_slope;
    arriving = (L(1.0) - k.net_emissivity) * s.sky_w_per_m2 + net_out;
    arriving_by_net = net_out_slope;
  }

  const L surface_c = x[N::surface];
  L surface_slope;
  const L surface_out = fourth(surface_c, surface_slope);
  const auto surface_steam = physics::saturation_pressure_unchecked(surface_c);
  const L surface_e = surface_steam.pressure_pa / s.pressure_per_k;
  const L surface_e_slope = surface_steam.slope_pa_per_k / s.pressure_per_k;

  L ground_longwave, ground_longwave_by_surface, ground_longwave_by_net;
  L leaf_longwave(0.0);
  L up_by_foliage(0.0);
  if constexpr (has_canopy) {
    L foliage_slope;
    const L foliage_c = x[N::foliage];
    const L foliage_out = fourth(foliage_c, foliage_slope);
    const L share = k.leaf_longwave_frac;
    const L open = L(1.0) - share;
    const L exchange = k.exchange_emissivity * (surface_out - foliage_out);
    leaf_longwave = share * (k.leaf_emissivity * (arriving - foliage_out) + exchange);
    ground_longwave = open * k.surface_emissivity * (arriving - surface_out) - share * exchange;
    ground_longwave_by_surface = L(0.0) - (open * k.surface_emissivity + share * k.exchange_emissivity) * surface_slope;
    ground_longwave_by_net = open * k.surface_emissivity * arriving_by_net;

    // Canopy air, heat and vapour.
    const L air_c = x[N::canopy_air];
    const L vapour_k = x[N::vapour];
    const auto film = physics::film_at(s.forced_cubed, s.unstable_cubed, s.stable_cubed, air_c - s.air_c);
    const L h = film.value_w_per_m2_k;
    const auto leaf_steam = physics::saturation_pressure_unchecked(foliage_c);
    const L leaf_e = leaf_steam.pressure_pa / s.pressure_per_k;
    const L leaf_e_slope = leaf_steam.slope_pa_per_k / s.pressure_per_k;
    const auto from_leaves = capped<L>({s.leaf_vapour_w_per_m2_k * (leaf_e - vapour_k),
                                        s.leaf_vapour_w_per_m2_k * leaf_e_slope, L(0.0) - s.leaf_vapour_w_per_m2_k},
                                       s.leaf_cap_w_per_m2);
    const auto from_ground =
        capped<L>({s.ground_vapour_w_per_m2_k * (surface_e - vapour_k), s.ground_vapour_w_per_m2_k * surface_e_slope,
                   L(0.0) - s.ground_vapour_w_per_m2_k},
                  s.ground_cap_w_per_m2);
    out.leaf_vapour_w_per_m2 = from_leaves.value_w_per_m2;
    out.ground_vapour_w_per_m2 = from_ground.value_w_per_m2;

    r[N::canopy_air] = s.boundary_w_per_m2_k * (foliage_c - air_c) + s.ground_air_w_per_m2_k * (surface_c - air_c) -
                       h * (air_c - s.air_c);
    j.at(N::canopy_air, N::canopy_air) =
        L(0.0) - s.boundary_w_per_m2_k - s.ground_air_w_per_m2_k - h - film.slope_w_per_m2_k2 * (air_c - s.air_c);
    j.at(N::canopy_air, N::foliage) = s.boundary_w_per_m2_k;
    j.at(N::canopy_air, N::surface) = s.ground_air_w_per_m2_k;

    r[N::vapour] = from_leaves.value_w_per_m2 + from_ground.value_w_per_m2 - h * (vapour_k - s.air_vapour_k);
    j.at(N::vapour, N::vapour) = from_leaves.by_air_w_per_m2_k + from_ground.by_air_w_per_m2_k - h;
    j.at(N::vapour, N::canopy_air) = L(0.0) - film.slope_w_per_m2_k2 * (vapour_k - s.air_vapour_k);
    j.at(N::vapour, N::foliage) = from_leaves.by_surface_w_per_m2_k;
    j.at(N::vapour, N::surface) = from_ground.by_surface_w_per_m2_k;

    const L foliage_by_self = L(0.0) - share * (k.leaf_emissivity + k.exchange_emissivity) * foliage_slope;
    r[N::foliage] = k.leaves_sun_frac * s.sun_w_per_m2 + leaf_longwave - s.boundary_w_per_m2_k * (foliage_c - air_c) -
                    from_leaves.value_w_per_m2 - s.foliage_rate_w_per_m2_k * (foliage_c - s.foliage_known_c);
    j.at(N::foliage, N::foliage) =
        foliage_by_self - s.boundary_w_per_m2_k - from_leaves.by_surface_w_per_m2_k - s.foliage_rate_w_per_m2_k;
    j.at(N::foliage, N::canopy_air) = s.boundary_w_per_m2_k;
    j.at(N::foliage, N::vapour) = L(0.0) - from_leaves.by_air_w_per_m2_k;
    j.at(N::foliage, N::surface) = share * k.exchange_emissivity * surface_slope;

    r[N::surface] = L(0.0) - s.ground_air_w_per_m2_k * (surface_c - air_c) - from_ground.value_w_per_m2;
    j.at(N::surface, N::surface) = L(0.0) - s.ground_air_w_per_m2_k - from_ground.by_surface_w_per_m2_k;
    j.at(N::surface, N::canopy_air) = s.ground_air_w_per_m2_k;
    j.at(N::surface, N::vapour) = L(0.0) - from_ground.by_air_w_per_m2_k;
    j.at(N::surface, N::foliage) = share * k.exchange_emissivity * foliage_slope;
    if constexpr (has_net) {
      j.at(N::foliage, N::net) = share * k.leaf_emissivity * arriving_by_net;
      up_by_foliage = L(0.0) - foliage_by_self - share * k.exchange_emissivity * foliage_slope;
    }
  } else {
    ground_longwave = k.surface_emissivity * (arriving - surface_out);
    ground_longwave_by_surface = L(0.0) - k.surface_emissivity * surface_slope;
    ground_longwave_by_net = k.surface_emissivity * arriving_by_net;
    const L warmer_k = surface_c - s.air_c;
    const auto film = physics::film_at(s.forced_cubed, s.unstable_cubed, s.stable_cubed, warmer_k);
    const L h = film.value_w_per_m2_k;
    // 1/(1/h + r'/a) without dividing by an opening a of zero.
    const L denominator = s.ground_open_frac + s.ground_resistance_m2_k_per_w * h;
    const L conductance = s.ground_open_frac * h / denominator;
    const L conductance_slope =
        s.ground_open_frac * s.ground_open_frac * film.slope_w_per_m2_k2 / (denominator * denominator);
    const auto from_ground =
        capped<L>({conductance * (surface_e - s.air_vapour_k),
                   conductance * surface_e_slope + conductance_slope * (surface_e - s.air_vapour_k), L(0.0)},
                  s.ground_cap_w_per_m2);
    out.leaf_vapour_w_per_m2 = L(0.0);
    out.ground_vapour_w_per_m2 = from_ground.value_w_per_m2;
    r[N::surface] = L(0.0) - h * warmer_k - from_ground.value_w_per_m2;
    j.at(N::surface, N::surface) = L(0.0) - h - film.slope_w_per_m2_k2 * warmer_k - from_ground.by_surface_w_per_m2_k;
  }
  r[N::surface] +=
      k.ground_sun_frac * s.sun_w_per_m2 + ground_longwave + s.rain_w_per_m2 - s.rain_w_per_m2_k * surface_c;
  j.at(N::surface, N::surface) += ground_longwave_by_surface - s.rain_w_per_m2_k;

  if constexpr (has_net) {
    j.at(N::surface, N::net) += ground_longwave_by_net;
    const L warmer_k = x[N::net] - s.air_c;
    const auto film = physics::film_at(s.net_forced_cubed, s.net_unstable_cubed, s.net_stable_cubed, warmer_k);
    const L up = arriving - leaf_longwave - ground_longwave;
    const L up_by_net = arriving_by_net - ground_longwave_by_net - (has_canopy ? j.at(N::foliage, N::net) : L(0.0));
    r[N::net] = k.net_sun_frac * s.sun_w_per_m2 + k.net_emissivity * (s.sky_w_per_m2 + up) - L(2.0) * net_out -
                L(2.0) * film.value_w_per_m2_k * warmer_k;
    j.at(N::net, N::net) = k.net_emissivity * up_by_net - L(2.0) * net_out_slope -
                           L(2.0) * (film.value_w_per_m2_k + film.slope_w_per_m2_k2 * warmer_k);
    L up_by_surface = L(0.0) - ground_longwave_by_surface;
    if constexpr (has_canopy) {
      up_by_surface = up_by_surface - k.leaf_longwave_frac * k.exchange_emissivity * surface_slope;
      j.at(N::net, N::foliage) = k.net_emissivity * up_by_foliage;
    }
    j.at(N::net, N::surface) = k.net_emissivity * up_by_surface;
  }

  // Down through the module, what lies under it, and the deck.
  const L ceiling_c = x[N::ceiling];
  const L membrane_c = x[N::membrane];
  const L deck_in = s.deck_top_w_per_m2_k *
                    (membrane_c - s.deck_first - s.deck_first_by_top * membrane_c - s.deck_first_by_bottom * ceiling_c);
  const L deck_in_by_membrane = s.deck_top_w_per_m2_k * (L(1.0) - s.deck_first_by_top);
  const L deck_in_by_ceiling = L(0.0) - s.deck_top_w_per_m2_k * s.deck_first_by_bottom;
  if constexpr (has_module) {
    const L bottom_c = x[N::bottom];
    const L into_module = s.module_top_w_per_m2_k * (surface_c - s.module_first - s.module_first_by_top * surface_c -
                                                     s.module_first_by_bottom * bottom_c);
    r[N::surface] -= into_module;
    j.at(N::surface, N::surface) -= s.module_top_w_per_m2_k * (L(1.0) - s.module_first_by_top);
    j.at(N::surface, N::bottom) += s.module_top_w_per_m2_k * s.module_first_by_bottom;

    L leaving, leaving_by_bottom, leaving_by_membrane, arriving_below, below_by_bottom, below_by_membrane;
    if (k.under == Under::contact) {
      const L g = L(1.0) / k.contact_resistance_m2_k_per_w;
      leaving = g * (bottom_c - membrane_c);
      leaving_by_bottom = g;
      leaving_by_membrane = L(0.0) - g;
      arriving_below = leaving;
      below_by_bottom = g;
      below_by_membrane = L(0.0) - g;
    } else {
      L bottom_slope, membrane_slope;
      const L bottom_out = k.gap_radiation_factor * fourth(bottom_c, bottom_slope);
      const L membrane_out = k.gap_radiation_factor * fourth(membrane_c, membrane_slope);
      const L radiated = bottom_out - membrane_out;
      const L radiated_by_bottom = k.gap_radiation_factor * bottom_slope;
      const L radiated_by_membrane = L(0.0) - k.gap_radiation_factor * membrane_slope;
      if (k.under == Under::closed_gap) {
        const L rising_k = membrane_c - bottom_c;
        const auto nusselt = physics::closed_gap_nusselt(k.gap_rayleigh_per_k, rising_k);
        const L slope = k.gap_conduction_w_per_m2_k * (nusselt.value + nusselt.slope_per_k * rising_k);
        leaving = radiated - k.gap_conduction_w_per_m2_k * nusselt.value * rising_k;
        leaving_by_bottom = radiated_by_bottom + slope;
        leaving_by_membrane = radiated_by_membrane - slope;
        arriving_below = leaving;
        below_by_bottom = leaving_by_bottom;
        below_by_membrane = leaving_by_membrane;
      } else {
        const L half = L(0.5) * (L(1.0) - s.gap_entering_frac);
        const L gap_c = half * (bottom_c + membrane_c) + s.gap_entering_frac * s.air_c;
        leaving = s.gap_wall_w_per_m2_k * (bottom_c - gap_c) + radiated;
        leaving_by_bottom = s.gap_wall_w_per_m2_k * (L(1.0) - half) + radiated_by_bottom;
        leaving_by_membrane = radiated_by_membrane - s.gap_wall_w_per_m2_k * half;
        arriving_below = s.gap_wall_w_per_m2_k * (gap_c - membrane_c) + radiated;
        below_by_bottom = s.gap_wall_w_per_m2_k * half + radiated_by_bottom;
        below_by_membrane = radiated_by_membrane - s.gap_wall_w_per_m2_k * (L(1.0) - half);
      }
    }
    r[N::bottom] = s.module_bottom_w_per_m2_k * (s.module_last + s.module_last_by_top * surface_c +
                                                 s.module_last_by_bottom * bottom_c - bottom_c) -
                   leaving;
    j.at(N::bottom, N::surface) = s.module_bottom_w_per_m2_k * s.module_last_by_top;
    j.at(N::bottom, N::bottom) = s.module_bottom_w_per_m2_k * (s.module_last_by_bottom - L(1.0)) - leaving_by_bottom;
    j.at(N::bottom, N::membrane) = L(0.0) - leaving_by_membrane;
    r[N::membrane] = arriving_below - deck_in;
    j.at(N::membrane, N::bottom) = below_by_bottom;
    j.at(N::membrane, N::membrane) = below_by_membrane - deck_in_by_membrane;
    j.at(N::membrane, N::ceiling) = L(0.0) - deck_in_by_ceiling;
  } else {
    r[N::surface] -= deck_in;
    j.at(N::surface, N::surface) -= deck_in_by_membrane;
    j.at(N::surface, N::ceiling) -= deck_in_by_ceiling;
  }
  out.to_room = ceiling_flux(k, ceiling_c, room_air_c, room_surface_c);
  r[N::ceiling] = s.deck_bottom_w_per_m2_k *
                      (s.deck_last + s.deck_last_by_top * membrane_c + s.deck_last_by_bottom * ceiling_c - ceiling_c) -
                  out.to_room.convective_w_per_m2 - out.to_room.radiative_w_per_m2;
  j.at(N::ceiling, N::membrane) = s.deck_bottom_w_per_m2_k * s.deck_last_by_top;
  j.at(N::ceiling, N::ceiling) = s.deck_bottom_w_per_m2_k * (s.deck_last_by_bottom - L(1.0)) -
                                 out.to_room.slope_w_per_m2_k - k.ceiling_radiative_w_per_m2_k;
}

}  // namespace houseleek::simulation
