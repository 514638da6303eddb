// Water across the faces between squares and into outlets: how much runs, and how that grows with the depths.
#include "checks/drainage_faces.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "numerics/elementary.hpp"

namespace houseleek::checks {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

bool has_layer(const Carrying& carrying) { return carrying.layer_m_per_s > 0.0; }

/// The slope of lesser size, none where the two differ in sign.
double lesser_slope(double a, double b) {
  if (a * b <= 0.0) return 0.0;
  return std::fabs(a) < std::fabs(b) ? a : b;
}

/// The lesser of what both sides carry in their coarse layers, or what the only one of them does.
Grown layer_of(const Face& face, double depth_m) {
  if (!face.has_layer_from) return face.has_layer_to ? layer_conveyance(face.carrying_to, depth_m) : Grown{};
  const Grown from = layer_conveyance(face.carrying_from, depth_m);
  if (!face.has_layer_to) return from;
  const Grown to = layer_conveyance(face.carrying_to, depth_m);
  return from.value <= to.value ? from : to;
}

}  // namespace

std::vector<Face> open_faces(const FlowSquares& squares) {
  std::vector<Face> faces;
  const double full_m2 = squares.deck.width_m * squares.deck.height_m;
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
    face.carrying_from = carrying_of(squares.cover[at(from)], is_along_x ? Way::along_x : Way::along_y);
    face.carrying_to = carrying_of(squares.cover[at(to)], is_along_x ? Way::along_x : Way::along_y);
    face.is_carried_alike = face.carrying_from == face.carrying_to;
    face.has_layer_from = has_layer(face.carrying_from);
    face.has_layer_to = has_layer(face.carrying_to);
    faces.push_back(face);
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
  return faces;
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

FaceFlow face_flow(const Face& face, double cross_slope2, double level_from_m, double level_to_m) {
  const bool is_forward = level_from_m >= level_to_m;
  const double depth_m = (is_forward ? level_from_m : level_to_m) - face.sill_m;
  if (depth_m <= 0.0) return {};
  const SheetPower power = sheet_power(depth_m);
  Grown k = conveyance(face.carrying_from, depth_m, power);
  if (!face.is_carried_alike) {
    const Grown other = conveyance(face.carrying_to, depth_m, power);
    if (other.value < k.value) k = other;
  }
  const Grown layer = layer_of(face, depth_m);
  const double slope = std::fabs(level_from_m - level_to_m) / face.distance_m;
  const double floor2 = cross_slope2 + least_turbulent_slope * least_turbulent_slope;
  const double sum2 = slope * slope + floor2;
  const double fourth_root = numerics::fourth_root(sum2);
  const double run = slope / fourth_root;
  const double run_slope = (0.5 * slope * slope + floor2) / (sum2 * fourth_root);
  const double flow = face.width_m * (k.value * run + layer.value * slope);
  const double by_slope = face.width_m * (k.value * run_slope + layer.value) / face.distance_m;
  const double by_depth = face.width_m * (k.slope * run + layer.slope * slope);
  if (is_forward) return {flow, by_slope + by_depth, -by_slope};
  return {-flow, by_slope, -(by_slope + by_depth)};
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
