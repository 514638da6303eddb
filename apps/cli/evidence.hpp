// What a project's logbook says to a study: figures in place of assumptions, water, bills. A description has none.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "design/parse.hpp"
#include "logbook/event.hpp"
#include "logbook/reading.hpp"
#include "studies/own_figures.hpp"

namespace houseleek::cli {

struct Evidence {
  std::vector<logbook::EventRecord> records;  // up to the day
  std::vector<logbook::LoggerColumn> loggers;
  std::string on;          // the day
  std::int64_t today = 0;  // since 1970
  std::int64_t end_utc_s = 0;
};

/// Of a project's file; nothing for a description. `on`: a day, or empty for today at the place.
/// Errors: an issue with the path "on"; WorldFailed, store::StoreError.
[[nodiscard]] Result<std::optional<Evidence>> read_evidence(const std::string& path, const std::string& zone,
                                                            const std::string& on);

}  // namespace houseleek::cli
