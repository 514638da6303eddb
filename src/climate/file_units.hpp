// Units of weather files: how they are written, and what they are in ours.
#pragma once
#include <optional>
#include <span>
#include <string_view>

#include "climate/weather_columns.hpp"

namespace houseleek::climate {

enum class Unit {
  deg_c,
  deg_f,
  kelvin,
  percent,
  fraction,
  pa,
  hpa,
  kpa,
  mmhg,
  w_per_m2,
  wh_per_m2,
  mj_per_m2,
  kj_per_m2,
  j_per_cm2,
  mm,
  mm_per_h,
  inch,
  m_per_s,
  km_per_h,
  mph,
  knot
};

/// degC, W/m2, mph: the word a person writes in a design and reads in an answer.
[[nodiscard]] std::string_view text_from_unit(Unit unit);

/// A unit as files write it: degC, °C, Celsius, W/m2, W m-2, w_per_m2, km/h, kmh, hPa, mbar, % ... Without case.
[[nodiscard]] std::optional<Unit> unit_from_text(std::string_view text);

/// The units a column may have, ours first.
[[nodiscard]] std::span<const Unit> units_of(WeatherColumn column);

/// The words of those units, parted by commas: for hints.
[[nodiscard]] std::string_view unit_words_of(WeatherColumn column);

/// A value in our own unit of its column.
/// Equation: linear; sums of energy over the row's interval become means: 1 MJ/m2 in an hour is 277.8 W/m2
/// Symbols:  interval_min: what a row covers
/// Shape:    scalar in, scalar out; pure.
/// Units:    degC, %, Pa, W/m2, mm, m/s.
/// Valid:    any value.
/// Errors:   none.
/// Source:   definitions: 1 inch = 25.4 mm, 1 mile = 1609.344 m, 1 knot = 1852 m/h, 1 mmHg = 133.322 Pa.
///           Checked by: FileUnits.EveryUnitByItsDefinition.
[[nodiscard]] double value_in_our_unit(double value, Unit unit, double interval_min);

}  // namespace houseleek::climate
