// Conduction through the layers as the stepper carries it out, against closed forms and the periodic matrices.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "simulation/run.hpp"
#include "support/reference_check.hpp"
#include "support/stack_cases.hpp"

namespace houseleek::tests {
namespace {

using simulation::Group;
using simulation::Layer;
using simulation::run_group;
using simulation::RunOptions;
using simulation::Stack;
using simulation::Under;

constexpr const char* judged = "simulation::run_group";

Layer plaster() { return solid_layer(0.015, 0.57, 1300.0, 1000.0); }
Layer concrete(double thickness_m) { return solid_layer(thickness_m, 2.0, 2400.0, 1000.0); }
Layer screed() { return solid_layer(0.060, 0.41, 1200.0, 1000.0); }
Layer bitumen() { return solid_layer(0.010, 0.23, 1100.0, 1000.0); }

enum class Roof { r1, r2, r3, c1 };

Stack roof_stack(Roof roof) {
  Stack stack = calm_stack(1.0 / 0.04, 1.0 / 0.10);
  stack.initial_temperature_c = 0.0;
  stack.deck = {bitumen(), screed(), concrete(0.160), plaster()};
  if (roof == Roof::r2) stack.deck = {bitumen(), solid_layer(0.100, 0.035, 20.0, 1450.0), concrete(0.180), plaster()};
  if (roof == Roof::c1) stack.deck = {solid_layer(0.200, 1.8, 2400.0, 1000.0)};
  if (roof == Roof::r3) {
    stack.module = {solid_layer(0.080, 0.90, 1400.0, 1900.0), solid_layer(0.003, 0.50, 980.0, 1800.0)};
    stack.under = Under::contact;
    stack.gap.contact_resistance_m2_k_per_w = 0.16;
  }
  return stack;
}

constexpr const char* matrix_source =
    "[iso13786] periodic heat transfer matrix (equations from memory), recomputed; inside film 0.10, outside 0.04 "
    "m2K/W";

struct PeriodicRow {
  Roof roof;
  const char* name;
  double transmittance_w_per_m2_k, lag_h;
};
constexpr PeriodicRow periodic_rows[] = {{Roof::r1, "R1", 0.72692209, 7.253504},
                                         {Roof::r2, "R2", 0.06224696, 7.603007},
                                         {Roof::r3, "R3", 0.24297331, 11.525118},
                                         {Roof::c1, "C1", 2.18765260, 5.483324}};

/// Inside flux of a roof under a day-long wave of the outside air of 10 K, in its 25th day.
DailyWave inside_wave(Roof roof, int refinement) {
  const int days = 25;
  const Group group = over_given_room(roof_stack(roof), 0.0);
  const auto result = run_group(group, waving_air(0.0, 10.0, 0.0), from_rest(24 * days, refinement));
  std::vector<double> flux_w_per_m2 = result.stacks[0].ceiling_c;
  for (double& q : flux_w_per_m2) q *= 10.0;
  DailyWave wave = daily_wave(flux_w_per_m2, 24 * (days - 1));
  wave.amplitude /= 10.0;
  return wave;
}

TEST(Conduction, DayLongWaveThroughRoofs) {
  for (const PeriodicRow& row : periodic_rows) {
    const DailyWave usual = inside_wave(row.roof, 1);
    const DailyWave halved = inside_wave(row.roof, 2);
    check_reference({.id = std::string("COND-01 ") + row.name,
                     .what = "periodic transmittance, usual slices and step, W/m2K",
                     .source = matrix_source,
                     .expected = row.transmittance_w_per_m2_k,
                     .got = usual.amplitude,
                     .tolerance = 0.002 * row.transmittance_w_per_m2_k,
                     .reason = "0.2 %: promised of the usual slices and 600 s",
                     .function = judged});
    check_reference({.id = std::string("COND-02 ") + row.name,
                     .what = "delay of the inside flux, usual slices and step, h",
                     .source = matrix_source,
                     .expected = row.lag_h,
                     .got = usual.peak_h,
                     .tolerance = 2.0 / 60.0,
                     .reason = "2 min: promised of the usual slices and 600 s",
                     .function = judged});
    check_reference({.id = std::string("COND-03 ") + row.name,
                     .what = "periodic transmittance, slices and step halved, W/m2K",
                     .source = matrix_source,
                     .expected = row.transmittance_w_per_m2_k,
                     .got = halved.amplitude,
                     .tolerance = 0.0005 * row.transmittance_w_per_m2_k,
                     .reason = "0.05 %: a quarter of what the usual slices may be off (second order)",
                     .function = judged});
    check_reference({.id = std::string("COND-04 ") + row.name,
                     .what = "delay of the inside flux, slices and step halved, h",
                     .source = matrix_source,
                     .expected = row.lag_h,
                     .got = halved.peak_h,
                     .tolerance = 0.5 / 60.0,
                     .reason = "a quarter of 2 min (second order)",
                     .function = judged});
  }
}

constexpr std::size_t n_step_hours = 7;
constexpr int step_hours[n_step_hours] = {1, 2, 3, 6, 12, 24, 48};
struct StepRow {
  Roof roof;
  const char* name;
  double flux_w_per_m2[n_step_hours];
  double transmittance_w_per_m2_k;
};
constexpr StepRow step_rows[] = {
    {Roof::r1, "R1", {0.0006715, 0.0371766, 0.1476102, 0.6151266, 1.3274495, 1.9749446, 2.2583896}, 2.2928653},
    {Roof::r2, "R2", {0.0000544, 0.0035172, 0.0138075, 0.0562338, 0.1291031, 0.2195774, 0.2906978}, 0.3167627},
    {Roof::r3, "R3", {0.0000000, 0.0001351, 0.0028103, 0.0708460, 0.4021865, 0.9585404, 1.3485381}, 1.4471269},
    {Roof::c1, "C1", {0.0278696, 0.3270194, 0.8017570, 2.0839607, 3.3385886, 3.9085444, 3.9813326}, 3.9823009}};

constexpr const char* step_source =
    "inverse Laplace transform of the exact transfer matrices [carslaw1959], recomputed; films as for the waves";

TEST(Conduction, LeapOfTheOutsideAir) {
  for (const StepRow& row : step_rows) {
    const Group group = over_given_room(roof_stack(row.roof), 0.0);
    const auto usual = run_group(group, steady_air(1.0), from_rest(48)).stacks[0];
    const auto halved = run_group(group, steady_air(1.0), from_rest(48, 2)).stacks[0];
    const auto fine = run_group(group, steady_air(1.0), from_rest(48, 5)).stacks[0];
    int n_orders = 0;
    for (std::size_t i = 0; i < n_step_hours; ++i) {
      const std::size_t mark = static_cast<std::size_t>(step_hours[i]) - 1;
      const std::string where = std::string(row.name) + " " + std::to_string(step_hours[i]) + " h";
      const double usual_w_per_m2 = 10.0 * usual.ceiling_c[mark];
      const double halved_w_per_m2 = 10.0 * halved.ceiling_c[mark];
      check_reference({.id = "COND-05 " + where,
                       .what = "flux into the room after the outside air leaps by 1 K, usual slices and step, W/m2",
                       .source = step_source,
                       .expected = row.flux_w_per_m2[i],
                       .got = usual_w_per_m2,
                       .tolerance = 0.0005 * row.transmittance_w_per_m2_k,
                       .reason = "0.05 % of the final flux",
                       .function = judged,
                       .scale = row.transmittance_w_per_m2_k});
      // Before a fiftieth of the heat has come through, a percent of the flux itself asks for finer slices.
      if (step_hours[i] > 1 && row.flux_w_per_m2[i] > 0.02 * row.transmittance_w_per_m2_k) {
        check_reference({.id = "COND-06 " + where,
                         .what = "the same, by its own size",
                         .source = step_source,
                         .expected = row.flux_w_per_m2[i],
                         .got = usual_w_per_m2,
                         .tolerance = 0.009 * row.flux_w_per_m2[i],
                         .reason = "1 % is promised after the first hour",
                         .function = judged});
      }
      if (step_hours[i] > 1) {
        check_reference({.id = "COND-07 " + where,
                         .what = "the same with slices and step cut in five, by its own size",
                         .source = step_source,
                         .expected = row.flux_w_per_m2[i],
                         .got = 10.0 * fine.ceiling_c[mark],
                         .tolerance = 0.009 * row.flux_w_per_m2[i],
                         .reason = "1 % is promised after the first hour",
                         .function = judged});
      }
      // Seven decimals are given: below this the ratio would show their rounding.
      if (std::abs(halved_w_per_m2 - row.flux_w_per_m2[i]) > 2e-6) {
        ++n_orders;
        EXPECT_NEAR((usual_w_per_m2 - row.flux_w_per_m2[i]) / (halved_w_per_m2 - row.flux_w_per_m2[i]), 4.0, 0.12)
            << where;
      }
    }
    EXPECT_GE(n_orders, 5) << row.name;
  }
}

/// A roof in the sun: absorptance, sun, sky and so on as in the balance a S + e (L - s T^4) = h (T - Ta) + K (T - Ti).
struct SunnyRow {
  const char* what;
  double absorptance, sun_w_per_m2, sky_w_per_m2, film_w_per_m2_k, air_k, through_w_per_m2_k, inside_k, surface_k;
};
constexpr SunnyRow sunny_rows[] = {{"dark, light wind", 0.9, 900.0, 370.0, 10.0, 303.15, 2.5, 299.15, 339.531749},
                                   {"dark, windy", 0.9, 900.0, 370.0, 20.0, 303.15, 2.5, 299.15, 327.434006},
                                   {"light, light wind", 0.25, 900.0, 370.0, 10.0, 303.15, 2.5, 299.15, 309.519104},
                                   {"clear night", 0.9, 0.0, 290.0, 6.0, 288.15, 2.5, 297.15, 282.994996},
                                   {"clear night, insulated", 0.9, 0.0, 290.0, 6.0, 288.15, 0.32, 297.15, 280.158107}};

TEST(Conduction, SteadyRoofUnderSunAndSky) {
  for (const SunnyRow& row : sunny_rows) {
    const double inside_film_w_per_m2_k = 10.0;
    Stack stack = calm_stack(row.film_w_per_m2_k, inside_film_w_per_m2_k);
    stack.surface.albedo = 1.0 - row.absorptance;
    stack.surface.emissivity = 0.9;
    const double resistance = 1.0 / row.through_w_per_m2_k - 1.0 / inside_film_w_per_m2_k;
    stack.deck = {solid_layer(0.05, 0.05 / resistance, 100.0, 1000.0)};
    stack.initial_temperature_c = 25.0;
    climate::Forcing forcing;
    forcing.air_temperature_c = row.air_k - 273.15;
    forcing.global_w_per_m2 = row.sun_w_per_m2;
    forcing.sky_longwave_w_per_m2 = row.sky_w_per_m2;
    const auto result =
        run_group(over_given_room(stack, row.inside_k - 273.15), steady_weather(forcing), from_rest(24 * 20));
    check_reference({.id = std::string("COND-08 ") + row.what,
                     .what = "steady temperature of a roof's surface, K",
                     .source = "root of the balance with sigma 5.670374419e-8, recomputed",
                     .expected = row.surface_k,
                     .got = result.stacks[0].surface_c.back() + 273.15,
                     .tolerance = 1e-6,
                     .reason = "six decimals are given",
                     .function = judged,
                     .scale = 1.0});
    check_reference({.id = std::string("COND-09 ") + row.what,
                     .what = "steady flux into the room, W/m2",
                     .source = "root of the balance with sigma 5.670374419e-8, recomputed",
                     .expected = row.through_w_per_m2_k * (row.surface_k - row.inside_k),
                     .got = result.stacks[0].ceiling_flux_w_per_m2.back(),
                     .tolerance = 3e-6,
                     .reason = "six decimals of the surface's temperature are given",
                     .function = judged});
  }
}

}  // namespace
}  // namespace houseleek::tests
