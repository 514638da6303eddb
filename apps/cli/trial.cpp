// houseleek trial: plan one, type readings in, judge them, fit the model to them.
#include "trial.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <array>
#include <cstdio>
#include <optional>
#include <vector>

#include "base/civil_time.hpp"
#include "embedded.hpp"
#include "files.hpp"
#include "inputs.hpp"
#include "progress.hpp"
#include "project_file.hpp"
#include "report/json_parts.hpp"
#include "report/trial_html.hpp"
#include "report/trial_json.hpp"
#include "report/trial_text.hpp"
#include "studies/keep_answer.hpp"
#include "studies/keep_design.hpp"
#include "studies/open_design.hpp"
#include "studies/trial_fit.hpp"
#include "studies/trial_judge.hpp"
#include "studies/trial_plan.hpp"
#include "studies/trial_read.hpp"
#include "threads.hpp"
#include "today.hpp"
#include "trial_files.hpp"

namespace houseleek::cli {
namespace {

constexpr std::size_t most_table_bytes = 5'000'000;

/// A table typed in before, or from stdin.
std::string read_table(const std::string& path) {
  if (path != "-") return read_file(path, most_table_bytes);
  std::string text;
  std::array<char, 65536> part{};
  while (const std::size_t n_bytes = std::fread(part.data(), 1, part.size(), stdin)) {
    text.append(part.data(), n_bytes);
    if (text.size() > most_table_bytes) throw WorldFailed("stdin has more than a table of readings");
  }
  return text;
}

template <class Answer>
void show(const Answer& answer, bool is_json) {
  write_answer(is_json ? report::text_from(report::json_from(answer)) : report::text_from(answer));
}

}  // namespace

struct TrialCommand::Options {
  CLI::App* command = nullptr;
  CLI::App* plan = nullptr;
  CLI::App* read = nullptr;
  CLI::App* judge = nullptr;
  CLI::App* fit = nullptr;
  std::string file;
  std::string trial;
  bool is_json = false;
  // plan
  studies::TrialWords words;
  CLI::Option* name = nullptr;
  std::size_t modules_a_side = 0;
  bool is_for_adviser = false;
  bool is_kept = false;
  // read
  std::vector<std::string> readings;
  std::string at;
  std::string table;
  std::string unit;
  std::string who;
  // judge, fit
  std::string report_path;
  std::vector<std::string> properties;
  bool is_accepted = false;

  CLI::App* add(const std::string& word, const std::string& meaning, const std::string& file_meaning) {
    CLI::App* one = command->add_subcommand(word, meaning);
    one->add_option("FILE", file, file_meaning)->required();
    one->add_option("--trial", trial, "which trial of the design; may be left away where there is one")
        ->type_name("NAME");
    one->add_flag("--json", is_json, "one JSON document on stdout");
    return one;
  }

  [[nodiscard]] ExitCode run_plan() const {
    if (is_kept && is_refused_description("trial plan --keep", file)) return ExitCode::usage;
    const studies::NamedText design_file = read_design_file(file);
    const catalogue::Catalogue catalogue = read_embedded_catalogue();
    Result<studies::PlannedTrial> planned =
        studies::plan_trial(design_file, catalogue, {trial, name->count() > 0 ? &words : nullptr, modules_a_side});
    if (!planned) return refuse_input("trial_plan", planned.error(), design_file.text, is_json);
    studies::PlannedTrial answer = std::move(planned).value();
    if (is_kept && !answer.answer.was_given_out) {
      const store::Project project = open_project_file(file, store::Access::write);
      const studies::KeptDesign kept =
          studies::keep_design(project, {design_file.name, answer.design_text},
                               fmt::format("trial \"{}\" planned", answer.answer.head.trial), now_utc_s());
      answer.answer.revision = kept.revision;
    }
    write_answer(is_json ? report::text_from(report::json_from(answer.answer))
                         : report::text_from(answer.answer, is_for_adviser));
    return ExitCode::done;
  }

