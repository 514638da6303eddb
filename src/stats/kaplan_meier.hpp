// The share still in use by age, without any law of lives: steps at the failures that were seen.
#pragma once
#include <span>
#include <vector>

#include "stats/weibull_lives.hpp"

namespace houseleek::stats {

struct SurvivalStep {
  double age_years = 0.0;
  double share_in_use = 1.0;    // from this age on
  double standard_error = 0.0;  // of the share
  double n_at_risk = 0.0;       // just before
  double n_failed = 0.0;
};

/// One step for each age at which something failed, youngest first; before the first the share is 1.
/// Equation: S(t) = product over ages a <= t of (1 - d/n); error S(t) sqrt(sum d / (n (n - d)))
/// Symbols:  d failed at a; n in use just before a and on record: entered below a, alive at a or later
/// Shape:    any number of lives; pure.
/// Units:    years.
/// Valid:    lives that failed at a known age or are in use (else a contract violation: between two looks there is no
///           step to stand on, fit_weibull takes those).
/// Errors:   rounding only; where the last in use fails the error is 0 though the share is not certain.
/// Source:   [kaplan1958]; the error is Greenwood's [kaplan1958] eq. 2f.
/// Checked by: KPM-01, KPM-02, KPM-03, RSurvival.*
[[nodiscard]] std::vector<SurvivalStep> kaplan_meier(std::span<const PartLife> lives);

}  // namespace houseleek::stats
