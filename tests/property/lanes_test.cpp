// Batching, order and splitting change speed and spelling, never a result.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "second_opinion/synthetic_weather.hpp"
#include "second_opinion/test_groups.hpp"
#include "simulation/run.hpp"
#include "support/stack_cases.hpp"

namespace houseleek::tests {
namespace {

using second_opinion::Kind;
using second_opinion::linked_group;
using second_opinion::one_stack_group;
using second_opinion::synthetic_weather;
using simulation::Group;
using simulation::Instructions;
using simulation::Layer;
using simulation::Room;
using simulation::run_group;
using simulation::RunOptions;
using simulation::Stack;

RunOptions ten_days(int lane_width) {
  RunOptions options;
  options.first_hour = 130 * 24;
  options.n_hours = 24 * 10;
  options.spin_up_hours = 0;
  options.lane_width = lane_width;
  return options;
}

std::vector<std::pair<const char*, const std::vector<double>*>> columns_of(const results::StackYear& s) {
  return {{"surface", &s.surface_c},
          {"foliage", &s.foliage_c},
          {"membrane", &s.membrane_c},
          {"ceiling", &s.ceiling_c},
          {"water", &s.water_mm},
          {"root store", &s.root_store_frac},
          {"ceiling flux", &s.ceiling_flux_w_per_m2},
          {"evapotranspiration", &s.evapotranspiration_mm},
          {"drainage", &s.drainage_mm},
          {"run-off", &s.runoff_mm},
          {"watering", &s.watering_mm}};
}

void expect_same_bits(const results::StackYear& a, const results::StackYear& b, const std::string& what) {
  const auto left = columns_of(a);
  const auto right = columns_of(b);
  for (std::size_t i = 0; i < left.size(); ++i) {
    EXPECT_EQ(*left[i].second, *right[i].second) << what << ": " << left[i].first;
  }
  EXPECT_EQ(a.membrane_max_c, b.membrane_max_c) << what;
  EXPECT_EQ(a.membrane_min_c, b.membrane_min_c) << what;
  EXPECT_EQ(a.ceiling_max_c, b.ceiling_max_c) << what;
  EXPECT_EQ(a.heat_residual_max_frac, b.heat_residual_max_frac) << what;
  EXPECT_EQ(a.heat_residual_year_frac, b.heat_residual_year_frac) << what;
  EXPECT_EQ(a.water_residual_max_m, b.water_residual_max_m) << what;
}

void expect_same_bits(const results::RoomYear& a, const results::RoomYear& b, const std::string& what) {
  EXPECT_EQ(a.air_c, b.air_c) << what;
  EXPECT_EQ(a.operative_c, b.operative_c) << what;
  EXPECT_EQ(a.heat_added_w, b.heat_added_w) << what;
  EXPECT_EQ(a.heat_removed_w, b.heat_removed_w) << what;
}

/// Largest difference of any column, K, W/m2 or mm.
double largest_difference(const results::StackYear& a, const results::StackYear& b) {
  double largest = 0.0;
  const auto left = columns_of(a);
  const auto right = columns_of(b);
  for (std::size_t i = 0; i < left.size(); ++i) {
    EXPECT_EQ(left[i].second->size(), right[i].second->size());
    for (std::size_t k = 0; k < left[i].second->size(); ++k) {
      largest = std::max(largest, std::abs((*left[i].second)[k] - (*right[i].second)[k]));
    }
  }
  return largest;
}

/// Eleven stacks of four topologies over two rooms, no two alike; no number of a kind is a multiple of a lane's width.
Group crowd() {
  Group group;
  for (const auto& [kind, count] : {std::pair{Kind::ventilated, 5}, std::pair{Kind::bare, 3},
                                    std::pair{Kind::contact, 1}, std::pair{Kind::netted, 2}}) {
    for (int i = 0; i < count; ++i) {
      Group one = one_stack_group(kind);
      Stack stack = one.stacks[0];
      const double part = static_cast<double>(group.stacks.size()) + 1.0;
      stack.area_m2 = 1.0 + 0.3 * part;
      stack.surface.albedo = 0.10 + 0.03 * part;
      stack.room = i % 2;
      stack.gap.height_m = 0.02 + 0.002 * part;
      stack.canopy.cover_frac = 0.4 + 0.05 * part;
      stack.outside_film.roof_length_m = 4.0 + part;
      for (Layer& layer : stack.deck) layer.conductivity_dry_w_per_m_k *= 1.0 + 0.001 * part;
      if (!stack.module.empty()) stack.module[0].initial_water_frac -= 0.01 * part;
      group.stacks.push_back(stack);
      if (group.rooms.empty()) group.rooms = {one.rooms[0], one.rooms[0]};
    }
  }
  group.rooms[1].internal_gain_w.fill(200.0);
  group.partitions = {{0, 1, 20.0}};
  return group;
}

/// Every set of instructions that can run here with every width, but the plainest of both.
std::vector<std::pair<Instructions, int>> wider_runs() {
  std::vector<std::pair<Instructions, int>> runs{{Instructions::baseline, 2}, {Instructions::baseline, 4}};
  if (simulation::has_instructions(Instructions::avx2)) {
    for (const int width : {1, 2, 4}) runs.emplace_back(Instructions::avx2, width);
  }
  return runs;
}

TEST(Lanes, EveryWidthAndSetOfInstructionsGivesTheSameBits) {
  for (const auto& [name, group] : {std::pair{"crowd", crowd()}, std::pair{"linked", linked_group()}}) {
    RunOptions options = ten_days(1);
    options.instructions = Instructions::baseline;
    const auto one = run_group(group, synthetic_weather(), options);
    for (const auto& [instructions, width] : wider_runs()) {
      options.instructions = instructions;
      options.lane_width = width;
      const auto wide = run_group(group, synthetic_weather(), options);
      const std::string what =
          std::string(name) + (instructions == Instructions::avx2 ? ", AVX2" : "") + ", width " + std::to_string(width);
      for (std::size_t i = 0; i < one.stacks.size(); ++i) {
        expect_same_bits(one.stacks[i], wide.stacks[i], what + ", stack " + std::to_string(i));
      }
      for (std::size_t i = 0; i < one.rooms.size(); ++i) expect_same_bits(one.rooms[i], wide.rooms[i], what);
      EXPECT_EQ(one.tally.n_steps, wide.tally.n_steps);
      EXPECT_EQ(one.tally.n_newton_iterations, wide.tally.n_newton_iterations);
      EXPECT_EQ(one.tally.n_capped_stages, wide.tally.n_capped_stages);
    }
  }
}

TEST(Lanes, AStackDoesNotSeeWhatSharesItsBatch) {
  // Two rooms with nothing between them: what stands over the other one changes nothing.
  const Group alone = one_stack_group(Kind::ventilated);
  Group both = alone;
  both.stacks.push_back(alone.stacks[0]);
  both.stacks[1].room = 1;
  both.stacks[1].surface.albedo = 0.5;
  both.stacks[1].canopy.leaf_area_index = 4.0;
  both.rooms.push_back(alone.rooms[0]);
  both.rooms[1].internal_gain_w.fill(500.0);
  const auto by_itself = run_group(alone, synthetic_weather(), ten_days(4));
  const auto in_company = run_group(both, synthetic_weather(), ten_days(4));
  ASSERT_EQ(in_company.tally.n_hours_redone, 0) << "an hour done again is done again for all";
  // All that is solved together takes as many of Newton's iterations as the slowest needs, and each moves what has
  // settled already by its rounding: below the tolerance of 1e-9 W/m2, not below the last bit.
  EXPECT_GT(in_company.tally.n_newton_iterations, by_itself.tally.n_newton_iterations);
  EXPECT_LT(largest_difference(by_itself.stacks[0], in_company.stacks[0]), 1e-8);
  // Twins in one batch are twins.
  Group twins = alone;
  twins.stacks.assign(7, alone.stacks[0]);
  for (Stack& stack : twins.stacks) stack.area_m2 /= 7.0;
  const auto seven = run_group(twins, synthetic_weather(), ten_days(4));
  for (std::size_t i = 1; i < 7; ++i) expect_same_bits(seven.stacks[0], seven.stacks[i], "twin " + std::to_string(i));
  EXPECT_LT(largest_difference(by_itself.stacks[0], seven.stacks[0]), 1e-10) << "seven sevenths are one";
}

TEST(Lanes, ALayerInHalvesIsTheLayer) {
  const Group whole = one_stack_group(Kind::contact);
  Group halves = whole;
  for (std::vector<Layer>* layers : {&halves.stacks[0].module, &halves.stacks[0].deck}) {
    std::vector<Layer> split;
    for (Layer layer : *layers) {
      layer.thickness_m *= 0.5;
      layer.root_frac *= 0.5;
      split.push_back(layer);
      split.push_back(layer);
    }
    *layers = split;
  }
  const auto a = run_group(whole, synthetic_weather(), ten_days(4));
  const auto b = run_group(halves, synthetic_weather(), ten_days(4));
  expect_same_bits(a.stacks[0], b.stacks[0], "halves");
  expect_same_bits(a.rooms[0], b.rooms[0], "halves");
  EXPECT_EQ(a.tally.n_slices, b.tally.n_slices);
}

TEST(Lanes, TheOrderOfStacks) {
  const Group group = crowd();
  const std::size_t n = group.stacks.size();
  const auto turned = [n](const Group& from) {
    Group to = from;
    for (std::size_t i = 0; i < n; ++i) to.stacks[i] = from.stacks[n - 1 - i];
    return to;
  };
  // Over shared rooms the sums of their ceilings are taken in the order of the stacks: rounding, and no more.
  const auto shared = run_group(group, synthetic_weather(), ten_days(4));
  const auto shared_turned = run_group(turned(group), synthetic_weather(), ten_days(4));
  for (std::size_t i = 0; i < n; ++i) {
    EXPECT_LT(largest_difference(shared.stacks[n - 1 - i], shared_turned.stacks[i]), 1e-10) << i;
  }
  // Each over a room of its own: the same bits, whatever lane and batch it lands in.
  Group apart = group;
  apart.rooms.assign(n, group.rooms[0]);
  apart.partitions.clear();
  for (std::size_t i = 0; i < n; ++i) apart.stacks[i].room = static_cast<int>(i);
  const auto own = run_group(apart, synthetic_weather(), ten_days(4));
  const auto own_turned = run_group(turned(apart), synthetic_weather(), ten_days(4));
  for (std::size_t i = 0; i < n; ++i) {
    expect_same_bits(own.stacks[n - 1 - i], own_turned.stacks[i], "turned, stack " + std::to_string(i));
  }
}

}  // namespace
}  // namespace houseleek::tests
