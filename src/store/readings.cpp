// Readings of loggers in bulk: one transaction a file, millions of rows.
#include "store/readings.hpp"

#include <fmt/format.h>

#include <bit>

namespace houseleek::store {
namespace {

/// A finalizer that spreads every bit of its argument over all bits (splitmix64's, constants from memory).
std::uint64_t mixed(std::uint64_t bits) {
  bits = (bits ^ (bits >> 30U)) * 0xBF58476D1CE4E5B9U;
  bits = (bits ^ (bits >> 27U)) * 0x94D049BB133111EBU;
  return bits ^ (bits >> 31U);
}

/// Sums of it do not depend on the order of readings.
std::uint64_t hash_of(std::int64_t sensor, std::int64_t at_utc_s, double value) {
  return mixed(mixed(mixed(static_cast<std::uint64_t>(sensor)) ^ static_cast<std::uint64_t>(at_utc_s)) ^
               std::bit_cast<std::uint64_t>(value));
}

// More than SQLite's usual two megabytes: pages of a growing table stay in memory until they are full.
constexpr std::string_view larger_cache = "PRAGMA cache_size = -65536";

constexpr int n_in_one_statement = 32;

std::string insert_of(int n_rows) {
  std::string sql = "INSERT INTO reading (sensor, at_utc_s, value, reading_file) VALUES ";
  for (int i = 0; i < n_rows; ++i) sql += i == 0 ? "(?, ?, ?, ?)" : ", (?, ?, ?, ?)";
  return sql;
}

const Database& with_larger_cache(const Database& database) {
  database.run(std::string(larger_cache));
  return database;
}

}  // namespace

ReadingWriter::ReadingWriter(const Project& project, const std::string& file_name, std::int64_t now_utc_s)
    : database_(&project.database()),
      transaction_(with_larger_cache(project.database())),
      file_(project.database().number_from("SELECT coalesce(max(reading_file), 0) + 1 FROM reading_file")),
      insert_(project.database(), insert_of(1)),
      insert_many_(project.database(), insert_of(n_in_one_statement)),
      find_(project.database(), "SELECT value FROM reading WHERE sensor = ? AND at_utc_s = ?") {
  Statement file(*database_, "INSERT INTO reading_file (reading_file, name, imported_utc_s) VALUES (?, ?, ?)");
  file.bind(0, file_);
  file.bind(1, std::string_view(file_name));
  file.bind(2, now_utc_s);
  file.run();
  insert_.bind(3, file_);
  for (int i = 0; i < n_in_one_statement; ++i) insert_many_.bind(4 * i + 3, file_);
}

std::optional<std::int64_t> ReadingWriter::sensor(const std::string& name, const std::string& quantity) {
  Statement known(*database_, "SELECT sensor, quantity FROM sensor WHERE name = ?");
  known.bind(0, std::string_view(name));
  if (known.step()) {
    if (known.text(1) != quantity) return std::nullopt;
    Statement newest(*database_, "SELECT max(at_utc_s) FROM reading WHERE sensor = ?");
    newest.bind(0, known.number(0));
    if (newest.step() && !newest.is_nothing(0)) newest_utc_s_[known.number(0)] = newest.number(0);
    return known.number(0);
  }
  Statement insert(*database_, "INSERT INTO sensor (name, quantity) VALUES (?, ?)");
  insert.bind(0, std::string_view(name));
  insert.bind(1, std::string_view(quantity));
  insert.run();
  return sqlite3_last_insert_rowid(database_->handle());
}

void ReadingWriter::count(const Waiting& reading) {
  ++counts_.n_added;
  sum_of_hashes_ += hash_of(reading.sensor, reading.at_utc_s, reading.value);
}

void ReadingWriter::flush() {
  const bool is_full = waiting_.size() == n_in_one_statement;
  int at = 0;
  for (const Waiting& reading : waiting_) {
    Statement& statement = is_full ? insert_many_ : insert_;
    statement.bind(at, reading.sensor);
    statement.bind(at + 1, reading.at_utc_s);
    statement.bind(at + 2, reading.value);
    if (is_full) {
      at += 4;
    } else {
      insert_.run();
    }
  }
  if (is_full) insert_many_.run();
  waiting_.clear();
}

Added ReadingWriter::add(std::int64_t sensor, std::int64_t at_utc_s, double value) {
  const Waiting reading = {sensor, at_utc_s, value};
  const auto newest = newest_utc_s_.find(sensor);
  if (newest == newest_utc_s_.end() || at_utc_s > newest->second) {
    newest_utc_s_[sensor] = at_utc_s;
    count(reading);
    waiting_.push_back(reading);
    if (waiting_.size() == n_in_one_statement) flush();
    return Added::added;
  }
  flush();
  find_.bind(0, sensor);
  find_.bind(1, at_utc_s);
  const bool is_there = find_.step();
  const bool is_same = is_there && find_.real(0) == value;
  find_.run();
  if (is_there) {
    counts_.n_known_before += is_same ? 1 : 0;
    return is_same ? Added::known_before : Added::other_value;
  }
  count(reading);
  waiting_.push_back(reading);
  flush();
  return Added::added;
}

ReadingCounts ReadingWriter::commit() {
  flush();
  Statement end(
      *database_,
      "INSERT INTO reading_file_end (reading_file, n_readings, n_known_before, sum_of_hashes) VALUES (?, ?, ?, ?)");
  end.bind(0, file_);
  end.bind(1, counts_.n_added);
  end.bind(2, counts_.n_known_before);
  end.bind(3, std::bit_cast<std::int64_t>(sum_of_hashes_));
  end.run();
  transaction_.commit();
  return counts_;
}

std::int64_t read_readings(const Project& project, const std::function<void(const ReadingRow&)>& take) {
  const Database& database = project.database();
  std::int64_t n_readings = 0;
  std::uint64_t sum_of_hashes = 0;
  Statement sensors(database, "SELECT sensor, name, quantity FROM sensor ORDER BY sensor");
  while (sensors.step()) {
    const std::int64_t sensor = sensors.number(0);
    const std::string name = sensors.text(1);
    const std::string quantity = sensors.text(2);
    Statement rows(database, "SELECT at_utc_s, value FROM reading WHERE sensor = ? ORDER BY at_utc_s");
    rows.bind(0, sensor);
    while (rows.step()) {
      const ReadingRow row = {name, quantity, rows.number(0), rows.real(1)};
      sum_of_hashes += hash_of(sensor, row.at_utc_s, row.value);
      ++n_readings;
      take(row);
    }
  }
  std::int64_t n_written = 0;
  std::uint64_t sum_written = 0;
  Statement ends(database, "SELECT n_readings, sum_of_hashes FROM reading_file_end");
  while (ends.step()) {
    n_written += ends.number(0);
    sum_written += std::bit_cast<std::uint64_t>(ends.number(1));
  }
  if (n_written != n_readings || sum_written != sum_of_hashes) {
    throw StoreError(
        fmt::format("{}: the file is damaged: readings are not as they were written ({} of {})\n  hint: go back to a "
                    "copy of it; do not write in this one",
                    project.name(), n_readings, n_written));
  }
  return n_readings;
}

}  // namespace houseleek::store
