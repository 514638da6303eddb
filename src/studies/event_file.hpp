// A table of events into a project's logbook: typed in elsewhere, or taken out of another project.
#pragma once
#include <cstddef>
#include <cstdint>

#include "base/result.hpp"
#include "store/records.hpp"
#include "studies/weather.hpp"

namespace houseleek::studies {

struct EventCounts {
  std::size_t n_rows = 0;
  std::size_t n_added = 0;
  std::size_t n_known_before = 0;  // an event that stands in the logbook already, word for word
  std::size_t n_no_longer = 0;     // corrected or withdrawn where they come from
};

/// Every row an event: a column `kind`, and `at` and any keys of logbook/event_fields.hpp; fields may be empty. The
/// columns that export adds (number, noted_at, supersedes, superseded_by, is_time_known, zone) may be there: a row that
/// was superseded, or that withdraws another, is left out. All rows or none; on the disk when it returns.
/// Errors: issues with line and column; after the first fifty the rest is not looked at. StoreError.
[[nodiscard]] Result<EventCounts> import_events(const store::Project& project, const NamedText& file,
                                                std::int64_t now_utc_s);

}  // namespace houseleek::studies
