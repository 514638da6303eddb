// Months of made years beside theory and beside what stations have recorded: no bias, how far they scatter, what goes
// together.
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
#include "support/reference_check.hpp"

namespace houseleek::climate {
namespace {

using houseleek::tests::check_reference;
using tests::Climate;
using tests::Pairs;

constexpr int n_years = 100;

double pooled(const Months& sd) {
  double sum = 0.0;
  for (const double value : sd) sum += value * value / 12.0;
  return std::sqrt(sum);
}

struct DrawnYears {
  std::vector<Months> mean_c, max_c, rain_mm, wet_days, global_mj_per_m2_d, wind_m_per_s;
};

DrawnYears years_of(const Climate& climate) {
  DrawnYears years;
  for (int draw = 1; draw <= n_years; ++draw) {
    const auto year = generate_year(climate.place, climate.normals, 31, draw);
    EXPECT_TRUE(year.has_value()) << climate.name << ": " << (year ? "" : year.error().front().message);
    if (!year) continue;
    const YearSummary summary = summarise(year.value());
    Months mean_c{};
    for (std::size_t m = 0; m < 12; ++m) mean_c[m] = 0.5 * (summary.max_c[m] + summary.min_c[m]);
    years.mean_c.push_back(mean_c);
    years.max_c.push_back(summary.max_c);
    years.rain_mm.push_back(summary.rain_mm);
    years.wet_days.push_back(summary.wet_days);
    years.global_mj_per_m2_d.push_back(summary.global_mj_per_m2_d);
    years.wind_m_per_s.push_back(summary.wind_m_per_s);
  }
  return years;
}

Months means_of(const std::vector<Months>& years) {
  Months mean{};
  for (const Months& year : years) {
    for (std::size_t m = 0; m < 12; ++m) mean[m] += year[m] / static_cast<double>(years.size());
  }
  return mean;
}

Months sds_of(const std::vector<Months>& years) {
  const Months mean = means_of(years);
  Months variance{};
  for (const Months& year : years) {
    for (std::size_t m = 0; m < 12; ++m) {
      variance[m] += (year[m] - mean[m]) * (year[m] - mean[m]) / static_cast<double>(years.size() - 1);
    }
  }
  for (double& value : variance) value = std::sqrt(value);
  return variance;
}

/// Correlation between years, mean of the hottest three months.
double in_summer(const std::vector<Months>& a, const std::vector<Months>& b, const MonthlyNormals& normals) {
  double sum = 0.0;
  for (const int month : hottest_months(normals)) {
    Pairs pairs;
    for (std::size_t i = 0; i < a.size(); ++i) {
      pairs.add(a[i][static_cast<std::size_t>(month)], b[i][static_cast<std::size_t>(month)]);
    }
    sum += pairs.correlation() / 3.0;
  }
  return sum;
}

TEST(MonthsVary, WithoutBiasAndAsFarAsWanted) {
  const Climate climate = tests::cold_inland();
  const DrawnYears years = years_of(climate);
  double off_k = 0.0;
  double rain_mm = 0.0;
  double rain_wanted_mm = 0.0;
  double sun_frac = 0.0;
  const Months mean_c = means_of(years.mean_c);
  const Months rain = means_of(years.rain_mm);
  const Months sun = means_of(years.global_mj_per_m2_d);
  for (std::size_t m = 0; m < 12; ++m) {
    off_k += (mean_c[m] - 0.5 * (climate.normals.max_c[m] + climate.normals.min_c[m])) / 12.0;
    rain_mm += rain[m];
    rain_wanted_mm += climate.normals.rain_mm[m];
    sun_frac += sun[m] / (*climate.normals.global_mj_per_m2_d)[m] / 12.0;
  }
  check_reference({.id = "CLI-YEAR-01",
                   .what = "mean temperature of 100 years whose months vary, less the normals, K",
                   .source = "the normals, by definition of unbiased",
                   .expected = 0.0,
                   .got = off_k,
                   .tolerance = 0.23,
                   .reason = "three standard errors: a year's mean scatters by 0.75 K",
                   .function = "climate::generate_year"});
  check_reference({.id = "CLI-YEAR-02",
                   .what = "standard deviation of monthly mean temperature over usual_month_mean_sd_k, all months",
                   .source = "the line asked for, by definition",
                   .expected = 1.0,
                   .got = pooled(sds_of(years.mean_c)) / pooled(usual_month_mean_sd_k(climate.normals)),
                   .tolerance = 0.08,
                   .reason = "three standard errors of 1200 months that hang together are 0.07; wet days add to it",
                   .function = "climate::shifts_of_months"});
  check_reference({.id = "CLI-YEAR-05",
                   .what = "rain of 100 years whose months vary over the normals",
                   .source = "the normals, by definition of unbiased",
                   .expected = 1.0,
                   .got = rain_mm / rain_wanted_mm,
                   .tolerance = 0.06,
                   .reason = "three standard errors: a year's rain scatters by a fifth",
                   .function = "climate::drawn_rain_of_days_mm"});
  check_reference({.id = "CLI-YEAR-09",
                   .what = "radiation of 100 years whose months vary over the normals, mean of the months",
                   .source = "the normals, by definition of unbiased",
                   .expected = 1.0,
                   .got = sun_frac,
                   .tolerance = 0.009,
                   .reason = "three standard errors: a month scatters by a tenth",
                   .function = "climate::clearness_of_year_days"});
  check_reference({.id = "CLI-YEAR-31",
                   .what = "correlation between years of radiation and mean maximum, mean of the hottest three months",
                   .source = "[metoffice_oxford] June 0.66, July 0.85, August 0.70 of 1995 to 2018, sunshine for "
                             "radiation (recomputed from the text seen)",
                   .expected = 0.74,
                   .got = in_summer(years.global_mj_per_m2_d, years.max_c, climate.normals),
                   .tolerance = 0.24,
                   .reason = "standard error of 24 years three times: 0.08 (correlations near 0.7); another climate",
                   .function = "climate::shifts_of_months"});
  check_reference({.id = "CLI-YEAR-32",
                   .what = "correlation between years of rain and mean maximum, mean of the hottest three months",
                   .source = "[metoffice_oxford] June -0.48, July -0.29, August -0.41 of 1995 to 2018 (recomputed from "
                             "the text seen)",
                   .expected = -0.39,
                   .got = in_summer(years.rain_mm, years.max_c, climate.normals),
                   .tolerance = 0.30,
                   .reason = "three standard errors of the record, 0.10",
                   .function = "climate::shifts_of_months"});
}

TEST(MonthsVary, AsFarAsADesignSays) {
  Climate climate = tests::cold_inland();
  Months sd_k{};
  for (const double wanted_k : {2.0, 0.5}) {
    sd_k.fill(wanted_k);
    climate.normals.month_mean_sd_k = sd_k;
    check_reference({.id = wanted_k > 1.0 ? "CLI-YEAR-03" : "CLI-YEAR-04",
                     .what = "standard deviation of monthly mean temperature where a design gives it, K",
                     .source = "the figure given, by definition",
                     .expected = wanted_k,
                     .got = pooled(sds_of(years_of(climate).mean_c)),
                     .tolerance = 0.08 * wanted_k,
                     .reason = "three standard errors of 1200 months that hang together are 7 %; wet days add to it",
                     .function = "climate::shifts_of_months"});
  }
  climate = tests::cold_inland();
  Months sd_mm = rain_sd_of_wet_days_mm({climate.normals.rain_mm, *climate.normals.rain_days});
  for (double& mm : sd_mm) mm *= 1.5;
  climate.normals.month_rain_sd_mm = sd_mm;
  check_reference({.id = "CLI-YEAR-06",
                   .what = "standard deviation of monthly rain over the one a design gives, all months",
                   .source = "the figure given, by definition",
                   .expected = 1.0,
                   .got = pooled(sds_of(years_of(climate).rain_mm)) / pooled(sd_mm),
                   .tolerance = 0.12,
                   .reason = "three standard errors of 1200 skewed sums",
                   .function = "climate::draw_month_departures"});
}

TEST(MonthsVary, MeansOfDaysByTheory) {
  struct Row {
    const char* id;
    int n_days;
    double expected;
  };
  for (const Row& row :
       {Row{"CLI-YEAR-07", 30, 0.3719}, Row{"CLI-YEAR-08", 31, 0.3664}, Row{"CLI-YEAR-10", 1, 0.9036}}) {
    check_reference({.id = row.id,
                     .what = "standard deviation of the mean of " + std::to_string(row.n_days) +
                             " days' departures, maximum and minimum together",
                     .source = "matrices of [richardson1981] summed by another program; one day: sqrt((1 + 0.633)/2)",
                     .expected = row.expected,
                     .got = mean_score_sd(row.n_days, 0.29),
                     .tolerance = 6e-5,
                     .reason = "printed digits",
                     .function = "climate::mean_score_sd"});
  }
}

TEST(MonthsVary, RainOfWetDaysByTheory) {
  RainNormals rain;
  rain.rain_mm.fill(60.0);
  rain.rain_days.fill(10.0);
  rain.rain_mm[0] = 31.0;
  rain.rain_days[0] = 31.0 / 3.0;
  const Months sd_mm = rain_sd_of_wet_days_mm(rain);
  const std::string source =
      "by hand: N p2/k + p2 N (1 - f) (1 + r)/(1 - r), r = 0.25; count's part by [richardson1981], k by [geng1986]";
  check_reference({.id = "CLI-YEAR-21",
                   .what = "standard deviation of a month's rain: 10 of 30 days wet, 6 mm each, mm",
                   .source = source,
                   .expected = 30.483,
                   .got = sd_mm[3],
                   .tolerance = 0.001,
                   .reason = "printed digits",
                   .function = "climate::rain_sd_of_wet_days_mm"});
  check_reference({.id = "CLI-YEAR-22",
                   .what = "standard deviation of a month's rain: a third of 31 days wet, 3 mm each, mm",
                   .source = source,
                   .expected = 14.373,
                   .got = sd_mm[0],
                   .tolerance = 0.001,
                   .reason = "printed digits",
                   .function = "climate::rain_sd_of_wet_days_mm"});
}

/// Only means are known; the daily range plays no part.
MonthlyNormals normals_of_means(const Months& mean_c) {
  MonthlyNormals normals;
  for (std::size_t m = 0; m < 12; ++m) {
    normals.max_c[m] = mean_c[m] + 4.0;
    normals.min_c[m] = mean_c[m] - 4.0;
  }
  return normals;
}

TEST(MonthsVary, AsFarAsStationsHaveRecorded) {
  struct Station {
    const char* id;
    const char* name;
    const char* source;
    Months mean_c;
    double recorded_k;  // root of the mean square of the twelve
    double tolerance_k;
  };
  const Station stations[] = {{"CLI-YEAR-11",
                               "Porto, 1961 to 1980",
                               "[crutem4] station 085450, its own line of standard deviations (text seen)",
                               {9.3, 10.1, 11.0, 12.6, 14.7, 17.3, 19.1, 19.0, 18.1, 15.8, 11.7, 9.5},
                               1.154,
                               0.173},
                              {"CLI-YEAR-12",
                               "London Gatwick, 1961 to 1990",
                               "[crutem4] station 037760, its own line of standard deviations (text seen)",
                               {3.8, 3.9, 5.8, 8.0, 11.3, 14.4, 16.5, 16.2, 13.8, 10.8, 6.6, 4.7},
                               1.391,
                               0.209},
                              {"CLI-YEAR-13",
                               "Nottingham, 1920 to 1939",
                               "[anderson1976] (recomputed from the text seen)",
                               {4.28, 3.99, 5.66, 7.94, 11.42, 14.47, 16.61, 15.84, 13.60, 9.72, 5.88, 4.18},
                               1.286,
                               0.193}};
  for (const Station& station : stations) {
    check_reference({.id = station.id,
                     .what = std::string("standard deviation of monthly mean temperature, all months, ") + station.name,
                     .source = station.source,
                     .expected = station.recorded_k,
                     .got = pooled(usual_month_mean_sd_k(normals_of_means(station.mean_c))),
                     .tolerance = station.tolerance_k,
                     .reason = "three standard errors of 20 to 30 years; the line was laid through these",
                     .function = "climate::usual_month_mean_sd_k"});
  }
}

TEST(MonthsVary, ClearnessAsFarAsAStationHasRecorded) {
  // Sunshine of June, July and August scatters by 47.4, 42.6 and 34.5 h in 494, 500 and 455 h of daylight; half of its
  // share ([allen1998] Eq. 35) is clearness: 0.0430 at a mean of 0.457.
  const DrawnYears years = years_of(tests::even_clearness(0.457));
  const Months mean = means_of(years.global_mj_per_m2_d);
  const Months sd = sds_of(years.global_mj_per_m2_d);
  double clearness_sd = 0.0;
  for (std::size_t m = 0; m < 12; ++m) clearness_sd += 0.457 * sd[m] / mean[m] / 12.0;
  check_reference({.id = "CLI-YEAR-33",
                   .what = "standard deviation of a month's clearness, mean clearness 0.457",
                   .source =
                       "[metoffice_oxford] sunshine of June to August, 1995 to 2018 (recomputed from the text seen) "
                       "by [allen1998] Eq. 35",
                   .expected = 0.0430,
                   .got = clearness_sd,
                   .tolerance = 0.011,
                   .reason = "three standard errors of 72 months",
                   .function = "climate::clearness_of_year_days"});
}

MonthlyNormals recorded(const Months& max_c, const Months& min_c, const Months& rain_mm, const Months& rain_days,
                        const Months& wind_m_per_s) {
  MonthlyNormals normals;
  normals.max_c = max_c;
  normals.min_c = min_c;
  normals.rain_mm = rain_mm;
  normals.rain_days = rain_days;
  normals.wind_m_per_s = wind_m_per_s;
  return normals;
}

/// Means of four recorded years.
Climate seattle() {
  return {.name = "Seattle",
          .place = {47.6, -122.3, 50.0, -8.0},
          .normals = recorded({8.23, 9.86, 12.39, 15.02, 19.30, 22.40, 26.00, 26.11, 21.92, 16.39, 11.02, 8.19},
                              {2.70, 4.05, 4.86, 6.36, 9.61, 12.24, 14.20, 14.77, 12.36, 9.35, 4.70, 3.32},
                              {116.5, 105.5, 151.6, 93.9, 51.9, 33.2, 12.1, 40.9, 58.9, 125.9, 160.6, 155.7},
                              {16.50, 18.25, 18.25, 14.75, 8.50, 9.25, 2.75, 5.50, 8.75, 15.25, 17.75, 20.25},
                              {3.14, 3.79, 3.58, 3.52, 3.12, 3.13, 2.91, 2.75, 2.96, 2.94, 3.48, 3.62})};
}

Climate new_york() {
  return {.name = "New York",
          .place = {40.7, -74.0, 10.0, -5.0},
          .normals = recorded({4.38, 4.15, 9.12, 15.76, 21.36, 25.89, 29.50, 28.50, 25.32, 18.98, 12.10, 9.33},
                              {-3.35, -3.46, 0.80, 6.29, 12.71, 17.47, 21.54, 20.30, 16.60, 11.21, 4.16, 2.78},
                              {82.0, 69.5, 80.0, 84.8, 96.5, 142.5, 69.6, 92.9, 63.5, 66.4, 62.1, 135.1},
                              {10.75, 10.50, 10.25, 8.00, 11.00, 11.50, 10.00, 6.75, 8.00, 8.75, 7.25, 14.75},
                              {5.79, 5.59, 5.64, 5.67, 4.42, 4.55, 4.37, 4.12, 4.27, 5.04, 5.17, 4.97})};
}

TEST(MonthsVary, AsFarAsFourYearsHaveRecorded) {
  // tests/schema/weather_records.test.mjs works the eight figures out of the record again.
  const DrawnYears west = years_of(seattle());
  const DrawnYears east = years_of(new_york());
  struct Row {
    const char* id;
    const char* what;
    const char* source;
    double expected;
    double got;
    double tolerance;
  };
  const char* of_west = "[noaa_seattle] 2012 to 2015 (recomputed from the record)";
  const char* of_east = "[noaa_new_york] 2012 to 2015 (recomputed from the record)";
  for (const Row& row :
       {Row{"CLI-YEAR-41-1", "mean temperature, K, Seattle", of_west, 1.429, pooled(sds_of(west.mean_c)), 0.51},
        Row{"CLI-YEAR-41-2", "mean temperature, K, New York", of_east, 1.960, pooled(sds_of(east.mean_c)), 0.71},
        Row{"CLI-YEAR-42-1", "rain, mm, Seattle", of_west, 55.6, pooled(sds_of(west.rain_mm)), 26.7},
        Row{"CLI-YEAR-42-2", "rain, mm, New York", of_east, 44.3, pooled(sds_of(east.rain_mm)), 21.3},
        Row{"CLI-YEAR-43-1", "wet days, Seattle", of_west, 3.72, pooled(sds_of(west.wet_days)), 1.34},
        Row{"CLI-YEAR-43-2", "wet days, New York", of_east, 2.86, pooled(sds_of(east.wet_days)), 1.03},
        Row{"CLI-YEAR-44-1", "wind, m/s, Seattle", of_west, 0.428, pooled(sds_of(west.wind_m_per_s)), 0.154},
        Row{"CLI-YEAR-44-2", "wind, m/s, New York", of_east, 0.363, pooled(sds_of(east.wind_m_per_s)), 0.131}}) {
    check_reference({.id = row.id,
                     .what = std::string("standard deviation between years of a month's ") + row.what + ", all months",
                     .source = row.source,
                     .expected = row.expected,
                     .got = row.got,
                     .tolerance = row.tolerance,
                     .reason = "three standard errors of 36 degrees of freedom, 12 % each (16 % for rain, skewed)",
                     .function = "climate::generate_year"});
  }
}

TEST(MonthsVary, ALimitOfTheDayKeepsTheMean) {
  const ClearnessOfDays days = clearness_of_days_below(0.65, 0.72);
  constexpr int n = 20000;
  double mean = 0.0;
  for (int i = 0; i < n; ++i) mean += clearness_quantile(days, (i + 0.5) / n) / n;
  check_reference({.id = "CLI-KD-16",
                   .what = "mean clearness of days of which none is above 0.72, month 0.65",
                   .source = "the mean asked for, by definition; 20000 quantiles",
                   .expected = 0.65,
                   .got = mean,
                   .tolerance = 1e-5,
                   .reason = "midpoints of 20000 parts",
                   .function = "climate::clearness_of_days_below"});
  EXPECT_LE(clearness_quantile(days, 1.0), 0.72);
  EXPECT_GT(clearness_of_days(0.65).most, 0.72) << "the limit is what binds";
}

}  // namespace
}  // namespace houseleek::climate
