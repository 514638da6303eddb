// [wind]: what the wind check needs beside the roof itself.
#pragma once
#include <optional>

namespace houseleek::design {

/// Terrain categories 0 to IV of EN 1991-1-4.
enum class Terrain { sea, flat, farmland, suburb, town };

/// Each may be absent: the check then takes the severest, or leaves out what needs it, and says so.
struct Wind {
  std::optional<double> roof_height_m;       // of the roof above the ground
  std::optional<double> basic_wind_m_per_s;  // fundamental value: ten minutes, 10 m, open country, once in 50 years
  std::optional<Terrain> terrain;
  bool operator==(const Wind&) const = default;
};

}  // namespace houseleek::design
