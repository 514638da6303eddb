// Long work in parts that tell how far they have come.
#pragma once
#include <algorithm>
#include <atomic>
#include <functional>
#include <memory>
#include <vector>

#include "base/context.hpp"
#include "studies/executor.hpp"

namespace houseleek::studies {

/// Does every part, one task each, and tells `context` the share of the whole that is done, parts counted by weight().
/// Shape:    a part owns `std::atomic<double> done_frac` and `double weight()`; work(part, its own context).
/// Errors:   throws what the executor does.
template <class Part, class Work>
void run_parts(const std::vector<std::unique_ptr<Part>>& parts, const Work& work, const Executor& executor,
               const Context& context) {
  double weight = 0.0;
  for (const auto& part : parts) weight += part->weight();
  const std::function<void()> watch = [&] {
    if (!context.on_progress) return;
    double done = 0.0;
    for (const auto& part : parts) done += part->weight() * part->done_frac.load(std::memory_order_relaxed);
    context.on_progress(done / weight);
  };
  std::vector<Task> tasks;
  for (const auto& owned : parts) {
    Part* part = owned.get();
    tasks.emplace_back([part, &work, &context](const std::function<void()>& task_watch) {
      Context of_part;
      of_part.is_cancelled = context.is_cancelled;
      of_part.on_progress = [part, &task_watch](double done_frac) {
        part->done_frac.store(std::min(done_frac, 1.0), std::memory_order_relaxed);
        if (task_watch) task_watch();
      };
      work(*part, of_part);
      part->done_frac.store(1.0, std::memory_order_relaxed);
      if (task_watch) task_watch();
    });
  }
  executor(tasks, watch);
}

}  // namespace houseleek::studies
