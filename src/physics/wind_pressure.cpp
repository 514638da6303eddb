// Wind on a flat roof after EN 1991-1-4 with its recommended values: peak pressure, and suction by zone and area.
#include "physics/wind_pressure.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "base/contract.hpp"
#include "numerics/elementary.hpp"

namespace houseleek::physics {
namespace {

/// Suctions on 10 m2 and on 1 m2 with a parapet of this share of the roof's height; zones F, G, H, I.
struct ParapetRow {
  double parapet_over_height;
  std::array<double, 4> on_10_m2;
  std::array<double, 4> on_1_m2;
};

constexpr ParapetRow rows[] = {{0.0, {1.8, 1.2, 0.7, 0.2}, {2.5, 2.0, 1.2, 0.2}},
                               {0.025, {1.6, 1.1, 0.7, 0.2}, {2.2, 1.8, 1.2, 0.2}},
                               {0.05, {1.4, 0.9, 0.7, 0.2}, {2.0, 1.6, 1.2, 0.2}},
                               {0.10, {1.2, 0.8, 0.7, 0.2}, {1.8, 1.4, 1.2, 0.2}}};

}  // namespace

WindAtHeight wind_at_height(const TerrainRoughness& terrain, double basic_wind_m_per_s, double height_m) {
  expects(basic_wind_m_per_s > 0.0 && height_m > 0.0, "a wind and a height above zero");
  const double z_m = std::max(height_m, terrain.least_height_m);
  const double log_height = numerics::log(z_m / terrain.roughness_m);
  const double terrain_factor = 0.19 * numerics::pow(terrain.roughness_m / 0.05, 0.07);
  WindAtHeight wind;
  wind.mean_m_per_s = basic_wind_m_per_s * terrain_factor * log_height;
  wind.turbulence_frac = 1.0 / log_height;
  wind.basic_pressure_kn_per_m2 = 0.0005 * wind_air_kg_per_m3 * basic_wind_m_per_s * basic_wind_m_per_s;
  wind.peak_pressure_kn_per_m2 =
      (1.0 + 7.0 * wind.turbulence_frac) * 0.0005 * wind_air_kg_per_m3 * wind.mean_m_per_s * wind.mean_m_per_s;
  return wind;
}

double gust_km_per_h(double pressure_kn_per_m2) {
  expects(pressure_kn_per_m2 >= 0.0, "a pressure not below zero");
  return 3.6 * std::sqrt(2000.0 * pressure_kn_per_m2 / wind_air_kg_per_m3);
}

double roof_suction(RoofZone zone, double area_m2, double parapet_over_height) {
  expects(area_m2 > 0.0 && parapet_over_height >= 0.0, "an area above zero and a parapet not below it");
  const auto z = static_cast<std::size_t>(zone);
  std::size_t row = 0;
  while (row + 2 < std::size(rows) && parapet_over_height > rows[row + 1].parapet_over_height) ++row;
  const double step = rows[row + 1].parapet_over_height - rows[row].parapet_over_height;
  const double share = std::min(1.0, (parapet_over_height - rows[row].parapet_over_height) / step);
  const double on_10 = rows[row].on_10_m2[z] + share * (rows[row + 1].on_10_m2[z] - rows[row].on_10_m2[z]);
  const double on_1 = rows[row].on_1_m2[z] + share * (rows[row + 1].on_1_m2[z] - rows[row].on_1_m2[z]);
  if (area_m2 <= 1.0) return on_1;
  if (area_m2 >= 10.0) return on_10;
  constexpr double log_of_10 = 2.302585092994046;
  return on_1 - (on_1 - on_10) * numerics::log(area_m2) / log_of_10;
}

}  // namespace houseleek::physics
