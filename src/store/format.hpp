// The project file's formats: numbered, forward only; a file is checked before anything in it is believed.
#pragma once
#include <span>
#include <string_view>

#include "store/database.hpp"

namespace houseleek::store {

/// In the file's header, so that other programs can tell it from other SQLite files: "Hlk" and a p for project.
inline constexpr std::int64_t application_id = 0x486C6B70;

/// Statements that bring a file from the format before to this one; the first one makes an empty file a project.
/// The number of a format is its place in the list, from 1.
[[nodiscard]] std::span<const std::string_view> formats();

enum class Access { read, write };

struct OpenOptions {
  Access access = Access::read;
  int wait_ms = 5000;  // for another program to finish what it writes
  std::span<const std::string_view> formats = store::formats();
};

/// A project that has been opened and checked.
class Project {
 public:
  [[nodiscard]] const Database& database() const noexcept { return database_; }
  [[nodiscard]] const std::string& name() const noexcept { return database_.name(); }
  /// Where an older file was copied to before it was brought up to date; empty if it was not older.
  [[nodiscard]] const std::string& copy_of_older() const noexcept { return copy_of_older_; }

 private:
  explicit Project(Database database) : database_(std::move(database)) {}
  friend Project make_project(Database database, std::span<const std::string_view> formats);
  friend Project open_project(Database database, const OpenOptions& options);
  Database database_;
  std::string copy_of_older_;
};

/// Makes an empty database a project of the newest format. Errors: StoreError.
[[nodiscard]] Project make_project(Database database, std::span<const std::string_view> formats = store::formats());

/// Opens a project: its kind, its format, its pages and its tables are checked first. A file of an older format is
/// copied beside itself (NAME.format-1), then brought up to date in one transaction. For reading, nothing can be written
/// afterwards.
/// Errors: StoreError where it is no project, of a newer format, damaged, locked, or read-only and to be written; the
/// file is then as it was.
[[nodiscard]] Project open_project(Database database, const OpenOptions& options);

}  // namespace houseleek::store
