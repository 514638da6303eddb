// One implicit step of the diffusive wave over squares: Newton on an M-function, then water moved from the highest down.
#include "checks/drainage_flow.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>

#include "base/contract.hpp"
#include "numerics/elementary.hpp"

namespace houseleek::checks {
namespace {

// A square is at rest with 0.01 nm of water unaccounted for, or a billionth of what passes it in the step, or what four
// rounded bits of the levels in a wide still pool make of it.
constexpr double still_m = 1.0e-11;
constexpr double still_frac = 1.0e-9;
constexpr double rounding_frac = 16.0 * 2.220446049250313e-16;
constexpr int most_iterations = 40;
constexpr int most_halvings = 8;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

struct Grown {
  double value = 0.0;
  double slope = 0.0;  // by depth
};

/// factor h^(5/3).
Grown sheet(double factor, double depth_m) {
  if (depth_m <= 0.0) return {};
  const double root = numerics::cbrt(depth_m);
  const double squared = factor * root * root;
  return {depth_m * squared, 5.0 / 3.0 * squared};
}

/// k(h): what the open part, the gap and the water above the module carry at a slope of one.
Grown conveyance(const SquareCover& cover, double depth_m, double dam_m) {
  Grown sum = sheet(cover.open_frac / cover.open_roughness_s_per_m13, depth_m);
  const double covered_frac = 1.0 - cover.open_frac;
  if (covered_frac <= 0.0) return sum;
  if (cover.gap_m > dam_m && cover.gap_frac > 0.0) {
    const Grown under =
        sheet(covered_frac * cover.gap_frac / cover.gap_roughness_s_per_m13, std::min(depth_m, cover.gap_m) - dam_m);
    sum.value += under.value;
    if (depth_m < cover.gap_m) sum.slope += under.slope;
  }
  const Grown over = sheet(covered_frac / cover.open_roughness_s_per_m13, depth_m - cover.gap_m - cover.module_m);
  return {sum.value + over.value, sum.slope + over.slope};
}

/// K d: what a coarse layer on the deck carries at a slope of one.
Grown layer_conveyance(const SquareCover& cover, double depth_m) {
  const double factor = (1.0 - cover.open_frac) * cover.layer_conductivity_m_per_s;
  return {factor * std::min(depth_m, cover.layer_m), depth_m < cover.layer_m ? factor : 0.0};
}

bool has_layer(const SquareCover& cover) {
  return cover.layer_m > 0.0 && cover.layer_conductivity_m_per_s > 0.0 && cover.open_frac < 1.0;
}

struct Face {
  int from = 0;  // square
  int to = 0;
  double sill_m = 0.0;
  double width_m = 0.0;
  double distance_m = 0.0;
  bool is_along_x = false;
};

/// All faces that water can pass, along x row by row, then along y.
std::vector<Face> open_faces(const FlowSquares& squares) {
  std::vector<Face> faces;
  const double full_m2 = squares.deck.width_m * squares.deck.height_m;
  const auto add = [&](int from, int to, double sill_m, bool is_along_x) {
    const double lesser_m2 = std::min(squares.deck.area_m2[at(from)], squares.deck.area_m2[at(to)]);
    if (lesser_m2 <= 0.0 || sill_m == std::numeric_limits<double>::infinity()) return;
    const double share = std::min(1.0, lesser_m2 / full_m2);
    faces.push_back({.from = from,
                     .to = to,
                     .sill_m = sill_m,
                     .width_m = share * (is_along_x ? squares.deck.height_m : squares.deck.width_m),
                     .distance_m = is_along_x ? squares.deck.width_m : squares.deck.height_m,
                     .is_along_x = is_along_x});
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

/// The slope of lesser size, none where the two differ in sign.
double lesser_slope(double a, double b) {
  if (a * b <= 0.0) return 0.0;
  return std::fabs(a) < std::fabs(b) ? a : b;
}

/// Square of the water's slope along each face, from the levels before the step.
std::vector<double> squares_of_cross_slope(const FlowSquares& squares, const std::vector<Face>& faces,
                                           const std::vector<double>& level_m) {
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

struct FaceFlow {
  double m3_per_s = 0.0;  // from `from` to `to`
  double by_from = 0.0;   // its derivative by the depth there, not negative
  double by_to = 0.0;     // the same, not positive
};

FaceFlow face_flow(const FlowSquares& squares, const Face& face, double cross_slope2, double level_from_m,
                   double level_to_m) {
  const bool is_forward = level_from_m >= level_to_m;
  const double higher_m = is_forward ? level_from_m : level_to_m;
  const double depth_m = higher_m - face.sill_m;
  if (depth_m <= 0.0) return {};
  const SquareCover& a = squares.cover[at(face.from)];
  const SquareCover& b = squares.cover[at(face.to)];
  const auto carried = [&](const SquareCover& cover) {
    return conveyance(cover, depth_m, face.is_along_x ? cover.dam_x_m : cover.dam_y_m);
  };
  const Grown in_a = carried(a);
  const Grown in_b = a == b ? in_a : carried(b);
  const Grown k = in_a.value <= in_b.value ? in_a : in_b;
  Grown layer;
  if (has_layer(a) && has_layer(b)) {
    const Grown layer_a = layer_conveyance(a, depth_m);
    const Grown layer_b = layer_conveyance(b, depth_m);
    layer = layer_a.value <= layer_b.value ? layer_a : layer_b;
  } else if (has_layer(a) || has_layer(b)) {
    layer = layer_conveyance(has_layer(a) ? a : b, depth_m);
  }
  const double slope = std::fabs(level_from_m - level_to_m) / face.distance_m;
  const double floor2 = cross_slope2 + least_turbulent_slope * least_turbulent_slope;
  const double sum2 = slope * slope + floor2;
  const double fourth_root = numerics::sqrt(numerics::sqrt(sum2));
  const double run = slope / fourth_root;
  const double run_slope = (0.5 * slope * slope + floor2) / (sum2 * fourth_root);
  const double flow = face.width_m * (k.value * run + layer.value * slope);
  const double by_slope = face.width_m * (k.value * run_slope + layer.value) / face.distance_m;
  const double by_depth = face.width_m * (k.slope * run + layer.slope * slope);
  if (is_forward) return {flow, by_slope + by_depth, -by_slope};
  return {-flow, by_slope, -(by_slope + by_depth)};
}

struct ExitFlow {
  double m3_per_s = 0.0;
  double by_depth = 0.0;
};

ExitFlow exit_flow(const Exit& exit, double level_m) {
  const double head_mm = 1000.0 * (level_m - exit.lip_m);
  if (head_mm <= 0.0 || exit.clear_frac <= 0.0) return {};
  const physics::HeadFlow flow =
      exit.outlet ? physics::round_outlet_flow(*exit.outlet, head_mm) : physics::opening_flow(*exit.opening, head_mm);
  const double m3_per_s = exit.clear_frac * 0.001 * flow.l_per_s;
  if (exit.most_m3_per_s && m3_per_s >= *exit.most_m3_per_s) return {*exit.most_m3_per_s, 0.0};
  return {m3_per_s, exit.clear_frac * flow.l_per_s_per_mm};
}

double volume_by_depth_m2(const SquareCover& cover, double area_m2, double depth_m) {
  const double covered_frac = 1.0 - cover.open_frac;
  const double in_module_m = depth_m - cover.gap_m;
  const bool is_in_pores = in_module_m > 0.0 && in_module_m < cover.module_m;
  return area_m2 * (cover.open_frac + covered_frac * (is_in_pores ? cover.pore_frac : 1.0));
}

/// Gaussian elimination of a banded matrix without pivots; stable for the diagonally dominant columns at hand.
class BandedSystem {
 public:
  BandedSystem(int n, int half_band) : n_(n), half_band_(half_band), stride_(2 * half_band + 1) {
    entries_.assign(at(n_) * at(stride_), 0.0);
  }
  void clear() { std::fill(entries_.begin(), entries_.end(), 0.0); }
  double& entry(int row, int column) { return entries_[at(row) * at(stride_) + at(column - row + half_band_)]; }

  void solve(std::vector<double>& right) {
    for (int j = 0; j < n_; ++j) {
      const double inverse = 1.0 / entry(j, j);
      const int last = std::min(n_ - 1, j + half_band_);
      const double* const pivot_row = &entry(j, j);
      for (int i = j + 1; i <= last; ++i) {
        double* const row = &entry(i, j);
        if (*row == 0.0) continue;
        const double multiplier = *row * inverse;
        for (int k = 1; k <= last - j; ++k) row[k] -= multiplier * pivot_row[k];
        right[at(i)] -= multiplier * right[at(j)];
      }
    }
    for (int i = n_ - 1; i >= 0; --i) {
      const int last = std::min(n_ - 1, i + half_band_);
      double sum = right[at(i)];
      for (int k = i + 1; k <= last; ++k) sum -= entry(i, k) * right[at(k)];
      right[at(i)] = sum / entry(i, i);
    }
  }

 private:
  int n_;
  int half_band_;
  int stride_;
  std::vector<double> entries_;
};

/// The residual F(h), in m3 a step, and on demand its Jacobian.
class StepSystem {
 public:
  StepSystem(const FlowSquares& squares, std::span<const double> arriving_m3_per_s, double step_s,
             const FlowState& before)
      : squares_(squares),
        arriving_m3_per_s_(arriving_m3_per_s),
        step_s_(step_s),
        before_(before),
        n_(squares.deck.columns * squares.deck.rows),
        is_by_row_(squares.deck.columns <= squares.deck.rows),
        faces_(open_faces(squares)),
        flows_(faces_.size()),
        exit_flows_(squares.exits.size()),
        level_m_(at(n_)),
        passing_m3_(at(n_)),
        blurred_m3_(at(n_)),
        system_(n_, std::max(1, std::min(squares.deck.columns, squares.deck.rows))) {
    for (int i = 0; i < n_; ++i) level_m_[at(i)] = squares.deck.level_m[at(i)] + before.depth_m[at(i)];
    cross_slope2_ = squares_of_cross_slope(squares, faces_, level_m_);
  }

  /// Works out all fluxes and the residual at these depths; returns the sum of its sizes.
  double evaluate(const std::vector<double>& depth, std::vector<double>& residual_m3) {
    for (int i = 0; i < n_; ++i) {
      level_m_[at(i)] = squares_.deck.level_m[at(i)] + depth[at(i)];
      residual_m3[at(i)] = volume_m3(squares_.cover[at(i)], squares_.deck.area_m2[at(i)], depth[at(i)]) -
                           before_.volume_m3[at(i)] - step_s_ * arriving_m3_per_s_[at(i)];
      passing_m3_[at(i)] = step_s_ * arriving_m3_per_s_[at(i)];
      blurred_m3_[at(i)] = 0.0;
    }
    for (std::size_t f = 0; f < faces_.size(); ++f) {
      const Face& face = faces_[f];
      flows_[f] = face_flow(squares_, face, cross_slope2_[f], level_m_[at(face.from)], level_m_[at(face.to)]);
      residual_m3[at(face.from)] += step_s_ * flows_[f].m3_per_s;
      residual_m3[at(face.to)] -= step_s_ * flows_[f].m3_per_s;
      passing_m3_[at(face.from)] += step_s_ * std::fabs(flows_[f].m3_per_s);
      passing_m3_[at(face.to)] += step_s_ * std::fabs(flows_[f].m3_per_s);
      const double blur_m =
          rounding_frac * std::max(std::fabs(level_m_[at(face.from)]), std::fabs(level_m_[at(face.to)]));
      const double blurred_m3 = step_s_ * (flows_[f].by_from - flows_[f].by_to) * blur_m;
      blurred_m3_[at(face.from)] += blurred_m3;
      blurred_m3_[at(face.to)] += blurred_m3;
    }
    for (std::size_t e = 0; e < squares_.exits.size(); ++e) {
      exit_flows_[e] = exit_flow(squares_.exits[e], level_m_[at(squares_.exits[e].square)]);
      residual_m3[at(squares_.exits[e].square)] += step_s_ * exit_flows_[e].m3_per_s;
    }
    double sum = 0.0;
    for (int i = 0; i < n_; ++i) {
      if (squares_.deck.area_m2[at(i)] > 0.0) sum += std::fabs(residual_m3[at(i)]);
    }
    return sum;
  }

  /// True if no square's residual is worth mentioning.
  [[nodiscard]] bool is_still(const std::vector<double>& residual_m3) const {
    for (int i = 0; i < n_; ++i) {
      const double area_m2 = squares_.deck.area_m2[at(i)];
      const double allowed_m3 = still_m * area_m2 + still_frac * passing_m3_[at(i)] + blurred_m3_[at(i)];
      if (area_m2 > 0.0 && !(std::fabs(residual_m3[at(i)]) <= allowed_m3)) return false;
    }
    return true;
  }

  /// The change of depth that would bring the residual to zero if all were straight lines.
  void newton_change(const std::vector<double>& depth, const std::vector<double>& residual_m3,
                     std::vector<double>& change) {
    system_.clear();
    change.assign(at(n_), 0.0);
    for (int i = 0; i < n_; ++i) {
      const double area_m2 = squares_.deck.area_m2[at(i)];
      system_.entry(place(i), place(i)) =
          area_m2 > 0.0 ? volume_by_depth_m2(squares_.cover[at(i)], area_m2, depth[at(i)]) : 1.0;
      change[at(place(i))] = area_m2 > 0.0 ? -residual_m3[at(i)] : 0.0;
    }
    for (std::size_t f = 0; f < faces_.size(); ++f) {
      const int from = place(faces_[f].from);
      const int to = place(faces_[f].to);
      system_.entry(from, from) += step_s_ * flows_[f].by_from;
      system_.entry(from, to) += step_s_ * flows_[f].by_to;
      system_.entry(to, from) -= step_s_ * flows_[f].by_from;
      system_.entry(to, to) -= step_s_ * flows_[f].by_to;
    }
    for (std::size_t e = 0; e < squares_.exits.size(); ++e) {
      const int square = place(squares_.exits[e].square);
      system_.entry(square, square) += step_s_ * exit_flows_[e].by_depth;
    }
    system_.solve(change);
    std::vector<double> by_square(at(n_));
    for (int i = 0; i < n_; ++i) by_square[at(i)] = change[at(place(i))];
    change.swap(by_square);
  }

  [[nodiscard]] const std::vector<Face>& faces() const { return faces_; }
  [[nodiscard]] const std::vector<FaceFlow>& flows() const { return flows_; }
  [[nodiscard]] const std::vector<ExitFlow>& exit_flows() const { return exit_flows_; }
  [[nodiscard]] const std::vector<double>& level_m() const { return level_m_; }

 private:
  [[nodiscard]] int place(int square) const {
    if (is_by_row_) return square;
    return (square % squares_.deck.columns) * squares_.deck.rows + square / squares_.deck.columns;
  }

  const FlowSquares& squares_;
  std::span<const double> arriving_m3_per_s_;
  double step_s_;
  const FlowState& before_;
  int n_;
  bool is_by_row_;
  std::vector<Face> faces_;
  std::vector<FaceFlow> flows_;
  std::vector<ExitFlow> exit_flows_;
  std::vector<double> level_m_;
  std::vector<double> passing_m3_;
  std::vector<double> blurred_m3_;
  std::vector<double> cross_slope2_;
  BandedSystem system_;
};

/// Depths that close the step; nothing if Newton does not get there.
bool solve_step(StepSystem& system, std::vector<double>& depth, int& n_iterations) {
  std::vector<double> residual(depth.size());
  std::vector<double> trial(depth.size());
  std::vector<double> change;
  double size = system.evaluate(depth, residual);
  for (n_iterations = 0; n_iterations < most_iterations; ++n_iterations) {
    if (system.is_still(residual)) return true;
    system.newton_change(depth, residual, change);
    double share = 1.0;
    for (int halving = 0;; ++halving) {
      for (std::size_t i = 0; i < depth.size(); ++i) trial[i] = std::max(0.0, depth[i] + share * change[i]);
      const double trial_size = system.evaluate(trial, residual);
      if (trial_size < size || halving == most_halvings) {
        size = trial_size;
        break;
      }
      share *= 0.5;
    }
    depth.swap(trial);
  }
  return system.is_still(residual);
}

/// Faces of each square: left, right, down, up; -1 where there is none.
std::vector<std::array<int, 4>> faces_of_squares(int n, const std::vector<Face>& faces) {
  std::vector<std::array<int, 4>> of(at(n), {-1, -1, -1, -1});
  for (std::size_t f = 0; f < faces.size(); ++f) {
    of[at(faces[f].from)][faces[f].is_along_x ? 1 : 3] = static_cast<int>(f);
    of[at(faces[f].to)][faces[f].is_along_x ? 0 : 2] = static_cast<int>(f);
  }
  return of;
}

/// Moves the water of the step from the highest level down; a square gives no more than it has.
FlowStep move_water(const FlowSquares& squares, std::span<const double> arriving_m3_per_s, double step_s,
                    const StepSystem& system, FlowState& state) {
  const int n = squares.deck.columns * squares.deck.rows;
  const std::vector<std::array<int, 4>> faces_of = faces_of_squares(n, system.faces());
  std::vector<std::vector<int>> exits_of(at(n));
  for (std::size_t e = 0; e < squares.exits.size(); ++e) {
    exits_of[at(squares.exits[e].square)].push_back(static_cast<int>(e));
  }
  std::vector<int> order(at(n));
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(),
                   [&](int a, int b) { return system.level_m()[at(a)] > system.level_m()[at(b)]; });
  std::vector<double> moved_m3(system.faces().size());
  for (std::size_t f = 0; f < moved_m3.size(); ++f) moved_m3[f] = step_s * system.flows()[f].m3_per_s;
  FlowStep step;
  step.exit_m3.assign(squares.exits.size(), 0.0);
  double before_m3 = 0.0;
  double after_m3 = 0.0;
  double left_m3 = 0.0;
  for (const int square : order) {
    if (squares.deck.area_m2[at(square)] <= 0.0) continue;
    // What flows towards this square counts with its sign; higher squares have settled what they give.
    std::array<double, 4> into{};
    double wanted_m3 = 0.0;
    for (std::size_t side = 0; side < 4; ++side) {
      const int face = faces_of[at(square)][side];
      if (face < 0) continue;
      const bool is_from_here = side == 1 || side == 3;
      const double towards_m3 = is_from_here ? -moved_m3[at(face)] : moved_m3[at(face)];
      if (towards_m3 < 0.0) {
        wanted_m3 -= towards_m3;
      } else {
        into[side] = towards_m3;
      }
    }
    for (const int exit : exits_of[at(square)]) wanted_m3 += step_s * system.exit_flows()[at(exit)].m3_per_s;
    const double arrived_m3 = step_s * arriving_m3_per_s[at(square)];
    const double there_m3 = state.volume_m3[at(square)] + arrived_m3 + ((into[0] + into[1]) + (into[2] + into[3]));
    before_m3 += state.volume_m3[at(square)];
    step.arrived_m3 += arrived_m3;
    double share = 1.0;
    if (wanted_m3 > there_m3) {
      share = there_m3 / wanted_m3;
      step.worst_limit = std::max(step.worst_limit, 1.0 - share);
    }
    for (std::size_t side = 0; side < 4 && share < 1.0; ++side) {
      const int face = faces_of[at(square)][side];
      if (face >= 0 && (side == 1 || side == 3 ? moved_m3[at(face)] > 0.0 : moved_m3[at(face)] < 0.0)) {
        moved_m3[at(face)] *= share;
      }
    }
    for (const int exit : exits_of[at(square)]) {
      step.exit_m3[at(exit)] = share * step_s * system.exit_flows()[at(exit)].m3_per_s;
      left_m3 += step.exit_m3[at(exit)];
    }
    state.volume_m3[at(square)] = share < 1.0 ? 0.0 : there_m3 - wanted_m3;
    step.throughput_m3 += arrived_m3 + wanted_m3;
    after_m3 += state.volume_m3[at(square)];
    state.depth_m[at(square)] =
        depth_m(squares.cover[at(square)], squares.deck.area_m2[at(square)], state.volume_m3[at(square)]);
  }
  step.residual_m3 = after_m3 - before_m3 - step.arrived_m3 + left_m3;
  return step;
}

}  // namespace

double volume_m3(const SquareCover& cover, double area_m2, double depth) {
  const double under_m = std::min(depth, cover.gap_m);
  const double inside_m = std::clamp(depth - cover.gap_m, 0.0, cover.module_m);
  const double over_m = std::max(0.0, depth - cover.gap_m - cover.module_m);
  return area_m2 *
         (cover.open_frac * depth + (1.0 - cover.open_frac) * (under_m + cover.pore_frac * inside_m + over_m));
}

double depth_m(const SquareCover& cover, double area_m2, double volume) {
  const double sheet_m = volume / area_m2;  // mean over the square
  if (sheet_m <= cover.gap_m) return sheet_m;
  const double inside_frac = cover.open_frac + (1.0 - cover.open_frac) * cover.pore_frac;
  const double inside_m = (sheet_m - cover.gap_m) / inside_frac;
  if (inside_m <= cover.module_m) return cover.gap_m + inside_m;
  return sheet_m + cover.module_m * (1.0 - inside_frac);
}

FlowState dry_state(const FlowSquares& squares) {
  const std::size_t n = squares.deck.level_m.size();
  return {.volume_m3 = std::vector<double>(n, 0.0), .depth_m = std::vector<double>(n, 0.0)};
}

std::optional<FlowStep> advance_flow(const FlowSquares& squares, std::span<const double> arriving_m3_per_s,
                                     double step_s, FlowState& state) {
  const std::size_t n = at(squares.deck.columns * squares.deck.rows);
  expects(n > 0 && squares.deck.area_m2.size() == n && squares.deck.level_m.size() == n && squares.cover.size() == n &&
              squares.deck.sill_x_m.size() == at((squares.deck.columns - 1) * squares.deck.rows) &&
              squares.deck.sill_y_m.size() == at(squares.deck.columns * (squares.deck.rows - 1)) &&
              arriving_m3_per_s.size() == n && state.volume_m3.size() == n && state.depth_m.size() == n,
          "columns of one length");
  expects(step_s > 0.0, "a step above zero");
  StepSystem system(squares, arriving_m3_per_s, step_s, state);
  std::vector<double> depth = state.depth_m;
  int n_iterations = 0;
  if (!solve_step(system, depth, n_iterations)) return std::nullopt;
  FlowStep step = move_water(squares, arriving_m3_per_s, step_s, system, state);
  step.n_newton_iterations = n_iterations;
  return step;
}

}  // namespace houseleek::checks
