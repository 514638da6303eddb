// An hour table judged by physics: values that cannot be together.
#pragma once
#include "climate/hour_table.hpp"
#include "climate/year.hpp"

namespace houseleek::climate {

/// Adds issues for hours whose values cannot be: sun in the dark, more sun than comes from outside the air, more diffuse
/// than global radiation, more vapour than the air can hold. `sun`: the year's sun columns. Small faults of sensors are
/// left to build_year.
void judge_table(HourTable& table, const WeatherYear& sun);

/// Vapour pressure of a value in one of the three columns of humidity.
[[nodiscard]] double vapour_of_cell_pa(WeatherColumn column, double value, double air_c);

/// What arrives outside the air on the level, mean of an hour.
[[nodiscard]] double outside_air_w_per_m2(const WeatherYear& year, std::size_t hour);

}  // namespace houseleek::climate
