// Least squares for a few parameters of any function, within bounds: Levenberg and Marquardt's steps.
#pragma once
#include <cstddef>
#include <functional>
#include <span>
#include <vector>

namespace houseleek::numerics {

struct LeastSquaresProblem {
  /// Fills the residuals (model less observation, or any other difference) at these parameters.
  std::function<void(std::span<const double> parameters, std::span<double> residuals)> residuals;
  std::size_t n_residuals = 0;
  std::vector<double> start;
  std::vector<double> low;      // empty: no lower bounds
  std::vector<double> high;     // empty: no upper bounds
  double relative_step = 1e-6;  // of the central differences that make the slopes
  int most_iterations = 500;
};

struct LeastSquaresFit {
  std::vector<double> parameters;
  std::vector<double> residuals;  // at the parameters
  std::vector<double> slopes;     // d residual i / d parameter j at i * n_parameters + j
  std::vector<bool> is_at_bound;
  double sum_of_squares = 0.0;
  int iterations = 0;
  int calls = 0;              // of the function
  bool is_converged = false;  // false: the steps ran out; the parameters are the best seen
};

/// The parameters of least sum of squares near the start, within the bounds.
/// Equation: (J'J + mu D^2) d = -J'r; x + d cut at the bounds; mu by the gain, reduction seen / reduction foretold
/// Symbols:  J slopes by central differences; D largest column norms seen; parameters at a bound whose slope points
///           outwards are left out of a step
/// Shape:    n residuals, p parameters; the function must give the same residuals for the same parameters.
/// Units:    those of the caller; scaled by D, so parameters may differ by many powers of ten.
/// Valid:    n >= p >= 1, low <= start <= high, finite residuals at the start (else a contract violation); a step to
///           parameters whose residuals are not finite is refused and shortened.
/// Errors:   a local least sum; parameters to about 1e-7 of their standard error. Ends where a step is below 1e-9 of
///           each parameter or the reduction foretold is below 1e-14 of the sum.
/// Cost:     (2 p + 1) calls of the function an iteration.
/// Source:   [more1978] (scaling); [nielsen1999] (damping).
/// Checked by: LSQ-01, LSQ-02, LSQ-03, LSQ-04, LSQ-05, LSQ-06
[[nodiscard]] LeastSquaresFit fit_least_squares(const LeastSquaresProblem& problem);

}  // namespace houseleek::numerics
