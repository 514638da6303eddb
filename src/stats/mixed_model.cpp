// Linear models with random groups: REML variances, contrasts with Kenward and Roger's error.
#include "stats/mixed_model.hpp"

#include <algorithm>
#include <cmath>
#include <eigen3/Eigen/Dense>
#include <numbers>

#include "base/contract.hpp"

namespace houseleek::stats {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

struct Problem {
  VectorXd y;
  MatrixXd x;
  std::vector<MatrixXd> g;  // dV / d variance; the last is the identity
};

Problem make_problem(const MixedData& data) {
  const auto n = static_cast<Eigen::Index>(data.values.size());
  const auto p = static_cast<Eigen::Index>(data.fixed.size());
  expects(p > 0 && n > p, "more values than fixed columns, and at least one column");
  Problem problem;
  problem.y = Eigen::Map<const VectorXd>(data.values.data(), n);
  expects(problem.y.allFinite(), "finite values");
  problem.x.resize(n, p);
  for (Eigen::Index j = 0; j < p; ++j) {
    const std::vector<double>& column = data.fixed[static_cast<std::size_t>(j)];
    expects(column.size() == data.values.size(), "fixed columns as long as the values");
    problem.x.col(j) = Eigen::Map<const VectorXd>(column.data(), n);
  }
  for (const std::vector<int>& labels : data.random_groups) {
    expects(labels.size() == data.values.size(), "labels as many as the values");
    MatrixXd same = MatrixXd::Zero(n, n);
    for (Eigen::Index i = 0; i < n; ++i) {
      for (Eigen::Index j = 0; j < n; ++j) {
        if (labels[static_cast<std::size_t>(i)] == labels[static_cast<std::size_t>(j)]) same(i, j) = 1.0;
      }
    }
    problem.g.push_back(std::move(same));
  }
  problem.g.push_back(MatrixXd::Identity(n, n));
  return problem;
}

/// All that one set of variances implies.
struct State {
  double log_likelihood = 0.0;
  MatrixXd v_inverse;
  MatrixXd phi;
  VectorXd coefficients;
  MatrixXd projection;  // P = V^-1 - V^-1 X Phi X' V^-1
};

State evaluate(const Problem& problem, const VectorXd& variances) {
  const Eigen::Index n = problem.y.size();
  MatrixXd v = MatrixXd::Zero(n, n);
  for (Eigen::Index k = 0; k < variances.size(); ++k) v += variances[k] * problem.g[static_cast<std::size_t>(k)];
  const Eigen::LLT<MatrixXd> v_factor(v);
  expects(v_factor.info() == Eigen::Success, "a covariance that can be factored");
  State state;
  state.v_inverse = v_factor.solve(MatrixXd::Identity(n, n));
  const MatrixXd v_inverse_x = state.v_inverse * problem.x;
  const MatrixXd information = problem.x.transpose() * v_inverse_x;
  const Eigen::LLT<MatrixXd> x_factor(information);
  expects(x_factor.info() == Eigen::Success, "fixed columns that are linearly independent");
  state.phi = x_factor.solve(MatrixXd::Identity(information.rows(), information.cols()));
  state.coefficients = state.phi * (v_inverse_x.transpose() * problem.y);
  state.projection = state.v_inverse - v_inverse_x * state.phi * v_inverse_x.transpose();
  const double log_det_v = 2.0 * v_factor.matrixLLT().diagonal().array().log().sum();
  const double log_det_x = 2.0 * x_factor.matrixLLT().diagonal().array().log().sum();
  const auto freedom = static_cast<double>(n - problem.x.cols());
  const double quadratic = problem.y.dot(state.projection * problem.y);
  state.log_likelihood = -0.5 * (freedom * std::log(2.0 * std::numbers::pi) + log_det_v + log_det_x + quadratic);
  return state;
}

/// Slope of the restricted likelihood by each variance, and the expected information.
struct Score {
  VectorXd slope;
  MatrixXd information;
};

Score score_of(const Problem& problem, const State& state) {
  const auto k = static_cast<Eigen::Index>(problem.g.size());
  Score score{VectorXd(k), MatrixXd(k, k)};
  std::vector<MatrixXd> pg;
  for (const MatrixXd& g : problem.g) pg.push_back(state.projection * g);
  const VectorXd py = state.projection * problem.y;
  for (Eigen::Index i = 0; i < k; ++i) {
    const MatrixXd& pg_i = pg[static_cast<std::size_t>(i)];
    score.slope[i] = -0.5 * (pg_i.trace() - py.dot(problem.g[static_cast<std::size_t>(i)] * py));
    for (Eigen::Index j = 0; j <= i; ++j) {
      const double trace = pg_i.cwiseProduct(pg[static_cast<std::size_t>(j)].transpose()).sum();
      score.information(i, j) = score.information(j, i) = 0.5 * trace;
    }
  }
  return score;
}

struct Scored {
  VectorXd variances;
  State state;
  int iterations = 0;
};

/// Fisher scoring; a variance that would turn negative stays at 0 until its slope points upwards again.
Scored maximise(const Problem& problem) {
  const auto k = static_cast<Eigen::Index>(problem.g.size());
  const auto freedom = static_cast<double>(problem.y.size() - problem.x.cols());
  const VectorXd rest = problem.y - problem.x * problem.x.colPivHouseholderQr().solve(problem.y);
  const double total = rest.squaredNorm() / freedom;
  expects(total > 1e-20 * (problem.y.squaredNorm() + 1e-300), "values that the fixed part does not fit exactly");
  Scored scored{VectorXd::Constant(k, total / static_cast<double>(k)), {}, 0};
  scored.state = evaluate(problem, scored.variances);
  for (scored.iterations = 1; scored.iterations <= 200; ++scored.iterations) {
    const Score score = score_of(problem, scored.state);
    std::vector<Eigen::Index> free;
    for (Eigen::Index i = 0; i < k; ++i) {
      if (scored.variances[i] > 0.0 || score.slope[i] > 0.0) free.push_back(i);
    }
    const auto n_free = static_cast<Eigen::Index>(free.size());
    MatrixXd information(n_free, n_free);
    VectorXd slope(n_free);
    for (Eigen::Index i = 0; i < n_free; ++i) {
      slope[i] = score.slope[free[static_cast<std::size_t>(i)]];
      for (Eigen::Index j = 0; j < n_free; ++j) {
        information(i, j) = score.information(free[static_cast<std::size_t>(i)], free[static_cast<std::size_t>(j)]);
      }
    }
    const VectorXd step = information.ldlt().solve(slope);
    // At the top the step is a small share of the scale, and the likelihood can no longer tell.
    if (step.cwiseAbs().maxCoeff() <= 1e-10 * total) return scored;
    bool has_risen = false;
    for (double share = 1.0; share > 1e-6 && !has_risen; share *= 0.5) {
      VectorXd trial = scored.variances;
      for (Eigen::Index i = 0; i < n_free; ++i) {
        const Eigen::Index which = free[static_cast<std::size_t>(i)];
        // The rest must keep V invertible; a grouping may end at exactly 0.
        const double least = which == k - 1 ? 0.1 * scored.variances[which] : 0.0;
        trial[which] = std::max(least, scored.variances[which] + share * step[i]);
      }
      State state = evaluate(problem, trial);
      if (state.log_likelihood >= scored.state.log_likelihood) {
        has_risen = true;
        scored.variances = trial;
        scored.state = std::move(state);
      }
    }
    if (!has_risen) {
      // Rounding hides the last rise: the slope left over must be small in units of the information.
      expects(slope.dot(step) <= 1e-6, "a likelihood that rises along its own slope");
      return scored;
    }
  }
  expects(false, "REML variances that converge in 200 steps");
  return scored;
}

std::vector<Estimate> judge_contrasts(const Problem& problem, const Scored& scored, const MixedData& data,
                                      double confidence_frac) {
  const std::size_t k = problem.g.size();
  const MatrixXd& phi = scored.state.phi;
  const MatrixXd v_inverse_x = scored.state.v_inverse * problem.x;
  const MatrixXd w = score_of(problem, scored.state).information.inverse();
  std::vector<MatrixXd> g_v_inverse_x;
  std::vector<MatrixXd> p;
  for (const MatrixXd& g : problem.g) {
    g_v_inverse_x.push_back(g * v_inverse_x);
    p.emplace_back(-v_inverse_x.transpose() * g_v_inverse_x.back());
  }
  MatrixXd middle = MatrixXd::Zero(phi.rows(), phi.cols());
  for (std::size_t i = 0; i < k; ++i) {
    for (std::size_t j = 0; j < k; ++j) {
      const MatrixXd q = g_v_inverse_x[i].transpose() * scored.state.v_inverse * g_v_inverse_x[j];
      middle += w(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) * (q - p[i] * phi * p[j]);
    }
  }
  const MatrixXd adjusted = phi + 2.0 * phi * middle * phi;
  std::vector<Estimate> estimates;
  for (const std::vector<double>& weights : data.contrasts) {
    expects(weights.size() == data.fixed.size(), "a contrast with a weight for each coefficient");
    const VectorXd l = Eigen::Map<const VectorXd>(weights.data(), static_cast<Eigen::Index>(weights.size()));
    const VectorXd phi_l = phi * l;
    const double plain = l.dot(phi_l);
    VectorXd slope(static_cast<Eigen::Index>(k));
    for (std::size_t i = 0; i < k; ++i) slope[static_cast<Eigen::Index>(i)] = phi_l.dot(p[i] * phi_l);
    const double degrees_of_freedom = 2.0 * plain * plain / slope.dot(w * slope);
    estimates.push_back(make_estimate(l.dot(scored.state.coefficients), std::sqrt(l.dot(adjusted * l)),
                                      degrees_of_freedom, confidence_frac));
  }
  return estimates;
}

}  // namespace

MixedFit fit_mixed_model(const MixedData& data, double confidence_frac) {
  const Problem problem = make_problem(data);
  const Scored scored = maximise(problem);
  MixedFit fit;
  fit.coefficients.assign(scored.state.coefficients.begin(), scored.state.coefficients.end());
  fit.variances.assign(scored.variances.begin(), scored.variances.end());
  fit.restricted_log_likelihood = scored.state.log_likelihood;
  fit.iterations = scored.iterations;
  fit.contrasts = judge_contrasts(problem, scored, data, confidence_frac);
  return fit;
}

}  // namespace houseleek::stats
