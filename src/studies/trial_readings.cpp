// What a project holds of a trial: readings by hand and by loggers, what looks wrong, what is missing, a number a day.
#include "studies/trial_readings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "base/civil_time.hpp"
#include "base/contract.hpp"

namespace houseleek::studies {
namespace {

using logbook::HandReading;
using logbook::LoggerColumn;
using logbook::n_seconds_in_day;

std::int64_t day_of(std::int64_t at_s) {
  const std::int64_t second = ((at_s % n_seconds_in_day) + n_seconds_in_day) % n_seconds_in_day;
  return (at_s - second) / n_seconds_in_day;
}

/// The part of a column between two days, both inclusive.
LoggerColumn between(const LoggerColumn& column, std::optional<std::int64_t> first_day,
                     std::optional<std::int64_t> last_day) {
  auto begin = column.time_s.begin();
  auto end = column.time_s.end();
  if (first_day) begin = std::lower_bound(begin, end, *first_day * n_seconds_in_day);
  if (last_day) end = std::lower_bound(begin, end, (*last_day + 1) * n_seconds_in_day);
  LoggerColumn part{column.name, {begin, end}, {}};
  const auto first = column.value_c.begin() + (begin - column.time_s.begin());
  part.value_c.assign(first, first + (end - begin));
  return part;
}

const LoggerColumn* find_column(const std::vector<LoggerColumn>& columns, const std::string& name) {
  const auto found =
      std::find_if(columns.begin(), columns.end(), [&name](const LoggerColumn& one) { return one.name == name; });
  return found == columns.end() ? nullptr : &*found;
}

bool is_within(const design::Trial& trial, std::int64_t day) {
  return (!trial.first_day || day >= *trial.first_day) && (!trial.last_day || day <= *trial.last_day);
}

void widen(TrialReadings& readings, std::int64_t day) {
  readings.first_day = std::min(readings.first_day.value_or(day), day);
  readings.last_day = std::max(readings.last_day.value_or(day), day);
}

bool wants_morning(design::TrialMeasure measure) { return measure != design::TrialMeasure::maximum; }
bool wants_afternoon(design::TrialMeasure measure) { return measure != design::TrialMeasure::minimum; }

}  // namespace

std::vector<trials::LoggerFlag> flags_of_loggers(std::span<const LoggerColumn> columns,
                                                 const std::vector<design::Trial>& all_trials) {
  // A logger that several trials name counts with the first of them.
  std::map<std::string, std::string> group_of;
  for (std::size_t t = 0; t < all_trials.size(); ++t) {
    for (const design::TrialPlace& place : all_trials[t].places) {
      group_of.try_emplace(place.logger,
                           fmt::format("{}/{}/{}", t, place.side.value_or(-1), static_cast<int>(place.probe)));
    }
  }
  std::map<std::string, std::vector<LoggerColumn>> groups;
  for (const LoggerColumn& column : columns) {
    if (column.time_s.empty()) continue;
    const auto found = group_of.find(column.name);
    groups[found == group_of.end() ? "alone/" + column.name : found->second].push_back(column);
  }
  std::vector<trials::LoggerFlag> flags;
  for (const auto& [name, group] : groups) {
    const std::vector<trials::LoggerFlag> found = trials::check_loggers(group);
    flags.insert(flags.end(), found.begin(), found.end());
  }
  return flags;
}

TrialReadings readings_of_trial(const ProjectReadings& all, const std::vector<design::Trial>& all_trials,
                                const design::Trial& trial) {
  TrialReadings readings;
  std::vector<LoggerColumn> used;
  for (const design::TrialPlace& place : trial.places) {
    std::vector<HandReading> by_hand;
    for (const HandReading& reading : all.by_hand) {
      if (reading.place != place.name || !is_within(trial, reading.day)) continue;
      by_hand.push_back(reading);
      widen(readings, reading.day);
    }
    readings.by_hand.push_back(std::move(by_hand));
    std::optional<LoggerColumn> column;
    if (trial.readings == design::TrialReadings::loggers) {
      if (const LoggerColumn* found = find_column(all.columns, place.logger)) {
        column = between(*found, trial.first_day, trial.last_day);
        used.push_back(*column);
        if (!column->time_s.empty()) {
          widen(readings, day_of(column->time_s.front()));
          widen(readings, day_of(column->time_s.back()));
        }
      } else {
        readings.notes.push_back(
            fmt::format("{} has no readings: no sensor is called \"{}\".", place.name, place.logger));
      }
    }
    readings.columns.push_back(std::move(column));
  }
  if (!trial.outdoor_logger.empty()) {
    if (const LoggerColumn* found = find_column(all.columns, trial.outdoor_logger)) {
      readings.outdoor = between(*found, trial.first_day, trial.last_day);
      used.push_back(*readings.outdoor);
    } else {
      readings.notes.push_back(
          fmt::format("The outside air has no readings: no sensor is called \"{}\".", trial.outdoor_logger));
    }
  }
  readings.flags = flags_of_loggers(used, all_trials);
  if (trial.first_day && readings.first_day) readings.first_day = trial.first_day;
  return readings;
}

report::TrialReadAnswer status_of(const TrialReadings& readings, const design::Trial& trial, std::int64_t today) {
  report::TrialReadAnswer answer;
  answer.is_by_hand = trial.readings == design::TrialReadings::by_hand;
  answer.n_places = trial.places.size();
  answer.flags = readings.flags;
  answer.notes = readings.notes;
  answer.first_day = trial.first_day ? trial.first_day : readings.first_day;
  if (!answer.first_day) return answer;
  answer.last_day = std::min(today, trial.last_day.value_or(readings.last_day.value_or(today)));
  const bool has_litres = trial.measure == design::TrialMeasure::litres;
  std::set<std::int64_t> days_missing;
  for (std::size_t i = 0; i < trial.places.size(); ++i) {
    std::set<std::int64_t> mornings;
    std::set<std::int64_t> afternoons;
    std::set<std::int64_t> whole_days;
    for (const HandReading& reading : readings.by_hand[i]) {
      (reading.hour < 12.0 ? mornings : afternoons).insert(reading.day);
    }
    if (readings.columns[i] && !readings.columns[i]->time_s.empty()) {
      const trials::LoggerDays source{*readings.columns[i], nullptr, readings.flags};
      for (const trials::DayValue& value : trials::days_from_logger(source, trials::Measure::maximum).days) {
        whole_days.insert(value.day);
      }
    }
    for (std::int64_t day = *answer.first_day; day <= answer.last_day && !has_litres; ++day) {
      const auto miss = [&](const char* what) {
        answer.missing.push_back({day, trial.places[i].name, what});
        days_missing.insert(day);
      };
      if (!answer.is_by_hand) {
        if (!whole_days.contains(day)) miss("whole day of the logger");
        continue;
      }
      if (wants_morning(trial.measure) && !mornings.contains(day)) miss("before noon");
      if (wants_afternoon(trial.measure) && !afternoons.contains(day)) miss("after noon");
    }
  }
  std::stable_sort(answer.missing.begin(), answer.missing.end(),
                   [](const report::MissingReading& a, const report::MissingReading& b) { return a.day < b.day; });
  const std::int64_t n_days = std::max<std::int64_t>(0, answer.last_day - *answer.first_day + 1);
  answer.n_days_whole = static_cast<std::size_t>(n_days) - days_missing.size();
  return answer;
}

MeasuredDays days_of(const TrialReadings& readings, const design::Trial& trial, trials::Measure measure) {
  MeasuredDays measured;
  trials::DayOptions options;
  options.base_c = trial.base_c;
  for (std::size_t i = 0; i < trial.places.size(); ++i) {
    const design::TrialPlace& place = trial.places[i];
    if (!place.side) continue;
    trials::DaySeries series;
    if (trial.readings == design::TrialReadings::by_hand) {
      series = trials::days_from_hand(readings.by_hand[i], measure, options);
    } else if (readings.columns[i]) {
      const LoggerColumn* reference = readings.outdoor ? &*readings.outdoor : nullptr;
      series = trials::days_from_logger({*readings.columns[i], reference, readings.flags}, measure, options);
    }
    const std::string& side = trial.sides[static_cast<std::size_t>(*place.side)].name;
    if (!series.days.empty()) {
      measured.modules.push_back({place.name, side, place.block, place.second_block, series.days});
      if (!series.note.empty()) measured.note = series.note;
    }
    measured.series.push_back({place.name, side, place.block, std::move(series.days), std::move(series.left_out)});
  }
  // Sides in the order in which they are written: the first is what the others are spoken of against.
  const auto rank = [&trial](const std::string& side) {
    return std::find_if(trial.sides.begin(), trial.sides.end(),
                        [&side](const design::TrialSide& one) { return one.name == side; });
  };
  const auto is_before = [&rank](const auto& a, const auto& b) { return rank(a.side) < rank(b.side); };
  std::stable_sort(measured.modules.begin(), measured.modules.end(), is_before);
  std::stable_sort(measured.series.begin(), measured.series.end(), is_before);
  return measured;
}

std::string reference_of(const design::Trial& trial, std::span<const std::string> sides) {
  if (!trial.against) return {};
  const std::string& name = trial.sides[static_cast<std::size_t>(*trial.against)].name;
  return std::find(sides.begin(), sides.end(), name) == sides.end() ? std::string() : name;
}

}  // namespace houseleek::studies
