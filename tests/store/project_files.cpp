// Project files in a folder of a test.
#include "store/project_files.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

namespace houseleek::tests {

store::Database database_at(const std::string& path, bool is_made) {
  sqlite3* handle = nullptr;
  const int flags = SQLITE_OPEN_READWRITE | (is_made ? SQLITE_OPEN_CREATE : 0);
  EXPECT_EQ(sqlite3_open_v2(path.c_str(), &handle, flags, nullptr), SQLITE_OK) << path;
  return {handle, path};
}

store::Project new_project_at(const std::string& path) { return store::make_project(database_at(path, true)); }

store::Project project_at(const std::string& path, const store::OpenOptions& options) {
  return store::open_project(database_at(path, false), options);
}

std::string refusal_of(const std::string& path, const store::OpenOptions& options) {
  try {
    (void)project_at(path, options);
  } catch (const store::StoreError& error) {
    return error.what();
  }
  return {};
}

std::string bytes_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

logbook::Event watering(double water_l) {
  logbook::Event event;
  event.kind = logbook::EventKind::watered;
  event.at = {1783055700, 10800, true};
  event.zone = "Europe/Athens";
  event.module = "A1";
  event.water_l = water_l;
  return event;
}

}  // namespace houseleek::tests
