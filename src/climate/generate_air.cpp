// Air temperature of a generated year: departures of the days, then their course.
#include "climate/generate_air.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/contract.hpp"
#include "climate/calendar.hpp"
#include "climate/seasonal_curve.hpp"
#include "climate/summary.hpp"
#include "climate/weather_columns.hpp"
#include "numerics/elementary.hpp"
#include "physics/constants.hpp"
#include "physics/sun.hpp"
#include "stats/sampling.hpp"

namespace houseleek::climate {
namespace {

using Row = std::array<double, 3>;
using Matrix = std::array<Row, 3>;

// Order in these matrices: clearness, maximum, minimum.
constexpr Matrix correlations = {{{1.0, 0.186, -0.193}, {0.186, 1.0, 0.633}, {-0.193, 0.633, 1.0}}};

constexpr Matrix step_matrix(double clearness_lag) {
  return {{{clearness_lag, 0.0, 0.0}, {-0.002, 0.567, 0.086}, {-0.050, 0.253, 0.504}}};
}

/// L with L L' = M - A M A'.
Matrix news_matrix(const Matrix& step) {
  Matrix covariance = correlations;
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) {
      for (std::size_t k = 0; k < 3; ++k) {
        for (std::size_t l = 0; l < 3; ++l) covariance[i][j] -= step[i][k] * correlations[k][l] * step[j][l];
      }
    }
  }
  Matrix root = {};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double rest = covariance[i][j];
      for (std::size_t k = 0; k < j; ++k) rest -= root[i][k] * root[j][k];
      if (i == j) expects(rest > 0.0, "a clearness lag that the correlations allow");
      root[i][j] = i == j ? numerics::sqrt(rest) : rest / root[j][j];
    }
  }
  return root;
}

/// Marks of the low and high points of the days, and the share of the earlier point in the temperature of each mark.
struct DayCourse {
  std::vector<int> low_mark;
  std::vector<int> high_mark;
};

DayCourse course_of_days(const WeatherYear& sun, double hottest_solar_hour_h) {
  constexpr double earliest_low_h = 3.0;
  constexpr double latest_low_h = 9.0;
  constexpr double hours_per_radian = 12.0 / physics::pi;
  DayCourse course;
  for (int day = 0; day < n_days_in_year; ++day) {
    const std::size_t noon = static_cast<std::size_t>(day * n_hours_in_day + n_hours_in_day / 2);
    const double solar_noon_h = 12.0 - hours_per_radian * sun.sun_hour_angle_rad[noon];
    const double sunset_rad = physics::sunset_hour_angle_rad({sun.sun_a[noon], sun.sun_b[noon]});
    double low_solar_h = 12.0 - hours_per_radian * sunset_rad;
    if (low_solar_h < earliest_low_h) low_solar_h = earliest_low_h;
    if (low_solar_h > latest_low_h) low_solar_h = latest_low_h;
    // Solar noon is between 0 and 24 h of the clock, so both sums stay positive but for the low point's.
    const double day_start = static_cast<double>(day * n_hours_in_day) + solar_noon_h - 12.0;
    const auto nearest = [](double mark) { return static_cast<int>(mark + 24.5) - 24; };
    course.low_mark.push_back(nearest(day_start + low_solar_h));
    course.high_mark.push_back(nearest(day_start + hottest_solar_hour_h));
  }
  return course;
}

std::size_t on_ring(int mark) { return static_cast<std::size_t>((mark + n_hours_in_year) % n_hours_in_year); }

