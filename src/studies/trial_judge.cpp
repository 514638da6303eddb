// `houseleek trial judge`: the verdict of a trial from what a project holds of it.
#include "studies/trial_judge.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/civil_time.hpp"
#include "base/contract.hpp"
#include "design/parse.hpp"
#include "logbook/hand_readings.hpp"
#include "store/records.hpp"
#include "studies/logger_columns.hpp"
#include "studies/trial_wish.hpp"

namespace houseleek::studies {
namespace {

using trials::Measure;

std::vector<Measure> measures_of(const design::Trial& trial, const TrialReadings& readings) {
  const Measure main = measure_from(trial.measure);
  std::vector<Measure> measures;
  if (main != Measure::litres) measures.push_back(main);
  const bool has_loggers = trial.readings == design::TrialReadings::loggers;
  for (const Measure one : {Measure::maximum, Measure::minimum, Measure::swing, Measure::degree_hours, Measure::lag}) {
    if (one == main || (one == Measure::lag && !has_loggers)) continue;
    // Hand readings make degree-hours only by a model: shown where somebody asked for them.
    if (one == Measure::degree_hours && !has_loggers) continue;
    measures.push_back(one);
  }
  if (!readings.outdoor) std::erase(measures, Measure::lag);
  return measures;
}

std::vector<std::string> sides_with_days(const MeasuredDays& measured) {
  std::vector<std::string> sides;
  for (const trials::ModuleDays& module : measured.modules) {
    if (std::find(sides.begin(), sides.end(), module.side) == sides.end()) sides.push_back(module.side);
  }
  return sides;
}

void add_measure(const TrialReadings& readings, const design::Trial& trial, Measure measure,
                 report::TrialJudgeAnswer& answer) {
  report::MeasureAnswer judged;
  judged.measure = measure;
  judged.is_main = measure == measure_from(trial.measure);
  const MeasuredDays measured = days_of(readings, trial, measure);
  judged.note = measured.note;
  judged.series = measured.series;
  const std::vector<std::string> sides = sides_with_days(measured);
  if (sides.size() >= 2) {
    trials::JudgeOptions options;
    options.measure = measure;
    options.confidence_frac = trial.confidence_frac;
    // The wanted difference is one of the main measure's unit.
    options.wanted_difference = judged.is_main ? trial.wanted_difference : 0.0;
    options.reference_side = reference_of(trial, sides);
    judged.verdict = trials::judge(measured.modules, options);
  } else if (!judged.is_main) {
    return;
  }
  answer.measures.push_back(std::move(judged));
}

void note_what_is_missing(const design::Trial& trial, const TrialReadings& readings, report::TrialJudgeAnswer& answer) {
  const auto n_without = std::count_if(trial.places.begin(), trial.places.end(),
                                       [](const design::TrialPlace& place) { return !place.side; });
  if (n_without > 0) {
    answer.notes.push_back(
        fmt::format("{} of {} places have no side and count for nothing.", n_without, trial.places.size()));
  }
  if (trial.measure == design::TrialMeasure::lag && trial.readings == design::TrialReadings::by_hand) {
    answer.notes.emplace_back("A lag cannot be had from two readings a day.");
  }
  if (trial.measure == design::TrialMeasure::lag && !readings.outdoor) {
    answer.notes.emplace_back("A lag is counted from the outside air: name its sensor as outdoor_logger.");
  }
  if (!answer.measures.empty() && answer.measures.front().is_main) {
    std::vector<std::string> seen;
    for (const report::TrialSeries& series : answer.measures.front().series) {
      if (!series.days.empty()) seen.push_back(series.side);
    }
    for (const design::TrialSide& side : trial.sides) {
      if (std::find(seen.begin(), seen.end(), side.name) != seen.end()) continue;
      answer.notes.push_back(fmt::format("{} has no readings yet.", side.name));
    }
  }
  if (answer.measures.size() > 1) {
    answer.notes.push_back(
        fmt::format("The trial was about {}. The other measures are looked at besides: of every twenty such looks one "
                    "would seem to show a difference by chance alone.",
                    trials::words_of(measure_from(trial.measure))));
  }
}

}  // namespace

ProjectReadings readings_of(const store::Project& project, const std::string& zone) {
  ProjectReadings all;
  all.events = store::read_events(project);
  all.by_hand = logbook::hand_readings_from(all.events);
  all.columns = logger_columns_of(project, zone);
  return all;
}

std::vector<trials::LoggerFlag> flags_of_import(const store::Project& project, const catalogue::Catalogue& catalogue,
                                                const std::string& zone, const ImportedReadings& imported) {
  const std::optional<store::Revision> newest = store::read_newest_revision(project);
  expects(newest.has_value(), "a project with a design");
  // An older description that today's rules would refuse has no trials that could be judged either.
  const Result<design::ValidDesign> design = design::read_design(newest->toml_text, project.name(), catalogue);
  std::vector<trials::LoggerFlag> flags = flags_of_loggers(
      logger_columns_of(project, zone), design ? design.value()->trials : std::vector<design::Trial>());
  // Flags count standard time, the file's span does not: a day on either side takes in any difference.
  std::erase_if(flags, [&imported](const trials::LoggerFlag& flag) {
    const bool is_own =
        std::find(imported.sensors.begin(), imported.sensors.end(), flag.column) != imported.sensors.end();
    return !is_own || flag.to_s < imported.first_utc_s - n_seconds_in_civil_day ||
           flag.from_s > imported.last_utc_s + n_seconds_in_civil_day;
  });
  return flags;
}

report::TrialJudgeAnswer judge_trial(const ProjectReadings& all, const design::Design& design, std::size_t index) {
  const design::Trial& trial = design.trials[index];
  const TrialReadings readings = readings_of_trial(all, design.trials, trial);
  report::TrialJudgeAnswer answer;
  answer.head.trial = trial.name;
  answer.head.design = design.name;
  answer.head.is_invented = design.is_invented;
  answer.confidence_frac = trial.confidence_frac;
  answer.wanted_difference = trial.wanted_difference;
  answer.first_day = readings.first_day;
  answer.last_day = readings.last_day;
  for (const design::TrialSide& side : trial.sides) answer.sides.push_back(side.name);
  answer.flags = readings.flags;
  answer.notes = readings.notes;
  for (const Measure measure : measures_of(trial, readings)) add_measure(readings, trial, measure, answer);
  answer.scores = scores_of(all, trial, answer.notes);
  if (trial.measure == design::TrialMeasure::litres) {
    const auto litres = std::find_if(answer.scores.begin(), answer.scores.end(),
                                     [](const report::ScoreAnswer& score) { return score.what == "litres given"; });
    if (litres != answer.scores.end()) std::rotate(answer.scores.begin(), litres, litres + 1);
  }
  note_what_is_missing(trial, readings, answer);
  return answer;
}

}  // namespace houseleek::studies
