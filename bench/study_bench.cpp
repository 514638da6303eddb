// The study of the terrace house as a person runs it: wall and processor time of the whole program, beside its bar.
#include <sys/resource.h>
#include <sys/wait.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <thread>

int main() {
  constexpr double bar_s = 20.0;
  const auto start = std::chrono::steady_clock::now();
  const int status = std::system(HOUSELEEK_PROGRAM " study " HOUSELEEK_SOURCE_DIR
                                                   "/examples/01-terrace-house/roof.toml > /dev/null 2>&1");
  const double wall_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  rusage usage{};
  getrusage(RUSAGE_CHILDREN, &usage);
  const double cpu_s = static_cast<double>(usage.ru_utime.tv_sec) + 1e-6 * static_cast<double>(usage.ru_utime.tv_usec);
  std::printf(
      "The study of the terrace house, all rivals, free and held: %.1f s on the clock, %.1f s of processor on %u cores "
      "(bar %.0f s on 2)\n",
      wall_s, cpu_s, std::thread::hardware_concurrency(), bar_s);
  if (status != 0) {
    std::printf("MISSED: the study ended with status %d\n", status);
    return 1;
  }
  if (wall_s > bar_s) {
    std::printf("MISSED: over %.0f s\n", bar_s);
    return 1;
  }
  return 0;
}
