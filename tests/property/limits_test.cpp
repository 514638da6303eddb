// What the stepper does at its limits: hours done again, hopeless cases, numbers that are none, groups that are not well formed.
#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <functional>
#include <limits>
#include <string>
#include <utility>
#include <vector>

#include "base/contract.hpp"
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
using simulation::Layer;
using simulation::NumericalFailure;
using simulation::run_group;
using simulation::RunOptions;
using simulation::Stack;
using simulation::Under;

constexpr int midsummer = 180 * 24;

double sum(const std::vector<double>& column) {
  double total = 0.0;
  for (const double x : column) total += x;
  return total;
}

double largest_difference(const std::vector<double>& a, const std::vector<double>& b) {
  double largest = a.size() == b.size() ? 0.0 : std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < std::min(a.size(), b.size()); ++i) largest = std::max(largest, std::abs(a[i] - b[i]));
  return largest;
}

TEST(Limits, HoursDoneAgainKeepTheirBooks) {
  const std::pair<Group, double> cases[] = {
      {one_stack_group(Kind::bare), 0.01}, {one_stack_group(Kind::ventilated), 3e-4}, {linked_group(), 0.01}};
  for (const auto& [group, bound_k] : cases) {
    RunOptions options = from_rest(24 * 8);
    options.first_hour = midsummer;
    const auto usual = run_group(group, synthetic_weather(), options);
    RunOptions fine_options = options;
    fine_options.steps_per_10_min = 8;
    const auto fine = run_group(group, synthetic_weather(), fine_options);
    RunOptions strict_options = options;
    strict_options.error_bound_k = bound_k;
    const auto strict = run_group(group, synthetic_weather(), strict_options);
    EXPECT_GT(strict.tally.n_hours_redone, usual.tally.n_hours_redone + 10);
    EXPECT_GT(strict.tally.largest_split, 1);
    EXPECT_LE(strict.tally.largest_error_k, bound_k);
    for (std::size_t i = 0; i < group.stacks.size(); ++i) {
      const auto& stack = strict.stacks[i];
      EXPECT_LT(stack.heat_residual_max_frac, 1e-8);
      EXPECT_LT(stack.heat_residual_year_frac, 1e-8);
      EXPECT_LT(stack.water_residual_max_m, 1e-9);
      // Nothing is counted twice: sums over the hours are those of the other runs.
      EXPECT_NEAR(sum(stack.ceiling_flux_w_per_m2), sum(fine.stacks[i].ceiling_flux_w_per_m2), 0.05);
      EXPECT_NEAR(sum(stack.evapotranspiration_mm), sum(fine.stacks[i].evapotranspiration_mm), 0.02);
      EXPECT_NEAR(sum(stack.watering_mm), sum(usual.stacks[i].watering_mm), 1e-9);
      // A stricter bound comes no further from the fine run.
      const double usual_k = largest_difference(usual.stacks[i].membrane_c, fine.stacks[i].membrane_c);
      EXPECT_LE(largest_difference(stack.membrane_c, fine.stacks[i].membrane_c), usual_k);
    }
    for (const auto& room : strict.rooms) EXPECT_LT(room.heat_residual_max_frac, 1e-8);
  }
}

/// The message of the failure; empty where there was none.
std::string failure(const Group& group, const climate::ForcingSource& weather, const RunOptions& options) {
  try {
    const auto result = run_group(group, weather, options);
    ADD_FAILURE() << "a result was returned";
    return "";
  } catch (const NumericalFailure& stop) {
    return stop.what();
  }
}

TEST(Limits, AHopelessCaseStopsWithHourAndResidual) {
  RunOptions options = from_rest(48);
  options.first_hour = midsummer;
  options.error_bound_k = 1e-13;
  const std::string by_error = failure(one_stack_group(Kind::bare), synthetic_weather(), options);
  EXPECT_NE(by_error.find("hour 43"), std::string::npos) << by_error;
  EXPECT_NE(by_error.find("error estimate over its bound"), std::string::npos) << by_error;
  EXPECT_NE(by_error.find("W/m2"), std::string::npos) << by_error;
  // A sun of a million suns: no temperature can carry it.
  const auto absurd = [](int hour, double fraction) {
    climate::Forcing forcing = synthetic_weather()(hour, fraction);
    if (hour == midsummer + 5) forcing.global_w_per_m2 = 1e9;
    return forcing;
  };
  options.error_bound_k = 0.1;
  const std::string by_newton = failure(one_stack_group(Kind::bare), absurd, options);
  EXPECT_NE(by_newton.find("hour 4325 of the year"), std::string::npos) << by_newton;
  EXPECT_NE(by_newton.find("Newton's method does not settle"), std::string::npos) << by_newton;
}

