// Areas made of areas: what is left of a roof once strips, obstacles and modules are taken off it.
#pragma once
#include <span>
#include <vector>

#include "geometry/outline.hpp"

namespace houseleek::geometry {

/// One piece of a region: an outer ring and the holes in it.
struct RegionPart {
  Outline outer;
  std::vector<Outline> holes;
};

/// Pieces that do not overlap.
struct Region {
  std::vector<RegionPart> parts;
};

/// The outer outline without everything that any of the others covers.
/// Shape:    simple outlines, corners in either sense; the others may overlap each other and reach outside.
/// Units:    m. Errors: crossings lie on a grid of about a micrometre on a roof of 12 m; slivers below `least_area_m2` are dropped.
[[nodiscard]] Region region_without(std::span<const PointM> outer, std::span<const Outline> taken_off);

/// Everything that at least one of the outlines covers.
[[nodiscard]] Region region_of_all(std::span<const Outline> outlines);

[[nodiscard]] double area_m2(const Region& region);

/// Area that the region and the outline share.
[[nodiscard]] double overlap_area_m2(const Region& region, std::span<const PointM> outline);

}  // namespace houseleek::geometry
