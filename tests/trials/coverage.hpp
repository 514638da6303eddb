// How often verdicts, fits and lives hold the truth over many invented trials.
#pragma once
#include <cstdint>

#include "invented_readings.hpp"
#include "trials/judge.hpp"
#include "warming_room.hpp"

namespace houseleek::trials::invented {

struct Coverage {
  double held_percent = 0.0;  // of the intervals that hold the true difference
  double told_percent = 0.0;  // of the trials that call the sides different
};

inline Coverage coverage_of(const Truth& truth, std::uint64_t seed, std::uint32_t n_trials) {
  std::uint32_t n_held = 0;
  std::uint32_t n_told = 0;
  for (std::uint32_t draw = 0; draw < n_trials; ++draw) {
    const SideComparison c = judge(sides_of(truth, seed, draw), {}).comparisons.front();
    n_held += c.difference && c.difference->low <= truth.difference && truth.difference <= c.difference->high ? 1U : 0U;
    n_told += c.outcome == Outcome::higher || c.outcome == Outcome::lower ? 1U : 0U;
  }
  return {100.0 * n_held / n_trials, 100.0 * n_told / n_trials};
}

struct FitCoverage {
  double exchange_percent = 0.0;
  double gain_percent = 0.0;
};

inline FitCoverage fit_coverage_of(const Readings& truth, int n_days, std::uint64_t seed, std::uint32_t n_fits) {
  std::uint32_t n_exchange = 0;
  std::uint32_t n_gain = 0;
  for (std::uint32_t draw = 0; draw < n_fits; ++draw) {
    const FitAnswer answer = fit_properties(question_of(sky_of(n_days, seed, draw), truth, seed, draw));
    const auto holds = [](const FittedProperty& p, double value) {
      return p.low && *p.low <= value && value <= *p.high;
    };
    n_exchange += holds(answer.properties[0], truth.exchange_per_h) ? 1U : 0U;
    n_gain += holds(answer.properties[1], truth.gain_k_per_h) ? 1U : 0U;
  }
  return {100.0 * n_exchange / n_fits, 100.0 * n_gain / n_fits};
}

}  // namespace houseleek::trials::invented
