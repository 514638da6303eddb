// Plans of trials: sizes, lots that stay the same under a seed, squares that balance, sentences that say what to do.
#include "trials/plan.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <set>

#include "support/reference_check.hpp"
#include "trials/judge.hpp"

namespace houseleek::trials {
namespace {

TrialWish wish_of(std::size_t n_sides, int rows, int columns) {
  TrialWish wish;
  for (std::size_t i = 0; i < n_sides; ++i) wish.sides.push_back({std::string(1, static_cast<char>('A' + i)), ""});
  for (int r = 0; r < rows; ++r) {
    for (int c = 0; c < columns; ++c) wish.squares.push_back({fmt::format("r{}", r) + fmt::format("c{}", c), r, c, ""});
  }
  return wish;
}

bool says(const std::vector<std::string>& sentences, const std::string& part) {
  for (const std::string& sentence : sentences) {
    if (sentence.find(part) != std::string::npos) return true;
  }
  return false;
}

TEST(TrialPlan, PairsHoldOneOfEach) {
  TrialWish wish = wish_of(2, 4, 4);
  wish.wanted_difference = 1.5;
  const TrialPlan plan = plan_trial(wish).value();
  ASSERT_TRUE(plan.advised);
  EXPECT_GE(plan.advised->n_modules, least_modules_for_recipe);
  EXPECT_EQ(plan.assignments.size(), 2 * plan.advised->n_modules);
  std::map<std::string, std::set<std::string>> blocks;
  std::set<std::string> squares;
  for (const Assignment& a : plan.assignments) {
    blocks[a.block].insert(a.side);
    EXPECT_TRUE(squares.insert(a.square).second);
  }
  EXPECT_EQ(blocks.size(), plan.advised->n_modules);
  for (const auto& [block, sides] : blocks) EXPECT_EQ(sides.size(), 2U);
  EXPECT_TRUE(says(plan.household, "Pair these two"));
}

TEST(TrialPlan, TheSeedDecidesAndIsRecorded) {
  TrialWish wish = wish_of(2, 4, 4);
  wish.seed = 11;
  const TrialPlan one = plan_trial(wish).value();
  EXPECT_EQ(one.assignments, plan_trial(wish).value().assignments);
  EXPECT_EQ(one.seed, 11U);
  EXPECT_TRUE(says(one.adviser, "seed 11"));
  wish.seed = 12;
  EXPECT_NE(one.assignments, plan_trial(wish).value().assignments);
  // Over many seeds each square gets each side about as often.
  int n_first = 0;
  int n_all = 0;
  wish = wish_of(2, 2, 2);
  for (wish.seed = 0; wish.seed < 150; ++wish.seed) {
    const TrialPlan plan = plan_trial(wish).value();
    for (const Assignment& a : plan.assignments) {
      if (a.square != "r0c0") continue;
      ++n_all;
      n_first += a.side == "A" ? 1 : 0;
    }
  }
  EXPECT_NEAR(n_first / static_cast<double>(n_all), 0.5, 3.5 * std::sqrt(0.25 / n_all));
}

TEST(TrialPlan, NamedBlocksAreKept) {
  TrialWish wish = wish_of(2, 2, 3);
  for (TrialSquare& square : wish.squares) square.block = square.column < 2 ? "kitchen" : "bedroom";
  wish.most_days = 365;
  wish.spread.module_sd = 0.05;
  const TrialPlan plan = plan_trial(wish).value();
  std::map<std::string, std::set<bool>> is_kitchen;
  for (const Assignment& a : plan.assignments) is_kitchen[a.block].insert(a.column < 2);
  for (const auto& [block, rooms] : is_kitchen) EXPECT_EQ(rooms.size(), 1U) << block;
  EXPECT_EQ(plan.sizes.size(), 3U);  // two pairs in the kitchen, one in the bedroom
}

TEST(TrialPlan, ALatinSquareBalancesRowsAndColumns) {
  for (const std::size_t k : {2U, 3U, 4U, 5U}) {
    TrialWish wish = wish_of(k, static_cast<int>(k), static_cast<int>(k));
    wish.layout = Layout::latin_square;
    wish.seed = k;
    const TrialPlan plan = plan_trial(wish).value();
    std::map<std::string, std::set<std::string>> rows;
    std::map<std::string, std::set<std::string>> columns;
    for (const Assignment& a : plan.assignments) {
      rows[a.block].insert(a.side);
      columns[a.second_block].insert(a.side);
    }
    ASSERT_EQ(rows.size(), k);
    ASSERT_EQ(columns.size(), k);
    for (const auto& [row, sides] : rows) EXPECT_EQ(sides.size(), k);
    for (const auto& [column, sides] : columns) EXPECT_EQ(sides.size(), k);
  }
  TrialWish wrong = wish_of(3, 2, 5);
  wrong.layout = Layout::latin_square;
  EXPECT_EQ(plan_trial(wrong).error().at(0).path, "squares");
}

TEST(TrialPlan, AWishThatCannotBeMetSaysWhy) {
  TrialWish wish = wish_of(1, 1, 1);
  wish.wanted_difference = 0.0;
  wish.confidence_frac = 1.0;
  const auto result = plan_trial(wish);
  ASSERT_FALSE(result.has_value());
  std::set<std::string> paths;
  for (const Issue& issue : result.error()) paths.insert(issue.path);
  EXPECT_EQ(paths, (std::set<std::string>{"sides", "wanted_difference", "confidence_frac"}));
  EXPECT_EQ(plan_trial(wish_of(3, 1, 2)).error().at(0).message, "too few squares for 3 sides");
}

TEST(TrialPlan, TooFewSquaresStillSayWhatWouldBeTold) {
  TrialWish wish = wish_of(2, 1, 2);
  wish.most_days = 14;
  wish.wanted_difference = 0.5;
  const TrialPlan plan = plan_trial(wish).value();
  EXPECT_FALSE(plan.advised);
  EXPECT_FALSE(plan.quickest);
  EXPECT_GT(plan.told_difference, 0.5);
  EXPECT_TRUE(says(plan.household, "too few to tell"));
  EXPECT_TRUE(says(plan.household, "about these modules only"));
  // And with that difference as the wish, it is enough.
  wish.wanted_difference = plan.told_difference * 1.0001;
  EXPECT_TRUE(plan_trial(wish).value().quickest);
}

TEST(TrialPlan, TheSheetSaysWhenWithWhatAndWhatItCannotSay) {
  TrialWish wish = wish_of(2, 1, 2);
  wish.measure = Measure::swing;
  wish.most_days = 14;
  wish.wanted_difference = 6.0;
  wish.instrument = "the kitchen thermometer";
  wish.sides[0].what = "raised on 20 mm spacers";
  const TrialPlan plan = plan_trial(wish).value();
  EXPECT_TRUE(says(plan.household, "twice a day, at 06:00 and 16:00"));
  EXPECT_TRUE(says(plan.household, "with the kitchen thermometer"));
  EXPECT_TRUE(says(plan.household, "raised on 20 mm spacers"));
  EXPECT_TRUE(says(plan.household, "An infrared thermometer shows the skin"));
  EXPECT_TRUE(says(plan.household, "Use the same instrument everywhere"));
  wish.is_by_hand = false;
  EXPECT_TRUE(says(plan_trial(wish).value().household, "Hang one logger in each place"));
  EXPECT_TRUE(says(plan_trial(wish).value().household, "side by side"));
}

TEST(TrialPlan, ForeseenErrors) {
  TrialWish wish = wish_of(2, 4, 4);
  wish.layout = Layout::free;
  wish.spread = {.module_sd = 1.0,
                 .day_sd = 1e-9,
                 .day_correlation = 0.0,
                 .reading_sd = 0.0,
                 .instrument_offset_sd = 0.0,
                 .source = ""};
  wish.wanted_difference = 2.0;
  // Days without scatter: two groups of three, standard deviation 1 (R power.t.test(strict = TRUE), recomputed).
  tests::check_reference({.id = "PWR-03",
                          .what = "power of a plan of 3 modules a side, difference 2, standard deviation 1",
                          .source = "R power.t.test(strict = TRUE) (recomputed)",
                          .expected = 0.4626408119,
                          .got = size_of_trial(wish, 3, 14).power_frac,
                          .tolerance = 1e-7,
                          .reason = "the noncentral t of R and Boost differ in the eighth digit",
                          .function = "trials::size_of_trial"});
  EXPECT_GT(size_of_trial(wish, 4, 14).power_frac, size_of_trial(wish, 3, 14).power_frac);
  // Own instruments, more scatter, more sides: wider.
  wish.spread.day_sd = 1.0;
  const double one = size_of_trial(wish, 3, 14).half_interval;
  EXPECT_GT(one, size_of_trial(wish, 3, 28).half_interval);
  wish.is_one_instrument = false;
  wish.spread.instrument_offset_sd = 0.5;
  EXPECT_GT(size_of_trial(wish, 3, 14).half_interval, one);
}

}  // namespace
}  // namespace houseleek::trials
