// Readings of loggers in bulk: one transaction a file, millions of rows.
#pragma once
#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "store/format.hpp"

namespace houseleek::store {

enum class Added { added, known_before, other_value };

struct ReadingCounts {
  std::int64_t n_added = 0;
  std::int64_t n_known_before = 0;
};

/// Writes the readings of one file. What is not committed is taken back.
class ReadingWriter {
 public:
  /// Errors of all members: StoreError.
  ReadingWriter(const Project& project, const std::string& file_name, std::int64_t now_utc_s);

  /// The number of a sensor, new or known; nullopt where it is known with another quantity.
  [[nodiscard]] std::optional<std::int64_t> sensor(const std::string& name, const std::string& quantity);

  /// One reading. A second one of the same sensor and moment is not written: it is known, or has another value.
  [[nodiscard]] Added add(std::int64_t sensor, std::int64_t at_utc_s, double value);

  /// On the disk when it returns.
  [[nodiscard]] ReadingCounts commit();

 private:
  const Database* database_;
  Transaction transaction_;
  /// A reading that waits for others, so that one statement takes many.
  struct Waiting {
    std::int64_t sensor = 0;
    std::int64_t at_utc_s = 0;
    double value = 0.0;
  };
  void count(const Waiting& reading);
  void flush();

  std::int64_t file_ = 0;
  Statement insert_;
  Statement insert_many_;
  Statement find_;
  std::vector<Waiting> waiting_;
  std::map<std::int64_t, std::int64_t> newest_utc_s_;  // by sensor; later readings are new for certain
  ReadingCounts counts_;
  std::uint64_t sum_of_hashes_ = 0;
};

/// A reading as it is handed on.
struct ReadingRow {
  std::string_view sensor;
  std::string_view quantity;
  std::int64_t at_utc_s = 0;
  double value = 0.0;
};

/// Hands on every reading, sensor by sensor, in order of time; how many there were. After the last one their number and
/// hashes are held against what was written.
/// Errors: StoreError, also where a reading is not as it was written; whoever took the rows must then throw them away.
[[nodiscard]] std::int64_t read_readings(const Project& project, const std::function<void(const ReadingRow&)>& take);

}  // namespace houseleek::store
