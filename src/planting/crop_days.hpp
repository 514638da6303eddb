// A bag, pot or tub with plants through the days of a weather year, by the FAO-56 method.
#pragma once
#include <optional>
#include <vector>

#include "catalogue/plant.hpp"
#include "climate/year.hpp"
#include "design/container.hpp"

namespace houseleek::planting {

/// What the method makes of one day's weather.
struct CropWeather {
  double reference_mm = 0.0;
  double rain_mm = 0.0;
  double least_humidity_percent = 45.0;
  double wind_2m_m_per_s = 2.0;
  double slope_kpa_per_k = 0.2;
  double psychrometric_kpa_per_k = 0.067;
};

/// Every day of the year.
/// Source: [allen1998] through physics/reference_evapotranspiration; wind at the roof is that of the weather by the
///         site's factor.
[[nodiscard]] std::vector<CropWeather> crop_weather(const climate::WeatherYear& year, double elevation_m,
                                                    double wind_factor);

/// Where a container's plant is not named or not in the catalogue: leaves as a vegetable has them.
struct CropStand {
  double height_m = 0.4;
  double leaf_area_index = 1.75;  // over the container
  double leaf_resistance_s_per_m = 100.0;
  double easy_frac = 0.4;
};
[[nodiscard]] CropStand crop_stand(const catalogue::Plant* plant);

struct CropStore {
  double available_mm = 0.0;   // between wilting and field capacity
  double evaporable_mm = 0.0;  // of the top
};
[[nodiscard]] CropStore crop_store(const design::Container& container);

struct CropQuestion {
  const design::Container& container;
  const catalogue::Plant* plant = nullptr;  // nullptr: not said
  const std::vector<CropWeather>& weather;
  int first_day = 0;  // of the year
  int n_days = 365;
  std::vector<double> watering_mm;  // one a day; empty: none
  bool fills_when_due = false;      // to field capacity on the morning on which more than the easy water is gone
  double first_store_frac = 1.0;
  // A lone pot stands in warmer, drier air than a field: [allen1998] chapter 10. On basal and most coefficient.
  double stand_factor = 1.0;
};

struct CropDays {
  std::vector<double> store_frac;  // at the day's end, of what is available
  std::vector<double> missing_mm;  // to field capacity
  std::vector<double> evapotranspiration_mm;
  std::vector<double> watered_mm;
  std::vector<double> wants_below_frac;  // of the day: 1 - easy
};

/// Follows the store of a container.
/// Equation: step_soil_day with K_b by leaves, F by stomata, K_most, cover and easy water of each day
/// Shape:    a question in, columns of n_days out; pure.
/// Units:    mm over the container's own area: its leaves hang out over as much again at the high end of stand_factor.
/// Valid:    roots all through the fill.
/// Errors:   ContractViolation.
[[nodiscard]] CropDays run_crop_days(const CropQuestion& question);

}  // namespace houseleek::planting
