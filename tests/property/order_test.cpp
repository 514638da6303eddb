// The stepper's observed order on smooth problems: in the step and in the slices, without water and with it.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "second_opinion/test_groups.hpp"
#include "simulation/run.hpp"
#include "support/stack_cases.hpp"

namespace houseleek::tests {
namespace {

using second_opinion::Kind;
using second_opinion::one_stack_group;
using simulation::Group;
using simulation::run_group;
using simulation::RunOptions;
using simulation::Stack;

/// Waves of a day in everything, the sun never down: nothing jumps, nothing bends.
climate::ForcingSource smooth_weather() {
  return [](int hour, double fraction) {
    const double angle = std::acos(-1.0) / 12.0 * (hour + fraction);
    climate::Forcing forcing;
    forcing.air_temperature_c = 24.0 - 6.0 * std::cos(angle - 0.8);
    forcing.vapour_pressure_pa = 1400.0 + 200.0 * std::sin(angle);
    forcing.wind_m_per_s = 2.5 + std::sin(angle - 2.0);
    forcing.global_w_per_m2 = 400.0 - 350.0 * std::cos(angle);
    forcing.sky_longwave_w_per_m2 = 350.0 + 20.0 * std::sin(angle - 1.0);
    forcing.rain_temperature_c = forcing.air_temperature_c;
    return forcing;
  };
}

/// A room without rules that switch.
Group smooth_group(Kind kind) {
  Group group = one_stack_group(kind);
  group.stacks[0].waterings.clear();
  group.rooms[0].internal_gain_w.fill(100.0);
  group.rooms[0].solar_gain_w.clear();
  group.rooms[0].window_rule.extra_per_h = 0.0;
  return group;
}

/// Without plants and water.
Group dry_group(Kind kind) {
  Group group = smooth_group(kind);
  Stack& stack = group.stacks[0];
  stack.has_canopy = false;
  stack.surface.is_evaporating = false;
  if (!stack.module.empty()) {
    stack.module = {solid_layer(0.08, 0.5, 1200.0, 1200.0), solid_layer(0.05, 0.04, 25.0, 1500.0)};
  }
  return group;
}

enum class Cut { step, slices };

using Column = std::pair<std::string, std::vector<double>>;

/// Columns of the second day, with the step or the slices cut in `parts`.
std::vector<Column> second_day(const Group& group, Cut cut, int parts) {
  RunOptions options = from_rest(48);
  options.error_bound_k = 1e9;  // so that the step stays as told
  options.newton_w_per_m2 = 1e-10;
  options.steps_per_10_min = cut == Cut::step ? parts : 2;
  options.refinement = cut == Cut::slices ? parts : 1;
  const auto result = run_group(group, smooth_weather(), options);
  EXPECT_EQ(result.tally.n_hours_redone, 0);
  const auto& stack = result.stacks[0];
  std::vector<Column> columns{{"surface", stack.surface_c},
                              {"membrane", stack.membrane_c},
                              {"ceiling", stack.ceiling_c},
                              {"air", result.rooms[0].air_c}};
  if (group.stacks[0].has_canopy) columns.emplace_back("foliage", stack.foliage_c);
  if (group.stacks[0].has_canopy && cut == Cut::step) columns.emplace_back("water", stack.water_mm);
  for (Column& column : columns) column.second.erase(column.second.begin(), column.second.end() - 24);
  return columns;
}

double apart(const std::vector<double>& a, const std::vector<double>& b) {
  double sum = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += (a[i] - b[i]) * (a[i] - b[i]);
  return std::sqrt(sum / static_cast<double>(a.size()));
}

/// Order from the differences of three runs, each cut twice as fine as the last.
void expect_second_order(const std::string& what, const Group& group, Cut cut, int coarsest) {
  const auto coarse = second_day(group, cut, coarsest);
  const auto middle = second_day(group, cut, 2 * coarsest);
  const auto fine = second_day(group, cut, 4 * coarsest);
  for (std::size_t i = 0; i < coarse.size(); ++i) {
    const double first = apart(coarse[i].second, middle[i].second);
    const double second = apart(middle[i].second, fine[i].second);
    EXPECT_NEAR(std::log2(first / second), 2.0, 0.2) << what << " " << coarse[i].first << " " << first << " " << second;
    EXPECT_GT(second, 1e-9) << what << " " << coarse[i].first << ": too small to tell an order";
  }
}

constexpr std::pair<Kind, const char*> kinds[] = {{Kind::bare, "bare"},
                                                  {Kind::contact, "contact"},
                                                  {Kind::closed, "closed gap"},
                                                  {Kind::ventilated, "ventilated gap"},
                                                  {Kind::netted, "under a net"}};

TEST(Order, HeatAloneInTime) {
  for (const auto& [kind, name] : kinds) expect_second_order(name, dry_group(kind), Cut::step, 1);
}

TEST(Order, HeatAloneInSpace) {
  for (const auto& [kind, name] : kinds) expect_second_order(name, dry_group(kind), Cut::slices, 1);
}

TEST(Order, PlantedAndDryingInTime) {
  for (const auto& [kind, name] : kinds) {
    if (kind != Kind::bare) expect_second_order(name, smooth_group(kind), Cut::step, 1);
  }
}

TEST(Order, PlantedAndDryingInSpace) {
  for (const auto& [kind, name] : kinds) {
    if (kind != Kind::bare) expect_second_order(name, smooth_group(kind), Cut::slices, 1);
  }
}

}  // namespace
}  // namespace houseleek::tests
