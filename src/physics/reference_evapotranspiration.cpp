// Water that short, well-watered grass would give off: the FAO-56 method, each of its steps on its own.
#include "physics/reference_evapotranspiration.hpp"

#include <cmath>

#include "base/contract.hpp"
#include "numerics/elementary.hpp"
#include "physics/air.hpp"
#include "physics/constants.hpp"
#include "physics/radiation.hpp"

namespace houseleek::physics {
namespace {

constexpr double solar_constant_mj_per_m2_min = 0.0820;
constexpr double stefan_boltzmann_mj_per_m2_d_k4 = 4.903e-9;
constexpr double zero_celsius_as_rounded_k = 273.16;

double held(double x, double low, double high) { return x < low ? low : (x > high ? high : x); }

double saturation_kpa(double temperature_c) { return 1e-3 * saturation_vapour_pressure_pa(temperature_c); }

double fourth_power_k4(double temperature_c) {
  const double squared_k2 = (temperature_c + zero_celsius_as_rounded_k) * (temperature_c + zero_celsius_as_rounded_k);
  return squared_k2 * squared_k2;
}

double longwave_vapour_frac(double vapour_kpa) {
  expects(vapour_kpa >= 0.0 && vapour_kpa <= 5.89, "a vapour pressure from 0 to 5.89 kPa");
  return 0.34 - 0.14 * numerics::sqrt(vapour_kpa);
}

double into_half_turns_rad(double angle_rad) { return angle_rad - 2.0 * pi * std::floor(angle_rad / (2.0 * pi) + 0.5); }

}  // namespace

SolarDay solar_day(double latitude_rad, int day_of_year) {
  expects(latitude_rad >= -0.5 * pi && latitude_rad <= 0.5 * pi, "a latitude from -pi/2 to pi/2");
  expects(day_of_year >= 1 && day_of_year <= 366, "a day of the year from 1 to 366");
  const double year_angle = 2.0 * pi * day_of_year / 365.0;
  SolarDay day{};
  day.inverse_distance = 1.0 + 0.033 * numerics::cos(year_angle);
  day.declination_rad = 0.409 * numerics::sin(year_angle - 1.39);
  const double a = numerics::sin(latitude_rad) * numerics::sin(day.declination_rad);
  const double b = numerics::cos(latitude_rad) * numerics::cos(day.declination_rad);
  day.sunset_rad = a >= b ? pi : (a <= -b ? 0.0 : numerics::acos(-a / b));
  day.day_length_h = 24.0 / pi * day.sunset_rad;
  day.extraterrestrial_mj_per_m2_d = 1440.0 / pi * solar_constant_mj_per_m2_min * day.inverse_distance *
                                     (day.sunset_rad * a + b * numerics::sin(day.sunset_rad));
  return day;
}

SolarHour solar_hour(const DayPart& part) {
  expects(part.middle_h >= 0.0 && part.middle_h <= 24.0 && part.length_h > 0.0 && part.length_h <= 3.0,
          "a middle from 0 to 24 h and a length up to 3 h");
  const SolarDay day = solar_day(part.latitude_rad, part.day_of_year);
  const double b = 2.0 * pi * (part.day_of_year - 81) / 364.0;
  SolarHour hour{};
  hour.seasonal_correction_h = 0.1645 * numerics::sin(2.0 * b) - 0.1255 * numerics::cos(b) - 0.025 * numerics::sin(b);
  hour.middle_rad = into_half_turns_rad(
      pi / 12.0 *
      (part.middle_h + (part.longitude_deg - part.zone_longitude_deg) / 15.0 + hour.seasonal_correction_h - 12.0));
  const double half_length_rad = pi * part.length_h / 24.0;
  hour.start_rad = held(hour.middle_rad - half_length_rad, -day.sunset_rad, day.sunset_rad);
  hour.end_rad = held(hour.middle_rad + half_length_rad, -day.sunset_rad, day.sunset_rad);
  hour.extraterrestrial_mj_per_m2 =
      720.0 / pi * solar_constant_mj_per_m2_min * day.inverse_distance *
      ((hour.end_rad - hour.start_rad) * numerics::sin(part.latitude_rad) * numerics::sin(day.declination_rad) +
       numerics::cos(part.latitude_rad) * numerics::cos(day.declination_rad) *
           (numerics::sin(hour.end_rad) - numerics::sin(hour.start_rad)));
  return hour;
}

double solar_frac_from_sunshine(double sunshine_frac, double a, double b) {
  expects(sunshine_frac >= 0.0 && sunshine_frac <= 1.0, "a share of sunshine from 0 to 1");
  return a + b * sunshine_frac;
}

double solar_frac_from_temperature_range(double range_k, double k_per_sqrt_k, double clear_frac) {
  expects(range_k >= 0.0 && k_per_sqrt_k >= 0.1 && k_per_sqrt_k <= 0.25 && clear_frac >= 0.5 && clear_frac <= 0.9,
          "a range of zero or more, a coefficient from 0.1 to 0.25, a clear-sky share from 0.5 to 0.9");
  return held(k_per_sqrt_k * numerics::sqrt(range_k), 0.0, clear_frac);
}

double longwave_cloud_frac(double clear_share_frac) {
  expects(clear_share_frac >= 0.0 && clear_share_frac <= 100.0, "a share of zero or more");
  return 1.35 * held(clear_share_frac, 0.0, 1.0) - 0.35;
}

double net_longwave_mj_per_m2_d(const LongwaveDay& day) {
  expects(day.min_c >= -60.0 && day.max_c <= 60.0 && day.max_c >= day.min_c,
          "temperatures from -60 to 60 degC in order");
  return stefan_boltzmann_mj_per_m2_d_k4 * 0.5 * (fourth_power_k4(day.max_c) + fourth_power_k4(day.min_c)) *
         longwave_vapour_frac(day.vapour_kpa) * longwave_cloud_frac(day.clear_share_frac);
}

double net_longwave_mj_per_m2_h(double temperature_c, double vapour_kpa, double clear_share_frac) {
  return net_longwave_mj_per_m2_d({temperature_c, temperature_c, vapour_kpa, clear_share_frac}) / 24.0;
}

double month_soil_heat_mj_per_m2_d(double previous_c, double next_c) { return 0.07 * (next_c - previous_c); }

double month_soil_heat_from_past_mj_per_m2_d(double previous_c, double this_c) { return 0.14 * (this_c - previous_c); }

double mean_saturation_kpa(double max_c, double min_c) { return 0.5 * (saturation_kpa(max_c) + saturation_kpa(min_c)); }

double vapour_pressure_of_day_kpa(const HumidityDay& day) {
  return 0.5e-3 * (vapour_pressure_pa(day.min_c, day.max_frac) + vapour_pressure_pa(day.max_c, day.min_frac));
}

double vapour_pressure_of_mean_humidity_kpa(double max_c, double min_c, double mean_frac) {
  return 0.5e-3 * (vapour_pressure_pa(min_c, mean_frac) + vapour_pressure_pa(max_c, mean_frac));
}

double penman_monteith_mm(const PenmanMonteith& air, const ReferenceSurface& surface) {
  expects(air.temperature_c >= -60.0 && air.temperature_c <= 60.0 && air.wind_at_2_m_m_per_s >= 0.0,
          "a temperature from -60 to 60 degC and a wind of zero or more");
  expects(air.saturation_kpa > 0.0 && air.vapour_kpa >= 0.0 && air.psychrometric_kpa_per_k > 0.0,
          "vapour pressures and a psychrometric constant above zero");
  const double slope_kpa_per_k = 1e-3 * saturation_slope_pa_per_k(air.temperature_c);
  const double energy = mm_per_mj_per_m2 * slope_kpa_per_k * (air.net_radiation_mj_per_m2 - air.soil_heat_mj_per_m2);
  const double drying = air.psychrometric_kpa_per_k * surface.wind_coefficient / (air.temperature_c + 273.0) *
                        air.wind_at_2_m_m_per_s * (air.saturation_kpa - air.vapour_kpa);
  return (energy + drying) /
         (slope_kpa_per_k + air.psychrometric_kpa_per_k * (1.0 + surface.resistance_s_per_m * air.wind_at_2_m_m_per_s));
}

AsceHour asce_hour(AsceCover cover, double net_radiation_mj_per_m2_h) {
  expects(std::isfinite(net_radiation_mj_per_m2_h), "a net radiation");
  const bool is_day = net_radiation_mj_per_m2_h > 0.0;
  if (cover == AsceCover::short_grass) return is_day ? AsceHour{{37.0, 0.24}, 0.1} : AsceHour{{37.0, 0.96}, 0.5};
  return is_day ? AsceHour{{66.0, 0.25}, 0.04} : AsceHour{{66.0, 1.7}, 0.2};
}

double hour_soil_heat_frac(double net_radiation_mj_per_m2_h) {
  expects(std::isfinite(net_radiation_mj_per_m2_h), "a net radiation");
  return net_radiation_mj_per_m2_h > 0.0 ? 0.1 : 0.5;
}

ReferenceDay reference_day(const ReferenceDayInput& input) {
  expects(input.solar_mj_per_m2_d >= 0.0, "a solar radiation of zero or more");
  const double mean_c = 0.5 * (input.max_c + input.min_c);
  ReferenceDay day{};
  day.slope_kpa_per_k = 1e-3 * saturation_slope_pa_per_k(mean_c);
  day.psychrometric_kpa_per_k = 1e-3 * psychrometric_constant_pa_per_k(pressure_at_elevation_pa(input.elevation_m));
  day.saturation_kpa = mean_saturation_kpa(input.max_c, input.min_c);
  day.extraterrestrial_mj_per_m2_d = solar_day(input.latitude_rad, input.day_of_year).extraterrestrial_mj_per_m2_d;
  day.clear_sky_mj_per_m2_d = clear_sky_frac(input.elevation_m) * day.extraterrestrial_mj_per_m2_d;
  expects(day.clear_sky_mj_per_m2_d > 0.0, "a day on which the sun rises");
  day.net_shortwave_mj_per_m2_d = (1.0 - reference_albedo_frac) * input.solar_mj_per_m2_d;
  day.net_longwave_mj_per_m2_d = net_longwave_mj_per_m2_d(
      {input.max_c, input.min_c, input.vapour_kpa, input.solar_mj_per_m2_d / day.clear_sky_mj_per_m2_d});
  day.net_radiation_mj_per_m2_d = day.net_shortwave_mj_per_m2_d - day.net_longwave_mj_per_m2_d;
  day.evapotranspiration_mm_per_d = penman_monteith_mm({.temperature_c = mean_c,
                                                        .net_radiation_mj_per_m2 = day.net_radiation_mj_per_m2_d,
                                                        .soil_heat_mj_per_m2 = input.soil_heat_mj_per_m2_d,
                                                        .wind_at_2_m_m_per_s = input.wind_at_2_m_m_per_s,
                                                        .saturation_kpa = day.saturation_kpa,
                                                        .vapour_kpa = input.vapour_kpa,
                                                        .psychrometric_kpa_per_k = day.psychrometric_kpa_per_k},
                                                       fao_daily);
  return day;
}

double hargreaves_mm_per_d(double max_c, double min_c, double extraterrestrial_mj_per_m2_d) {
  const double mean_c = 0.5 * (max_c + min_c);
  expects(mean_c >= -17.8 && mean_c <= 60.0 && max_c >= min_c && extraterrestrial_mj_per_m2_d >= 0.0,
          "a mean from -17.8 to 60 degC, temperatures in order, radiation of zero or more");
  return 0.0023 * (mean_c + 17.8) * numerics::sqrt(max_c - min_c) * mm_per_mj_per_m2 * extraterrestrial_mj_per_m2_d;
}

}  // namespace houseleek::physics
