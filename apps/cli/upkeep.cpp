// houseleek upkeep: lives of parts, what to replace and look at when, storms, taking it off.
#include "upkeep.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "embedded.hpp"
#include "files.hpp"
#include "inputs.hpp"
#include "project_file.hpp"
#include "report/json_parts.hpp"
#include "report/upkeep_html.hpp"
#include "report/upkeep_json.hpp"
#include "report/upkeep_text.hpp"
#include "studies/keep_design.hpp"
#include "studies/logger_columns.hpp"
#include "studies/upkeep.hpp"
#include "today.hpp"

namespace houseleek::cli {

struct UpkeepCommand::Options {
  CLI::App* command = nullptr;
  std::string file;
  std::string on;
  std::string report_path;
  bool shows_before_storm = false;
  bool shows_after_storm = false;
  bool shows_taking_off = false;
  bool is_json = false;
};

UpkeepCommand::UpkeepCommand(CLI::App& app) : options_(std::make_unique<Options>()) {
  Options& options = *options_;
  options.command = app.add_subcommand(
      "upkeep", "How long parts last here, what to replace and to look at when, storms, taking it off");
  options.command->add_option("FILE", options.file, "the project (my-roof.houseleek)")->required();
  options.command->add_option("--on", options.on, "as of this day, with the events up to it; left away: today")
      ->type_name("DAY");
  options.command->add_flag("--before-storm", options.shows_before_storm, "show the round before a storm");
  options.command->add_flag("--after-storm", options.shows_after_storm,
                            "show the round after one; shown anyway for 14 days after a storm in the logbook");
  options.command->add_flag("--taking-off", options.shows_taking_off,
                            "show how the modules come off, for a new membrane or for good");
  options.command->add_option("--report", options.report_path, "also write a page with curves, for browser and paper")
      ->type_name("PAGE");
  options.command->add_flag("--json", options.is_json, "one JSON document on stdout");
  options.command->footer("Example: houseleek upkeep my-roof.houseleek --report upkeep.html");
}

UpkeepCommand::~UpkeepCommand() = default;

bool UpkeepCommand::is_chosen() const { return options_->command->parsed(); }

ExitCode UpkeepCommand::run() const {
  const Options& options = *options_;
  if (is_refused_description("upkeep", options.file)) return ExitCode::usage;
  if (!options.report_path.empty() && is_same_file(options.report_path, options.file)) {
    write_message("houseleek: the page would be written over the project; give it another name\n");
    return ExitCode::usage;
  }
  const store::Project project = open_project_file(options.file, store::Access::read);
  const Result<store::Revision> revision = studies::find_revision(project, std::nullopt);
  if (!revision) return refuse_input("upkeep", revision.error(), "", options.is_json);
  const catalogue::Catalogue catalogue = read_embedded_catalogue();
  const std::string name = fmt::format("{} revision {}", options.file, revision.value().number);
  const Result<design::ValidDesign> design = design::read_design(revision.value().toml_text, name, catalogue);
  if (!design) return refuse_input("upkeep", design.error(), revision.value().toml_text, options.is_json);
  std::optional<NewFile> page;
  if (!options.report_path.empty()) page.emplace(options.report_path);
  studies::UpkeepRequest request;
  request.on = options.on;
  request.shows_before_storm = options.shows_before_storm;
  request.shows_after_storm = options.shows_after_storm;
  request.shows_taking_off = options.shows_taking_off;
  request.now_utc_s = now_utc_s();
  request.engine_version = program_version();
  request.project = options.file;
  const Result<report::UpkeepAnswer> answer = studies::answer_upkeep(
      store::read_events(project), studies::logger_columns_of(project, design.value()->site.time_zone), design.value(),
      revision.value(), catalogue, request);
  if (!answer) return refuse_input("upkeep", answer.error(), "", options.is_json);
  const report::Json document = report::json_from(answer.value());
  if (page) page->finish(report::page_of_upkeep(document, report::ReportHead{today_in_words()}));
  write_answer(options.is_json ? report::text_from(document) : report::text_from(answer.value()));
  if (page) write_message(fmt::format("The page: {}\n", options.report_path));
  return ExitCode::done;
}

}  // namespace houseleek::cli
