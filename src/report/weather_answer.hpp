// The answer of `houseleek weather`: the year in use, where it comes from, what it is like.
#pragma once
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "climate/file_report.hpp"
#include "climate/normals.hpp"
#include "climate/summary.hpp"
#include "climate/year.hpp"

namespace houseleek::report {

/// A calendar day of the year.
struct WeatherDay {
  std::string date;  // 2025-07-31
  double mean_c = 0.0;
  double max_c = 0.0;
  double min_c = 0.0;
};

/// What climate::YearSummary does not have.
struct MonthlyExtremes {
  climate::Months highest_c{};
  climate::Months lowest_c{};
  climate::Months dew_point_c{};  // of the mean vapour pressure
  climate::Months wettest_day_mm{};
};

struct WeatherInUseAnswer {
  std::string design_name;
  std::string source;
  climate::Place place;
  int year = 0;
  climate::YearSummary months;
  MonthlyExtremes extremes;
  std::array<WeatherDay, 3> hottest_days;  // by their mean, hottest first
  std::array<WeatherDay, 3> coldest_days;  // coldest first
  std::optional<climate::MonthlyNormals> normals;
  std::optional<climate::FileReport> file;
  std::string range_statement;  // what other years can be had
  std::vector<std::string> notes;
};

}  // namespace houseleek::report
