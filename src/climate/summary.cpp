// Monthly figures of a weather year, and which months of the normals are hottest and coldest.
#include "climate/summary.hpp"

#include <algorithm>
#include <numeric>

#include "base/contract.hpp"
#include "climate/calendar.hpp"
#include "physics/air.hpp"

namespace houseleek::climate {
namespace {

constexpr int slots_per_day = 144;
constexpr double mj_per_watt_hour = 0.0036;

double rain_of_day_mm(const WeatherYear& year, int day) {
  double sum_mm = 0.0;
  for (int slot = 0; slot < slots_per_day; ++slot) {
    sum_mm += year.rain_mm_per_10_min[static_cast<std::size_t>(day * slots_per_day + slot)];
  }
  return sum_mm;
}

ThreeMonths first_three(const MonthlyNormals& normals, double sign) {
  std::array<int, n_months> months{};
  std::iota(months.begin(), months.end(), 0);
  const auto rank = [&](int month) {
    const std::size_t m = static_cast<std::size_t>(month);
    return sign * (normals.max_c[m] + normals.min_c[m]);
  };
  std::stable_sort(months.begin(), months.end(), [&](int a, int b) { return rank(a) < rank(b); });
  return {months[0], months[1], months[2]};
}

}  // namespace

DayExtremes extremes_of_day(const std::vector<double>& air_temperature_c, int day) {
  const std::size_t first = static_cast<std::size_t>(day * n_hours_in_day);
  DayExtremes extremes = {air_temperature_c[first], air_temperature_c[first]};
  for (std::size_t i = 1; i <= n_hours_in_day; ++i) {
    const double here_c = air_temperature_c[first + i];
    if (here_c > extremes.max_c) extremes.max_c = here_c;
    if (here_c < extremes.min_c) extremes.min_c = here_c;
  }
  return extremes;
}

std::vector<DayFigures> figures_of_days(const WeatherYear& year) {
  expects(year.n_hours() == n_hours_in_year, "a weather year of 8760 hours");
  std::vector<DayFigures> days(n_days_in_year);
  for (int day = 0; day < n_days_in_year; ++day) {
    DayFigures& figures = days[static_cast<std::size_t>(day)];
    const DayExtremes extremes = extremes_of_day(year.air_temperature_c, day);
    figures.max_c = extremes.max_c;
    figures.min_c = extremes.min_c;
    figures.rain_mm = rain_of_day_mm(year, day);
    for (int hour = 0; hour < n_hours_in_day; ++hour) {
      figures.mean_c += year.air_temperature_c[static_cast<std::size_t>(day * n_hours_in_day + hour)] / n_hours_in_day;
    }
  }
  return days;
}

YearSummary summarise(const WeatherYear& year, double wet_day_mm) {
  constexpr std::size_t n_marks = n_hours_in_year + 1;
  expects(year.n_hours() == n_hours_in_year && year.air_temperature_c.size() == n_marks &&
              year.vapour_pressure_pa.size() == n_marks && year.wind_m_per_s.size() == n_marks &&
              year.rain_mm_per_10_min.size() == n_days_in_year * slots_per_day,
          "a weather year of 8760 hours");
  YearSummary summary;
  for (int day = 0; day < n_days_in_year; ++day) {
    const std::size_t month = static_cast<std::size_t>(month_of_day[static_cast<std::size_t>(day)]);
    const double day_share = 1.0 / static_cast<double>(n_days_in_month[month]);
    const DayExtremes extremes = extremes_of_day(year.air_temperature_c, day);
    summary.max_c[month] += day_share * extremes.max_c;
    summary.min_c[month] += day_share * extremes.min_c;
    const double rain_mm = rain_of_day_mm(year, day);
    summary.rain_mm[month] += rain_mm;
    if (rain_mm >= wet_day_mm) summary.wet_days[month] += 1.0;
    const double hour_share = day_share / static_cast<double>(n_hours_in_day);
    for (int i = 0; i < n_hours_in_day; ++i) {
      const std::size_t hour = static_cast<std::size_t>(day * n_hours_in_day + i);
      const double air_c = year.air_temperature_c[hour];
      const double vapour_pa = year.vapour_pressure_pa[hour];
      summary.mean_c[month] += hour_share * air_c;
      summary.global_mj_per_m2_d[month] += day_share * mj_per_watt_hour * year.global_w_per_m2[hour];
      summary.vapour_pressure_pa[month] += hour_share * vapour_pa;
      summary.relative_humidity_frac[month] += hour_share * vapour_pa / physics::saturation_vapour_pressure_pa(air_c);
      summary.wind_m_per_s[month] += hour_share * year.wind_m_per_s[hour];
    }
  }
  return summary;
}

ThreeMonths hottest_months(const MonthlyNormals& normals) { return first_three(normals, -1.0); }

ThreeMonths coldest_months(const MonthlyNormals& normals) { return first_three(normals, 1.0); }

}  // namespace houseleek::climate