/// Half cosines through the low and high points, round the year's end.
std::vector<double> temperature_at_marks(const DayCourse& course, const Days& high_c, const Days& low_c) {
  std::vector<double> marks(n_hours_in_year + 1);
  const auto draw = [&](int from_mark, double from_c, int to_mark, double to_c) {
    for (int mark = from_mark; mark < to_mark; ++mark) {
      const double share = static_cast<double>(mark - from_mark) / static_cast<double>(to_mark - from_mark);
      const double weight = 0.5 + 0.5 * numerics::cos(physics::pi * share);
      marks[on_ring(mark)] = to_c + weight * (from_c - to_c);
    }
  };
  for (std::size_t day = 0; day < n_days_in_year; ++day) {
    const bool is_last = day + 1 == n_days_in_year;
    const std::size_t next = is_last ? 0 : day + 1;
    draw(course.low_mark[day], low_c[day], course.high_mark[day], high_c[day]);
    draw(course.high_mark[day], high_c[day], course.low_mark[next] + (is_last ? n_hours_in_year : 0), low_c[next]);
  }
  marks.back() = marks.front();
  return marks;
}

struct Extremes {
  Days high_c;
  Days low_c;
};

/// Highest and lowest of the days before the months' corrections: exact monthly means, and a range of at least a tenth
/// of the month's.
Extremes raw_extremes(const MonthlyNormals& normals, const std::vector<bool>& is_wet, const TemperatureScores& scores,
                      double sd_k, double wet_drop_k) {
  constexpr double least_range_share = 0.1;
  Extremes days = {seasonal_curve(normals.max_c), seasonal_curve(normals.min_c)};
  for (std::size_t month = 0; month < n_months; ++month) {
    const double n = static_cast<double>(n_days_in_month[month]);
    const std::size_t first = static_cast<std::size_t>(first_day_of_month[month]);
    const std::size_t end = static_cast<std::size_t>(first_day_of_month[month + 1]);
    double high_mean_k = 0.0;
    double low_mean_k = 0.0;
    for (std::size_t day = first; day < end; ++day) {
      high_mean_k += (sd_k * scores.max[day] - (is_wet[day] ? wet_drop_k : 0.0)) / n;
      low_mean_k += sd_k * scores.min[day] / n;
    }
    double shrink = 1.0;
    const auto departure_high = [&](std::size_t day) {
      return sd_k * scores.max[day] - (is_wet[day] ? wet_drop_k : 0.0) - high_mean_k;
    };
    const auto departure_low = [&](std::size_t day) { return sd_k * scores.min[day] - low_mean_k; };
    for (std::size_t day = first; day < end; ++day) {
      const double season_k = days.high_c[day] - days.low_c[day];
      const double departure_k = departure_high(day) - departure_low(day);
      const double least_k = -(1.0 - least_range_share) * season_k;
      if (departure_k * shrink < least_k) shrink = season_k > 0.0 ? least_k / departure_k : 0.0;
    }
    for (std::size_t day = first; day < end; ++day) {
      const double middle_k = 0.5 * (departure_high(day) + departure_low(day));
      const double half_k = 0.5 * shrink * (departure_high(day) - departure_low(day));
      days.high_c[day] += middle_k + half_k;
      days.low_c[day] += middle_k - half_k;
    }
  }
  return days;
}

/// Corrects the months until the means of the calendar days' extremes are the normals. False if the range would have to
/// vanish for that.
bool correct_months(const DayCourse& course, const MonthlyNormals& normals, Extremes& days,
                    std::vector<double>& marks) {
  constexpr int most_rounds = 60;
  constexpr double close_enough_k = 1e-4;
  for (int round = 0; round < most_rounds; ++round) {
    marks = temperature_at_marks(course, days.high_c, days.low_c);
    Months high_mean_c{};
    Months low_mean_c{};
    Months range_k{};
    for (std::size_t day = 0; day < n_days_in_year; ++day) {
      const std::size_t month = static_cast<std::size_t>(month_of_day[day]);
      const double share = 1.0 / static_cast<double>(n_days_in_month[month]);
      const DayExtremes extremes = extremes_of_day(marks, static_cast<int>(day));
      high_mean_c[month] += share * extremes.max_c;
      low_mean_c[month] += share * extremes.min_c;
      range_k[month] += share * (days.high_c[day] - days.low_c[day]);
    }
    double farthest_k = 0.0;
    for (std::size_t month = 0; month < n_months; ++month) {
      if (range_k[month] < 0.25 * (normals.max_c[month] - normals.min_c[month])) return false;
      farthest_k = numerics::max(farthest_k, numerics::abs(normals.max_c[month] - high_mean_c[month]));
      farthest_k = numerics::max(farthest_k, numerics::abs(normals.min_c[month] - low_mean_c[month]));
    }
    if (farthest_k < close_enough_k) return true;
    for (std::size_t day = 0; day < n_days_in_year; ++day) {
      const std::size_t month = static_cast<std::size_t>(month_of_day[day]);
      days.high_c[day] += normals.max_c[month] - high_mean_c[month];
      days.low_c[day] += normals.min_c[month] - low_mean_c[month];
    }
  }
  return false;
}

