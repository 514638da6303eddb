// Rooms and partitions of a design as the stepper sees them (docs/equations/covers.md).
#pragma once
#include <vector>

#include "climate/year.hpp"
#include "design/design.hpp"
#include "simulation/group.hpp"

namespace houseleek::simulation {

/// The design's rooms in its order; `ceiling_m2` one a room: the area that the stacks will have over it.
/// Shape:    one room out for each in; solar gains one value an hour of the year.
/// Units:    as in the structs.
/// Source:   [iso13790] section 7.2.2 and annex C, with the roof taken out of the conductances.
[[nodiscard]] std::vector<Room> make_rooms(const design::Design& design, const climate::WeatherYear& weather,
                                           const std::vector<double>& ceiling_m2, bool is_held);

[[nodiscard]] std::vector<Partition> make_partitions(const design::Design& design);

}  // namespace houseleek::simulation
