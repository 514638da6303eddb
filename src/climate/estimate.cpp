// Columns that neither normals nor a file may tell, worked out from those they do.
#include "climate/estimate.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/contract.hpp"
#include "climate/calendar.hpp"
#include "climate/generate.hpp"
#include "climate/ring.hpp"
#include "climate/summary.hpp"
#include "numerics/elementary.hpp"
#include "physics/constants.hpp"
#include "physics/radiation.hpp"
#include "physics/sky.hpp"

namespace houseleek::climate {
namespace {

constexpr double bright_sine = 0.17;             // 10 degrees; lower, a single hour says little about its clouds
constexpr double least_half_day_wh_per_m2 = 20;  // of a clear sky, for a half day to say anything
constexpr double cloud_of_a_sunless_year_frac = 0.5;
constexpr double hour_turn_rad = 15.0 * physics::radians_per_degree;

/// Global radiation of an hour under a clear sky.
double clear_w_per_m2(const WeatherYear& year, std::size_t hour) {
  constexpr double at_sea_level_frac = 0.75;
  const double sine = year.sun_mean_sine[hour];
  if (sine <= 0.0) return 0.0;
  const double height = physics::clear_sky_frac(year.place.elevation_m) / at_sea_level_frac;
  const double distance = year.sun_normal_w_per_m2[hour] / physics::solar_constant_w_per_m2;
  return height * distance * 1098.0 * sine * numerics::exp(-0.059 / sine);
}

bool is_afternoon(const WeatherYear& year, std::size_t hour) {
  const double middle_rad = year.sun_hour_angle_rad[hour] + 0.5 * hour_turn_rad;
  return middle_rad >= 0.0 && middle_rad < physics::pi;
}

/// Cloud share of each hour: by its own radiation while the sun is high, by that of the half day while it is low, then
/// from dusk to dawn.
std::vector<double> cloud_of_hours(const WeatherYear& year) {
  const std::size_t n_hours = year.global_w_per_m2.size();
  std::vector<double> cloud_frac(n_hours, cloud_of_a_sunless_year_frac);
  std::vector<bool> is_known(n_hours, false);
  bool is_any_known = false;
  for (std::size_t first = 0; first < n_hours;) {
    // Half days part where the sun passes its highest or lowest point, which the clock need not know.
    std::size_t end = first + 1;
    while (end < n_hours && is_afternoon(year, end) == is_afternoon(year, first)) ++end;
    double clear_sum = 0.0;
    double global_sum = 0.0;
    for (std::size_t hour = first; hour < end; ++hour) {
      clear_sum += clear_w_per_m2(year, hour);
      global_sum += year.global_w_per_m2[hour];
    }
    if (clear_sum >= least_half_day_wh_per_m2) {
      is_any_known = true;
      const double half_day_frac = physics::sky_cloud_frac(global_sum / clear_sum);
      for (std::size_t hour = first; hour < end; ++hour) {
        if (year.sun_mean_sine[hour] < least_shaping_sine) continue;
        const bool is_bright = year.sun_mean_sine[hour] >= bright_sine;
        cloud_frac[hour] = is_bright ? physics::sky_cloud_frac(year.global_w_per_m2[hour] / clear_w_per_m2(year, hour))
                                     : half_day_frac;
        is_known[hour] = true;
      }
    }
    first = end;
  }
  if (!is_any_known) return cloud_frac;
  return filled_on_ring(std::move(cloud_frac), is_known);
}

}  // namespace

double usual_wind_m_per_s() {
  constexpr double at_2_m_m_per_s = 2.0;
  return at_2_m_m_per_s * numerics::log(67.8 * 10.0 - 5.42) / 4.87;
}

std::vector<double> estimate_global_w_per_m2(const WeatherYear& year) {
  const std::size_t n_hours = year.sun_mean_sine.size();
  expects(year.air_temperature_c.size() == n_hours + 1 && year.sun_normal_w_per_m2.size() == n_hours,
          "columns of one length");
  const double per_sqrt_k = GenerateOptions{}.hargreaves_per_sqrt_k;
  const double most_frac = physics::clear_sky_frac(year.place.elevation_m);
  std::vector<double> global_w_per_m2(n_hours);
  for (std::size_t hour = 0; hour < n_hours; ++hour) {
    const DayExtremes extremes = extremes_of_day(year.air_temperature_c, static_cast<int>(hour) / n_hours_in_day);
    const double clearness = per_sqrt_k * std::sqrt(extremes.max_c - extremes.min_c);
    global_w_per_m2[hour] = std::min(clearness, most_frac) * year.sun_normal_w_per_m2[hour] * year.sun_mean_sine[hour];
  }
  return global_w_per_m2;
}

std::vector<double> estimate_diffuse_w_per_m2(const WeatherYear& year) {
  const std::size_t n_hours = year.global_w_per_m2.size();
  expects(year.sun_mean_sine.size() == n_hours && year.sun_normal_w_per_m2.size() == n_hours, "columns of one length");
  std::vector<double> diffuse_w_per_m2 = year.global_w_per_m2;
  for (std::size_t hour = 0; hour < n_hours; ++hour) {
    if (year.sun_mean_sine[hour] < least_shaping_sine) continue;
    const double outside_w_per_m2 = year.sun_normal_w_per_m2[hour] * year.sun_mean_sine[hour];
    diffuse_w_per_m2[hour] *= physics::erbs_hourly_diffuse_frac(year.global_w_per_m2[hour] / outside_w_per_m2);
  }
  return diffuse_w_per_m2;
}

std::vector<double> estimate_sky_longwave_w_per_m2(const WeatherYear& year) {
  const std::size_t n_hours = year.global_w_per_m2.size();
  expects(year.sun_mean_sine.size() == n_hours && year.sun_normal_w_per_m2.size() == n_hours &&
              year.air_temperature_c.size() == n_hours + 1 && year.vapour_pressure_pa.size() == n_hours + 1,
          "columns of one length, those at marks one longer");
  const std::vector<double> cloud_frac = cloud_of_hours(year);
  std::vector<double> longwave_w_per_m2(n_hours + 1);
  for (std::size_t mark = 0; mark <= n_hours; ++mark) {
    const double air_k = year.air_temperature_c[mark] + physics::zero_celsius_k;
    const double clear = physics::clear_sky_emissivity_brutsaert(year.vapour_pressure_pa[mark], air_k);
    const double cloud = 0.5 * (cloud_frac[(mark + n_hours - 1) % n_hours] + cloud_frac[mark % n_hours]);
    longwave_w_per_m2[mark] = physics::sky_longwave_w_per_m2(physics::sky_emissivity(clear, cloud), air_k);
  }
  return longwave_w_per_m2;
}

}  // namespace houseleek::climate
