// A year of weather in which some days are as somebody measured them.
#include "climate/known_days.hpp"

#include "base/contract.hpp"
#include "climate/calendar.hpp"
#include "climate/weather_columns.hpp"
#include "physics/air.hpp"

namespace houseleek::climate {
namespace {

constexpr double kelvin_at_0_c = 273.15;
constexpr std::size_t first_wet_hour = 2;  // where no hour of the day has rain to scale
constexpr std::size_t n_wet_hours = 4;

std::size_t first_hour_of(int day) {
  const int wrapped = ((day % n_days_in_year) + n_days_in_year) % n_days_in_year;
  return static_cast<std::size_t>(wrapped) * static_cast<std::size_t>(n_hours_in_day);
}

void set_temperatures(WeatherYear& weather, const WeatherYear& year, std::size_t first_hour, const KnownDay& known) {
  if (!known.max_c && !known.min_c) return;
  double max_c = year.air_temperature_c[first_hour];
  double min_c = max_c;
  for (std::size_t hour = 1; hour < static_cast<std::size_t>(n_hours_in_day); ++hour) {
    const double air_c = year.air_temperature_c[first_hour + hour];
    if (air_c > max_c) max_c = air_c;
    if (air_c < min_c) min_c = air_c;
  }
  const double shift_k = known.max_c ? *known.max_c - max_c : *known.min_c - min_c;
  const double new_max_c = max_c + shift_k;
  const double new_min_c = known.min_c ? *known.min_c : min_c + shift_k;
  expects(new_max_c >= new_min_c, "a highest temperature that is not below the lowest");
  const double slope = max_c > min_c ? (new_max_c - new_min_c) / (max_c - min_c) : 1.0;
  for (std::size_t hour = 0; hour < static_cast<std::size_t>(n_hours_in_day); ++hour) {
    const std::size_t mark = first_hour + hour;
    const double air_c = new_min_c + slope * (year.air_temperature_c[mark] - min_c);
    set_air_temperature(weather, year, mark, air_c);
    // The year's end and its beginning are one moment where hours wrap.
    if (mark == 0) set_air_temperature(weather, year, year.air_temperature_c.size() - 1, air_c);
  }
}

void set_rain(WeatherYear& weather, std::size_t first_hour, double rain_mm) {
  const std::size_t first_slot = first_hour * n_rain_slots;
  const std::size_t n_slots = static_cast<std::size_t>(n_hours_in_day) * n_rain_slots;
  double before_mm = 0.0;
  for (std::size_t slot = first_slot; slot < first_slot + n_slots; ++slot) {
    before_mm += weather.rain_mm_per_10_min[slot];
  }
  for (std::size_t slot = first_slot; slot < first_slot + n_slots; ++slot) {
    double& mm = weather.rain_mm_per_10_min[slot];
    if (before_mm > 0.0) {
      mm *= rain_mm / before_mm;
      continue;
    }
    const std::size_t hour = (slot - first_slot) / n_rain_slots;
    const bool is_wet = hour >= first_wet_hour && hour < first_wet_hour + n_wet_hours;
    mm = is_wet ? rain_mm / static_cast<double>(n_wet_hours * n_rain_slots) : 0.0;
  }
}

}  // namespace

void set_air_temperature(WeatherYear& weather, const WeatherYear& before, std::size_t mark, double air_c) {
  const double before_c = before.air_temperature_c[mark];
  const double humidity = before.vapour_pressure_pa[mark] / physics::saturation_vapour_pressure_pa(before_c);
  weather.air_temperature_c[mark] = air_c;
  weather.vapour_pressure_pa[mark] = humidity * physics::saturation_vapour_pressure_pa(air_c);
  const double ratio = (air_c + kelvin_at_0_c) / (before_c + kelvin_at_0_c);
  weather.sky_longwave_w_per_m2[mark] = before.sky_longwave_w_per_m2[mark] * ratio * ratio * ratio * ratio;
}

WeatherYear with_known_days(const WeatherYear& year, int first_day, std::span<const KnownDay> days) {
  expects(days.size() <= static_cast<std::size_t>(n_days_in_year), "no more days than a year has");
  WeatherYear weather = year;
  for (std::size_t i = 0; i < days.size(); ++i) {
    const std::size_t first_hour = first_hour_of(first_day + static_cast<int>(i));
    set_temperatures(weather, year, first_hour, days[i]);
    if (!days[i].rain_mm) continue;
    expects(*days[i].rain_mm >= 0.0, "rain that is not negative");
    set_rain(weather, first_hour, *days[i].rain_mm);
  }
  return weather;
}

}  // namespace houseleek::climate
