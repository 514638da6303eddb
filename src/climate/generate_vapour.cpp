// Vapour pressure of a generated year.
#include <fmt/format.h>

#include "climate/calendar.hpp"
#include "climate/generate_air.hpp"
#include "climate/seasonal_curve.hpp"
#include "numerics/elementary.hpp"
#include "physics/air.hpp"

namespace houseleek::climate {
namespace {

constexpr double dew_point_follows_minimum_frac = 0.5;

std::size_t on_ring(int mark) { return static_cast<std::size_t>((mark + n_hours_in_year) % n_hours_in_year); }

/// Straight lines between the days' low points, round the year's end, held at saturation. n marks, without the doubled
/// last.
std::vector<double> vapour_at_marks(const std::vector<double>& dawn_pa, const GeneratedAir& air,
                                    const std::vector<double>& saturation_pa) {
  std::vector<double> marks(n_hours_in_year);
  for (std::size_t day = 0; day < n_days_in_year; ++day) {
    const bool is_last = day + 1 == n_days_in_year;
    const std::size_t next = is_last ? 0 : day + 1;
    const int from = air.lowest_mark[day];
    const int to = air.lowest_mark[next] + (is_last ? n_hours_in_year : 0);
    for (int mark = from; mark < to; ++mark) {
      const double share = static_cast<double>(mark - from) / static_cast<double>(to - from);
      const double line_pa = dawn_pa[day] + share * (dawn_pa[next] - dawn_pa[day]);
      const std::size_t m = on_ring(mark);
      marks[m] = line_pa < saturation_pa[m] ? line_pa : saturation_pa[m];
    }
  }
  return marks;
}

/// Monthly means of the marks; divided by saturation where relative humidity is wanted.
Months means_of_months(const std::vector<double>& vapour_pa, const std::vector<double>& saturation_pa,
                       bool is_relative) {
  Months means{};
  for (std::size_t mark = 0; mark < n_hours_in_year; ++mark) {
    const std::size_t month = static_cast<std::size_t>(month_of_day[mark / n_hours_in_day]);
    const double share = 1.0 / static_cast<double>(n_days_in_month[month] * n_hours_in_day);
    means[month] += share * (is_relative ? vapour_pa[mark] / saturation_pa[mark] : vapour_pa[mark]);
  }
  return means;
}

Months dew_point_drop_k(const MonthlyNormals& normals, double driest_k) {
  Months drop_k{};
  for (std::size_t month = 0; month < n_months; ++month) {
    const double mean_c = 0.5 * (normals.max_c[month] + normals.min_c[month]);
    const double wetness = mean_c > 0.0 ? normals.rain_mm[month] / (2.0 * mean_c) : 1.0;
    drop_k[month] = wetness < 1.0 ? driest_k * (1.0 - wetness) : 0.0;
  }
  return drop_k;
}

std::vector<double> saturation_at_marks_pa(const GeneratedAir& air) {
  std::vector<double> saturation_pa(n_hours_in_year);
  for (std::size_t mark = 0; mark < n_hours_in_year; ++mark) {
    saturation_pa[mark] = physics::saturation_vapour_pressure_pa(air.temperature_c[mark]);
  }
  return saturation_pa;
}

/// What the month's mean must be, and what dawn's vapour starts from.
struct VapourGoal {
  bool is_relative = false;
  Months wanted{};
  std::vector<double> dawn_pa;
};

double mean_saturation_pa(double max_c, double min_c) {
  return 0.5 * (physics::saturation_vapour_pressure_pa(max_c) + physics::saturation_vapour_pressure_pa(min_c));
}

/// Months follow their minimum by half, as days do: a warm month is less humid, a cool one more.
void shift_goal(VapourGoal& goal, Months& dew_point_c, const MonthlyNormals& normals, const MonthShifts& shifts) {
  for (std::size_t month = 0; month < n_months; ++month) {
    const double before_pa = physics::saturation_vapour_pressure_pa(dew_point_c[month]);
    dew_point_c[month] += dew_point_follows_minimum_frac * shifts.min_k[month];
    const double after_pa = physics::saturation_vapour_pressure_pa(dew_point_c[month]);
    goal.wanted[month] *= after_pa / before_pa;
    if (!goal.is_relative) continue;
    goal.wanted[month] *=
        mean_saturation_pa(normals.max_c[month], normals.min_c[month]) /
        mean_saturation_pa(normals.max_c[month] + shifts.max_k[month], normals.min_c[month] + shifts.min_k[month]);
    if (goal.wanted[month] > 1.0) goal.wanted[month] = 1.0;
  }
}

VapourGoal goal_of_normals(const GeneratedAir& air, const MonthlyNormals& normals,
                           const std::optional<MonthShifts>& shifts) {
  VapourGoal goal;
  goal.is_relative = !normals.dew_point_c.has_value();
  goal.wanted = goal.is_relative ? *normals.relative_humidity_frac : *normals.dew_point_c;
  Months dew_point_c{};
  for (std::size_t month = 0; month < n_months; ++month) {
    if (goal.is_relative) {
      dew_point_c[month] =
          physics::dew_point_c(goal.wanted[month] * mean_saturation_pa(normals.max_c[month], normals.min_c[month]));
    } else {
      dew_point_c[month] = goal.wanted[month];
      goal.wanted[month] = physics::saturation_vapour_pressure_pa(dew_point_c[month]);
    }
  }
  if (shifts) shift_goal(goal, dew_point_c, normals, *shifts);
  const Days season_c = seasonal_curve(dew_point_c);
  for (std::size_t day = 0; day < n_days_in_year; ++day) {
    const double departure_k = dew_point_follows_minimum_frac * (air.lowest_c[day] - air.seasonal_lowest_c[day]);
    goal.dawn_pa.push_back(physics::saturation_vapour_pressure_pa(season_c[day] + departure_k));
  }
  return goal;
}

Issues issues_of_missed(const VapourGoal& goal, const Months& means) {
  constexpr double close_enough_frac = 0.002;
  Issues issues;
  for (std::size_t month = 0; month < n_months; ++month) {
    if (numerics::abs(means[month] - goal.wanted[month]) <= close_enough_frac * goal.wanted[month]) continue;
    Issue issue;
    issue.code = IssueCode::inconsistent;
    issue.path = fmt::format("{}[{}]", goal.is_relative ? "relative_humidity_frac" : "dew_point_c", month);
    issue.message =
        fmt::format("{} asks for more vapour than air of these temperatures can hold through the day", issue.path);
    issue.hint = "a mean of day and night is needed, not a morning reading";
    issues.push_back(std::move(issue));
  }
  return issues;
}

Result<GeneratedVapour> vapour_by_goal(const GeneratedAir& air, VapourGoal goal,
                                       const std::vector<double>& saturation_pa, bool must_reach) {
  constexpr int most_rounds = 200;
  constexpr double close_enough_frac = 1e-5;
  GeneratedVapour vapour;
  Months means{};
  for (int round = 0; round < most_rounds; ++round) {
    vapour.pressure_pa = vapour_at_marks(goal.dawn_pa, air, saturation_pa);
    means = means_of_months(vapour.pressure_pa, saturation_pa, goal.is_relative);
    double farthest_frac = 0.0;
    for (std::size_t month = 0; month < n_months; ++month) {
      farthest_frac = numerics::max(farthest_frac, numerics::abs(means[month] / goal.wanted[month] - 1.0));
    }
    if (farthest_frac < close_enough_frac) break;
    for (std::size_t day = 0; day < n_days_in_year; ++day) {
      const std::size_t month = static_cast<std::size_t>(month_of_day[day]);
      goal.dawn_pa[day] *= goal.wanted[month] / means[month];
    }
  }
  Issues issues = issues_of_missed(goal, means);
  if (must_reach && !issues.empty()) return Unexpected{std::move(issues)};
  return vapour;
}

}  // namespace

Result<GeneratedVapour> generate_vapour(const GeneratedAir& air, const MonthlyNormals& normals,
                                        const GenerateOptions& options, const std::optional<MonthShifts>& shifts) {
  const std::vector<double> saturation_pa = saturation_at_marks_pa(air);
  GeneratedVapour vapour;
  if (normals.dew_point_c || normals.relative_humidity_frac) {
    Result<GeneratedVapour> fitted = vapour_by_goal(air, goal_of_normals(air, normals, shifts), saturation_pa, !shifts);
    if (!fitted) return fitted;
    vapour = std::move(fitted).value();
    vapour.notes.push_back(
        fmt::format("vapour_pressure_pa: months by the {} given; days follow the minimum by half; straight from dawn "
                    "to dawn, held at saturation",
                    normals.dew_point_c ? "dew point" : "relative humidity"));
  } else {
    const Months drop_k = dew_point_drop_k(normals, options.driest_month_dew_point_drop_k);
    std::vector<double> dawn_pa;
    for (std::size_t day = 0; day < n_days_in_year; ++day) {
      const std::size_t month = static_cast<std::size_t>(month_of_day[day]);
      dawn_pa.push_back(physics::saturation_vapour_pressure_pa(air.lowest_c[day] - drop_k[month]));
    }
    vapour.pressure_pa = vapour_at_marks(dawn_pa, air, saturation_pa);
    vapour.notes.push_back(
        fmt::format("vapour_pressure_pa: estimated, no humidity given: dew point at the day's minimum, up to {} K "
                    "lower in dry months (FAO-56 Eq. 48)",
                    options.driest_month_dew_point_drop_k));
  }
  vapour.pressure_pa.push_back(vapour.pressure_pa.front());
  return vapour;
}

}  // namespace houseleek::climate
