// The one door behind the page: a request document in, the answer document of a study out.
#pragma once
#include <mutex>
#include <string>

#include "http.hpp"
#include "jobs.hpp"
#include "report/json_parts.hpp"
#include "roof_file.hpp"
#include "studies/quick.hpp"

namespace houseleek::server {

/// Answers POST /api/NAME. Documents are those of the command line's --json where it has such a command.
/// 422 with the list of issues where something is wrong with what was asked or with the description, 409 where somebody
/// else has saved meanwhile, 503 where the world failed.
class Door {
 public:
  explicit Door(std::string path) : roof_(std::move(path)) {}
  [[nodiscard]] Response answer(const std::string& name, const std::string& body);

 private:
  using Json = report::Json;
  [[nodiscard]] Response answer_guarded(const std::string& name, const Json& asked);
  [[nodiscard]] Response answer_state();
  [[nodiscard]] Response answer_choices();
  [[nodiscard]] Response answer_edit(const Json& asked);
  [[nodiscard]] Response answer_text(const Json& asked);
  [[nodiscard]] Response answer_replace(const Json& asked);
  [[nodiscard]] Response answer_new(const Json& asked);
  [[nodiscard]] Response make_project();
  [[nodiscard]] Response answer_step(const Json& asked, RoofFile::Way way);
  [[nodiscard]] Response answer_quick(const Json& asked);
  [[nodiscard]] Response begin_study(const Json& asked);
  [[nodiscard]] Response look_at_job(Jobs& jobs, const Json& asked);
  [[nodiscard]] Response answer_hand_page(const Json& asked);
  [[nodiscard]] Response cancel_job(const Json& asked);
  [[nodiscard]] Response begin_week(const Json& asked);
  [[nodiscard]] Response note_event(const Json& asked);
  [[nodiscard]] Response saved(const SaveOutcome& outcome, const std::string& from);

  RoofFile roof_;
  Jobs jobs_;
  Jobs week_jobs_;  // beside the study, which takes longer
  std::mutex quick_lock_;
  studies::QuickMemory quick_memory_;
};

}  // namespace houseleek::server
