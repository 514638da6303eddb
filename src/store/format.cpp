// The project file's formats: numbered, forward only; a file is checked before anything in it is believed.
#include "store/format.hpp"

#include <fmt/format.h>

#include <array>
#include <filesystem>

#include "base/contract.hpp"
#include "store/format_1.hpp"

namespace houseleek::store {
namespace {

constexpr std::array<std::string_view, 1> all_formats = {format_1};

[[noreturn]] void refuse(const Database& database, std::string_view what, std::string_view hint) {
  throw StoreError(fmt::format("{}: {}\n  hint: {}", database.name(), what, hint));
}

[[noreturn]] void refuse_damaged(const Database& database, std::string_view what) {
  refuse(database, fmt::format("the file is damaged: {}", what), "go back to a copy of it; do not write in this one");
}

void set_format(const Database& database, std::size_t format) {
  database.run(fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {}", application_id, format));
}

/// Statements of the formats after `from`, in one transaction.
void bring_up(const Database& database, std::span<const std::string_view> formats, std::size_t from) {
  Transaction transaction(database);
  for (std::size_t at = from; at < formats.size(); ++at) database.run(std::string(formats[at]));
  set_format(database, formats.size());
  transaction.commit();
}

/// A commit is on the disk when it returns, even where power fails right after (docs/decisions).
void prepare_for_writing(const Database& database) {
  database.run("PRAGMA foreign_keys = ON; PRAGMA synchronous = EXTRA");
  if (database.text_from("PRAGMA journal_mode") != "delete") {
    const std::string mode = database.text_from("PRAGMA journal_mode = DELETE");
    expects(mode == "delete" || mode == "memory", "a rollback journal");
  }
}

constexpr std::string_view schema_query =
    "SELECT coalesce(group_concat(type || ' ' || name || ' ' || tbl_name || ' ' || coalesce(sql, ''), char(10)), '') "
    "FROM (SELECT * FROM sqlite_schema WHERE name NOT LIKE 'sqlite_stat%' ORDER BY type, name)";

/// The tables as these formats make them, made once more in memory.
std::string expected_schema(std::span<const std::string_view> formats) {
  sqlite3* handle = nullptr;
  const int code = sqlite3_open(":memory:", &handle);
  const Database fresh(handle, "memory");
  if (code != SQLITE_OK) throw_failure(handle, fresh.name());
  for (const std::string_view format : formats) fresh.run(std::string(format));
  return fresh.text_from(std::string(schema_query));
}

/// The first thing read from a file that may be anything.
std::int64_t id_of(const Database& database) {
  sqlite3_stmt* statement = nullptr;
  int code = sqlite3_prepare_v2(database.handle(), "PRAGMA application_id", -1, &statement, nullptr);
  if (code == SQLITE_OK) code = sqlite3_step(statement);
  const std::int64_t id = code == SQLITE_ROW ? sqlite3_column_int64(statement, 0) : 0;
  sqlite3_finalize(statement);
  if ((code & 0xFF) == SQLITE_NOTADB) {
    refuse(database, "this is no project of Houseleek",
           "a project is made from a description: houseleek import roof.toml --to my-roof.houseleek");
  }
  if (code != SQLITE_ROW) throw_failure(database.handle(), database.name());
  return id;
}

void check_kind(const Database& database) {
  if (id_of(database) == application_id) return;
  const bool is_empty = database.number_from("PRAGMA page_count") == 0;
  refuse(database,
         is_empty ? "this file is empty, no project" : "this is the SQLite file of another program, no project",
         "a project is made from a description: houseleek import roof.toml --to my-roof.houseleek");
}

void check_pages(const Database& database) {
  const std::string found = database.text_from("PRAGMA quick_check(1)");
  if (found != "ok") refuse_damaged(database, found);
}

/// A copy beside the file, under a name that is free.
std::string copy_beside(const Database& database, std::size_t format) {
  const std::string path = sqlite3_db_filename(database.handle(), "main");
  if (path.empty()) return {};  // in memory: nothing to lose
  std::string copy = fmt::format("{}.format-{}", path, format);
  for (int i = 2; std::filesystem::exists(copy); ++i) copy = fmt::format("{}.format-{}-{}", path, format, i);
  Statement statement(database, "VACUUM INTO ?1");
  statement.bind(0, std::string_view(copy));
  statement.run();
  return copy;
}

/// Kind, format, pages, tables; the number of the format.
std::int64_t checked_format(const Database& database, std::span<const std::string_view> formats) {
  check_kind(database);
  const std::int64_t format = database.number_from("PRAGMA user_version");
  const std::int64_t newest = static_cast<std::int64_t>(formats.size());
  if (format > newest) {
    refuse(database, fmt::format("the project has format {}; this version of Houseleek reads up to {}", format, newest),
           "take the newer version of Houseleek that wrote it; nothing was changed");
  }
  if (format < 1) refuse_damaged(database, fmt::format("there is no format {}", format));
  check_pages(database);
  const auto known = formats.first(static_cast<std::size_t>(format));
  if (database.text_from(std::string(schema_query)) != expected_schema(known)) {
    refuse_damaged(database, "its tables are not those of its format");
  }
  return format;
}

}  // namespace

std::span<const std::string_view> formats() { return all_formats; }

Project make_project(Database database, std::span<const std::string_view> formats) {
  sqlite3_extended_result_codes(database.handle(), 1);
  expects(database.number_from("SELECT count(*) FROM sqlite_schema") == 0, "an empty database");
  prepare_for_writing(database);
  bring_up(database, formats, 0);
  return Project(std::move(database));
}

Project open_project(Database database, const OpenOptions& options) {
  sqlite3_extended_result_codes(database.handle(), 1);
  sqlite3_busy_timeout(database.handle(), options.wait_ms);
  std::int64_t format = 0;
  try {
    format = checked_format(database, options.formats);
  } catch (const ContractViolation& violation) {
    // Our own queries are right: what fails in them before the file has been checked is the file's fault.
    refuse_damaged(database, violation.what());
  }
  const auto newest = static_cast<std::int64_t>(options.formats.size());
  const bool is_read_only = sqlite3_db_readonly(database.handle(), "main") == 1;
  Project project(std::move(database));
  if (options.access == Access::write || format < newest) {
    if (is_read_only) {
      refuse(project.database_,
             options.access == Access::write ? "the file is read-only; nothing was written"
                                             : "the file has an older format and is read-only",
             "copy it to a folder where you may write, or ask whoever owns it");
    }
    prepare_for_writing(project.database_);
  }
  if (format < newest) {
    project.copy_of_older_ = copy_beside(project.database_, static_cast<std::size_t>(format));
    bring_up(project.database_, options.formats, static_cast<std::size_t>(format));
  }
  if (options.access == Access::read) project.database_.run("PRAGMA query_only = ON");
  return project;
}

}  // namespace houseleek::store
