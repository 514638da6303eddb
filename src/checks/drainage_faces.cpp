// Water across the faces between squares and into outlets: how much runs, and how that grows with the depths.
#include "checks/drainage_faces.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "numerics/elementary.hpp"
#include "numerics/wide_clone.hpp"

namespace houseleek::checks {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

/// The slope of lesser size, none where the two differ in sign.
double lesser_slope(double a, double b) {
  if (a * b <= 0.0) return 0.0;
  return std::fabs(a) < std::fabs(b) ? a : b;
}

/// The lesser of what both sides carry in their coarse layers, or what the only one of them does.
Grown layer_of(const Carrying& from, const Carrying& to, double depth_m) {
  if (from.layer_m_per_s <= 0.0) return to.layer_m_per_s > 0.0 ? layer_conveyance(to, depth_m) : Grown{};
  const Grown one = layer_conveyance(from, depth_m);
  if (to.layer_m_per_s <= 0.0) return one;
  const Grown other = layer_conveyance(to, depth_m);
  return one.value <= other.value ? one : other;
}

/// A few faces at a time, in arrays of their own that nothing else can be written through.
constexpr std::size_t block = 64;
struct FaceBlock {
  double depth_m[block];  // of the higher water over the sill; 0: dry
  double slope[block];    // down from `from` to `to`
  double steepness[block];
  double cross_slope2[block];
  double two_thirds[block];
  double run[block];        // |S|/(S^2 + T^2 + s^2)^(1/4)
  double run_slope[block];  // its derivative by |S|
  double secant[block];     // run/|S|
  double carried[block];    // k
  double carried_by_depth[block];
  double layer[block];  // K d of a coarse layer
  double layer_by_depth[block];
};

void find_carried_beside_modules(const OpenFaces& open, std::size_t face, std::size_t m, FaceBlock& faces) {
  const double depth_m = faces.depth_m[m];
  const SheetPower power{depth_m * faces.two_thirds[m], faces.two_thirds[m]};
  const Carrying& from = open.carryings[open.faces[face].carrying_from];
  const Carrying& to = open.carryings[open.faces[face].carrying_to];
  Grown k = conveyance(from, depth_m, power);
  if (open.faces[face].carrying_from != open.faces[face].carrying_to) {
    const Grown other = conveyance(to, depth_m, power);
    if (other.value < k.value) k = other;
  }
  const Grown layer = layer_of(from, to, depth_m);
  faces.carried[m] = k.value;
  faces.carried_by_depth[m] = k.slope;
  faces.layer[m] = layer.value;
  faces.layer_by_depth[m] = layer.slope;
}

/// What a block of faces is, from its first one on.
struct FaceShapes {
  const double* sill_m;
  const double* width_m;
  const double* per_distance;
  const double* open;
};

/// Roots, and what bare faces carry.
HOUSELEEK_WIDE_CLONE void find_powers(const FaceShapes& shapes, std::size_t n, FaceBlock& __restrict faces) {
  for (std::size_t m = 0; m < n; ++m) {
    const double depth_m = faces.depth_m[m];
    const double slope = faces.steepness[m];
    const double root = numerics::cbrt(depth_m);
    const double squared = root * root;
    const double slope2 = slope * slope;
    const double floor2 = faces.cross_slope2[m] + least_turbulent_slope * least_turbulent_slope;
    const double sum2 = slope2 + floor2;
    const double secant = 1.0 / numerics::fourth_root(sum2);
    faces.two_thirds[m] = squared;
    faces.secant[m] = secant;
    faces.run[m] = slope * secant;
    faces.run_slope[m] = (0.5 * slope2 + floor2) / sum2 * secant;
    faces.carried[m] = shapes.open[m] * (depth_m * squared);
    faces.carried_by_depth[m] = 5.0 / 3.0 * shapes.open[m] * squared;
    faces.layer[m] = 0.0;
    faces.layer_by_depth[m] = 0.0;
  }
}

struct FlowBlock {
  double m3_per_s[block];
  double by_from[block];
  double by_to[block];
  double secant_more[block];
};

/// Flows and their derivatives.
HOUSELEEK_WIDE_CLONE void find_flows(const FaceShapes& shapes, const FaceBlock& __restrict faces, std::size_t n,
                                     FlowBlock& __restrict flows) {
  for (std::size_t m = 0; m < n; ++m) {
    const double width_m = shapes.width_m[m];
    const double by_width = width_m * shapes.per_distance[m];
    const double flow = width_m * (faces.carried[m] * faces.run[m] + faces.layer[m] * faces.steepness[m]);
    const double by_slope = by_width * (faces.carried[m] * faces.run_slope[m] + faces.layer[m]);
    const double by_depth =
        width_m * (faces.carried_by_depth[m] * faces.run[m] + faces.layer_by_depth[m] * faces.steepness[m]);
    const bool is_down = faces.slope[m] >= 0.0;
    flows.m3_per_s[m] = is_down ? flow : -flow;
    flows.by_from[m] = by_slope + (is_down ? by_depth : 0.0);
    flows.by_to[m] = -(by_slope + (is_down ? 0.0 : by_depth));
    flows.secant_more[m] = by_width * (faces.carried[m] * (faces.secant[m] - faces.run_slope[m]));
  }
}

}  // namespace

