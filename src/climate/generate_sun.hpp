// Global radiation of a generated year: months, days, hours.
#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "base/random.hpp"
#include "base/result.hpp"
#include "climate/generate.hpp"
#include "climate/normals.hpp"
#include "climate/year.hpp"

namespace houseleek::climate {

/// Whose random numbers are drawn.
struct GeneratorKey {
  std::uint64_t seed = 0;
  std::uint32_t draw = 0;
  [[nodiscard]] RandomVariable variable(std::string_view name) const { return random_variable(seed, name); }
  [[nodiscard]] RandomPlace place(int day, int index = 0) const {
    return {.draw = draw, .day = day, .index = static_cast<std::uint32_t>(index)};
  }
};

/// Whether a year's months are brought to the normals, or come out as its days do.
enum class MonthRule { are_the_normals, vary };

/// Mean clearness of each month and where it comes from.
struct MonthlyClearness {
  Months mean{};
  std::vector<std::string> notes;
};

/// Clearness of the months: from global radiation, else sunshine, else the daily range of temperature.
/// Equation: K = H / H0; K = a + b n / N; K = k sqrt(Tmax - Tmin), not above 0.75 + 2e-5 z
/// Symbols:  H0: month's mean of the daily extraterrestrial sum; n, N: sunshine and daylight hours; a, b, k: options;
///           z: elevation
/// Shape:    structs in, twelve values out; pure.
/// Units:    fractions.
/// Valid:    0.10 to 0.80. Where H0 is below 1 MJ/m2 a day (polar winter), a value outside is brought to the nearer
///           bound, and a note says so.
/// Errors:   issues with the month's path where global radiation or sunshine cannot be.
/// Source:   [allen1998] Eq. 35, 50 and 37.
///           Checked by: Generate.SunshineBecomesClearness, Generate.NormalsThatTheSunContradicts.
[[nodiscard]] Result<MonthlyClearness> clearness_of_months(const WeatherYear& sun, const MonthlyNormals& normals,
                                                           const GenerateOptions& options);

/// Month's mean of the daily sum outside the air.
/// Equation: sum over the month's hours of normal irradiance times mean sine, over its days
/// Symbols:  -
/// Shape:    a year with its sun in, twelve values out; pure.
/// Units:    MJ/m2 a day.
/// Valid:    any.
/// Errors:   none.
/// Source:   by definition.   Checked by: Generate.SunshineBecomesClearness.
[[nodiscard]] Months outside_of_months_mj_per_m2_d(const WeatherYear& sun);

/// The normal scores behind the days' clearness, and what is new in each day's.
struct ClearnessScores {
  std::vector<double> score;
  std::vector<double> news;  // independent standard normals
};
[[nodiscard]] ClearnessScores draw_clearness_scores(const GeneratorKey& key, double lag);

/// Clearness of each day; the month's radiation is exact, or right in the mean of many years.
/// Equation: x_d = F^-1(Phi(z_d)). Months that are the normals: K_d = min(c x_d, Kmax, day's limit), c such that the
///           month's sum of K_d H0_d = Km sum H0_d. Months that vary: K_d = x_d, F with the lower of Kmax and the day's
///           limit for its upper end, so that its mean is Km all the same
/// Symbols:  z_d: scores; F: clearness_of_days; day's limit: mean of highest_clearness_of_hour over the day, weighted
///           by H0 of the hours
/// Shape:    365 out; zero on days without sun; pure.
/// Units:    fractions.
/// Valid:    as clearness_of_days.
/// Errors:   an issue for a month whose limits stay below its mean.
/// Source:   [graham1988] for the scores; [bendt1981].
///           Checked by: Generator.DaysKeepThePublishedSpreadAndPersistence.
[[nodiscard]] Result<std::vector<double>> clearness_of_year_days(const WeatherYear& sun, const Months& month_clearness,
                                                                 const ClearnessScores& scores, MonthRule rule);

/// Global radiation of each hour; each day's sum is exact.
/// Equation: k = m + s y; y_h = p y_(h-1) + r, r normal of variance 1 - p^2, cut so that 0 <= k <= highest; then
///           min(c k, highest), c such that the day's sum is kept
/// Symbols:  m, s: clearness_of_hour at the greater of the sines at the hour's middle and of its mean;
///           p: clearness_lag_of_hours + 1/n, at most 0.8; n: hours of the day with sun
/// Shape:    8760 out; pure.
/// Units:    W/m2.
/// Valid:    as clearness_of_hour. The published lag is that of days whose sum is given, as ours are in the end;
///           holding the sum takes about 1/n from the correlation of neighbours, which is why 1/n is added before. The
///           cut normal is drawn by inversion; where it has less than 1e-12 of the normal, the nearer bound is taken.
/// Errors:   none beyond the contract of its parts.
/// Source:   [aguiar1992]; the rescaling and the 1/n are ours.
///           Checked by: Generate.HoursOfADayKeepItsRadiation, Generator.HoursKeepThePublishedPersistence.
[[nodiscard]] std::vector<double> global_of_hours(const WeatherYear& sun, const std::vector<double>& day_clearness,
                                                  const GeneratorKey& key);

}  // namespace houseleek::climate
