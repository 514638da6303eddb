// Several years of one climate: for ranges, and the hottest, driest and wettest of them.
#include "studies/weather_ensemble.hpp"

#include <algorithm>

#include "base/contract.hpp"
#include "climate/summary.hpp"

namespace houseleek::studies {
namespace {

constexpr double dry_day_mm = 1.0;

/// The largest sum of so many neighbours.
double largest_sum(const std::vector<double>& values, std::size_t n_in_a_row) {
  double most = 0.0;
  for (std::size_t first = 0; first + n_in_a_row <= values.size(); ++first) {
    double sum = 0.0;
    for (std::size_t i = 0; i < n_in_a_row; ++i) sum += values[first + i];
    most = first == 0 ? sum : std::max(most, sum);
  }
  return most;
}

}  // namespace

Result<std::vector<climate::WeatherYear>> make_weather_ensemble(const design::ValidDesign& design,
                                                                const std::optional<NamedText>& file, int n_years) {
  expects(n_years >= 1, "at least one year");
  std::vector<climate::WeatherYear> years;
  // The last one first: a file that has too few years says so at once.
  for (int draw = n_years - 1; draw >= 0; --draw) {
    Result<climate::WeatherYear> year = make_weather(design, file, draw);
    if (!year) return Unexpected{year.error()};
    years.push_back(std::move(year).value());
  }
  std::reverse(years.begin(), years.end());
  return years;
}

YearCriteria criteria_of(const climate::WeatherYear& year) {
  const std::vector<climate::DayFigures> days = climate::figures_of_days(year);
  std::vector<double> mean_c;
  std::vector<double> rain_mm;
  YearCriteria criteria;
  int dry_days = 0;
  for (const climate::DayFigures& day : days) {
    mean_c.push_back(day.mean_c);
    rain_mm.push_back(day.rain_mm);
    dry_days = day.rain_mm < dry_day_mm ? dry_days + 1 : 0;
    criteria.longest_dry_spell_days = std::max(criteria.longest_dry_spell_days, dry_days);
  }
  constexpr std::size_t hot_days = 3;
  constexpr std::size_t wet_days = 7;
  criteria.hottest_three_days_c = largest_sum(mean_c, hot_days) / static_cast<double>(hot_days);
  criteria.wettest_seven_days_mm = largest_sum(rain_mm, wet_days);
  return criteria;
}

EnsemblePicks pick_years(std::span<const climate::WeatherYear> years) {
  expects(!years.empty(), "a year to pick");
  EnsemblePicks picks;
  std::vector<YearCriteria> criteria;
  for (const climate::WeatherYear& year : years) criteria.push_back(criteria_of(year));
  for (std::size_t i = 1; i < criteria.size(); ++i) {
    if (criteria[i].hottest_three_days_c > criteria[picks.hottest].hottest_three_days_c) picks.hottest = i;
    if (criteria[i].longest_dry_spell_days > criteria[picks.driest].longest_dry_spell_days) picks.driest = i;
    if (criteria[i].wettest_seven_days_mm > criteria[picks.wettest].wettest_seven_days_mm) picks.wettest = i;
  }
  return picks;
}

}  // namespace houseleek::studies
