// Still water behind blocked outlets and in hollows: how much, how heavy, and how long it stays.
#include "checks/ponding.hpp"

#include <algorithm>

#include "base/contract.hpp"
#include "plan/flow_paths.hpp"

namespace houseleek::checks {
namespace {

constexpr double water_kn_per_m3 = 9.80665;  // 1000 kg/m3 times standard gravity

}  // namespace

StillPool pool_of(const FlowSquares& squares, std::vector<double> depth) {
  StillPool pool;
  double deck_m2 = 0.0;
  for (std::size_t k = 0; k < depth.size(); ++k) {
    const double area_m2 = squares.deck.area_m2[k];
    if (area_m2 <= 0.0) continue;
    deck_m2 += area_m2;
    const double volume = volume_m3(squares.cover[k], area_m2, depth[k]);
    pool.volume_m3 += volume;
    pool.max_depth_m = std::max(pool.max_depth_m, depth[k]);
    pool.heaviest_kn_per_m2 = std::max(pool.heaviest_kn_per_m2, water_kn_per_m3 * volume / area_m2);
  }
  pool.mean_depth_m = deck_m2 > 0.0 ? pool.volume_m3 / deck_m2 : 0.0;
  pool.weight_kn = water_kn_per_m3 * pool.volume_m3;
  pool.depth_m = std::move(depth);
  return pool;
}

StillPool find_still_pool(const FlowSquares& squares) {
  std::vector<plan::Spout> spouts;
  for (const Exit& exit : squares.exits) {
    if (exit.clear_frac > 0.0) spouts.push_back({exit.square, exit.lip_m});
  }
  return pool_of(squares, plan::standing_depth_m(squares.deck, plan::fill_hollows(squares.deck, spouts)));
}

results::Interval days_to_dry(double standing_mm, const results::Interval& evaporation_mm_per_day) {
  expects(evaporation_mm_per_day.low > 0.0, "evaporation above zero");
  return {standing_mm / evaporation_mm_per_day.high, standing_mm / evaporation_mm_per_day.likely,
          standing_mm / evaporation_mm_per_day.low};
}

}  // namespace houseleek::checks
