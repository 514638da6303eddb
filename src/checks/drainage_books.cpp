// The books of a step: its water moved square by square from the highest level down, so that none is made or lost.
#include "checks/drainage_books.hpp"

#include <algorithm>
#include <numeric>

namespace houseleek::checks {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

}  // namespace

SquareSides sides_of_squares(const FlowSquares& squares, std::span<const Face> faces) {
  const std::size_t n = squares.deck.level_m.size();
  SquareSides sides;
  sides.faces.assign(n, {-1, -1, -1, -1});
  sides.exits.resize(n);
  for (std::size_t f = 0; f < faces.size(); ++f) {
    sides.faces[at(faces[f].from)][faces[f].is_along_x ? 1 : 3] = static_cast<int>(f);
    sides.faces[at(faces[f].to)][faces[f].is_along_x ? 0 : 2] = static_cast<int>(f);
  }
  for (std::size_t e = 0; e < squares.exits.size(); ++e) {
    sides.exits[at(squares.exits[e].square)].push_back(static_cast<int>(e));
  }
  return sides;
}

FlowStep move_water(const FlowSquares& squares, const SquareSides& sides, const StepFlows& flows, FlowState& state) {
  std::vector<int> order(squares.deck.level_m.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(),
                   [&](int a, int b) { return flows.level_m[at(a)] > flows.level_m[at(b)]; });
  std::vector<double> moved_m3(flows.faces_m3_per_s.size());
  for (std::size_t f = 0; f < moved_m3.size(); ++f) moved_m3[f] = flows.step_s * flows.faces_m3_per_s[f];
  FlowStep step;
  step.exit_m3.assign(squares.exits.size(), 0.0);
  double before_m3 = 0.0;
  double after_m3 = 0.0;
  double left_m3 = 0.0;
  for (const int square : order) {
    if (squares.deck.area_m2[at(square)] <= 0.0) continue;
    const std::array<int, 4>& faces = sides.faces[at(square)];
    // What flows towards this square counts with its sign; higher squares have settled what they give.
    std::array<double, 4> into{};
    double wanted_m3 = 0.0;
    for (std::size_t side = 0; side < 4; ++side) {
      const int face = faces[side];
      if (face < 0) continue;
      const bool is_from_here = side == 1 || side == 3;
      const double towards_m3 = is_from_here ? -moved_m3[at(face)] : moved_m3[at(face)];
      if (towards_m3 < 0.0) {
        wanted_m3 -= towards_m3;
      } else {
        into[side] = towards_m3;
      }
    }
    for (const int exit : sides.exits[at(square)]) wanted_m3 += flows.step_s * flows.exits[at(exit)].m3_per_s;
    const double arrived_m3 = flows.step_s * flows.arriving_m3_per_s[at(square)];
    const double there_m3 = state.volume_m3[at(square)] + arrived_m3 + ((into[0] + into[1]) + (into[2] + into[3]));
    before_m3 += state.volume_m3[at(square)];
    step.arrived_m3 += arrived_m3;
    double share = 1.0;
    if (wanted_m3 > there_m3) {
      share = there_m3 / wanted_m3;
      step.worst_limit = std::max(step.worst_limit, 1.0 - share);
    }
    for (std::size_t side = 0; side < 4 && share < 1.0; ++side) {
      const int face = faces[side];
      if (face >= 0 && (side == 1 || side == 3 ? moved_m3[at(face)] > 0.0 : moved_m3[at(face)] < 0.0)) {
        moved_m3[at(face)] *= share;
      }
    }
    for (const int exit : sides.exits[at(square)]) {
      step.exit_m3[at(exit)] = share * flows.step_s * flows.exits[at(exit)].m3_per_s;
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

}  // namespace houseleek::checks
