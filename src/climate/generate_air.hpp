// Air temperature and vapour pressure of a generated year.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "climate/generate_sun.hpp"

namespace houseleek::climate {

/// Departures of the days' maximum and minimum from their season, in standard deviations.
struct TemperatureScores {
  std::vector<double> max;
  std::vector<double> min;
};

/// Departures tied to each other, to the day before and to the clearness of the day.
/// Equation: x_d = A x_(d-1) + L e_d for x = (max, min, clearness); rows of A: (0.567, 0.086, -0.002), (0.253, 0.504,
///           -0.050), (0, 0, p); L L' = M - A M A'; M: correlations max-min 0.633, max-clearness 0.186, min-clearness
///           -0.193
/// Symbols:  p: lag of the clearness score; L is triangular from clearness down, so that the clearness draws nothing of
///           its own here
/// Shape:    365 values each; pure.
/// Units:    pure numbers of variance one.
/// Valid:    correlations found at stations of the United States.
/// Errors:   ContractViolation if L does not exist (a lag near one).
/// Source:   [richardson1981] (matrices seen in public copies); the clearness row is replaced by the lag of
///           [graham1988]. Checked by: CLI-T-01 to CLI-T-09.
[[nodiscard]] TemperatureScores draw_temperature_scores(const ClearnessScores& clearness, double clearness_lag,
                                                        const GeneratorKey& key);

/// Standard deviation of the mean over n days of (maximum + minimum)/2 of these scores.
/// Equation: v = (1/n^2) sum over |k| < n of (n - |k|) h A^|k| M h', h = (1/2, 1/2, 0)
/// Symbols:  A, M as in draw_temperature_scores
/// Shape:    scalars in and out; pure.
/// Units:    standard deviations of a day.
/// Valid:    one day or more.
/// Errors:   ContractViolation without a day.
/// Source:   variance of a mean of correlated numbers, by definition.   Checked by: CLI-YEAR-07, CLI-YEAR-08.
[[nodiscard]] double mean_score_sd(int n_days, double clearness_lag);

/// Standard deviation of the days' extremes about their season.
/// Equation: the option; else 2 K + 2 K min(1, R / 20 K)
/// Symbols:  R: range between the months' means
/// Shape:    struct in, scalar out; pure.
/// Units:    K.
/// Valid:    2 to 4 K where it is not given.
/// Errors:   none.
/// Source:   our own estimate inside what is usual.   Checked by: Generator.DaysDepartFromTheirSeasonAsAsked.
[[nodiscard]] double temperature_sd_k(const MonthlyNormals& normals, const GenerateOptions& options);

/// How far the months of one year lie from the normals.
struct MonthShifts {
  Months max_k{};
  Months min_k{};
};

/// Temperature at marks, and the low points of the days, which the vapour goes by.
struct GeneratedAir {
  std::vector<double> temperature_c;  // 8761
  std::vector<int> lowest_mark;       // mark of each day's minimum, may lie in a neighbouring day
  std::vector<double> lowest_c;       // temperature there
  std::vector<double> seasonal_lowest_c;
  std::vector<std::string> notes;
};

/// Temperature at the marks; monthly means of the calendar days' highest and lowest equal the normals, moved by the
/// shifts if there are any, within 0.001 K.
/// Equation: Tx_d = season + s z_max - w drop + a_m; Tn_d = season + s z_min + b_m; between the two, half cosines; a_m,
///           b_m: corrections of the month, repeated until the means agree; departures of the range are drawn in until
///           each day has a tenth of the month's range
/// Symbols:  s: temperature_sd_k, else 2 K + 2 K min(1, R / 20 K), R: range between the months' means; w: 1 on wet
///           days; minimum at the mark nearest sunrise (held between 3 and 9 h solar), maximum at the mark nearest
///           hottest_solar_hour_h
/// Shape:    8761 out, the last is the first; pure.
/// Units:    degC.
/// Valid:    evenings come out warmer than an exponential cooling would have them (at 18 h solar by about 1 K in 12 K
///           of range).
/// Errors:   where a month's range is too small for its departures, those are made smaller, and a note says so (as where
///           hours hotter than any on earth would come out); an
///           issue where the season alone leaves a month no range.
/// Source:   [dewit1978] for the shape; spread is our own estimate inside 2 to 4 K.
///           Checked by: Generator.MonthlyMeansAreTheNormals, Generator.HottestAfterNoonColdestNearSunrise.
[[nodiscard]] Result<GeneratedAir> generate_air_temperature(const WeatherYear& sun, const MonthlyNormals& normals,
                                                            const std::vector<bool>& is_wet,
                                                            const TemperatureScores& scores,
                                                            const GenerateOptions& options,
                                                            const std::optional<MonthShifts>& shifts);

struct GeneratedVapour {
  std::vector<double> pressure_pa;  // 8761
  std::vector<std::string> notes;
};

/// Vapour pressure at the marks: straight lines from dawn to dawn, held at saturation, which fog and dew keep in truth.
/// Equation: e at a day's low point = f_m e_s(D_d), D_d = season + 0.5 (Tn_d - its season); f_m such that the month's
///           mean vapour pressure is e_s(normal dew point), or its mean relative humidity the normal. With shifts of
///           the months the dew point moves by half of the minimum's (that of the relative humidity too), and a month
///           that cannot hold so much keeps what it can. Without either:
///           D_d = Tn_d - drop, drop = driest_month_dew_point_drop_k max(0, 1 - P / (2 T)), f = 1
/// Symbols:  P: the month's rain in mm; T: its mean temperature in degC: months with P < 2 T are dry
/// Shape:    8761 out, the last is the first; pure.
/// Units:    Pa.
/// Valid:    no randomness of its own; afternoons neither lose nor gain vapour.
/// Errors:   issues for months whose relative humidity cannot be reached, unless they are shifted.
/// Source:   [allen1998] Eq. 48 and annex 6 for the dew point; [bagnouls1953] for dry months (both from memory).
///           Checked by: Generator.MonthlyMeansAreTheNormals, Generator.HoursStayInTheirBounds.
[[nodiscard]] Result<GeneratedVapour> generate_vapour(const GeneratedAir& air, const MonthlyNormals& normals,
                                                      const GenerateOptions& options,
                                                      const std::optional<MonthShifts>& shifts);

}  // namespace houseleek::climate
