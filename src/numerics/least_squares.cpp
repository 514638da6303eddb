// Least squares for a few parameters of any function, within bounds: Levenberg and Marquardt's steps.
#include "numerics/least_squares.hpp"

#include <algorithm>
#include <cmath>
#include <eigen3/Eigen/Dense>
#include <limits>

#include "base/contract.hpp"

namespace houseleek::numerics {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

std::span<double> span_of(VectorXd& vector) { return {vector.data(), static_cast<std::size_t>(vector.size())}; }
std::span<const double> span_of(const VectorXd& vector) {
  return {vector.data(), static_cast<std::size_t>(vector.size())};
}

class Search {
 public:
  explicit Search(const LeastSquaresProblem& problem) : problem_(problem) {
    const auto p = static_cast<Index>(problem.start.size());
    expects(p >= 1 && problem.n_residuals >= problem.start.size(), "at least as many residuals as parameters");
    constexpr double far = std::numeric_limits<double>::infinity();
    low_ = VectorXd::Constant(p, -far);
    high_ = VectorXd::Constant(p, far);
    if (!problem.low.empty()) low_ = Eigen::Map<const VectorXd>(problem.low.data(), p);
    if (!problem.high.empty()) high_ = Eigen::Map<const VectorXd>(problem.high.data(), p);
    x_ = Eigen::Map<const VectorXd>(problem.start.data(), p);
    expects((x_.array() >= low_.array()).all() && (x_.array() <= high_.array()).all(), "a start within the bounds");
    size_ = VectorXd(p);
    for (Index j = 0; j < p; ++j) {
      const double width = high_[j] - low_[j];
      const double least = std::isfinite(width) ? 1e-3 * width : 0.0;
      size_[j] = std::max(std::fabs(x_[j]), least);
      if (size_[j] == 0.0) size_[j] = 1.0;
    }
    residuals_ = VectorXd(static_cast<Index>(problem.n_residuals));
    call(x_, residuals_);
    expects(residuals_.allFinite(), "finite residuals at the start");
    sum_ = residuals_.squaredNorm();
  }

  LeastSquaresFit run() {
    LeastSquaresFit fit;
    take_slopes();
    double damping = 1e-3;
    double growth = 2.0;
    for (fit.iterations = 0; fit.iterations < problem_.most_iterations && !fit.is_converged; ++fit.iterations) {
      const std::vector<Index> free = free_parameters();
      if (free.empty()) {
        fit.is_converged = true;
        break;
      }
      VectorXd trial = x_ + step(free, damping);
      trial = trial.cwiseMax(low_).cwiseMin(high_);
      const VectorXd moved = trial - x_;
      const double foretold = sum_ - (residuals_ + slopes_ * moved).squaredNorm();
      const bool is_tiny = (moved.cwiseAbs().array() <= 1e-9 * x_.cwiseAbs().array().max(1e-6 * size_.array())).all();
      if (is_tiny || std::fabs(foretold) <= 1e-14 * sum_) {
        fit.is_converged = true;
        break;
      }
      VectorXd residuals(residuals_.size());
      call(trial, residuals);
      const double sum = residuals.allFinite() ? residuals.squaredNorm() : std::numeric_limits<double>::infinity();
      if (sum < sum_) {
        const double gain = foretold > 0.0 ? (sum_ - sum) / foretold : 0.0;
        const double bent = 2.0 * gain - 1.0;
        damping *= std::max(1.0 / 3.0, 1.0 - bent * bent * bent);
        growth = 2.0;
        x_ = trial;
        residuals_ = residuals;
        sum_ = sum;
        take_slopes();
      } else {
        damping *= growth;
        growth *= 2.0;
        // No downhill step of any length is left: rounding is all that moves.
        if (damping > 1e30) break;
      }
    }
    fit.parameters.assign(x_.begin(), x_.end());
    fit.residuals.assign(residuals_.begin(), residuals_.end());
    fit.slopes.resize(static_cast<std::size_t>(slopes_.size()));
    for (Index i = 0; i < slopes_.rows(); ++i) {
      for (Index j = 0; j < slopes_.cols(); ++j) {
        fit.slopes[static_cast<std::size_t>(i * slopes_.cols() + j)] = slopes_(i, j);
      }
    }
    for (Index j = 0; j < x_.size(); ++j) fit.is_at_bound.push_back(x_[j] <= low_[j] || x_[j] >= high_[j]);
    fit.sum_of_squares = sum_;
    fit.calls = calls_;
    return fit;
  }

