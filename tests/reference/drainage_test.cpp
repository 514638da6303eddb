// Water on its way through a module: drained, percolating, full, running off.
#include <gtest/gtest.h>

#include <cstddef>
#include <string>
#include <vector>

#include "simulation/run.hpp"
#include "simulation/water_step.hpp"
#include "support/reference_check.hpp"
#include "support/stack_cases.hpp"

namespace houseleek::tests {
namespace {

using simulation::Layer;
using simulation::run_group;
using simulation::Stack;
using simulation::Under;

constexpr const char* stepper = "simulation::run_group";

/// A layer of one store that drains down to its residual.
Layer draining_layer(double thickness_m, double conductivity_m_per_s, double exponent) {
  Layer layer = solid_layer(thickness_m, 0.4, 1000.0, 1000.0);
  layer.saturated_frac = 0.45;
  layer.holds_frac = 0.05;
  layer.residual_frac = 0.05;
  layer.wilting_frac = 0.06;
  layer.field_capacity_frac = 0.20;
  layer.initial_water_frac = 0.45;
  layer.saturated_conductivity_m_per_s = conductivity_m_per_s;
  layer.drainage_exponent = exponent;
  return layer;
}

/// No evaporation, everything at 15 degC.
Stack still_stack(std::vector<Layer> module) {
  Stack stack = calm_stack(10.0, 10.0);
  stack.module = std::move(module);
  stack.under = Under::contact;
  stack.deck = {solid_layer(0.1, 1.0, 2000.0, 1000.0)};
  stack.initial_temperature_c = 15.0;
  return stack;
}

climate::ForcingSource steady_rain(double rain_kg_per_m2_s) {
  climate::Forcing forcing;
  forcing.air_temperature_c = 15.0;
  forcing.rain_temperature_c = 15.0;
  forcing.rain_kg_per_m2_s = rain_kg_per_m2_s;
  return steady_weather(forcing);
}

results::StackYear run_still(std::vector<Layer> module, double rain_kg_per_m2_s, int n_hours,
                             int steps_per_10_min = 1) {
  simulation::RunOptions options = from_rest(n_hours);
  options.steps_per_10_min = steps_per_10_min;
  return run_group(over_given_room(still_stack(std::move(module)), 15.0), steady_rain(rain_kg_per_m2_s), options)
      .stacks[0];
}

struct DrainedRow {
  const char* name;
  std::size_t hours;
  double saturation, drained_cm;  // of 10 cm
};
constexpr DrainedRow drained_rows[] = {{"t 0.01", 1, 0.87725, 0.4910},
                                       {"t 0.1", 10, 0.70414, 1.1834},
                                       {"t 1", 100, 0.54756, 1.8098},
                                       {"t 2", 200, 0.50710, 1.9716},
                                       {"t 10", 1000, 0.42414, 2.3034}};
constexpr const char* drained_source =
    "unit-gradient drainage, Se = [1 + (b-1) K t/(L range)]^(1/(1-b)), closed form, recomputed";

TEST(Drainage, UnitGradientFromFull) {
  // The closed form knows only K t/L: 4 cm with a day stretched to 100 h instead of 10 cm with K = 100 cm/d.
  const double conductivity_m_per_s = 1.0 * 0.4 / (100.0 * 3600.0);
  const auto stack = run_still({draining_layer(0.04, conductivity_m_per_s, 10.0)}, 0.0, 1000);
  const auto check_drained = [&](const DrainedRow& row) {
    double drained_mm = 0.0;
    for (std::size_t i = 0; i < row.hours; ++i) drained_mm += stack.drainage_mm[i];
    check_reference({.id = std::string("WATER-01 ") + row.name,
                     .what = "effective saturation of a draining layer, K = 100 cm/d, b = 10, L = 10 cm, days",
                     .source = drained_source,
                     .expected = row.saturation,
                     .got = (stack.water_mm[row.hours - 1] / 40.0 - 0.05) / 0.40,
                     .tolerance = 2.5e-4,
                     .reason = "4 um of the 16 mm it can drain: steps of water are cut until they agree to 10 um",
                     .function = stepper});
    check_reference({.id = std::string("WATER-02 ") + row.name,
                     .what = "water drained from the same layer, cm of 10 cm",
                     .source = drained_source,
                     .expected = row.drained_cm,
                     .got = drained_mm / 10.0 / 0.4,
                     .tolerance = 1e-3,
                     .reason = "2.5e-4 of the 4 cm it can drain; four decimals are given",
                     .function = stepper});
  };
  for (const DrainedRow& row : drained_rows) check_drained(row);
  check_reference({.id = "WATER-03",
                   .what = "drainage of the same layer after 1 day, cm/d",
                   .source = drained_source,
                   .expected = 0.24228,
                   .got = 0.5 * (stack.drainage_mm[99] + stack.drainage_mm[100]) * 100.0 / 10.0 / 0.4,
                   .tolerance = 5e-4,
                   .reason = "0.2 %: the mean of the hours before and after, and water held to 4 um",
                   .function = stepper});
}

TEST(Drainage, StepOfWaterAlone) {
  // The same layer in one step of any length: the step cuts itself.
  struct StepRow {
    const char* name;
    double days, saturation;
  };
  constexpr StepRow step_rows[] = {{"0.01 d", 0.01, 0.87725}, {"0.1 d", 0.1, 0.70414}, {"1 d", 1.0, 0.54756}};
  const std::vector<Layer> layers{draining_layer(0.04, 0.4 / 86400.0, 10.0)};
  const simulation::Mesh mesh = simulation::make_mesh(layers, 1);
  ASSERT_EQ(mesh.stores.size(), 1U);
  for (const StepRow& row : step_rows) {
    const std::vector<double> full{0.45};
    const std::vector<double> none{0.0};
    simulation::WaterStep step;
    simulation::advance_water(mesh, full, {.uptake_kg_per_m2_s = none}, row.days * 86400.0, step);
    check_reference({.id = std::string("WATER-04 ") + row.name,
                     .what = "effective saturation after one step of water",
                     .source = drained_source,
                     .expected = row.saturation,
                     .got = (step.water_frac[0] - 0.05) / 0.40,
                     .tolerance = 3e-5,
                     .reason = "0.5 um of 16 mm after extrapolation; five digits are given",
                     .function = "simulation::advance_water"});
    const double gone_m = step.face_kg_per_m2_s[1] * row.days * 86400.0 / 1000.0;
    EXPECT_NEAR(gone_m, (0.45 - step.water_frac[0]) * 0.04, 1e-15) << row.name;
    EXPECT_FALSE(step.is_overdrawn);
  }
}

TEST(Drainage, PercolatesAsItRains) {
  // In a steady rain P every store stands where it passes P on: y = (P/(rho K))^(1/b).
  Layer upper = draining_layer(0.04, 1e-6, 4.0);
  Layer lower = draining_layer(0.03, 4e-6, 3.0);
  lower.holds_frac = 0.15;  // what it holds never leaves
  lower.initial_water_frac = 0.05;
  const auto stack = run_still({upper, lower}, 1e-4, 24 * 20);
  check_reference({.id = "WATER-05 store",
                   .what = "water in two stores of 40 and 30 mm under a steady rain of 1e-4 kg/m2s, mm",
                   .source = "[brooks1964] power law (from memory), closed form by hand: y = 0.1^(1/4) and 0.025^(1/3)",
                   .expected = 40.0 * (0.05 + 0.40 * 0.5623413252) + 30.0 * (0.15 + 0.30 * 0.2924017738),
                   .got = stack.water_mm.back(),
                   .tolerance = 1e-6,
                   .reason = "a fixed point of the step",
                   .function = stepper});
  check_reference({.id = "WATER-05 drainage",
                   .what = "drainage under a steady rain of 0.36 mm/h, mm/h",
                   .source = "[brooks1964] at rest, by hand: what comes in goes out",
                   .expected = 0.36,
                   .got = stack.drainage_mm.back(),
                   .tolerance = 1e-8,
                   .reason = "a fixed point of the step",
                   .function = stepper});
  EXPECT_EQ(stack.runoff_mm.back(), 0.0);
}

TEST(Drainage, DryModuleKeepsWhatItHolds) {
  Layer layer = draining_layer(0.04, 1e-5, 4.0);
  layer.holds_frac = 0.30;
  layer.initial_water_frac = 0.06;
  const auto stack = run_still({layer}, 5e-4, 12);
  // 1.8 mm/h into 2.4 mm; 12.0 mm are held: nothing drains through the fifth hour.
  for (std::size_t i = 0; i < 5; ++i) {
    EXPECT_NEAR(stack.water_mm[i], 2.4 + 1.8 * static_cast<double>(i + 1), 1e-9);
    EXPECT_EQ(stack.drainage_mm[i], 0.0);
  }
  EXPECT_GT(stack.drainage_mm[11], 0.5);
}

TEST(Drainage, MoreThanItTakesRunsOff) {
  const auto stack = run_still({draining_layer(0.04, 2e-6, 4.0)}, 5e-3, 24);
  check_reference({.id = "WATER-06",
                   .what = "run-off under 5e-3 kg/m2s on a medium that conducts 2e-3, mm/h",
                   .source = "[brooks1964] saturated conductivity, by hand: (5e-3 - 2e-3) 3600",
                   .expected = 10.8,
                   .got = stack.runoff_mm.back(),
                   .tolerance = 1e-6,
                   .reason = "exact once the store is full",
                   .function = stepper});
  EXPECT_NEAR(stack.drainage_mm.back(), 7.2, 1e-6);
  EXPECT_NEAR(stack.water_mm.back(), 18.0, 1e-6);
}

TEST(Drainage, ATightLayerLetsTheRestPast) {
  // A full lower store passes on what it cannot hold: what leaves is the rain, not what the tight layer conducts.
  Layer tight = draining_layer(0.03, 1e-6, 4.0);
  tight.initial_water_frac = 0.10;
  const auto stack = run_still({draining_layer(0.04, 1e-5, 4.0), tight, draining_layer(0.03, 2e-6, 4.0)}, 1.5e-3, 96);
  check_reference({.id = "WATER-07",
                   .what = "water above, in and below a full tight layer under 1.5e-3 kg/m2s, mm",
                   .source = "[brooks1964] power law (from memory), closed form by hand: y = 0.15^(1/4), 1, 0.75^(1/4)",
                   .expected = 40.0 * (0.05 + 0.40 * 0.6223329773) + 30.0 * 0.45 + 30.0 * (0.05 + 0.40 * 0.9306048591),
                   .got = stack.water_mm.back(),
                   .tolerance = 1e-5,
                   .reason = "a fixed point of the step",
                   .function = stepper});
  EXPECT_NEAR(stack.drainage_mm.back(), 5.4, 1e-6);
  EXPECT_EQ(stack.runoff_mm.back(), 0.0);
}

TEST(Drainage, NothingIsLostOnTheWay) {
  // Storms and pauses: rain = stored + drained + run off, counted from the columns.
  const auto storms = [](int hour, double fraction) {
    climate::Forcing forcing;
    forcing.air_temperature_c = 15.0;
    forcing.rain_temperature_c = 15.0;
    const int slot = hour * 6 + static_cast<int>(fraction * 6.0 - 1e-9);
    forcing.rain_kg_per_m2_s = slot % 7 == 0 ? 8e-3 : slot % 3 == 0 ? 4e-4 : 0.0;
    return forcing;
  };
  double rain_mm = 0.0;
  for (int slot = 0; slot < 24 * 6 * 5; ++slot) rain_mm += 600.0 * (slot % 7 == 0 ? 8e-3 : slot % 3 == 0 ? 4e-4 : 0.0);
  const Stack still = still_stack({draining_layer(0.10, 3e-6, 6.0), draining_layer(0.05, 5e-6, 3.0)});
  const auto stack = run_group(over_given_room(still, 15.0), storms, from_rest(24 * 5)).stacks[0];
  double out_mm = 0.0;
  for (std::size_t i = 0; i < stack.drainage_mm.size(); ++i) out_mm += stack.drainage_mm[i] + stack.runoff_mm[i];
  EXPECT_NEAR(stack.water_mm.back() - 150.0 * 0.45, rain_mm - out_mm, 1e-9);
  EXPECT_GT(out_mm, 100.0);
  EXPECT_LT(stack.water_residual_max_m, 1e-15);
}

}  // namespace
}  // namespace houseleek::tests
