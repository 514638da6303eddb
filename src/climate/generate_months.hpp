// How far the months of a made year lie from the normals.
#pragma once
#include <string>
#include <vector>

#include "climate/generate_air.hpp"
#include "climate/generate_rain.hpp"
#include "climate/generate_sun.hpp"

namespace houseleek::climate {

/// Standard deviation between years of the months' mean temperature, where the normals tell none.
/// Equation: min(1.2 K, 0.6 K + 0.05 R) + max(0, 0.08 R - 0.6 K) q^2, q = (T_hot - T) / R
/// Symbols:  T: month's mean, middle of maximum and minimum; T_hot: of the hottest month; R: hottest less coldest
/// Shape:    normals in, twelve out; pure.
/// Units:    K.
/// Valid:    within a quarter below and a third above: five places with R from 10 to 25 K; nearer the equator a guess.
/// Errors:   none.
/// Source:   our own line through [crutem4] (two stations), [anderson1976] and [noaa_seattle] (two),
///           docs/equations/climate.md.   Checked by: CLI-YEAR-11 to CLI-YEAR-13.
[[nodiscard]] Months usual_month_mean_sd_k(const MonthlyNormals& normals);

/// Standard deviation between years of the months' rain where wet days and their amounts are all that varies.
/// Equation: sqrt(N p^2 / k + p^2 N (1 - f) (1 + r) / (1 - r)), N = n f
/// Symbols:  n: days of the month; f: share of wet days; p: mean rain of a wet day; k: wet_day_gamma_shape; r = 0.25: lag
///           of wet_day_chain
/// Shape:    twelve in, twelve out; pure.
/// Units:    mm.
/// Valid:    the count's term is that of long months: some 2 % too high for 30 days.
/// Errors:   none.
/// Source:   variance of a sum of a random number of gamma numbers, by definition; count by [richardson1981] as in
///           docs/equations/climate.md.   Checked by: CLI-YEAR-21, CLI-YEAR-22.
[[nodiscard]] Months rain_sd_of_wet_days_mm(const RainNormals& normals);

/// What of the months the days do not say themselves.
struct MonthDepartures {
  Months mean_sd_k{};     // of the mean temperature between years
  Months day_share{};     // how much of the mean of the days' departures of temperature is kept
  Months slow_k{};        // added to maximum and minimum of all days
  Months rain_factor{};   // times the mean rain of a wet day; its mean is one
  std::string statement;  // what was assumed, with its range
};

/// What one draw adds to the days' own departures: temperature with a memory from month to month, rain without.
/// Equation: with d = s m_n, the standard deviation of the mean of n days' departures (s: of a day; m_n:
///           mean_score_sd): day_share = min(d, sqrt(3/4) S)/d; slow = sqrt(S^2 - (day_share d)^2) u_m, u_m = 0.6
///           u_(m-1) + 0.8 e; rain_factor = exp(c g - c^2/2), c^2 = ln(1 + v), v = max(0, (Q^2 - V) / (V + P^2))
/// Symbols:  S: month_mean_sd_k or usual_month_mean_sd_k; Q: month_rain_sd_mm or 1.2 sqrt(V); V: square of
///           rain_sd_of_wet_days_mm; P: month's rain; e, g: independent standard normals
/// Shape:    twelve values each; pure.
/// Units:    as the names say.
/// Valid:    slow and rain_factor are independent of each other and of the clearness.
/// Errors:   none; a stated Q below sqrt(V) cannot be had, and the statement says so.
/// Source:   our own, docs/equations/climate.md and docs/decisions/0010-months-of-made-years-vary.md.
///           Checked by: CLI-YEAR-01 to CLI-YEAR-06.
[[nodiscard]] MonthDepartures draw_month_departures(const MonthlyNormals& normals, const RainNormals& rain,
                                                    const GeneratorKey& key, const GenerateOptions& options);

/// Correlation between years of a month's clearness with its mean temperature.
/// Equation: 0.55 min(1, H0 / 30 MJ/m2)
/// Symbols:  H0: month's mean of the daily sum outside the air
/// Shape:    a year with its sun in, twelve values out; pure.
/// Units:    pure numbers.
/// Valid:    one station of 51.8 degrees north, 24 years; elsewhere a guess.
/// Errors:   none.
/// Source:   our own, from [metoffice_oxford]: docs/equations/climate.md.   Checked by: CLI-YEAR-31, CLI-YEAR-32.
[[nodiscard]] Months sun_warms_months(const WeatherYear& sun);

/// What the months' shifts are made of.
struct ShiftInputs {
  const MonthlyNormals& normals;
  const RainNormals& rain;
  const std::vector<bool>& is_wet;
  const ClearnessScores& clearness;
  const TemperatureScores& scores;
  const MonthDepartures& departures;
  const Months& sun_correlation;  // of sun_warms_months
};

/// Shifts of a year whose months vary.
/// Equation: high = s mean of z_max - drop (mean of w - f), low = s mean of z_min; middle: sqrt(1 - r^2) (a (high +
///           low)/2 + b) + r S Z, Z = mean of the clearness scores over its standard deviation; difference: a (high -
///           low), held to half of the month's daily range either way
/// Symbols:  z: scores; s: temperature_sd_k; w: 1 on wet days; f: share of wet days by the normals; a, b, S: day_share,
///           slow_k and mean_sd_k of the months; r = sun_correlation
/// Shape:    struct out; pure.
/// Units:    K.
/// Valid:    its mean over many years is zero, the standard deviation of the middle S; wet days' lower maxima add up
///           to 5 %.
/// Errors:   none.
/// Source:   our own, docs/equations/climate.md.   Checked by: CLI-YEAR-01 to CLI-YEAR-04.
[[nodiscard]] MonthShifts shifts_of_months(const ShiftInputs& inputs, const GenerateOptions& options);

}  // namespace houseleek::climate
