// What looks wrong in logger columns: gaps, values out of range, standing still, sun, drift.
#include "trials/logger_checks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "base/contract.hpp"

namespace houseleek::trials {

namespace {

using logbook::LoggerColumn;
using logbook::n_seconds_in_day;

constexpr std::int64_t grid_s = 900;
constexpr double missing = std::numeric_limits<double>::quiet_NaN();

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : 0.5 * (values[half - 1] + values[half]);
}

std::int64_t day_of(std::int64_t time_s) {
  const std::int64_t day = time_s / n_seconds_in_day;
  return time_s % n_seconds_in_day < 0 ? day - 1 : day;
}

double hour_of(std::int64_t time_s) { return static_cast<double>(time_s - day_of(time_s) * n_seconds_in_day) / 3600.0; }

double hours_between(std::int64_t from_s, std::int64_t to_s) { return static_cast<double>(to_s - from_s) / 3600.0; }

/// All columns on the same quarter hours, by straight lines over gaps that are not too long.
struct Grid {
  std::int64_t start_s = 0;
  std::vector<std::vector<double>> values_c;  // by column, then time; not a number where missing

  [[nodiscard]] std::size_t n_times() const { return values_c.empty() ? 0 : values_c.front().size(); }
  [[nodiscard]] std::int64_t time_s(std::size_t i) const { return start_s + static_cast<std::int64_t>(i) * grid_s; }

