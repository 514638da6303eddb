// One step of the water in a module: in at the top, held, taken up, drained.
#pragma once
#include <span>
#include <vector>

#include "simulation/mesh.hpp"

namespace houseleek::simulation {

/// What acts on the water during a step; all constant over it, in kg/m2s.
struct WaterForcing {
  double arriving_kg_per_m2_s = 0.0;           // rain and watering on the surface
  double top_exchange_kg_per_m2_s = 0.0;       // evaporation from the first store; negative: dew
  std::span<const double> uptake_kg_per_m2_s;  // by roots, one value a store, not negative
};

/// Where it went; mean fluxes over the step.
struct WaterStep {
  std::vector<double> water_frac;        // after the step, one value a store
  std::vector<double> face_kg_per_m2_s;  // one more than stores: [0] infiltration, then out of each store
  double runoff_kg_per_m2_s = 0.0;
  bool is_overdrawn = false;  // a store would fall below its residual: the caller must step finer
};

/// Advances the stores by one step: unit-gradient drainage, implicit, top down, sub-stepped until two
/// refinements differ by less than 10 um, then extrapolated from both.
/// Equation: D rho dtheta/dt = q_in - q_out - U; q_out = rho K y^b, y = (theta - holds)/(saturated - holds)
/// Shape:    stores top to bottom in mesh.stores; water_frac one value a store; result as in WaterStep.
/// Units:    step_s in s; water by volume; fluxes in kg/m2s.
/// Valid:    any step above 0; water_frac between residual and saturated.
/// Errors:   is_overdrawn, never a clamp.
/// Order:    2 in the sub-step after the extrapolation (1 where that would leave the bounds); exact while nothing drains.
/// Conserves: water, to rounding.
/// Source:   unit-gradient drainage with a power law [brooks1964], from memory; docs/equations/stack.md.
void advance_water(const Mesh& mesh, std::span<const double> water_frac, const WaterForcing& forcing, double step_s,
                   WaterStep& result);

}  // namespace houseleek::simulation
