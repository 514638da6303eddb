// Progress and cancelling of long work: a plain flag and a callback, handed in from the program's edge.
#pragma once
#include <algorithm>
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

/// A part of the work, for whoever waits: from one share of the whole to another. The whole must outlive it.
inline Context part_of(const Context& whole, double from_frac, double to_frac) {
  Context part;
  part.is_cancelled = whole.is_cancelled;
  if (!whole.on_progress) return part;
  part.on_progress = [&whole, from_frac, to_frac](double done_frac) {
    // Shares that are added up may come to a little more than one.
    whole.on_progress(from_frac + (to_frac - from_frac) * std::min(done_frac, 1.0));
  };
  return part;
}

}  // namespace houseleek
