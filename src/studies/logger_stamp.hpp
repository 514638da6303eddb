// Moments in a logger's file: what its clock shows, and when that was.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/zone.hpp"
#include "climate/file_rules.hpp"
#include "climate/time_stamp.hpp"

namespace houseleek::studies {

/// A date with a clock time from another field.
[[nodiscard]] climate::StampText joined_stamp(climate::StampText date, const climate::StampText& clock);

/// What the clock shows, in seconds since 1970 as if it showed UTC, and for stamps with an offset or counted seconds the
/// moment itself; nullopt where the date is not on the calendar.
[[nodiscard]] std::optional<std::int64_t> shown_second(const climate::StampText& stamp, climate::DateOrder order);

/// Turns what a clock shows into moments. An hour that is shown twice is told by the order of the rows; where a gap in
/// the rows hides the turning back, the first of both is taken.
class LoggerClock {
 public:
  LoggerClock(climate::FileClock clock, std::string zone, bool is_newest_first);
  /// nullopt for a time that clocks leapt over.
  [[nodiscard]] std::optional<std::int64_t> utc_from(std::int64_t shown_s);

 private:
  void keep_span(std::int64_t shown_s);
  [[nodiscard]] std::optional<std::int64_t> chosen_from(std::int64_t shown_s);
  climate::FileClock clock_;
  std::string zone_;
  bool is_newest_first_;
  std::vector<OffsetSpan> spans_;  // of a clock that is put forward
  // Shown times from begin to end keep one offset.
  std::int64_t begin_s_ = 0;
  std::int64_t end_s_ = 0;
  int offset_s_ = 0;
  std::optional<std::int64_t> last_utc_s_;
};

}  // namespace houseleek::studies
