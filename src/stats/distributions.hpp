// Normal and gamma distributions from our own elementary functions: the same bits on every machine.
#pragma once

namespace houseleek::stats {

/// Share of a standard normal variable below z; the small tail to full relative precision.
/// Equation: Phi(-|z|) = exp(-z^2 / 2) g(t) / (2 (1 + 2 x)), x = |z| / sqrt(2), t = (x - 3.75) / (x + 3.75)
/// Symbols:  g Chebyshev sum of (1 + 2 x) exp(x^2) erfc(x)
/// Shape:    scalar in, scalar out; pure.
/// Units:    pure numbers.
/// Valid:    any z; below -37.6 it is 0.
/// Errors:   relative at most 1e-15 for |z| <= 37.5 measured.
/// Source:   [schonfelder1978] (the map and the weight); own coefficients.
/// Checked by: NormalDistribution.ShareBelow
[[nodiscard]] double standard_normal_cdf(double z);

/// z below which the share p of a standard normal variable lies.
/// Equation: rational functions of q^2 and of sqrt(-log p), q = p - 1/2
/// Symbols:  algorithm PPND16
/// Shape:    scalar in, scalar out; pure.
/// Units:    pure numbers.
/// Valid:    0 < p < 1 (else a contract violation).
/// Errors:   relative at most 1e-15 measured.
/// Source:   [wichura1988] algorithm AS 241.
/// Checked by: NormalDistribution.Quantile, NormalDistribution.QuantileTurnsTheShareBack
[[nodiscard]] double standard_normal_quantile(double p);

/// Logarithm of the gamma function.
/// Equation: Stirling's series at x + n >= 10, less the logarithm of x (x + 1) ... (x + n - 1)
/// Symbols:  coefficients B_2k / (2k (2k - 1))
/// Shape:    scalar in, scalar out; pure.
/// Units:    pure numbers.
/// Valid:    1e-10 <= x <= 1e10 (else a contract violation).
/// Errors:   at most 8e-15 absolute, or relative where |result| > 1, measured.
/// Source:   [abramowitz1964] 6.1.41.
/// Checked by: GammaDistribution.LogarithmOfTheGammaFunction
[[nodiscard]] double log_gamma(double x);

/// Share of a gamma variable of this shape and scale 1 below x, and the share above, each to full relative precision.
struct GammaShares {
  double below = 0.0;
  double above = 0.0;
};

/// Equation: P(a, x) by its series where x < a + 1, Q(a, x) by its continued fraction elsewhere; the other as 1 - that
/// Symbols:  a shape; P, Q shares below and above
/// Shape:    scalars in, two scalars out; pure.
/// Units:    pure numbers.
/// Valid:    0.01 <= shape <= 1e3, x >= 0 (else a contract violation).
/// Errors:   relative at most 2e-12 for the smaller share above 1e-280, measured.
/// Source:   [abramowitz1964] 6.5.29 and 6.5.31.
/// Checked by: GammaDistribution.SharesBelowAndAbove
[[nodiscard]] GammaShares gamma_shares(double shape, double x);

/// x below which the share p of a gamma variable of this shape and scale 1 lies.
/// Equation: Newton in log x on log P = log p (p <= 1/2) or log Q = log(1 - p), which are concave in log x
/// Symbols:  first guess by Wilson and Hilferty's cube, or by the leading term of the series; steps end at the bounds
///           (p Gamma(a + 1))^(1/a) and a + sqrt(2 a t) + t, t = -log(1 - p), between which the answer lies
/// Shape:    scalars in, scalar out; pure; monotone in p up to its errors.
/// Units:    pure numbers.
/// Valid:    0.01 <= shape <= 1e3, 0 < p < 1; results below 1e-290 are 0; no convergence is a contract violation.
/// Errors:   relative at most 2e-12 measured.
/// Source:   [wilson1931]; [boucheron2013] section 2.4 (upper bound); Newton's method.
/// Checked by: GammaDistribution.Quantile, GammaDistribution.QuantileConvergesAndGrowsEverywhere
[[nodiscard]] double gamma_quantile(double shape, double p);

}  // namespace houseleek::stats
