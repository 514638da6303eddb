// Coefficients of the time scheme: two-stage SDIRK of order 2 with its explicit companion; and the maximum its checks use.
#pragma once

namespace houseleek::simulation::scheme {

// gamma = 1 - 1/sqrt(2): L-stable and stiffly accurate [alexander1977]; the explicit companion is ARS(2,2,2) [ascher1997].
inline constexpr double gamma = 0.29289321881345247560;
inline constexpr double delta = 1.0 - 1.0 / (2.0 * gamma);
// Weights of the implicit stages; those of the explicit ones (start, first stage) are delta and 1 - delta.
inline constexpr double first_weight = 1.0 - gamma;
inline constexpr double second_weight = gamma;

}  // namespace houseleek::simulation::scheme

namespace houseleek::simulation {

/// The larger; a value that is not a number wins and stays, so that it cannot hide.
[[nodiscard]] inline double larger(double candidate, double present) {
  return candidate <= present || present != present ? present : candidate;
}

}  // namespace houseleek::simulation
