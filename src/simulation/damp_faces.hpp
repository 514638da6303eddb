// What passes through a face between two slices of damp layers, or between a slice and the air.
#pragma once
#include "physics/damp_law.hpp"

namespace houseleek::simulation {

/// What one side of a face is: half a slice with its state, or the air beyond a film.
struct FaceSide {
  physics::DampPoint point;  // of an air: vapour and heat only
  double half_m = 0.0;
  double water_kg_per_m3 = 0.0;
  double temperature_c = 0.0;
  double vapour_pa = 0.0;
  double vapour_by_w = 0.0;
  double vapour_by_k = 0.0;
};

/// A flux through a face and its slopes by water (w) and temperature (k) above (u) and below (l).
struct Flux {
  double value = 0.0;
  double by_wu = 0.0;
  double by_ku = 0.0;
  double by_wl = 0.0;
  double by_kl = 0.0;
};

/// Water and heat through a face.
struct FacePair {
  Flux water;  // kg/(m2 s), downwards
  Flux heat;   // W/m2, downwards
};

/// How liquid passes a face.
enum class Liquid { none, one_material, two_materials };

/// What lies in a face itself.
struct FaceLaw {
  double heat_resistance = 0.0;    // of sheet and film, m2 K/W
  double vapour_resistance = 0.0;  // of sheet and film, m2 s Pa/kg
  Liquid liquid = Liquid::none;
};

/// Fluxes between two middles, downwards, with their slopes by both states.
/// Equation: as run_damp (simulation/damp.hpp), two half slices and the sheet between in series; within one material the
///           mean of the liquid's diffusivity
/// Units:    kg/(m2 s) and W/m2.
[[nodiscard]] FacePair fluxes_through(const FaceLaw& face, const FaceSide& upper, const FaceSide& lower);

/// The same through an outer face, still downwards.
[[nodiscard]] FacePair fluxes_through_outer(const FaceLaw& face, const FaceSide& air, const FaceSide& slice,
                                            bool is_top);

}  // namespace houseleek::simulation
