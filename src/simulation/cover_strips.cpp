// Strips under and beside modules: their areas, the edges they share, and how far apart their middles count
// (docs/equations/covers.md).
#include "simulation/cover_strips.hpp"

#include <algorithm>

#include "base/contract.hpp"
#include "numerics/elementary.hpp"
#include "numerics/lane.hpp"

namespace houseleek::simulation {
namespace {

constexpr double reach_m = 0.15;         // sideways reach of a day's swing in concrete
constexpr double widest_joint_m = 0.05;  // wider spaces are bare roof with strips of their own
constexpr double least_strip_m2 = 1e-4;  // smaller strips join their neighbour
constexpr double ten_minutes_s = 600.0;

/// Borders between the strips of a band of this width; one strip up to 0.1 m, two up to 0.2 m.
std::vector<double> borders_m(double width_m) {
  const auto& [near_m, far_m] = plan::edge_distances_m;
  if (width_m <= 2.0 * near_m) return {};
  if (width_m <= 4.0 * near_m) return {near_m};
  return {near_m, far_m};
}

bool is_alike(const CellKind& kind, const plan::Cell& cell, bool is_by_recipe) {
  return kind.module_length_m == cell.module_length_m && kind.module_width_m == cell.module_width_m &&
         kind.spacing_m == cell.spacing_m &&
         (!is_by_recipe || (kind.recipe == cell.recipe && kind.placed == cell.placed));
}

/// Joins strips too small to stand alone to the one before (the first to the one after).
std::vector<Strip> joined(const std::vector<Strip>& strips) {
  std::vector<Strip> kept;
  double waiting_m2 = 0.0;
  double waiting_from_m = 0.0;
  for (const Strip& strip : strips) {
    if (strip.area_m2 < least_strip_m2 && !kept.empty()) {
      kept.back().area_m2 += strip.area_m2;
      kept.back().to_m = strip.to_m;
      kept.back().onward_edge_m = strip.onward_edge_m;
    } else if (strip.area_m2 < least_strip_m2) {
      if (waiting_m2 == 0.0) waiting_from_m = strip.from_m;
      waiting_m2 += strip.area_m2;
    } else {
      kept.push_back(strip);
      if (waiting_m2 > 0.0) {
        kept.back().area_m2 += waiting_m2;
        kept.back().from_m = waiting_from_m;
        waiting_m2 = 0.0;
      }
    }
  }
  if (!kept.empty()) kept.back().onward_edge_m = 0.0;
  return kept;
}

}  // namespace

bool CellKind::is_block() const { return spacing_m <= widest_joint_m; }

std::vector<CellKind> cell_kinds(const plan::RoomLayout& room, bool is_by_recipe) {
  std::vector<CellKind> kinds;
  for (const plan::Cell& cell : room.cells) {
    std::size_t place = 0;
    while (place < kinds.size() && !is_alike(kinds[place], cell, is_by_recipe)) ++place;
    if (place == kinds.size()) kinds.emplace_back();
    CellKind& kind = kinds[place];
    if (is_by_recipe) {
      kind.recipe = cell.recipe;
      kind.placed = cell.placed;
    }
    kind.module_length_m = cell.module_length_m;
    kind.module_width_m = cell.module_width_m;
    kind.spacing_m = cell.spacing_m;
    const double side_m = numerics::sqrt(cell.block_length_m * cell.block_width_m);
    kind.block_side_m =
        (kind.block_side_m * kind.n_modules + side_m * cell.n_modules) / (kind.n_modules + cell.n_modules);
    kind.narrowest_block_m = std::max(kind.narrowest_block_m, std::min(cell.block_length_m, cell.block_width_m));
    kind.n_modules += cell.n_modules;
    kind.covered_m2 += cell.covered_m2;
    kind.block_m2 += cell.block_m2;
    kind.open_m2 += cell.open_m2;
    for (std::size_t i = 0; i < 2; ++i) {
      kind.inner_m2[i] += cell.inner_m2[i];
      kind.inner_edge_m[i] += cell.inner_edge_m[i];
    }
    kind.between_edge_m += cell.between_edge_m;
    kind.bare_edge_m += cell.bare_edge_m;
  }
  return kinds;
}

std::vector<Strip> coarser(std::vector<Strip> strips) {
  if (strips.size() < 3) return strips;
  strips[1].area_m2 += strips[0].area_m2;
  strips[1].from_m = strips[0].from_m;
  strips.erase(strips.begin());
  return strips;
}

double half_width_m(double width_m) { return std::min(0.5 * width_m, reach_m); }

std::vector<Strip> strips_under(const CellKind& kind) {
  std::vector<Strip> strips;
  if (kind.is_block()) {
    const double share = kind.covered_m2 / kind.block_m2;
    const auto& at = plan::edge_distances_m;
    const double middle_m = std::max(at[1], 0.5 * kind.narrowest_block_m);
    strips = {{share * (kind.block_m2 - kind.inner_m2[0]), 0.0, at[0], kind.inner_edge_m[0]},
              {share * (kind.inner_m2[0] - kind.inner_m2[1]), at[0], at[1], kind.inner_edge_m[1]},
              {share * kind.inner_m2[1], at[1], middle_m, 0.0}};
    return joined(strips);
  }
  const double middle_m = 0.5 * kind.module_width_m;
  std::vector<double> ends_m = borders_m(middle_m);
  ends_m.push_back(middle_m);
  const auto inside_m2 = [&kind](double inset_m) {
    return kind.n_modules * (kind.module_length_m - 2.0 * inset_m) * (kind.module_width_m - 2.0 * inset_m);
  };
  double from_m = 0.0;
  for (const double to_m : ends_m) {
    const bool is_last = to_m == middle_m;
    strips.push_back(
        {inside_m2(from_m) - (is_last ? 0.0 : inside_m2(to_m)), from_m, to_m,
         is_last ? 0.0 : kind.n_modules * 2.0 * (kind.module_length_m + kind.module_width_m - 4.0 * to_m)});
    from_m = to_m;
  }
  return joined(strips);
}

std::vector<Strip> strips_between(const CellKind& kind) {
  if (kind.open_m2 < least_strip_m2) return {};
  const double half_m = 0.5 * kind.spacing_m;
  if (kind.is_block()) return {{kind.open_m2, 0.0, half_m, 0.0}};
  std::vector<double> ends_m = borders_m(half_m);
  ends_m.push_back(half_m);
  const auto around_m2 = [&kind](double outset_m) {
    return (kind.module_length_m + 2.0 * outset_m) * (kind.module_width_m + 2.0 * outset_m);
  };
  const double ring_m2 = around_m2(half_m) - around_m2(0.0);
  const double round_m = 2.0 * (kind.module_length_m + kind.module_width_m);
  std::vector<Strip> strips;
  double from_m = 0.0;
  for (const double to_m : ends_m) {
    const double share = (around_m2(to_m) - around_m2(from_m)) / ring_m2;
    const double edge_m = to_m == half_m ? 0.0 : kind.between_edge_m * (round_m + 8.0 * to_m) / round_m;
    strips.push_back({share * kind.open_m2, from_m, to_m, edge_m});
    from_m = to_m;
  }
  return joined(strips);
}

std::vector<Strip> strips_beside(const plan::RoomLayout& room) {
  const auto& at = plan::edge_distances_m;
  return joined({{room.margin_m2[0], 0.0, at[0], room.margin_edge_m[1]},
                 {room.margin_m2[1], at[0], at[1], room.margin_edge_m[2]},
                 {room.rest_m2, at[1], at[1] + 2.0 * reach_m, 0.0}});
}

double joint_sky_frac(double height_m, double spacing_m) {
  expects(spacing_m > 0.0 && height_m >= 0.0, "a joint with a width");
  const double slope = height_m / spacing_m;
  return numerics::sqrt(1.0 + slope * slope) - slope;
}

void slow_down_links(Group& group) {
  std::vector<double> loss_per_s(group.stacks.size(), 0.0);
  double fastest_m2_per_s = 0.0;
  for (const Stack& stack : group.stacks) {
    for (const Layer& layer : stack.deck) {
      fastest_m2_per_s =
          std::max(fastest_m2_per_s, layer.conductivity_dry_w_per_m_k / layer.heat_capacity_dry_j_per_m3_k);
    }
  }
  const auto rate_per_s = [&](const SideLink& link, int stack) {
    return fastest_m2_per_s * link.edge_length_m /
           (link.distance_m * group.stacks[static_cast<std::size_t>(stack)].area_m2);
  };
  for (const SideLink& link : group.side_links) {
    loss_per_s[static_cast<std::size_t>(link.first)] += rate_per_s(link, link.first);
    loss_per_s[static_cast<std::size_t>(link.second)] += rate_per_s(link, link.second);
  }
  for (SideLink& link : group.side_links) {
    const double worst_per_s =
        std::max(loss_per_s[static_cast<std::size_t>(link.first)], loss_per_s[static_cast<std::size_t>(link.second)]);
    link.distance_m *= std::max(1.0, worst_per_s * ten_minutes_s);
  }
}

}  // namespace houseleek::simulation
