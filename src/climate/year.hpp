// A year of weather by the hour, as plain columns in local standard time (no daylight saving), and what it says of one
// moment.
#pragma once
#include <functional>
#include <string>
#include <vector>

namespace houseleek::climate {

struct Place {
  double latitude_deg = 0.0;   // north positive
  double longitude_deg = 0.0;  // east positive
  double elevation_m = 0.0;
  double utc_offset_h = 0.0;  // of local standard time
  bool operator==(const Place&) const = default;
};

/// Hour i covers [i, i + 1) h from 1 January 00:00 local standard time. Columns "at marks" have one value more than
/// there are hours.
struct WeatherYear {
  Place place;
  int year = 0;  // the calendar year the sun is computed for (365 days are used)
  double pressure_pa = 101325.0;
  std::vector<double> air_temperature_c;      // at marks
  std::vector<double> vapour_pressure_pa;     // at marks
  std::vector<double> wind_m_per_s;           // at marks; 10 m above open ground
  std::vector<double> sky_longwave_w_per_m2;  // at marks; down-welling on a horizontal surface
  std::vector<double> global_w_per_m2;        // mean of the hour, horizontal
  std::vector<double> diffuse_w_per_m2;       // mean of the hour, horizontal
  std::vector<double> rain_mm_per_10_min;     // six values an hour
  // The sun inside hour i: sin(elevation) = sun_a + sun_b cos(sun_hour_angle_rad + f * 15 deg), f = 0..1.
  std::vector<double> sun_a;                 // sin(latitude) sin(declination)
  std::vector<double> sun_b;                 // cos(latitude) cos(declination)
  std::vector<double> sun_hour_angle_rad;    // at the hour's start; 0 at solar noon
  std::vector<double> sun_mean_sine;         // mean of max(0, sin(elevation)) over the hour
  std::vector<double> sun_sine_declination;  // sin(declination): which way the sun stands, for facades
  std::vector<double> sun_normal_w_per_m2;   // outside the air, on a plane that faces the sun
  std::vector<std::string> notes;            // which columns were estimated, and how
  [[nodiscard]] int n_hours() const { return static_cast<int>(global_w_per_m2.size()); }
  bool operator==(const WeatherYear&) const = default;
};

/// The weather at one moment. Rain falls at its wet-bulb temperature.
struct Forcing {
  double air_temperature_c = 20.0;
  double vapour_pressure_pa = 1000.0;
  double wind_m_per_s = 0.0;
  double global_w_per_m2 = 0.0;
  double sky_longwave_w_per_m2 = 300.0;
  double rain_kg_per_m2_s = 0.0;
  double rain_temperature_c = 20.0;
};

/// Weather at a moment of an hour; the one table used by every solver.
/// Temperature, vapour pressure, wind and sky radiation are linear between marks; radiation follows the sun's elevation
/// and keeps the hour's mean (constant where the sun is up for too little of the hour to carry a column that is not
/// zero: mean sine below `least_shaping_sine`); rain is constant over 10 minutes and falls at the wet-bulb temperature
/// of the air, which is worked out only while it rains (otherwise the field holds the air temperature). `fraction` in
/// [0, 1]: 0 is the start of this hour, 1 its end seen from inside the hour; the 10-minute slot of rain is the one that
/// ends at `fraction` (slot 0 at 0), so a step that ends on a slot's edge still sees its own rain.
[[nodiscard]] Forcing forcing_at(const WeatherYear& year, int hour, double fraction);

/// Mean sine of elevation below which radiation is spread evenly over its hour. Less than 3 W/m2 arrives outside the
/// air in such an hour; what a file tells of it is twilight, which following the sun would squeeze into seconds.
inline constexpr double least_shaping_sine = 0.002;

/// What a solver asks for the weather: hour from 0, fraction as above. Tests pass smooth functions here.
using ForcingSource = std::function<Forcing(int hour, double fraction)>;

}  // namespace houseleek::climate
