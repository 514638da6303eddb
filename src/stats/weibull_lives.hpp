// Service lives that are partly known (still in use, failed between two looks): Weibull by likelihood and with a prior.
#pragma once
#include <cstddef>
#include <limits>
#include <span>
#include <vector>

namespace houseleek::stats {

/// What is known of one part's life, or of `n_parts` alike. Ages in years since it was put in.
/// Failed at a known age: both ages equal. Failed between two looks: first < last. Still in use: last infinite.
struct PartLife {
  double alive_at_years = 0.0;                                       // seen in use at this age; 0: only when new
  double failed_by_years = std::numeric_limits<double>::infinity();  // seen failed at this age
  double entered_at_years = 0.0;  // age when its record began: earlier failures would not have been recorded
  double n_parts = 1.0;
};

struct Weibull {
  double shape = 1.0;
  double scale_years = 1.0;
};

/// Share of parts still in use at an age: exp(-(age / scale)^shape).
[[nodiscard]] double share_in_use(const Weibull& law, double age_years);

/// scale (log 2)^(1 / shape).
[[nodiscard]] double median_life_years(const Weibull& law);

/// Logarithm of the likelihood.
/// Equation: sum n [exact: log f(t); between: log(S(a) - S(b)); in use: log S(a)] - n log S(entered)
/// Symbols:  S(t) = exp(-(t / scale)^shape); f = -dS/dt
/// Shape:    any number of lives; pure.
/// Units:    years.
/// Valid:    ages >= 0, entered <= alive <= failed, exact failures above 0, shape and scale above 0 (else a contract
///           violation).
/// Errors:   rounding only.
/// Source:   [meeker1998] chapters 7, 8, 11.
/// Checked by: WBL-01, WBL-02, WBL-03, WBL-04
[[nodiscard]] double log_likelihood(std::span<const PartLife> lives, const Weibull& law);

struct WeibullFit {
  Weibull law;
  double log_likelihood = 0.0;
  // Of the logarithms: of the scale, of 1 / shape, and between them.
  double variance_log_scale = 0.0;
  double variance_log_sigma = 0.0;
  double covariance = 0.0;
};

/// The likeliest shape and scale. Needs failures at two ages or more (else a contract violation: the likelihood has no
/// top). Newton in (log scale, log 1/shape) with halved steps; variances from the curvature there.
[[nodiscard]] WeibullFit fit_weibull(std::span<const PartLife> lives);

/// What is believed before the first failure. Lognormal: the median life between low and high with 90 %, and the shape
/// likewise.
struct LifePrior {
  double median_low_years = 1.0;
  double median_high_years = 10.0;
  double shape_low = 1.0;   // parts that fail by accident at any age
  double shape_high = 6.0;  // parts that wear out almost together
};

struct WeightedLaw {
  Weibull law;
  double weight = 0.0;  // all sum to 1
};

/// The posterior on a grid of laws.
/// Equation: likelihood times prior on 121 x 121 points of (log median life, log shape), axes turned and scaled by the
///           curvature at the top, 6 standard deviations each way, 0.1 apart; further where the rim has weight
/// Symbols:  prior of log median and log shape: independent normal laws
/// Shape:    lives (may be none) and a prior in; laws whose weights sum to 1 out, but those below 1e-7 of the largest.
/// Units:    years.
/// Valid:    0 < low < high in both (else a contract violation).
/// Errors:   quantiles within 0.3 % of a plain fine rectangle, measured in the tests.
/// Source:   Bayes' rule; priors as [meeker1998] chapter 14.
/// Checked by: WeibullPosterior.PriorAloneComesBack, WeibullPosterior.AFinerGridSaysTheSame
[[nodiscard]] std::vector<WeightedLaw> weibull_posterior(std::span<const PartLife> lives, const LifePrior& prior);

struct Quantiles {
  double low = 0.0;
  double middle = 0.0;
  double high = 0.0;
};

struct WeightedValue {
  double value = 0.0;
  double weight = 0.0;
};

/// The values below which (1 - confidence) / 2, one half, and (1 + confidence) / 2 of the weight lie, between points by
/// straight lines through the middles of their weights.
[[nodiscard]] Quantiles weighted_quantiles(std::vector<WeightedValue> values, double confidence_frac);

/// Parts of one age now, all replaced as soon as they fail.
struct PartsInUse {
  double age_years = 0.0;
  double n_parts = 1.0;
};

/// Expected replacements in each of `n_months` months under one law, replacements of replacements included.
/// Equation: r_j = sum over parts g_j + sum_{i<j} r_i f_{j-i}
/// Symbols:  f_j = S((j-1)/12) - S(j/12); g_j the same for a part of its age, over S(age); a part that fails within a
///           month is new at that month's end
/// Shape:    n_months sums.
/// Units:    parts a month.
/// Valid:    ages >= 0.
/// Errors:   renewal by whole months: at most one month of delay for a second failure.
/// Source:   [cox1962] (renewal equation).
/// Checked by: WeibullForecast.AConstantHazardGivesAConstantRate
[[nodiscard]] std::vector<double> expected_replacements(const Weibull& law, std::span<const PartsInUse> parts,
                                                        std::size_t n_months);

}  // namespace houseleek::stats
