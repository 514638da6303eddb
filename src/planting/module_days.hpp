// The water of one module day by day: the stepper on one stack, with the weather and the waterings of those days.
#pragma once
#include <optional>
#include <vector>

#include "base/context.hpp"
#include "climate/year.hpp"
#include "design/parse.hpp"
#include "plan/layout.hpp"
#include "simulation/group.hpp"

namespace houseleek::planting {

/// Some of the days of a year of 365 days, which wraps; run after others that are not kept.
struct DaySpan {
  int first_day = 0;  // of the year, from 0
  int n_days = 365;
  int n_days_before = 45;
};

/// Water given by hand. Day 0 is the span's first; days before it are negative.
struct GivenWater {
  int day = 0;
  int hour = 7;
  double depth_mm = 0.0;
};

/// How a module is watered in the span.
struct ModuleWatering {
  std::vector<GivenWater> given;
  std::vector<simulation::Watering> rules;  // followed beside what is given
};

/// What is asked of one recipe.
struct ModuleQuestion {
  const design::ValidDesign& design;
  const plan::Layout& layout;
  const climate::WeatherYear& weather;
  int recipe = 0;
  design::Placed placed = design::Placed::flat;
  DaySpan span;
  ModuleWatering watering;
  // Share of the water between wilting (0) and field capacity (1) at the very beginning, before the days before.
  double first_store_frac = 0.5;
  // Real evapotranspiration over that of our defaults.
  double evapotranspiration_factor = 1.0;
};

/// Columns, one value a day of the span. "At midnight": at the day's end.
struct ModuleDays {
  std::vector<double> store_frac;             // at midnight; of the root zone, between wilting and field capacity
  std::vector<double> water_mm;               // at midnight; in all of the module
  std::vector<double> evapotranspiration_mm;  // sums
  std::vector<double> left_mm;                // sums; ran off or through
  std::vector<double> watered_mm;             // sums
  std::vector<double> ceiling_wh_per_m2;      // sums; into the room positive
  double held_mm = 0.0;                       // in all of the module, drained: at its first drip
  double rooted_mm = 0.0;                     // of the root zone, between wilting and field capacity
};

/// Runs the stack of a recipe over the largest room through the span.
/// Equation: with a factor k of evapotranspiration every store, every rain and every watering is divided by k and every
///           depth of water that comes out multiplied by k: the same shares dry out k times as fast, while the heat of
///           the stack stays that of our defaults
/// Shape:    a question in, columns of span.n_days out; pure.
/// Units:    mm over the module.
/// Valid:    0.2 <= k <= 5; 0 <= first_store_frac <= 1.
/// Errors:   ContractViolation, simulation::NumericalFailure, Cancelled.
/// Conserves: water: change of water_mm = rain + watered - evapotranspiration - left (tests/planting).
[[nodiscard]] ModuleDays run_module_days(const ModuleQuestion& question, const Context& context = {});

}  // namespace houseleek::planting
