// Damp in a build-up by the hour: vapour and liquid, heat with them, through layers between two airs.
#pragma once
#include <functional>
#include <span>
#include <vector>

#include "base/context.hpp"
#include "physics/damp_law.hpp"

namespace houseleek::simulation {

/// A layer that holds water, of one material.
struct DampLayer {
  const physics::DampLaw* law = nullptr;
  double thickness_m = 0.0;
  int n_slices = 8;  // finer towards both faces
  double start_humidity = 0.8;
  double start_c = 20.0;
};

/// What lies between two layers, above the first or below the last: no water in it, no liquid through it.
struct DampSheet {
  double heat_resistance_m2_k_per_w = 0.0;
  double vapour_resistance_m2_s_pa_per_kg = 0.0;
  bool lets_liquid_through = true;  // false for any real sheet or air layer
};

struct DampDeck {
  std::vector<DampLayer> layers;  // from the top
  std::vector<DampSheet> sheets;  // one more than layers: sheets[i] lies above layer i
};

/// One side of the deck, at marks (one value more than there are hours), straight between them.
struct DampSide {
  std::vector<double> temperature_c;
  std::vector<double> vapour_pressure_pa;
  double heat_film_resistance_m2_k_per_w = 0.0;
  double vapour_film_resistance_m2_s_pa_per_kg = 0.0;
  bool is_wet_contact =
      false;  // the face takes the side's humidity itself and sucks liquid (a wet sponge, a benchmark)
};

struct DampClimate {
  DampSide top;
  DampSide bottom;
};

struct DampOptions {
  int n_hours = 0;
  int steps_per_hour = 1;
  int refinement = 1;      // slices
  int largest_split = 64;  // of a step that does not converge
};

/// The state at an hour's end, a value a slice, from the top.
struct DampMoment {
  int hour = 0;  // hours gone
  std::span<const double> water_kg_per_m3;
  std::span<const double> temperature_c;
  std::span<const double> humidity;
};

/// Slices, so that an observer knows where its values are.
struct DampMesh {
  std::vector<double> thickness_m;
  std::vector<int> layer;
};
[[nodiscard]] DampMesh make_damp_mesh(const DampDeck& deck, int refinement);

struct DampRun {
  double water_start_kg_per_m2 = 0.0;
  double water_end_kg_per_m2 = 0.0;
  double came_in_above_kg_per_m2 = 0.0;  // vapour and liquid through each face
  double came_in_below_kg_per_m2 = 0.0;
  double water_residual_kg_per_m2 = 0.0;
  double heat_residual_frac = 0.0;  // of the sum of absolute boundary fluxes
  long n_steps = 0;
  long n_newton_iterations = 0;
  int largest_split = 1;
};

/// Steps a deck through its hours.
/// Equation: dw/dt = -d(g_v + g_l)/dx, g_v = -d_p dp_v/dx, g_l = -K dp_c/dx; dH/dt = -d/dx [-lambda dT/dx +
///           g_v (L_0 + c_v T) + g_l c_w T]
/// Symbols:  p_v = h p_sat(T) (over ice below 0 degC); p_c capillary pressure; d_p, K, lambda, H by physics::DampLaw; L_0
///           heat of vaporisation at 0 degC
/// Shape:    slices from the top; fluxes downwards; observer called once an hour.
/// Units:    SI, degC.
/// Valid:    at least one layer, one sheet more than layers, marks for all hours (else a contract violation). No air
///           moves through the deck, no rain leaks in, gravity is left out.
/// Order:    2 in time (SDIRK2) and in the slices' thickness.
/// Conserves: water and heat, to the residuals it returns.
/// Cost:     two stages an hour, about two Newton iterations each, a block tridiagonal system of two unknowns a slice.
/// Errors:   NumericalFailure where a step does not converge at the largest split; Cancelled.
/// Source:   [en15026] for the equations (from memory), the convective heat of the moving water added.
///           Checked by: DAMP-10, DAMP-11, DAMP-12, DAMP-20 to DAMP-26, DampRun.*
[[nodiscard]] DampRun run_damp(const DampDeck& deck, const DampClimate& climate, const DampOptions& options,
                               const std::function<void(const DampMoment&)>& observer = {},
                               const Context& context = {});

}  // namespace houseleek::simulation
