// The sun's columns of a weather year, and the air pressure of its place.
#include "climate/sun_columns.hpp"

#include <fmt/format.h>

#include <utility>

#include "climate/calendar.hpp"
#include "numerics/elementary.hpp"
#include "physics/air.hpp"
#include "physics/constants.hpp"
#include "physics/sun.hpp"

namespace houseleek::climate {
namespace {

constexpr double hour_turn_rad = 15.0 * physics::radians_per_degree;

constexpr double most_off_sun_h = 5.0;  // no zone in use is so far from its sun

struct Bound {
  const char* name;
  double value;
  double least;
  double most;
};

}  // namespace

Issues issues_of_place(const Place& place, int year, const std::string& path) {
  Issues issues;
  for (const Bound& bound :
       {Bound{"latitude_deg", place.latitude_deg, -90.0, 90.0},
        Bound{"longitude_deg", place.longitude_deg, -180.0, 180.0},
        Bound{"elevation_m", place.elevation_m, -500.0, 6000.0}, Bound{"utc_offset_h", place.utc_offset_h, -12.0, 14.0},
        Bound{"year", static_cast<double>(year), 1600.0, 2400.0}}) {
    if (bound.value >= bound.least && bound.value <= bound.most) continue;
    Issue issue;
    issue.code = IssueCode::out_of_range;
    issue.path = path.empty() ? bound.name : path + "." + bound.name;
    issue.value = fmt::format("{}", bound.value);
    issue.limit = fmt::format("{} to {}", bound.least, bound.most);
    issue.message = fmt::format("{} is {}; it must be from {} to {}", issue.path, bound.value, bound.least, bound.most);
    issues.push_back(std::move(issue));
  }
  if (!issues.empty()) return issues;
  const double off_h = place.utc_offset_h - place.longitude_deg / 15.0;
  const double off_in_day_h = off_h > 12.0 ? off_h - 24.0 : off_h < -12.0 ? off_h + 24.0 : off_h;
  if (off_in_day_h > most_off_sun_h || off_in_day_h < -most_off_sun_h) {
    Issue issue;
    issue.code = IssueCode::inconsistent;
    issue.path = path.empty() ? "utc_offset_h" : path + ".utc_offset_h";
    issue.value = fmt::format("{}", place.utc_offset_h);
    issue.message = fmt::format("{} is {}; the sun at longitude {} would be {:.1f} hours off the clock", issue.path,
                                place.utc_offset_h, place.longitude_deg, off_in_day_h);
    issue.hint = "longitudes east of Greenwich are positive, and so are the offsets there";
    issues.push_back(std::move(issue));
  }
  return issues;
}

WeatherYear make_year_with_sun(const Place& place, int year) {
  expects(issues_of_place(place, year, "place").empty(), "a place on the earth and a year from 1600 to 2400");
  WeatherYear weather;
  weather.place = place;
  weather.year = year;
  weather.pressure_pa = physics::pressure_at_elevation_pa(place.elevation_m);

  const double new_year_jd = physics::julian_date({.year = year, .month = 1, .day = 1, .hour_ut = 0.0});
  const physics::SunTrack track = physics::track_sun(new_year_jd - 1.0, n_days_in_year + 3);
  const double latitude_rad = place.latitude_deg * physics::radians_per_degree;
  const int last_day_before_leap_day = first_day_of_month[2] - 1;
  for (int day = 0; day < n_days_in_year; ++day) {
    const int calendar_day = is_leap_year(year) && day > last_day_before_leap_day ? day + 1 : day;
    for (int hour = 0; hour < n_hours_in_day; ++hour) {
      const double middle_h = static_cast<double>(hour) + 0.5 - place.utc_offset_h;
      const double middle_jd = new_year_jd + static_cast<double>(calendar_day) + middle_h / 24.0;
      const physics::SunOfMoment sun = physics::sun_of_moment(track, middle_jd);
      const physics::ElevationTerms terms = physics::elevation_terms(latitude_rad, sun.declination_rad);
      const double middle_rad = physics::hour_angle_rad(middle_jd, place.longitude_deg, sun.equation_of_time_min);
      const double start_rad = middle_rad - 0.5 * hour_turn_rad;
      weather.sun_a.push_back(terms.a);
      weather.sun_b.push_back(terms.b);
      weather.sun_hour_angle_rad.push_back(start_rad);
      weather.sun_mean_sine.push_back(physics::mean_sine_of_elevation(terms, start_rad, start_rad + hour_turn_rad));
      weather.sun_sine_declination.push_back(numerics::sin(sun.declination_rad));
      weather.sun_normal_w_per_m2.push_back(physics::extraterrestrial_normal_w_per_m2(sun.distance_au));
    }
  }
  return weather;
}

}  // namespace houseleek::climate
