// Progress and cancelling of long work: a plain flag and a callback, handed in from the program's edge.
#pragma once
#include <atomic>
#include <functional>

namespace houseleek {

struct Context {
  const std::atomic<bool>* is_cancelled = nullptr;    // may be null
  std::function<void(double done_frac)> on_progress;  // may be empty; called from the working thread
};

/// Thrown by long work when the flag was raised; nothing half-done is returned.
class Cancelled {};

inline void check_cancelled(const Context& context) {
  if (context.is_cancelled != nullptr && context.is_cancelled->load(std::memory_order_relaxed)) throw Cancelled{};
}

}  // namespace houseleek
