// One answer out of the answers of several years: every figure its median, its range the tenth and ninetieth part.
#pragma once
#include <array>
#include <span>
#include <string>
#include <vector>

#include "money/cash_flow.hpp"
#include "report/study_answer.hpp"

namespace houseleek::studies {

// Shares of like years that lie below the three figures of a range.
inline constexpr double low_share_frac = 0.1;
inline constexpr double likely_share_frac = 0.5;
inline constexpr double high_share_frac = 0.9;

/// Low, likely and high of a sample, with words for what was sampled behind "10, 50 and 90 % of".
[[nodiscard]] report::Figure figure_of_sample(std::vector<double> sample, const std::string& of_what);

/// What one year of weather answers by itself.
struct YearAnswer {
  report::EngineAnswer engine;  // counts and residuals of its runs
  report::Figure air_max_c;
  report::Figure air_min_c;
  std::vector<report::StackAnswer> stacks;
  std::vector<report::RoomAnswer> rooms;
  report::RoomAnswer house;
  report::WaterAnswer water;
  double watering_m3 = 0.0;
  std::array<money::MonthlyHeat, report::n_covers> heat;  // of all rooms together
};

/// Figures across years, each year of one design: with a single year, its own. A figure that only some years have is
/// made of those where at least half have it, and says so; else it is missing for the reason of the first without it.
[[nodiscard]] report::Figure across_years(std::span<const report::Figure> years, const std::string& of_what);
[[nodiscard]] YearAnswer across_years(std::span<const YearAnswer> years, const std::string& of_what);

/// Counts added up, the worst residuals kept.
void add_counts(report::EngineAnswer& engine, const report::EngineAnswer& more);

}  // namespace houseleek::studies