/// The months that the year is to have.
MonthlyNormals shifted(MonthlyNormals normals, const MonthShifts& by) {
  for (std::size_t month = 0; month < n_months; ++month) {
    normals.max_c[month] += by.max_k[month];
    normals.min_c[month] += by.min_k[month];
  }
  return normals;
}

}  // namespace

double temperature_sd_k(const MonthlyNormals& normals, const GenerateOptions& options) {
  if (options.temperature_sd_k) return *options.temperature_sd_k;
  constexpr double least_k = 2.0;
  constexpr double rise_k = 2.0;
  constexpr double full_range_k = 20.0;
  const std::size_t hottest = static_cast<std::size_t>(hottest_months(normals)[0]);
  const std::size_t coldest = static_cast<std::size_t>(coldest_months(normals)[0]);
  const double range_k =
      0.5 * (normals.max_c[hottest] + normals.min_c[hottest]) - 0.5 * (normals.max_c[coldest] + normals.min_c[coldest]);
  return least_k + rise_k * (range_k < full_range_k ? range_k / full_range_k : 1.0);
}

double mean_score_sd(int n_days, double clearness_lag) {
  expects(n_days >= 1, "at least one day");
  const Matrix step = step_matrix(clearness_lag);
  Matrix lagged = correlations;  // A^k M
  double sum = 0.0;
  for (int k = 0; k < n_days; ++k) {
    const double of_middle = 0.25 * (lagged[1][1] + lagged[1][2] + lagged[2][1] + lagged[2][2]);
    sum += (k == 0 ? 1.0 : 2.0) * static_cast<double>(n_days - k) * of_middle;
    Matrix next = {};
    for (std::size_t i = 0; i < 3; ++i) {
      for (std::size_t j = 0; j < 3; ++j) {
        for (std::size_t l = 0; l < 3; ++l) next[i][j] += step[i][l] * lagged[l][j];
      }
    }
    lagged = next;
  }
  return numerics::sqrt(sum) / static_cast<double>(n_days);
}

TemperatureScores draw_temperature_scores(const ClearnessScores& clearness, double clearness_lag,
                                          const GeneratorKey& key) {
  const Matrix step = step_matrix(clearness_lag);
  const Matrix root = news_matrix(step);
  const RandomVariable max_variable = key.variable("climate.temperature_max");
  const RandomVariable min_variable = key.variable("climate.temperature_min");
  // The first day is drawn from the correlations alone: L L' = M.
  const Matrix first_root = news_matrix({});
  TemperatureScores scores;
  for (int day = 0; day < n_days_in_year; ++day) {
    const std::size_t d = static_cast<std::size_t>(day);
    const Row news = {clearness.news[d], stats::random_normal(max_variable, key.place(day)),
                      stats::random_normal(min_variable, key.place(day))};
    const Row before = day == 0 ? Row{} : Row{clearness.score[d - 1], scores.max[d - 1], scores.min[d - 1]};
    const Matrix& mixing = day == 0 ? first_root : root;
    Row here = {};
    for (std::size_t i = 0; i < 3; ++i) {
      for (std::size_t j = 0; j < 3; ++j) here[i] += step[i][j] * before[j] + mixing[i][j] * news[j];
    }
    scores.max.push_back(here[1]);
    scores.min.push_back(here[2]);
  }
  return scores;
}

