// The description or project that a page works on: read anew for every question, saved only over what the page has seen.
#include "roof_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <filesystem>

#include "base/contract.hpp"
#include "base/sha256.hpp"
#include "design/limits.hpp"
#include "files.hpp"
#include "project_file.hpp"
#include "store/records.hpp"
#include "studies/keep_design.hpp"

namespace houseleek::server {
namespace {

constexpr std::string_view back_to = "back to revision ";

/// While it lives, no other window and no other run of this program saves into the folder.
class FolderLock {
 public:
  explicit FolderLock(const std::string& path) {
    const std::string folder = std::filesystem::absolute(path).parent_path().string();
    descriptor_ = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    // A folder that gives no handle cannot be locked; the check of the revision stays.
    if (descriptor_ >= 0) (void)flock(descriptor_, LOCK_EX);
  }
  ~FolderLock() {
    if (descriptor_ >= 0) close(descriptor_);
  }
  FolderLock(const FolderLock&) = delete;
  FolderLock& operator=(const FolderLock&) = delete;

 private:
  int descriptor_ = -1;
};

std::string revision_of(const std::string& text) { return "sha256:" + sha256_hex(text); }

/// The step that holds the text for the first time.
std::size_t origin_of(const std::vector<Step>& steps, std::size_t index) {
  return steps[index].is_of ? *steps[index].is_of : index;
}

std::optional<std::size_t> step_before(const std::vector<Step>& steps, std::size_t origin) {
  if (origin == 0) return std::nullopt;
  return origin_of(steps, origin - 1);
}

std::vector<Step> steps_of(const std::vector<store::Revision>& revisions) {
  std::vector<Step> steps;
  for (const store::Revision& revision : revisions) {
    Step step{std::to_string(revision.number), std::nullopt, revision.note};
    if (revision.note.rfind(back_to, 0) == 0) {
      std::size_t number = 0;
      const char* begin = revision.note.data() + back_to.size();
      const char* end = revision.note.data() + revision.note.size();
      const bool is_number = std::from_chars(begin, end, number).ptr == end && number >= 1;
      // A note that somebody wrote by hand is no step back unless the texts agree.
      if (is_number && number <= steps.size() && revisions[number - 1].toml_text == revision.toml_text) {
        step.is_of = origin_of(steps, number - 1);
      }
    }
    steps.push_back(std::move(step));
  }
  return steps;
}

}  // namespace

Around around(const std::vector<Step>& steps) {
  if (steps.empty()) return {};
  const std::size_t here = origin_of(steps, steps.size() - 1);
  Around around;
  around.undo = step_before(steps, here);
  for (std::size_t i = steps.size(); i > 0; --i) {
    if (!steps[i - 1].is_of && step_before(steps, i - 1) == here) {
      around.redo = i - 1;
      break;
    }
  }
  return around;
}

struct RoofFile::Now {
  RoofState state;
  std::vector<Step> steps;
  std::vector<std::string> texts;  // of the steps
};

RoofFile::Now RoofFile::now() {
  Now now;
  std::error_code ignored;  // reading says it better
  if (!std::filesystem::exists(path_, ignored)) {
    now.state.file.name = path_;
    now.state.is_project = std::filesystem::path(path_).extension() != ".toml";
    return now;
  }
  now.state.is_there = true;
  std::string text = cli::read_file(path_, design::limits::file.max_bytes);
  now.state.is_project = cli::is_project(text);
  if (now.state.is_project) {
    const store::Project project = cli::open_project_file(path_, store::Access::read);
    const std::vector<store::Revision> revisions = store::read_revisions(project);
    expects(!revisions.empty(), "a project with a design");
    now.steps = steps_of(revisions);
    for (const store::Revision& revision : revisions) now.texts.push_back(revision.toml_text);
    now.state.file = {fmt::format("{} revision {}", path_, revisions.back().number), revisions.back().toml_text};
    now.state.revision = std::to_string(revisions.back().number);
  } else {
    now.state.file = {path_, text};
    now.state.revision = revision_of(text);
    // What somebody has changed in an editor is a step as well.
    if (texts_.empty() || texts_.back() != text) {
      steps_.push_back({now.state.revision, std::nullopt, ""});
      texts_.push_back(std::move(text));
    }
    now.steps = steps_;
    now.texts = texts_;
  }
  const Around near = around(now.steps);
  now.state.n_steps = now.steps.size();
  now.state.can_undo = near.undo.has_value();
  now.state.can_redo = near.redo.has_value();
  return now;
}

RoofState RoofFile::read() {
  const std::lock_guard<std::mutex> guard(lock_);
  return now().state;
}

SaveOutcome RoofFile::write(const Now& now, const std::string& text, const std::string& note,
                            std::optional<std::size_t> is_of) {
  if (!now.state.is_project) {
    cli::NewFile(path_).finish(text);
    if (texts_.empty() || texts_.back() != text) {
      steps_.push_back({revision_of(text), is_of, note});
      texts_.push_back(text);
    }
    return {false, revision_of(text)};
  }
  if (!now.state.is_there) {
    cli::make_project_file(path_, [&](const store::Project& project) {
      (void)studies::keep_design(project, {path_, text}, note, cli::now_utc_s());
    });
    return {false, "1"};
  }
  const store::Project project = cli::open_project_file(path_, store::Access::write);
  return {false, std::to_string(studies::keep_design(project, {path_, text}, note, cli::now_utc_s()).revision)};
}

std::string RoofFile::path() {
  const std::lock_guard<std::mutex> guard(lock_);
  return path_;
}

bool RoofFile::become_project() {
  const std::lock_guard<std::mutex> guard(lock_);
  const Now here = now();
  const std::string path = std::filesystem::path(path_).replace_extension(".houseleek").string();
  if (here.state.is_project || std::filesystem::exists(path)) return false;
  cli::make_project_file(path, [&](const store::Project& project) {
    (void)studies::keep_design(project, here.state.file, "from the description", cli::now_utc_s());
  });
  path_ = path;
  return true;
}

SaveOutcome RoofFile::save(const std::string& from, const std::string& text, const std::string& note) {
  const std::lock_guard<std::mutex> guard(lock_);
  const FolderLock folder(path_);
  const Now here = now();
  if (here.state.revision != from) return {true, here.state.revision};
  return write(here, text, note, std::nullopt);
}

SaveOutcome RoofFile::step(const std::string& from, Way way) {
  const std::lock_guard<std::mutex> guard(lock_);
  const FolderLock folder(path_);
  const Now here = now();
  if (here.state.revision != from) return {true, here.state.revision};
  const Around near = around(here.steps);
  const std::optional<std::size_t> to = way == Way::undo ? near.undo : near.redo;
  if (!to) return {false, here.state.revision};
  return write(here, here.texts[*to], fmt::format("{}{}", back_to, *to + 1), to);
}

}  // namespace houseleek::server
