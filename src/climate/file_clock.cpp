// What the clock behind a file's stamps shows, and which end of a row's interval they mark.
#include "climate/file_clock.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "climate/calendar.hpp"
#include "climate/sun_columns.hpp"
#include "climate/time_stamp.hpp"
#include "numerics/elementary.hpp"
#include "physics/constants.hpp"

namespace houseleek::climate {
namespace {

constexpr double least_lead = 0.004;       // of the best correlation over the next
constexpr double least_correlation = 0.5;  // below it no reading follows the sun
constexpr int shortest_step_that_matters_min = 16;
constexpr std::size_t fewest_sunny_rows = 200;

std::string_view word_of(FileClock clock) {
  switch (clock) {
    case FileClock::standard:
      return "standard";
    case FileClock::daylight_saving:
      return "daylight_saving";
    case FileClock::utc:
      break;
  }
  return "utc";
}

std::string_view word_of(StampMarks marks) { return marks == StampMarks::start ? "start" : "end"; }

/// Minutes of local standard time of all rows, if the clock is this one, and how many stamps then cannot be.
struct Conversion {
  std::vector<std::int64_t> minute;
  int n_conflicts = 0;
};

class ClockReader {
 public:
  ClockReader(const FileBody& body, const Place& place, std::span<const OffsetSpan> offsets)
      : body_(body), standard_min_(static_cast<int>(60.0 * place.utc_offset_h)), offsets_(offsets) {}

  [[nodiscard]] Conversion convert(FileClock clock) const {
    Conversion result;
    result.minute.resize(body_.n_rows());
    std::optional<std::int64_t> last;
    for (std::size_t row = 0; row < body_.n_rows(); ++row) {
      if (!body_.has_minute[row]) continue;
      std::int64_t minute = body_.minute[row];
      if (clock == FileClock::utc) minute += standard_min_;
      if (clock == FileClock::daylight_saving) minute = from_wall(minute, last, result.n_conflicts);
      if (last && minute <= *last) ++result.n_conflicts;
      last = minute;
      result.minute[row] = minute;
    }
    return result;
  }

  /// True if clocks of the zone leave standard time between the first and the last row.
  [[nodiscard]] bool has_daylight_saving() const {
    std::int64_t first = 0;
    std::int64_t last = 0;
    bool has_any = false;
    for (std::size_t row = 0; row < body_.n_rows(); ++row) {
      if (!body_.has_minute[row]) continue;
      const std::int64_t minute = body_.minute[row];
      first = has_any ? std::min(first, minute) : minute;
      last = has_any ? std::max(last, minute) : minute;
      has_any = true;
    }
    for (std::size_t i = 0; i < offsets_.size(); ++i) {
      const bool has_begun = offsets_[i].begin_utc_s / 60 < last;
      const bool is_over = i + 1 < offsets_.size() && offsets_[i + 1].begin_utc_s / 60 < first;
      if (has_begun && !is_over && offsets_[i].offset_s / 60 != standard_min_) return true;
    }
    return false;
  }

 private:
  /// Of a doubled hour the first that is later than the row before; a moment that clocks leap over is kept, as a
  /// conflict.
  [[nodiscard]] std::int64_t from_wall(std::int64_t wall, const std::optional<std::int64_t>& last,
                                       int& n_conflicts) const {
    constexpr std::int64_t longest_offset_min = 15 * 60;
    std::optional<std::int64_t> found;
    // Binary search: the span that has begun well before the moment, and those after it.
    auto span =
        std::upper_bound(offsets_.begin(), offsets_.end(), wall - longest_offset_min,
                         [](std::int64_t minute, const OffsetSpan& one) { return minute < one.begin_utc_s / 60; });
    if (span != offsets_.begin()) --span;
    for (; span != offsets_.end() && span->begin_utc_s / 60 <= wall + longest_offset_min; ++span) {
      const std::int64_t utc = wall - span->offset_s / 60;
      const bool has_end = span + 1 != offsets_.end();
      if (utc < span->begin_utc_s / 60 || (has_end && utc >= (span + 1)->begin_utc_s / 60)) continue;
      const std::int64_t minute = utc + standard_min_;
      if (!found || (last && *found <= *last)) found = minute;
    }
    if (found) return *found;
    ++n_conflicts;
    return wall;
  }

