// houseleek open: the page on this machine, for a person who does not use a terminal.
#include "open.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <unistd.h>

#include <array>
#include <filesystem>
#include <stdexcept>

#include "base/sha256.hpp"
#include "files.hpp"
#include "server/door.hpp"
#include "server/guard.hpp"
#include "server/page_files.hpp"
#include "threads.hpp"

namespace houseleek::cli {
namespace {

constexpr int first_own_port = 20'000;
constexpr unsigned n_own_ports = 12'000;

/// The same file gets the same port, so that a browser finds what it kept for that page: what was typed but not yet saved.
int port_of(const std::string& path) {
  const std::string hash = sha256_hex(std::filesystem::absolute(path).string());
  return first_own_port + static_cast<int>(std::stoul(hash.substr(0, 7), nullptr, 16) % n_own_ports);
}

/// In the person's browser, without a shell. Where there is none the address stands on the terminal.
void open_browser(const std::string& address) {
  std::string program = "xdg-open";
  std::string argument = address;
  const std::array<char*, 3> words = {program.data(), argument.data(), nullptr};
  posix_spawn_file_actions_t quiet;
  posix_spawn_file_actions_init(&quiet);
  posix_spawn_file_actions_addopen(&quiet, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  posix_spawn_file_actions_addopen(&quiet, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  posix_spawnattr_t attributes;
  posix_spawnattr_init(&attributes);
  // The watch over Ctrl-C has signals blocked here; the browser wants its own.
  sigset_t none;
  sigemptyset(&none);
  posix_spawnattr_setsigmask(&attributes, &none);
  posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGMASK);
  pid_t child = 0;
  if (posix_spawnp(&child, program.c_str(), &quiet, &attributes, words.data(), environ) != 0) {
    write_message("No browser could be started: open the address above in one.\n");
  }
  posix_spawnattr_destroy(&attributes);
  posix_spawn_file_actions_destroy(&quiet);
}

server::Response respond(server::Door& door, const server::Request& request, const std::string& token, int port) {
  if (std::optional<server::Response> refused = server::refuse_stranger(request, token, port)) return *refused;
  constexpr std::string_view api = "/api/";
  if (request.target.rfind(api, 0) == 0) return door.answer(request.target.substr(api.size()), request.body);
  return server::page_file(request.target);
}

}  // namespace

ExitCode run_open(const OpenArguments& arguments) {
  const std::string extension = std::filesystem::path(arguments.file).extension().string();
  if (!std::filesystem::exists(arguments.file) && extension != ".toml" && extension != ".houseleek") {
    write_message(
        fmt::format("houseleek: {} is not there; a new one is called NAME.houseleek, or NAME.toml\n", arguments.file));
    return ExitCode::usage;
  }
  if (!server::has_page()) {
    write_message(
        "houseleek: this program was built without its page.\n  hint: the page needs Node 18 or newer and npm: in the "
        "source's folder run npm ci, then ./do build\n");
    return ExitCode::usage;
  }
  const InterruptWatch interrupt;
  const std::string token = server::new_token();
  server::Door door(arguments.file);
  int port = 0;
  std::unique_ptr<server::HttpServer> http;
  const server::HttpServer::Handler handler = [&door, &token, &port](const server::Request& request) {
    return respond(door, request, token, port);
  };
  try {
    http = std::make_unique<server::HttpServer>(arguments.port != 0 ? arguments.port : port_of(arguments.file),
                                                server::HttpLimits{}, handler);
  } catch (const std::runtime_error& failed) {
    if (arguments.port != 0) throw WorldFailed(fmt::format("port {}: {}", arguments.port, failed.what()));
    // Another window's program has it; any other serves.
    http = std::make_unique<server::HttpServer>(0, server::HttpLimits{}, handler);
  }
  port = http->port();
  // Behind the # the token never leaves the browser but in the page's own questions.
  const std::string address = fmt::format("http://127.0.0.1:{}/#{}", port, token);
  write_answer(fmt::format("{}\n", address));
  write_message("The page is open on this machine alone. Ctrl-C ends it; everything is saved as it is changed.\n");
  if (arguments.opens_browser) open_browser(address);
  http->run_until(interrupt.is_interrupted());
  return ExitCode::done;
}

}  // namespace houseleek::cli