  [[nodiscard]] ExitCode run_read() const {
    if (is_refused_description("trial read", file)) return ExitCode::usage;
    if (!table.empty() && !readings.empty()) {
      write_message("houseleek: readings come from the line or from a table, not both\n");
      return ExitCode::usage;
    }
    const studies::NamedText design_file = read_design_file(file);
    const Result<OpenTrial> open = open_trial(design_file, read_embedded_catalogue(), trial);
    if (!open) return refuse_input("trial_read", open.error(), design_file.text, is_json);
    const design::Design& design = *open.value().design;
    const design::Trial& one = design.trials[open.value().trial];
    studies::RoundsRequest request;
    request.who = who;
    request.now_utc_s = now_utc_s();
    if (unit == "degF") request.unit = studies::ReadUnit::deg_f;
    std::string table_text;
    if (!table.empty()) {
      table_text = read_table(table);
      request.table_name = table == "-" ? "stdin" : table;
      Result<std::vector<studies::RoundWords>> rounds =
          studies::rounds_from_table({request.table_name, table_text}, one);
      if (!rounds) return refuse_input("trial_read", rounds.error(), table_text, is_json);
      request.rounds = std::move(rounds).value();
    } else if (!readings.empty()) {
      studies::RoundWords round;
      round.at = at;
      for (const std::string& reading : readings) {
        const std::size_t sign = reading.rfind('=');
        if (sign == std::string::npos || sign == 0 || sign + 1 == reading.size()) {
          write_message(fmt::format("houseleek: {} is no reading; write PLACE=NUMBER, A1=21.4\n", reading));
          return ExitCode::usage;
        }
        round.readings.emplace_back(reading.substr(0, sign), reading.substr(sign + 1));
      }
      request.rounds.push_back(std::move(round));
    }
    const bool is_writing = !request.rounds.empty();
    const store::Project project = open_project_file(file, is_writing ? store::Access::write : store::Access::read);
    const Result<studies::NotedRounds> noted = studies::note_rounds(project, design, open.value().trial, request);
    if (!noted) return refuse_input("trial_read", noted.error(), table_text, is_json);
    const studies::ProjectReadings all = studies::readings_of(project, design.site.time_zone);
    const CivilMoment now = moment_at(now_utc_s(), design.site.time_zone);
    report::TrialReadAnswer answer = studies::status_of(studies::readings_of_trial(all, design.trials, one), one,
                                                        (now.utc_s + now.offset_s) / n_seconds_in_civil_day);
    answer.head = {file, one.name, design.name, design.is_invented};
    answer.n_noted = noted.value().n_noted;
    answer.n_known_before = noted.value().n_known_before;
    show(answer, is_json);
    return ExitCode::done;
  }

  [[nodiscard]] ExitCode run_judge() const {
    if (is_refused_description("trial judge", file)) return ExitCode::usage;
    if (is_refused_page(report_path, file)) return ExitCode::usage;
    const studies::NamedText design_file = read_design_file(file);
    const Result<OpenTrial> open = open_trial(design_file, read_embedded_catalogue(), trial);
    if (!open) return refuse_input("trial_judge", open.error(), design_file.text, is_json);
    const design::Design& design = *open.value().design;
    std::optional<NewFile> page;
    if (!report_path.empty()) page.emplace(report_path);
    const store::Project project = open_project_file(file, store::Access::read);
    report::TrialJudgeAnswer answer =
        studies::judge_trial(studies::readings_of(project, design.site.time_zone), design, open.value().trial);
    answer.head.file = file;
    answer.engine_version = program_version();
    if (page) page->finish(report::page_of_trial(answer, {today_in_words()}));
    show(answer, is_json);
    if (page) write_message(fmt::format("The page: {}\n", report_path));
    return ExitCode::done;
  }

