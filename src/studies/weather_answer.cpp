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

report::MonthlyExtremes extremes_of(const std::vector<climate::DayFigures>& days, const climate::YearSummary& months) {
  report::MonthlyExtremes extremes;
  for (std::size_t month = 0; month < climate::n_months; ++month) {
    extremes.dew_point_c[month] = physics::dew_point_c(months.vapour_pressure_pa[month]);
  }
  for (std::size_t day = 0; day < days.size(); ++day) {
    const std::size_t month = static_cast<std::size_t>(climate::month_of_day[day]);
    const bool is_first = static_cast<int>(day) == climate::first_day_of_month[month];
    extremes.highest_c[month] = is_first ? days[day].max_c : std::max(extremes.highest_c[month], days[day].max_c);
    extremes.lowest_c[month] = is_first ? days[day].min_c : std::min(extremes.lowest_c[month], days[day].min_c);
    extremes.wettest_day_mm[month] = std::max(extremes.wettest_day_mm[month], days[day].rain_mm);
  }
  return extremes;
}

/// The three days with the highest mean (sign 1) or the lowest (sign -1).
std::array<report::WeatherDay, 3> days_at_the_end(const std::vector<climate::DayFigures>& days, int year, double sign) {
  std::vector<std::size_t> order(days.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return sign * days[a].mean_c > sign * days[b].mean_c; });
  std::array<report::WeatherDay, 3> found;
  for (std::size_t i = 0; i < found.size(); ++i) {
    const climate::DayFigures& day = days[order[i]];
    const int first_hour = static_cast<int>(order[i]) * climate::n_hours_in_day;
    found[i] = {.date = climate::text_from_hour_of_year(year, first_hour).substr(0, 10),
                .mean_c = day.mean_c,
                .max_c = day.max_c,
                .min_c = day.min_c};
  }
  return found;
}

std::string range_statement(const WeatherInUse& weather) {
  if (!weather.file) {
    return "other years of the same normals can be made; their months depart from them as years do (how far, a note "
           "says, and month_mean_sd_k and month_rain_sd_mm of [climate.normals] may), so a range from them holds warm, "
           "wet and dim years; this year's months are the normals";
  }
  const std::size_t n_years = weather.file->complete_years.size();
  if (n_years <= 1) return "the file holds one year of weather; a range cannot come from it";
  return fmt::format("the file holds {} complete years; a range can come from them", n_years);
}

}  // namespace

report::WeatherInUseAnswer answer_weather(const design::ValidDesign& design, const WeatherInUse& weather) {
  report::WeatherInUseAnswer answer;
  answer.design_name = design->name;
  answer.source = weather_source(*design);
  answer.place = weather.year.place;
  answer.year = weather.year.year;
  answer.months = climate::summarise(weather.year);
  const std::vector<climate::DayFigures> days = climate::figures_of_days(weather.year);
  answer.extremes = extremes_of(days, answer.months);
  answer.hottest_days = days_at_the_end(days, answer.year, 1.0);
  answer.coldest_days = days_at_the_end(days, answer.year, -1.0);
  if (design->climate.normals) answer.normals = normals_from(*design->climate.normals);
  answer.file = weather.file;
  answer.range_statement = range_statement(weather);
  answer.notes = weather.year.notes;
  return answer;
}

}  // namespace houseleek::studies
