// houseleek plants: what lives on this roof and what could, mixes, invasive plants, what is raised.
#include "plants.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

#include "base/issue_text.hpp"
#include "embedded.hpp"
#include "evidence.hpp"
#include "files.hpp"
#include "inputs.hpp"
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

  [[nodiscard]] ExitCode refuse(const Issues& issues, std::string_view text) const {
    if (is_json) write_answer(report::text_from(report::json_of_refusal("plants", issues)));
    write_message(text_from_issues(issues, text));
    return ExitCode::bad_input;
  }
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
  const studies::NamedText file = read_design_file(options.file);
  const catalogue::Catalogue catalogue = read_embedded_catalogue();
  const Result<design::ValidDesign> read = design::read_design(file.text, file.name, catalogue);
  if (!read) return options.refuse(read.error(), file.text);
  const design::ValidDesign& design = read.value();
  // Before the run, so that nobody waits for a slip of the pen.
  Issues issues = studies::issues_of_plants_request(options.request, *design, catalogue);
  if (!issues.empty()) return options.refuse(issues, "");
  const Result<std::optional<Evidence>> evidence = read_evidence(options.file, design->site.time_zone, options.on);
  if (!evidence) return options.refuse(evidence.error(), "");
  studies::PlantsRequest request = options.request;
  std::vector<logbook::EventRecord> records;
  studies::NamedText behind = file;
  if (evidence.value()) {
    records = evidence.value()->records;
    request.on = evidence.value()->on;
    request.today = evidence.value()->today;
    behind.text += studies::text_of_standing(records);
  } else {
    const Result<studies::LogbookDay> day = studies::logbook_day(options.on, design->site.time_zone, now_utc_s());
    if (!day) return options.refuse(day.error(), "");
    request.on = day.value().on;
    request.today = day.value().today;
  }
  const std::optional<studies::NamedText> weather_file = read_weather_file(design, options.file);
  const Result<climate::WeatherYear> weather = studies::open_weather(design, file, weather_file);
  if (!weather) return options.refuse(weather.error(), weather_file ? weather_file->text : file.text);
  request.engine_version = program_version();
  request.input_hash = studies::input_hash(embedded_catalogue(), behind, weather_file);
  ProgressLine progress;
  Context context;
  context.is_cancelled = &interrupt.is_interrupted();
  context.on_progress = [&progress](double done_frac) { progress.show(done_frac); };
  const report::WaterAnswer water = studies::water_of_planted_roof(design, weather.value(), context);
  const std::vector<climate::WeatherYear> at_hand = {weather.value()};
  const std::vector<climate::WeatherYear> years = studies::years_for_plants(design, at_hand);
  const Result<report::PlantsAnswer> answer =
      studies::answer_plants({design, catalogue, water, weather.value(), years, records}, request);
  if (!answer) return options.refuse(answer.error(), "");
  write_answer(options.is_json ? report::text_from(report::json_from(answer.value()))
                               : report::text_from(answer.value()));
  return ExitCode::done;
}

}  // namespace houseleek::cli
