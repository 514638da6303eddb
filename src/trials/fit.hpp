// A few properties of a model fitted to readings: values with intervals, and what the readings cannot tell.
#pragma once
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace houseleek::trials {

struct FitProperty {
  std::string name;    // "gap_air_change_per_h"
  double start = 0.0;  // the design's own value: what the fit has to beat
  double low = 0.0;    // bounds
  double high = 0.0;
};

/// Readings and a model of them. Readings of several places may stand together: what counts is the day of each.
struct FitQuestion {
  std::vector<FitProperty> properties;
  /// All readings as the model has them at these properties, in the order of `observed`. The same for the same input.
  std::function<std::vector<double>(std::span<const double> properties)> model;
  std::vector<double> observed;
  std::vector<int> day;             // of each reading
  std::vector<int> held_back_days;  // not fitted, to see whether the fit holds
  double confidence_frac = 0.95;
  bool is_profiled = true;      // two more fits a property, to see whether its interval bends
  double relative_step = 1e-4;  // of the slopes; far above what a simulation's own tolerance moves
};

/// The last quarter of the days, at least one where there are two.
[[nodiscard]] std::vector<int> last_quarter(const std::vector<int>& day);

enum class FitWarningKind { no_effect, at_bound, not_told_apart, no_information, bends, not_converged, too_few_days };

struct FitWarning {
  FitWarningKind kind = FitWarningKind::no_effect;
  std::vector<std::string> properties;
  std::string sentence;
};

struct FittedProperty {
  std::string name;
  double value = 0.0;
  std::optional<double> standard_error;  // nothing where it cannot be told
  std::optional<double> low;
  std::optional<double> high;
  bool is_at_bound = false;
};

struct FitAnswer {
  std::vector<FittedProperty> properties;
  std::vector<double> correlations;  // of the estimates, p x p row by row; empty where they cannot be told
  double condition = 0.0;            // of the slopes, columns scaled alike; infinite where one is missing
  // Root mean square of reading less model.
  double rms_start = 0.0;
  double rms_fitted = 0.0;
  std::optional<double> rms_held_back_start;
  std::optional<double> rms_held_back_fitted;
  std::size_t n_days = 0;  // fitted
  int n_model_runs = 0;
  std::vector<FitWarning> warnings;
  /// Every property inside its bounds with an interval, no warning but `bends`, held-back days no worse than before:
  /// then the values may be offered as measured on this roof.
  bool may_be_offered = false;
};

/// Least squares with intervals that know that neighbouring readings and days are alike.
/// Equation: error_k^2 = T / (T - p) sum over days' long-run variance of psi_k,d, psi_d = (J'J)^-1 J_d' r_d; interval
///           value -+ t_3 error
/// Symbols:  J slopes; r residuals; d day; T days fitted; p properties
/// Shape:    n readings, p properties.
/// Units:    those of the properties and readings.
/// Valid:    a day for each reading, at least as many fitted readings as properties, low < high around start, model
///           answers of the same length (else a contract violation). Under seven days no interval.
/// Errors:   coverage measured in tests/trials/fit_long_test.cpp.
/// Source:   [lazarus2018] for the long-run variance, [huber1967] for the form; docs/equations/trials.md.
/// Checked by: Fit.*, FitCoverage.*
[[nodiscard]] FitAnswer fit_properties(const FitQuestion& question);

}  // namespace houseleek::trials
