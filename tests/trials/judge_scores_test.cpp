// Verdicts on grades and on plants alive: exact shares, few modules, blocks.
#include "trials/judge_scores.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "base/contract.hpp"

namespace houseleek::trials {
namespace {

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::vector<ModuleScore> grades(const std::vector<double>& a, const std::vector<double>& b, bool is_in_pairs = false) {
  std::vector<ModuleScore> modules;
  for (std::size_t i = 0; i < a.size(); ++i) {
    modules.push_back({fmt::format("a{}", i), "wool", is_in_pairs ? std::to_string(i) : "", a[i]});
  }
  for (std::size_t i = 0; i < b.size(); ++i) {
    modules.push_back({fmt::format("b{}", i), "jute", is_in_pairs ? std::to_string(i) : "", b[i]});
  }
  return modules;
}

ScoreOptions survival() {
  ScoreOptions options;
  options.what = "survival";
  return options;
}

TEST(JudgeScores, GradesToldApart) {
  // Four against five, 3 of 126 arrangements as far: p 0.0238 (tests/stats/recompute.py).
  const auto verdict = judge_scores(grades({4, 5, 3, 5}, {2, 3, 1, 3, 2}), {});
  ASSERT_EQ(verdict.size(), 1U);
  EXPECT_EQ(verdict[0].outcome, Outcome::higher);
  EXPECT_EQ(verdict[0].scope, Scope::recipe);
  EXPECT_NEAR(verdict[0].adjusted_share, 3.0 / 126.0, 1e-12);
  EXPECT_TRUE(
      holds(verdict[0].sentence, "wool has higher vigour than jute (difference of means 2.0, 4 modules against 5"))
      << verdict[0].sentence;
}

TEST(JudgeScores, ThreeAgainstThreeCannotBeTold) {
  const auto verdict = judge_scores(grades({5, 5, 5}, {1, 1, 1}), {});
  EXPECT_EQ(verdict[0].outcome, Outcome::not_told_apart);
  EXPECT_NEAR(verdict[0].adjusted_share, 0.1, 1e-12);
  EXPECT_FALSE(verdict[0].could_be_told);
  EXPECT_TRUE(holds(verdict[0].sentence, "it takes 4 a side")) << verdict[0].sentence;
  const auto pairs = judge_scores(grades({5, 5, 5, 5}, {1, 1, 1, 1}, true), {});
  EXPECT_NEAR(pairs[0].adjusted_share, 0.125, 1e-12);  // 2 of 16
  EXPECT_TRUE(holds(pairs[0].sentence, "it takes 6 a side")) << pairs[0].sentence;
  EXPECT_EQ(judge_scores(grades({5, 4}, {1, 2}), {})[0].outcome, Outcome::too_few);
}

TEST(JudgeScores, PlantsOfAModuleShareItsFate) {
  // All the difference is one dead module: plants as repeats would see a clear difference, modules do not.
  std::vector<ModuleCount> modules;
  for (int i = 0; i < 4; ++i) modules.push_back({fmt::format("a{}", i), "a", "", 10, 10});
  for (int i = 0; i < 4; ++i) modules.push_back({fmt::format("b{}", i), "b", "", i == 0 ? 0U : 10U, 10});
  const auto verdict = judge_survival(modules, survival());
  EXPECT_EQ(verdict[0].outcome, Outcome::not_told_apart);
  EXPECT_NEAR(verdict[0].adjusted_share, 1.0, 1e-12);
  EXPECT_NEAR(verdict[0].share_against, 0.75, 1e-12);
  EXPECT_NEAR(verdict[0].interval_side.low, 0.912, 0.001);  // 40 of 40: 0.025^(1/40)
}

TEST(JudgeScores, OneModuleASideCountsItsPlants) {
  const std::vector<ModuleCount> modules{{"a1", "a", "", 18, 20}, {"b1", "b", "", 11, 20}};
  const auto verdict = judge_survival(modules, survival());
  EXPECT_EQ(verdict[0].scope, Scope::these_modules);
  EXPECT_EQ(verdict[0].outcome, Outcome::higher);
  EXPECT_NEAR(verdict[0].adjusted_share, 0.030950305143853538, 1e-9);  // Fisher, tests/stats/recompute.py
  EXPECT_TRUE(holds(verdict[0].sentence, "This is about these modules only.")) << verdict[0].sentence;
  EXPECT_TRUE(holds(verdict[0].sentence, "a 90 % alive (68 to 99 %), b 55 % (32 to 77 %)")) << verdict[0].sentence;
  EXPECT_THROW((void)judge_survival({{"a", "a", "", 3, 2}, {"b", "b", "", 1, 2}}, {}), ContractViolation);
}

TEST(JudgeScores, SeveralSidesStepByHolm) {
  auto modules = grades({5, 5, 4, 5}, {1, 2, 1, 1});
  for (int i = 0; i < 4; ++i) modules.push_back({fmt::format("c{}", i), "straw", "", 1.0 + i % 2});
  const auto verdict = judge_scores(modules, {});
  ASSERT_EQ(verdict.size(), 3U);
  // 2 of 70 arrangements are the clearest there are: not below 0.05 / 3.
  EXPECT_EQ(verdict[0].outcome, Outcome::not_told_apart);
  EXPECT_FALSE(verdict[0].could_be_told);
  EXPECT_TRUE(holds(verdict[0].sentence, "it takes 5 a side")) << verdict[0].sentence;
}

}  // namespace
}  // namespace houseleek::trials
