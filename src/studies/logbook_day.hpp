// The day as of which a logbook is read: later events are left out.
#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "logbook/event.hpp"

namespace houseleek::studies {

struct LogbookDay {
  std::string on;
  std::int64_t today = 0;      // since 1970
  std::int64_t end_utc_s = 0;  // of that day at the place
};

/// `on`: a day; empty: today by now_utc_s at the place. Errors: an issue with the path "on".
[[nodiscard]] Result<LogbookDay> logbook_day(const std::string& on, const std::string& zone, std::int64_t now_utc_s);

/// Events up to a moment; what was corrected later stands as it is.
[[nodiscard]] std::vector<logbook::EventRecord> events_until(const std::vector<logbook::EventRecord>& records,
                                                             std::int64_t utc_s);

/// Every field of every event that stands, for a fingerprint.
[[nodiscard]] std::string text_of_standing(const std::vector<logbook::EventRecord>& records);

}  // namespace houseleek::studies
