// How often the interval of a mean holds the truth where days are like their neighbours.
#pragma once
#include <cmath>
#include <cstdint>
#include <vector>

#include "stats/long_run.hpp"
#include "stats/sampling.hpp"

namespace houseleek::stats {

struct DayStudy {
  int n_days = 14;
  double correlation = 0.5;  // of a first-order series of standard deviation 1 and mean 0
  std::uint32_t n_series = 2000;
  std::uint64_t seed = 20260501;
};

/// Percent of the 95 % intervals that hold 0.
inline double coverage_percent(const DayStudy& study) {
  const RandomVariable variable = random_variable(study.seed, "coverage of days");
  const auto index = static_cast<std::uint32_t>(std::lround(100.0 * study.correlation));
  std::uint32_t n_held = 0;
  for (std::uint32_t draw = 0; draw < study.n_series; ++draw) {
    std::vector<double> days;
    double day = random_normal(variable, {draw, 0, index});
    for (int t = 0; t < study.n_days; ++t) {
      if (t > 0) {
        day = study.correlation * day +
              std::sqrt(1.0 - study.correlation * study.correlation) * random_normal(variable, {draw, t, index});
      }
      days.push_back(day);
    }
    const Estimate mean = long_run_mean(days, 0.95);
    n_held += mean.low <= 0.0 && 0.0 <= mean.high ? 1U : 0U;
  }
  return 100.0 * n_held / study.n_series;
}

}  // namespace houseleek::stats
