// Long work in the background: one work at a time, with its progress, to be cancelled or asked for.
#include "jobs.hpp"

namespace houseleek::server {

Jobs::~Jobs() {
  const std::lock_guard<std::mutex> guard(lock_);
  if (!job_) return;
  job_->is_cancelled = true;
  job_->thread.join();
}

std::uint64_t Jobs::begin(const std::string& key, Work work) {
  const std::lock_guard<std::mutex> guard(lock_);
  if (job_) {
    const bool has_failed = job_->is_over && (!job_->response || job_->response->status != 200);
    if (job_->key == key && !job_->is_cancelled && !has_failed) return job_->number;
    job_->is_cancelled = true;
    job_->thread.join();  // runs look at the flag many times a second
  }
  job_ = std::make_shared<Job>();
  job_->number = ++last_number_;
  job_->key = key;
  Job* job = job_.get();
  job_->thread = std::thread([job, work = std::move(work)] {
    Context context;
    context.is_cancelled = &job->is_cancelled;
    context.on_progress = [job](double done_frac) { job->done_frac = done_frac; };
    Response response = work(context);
    if (!job->is_cancelled) job->response = std::move(response);
    job->is_over = true;
  });
  return job_->number;
}

JobState Jobs::look(std::uint64_t number) {
  const std::lock_guard<std::mutex> guard(lock_);
  if (!job_ || job_->number != number) return {};
  JobState state{.number = number,
                 .is_over = job_->is_over,
                 .is_cancelled = job_->is_cancelled,
                 .done_frac = job_->done_frac,
                 .response = {}};
  if (state.is_over) state.response = job_->response;
  return state;
}

std::optional<Response> Jobs::latest_answer() {
  const std::lock_guard<std::mutex> guard(lock_);
  if (!job_ || !job_->is_over || !job_->response || job_->response->status != 200) return std::nullopt;
  return job_->response;
}

void Jobs::cancel(std::uint64_t number) {
  const std::lock_guard<std::mutex> guard(lock_);
  if (job_ && job_->number == number) job_->is_cancelled = true;
}

}  // namespace houseleek::server
