// houseleek study: the answer on the terminal or as JSON, and as a report that needs nothing else.
#include "study.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <thread>

#include "embedded.hpp"
#include "files.hpp"
#include "inputs.hpp"
#include "opened_roof.hpp"
#include "progress.hpp"
#include "project_file.hpp"
#include "report/hand_pages.hpp"
#include "report/json_parts.hpp"
#include "report/study_html.hpp"
#include "report/study_json.hpp"
#include "report/study_text.hpp"
#include "report/trial_html.hpp"
#include "studies/bill_answers.hpp"
#include "studies/keep_answer.hpp"
#include "studies/partial.hpp"
#include "studies/store_today.hpp"
#include "studies/trial_judge.hpp"
#include "threads.hpp"
#include "today.hpp"

namespace houseleek::cli {
namespace {

constexpr std::size_t most_first_bytes = 100;  // enough to tell a project from a description

/// The verdicts of a project's trials that have readings; a description has none.
report::Html trials_of(const std::string& path, const design::ValidDesign& design) {
  if (design->trials.empty() || !is_project(read_file(path, most_first_bytes))) return {};
  const store::Project project = open_project_file(path, store::Access::read);
  const studies::ProjectReadings readings = studies::readings_of(project, design->site.time_zone);
  std::vector<report::TrialJudgeAnswer> answers;
  for (std::size_t i = 0; i < design->trials.size(); ++i) {
    report::TrialJudgeAnswer answer = studies::judge_trial(readings, *design, i);
    if (answer.first_day || !answer.scores.empty()) answers.push_back(std::move(answer));
  }
  return report::trials_section(answers);
}

/// A page that is asked for: opened before the work, so that nobody waits for one that cannot be written.
struct AskedPage {
  std::string path;
  std::string_view name;  // as the message has it
  std::optional<NewFile> file;
};

}  // namespace

ExitCode run_study(const StudyArguments& arguments) {
  const InterruptWatch interrupt;
  AskedPage report_page{arguments.report_path, "report", {}};
  AskedPage engineer_page{arguments.engineer_path, "page for the engineer", {}};
  AskedPage roofer_page{arguments.roofer_path, "page for the roofer", {}};
  const std::array<AskedPage*, 3> pages = {&report_page, &engineer_page, &roofer_page};
  for (const AskedPage* page : pages) {
    if (page->path.empty()) continue;
    const bool is_twice = std::any_of(pages.begin(), pages.end(), [page](const AskedPage* other) {
      return other != page && (other->path == page->path || is_same_file(other->path, page->path));
    });
    if (!is_twice && !is_same_file(page->path, arguments.file)) continue;
    write_message(fmt::format("houseleek: the {} would be written over {}; give it another name\n", page->name,
                              is_twice ? "another page" : "the description"));
    return ExitCode::usage;
  }
  if (arguments.keeps_answer && is_refused_description("study --keep", arguments.file)) return ExitCode::usage;
  const OpenedRoof roof = open_roof(arguments.file, arguments.on);
  if (!roof.issues.empty()) return refuse_input("study", roof.issues, roof.issues_text, arguments.is_json);
  if (!roof.evidence && !arguments.on.empty()) {
    write_message("houseleek: --on is for a project and its logbook; a description has none\n");
    return ExitCode::usage;
  }
  const design::ValidDesign& design = *roof.design;
  const bool has_normals = design->climate.normals.has_value();
  if (arguments.n_years.value_or(1) > 1 && !has_normals) {
    write_message("houseleek: more than one year is made from monthly normals; this design's weather is a file\n");
    return ExitCode::usage;
  }
  for (AskedPage* page : pages) {
    if (!page->path.empty()) page->file.emplace(page->path);
  }
  std::optional<store::Project> project;
  if (arguments.keeps_answer) project.emplace(open_project_file(arguments.file, store::Access::write));
  studies::StudyOptions options;
  options.engine_version = program_version();
  options.input_hash = roof.input_hash;
  options.keeps_columns = report_page.file.has_value();
  options.n_years = arguments.n_years.value_or(report_page.file && has_normals ? studies::usual_years : 1);
  options.n_draws = arguments.n_draws;
  options.description = &*roof.description;
  options.tries_assumptions = options.n_years > 1;
  ProgressLine progress;
  Context context;
  context.is_cancelled = &interrupt.is_interrupted();
  context.on_progress = [&progress](double done_frac) { progress.show(done_frac); };
  const unsigned n_threads = std::max(1U, std::thread::hardware_concurrency());
  try {
    const report::StudyAnswer answer =
        studies::study(design, roof.catalogue, *roof.weather, options, executor_with_threads(n_threads), context);
    report::Json document = report::json_from(answer);
    std::string from_logbook;
    document["logbook"] = nullptr;
    if (roof.evidence) {
      const report::LogbookAnswer logbook = answer_logbook(roof, executor_with_threads(n_threads), context);
      document["logbook"] = report::json_from(logbook);
      from_logbook = report::text_from(logbook);
    }
    const report::ReportHead head{today_in_words()};
    const report::Html trials = report_page.file ? trials_of(arguments.file, design) : report::Html();
    if (report_page.file) report_page.file->finish(report::page_of_study(document, *answer.columns, head, trials));
    if (engineer_page.file) engineer_page.file->finish(report::page_for_engineer(document, head));
    if (roofer_page.file) roofer_page.file->finish(report::page_for_roofer(document, head));
    // Kept before it is shown: what a person has seen is there.
    std::int64_t kept = 0;
    if (project) {
      report::Json chosen = {{"n_years", options.n_years}, {"n_draws", options.n_draws}};
      if (roof.evidence) chosen["on"] = roof.evidence->on;
      kept = studies::keep_answer(*project, {"study", roof.file.text, chosen, document, now_utc_s()});
    }
    write_answer(arguments.is_json ? report::text_from(document) : report::text_from(answer) + from_logbook);
    if (project) write_message(fmt::format("Kept in {} as result {}\n", arguments.file, kept));
    for (const AskedPage* page : pages) {
      if (page->file) write_message(fmt::format("The {}: {}\n", page->name, page->path));
    }
    return ExitCode::done;
  } catch (const Cancelled&) {
    // What needs no run is done; a document would look whole.
    if (!arguments.is_json) write_answer(studies::text_without_runs(design, roof.catalogue));
    throw;
  }
}

}  // namespace houseleek::cli
