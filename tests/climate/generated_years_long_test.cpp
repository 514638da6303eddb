// Five hundred generated years in each of six climates against what a year of hours from normals must reproduce. Every line
// is printed, whichever way it falls; docs/equations/climate.md has what came out.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "climate/calendar.hpp"
#include "climate/clearness.hpp"
#include "climate/generate.hpp"
#include "climate/generate_rain.hpp"
#include "climate/invented_climates.hpp"
#include "climate/summary.hpp"
#include "climate/year_statistics.hpp"
#include "physics/air.hpp"

namespace houseleek::climate {
namespace {

using tests::clearness_of;
using tests::Climate;
using tests::outside_w_per_m2;
using tests::Pairs;

constexpr int n_years = 500;
constexpr double pi = 3.14159265358979324;
constexpr double hour_turn_rad = pi / 12.0;

/// Prints a line and expects it to lie between two bounds.
void line(const std::string& climate, const std::string& what, double got, double least, double most) {
  const bool is_within = got >= least && got <= most;
  fmt::print("{:12} {:52} {:10.4f}  {} .. {}{}\n", climate, what, got, least, most, is_within ? "" : "  OUTSIDE");
  EXPECT_GE(got, least) << climate << ": " << what;
  EXPECT_LE(got, most) << climate << ": " << what;
}

/// Prints a line that has no bar, and why.
void told(const std::string& climate, const std::string& what, double got, const std::string& why) {
  fmt::print("{:12} {:52} {:10.4f}  no bar: {}\n", climate, what, got, why);
}

/// All that is summed up over the years of one climate.
struct Sums {
  double worst_max_k = 0, worst_min_k = 0, worst_rain_mm = 0, worst_sun_frac = 0, worst_humidity_frac = 0,
         worst_wind = 0;
  std::array<double, 12> wet_days{}, after_dry{}, after_wet{}, n_dry{}, n_wet{};
  Pairs days, day_lag, hour_lag, max_of_summer, min_of_summer;
  int n_days = 0, n_hot_afternoons = 0, n_cold_dawns = 0, n_beyond = 0, n_night = 0, n_damp = 0;
};

void add_months(Sums& sums, const Climate& climate, const WeatherYear& year) {
  const YearSummary summary = summarise(year);
  const MonthlyNormals& normals = climate.normals;
  const auto worst = [](double& so_far, double off) { so_far = std::max(so_far, std::abs(off)); };
  for (std::size_t m = 0; m < 12; ++m) {
    worst(sums.worst_max_k, summary.max_c[m] - normals.max_c[m]);
    worst(sums.worst_min_k, summary.min_c[m] - normals.min_c[m]);
    worst(sums.worst_rain_mm, summary.rain_mm[m] - normals.rain_mm[m]);
    if (normals.global_mj_per_m2_d) {
      worst(sums.worst_sun_frac, summary.global_mj_per_m2_d[m] / (*normals.global_mj_per_m2_d)[m] - 1.0);
    }
    if (normals.relative_humidity_frac) {
      worst(sums.worst_humidity_frac, summary.relative_humidity_frac[m] - (*normals.relative_humidity_frac)[m]);
    }
    if (normals.dew_point_c) {
      const double wanted_pa = physics::saturation_vapour_pressure_pa((*normals.dew_point_c)[m]);
      worst(sums.worst_humidity_frac, summary.vapour_pressure_pa[m] / wanted_pa - 1.0);
    }
    worst(sums.worst_wind, summary.wind_m_per_s[m] - (normals.wind_m_per_s ? (*normals.wind_m_per_s)[m] : 2.674));
    sums.wet_days[m] += summary.wet_days[m];
  }
}

void add_rain(Sums& sums, const WeatherYear& year) {
  const std::vector<double> rain_mm = tests::rain_of_days_mm(year);
  for (std::size_t day = 1; day < 365; ++day) {
    const std::size_t m = static_cast<std::size_t>(month_of_day[day]);
    if (month_of_day[day - 1] != month_of_day[day]) continue;
    const bool was_wet = rain_mm[day - 1] > 0.0;
    (was_wet ? sums.n_wet : sums.n_dry)[m] += 1.0;
    if (rain_mm[day] > 0.0) (was_wet ? sums.after_wet : sums.after_dry)[m] += 1.0;
  }
}

void add_hours(Sums& sums, const WeatherYear& year, const std::vector<double>& clearness) {
  bool has_before = false;
  double before = 0.0;
  for (std::size_t hour = 0; hour < 8760; ++hour) {
    const double sine = year.sun_mean_sine[hour];
    const double global = year.global_w_per_m2[hour];
    const double outside = outside_w_per_m2(year, hour);
    const double saturation_pa = physics::saturation_vapour_pressure_pa(year.air_temperature_c[hour]);
    sums.n_damp += year.vapour_pressure_pa[hour] > saturation_pa ? 1 : 0;
    if (sine <= 0.0) {
      sums.n_night += global != 0.0 ? 1 : 0;
    } else {
      double angle_rad = year.sun_hour_angle_rad[hour] + 0.5 * hour_turn_rad;
      if (angle_rad < -pi) angle_rad += 2.0 * pi;
      const double most = outside * 0.88 * std::cos(0.4 * angle_rad) * (1.0 + 1e-12);
      sums.n_beyond += global < 0.0 || global > most ? 1 : 0;
    }
    if (sine < 0.17 || clearness[hour / 24] > 0.75) {
      has_before = false;
      continue;
    }
    const ClearnessOfHour curve = clearness_of_hour(clearness[hour / 24], sine);
    const double here = (global / outside - curve.mean) / curve.sd;
    if (has_before) sums.hour_lag.add(before, here);
    before = here;
    has_before = true;
  }
}

void add_days(Sums& sums, const WeatherYear& year, const std::vector<double>& clearness, int summer) {
  for (int day = 0; day < 365; ++day) {
    const std::size_t d = static_cast<std::size_t>(day);
    sums.days.add(clearness[d], 0.0);
    if (day > 0) sums.day_lag.add(clearness[d - 1], clearness[d]);
    const DayExtremes extremes = extremes_of_day(year.air_temperature_c, day);
    if (month_of_day[d] == summer) {
      sums.max_of_summer.add(clearness[d], extremes.max_c);
      sums.min_of_summer.add(clearness[d], extremes.min_c);
    }
    std::size_t hottest = 24 * d;
    std::size_t coldest = 24 * d;
    for (std::size_t mark = 24 * d; mark < 24 * d + 24; ++mark) {
      if (year.air_temperature_c[mark] > year.air_temperature_c[hottest]) hottest = mark;
      if (year.air_temperature_c[mark] < year.air_temperature_c[coldest]) coldest = mark;
    }
    const double hottest_h = 12.0 + year.sun_hour_angle_rad[hottest] / hour_turn_rad;
    const double coldest_h = 12.0 + year.sun_hour_angle_rad[coldest] / hour_turn_rad;
    const std::size_t noon = 24 * d + 12;
    const double sunrise_h =
        12.0 - std::acos(std::clamp(-year.sun_a[noon] / year.sun_b[noon], -1.0, 1.0)) / hour_turn_rad;
    sums.n_hot_afternoons += hottest_h >= 13.0 && hottest_h <= 16.0 ? 1 : 0;
    sums.n_cold_dawns += std::abs(coldest_h - sunrise_h) <= 1.0 ? 1 : 0;
    ++sums.n_days;
  }
}

Sums sums_of(const Climate& climate) {
  Sums sums;
  const int summer = hottest_months(climate.normals)[0];
  for (std::uint64_t seed = 1; seed <= n_years; ++seed) {
    const auto made = generate_year(climate.place, climate.normals, seed, 0);  // its months are the normals
    EXPECT_TRUE(made.has_value());
    if (!made) continue;
    const WeatherYear& year = made.value();
    const std::vector<double> clearness = clearness_of(year);
    add_months(sums, climate, year);
    add_rain(sums, year);
    add_hours(sums, year, clearness);
    add_days(sums, year, clearness, summer);
  }
  return sums;
}

/// Wet days and the chain, month by month, in standard errors: the worst of the months with two rain days or more.
void rain_lines(const Climate& climate, const Sums& sums) {
  const Months rain_days =
      climate.normals.rain_days ? *climate.normals.rain_days : estimated_rain_days(climate.normals.rain_mm);
  double worst_count = 0.0;
  double worst_after_dry = 0.0;
  double worst_after_wet = 0.0;
  for (std::size_t m = 0; m < 12; ++m) {
    if (rain_days[m] < 2.0) continue;
    const double share = rain_days[m] / n_days_in_month[m];
    const double sd = std::sqrt(n_days_in_month[m] * share * (1.0 - share) * 1.25 / 0.75);
    const double count = sums.wet_days[m] / n_years;
    worst_count = std::max(worst_count, std::abs(count - rain_days[m]) / (sd / std::sqrt(1.0 * n_years)));
    const WetDayChain chain = wet_day_chain(share);
    const auto off = [](double n_hits, double n, double p) {
      return std::abs(n_hits / n - p) / std::sqrt(p * (1.0 - p) / n);
    };
    worst_after_dry = std::max(worst_after_dry, off(sums.after_dry[m], sums.n_dry[m], chain.after_dry_frac));
    worst_after_wet = std::max(worst_after_wet, off(sums.after_wet[m], sums.n_wet[m], chain.after_wet_frac));
  }
  // The worst of twelve lies below 3.5 standard errors in 99.5 of 100 trials.
  line(climate.name, "wet days of a month, worst, standard errors", worst_count, 0.0, 3.5);
  line(climate.name, "wet after dry (dry spells), worst month, s.e.", worst_after_dry, 0.0, 3.5);
  line(climate.name, "wet after wet (wet spells), worst month, s.e.", worst_after_wet, 0.0, 3.5);
}

void common_lines(const Climate& climate, const Sums& sums) {
  const std::string name = climate.name;
  line(name, "monthly mean maximum, worst, K", sums.worst_max_k, 0.0, 1e-3);
  line(name, "monthly mean minimum, worst, K", sums.worst_min_k, 0.0, 1e-3);
  line(name, "monthly rain, worst, mm", sums.worst_rain_mm, 0.0, 1e-6);
  line(name, "monthly radiation, worst share", sums.worst_sun_frac, 0.0, 1e-9);
  line(name, "monthly humidity, worst share", sums.worst_humidity_frac, 0.0, 1e-3);
  line(name, "monthly wind, worst, m/s", sums.worst_wind, 0.0, 1e-3);
  line(name, "day's clearness with the next day's", sums.day_lag.correlation(), 0.2, 0.4);
  line(name, "hour's departure with the next hour's", sums.hour_lag.correlation(), 0.3, 0.5);
  line(name, "hours beyond 0 <= k <= 0.88 cos(pi (t - 12)/30)", sums.n_beyond, 0, 0);
  line(name, "hours with sun at night", sums.n_night, 0, 0);
  line(name, "hours above saturation", sums.n_damp, 0, 0);
  const double hot_share = 1.0 * sums.n_hot_afternoons / sums.n_days;
  const double cold_share = 1.0 * sums.n_cold_dawns / sums.n_days;
  // Days depart by 2 K or more: where the daily range is below twice that, a change of weather often hides the hours.
  constexpr double least_range_k = 4.0;
  if (climate.normals.max_c[6] - climate.normals.min_c[6] >= least_range_k) {
    line(name, "share of days hottest at 13 to 16 h", hot_share, 0.95, 1.0);
    line(name, "share of days coldest within 1 h of sunrise", cold_share, 0.80, 1.0);
  } else {
    told(name, "share of days hottest at 13 to 16 h", hot_share, "daily range below 4 K");
    told(name, "share of days coldest within 1 h of sunrise", cold_share, "daily range below 4 K");
  }
  line(name, "clearness and maximum, hottest month", sums.max_of_summer.correlation(), 0.05, 1.0);
  line(name, "clearness and minimum, hottest month", sums.min_of_summer.correlation(), -1.0, 0.02);
  rain_lines(climate, sums);
}

TEST(GeneratedYears, FiveHundredInThreeClimates) {
  for (const Climate& climate : {tests::dry_summer(), tests::cold_inland(), tests::humid_south()}) {
    common_lines(climate, sums_of(climate));
  }
}

TEST(GeneratedYears, FiveHundredWithAPublishedSpreadOfDays) {
  struct Even {
    double clearness;
    double sd;  // [bendt1981] with Kmax of [herzog1985], integrated by another program
  };
  for (const Even& even : {Even{0.3, 0.17697}, Even{0.5, 0.19361}, Even{0.7, 0.11538}}) {
    Climate climate = tests::even_clearness(even.clearness);
    const std::string name = fmt::format("even {}", even.clearness);
    climate.name = name.c_str();
    const Sums sums = sums_of(climate);
    line(name, "mean clearness of days", sums.days.mean_of_x(), even.clearness - 0.003, even.clearness + 0.003);
    line(name, "spread of days over the published", sums.days.sd_of_x() / even.sd, 0.85, 1.15);
    common_lines(climate, sums);
  }
}

TEST(GeneratedYears, TheSameSeedGivesTheSameBits) {
  const Climate climate = tests::dry_summer();
  for (int draw = 0; draw < n_years; draw += 50) {
    const WeatherYear a = generate_year(climate.place, climate.normals, 5, draw).value();
    const WeatherYear b = generate_year(climate.place, climate.normals, 5, draw).value();
    EXPECT_EQ(a.air_temperature_c, b.air_temperature_c);
    EXPECT_EQ(a.rain_mm_per_10_min, b.rain_mm_per_10_min);
    EXPECT_EQ(a.global_w_per_m2, b.global_w_per_m2);
  }
}

}  // namespace
}  // namespace houseleek::climate
