// The year of the program against the year of the second one, hour by hour.
#include <gtest/gtest.h>

#include <iostream>
#include <string>

#include "comparison.hpp"
#include "second_opinion.hpp"
#include "simulation/run.hpp"
#include "synthetic_weather.hpp"
#include "test_groups.hpp"

namespace houseleek::tests::second_opinion {
namespace {

constexpr double judge_tolerance = 1e-8;  // its own error is then below 5e-5 K and 1e-5 mm over the year
constexpr double surface_bar_k = 0.02;
constexpr double deck_bar_k = 0.005;

std::vector<StackDifference> compare_run(const simulation::Group& group, int first_hour, int n_hours,
                                         int steps_per_10_min) {
  const climate::ForcingSource weather = synthetic_weather();
  simulation::RunOptions options;
  options.first_hour = first_hour;
  options.n_hours = n_hours;
  options.spin_up_hours = 0;  // both from the same state
  options.steps_per_10_min = steps_per_10_min;
  const results::GroupYear judged = simulation::run_group(group, weather, options);
  const std::vector<HourMarks> judge = second_opinion_run(group, weather, first_hour, n_hours, judge_tolerance, 1);
  std::vector<StackDifference> result;
  for (std::size_t i = 0; i < judge.size(); ++i) {
    const auto room = static_cast<std::size_t>(group.stacks[i].room);
    result.push_back(difference(judged.stacks[i], judged.rooms[room], judge[i]));
  }
  return result;
}

/// A bare roof's membrane is its surface, in the sun and the rain: it gets the surface's bar.
void expect_within_bars(const simulation::Stack& stack, const StackDifference& d, const std::string& what) {
  const auto print = [](const char* column, const Difference& one) {
    return std::string(column) + " " + std::to_string(one.largest) + " at hour " + std::to_string(one.hour) + "; ";
  };
  const std::string found = what + ": " + print("surface", d.surface_k) + print("membrane", d.membrane_k) +
                            print("ceiling", d.ceiling_k) + print("air", d.room_air_k) + print("foliage", d.foliage_k) +
                            print("water", d.water_mm);
  EXPECT_LE(d.surface_k.largest, surface_bar_k) << found;
  EXPECT_LE(d.membrane_k.largest, stack.module.empty() ? surface_bar_k : deck_bar_k) << found;
  EXPECT_LE(d.ceiling_k.largest, deck_bar_k) << found;
  std::cout << found << '\n';
}

class Year : public ::testing::TestWithParam<Kind> {};

TEST_P(Year, IsTheSecondProgramsYear) {
  const simulation::Group group = one_stack_group(GetParam());
  const StackDifference d = compare_run(group, 0, 8760, 1).front();
  expect_within_bars(group.stacks[0], d, "kind " + std::to_string(static_cast<int>(GetParam())));
}
INSTANTIATE_TEST_SUITE_P(SecondOpinion, Year,
                         ::testing::Values(Kind::bare, Kind::contact, Kind::closed, Kind::ventilated, Kind::netted));

TEST(SecondOpinionYear, LinkedStacksOverTwoRoomsForAWeek) {
  const simulation::Group group = linked_group();
  const std::vector<StackDifference> all = compare_run(group, 4600, 168, 1);
  for (std::size_t i = 0; i < all.size(); ++i)
    expect_within_bars(group.stacks[i], all[i], "linked stack " + std::to_string(i));
}

}  // namespace
}  // namespace houseleek::tests::second_opinion
