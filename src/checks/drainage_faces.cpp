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

/// The roots of all wet faces in one loop without branches, which the compiler does for several faces at once: the same
/// operations, so the same bits, as one by one.
HOUSELEEK_WIDE_CLONE void find_powers(std::size_t n, const double* __restrict depth_m, const double* __restrict slopes,
                                      const double* __restrict floors2, double* __restrict two_thirds,
                                      double* __restrict run, double* __restrict run_slope) {
  for (std::size_t m = 0; m < n; ++m) {
    const double root = numerics::cbrt(depth_m[m]);
    two_thirds[m] = root * root;
    const double slope = slopes[m];
    const double slope2 = slope * slope;
    const double sum2 = slope2 + floors2[m];
    const double fourth_root = numerics::fourth_root(sum2);
    run[m] = slope / fourth_root;
    run_slope[m] = (0.5 * slope2 + floors2[m]) / (sum2 * fourth_root);
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
                     WetFaces& wet, std::span<FaceFlow> flows) {
  const std::size_t n = open.faces.size();
  wet.face.clear();
  for (std::vector<double>* list : {&wet.depth_m, &wet.slope, &wet.floor2, &wet.two_thirds, &wet.run, &wet.run_slope}) {
    list->resize(n);
  }
  std::size_t n_wet = 0;
  for (std::size_t f = 0; f < n; ++f) {
    const Face& face = open.faces[f];
    const double from_m = level_m[at(face.from)];
    const double to_m = level_m[at(face.to)];
    const double depth_m = std::max(from_m, to_m) - face.sill_m;
    if (depth_m <= 0.0) {
      flows[f] = {};
      continue;
    }
    wet.face.push_back(static_cast<int>(f));
    wet.depth_m[n_wet] = depth_m;
    wet.slope[n_wet] = std::fabs(from_m - to_m) / face.distance_m;
    wet.floor2[n_wet] = cross_slope2[f] + least_turbulent_slope * least_turbulent_slope;
    ++n_wet;
  }
  find_powers(n_wet, wet.depth_m.data(), wet.slope.data(), wet.floor2.data(), wet.two_thirds.data(), wet.run.data(),
              wet.run_slope.data());
  for (std::size_t m = 0; m < n_wet; ++m) {
    const std::size_t f = at(wet.face[m]);
    const Face& face = open.faces[f];
    const double depth_m = wet.depth_m[m];
    const SheetPower power{depth_m * wet.two_thirds[m], wet.two_thirds[m]};
    const Carrying& from = open.carryings[face.carrying_from];
    const Carrying& to = open.carryings[face.carrying_to];
    Grown k = conveyance(from, depth_m, power);
    if (face.carrying_from != face.carrying_to) {
      const Grown other = conveyance(to, depth_m, power);
      if (other.value < k.value) k = other;
    }
    const Grown layer = layer_of(from, to, depth_m);
    const double flow = face.width_m * (k.value * wet.run[m] + layer.value * wet.slope[m]);
    const double by_slope = face.width_m * (k.value * wet.run_slope[m] + layer.value) / face.distance_m;
    const double by_depth = face.width_m * (k.slope * wet.run[m] + layer.slope * wet.slope[m]);
    const double secant = wet.slope[m] > 0.0 ? wet.run[m] / wet.slope[m] : wet.run_slope[m];
    const double secant_more = face.width_m * k.value * (secant - wet.run_slope[m]) / face.distance_m;
    if (level_m[at(face.from)] >= level_m[at(face.to)]) {
      flows[f] = {flow, by_slope + by_depth, -by_slope, wet.slope[m], secant_more};
    } else {
      flows[f] = {-flow, by_slope, -(by_slope + by_depth), -wet.slope[m], secant_more};
    }
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