  const FileBody& body_;
  int standard_min_;
  std::span<const OffsetSpan> offsets_;
};

struct Reading {
  FileClock clock;
  StampMarks stamps;
  int n_conflicts = 0;
  std::vector<std::int64_t> begin_min = {};
  double correlation = 0.0;
};

std::string words_of(const Reading& reading) {
  return fmt::format("clock {}, stamps at the {}", word_of(reading.clock), word_of(reading.stamps));
}

/// What is settled before the sun is asked.
struct Settled {
  std::optional<FileClock> clock;
  std::optional<StampMarks> stamps;
  std::string clock_evidence;
  std::string stamps_evidence;
};

Settled settle(const FileBody& body, const FileColumns& columns, const FileRules& rules) {
  Settled settled;
  if (body.is_utc) {
    settled.clock = FileClock::utc;
    settled.clock_evidence = "each stamp says how far it is from UTC";
  } else if (rules.clock) {
    settled.clock = rules.clock;
    settled.clock_evidence = "fixed under [climate.layout]";
  } else if (columns.says_utc) {
    settled.clock = FileClock::utc;
    settled.clock_evidence = "the header of the time says so";
  } else if (columns.is_our_layout) {
    settled.clock = FileClock::standard;
    settled.clock_evidence = "all names are those of our own layout";
  }
  if (rules.stamps) {
    settled.stamps = rules.stamps;
    settled.stamps_evidence = "fixed under [climate.layout]";
  } else if (columns.says_marks) {
    settled.stamps = columns.says_marks;
    settled.stamps_evidence = "the header of the time says so";
  } else if (body.counts_hours_from_one) {
    settled.stamps = StampMarks::end;
    settled.stamps_evidence = "days end at hour 24 and none begins at hour 0";
  } else if (columns.is_our_layout) {
    settled.stamps = StampMarks::start;
    settled.stamps_evidence = "all names are those of our own layout";
  }
  return settled;
}

double correlation_with_sun(const FileBody& body, const Reading& reading, const WeatherYear& sun,
                            std::size_t& n_sunny) {
  const NumberColumn* global = body.find(WeatherColumn::global);
  double n = 0.0;
  double x = 0.0;
  double y = 0.0;
  double xx = 0.0;
  double yy = 0.0;
  double xy = 0.0;
  n_sunny = 0;
  for (std::size_t row = 0; row < body.n_rows(); ++row) {
    if (!body.has_minute[row] || !global->numbers[row].is_known) continue;
    const double sine = sun_sine_at(sun, reading.begin_min[row] + body.step_min / 2);
    const double radiation = global->numbers[row].value;
    n_sunny += sine > 0.0 ? 1 : 0;
    n += 1.0;
    x += radiation;
    y += sine;
    xx += radiation * radiation;
    yy += sine * sine;
    xy += radiation * sine;
  }
  const double spread = (xx - x * x / n) * (yy - y * y / n);
  return n > 1.0 && spread > 0.0 ? (xy - x * y / n) / std::sqrt(spread) : 0.0;
}

/// True if two readings put every row into the same hour; the moments of air values then still differ by an hour.
bool have_same_hours(const Reading& a, const Reading& b) { return a.begin_min == b.begin_min; }

class Chooser {
 public:
  Chooser(const FileBody& body, const Place& place, std::string_view file_name, FileReport& report)
      : body_(body), place_(place), file_name_(file_name), report_(report) {}

  Result<Reading> choose(std::vector<Reading> readings, const Settled& settled) {
    readings_ = std::move(readings);
    if (readings_.size() > 1) drop_conflicting();
    if (readings_.size() > 1 && body_.find(WeatherColumn::global) != nullptr) ask_sun();
    if (!issues_.empty()) return Unexpected{std::move(issues_)};
    if (readings_.size() > 1) {
      report_open();
      return Unexpected{std::move(issues_)};
    }
    const Reading& chosen = readings_.front();
    report_.findings.push_back(
        {"clock", std::string(word_of(chosen.clock)), settled.clock ? settled.clock_evidence : evidence_});
    report_.findings.push_back({"stamps", fmt::format("{} of the row's time", word_of(chosen.stamps)),
                                settled.stamps             ? settled.stamps_evidence
                                : stamps_evidence_.empty() ? evidence_
                                                           : stamps_evidence_});
    return std::move(readings_.front());
  }

