// `houseleek log`: an event into the logbook of a project, and the events that are in it.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/result.hpp"
#include "logbook/read_event.hpp"
#include "store/records.hpp"

namespace houseleek::studies {

struct LogRequest {
  logbook::EventWords words;
  std::optional<std::int64_t> corrects;  // the number of the event whose place this one takes
  std::int64_t now_utc_s = 0;
};

/// Notes an event; on the disk when it returns. The zone and the names of recipes, rooms and containers are those of the
/// newest design; a name of an earlier one is good too. A correction of the same kind keeps what is not said anew, one of
/// another kind keeps the time.
/// Errors: issues whose path is the field (see logbook/read_event.hpp), and then nothing is written; StoreError.
[[nodiscard]] Result<logbook::EventRecord> log_event(const store::Project& project, const LogRequest& request);

struct LogFilter {
  std::string kind;                                         // empty: all
  std::string since;                                        // a day or a moment; empty: from the first
  std::vector<std::pair<std::string, std::string>> fields;  // texts that must be equal: module, A1
  bool has_superseded = false;                              // events that were corrected or withdrawn as well
};

/// Events in the order of their time. Errors: issues of the filter; StoreError.
[[nodiscard]] Result<std::vector<logbook::EventRecord>> list_events(const store::Project& project,
                                                                    const LogFilter& filter);

/// The time zone of a project's newest design. Errors: StoreError.
[[nodiscard]] std::string zone_of_project(const store::Project& project);

}  // namespace houseleek::studies
