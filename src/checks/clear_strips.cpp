// Strips that stay bare along edges and round openings, outlets, flues, machines and walls; and breaks for fire.
#include "checks/clear_strips.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "checks/footprints.hpp"
#include "geometry/distance.hpp"
#include "geometry/region.hpp"

namespace houseleek::checks {
namespace {

constexpr double rounding_mm = 1e-6;
constexpr std::string_view own_rule = "as this design says";
constexpr std::string_view practice = "common practice, from memory; ask the local fire authority and the roofer";
constexpr std::string_view edge_source =
    "FLL guideline for roof greening, as remembered: at least 500 mm along the perimeter";

StripRule make_rule(std::string beside, const std::optional<double>& own_mm, double usual_mm, std::string_view usual,
                    geometry::Outline outline) {
  return {std::move(beside), own_mm.value_or(usual_mm), std::string(own_mm ? own_rule : usual), std::move(outline)};
}

StripRule rule_of(const design::Obstacle& obstacle, const design::ClearStrips& strips) {
  const std::string beside = fmt::format("\"{}\"", obstacle.name);
  switch (obstacle.kind) {
    case design::ObstacleKind::hatch:
    case design::ObstacleKind::rooflight:
      return make_rule(beside, strips.opening_mm, 500.0, practice, obstacle.outline);
    case design::ObstacleKind::flue:
      return make_rule(beside, strips.flue_mm, 1000.0, practice, obstacle.outline);
    case design::ObstacleKind::wall:
      return make_rule(beside, strips.wall_mm, 500.0, practice, obstacle.outline);
    case design::ObstacleKind::tank:
    case design::ObstacleKind::equipment:
    case design::ObstacleKind::other:
      break;
  }
  return make_rule(beside, strips.equipment_mm, 300.0, practice, obstacle.outline);
}

std::vector<StripRule> make_rules(const design::Roof& roof) {
  const design::ClearStrips& strips = roof.clear_strips;
  std::vector<StripRule> rules;
  rules.push_back(make_rule("the edge of the roof", strips.edge_mm, 500.0, edge_source, roof.outline));
  for (const design::Obstacle& obstacle : roof.obstacles) rules.push_back(rule_of(obstacle, strips));
  for (const design::Outlet& outlet : roof.outlets) {
    const double reach_m = 0.0005 * outlet.diameter_mm;
    const geometry::RectangleM around{outlet.at.x_m - reach_m, outlet.at.y_m - reach_m, outlet.at.x_m + reach_m,
                                      outlet.at.y_m + reach_m};
    rules.push_back(make_rule(outlet.name.empty() ? "an outlet" : fmt::format("the outlet \"{}\"", outlet.name),
                              strips.outlet_mm, 300.0, practice, geometry::outline_from_rectangle(around)));
  }
  return rules;
}

/// Groups of footprints with gaps below a fire break, by joining neighbours.
std::vector<LongBlock> find_long_blocks(const std::vector<Footprint>& footprints) {
  std::vector<std::size_t> group(footprints.size());
  for (std::size_t i = 0; i < group.size(); ++i) group[i] = i;
  const auto root = [&group](std::size_t i) {
    while (group[i] != i) i = group[i] = group[group[i]];
    return i;
  };
  for (std::size_t i = 0; i < footprints.size(); ++i) {
    for (std::size_t j = i + 1; j < footprints.size(); ++j) {
      if (geometry::distance_m(footprints[i].rectangle, footprints[j].rectangle) < fire_break_m - 1e-9) {
        group[root(j)] = root(i);
      }
    }
  }
  std::vector<LongBlock> blocks(footprints.size());
  for (std::size_t i = 0; i < footprints.size(); ++i) {
    LongBlock& block = blocks[root(i)];
    const geometry::RectangleM& one = footprints[i].rectangle;
    if (block.n_modules++ == 0) block.extent = one;
    block.extent = {std::min(block.extent.left_m, one.left_m), std::min(block.extent.bottom_m, one.bottom_m),
                    std::max(block.extent.right_m, one.right_m), std::max(block.extent.top_m, one.top_m)};
  }
  std::vector<LongBlock> long_ones;
  for (LongBlock& block : blocks) {
    if (block.n_modules == 0) continue;
    block.length_m = std::max(block.extent.right_m - block.extent.left_m, block.extent.top_m - block.extent.bottom_m);
    if (block.length_m > fire_break_every_m) long_ones.push_back(block);
  }
  return long_ones;
}

}  // namespace

ClearStripCheck check_clear_strips(const design::ValidDesign& design) {
  ClearStripCheck check;
  check.rules = make_rules(design->roof);
  const std::vector<Footprint> footprints = find_footprints(design);
  for (std::size_t r = 0; r < check.rules.size(); ++r) {
    const StripRule& rule = check.rules[r];
    for (const Footprint& one : footprints) {
      // Everything laid is inside the roof, so the distance to its sides is the one from inside too.
      const double distance_mm = 1000.0 * geometry::distance_to_sides_m(rule.outline, one.rectangle);
      if (distance_mm >= rule.width_mm - rounding_mm) continue;
      check.breaches.push_back({static_cast<int>(r), one.module, one.container, distance_mm});
    }
    if (rule.width_mm <= 0.0) continue;
    const double reach_m = 0.001 * rule.width_mm;
    for (const geometry::Outline& side : geometry::bands_along(rule.outline, reach_m)) check.kept_free.push_back(side);
  }
  std::vector<geometry::Outline> taken_off = check.kept_free;
  for (const design::Obstacle& obstacle : design->roof.obstacles) taken_off.push_back(obstacle.outline);
  check.left_m2 = geometry::area_m2(geometry::region_without(design->roof.outline, taken_off));
  check.long_blocks = find_long_blocks(footprints);
  check.statement =
      check.breaches.empty()
          ? "No module or container reaches into a strip that is listed here; local rules may want wider ones."
          : fmt::format("{} times a module or container reaches into a strip that should stay bare.",
                        check.breaches.size());
  if (!check.long_blocks.empty()) {
    check.statement += fmt::format(" {} of the blocks are longer than {:.0f} m without a break of {:.0f} m.",
                                   check.long_blocks.size(), fire_break_every_m, fire_break_m);
  }
  return check;
}

}  // namespace houseleek::checks
