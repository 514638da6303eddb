// Credible intervals of lives: truths drawn from the prior lie within the 90 % interval in 90 of 100 logs.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "stats/sampling.hpp"
#include "stats/weibull_lives.hpp"

namespace houseleek::upkeep {
namespace {

TEST(ServiceLifeCoverage, TruthsDrawnFromThePrior) {
  const stats::LifePrior prior{.median_low_years = 1.0, .median_high_years = 6.0, .shape_low = 1.0, .shape_high = 6.0};
  constexpr double reach = 1.6448536269514722;
  constexpr std::uint32_t n_logs = 1000;
  const RandomVariable truth = random_variable(501, "truth");
  const RandomVariable lives = random_variable(501, "lives");
  int n_held = 0;
  for (std::uint32_t draw = 0; draw < n_logs; ++draw) {
    const double median =
        std::sqrt(6.0) * std::exp(0.5 * std::log(6.0) / reach * stats::random_normal(truth, {draw, 0, 0}));
    const double shape =
        std::sqrt(6.0) * std::exp(0.5 * std::log(6.0) / reach * stats::random_normal(truth, {draw, 0, 1}));
    const double scale = median / std::pow(std::log(2.0), 1.0 / shape);
    // 15 parts looked at every half year for three years.
    std::vector<stats::PartLife> log;
    for (std::uint32_t part = 0; part < 15; ++part) {
      const double age = scale * std::pow(-std::log(random_uniform(lives, {draw, 0, part})), 1.0 / shape);
      if (age > 3.0) {
        log.push_back({3.0, std::numeric_limits<double>::infinity(), 0.0, 1.0});
      } else {
        const double seen = 0.5 * std::floor(age / 0.5);
        log.push_back({seen, seen + 0.5, 0.0, 1.0});
      }
    }
    std::vector<stats::WeightedValue> values;
    for (const stats::WeightedLaw& law : stats::weibull_posterior(log, prior)) {
      values.push_back({stats::median_life_years(law.law), law.weight});
    }
    const stats::Quantiles life = stats::weighted_quantiles(std::move(values), 0.9);
    n_held += life.low <= median && median <= life.high ? 1 : 0;
  }
  EXPECT_NEAR(100.0 * n_held / n_logs, 90.0, 3.0 * 0.95);
}

}  // namespace
}  // namespace houseleek::upkeep
