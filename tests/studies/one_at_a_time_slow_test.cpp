// Assumptions at their ends, in more houses.
#include <gtest/gtest.h>

#include <atomic>
#include <set>

#include "base/issue_text.hpp"
#include "studies/assumptions.hpp"
#include "studies/one_at_a_time.hpp"
#include "studies/one_at_a_time_vary.hpp"
#include "studies/tried_assumptions.hpp"
#include "studies/water_answers.hpp"
#include "studies/weather.hpp"
#include "support/catalogue_files.hpp"
#include "support/example_house.hpp"

namespace houseleek::studies {
namespace {

using tests::edited;
using tests::effect_on;
using tests::open_text;
using tests::raw_of;
using tests::shipped_catalogue;
using tests::tried;

TEST(ReadVaried, EveryPhysicalAssumptionOfTheTerraceHouseCanBeWritten) {
  const std::string text = tests::terrace_house_text();
  const design::RawDesign raw = raw_of(text);
  const design::ValidDesign read = tests::read_valid(text);
  int n_written = 0;
  for (const design::Assumption& one : read.assumed()) {
    const auto begins = [&one](std::string_view prefix) { return one.path.starts_with(prefix); };
    if (begins("rivals.") || begins("prices[") || begins("tariff.")) continue;
    const PlacedFigure likely{one.path, one.likely};
    const Result<design::ValidDesign> again = read_varied(raw, read, shipped_catalogue(), {&likely, 1});
    ASSERT_TRUE(again) << one.path << text_from_issues(again.error(), text);
    EXPECT_EQ(again.value()->patches, read->patches) << one.path;
    ++n_written;
  }
  EXPECT_GT(n_written, 100);
}

TEST(OneAtATime, TheSameFieldOfSeveralRoomsIsMovedTogether) {
  const std::string text = edited(open_text(), {{"name = \"bedroom\"\noutline = [[0, 0], [4, 0], [4, 3], [0, 3]]",
                                                 "name = \"bedroom\"\noutline = [[0, 0], [2, 0], [2, 3], [0, 3]]"},
                                                {"[[recipe]]\nname", R"([[room]]
name = "study"
outline = [[2, 0], [4, 0], [4, 3], [2, 3]]
gains_day_w = 300
gains_night_w = 100
[[recipe]]
name)"}});
  const report::StudyAnswer answer = tried(text);
  const report::AssumedEffect& first = effect_on(answer, "room[0].infiltration_per_h");
  const report::AssumedEffect& second = effect_on(answer, "room[1].infiltration_per_h");
  EXPECT_EQ(first.together, std::vector<std::string>{"room[1].infiltration_per_h"});
  EXPECT_EQ(second.together, std::vector<std::string>{"room[0].infiltration_per_h"});
  EXPECT_EQ(first.figures.front().low_gives, second.figures.front().low_gives);
}

/// The assumptions of a house with so many kinds run in full, through six weeks that begin in February.
EffectsAnswer tried_in_full(std::size_t n_in_full, std::vector<design::Assumption>& assumed) {
  const std::string text = open_text();
  const design::RawDesign raw = raw_of(text);
  const design::ValidDesign design = tests::valid_design(text);
  const climate::WeatherYear weather = make_weather(design, std::nullopt).value();
  const plan::Layout layout = plan::make_layout(design);
  const LimitsByDay limits = adaptive_limits_by_day(weather);
  simulation::RunOptions options;
  options.first_hour = 24 * 45;
  options.n_hours = 24 * 42;
  options.spin_up_hours = 24 * 3;
  const RunInputs year = run_inputs_of(design, layout, weather, limits, options);
  assumed = all_assumptions(design);
  const OneAtATimeInputs inputs{
      .description = raw, .catalogue = shipped_catalogue(), .year = year, .assumed = assumed, .n_in_full = n_in_full};
  return run_one_at_a_time(plan_one_at_a_time(inputs), inputs, run_in_turn, {});
}

TEST(OneAtATime, WhatMovesLittleInTheHottestDaysIsNotRunInFull) {
  constexpr std::size_t n_in_full = 6;
  std::vector<design::Assumption> assumed;
  const EffectsAnswer all = tried_in_full(1000, assumed);
  const EffectsAnswer some = tried_in_full(n_in_full, assumed);
  EXPECT_LT(some.engine.n_steps, all.engine.n_steps);
  ASSERT_EQ(some.effects.size(), all.effects.size());
  std::set<double> in_full;  // one figure a kind
  std::size_t n_screened = 0;
  for (std::size_t i = 0; i < all.effects.size(); ++i) {
    const report::AssumedEffect& effect = some.effects[i];
    EXPECT_EQ(effect.none_because, all.effects[i].none_because) << assumed[i].path;
    EXPECT_EQ(effect.together, all.effects[i].together) << assumed[i].path;
    ASSERT_EQ(effect.figures.empty(), all.effects[i].figures.empty()) << assumed[i].path;
    if (effect.figures.empty()) continue;
    if (effect.from.find("hottest days") != std::string::npos) {
      ++n_screened;
      EXPECT_EQ(effect.n_days, screening_days) << assumed[i].path;
      EXPECT_NE(effect.figures[1].likely_gives, all.effects[i].figures[1].likely_gives) << assumed[i].path;
      continue;
    }
    EXPECT_EQ(effect.from, all.effects[i].from) << assumed[i].path;
    EXPECT_EQ(effect.n_days, 42) << assumed[i].path;
    for (std::size_t k = 0; k < effect.figures.size(); ++k) {
      EXPECT_EQ(effect.figures[k].low_gives, all.effects[i].figures[k].low_gives) << assumed[i].path;
      EXPECT_EQ(effect.figures[k].high_gives, all.effects[i].figures[k].high_gives) << assumed[i].path;
    }
    in_full.insert(effect.figures[3].low_gives.value_or(0.0));
  }
  EXPECT_EQ(in_full.size(), n_in_full);
  EXPECT_GT(n_screened, n_in_full);
  // What moves the answer most is found by the hottest days.
  ASSERT_FALSE(some.ranked.most.empty());
  EXPECT_EQ(some.ranked.most.front().paths, all.ranked.most.front().paths);
  EXPECT_EQ(some.ranked.most.front().effect.high_gives, all.ranked.most.front().effect.high_gives);
  EXPECT_NE(some.ranked.from.find("the 6 that move most there"), std::string::npos) << some.ranked.from;
}

TEST(OneAtATime, ACancelEndsIt) {
  std::atomic<bool> is_cancelled = false;
  Context context;
  context.is_cancelled = &is_cancelled;
  context.on_progress = [&](double done_frac) { is_cancelled = done_frac > 0.9; };
  EXPECT_THROW((void)tried(open_text(), run_in_turn, context), Cancelled);
}

}  // namespace
}  // namespace houseleek::studies
