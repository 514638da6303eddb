// What the deck's two faces feel through the years: membrane and room air, bare, planted flat and planted raised.
#pragma once
#include <string>
#include <vector>

#include "base/context.hpp"
#include "climate/year.hpp"
#include "design/parse.hpp"
#include "plan/layout.hpp"
#include "simulation/run.hpp"
#include "studies/ensemble.hpp"
#include "studies/executor.hpp"

namespace houseleek::studies {

/// One form of cover over the room that is looked at.
struct DampForm {
  std::string name;  // bare, or the recipe
  std::string form;  // bare, flat, raised
  int recipe = -1;
  design::Placed placed = design::Placed::flat;
};

/// Hours of one cover in one year; values at each hour's end.
struct DampHours {
  std::vector<double> membrane_c;
  std::vector<double> room_c;
};

struct DampYear {
  climate::WeatherYear weather;
  std::vector<DampHours> covers;  // in the order of the forms
};

struct DampYears {
  std::vector<DampYear> years;
  std::vector<std::string> failures;  // years left out, and why
};

struct DampYearsInputs {
  const design::ValidDesign& design;
  const plan::Layout& layout;
  const climate::WeatherYear& weather;  // the first year
  const WeatherOfDraw& weather_of_draw;
  const std::vector<DampForm>& forms;
  int room = 0;
  int n_years = 1;
  simulation::RunOptions options;
};

/// The room with most modules over it; without modules, the largest.
[[nodiscard]] int room_of_damp(const plan::Layout& layout);

/// Bare, and the recipe of which most is laid (without modules the first) flat and, where it has spacers, raised.
[[nodiscard]] std::vector<DampForm> damp_forms(const design::Design& design);

/// Whole years of the room by itself, kept at the design's two temperatures, under a closed cover.
/// Errors: throws simulation::NumericalFailure where the first year fails, ContractViolation, Cancelled.
[[nodiscard]] DampYears run_damp_years(const DampYearsInputs& inputs, const Executor& executor, const Context& context);

}  // namespace houseleek::studies