 private:
  /// Doubled hours, hours that clocks leap over: readings with more of them than others are out.
  void drop_conflicting() {
    int least = readings_.front().n_conflicts;
    int most = least;
    for (const Reading& reading : readings_) {
      least = std::min(least, reading.n_conflicts);
      most = std::max(most, reading.n_conflicts);
    }
    if (least == most) return;
    std::erase_if(readings_, [least](const Reading& reading) { return reading.n_conflicts > least; });
    evidence_ =
        fmt::format("{} stamps are doubled, go back or cannot be; read otherwise at least {}", least, least + 1);
  }

  void ask_sun() {
    int minute_of_day = 0;
    const int year = date_from_minute(readings_.front().begin_min[first_row()], minute_of_day).year;
    if (!issues_of_place(place_, year, "time").empty()) return;  // said elsewhere
    const WeatherYear sun = make_year_with_sun(place_, year);
    std::size_t n_sunny = 0;
    for (Reading& reading : readings_) reading.correlation = correlation_with_sun(body_, reading, sun, n_sunny);
    if (n_sunny < fewest_sunny_rows) return;
    std::stable_sort(readings_.begin(), readings_.end(),
                     [](const Reading& a, const Reading& b) { return a.correlation > b.correlation; });
    if (readings_.front().correlation < least_correlation) {
      report_no_sun();
      return;
    }
    const double best = readings_.front().correlation;
    const double worst_left = best - least_lead;
    const auto next = std::find_if(readings_.begin(), readings_.end(),
                                   [&](const Reading& one) { return one.correlation < worst_left; });
    std::string others;
    for (auto one = next; one != readings_.end(); ++one) {
      others += fmt::format("{}{:.3f} ({}, {})", others.empty() ? "; read otherwise " : ", ", one->correlation,
                            word_of(one->clock), word_of(one->stamps));
    }
    readings_.erase(next, readings_.end());
    evidence_ += fmt::format("{}radiation follows the sun with correlation {:.3f}{}", evidence_.empty() ? "" : "; ",
                             best, others);
    settle_short_steps();
  }

  /// Steps of some minutes: the sun cannot tell which end the stamps mark, and little hangs on it.
  void settle_short_steps() {
    if (body_.step_min >= shortest_step_that_matters_min || readings_.size() < 2) return;
    const FileClock clock = readings_.front().clock;
    const auto has_other_clock = [clock](const Reading& one) { return one.clock != clock; };
    if (std::any_of(readings_.begin(), readings_.end(), has_other_clock)) return;
    std::erase_if(readings_, [](const Reading& one) { return one.stamps == StampMarks::end; });
    stamps_evidence_ = fmt::format("taken so: not told apart with steps of {} min", body_.step_min);
    Issue warning = issue_of_layout("stamps");
    warning.severity = Severity::warning;
    warning.message = fmt::format(
        "whether rows of {} minutes begin or end at their stamp is not told apart; they are taken to begin there",
        body_.step_min);
    warning.hint = "write stamps = \"start\" or stamps = \"end\" under [climate.layout]";
    report_.warnings.push_back(std::move(warning));
  }

  void report_no_sun() {
    Issue issue = issue_of_layout("clock");
    issue.message = fmt::format(
        "radiation does not follow the sun of this place, however the stamps are read (correlation at most {:.2f})",
        readings_.front().correlation);
    issue.hint = "are latitude, longitude and time zone right, and is it the column of global radiation?";
    issues_.push_back(std::move(issue));
  }

