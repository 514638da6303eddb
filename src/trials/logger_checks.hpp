// What looks wrong in logger columns: flagged with time, size and sentence; the readings themselves stay as they are.
#pragma once
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "logbook/reading.hpp"

namespace houseleek::trials {

enum class FlagKind { gap, out_of_range, stuck, sun_struck, drift };

struct LoggerFlag {
  FlagKind kind = FlagKind::gap;
  std::string column;
  std::int64_t from_s = 0;
  std::int64_t to_s = 0;
  double size = 0.0;  // hours of a gap or of standing still; degC out of range; K above the others; K of drift in all
  std::string sentence;
  bool operator==(const LoggerFlag&) const = default;
};

/// What is called wrong. Ours, none of them from a standard; a wrong sensor of another kind can stay unseen.
struct LoggerLimits {
  double gap_h = 2.0;
  double least_c = -40.0;
  double most_c = 90.0;                // dark roof skins reach 80
  double stuck_h = 6.0;                // one value so long ...
  double others_moved_k = 2.0;         // ... while the others moved so far; without others, twice as long
  double sun_excess_k = 4.0;           // above the middle of the others by day ...
  double sun_rise_k_per_15_min = 1.0;  // ... after rising so much faster than they
  double sun_from_h = 6.0;
  double sun_to_h = 20.0;
  double drift_k = 0.5;       // between the first and the last third of the nights
  int drift_least_days = 21;  // below, no drift can be told from weather
  double night_to_h = 5.0;    // nights are the hours from midnight to this one
};

/// Looks at columns that hang in places alike (all under modules, all in rooms): the middle of the others is what each
/// is held against. Drift and sun need three columns or more. Flags come in the order of columns and time.
/// Times out of order are a contract violation: whoever reads a file has sorted them.
[[nodiscard]] std::vector<LoggerFlag> check_loggers(std::span<const logbook::LoggerColumn> columns,
                                                    const LoggerLimits& limits = {});

}  // namespace houseleek::trials
