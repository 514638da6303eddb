// Heat that goes sideways between decks: none is lost, the step follows its bound, finer strips converge.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "base/contract.hpp"
#include "simulation/run.hpp"
#include "support/stack_cases.hpp"

namespace houseleek::tests {
namespace {

using simulation::Group;
using simulation::run_group;
using simulation::RunOptions;
using simulation::Stack;

/// Two sealed decks of one slice's depth side by side, 2.0 and 0.5 m2, at 30 and 10 degC.
Group sealed_pair(double edge_m, double distance_m) {
  Stack stack = calm_stack(1e-12, 1e-12);
  stack.deck = {solid_layer(0.12, 1.5, 2000.0, 1000.0)};
  Group group = over_given_room(stack, 10.0);
  group.stacks.push_back(stack);
  group.stacks[0].initial_temperature_c = 30.0;
  group.stacks[0].area_m2 = 2.0;
  group.stacks[1].initial_temperature_c = 10.0;
  group.stacks[1].area_m2 = 0.5;
  group.side_links = {{0, 1, edge_m, distance_m}};
  return group;
}

TEST(Sideways, LinkedDecksComeTogetherAndKeepTheirHeat) {
  const double rate_per_s = 1.5 * 1.6 / 0.2 / 2e6 * (1.0 / 2.0 + 1.0 / 0.5);
  const double mean_c = (30.0 * 2.0 + 10.0 * 0.5) / 2.5;
  std::vector<double> largest_error_k;
  for (const int steps : {1, 2, 4}) {
    RunOptions options = from_rest(24);
    options.steps_per_10_min = steps;
    const auto result = run_group(sealed_pair(1.6, 0.2), steady_air(10.0), options);
    double largest_k = 0.0;
    for (std::size_t hour = 1; hour <= 24; ++hour) {
      const double first_c = result.stacks[0].surface_c[hour - 1];
      const double second_c = result.stacks[1].ceiling_c[hour - 1];
      const double apart_k = 20.0 * std::exp(-rate_per_s * 3600.0 * static_cast<double>(hour));
      largest_k = std::max(largest_k, std::abs(first_c - (mean_c + 0.2 * apart_k)));
      largest_k = std::max(largest_k, std::abs(second_c - (mean_c - 0.8 * apart_k)));
      EXPECT_NEAR(2.0 * first_c + 0.5 * second_c, 2.5 * mean_c, 1e-10);
    }
    largest_error_k.push_back(largest_k);
    for (const auto& stack : result.stacks) EXPECT_LT(stack.heat_residual_max_frac, 1e-8);
    EXPECT_EQ(result.tally.largest_split, steps);
  }
  EXPECT_LT(largest_error_k[0], 2e-4);
  EXPECT_NEAR(std::log2(largest_error_k[0] / largest_error_k[1]), 2.0, 0.2);
  EXPECT_NEAR(std::log2(largest_error_k[1] / largest_error_k[2]), 2.0, 0.2);
}

TEST(Sideways, TheStepFollowsItsBound) {
  for (const double distance_m : {0.2, 0.02, 0.005, 0.001}) {
    const auto result = run_group(sealed_pair(1.6, distance_m), steady_air(10.0), from_rest(6));
    // |z| = twice the larger loss times the step: the lighter deck's, 1.5 W/mK 1.6 m over its distance, 1 m2 K/J.
    const double z_of_ten_minutes = 2.0 * 600.0 * 1.5 * 1.6 / distance_m / (0.5 * 2e6);
    int split = 1;
    while (z_of_ten_minutes / split > 2.0) split *= 2;
    EXPECT_EQ(result.tally.largest_split, split) << distance_m;
    EXPECT_EQ(result.tally.n_steps, 6 * 6 * split) << distance_m;
    EXPECT_NEAR(result.tally.largest_sideways_z, z_of_ten_minutes / split, 1e-9) << distance_m;
    for (std::size_t i = 0; i < 6; ++i) {
      const double first_c = result.stacks[0].surface_c[i];
      const double second_c = result.stacks[1].surface_c[i];
      EXPECT_NEAR(2.0 * first_c + 0.5 * second_c, 65.0, 1e-9) << distance_m;
      EXPECT_GE(first_c, 26.0 - 1e-9) << distance_m;
      EXPECT_LE(second_c, 26.0 + 1e-9) << distance_m;
    }
  }
}

/// Half a metre in the sun beside half a metre in the shade, in `n` strips each; mean rise of the shaded ceilings.
double shaded_rise_k(int n) {
  Stack stack = calm_stack(5.0, 5.0);
  stack.deck = {solid_layer(0.002, 2000.0, 40000.0, 1000.0)};  // as a fin: no difference across it
  stack.initial_temperature_c = 0.0;
  stack.area_m2 = 0.5 / n;
  Group group = over_given_room(stack, 0.0);
  group.stacks.clear();
  for (int i = 0; i < 2 * n; ++i) {
    stack.surface.albedo = i < n ? 0.0 : 1.0;
    group.stacks.push_back(stack);
    if (i > 0) group.side_links.push_back({i - 1, i, 1.0, 0.5 / n});
  }
  climate::Forcing forcing;
  forcing.air_temperature_c = 0.0;
  forcing.global_w_per_m2 = 500.0;
  const auto result = run_group(group, steady_weather(forcing), from_rest(72));
  double sum_k = 0.0;
  for (int i = n; i < 2 * n; ++i) sum_k += result.stacks[static_cast<std::size_t>(i)].ceiling_c.back();
  return sum_k / n;
}

TEST(Sideways, FinerStripsConverge) {
  // A fin with m^2 = (5 + 5)/(2000 * 0.002): mean rise of the shaded half 25 K tanh(m L)/(m L), L = 0.5 m.
  const double ml = 0.5 * std::sqrt(10.0 / 4.0);
  const double exact_k = 25.0 * std::tanh(ml) / ml;
  const double error_4 = shaded_rise_k(4) - exact_k;
  const double error_8 = shaded_rise_k(8) - exact_k;
  const double error_16 = shaded_rise_k(16) - exact_k;
  EXPECT_LT(std::abs(error_4), 0.2);
  EXPECT_NEAR(error_4 / error_8, 4.0, 0.2);
  EXPECT_NEAR(error_8 / error_16, 4.0, 0.2);
}

TEST(Sideways, LinksWantTheSameDeck) {
  Group group = sealed_pair(1.0, 0.1);
  group.stacks[1].deck[0].conductivity_dry_w_per_m_k = 1.6;
  EXPECT_THROW(static_cast<void>(run_group(group, steady_air(10.0), from_rest(1))), ContractViolation);
  group = sealed_pair(1.0, 0.1);
  group.side_links[0].second = 2;
  EXPECT_THROW(static_cast<void>(run_group(group, steady_air(10.0), from_rest(1))), ContractViolation);
  group = sealed_pair(1.0, 0.0);
  EXPECT_THROW(static_cast<void>(run_group(group, steady_air(10.0), from_rest(1))), ContractViolation);
}

}  // namespace
}  // namespace houseleek::tests