/// The month that keeps the least of its daily range.
Unexpected issue_of_range(const MonthlyNormals& normals, const Extremes& days) {
  Months kept_frac{};
  for (std::size_t day = 0; day < n_days_in_year; ++day) {
    const std::size_t month = static_cast<std::size_t>(month_of_day[day]);
    kept_frac[month] += (days.high_c[day] - days.low_c[day]) / (normals.max_c[month] - normals.min_c[month]) /
                        static_cast<double>(n_days_in_month[month]);
  }
  std::size_t worst = 0;
  for (std::size_t month = 1; month < n_months; ++month) {
    if (kept_frac[month] < kept_frac[worst]) worst = month;
  }
  Issue issue;
  issue.code = IssueCode::inconsistent;
  issue.path = fmt::format("max_c[{}]", worst);
  issue.value = fmt::format("{}", normals.max_c[worst]);
  issue.message = fmt::format(
      "{} is {} and the minimum {}: between the months beside it no smooth season leaves its days warmer than its "
      "nights",
      issue.path, normals.max_c[worst], normals.min_c[worst]);
  issue.hint = "look at max_c and min_c of this month and of those beside it";
  return Unexpected{{std::move(issue)}};
}

Result<GeneratedAir> generate_air_temperature(const WeatherYear& sun, const MonthlyNormals& given,
                                              const std::vector<bool>& is_wet, const TemperatureScores& scores,
                                              const GenerateOptions& options,
                                              const std::optional<MonthShifts>& shifts) {
  constexpr double smaller = 0.7;
  const DayCourse course = course_of_days(sun, options.hottest_solar_hour_h);
  GeneratedAir air;
  const double wanted_sd_k = temperature_sd_k(given, options);
  const MonthlyNormals normals = shifts ? shifted(given, *shifts) : given;
  double share = 1.0;
  Extremes days = raw_extremes(normals, is_wet, scores, wanted_sd_k, options.wet_day_max_drop_k);
  // Hot places have summers that vary little: what would be hotter than any air on earth varies too much.
  const auto is_beyond_earth = [&air] {
    return *std::max_element(air.temperature_c.begin(), air.temperature_c.end()) > hottest_air_c;
  };
  bool is_too_hot = false;
  for (;;) {
    const bool is_kept = correct_months(course, normals, days, air.temperature_c);
    if (is_kept && (share < 1e-6 || !is_beyond_earth())) break;
    is_too_hot = is_too_hot || is_kept;
    share *= smaller;
    if (!is_kept && share < 1e-6) return issue_of_range(normals, days);
    days = raw_extremes(normals, is_wet, scores, share * wanted_sd_k, share * options.wet_day_max_drop_k);
  }
  air.lowest_mark = course.low_mark;
  air.lowest_c.assign(days.low_c.begin(), days.low_c.end());
  const Days season_c = seasonal_curve(normals.min_c);
  air.seasonal_lowest_c.assign(season_c.begin(), season_c.end());
  air.notes.push_back(fmt::format(
      "air_temperature_c: days depart from the season by {:.1f} K (standard deviation{}), tied to clearness and the "
      "day before by Richardson's matrices; hours by half cosines, highest near {} h solar, lowest near sunrise",
      share * wanted_sd_k, options.temperature_sd_k ? "" : ", estimated", options.hottest_solar_hour_h));
  if (share < 1.0) {
    air.notes.push_back(fmt::format("air_temperature_c: the departures were made smaller, by a factor of {:.2f}, {}",
                                    share,
                                    is_too_hot ? "because hours hotter than any air on earth would have come out"
                                               : "to keep the small daily range of the normals"));
  }
  return air;
}

}  // namespace houseleek::climate
