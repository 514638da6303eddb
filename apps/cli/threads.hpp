// An executor with threads, and the watch over Ctrl-C.
#pragma once
#include <atomic>
#include <csignal>
#include <thread>

#include "studies/executor.hpp"

namespace houseleek::cli {

/// Takes tasks in their order with so many threads; the caller's thread waits, and watches ten times a second. After a
/// task has failed no further one is begun.
[[nodiscard]] studies::Executor executor_with_threads(unsigned n_threads);

/// While it lives, Ctrl-C and a polite request to end raise a flag; the second one ends the program at once. Made
/// before any other thread, so that all of them leave the signals to it.
class InterruptWatch {
 public:
  InterruptWatch();
  ~InterruptWatch();
  InterruptWatch(const InterruptWatch&) = delete;
  InterruptWatch& operator=(const InterruptWatch&) = delete;
  [[nodiscard]] const std::atomic<bool>& is_interrupted() const noexcept { return is_interrupted_; }

 private:
  void wait_for_signals();
  sigset_t signals_{};
  sigset_t before_{};
  std::atomic<bool> is_interrupted_ = false;
  std::atomic<bool> is_over_ = false;
  std::thread thread_;
};

}  // namespace houseleek::cli
