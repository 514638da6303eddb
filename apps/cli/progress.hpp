// How far long work has come and how long it still takes, on stderr, for a person who waits.
#pragma once
#include <chrono>
#include <string>

namespace houseleek::cli {

/// "42 %, about 8 s left"; without the time while nothing is done.
[[nodiscard]] std::string progress_words(double done_frac, double elapsed_s);

/// One line that is written over. Silent where stderr is no terminal, and for the first second.
class ProgressLine {
 public:
  ProgressLine();
  ~ProgressLine();
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;
  void show(double done_frac);

 private:
  bool is_terminal_ = false;
  std::chrono::steady_clock::time_point begin_;
  std::string shown_;
};

}  // namespace houseleek::cli