TEST(Limits, ThinSheetsOfMetalSettle) {
  // Half a millimetre of steel passes 2e5 W/m2K: residuals cannot fall below its rounding, and need not.
  for (const Kind kind : {Kind::bare, Kind::contact, Kind::ventilated}) {
    Group group = one_stack_group(kind);
    group.stacks[0].deck = {solid_layer(0.0005, 50.0, 7800.0, 450.0)};
    RunOptions options = from_rest(24 * 6);
    options.first_hour = midsummer;
    for (const int refinement : {1, 4}) {
      options.refinement = refinement;
      const auto result = run_group(group, synthetic_weather(), options);
      EXPECT_LT(result.stacks[0].heat_residual_max_frac, 1e-8);
      EXPECT_LT(result.rooms[0].heat_residual_max_frac, 1e-8);
    }
  }
}

/// Expects a stop, whichever, and never a number.
void expect_stop(const std::string& what, const Group& group, const climate::ForcingSource& weather) {
  RunOptions options = from_rest(12);
  options.first_hour = midsummer;
  options.largest_split = 4;
  try {
    const auto result = run_group(group, weather, options);
    ADD_FAILURE() << what << ": a result was returned, surface " << result.stacks[0].surface_c.back();
  } catch (const NumericalFailure&) {
  } catch (const ContractViolation&) {
  }
}

TEST(Limits, ASurfaceBeyondItsEquationsStopsTheRunByName) {
  // A black foil over 400 mm of foam without wind, under more sun than any place has.
  Group group = one_stack_group(Kind::bare);
  group.stacks[0].deck = {second_opinion::plain_layer(0.0005, 0.2, 1e6), second_opinion::plain_layer(0.4, 0.03, 3e4)};
  group.stacks[0].surface.albedo = 0.0;
  RunOptions options = from_rest(24);
  options.first_hour = midsummer;
  const climate::ForcingSource hot = [source = synthetic_weather()](int hour, double part) {
    climate::Forcing forcing = source(hour, part);
    forcing.air_temperature_c += 80.0;
    forcing.wind_m_per_s = 0.0;
    return forcing;
  };
  try {
    const auto result = run_group(group, hot, options);
    ADD_FAILURE() << "a result was returned, surface at most " << result.stacks[0].membrane_max_c;
  } catch (const NumericalFailure& failure) {
    EXPECT_NE(std::string(failure.what()).find("beyond the -60 to 120 degC"), std::string::npos) << failure.what();
  }
}

TEST(Limits, WindowsThatOpenToWarmerAirSettle) {
  Group group = one_stack_group(Kind::bare);
  group.rooms[0].window_rule.only_when_outside_cooler = false;
  group.rooms[0].window_rule.from_hour = 0;
  group.rooms[0].window_rule.to_hour = 24;
  for (const double changes_per_h : {2.0, 8.0, 50.0}) {
    group.rooms[0].window_rule.extra_per_h = changes_per_h;
    group.rooms[0].window_rule.open_above_c = 20.0;
    RunOptions options = from_rest(24 * 30);
    options.first_hour = midsummer - 24 * 60;
    const auto run = run_group(group, synthetic_weather(), options);
    EXPECT_LT(run.rooms[0].heat_residual_max_frac, 1e-8) << changes_per_h;
  }
}

TEST(Limits, ThinQuickLayersAtTheDecksEdgeSettle) {
  for (const double sheet_m : {0.0006, 0.0008}) {
    Group group = one_stack_group(Kind::bare);
    const Layer sheet = second_opinion::plain_layer(sheet_m, 0.04, 50.0 * 1600.0);
    group.stacks[0].deck = {second_opinion::plain_layer(0.150, 2.3, 2.3e6), sheet};
    const auto below = run_group(group, synthetic_weather(), from_rest(24 * 3));
    EXPECT_LT(below.stacks[0].heat_residual_max_frac, 1e-8) << sheet_m;
    group.stacks[0].deck = {sheet, second_opinion::plain_layer(0.150, 2.3, 2.3e6)};
    const auto above = run_group(group, synthetic_weather(), from_rest(24 * 3));
    EXPECT_LT(above.stacks[0].heat_residual_max_frac, 1e-8) << sheet_m;
  }
}

TEST(Limits, WeatherThatIsNoNumberStops) {
  struct Field {
    const char* name;
    double climate::Forcing::*value;
  };
  constexpr Field fields[] = {{"air temperature", &climate::Forcing::air_temperature_c},
                              {"vapour pressure", &climate::Forcing::vapour_pressure_pa},
                              {"wind", &climate::Forcing::wind_m_per_s},
                              {"sun", &climate::Forcing::global_w_per_m2},
                              {"sky", &climate::Forcing::sky_longwave_w_per_m2},
                              {"rain", &climate::Forcing::rain_kg_per_m2_s},
                              {"rain temperature", &climate::Forcing::rain_temperature_c}};
  for (const Kind kind : {Kind::bare, Kind::contact, Kind::closed, Kind::ventilated, Kind::netted}) {
    for (const Field& field : fields) {
      for (const double bad : {std::nan(""), std::numeric_limits<double>::infinity(), -1e9}) {
        // Vapour and rain below zero mean nothing to a bare deck that takes up none; it stops at what is no number.
        if (kind == Kind::bare && bad == -1e9 && field.value == &climate::Forcing::vapour_pressure_pa) continue;
        const auto weather = [&field, bad](int hour, double fraction) {
          climate::Forcing forcing = synthetic_weather()(hour, fraction);
          if (hour == midsummer + 6) {
            forcing.rain_kg_per_m2_s = 1e-4;
            forcing.*field.value = bad;
          }
          return forcing;
        };
        expect_stop(
            std::string(field.name) + " " + std::to_string(bad) + ", kind " + std::to_string(static_cast<int>(kind)),
            one_stack_group(kind), weather);
      }
    }
  }
}

