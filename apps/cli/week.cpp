// houseleek week: what to do this week, each with the line that ticks it off.
#include "week.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <string>
#include <thread>

#include "embedded.hpp"
#include "files.hpp"
#include "inputs.hpp"
#include "opened_roof.hpp"
#include "project_file.hpp"
#include "report/week_text.hpp"
#include "studies/week.hpp"
#include "threads.hpp"
#include "yesterday.hpp"

namespace houseleek::cli {

struct WeekCommand::Options {
  CLI::App* command = nullptr;
  std::string file;
  studies::WeekRequest request;
  bool is_json = false;
};

WeekCommand::WeekCommand(CLI::App& app) : options_(std::make_unique<Options>()) {
  Options& options = *options_;
  studies::WeekRequest& request = options.request;
  options.command = app.add_subcommand(
      "week", "What to do this week: water, look at, lift, cover, read off, feed, buy; and how to tick it off");
  CLI::App& command = *options.command;
  command.add_option("FILE", options.file, "the description of the roof (roof.toml), or a project (my-roof.houseleek)")
      ->required();
  command.add_option("--on", request.on, "the week that begins on this day; left away: today")->type_name("DAY");
  add_yesterday_options(command, request.yesterday);
  command.add_option("--can", request.can_l, "how much a can holds, l")->type_name("");
  command.add_option("--gust", request.gust_km_per_h, "a storm is announced, with gusts of this many km/h")
      ->type_name("");
  command.add_flag("--json", options.is_json, "one JSON document on stdout");
  command.footer("Example: houseleek week my-roof.houseleek --max 34 --min 21 --rain 0");
}

WeekCommand::~WeekCommand() = default;

bool WeekCommand::is_chosen() const { return options_->command->parsed(); }

ExitCode WeekCommand::run() const {
  const Options& options = *options_;
  const InterruptWatch interrupt;
  const OpenedRoof roof = open_roof(options.file, options.request.on);
  if (!roof.issues.empty()) return refuse_input("week", roof.issues, roof.issues_text, options.is_json);
  studies::WeekRequest request = options.request;
  request.now_utc_s = now_utc_s();
  request.engine_version = program_version();
  request.input_hash = roof.input_hash;
  request.file = options.file;
  Context context;
  context.is_cancelled = &interrupt.is_interrupted();
  const unsigned n_threads = std::max(1U, std::thread::hardware_concurrency());
  const Result<report::WeekAnswer> answer =
      studies::answer_week(water_source(roof), request, executor_with_threads(n_threads), context);
  if (!answer) return refuse_input("week", answer.error(), "", options.is_json);
  write_answer(options.is_json ? report::text_from(report::json_from(answer.value()))
                               : report::text_from(answer.value()));
  return ExitCode::done;
}

}  // namespace houseleek::cli
