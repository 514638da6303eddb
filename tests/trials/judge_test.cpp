// Verdicts on small invented trials: scope, interval, sentence, several sides, flagged and missing days.
#include "trials/judge.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>

#include "base/contract.hpp"
#include "invented_readings.hpp"
#include "stats/student.hpp"
#include "trials/judge_words.hpp"

namespace houseleek::trials {
namespace {

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

SideComparison only(const TrialVerdict& verdict) {
  EXPECT_EQ(verdict.comparisons.size(), 1U);
  return verdict.comparisons.front();
}

JudgeOptions wanting(double difference) {
  JudgeOptions options;
  options.wanted_difference = difference;
  return options;
}

JudgeOptions against(const std::string& side) {
  JudgeOptions options;
  options.reference_side = side;
  return options;
}

TEST(Judge, OneModuleASideSpeaksOfTheseModulesOnly) {
  const auto modules = invented::sides_of({.difference = -3.0, .module_sd = 0.0, .n_modules = 1, .n_days = 14}, 3, 0);
  const TrialVerdict verdict = judge(modules, {});
  const SideComparison c = only(verdict);
  EXPECT_EQ(c.scope, Scope::these_modules);
  EXPECT_EQ(c.outcome, Outcome::lower);
  EXPECT_EQ(c.difference->degrees_of_freedom, 3.0);
  std::vector<double> differences;
  for (std::size_t t = 0; t < 14; ++t) differences.push_back(modules[0].days[t].value - modules[1].days[t].value);
  const stats::Estimate mean = stats::long_run_mean(differences, 0.95);
  EXPECT_NEAR(c.difference->value, mean.value, 1e-12);
  EXPECT_NEAR(c.difference->high, mean.high, 1e-12);
  EXPECT_TRUE(holds(c.sentence, "a is lower than b by")) << c.sentence;
  EXPECT_TRUE(holds(c.sentence, "1 module against 1, 14 days, the day's maximum")) << c.sentence;
  EXPECT_TRUE(holds(c.sentence, "about these modules only")) << c.sentence;
  ASSERT_EQ(verdict.notes.size(), 1U);
  EXPECT_EQ(verdict.notes[0], few_days_note);
}

TEST(Judge, ThreeModulesASideSpeakOfTheRecipe) {
  const auto modules = invented::sides_of({.difference = 4.0, .n_modules = 3, .n_days = 28}, 5, 1);
  const SideComparison c = only(judge(modules, {}));
  EXPECT_EQ(c.scope, Scope::recipe);
  EXPECT_EQ(c.outcome, Outcome::higher);
  EXPECT_NEAR(c.difference->degrees_of_freedom, 4.0, 1e-6);
  // Complete and without blocks it is the t test of module means.
  std::vector<double> means;
  for (const ModuleDays& module : modules) {
    double sum = 0.0;
    for (const DayValue& day : module.days) sum += day.value / 28.0;
    means.push_back(sum);
  }
  const double a = (means[0] + means[2] + means[4]) / 3.0;
  const double b = (means[1] + means[3] + means[5]) / 3.0;
  double squares = 0.0;
  for (std::size_t i = 0; i < 6; ++i) squares += std::pow(means[i] - (i % 2 == 0 ? a : b), 2);
  const double error = std::sqrt(squares / 4.0 * 2.0 / 3.0);
  EXPECT_NEAR(c.difference->value, a - b, 1e-9);
  EXPECT_NEAR(c.difference->standard_error, error, 1e-9);
  EXPECT_NEAR(c.difference->low, a - b - stats::student_quantile(0.975, 4.0) * error, 1e-6);
  EXPECT_TRUE(holds(c.sentence, "This is about the recipes.")) << c.sentence;
}

TEST(Judge, ModuleScatterEntersTheRecipesInterval) {
  invented::Truth truth{.difference = 1.0, .module_sd = 0.0, .own_day_sd = 0.2, .n_modules = 3, .n_days = 60};
  const double narrow = only(judge(invented::sides_of(truth, 5, 1), {})).difference->standard_error;
  truth.module_sd = 2.0;
  EXPECT_GT(only(judge(invented::sides_of(truth, 5, 1), {})).difference->standard_error, 5.0 * narrow);
}

TEST(Judge, NotToldApartSaysHowMuchMoreWould) {
  const auto one = invented::sides_of({.difference = 0.0, .module_sd = 0.0, .n_modules = 1, .n_days = 14}, 3, 4);
  const SideComparison days = only(judge(one, wanting(0.8)));
  ASSERT_EQ(days.outcome, Outcome::not_told_apart);
  ASSERT_TRUE(days.more && days.more->days);
  EXPECT_GT(*days.more->days, 14U);
  EXPECT_TRUE(holds(days.sentence, "To tell 0.8 K apart it would take about")) << days.sentence;
  const auto three = invented::sides_of({.difference = 0.0, .module_sd = 1.0, .n_modules = 3, .n_days = 28}, 9, 4);
  const SideComparison recipe = only(judge(three, wanting(0.8)));
  ASSERT_EQ(recipe.outcome, Outcome::not_told_apart);
  ASSERT_TRUE(recipe.more && recipe.more->modules);
  EXPECT_GT(*recipe.more->modules, 3U);
  EXPECT_TRUE(holds(recipe.sentence, "modules a side")) << recipe.sentence;
}

TEST(Judge, PowerForeseenIsWhatTrialsHave) {
  const auto trial = [](int n_days, std::uint32_t draw) {
    return invented::sides_of({.difference = 0.8,
                               .module_sd = 0.0,
                               .own_day_sd = 1.0,
                               .day_correlation = 0.0,
                               .n_modules = 1,
                               .n_days = n_days},
                              21, draw);
  };
  // Two modules' own days of standard deviation 1: error sqrt(2 / T), known here, so the answer can be too.
  int n_told = 0;
  for (std::uint32_t draw = 0; draw < 200; ++draw) {
    n_told += only(judge(trial(54, draw), {})).outcome == Outcome::higher ? 1 : 0;
  }
  EXPECT_NEAR(n_told / 200.0, stats::power_of_t({0.8, std::sqrt(2.0 / 54.0), 3.0, 0.95}), 0.1);
}

TEST(Judge, SeveralSidesStepByHolm) {
  auto modules = invented::sides_of({.difference = 5.0, .module_sd = 0.1, .n_modules = 1, .n_days = 28}, 3, 0);
  ModuleDays third = modules[1];
  third.module = "c1";
  third.side = "c";
  const RandomVariable noise = random_variable(3, "third");
  for (DayValue& day : third.days) day.value += 0.5 * stats::random_normal(noise, {0, day.day, 0});
  modules.push_back(third);
  const TrialVerdict all = judge(modules, {});
  ASSERT_EQ(all.comparisons.size(), 3U);
  EXPECT_NEAR(all.comparisons[0].interval_confidence_frac, 1.0 - 0.05 / 3.0, 1e-12);
  EXPECT_EQ(all.comparisons[2].outcome, Outcome::not_told_apart);  // b and c
  EXPECT_TRUE(holds(all.comparisons[0].sentence, "98.3 % interval")) << all.comparisons[0].sentence;
  const TrialVerdict held = judge(modules, against("b"));
  ASSERT_EQ(held.comparisons.size(), 2U);
  EXPECT_EQ(held.comparisons[0].against, "b");
  EXPECT_NEAR(held.comparisons[0].interval_confidence_frac, 0.975, 1e-12);
}

TEST(Judge, BlocksTakeTheirScatterOut) {
  const invented::Truth truth{.difference = 1.0,
                              .module_sd = 0.2,
                              .own_day_sd = 0.2,
                              .block_sd = 5.0,
                              .n_modules = 4,
                              .n_days = 28,
                              .is_in_blocks = true};
  auto modules = invented::sides_of(truth, 8, 2);
  const SideComparison in_blocks = only(judge(modules, {}));
  EXPECT_NEAR(in_blocks.difference->degrees_of_freedom, 3.0, 1e-6);
  for (ModuleDays& module : modules) module.block.clear();
  EXPECT_GT(only(judge(modules, {})).difference->standard_error, 5.0 * in_blocks.difference->standard_error);
}

TEST(Judge, PairsInCoarseStepsAreTooFewRatherThanCertain) {
  // Every pair differs by exactly half a degree on every day: nothing says how sure that is.
  auto modules = invented::sides_of({.n_modules = 3, .n_days = 14, .is_in_blocks = true}, 8, 2);
  for (std::size_t i = 0; i < modules.size(); i += 2) {
    for (std::size_t t = 0; t < 14; ++t) modules[i + 1].days[t].value = modules[i].days[t].value - 0.5;
  }
  EXPECT_EQ(only(judge(modules, {})).outcome, Outcome::too_few);
}

TEST(Judge, RowsAndColumnsOfALatinSquare) {
  // Three sides a, b, c; rows and columns shift by whole degrees, modules scatter by a tenth.
  std::vector<ModuleDays> modules;
  const RandomVariable scatter = random_variable(2, "latin");
  for (int row = 0; row < 3; ++row) {
    for (int column = 0; column < 3; ++column) {
      const int side = (row + column) % 3;
      const int place = 3 * row + column;
      ModuleDays module{fmt::format("m{}", place),
                        std::string(1, static_cast<char>('a' + side)),
                        fmt::format("row {}", row),
                        fmt::format("column {}", column),
                        {}};
      const double level = 0.8 * side + 2.0 * row - 3.0 * column +
                           0.1 * stats::random_normal(scatter, {0, 0, static_cast<std::uint32_t>(place)});
      for (int day = 0; day < 14; ++day) module.days.push_back({day, 25.0 + level + std::sin(1.0 * day), ""});
      modules.push_back(module);
    }
  }
  const TrialVerdict verdict = judge(modules, {});
  ASSERT_EQ(verdict.comparisons.size(), 3U);
  for (const SideComparison& c : verdict.comparisons) {
    EXPECT_NEAR(c.difference->degrees_of_freedom, 2.0, 1e-6);
    EXPECT_LT(c.difference->standard_error, 0.3);
  }
  EXPECT_NEAR(verdict.comparisons[1].difference->value, -1.6, 0.4);
  // Columns that only repeat the rows change nothing but the scatter left.
  for (ModuleDays& module : modules) module.second_block = module.block;
  EXPECT_NEAR(judge(modules, {}).comparisons[0].difference->degrees_of_freedom, 4.0, 1e-6);
}

TEST(Judge, MissingValuesDoNotBendTheModules) {
  // Module b2 lacks the ten hottest days; as plain means its side would look colder.
  auto modules =
      invented::sides_of({.difference = 0.0, .module_sd = 0.0, .own_day_sd = 0.01, .n_modules = 3, .n_days = 30}, 4, 0);
  std::erase_if(modules[3].days, [](const DayValue& day) { return day.value > 31.0; });
  ASSERT_LT(modules[3].days.size(), 25U);
  const std::vector<double> values = *module_values(modules);
  for (const double value : values) EXPECT_NEAR(value, values[0], 0.02);
  const TrialVerdict verdict = judge(modules, {});
  EXPECT_GT(only(verdict).n_days_partial, 0U);
  EXPECT_TRUE(holds(verdict.notes.back(), "such days count for the modules that have one"));
  // Complete tables: the plain mean.
  const auto whole = invented::sides_of({.n_modules = 2, .n_days = 9}, 4, 0);
  double mean = 0.0;
  for (const DayValue& day : whole[2].days) mean += day.value / 9.0;
  EXPECT_NEAR(module_values(whole)->at(2), mean, 1e-10);
  // No day in common: nothing ties them.
  auto apart = invented::sides_of({.n_modules = 1, .n_days = 10}, 4, 0);
  for (DayValue& day : apart[1].days) day.day += 100;
  EXPECT_FALSE(module_values(apart));
  EXPECT_EQ(only(judge(apart, {})).outcome, Outcome::too_few);
}

TEST(Judge, FlaggedDaysAreKeptAndShownBeside) {
  auto modules =
      invented::sides_of({.difference = 0.0, .module_sd = 0.0, .own_day_sd = 0.3, .n_modules = 1, .n_days = 30}, 4, 0);
  for (std::size_t t = 10; t < 15; ++t) {
    modules[0].days[t].value += 9.0;
    modules[0].days[t].flag = "sun";
  }
  const TrialVerdict verdict = judge(modules, {});
  const SideComparison c = only(verdict);
  EXPECT_EQ(c.n_days, 30U);
  EXPECT_EQ(c.n_days_flagged, 5U);
  ASSERT_TRUE(c.without_flagged);
  EXPECT_NEAR(c.difference->value - c.without_flagged->value, 1.5, 0.3);
  EXPECT_TRUE(holds(verdict.notes.back(), "5 of the days are flagged and were kept. Without them:"))
      << verdict.notes.back();
}

TEST(Judge, TooFewToSay) {
  const auto six = invented::sides_of({.n_modules = 1, .n_days = 6}, 4, 0);
  EXPECT_EQ(only(judge(six, {})).outcome, Outcome::too_few);
  EXPECT_TRUE(holds(only(judge(six, {})).sentence, "too few to say: 6 days"));
  auto same = invented::sides_of({.n_modules = 1, .n_days = 20}, 4, 0);
  for (std::size_t t = 0; t < 20; ++t) same[1].days[t].value = same[0].days[t].value - 0.5;
  EXPECT_EQ(only(judge(same, {})).outcome, Outcome::too_few);
  EXPECT_TRUE(holds(only(judge(same, {})).sentence, "do not vary at all"));
  EXPECT_THROW((void)judge({six[0]}, {}), ContractViolation);
  EXPECT_THROW((void)judge({six[0], six[0]}, {}), ContractViolation);
  EXPECT_THROW((void)judge(six, against("z")), ContractViolation);
}

TEST(JudgeWords, Numbers) {
  EXPECT_EQ(two_digits(0.0), "0.0");
  EXPECT_EQ(two_digits(-0.042), "-0.04");
  EXPECT_EQ(two_digits(0.42), "0.4");
  EXPECT_EQ(two_digits(9.96), "10");
  EXPECT_EQ(two_digits(-34.4), "-34");
  EXPECT_EQ(percent(0.95), "95 %");
  EXPECT_EQ(percent(1.0 - 0.05 / 3.0), "98.3 %");
}

}  // namespace
}  // namespace houseleek::trials
