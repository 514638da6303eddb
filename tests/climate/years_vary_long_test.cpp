// Five hundred years whose months vary, in the three invented climates and an example's: no bias, the stated scatter, and
// what months have to do with each other. Every line is printed; docs/equations/climate.md has what came out.
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
#include "climate/generate_months.hpp"
#include "climate/invented_climates.hpp"
#include "climate/summary.hpp"
#include "climate/year_statistics.hpp"
#include "physics/air.hpp"

namespace houseleek::climate {
namespace {

using tests::Climate;
using tests::Pairs;

constexpr int n_years = 500;
using MonthRow = std::array<double, 12>;
using Rows = std::vector<MonthRow>;

void line(const std::string& climate, const std::string& what, double got, double least, double most) {
  const bool is_within = got >= least && got <= most;
  fmt::print("{:12} {:58} {:9.4f}  {} .. {}{}\n", climate, what, got, least, most, is_within ? "" : "  OUTSIDE");
  EXPECT_GE(got, least) << climate << ": " << what;
  EXPECT_LE(got, most) << climate << ": " << what;
}

void told(const std::string& climate, const std::string& what, const MonthRow& months) {
  std::string text;
  for (const double value : months) text += fmt::format(" {:7.3f}", value);
  fmt::print("{:12} {}:{}\n", climate, what, text);
}

MonthRow means_of(const Rows& rows) {
  MonthRow mean{};
  for (const MonthRow& row : rows) {
    for (std::size_t m = 0; m < 12; ++m) mean[m] += row[m] / static_cast<double>(rows.size());
  }
  return mean;
}

MonthRow sds_of(const Rows& rows) {
  const MonthRow mean = means_of(rows);
  MonthRow sd{};
  for (const MonthRow& row : rows) {
    for (std::size_t m = 0; m < 12; ++m) {
      sd[m] += (row[m] - mean[m]) * (row[m] - mean[m]) / static_cast<double>(rows.size() - 1);
    }
  }
  for (double& value : sd) value = std::sqrt(value);
  return sd;
}

double pooled(const MonthRow& sd) {
  double sum = 0.0;
  for (const double value : sd) sum += value * value / 12.0;
  return std::sqrt(sum);
}

/// The largest departure of a month's mean from what it should be, in standard errors.
double worst_bias(const Rows& rows, const MonthRow& wanted) {
  const MonthRow mean = means_of(rows);
  const MonthRow sd = sds_of(rows);
  double worst = 0.0;
  for (std::size_t m = 0; m < 12; ++m) {
    if (sd[m] <= 0.0) continue;
    worst = std::max(worst, std::abs(mean[m] - wanted[m]) / (sd[m] / std::sqrt(1.0 * n_years)));
  }
  return worst;
}

struct Years {
  Rows max_c, min_c, mean_c, rain_mm, wet_days, clearness, global_mj, vapour_pa, humidity_frac, wind_m_per_s;
  int n_damp = 0;
  int n_bright = 0;
};

void add_bounds(Years& years, const WeatherYear& year) {
  for (std::size_t hour = 0; hour < 8760; ++hour) {
    years.n_damp +=
        year.vapour_pressure_pa[hour] > physics::saturation_vapour_pressure_pa(year.air_temperature_c[hour]) ? 1 : 0;
    const double outside = tests::outside_w_per_m2(year, hour);
    if (outside <= 0.0) {
      years.n_bright += year.global_w_per_m2[hour] != 0.0 ? 1 : 0;
      continue;
    }
    double angle_rad = year.sun_hour_angle_rad[hour] + 3.14159265358979324 / 24.0;
    if (angle_rad < -3.14159265358979324) angle_rad += 2.0 * 3.14159265358979324;
    const double most = outside * 0.88 * std::cos(0.4 * angle_rad) * (1.0 + 1e-12);
    years.n_bright += year.global_w_per_m2[hour] < 0.0 || year.global_w_per_m2[hour] > most ? 1 : 0;
  }
}

Years years_of(const Climate& climate) {
  Years years;
  for (int draw = 1; draw <= n_years; ++draw) {
    const auto made = generate_year(climate.place, climate.normals, 2024, draw);
    EXPECT_TRUE(made.has_value()) << climate.name << ", draw " << draw;
    if (!made) continue;
    const YearSummary summary = summarise(made.value());
    years.max_c.push_back(summary.max_c);
    years.min_c.push_back(summary.min_c);
    years.mean_c.emplace_back();
    for (std::size_t m = 0; m < 12; ++m) years.mean_c.back()[m] = 0.5 * (summary.max_c[m] + summary.min_c[m]);
    years.rain_mm.push_back(summary.rain_mm);
    years.wet_days.push_back(summary.wet_days);
    years.global_mj.push_back(summary.global_mj_per_m2_d);
    years.vapour_pa.push_back(summary.vapour_pressure_pa);
    years.humidity_frac.push_back(summary.relative_humidity_frac);
    years.wind_m_per_s.push_back(summary.wind_m_per_s);
    add_bounds(years, made.value());
  }
  return years;
}

double correlation(const Rows& a, const Rows& b, const std::vector<std::size_t>& months) {
  const MonthRow mean_a = means_of(a);
  const MonthRow mean_b = means_of(b);
  const MonthRow sd_a = sds_of(a);
  const MonthRow sd_b = sds_of(b);
  double sum = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    for (const std::size_t m : months) sum += (a[i][m] - mean_a[m]) / sd_a[m] * (b[i][m] - mean_b[m]) / sd_b[m];
  }
  return sum / static_cast<double>(a.size() * months.size());
}

/// Of each month with the next one of the same year.
double persistence(const Rows& rows) {
  const MonthRow mean = means_of(rows);
  const MonthRow sd = sds_of(rows);
  double sum = 0.0;
  for (const MonthRow& row : rows) {
    for (std::size_t m = 0; m + 1 < 12; ++m) sum += (row[m] - mean[m]) / sd[m] * (row[m + 1] - mean[m + 1]) / sd[m + 1];
  }
  return sum / (11.0 * static_cast<double>(rows.size()));
}

void lines_of(const Climate& climate) {
  const std::string name = climate.name;
  const MonthlyNormals& normals = climate.normals;
  const Years years = years_of(climate);
  ASSERT_EQ(years.max_c.size(), static_cast<std::size_t>(n_years));
  const WeatherYear even = generate_year(climate.place, normals, 2024, 0).value();
  const YearSummary wanted = summarise(even);

  // The worst of twelve lies below 3.5 standard errors in 99.5 of 100 trials.
  line(name, "bias of the maximum, worst month, standard errors", worst_bias(years.max_c, normals.max_c), 0.0, 3.5);
  line(name, "bias of the minimum, worst month, standard errors", worst_bias(years.min_c, normals.min_c), 0.0, 3.5);
  line(name, "bias of rain, worst month, standard errors", worst_bias(years.rain_mm, normals.rain_mm), 0.0, 3.5);
  line(name, "bias of radiation, worst month, standard errors", worst_bias(years.global_mj, wanted.global_mj_per_m2_d),
       0.0, 3.5);
  line(name, "bias of wind, worst month, standard errors", worst_bias(years.wind_m_per_s, wanted.wind_m_per_s), 0.0,
       3.5);
  double humidity_off = 0.0;
  const MonthRow humidity = means_of(years.humidity_frac);
  for (std::size_t m = 0; m < 12; ++m) {
    humidity_off = std::max(humidity_off, std::abs(humidity[m] / wanted.relative_humidity_frac[m] - 1.0));
  }
  line(name, "bias of relative humidity, worst month, share", humidity_off, 0.0, 0.03);

  const Months rain_days = normals.rain_days ? *normals.rain_days : estimated_rain_days(normals.rain_mm);
  const RainNormals rain = {normals.rain_mm, rain_days};
  const Months wanted_sd_k = usual_month_mean_sd_k(normals);
  const Months wet_days_sd_mm = rain_sd_of_wet_days_mm(rain);
  told(name, "sd of monthly mean temperature, K        ", sds_of(years.mean_c));
  told(name, "  wanted                                 ", wanted_sd_k);
  told(name, "sd of monthly mean maximum, K            ", sds_of(years.max_c));
  told(name, "sd of monthly mean minimum, K            ", sds_of(years.min_c));
  told(name, "sd of monthly rain, mm                   ", sds_of(years.rain_mm));
  told(name, "  of wet days alone, by theory           ", wet_days_sd_mm);
  told(name, "sd of wet days                           ", sds_of(years.wet_days));
  told(name, "sd of monthly radiation, MJ/m2 a day     ", sds_of(years.global_mj));
  told(name, "sd of relative humidity                  ", sds_of(years.humidity_frac));
  line(name, "sd of monthly mean temperature over the wanted", pooled(sds_of(years.mean_c)) / pooled(wanted_sd_k), 0.95,
       1.08);
  line(name, "sd of monthly rain over wet days' by theory", pooled(sds_of(years.rain_mm)) / pooled(wet_days_sd_mm),
       1.10, 1.30);
  MonthRow count_sd{};
  for (std::size_t m = 0; m < 12; ++m) {
    const double share = rain_days[m] / n_days_in_month[m];
    count_sd[m] = std::sqrt(n_days_in_month[m] * share * (1.0 - share) * 1.25 / 0.75);
  }
  line(name, "sd of wet days over the chain's by theory", pooled(sds_of(years.wet_days)) / pooled(count_sd), 0.92,
       1.05);

  const std::vector<std::size_t> all = {0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11};
  std::vector<std::size_t> summer;
  for (const int month : hottest_months(normals)) summer.push_back(static_cast<std::size_t>(month));
  line(name, "months: rain with radiation", correlation(years.rain_mm, years.global_mj, all), -0.8, -0.2);
  line(name, "months: rain with wet days", correlation(years.rain_mm, years.wet_days, all), 0.4, 0.9);
  line(name, "hottest three months: radiation with maximum", correlation(years.global_mj, years.max_c, summer), 0.5,
       0.85);
  line(name, "hottest three months: rain with maximum", correlation(years.rain_mm, years.max_c, summer), -0.6, -0.05);
  line(name, "months: maximum with minimum", correlation(years.max_c, years.min_c, all), 0.6, 0.95);
  line(name, "month with the next: temperature", persistence(years.mean_c), 0.05, 0.35);
  line(name, "hours above saturation", years.n_damp, 0, 0);
  line(name, "hours with too much sun or with sun at night", years.n_bright, 0, 0);
}

/// Invented, as in examples/01-terrace-house.
Climate terrace_house() {
  Climate climate = {.name = "terrace", .place = {38.2, 22.6, 60.0, 2.0}, .normals = {}};
  climate.normals.max_c = {13.5, 14.2, 16.5, 20.5, 25.8, 30.6, 33.4, 33.2, 29.0, 23.6, 18.4, 14.8};
  climate.normals.min_c = {5.6, 5.9, 7.4, 10.2, 14.4, 18.6, 21.0, 21.1, 17.8, 13.8, 10.0, 7.1};
  climate.normals.rain_mm = {78, 66, 54, 32, 18, 8, 4, 6, 22, 62, 84, 96};
  climate.normals.rain_days = Months{11, 9.5, 8, 6, 4, 2, 1, 1, 3, 7, 9.5, 12};
  climate.normals.sunshine_h = Months{140, 150, 195, 240, 300, 340, 370, 345, 270, 205, 150, 125};
  climate.normals.relative_humidity_frac = Months{.74, .72, .69, .64, .58, .51, .47, .49, .57, .68, .75, .76};
  climate.normals.wind_m_per_s = Months{2.8, 2.9, 2.8, 2.5, 2.4, 2.6, 2.9, 2.8, 2.5, 2.4, 2.4, 2.7};
  return climate;
}

TEST(YearsVary, FiveHundredInFourClimates) {
  for (const Climate& climate : {tests::dry_summer(), tests::cold_inland(), tests::humid_south(), terrace_house()}) {
    lines_of(climate);
  }
}

}  // namespace
}  // namespace houseleek::climate
