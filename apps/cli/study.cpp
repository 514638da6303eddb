// houseleek study: the answer on the terminal or as JSON, and as a report that needs nothing else.
#include "study.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <ctime>
#include <optional>
#include <thread>

#include "base/issue_text.hpp"
#include "embedded.hpp"
#include "files.hpp"
#include "inputs.hpp"
#include "progress.hpp"
#include "project_file.hpp"
#include "report/json_parts.hpp"
#include "report/study_html.hpp"
#include "report/study_json.hpp"
#include "report/study_text.hpp"
#include "studies/keep_answer.hpp"
#include "studies/open_design.hpp"
#include "studies/partial.hpp"
#include "threads.hpp"

namespace houseleek::cli {
namespace {

ExitCode refuse(const Issues& issues, std::string_view text, const StudyArguments& arguments) {
  if (arguments.is_json) write_answer(report::text_from(report::json_of_refusal("study", issues)));
  write_message(text_from_issues(issues, text));
  return ExitCode::bad_input;
}

/// 25 November 2026, by the clock of this machine.
std::string today() {
  constexpr std::array<std::string_view, 12> months = {"January",   "February", "March",    "April",
                                                       "May",       "June",     "July",     "August",
                                                       "September", "October",  "November", "December"};
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  if (localtime_r(&now, &local) == nullptr) throw WorldFailed("this machine's clock tells no date");
  return fmt::format("{} {} {}", local.tm_mday, months.at(static_cast<std::size_t>(local.tm_mon)),
                     local.tm_year + 1900);
}

}  // namespace

ExitCode run_study(const StudyArguments& arguments) {
  const InterruptWatch interrupt;
  if (!arguments.report_path.empty() && is_same_file(arguments.report_path, arguments.file)) {
    write_message("houseleek: the report would be written over the description; give --report another name\n");
    return ExitCode::usage;
  }
  if (arguments.keeps_answer && is_refused_description("study --keep", arguments.file)) return ExitCode::usage;
  const studies::NamedText file = read_design_file(arguments.file);
  const catalogue::Catalogue catalogue = read_embedded_catalogue();
  const Result<design::RawDesign> description = design::parse_design(file.text, file.name);
  if (!description) return refuse(description.error(), file.text, arguments);
  const Result<design::ValidDesign> design = design::validate_design(description.value(), catalogue);
  if (!design) return refuse(design.error(), file.text, arguments);
  const bool has_normals = design.value()->climate.normals.has_value();
  if (arguments.n_years.value_or(1) > 1 && !has_normals) {
    write_message("houseleek: more than one year is made from monthly normals; this design's weather is a file\n");
    return ExitCode::usage;
  }
  const std::optional<studies::NamedText> weather_file = read_weather_file(design.value(), arguments.file);
  const Result<climate::WeatherYear> weather = studies::open_weather(design.value(), file, weather_file);
  if (!weather) return refuse(weather.error(), weather_file ? weather_file->text : file.text, arguments);
  // Before the work, so that nobody waits for a report that cannot be written.
  std::optional<NewFile> page;
  if (!arguments.report_path.empty()) page.emplace(arguments.report_path);
  std::optional<store::Project> project;
  if (arguments.keeps_answer) project.emplace(open_project_file(arguments.file, store::Access::write));
  studies::StudyOptions options;
  options.engine_version = program_version();
  options.input_hash = studies::input_hash(embedded_catalogue(), file, weather_file);
  options.keeps_columns = page.has_value();
  options.n_years = arguments.n_years.value_or(page && has_normals ? studies::usual_years : 1);
  options.n_draws = arguments.n_draws;
  if (options.n_years > 1) options.description = &description.value();
  ProgressLine progress;
  Context context;
  context.is_cancelled = &interrupt.is_interrupted();
  context.on_progress = [&progress](double done_frac) { progress.show(done_frac); };
  const unsigned n_threads = std::max(1U, std::thread::hardware_concurrency());
  try {
    const report::StudyAnswer answer =
        studies::study(design.value(), catalogue, weather.value(), options, executor_with_threads(n_threads), context);
    const report::Json document = report::json_from(answer);
    if (page) page->finish(report::page_of_study(document, *answer.columns, {today()}));
    // Kept before it is shown: what a person has seen is there.
    std::int64_t kept = 0;
    if (project) {
      const report::Json chosen = {{"n_years", options.n_years}, {"n_draws", options.n_draws}};
      kept = studies::keep_answer(*project, {"study", file.text, chosen, document, now_utc_s()});
    }
    write_answer(arguments.is_json ? report::text_from(document) : report::text_from(answer));
    if (project) write_message(fmt::format("Kept in {} as result {}\n", arguments.file, kept));
    if (page) write_message(fmt::format("The report: {}\n", arguments.report_path));
    return ExitCode::done;
  } catch (const Cancelled&) {
    // What needs no run is done; a document would look whole.
    if (!arguments.is_json) write_answer(studies::text_without_runs(design.value(), catalogue));
    throw;
  }
}

}  // namespace houseleek::cli
