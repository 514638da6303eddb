// Storms of the logbook, and what was found failed soon after each.
#pragma once
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "logbook/event.hpp"
#include "upkeep/part_lives.hpp"

namespace houseleek::upkeep {

/// What is found within so many days after a storm stands beside it.
inline constexpr int days_after_storm = 14;

struct FailedParts {
  std::string part;
  std::string material;
  double n_parts = 0.0;
};

struct Storm {
  std::int64_t number = 0;  // of the event
  std::int64_t at_utc_s = 0;
  std::string day;
  std::optional<double> gust_km_per_h;
  std::optional<double> rain_mm;
  std::optional<double> hail_mm;
  std::string note;
  std::vector<FailedParts> failed;  // found within days_after_storm
};

struct StormsAnswer {
  std::vector<Storm> storms;  // oldest first
  double n_failures = 0.0;    // of all parts, ever
  double n_after_storms = 0.0;
  double days_after_storms_frac = 0.0;  // of the days from the first event to now
  std::string statement;
  std::optional<std::string> latest_within_days;  // the day of a storm that is no older than days_after_storm
};

/// Shown beside the lives, never taken off them: what is found after a storm need not have failed in it, for people look
/// after storms.
[[nodiscard]] StormsAnswer find_storms(std::span<const logbook::EventRecord> records, const PartRecords& parts,
                                       std::int64_t now_utc_s);

}  // namespace houseleek::upkeep
