// Header words of weather files: which quantity or part of the time a column is, and in which unit.
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "climate/file_rules.hpp"
#include "climate/file_units.hpp"
#include "climate/weather_columns.hpp"

namespace houseleek::climate {

/// Lower case, accents taken off, the degree sign as "deg", superscripts as digits, % as "percent"; every run of other
/// signs but / and - between letters and digits one blank; no blanks at the ends.
[[nodiscard]] std::string folded_header(std::string_view header);

struct HeaderMeaning {
  std::optional<WeatherColumn> quantity = {};
  std::optional<TimePart> time_part = {};
  std::optional<Unit> unit = {};
  bool is_our_name = false;  // exactly a name of our own layout
  bool says_utc = false;     // of a time column
  std::optional<StampMarks> says_marks = {};
};

/// What a header says by its words (English, German, French, Spanish), nothing where no word is known or one says that
/// it is something else: a maximum, a gust, a direction, the soil.
[[nodiscard]] HeaderMeaning meaning_of_header(std::string_view header);

}  // namespace houseleek::climate
