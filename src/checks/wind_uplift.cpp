// Suction and lift on each module against its dry weight: at which gust it is no longer shown to stay. Screening only.
#include "checks/wind_uplift.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "checks/allowance.hpp"
#include "checks/weights.hpp"
#include "geometry/distance.hpp"

namespace houseleek::checks {
namespace {

using geometry::RectangleM;
using physics::RoofZone;
using results::Interval;

RectangleM box_of(const geometry::Outline& outline) {
  RectangleM box{outline[0].x_m, outline[0].y_m, outline[0].x_m, outline[0].y_m};
  for (const geometry::PointM& corner : outline) {
    box = {std::min(box.left_m, corner.x_m), std::min(box.bottom_m, corner.y_m), std::max(box.right_m, corner.x_m),
           std::max(box.top_m, corner.y_m)};
  }
  return box;
}

RoofZone severer(RoofZone a, RoofZone b) { return static_cast<int>(a) < static_cast<int>(b) ? a : b; }

/// Zone by the way from the windward edge and from the nearer side.
RoofZone zone_at(double from_edge_m, double from_side_m, double e_m) {
  if (from_edge_m < 0.1 * e_m) return from_side_m < 0.25 * e_m ? RoofZone::f : RoofZone::g;
  return from_edge_m < 0.5 * e_m ? RoofZone::h : RoofZone::i;
}

/// e of the two winds along x and of the two along y.
struct EdgeLengths {
  double along_x_m = 0.0;
  double along_y_m = 0.0;
};

std::array<RoofZone, 4> zones_of(const RectangleM& module, const RectangleM& box, const EdgeLengths& e) {
  const double left_m = module.left_m - box.left_m;
  const double right_m = box.right_m - module.right_m;
  const double bottom_m = module.bottom_m - box.bottom_m;
  const double top_m = box.top_m - module.top_m;
  return {zone_at(left_m, std::min(bottom_m, top_m), e.along_x_m),
          zone_at(bottom_m, std::min(left_m, right_m), e.along_y_m),
          zone_at(right_m, std::min(bottom_m, top_m), e.along_x_m),
          zone_at(top_m, std::min(left_m, right_m), e.along_y_m)};
}

/// On a roof that is no rectangle: by the nearest side and the nearest corner, whatever the direction.
RoofZone zone_by_shape(const RectangleM& module, const geometry::Outline& outline, double e_m) {
  const double to_side_m = geometry::distance_to_sides_m(outline, module);
  double to_corner_m = 1e300;
  for (const geometry::PointM& corner : outline) {
    to_corner_m = std::min(to_corner_m, geometry::distance_m(module, {corner.x_m, corner.y_m, corner.x_m, corner.y_m}));
  }
  return zone_at(to_side_m, to_corner_m, e_m);
}

Interval gust_of(const Interval& dry_kn_per_m2, double suction, const Interval& below) {
  const auto gust = [](double weight, double coefficient) {
    return physics::gust_km_per_h(holding_factor * weight / (lifting_factor * coefficient));
  };
  return {gust(dry_kn_per_m2.low, suction + below.high), gust(dry_kn_per_m2.likely, suction + below.likely),
          gust(dry_kn_per_m2.high, suction + below.low)};
}

Interval ballast_of(const Interval& dry_kn_per_m2, double suction, const Interval& below, double peak_kn_per_m2) {
  const auto more_kg = [&](double weight, double coefficient) {
    const double needed = lifting_factor * coefficient * peak_kn_per_m2 / holding_factor;
    return std::max(0.0, 1000.0 * (needed - weight) / standard_gravity_m_per_s2);
  };
  return {more_kg(dry_kn_per_m2.high, suction + below.low), more_kg(dry_kn_per_m2.likely, suction + below.likely),
          more_kg(dry_kn_per_m2.low, suction + below.high)};
}

physics::TerrainRoughness roughness_of(design::Terrain terrain) {
  return physics::terrain_roughness[static_cast<std::size_t>(terrain)];
}

/// What of the place the design says; the rest is taken at its severest and listed.
void find_place(const design::Design& design, WindUplift& wind) {
  const design::Wind given = design.wind.value_or(design::Wind{});
  if (!given.roof_height_m) wind.assumed.emplace_back("height of the roof not given: edge zones at their widest");
  if (!design.roof.parapet_height_mm || !given.roof_height_m) {
    wind.assumed.emplace_back("no parapet counted: its height or the roof's is not given");
  } else {
    wind.parapet_over_height = 0.001 * *design.roof.parapet_height_mm / *given.roof_height_m;
  }
  if (!given.basic_wind_m_per_s || !given.roof_height_m) {
    wind.assumed.emplace_back("the gust of the place is not worked out: wind.basic_wind_m_per_s and roof_height_m");
    return;
  }
  if (!given.terrain) wind.assumed.emplace_back("terrain not given: as by the sea");
  const physics::WindAtHeight at = physics::wind_at_height(roughness_of(given.terrain.value_or(design::Terrain::sea)),
                                                           *given.basic_wind_m_per_s, *given.roof_height_m);
  wind.peak_pressure_kn_per_m2 = at.peak_pressure_kn_per_m2;
  wind.gust_of_place_km_per_h = physics::gust_km_per_h(at.peak_pressure_kn_per_m2);
}

std::string statement_of(const WindUplift& wind) {
  if (wind.modules.empty()) return "No modules are laid yet: nothing to lift.";
  const auto weakest = std::min_element(
      wind.modules.begin(), wind.modules.end(),
      [](const ModuleWind& a, const ModuleWind& b) { return a.gust_km_per_h.low < b.gust_km_per_h.low; });
  std::string text = fmt::format("The weakest module, dry, is not shown to stay above {:.0f} km/h gusts at the roof",
                                 std::floor(weakest->gust_km_per_h.low));
  if (wind.gust_of_place_km_per_h) {
    text += fmt::format("; the gust of the place, once in 50 years, is {:.0f} km/h", *wind.gust_of_place_km_per_h);
  }
  return text + ". A screening: nothing here holds a module down, and no membrane is to be drilled for it.";
}

bool is_open_below(const design::Design& design, const design::Patch& patch) {
  return patch.placed == design::Placed::raised &&
         design.recipes[static_cast<std::size_t>(patch.recipe)].spacer.edges == design::Edges::open;
}

}  // namespace

WindUplift check_wind_uplift(const design::ValidDesign& design) {
  WindUplift wind;
  find_place(*design, wind);
  const RectangleM box = box_of(design->roof.outline);
  const std::optional<double> height_m = design->wind ? design->wind->roof_height_m : std::nullopt;
  const auto edge_length = [&height_m](double across_m) {
    return height_m ? std::min(across_m, 2.0 * *height_m) : across_m;
  };
  const EdgeLengths e = {edge_length(box.top_m - box.bottom_m), edge_length(box.right_m - box.left_m)};
  wind.edge_m = std::max(e.along_x_m, e.along_y_m);
  const bool is_rectangle =
      std::fabs(geometry::area_m2(design->roof.outline) - (box.right_m - box.left_m) * (box.top_m - box.bottom_m)) <=
      geometry::least_area_m2;
  std::vector<Interval> dry_of_patch;
  for (const design::Patch& patch : design->patches) {
    const ModuleWeights weights = compute_weights(design, patch.recipe, patch.placed);
    const Interval without_plants = {weights.dry_kg_per_m2.low - weights.plants_kg_per_m2.low,
                                     weights.dry_kg_per_m2.likely - weights.plants_kg_per_m2.likely,
                                     weights.dry_kg_per_m2.high - weights.plants_kg_per_m2.high};
    dry_of_patch.push_back((0.001 * standard_gravity_m_per_s2) * without_plants);
  }
  for (std::size_t i = 0; i < design->modules.size(); ++i) {
    const design::ModulePlace& place = design->modules[i];
    const design::Patch& patch = design->patches[static_cast<std::size_t>(place.patch)];
    const design::Recipe& recipe = design->recipes[static_cast<std::size_t>(patch.recipe)];
    ModuleWind one;
    one.module = static_cast<int>(i);
    one.zones = zones_of(place.rectangle, box, e);
    RoofZone worst = *std::min_element(one.zones.begin(), one.zones.end());
    if (!is_rectangle) worst = severer(worst, zone_by_shape(place.rectangle, design->roof.outline, wind.edge_m));
    const double area_m2 = 1e-6 * recipe.length_mm * recipe.width_mm;
    one.suction = physics::roof_suction(worst, area_m2, wind.parapet_over_height);
    if (is_open_below(*design, patch)) one.below = pressure_below;
    one.dry_kn_per_m2 = dry_of_patch[static_cast<std::size_t>(place.patch)];
    one.gust_km_per_h = gust_of(one.dry_kn_per_m2, one.suction, one.below);
    for (std::size_t k = 0; k < linked_counts.size(); ++k) {
      const double linked = physics::roof_suction(worst, linked_counts[k] * area_m2, wind.parapet_over_height);
      one.linked_gust_km_per_h[k] = gust_of(one.dry_kn_per_m2, linked, one.below).low;
    }
    if (wind.peak_pressure_kn_per_m2) {
      one.ballast_kg_per_m2 = ballast_of(one.dry_kn_per_m2, one.suction, one.below, *wind.peak_pressure_kn_per_m2);
    }
    wind.modules.push_back(one);
  }
  const bool has_net = std::any_of(design->recipes.begin(), design->recipes.end(),
                                   [](const design::Recipe& recipe) { return recipe.net.has_value(); });
  if (has_net) wind.not_counted.emplace_back("raised nets and their frames: sails, and not looked at");
  if (!design->containers.empty()) wind.not_counted.emplace_back("containers and what grows in them");
  wind.not_counted.emplace_back("covers, plants and medium torn off a module that stays");
  wind.statement = statement_of(wind);
  return wind;
}

std::vector<design::Assumption> assumed_wind(const design::ValidDesign& design) {
  const bool is_any_open = std::any_of(design->patches.begin(), design->patches.end(),
                                       [&design](const design::Patch& patch) { return is_open_below(*design, patch); });
  if (!is_any_open) return {};
  return {{.path = "wind.pressure_below_frac",
           .name = "pressure of the wind below raised modules with open edges, of its peak pressure",
           .unit = "",
           .low = pressure_below.low,
           .likely = pressure_below.likely,
           .high = pressure_below.high,
           .source = "our own estimate; the high end is what stands against a small piece of wall",
           .certainty = catalogue::Certainty::estimate,
           .from = design::AssumedFrom::default_value}};
}

}  // namespace houseleek::checks
