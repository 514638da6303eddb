// Who runs the pieces of long work: handed in by the program's edge, because nothing below it may assume threads.
#pragma once
#include <functional>
#include <span>

namespace houseleek::studies {

/// One piece of work; it may call `watch` as often as it likes, from wherever it runs.
using Task = std::function<void(const std::function<void()>& watch)>;

/// Runs every task once, in any order, and returns when all have ended; throws what the failed task with the least
/// index threw. `watch` is called now and then, always from the thread that called the executor: an executor with
/// threads hands its tasks an empty function and watches while it waits, one without hands `watch` itself on.
using Executor = std::function<void(std::span<const Task> tasks, const std::function<void()>& watch)>;

/// One after the other, in the caller's thread.
inline void run_in_turn(std::span<const Task> tasks, const std::function<void()>& watch) {
  for (const Task& task : tasks) task(watch);
}

}  // namespace houseleek::studies
