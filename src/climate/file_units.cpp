// Units of weather files: how they are written, and what they are in ours.
#include "climate/file_units.hpp"

#include <array>
#include <string>

#include "base/contract.hpp"
#include "climate/file_words.hpp"

namespace houseleek::climate {
namespace {

struct Spelling {
  std::string_view text;  // folded, without blanks
  Unit unit;
};

constexpr Spelling spellings[] = {
    {"degc", Unit::deg_c},
    {"c", Unit::deg_c},
    {"celsius", Unit::deg_c},
    {"degcelsius", Unit::deg_c},
    {"degf", Unit::deg_f},
    {"f", Unit::deg_f},
    {"fahrenheit", Unit::deg_f},
    {"degfahrenheit", Unit::deg_f},
    {"k", Unit::kelvin},
    {"kelvin", Unit::kelvin},
    {"percent", Unit::percent},
    {"pct", Unit::percent},
    {"frac", Unit::fraction},
    {"fraction", Unit::fraction},
    {"pa", Unit::pa},
    {"hpa", Unit::hpa},
    {"mbar", Unit::hpa},
    {"kpa", Unit::kpa},
    {"mmhg", Unit::mmhg},
    {"torr", Unit::mmhg},
    {"w/m2", Unit::w_per_m2},
    {"wm2", Unit::w_per_m2},
    {"wm-2", Unit::w_per_m2},
    {"wperm2", Unit::w_per_m2},
    {"wh/m2", Unit::wh_per_m2},
    {"whm2", Unit::wh_per_m2},
    {"whperm2", Unit::wh_per_m2},
    {"mj/m2", Unit::mj_per_m2},
    {"mjm2", Unit::mj_per_m2},
    {"mjm-2", Unit::mj_per_m2},
    {"mjperm2", Unit::mj_per_m2},
    {"kj/m2", Unit::kj_per_m2},
    {"kjm2", Unit::kj_per_m2},
    {"kjm-2", Unit::kj_per_m2},
    {"kjperm2", Unit::kj_per_m2},
    {"j/cm2", Unit::j_per_cm2},
    {"jcm2", Unit::j_per_cm2},
    {"jcm-2", Unit::j_per_cm2},
    {"jpercm2", Unit::j_per_cm2},
    {"mm", Unit::mm},
    {"l/m2", Unit::mm},
    {"mm/h", Unit::mm_per_h},
    {"mmh", Unit::mm_per_h},
    {"mmperh", Unit::mm_per_h},
    {"inch", Unit::inch},
    {"inches", Unit::inch},
    {"in", Unit::inch},
    {"m/s", Unit::m_per_s},
    {"ms", Unit::m_per_s},
    {"ms-1", Unit::m_per_s},
    {"mpers", Unit::m_per_s},
    {"mps", Unit::m_per_s},
    {"km/h", Unit::km_per_h},
    {"kmh", Unit::km_per_h},
    {"kmperh", Unit::km_per_h},
    {"kph", Unit::km_per_h},
    {"mph", Unit::mph},
    {"mi/h", Unit::mph},
    {"kn", Unit::knot},
    {"kt", Unit::knot},
    {"kts", Unit::knot},
    {"knot", Unit::knot},
    {"knots", Unit::knot},
};

constexpr std::array temperature_units = {Unit::deg_c, Unit::deg_f, Unit::kelvin};
constexpr std::array pressure_units = {Unit::pa, Unit::hpa, Unit::kpa, Unit::mmhg};
constexpr std::array humidity_units = {Unit::percent, Unit::fraction};
constexpr std::array wind_units = {Unit::m_per_s, Unit::km_per_h, Unit::mph, Unit::knot};
constexpr std::array radiation_units = {Unit::w_per_m2, Unit::wh_per_m2, Unit::mj_per_m2, Unit::kj_per_m2,
                                        Unit::j_per_cm2};
constexpr std::array rain_units = {Unit::mm, Unit::inch, Unit::mm_per_h};

}  // namespace

std::string_view text_from_unit(Unit unit) {
  switch (unit) {
    case Unit::deg_c:
      return "degC";
    case Unit::deg_f:
      return "degF";
    case Unit::kelvin:
      return "K";
    case Unit::percent:
      return "%";
    case Unit::fraction:
      return "fraction";
    case Unit::pa:
      return "Pa";
    case Unit::hpa:
      return "hPa";
    case Unit::kpa:
      return "kPa";
    case Unit::mmhg:
      return "mmHg";
    case Unit::w_per_m2:
      return "W/m2";
    case Unit::wh_per_m2:
      return "Wh/m2";
    case Unit::mj_per_m2:
      return "MJ/m2";
    case Unit::kj_per_m2:
      return "kJ/m2";
    case Unit::j_per_cm2:
      return "J/cm2";
    case Unit::mm:
      return "mm";
    case Unit::mm_per_h:
      return "mm/h";
    case Unit::inch:
      return "inch";
    case Unit::m_per_s:
      return "m/s";
    case Unit::km_per_h:
      return "km/h";
    case Unit::mph:
      return "mph";
    case Unit::knot:
      return "kn";
  }
  expects(false, "a unit of the list");
  return "";
}

std::optional<Unit> unit_from_text(std::string_view text) {
  std::string bare;
  for (const char c : folded_header(text)) {
    if (c != ' ' && c != '_') bare += c;
  }
  for (const Spelling& one : spellings) {
    if (one.text == bare) return one.unit;
  }
  return std::nullopt;
}

std::span<const Unit> units_of(WeatherColumn column) {
  switch (column) {
    case WeatherColumn::air_temperature:
    case WeatherColumn::dew_point:
      return temperature_units;
    case WeatherColumn::vapour_pressure:
      return pressure_units;
    case WeatherColumn::relative_humidity:
      return humidity_units;
    case WeatherColumn::wind:
      return wind_units;
    case WeatherColumn::sky_longwave:
    case WeatherColumn::global:
    case WeatherColumn::diffuse:
      return radiation_units;
    default:
      return rain_units;
  }
}

std::string_view unit_words_of(WeatherColumn column) {
  switch (units_of(column).front()) {
    case Unit::deg_c:
      return "degC, degF or K";
    case Unit::pa:
      return "Pa, hPa, kPa or mmHg";
    case Unit::percent:
      return "% or fraction";
    case Unit::m_per_s:
      return "m/s, km/h, mph or kn";
    case Unit::w_per_m2:
      return "W/m2, Wh/m2, MJ/m2, kJ/m2 or J/cm2";
    default:
      return "mm, inch or mm/h";
  }
}

double value_in_our_unit(double value, Unit unit, double interval_min) {
  constexpr double seconds_per_minute = 60.0;
  const double interval_s = interval_min * seconds_per_minute;
  switch (unit) {
    case Unit::deg_f:
      return (value - 32.0) * 5.0 / 9.0;
    case Unit::kelvin:
      return value - 273.15;
    case Unit::fraction:
    case Unit::hpa:
      return 100.0 * value;
    case Unit::kpa:
      return 1000.0 * value;
    case Unit::mmhg:
      return 133.322 * value;
    case Unit::wh_per_m2:
      return value * 3600.0 / interval_s;
    case Unit::mj_per_m2:
      return value * 1e6 / interval_s;
    case Unit::kj_per_m2:
      return value * 1e3 / interval_s;
    case Unit::j_per_cm2:
      return value * 1e4 / interval_s;
    case Unit::mm_per_h:
      return value * interval_min / 60.0;
    case Unit::inch:
      return 25.4 * value;
    case Unit::km_per_h:
      return value / 3.6;
    case Unit::mph:
      return value * 0.44704;
    case Unit::knot:
      return value * 1852.0 / 3600.0;
    case Unit::deg_c:
    case Unit::percent:
    case Unit::pa:
    case Unit::w_per_m2:
    case Unit::mm:
    case Unit::m_per_s:
      return value;
  }
  expects(false, "a unit of the list");
  return value;
}

}  // namespace houseleek::climate
