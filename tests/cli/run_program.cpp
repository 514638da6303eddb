// The program itself, run as a person runs it.
#include "cli/run_program.hpp"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <thread>

namespace houseleek::tests {
namespace {

std::string text_of_file(const std::string& path) {
  std::ifstream stream(path, std::ios::binary);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

struct Streams {
  std::string out_path;
  std::string err_path;
};

ProgramRun run(const std::vector<std::string>& arguments, const std::string& folder, const Streams& streams,
               double interrupt_after_s, int signal = SIGINT) {
  std::vector<std::string> words = {HOUSELEEK_PROGRAM};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<char*> argv;
  for (std::string& word : words) argv.push_back(word.data());
  argv.push_back(nullptr);
  const pid_t child = fork();
  if (child < 0) throw std::runtime_error("cannot fork");
  if (child == 0) {
    const int out = open(streams.out_path.c_str(), O_WRONLY | O_CREAT, 0600);
    const int err = open(streams.err_path.c_str(), O_WRONLY | O_CREAT, 0600);
    if (out < 0 || err < 0 || chdir(folder.c_str()) != 0) _exit(99);
    dup2(out, STDOUT_FILENO);
    dup2(err, STDERR_FILENO);
    execv(argv.front(), argv.data());
    _exit(99);
  }
  if (interrupt_after_s > 0.0) {
    std::this_thread::sleep_for(std::chrono::duration<double>(interrupt_after_s));
    kill(child, signal);
  }
  int status = 0;
  if (waitpid(child, &status, 0) != child) throw std::runtime_error("cannot wait");
  ProgramRun run;
  run.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  return run;
}

}  // namespace

ProgramRun run_program(const std::vector<std::string>& arguments, const std::string& folder, double interrupt_after_s) {
  const TemporaryFolder own;
  const Streams streams = {own.path() + "/out", own.path() + "/err"};
  ProgramRun result = run(arguments, folder, streams, interrupt_after_s);
  result.out = text_of_file(streams.out_path);
  result.err = text_of_file(streams.err_path);
  return result;
}

ProgramRun run_program_and_kill(const std::vector<std::string>& arguments, double kill_after_s) {
  const TemporaryFolder own;
  const Streams streams = {own.path() + "/out", own.path() + "/err"};
  ProgramRun result = run(arguments, HOUSELEEK_SOURCE_DIR, streams, kill_after_s, SIGKILL);
  result.out = text_of_file(streams.out_path);
  result.err = text_of_file(streams.err_path);
  return result;
}

ProgramRun run_program_into(const std::vector<std::string>& arguments, const std::string& out_path) {
  const TemporaryFolder own;
  const Streams streams = {out_path, own.path() + "/err"};
  ProgramRun result = run(arguments, HOUSELEEK_SOURCE_DIR, streams, 0.0);
  result.err = text_of_file(streams.err_path);
  return result;
}

}  // namespace houseleek::tests
