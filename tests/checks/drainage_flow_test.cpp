// Water on squares: steady sheets, rising hydrographs, level pools, coarse layers, dams; its books and its symmetry.
#include "checks/drainage_flow.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "checks/drainage_decks.hpp"
#include "checks/ponding.hpp"
#include "support/reference_check.hpp"

namespace houseleek::checks {
namespace {

using tests::bare_deck;
using tests::check_reference;
using tests::falling_strip;
using tests::rain_for;
using tests::round_exit;
using tests::steady_rain_m3_per_s;
using tests::wide_exit;

constexpr const char* solver = "checks::advance_flow";

TEST(RoofFlow, SteadyPlaneIsKinematic) {
  const FlowSquares strip = falling_strip(80, 10.0, 0.02, 0.011);
  std::vector<double> rain = steady_rain_m3_per_s(strip, 100.0);
  rain.back() = 0.0;
  const std::vector<double> depth_m = steady_depths_m(strip, rain);
  struct Row {
    const char* id;
    std::size_t square;  // its lower face lies at x
    double x_m, depth_mm;
  };
  constexpr Row rows[] = {
      {"FLOW-01a", 15, 2.0, 0.604454}, {"FLOW-01b", 31, 4.0, 0.916181}, {"FLOW-01c", 63, 8.0, 1.388670}};
  for (const Row& row : rows) {
    check_reference({.id = row.id,
                     .what = "steady depth on a plane of 2 %, n 0.011, under 100 mm/h, mm",
                     .source = "[chow1988] kinematic wave, h = (i x n/S^0.5)^0.6, recomputed",
                     .expected = row.depth_mm,
                     .got = 1000.0 * depth_m[row.square],
                     .tolerance = 0.003 * row.depth_mm,
                     .reason = "the slope of the water itself, dh/dx / S = 0.6 h/(x S), slows it by up to 0.3 %",
                     .function = solver});
  }
}

TEST(RoofFlow, ObliquePlaneRunsAsManningSays) {
  // Fall of 2 % along x and along y: flow follows the steepest way, so q_x = h^(5/3) S_x/(n S^0.5) with S = 2.83 %.
  FlowSquares deck = bare_deck(
      {.columns = 25, .rows = 60, .width_m = 0.2, .height_m = 0.2},
      [](double x_m, double y_m) { return 1.0 - 0.02 * x_m - 0.02 * y_m; }, 0.02);
  for (int j = 0; j < 60; ++j) deck.exits.push_back(wide_exit(deck, 24 + j * 25));
  for (int i = 0; i < 25; ++i) deck.exits.push_back(wide_exit(deck, i + 59 * 25));
  const std::vector<double> depth_m = steady_depths_m(deck, steady_rain_m3_per_s(deck, 100.0));
  check_reference({.id = "FLOW-02",
                   .what = "steady depth 2 m down a plane that falls across the squares, mm",
                   .source = "[chow1988] kinematic wave with S_x = S_y = 0.02, h = (i x n S^0.5/S_x)^0.6, recomputed",
                   .expected = 0.960064,
                   .got = 1000.0 * depth_m[9 + 45 * 25],
                   .tolerance = 0.03,
                   .reason = "3 %: slope of the water itself; faces that know only their own slope would be 10 % off",
                   .function = solver});
}

double mean_of_rising_flow(double minute, double rain_m_per_s, double length_m, double alpha) {
  double sum = 0.0;
  constexpr int n = 6000;
  for (int k = 0; k < n; ++k) {
    const double t_s = 60.0 * (minute + (k + 0.5) / n);
    sum += std::min(rain_m_per_s * length_m, alpha * std::pow(rain_m_per_s * t_s, 5.0 / 3.0));
  }
  return sum / n;
}

TEST(RoofFlow, RisingHydrographConvergesAtItsOrder) {
  // [woolhiser1967], [henderson1964]: a dry plane under steady rain gives q = alpha (i t)^(5/3), then i L for good.
  const double slope = 0.1, roughness = 0.05, length_m = 10.0, rain_mm_per_h = 100.0;
  const double rain_m_per_s = rain_mm_per_h / 3.6e6;
  const double alpha = std::sqrt(slope) / roughness;
  std::vector<double> errors;
  for (const int k : {2, 4, 8, 16}) {
    const FlowSquares strip = falling_strip(10 * k, length_m, slope, roughness);
    RunOff rain = rain_for(strip, rain_mm_per_h, 6);
    rain.column_of_square.back() = -1;
    const Routed routed = route_runoff(strip, rain, {.step_s = 30.0 / k});
    double error = 0.0;
    for (int minute = 0; minute < 6; ++minute) {
      error += std::fabs(routed.exit_m3_per_s[0][static_cast<std::size_t>(minute)] -
                         mean_of_rising_flow(minute, rain_m_per_s, length_m, alpha)) /
               (6.0 * rain_m_per_s * length_m);
    }
    errors.push_back(error);
    EXPECT_LE(routed.worst_residual_frac, 1e-12);
  }
  EXPECT_LT(errors.back(), 0.006);
  for (std::size_t k = 0; k + 1 < errors.size(); ++k) {
    EXPECT_GT(std::log2(errors[k] / errors[k + 1]), 0.75) << errors[k] << " to " << errors[k + 1];
    EXPECT_LT(std::log2(errors[k] / errors[k + 1]), 1.3);
  }
}

TEST(RoofFlow, LevelPoolFillsAndEmpties) {
  // One square of 100 m2 with an outlet of 100 mm and no grate.
  FlowSquares pool =
      bare_deck({.columns = 1, .rows = 1, .width_m = 10.0, .height_m = 10.0}, [](double, double) { return 0.0; });
  pool.exits.push_back(round_exit(pool, 0, 100.0, false));
  const std::vector<double> rain = steady_rain_m3_per_s(pool, 100.0);
  FlowState state = dry_state(pool);
  struct Row {
    const char* id;
    int seconds;
    double depth_mm;
  };
  constexpr double step_s = 0.25;
  const auto run_to = [&](const std::vector<double>& arriving, int seconds, int& now_s) {
    for (; now_s < seconds; ++now_s) {
      for (int k = 0; k < 4; ++k) ASSERT_TRUE(advance_flow(pool, arriving, step_s, state));
    }
  };
  constexpr Row filling[] = {{"FLOW-03a", 60, 1.6598},    {"FLOW-03b", 120, 3.2948},  {"FLOW-03c", 300, 7.9645},
                             {"FLOW-03d", 600, 14.7288},  {"FLOW-03e", 900, 20.1164}, {"FLOW-03f", 1200, 24.2399},
                             {"FLOW-03g", 1800, 29.5600}, {"FLOW-03h", 3600, 34.4579}};
  int now_s = 0;
  for (const Row& row : filling) {
    run_to(rain, row.seconds, now_s);
    check_reference(
        {.id = row.id,
         .what = "depth of a pool of 100 m2 under 100 mm/h with one outlet of 100 mm, mm",
         .source = "[en12056] outlet law (from memory), level pool, recomputed by fourth-order steps of 1 s",
         .expected = row.depth_mm,
         .got = 1000.0 * state.depth_m[0],
         .tolerance = 0.004,
         .reason = "first order in steps of 0.25 s",
         .function = solver});
  }
  check_reference({.id = "FLOW-03i",
                   .what = "depth where the same outlet takes all that rain, mm",
                   .source = "[en12056] outlet law (from memory), by hand: (2.7778 7500/100)^(2/3)",
                   .expected = 35.143,
                   .got = 1000.0 * steady_depths_m(pool, rain)[0],
                   .tolerance = 1e-3,
                   .reason = "the last digit given",
                   .function = "checks::steady_depths_m"});
  constexpr Row emptying[] = {{"FLOW-04a", 60, 32.8950}, {"FLOW-04b", 300, 27.5975}, {"FLOW-04c", 600, 22.5992}};
  now_s = 0;
  for (const Row& row : emptying) {
    run_to({0.0}, row.seconds, now_s);
    check_reference({.id = row.id,
                     .what = "depth of the pool after the rain, from 34.4579 mm, mm",
                     .source = "[en12056] outlet law (from memory): h = (h0^-0.5 + c t/(2 A))^-2, closed form",
                     .expected = row.depth_mm,
                     .got = 1000.0 * state.depth_m[0],
                     .tolerance = 0.006,
                     .reason = "first order in steps of 0.25 s, and 0.004 from the filling",
                     .function = solver});
  }
}

/// A strip under flat modules on a coarse layer, as falling_strip.
FlowSquares layered_strip(int squares, double slope, double conductivity_m_per_s) {
  FlowSquares strip = falling_strip(squares, 5.0, slope, 0.02);
  for (int k = 0; k < squares; ++k) {
    SquareCover& cover = strip.cover[static_cast<std::size_t>(k)];
    cover.open_frac = 0.0;
    cover.module_m = 0.5;
    cover.pore_frac = 0.3;
    cover.layer_m = 0.5;
    cover.layer_conductivity_m_per_s = conductivity_m_per_s;
  }
  return strip;
}

TEST(RoofFlow, DrainedLayer) {
  FlowSquares level = layered_strip(400, 0.0, 0.1);
  std::vector<double> rain = steady_rain_m3_per_s(level, 25.0);
  rain.back() = 0.0;
  check_reference({.id = "FLOW-05a",
                   .what = "greatest depth in a layer of K 0.1 m/s on 5 m of level deck under 25 mm/h, mm",
                   .source = "[bear1972] (from memory), L (i/K)^0.5, recomputed",
                   .expected = 41.67,
                   .got = 1000.0 * steady_depths_m(level, rain)[0],
                   .tolerance = 0.3,
                   .reason = "first order on 400 squares: 0.5 %",
                   .function = solver});
  FlowSquares sloping = layered_strip(100, 0.02, 0.1);
  rain = steady_rain_m3_per_s(sloping, 25.0);
  rain.back() = 0.0;
  const std::vector<double> depth_m = steady_depths_m(sloping, rain);
  // Where dh/dx is that of the answer itself: 17.36 mm over 5 m, 0.35 %; the fall in use is 2 % less that.
  check_reference({.id = "FLOW-05b",
                   .what = "depth 2.5 m down the same layer on 2 %, times fall over fall less dh/dx, mm",
                   .source = "[bear1972] (from memory), i x/(K S) at x = 2.5 m, recomputed: 17.36/2",
                   .expected = 8.68,
                   .got = 1000.0 * depth_m[49] * (0.02 - (depth_m[50] - depth_m[48]) / 0.1) / 0.02,
                   .tolerance = 0.05,
                   .reason = "0.6 %: first order on 100 squares",
                   .function = solver});
}

/// An uneven deck with an obstacle, covers of all sorts and two outlets, by a seeded generator.
FlowSquares rough_deck(unsigned seed, int columns, int rows) {
  std::mt19937 generator(seed);
  const auto draw = [&generator] { return static_cast<double>(generator() % 4096) / 4096.0; };
  FlowSquares deck = bare_deck({.columns = columns, .rows = rows, .width_m = 0.5, .height_m = 0.5},
                               [&](double x_m, double) { return 0.0078125 * x_m + 0.03125 * draw(); });
  for (SquareCover& cover : deck.cover) {
    const double kind = draw();
    if (kind < 0.4) continue;
    cover.open_frac = 0.125;
    cover.module_m = 0.0625;
    cover.pore_frac = 0.25;
    if (kind < 0.8) {
      cover.gap_m = 0.03125;
      cover.gap_frac = 0.75;
      cover.dam_x_m = kind < 0.6 ? 0.015625 : 0.0;
    } else {
      cover.layer_m = 0.03125;
      cover.layer_conductivity_m_per_s = 0.015625;
    }
  }
  const int solid = columns / 2 + rows / 2 * columns;
  deck.deck.area_m2[static_cast<std::size_t>(solid)] = 0.0;
  deck.exits.push_back(round_exit(deck, 0, 80.0, true));
  deck.exits.push_back(round_exit(deck, (rows - 1) * columns, 60.0, false));
  deck.exits.push_back(wide_exit(deck, columns - 1, 0.0625));
  return deck;
}

TEST(RoofFlow, KeepsItsBooksAtAnyStep) {
  for (const double step_s : {0.5, 20.0, 600.0, 20000.0}) {
    const FlowSquares deck = rough_deck(5, 9, 7);
    FlowState state = dry_state(deck);
    double arrived_m3 = 0.0;
    for (int k = 0; k < 30; ++k) {
      const std::vector<double> rain = steady_rain_m3_per_s(deck, k % 7 == 0 ? 200.0 : k < 15 ? 30.0 : 0.0);
      double before_m3 = 0.0;
      for (const double volume : state.volume_m3) before_m3 += volume;
      const std::optional<FlowStep> step = advance_flow(deck, rain, step_s, state);
      ASSERT_TRUE(step) << step_s << " s, step " << k;
      arrived_m3 += step->arrived_m3;
      double after_m3 = 0.0;
      double left_m3 = 0.0;
      for (const double volume : state.volume_m3) {
        EXPECT_GE(volume, 0.0);
        after_m3 += volume;
      }
      for (const double out_m3 : step->exit_m3) {
        EXPECT_GE(out_m3, 0.0);
        left_m3 += out_m3;
      }
      EXPECT_NEAR(after_m3 - before_m3, step->arrived_m3 - left_m3, 1e-12 * arrived_m3) << step_s << " s, step " << k;
      EXPECT_LE(step->worst_limit, 1e-6);
    }
  }
}

TEST(RoofFlow, PoolAtRestIsLevelAndHoldsWhatFell) {
  FlowSquares basin = bare_deck(
      {.columns = 12, .rows = 9, .width_m = 0.25, .height_m = 0.25},
      [](double x_m, double y_m) { return 0.02 * (x_m - 1.4) * (x_m - 1.4) + 0.03 * (y_m - 1.1) * (y_m - 1.1); });
  RunOff rain = rain_for(basin, 90.0, 20);
  const Routed routed = route_runoff(basin, rain, {.step_s = 30.0, .minutes_after = 600});
  EXPECT_NEAR(routed.stored_m3, 0.030 * 12 * 9 * 0.0625, 1e-12);
  EXPECT_EQ(routed.left_m3, 0.0);
  // The level that holds this volume, by bisection on the squares themselves.
  double low_m = 0.0, high_m = 1.0;
  for (int k = 0; k < 60; ++k) {
    const double middle_m = 0.5 * (low_m + high_m);
    double volume = 0.0;
    for (const double level_m : basin.deck.level_m) volume += 0.0625 * std::max(0.0, middle_m - level_m);
    (volume < routed.stored_m3 ? low_m : high_m) = middle_m;
  }
  for (std::size_t k = 0; k < basin.deck.level_m.size(); ++k) {
    const double expected_m = std::max(0.0, low_m - basin.deck.level_m[k]);
    // A film of a hundredth of a millimetre is still on its way from the rim.
    EXPECT_NEAR(routed.end_depth_m[k], expected_m, 3e-5) << k;
  }
}

TEST(RoofFlow, ARunThatEndsAtItsPeakHasFoundTheDeepestWater) {
  for (const unsigned seed : {2U, 5U, 9U}) {
    const FlowSquares deck = rough_deck(seed, 9, 7);
    const RunOff rain = rain_for(deck, 120.0, 8);
    const Routed whole = route_runoff(deck, rain, {.step_s = 30.0, .minutes_after = 240});
    const Routed to_peak = route_runoff(deck, rain, {.step_s = 30.0, .minutes_after = 240, .ends_at_peak = true});
    EXPECT_LT(to_peak.minutes, whole.minutes);
    EXPECT_GE(to_peak.minutes, 8);
    for (std::size_t k = 0; k < deck.cover.size(); ++k) {
      EXPECT_NEAR(to_peak.max_depth_m[k], whole.max_depth_m[k], 2.4e-5) << k;  // 0.1 um in each of 240 minutes
    }
  }
}

TEST(RoofFlow, StepsThatGrowFindTheSameWaterInFewerSteps) {
  for (const unsigned seed : {2U, 5U, 9U}) {
    const FlowSquares deck = rough_deck(seed, 9, 7);
    const RunOff rain = rain_for(deck, 120.0, 30);
    const RouteOptions fixed = {.step_s = 30.0, .minutes_after = 240};
    RouteOptions growing = fixed;
    growing.growth_error_m = 1e-5;
    const Routed exact = route_runoff(deck, rain, fixed);
    const Routed grown = route_runoff(deck, rain, growing);
    EXPECT_LT(grown.n_steps, exact.n_steps / 3);
    EXPECT_EQ(grown.minutes, exact.minutes);
    EXPECT_NEAR(grown.arrived_m3, exact.arrived_m3, 1e-12 * exact.arrived_m3);
    EXPECT_NEAR(grown.stored_m3 + grown.left_m3, grown.arrived_m3, 1e-12 * grown.arrived_m3);
    for (std::size_t e = 0; e < deck.exits.size(); ++e) EXPECT_EQ(grown.exit_m3_per_s[e].size(), 270U);
    for (std::size_t k = 0; k < deck.cover.size(); ++k) {
      EXPECT_NEAR(grown.max_depth_m[k], exact.max_depth_m[k], 5e-6) << k;
      EXPECT_NEAR(grown.end_depth_m[k], exact.end_depth_m[k], 1e-4) << k;
    }
  }
}

TEST(RoofFlow, ARunGoesOnFromItsPeakAsIfItHadNotStopped) {
  for (const unsigned seed : {2U, 5U}) {
    const FlowSquares deck = rough_deck(seed, 9, 7);
    const RunOff rain = rain_for(deck, 120.0, 8);
    const RouteOptions whole_way = {.step_s = 30.0, .minutes_after = 60};
    RouteOptions to_peak = whole_way;
    to_peak.ends_at_peak = true;
    const Routed whole = route_runoff(deck, rain, whole_way);
    const Routed begun = route_runoff(deck, rain, to_peak);
    ASSERT_LT(begun.minutes, whole.minutes);
    const Routed ended = continue_runoff(deck, rain, whole_way, begun);
    EXPECT_EQ(ended.minutes, whole.minutes);
    EXPECT_NEAR(ended.left_m3, whole.left_m3, 1e-6 * whole.arrived_m3);
    EXPECT_NEAR(ended.stored_m3 + ended.left_m3, ended.arrived_m3, 1e-12 * ended.arrived_m3);
    for (std::size_t k = 0; k < deck.cover.size(); ++k) {
      EXPECT_NEAR(ended.max_depth_m[k], whole.max_depth_m[k], 1e-7) << k;
      EXPECT_NEAR(ended.end_depth_m[k], whole.end_depth_m[k], 1e-6) << k;
    }
  }
}

TEST(RoofFlow, MirroredDecksAgreeToTheLastBit) {
  const int columns = 9;
  const int rows = 6;
  const FlowSquares deck = rough_deck(11, columns, rows);
  RunOff rain = rain_for(deck, 60.0, 10);
  rain.columns_mm_per_min.push_back(std::vector<double>(10, 0.25));
  for (std::size_t k = 0; k < rain.column_of_square.size(); ++k) rain.column_of_square[k] = k % 3 == 0 ? 1 : 0;
  for (const bool over_x : {true, false}) {
    const auto turned = [&](int square) {
      const int i = square % columns;
      const int j = square / columns;
      return over_x ? columns - 1 - i + j * columns : i + (rows - 1 - j) * columns;
    };
    FlowSquares mirrored = deck;
    RunOff mirrored_rain = rain;
    for (int k = 0; k < columns * rows; ++k) {
      const auto to = static_cast<std::size_t>(k);
      const auto from = static_cast<std::size_t>(turned(k));
      mirrored.deck.level_m[to] = deck.deck.level_m[from];
      mirrored.deck.area_m2[to] = deck.deck.area_m2[from];
      mirrored.cover[to] = deck.cover[from];
      mirrored_rain.column_of_square[to] = rain.column_of_square[from];
    }
    mirrored.deck.sill_x_m.clear();
    mirrored.deck.sill_y_m.clear();
    const auto level = [&](int i, int j) { return mirrored.deck.level_m[static_cast<std::size_t>(i + j * columns)]; };
    for (int j = 0; j < rows; ++j) {
      for (int i = 0; i + 1 < columns; ++i) mirrored.deck.sill_x_m.push_back(std::max(level(i, j), level(i + 1, j)));
    }
    for (int j = 0; j + 1 < rows; ++j) {
      for (int i = 0; i < columns; ++i) mirrored.deck.sill_y_m.push_back(std::max(level(i, j), level(i, j + 1)));
    }
    for (Exit& exit : mirrored.exits) exit.square = turned(exit.square);
    const Routed one = route_runoff(deck, rain, {.step_s = 20.0, .minutes_after = 10});
    const Routed other = route_runoff(mirrored, mirrored_rain, {.step_s = 20.0, .minutes_after = 10});
    const std::vector<double> steady_one = steady_depths_m(deck, steady_rain_m3_per_s(deck, 60.0));
    const std::vector<double> steady_other = steady_depths_m(mirrored, steady_rain_m3_per_s(mirrored, 60.0));
    for (int k = 0; k < columns * rows; ++k) {
      const auto to = static_cast<std::size_t>(k);
      const auto from = static_cast<std::size_t>(turned(k));
      EXPECT_EQ(one.max_depth_m[from], other.max_depth_m[to]);
      EXPECT_EQ(one.end_depth_m[from], other.end_depth_m[to]);
      EXPECT_EQ(steady_one[from], steady_other[to]);
    }
    EXPECT_EQ(one.exit_m3_per_s, other.exit_m3_per_s);
    EXPECT_EQ(one.left_m3, other.left_m3);
  }
}

/// True if the second is nowhere lower, beyond a thousandth of a millimetre.
void expect_nowhere_lower(const std::vector<double>& less_m, const std::vector<double>& more_m, const char* what) {
  for (std::size_t k = 0; k < less_m.size(); ++k) EXPECT_GE(more_m[k], less_m[k] - 1e-6) << what << " " << k;
}

TEST(RoofFlow, MoreRainLessOutletHigherSillsRaiseTheWater) {
  // Over a deck the sums: the slope along a face, taken from the step before, may lower a single square a little.
  const FlowSquares deck = rough_deck(3, 8, 8);
  const std::vector<double> base_m = steady_depths_m(deck, steady_rain_m3_per_s(deck, 40.0));
  double sum_before = 0.0;
  for (const double rain : {10.0, 20.0, 40.0, 80.0, 160.0, 320.0}) {
    double sum = 0.0;
    for (const double depth : steady_depths_m(deck, steady_rain_m3_per_s(deck, rain))) sum += depth;
    EXPECT_GT(sum, sum_before);
    sum_before = sum;
  }
  FlowSquares blocked = deck;
  blocked.exits[0].clear_frac = 0.0;
  double base_sum = 0.0, blocked_sum = 0.0, half_sum = 0.0;
  for (const double depth : base_m) base_sum += depth;
  for (const double depth : steady_depths_m(blocked, steady_rain_m3_per_s(blocked, 40.0))) blocked_sum += depth;
  blocked.exits[0].clear_frac = 0.5;
  for (const double depth : steady_depths_m(blocked, steady_rain_m3_per_s(blocked, 40.0))) half_sum += depth;
  EXPECT_GT(half_sum, base_sum);
  EXPECT_GT(blocked_sum, half_sum);
  // On a strip nothing runs across, and order holds square by square.
  FlowSquares strip = falling_strip(20, 5.0, 0.01, 0.03);
  const auto depths = [&](double rain) { return steady_depths_m(strip, steady_rain_m3_per_s(strip, rain)); };
  const std::vector<double> thin = depths(30.0);
  expect_nowhere_lower(thin, depths(31.0), "more rain");
  strip.deck.sill_x_m[12] += 0.01;
  expect_nowhere_lower(thin, depths(30.0), "a sill");
}

TEST(RoofFlow, CanesAcrossTheFallAreDams) {
  FlowSquares strip = falling_strip(20, 5.0, 0.01, 0.03);
  for (std::size_t k = 0; k < 20; ++k) {
    SquareCover& cover = strip.cover[k];
    cover.open_frac = 0.02;
    cover.gap_m = 0.04;
    cover.gap_frac = 0.8;
    cover.module_m = 0.05;
    cover.pore_frac = 0.3;
  }
  const auto deepest_mm = [&] {
    const std::vector<double> depth_m = steady_depths_m(strip, steady_rain_m3_per_s(strip, 60.0));
    return 1000.0 * *std::max_element(depth_m.begin(), depth_m.end());
  };
  const double along_mm = deepest_mm();
  for (std::size_t k = 0; k < 20; ++k) strip.cover[k].dam_y_m = 0.02;
  EXPECT_EQ(deepest_mm(), along_mm);  // canes along the fall: water runs between them
  for (std::size_t k = 0; k < 20; ++k) {
    strip.cover[k].dam_y_m = 0.0;
    strip.cover[k].dam_x_m = 0.02;
  }
  EXPECT_GT(deepest_mm(), along_mm + 8.0);
}

TEST(RoofFlow, VolumeAndDepthTurnEachOtherBack) {
  SquareCover cover;
  cover.open_frac = 0.2;
  cover.gap_m = 0.03;
  cover.module_m = 0.08;
  cover.pore_frac = 0.25;
  double before = -1.0;
  for (int k = 0; k <= 200; ++k) {
    const double depth = 0.001 * k;
    const double volume = volume_m3(cover, 0.7, depth);
    EXPECT_GT(volume, before);
    EXPECT_NEAR(depth_m(cover, 0.7, volume), depth, 1e-15);
    before = volume;
  }
  // In the gap all is water; in the module a quarter of four fifths, and the fifth beside it.
  EXPECT_NEAR(volume_m3(cover, 1.0, 0.03), 0.03, 1e-15);
  EXPECT_NEAR(volume_m3(cover, 1.0, 0.11), 0.03 + 0.08 * 0.4, 1e-15);
  EXPECT_NEAR(volume_m3(cover, 1.0, 0.12), 0.03 + 0.08 * 0.4 + 0.01, 1e-15);
}

TEST(StillPool, StandsAtTheLowestLipAndWeighsWhatItHolds) {
  FlowSquares deck = bare_deck({.columns = 10, .rows = 1, .width_m = 1.0, .height_m = 1.0},
                               [](double x_m, double) { return 0.01 * x_m; });
  deck.exits.push_back(round_exit(deck, 0, 100.0, false));
  deck.exits.push_back(wide_exit(deck, 0, 0.060));
  deck.exits.push_back(wide_exit(deck, 4, 0.015));
  EXPECT_EQ(find_still_pool(deck).volume_m3, 0.0);
  deck.exits[0].clear_frac = 0.0;
  // Lips at 0.065 and 0.060: the lower one is up the fall. Squares at 5, 15, ... 95 mm.
  const StillPool pool = find_still_pool(deck);
  EXPECT_NEAR(pool.max_depth_m, 0.055, 1e-15);
  EXPECT_NEAR(pool.volume_m3, 0.055 + 0.045 + 0.035 + 0.025 + 0.015 + 0.005, 1e-15);
  EXPECT_NEAR(pool.weight_kn, 9.80665 * 0.180, 1e-12);
  EXPECT_NEAR(pool.heaviest_kn_per_m2, 9.80665 * 0.055, 1e-12);
  const results::Interval days = days_to_dry(18.0, {0.5, 2.0, 6.0});
  EXPECT_EQ(days, (results::Interval{3.0, 9.0, 36.0}));
}

}  // namespace
}  // namespace houseleek::checks
