// What each recipe and container of a design asks of plants: winters, depth, dry spells, sun, wind, salt.
#pragma once
#include <span>
#include <string>
#include <vector>

#include "base/context.hpp"
#include "climate/summary.hpp"
#include "climate/year.hpp"
#include "design/parse.hpp"
#include "planting/judge.hpp"
#include "report/study_answer.hpp"

namespace houseleek::studies {

/// Years of one climate that plants are judged by.
inline constexpr int plant_years = 30;

/// The years' weather for choosing plants: made from the normals where there are any, else the year or years at hand.
/// A draw that the normals make no year of is left out; the answer says how many years it stands on.
[[nodiscard]] std::vector<climate::WeatherYear> years_for_plants(const design::ValidDesign& design,
                                                                 std::span<const climate::WeatherYear> at_hand);

/// The night plants must be ready for, in each month and in all.
struct Winter {
  planting::ColdestNight coldest;
  std::vector<double> coldest_by_month_c;  // 12, the likely figure of each
  std::string from;
};
[[nodiscard]] Winter winter_of(std::span<const climate::WeatherYear> years, const std::string& source);

/// What kinds of climate growers would call this one, the most telling first.
/// Equation: after Koeppen: half-dry where the year's rain is below 10 (2 T + w) mm, w 28 where seven tenths fall in the
///           summer half, 0 in the winter half, else 14; summer-dry where the driest month of the summer half has less
///           than 40 mm and less than a third of the wettest of the winter half; cold where the coldest month's mean is
///           not above 0 degC; else temperate; frost-free where the 20-year night is above 0 degC; coastal with spray
/// Symbols:  T: mean of the year, degC
/// Source:   [peel2007] (from memory).   Checked by: KoeppenWords.EachKindAndItsMirror.
[[nodiscard]] std::vector<catalogue::Climate> climates_of(const climate::YearSummary& months, double latitude_deg,
                                                          const planting::ColdestNight& coldest,
                                                          design::SaltSpray salt);

/// A recipe or container as a place for plants.
struct PlantPlace {
  planting::Place place;
  int recipe = -1;     // index, or
  int container = -1;  // index
  int n_modules = 0;
  double module_m2 = 0.0;
  std::vector<std::string> rooms;  // below it
};

/// Water of the planted roof, from one run of the house through the year, rooms free.
/// Errors: throws simulation::NumericalFailure, ContractViolation, Cancelled.
[[nodiscard]] report::WaterAnswer water_of_planted_roof(const design::ValidDesign& design,
                                                        const climate::WeatherYear& weather, const Context& context);

struct PlacesInputs {
  const design::ValidDesign& design;
  const report::WaterAnswer& water;  // of a run of the planted roof
  const climate::WeatherYear& weather;
  std::span<const climate::WeatherYear> years;
};

/// Recipes in their order, then containers.
[[nodiscard]] std::vector<PlantPlace> plant_places(const PlacesInputs& inputs, const Winter& winter);

/// Wind on the roof that one hour of twenty passes.
[[nodiscard]] double wind_of_twentieth_hour(const climate::WeatherYear& weather, double wind_factor);

}  // namespace houseleek::studies
