// What a thermometer said, typed in by hand or taken from a logger: plain values, nothing judged.
#pragma once
#include <cstdint>
#include <string>
#include <vector>

namespace houseleek::logbook {

inline constexpr std::int64_t n_seconds_in_day = 86400;

/// One look at a thermometer. Days count from 1970-01-01, hours run in the place's standard time.
struct HandReading {
  std::string place;  // the module, square or room
  int day = 0;
  double hour = 0.0;  // 0 to 24
  double value_c = 0.0;
  bool operator==(const HandReading&) const = default;
};

/// One logger's column, in order of time. Seconds since 1970-01-01 00:00 of the place's standard time.
struct LoggerColumn {
  std::string name;
  std::vector<std::int64_t> time_s;
  std::vector<double> value_c;
  bool operator==(const LoggerColumn&) const = default;
};

}  // namespace houseleek::logbook