  void report_open() {
    const bool is_clock_open = std::any_of(readings_.begin(), readings_.end(),
                                           [this](const Reading& one) { return one.clock != readings_.front().clock; });
    const bool is_stamps_open = std::any_of(readings_.begin(), readings_.end(), [this](const Reading& one) {
      return one.stamps != readings_.front().stamps;
    });
    Issue issue = issue_of_layout(is_clock_open ? "clock" : "stamps");
    std::string list;
    for (const Reading& one : readings_) list += (list.empty() ? "" : "; or ") + words_of(one);
    const bool is_same = std::all_of(readings_.begin(), readings_.end(),
                                     [this](const Reading& one) { return have_same_hours(one, readings_.front()); });
    issue.message =
        fmt::format("the stamps can be read in {} ways: {}{}", readings_.size(), list,
                    is_same ? " (the hours of rain and sun are the same, the moments of temperature are not)" : "");
    issue.hint = "write ";
    if (is_clock_open) issue.hint += fmt::format("clock = \"{}\"", word_of(readings_.front().clock));
    if (is_clock_open && is_stamps_open) issue.hint += " and ";
    if (is_stamps_open) issue.hint += fmt::format("stamps = \"{}\"", word_of(readings_.front().stamps));
    issue.hint += ", or the other, under [climate.layout]";
    issues_.push_back(std::move(issue));
  }

  [[nodiscard]] std::size_t first_row() const {
    std::size_t row = 0;
    while (!body_.has_minute[row]) ++row;
    return row;
  }

  [[nodiscard]] Issue issue_of_layout(std::string_view key) const {
    const std::size_t row = first_row();
    Issue issue;
    issue.code = IssueCode::inconsistent;
    issue.path = fmt::format("climate.layout.{}", key);
    issue.file = file_name_;
    issue.line = body_.line[row];
    issue.column = body_.column_of_time[row];
    return issue;
  }

  const FileBody& body_;
  const Place& place_;
  std::string_view file_name_;
  FileReport& report_;
  std::vector<Reading> readings_;
  std::string evidence_;
  std::string stamps_evidence_;
  Issues issues_;
};

}  // namespace

double sun_sine_at(const WeatherYear& sun, std::int64_t minute) {
  constexpr double hour_turn_rad = 15.0 * physics::radians_per_degree;
  int minute_of_day = 0;
  const CivilDate date = date_from_minute(minute, minute_of_day);
  if (is_leap_day(date)) return 0.0;
  const std::size_t hour = static_cast<std::size_t>(day_of_year(date) * n_hours_in_day + minute_of_day / 60);
  const double fraction = static_cast<double>(minute_of_day % 60) / 60.0;
  const double sine =
      sun.sun_a[hour] + sun.sun_b[hour] * numerics::cos(sun.sun_hour_angle_rad[hour] + fraction * hour_turn_rad);
  return sine > 0.0 ? sine : 0.0;
}

Result<RowTimes> find_clock(const FileBody& body, const FileColumns& columns, const Place& place,
                            std::span<const OffsetSpan> offsets, std::string_view file_name, const FileRules& rules,
                            FileReport& report) {
  const ClockReader reader(body, place, offsets);
  const Settled settled = settle(body, columns, rules);
  std::vector<Reading> readings;
  for (const FileClock clock : {FileClock::standard, FileClock::daylight_saving, FileClock::utc}) {
    if (settled.clock && clock != *settled.clock) continue;
    const bool is_open = !settled.clock;
    if (is_open && clock == FileClock::daylight_saving && !reader.has_daylight_saving()) continue;
    if (is_open && clock == FileClock::utc && place.utc_offset_h == 0.0) continue;  // the same as standard time
    const Conversion conversion = reader.convert(clock);
    for (const StampMarks stamps : {StampMarks::start, StampMarks::end}) {
      if (settled.stamps && stamps != *settled.stamps) continue;
      Reading reading = {.clock = clock, .stamps = stamps, .n_conflicts = conversion.n_conflicts};
      reading.begin_min = conversion.minute;
      if (stamps == StampMarks::end) {
        for (std::int64_t& minute : reading.begin_min) minute -= body.step_min;
      }
      readings.push_back(std::move(reading));
    }
  }
  Result<Reading> chosen = Chooser(body, place, file_name, report).choose(std::move(readings), settled);
  if (!chosen) return Unexpected{chosen.error()};
  Reading reading = std::move(chosen).value();
  RowTimes times;
  times.begin_min = std::move(reading.begin_min);
  times.is_known = body.has_minute;
  times.stamps = reading.stamps;
  times.clock = reading.clock;
  return times;
}

}  // namespace houseleek::climate
