// A year of hours made from twelve monthly normals: the parts in their order.
#include "climate/generate.hpp"

#include <fmt/format.h>

#include <utility>

#include "base/contract.hpp"
#include "climate/calendar.hpp"
#include "climate/estimate.hpp"
#include "climate/generate_months.hpp"
#include "climate/generate_wind.hpp"
#include "climate/sun_columns.hpp"
#include "climate/weather_columns.hpp"

namespace houseleek::climate {
namespace {

void expects_options(const GenerateOptions& options) {
  const auto is_between = [](double value, double least, double most) { return value >= least && value <= most; };
  expects(is_between(options.hargreaves_per_sqrt_k, 0.10, 0.25), "a radiation coefficient from 0.10 to 0.25");
  expects(is_between(options.angstrom_overcast_frac, 0.1, 0.4) && is_between(options.angstrom_rise_frac, 0.3, 0.6),
          "Angstrom coefficients near 0.25 and 0.50");
  expects(is_between(options.clearness_lag, 0.0, 0.9) && is_between(options.wind_lag, 0.0, 0.99), "lags below one");
  expects(is_between(options.rain_follows_cloud_frac, 0.0, 1.0), "a correlation from 0 to 1");
  expects(is_between(options.least_wet_day_mm, 0.0, 5.0) && is_between(options.wet_day_max_drop_k, 0.0, 10.0),
          "a wet day's least rain up to 5 mm and its drop up to 10 K");
  expects(!options.temperature_sd_k || is_between(*options.temperature_sd_k, 0.0, 8.0), "departures up to 8 K");
  expects(is_between(options.hottest_solar_hour_h, 13.0, 16.0), "the hottest hour from 13 to 16 h solar");
  expects(is_between(options.driest_month_dew_point_drop_k, 0.0, 10.0), "a drop of the dew point up to 10 K");
  expects(is_between(options.rain_intensity_mm_per_h, 0.2, 50.0) && is_between(options.rain_intensity_log_sd, 0.0, 2.0),
          "a rain intensity from 0.2 to 50 mm/h");
  expects(is_between(options.wind_afternoon_frac, 0.0, 0.9), "an afternoon share from 0 to 0.9");
  expects(is_between(options.warmer_by_k, -10.0, 10.0), "a shift of up to 10 K");
}

MonthlyNormals shifted(MonthlyNormals normals, double by_k) {
  for (std::size_t month = 0; month < n_months; ++month) {
    normals.max_c[month] += by_k;
    normals.min_c[month] += by_k;
    if (normals.dew_point_c) (*normals.dew_point_c)[month] += by_k;
  }
  return normals;
}

RainNormals rain_of_normals(const MonthlyNormals& normals) {
  RainNormals rain = {normals.rain_mm, normals.rain_days ? *normals.rain_days : estimated_rain_days(normals.rain_mm)};
  for (std::size_t month = 0; month < n_months; ++month) {
    const double n_days = static_cast<double>(n_days_in_month[month]);
    if (rain.rain_days[month] > n_days) rain.rain_days[month] = n_days;  // by half a day, a rounded normal
  }
  return rain;
}

std::string_view months_as(MonthRule rule) { return rule == MonthRule::vary ? "about the normals" : "as given"; }

void add_notes(WeatherYear& year, std::vector<std::string> notes) {
  for (std::string& note : notes) year.notes.push_back(std::move(note));
}

void add_rain_notes(WeatherYear& year, const MonthlyNormals& normals, const RainNormals& rain, MonthRule rule) {
  int n_scarce = 0;
  for (std::size_t month = 0; month < n_months; ++month) {
    n_scarce += rain.rain_mm[month] > 0.0 && rain.rain_days[month] < 2.0 ? 1 : 0;
  }
  year.notes.push_back(fmt::format(
      "rain_mm_per_10_min: months {}; wet days {}by a two-state chain, amounts gamma, one storm a "
      "wet day at any hour; no cloudbursts, not for drainage",
      months_as(rule), normals.rain_days ? "" : "estimated from the month's rain (n (1 - exp(-P/150 mm))), "));
  if (n_scarce > 0 && rule == MonthRule::are_the_normals) {
    year.notes.push_back(
        fmt::format("rain_mm_per_10_min: in {} months with under 2 rain days each year gets at least one, which is "
                    "more than the normals say",
                    n_scarce));
  }
}

/// What the engine's functions of air bear; normals inside their own limits can still reach beyond by their departures.
Issues issues_of_result(const WeatherYear& year) {
  constexpr double lowest_c = -60.0;
  constexpr double highest_pa = 10000.0;
  for (std::size_t mark = 0; mark < year.air_temperature_c.size(); ++mark) {
    const double air_c = year.air_temperature_c[mark];
    if (air_c >= lowest_c && air_c <= hottest_air_c && year.vapour_pressure_pa[mark] <= highest_pa) continue;
    Issue issue;
    issue.code = IssueCode::out_of_range;
    issue.path = "max_c";
    issue.value = fmt::format("{:.1f} degC, {:.0f} Pa", air_c, year.vapour_pressure_pa[mark]);
    issue.limit = fmt::format("{} to {} degC, {} Pa", lowest_c, hottest_air_c, highest_pa);
    issue.message = fmt::format("the normals lead to air of {}; it must stay within {}", issue.value, issue.limit);
    return {std::move(issue)};
  }
  return {};
}

struct AirInputs {
  const MonthlyNormals& normals;
  const std::vector<bool>& is_wet;
  const TemperatureScores& scores;
  const std::optional<MonthShifts>& shifts;
};

/// Air and vapour; what is wrong with them.
Issues add_air(WeatherYear& year, std::vector<std::string>& notes, const AirInputs& inputs,
               const GenerateOptions& options) {
  Result<GeneratedAir> generated =
      generate_air_temperature(year, inputs.normals, inputs.is_wet, inputs.scores, options, inputs.shifts);
  if (!generated) return generated.error();
  GeneratedAir air = std::move(generated).value();
  Result<GeneratedVapour> vapour = generate_vapour(air, inputs.normals, options, inputs.shifts);
  if (!vapour) return vapour.error();
  year.air_temperature_c = std::move(air.temperature_c);
  year.vapour_pressure_pa = vapour.value().pressure_pa;
  notes = std::move(air.notes);
  for (const std::string& note : vapour.value().notes) notes.push_back(note);
  return issues_of_result(year);
}

}  // namespace

Result<WeatherYear> generate_year(const Place& place, const MonthlyNormals& given, std::uint64_t seed, int draw,
                                  const GenerateOptions& options) {
  expects(draw >= 0, "a draw counted from zero");
  expects_options(options);
  Issues issues = issues_of_place(place, options.year, "");
  for (Issue& issue : issues_of_normals(given, "")) issues.push_back(std::move(issue));
  if (!issues.empty()) return Unexpected{std::move(issues)};

  const MonthlyNormals normals = shifted(given, options.warmer_by_k);
  const GeneratorKey key = {.seed = seed, .draw = static_cast<std::uint32_t>(draw)};
  const MonthRule rule = draw == 0 ? MonthRule::are_the_normals : MonthRule::vary;
  WeatherYear year = make_year_with_sun(place, options.year);

  const Result<MonthlyClearness> months = clearness_of_months(year, normals, options);
  if (!months) return Unexpected{months.error()};
  const ClearnessScores clearness = draw_clearness_scores(key, options.clearness_lag);
  const Result<std::vector<double>> days = clearness_of_year_days(year, months.value().mean, clearness, rule);
  if (!days) return Unexpected{days.error()};
  year.global_w_per_m2 = global_of_hours(year, days.value(), key);
  year.diffuse_w_per_m2 = estimate_diffuse_w_per_m2(year);

  const RainNormals rain = rain_of_normals(normals);
  const MonthDepartures departures = draw_month_departures(normals, rain, key, options);
  const std::vector<bool> is_wet = wet_days_of_year(rain, clearness, key, options, rule);
  year.rain_mm_per_10_min = rain_of_slots_mm(
      rule == MonthRule::vary ? drawn_rain_of_days_mm(rain, is_wet, departures.rain_factor, key, options)
                              : rain_of_days_mm(rain, is_wet, key, options),
      key, options);

  const TemperatureScores scores = draw_temperature_scores(clearness, options.clearness_lag, key);
  std::optional<MonthShifts> shifts;
  if (rule == MonthRule::vary) {
    const Months sun_correlation = sun_warms_months(year);
    shifts = shifts_of_months({.normals = normals,
                               .rain = rain,
                               .is_wet = is_wet,
                               .clearness = clearness,
                               .scores = scores,
                               .departures = departures,
                               .sun_correlation = sun_correlation},
                              options);
  }
  std::vector<std::string> air_notes;
  issues =
      add_air(year, air_notes, {.normals = normals, .is_wet = is_wet, .scores = scores, .shifts = shifts}, options);
  // A drawn year hotter or colder than what the engine bears is drawn nearer to the normals.
  constexpr int most_halvings = 5;
  for (int i = 0; i <= most_halvings && shifts && !issues.empty(); ++i) {
    const double by = i == most_halvings ? 0.0 : 0.5;
    for (double& k : shifts->max_k) k *= by;
    for (double& k : shifts->min_k) k *= by;
    issues =
        add_air(year, air_notes, {.normals = normals, .is_wet = is_wet, .scores = scores, .shifts = shifts}, options);
    air_notes.emplace_back(
        "air_temperature_c: the months were drawn nearer to the normals, to stay below what the engine bears");
  }
  if (!issues.empty()) return Unexpected{std::move(issues)};

  Months wind_m_per_s{};
  wind_m_per_s.fill(usual_wind_m_per_s());
  if (normals.wind_m_per_s) wind_m_per_s = *normals.wind_m_per_s;
  year.wind_m_per_s = wind_of_marks_m_per_s(year, wind_m_per_s, key, options, rule);
  year.sky_longwave_w_per_m2 = estimate_sky_longwave_w_per_m2(year);

  add_notes(year, months.value().notes);
  year.notes.push_back("diffuse_w_per_m2: estimated from global radiation (Erbs, Klein and Duffie)");
  add_notes(year, std::move(air_notes));
  add_rain_notes(year, normals, rain, rule);
  year.notes.push_back(
      normals.wind_m_per_s
          ? fmt::format("wind_m_per_s: months {}; hours Weibull of shape 2 with an afternoon maximum", months_as(rule))
          : fmt::format("wind_m_per_s: not given; {:.2f} m/s each month (2 m/s at 2 m, FAO-56); hours Weibull of shape "
                        "2 with an afternoon maximum",
                        usual_wind_m_per_s()));
  year.notes.push_back(
      "sky_longwave_w_per_m2: estimated from temperature, vapour and cloud by day (Brutsaert; Crawford and Duchon)");
  if (options.warmer_by_k != 0.0)
    year.notes.push_back(
        fmt::format("maximum, minimum and dew point of the normals are shifted by {} K", options.warmer_by_k));
  year.notes.push_back(departures.statement);
  year.notes.push_back("the last mark of the year is its first");
  return year;
}

}  // namespace houseleek::climate