OpenFaces open_faces(const FlowSquares& squares) {
  OpenFaces open;
  const double full_m2 = squares.deck.width_m * squares.deck.height_m;
  const auto listed = [&open](const Carrying& one) {
    const auto same = std::find(open.carryings.begin(), open.carryings.end(), one);
    const auto place = static_cast<std::size_t>(same - open.carryings.begin());
    if (same == open.carryings.end()) open.carryings.push_back(one);
    return place;
  };
  const auto add = [&](int from, int to, double sill_m, bool is_along_x) {
    const double lesser_m2 = std::min(squares.deck.area_m2[at(from)], squares.deck.area_m2[at(to)]);
    if (lesser_m2 <= 0.0 || sill_m == std::numeric_limits<double>::infinity()) return;
    const double share = std::min(1.0, lesser_m2 / full_m2);
    Face face;
    face.from = from;
    face.to = to;
    face.is_along_x = is_along_x;
    face.sill_m = sill_m;
    face.width_m = share * (is_along_x ? squares.deck.height_m : squares.deck.width_m);
    face.distance_m = is_along_x ? squares.deck.width_m : squares.deck.height_m;
    face.carrying_from = listed(carrying_of(squares.cover[at(from)], is_along_x ? Way::along_x : Way::along_y));
    face.carrying_to = listed(carrying_of(squares.cover[at(to)], is_along_x ? Way::along_x : Way::along_y));
    const Carrying& on_from = open.carryings[face.carrying_from];
    const Carrying& on_to = open.carryings[face.carrying_to];
    const auto is_bare = [](const Carrying& one) {
      return one.gap <= 0.0 && one.over <= 0.0 && one.layer_m_per_s <= 0.0;
    };
    if (!is_bare(on_from) || !is_bare(on_to)) open.covered.push_back(static_cast<int>(open.faces.size()));
    open.from.push_back(from);
    open.to.push_back(to);
    open.sill_m.push_back(face.sill_m);
    open.width_m.push_back(face.width_m);
    open.per_distance.push_back(1.0 / face.distance_m);
    open.open.push_back(std::min(on_from.open, on_to.open));
    open.faces.push_back(face);
  };
  for (int j = 0; j < squares.deck.rows; ++j) {
    for (int i = 0; i + 1 < squares.deck.columns; ++i) {
      const int from = i + j * squares.deck.columns;
      add(from, from + 1, squares.deck.sill_x_m[at(i + j * (squares.deck.columns - 1))], true);
    }
  }
  for (int j = 0; j + 1 < squares.deck.rows; ++j) {
    for (int i = 0; i < squares.deck.columns; ++i) {
      const int from = i + j * squares.deck.columns;
      add(from, from + squares.deck.columns, squares.deck.sill_y_m[at(from)], false);
    }
  }
  return open;
}

