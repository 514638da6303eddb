// Assumptions at their ends, in more houses.
#include <gtest/gtest.h>

#include <atomic>

#include "base/issue_text.hpp"
#include "studies/one_at_a_time.hpp"
#include "studies/one_at_a_time_vary.hpp"
#include "studies/tried_assumptions.hpp"
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

TEST(OneAtATime, ACancelEndsIt) {
  std::atomic<bool> is_cancelled = false;
  Context context;
  context.is_cancelled = &is_cancelled;
  context.on_progress = [&](double done_frac) { is_cancelled = done_frac > 0.9; };
  EXPECT_THROW((void)tried(open_text(), run_in_turn, context), Cancelled);
}

}  // namespace
}  // namespace houseleek::studies