 private:
  void call(const VectorXd& x, VectorXd& residuals) {
    problem_.residuals(span_of(x), span_of(residuals));
    ++calls_;
  }

  void take_slopes() {
    slopes_.resize(residuals_.size(), x_.size());
    VectorXd above(residuals_.size());
    VectorXd below(residuals_.size());
    for (Index j = 0; j < x_.size(); ++j) {
      const double width = problem_.relative_step * std::max(std::fabs(x_[j]), 1e-3 * size_[j]);
      VectorXd up = x_;
      VectorXd down = x_;
      up[j] = std::min(x_[j] + width, high_[j]);
      down[j] = std::max(x_[j] - width, low_[j]);
      if (up[j] > down[j]) {
        call(up, above);
        call(down, below);
        slopes_.col(j) = (above - below) / (up[j] - down[j]);
      } else {
        slopes_.col(j).setZero();  // both bounds are one: the parameter is held
      }
    }
    expects(slopes_.allFinite(), "finite residuals beside every accepted point");
    const VectorXd norms = slopes_.colwise().norm().transpose();
    scale_ = scale_.size() == 0 ? norms : VectorXd(scale_.cwiseMax(norms));
  }

  [[nodiscard]] std::vector<Index> free_parameters() const {
    const VectorXd uphill = slopes_.transpose() * residuals_;
    std::vector<Index> free;
    for (Index j = 0; j < x_.size(); ++j) {
      const bool is_held = (x_[j] <= low_[j] && uphill[j] >= 0.0) || (x_[j] >= high_[j] && uphill[j] <= 0.0);
      if (!is_held && scale_[j] > 0.0) free.push_back(j);
    }
    return free;
  }

  [[nodiscard]] VectorXd step(const std::vector<Index>& free, double damping) const {
    const auto p = static_cast<Index>(free.size());
    const Index n = residuals_.size();
    MatrixXd matrix = MatrixXd::Zero(n + p, p);
    VectorXd right = VectorXd::Zero(n + p);
    right.head(n) = -residuals_;
    for (Index k = 0; k < p; ++k) {
      const Index j = free[static_cast<std::size_t>(k)];
      matrix.col(k).head(n) = slopes_.col(j) / scale_[j];
      matrix(n + k, k) = std::sqrt(damping);
    }
    const VectorXd scaled = matrix.householderQr().solve(right);
    VectorXd result = VectorXd::Zero(x_.size());
    for (Index k = 0; k < p; ++k) {
      const Index j = free[static_cast<std::size_t>(k)];
      result[j] = scaled[k] / scale_[j];
    }
    return result;
  }

  const LeastSquaresProblem& problem_;
  VectorXd x_;
  VectorXd low_;
  VectorXd high_;
  VectorXd size_;  // what a parameter is small against
  VectorXd scale_;
  VectorXd residuals_;
  MatrixXd slopes_;
  double sum_ = 0.0;
  int calls_ = 0;
};

}  // namespace

LeastSquaresFit fit_least_squares(const LeastSquaresProblem& problem) {
  expects(static_cast<bool>(problem.residuals), "a function");
  expects(problem.low.empty() || problem.low.size() == problem.start.size(),
          "a lower bound for each parameter or none");
  expects(problem.high.empty() || problem.high.size() == problem.start.size(),
          "an upper bound for each parameter or none");
  return Search(problem).run();
}

}  // namespace houseleek::numerics
