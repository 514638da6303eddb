// What a medium loses with the years, and what ties up its nitrogen.
#include "planting/feeding.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/contract.hpp"

namespace houseleek::planting {
namespace {

// All from memory, not confirmed: ranges usual in tables for composting.
constexpr std::array<CarbonRich, 9> carbon_rich = {{
    {"straw", {60, 80, 120}, {0.4, 0.6, 0.8}},
    {"bark chips", {70, 120, 300}, {0.03, 0.1, 0.2}},
    {"wood chips", {200, 300, 500}, {0.1, 0.2, 0.35}},
    {"pine cones", {80, 150, 300}, {0.01, 0.04, 0.1}},
    {"pine needles", {60, 80, 110}, {0.1, 0.2, 0.35}},
    {"twigs", {100, 200, 400}, {0.05, 0.1, 0.2}},
    {"hemp shives", {60, 80, 120}, {0.2, 0.35, 0.5}},
    {"rice husks", {70, 100, 140}, {0.05, 0.15, 0.3}},
    {"corrugated cardboard", {200, 350, 560}, {0.3, 0.5, 0.8}},
}};
constexpr results::Interval carbon_frac = {0.45, 0.48, 0.5};
constexpr results::Interval efficiency_frac = {0.3, 0.4, 0.5};
constexpr results::Interval microbes_carbon_per_nitrogen = {8, 10, 12};

}  // namespace

results::Interval settled_depth_mm(const SettlingLayer& layer, double age_years) {
  expects(layer.bought_mm > 0.0 && age_years >= 0.0, "a depth, and an age that is not negative");
  const auto depth = [&](double in_use, double loss) {
    return layer.bought_mm * in_use * std::pow(1.0 - loss, age_years);
  };
  return {depth(layer.in_use_frac.low, layer.loss_per_year_frac.high),
          depth(layer.in_use_frac.likely, layer.loss_per_year_frac.likely),
          depth(layer.in_use_frac.high, layer.loss_per_year_frac.low)};
}

const CarbonRich* find_carbon_rich(std::string_view material) {
  const auto* found = std::find_if(carbon_rich.begin(), carbon_rich.end(),
                                   [material](const CarbonRich& one) { return one.material == material; });
  return found == carbon_rich.end() ? nullptr : found;
}

results::Interval nitrogen_tied_g_per_kg(const CarbonRich& material) {
  const auto tied = [](double carbon, double rots, double efficiency, double microbes, double ratio) {
    return std::max(0.0, 1000.0 * carbon * rots * (efficiency / microbes - 1.0 / ratio));
  };
  const results::Interval& rots = material.rots_in_first_year_frac;
  const results::Interval& ratio = material.carbon_per_nitrogen;
  const results::Interval& microbes = microbes_carbon_per_nitrogen;
  return {tied(carbon_frac.low, rots.low, efficiency_frac.low, microbes.high, ratio.low),
          tied(carbon_frac.likely, rots.likely, efficiency_frac.likely, microbes.likely, ratio.likely),
          tied(carbon_frac.high, rots.high, efficiency_frac.high, microbes.low, ratio.high)};
}

}  // namespace houseleek::planting
