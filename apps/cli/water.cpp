// houseleek water: today's stores, the next round, seasons, a barrel, salt, feeding, the sheet for a neighbour.
#include "water.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <thread>

#include "embedded.hpp"
#include "files.hpp"
#include "inputs.hpp"
#include "opened_roof.hpp"
#include "progress.hpp"
#include "project_file.hpp"
#include "report/holiday_sheet.hpp"
#include "report/json_parts.hpp"
#include "report/watering_html.hpp"
#include "report/watering_json.hpp"
#include "report/watering_text.hpp"
#include "studies/water.hpp"
#include "threads.hpp"
#include "today.hpp"
#include "yesterday.hpp"

namespace houseleek::cli {

struct WaterCommand::Options {
  CLI::App* command = nullptr;
  std::string file;
  std::string report_path;
  std::string sheet_path;
  studies::WaterRequest request;
  bool is_json = false;
};

WaterCommand::WaterCommand(CLI::App& app) : options_(std::make_unique<Options>()) {
  Options& options = *options_;
  studies::WaterRequest& request = options.request;
  options.command = app.add_subcommand(
      "water", "What the modules hold today and how long they can wait; cans, seasons, a barrel, salt, feeding");
  CLI::App& command = *options.command;
  command.add_option("FILE", options.file, "the description of the roof (roof.toml), or a project (my-roof.houseleek)")
      ->required();
  command.add_option("--on", request.on, "as of the evening of this day; left away: today")->type_name("DAY");
  add_yesterday_options(command, request.yesterday);
  command.add_option("--filled", request.filled_on, "all was watered until it dripped on this day")->type_name("DAY");
  command.add_option("--can", request.can_l, "how much a can holds, l")->type_name("");
  command.add_option("--years", request.n_years, "years of weather behind seasons and barrel")
      ->check(CLI::Range(1, 100))
      ->type_name("");
  command.add_option("--catchment", request.catchment_m2, "of another roof that feeds the barrel, m2")->type_name("");
  CLI::Option* away_from =
      command.add_option("--away-from", request.away_from, "a neighbour waters from this day")->type_name("DAY");
  command.add_option("--away-to", request.away_to, "to this day")->type_name("DAY");
  command.add_option("--sheet", options.sheet_path, "also write the sheet for the neighbour, to be printed")
      ->type_name("PAGE")
      ->needs(away_from);
  command.add_option("--salt", request.water_ds_per_m, "how salty the water is, mS/cm by a cheap meter")->type_name("");
  command.add_option("--rinse", request.rinse_material, "a found material to be rinsed of salt")->type_name("MATERIAL");
  command.add_option("--rinse-from", request.rinse_first_ms_per_cm, "conductivity of its water now, mS/cm")
      ->type_name("");
  command.add_option("--rinse-to", request.rinse_target_ms_per_cm, "conductivity to come down to, mS/cm")
      ->type_name("");
  command.add_option("--rinse-water", request.rinse_water_ms_per_cm, "conductivity of the rinsing water, mS/cm")
      ->type_name("");
  command.add_option("--report", options.report_path, "also write a page with charts, for browser and paper")
      ->type_name("PAGE");
  command.add_flag("--json", options.is_json, "one JSON document on stdout");
  command.footer(
      "Example: houseleek water my-roof.houseleek --max 34 --min 21 --rain 0 --report water.html\n"
      "         houseleek water my-roof/roof.toml --away-from 2026-08-01 --away-to 2026-08-15 --sheet neighbour.html");
}

WaterCommand::~WaterCommand() = default;

bool WaterCommand::is_chosen() const { return options_->command->parsed(); }

ExitCode WaterCommand::run() const {
  const Options& options = *options_;
  const InterruptWatch interrupt;
  const std::array<const std::string*, 2> paths = {&options.report_path, &options.sheet_path};
  for (const std::string* path : paths) {
    const bool is_twice = path != &options.report_path && !path->empty() && *path == options.report_path;
    if (path->empty() || (!is_twice && !is_same_file(*path, options.file))) continue;
    write_message(fmt::format("houseleek: the page would be written over {}; give it another name\n",
                              is_twice ? "the other page" : "what it is made from"));
    return ExitCode::usage;
  }
  const OpenedRoof roof = open_roof(options.file, options.request.on);
  if (!roof.issues.empty()) return refuse_input("water", roof.issues, roof.issues_text, options.is_json);
  std::optional<NewFile> page;
  std::optional<NewFile> sheet;
  if (!options.report_path.empty()) page.emplace(options.report_path);
  if (!options.sheet_path.empty()) sheet.emplace(options.sheet_path);
  studies::WaterRequest request = options.request;
  request.now_utc_s = now_utc_s();
  request.engine_version = program_version();
  request.input_hash = roof.input_hash;
  request.file = options.file;
  Context context;
  context.is_cancelled = &interrupt.is_interrupted();
  const unsigned n_threads = std::max(1U, std::thread::hardware_concurrency());
  const Result<report::WateringAnswer> answer =
      studies::answer_watering(water_source(roof), request, executor_with_threads(n_threads), context);
  if (!answer) return refuse_input("water", answer.error(), "", options.is_json);
  const report::Json document = report::json_from(answer.value());
  const report::ReportHead head{today_in_words()};
  if (page) page->finish(report::page_of_watering(document, head));
  if (sheet) sheet->finish(report::sheet_for_neighbour(document, head));
  write_answer(options.is_json ? report::text_from(document) : report::text_from(answer.value()));
  if (page) write_message(fmt::format("The page: {}\n", options.report_path));
  if (sheet) write_message(fmt::format("The sheet: {}\n", options.sheet_path));
  return ExitCode::done;
}

}  // namespace houseleek::cli
