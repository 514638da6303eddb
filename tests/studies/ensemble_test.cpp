// Several years: the same years for every cover, the same answer on any threads, failed years counted.
#include "studies/ensemble.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <atomic>
#include <set>
#include <thread>

#include "base/issue_text.hpp"
#include "report/json_parts.hpp"
#include "report/study_json.hpp"
#include "report/study_text.hpp"
#include "simulation/cover_layers.hpp"
#include "stats/quantile.hpp"
#include "studies/small_study.hpp"
#include "studies/water_answers.hpp"
#include "studies/weather.hpp"

namespace houseleek::studies {
namespace {

using report::CoverKind;
using tests::edited;
using tests::short_options;
using tests::small_design_text;
using tests::study_of;

/// Four days of the hot quarter.
StudyOptions options_of(int n_years) {
  StudyOptions options = short_options();
  options.run.n_hours = 24 * 4;
  options.run.spin_up_hours = 24;
  options.n_years = n_years;
  return options;
}

/// So many threads, each taking the next task.
Executor executor_of(unsigned n_threads) {
  return [n_threads](std::span<const Task> tasks, const std::function<void()>& watch) {
    std::atomic<std::size_t> next = 0;
    std::vector<std::thread> threads;
    for (unsigned i = 0; i < n_threads; ++i) {
      threads.emplace_back([&] {
        for (std::size_t at = next++; at < tasks.size(); at = next++) tasks[at]({});
      });
    }
    for (std::thread& thread : threads) thread.join();
    watch();
  };
}

TEST(Ensemble, TheSameSeedGivesTheSameBytesForOneAndTwoThreads) {
  const auto bytes_of = [](const std::string& text, unsigned n_threads) {
    return report::text_from(report::json_from(study_of(text, options_of(3), executor_of(n_threads))));
  };
  const std::string one = bytes_of(small_design_text(), 1);
  EXPECT_EQ(one, bytes_of(small_design_text(), 2));
  EXPECT_EQ(one, bytes_of(small_design_text(), 2)) << "and again";
  EXPECT_NE(one, bytes_of(edited(small_design_text(), {{"seed = 7", "seed = 8"}}), 2));
}

TEST(Ensemble, FiguresAreQuantilesOfTheYearsThemselves) {
  // The years one by one: the n-th year's own figures follow from the weather of its draw.
  const design::ValidDesign design = tests::valid_design(small_design_text());
  const plan::Layout layout = plan::make_layout(design);
  std::vector<double> differences_k_h;
  std::vector<double> bare_k_h;
  for (int draw = 0; draw < 3; ++draw) {
    const climate::WeatherYear weather = make_weather(design, std::nullopt, draw).value();
    const LimitsByDay limits = adaptive_limits_by_day(weather);
    const RunInputs inputs = run_inputs_of(design, layout, weather, limits, options_of(1).run);
    const RunSums bare = run_cover(inputs, CoverKind::bare, false, {});
    const RunSums planted = run_cover(inputs, CoverKind::planted, false, {});
    bare_k_h.push_back(bare.rooms[0].all.degree_hours_above_k_h);
    differences_k_h.push_back(planted.rooms[0].all.degree_hours_above_k_h - bare_k_h.back());
  }
  const report::StudyAnswer answer = study_of(small_design_text(), options_of(3));
  const report::Figure& bare = answer.house.covers[report::index_of(CoverKind::bare)].degree_hours_above_k_h;
  EXPECT_EQ(*bare.value, stats::quantile(bare_k_h, 0.5));
  EXPECT_EQ(bare.range->low, stats::quantile(bare_k_h, 0.1));
  EXPECT_EQ(bare.range->high, stats::quantile(bare_k_h, 0.9));
  const report::Figure& difference = answer.house.planted_minus_bare.degree_hours_above_k_h;
  EXPECT_EQ(*difference.value, stats::quantile(differences_k_h, 0.5));
  EXPECT_EQ(difference.range->low, stats::quantile(differences_k_h, 0.1));
  EXPECT_EQ(difference.range->from, "10, 50 and 90 % of 3 years of weather made from the normals");
  // The years differ, and what the modules take away in the same year differs less than the years do.
  EXPECT_LT(bare.range->low, bare.range->high);
  EXPECT_LT(difference.range->high - difference.range->low, bare.range->high - bare.range->low);
}

TEST(Ensemble, CommonRandomNumbersMakeAnIdenticalCoverDifferByExactlyNothing) {
  // Nothing is laid: planted is bare, in every year to the last bit, though the years differ.
  const std::string text = edited(small_design_text(), {{R"([[patch]]
recipe = "thin stonecrop"
columns = 2
rows = 2
origin = [0.5, 0.4]
spacing_mm = 50
)",
                                                         ""}});
  const report::StudyAnswer answer = study_of(text, options_of(3));
  const report::Figure& bare = answer.house.covers[report::index_of(CoverKind::bare)].degree_hours_above_k_h;
  EXPECT_LT(bare.range->low, bare.range->high);
  const report::RoomDifference& difference = answer.house.planted_minus_bare;
  for (const report::Figure* figure :
       {&difference.operative_max_k, &difference.operative_min_k, &difference.hours_above_limit,
        &difference.hours_above_limit_with_fan, &difference.hours_below_limit, &difference.degree_hours_above_k_h,
        &difference.heat_to_add_kwh, &difference.heat_to_remove_kwh, &difference.fan_energy_kwh,
        &difference.heat_gain_summer_kwh}) {
    EXPECT_EQ(*figure->value, 0.0);
    EXPECT_EQ(figure->range->low, 0.0);
    EXPECT_EQ(figure->range->high, 0.0);
  }
}

TEST(Ensemble, ResidualsAndCountsAreOfAllYears) {
  const report::EngineAnswer one = study_of(small_design_text(), options_of(1)).engine;
  const report::EngineAnswer three = study_of(small_design_text(), options_of(3)).engine;
  EXPECT_EQ(three.n_runs, 3 * one.n_runs);
  EXPECT_EQ(three.n_years, 3);
  EXPECT_EQ(three.n_years_failed, 0);
  EXPECT_GE(three.heat_residual_frac, one.heat_residual_frac);
  EXPECT_GE(three.water_residual_m, one.water_residual_m);
  EXPECT_LT(three.heat_residual_frac, 1e-8);
  EXPECT_LT(three.water_residual_m, 1e-9);
}

TEST(Ensemble, ProgressRisesThroughAllYearsToOne) {
  std::vector<double> done;
  Context context;
  context.on_progress = [&](double done_frac) { done.push_back(done_frac); };
  (void)study_of(small_design_text(), options_of(3), run_in_turn, context);
  EXPECT_TRUE(std::is_sorted(done.begin(), done.end()));
  EXPECT_GT(done.size(), 50U);
  EXPECT_NEAR(done.back(), 1.0, 1e-12);
}

TEST(Ensemble, ACancelInALaterYearEndsItWithoutAnAnswer) {
  std::atomic<bool> is_cancelled = false;
  Context context;
  context.is_cancelled = &is_cancelled;
  context.on_progress = [&](double done_frac) { is_cancelled = done_frac > 0.6; };
  EXPECT_THROW((void)study_of(small_design_text(), options_of(3), run_in_turn, context), Cancelled);
}

TEST(Ensemble, FailedYearsAreCountedAndLeftOut) {
  const design::ValidDesign design = tests::valid_design(small_design_text());
  const plan::Layout layout = plan::make_layout(design);
  const climate::WeatherYear weather = make_weather(design, std::nullopt).value();
  const LimitsByDay limits = adaptive_limits_by_day(weather);
  RunInputs inputs = run_inputs_of(design, layout, weather, limits, short_options().run);
  inputs.options.n_hours = 24;
  inputs.options.spin_up_hours = 0;
  const WeatherOfDraw weather_of_draw = [&](int draw) -> Result<climate::WeatherYear> {
    if (draw != 2) return make_weather(design, std::nullopt, draw);
    Issue issue;
    issue.message = "too little sun in July";
    return Unexpected{{issue}};
  };
  const Ensemble ensemble =
      run_years({.main_year = inputs, .first_draw = 1, .n_draws = 3, .weather = weather_of_draw}, run_in_turn, {});
  EXPECT_EQ(ensemble.years.size(), 2U);
  EXPECT_EQ(ensemble.failures, std::vector<std::string>{"year 2: too little sun in July"});
  // The solver, held to a bound that it cannot meet without a finer step than it is allowed.
  inputs.options.error_bound_k = 1e-9;
  inputs.options.largest_split = 1;
  const Ensemble stuck =
      run_years({.main_year = inputs, .first_draw = 1, .n_draws = 1, .weather = weather_of_draw}, run_in_turn, {});
  EXPECT_TRUE(stuck.years.empty());
  ASSERT_EQ(stuck.failures.size(), 1U);
  EXPECT_EQ(stuck.failures[0].rfind("year 1: ", 0), 0U) << stuck.failures[0];
}

TEST(Ensemble, OverAHundredthOfFailuresThereIsNoAnswer) {
  const std::vector<std::string> one = {"year 5: too little sun"};
  EXPECT_NO_THROW(expect_few_failures({}, 1));
  EXPECT_NO_THROW(expect_few_failures(one, 100));
  EXPECT_THROW(expect_few_failures(one, 99), simulation::NumericalFailure);
  try {
    expect_few_failures(one, 20);
    FAIL() << "one of twenty is too many";
  } catch (const simulation::NumericalFailure& failure) {
    EXPECT_EQ(std::string(failure.what()), "1 of 20 years failed: year 5: too little sun");
  }
}

TEST(Ensemble, TheScreenSaysWhatItsRangesAreMadeOf) {
  const std::string text = report::text_from(study_of(small_design_text(), options_of(3)));
  EXPECT_NE(text.find("of 3 made years, money of 200 draws"), std::string::npos) << text;
  EXPECT_EQ(text.find("one year's weather only"), std::string::npos) << text;
}

}  // namespace
}  // namespace houseleek::studies
