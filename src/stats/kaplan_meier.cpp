// The share still in use by age, without any law of lives.
#include "stats/kaplan_meier.hpp"

#include <cmath>
#include <limits>
#include <set>

#include "base/contract.hpp"

namespace houseleek::stats {

std::vector<SurvivalStep> kaplan_meier(std::span<const PartLife> lives) {
  std::set<double> ages;
  for (const PartLife& life : lives) {
    const bool is_failed = life.failed_by_years == life.alive_at_years;
    const bool is_in_use = life.failed_by_years == std::numeric_limits<double>::infinity();
    expects(is_failed || is_in_use, "lives that failed at a known age or are in use");
    expects(life.entered_at_years >= 0.0 && life.entered_at_years <= life.alive_at_years && life.n_parts >= 0.0,
            "ages in their order");
    if (is_failed && life.n_parts > 0.0) ages.insert(life.failed_by_years);
  }
  std::vector<SurvivalStep> steps;
  double share = 1.0;
  double sum = 0.0;
  for (const double age : ages) {
    SurvivalStep step;
    step.age_years = age;
    for (const PartLife& life : lives) {
      if (life.entered_at_years < age && life.alive_at_years >= age) step.n_at_risk += life.n_parts;
      if (life.failed_by_years == age) step.n_failed += life.n_parts;
    }
    share *= 1.0 - step.n_failed / step.n_at_risk;
    if (step.n_at_risk > step.n_failed) sum += step.n_failed / (step.n_at_risk * (step.n_at_risk - step.n_failed));
    step.share_in_use = share;
    step.standard_error = share * std::sqrt(sum);
    steps.push_back(step);
  }
  return steps;
}

}  // namespace houseleek::stats
