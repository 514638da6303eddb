// A design's roof as squares that water runs over: modules, spacers, silt, outlets, overflows, edges.
#include "checks/drainage_deck.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "checks/own_estimate.hpp"
#include "design/drainage_limits.hpp"
#include "geometry/outline.hpp"
#include "plan/assumed_interval.hpp"
#include "plan/flow_paths.hpp"

namespace houseleek::checks {
namespace {

using design::Placed;
using results::Interval;

constexpr double metres_per_mm = 0.001;
constexpr double m_per_s_from_mm_per_h = 1.0 / 3.6e6;
constexpr double least_pore_frac = 0.01;  // a module that takes up nothing still has cracks

// Films of a millimetre are laminar and run slower than a smooth sheet by Manning: the high ends stand for them and for
// grit. Under modules water drips in and roots hang down.
constexpr Interval open_roughness_s_per_m13 = {0.011, 0.02, 0.04};
constexpr Interval gap_roughness_s_per_m13 = {0.015, 0.03, 0.06};
constexpr Interval assumed_months = {0.0, 12.0, 36.0};
constexpr Interval assumed_silt_mm_per_year = {0.5, 2.0, 6.0};
constexpr Interval assumed_edge_height_mm = {50.0, 150.0, 300.0};

std::size_t at(int index) { return static_cast<std::size_t>(index); }

/// The end of a range that lets water stand high when it is large.
double pick(const Interval& figure, DrainageEnd end) {
  return end == DrainageEnd::easy ? figure.low : end == DrainageEnd::hard ? figure.high : figure.likely;
}

/// The same for a figure that helps the more the larger it is.
double pick_helping(const Interval& figure, DrainageEnd end) {
  return end == DrainageEnd::easy ? figure.high : end == DrainageEnd::hard ? figure.low : figure.likely;
}

Interval edge_height_mm(const design::Design& design) {
  return design.roof.parapet_height_mm ? results::exactly(*design.roof.parapet_height_mm) : assumed_edge_height_mm;
}

SquareCover cover_of(const design::ValidDesign& design, const SquareModule& module, DrainageEnd end) {
  SquareCover cover;
  cover.open_roughness_s_per_m13 = pick(open_roughness_s_per_m13, end);
  if (module.recipe < 0) return cover;
  const design::Recipe& recipe = design->recipes[at(module.recipe)];
  cover.open_frac = std::max(0.0, 1.0 - module.covered_frac);
  double thickness_mm = 0.0;
  double free_mm = 0.0;
  for (const design::RecipeLayer& layer : recipe.layers) {
    thickness_mm += layer.layer.thickness_mm;
    const catalogue::Material& material = layer.layer.material;
    if (!material.saturated_water_frac || !material.field_capacity_frac) continue;
    free_mm += layer.layer.thickness_mm *
               std::max(0.0, material.saturated_water_frac->likely - material.field_capacity_frac->likely);
  }
  cover.module_m = metres_per_mm * thickness_mm;
  cover.pore_frac = std::max(least_pore_frac, thickness_mm > 0.0 ? free_mm / thickness_mm : 1.0);
  if (module.placed == Placed::raised) {
    const Interval blocked_frac = plan::assumed_interval(
        design, fmt::format("recipe[{}].spacer.blocked_frac", module.recipe), recipe.spacer.blocked_frac);
    cover.gap_m = metres_per_mm * std::max(0.0, recipe.spacer.height_mm - pick(silt_mm(*design), end));
    cover.gap_frac = 1.0 - pick(blocked_frac, end);
    cover.gap_roughness_s_per_m13 = pick(gap_roughness_s_per_m13, end);
    const bool is_turned = design->patches[at(module.patch)].is_turned;
    const bool is_slat_along_x = (recipe.spacer.slats_along == design::SlatsAlong::length) != is_turned;
    (is_slat_along_x ? cover.dam_y_m : cover.dam_x_m) = metres_per_mm * recipe.spacer.slat_height_mm;
    return cover;
  }
  for (auto layer = recipe.layers.rbegin(); layer != recipe.layers.rend(); ++layer) {
    if (!layer->layer.material.saturated_conductivity_mm_per_h) continue;
    cover.layer_m = metres_per_mm * layer->layer.thickness_mm;
    cover.layer_conductivity_m_per_s =
        m_per_s_from_mm_per_h *
        pick_helping(plan::interval_from(*layer->layer.material.saturated_conductivity_mm_per_h), end);
    break;
  }
  return cover;
}

std::vector<SquareModule> modules_on(const design::Design& design, const plan::DeckShape& shape) {
  std::vector<SquareModule> modules;
  for (int square = 0; square < shape.columns * shape.rows; ++square) {
    const geometry::RectangleM place = plan::rectangle_of(shape, square);
    SquareModule found;
    std::vector<double> by_patch(design.patches.size(), 0.0);
    double covered_m2 = 0.0;
    for (const design::ModulePlace& module : design.modules) {
      const double width_m =
          std::min(place.right_m, module.rectangle.right_m) - std::max(place.left_m, module.rectangle.left_m);
      const double height_m =
          std::min(place.top_m, module.rectangle.top_m) - std::max(place.bottom_m, module.rectangle.bottom_m);
      if (width_m <= 0.0 || height_m <= 0.0) continue;
      by_patch[at(module.patch)] += width_m * height_m;
      covered_m2 += width_m * height_m;
    }
    if (covered_m2 > geometry::least_area_m2 && shape.area_m2[at(square)] > 0.0) {
      const auto most = std::max_element(by_patch.begin(), by_patch.end());
      found.patch = static_cast<int>(most - by_patch.begin());
      found.recipe = design.patches[at(found.patch)].recipe;
      found.placed = design.patches[at(found.patch)].placed;
      found.covered_frac = std::min(1.0, covered_m2 / shape.area_m2[at(square)]);
    }
    modules.push_back(found);
  }
  return modules;
}

double distance_to_stretch_m(const design::EdgeHeight& edge, const geometry::PointM& p) {
  const double dx = edge.to.x_m - edge.from.x_m;
  const double dy = edge.to.y_m - edge.from.y_m;
  const double along =
      std::clamp(((p.x_m - edge.from.x_m) * dx + (p.y_m - edge.from.y_m) * dy) / (dx * dx + dy * dy), 0.0, 1.0);
  return std::hypot(p.x_m - edge.from.x_m - along * dx, p.y_m - edge.from.y_m - along * dy);
}

/// The roof's edge beside squares, as openings with an open top.
void add_edges(const design::Design& design, DrainageEnd end, DrainageDeck& deck) {
  const plan::DeckShape& shape = deck.squares.deck;
  const double usual_mm = pick(edge_height_mm(design), end);
  const auto is_outside = [&](int i, int j) {
    if (i < 0 || i >= shape.columns || j < 0 || j >= shape.rows) return true;
    const int square = i + j * shape.columns;
    if (shape.area_m2[at(square)] > 0.0) return false;
    // Without area, but on the roof: an obstacle.
    return geometry::overlap_area_m2(design.roof.outline, plan::rectangle_of(shape, square)) < geometry::least_area_m2;
  };
  struct Side {
    int di;
    int dj;
  };
  for (int square = 0; square < shape.columns * shape.rows; ++square) {
    if (shape.area_m2[at(square)] <= 0.0) continue;
    const int i = square % shape.columns;
    const int j = square / shape.columns;
    for (const Side side : {Side{-1, 0}, Side{1, 0}, Side{0, -1}, Side{0, 1}}) {
      if (!is_outside(i + side.di, j + side.dj)) continue;
      const geometry::PointM middle = plan::middle_of(shape, square);
      const geometry::PointM p{middle.x_m + 0.5 * side.di * shape.width_m, middle.y_m + 0.5 * side.dj * shape.height_m};
      // An oblique side is a stair of squares: up to a square from the line itself.
      const bool is_cut = shape.area_m2[at(square)] < 0.999 * shape.width_m * shape.height_m;
      const double reach_m = is_cut ? 0.75 * std::max(shape.width_m, shape.height_m) : design::limits::edge_reach_m;
      double height_mm = usual_mm;
      for (const design::EdgeHeight& edge : design.drainage.edges) {
        if (distance_to_stretch_m(edge, p) <= reach_m) height_mm = std::min(height_mm, edge.height_mm);
      }
      Exit exit;
      exit.name = "edge";
      exit.square = square;
      exit.lip_m = shape.level_m[at(square)] + metres_per_mm * height_mm;
      const double width_m = side.di != 0 ? shape.height_m : shape.width_m;
      exit.opening = physics::Opening{.width_mm = width_m / metres_per_mm, .height_mm = std::nullopt};
      deck.squares.exits.push_back(exit);
    }
  }
}

void add_outlets(const design::Design& design, DrainageDeck& deck) {
  const plan::DeckShape& shape = deck.squares.deck;
  const auto named = [](const std::string& name, const char* what, std::size_t index) {
    return name.empty() ? fmt::format("{} {}", what, index + 1) : name;
  };
  for (const design::Outlet& outlet : design.roof.outlets) {
    Exit exit;
    exit.name = named(outlet.name, "outlet", deck.n_outlets);
    exit.square = plan::square_at(shape, outlet.at);
    exit.lip_m = shape.level_m[at(exit.square)] + metres_per_mm * outlet.rim_mm;
    exit.outlet = physics::RoundOutlet{.diameter_mm = outlet.diameter_mm, .has_grate = outlet.has_grate};
    if (outlet.pipe_diameter_mm) {
      exit.most_m3_per_s =
          0.001 * physics::upright_pipe_flow_l_per_s(*outlet.pipe_diameter_mm, physics::usual_pipe_filling_frac);
    }
    deck.squares.exits.push_back(exit);
    ++deck.n_outlets;
  }
  for (const design::Overflow& overflow : design.drainage.overflows) {
    Exit exit;
    exit.name = named(overflow.name, "overflow", deck.n_overflows);
    exit.square = plan::square_at(shape, overflow.at);
    exit.lip_m = shape.level_m[at(exit.square)] + metres_per_mm * overflow.sill_mm;
    exit.opening = physics::Opening{.width_mm = overflow.width_mm, .height_mm = overflow.height_mm};
    deck.squares.exits.push_back(exit);
    ++deck.n_overflows;
  }
}

/// Water that no way leads away from has no steady state: such squares are taken out.
void leave_out_walled_in(DrainageDeck& deck) {
  std::vector<plan::Spout> spouts;
  for (const Exit& exit : deck.squares.exits) spouts.push_back({exit.square, exit.lip_m});
  const plan::FilledDeck filled = plan::fill_hollows(deck.squares.deck, spouts);
  for (std::size_t k = 0; k < filled.spout.size(); ++k) {
    if (filled.spout[k] >= 0 || deck.squares.deck.area_m2[k] <= 0.0) continue;
    deck.walled_in_m2 += deck.squares.deck.area_m2[k] + deck.levels.shed_m2[k];
    deck.squares.deck.area_m2[k] = 0.0;
    deck.levels.shed_m2[k] = 0.0;
    deck.modules[k] = {};
  }
}

}  // namespace

Interval silt_mm(const design::Design& design) {
  const design::Drainage& drainage = design.drainage;
  const Interval months =
      drainage.months_since_cleaning ? results::exactly(*drainage.months_since_cleaning) : assumed_months;
  const Interval rate =
      drainage.silt_mm_per_year ? results::exactly(*drainage.silt_mm_per_year) : assumed_silt_mm_per_year;
  return (1.0 / 12.0) * (months * rate);
}

DrainageDeck make_drainage_deck(const design::ValidDesign& design, const plan::LevelOptions& options, DrainageEnd end) {
  DrainageDeck deck;
  plan::LevelOptions with_end = options;
  with_end.unevenness = end == DrainageEnd::easy   ? plan::Unevenness::smooth
                        : end == DrainageEnd::hard ? plan::Unevenness::rough
                                                   : plan::Unevenness::likely;
  deck.levels = plan::make_deck_levels(design, with_end);
  deck.squares.deck = deck.levels.shape;
  deck.modules = modules_on(*design, deck.squares.deck);
  for (const SquareModule& module : deck.modules) deck.squares.cover.push_back(cover_of(design, module, end));
  add_outlets(*design, deck);
  add_edges(*design, end, deck);
  leave_out_walled_in(deck);
  return deck;
}

std::vector<design::Assumption> assumed_drainage(const design::ValidDesign& design) {
  std::vector<design::Assumption> rows;
  const design::Drainage& drainage = design->drainage;
  if (!drainage.level_error_mm) {
    rows.push_back(own_estimate("drainage.level_error_mm", "error of levels and puddle depths", "mm",
                                plan::level_error_mm(*design)));
  }
  if (!drainage.months_since_cleaning) {
    rows.push_back(own_estimate("drainage.months_since_cleaning", "months since the roof under the modules was cleaned",
                                "months", assumed_months));
  }
  if (!drainage.silt_mm_per_year) {
    rows.push_back(own_estimate("drainage.silt_mm_per_year", "silt that settles under modules", "mm/year",
                                assumed_silt_mm_per_year));
  }
  if (!design->roof.parapet_height_mm) {
    rows.push_back(
        own_estimate("roof.parapet_height_mm", "height of the roof's edge, for water", "mm", assumed_edge_height_mm));
  }
  rows.push_back(own_estimate("drainage.roughness_open", "Manning's n of the bare deck under a film of rain",
                              "s/m^(1/3)", open_roughness_s_per_m13));
  rows.push_back(own_estimate("drainage.roughness_gap", "Manning's n of the gap under modules", "s/m^(1/3)",
                              gap_roughness_s_per_m13));
  return rows;
}

}  // namespace houseleek::checks
