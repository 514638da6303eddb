// An executor with threads, and the watch over Ctrl-C.
#include "threads.hpp"

#include <unistd.h>

#include <chrono>
#include <condition_variable>
#include <exception>
#include <limits>
#include <mutex>
#include <utility>
#include <vector>

#include "exit_code.hpp"

namespace houseleek::cli {
namespace {

constexpr std::chrono::milliseconds between_looks(100);

/// What the threads of one call share.
struct Shared {
  std::atomic<std::size_t> next = 0;
  std::mutex lock;
  std::condition_variable is_one_done;
  std::size_t n_working = 0;
  std::size_t first_failed = std::numeric_limits<std::size_t>::max();
  std::exception_ptr failure;
};

void work(Shared& shared, std::span<const studies::Task> tasks) {
  for (std::size_t i = shared.next++; i < tasks.size(); i = shared.next++) {
    try {
      tasks[i]({});
    } catch (...) {
      const std::lock_guard<std::mutex> guard(shared.lock);
      if (i < shared.first_failed) {
        shared.first_failed = i;
        shared.failure = std::current_exception();
      }
      shared.next = tasks.size();
    }
  }
  const std::lock_guard<std::mutex> guard(shared.lock);
  --shared.n_working;
  shared.is_one_done.notify_one();
}

}  // namespace

studies::Executor executor_with_threads(unsigned n_threads) {
  return [n_threads](std::span<const studies::Task> tasks, const std::function<void()>& watch) {
    Shared shared;
    shared.n_working = n_threads;
    std::vector<std::thread> threads;
    for (unsigned i = 0; i < n_threads; ++i) threads.emplace_back([&shared, tasks] { work(shared, tasks); });
    {
      std::unique_lock<std::mutex> guard(shared.lock);
      while (shared.n_working > 0) {
        shared.is_one_done.wait_for(guard, between_looks);
        guard.unlock();
        if (watch) watch();
        guard.lock();
      }
    }
    for (std::thread& thread : threads) thread.join();
    if (shared.failure) std::rethrow_exception(shared.failure);
  };
}

InterruptWatch::InterruptWatch() {
  sigemptyset(&signals_);
  sigaddset(&signals_, SIGINT);
  sigaddset(&signals_, SIGTERM);
  pthread_sigmask(SIG_BLOCK, &signals_, &before_);
  thread_ = std::thread([this] { wait_for_signals(); });
}

InterruptWatch::~InterruptWatch() {
  is_over_ = true;
  thread_.join();
  pthread_sigmask(SIG_SETMASK, &before_, nullptr);
}

void InterruptWatch::wait_for_signals() {
  const timespec look{.tv_sec = 0, .tv_nsec = std::chrono::nanoseconds(between_looks).count()};
  while (!is_over_) {
    if (sigtimedwait(&signals_, nullptr, &look) < 0) continue;
    if (is_interrupted_.exchange(true)) _exit(static_cast<int>(ExitCode::interrupted));
  }
}

}  // namespace houseleek::cli
