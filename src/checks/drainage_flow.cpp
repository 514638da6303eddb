// One implicit step of the diffusive wave over squares: Newton on an M-function.
#include "checks/drainage_flow.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"

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

int half_band_of(const plan::DeckShape& deck) { return std::max(1, std::min(deck.columns, deck.rows)); }

}  // namespace

FlowStepper::FlowStepper(const FlowSquares& squares)
    : squares_(squares),
      n_(squares.deck.level_m.size()),
      matrix_(squares.deck.columns * squares.deck.rows, half_band_of(squares.deck)) {
  expects(n_ == at(squares.deck.columns * squares.deck.rows) && squares.deck.area_m2.size() == n_ &&
              squares.cover.size() == n_ &&
              squares.deck.sill_x_m.size() == at((squares.deck.columns - 1) * squares.deck.rows) &&
              squares.deck.sill_y_m.size() == at(squares.deck.columns * (squares.deck.rows - 1)),
          "columns of one length");
  faces_ = open_faces(squares);
  sides_ = sides_of_squares(squares, faces_);
  for (const Face& face : faces_) {
    const int from = unknown(face.from);
    const int to = unknown(face.to);
    places_.push_back(
        {matrix_.place(from, from), matrix_.place(from, to), matrix_.place(to, from), matrix_.place(to, to)});
  }
  for (int square = 0; square < static_cast<int>(n_); ++square) {
    diagonal_.push_back(matrix_.place(unknown(square), unknown(square)));
  }
  flows_.resize(faces_.size());
  exit_flows_.resize(squares.exits.size());
  for (std::vector<double>* list : {&level_m_, &passing_m3_, &blurred_m3_, &residual_m3_, &change_}) list->resize(n_);
}

/// Unknowns are numbered along the shorter side, so that the band is narrow.
int FlowStepper::unknown(int square) const {
  const plan::DeckShape& deck = squares_.deck;
  if (deck.columns <= deck.rows) return square;
  return (square % deck.columns) * deck.rows + square / deck.columns;
}

/// Works out all flows and the residual F(h), in m3 a step, at these depths; returns the sum of its sizes.
double FlowStepper::evaluate(std::span<const double> depth_m) {
  for (std::size_t k = 0; k < n_; ++k) {
    const double arriving_m3 = step_s_ * arriving_m3_per_s_[k];
    level_m_[k] = squares_.deck.level_m[k] + depth_m[k];
    residual_m3_[k] = volume_m3(squares_.cover[k], squares_.deck.area_m2[k], depth_m[k]) - before_m3_[k] - arriving_m3;
    passing_m3_[k] = arriving_m3;
    blurred_m3_[k] = 0.0;
  }
  for (std::size_t f = 0; f < faces_.size(); ++f) {
    const std::size_t from = at(faces_[f].from);
    const std::size_t to = at(faces_[f].to);
    const FaceFlow flow = face_flow(faces_[f], cross_slope2_[f], level_m_[from], level_m_[to]);
    flows_[f] = flow;
    if (flow.m3_per_s == 0.0 && flow.by_from == 0.0 && flow.by_to == 0.0) continue;
    const double flow_m3 = step_s_ * flow.m3_per_s;
    residual_m3_[from] += flow_m3;
    residual_m3_[to] -= flow_m3;
    passing_m3_[from] += std::fabs(flow_m3);
    passing_m3_[to] += std::fabs(flow_m3);
    const double blur_m = rounding_frac * std::max(std::fabs(level_m_[from]), std::fabs(level_m_[to]));
    const double blurred_m3 = step_s_ * (flow.by_from - flow.by_to) * blur_m;
    blurred_m3_[from] += blurred_m3;
    blurred_m3_[to] += blurred_m3;
  }
  for (std::size_t e = 0; e < squares_.exits.size(); ++e) {
    const std::size_t square = at(squares_.exits[e].square);
    exit_flows_[e] = exit_flow(squares_.exits[e], level_m_[square]);
    residual_m3_[square] += step_s_ * exit_flows_[e].m3_per_s;
  }
  double sum = 0.0;
  for (std::size_t k = 0; k < n_; ++k) {
    if (squares_.deck.area_m2[k] > 0.0) sum += std::fabs(residual_m3_[k]);
  }
  return sum;
}

