// Long work in the background: one work at a time, with its progress, to be cancelled or asked for.
#pragma once
#include <atomic>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

#include "base/context.hpp"
#include "http.hpp"

namespace houseleek::server {

struct JobState {
  std::uint64_t number = 0;  // 0: there is no such work
  bool is_over = false;
  bool is_cancelled = false;
  double done_frac = 0.0;
  std::optional<Response> response;  // once it is over and was not cancelled
};

class Jobs {
 public:
  using Work = std::function<Response(const Context&)>;

  Jobs() = default;
  ~Jobs();
  Jobs(const Jobs&) = delete;
  Jobs& operator=(const Jobs&) = delete;

  /// Begins work; what is still going on is cancelled first. The same `key` as the latest work's: that one goes on, and
  /// its number comes back.
  [[nodiscard]] std::uint64_t begin(const std::string& key, Work work);
  [[nodiscard]] JobState look(std::uint64_t number);
  /// Of the latest work, where it has come to its end well.
  [[nodiscard]] std::optional<Response> latest_answer();
  void cancel(std::uint64_t number);

 private:
  struct Job {
    std::uint64_t number = 0;
    std::string key;
    std::atomic<bool> is_cancelled = false;
    std::atomic<bool> is_over = false;
    std::atomic<double> done_frac = 0.0;
    std::optional<Response> response;  // written before is_over
    std::thread thread;
  };
  std::mutex lock_;
  std::uint64_t last_number_ = 0;
  std::shared_ptr<Job> job_;
};

}  // namespace houseleek::server
