// A process that writes is killed at a random moment, again and again: what it had acknowledged must be there.
#include "store/kill_loops.hpp"

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <filesystem>
#include <random>
#include <thread>

#include "store/project_files.hpp"
#include "support/temporary_folder.hpp"

namespace houseleek::tests {
namespace {

/// Writes events until it is killed; the number of each goes into the pipe once it is on the disk.
[[noreturn]] void write_until_killed(const std::string& path, int pipe_end) {
  const store::Project project = project_at(path, {.access = store::Access::write});
  while (true) {
    const std::int64_t next = project.database().number_from("SELECT coalesce(max(event), 0) + 1 FROM event");
    const std::int64_t number = store::add_event(project, {watering(static_cast<double>(next)), std::nullopt, next});
    if (write(pipe_end, &number, sizeof number) != sizeof number) _exit(1);
  }
}

}  // namespace

KillCounts kill_while_writing(const KillLoop& loop) {
  const TemporaryFolder folder;
  const std::string path = folder.path() + "/a.houseleek";
  { const store::Project made = new_project_at(path); }
  std::mt19937_64 random(loop.seed);
  KillCounts counts;
  std::int64_t last_acknowledged = 0;
  for (int i = 0; i < loop.n_kills; ++i) {
    int ends[2] = {};
    if (pipe(ends) != 0) {
      ADD_FAILURE() << "no pipe";
      return counts;
    }
    const pid_t child = fork();
    if (child == 0) {
      close(ends[0]);
      write_until_killed(path, ends[1]);
    }
    close(ends[1]);
    const double share = static_cast<double>(random() >> 11U) * 0x1p-53;
    std::this_thread::sleep_for(std::chrono::duration<double>(share * loop.longest_s));
    kill(child, SIGKILL);
    int status = 0;
    waitpid(child, &status, 0);
    EXPECT_TRUE(WIFSIGNALED(status)) << "the writer ended by itself";
    std::int64_t number = 0;
    while (read(ends[0], &number, sizeof number) == sizeof number) {
      EXPECT_EQ(number, last_acknowledged + 1);
      last_acknowledged = number;
      ++counts.n_acknowledged;
    }
    close(ends[0]);
    counts.n_with_journal += std::filesystem::exists(path + "-journal") ? 1 : 0;
    const std::vector<logbook::EventRecord> events = store::read_events(project_at(path));
    const auto n_events = static_cast<std::int64_t>(events.size());
    EXPECT_GE(n_events, last_acknowledged) << "kill " << i;
    // At most the one that was on the disk when the process was killed before it could say so.
    EXPECT_LE(n_events, last_acknowledged + 1) << "kill " << i;
    for (std::int64_t at = 0; at < n_events; ++at) {
      const logbook::EventRecord& event = events[static_cast<std::size_t>(at)];
      EXPECT_EQ(event.number, at + 1);
      EXPECT_EQ(event.event, watering(static_cast<double>(at + 1)));
    }
    counts.n_after_acknowledging += n_events > last_acknowledged ? 1 : 0;
    last_acknowledged = n_events;
  }
  return counts;
}

}  // namespace houseleek::tests
