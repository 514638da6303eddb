// What a person may fix about a weather file; whatever is left open is detected.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "climate/file_units.hpp"
#include "climate/weather_columns.hpp"

namespace houseleek::climate {

enum class DecimalMark { point, comma };
enum class DateOrder { year_first, day_first, month_first };
/// Which end of its interval a row's stamp marks.
enum class StampMarks { start, end };
/// What the clock behind the stamps shows.
enum class FileClock { standard, daylight_saving, utc };

/// A piece of a row's time. `stamp` is any text with a date, a clock time or both.
enum class TimePart { stamp, year, month, day, hour, minute };

/// A column as a person names it: by its header or by its number from 1.
struct ColumnRule {
  std::optional<WeatherColumn> quantity;  // one of these two
  std::optional<TimePart> time_part;
  std::string word;  // the key it was written under, for messages
  std::string name;  // header; or empty
  int number = 0;    // from 1; or 0
  std::optional<Unit> unit;
  bool operator==(const ColumnRule&) const = default;
};

struct FileRules {
  std::optional<char> delimiter;
  std::optional<DecimalMark> decimal_mark;
  std::optional<int> header_line;  // 0: there is none
  std::optional<DateOrder> date_order;
  std::optional<StampMarks> stamps;
  std::optional<FileClock> clock;
  std::optional<int> year;
  std::vector<std::string> missing;  // words that stand for no value
  std::vector<ColumnRule> columns;
  bool operator==(const FileRules&) const = default;
};

}  // namespace houseleek::climate
