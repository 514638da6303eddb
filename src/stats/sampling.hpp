// Variates as functions of seed, variable name, draw, day and index: one uniform number each, so nothing shifts.
#pragma once
#include "base/random.hpp"
#include "stats/distributions.hpp"

namespace houseleek::stats {

/// A standard normal number by inversion.
[[nodiscard]] inline double random_normal(const RandomVariable& variable, const RandomPlace& place) {
  return standard_normal_quantile(random_uniform(variable, place));
}

struct Gamma {
  double shape = 1.0;
  double scale = 1.0;  // mean = shape scale, in the unit of the variate
};

/// A gamma number by inversion: it grows with its uniform number, so that two designs under one seed stay comparable.
[[nodiscard]] inline double random_gamma(const RandomVariable& variable, const RandomPlace& place, const Gamma& gamma) {
  return gamma.scale * gamma_quantile(gamma.shape, random_uniform(variable, place));
}

/// Whether an event of this probability (0 to 1) happens.
[[nodiscard]] inline bool random_event(const RandomVariable& variable, const RandomPlace& place,
                                       double probability_frac) {
  return random_uniform(variable, place) < probability_frac;
}

}  // namespace houseleek::stats
