// One implicit step of the diffusive wave over squares: Newton on an M-function.
#include "checks/drainage_flow.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"

namespace houseleek::checks {
namespace {

// A square is also at rest with what four rounded bits of the levels in a wide still pool make of it.
constexpr double rounding_frac = 16.0 * 2.220446049250313e-16;
constexpr int most_iterations = 40;
constexpr int most_halvings = 8;
// Where a square fills to a module's underside or a lip the residual has a kink, and the way to the answer leads over a
// larger residual. Where that does not end, the step begins again with changes halved from the first.
constexpr int usual_undamped_iterations = 12;
constexpr double allowed_growth = 10.0;
constexpr double good_share = 0.1;  // factors that leave more of the residual than this are not used again
// A face whose slope has turned or fallen below this share of what it was counts by its secant.
constexpr double steady_slope_share = 0.5;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

}  // namespace

FlowStepper::FlowStepper(const FlowSquares& squares, StillWater still)
    : squares_(squares),
      still_(still),
      n_(squares.deck.level_m.size()),
      matrix_(squares.deck.columns, squares.deck.rows) {
  expects(n_ == at(squares.deck.columns * squares.deck.rows) && squares.deck.area_m2.size() == n_ &&
              squares.cover.size() == n_ &&
              squares.deck.sill_x_m.size() == at((squares.deck.columns - 1) * squares.deck.rows) &&
              squares.deck.sill_y_m.size() == at(squares.deck.columns * (squares.deck.rows - 1)),
          "columns of one length");
  open_ = open_faces(squares);
  sides_ = sides_of_squares(squares, open_.faces);
  factored_slope_.resize(open_.faces.size(), 0.0);
  exit_flows_.resize(squares.exits.size());
  for (std::vector<double>* list : {&level_m_, &allowed_m3_, &residual_m3_, &change_, &trial_m_}) {
    list->resize(n_);
  }
}

/// Works out all flows and the residual F(h), in m3 a step, at these depths; returns the sum of its sizes.
double FlowStepper::evaluate(std::span<const double> depth_m) {
  for (std::size_t k = 0; k < n_; ++k) {
    const double arriving_m3 = step_s_ * arriving_m3_per_s_[k];
    level_m_[k] = squares_.deck.level_m[k] + depth_m[k];
    residual_m3_[k] = volume_m3(squares_.cover[k], squares_.deck.area_m2[k], depth_m[k]) - before_m3_[k] - arriving_m3;
    allowed_m3_[k] = still_.depth_m * squares_.deck.area_m2[k] + still_.frac * arriving_m3;
  }
  find_face_flows(open_, cross_slope2_, level_m_, flows_);
  for (std::size_t f = 0; f < open_.faces.size(); ++f) {
    const std::size_t from = at(open_.from[f]);
    const std::size_t to = at(open_.to[f]);
    const double flow_m3 = step_s_ * flows_.m3_per_s[f];
    const double allowed_m3 = still_.frac * std::fabs(flow_m3) + blurred_m3(f);
    residual_m3_[from] += flow_m3;
    residual_m3_[to] -= flow_m3;
    allowed_m3_[from] += allowed_m3;
    allowed_m3_[to] += allowed_m3;
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
    if (area_m2 > 0.0 && !(std::fabs(residual_m3_[k]) <= allowed_m3_[k])) return false;
  }
  return true;
}

/// What rounded levels leave open of the flow across a face.
double FlowStepper::blurred_m3(std::size_t face) const {
  const double blur_m =
      rounding_frac * std::max(std::fabs(level_m_[at(open_.from[face])]), std::fabs(level_m_[at(open_.to[face])]));
  return step_s_ * (flows_.by_from[face] - flows_.by_to[face]) * blur_m;
}

double FlowStepper::blur_m() const {
  std::vector<double> blurred(n_, 0.0);
  for (std::size_t f = 0; f < open_.faces.size(); ++f) {
    blurred[at(open_.from[f])] += blurred_m3(f);
    blurred[at(open_.to[f])] += blurred_m3(f);
  }
  double most_m = 0.0;
  for (std::size_t k = 0; k < n_; ++k) {
    if (squares_.deck.area_m2[k] > 0.0) most_m = std::max(most_m, blurred[k] / squares_.deck.area_m2[k]);
  }
  return most_m;
}

/// Factors the Jacobian at these depths, whose flows have just been worked out.
void FlowStepper::factor(std::span<const double> depth_m) {
  // Every face writes its two places anew; the others stay at none.
  const std::span<double> own = matrix_.own();
  for (std::size_t k = 0; k < n_; ++k) {
    const double area_m2 = squares_.deck.area_m2[k];
    own[k] = area_m2 > 0.0 ? volume_by_depth_m2(squares_.cover[k], area_m2, depth_m[k]) : 1.0;
  }
  for (std::size_t f = 0; f < open_.faces.size(); ++f) {
    const double slope = flows_.slope[f];
    const double slope_before = factored_slope_[f];
    factored_slope_[f] = slope;
    const bool is_turning =
        slope * slope_before <= 0.0 || std::fabs(slope) < steady_slope_share * std::fabs(slope_before);
    const double more = is_turning ? flows_.secant_more[f] : 0.0;
    const double by_from = step_s_ * (flows_.by_from[f] + more);
    const double by_to = step_s_ * (flows_.by_to[f] - more);
    const Face& face = open_.faces[f];
    own[at(face.from)] += by_from;
    own[at(face.to)] -= by_to;
    matrix_.beside(face.is_along_x ? numerics::Side::right : numerics::Side::above)[at(face.from)] = by_to;
    matrix_.beside(face.is_along_x ? numerics::Side::left : numerics::Side::below)[at(face.to)] = -by_from;
  }
  for (std::size_t e = 0; e < squares_.exits.size(); ++e) {
    own[at(squares_.exits[e].square)] += step_s_ * exit_flows_[e].by_depth;
  }
  matrix_.factor();
  factored_step_s_ = step_s_;
}

/// The change of depth that would bring the residual to zero if all were the straight lines last factored.
void FlowStepper::find_change() {
  for (std::size_t k = 0; k < n_; ++k) change_[k] = squares_.deck.area_m2[k] > 0.0 ? -residual_m3_[k] : 0.0;
  matrix_.solve(change_);
}

/// Finds depths that close the step; false if Newton does not get there. Old factors serve as long as each use of them
/// leaves a small share of the residual; where they do not, the Jacobian is worked out anew and the step is Newton's.
bool FlowStepper::close_step(std::vector<double>& depth_m, int undamped_iterations, int& n_iterations) {
  int n_newton = 0;
  bool has_good_factors = factored_step_s_ == step_s_;
  double size = evaluate(depth_m);
  while (!is_still()) {
    if (n_newton >= most_iterations) return false;
    const bool is_newton = !has_good_factors;
    if (is_newton) {
      factor(depth_m);
      ++n_newton;
    }
    ++n_iterations;
    find_change();
    double share = 1.0;
    double trial_size = 0.0;
    for (int halving = 0;; ++halving) {
      for (std::size_t k = 0; k < n_; ++k) trial_m_[k] = std::max(0.0, depth_m[k] + share * change_[k]);
      trial_size = evaluate(trial_m_);
      if (trial_size < (n_newton <= undamped_iterations ? allowed_growth : 1.0) * size || halving == most_halvings ||
          !is_newton)
        break;
      share *= 0.5;
    }
    has_good_factors = share == 1.0 && trial_size <= good_share * size;
    if (!is_newton && !(trial_size < size)) {
      evaluate(depth_m);
      continue;
    }
    size = trial_size;
    depth_m.swap(trial_m_);
  }
  return true;
}

std::optional<FlowStep> FlowStepper::advance(std::span<const double> arriving_m3_per_s, double step_s, FlowState& state,
                                             std::span<const double> near_m) {
  expects(arriving_m3_per_s.size() == n_ && state.volume_m3.size() == n_ && state.depth_m.size() == n_,
          "columns of one length");
  expects(step_s > 0.0, "a step above zero");
  arriving_m3_per_s_ = arriving_m3_per_s;
  step_s_ = step_s;
  before_m3_ = state.volume_m3;
  for (std::size_t k = 0; k < n_; ++k) level_m_[k] = squares_.deck.level_m[k] + state.depth_m[k];
  cross_slope2_ = squares_of_cross_slope(squares_, open_.faces, level_m_);
  expects(near_m.empty() || near_m.size() == n_, "a depth for each square");
  std::vector<double> depth_m = near_m.empty() ? state.depth_m : std::vector<double>(near_m.begin(), near_m.end());
  int n_iterations = 0;
  if (!close_step(depth_m, usual_undamped_iterations, n_iterations)) {
    depth_m = state.depth_m;
    factored_step_s_ = 0.0;
    if (!close_step(depth_m, 0, n_iterations)) return std::nullopt;
  }
  FlowStep step = move_water(squares_, sides_,
                             {.arriving_m3_per_s = arriving_m3_per_s,
                              .faces_m3_per_s = flows_.m3_per_s,
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
  return FlowStepper(squares, {}).advance(arriving_m3_per_s, step_s, state);
}

}  // namespace houseleek::checks
