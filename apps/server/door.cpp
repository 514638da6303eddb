// The one door behind the page: a request document in, the answer document of a study out.
#include "door.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <thread>

#include "embedded.hpp"
#include "files.hpp"
#include "guard.hpp"
#include "inputs.hpp"
#include "opened_roof.hpp"
#include "project_file.hpp"
#include "report/hand_pages.hpp"
#include "report/study_json.hpp"
#include "report/week_text.hpp"
#include "simulation/run.hpp"
#include "store/records.hpp"
#include "studies/drawing.hpp"
#include "studies/edit.hpp"
#include "studies/first_design.hpp"
#include "studies/keep_design.hpp"
#include "studies/logbook.hpp"
#include "studies/logbook_day.hpp"
#include "studies/study.hpp"
#include "studies/week.hpp"
#include "threads.hpp"
#include "tick.hpp"
#include "today.hpp"

namespace houseleek::server {
namespace {

using report::Json;

Response document(const Json& json, int status = 200) {
  return {status, "application/json; charset=utf-8", report::text_from(json)};
}

Response refusal(std::string_view command, const Issues& issues) {
  return document(report::json_of_refusal(command, issues), 422);
}

std::string text_of(const Json& asked, std::string_view key) {
  const auto found = asked.find(key);
  return found != asked.end() && found->is_string() ? found->get<std::string>() : std::string();
}

std::uint64_t number_of(const Json& asked, std::string_view key) {
  const auto found = asked.find(key);
  return found != asked.end() && found->is_number_unsigned() ? found->get<std::uint64_t>() : 0;
}

bool is_true(const Json& asked, std::string_view key) {
  const auto found = asked.find(key);
  return found != asked.end() && found->is_boolean() && found->get<bool>();
}

unsigned n_threads() { return std::max(1U, std::thread::hardware_concurrency()); }

}  // namespace

Response Door::answer(const std::string& name, const std::string& body) {
  const Json asked = body.empty() ? Json::object() : Json::parse(body, nullptr, false);
  if (!asked.is_object()) return failure(400, "the request is no JSON document");
  try {
    return answer_guarded(name, asked);
  } catch (const Cancelled&) {
    return failure(409, "cancelled");
  } catch (const cli::WorldFailed& failed) {
    return failure(503, failed.what());
  } catch (const store::StoreError& failed) {
    return failure(503, failed.what());
  } catch (const std::filesystem::filesystem_error& failed) {
    return failure(503, failed.what());
  } catch (const simulation::NumericalFailure& failed) {
    return failure(500, fmt::format("the solver did not converge: {}", failed.what()));
  } catch (const std::exception& failed) {
    return failure(500, fmt::format("our own mistake, please report it: {}", failed.what()));
  }
}

Response Door::answer_guarded(const std::string& name, const Json& asked) {
  if (name == "state") return answer_state();
  if (name == "questions") return document(studies::first_questions());
  if (name == "choices") return answer_choices();
  if (name == "edit") return answer_edit(asked);
  if (name == "text") return answer_text(asked);
  if (name == "replace") return answer_replace(asked);
  if (name == "new") return answer_new(asked);
  if (name == "make_project") return make_project();
  if (name == "undo") return answer_step(asked, RoofFile::Way::undo);
  if (name == "redo") return answer_step(asked, RoofFile::Way::redo);
  if (name == "quick") return answer_quick(asked);
  if (name == "study") return begin_study(asked);
  if (name == "job") return look_at_job(jobs_, asked);
  if (name == "cancel") return cancel_job(asked);
  if (name == "hand_page") return answer_hand_page(asked);
  if (name == "week") return begin_week(asked);
  if (name == "week_job") return look_at_job(week_jobs_, asked);
  if (name == "log") return note_event(asked);
  return failure(404, "there is no such request");
}

Response Door::answer_state() {
  const RoofState state = roof_.read();
  Json json = {{"answer", "state"},
               {"file", std::filesystem::path(roof_.path()).filename().string()},
               {"is_there", state.is_there},
               {"is_project", state.is_project},
               {"revision", state.revision},
               {"n_steps", state.n_steps},
               {"can_undo", state.can_undo},
               {"can_redo", state.can_redo},
               {"version", cli::program_version()},
               {"issues", Json::array()},
               {"drawing", nullptr}};
  if (!state.is_there) return document(json);
  const catalogue::Catalogue catalogue = cli::read_embedded_catalogue();
  const Result<design::ValidDesign> design = design::read_design(state.file.text, state.file.name, catalogue);
  if (design) {
    json["drawing"] = studies::draw_description(design.value());
  } else {
    json["issues"] = report::json_from_issues(design.error());
  }
  return document(json);
}

Response Door::answer_choices() {
  const catalogue::Catalogue catalogue = cli::read_embedded_catalogue();
  const RoofState state = roof_.read();
  const Result<design::ValidDesign> design = design::read_design(state.file.text, state.file.name, catalogue);
  return document(studies::list_choices(catalogue, design ? &design.value() : nullptr));
}

Response Door::saved(const SaveOutcome& outcome, const std::string& from) {
  if (!outcome.is_stale) return answer_state();
  return document({{"error", "somebody else has saved meanwhile, in another window or an editor"},
                   {"from", from},
                   {"revision", outcome.revision}},
                  409);
}

Response Door::answer_edit(const Json& asked) {
  const RoofState state = roof_.read();
  const std::string from = text_of(asked, "from");
  if (state.revision != from) return saved({true, state.revision}, from);
  const Result<std::string> text =
      studies::edit_description(state.file, asked.value("changes", Json::array()), cli::read_embedded_catalogue());
  if (!text) return refusal("edit", text.error());
  return saved(roof_.save(from, text.value(), text_of(asked, "note")), from);
}

Response Door::answer_text(const Json&) {
  const RoofState state = roof_.read();
  return document({{"answer", "text"}, {"revision", state.revision}, {"text", state.file.text}});
}

Response Door::answer_replace(const Json& asked) {
  const std::string from = text_of(asked, "from");
  const std::string text = text_of(asked, "text");
  const Issues issues = studies::issues_of_design({roof_.path(), text}, cli::read_embedded_catalogue());
  if (!issues.empty()) return refusal("replace", issues);
  return saved(roof_.save(from, text, text_of(asked, "note")), from);
}

Response Door::answer_new(const Json& asked) {
  if (roof_.read().is_there) return failure(409, "there is a roof in this file already");
  const Result<std::string> text =
      studies::first_design(asked.value("answers", Json::object()), cli::read_embedded_catalogue());
  if (!text) return refusal("new", text.error());
  return saved(roof_.save("", text.value(), "the first description"), "");
}

Response Door::make_project() {
  const RoofState state = roof_.read();
  const catalogue::Catalogue catalogue = cli::read_embedded_catalogue();
  const Issues issues = studies::issues_of_design(state.file, catalogue);
  if (!issues.empty()) return refusal("make_project", issues);
  if (roof_.become_project()) return answer_state();
  return refusal("make_project",
                 {inconsistent_issue("file", "", "there is a project of that name already", "open that one")});
}

Response Door::answer_step(const Json& asked, RoofFile::Way way) {
  const std::string from = text_of(asked, "from");
  return saved(roof_.step(from, way), from);
}

Response Door::answer_quick(const Json& asked) {
  const cli::OpenedRoof roof = cli::open_roof(roof_.path(), "");
  if (!roof.issues.empty()) return refusal("quick", roof.issues);
  const studies::QuickOptions options{std::string(cli::program_version()), roof.input_hash, {}};
  if (is_true(asked, "without_runs"))
    return document(report::json_from(studies::answer_without_runs(*roof.design, options)));
  const std::lock_guard<std::mutex> guard(quick_lock_);
  return document(report::json_from(studies::answer_quickly(*roof.design, *roof.weather, options, quick_memory_,
                                                            cli::executor_with_threads(n_threads()), {})));
}

Response Door::begin_study(const Json&) {
  auto roof = std::make_shared<const cli::OpenedRoof>(cli::open_roof(roof_.path(), ""));
  if (!roof->issues.empty()) return refusal("study", roof->issues);
  const std::uint64_t number = jobs_.begin(roof->input_hash, [roof](const Context& context) -> Response {
    studies::StudyOptions options;
    options.engine_version = cli::program_version();
    options.input_hash = roof->input_hash;
    options.description = &*roof->description;
    try {
      // One thread is left to quick answers.
      const studies::Executor executor = cli::executor_with_threads(std::max(1U, n_threads() - 1));
      const report::StudyAnswer answer =
          studies::study(*roof->design, roof->catalogue, *roof->weather, options, executor, context);
      Json json = report::json_from(answer);
      json["logbook"] =
          roof->evidence ? report::json_from(cli::answer_logbook(*roof, executor, context)) : Json(nullptr);
      return document(json);
    } catch (const Cancelled&) {
      return failure(409, "cancelled");
    } catch (const std::exception& failed) {
      return failure(500, fmt::format("the study failed: {}", failed.what()));
    }
  });
  return document({{"answer", "job"}, {"job", number}});
}

Response Door::look_at_job(Jobs& jobs, const Json& asked) {
  const JobState state = jobs.look(number_of(asked, "job"));
  if (state.number == 0) return failure(404, "there is no such work");
  if (state.response && state.response->status != 200) return *state.response;
  Json json = {{"answer", "job"},
               {"job", state.number},
               {"is_over", state.is_over},
               {"is_cancelled", state.is_cancelled},
               {"done_frac", state.done_frac},
               {"result", nullptr}};
  if (state.response) json["result"] = Json::parse(state.response->body);
  return document(json);
}

Response Door::answer_hand_page(const Json& asked) {
  const std::optional<Response> answered = jobs_.latest_answer();
  if (!answered) return failure(404, "there is no full answer yet");
  const Json study = Json::parse(answered->body);
  const bool is_engineer = text_of(asked, "kind") == "engineer";
  const report::ReportHead head{cli::today_in_words()};
  const std::string html = is_engineer ? report::page_for_engineer(study, head) : report::page_for_roofer(study, head);
  return document(
      {{"answer", "hand_page"}, {"name", is_engineer ? "for-an-engineer.html" : "for-a-roofer.html"}, {"html", html}});
}

Response Door::cancel_job(const Json& asked) {
  jobs_.cancel(number_of(asked, "job"));
  return document({{"answer", "cancel"}});
}

Response Door::begin_week(const Json& asked) {
  studies::WeekRequest request;
  request.on = text_of(asked, "on");
  request.now_utc_s = cli::now_utc_s();
  request.engine_version = cli::program_version();
  request.file = roof_.path();
  auto roof = std::make_shared<const cli::OpenedRoof>(cli::open_roof(request.file, request.on));
  if (!roof->issues.empty()) return refusal("week", roof->issues);
  request.input_hash = roof->input_hash;
  // Readings of loggers and the day are no part of the hash of what the roof is.
  std::size_t n_readings = 0;
  for (const logbook::LoggerColumn& column : cli::water_source(*roof).loggers) n_readings += column.time_s.size();
  const Result<studies::LogbookDay> day =
      studies::logbook_day(request.on, (*roof->design)->site.time_zone, request.now_utc_s);
  if (!day) return refusal("week", day.error());
  const std::string key = fmt::format("{} {} {} {}", request.file, roof->input_hash, day.value().today, n_readings);
  const std::uint64_t number = week_jobs_.begin(key, [roof, request](const Context& context) -> Response {
    try {
      // One thread is left to quick answers.
      const Result<report::WeekAnswer> answer = studies::answer_week(
          cli::water_source(*roof), request, cli::executor_with_threads(std::max(1U, n_threads() - 1)), context);
      if (!answer) return refusal("week", answer.error());
      Json ticks = Json::object();
      for (const report::WeekItem& item : answer.value().items) ticks[item.id] = tick_of(item, request.file);
      return document({{"week", report::json_from(answer.value())}, {"ticks", std::move(ticks)}});
    } catch (const Cancelled&) {
      return failure(409, "cancelled");
    } catch (const std::exception& failed) {
      return failure(500, fmt::format("the week failed: {}", failed.what()));
    }
  });
  return document({{"answer", "job"}, {"job", number}});
}

Response Door::note_event(const Json& asked) {
  if (!roof_.read().is_project) {
    return refusal("log",
                   {inconsistent_issue("file", "", "a description keeps no logbook",
                                       "make a project of it: houseleek import roof.toml --to my-roof.houseleek")});
  }
  studies::LogRequest request;
  request.now_utc_s = cli::now_utc_s();
  request.words.kind = text_of(asked, "kind");
  const Json fields = asked.value("fields", Json::object());
  for (const auto& [key, value] : fields.items()) {
    if (value.is_string()) request.words.fields.emplace_back(key, value.get<std::string>());
  }
  const store::Project project = cli::open_project_file(roof_.path(), store::Access::write);
  const Result<logbook::EventRecord> record = studies::log_event(project, request);
  if (!record) return refusal("log", record.error());
  return document({{"answer", "log"}, {"noted", record.value().number}});
}

}  // namespace houseleek::server
