// Water on the squares of a deck: what it does in one step of time, and over a storm, until it has left.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "checks/drainage_books.hpp"
#include "checks/drainage_faces.hpp"
#include "numerics/grid_matrix.hpp"

namespace houseleek::checks {

/// One implicit step of the diffusive wave over squares.
/// Equation: V(h') = V(h) + dt (arriving - sum over faces of q w - exits); q = k(h_f) S/(S^2 + T^2 + s^2)^(1/4) + K d S
/// Symbols:  h_f: depth of the higher water over the face's sill; k: h^(5/3)/n in the open, under the module and over
///           it, the lesser of the two squares; S: slope of the water across the face, T along it (before the step, the
///           lesser of both sides); s = least_turbulent_slope; K, d: conductivity and depth of water in a coarse layer
/// Shape:    arriving_m3_per_s one value a square; state is advanced in place.
/// Units:    SI.
/// Valid:    any step above zero, any depth.
/// Errors:   returns nothing and leaves the state where Newton does not come to rest: the caller halves the step.
/// Order:    1 in step and square.
/// Stable if: always: the fluxes make the system an M-function, with one solution that is not negative.
/// Conserves: water, to rounding: volumes change by fluxes only, moved from the highest water down, and no square gives
///           more than it has.
/// Cost:     a factorisation of half the squares times lesser side squared for each Newton iteration, less where the
///           factors of the iteration or step before still serve.
/// Source:   diffusive wave [chow1988] section 9.2; [rheinboldt1970]; docs/equations/drainage.md.
/// Checked by: RoofFlow tests, tests/checks/drainage_flow_test.cpp.
[[nodiscard]] std::optional<FlowStep> advance_flow(const FlowSquares& squares,
                                                   std::span<const double> arriving_m3_per_s, double step_s,
                                                   FlowState& state);

/// How little must be unaccounted for at a square in a step: a share of what passes it, or so much depth.
struct StillWater {
  double frac = 1.0e-9;  // for single steps and steady states, whose steps of hours pass far more than stands there
  double depth_m = 1.0e-11;
};

/// The same, step after step on one deck: faces, matrix and the last factors are kept. Refers to the deck.
class FlowStepper {
 public:
  /// A square is at rest once its books lack less than `still`. The flows as found are then booked without loss, so that
  /// it moves water late or early by so much and makes none.
  FlowStepper(const FlowSquares& squares, StillWater still);
  /// `near_m`, if given: depths to begin the iteration with.
  [[nodiscard]] std::optional<FlowStep> advance(std::span<const double> arriving_m3_per_s, double step_s,
                                                FlowState& state, std::span<const double> near_m = {});
  /// What rounded levels leave open at the depth of a square in the last step: much in a deep still pool and a long step.
  [[nodiscard]] double blur_m() const;

 private:
  double evaluate(std::span<const double> depth_m);
  [[nodiscard]] double blurred_m3(std::size_t face) const;
  [[nodiscard]] bool is_still() const;
  void factor(std::span<const double> depth_m);
  void find_change();
  [[nodiscard]] bool close_step(std::vector<double>& depth_m, int undamped_iterations, int& n_iterations);

  const FlowSquares& squares_;
  StillWater still_;
  std::size_t n_;
  OpenFaces open_;
  SquareSides sides_;
  numerics::GridMatrix matrix_;
  double factored_step_s_ = 0.0;        // the step its factors belong to; 0: none
  std::vector<double> factored_slope_;  // of the water across each face then
  // Of the step at hand.
  std::span<const double> arriving_m3_per_s_;
  double step_s_ = 0.0;
  std::span<const double> before_m3_;
  std::vector<double> cross_slope2_;
  FaceFlows flows_;
  std::vector<ExitFlow> exit_flows_;
  std::vector<double> level_m_;
  std::vector<double> allowed_m3_;  // of the residual
  std::vector<double> residual_m3_;
  std::vector<double> change_;
  std::vector<double> trial_m_;
};

/// A deck with nothing on it.
[[nodiscard]] FlowState dry_state(const FlowSquares& squares);

/// Run-off by the minute: each square takes one of the columns, times its area.
struct RunOff {
  std::vector<std::vector<double>> columns_mm_per_min;  // all of one length
  std::vector<int> column_of_square;                    // -1: sheds nothing
};

struct RouteOptions {
  double step_s = 20.0;        // while it rains; at most 60, as in the minutes after
  int minutes_after = 0;       // followed after the last minute of run-off
  double drained_below_m = 0;  // stop early once all water above `standing_m` is below this; 0: never
  /// Stop early once no square rises any more after the rain: by the order of an M-function none rises again, so
  /// `max_depth_m` is that of the whole run.
  bool ends_at_peak = false;
  /// While run-off stays the same, steps double as long as each differs from the straight line through the two before it
  /// by less than this at every square, up to ten minutes and, after the rain, a tenth of the time since; 0: never.
  double growth_error_m = 0.0;
};

struct Routed {
  std::vector<double> max_depth_m;  // by square, at step ends
  std::vector<double> end_depth_m;
  std::vector<double> end_volume_m3;
  std::vector<std::vector<double>> exit_m3_per_s;  // by exit: means of each minute
  double arrived_m3 = 0.0;
  double left_m3 = 0.0;
  double stored_m3 = 0.0;
  double worst_residual_frac = 0.0;  // of a step, over all that arrived so far
  double worst_limit = 0.0;
  double max_volume_m3 = 0.0;  // on the whole deck
  long n_steps = 0;
  long n_newton_iterations = 0;
  int minutes = 0;
};

/// Follows run-off to the exits. A mirrored deck gives the mirrored answer in equal bits.
/// Errors:   ContractViolation with time and residual where a step of 1 ms does not come to rest.
[[nodiscard]] Routed route_runoff(const FlowSquares& squares, const RunOff& runoff, const RouteOptions& options);

/// Goes on from where a run of the same deck and run-off stopped early.
[[nodiscard]] Routed continue_runoff(const FlowSquares& squares, const RunOff& runoff, const RouteOptions& options,
                                     const Routed& until_now);

/// Depths once a steady run-off has filled every hollow and leaves as it comes. A mirrored deck gives the mirrored
/// answer in equal bits; more rain, a blocked exit or a higher sill lowers no depth beyond 1 um. `near_m`, if given, are
/// depths to begin with: they change the time it takes, and the answer by less than 1 um.
/// Errors:   ContractViolation without an exit that takes water, or where it does not come to rest.
[[nodiscard]] std::vector<double> steady_depths_m(const FlowSquares& squares, std::span<const double> arriving_m3_per_s,
                                                  std::span<const double> near_m = {});

}  // namespace houseleek::checks
