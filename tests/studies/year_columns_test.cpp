// The hours kept for a report add up to the figures of the answer, and nothing of the answer depends on keeping them.
#include "studies/year_columns.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>

#include "report/study_json.hpp"
#include "studies/small_study.hpp"

namespace houseleek::studies {
namespace {

report::StudyAnswer study_with_columns(const std::string& text = tests::small_design_text()) {
  StudyOptions options = tests::short_options();
  options.keeps_columns = true;
  return tests::study_of(text, options);
}

double sum_of(const std::vector<double>& column) { return std::accumulate(column.begin(), column.end(), 0.0); }

TEST(YearColumns, AreKeptOnlyWhereAskedForAndChangeNoFigure) {
  const report::StudyAnswer without = tests::study_of(tests::small_design_text());
  const report::StudyAnswer with = study_with_columns();
  EXPECT_FALSE(without.columns);
  ASSERT_TRUE(with.columns);
  EXPECT_EQ(report::text_from(report::json_from(without)), report::text_from(report::json_from(with)));
}

TEST(YearColumns, EveryColumnHasTheKeptHours) {
  const report::StudyAnswer answer = study_with_columns();
  const report::YearColumns& columns = *answer.columns;
  const auto n_hours = static_cast<std::size_t>(answer.engine.n_hours);
  EXPECT_EQ(columns.air_c.size(), n_hours);
  EXPECT_EQ(columns.rain_mm.size(), n_hours);
  ASSERT_EQ(columns.covers.size(), report::n_covers);
  for (const report::CoverColumns& cover : columns.covers) {
    ASSERT_EQ(cover.rooms.size(), answer.rooms.size());
    for (const report::RoomColumns& room : cover.rooms) {
      EXPECT_EQ(room.operative_c.size(), n_hours);
      EXPECT_EQ(room.ceiling_c.size(), n_hours);
      EXPECT_EQ(room.membrane_c.size(), n_hours);
    }
  }
  ASSERT_EQ(columns.modules.size(), answer.water.recipes.size());
  for (const report::ModuleColumns& modules : columns.modules) {
    EXPECT_EQ(modules.store_frac.size(), n_hours);
    EXPECT_EQ(modules.watering_mm.size(), n_hours);
  }
}

TEST(YearColumns, RoomsReachTheHighestAndLowestOfTheAnswer) {
  const report::StudyAnswer answer = study_with_columns();
  for (const report::CoverKind cover : report::all_covers) {
    const std::vector<double>& operative_c = answer.columns->covers[report::index_of(cover)].rooms.front().operative_c;
    const report::RoomFigures& figures = answer.rooms.front().covers[report::index_of(cover)];
    EXPECT_EQ(*std::max_element(operative_c.begin(), operative_c.end()), *figures.operative_max_c.value);
    EXPECT_EQ(*std::min_element(operative_c.begin(), operative_c.end()), *figures.operative_min_c.value);
  }
}

TEST(YearColumns, HoursAboveTheLimitByMonthAddUp) {
  const report::StudyAnswer answer = study_with_columns();
  for (const report::CoverKind cover : report::all_covers) {
    double sum = 0.0;
    int n_months = 0;
    for (const std::optional<double>& hours :
         answer.columns->covers[report::index_of(cover)].hours_above_limit_by_month) {
      if (!hours) continue;
      sum += *hours;
      ++n_months;
    }
    EXPECT_EQ(sum, *answer.house.covers[report::index_of(cover)].hours_above_limit.value);
    EXPECT_EQ(n_months, 2) << "28 March to 4 April";
  }
}

TEST(YearColumns, RainAndWateringAddUp) {
  const report::StudyAnswer answer = study_with_columns(
      tests::edited(tests::small_design_text(), {{"when_store_below_frac = 0.6", "when_store_below_frac = 0.95"}}));
  EXPECT_NEAR(sum_of(answer.columns->rain_mm), *answer.water.rain_mm.value, 1e-9);
  ASSERT_EQ(answer.columns->modules.size(), 1U);
  const report::ModuleColumns& modules = answer.columns->modules.front();
  EXPECT_EQ(modules.recipe, "thin stonecrop");
  EXPECT_EQ(modules.form, "raised");
  EXPECT_NEAR(modules.area_m2, answer.roof.covered_m2, 1e-9);
  // One module has a square metre: litres are millimetres.
  EXPECT_NEAR(sum_of(modules.watering_mm), *answer.water.recipes.front().watering_l_per_module.value, 1e-9);
  EXPECT_GT(sum_of(modules.watering_mm), 0.0);
}

TEST(YearColumns, ClosedCoversAreThoseOfTheAnswer) {
  const report::StudyAnswer answer = study_with_columns();
  ASSERT_EQ(answer.columns->stacks.size(), answer.stacks.size());
  for (std::size_t i = 0; i < answer.stacks.size(); ++i) {
    const report::ClosedColumns& columns = answer.columns->stacks[i];
    const report::StackAnswer& stack = answer.stacks[i];
    EXPECT_EQ(columns.name, stack.name);
    EXPECT_EQ(columns.form, stack.form);
    EXPECT_EQ(columns.room, stack.room);
    // The answer has the extremes of all steps, the columns those of hours' ends.
    const double most_c = *std::max_element(columns.membrane_c.begin(), columns.membrane_c.end());
    EXPECT_LE(most_c, *stack.membrane_max_c.value);
    EXPECT_GT(most_c, *stack.membrane_max_c.value - 2.0);
  }
}

}  // namespace
}  // namespace houseleek::studies
