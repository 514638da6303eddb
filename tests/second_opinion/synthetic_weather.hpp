// Invented weather without any randomness from outside: waves over year and day, clouds that change at the hour,
// showers in ten-minute slots.
#pragma once
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

#include "climate/year.hpp"

namespace houseleek::tests::second_opinion {

struct SyntheticClimate {
  double mean_c = 18.0;
  double year_swing_k = 9.0;
  double day_swing_k = 6.0;
  double latitude_deg = 40.0;
  double wet_hours_frac = 0.04;
  double shower_mm_per_10_min = 0.8;
};

/// Even spread over 0..1 from a place in a sequence.
inline double scattered(std::uint64_t index, std::uint64_t channel) {
  std::uint64_t x = index * 0x9E3779B97F4A7C15ULL + channel * 0xD1B54A32D192ED03ULL + 0x632BE59BD9B4E019ULL;
  x = (x ^ (x >> 30U)) * 0xBF58476D1CE4E5B9ULL;
  x = (x ^ (x >> 27U)) * 0x94D049BB133111EBULL;
  x ^= x >> 31U;
  return static_cast<double>(x >> 11U) * 0x1.0p-53;
}

/// As climate::forcing_at tells it: radiation may jump at the hour, the slot of rain is the one that ends at `fraction`.
inline climate::ForcingSource synthetic_weather(const SyntheticClimate& climate = {}) {
  return [climate](int hour, double fraction) {
    constexpr double two_pi = 2.0 * std::numbers::pi;
    const double hours = hour + fraction;
    const double of_day = two_pi * hours / 24.0;
    const double of_year = two_pi * hours / 8760.0;
    climate::Forcing now;
    now.air_temperature_c = climate.mean_c - climate.year_swing_k * std::cos(of_year - 0.4) -
                            climate.day_swing_k * std::cos(of_day - 0.8) - 1.5 * std::sin(5.3 * of_year * 24.0);
    const double saturated = 611.0 * std::exp(17.3 * now.air_temperature_c / (now.air_temperature_c + 237.0));
    const double humidity = 0.62 + 0.25 * std::cos(of_day - 0.6) + 0.1 * std::sin(11.0 * of_year);
    now.vapour_pressure_pa = humidity * saturated;
    now.wind_m_per_s = 2.4 + 1.4 * std::sin(of_day - 2.4) + 0.9 * std::sin(37.0 * of_year);
    const auto index = static_cast<std::uint64_t>(hour);
    const double clear = 0.25 + 0.75 * scattered(index, 1);
    const double declination = -0.409 * std::cos(of_year + 0.17);
    const double latitude = climate.latitude_deg * std::numbers::pi / 180.0;
    const double sine =
        std::sin(latitude) * std::sin(declination) - std::cos(latitude) * std::cos(declination) * std::cos(of_day);
    now.global_w_per_m2 = 1050.0 * clear * std::max(0.0, sine);
    const double air_k = now.air_temperature_c + 273.15;
    now.sky_longwave_w_per_m2 =
        (0.62 + 0.05 * std::sqrt(now.vapour_pressure_pa / 100.0)) * 5.67e-8 * air_k * air_k * air_k * air_k + 12.0;
    const int slot = std::clamp(static_cast<int>(std::ceil(fraction * 6.0 - 1e-12)) - 1, 0, 5);
    if (scattered(index / 3, 2) < climate.wet_hours_frac) {
      const double strength = scattered(index * 6 + static_cast<std::uint64_t>(slot), 3);
      if (strength > 0.4) now.rain_kg_per_m2_s = climate.shower_mm_per_10_min * strength * strength / 600.0;
    }
    now.rain_temperature_c = now.air_temperature_c - 4.0 * (1.0 - humidity) - 0.5;
    return now;
  };
}

}  // namespace houseleek::tests::second_opinion
