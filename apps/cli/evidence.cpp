// What a project's logbook says to a study: figures in place of assumptions, water, bills. A description has none.
#include "evidence.hpp"

#include "base/civil_time.hpp"
#include "files.hpp"
#include "project_file.hpp"
#include "store/records.hpp"
#include "studies/logbook_day.hpp"
#include "studies/logger_columns.hpp"

namespace houseleek::cli {

Result<std::optional<Evidence>> read_evidence(const std::string& path, const std::string& zone, const std::string& on) {
  constexpr std::size_t enough_bytes = 16;
  if (!is_project(read_file(path, enough_bytes))) return std::optional<Evidence>();
  const Result<studies::LogbookDay> day = studies::logbook_day(on, zone, now_utc_s());
  if (!day) return Unexpected{day.error()};
  const store::Project project = open_project_file(path, store::Access::read);
  Evidence evidence;
  evidence.on = day.value().on;
  evidence.today = day.value().today;
  evidence.end_utc_s = day.value().end_utc_s;
  evidence.records = studies::events_until(store::read_events(project), evidence.end_utc_s);
  evidence.loggers = studies::logger_columns_of(project, zone);
  return std::optional(std::move(evidence));
}

}  // namespace houseleek::cli