/// True if no square's residual is worth mentioning.
bool FlowStepper::is_still() const {
  for (std::size_t k = 0; k < n_; ++k) {
    const double area_m2 = squares_.deck.area_m2[k];
    const double allowed_m3 = still_m * area_m2 + still_frac * passing_m3_[k] + blurred_m3_[k];
    if (area_m2 > 0.0 && !(std::fabs(residual_m3_[k]) <= allowed_m3)) return false;
  }
  return true;
}

/// The change of depth that would bring the residual to zero if all were straight lines.
void FlowStepper::find_change(std::span<const double> depth_m) {
  matrix_.clear();
  const std::span<double> entries = matrix_.entries();
  for (std::size_t k = 0; k < n_; ++k) {
    const double area_m2 = squares_.deck.area_m2[k];
    entries[diagonal_[k]] = area_m2 > 0.0 ? volume_by_depth_m2(squares_.cover[k], area_m2, depth_m[k]) : 1.0;
  }
  for (std::size_t f = 0; f < faces_.size(); ++f) {
    const double by_from = step_s_ * flows_[f].by_from;
    const double by_to = step_s_ * flows_[f].by_to;
    entries[places_[f].from_from] += by_from;
    entries[places_[f].from_to] += by_to;
    entries[places_[f].to_from] -= by_from;
    entries[places_[f].to_to] -= by_to;
  }
  for (std::size_t e = 0; e < squares_.exits.size(); ++e) {
    entries[diagonal_[at(squares_.exits[e].square)]] += step_s_ * exit_flows_[e].by_depth;
  }
  matrix_.factor();
  std::vector<double> right(n_);
  for (int square = 0; square < static_cast<int>(n_); ++square) {
    right[at(unknown(square))] = squares_.deck.area_m2[at(square)] > 0.0 ? -residual_m3_[at(square)] : 0.0;
  }
  matrix_.solve(right);
  for (int square = 0; square < static_cast<int>(n_); ++square) change_[at(square)] = right[at(unknown(square))];
}

/// Finds depths that close the step; false if Newton does not get there.
bool FlowStepper::close_step(std::vector<double>& depth_m, int& n_iterations) {
  std::vector<double> trial_m(n_);
  double size = evaluate(depth_m);
  for (n_iterations = 0; n_iterations < most_iterations; ++n_iterations) {
    if (is_still()) return true;
    find_change(depth_m);
    double share = 1.0;
    for (int halving = 0;; ++halving) {
      for (std::size_t k = 0; k < n_; ++k) trial_m[k] = std::max(0.0, depth_m[k] + share * change_[k]);
      const double trial_size = evaluate(trial_m);
      if (trial_size < size || halving == most_halvings) {
        size = trial_size;
        break;
      }
      share *= 0.5;
    }
    depth_m.swap(trial_m);
  }
  return is_still();
}

std::optional<FlowStep> FlowStepper::advance(std::span<const double> arriving_m3_per_s, double step_s,
                                             FlowState& state) {
  expects(arriving_m3_per_s.size() == n_ && state.volume_m3.size() == n_ && state.depth_m.size() == n_,
          "columns of one length");
  expects(step_s > 0.0, "a step above zero");
  arriving_m3_per_s_ = arriving_m3_per_s;
  step_s_ = step_s;
  before_m3_ = state.volume_m3;
  for (std::size_t k = 0; k < n_; ++k) level_m_[k] = squares_.deck.level_m[k] + state.depth_m[k];
  cross_slope2_ = squares_of_cross_slope(squares_, faces_, level_m_);
  std::vector<double> depth_m = state.depth_m;
  int n_iterations = 0;
  if (!close_step(depth_m, n_iterations)) return std::nullopt;
  FlowStep step = move_water(squares_, sides_,
                             {.arriving_m3_per_s = arriving_m3_per_s,
                              .faces = flows_,
                              .exits = exit_flows_,
                              .level_m = level_m_,
                              .step_s = step_s},
                             state);
  step.n_newton_iterations = n_iterations;
  return step;
}

FlowState dry_state(const FlowSquares& squares) {
  const std::size_t n = squares.deck.level_m.size();
  return {.volume_m3 = std::vector<double>(n, 0.0), .depth_m = std::vector<double>(n, 0.0)};
}

std::optional<FlowStep> advance_flow(const FlowSquares& squares, std::span<const double> arriving_m3_per_s,
                                     double step_s, FlowState& state) {
  return FlowStepper(squares).advance(arriving_m3_per_s, step_s, state);
}

}  // namespace houseleek::checks
