// houseleek plants: what lives on this roof and what could, mixes, invasive plants, what is raised.
#include "plants.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "embedded.hpp"
#include "files.hpp"
#include "inputs.hpp"
#include "opened_roof.hpp"
#include "progress.hpp"
#include "project_file.hpp"
#include "report/json_parts.hpp"
#include "report/plants_json.hpp"
#include "report/plants_text.hpp"
#include "studies/logbook_day.hpp"
#include "studies/open_design.hpp"
#include "studies/plant_places.hpp"
#include "studies/plants.hpp"
#include "studies/water_answers.hpp"
#include "threads.hpp"

namespace houseleek::cli {

struct PlantsCommand::Options {
  CLI::App* command = nullptr;
  std::string file;
  studies::PlantsRequest request;
  std::string on;
  bool is_json = false;
};

PlantsCommand::PlantsCommand(CLI::App& app) : options_(std::make_unique<Options>()) {
  Options& options = *options_;
  studies::PlantsRequest& request = options.request;
  options.command = app.add_subcommand(
      "plants", "What will live there and why, mixes in bloom, invasive plants, batches of seedlings and cuttings");
  options.command->add_option("FILE", options.file, "the description of the roof (roof.toml), or a project")
      ->required();
  options.command->add_option("--room", request.room, "only what lies over this room")->type_name("NAME");
  options.command->add_option("--recipe", request.recipe, "only this recipe, bag or tub")->type_name("NAME");
  options.command->add_option("--for", request.purpose, "cool, bloom, bees, food, hold (the medium) or windbreak")
      ->type_name("PURPOSE");
  options.command
      ->add_option("--plant", request.plant, "only this plant, botanical or common name, with why or why not")
      ->type_name("NAME");
  options.command->add_option("--raise", request.raise, "how many of the plant are wanted: when to begin with how many")
      ->type_name("COUNT");
  options.command->add_option("--by", request.by, "the day on which they are to be planted out")->type_name("DAY");
  options.command
      ->add_option("--from", request.way, "how it is raised: seed, cuttings, division ...; else the usual way")
      ->type_name("WAY");
  options.command->add_option("--on", options.on, "of a project: with its logbook as of this day; left away: today")
      ->type_name("DAY");
  options.command->add_flag("--json", options.is_json, "one JSON document on stdout");
  options.command->footer(
      "Example: houseleek plants my-roof/roof.toml --for bees\n"
      "         houseleek plants my-roof.houseleek --raise 60 --plant \"creeping thyme\" --by 2027-10-01");
}

PlantsCommand::~PlantsCommand() = default;

bool PlantsCommand::is_chosen() const { return options_->command->parsed(); }

ExitCode PlantsCommand::run() const {
  const Options& options = *options_;
  const InterruptWatch interrupt;
  const OpenedRoof roof = open_roof(options.file, options.on);
  if (!roof.issues.empty()) return refuse_input("plants", roof.issues, roof.issues_text, options.is_json);
  const design::ValidDesign& design = *roof.design;
  // Before the run, so that nobody waits for a slip of the pen.
  const Issues issues = studies::issues_of_plants_request(options.request, *design, roof.catalogue);
  if (!issues.empty()) return refuse_input("plants", issues, "", options.is_json);
  studies::PlantsRequest request = options.request;
  if (roof.evidence) {
    request.on = roof.evidence->on;
    request.today = roof.evidence->today;
  } else {
    const Result<studies::LogbookDay> day = studies::logbook_day(options.on, design->site.time_zone, now_utc_s());
    if (!day) return refuse_input("plants", day.error(), "", options.is_json);
    request.on = day.value().on;
    request.today = day.value().today;
  }
  request.engine_version = program_version();
  request.input_hash = roof.input_hash;
  ProgressLine progress;
  Context context;
  context.is_cancelled = &interrupt.is_interrupted();
  context.on_progress = [&progress](double done_frac) { progress.show(done_frac); };
  const report::WaterAnswer water = studies::water_of_planted_roof(design, *roof.weather, context);
  const std::vector<climate::WeatherYear> at_hand = {*roof.weather};
  const std::vector<climate::WeatherYear> years = studies::years_for_plants(design, at_hand);
  const Result<report::PlantsAnswer> answer = studies::answer_plants(
      {design, roof.catalogue, water, *roof.weather, years, water_source(roof).records}, request);
  if (!answer) return refuse_input("plants", answer.error(), "", options.is_json);
  write_answer(options.is_json ? report::text_from(report::json_from(answer.value()))
                               : report::text_from(answer.value()));
  return ExitCode::done;
}

}  // namespace houseleek::cli
