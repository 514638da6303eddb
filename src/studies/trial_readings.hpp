// What a project holds of a trial: readings by hand and by loggers, what looks wrong, what is missing, a number a day.
#pragma once
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "design/design.hpp"
#include "logbook/event.hpp"
#include "logbook/reading.hpp"
#include "report/trial_answer.hpp"
#include "trials/judge.hpp"
#include "trials/logger_checks.hpp"

namespace houseleek::studies {

/// Flags of all loggers of a project. Those that a trial hangs in places alike (one side, one kind of probe) are held
/// against each other; every other one stands alone, and then neither sun nor drift can be seen.
[[nodiscard]] std::vector<trials::LoggerFlag> flags_of_loggers(std::span<const logbook::LoggerColumn> columns,
                                                               const std::vector<design::Trial>& all_trials);

/// All that was read in a project; days and hours in the place's standard time.
struct ProjectReadings {
  std::vector<logbook::EventRecord> events;
  std::vector<logbook::HandReading> by_hand;
  std::vector<logbook::LoggerColumn> columns;
};

/// What of it belongs to one trial, within its days.
struct TrialReadings {
  std::vector<std::vector<logbook::HandReading>> by_hand;     // by place of the trial
  std::vector<std::optional<logbook::LoggerColumn>> columns;  // by place of the trial
  std::optional<logbook::LoggerColumn> outdoor;
  std::vector<trials::LoggerFlag> flags;  // of these columns, within the trial's days
  std::vector<std::string> notes;         // a logger that the trial names and nobody imported
  std::optional<std::int64_t> first_day;  // of the trial, or of what was read; none: nothing was read
  std::optional<std::int64_t> last_day;
};
[[nodiscard]] TrialReadings readings_of_trial(const ProjectReadings& all, const std::vector<design::Trial>& all_trials,
                                              const design::Trial& trial);

/// What the trial's measure wants and has not, day by day; days after `today` are not wanted yet.
[[nodiscard]] report::TrialReadAnswer status_of(const TrialReadings& readings, const design::Trial& trial,
                                                std::int64_t today);

/// The number of every day of every place that has a side. Empty series where a place has nothing.
struct MeasuredDays {
  std::vector<report::TrialSeries> series;
  std::vector<trials::ModuleDays> modules;  // those with a day
  std::string note;
};
[[nodiscard]] MeasuredDays days_of(const TrialReadings& readings, const design::Trial& trial, trials::Measure measure);

/// The side that the others are held against, if it is among these; else none: each against each.
[[nodiscard]] std::string reference_of(const design::Trial& trial, std::span<const std::string> sides);

/// Grades, counts and litres from the events of the trial's places, one answer for each thing that was noted.
[[nodiscard]] std::vector<report::ScoreAnswer> scores_of(const ProjectReadings& all, const design::Trial& trial,
                                                         std::vector<std::string>& notes);

}  // namespace houseleek::studies