std::vector<double> squares_of_cross_slope(const FlowSquares& squares, std::span<const Face> faces,
                                           std::span<const double> level_m) {
  const int n = squares.deck.columns * squares.deck.rows;
  constexpr double none = 0.0;
  // One-sided slopes of each square towards right, left, up, down; none where no water joins the two.
  std::vector<double> right(at(n), none), left(at(n), none), up(at(n), none), down(at(n), none);
  for (const Face& face : faces) {
    if (std::max(level_m[at(face.from)], level_m[at(face.to)]) <= face.sill_m) continue;
    const double slope = (level_m[at(face.to)] - level_m[at(face.from)]) / face.distance_m;
    (face.is_along_x ? right : up)[at(face.from)] = slope;
    (face.is_along_x ? left : down)[at(face.to)] = slope;
  }
  std::vector<double> cross(faces.size(), none);
  for (std::size_t f = 0; f < faces.size(); ++f) {
    const std::vector<double>& ahead = faces[f].is_along_x ? up : right;
    const std::vector<double>& behind = faces[f].is_along_x ? down : left;
    const double at_from = lesser_slope(ahead[at(faces[f].from)], behind[at(faces[f].from)]);
    const double at_to = lesser_slope(ahead[at(faces[f].to)], behind[at(faces[f].to)]);
    const double slope = lesser_slope(at_from, at_to);
    cross[f] = slope * slope;
  }
  return cross;
}

void find_face_flows(const OpenFaces& open, std::span<const double> cross_slope2, std::span<const double> level_m,
                     FaceFlows& flows) {
  const std::size_t n = open.faces.size();
  for (std::vector<double>* list : {&flows.m3_per_s, &flows.by_from, &flows.by_to, &flows.slope, &flows.secant_more}) {
    list->resize(n);
  }
  FaceBlock faces;
  FlowBlock made;
  auto covered = open.covered.begin();
  for (std::size_t first = 0; first < n; first += block) {
    const std::size_t n_here = std::min(block, n - first);
    const FaceShapes shapes{&open.sill_m[first], &open.width_m[first], &open.per_distance[first], &open.open[first]};
    for (std::size_t m = 0; m < n_here; ++m) {
      const double from_m = level_m[at(open.from[first + m])];
      const double to_m = level_m[at(open.to[first + m])];
      const double over_m = (from_m > to_m ? from_m : to_m) - shapes.sill_m[m];
      faces.depth_m[m] = over_m > 0.0 ? over_m : 0.0;
      faces.slope[m] = (from_m - to_m) * shapes.per_distance[m];
      faces.steepness[m] = std::fabs(faces.slope[m]);
      faces.cross_slope2[m] = cross_slope2[first + m];
    }
    find_powers(shapes, n_here, faces);
    for (; covered != open.covered.end() && at(*covered) < first + n_here; ++covered) {
      find_carried_beside_modules(open, at(*covered), at(*covered) - first, faces);
    }
    find_flows(shapes, faces, n_here, made);
    std::copy_n(made.m3_per_s, n_here, &flows.m3_per_s[first]);
    std::copy_n(made.by_from, n_here, &flows.by_from[first]);
    std::copy_n(made.by_to, n_here, &flows.by_to[first]);
    std::copy_n(made.secant_more, n_here, &flows.secant_more[first]);
    std::copy_n(faces.slope, n_here, &flows.slope[first]);
  }
}

ExitFlow exit_flow(const Exit& exit, double level_m) {
  const double head_mm = 1000.0 * (level_m - exit.lip_m);
  if (head_mm <= 0.0 || exit.clear_frac <= 0.0) return {};
  const physics::HeadFlow flow =
      exit.outlet ? physics::round_outlet_flow(*exit.outlet, head_mm) : physics::opening_flow(*exit.opening, head_mm);
  const double m3_per_s = exit.clear_frac * 0.001 * flow.l_per_s;
  if (exit.most_m3_per_s && m3_per_s >= *exit.most_m3_per_s) return {*exit.most_m3_per_s, 0.0};
  return {m3_per_s, exit.clear_frac * flow.l_per_s_per_mm};
}

}  // namespace houseleek::checks
