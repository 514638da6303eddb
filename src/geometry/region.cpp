// Areas made of areas: what is left of a roof once strips, obstacles and modules are taken off it.
#include "geometry/region.hpp"

// GCC 12 takes the library's own boxes for unset.
#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic ignored "-Wmaybe-uninitialized"
#endif
#include <boost/geometry.hpp>
#include <boost/geometry/geometries/multi_polygon.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>

namespace houseleek::geometry {
namespace {

namespace bg = boost::geometry;
using Point = bg::model::d2::point_xy<double>;
using Polygon = bg::model::polygon<Point>;  // clockwise, closed: the library's default
using MultiPolygon = bg::model::multi_polygon<Polygon>;

Polygon polygon_from(std::span<const PointM> outline) {
  Polygon polygon;
  for (const PointM& corner : outline) bg::append(polygon.outer(), Point(corner.x_m, corner.y_m));
  bg::correct(polygon);
  return polygon;
}

template <class Ring>
Outline outline_from(const Ring& ring) {
  Outline outline;
  for (const Point& corner : ring) outline.push_back({corner.x(), corner.y()});
  if (outline.size() > 1) outline.pop_back();  // a closed ring repeats its first corner
  return outline;
}

MultiPolygon union_of(std::span<const Outline> outlines) {
  MultiPolygon sum;
  for (const Outline& outline : outlines) {
    if (outline.size() < 3) continue;
    MultiPolygon next;
    bg::union_(sum, polygon_from(outline), next);
    sum = std::move(next);
  }
  return sum;
}

Region region_from(const MultiPolygon& polygons) {
  Region region;
  for (const Polygon& polygon : polygons) {
    if (bg::area(polygon) <= least_area_m2) continue;
    RegionPart part;
    part.outer = outline_from(polygon.outer());
    for (const auto& hole : polygon.inners()) part.holes.push_back(outline_from(hole));
    region.parts.push_back(std::move(part));
  }
  return region;
}

}  // namespace

Region region_without(std::span<const PointM> outer, std::span<const Outline> taken_off) {
  MultiPolygon left;
  bg::difference(polygon_from(outer), union_of(taken_off), left);
  return region_from(left);
}

Region region_of_all(std::span<const Outline> outlines) { return region_from(union_of(outlines)); }

double area_m2(const Region& region) {
  double sum_m2 = 0.0;
  for (const RegionPart& part : region.parts) {
    sum_m2 += area_m2(part.outer);
    for (const Outline& hole : part.holes) sum_m2 -= area_m2(hole);
  }
  return sum_m2;
}

double overlap_area_m2(const Region& region, std::span<const PointM> outline) {
  double sum_m2 = 0.0;
  for (const RegionPart& part : region.parts) {
    sum_m2 += overlap_area_m2(part.outer, outline);
    for (const Outline& hole : part.holes) sum_m2 -= overlap_area_m2(hole, outline);
  }
  return sum_m2;
}

}  // namespace houseleek::geometry