  [[nodiscard]] ExitCode run_fit() const {
    const InterruptWatch interrupt;
    if (is_refused_description("trial fit", file)) return ExitCode::usage;
    if (is_refused_page(report_path, file)) return ExitCode::usage;
    const studies::NamedText design_file = read_design_file(file);
    const catalogue::Catalogue catalogue = read_embedded_catalogue();
    const Result<OpenTrial> open = open_trial(design_file, catalogue, trial);
    if (!open) return refuse_input("trial_fit", open.error(), design_file.text, is_json);
    const design::ValidDesign& design = open.value().design;
    const Result<std::vector<studies::FitCandidate>> candidates =
        studies::fit_candidates(design, open.value().trial, properties);
    if (!candidates) return refuse_input("trial_fit", candidates.error(), design_file.text, is_json);
    const std::optional<studies::NamedText> weather_file = read_weather_file(design, file);
    const Result<climate::WeatherYear> weather = studies::open_weather(design, design_file, weather_file);
    if (!weather) {
      return refuse_input("trial_fit", weather.error(), weather_file ? weather_file->text : design_file.text, is_json);
    }
    std::optional<NewFile> page;
    if (!report_path.empty()) page.emplace(report_path);
    const store::Project project = open_project_file(file, is_accepted ? store::Access::write : store::Access::read);
    const studies::ProjectReadings all = studies::readings_of(project, design->site.time_zone);
    ProgressLine progress;
    Context context;
    context.is_cancelled = &interrupt.is_interrupted();
    context.on_progress = [&progress](double done_frac) { progress.show(done_frac); };
    const studies::TrialFitInputs inputs{.description = open.value().raw,
                                         .design = design,
                                         .catalogue = catalogue,
                                         .weather = weather.value(),
                                         .readings = all,
                                         .trial = open.value().trial};
    Result<report::TrialFitAnswer> fitted = studies::fit_trial(inputs, candidates.value(), context);
    if (!fitted) return refuse_input("trial_fit", fitted.error(), design_file.text, is_json);
    report::TrialFitAnswer answer = std::move(fitted).value();
    answer.head.file = file;
    answer.engine_version = program_version();
    answer.input_hash = studies::input_hash(embedded_catalogue(), design_file, weather_file);
    if (is_accepted && answer.refused_because.empty()) {
      const Result<std::string> text = studies::with_fitted(inputs, answer);
      if (!text) return refuse_input("trial_fit", text.error(), design_file.text, is_json);
      answer.revision =
          studies::keep_design(project, {design_file.name, text.value()},
                               fmt::format("trial \"{}\": fitted values accepted", answer.head.trial), now_utc_s())
              .revision;
    }
    if (page) page->finish(report::page_of_fit(answer, {today_in_words()}));
    show(answer, is_json);
    if (page) write_message(fmt::format("The page: {}\n", report_path));
    // Asked for and not done.
    return is_accepted && !answer.revision ? ExitCode::bad_input : ExitCode::done;
  }
};

TrialCommand::TrialCommand(CLI::App& app) : options_(std::make_unique<Options>()) {
  Options& o = *options_;
  o.command = app.add_subcommand("trial", "Hold modules against each other: plan, read, judge, fit the model");
  o.command->require_subcommand(1);
  o.command->footer(
      "Example: houseleek trial plan my-roof.houseleek --name \"raised or flat\" --side raised --side flat\n"
      "           --place A1 --place A2 --place A3 --place A4 --difference 2 --keep\n"
      "         houseleek trial read my-roof.houseleek A1=21.4 A2=23.0\n"
      "         houseleek trial judge my-roof.houseleek");
  const std::string project = "the project (my-roof.houseleek)";

  o.plan = o.add("plan", "How many modules and days a difference takes, and which side goes where",
                 "the description of the roof (roof.toml), or a project (my-roof.houseleek)");
  o.name = o.plan->add_option("--name", o.words.name, "a trial that the design has not yet: its name")->type_name("");
  o.plan->add_option("--side", o.words.sides, "one of its sides, a recipe or anything else; give two or more")
      ->type_name("")
      ->needs(o.name);
  o.plan->add_option("--place", o.words.places, "a module that takes part, by its label; give all")
      ->type_name("")
      ->needs(o.name);
  o.plan
      ->add_option("--difference", o.words.wanted_difference, "that would change what you build, in K (h, K h, litres)")
      ->type_name("")
      ->check(CLI::PositiveNumber)
      ->needs(o.name);
  o.plan->add_option("--measure", o.words.measure, "maximum (usual), minimum, swing, lag, degree_hours, litres")
      ->type_name("")
      ->check(CLI::IsMember({"maximum", "minimum", "swing", "lag", "degree_hours", "litres"}))
      ->needs(o.name);
  o.plan->add_flag("--loggers", o.words.is_by_loggers, "read by loggers; else by hand, twice a day")->needs(o.name);
  o.plan->add_option("--modules", o.modules_a_side, "so many modules a side; left away: as few as will do")
      ->type_name("")
      ->check(CLI::PositiveNumber);
  o.plan->add_flag("--adviser", o.is_for_adviser, "also what stands behind the plan");
  o.plan->add_flag("--keep", o.is_kept, "write the sides into the project, as a new revision of the design");
  o.plan->footer("Example: houseleek trial plan my-roof.houseleek --keep");

  o.read = o.add("read", "Type in a round of readings; or see what is still missing", project);
  o.read->add_option("READING", o.readings, "PLACE=NUMBER in degC, one for each place: A1=21.4")->type_name("");
  o.read->add_option("--at", o.at, "when: 2026-07-03T08:15 by the clocks of the place; left away: now")->type_name("");
  o.read->add_option("--table", o.table, "rounds as a table, - for stdin: a line \"at,A1,A2\", then one a round")
      ->type_name("FILE");
  o.read->add_option("--unit", o.unit, "degC (usual) or degF")->type_name("")->check(CLI::IsMember({"degC", "degF"}));
  o.read->add_option("--who", o.who, "who read them")->type_name("");
  o.read->footer(
      "Example: houseleek trial read my-roof.houseleek --at 2026-07-03T06:05 A1=21.4 A2=23.0\n"
      "         houseleek trial read my-roof.houseleek --table july.csv");

  o.judge = o.add("judge", "Are the sides told apart, by how much, how sure, and about what", project);
  o.judge->add_option("--report", o.report_path, "also write a page with charts")->type_name("FILE");
  o.judge->footer("Example: houseleek trial judge my-roof.houseleek --report verdict.html");

  o.fit = o.add("fit", "Fit a few properties of the design to the readings, with intervals", project);
  o.fit
      ->add_option("--property", o.properties,
                   fmt::format("what to fit: {}; may be given more than once", studies::fit_words()))
      ->type_name("");
  o.fit->add_flag("--accept", o.is_accepted,
                  "write the values into the design as measured on this roof, as a new revision");
  o.fit->add_option("--report", o.report_path, "also write a page with charts")->type_name("FILE");
  o.fit->footer("Example: houseleek trial fit my-roof.houseleek --property gap --accept");
}

TrialCommand::~TrialCommand() = default;

bool TrialCommand::is_chosen() const { return options_->command->parsed(); }

ExitCode TrialCommand::run() const {
  if (options_->plan->parsed()) return options_->run_plan();
  if (options_->read->parsed()) return options_->run_read();
  if (options_->judge->parsed()) return options_->run_judge();
  return options_->run_fit();
}

}  // namespace houseleek::cli
