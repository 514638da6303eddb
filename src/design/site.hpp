// [site]: where the house stands.
#pragma once
#include <string>

namespace houseleek::design {

enum class Surroundings { open, suburb, town };

struct Site {
  double latitude_deg = 0.0;   // north positive
  double longitude_deg = 0.0;  // east positive
  double elevation_m = 0.0;
  std::string time_zone;  // IANA name, checked; see base/zone.hpp for its offset
  std::string country;    // two letters of ISO 3166, or empty
  Surroundings surroundings = Surroundings::suburb;
  double wind_factor = 1.0;  // wind at the roof over wind in the weather data (10 m, open land)
  bool operator==(const Site&) const = default;
};

}  // namespace houseleek::design
