// [drainage]: what the deck's levels, edges and overflows are; [design_rain]: how hard it can rain there.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "geometry/outline.hpp"

namespace houseleek::design {

/// A level read with a hose level or a rotating laser, above any datum of the person's own.
struct SpotLevel {
  geometry::PointM at;
  double level_mm = 0.0;  // upwards
  bool operator==(const SpotLevel&) const = default;
};

/// An opening in the upstand that water leaves by once it stands high enough.
struct Overflow {
  std::string name;
  geometry::PointM at;
  double width_mm = 0.0;
  double sill_mm = 0.0;             // above the deck at this place
  std::optional<double> height_mm;  // of the opening; absent: open at the top
  bool operator==(const Overflow&) const = default;
};

/// A stretch of the roof's edge whose upstand is not as high as [roof] parapet_height_mm says.
struct EdgeHeight {
  geometry::PointM from;  // both ends on one side of the roof's outline
  geometry::PointM to;
  double height_mm = 0.0;  // above the deck beside it
  bool operator==(const EdgeHeight&) const = default;
};

struct Drainage {
  std::optional<double> fall_to_outlets_mm_per_m;  // to the nearest outlet from everywhere; instead of one fall
  std::optional<double> level_error_mm;            // of a spot level or a puddle's depth, either way
  std::optional<double> months_since_cleaning;
  std::optional<double> silt_mm_per_year;  // that settles in the gap
  std::vector<SpotLevel> levels;
  std::vector<Overflow> overflows;
  std::vector<EdgeHeight> edges;
  bool operator==(const Drainage&) const = default;
};

/// One row of an intensity-duration table: the mean intensity over the duration, reached once in so many years.
struct RainIntensity {
  double return_years = 0.0;
  double duration_min = 0.0;
  double intensity_mm_per_h = 0.0;
  bool operator==(const RainIntensity&) const = default;
};

/// The deepest rain of one duration in each of several years.
struct AnnualMaxima {
  double duration_min = 0.0;
  double return_years = 0.0;  // wanted
  std::vector<double> depths_mm;
  bool operator==(const AnnualMaxima&) const = default;
};

/// Either a table, or maxima, or nothing: then there is no storm, only what the roof takes.
struct DesignRain {
  std::string source;
  std::vector<RainIntensity> intensities;  // by return period, then duration
  std::optional<AnnualMaxima> maxima;
  bool operator==(const DesignRain&) const = default;
};

}  // namespace houseleek::design
