// The weather at one moment: the one table used by every solver.
#include "climate/year.hpp"

#include "base/contract.hpp"
#include "numerics/elementary.hpp"
#include "physics/air.hpp"
#include "physics/constants.hpp"

namespace houseleek::climate {
namespace {

constexpr double hour_turn_rad = 15.0 * physics::radians_per_degree;
constexpr double seconds_per_slot = 600.0;
constexpr int slots_per_hour = 6;

double between(const std::vector<double>& marks, std::size_t hour, double fraction) {
  return marks[hour] + fraction * (marks[hour + 1] - marks[hour]);
}

double global_at(const WeatherYear& year, std::size_t hour, double fraction) {
  const double mean_w_per_m2 = year.global_w_per_m2[hour];
  const double mean_sine = year.sun_mean_sine[hour];
  if (mean_sine < least_shaping_sine) return mean_w_per_m2;
  const double sine =
      year.sun_a[hour] + year.sun_b[hour] * numerics::cos(year.sun_hour_angle_rad[hour] + fraction * hour_turn_rad);
  return sine > 0.0 ? mean_w_per_m2 * (sine / mean_sine) : 0.0;
}

/// The slot that ends at the fraction; a step's end may miss the slot's edge by rounding.
std::size_t slot_ending_at(double fraction) {
  constexpr double rounding = 1e-9;
  const int n_begun = static_cast<int>(static_cast<double>(slots_per_hour) * fraction + 1.0 - rounding);
  return static_cast<std::size_t>(n_begun < 1 ? 0 : n_begun - 1);
}

/// Between two marks the straight line of vapour pressure may pass the saturation curve, which sags: rain then falls at
/// the air's temperature.
double wet_bulb_of_rain_c(const Forcing& air, double pressure_pa) {
  const double saturation_pa = physics::saturation_vapour_pressure_pa(air.air_temperature_c);
  if (air.vapour_pressure_pa >= saturation_pa) return air.air_temperature_c;
  return physics::wet_bulb_c({.temperature_c = air.air_temperature_c,
                              .vapour_pressure_pa = air.vapour_pressure_pa,
                              .pressure_pa = pressure_pa});
}

}  // namespace

Forcing forcing_at(const WeatherYear& year, int hour, double fraction) {
  expects(hour >= 0 && hour < year.n_hours(), "an hour of the year");
  expects(fraction >= 0.0 && fraction <= 1.0, "a fraction of the hour from 0 to 1");
  const std::size_t h = static_cast<std::size_t>(hour);
  Forcing forcing;
  forcing.air_temperature_c = between(year.air_temperature_c, h, fraction);
  forcing.vapour_pressure_pa = between(year.vapour_pressure_pa, h, fraction);
  forcing.wind_m_per_s = between(year.wind_m_per_s, h, fraction);
  forcing.sky_longwave_w_per_m2 = between(year.sky_longwave_w_per_m2, h, fraction);
  forcing.global_w_per_m2 = global_at(year, h, fraction);
  const double rain_mm = year.rain_mm_per_10_min[h * slots_per_hour + slot_ending_at(fraction)];
  forcing.rain_kg_per_m2_s = rain_mm / seconds_per_slot;
  forcing.rain_temperature_c =
      rain_mm > 0.0 ? wet_bulb_of_rain_c(forcing, year.pressure_pa) : forcing.air_temperature_c;
  return forcing;
}

}  // namespace houseleek::climate