  /// The middle of the other columns; nothing where fewer than two have a value.
  [[nodiscard]] std::optional<double> middle_of_others(std::size_t column, std::size_t time) const {
    std::vector<double> others;
    for (std::size_t other = 0; other < values_c.size(); ++other) {
      if (other != column && !std::isnan(values_c[other][time])) others.push_back(values_c[other][time]);
    }
    if (others.size() < 2) return std::nullopt;
    return median(std::move(others));
  }
};

Grid make_grid(std::span<const LoggerColumn> columns, const LoggerLimits& limits) {
  std::int64_t first_s = std::numeric_limits<std::int64_t>::max();
  std::int64_t last_s = std::numeric_limits<std::int64_t>::min();
  for (const LoggerColumn& column : columns) {
    if (column.time_s.empty()) continue;
    first_s = std::min(first_s, column.time_s.front());
    last_s = std::max(last_s, column.time_s.back());
  }
  Grid grid;
  if (first_s > last_s) return grid;
  grid.start_s = first_s;
  const auto n = static_cast<std::size_t>((last_s - first_s) / grid_s + 1);
  for (const LoggerColumn& column : columns) {
    std::vector<double> values(n, missing);
    std::size_t next = 0;
    for (std::size_t i = 0; i < n; ++i) {
      const std::int64_t time_s = grid.time_s(i);
      while (next < column.time_s.size() && column.time_s[next] < time_s) ++next;
      if (next == column.time_s.size()) break;
      if (column.time_s[next] == time_s) {
        values[i] = column.value_c[next];
      } else if (next > 0 && hours_between(column.time_s[next - 1], column.time_s[next]) <= limits.gap_h) {
        const double part = static_cast<double>(time_s - column.time_s[next - 1]) /
                            static_cast<double>(column.time_s[next] - column.time_s[next - 1]);
        values[i] = column.value_c[next - 1] + part * (column.value_c[next] - column.value_c[next - 1]);
      }
    }
    grid.values_c.push_back(std::move(values));
  }
  return grid;
}

/// Largest less smallest of the middles of the others between two times.
std::optional<double> movement_of_others(const Grid& grid, std::size_t column, std::int64_t from_s, std::int64_t to_s) {
  double least = std::numeric_limits<double>::infinity();
  double most = -least;
  for (std::size_t i = 0; i < grid.n_times(); ++i) {
    if (grid.time_s(i) < from_s || grid.time_s(i) > to_s) continue;
    if (const std::optional<double> middle = grid.middle_of_others(column, i)) {
      least = std::min(least, *middle);
      most = std::max(most, *middle);
    }
  }
  if (least > most) return std::nullopt;
  return most - least;
}

void find_gaps_and_range(const LoggerColumn& column, const LoggerLimits& limits, std::vector<LoggerFlag>& flags) {
  for (std::size_t i = 0; i < column.time_s.size(); ++i) {
    const std::int64_t time_s = column.time_s[i];
    if (i > 0) {
      expects(time_s >= column.time_s[i - 1], "a column in order of time");
      const double hours = hours_between(column.time_s[i - 1], time_s);
      if (hours > limits.gap_h) {
        flags.push_back({FlagKind::gap, column.name, column.time_s[i - 1], time_s, hours,
                         fmt::format("{}: nothing recorded for {:.1f} hours.", column.name, hours)});
      }
    }
    const double value = column.value_c[i];
    if (!(value >= limits.least_c && value <= limits.most_c)) {
      flags.push_back({FlagKind::out_of_range, column.name, time_s, time_s, value,
                       fmt::format("{}: {:.1f} degC is outside {:.0f} to {:.0f} degC.", column.name, value,
                                   limits.least_c, limits.most_c)});
    }
  }
}

void find_stuck(const LoggerColumn& column, const Grid& grid, std::size_t which, const LoggerLimits& limits,
                std::vector<LoggerFlag>& flags) {
  for (std::size_t first = 0; first < column.time_s.size();) {
    std::size_t last = first;
    while (last + 1 < column.time_s.size() && column.value_c[last + 1] == column.value_c[first]) ++last;
    const double hours = hours_between(column.time_s[first], column.time_s[last]);
    if (hours >= limits.stuck_h) {
      const auto moved = movement_of_others(grid, which, column.time_s[first], column.time_s[last]);
      if (moved ? *moved >= limits.others_moved_k : hours >= 2.0 * limits.stuck_h) {
        flags.push_back({FlagKind::stuck, column.name, column.time_s[first], column.time_s[last], hours,
                         fmt::format("{}: stood at {:.2f} degC for {:.1f} hours{}.", column.name, column.value_c[first],
                                     hours, moved ? fmt::format(" while the others moved by {:.1f} K", *moved) : "")});
      }
    }
    first = last + 1;
  }
}

void find_sun(const LoggerColumn& column, const Grid& grid, std::size_t which, const LoggerLimits& limits,
              std::vector<LoggerFlag>& flags) {
  const auto excess = [&](std::size_t i) -> double {
    const std::optional<double> middle = grid.middle_of_others(which, i);
    return middle ? grid.values_c[which][i] - *middle : missing;
  };
  for (std::size_t i = 1; i < grid.n_times(); ++i) {
    const double hour = hour_of(grid.time_s(i));
    if (hour < limits.sun_from_h || hour > limits.sun_to_h) continue;
    // Struck: far above the others, and got there fast within the hour before.
    if (!(excess(i) >= limits.sun_excess_k)) continue;
    double fastest = 0.0;
    for (std::size_t back = 0; back < 4 && i > back; ++back) {
      const double rise = excess(i - back) - excess(i - back - 1);
      if (!std::isnan(rise)) fastest = std::max(fastest, rise);
    }
    if (fastest < limits.sun_rise_k_per_15_min) continue;
    double highest = excess(i);
    std::size_t last = i;
    while (last + 1 < grid.n_times() && excess(last + 1) >= 0.5 * limits.sun_excess_k) {
      ++last;
      highest = std::max(highest, excess(last));
    }
    flags.push_back({FlagKind::sun_struck, column.name, grid.time_s(i), grid.time_s(last), highest,
                     fmt::format("{}: up to {:.1f} K above the others by day after a sudden rise; the sun may have "
                                 "struck it.",
                                 column.name, highest)});
    i = last + 1;
  }
}

void find_drift(const LoggerColumn& column, const Grid& grid, std::size_t which, const LoggerLimits& limits,
                std::vector<LoggerFlag>& flags) {
  std::vector<double> nights;
  std::vector<double> own;
  std::int64_t day = std::numeric_limits<std::int64_t>::min();
  std::int64_t first_s = 0;
  std::int64_t last_s = 0;
  const auto close_night = [&] {
    if (!own.empty()) nights.push_back(median(std::move(own)));
    own.clear();
  };
  for (std::size_t i = 0; i < grid.n_times(); ++i) {
    const std::int64_t time_s = grid.time_s(i);
    if (day_of(time_s) != day) {
      close_night();
      day = day_of(time_s);
    }
    if (hour_of(time_s) > limits.night_to_h || std::isnan(grid.values_c[which][i])) continue;
    if (const std::optional<double> middle = grid.middle_of_others(which, i)) {
      if (nights.empty() && own.empty()) first_s = time_s;
      last_s = time_s;
      own.push_back(grid.values_c[which][i] - *middle);
    }
  }
  close_night();
  if (nights.size() < static_cast<std::size_t>(limits.drift_least_days)) return;
  const auto third = static_cast<std::ptrdiff_t>(nights.size() / 3);
  const double before = median({nights.begin(), nights.begin() + third});
  const double between = median({nights.begin() + third, nights.end() - third});
  const double after = median({nights.end() - third, nights.end()});
  const double drift = after - before;
  // One way throughout: a jump or a cold spell in the middle third alone is no drift.
  const bool is_one_way = (between - before) * drift >= 0.0 && (after - between) * drift >= 0.0;
  if (std::fabs(drift) < limits.drift_k || !is_one_way) return;
  flags.push_back(
      {FlagKind::drift, column.name, first_s, last_s, drift,
       fmt::format("{}: moved by {:+.1f} K against the others, night by night over {} nights; hang it beside "
                   "another for a night.",
                   column.name, drift, nights.size())});
}

}  // namespace

std::vector<LoggerFlag> check_loggers(std::span<const LoggerColumn> columns, const LoggerLimits& limits) {
  std::vector<LoggerFlag> flags;
  const Grid grid = make_grid(columns, limits);
  for (std::size_t which = 0; which < columns.size(); ++which) {
    const LoggerColumn& column = columns[which];
    expects(column.time_s.size() == column.value_c.size(), "a value for each time");
    std::vector<LoggerFlag> own;
    find_gaps_and_range(column, limits, own);
    if (!column.time_s.empty()) {
      find_stuck(column, grid, which, limits, own);
      find_sun(column, grid, which, limits, own);
      find_drift(column, grid, which, limits, own);
    }
    std::stable_sort(own.begin(), own.end(),
                     [](const LoggerFlag& a, const LoggerFlag& b) { return a.from_s < b.from_s; });
    flags.insert(flags.end(), own.begin(), own.end());
  }
  return flags;
}

}  // namespace houseleek::trials