TEST(Limits, AGainThatIsNoNumberStopsBesideAGivenRoom) {
  // The second room's residuals are all 0: they must not cover up the first one's.
  Group group = one_stack_group(Kind::bare);
  group.rooms.push_back(group.rooms[0]);
  group.rooms[1].is_prescribed = true;
  group.rooms[0].internal_gain_w[6] = std::nan("");
  expect_stop("gain", group, synthetic_weather());
}

TEST(Limits, GroupsThatAreNotWellFormedAreRefused) {
  const Group right = one_stack_group(Kind::contact);
  struct Wrong {
    const char* what;
    std::function<void(Group&)> spoil;
  };
  const std::vector<Wrong> wrongs{
      {"no rooms", [](Group& g) { g.rooms.clear(); }},
      {"no deck", [](Group& g) { g.stacks[0].deck.clear(); }},
      {"no area", [](Group& g) { g.stacks[0].area_m2 = 0.0; }},
      {"no such room", [](Group& g) { g.stacks[0].room = 1; }},
      {"a module over nothing", [](Group& g) { g.stacks[0].under = Under::nothing; }},
      {"a gap under no module", [](Group& g) { g.stacks[0].module.clear(); }},
      {"plants on no module",
       [](Group& g) {
         g.stacks[0].module.clear();
         g.stacks[0].under = Under::nothing;
       }},
      {"water in a deck", [](Group& g) { g.stacks[0].deck[0] = g.stacks[0].module[0]; }},
      {"a layer without thickness", [](Group& g) { g.stacks[0].deck[0].thickness_m = 0.0; }},
      {"a layer that does not conduct", [](Group& g) { g.stacks[0].deck[0].conductivity_dry_w_per_m_k = 0.0; }},
      {"a layer without capacity", [](Group& g) { g.stacks[0].deck[0].heat_capacity_dry_j_per_m3_k = -1.0; }},
      {"a layer of no number", [](Group& g) { g.stacks[0].deck[0].conductivity_dry_w_per_m_k = std::nan(""); }},
      {"wilting below residual", [](Group& g) { g.stacks[0].module[0].wilting_frac = 0.0; }},
      {"starts over full", [](Group& g) { g.stacks[0].module[0].initial_water_frac = 0.9; }},
      {"holds more than fits", [](Group& g) { g.stacks[0].module[0].holds_frac = 0.6; }},
      {"plants without leaves", [](Group& g) { g.stacks[0].canopy.leaf_area_index = 0.0; }},
      {"a fixed film of nothing",
       [](Group& g) { g.stacks[0].outside_film = {.is_fixed = true, .fixed_w_per_m2_k = 0.0}; }},
      {"an albedo over one", [](Group& g) { g.stacks[0].surface.albedo = 1.2; }},
      {"a gap without height", [](Group& g) {
         g.stacks[0].under = Under::closed_gap;
         g.stacks[0].gap.height_m = 0.0;
       }}};
  for (const Wrong& wrong : wrongs) {
    Group group = right;
    wrong.spoil(group);
    EXPECT_THROW(static_cast<void>(run_group(group, synthetic_weather(), from_rest(1))), ContractViolation)
        << wrong.what;
  }
  RunOptions three = from_rest(1);
  three.lane_width = 3;
  EXPECT_THROW(static_cast<void>(run_group(right, synthetic_weather(), three)), ContractViolation);
  RunOptions none = from_rest(0);
  EXPECT_THROW(static_cast<void>(run_group(right, synthetic_weather(), none)), ContractViolation);
}

TEST(Limits, ProgressRisesAndACancelledRunReturnsNothing) {
  std::atomic<bool> is_cancelled{false};
  std::vector<double> seen;
  Context context;
  context.is_cancelled = &is_cancelled;
  context.on_progress = [&](double done_frac) {
    seen.push_back(done_frac);
    if (done_frac >= 0.5) is_cancelled = true;
  };
  EXPECT_THROW(
      static_cast<void>(run_group(one_stack_group(Kind::bare), synthetic_weather(), from_rest(24 * 8), context)),
      Cancelled);
  ASSERT_GE(seen.size(), 4U);
  EXPECT_TRUE(std::is_sorted(seen.begin(), seen.end()));
  EXPECT_LT(seen.back(), 0.7);
}

}  // namespace
}  // namespace houseleek::tests
