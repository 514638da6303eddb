// The coldest night that plants must be ready for: not of the mean winter but of one in so many years.
#include "planting/winter.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

#include "base/contract.hpp"
#include "physics/design_rain.hpp"

namespace houseleek::planting {
namespace {

// The fits are of largest values above zero.
constexpr double turned_at_c = 100.0;
constexpr double assumed_sd_k = 2.5;
constexpr double least_sd_k = 1.5;
constexpr double most_sd_k = 4.0;
constexpr double two_sided_95 = 1.96;

}  // namespace

ColdestNight coldest_night(std::span<const double> yearly_lowest_c, double return_years) {
  expects(!yearly_lowest_c.empty(), "a year at least");
  std::vector<double> turned;
  for (const double lowest_c : yearly_lowest_c) {
    expects(lowest_c >= -90.0 && lowest_c <= 60.0, "a temperature of the air");
    turned.push_back(turned_at_c - lowest_c);
  }
  ColdestNight night;
  night.n_years = static_cast<int>(turned.size());
  const double n = static_cast<double>(turned.size());
  const double mean = std::accumulate(turned.begin(), turned.end(), 0.0) / n;
  night.mean_c = turned_at_c - mean;
  const auto [least, most] = std::minmax_element(turned.begin(), turned.end());
  if (night.n_years >= least_fitted_years && *least < *most) {
    const physics::QuantileRange range = physics::gumbel_quantile_range(turned, return_years);
    night.low_c = turned_at_c - range.high;
    night.likely_c = turned_at_c - range.likely;
    night.high_c = turned_at_c - range.low;
    return night;
  }
  night.is_spread_assumed = true;
  const auto level_c = [&](double mean_of_turned, double sd_k) {
    return turned_at_c - physics::gumbel_quantile(physics::gumbel_from_moments(mean_of_turned, sd_k), return_years);
  };
  const double of_mean = two_sided_95 / std::sqrt(n);
  night.likely_c = level_c(mean, assumed_sd_k);
  night.low_c = level_c(mean + of_mean * most_sd_k, most_sd_k);
  night.high_c = level_c(mean - of_mean * least_sd_k, least_sd_k);
  return night;
}

}  // namespace houseleek::planting
