// houseleek week: what to do this week, each with the line that ticks it off.
#include "week.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <string>
#include <thread>

#include "base/issue_text.hpp"
#include "embedded.hpp"
#include "files.hpp"
#include "opened_roof.hpp"
#include "project_file.hpp"
#include "report/week_text.hpp"
#include "studies/week.hpp"
#include "threads.hpp"

namespace houseleek::cli {

struct WeekCommand::Options {
  CLI::App* command = nullptr;
  std::string file;
  studies::WeekRequest request;
  bool is_json = false;

  [[nodiscard]] ExitCode refuse(const Issues& issues, std::string_view text) const {
    if (is_json) write_answer(report::text_from(report::json_of_refusal("week", issues)));
    write_message(text_from_issues(issues, text));
    return ExitCode::bad_input;
  }
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
  command.add_option("--max", request.yesterday.max_c, "yesterday's highest air temperature, degC")->type_name("");
  command.add_option("--min", request.yesterday.min_c, "yesterday's lowest air temperature, degC")->type_name("");
  command.add_option("--rain", request.yesterday.rain_mm, "yesterday's rain, mm")->type_name("");
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
  if (!roof.issues.empty()) return options.refuse(roof.issues, roof.issues_text);
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
  if (!answer) return options.refuse(answer.error(), "");
  write_answer(options.is_json ? report::text_from(report::json_from(answer.value()))
                               : report::text_from(answer.value()));
  return ExitCode::done;
}

}  // namespace houseleek::cli
