// Project files on the person's disk: told from descriptions, opened, made. The only place that opens a database.
#include "project_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <ctime>
#include <filesystem>
#include <string_view>
#include <system_error>

#include "files.hpp"

namespace houseleek::cli {
namespace {

constexpr std::string_view first_bytes = {"SQLite format 3\0", 16};

store::Database database_at(const std::string& path, int flags) {
  sqlite3* handle = nullptr;
  // Absolute, so that no name means something special to SQLite.
  const std::string absolute = std::filesystem::absolute(path).string();
  const int code = sqlite3_open_v2(absolute.c_str(), &handle, flags, nullptr);
  store::Database database(handle, path);
  if (code != SQLITE_OK) store::throw_failure(handle, path);
  return database;
}

/// The folder's entry of a file reaches the disk with the folder.
void flush_folder_of(const std::string& path) {
  const std::string folder = std::filesystem::absolute(path).parent_path().string();
  const int descriptor = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) return;  // some file systems give no handle on a folder; there is nothing more to do
  const bool is_flushed = fsync(descriptor) == 0 || errno == EINVAL;
  const int error = errno;
  close(descriptor);
  if (!is_flushed) {
    throw WorldFailed(fmt::format("cannot write {}: {}", path, std::generic_category().message(error)));
  }
}

}  // namespace

bool is_project(std::string_view first_bytes_of_file) { return first_bytes_of_file.starts_with(first_bytes); }

store::Project open_project_file(const std::string& path, store::Access access) {
  (void)read_file(path, 0);  // says it if the file is missing or a folder
  // For reading as well: a change that was cut off must be taken back first. SQLite opens a file that may not be written
  // for reading alone.
  store::Project project = store::open_project(database_at(path, SQLITE_OPEN_READWRITE), {.access = access});
  if (!project.copy_of_older().empty()) {
    write_message(fmt::format("{} had an older format and was brought up to date; as it was: {}\n", path,
                              project.copy_of_older()));
  }
  return project;
}

void make_project_file(const std::string& path, const std::function<void(const store::Project&)>& fill) {
  std::error_code ignored;  // where nothing can be found out, making the file says it better
  if (std::filesystem::exists(path, ignored)) throw WorldFailed(fmt::format("{} is there already", path));
  const std::string part_path = path + ".part";
  for (const char* end : {"", "-journal"}) std::filesystem::remove(part_path + end, ignored);
  try {
    fill(store::make_project(database_at(part_path, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE)));
    std::filesystem::rename(part_path, path);
  } catch (...) {
    for (const char* end : {"", "-journal"}) std::filesystem::remove(part_path + end, ignored);
    throw;
  }
  flush_folder_of(path);
}

bool is_refused_description(const std::string& command, const std::string& path) {
  const std::filesystem::path file(path);
  if (file.extension() != ".toml" || is_project(read_file(path, first_bytes.size()))) return false;
  write_message(fmt::format(
      "houseleek: {0} is a description; {1} wants a project\n  hint: make one, then give its name: houseleek "
      "import {0} --to {2}\n",
      path, command, std::filesystem::path(file).replace_extension(".houseleek").string()));
  return true;
}

std::int64_t now_utc_s() { return std::int64_t{std::time(nullptr)}; }

}  // namespace houseleek::cli
