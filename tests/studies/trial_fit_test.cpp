// The model fitted to a project's readings: a hidden truth is found, accepted values narrow the study's error and range,
// and what cannot be told is said.
#include "studies/trial_fit.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "studies/hidden_truth.hpp"
#include "studies/small_study.hpp"
#include "studies/weather.hpp"

namespace houseleek::tests {
namespace {

TEST(TrialFit, AHiddenGapIsFoundAndTheStudyComesCloser) {
  const HiddenTruth truth{.seed = 1, .gap_wind_frac = 0.3, .n_days = 10};
  const Loop loop = run_loop(truth);
  ASSERT_EQ(loop.fit.figures.size(), 1U);
  const report::FittedFigure& gap = loop.fit.figures.front();
  EXPECT_EQ(gap.path, "recipe[0].spacer.gap_wind_frac");
  EXPECT_EQ(gap.before, 0.1);
  EXPECT_EQ(gap.low_before, 0.03);
  ASSERT_TRUE(gap.fitted.low.has_value());
  EXPECT_LE(*gap.fitted.low, 0.3) << gap.fitted.value;
  EXPECT_GE(*gap.fitted.high, 0.3) << gap.fitted.value;
  EXPECT_EQ(loop.fit.refused_because, "");
  EXPECT_LT(loop.fit.fit.rms_fitted, loop.fit.fit.rms_start);
  EXPECT_EQ(loop.fit.held_back_days.size(), 2U);
  EXPECT_NE(loop.fit.weather.find("outside air from \"yard\""), std::string::npos) << loop.fit.weather;
  // The accepted text says where the figure comes from, and its own range stands behind the answers.
  const design::ValidDesign fitted = valid_design(loop.fitted_text);
  bool is_listed = false;
  for (const design::Assumption& one : fitted.assumed()) {
    if (one.path != gap.path) continue;
    is_listed = true;
    EXPECT_EQ(one.from, design::AssumedFrom::measured);
    EXPECT_LT(one.high - one.low, 0.3 - 0.03);
    EXPECT_NE(one.source.find("measured on this roof, 2026-03-01 to 2026-03-10"), std::string::npos) << one.source;
  }
  EXPECT_TRUE(is_listed);
  // Every line of before but the spacer's stands as it was.
  EXPECT_NE(loop.fitted_text.find("# Invented so that the end of March"), std::string::npos);
  const report::StudyAnswer true_study = study_of(true_text(truth));
  const double before = error_of(study_of(believed_text(truth)), true_study);
  const double after = error_of(study_of(loop.fitted_text), true_study);
  EXPECT_LT(after, 0.5 * before) << before << " " << after;
}

TEST(TrialFit, MeasuredAirKeepsHumidityAndSky) {
  const design::ValidDesign design = valid_design(small_design_text());
  climate::WeatherYear year = studies::make_weather(design, std::nullopt).value();
  logbook::LoggerColumn yard{"yard", {}, {}};
  constexpr std::int64_t first_day = 20'000;
  for (int i = 0; i <= 48; ++i) {
    yard.time_s.push_back(first_day * logbook::n_seconds_in_day + i * 1800);
    yard.value_c.push_back(10.0 + 0.1 * i);
  }
  const studies::RunSpan span{.first_day = first_day, .first_hour = 24, .n_hours = 48, .spin_up_hours = 24};
  const studies::MeasuredAir air = studies::with_measured_air(year, yard, span);
  EXPECT_EQ(air.n_hours_measured, 25);  // the marks of one day, both ends counted
  EXPECT_NEAR(air.weather.air_temperature_c[24 + 5], 11.0, 1e-12);
  EXPECT_EQ(air.weather.air_temperature_c[23], year.air_temperature_c[23]);
  EXPECT_EQ(air.weather.air_temperature_c[24 + 25], year.air_temperature_c[24 + 25]);
  const double ratio = (11.0 + 273.15) / (year.air_temperature_c[29] + 273.15);
  EXPECT_NEAR(air.weather.sky_longwave_w_per_m2[29] / year.sky_longwave_w_per_m2[29], std::pow(ratio, 4.0), 1e-12);
}

TEST(TrialFit, WordsThatFitNothingAreRefused) {
  const design::ValidDesign design = valid_design(believed_text({}));
  const auto refused = studies::fit_candidates(design, 0, {"gab"});
  ASSERT_FALSE(refused.has_value());
  EXPECT_NE(refused.error().front().hint.find("recipe[0].spacer.gap_wind_frac"), std::string::npos);
  const auto twice = studies::fit_candidates(design, 0, {"gap", "recipe[0].spacer.gap_wind_frac", "finish"});
  ASSERT_TRUE(twice.has_value());
  EXPECT_EQ(twice.value().size(), 2U);
  const auto all = studies::fit_candidates(design, 0, {"conductivity", "wet", "evaporation"});
  ASSERT_TRUE(all.has_value());
  EXPECT_EQ(all.value().size(), 3U);
}

}  // namespace
}  // namespace houseleek::tests
