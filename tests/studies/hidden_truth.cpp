// The loop with a hidden truth.
#include "studies/hidden_truth.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/civil_time.hpp"
#include "base/issue_text.hpp"
#include "plan/layout.hpp"
#include "simulation/covers.hpp"
#include "simulation/run.hpp"
#include "stats/sampling.hpp"
#include "studies/keep_design.hpp"
#include "studies/logger_file.hpp"
#include "studies/trial_fit.hpp"
#include "studies/trial_judge.hpp"
#include "studies/trial_read.hpp"
#include "studies/weather.hpp"
#include "support/catalogue_files.hpp"
#include "support/small_design.hpp"

namespace houseleek::tests {
namespace {

constexpr std::int64_t noon_utc_s = 1'800'000'000;  // when all of it is typed in: January 2027
constexpr double wool_w_per_m_k = 0.04;

std::string text_with(const HiddenTruth& truth, const std::string& gap_line, double conductivity) {
  std::string trial = fmt::format(
      "\n[[trial]]\nname = \"the gap\"\nwanted_difference = 1\nreadings = \"{}\"\nfirst_day = 2026-03-01\n"
      "last_day = {}\n{}",
      truth.is_by_hand ? "by_hand" : "loggers", text_from_day(*day_from_text("2026-03-01") + truth.n_days - 1),
      truth.has_outdoor_logger ? "outdoor_logger = \"yard\"\n" : "");
  trial +=
      "[[trial.side]]\nname = \"modules\"\nrecipe = \"thin stonecrop\"\n[[trial.side]]\nname = \"bare\"\nrecipe = "
      "\"bare\"\n"
      "[[trial.place]]\nname = \"A1\"\nside = \"modules\"\nprobe = \"membrane\"\n"
      "[[trial.place]]\nname = \"A2\"\nside = \"modules\"\nprobe = \"ceiling\"\n"
      "[[trial.place]]\nname = \"B1\"\nside = \"bare\"\nprobe = \"membrane\"\n";
  const std::string wool = fmt::format(
      "[[material]]\nname = \"horticultural mineral wool\"\nconductivity_w_per_m_k = {}\n[rivals]", conductivity);
  return edited(small_design_text(), {{"gap_wind_frac = 0.1\n", gap_line}, {"[rivals]", wool}}) + trial;
}

design::ValidDesign design_of(const std::string& text) { return valid_design(text); }

climate::WeatherYear weather_of(const design::ValidDesign& design) {
  Result<climate::WeatherYear> weather = studies::make_weather(design, std::nullopt);
  if (!weather) throw std::runtime_error(text_from_issues(weather.error(), ""));
  return std::move(weather).value();
}

struct Columns {
  std::vector<std::string> names;
  std::vector<std::vector<double>> values_c;  // at each hour's end
  std::vector<double> air_c;                  // at the same moments
};

/// What thermometers in the true house would show without any error of their own.
Columns true_columns(const HiddenTruth& truth) {
  const design::ValidDesign design = design_of(true_text(truth));
  const climate::WeatherYear weather = weather_of(design);
  const plan::Layout layout = plan::make_layout(design);
  const simulation::CoverGroup cover =
      simulation::make_cover_group(design, layout, weather, simulation::Cover::planted, {});
  simulation::RunOptions options;
  options.first_hour = 24 * 59;  // 1 March
  options.n_hours = 24 * truth.n_days;
  options.spin_up_hours = 24 * 20;
  const results::GroupYear year = simulation::run_group(
      cover.group, [&weather](int hour, double fraction) { return climate::forcing_at(weather, hour, fraction); },
      options);
  const auto middle = [&cover](simulation::StackForm form) {
    std::size_t best = cover.origins.size();
    for (std::size_t i = 0; i < cover.origins.size(); ++i) {
      if (cover.origins[i].form != form) continue;
      const bool is_better = best == cover.origins.size() ||
                             (form == simulation::StackForm::bare
                                  ? cover.origins[i].distance_to_edge_m < cover.origins[best].distance_to_edge_m
                                  : cover.origins[i].is_middle);
      if (is_better) best = i;
    }
    return best;
  };
  Columns columns;
  const std::size_t under = middle(simulation::StackForm::raised);
  columns.names = {"A1", "A2", "B1"};
  columns.values_c = {year.stacks[under].membrane_c, year.stacks[under].ceiling_c,
                      year.stacks[middle(simulation::StackForm::bare)].membrane_c};
  for (int hour = 1; hour <= options.n_hours; ++hour) {
    columns.air_c.push_back(weather.air_temperature_c[static_cast<std::size_t>(options.first_hour + hour)]);
  }
  return columns;
}

/// Readings of the true columns with errors of their own.
std::vector<double> noisy(const std::vector<double>& column, const HiddenTruth& truth, std::uint32_t index) {
  constexpr double correlation = 0.6;
  const RandomVariable noise = random_variable(truth.seed, "thermometers");
  std::vector<double> values;
  double error = stats::random_normal(noise, {index, -1, 0});
  for (std::size_t i = 0; i < column.size(); ++i) {
    error = correlation * error + std::sqrt(1.0 - correlation * correlation) *
                                      stats::random_normal(noise, {index, static_cast<std::int32_t>(i), 1});
    values.push_back(column[i] + truth.noise_k * error);
  }
  return values;
}

void import_column(const store::Project& project, const std::string& name, const std::vector<double>& values_c) {
  std::string csv = "time,temp (degC)\n";
  const std::int64_t first_day = *day_from_text("2026-03-01");
  for (std::size_t i = 0; i < values_c.size(); ++i) {
    // The house stands in Rome's zone: its standard time is an hour ahead.
    csv += fmt::format(
        "{},{:.3f}\n",
        text_from_utc(first_day * n_seconds_in_civil_day + 3600 * (static_cast<std::int64_t>(i) + 1) - 3600),
        values_c[i]);
  }
  studies::LoggerRules rules;
  rules.logger = name;
  const Result<studies::LoggerDialect> dialect = studies::find_logger_dialect(csv, name, "Europe/Rome", rules);
  if (!dialect) throw std::runtime_error(text_from_issues(dialect.error(), csv));
  studies::LoggerImport import(project, dialect.value(), {name, "Europe/Rome", noon_utc_s});
  import.take(csv);
  const Result<studies::LoggerCounts> counts = import.finish();
  if (!counts) throw std::runtime_error(text_from_issues(counts.error(), csv));
}

/// Two looks a day at 6 and 16 h by the thermometers' own numbers.
void type_in(const store::Project& project, const HiddenTruth& truth, const Columns& columns) {
  const design::ValidDesign design = design_of(believed_text(truth));
  studies::RoundsRequest request;
  request.now_utc_s = noon_utc_s;
  for (int day = 0; day < truth.n_days; ++day) {
    for (const int hour : {6, 16}) {
      studies::RoundWords round;
      // +01:00 is standard time, whatever clocks of the place show.
      round.at = fmt::format("{}T{:02d}:00+01:00", text_from_day(*day_from_text("2026-03-01") + day), hour);
      for (std::size_t i = 0; i < columns.names.size(); ++i) {
        const std::vector<double> values = noisy(columns.values_c[i], truth, static_cast<std::uint32_t>(i));
        round.readings.emplace_back(columns.names[i],
                                    fmt::format("{:.1f}", values[static_cast<std::size_t>(24 * day + hour - 1)]));
      }
      request.rounds.push_back(std::move(round));
    }
  }
  const Result<studies::NotedRounds> noted = studies::note_rounds(project, *design, 0, request);
  if (!noted) throw std::runtime_error(text_from_issues(noted.error(), ""));
}

double value_of(const report::Figure& figure) { return figure.value.value_or(std::nan("")); }

}  // namespace

std::string believed_text(const HiddenTruth& truth) { return text_with(truth, "", wool_w_per_m_k); }

std::string true_text(const HiddenTruth& truth) {
  return text_with(truth, fmt::format("gap_wind_frac = {}\n", truth.gap_wind_frac),
                   wool_w_per_m_k * truth.conductivity_factor);
}

store::Project project_with_readings(const HiddenTruth& truth, const std::string& path) {
  sqlite3* handle = nullptr;
  if (sqlite3_open(path.c_str(), &handle) != SQLITE_OK) throw std::runtime_error("no room for a project: " + path);
  store::Project project = store::make_project(store::Database(handle, "a.houseleek"));
  (void)studies::keep_design(project, {"roof.toml", believed_text(truth)}, "believed", noon_utc_s);
  const Columns columns = true_columns(truth);
  if (truth.is_by_hand) {
    type_in(project, truth, columns);
  } else {
    for (std::size_t i = 0; i < columns.names.size(); ++i) {
      import_column(project, columns.names[i], noisy(columns.values_c[i], truth, static_cast<std::uint32_t>(i)));
    }
  }
  if (truth.has_outdoor_logger) import_column(project, "yard", columns.air_c);
  return project;
}

Loop run_loop(const HiddenTruth& truth, const std::vector<std::string>& words) {
  const store::Project project = project_with_readings(truth);
  const std::string text = store::read_newest_revision(project)->toml_text;
  const catalogue::Catalogue catalogue = shipped_catalogue();
  const Result<design::RawDesign> raw = design::parse_design(text, "roof.toml");
  const Result<design::ValidDesign> design = design::validate_design(raw.value(), catalogue);
  const climate::WeatherYear weather = weather_of(design.value());
  const studies::ProjectReadings readings = studies::readings_of(project, design.value()->site.time_zone);
  const Result<std::vector<studies::FitCandidate>> candidates = studies::fit_candidates(design.value(), 0, words);
  if (!candidates) throw std::runtime_error(text_from_issues(candidates.error(), text));
  const studies::TrialFitInputs inputs{.description = raw.value(),
                                       .design = design.value(),
                                       .catalogue = catalogue,
                                       .weather = weather,
                                       .readings = readings,
                                       .trial = 0};
  const Result<report::TrialFitAnswer> fit = studies::fit_trial(inputs, candidates.value(), {});
  if (!fit) throw std::runtime_error(text_from_issues(fit.error(), text));
  Loop loop{fit.value(), ""};
  if (!loop.fit.refused_because.empty()) return loop;
  const Result<std::string> fitted = studies::with_fitted(inputs, loop.fit);
  if (!fitted) throw std::runtime_error(text_from_issues(fitted.error(), text));
  (void)studies::keep_design(project, {"roof.toml", fitted.value()}, "fitted", noon_utc_s);
  loop.fitted_text = store::read_newest_revision(project)->toml_text;
  return loop;
}

double error_of(const report::StudyAnswer& study, const report::StudyAnswer& truth) {
  double worst = 0.0;
  for (std::size_t i = 0; i < study.stacks.size(); ++i) {
    const report::StackAnswer& one = study.stacks[i];
    if (one.form != "raised") continue;
    for (const auto figure : {&report::StackAnswer::membrane_max_c, &report::StackAnswer::ceiling_max_c,
                              &report::StackAnswer::heat_gain_summer_kwh_per_m2}) {
      worst = std::max(worst, std::fabs(value_of(one.*figure) - value_of(truth.stacks.at(i).*figure)));
    }
  }
  return worst;
}

}  // namespace houseleek::tests
