// An hour table judged by physics: values that cannot be together.
#include "climate/judge_table.hpp"

#include <fmt/format.h>

#include <utility>

#include "climate/calendar.hpp"
#include "physics/air.hpp"

namespace houseleek::climate {
namespace {

constexpr double most_offset_in_the_dark_w_per_m2 = 10.0;
constexpr double most_above_sun_w_per_m2 = 30.0;  // twilight and bent light in an hour that the sun only grazes
constexpr double most_above_sun_frac = 0.10;      // light from the edges of clouds
constexpr double most_diffuse_excess_w_per_m2 = 10.0;
constexpr double most_diffuse_excess_frac = 0.05;
constexpr double most_above_saturation_frac = 0.01;

/// Finds values that cannot be together. Cells outside their own limits have their issue already.
class Judge {
 public:
  Judge(HourTable& table, const WeatherYear& sun) : table_(table), sun_(sun) {}

  void judge() {
    const bool has_diffuse = table_.has(WeatherColumn::diffuse) && table_.has(WeatherColumn::global);
    for (std::size_t hour = 0; hour < n_hours_in_year; ++hour) {
      if (table_.has(WeatherColumn::global)) judge_global(hour);
      if (has_diffuse) judge_diffuse(hour);
      for (const WeatherColumn column : {WeatherColumn::vapour_pressure, WeatherColumn::dew_point}) {
        if (table_.has(column)) judge_vapour(column, hour);
      }
    }
  }

 private:
  [[nodiscard]] static bool is_judged(WeatherColumn column, const HourCell& cell) {
    const WeatherColumnInfo& limits = weather_columns[index_of(column)];
    return cell.is_known && cell.value >= limits.least && cell.value <= limits.most;
  }

  void judge_global(std::size_t hour) {
    const HourCell& cell = table_.cells(WeatherColumn::global)[hour];
    if (!is_judged(WeatherColumn::global, cell)) return;
    const double outside_w_per_m2 = outside_air_w_per_m2(sun_, hour);
    if (sun_.sun_mean_sine[hour] <= 0.0 && cell.value > most_offset_in_the_dark_w_per_m2) {
      report(WeatherColumn::global, cell, fmt::format("global_w_per_m2 is {} while the sun is down", cell.value),
             "do the stamps mark the beginning of the hour, in standard time, and is the place right?");
    } else if (cell.value > (1.0 + most_above_sun_frac) * outside_w_per_m2 + most_above_sun_w_per_m2) {
      report(WeatherColumn::global, cell,
             fmt::format("global_w_per_m2 is {}; the sun sends {:.0f} outside the air in this hour", cell.value,
                         outside_w_per_m2),
             "do the stamps mark the beginning of the hour, in standard time, and is the place right?");
    }
  }

  void judge_diffuse(std::size_t hour) {
    const HourCell& diffuse = table_.cells(WeatherColumn::diffuse)[hour];
    const HourCell& global = table_.cells(WeatherColumn::global)[hour];
    if (!is_judged(WeatherColumn::diffuse, diffuse) || !is_judged(WeatherColumn::global, global)) return;
    const double most =
        (1.0 + most_diffuse_excess_frac) * (global.value > 0.0 ? global.value : 0.0) + most_diffuse_excess_w_per_m2;
    if (diffuse.value <= most) return;
    report(WeatherColumn::diffuse, diffuse,
           fmt::format("diffuse_w_per_m2 is {}, more than global_w_per_m2, {}", diffuse.value, global.value), "");
  }

  void judge_vapour(WeatherColumn column, std::size_t hour) {
    const HourCell& vapour = table_.cells(column)[hour];
    const HourCell& air = table_.cells(WeatherColumn::air_temperature)[hour];
    if (!is_judged(column, vapour) || !is_judged(WeatherColumn::air_temperature, air)) return;
    const double saturation_pa = physics::saturation_vapour_pressure_pa(air.value);
    if (vapour_of_cell_pa(column, vapour.value, air.value) <= (1.0 + most_above_saturation_frac) * saturation_pa)
      return;
    report(column, vapour,
           fmt::format("{} is {}, more than air of {} degC can hold", weather_columns[index_of(column)].name,
                       vapour.value, air.value),
           "");
  }

  void report(WeatherColumn column, const HourCell& cell, std::string message, std::string hint) {
    table_.issues.push_back(
        issue_of_cell(table_, column, cell, IssueCode::inconsistent, std::move(message), std::move(hint)));
  }

  HourTable& table_;
  const WeatherYear& sun_;
};

}  // namespace

void judge_table(HourTable& table, const WeatherYear& sun) { Judge(table, sun).judge(); }

double vapour_of_cell_pa(WeatherColumn column, double value, double air_c) {
  if (column == WeatherColumn::vapour_pressure) return value;
  if (column == WeatherColumn::dew_point) return physics::saturation_vapour_pressure_pa(value);
  return 0.01 * value * physics::saturation_vapour_pressure_pa(air_c);
}

double outside_air_w_per_m2(const WeatherYear& year, std::size_t hour) {
  return year.sun_normal_w_per_m2[hour] * year.sun_mean_sine[hour];
}

}  // namespace houseleek::climate
