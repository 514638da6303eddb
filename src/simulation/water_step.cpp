// One step of the water in a module: in at the top, held, taken up, drained.
#include "simulation/water_step.hpp"

#include <utility>

#include "base/contract.hpp"
#include "numerics/elementary.hpp"
#include "numerics/lane.hpp"

namespace houseleek::simulation {

namespace {

constexpr double water_density_kg_per_m3 = 1000.0;

/// y^b; the outflow is found from what is left, so this needs no more digits than Newton's method does.
double power(double y, double b) { return numerics::exp(b * numerics::log(y)); }

/// Solves y + c y^b = r for y in (0, r]. The function is convex and rising: from any guess the first Newton step lands above the root (or on
/// it), and from there each iterate is smaller than the last until only rounding is left.
double solve_drained(double c, double b, double r, double guess) {
  double y = guess > 0.0 && guess < r ? guess : r;
  for (int i = 0; i < 60; ++i) {
    const double drained = c * power(y, b);
    double next = y - (y + drained - r) / (1.0 + b * drained / y);
    if (next > r) next = r;
    if (i > 0 && !(next < y)) break;
    // Newton's method squares the error: a change of 1e-8 leaves 1e-16 after it.
    const bool is_settled = numerics::abs(y - next) <= 1e-8 * y;
    y = next;
    if (is_settled) break;
  }
  return y;
}

/// Turns `coarse` into 2 fine - coarse, which takes away the error of first order and keeps every balance, because all of both are linear in it.
/// False, and nothing changed, where that would leave the bounds (a flux below zero, a store outside residual to saturated).
bool extrapolate(const Mesh& mesh, WaterStep& coarse, const WaterStep& fine) {
  const auto ahead = [](double a, double b) { return 2.0 * b - a; };
  if (fine.is_overdrawn || ahead(coarse.runoff_kg_per_m2_s, fine.runoff_kg_per_m2_s) < 0.0) return false;
  for (std::size_t j = 0; j < fine.face_kg_per_m2_s.size(); ++j) {
    if (ahead(coarse.face_kg_per_m2_s[j], fine.face_kg_per_m2_s[j]) < 0.0) return false;
  }
  for (std::size_t j = 0; j < mesh.stores.size(); ++j) {
    const Layer& layer = mesh.layers[static_cast<std::size_t>(mesh.stores[j].layer)];
    const double water = ahead(coarse.water_frac[j], fine.water_frac[j]);
    if (water < layer.residual_frac || water > layer.saturated_frac) return false;
  }
  for (std::size_t j = 0; j < fine.face_kg_per_m2_s.size(); ++j) {
    coarse.face_kg_per_m2_s[j] = ahead(coarse.face_kg_per_m2_s[j], fine.face_kg_per_m2_s[j]);
  }
  for (std::size_t j = 0; j < mesh.stores.size(); ++j) {
    coarse.water_frac[j] = ahead(coarse.water_frac[j], fine.water_frac[j]);
  }
  coarse.runoff_kg_per_m2_s = ahead(coarse.runoff_kg_per_m2_s, fine.runoff_kg_per_m2_s);
  coarse.is_overdrawn = false;
  return true;
}

void advance_with(const Mesh& mesh, std::span<const double> start, const WaterForcing& forcing, double step_s,
                  int n_parts, WaterStep& result) {
  const std::size_t n = mesh.stores.size();
  result.water_frac.assign(start.begin(), start.end());
  result.face_kg_per_m2_s.assign(n + 1, 0.0);
  result.runoff_kg_per_m2_s = 0.0;
  result.is_overdrawn = false;
  const double part_s = step_s / n_parts;
  const double weight = 1.0 / n_parts;
  const double first_conducts =
      water_density_kg_per_m3 *
      mesh.layers[static_cast<std::size_t>(mesh.stores[0].layer)].saturated_conductivity_m_per_s;
  const double infiltration =
      forcing.arriving_kg_per_m2_s < first_conducts ? forcing.arriving_kg_per_m2_s : first_conducts;
  for (int part = 0; part < n_parts; ++part) {
    double inflow = infiltration;
    double runoff = forcing.arriving_kg_per_m2_s - infiltration;
    for (std::size_t j = 0; j < n; ++j) {
      const WaterStore& store = mesh.stores[j];
      const Layer& layer = mesh.layers[static_cast<std::size_t>(store.layer)];
      const double taken = forcing.uptake_kg_per_m2_s[j] + (j == 0 ? forcing.top_exchange_kg_per_m2_s : 0.0);
      const double span = layer.saturated_frac - layer.holds_frac;
      const double mass = store.depth_m * water_density_kg_per_m3;
      const double start_frac = result.water_frac[j];
      const double undrained = start_frac + part_s * (inflow - taken) / mass;
      double outflow = 0.0;
      double end_frac = undrained;
      if (undrained > layer.holds_frac) {
        const double r = (undrained - layer.holds_frac) / span;
        const double c = part_s * layer.saturated_conductivity_m_per_s / (store.depth_m * span);
        const double y = solve_drained(c, layer.drainage_exponent, r, (start_frac - layer.holds_frac) / span);
        if (y < 1.0) {
          end_frac = layer.holds_frac + span * y;
          outflow = (undrained - end_frac) * mass / part_s;
        } else {
          end_frac = layer.saturated_frac;
          const double surplus = (undrained - end_frac) * mass / part_s;
          const double conducts = water_density_kg_per_m3 * layer.saturated_conductivity_m_per_s;
          outflow = surplus;
          if (j == 0 && surplus > conducts) {
            outflow = conducts;
            runoff += surplus - conducts;
            inflow -= surplus - conducts;
          }
        }
      }
      // The allowance is rounding only: a store may end exactly at its residual.
      if (end_frac < layer.residual_frac - 1e-12) result.is_overdrawn = true;
      result.water_frac[j] = end_frac;
      result.face_kg_per_m2_s[j] += weight * inflow;
      inflow = outflow;
    }
    result.face_kg_per_m2_s[n] += weight * inflow;
    result.runoff_kg_per_m2_s += weight * runoff;
  }
}

}  // namespace

void advance_water(const Mesh& mesh, std::span<const double> water_frac, const WaterForcing& forcing, double step_s,
                   WaterStep& result) {
  expects(!mesh.stores.empty() && water_frac.size() == mesh.stores.size() &&
              forcing.uptake_kg_per_m2_s.size() == mesh.stores.size() && step_s > 0.0 &&
              forcing.arriving_kg_per_m2_s >= 0.0,
          "one water content and one uptake a store, a positive step and arriving water not negative");
  advance_with(mesh, water_frac, forcing, step_s, 1, result);
  // The implicit step's error is half the step times the change of the outflow; where nothing drains it is exact.
  constexpr double negligible_m = 1e-7;
  double error_m = 0.0;
  for (std::size_t j = 0; j < mesh.stores.size(); ++j) {
    const Layer& layer = mesh.layers[static_cast<std::size_t>(mesh.stores[j].layer)];
    double at_start = 0.0;
    if (water_frac[j] > layer.holds_frac) {
      const double y = (water_frac[j] - layer.holds_frac) / (layer.saturated_frac - layer.holds_frac);
      at_start = water_density_kg_per_m3 * layer.saturated_conductivity_m_per_s * power(y, layer.drainage_exponent);
    }
    error_m += 0.5 * step_s * numerics::abs(result.face_kg_per_m2_s[j + 1] - at_start) / water_density_kg_per_m3;
  }
  if (error_m < negligible_m) return;
  constexpr double tolerance_m = 1e-5;  // between two refinements; their extrapolation is much closer
  constexpr int most_parts = 512;
  WaterStep finer;
  for (int n_parts = 2; n_parts <= most_parts; n_parts *= 2) {
    advance_with(mesh, water_frac, forcing, step_s, n_parts, finer);
    double largest_m = 0.0;
    for (std::size_t j = 0; j < mesh.stores.size(); ++j) {
      const double change_m = numerics::abs(finer.water_frac[j] - result.water_frac[j]) * mesh.stores[j].depth_m;
      if (change_m > largest_m) largest_m = change_m;
    }
    const bool is_close = largest_m < tolerance_m;
    if (is_close && extrapolate(mesh, result, finer)) return;
    std::swap(result, finer);
    if (is_close) return;
  }
}

}  // namespace houseleek::simulation
