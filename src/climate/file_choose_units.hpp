// Units of columns whose header does not say them: told by what the values can be.
#pragma once
#include <string_view>

#include "base/result.hpp"
#include "climate/file_body.hpp"
#include "climate/file_clock.hpp"
#include "climate/year.hpp"

namespace houseleek::climate {

/// Gives each column without a unit the only one its values can have, with the evidence; the others become issues.
///
/// - Temperature: above 170 kelvin; above 56 degF, for no air has 56 degC; else degC, if read as degF the hottest hour
///   would stay below 10 degC, at latitudes up to 60 degrees and heights up to 3000 m. A dew point has the unit under
///   which it is never above the air by more than 1 K, if the other units put it there.
/// - Humidity: percent if any value is above 1, else a fraction.
/// - Vapour pressure: the unit under which the dampest of 100 hours is between 40 and 102 % of saturation.
/// - Radiation: the unit under which the brightest of 100 sunny hours has a clearness from 0.55 to 1.25. The sky's own
///   radiation: the unit under which its mean lies between 100 and 500 W/m2.
/// - Wind and rain: none; several units are always possible.
[[nodiscard]] Issues choose_units(FileBody& body, const RowTimes& times, const Place& place,
                                  std::string_view file_name);

}  // namespace houseleek::climate
