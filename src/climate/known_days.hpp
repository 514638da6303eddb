// A year of weather in which some days are as somebody measured them.
#pragma once
#include <cstddef>
#include <optional>
#include <span>

#include "climate/year.hpp"

namespace houseleek::climate {

/// What is known of one day; what is not stays as the year has it.
struct KnownDay {
  std::optional<double> max_c;
  std::optional<double> min_c;
  std::optional<double> rain_mm;
  bool operator==(const KnownDay&) const = default;
};

/// Sets the air temperature at a mark; relative humidity and the sky's emissivity stay those of `before`.
/// Equation: e' = e e_s(T')/e_s(T); L' = L (T'/T)^4, T in K
void set_air_temperature(WeatherYear& weather, const WeatherYear& before, std::size_t mark, double air_c);

/// The year with these days in it.
/// Equation: T' = min + (T - T_min) (max - min) / (T_max - T_min) at the marks of the day; where one of both is known
///           the day is shifted by its difference. Rain keeps its hours and is scaled; on a day without any it falls
///           evenly from 2 to 6 o'clock
/// Shape:    days from `first_day` of the year on, wrapping at its end; pure.
/// Valid:    max_c not below min_c; rain not negative.
/// Errors:   ContractViolation outside, or for more than 365 days.
[[nodiscard]] WeatherYear with_known_days(const WeatherYear& year, int first_day, std::span<const KnownDay> days);

}  // namespace houseleek::climate
