// The description or project that a page works on: read anew for every question, saved only over what the page has seen.
#pragma once
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "studies/weather.hpp"

namespace houseleek::server {

/// One saved state, in the order of saving.
struct Step {
  std::string revision;              // its name outside: a project's number, or the hash of a description's text
  std::optional<std::size_t> is_of;  // index of the step whose text it brings back; nothing for a change
  std::string note;
};

/// What can be undone and redone from the newest step. Undoing and redoing are saved as steps of their own, so that
/// nothing that was saved is ever gone.
struct Around {
  std::optional<std::size_t> undo;
  std::optional<std::size_t> redo;
};
[[nodiscard]] Around around(const std::vector<Step>& steps);

struct RoofState {
  bool is_there = false;
  bool is_project = false;
  studies::NamedText file;
  std::string revision;
  std::size_t n_steps = 0;
  bool can_undo = false;
  bool can_redo = false;
};

struct SaveOutcome {
  bool is_stale = false;  // somebody else has saved meanwhile: nothing was written
  std::string revision;   // the newest, after it
};

class RoofFile {
 public:
  explicit RoofFile(std::string path) : path_(std::move(path)) {}
  [[nodiscard]] std::string path();

  /// Errors: cli::WorldFailed, store::StoreError.
  [[nodiscard]] RoofState read();
  /// Writes a text if the newest revision is still `from`; "" where there was no file yet. Errors: as above.
  [[nodiscard]] SaveOutcome save(const std::string& from, const std::string& text, const std::string& note);
  /// Makes a project beside a description and goes on with it; the description stays as it is. False where a file of that
  /// name is there already. Errors: as above.
  [[nodiscard]] bool become_project();
  enum class Way { undo, redo };
  /// Nothing to do: the outcome's revision is `from`. Errors: as above.
  [[nodiscard]] SaveOutcome step(const std::string& from, Way way);

 private:
  struct Now;
  [[nodiscard]] Now now();
  [[nodiscard]] SaveOutcome write(const Now& now, const std::string& text, const std::string& note,
                                  std::optional<std::size_t> is_of);
  std::string path_;
  std::mutex lock_;
  // Of a description, which keeps no revisions itself: its texts since it was opened.
  std::vector<Step> steps_;
  std::vector<std::string> texts_;
};

}  // namespace houseleek::server
