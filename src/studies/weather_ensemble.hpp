// Several years of one climate: for ranges, and the hottest, driest and wettest of them.
#pragma once
#include <optional>
#include <span>
#include <vector>

#include "base/result.hpp"
#include "climate/year.hpp"
#include "studies/weather.hpp"

namespace houseleek::studies {

/// Draws 0 to n - 1 of a design's weather, draw 0 being the year in use.
/// Errors: those of find_weather; a file without so many complete years.
[[nodiscard]] Result<std::vector<climate::WeatherYear>> make_weather_ensemble(const design::ValidDesign& design,
                                                                              const std::optional<NamedText>& file,
                                                                              int n_years);

/// What years are ordered by: what lasts some days hurts, and a warm year alone need not have it.
struct YearCriteria {
  double hottest_three_days_c = 0.0;   // highest mean of three calendar days in a row
  int longest_dry_spell_days = 0;      // days in a row with less than 1 mm each
  double wettest_seven_days_mm = 0.0;  // most rain of seven calendar days in a row
};

[[nodiscard]] YearCriteria criteria_of(const climate::WeatherYear& year);

/// Places in the ensemble by these criteria; of equal years the first.
struct EnsemblePicks {
  std::size_t hottest = 0;
  std::size_t driest = 0;
  std::size_t wettest = 0;
};

[[nodiscard]] EnsemblePicks pick_years(std::span<const climate::WeatherYear> years);

}  // namespace houseleek::studies
