// How far long work has come and how long it still takes, on stderr, for a person who waits.
#include "progress.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>

#include "files.hpp"

namespace houseleek::cli {
namespace {

constexpr double silent_s = 1.0;
constexpr double least_frac_to_guess = 0.02;

}  // namespace

std::string progress_words(double done_frac, double elapsed_s) {
  const std::string done = fmt::format("{:.0f} %", 100.0 * done_frac);
  if (done_frac < least_frac_to_guess) return done;
  const double left_s = elapsed_s * (1.0 - done_frac) / done_frac;
  return fmt::format("{}, about {:.0f} s left", done, std::ceil(left_s));
}

ProgressLine::ProgressLine() : is_terminal_(isatty(STDERR_FILENO) == 1), begin_(std::chrono::steady_clock::now()) {}

ProgressLine::~ProgressLine() {
  if (!shown_.empty()) write_message(fmt::format("\r{}\r", std::string(shown_.size(), ' ')));
}

void ProgressLine::show(double done_frac) {
  if (!is_terminal_) return;
  const double elapsed_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - begin_).count();
  if (elapsed_s < silent_s) return;
  std::string words = fmt::format("study: {}", progress_words(done_frac, elapsed_s));
  if (words == shown_) return;
  const std::size_t width = std::max(words.size(), shown_.size());
  shown_ = words;
  words.resize(width, ' ');
  write_message(fmt::format("\r{}", words));
}

}  // namespace houseleek::cli
