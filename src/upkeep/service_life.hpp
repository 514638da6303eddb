// How long a part lasts here, from one's own log and what the catalogue believes, and what is to be replaced when.
#pragma once
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "catalogue/spread.hpp"
#include "stats/weibull_lives.hpp"

namespace houseleek::upkeep {

/// Fewer failures than this say too little of a life of one's own.
inline constexpr double least_failures = 5.0;

struct ServiceLifeQuestion {
  std::string part;                    // "ties of sisal"
  std::vector<stats::PartLife> lives;  // failed, failed between two looks, in use
  stats::LifePrior prior;
  std::vector<stats::PartsInUse> in_use;  // to be forecast
  std::size_t n_months = 12;
  double confidence_frac = 0.9;
  std::uint64_t seed = 0;
};

/// Whole numbers at the ends: of the count itself, not of its mean.
struct Replacements {
  double expected = 0.0;
  double low = 0.0;
  double high = 0.0;
};

/// Share of the parts still in use at an age.
struct ShareInUse {
  double age_years = 0.0;
  stats::Quantiles here;  // prior and log together, with the confidence asked for
  double prior = 0.0;     // as the catalogue believes, its middle
};

struct ServiceLifeAnswer {
  double n_failures = 0.0;
  bool is_too_few = true;              // the life below is then the prior's alone
  stats::Quantiles median_life_years;  // half of the parts last longer; with the confidence asked for
  stats::Quantiles shape;              // below 1.5: failures at any age; above 3: they wear out together
  stats::Quantiles prior_median_life_years;
  std::vector<Replacements> months;  // from now; always from prior and log together
  Replacements total;
  std::vector<std::vector<int>> drawn_months;  // counts by drawn future and month, so that parts can be added up
  std::vector<ShareInUse> curve;               // from new to an age that few parts of either belief reach
  std::string sentence;
  std::string forecast_sentence;
};

/// Equation: posterior of (median life, shape) as in stats/weibull_lives; expected replacements averaged over it; low
///           and high from 4000 drawn futures, each with a law drawn from it
/// Valid:    confidence within 0 to 1, n_months from 1 to 600 (else a contract violation).
/// Errors:   quantiles of counts by drawing: about 1 in 100 of the wanted share.
/// Source:   docs/equations/upkeep.md. Checked by: ServiceLife.*
[[nodiscard]] ServiceLifeAnswer judge_service_life(const ServiceLifeQuestion& question);

/// Replacements of several kinds of parts together, month by month: their counts added up future by future, for parts
/// are drawn apart from one another.
/// Valid:    answers with as many months and futures each, at least one (else a contract violation).
[[nodiscard]] std::vector<Replacements> replacements_together(const std::vector<ServiceLifeAnswer>& answers,
                                                              double confidence_frac);

/// A catalogue's life in years as a prior: its low and high, seldom passed, hold the median life with 90 %. A life
/// without a range is a contract violation: whoever asks has to say how sure it is.
[[nodiscard]] stats::LifePrior prior_from_catalogue(const catalogue::Spread& life_years);

}  // namespace houseleek::upkeep
