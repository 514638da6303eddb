// `houseleek weather`: the year in use and what it is like.
#include "studies/weather_answer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "climate/calendar.hpp"
#include "climate/time_stamp.hpp"
#include "physics/air.hpp"

namespace houseleek::studies {
namespace {

constexpr int slots_per_day = 144;

std::size_t month_index_of_day(int day) {
  return static_cast<std::size_t>(climate::month_of_day[static_cast<std::size_t>(day)]);
}

double mean_of_day_c(const climate::WeatherYear& year, int day) {
  double sum_c = 0.0;
  for (int hour = 0; hour < climate::n_hours_in_day; ++hour) {
    sum_c += year.air_temperature_c[static_cast<std::size_t>(day * climate::n_hours_in_day + hour)];
  }
  return sum_c / climate::n_hours_in_day;
}

double rain_of_day_mm(const climate::WeatherYear& year, int day) {
  const auto first = year.rain_mm_per_10_min.begin() + static_cast<std::ptrdiff_t>(day) * slots_per_day;
  return std::accumulate(first, first + slots_per_day, 0.0);
}

report::MonthlyExtremes extremes_of(const climate::WeatherYear& year, const climate::YearSummary& months) {
  report::MonthlyExtremes extremes;
  for (std::size_t month = 0; month < climate::n_months; ++month) {
    extremes.dew_point_c[month] = physics::dew_point_c(months.vapour_pressure_pa[month]);
  }
  for (int day = 0; day < climate::n_days_in_year; ++day) {
    const std::size_t month = month_index_of_day(day);
    const climate::DayExtremes of_day = climate::extremes_of_day(year.air_temperature_c, day);
    const bool is_first = day == climate::first_day_of_month[month];
    extremes.highest_c[month] = is_first ? of_day.max_c : std::max(extremes.highest_c[month], of_day.max_c);
    extremes.lowest_c[month] = is_first ? of_day.min_c : std::min(extremes.lowest_c[month], of_day.min_c);
    extremes.wettest_day_mm[month] = std::max(extremes.wettest_day_mm[month], rain_of_day_mm(year, day));
  }
  return extremes;
}

/// The three days with the highest mean (sign 1) or the lowest (sign -1).
std::array<report::WeatherDay, 3> days_at_the_end(const climate::WeatherYear& year, double sign) {
  std::vector<int> days(climate::n_days_in_year);
  std::iota(days.begin(), days.end(), 0);
  std::stable_sort(days.begin(), days.end(),
                   [&](int a, int b) { return sign * mean_of_day_c(year, a) > sign * mean_of_day_c(year, b); });
  std::array<report::WeatherDay, 3> found;
  for (std::size_t i = 0; i < found.size(); ++i) {
    const climate::DayExtremes of_day = climate::extremes_of_day(year.air_temperature_c, days[i]);
    found[i] = {.date = climate::text_from_hour_of_year(year.year, days[i] * climate::n_hours_in_day).substr(0, 10),
                .mean_c = mean_of_day_c(year, days[i]),
                .max_c = of_day.max_c,
                .min_c = of_day.min_c};
  }
  return found;
}

std::string range_statement(const WeatherInUse& weather) {
  if (!weather.file) {
    return "other years of the same normals can be made; their monthly means are all the normals, so a range from them "
           "shows days and runs of days, not warm or wet years";
  }
  const std::size_t n_years = weather.file->complete_years.size();
  if (n_years <= 1) return "the file holds one year of weather; a range cannot come from it";
  return fmt::format("the file holds {} complete years; a range can come from them", n_years);
}

}  // namespace

report::WeatherAnswer answer_weather(const design::ValidDesign& design, const WeatherInUse& weather) {
  report::WeatherAnswer answer;
  answer.design_name = design->name;
  answer.source = weather_source(*design);
  answer.place = weather.year.place;
  answer.year = weather.year.year;
  answer.months = climate::summarise(weather.year);
  answer.extremes = extremes_of(weather.year, answer.months);
  answer.hottest_days = days_at_the_end(weather.year, 1.0);
  answer.coldest_days = days_at_the_end(weather.year, -1.0);
  if (design->climate.normals) answer.normals = normals_from(*design->climate.normals);
  answer.file = weather.file;
  answer.range_statement = range_statement(weather);
  answer.notes = weather.year.notes;
  return answer;
}

}  // namespace houseleek::studies
