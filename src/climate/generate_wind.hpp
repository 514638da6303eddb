// Wind of a generated year.
#pragma once
#include <vector>

#include "climate/generate_sun.hpp"

namespace houseleek::climate {

/// Wind at the marks; the month's mean is exact, or right in the mean of many years.
/// Equation: v = f_m (1 + s cos(2 pi (t - 15)/24)) sqrt(-ln Phi(-z)); z_h = p z_(h-1) + sqrt(1 - p^2) e_h
/// Symbols:  sqrt(-ln(1 - share)): Weibull distribution of shape 2; t: solar hour; s: wind_afternoon_frac; p: wind_lag;
///           f_m: brings the month's mean to the normal; where months vary, the normal over the distribution's mean,
///           sqrt(pi)/2
/// Shape:    8761 out, the last is the first; pure.
/// Units:    m/s.
/// Valid:    no gusts, no direction, no tie to rain or clouds.
/// Errors:   none.
/// Source:   shape, lag and afternoon are engineering practice (from memory), docs/equations/climate.md.
///           Checked by: Generate.WindFallsOffAtNightAndRunsOn.
[[nodiscard]] std::vector<double> wind_of_marks_m_per_s(const WeatherYear& sun, const Months& mean_m_per_s,
                                                        const GeneratorKey& key, const GenerateOptions& options,
                                                        MonthRule rule);

}  // namespace houseleek::climate
