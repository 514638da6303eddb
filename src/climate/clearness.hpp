// How clear days and hours are: distributions and curves that turn a monthly mean into a sequence.
#pragma once

namespace houseleek::climate {

inline constexpr double least_mean_clearness =
    0.10;  // of a month: below it the distribution's upper end falls under its mean
inline constexpr double most_mean_clearness = 0.80;

/// Days of a month by their clearness index (global over extraterrestrial, both on the level): a cut exponential.
struct ClearnessOfDays {
  double least = 0.05;
  double most = 0.0;
  double steepness = 0.0;  // gamma (most - least); zero: all clearnesses equally often
};

/// The distribution of daily clearness in a month of this mean.
/// Equation: F(K) = (e^(g Kmin) - e^(g K)) / (e^(g Kmin) - e^(g Kmax)); Kmin = 0.05; Kmax = 0.6313 + 0.267 Km - 11.9
///           (Km - 0.75)^8; g such that the mean is Km: (Km - Kmin)/w = 1/(1 - e^-y) - 1/y, y = g w, w = Kmax - Kmin,
///           solved by halving
/// Symbols:  Km = mean_clearness; K: clearness of a day; F: share of days below it
/// Shape:    scalar in, struct out; pure.
/// Units:    fractions.
/// Valid:    mean clearness 0.10 to 0.80 (published for 0.3 to 0.7).
/// Errors:   ContractViolation outside the range.
/// Source:   [bendt1981]; Kmax from [herzog1985] (from memory), whose fitted g is replaced by the exact
///           one.   Checked by: CLI-KD-01 to CLI-KD-05, CLI-KD-11, CLI-KD-12.
[[nodiscard]] ClearnessOfDays clearness_of_days(double mean_clearness);

/// The same distribution where no day can be clearer than `limit`: its upper end is the lower of both, its mean is kept.
/// Equation: as above with Kmax = min(published, limit)
/// Symbols:  as above
/// Shape:    scalars in, struct out; pure.
/// Units:    fractions.
/// Valid:    as above; a limit above the mean. Nearer to it than 0.2 % of the width the mean falls short by as much.
/// Errors:   ContractViolation outside the range.
/// Source:   as above; the limit is ours.   Checked by: CLI-KD-16.
[[nodiscard]] ClearnessOfDays clearness_of_days_below(double mean_clearness, double limit);

/// The clearness below which a share of the days lies.
/// Equation: K = Kmin + w ln(1 + f (e^y - 1)) / y
/// Symbols:  f = share_frac; y = steepness
/// Shape:    struct and scalar in, scalar out; pure.
/// Units:    fractions.
/// Valid:    share 0 to 1.
/// Errors:   ContractViolation outside the range.
/// Source:   [bendt1981] solved for K.   Checked by: CLI-KD-13 to CLI-KD-15.
[[nodiscard]] double clearness_quantile(const ClearnessOfDays& days, double share_frac);

/// Standard deviation of the distribution.
/// Equation: s^2 = w^2 (1/y^2 - 1/(e^(y/2) - e^(-y/2))^2)
/// Symbols:  w, y as above
/// Shape:    struct in, scalar out; pure.
/// Units:    fraction.
/// Valid:    what clearness_of_days gives.
/// Errors:   none.
/// Source:   variance of the cut exponential by definition.   Checked by: CLI-KD-06 to CLI-KD-10.
[[nodiscard]] double clearness_sd(const ClearnessOfDays& days);

/// Mean and spread of an hour's clearness on a day of a given clearness.
struct ClearnessOfHour {
  double mean = 0.0;
  double sd = 0.0;
};

/// Clearness of an hour by the height of the sun.
/// Equation: mean = L + e exp(-k / sin h); L = -0.19 + 1.12 K + 0.24 exp(-8 K); e = 0.32 - 1.6 (K - 0.5)^2; k = 0.19 +
///           2.27 K^2 - 2.51 K^3; sd = A exp(B (1 - sin h)); A = 0.14 exp(-20 (K - 0.35)^2); B = 3 (K - 0.45)^2 + 16
///           K^5
/// Symbols:  K = day_clearness; sin h = sine_of_elevation
/// Shape:    scalars in, struct out; pure.
/// Units:    fractions.
/// Valid:    clearness 0 to 0.9, sine above 0 to 1. Its mean lies about 0.02 above K: hours must be brought to their
///           day's sum.
/// Errors:   ContractViolation outside the range.
/// Source:   [aguiar1992] (coefficients seen in a public listing that names the paper).
///           Checked by: CLI-KH-01 to CLI-KH-14.
[[nodiscard]] ClearnessOfHour clearness_of_hour(double day_clearness, double sine_of_elevation);

/// How much of an hour's departure from the mean lasts into the next.
/// Equation: 0.38 + 0.06 cos(7.4 K - 2.5)
/// Symbols:  K = day_clearness
/// Shape:    scalar in, scalar out; pure.
/// Units:    pure number.
/// Valid:    clearness 0 to 0.9.
/// Errors:   none.
/// Source:   [aguiar1992] (as above).   Checked by: CLI-KH-31 to CLI-KH-35.
[[nodiscard]] double clearness_lag_of_hours(double day_clearness);

/// The clearness that no hour passes.
/// Equation: 0.88 cos(pi (t - 12) / 30)
/// Symbols:  t: solar hour; pi (t - 12) / 30 is 0.4 times the hour angle
/// Shape:    scalar in, scalar out; pure.
/// Units:    radians in; fraction out.
/// Valid:    hour angles -pi to pi.
/// Errors:   none.
/// Source:   [aguiar1992] (as above).   Checked by: CLI-KH-36.
[[nodiscard]] double highest_clearness_of_hour(double hour_angle_rad);

}  // namespace houseleek::climate
