// What the commands of trials answer, before it becomes text, JSON or a page.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "trials/fit.hpp"
#include "trials/judge.hpp"
#include "trials/judge_scores.hpp"
#include "trials/logger_checks.hpp"
#include "trials/plan.hpp"

namespace houseleek::report {

/// What every answer about a trial says first.
struct TrialHead {
  std::string file;   // project or description, as it was given
  std::string trial;  // its name
  std::string design;
  bool is_invented = false;
};

struct TrialPlanAnswer {
  TrialHead head;
  trials::TrialWish wish;
  trials::TrialPlan plan;
  trials::TrialSize chosen;
  bool was_given_out = false;            // the places had their sides already
  std::string toml_text;                 // the trial's tables with the sides in them
  std::optional<std::int64_t> revision;  // that has them, where it was kept
};

/// A reading that a day wants and has not.
struct MissingReading {
  std::int64_t day = 0;  // since 1970
  std::string place;
  std::string what;  // "before noon", "after noon", "whole day of the logger"
  bool operator==(const MissingReading&) const = default;
};

struct TrialReadAnswer {
  TrialHead head;
  bool is_by_hand = true;
  std::int64_t n_noted = 0;               // just now
  std::int64_t n_known_before = 0;        // the same values were there already
  std::optional<std::int64_t> first_day;  // that is looked at; none: nothing was read yet
  std::int64_t last_day = 0;
  std::size_t n_places = 0;
  std::size_t n_days_whole = 0;  // with all that the trial's measure wants
  std::vector<MissingReading> missing;
  std::vector<trials::LoggerFlag> flags;
  std::vector<std::string> notes;
};

/// One module's series, for the page's charts and the document.
struct TrialSeries {
  std::string place;
  std::string side;
  std::string block;
  std::vector<trials::DayValue> days;
  std::vector<trials::LeftOutDay> left_out;
};

struct MeasureAnswer {
  trials::Measure measure = trials::Measure::maximum;
  bool is_main = false;  // written down beforehand
  std::string note;      // where the numbers are a model's; empty else
  std::vector<TrialSeries> series;
  trials::TrialVerdict verdict;
};

struct ScoreAnswer {
  std::string what;  // "vigour", "share alive"
  std::string unit;  // "of 5"; may be empty
  std::string from;  // which events
  bool is_survival = false;
  std::vector<trials::ModuleScore> modules;  // or shares alive
  std::vector<trials::ScoreComparison> comparisons;
};

struct TrialJudgeAnswer {
  TrialHead head;
  std::string engine_version;
  double confidence_frac = 0.95;
  double wanted_difference = 0.0;
  std::optional<std::int64_t> first_day;
  std::optional<std::int64_t> last_day;
  std::vector<std::string> sides;
  std::vector<MeasureAnswer> measures;  // the main one first
  std::vector<ScoreAnswer> scores;
  std::vector<trials::LoggerFlag> flags;
  std::vector<std::string> notes;
};

/// A property of the design as it was fitted.
struct FittedFigure {
  std::string path;   // recipe[0].spacer.gap_wind_frac
  std::string words;  // air speed in the gap over wind at the roof
  std::string unit;
  double before = 0.0;
  double low_before = 0.0;  // the range it had; both equal `before` where it had none
  double high_before = 0.0;
  trials::FittedProperty fitted;
};

struct FitSeries {
  std::string place;
  std::string probe;
  std::vector<std::int64_t> at_s;  // standard time, since 1970
  std::vector<double> measured_c;
  std::vector<double> before_c;
  std::vector<double> fitted_c;
};

struct TrialFitAnswer {
  TrialHead head;
  std::string engine_version;
  std::string input_hash;
  std::string weather;  // where outside air, sun and wind came from
  std::vector<std::string> notes;
  std::vector<FittedFigure> figures;
  trials::FitAnswer fit;
  std::size_t n_readings = 0;
  std::vector<std::int64_t> held_back_days;
  std::vector<FitSeries> series;
  std::string source;                    // as it stands in the design once accepted
  std::string refused_because;           // why nothing may be accepted; empty where it may
  std::optional<std::int64_t> revision;  // that has the values, where they were accepted
};

}  // namespace houseleek::report
