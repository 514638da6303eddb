// The readings of a project as trials take them.
#include "studies/logger_columns.hpp"

#include <optional>

#include "base/civil_time.hpp"
#include "base/contract.hpp"
#include "base/zone.hpp"

namespace houseleek::studies {
namespace {

/// Offsets of a place's standard time by calendar year, looked up once each.
class StandardTime {
 public:
  explicit StandardTime(const std::string& zone) : zone_(zone) {}

  std::int64_t from_utc(std::int64_t utc_s) {
    if (utc_s < begin_utc_s_ || utc_s >= end_utc_s_) keep_year_of(utc_s);
    return utc_s + offset_s_;
  }

 private:
  void keep_year_of(std::int64_t utc_s) {
    const int year = std::stoi(text_from_utc(utc_s).substr(0, 4));
    const std::optional<ZoneInfo> info = find_zone(zone_, year);
    expects(info.has_value(), "a time zone that is known");
    offset_s_ = info->standard_offset_s;
    begin_utc_s_ = *day_from_text(std::to_string(year) + "-01-01") * n_seconds_in_civil_day;
    end_utc_s_ = *day_from_text(std::to_string(year) + "-12-31") * n_seconds_in_civil_day + n_seconds_in_civil_day;
  }

  const std::string& zone_;
  std::int64_t begin_utc_s_ = 0;
  std::int64_t end_utc_s_ = 0;
  int offset_s_ = 0;
};

}  // namespace

std::vector<logbook::LoggerColumn> logger_columns_of(const store::Project& project, const std::string& zone) {
  std::vector<logbook::LoggerColumn> columns;
  StandardTime time(zone);
  (void)store::read_readings(project, [&](const store::ReadingRow& row) {
    if (row.quantity != "temperature_c") return;
    if (columns.empty() || columns.back().name != row.sensor) columns.push_back({std::string(row.sensor), {}, {}});
    columns.back().time_s.push_back(time.from_utc(row.at_utc_s));
    columns.back().value_c.push_back(row.value);
  });
  return columns;
}

}  // namespace houseleek::studies
