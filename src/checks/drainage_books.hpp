// The books of a step: its water moved square by square from the highest level down, so that none is made or lost.
#pragma once
#include <array>
#include <span>
#include <vector>

#include "checks/drainage_faces.hpp"

namespace houseleek::checks {

struct FlowState {
  std::vector<double> volume_m3;  // by square
  std::vector<double> depth_m;
};

/// What one step did.
struct FlowStep {
  std::vector<double> exit_m3;  // by exit
  double arrived_m3 = 0.0;
  double residual_m3 = 0.0;  // stored after - stored before - arrived + left
  double throughput_m3 = 0.0;
  int n_newton_iterations = 0;
  double worst_limit = 0.0;  // how much of a square's outflow had to be held back because it was not there
};

/// Which faces and exits each square has.
struct SquareSides {
  std::vector<std::array<int, 4>> faces;  // left, right, down, up; -1 where there is none
  std::vector<std::vector<int>> exits;
};
[[nodiscard]] SquareSides sides_of_squares(const FlowSquares& squares, std::span<const Face> faces);

/// Flows of a step as worked out, at the levels they belong to.
struct StepFlows {
  std::span<const double> arriving_m3_per_s;  // by square
  std::span<const double> faces_m3_per_s;
  std::span<const ExitFlow> exits;
  std::span<const double> level_m;
  double step_s = 0.0;
};

/// Moves the water of the step from the highest level down; a square gives no more than it has.
[[nodiscard]] FlowStep move_water(const FlowSquares& squares, const SquareSides& sides, const StepFlows& flows,
                                  FlowState& state);

}  // namespace houseleek::checks
