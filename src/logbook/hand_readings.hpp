// The logbook's temperatures as trials take them.
#pragma once
#include <span>
#include <vector>

#include "logbook/event.hpp"
#include "logbook/reading.hpp"

namespace houseleek::logbook {

/// Every temperature read off whose time of day is known and that no later event took the place of, in order of time.
/// The place is the module, square, room or container, whichever is named first. Units: degC; days and hours in the
/// place's standard time.
[[nodiscard]] std::vector<HandReading> hand_readings_from(std::span<const EventRecord> records);

}  // namespace houseleek::logbook
