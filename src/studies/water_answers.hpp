// Rain kept back, water given, and how long a full module can wait, month by month.
#pragma once
#include <vector>

#include "design/defaults.hpp"
#include "report/study_answer.hpp"
#include "studies/cover_runs.hpp"

namespace houseleek::studies {

/// Where a recipe does not say at which store it is watered.
inline constexpr design::Default wanting_store_frac{
    "store below which a module wants water", 0.1, 0.2, 0.4, design::defaults::own, catalogue::Certainty::estimate};

/// Share of the store (between wilting and field capacity) below which each recipe wants water.
[[nodiscard]] std::vector<double> thresholds_frac(const design::Design& design);

/// Recipes that do not say it themselves.
[[nodiscard]] std::vector<design::Assumption> assumed_thresholds(const design::Design& design);

/// Water between field capacity and the threshold in the layers that roots reach.
/// Equation: 1000 sum of d (theta_field - theta_wilting) (1 - f)
/// Symbols:  d: thickness of each rooted layer; f: threshold
/// Units:    mm.
[[nodiscard]] double waiting_store_mm(const design::Recipe& recipe, double threshold_frac);

struct WaterInputs {
  const design::Design& design;
  const RunSums& planted;  // free
  double rain_mm = 0.0;
  std::vector<double> thresholds_frac;
};
[[nodiscard]] report::WaterAnswer answer_water(const WaterInputs& inputs);

/// Water given to all modules in the kept hours.
[[nodiscard]] double watering_m3(const RunSums& planted);

}  // namespace houseleek::studies
