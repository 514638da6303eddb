// Invented events as a table that `houseleek import --events` takes.
#pragma once
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace houseleek::invent {

using Fields = std::vector<std::pair<std::string, std::string>>;

/// Days count from 1970-01-01; minutes from midnight by the clocks of the place. Below zero: the day alone is known.
struct When {
  std::int64_t day = 0;
  int minute = -1;
  bool operator<(const When& other) const { return day != other.day ? day < other.day : minute < other.minute; }
};

class EventTable {
 public:
  void add(const When& when, const std::string& kind, Fields fields);
  [[nodiscard]] std::size_t size() const { return rows_.size(); }
  /// In order of time; of one moment in the order of adding.
  [[nodiscard]] std::string csv() const;

 private:
  struct Row {
    When when;
    std::string kind;
    Fields fields;
  };
  std::vector<Row> rows_;
};

/// With so many decimals and no more zeros than the number needs.
[[nodiscard]] std::string number_text(double value, int decimals);

[[nodiscard]] std::int64_t day_of(const std::string& date);

}  // namespace houseleek::invent
