// Rain that runs off over a deck in a thin sheet, or through a coarse layer that lies on it.
#include "physics/sheet_flow.hpp"

#include "base/contract.hpp"
#include "numerics/elementary.hpp"

namespace houseleek::physics {
namespace {

constexpr double m_per_s_from_mm_per_h = 1.0 / 3.6e6;

void expect_positive(const RainedPlane& plane) {
  expects(plane.length_m > 0.0 && plane.slope > 0.0 && plane.roughness_s_per_m13 > 0.0 && plane.rain_mm_per_h > 0.0,
          "a plane and a rain with sizes");
}

void expect_positive(const DrainedLayer& layer) {
  expects(layer.length_m > 0.0 && layer.conductivity_m_per_s > 0.0 && layer.rain_mm_per_h > 0.0,
          "a layer and a rain with sizes");
}

}  // namespace

double sheet_flow_m2_per_s(double depth_m, double slope, double roughness_s_per_m13) {
  expects(depth_m >= 0.0 && slope >= 0.0 && roughness_s_per_m13 > 0.0, "a depth, a slope and a roughness");
  const double root = numerics::cbrt(depth_m);
  return depth_m * root * root * numerics::sqrt(slope) / roughness_s_per_m13;
}

double sheet_depth_at_foot_m(const RainedPlane& plane) {
  expect_positive(plane);
  const double flow_m2_per_s = m_per_s_from_mm_per_h * plane.rain_mm_per_h * plane.length_m;
  return numerics::pow(flow_m2_per_s * plane.roughness_s_per_m13 / numerics::sqrt(plane.slope), 0.6);
}

double time_until_all_runs_s(const RainedPlane& plane) {
  return sheet_depth_at_foot_m(plane) / (m_per_s_from_mm_per_h * plane.rain_mm_per_h);
}

double level_layer_depth_m(const DrainedLayer& layer) {
  expect_positive(layer);
  return layer.length_m * numerics::sqrt(m_per_s_from_mm_per_h * layer.rain_mm_per_h / layer.conductivity_m_per_s);
}

double sloping_layer_depth_m(const DrainedLayer& layer, double slope) {
  expect_positive(layer);
  expects(slope > 0.0, "a slope");
  return m_per_s_from_mm_per_h * layer.rain_mm_per_h * layer.length_m / (layer.conductivity_m_per_s * slope);
}

double layer_demand_l_per_s_m(double rain_mm_per_h, double length_m, double runoff_frac) {
  expects(rain_mm_per_h >= 0.0 && length_m >= 0.0 && runoff_frac >= 0.0, "figures that are not negative");
  return rain_mm_per_h / 3600.0 * length_m * runoff_frac;
}

}  // namespace houseleek::physics
