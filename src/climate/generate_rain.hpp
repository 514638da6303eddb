// Rain of a generated year: wet days, their amounts, ten minutes.
#pragma once
#include <string>
#include <vector>

#include "climate/generate_sun.hpp"

namespace houseleek::climate {

/// Rain days of the months where the normals tell none.
/// Equation: n (1 - exp(-P / 150 mm))
/// Symbols:  n: days of the month; P = rain_mm of the month
/// Shape:    twelve in, twelve out; pure.
/// Units:    mm in, days out.
/// Valid:    a guess, half to twice: 5 mm a wet day where it is dry, 9 mm at 200 mm a month, 12 mm at 300 mm.
/// Errors:   none.
/// Source:   our own estimate, docs/equations/climate.md.   Checked by: CLI-RAIN-01.
[[nodiscard]] Months estimated_rain_days(const Months& rain_mm);

/// Chance of rain after a dry day and after a wet one.
struct WetDayChain {
  double after_dry_frac = 0.0;
  double after_wet_frac = 0.0;
};

/// The chain that leaves a share f of the days wet.
/// Equation: p01 = 0.75 f; p11 = 0.25 + p01
/// Symbols:  f = wet_day_frac
/// Shape:    scalar in, struct out; pure.
/// Units:    fractions.
/// Valid:    0 to 1; no day follows the one before more than this where f = 0.
/// Errors:   ContractViolation outside the range.
/// Source:   [geng1986] (from memory).   Checked by: CLI-RAIN-02 to CLI-RAIN-04.
[[nodiscard]] WetDayChain wet_day_chain(double wet_day_frac);

/// Shape of the gamma distribution of a wet day's rain.
/// Equation: scale b = max(-2.16 + 1.83 p, p); shape = p / b
/// Symbols:  p = mean_mm of a wet day; below 2.6 mm the fit would give a shape above one: the exponential is taken
/// Shape:    scalar in, scalar out; pure.
/// Units:    mm in; pure number out.
/// Valid:    above 0.
/// Errors:   ContractViolation if not positive.
/// Source:   [geng1986] (from memory).   Checked by: CLI-RAIN-05.
[[nodiscard]] double wet_day_gamma_shape(double mean_mm);

struct RainNormals {
  Months rain_mm{};
  Months rain_days{};
};

/// Which days are wet.
/// Equation: wet if Phi(r z + sqrt(1 - r^2) e) < chance by the day before's state
/// Symbols:  z: what is new in the day's clearness score (dim days are low); e: an independent standard normal; r:
///           option. r z + ... is again a standard normal, independent from day to day, so the chain is exact
/// Shape:    365 out; the first day's state before is drawn with the share of wet days; pure.
/// Units:    -
/// Valid:    months that are the normals: one with rain and no wet day by the chain gets one, its dimmest day.
/// Errors:   none.
/// Source:   chain [geng1986]; its tie to the clearness is ours.
///           Checked by: CLI-GEN-10 to CLI-GEN-12, Generator.WetDaysAreDimAndCool.
[[nodiscard]] std::vector<bool> wet_days_of_year(const RainNormals& normals, const ClearnessScores& clearness,
                                                 const GeneratorKey& key, const GenerateOptions& options,
                                                 MonthRule rule);

/// Rain of each day; the month's sum is exact.
/// Equation: P_i = m + g_i (P - n m) / sum g
/// Symbols:  g: gamma numbers; P: the month's rain; n: wet days; m: least rain of a wet day, at most half of P / n
/// Shape:    365 out, zero on dry days; pure.
/// Units:    mm.
/// Valid:    -
/// Errors:   none.
/// Source:   [geng1986] for the distribution.   Checked by: Generator.MonthlyMeansAreTheNormals.
[[nodiscard]] std::vector<double> rain_of_days_mm(const RainNormals& normals, const std::vector<bool>& is_wet,
                                                  const GeneratorKey& key, const GenerateOptions& options);

/// Rain of each day as it is drawn; the month's sum is right in the mean of many years.
/// Equation: P_i = m + (w p - m) g_i / k
/// Symbols:  g: gamma numbers of shape k; p: mean rain of a wet day by the normals; w = rain_factor; m: least rain of a
///           wet day, at most half of w p
/// Shape:    365 out, zero on dry days; pure.
/// Units:    mm.
/// Valid:    -
/// Errors:   none.
/// Source:   [geng1986] for the distribution.   Checked by: CLI-YEAR-05, CLI-YEAR-06.
[[nodiscard]] std::vector<double> drawn_rain_of_days_mm(const RainNormals& normals, const std::vector<bool>& is_wet,
                                                        const Months& rain_factor, const GeneratorKey& key,
                                                        const GenerateOptions& options);

/// Rain of each ten minutes; the day's sum is exact.
/// Equation: duration D = P / i, i log-normal, held between 0.5 h and 12 h; start evenly spread over what the day
///           leaves; a triangle over D with its peak at 3/8, each ten minutes times an exponential number of mean one,
///           brought back to P
/// Symbols:  P: the day's rain; i: mean intensity of the day, median and spread by the options
/// Shape:    52560 out; pure.
/// Units:    mm in ten minutes.
/// Valid:    one storm a day, at any hour: no memory of afternoon thunder, no cloudbursts; not for drainage.
/// Errors:   none.
/// Source:   triangle [yen1980]; intensities, bursts and their spread are our own estimate.
///           Checked by: Generate.RainOfADayIsOneStormOfItsSum.
[[nodiscard]] std::vector<double> rain_of_slots_mm(const std::vector<double>& rain_of_days_mm, const GeneratorKey& key,
                                                   const GenerateOptions& options);

}  // namespace houseleek::climate
