// Five years of damp in the deck under one cover, with one thing changed, and what they say.
#pragma once
#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/context.hpp"
#include "simulation/damp_deck.hpp"
#include "studies/damp_years.hpp"

namespace houseleek::studies {

inline constexpr int n_damp_years = 5;
inline constexpr int n_damp_months = 12 * n_damp_years;
/// What a room adds to the vapour pressure outside at 0 degC: [iso13788] annex A, upper ends of classes 1, 2 and 3, as
/// remembered.
inline constexpr std::array<double, 3> room_excess_pa = {270.0, 540.0, 810.0};
/// Humidity that all layers start with; likely as [en15026] suggests (from memory), the ends our own estimate.
inline constexpr std::array<double, 3> start_humidities = {0.6, 0.8, 0.95};
/// Vapour control that a deck does not name: a retarder and a foil, in metres of still air.
inline constexpr std::array<double, 2> unnamed_retarder_m = {2.0, 100.0};

struct DampChange {
  std::string name;
  simulation::DampChoice choice = {};
  double excess_pa = room_excess_pa[1];
  std::size_t first_year = 0;  // of the years of weather, one after the other
};

/// As it is likely to be, then one thing changed at a time.
[[nodiscard]] std::vector<DampChange> damp_changes(const design::Roof& roof, std::size_t n_years);

enum class DampSays { dries_every_summer, wetter_each_winter, not_shown_to_dry };
[[nodiscard]] std::string_view words_of(DampSays says);

struct DampOutcome {
  DampSays says = DampSays::not_shown_to_dry;
  std::vector<double> water_kg_per_m2;  // months' means of the deck
  std::vector<double> humidity;         // months' means at the wettest place
  std::vector<double> wood_percent;     // months' means of the wettest layer of wood, by mass
  double left_kg_per_m2 = 0.0;          // at the end over a year after the start
  std::array<double, 3> mould_index{};  // at its worst: classes from hardly to very sensitive; 0 without wood
  double water_residual_kg_per_m2 = 0.0;
  double heat_residual_frac = 0.0;
};

/// How a case is judged: by months' means of the second to the last year, each from autumn to summer.
/// Equation: wetter each winter: the wettest month holds more than in the year before by more than 0.01 kg/m2, every
///           year; dries out every summer: in each year the driest month leaves no place of the deck above 80 % humidity
/// Source:   80 % [iso13788] (from memory); 0.01 kg/m2 our own.
[[nodiscard]] DampSays judge_damp(std::span<const double> water_kg_per_m2, std::span<const double> humidity);

/// Where a cover's modules lie on the membrane, the air above that is saturated.
struct DampCaseInputs {
  const design::Roof& roof;
  const DampYears& years;
  std::size_t cover = 0;
  bool is_wet_above = false;
  bool is_north = true;
  double pressure_pa = 101325.0;
};

/// From autumn (October, south of the equator April) for five years, the years of weather one after the other.
/// Errors: throws simulation::NumericalFailure, ContractViolation, Cancelled.
[[nodiscard]] DampOutcome run_damp_case(const DampCaseInputs& inputs, const DampChange& change, const Context& context);

/// First month of the runs, 1 is January.
[[nodiscard]] int first_damp_month(bool is_north);

/// Means of the months of one year of weather, from January.
[[nodiscard]] std::array<double, 12> month_means(std::span<const double> hours);

/// Both sides of the deck by months of the first year of weather.
[[nodiscard]] std::array<physics::SteadySides, 12> steady_sides(const DampCaseInputs& inputs, double excess_pa);

}  // namespace houseleek::studies
