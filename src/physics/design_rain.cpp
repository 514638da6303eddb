// How hard it rains once in so many years: units, Gumbel's distribution of yearly maxima, its fits and their range.
#include "physics/design_rain.hpp"

#include <algorithm>
#include <vector>

#include "base/contract.hpp"
#include "numerics/elementary.hpp"
#include "numerics/root.hpp"
#include "physics/constants.hpp"

namespace houseleek::physics {
namespace {

constexpr double euler = 0.57721566490153286061;
constexpr double ln_2 = 0.69314718055994530942;
constexpr double normal_97_5_percent = 1.959963984540054;

double mean_of(std::span<const double> values) {
  double sum = 0.0;
  for (const double value : values) sum += value;
  return sum / static_cast<double>(values.size());
}

void expect_spread(std::span<const double> maxima) {
  expects(maxima.size() >= 2, "two maxima or more");
  const auto [least, most] = std::minmax_element(maxima.begin(), maxima.end());
  expects(*least < *most, "maxima that differ");
}

/// -ln(-ln(1 - 1/T)).
double reduced_variate(double return_years) {
  expects(return_years > 1.0, "a return period above one year");
  return -numerics::log(-numerics::log(1.0 - 1.0 / return_years));
}

}  // namespace

double roof_flow_l_per_s(double rain_mm_per_h, double area_m2, double runoff_frac) {
  expects(rain_mm_per_h >= 0.0 && area_m2 >= 0.0 && runoff_frac >= 0.0, "figures that are not negative");
  return rain_mm_per_h / 3600.0 * area_m2 * runoff_frac;
}

double gumbel_quantile(const Gumbel& gumbel, double return_years) {
  return gumbel.location + gumbel.scale * reduced_variate(return_years);
}

Gumbel gumbel_from_moments(double mean, double standard_deviation) {
  expects(standard_deviation > 0.0, "a standard deviation above zero");
  const double scale = numerics::sqrt(6.0) * standard_deviation / pi;
  return {mean - euler * scale, scale};
}

Gumbel fit_gumbel_by_moments(std::span<const double> maxima) {
  expect_spread(maxima);
  const double mean = mean_of(maxima);
  double squares = 0.0;
  for (const double x : maxima) squares += (x - mean) * (x - mean);
  return gumbel_from_moments(mean, numerics::sqrt(squares / static_cast<double>(maxima.size() - 1)));
}

Gumbel fit_gumbel_by_l_moments(std::span<const double> maxima) {
  expect_spread(maxima);
  std::vector<double> sorted(maxima.begin(), maxima.end());
  std::sort(sorted.begin(), sorted.end());
  const auto n = static_cast<double>(sorted.size());
  double weighted = 0.0;
  for (std::size_t j = 0; j < sorted.size(); ++j) weighted += static_cast<double>(j) * sorted[j];
  const double mean = mean_of(sorted);
  const double scale = (2.0 * weighted / (n * (n - 1.0)) - mean) / ln_2;
  return {mean - euler * scale, scale};
}

Gumbel fit_gumbel_by_likelihood(std::span<const double> maxima) {
  expect_spread(maxima);
  const double mean = mean_of(maxima);
  const double least = *std::min_element(maxima.begin(), maxima.end());
  // Differences from the least value keep the exponentials between 0 and 1.
  const auto sums = [&](double scale) {
    double plain = 0.0;
    double weighted = 0.0;
    for (const double x : maxima) {
      const double e = numerics::exp(-(x - least) / scale);
      plain += e;
      weighted += (x - least) * e;
    }
    return std::pair(plain, weighted);
  };
  const auto excess = [&](double scale) {
    const auto [plain, weighted] = sums(scale);
    return scale - (mean - least - weighted / plain);
  };
  // The scale lies below the mean's distance from the least value; towards zero the excess is negative.
  const double widest = mean - least;
  const std::optional<numerics::Root> scale =
      numerics::find_root(excess, {.low = 1e-6 * widest, .high = widest, .tolerance = 1e-13 * widest});
  expects(scale.has_value(), "a scale of greatest likelihood");
  const auto [plain, weighted] = sums(scale->x);
  return {least - scale->x * numerics::log(plain / static_cast<double>(maxima.size())), scale->x};
}

double gumbel_log_likelihood(const Gumbel& gumbel, std::span<const double> maxima) {
  expects(gumbel.scale > 0.0, "a scale above zero");
  double sum = 0.0;
  for (const double x : maxima) {
    const double y = (x - gumbel.location) / gumbel.scale;
    sum += -numerics::log(gumbel.scale) - y - numerics::exp(-y);
  }
  return sum;
}

QuantileRange gumbel_quantile_range(std::span<const double> maxima, double return_years) {
  const Gumbel likely = fit_gumbel_by_likelihood(maxima);
  const double x = gumbel_quantile(likely, return_years);
  const double y = 1.0 - euler + reduced_variate(return_years);
  const double error =
      likely.scale * numerics::sqrt((1.0 + 6.0 / (pi * pi) * y * y) / static_cast<double>(maxima.size()));
  const double by_moments = gumbel_quantile(fit_gumbel_by_moments(maxima), return_years);
  const double by_l_moments = gumbel_quantile(fit_gumbel_by_l_moments(maxima), return_years);
  return {.low = std::max(0.0, std::min({x - normal_97_5_percent * error, by_moments, by_l_moments})),
          .likely = x,
          .high = std::max({x + normal_97_5_percent * error, by_moments, by_l_moments})};
}

}  // namespace houseleek::physics
