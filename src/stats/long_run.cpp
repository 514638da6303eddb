// The mean of days that resemble their neighbours, with an interval that knows it.
#include "stats/long_run.hpp"

#include <cmath>
#include <numbers>

#include "base/contract.hpp"
#include "stats/student.hpp"

namespace houseleek::stats {

namespace {

double mean_of(std::span<const double> values) {
  double sum = 0.0;
  for (const double value : values) sum += value;
  return sum / static_cast<double>(values.size());
}

}  // namespace

Estimate make_estimate(double value, double standard_error, double degrees_of_freedom, double confidence_frac) {
  expects(standard_error > 0.0 && std::isfinite(standard_error) && std::isfinite(value),
          "a value with an error above 0");
  expects(confidence_frac > 0.0 && confidence_frac < 1.0, "a confidence between 0 and 1");
  const double reach = student_quantile(0.5 + 0.5 * confidence_frac, degrees_of_freedom) * standard_error;
  return {.value = value,
          .low = value - reach,
          .high = value + reach,
          .standard_error = standard_error,
          .degrees_of_freedom = degrees_of_freedom,
          .two_sided_share = student_two_sided_share(value / standard_error, degrees_of_freedom)};
}

double long_run_variance(std::span<const double> values) {
  expects(values.size() >= 2 * n_long_run_cosines + 1, "at least seven values");
  const auto n = static_cast<double>(values.size());
  // The cosines sum to zero; taking the mean out first only spares rounding.
  const double mean = mean_of(values);
  double sum_of_squares = 0.0;
  for (int j = 1; j <= n_long_run_cosines; ++j) {
    double projection = 0.0;
    for (std::size_t t = 0; t < values.size(); ++t) {
      projection += (values[t] - mean) * std::cos(std::numbers::pi * j * (static_cast<double>(t) + 0.5) / n);
    }
    sum_of_squares += 2.0 / n * projection * projection;
  }
  return sum_of_squares / n_long_run_cosines;
}

Estimate long_run_mean(std::span<const double> values, double confidence_frac) {
  const double standard_error = std::sqrt(long_run_variance(values) / static_cast<double>(values.size()));
  return make_estimate(mean_of(values), standard_error, n_long_run_cosines, confidence_frac);
}

double lag_one_correlation(std::span<const double> values) {
  expects(values.size() >= 2, "at least two values");
  const double mean = mean_of(values);
  double squares = 0.0;
  double products = 0.0;
  for (std::size_t t = 0; t < values.size(); ++t) {
    squares += (values[t] - mean) * (values[t] - mean);
    if (t > 0) products += (values[t] - mean) * (values[t - 1] - mean);
  }
  return squares > 0.0 ? products / squares : 0.0;
}

}  // namespace houseleek::stats
