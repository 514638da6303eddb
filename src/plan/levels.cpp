// The deck as squares with levels: falls, spot levels, puddles, obstacles, and how far the levels may be wrong.
#include "plan/levels.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "base/contract.hpp"
#include "geometry/outline.hpp"
#include "numerics/elementary.hpp"
#include "physics/constants.hpp"

namespace houseleek::plan {
namespace {

using geometry::Outline;
using geometry::PointM;

constexpr double metres_per_mm = 0.001;
constexpr double closed = std::numeric_limits<double>::infinity();

std::size_t at(int index) { return static_cast<std::size_t>(index); }

/// Downhill on the plan; exact along the axes, so that mirrored roofs are mirrored to the last bit.
PointM downhill(double bearing_deg) {
  const double turned = bearing_deg - 360.0 * std::floor(bearing_deg / 360.0);
  if (turned == 0.0) return {0.0, 1.0};
  if (turned == 90.0) return {1.0, 0.0};
  if (turned == 180.0) return {0.0, -1.0};
  if (turned == 270.0) return {-1.0, 0.0};
  return {numerics::sin(turned * physics::radians_per_degree), numerics::cos(turned * physics::radians_per_degree)};
}

double distance_m(const PointM& a, const PointM& b) {
  return numerics::sqrt((a.x_m - b.x_m) * (a.x_m - b.x_m) + (a.y_m - b.y_m) * (a.y_m - b.y_m));
}

/// z = level + x slope_x + y slope_y, x and y from a middle.
struct Plane {
  PointM middle;
  double level_m = 0.0;
  double slope_x = 0.0;
  double slope_y = 0.0;
  [[nodiscard]] double operator()(const PointM& p) const {
    return level_m + (slope_x * (p.x_m - middle.x_m) + slope_y * (p.y_m - middle.y_m));
  }
};

/// Least squares through the spot levels; level if they lie in one line.
Plane plane_through(const std::vector<design::SpotLevel>& levels) {
  Plane plane;
  const auto n = static_cast<double>(levels.size());
  for (const design::SpotLevel& one : levels) {
    plane.middle.x_m += one.at.x_m / n;
    plane.middle.y_m += one.at.y_m / n;
    plane.level_m += metres_per_mm * one.level_mm / n;
  }
  double xx = 0.0, xy = 0.0, yy = 0.0, xz = 0.0, yz = 0.0;
  for (const design::SpotLevel& one : levels) {
    const double x = one.at.x_m - plane.middle.x_m;
    const double y = one.at.y_m - plane.middle.y_m;
    const double z = metres_per_mm * one.level_mm - plane.level_m;
    xx += x * x;
    xy += x * y;
    yy += y * y;
    xz += x * z;
    yz += y * z;
  }
  const double determinant = xx * yy - xy * xy;
  if (determinant <= 1.0e-6 * (xx + yy) * (xx + yy)) return plane;
  plane.slope_x = (xz * yy - yz * xy) / determinant;
  plane.slope_y = (yz * xx - xz * xy) / determinant;
  return plane;
}

/// Level of the deck without puddles: falls, and what spot levels differ from them.
class BaseDeck {
 public:
  explicit BaseDeck(const design::Design& design) : outlets_(design.roof.outlets), spots_(design.drainage.levels) {
    const design::Roof& roof = design.roof;
    if (roof.fall_mm_per_m) {
      const double along = roof.fall_towards_deg.value_or(0.0) - roof.north_deg;
      const PointM down = downhill(along);
      plane_ = Plane{.middle = {},
                     .level_m = 0.0,
                     .slope_x = -metres_per_mm * *roof.fall_mm_per_m * down.x_m,
                     .slope_y = -metres_per_mm * *roof.fall_mm_per_m * down.y_m};
      from_ = "one fall";
    } else if (design.drainage.fall_to_outlets_mm_per_m) {
      cone_slope_ = metres_per_mm * *design.drainage.fall_to_outlets_mm_per_m;
      from_ = "a fall to the nearest outlet";
    } else if (spots_.size() >= 3) {
      plane_ = plane_through(spots_);
      from_ = "the plane through the spot levels";
    } else {
      from_ = "no fall known: taken as level";
    }
    double mean_m = 0.0;
    for (const design::SpotLevel& spot : spots_) {
      off_m_.push_back(metres_per_mm * spot.level_mm - fall_m(spot.at));
      mean_m += off_m_.back() / static_cast<double>(spots_.size());
    }
    // The datum of the spot levels is the person's own.
    for (double& off_m : off_m_) off_m -= mean_m;
    if (!spots_.empty()) from_ += fmt::format(", {} spot levels", spots_.size());
  }

  /// Root mean square of what each spot lies off what the others say there.
  [[nodiscard]] double leave_one_out_m() const {
    if (spots_.size() < 4) return 0.0;
    double squares = 0.0;
    for (std::size_t k = 0; k < spots_.size(); ++k) {
      const double miss_m = off_m_[k] - weighted_m(spots_[k].at, static_cast<int>(k));
      squares += miss_m * miss_m;
    }
    return numerics::sqrt(squares / static_cast<double>(spots_.size()));
  }

  /// Every difference from the fall grown or shrunk by this much.
  void roughen(double by_m) {
    for (double& off_m : off_m_) {
      const double size_m = std::max(0.0, std::fabs(off_m) + by_m);
      off_m = off_m > 0.0 ? size_m : off_m < 0.0 ? -size_m : 0.0;
    }
  }

  [[nodiscard]] double level_m(const PointM& p) const { return fall_m(p) + weighted_m(p, -1); }
  [[nodiscard]] const std::string& from() const { return from_; }

 private:
  [[nodiscard]] double fall_m(const PointM& p) const {
    if (plane_) return (*plane_)(p);
    if (cone_slope_ == 0.0) return 0.0;
    double nearest_m = closed;
    for (const design::Outlet& outlet : outlets_) nearest_m = std::min(nearest_m, distance_m(p, outlet.at));
    return cone_slope_ * nearest_m;
  }

  /// Shepard's mean of what the spots lie off the fall, one of them left out.
  [[nodiscard]] double weighted_m(const PointM& p, int without) const {
    double weights = 0.0;
    double sum_m = 0.0;
    for (std::size_t k = 0; k < spots_.size(); ++k) {
      if (static_cast<int>(k) == without) continue;
      const double x = p.x_m - spots_[k].at.x_m;
      const double y = p.y_m - spots_[k].at.y_m;
      const double distance2 = x * x + y * y;
      if (distance2 == 0.0) return off_m_[k];
      weights += 1.0 / distance2;
      sum_m += off_m_[k] / distance2;
    }
    return weights > 0.0 ? sum_m / weights : 0.0;
  }

  const std::vector<design::Outlet>& outlets_;
  const std::vector<design::SpotLevel>& spots_;
  std::optional<Plane> plane_;
  double cone_slope_ = 0.0;
  std::vector<double> off_m_;
  std::string from_;
};

double distance_to_edge_m(const Outline& outline, const PointM& p) {
  double nearest_m = closed;
  for (std::size_t k = 0; k < outline.size(); ++k) {
    const PointM& a = outline[k];
    const PointM& b = outline[(k + 1) % outline.size()];
    const double dx = b.x_m - a.x_m;
    const double dy = b.y_m - a.y_m;
    const double away_x = p.x_m - a.x_m;
    const double away_y = p.y_m - a.y_m;
    const double along = std::clamp((away_x * dx + away_y * dy) / (dx * dx + dy * dy), 0.0, 1.0);
    // From the corner, not from the plan's origin: a mirrored outline then gives the same bits.
    nearest_m = std::min(nearest_m, distance_m({away_x, away_y}, {along * dx, along * dy}));
  }
  return nearest_m;
}

/// A puddle on the base deck: its still water's level and the greatest distance from its edge.
struct Bowl {
  const design::Hollow* hollow = nullptr;
  double edge_level_m = 0.0;
  double reach_m = 0.0;
  double depth_m = 0.0;
};

constexpr int samples_of_side = 32;  // a power of two: mirrored outlines give mirrored samples to the last bit

Bowl make_bowl(const design::Hollow& hollow, const BaseDeck& base, double depth_m) {
  Bowl bowl{.hollow = &hollow, .edge_level_m = closed, .reach_m = 0.0, .depth_m = depth_m};
  const Outline& outline = hollow.outline;
  PointM least = outline.front();
  PointM most = outline.front();
  for (std::size_t k = 0; k < outline.size(); ++k) {
    const PointM& a = outline[k];
    const PointM& b = outline[(k + 1) % outline.size()];
    for (int s = 0; s < samples_of_side; ++s) {
      const double share = static_cast<double>(s) / samples_of_side;
      const PointM p{a.x_m + share * (b.x_m - a.x_m), a.y_m + share * (b.y_m - a.y_m)};
      bowl.edge_level_m = std::min(bowl.edge_level_m, base.level_m(p));
    }
    least = {std::min(least.x_m, a.x_m), std::min(least.y_m, a.y_m)};
    most = {std::max(most.x_m, a.x_m), std::max(most.y_m, a.y_m)};
  }
  for (int i = 0; i <= 2 * samples_of_side; ++i) {
    for (int j = 0; j <= 2 * samples_of_side; ++j) {
      const PointM p{least.x_m + (most.x_m - least.x_m) * i / (2.0 * samples_of_side),
                     least.y_m + (most.y_m - least.y_m) * j / (2.0 * samples_of_side)};
      const double away_m = distance_to_edge_m(outline, p);
      if (away_m > bowl.reach_m && geometry::contains(outline, p)) bowl.reach_m = away_m;
    }
  }
  return bowl;
}

double level_in_bowl_m(const Bowl& bowl, const PointM& p) {
  const double t = bowl.reach_m > 0.0 ? std::min(1.0, distance_to_edge_m(bowl.hollow->outline, p) / bowl.reach_m) : 1.0;
  return bowl.edge_level_m - bowl.depth_m * (1.0 - (1.0 - t) * (1.0 - t));
}

/// Columns and rows over the roof's box, as square as it allows.
DeckShape make_grid(const Outline& outline, const LevelOptions& options) {
  PointM least = outline.front();
  PointM most = outline.front();
  for (const PointM& p : outline) {
    least = {std::min(least.x_m, p.x_m), std::min(least.y_m, p.y_m)};
    most = {std::max(most.x_m, p.x_m), std::max(most.y_m, p.y_m)};
  }
  const double length_m = most.x_m - least.x_m;
  const double depth_m = most.y_m - least.y_m;
  const double side_m = std::max(options.square_m, numerics::sqrt(length_m * depth_m / options.most_squares));
  DeckShape shape;
  shape.columns = std::max(1, static_cast<int>(std::ceil(length_m / side_m - 1.0e-9)));
  shape.rows = std::max(1, static_cast<int>(std::ceil(depth_m / side_m - 1.0e-9)));
  shape.left_m = least.x_m;
  shape.bottom_m = least.y_m;
  shape.width_m = length_m / shape.columns;
  shape.height_m = depth_m / shape.rows;
  return shape;
}

/// A square that lies wholly on the roof has its own area, without the rounding of the cut.
double area_on_roof_m2(const Outline& outline, const DeckShape& shape, int square) {
  const double whole_m2 = shape.width_m * shape.height_m;
  const double cut_m2 = geometry::overlap_area_m2(outline, rectangle_of(shape, square));
  return std::fabs(cut_m2 - whole_m2) <= 1.0e-9 * whole_m2 ? whole_m2 : cut_m2;
}

/// Squares that are mostly an obstacle hold no water; their rain runs onto the nearest squares that do.
void take_out_obstacles(const design::Roof& roof, DeckLevels& levels) {
  DeckShape& shape = levels.shape;
  const int n = shape.columns * shape.rows;
  std::vector<double> taken_m2(at(n), 0.0);
  for (int square = 0; square < n; ++square) {
    double on_obstacles_m2 = 0.0;
    for (const design::Obstacle& obstacle : roof.obstacles) {
      on_obstacles_m2 += geometry::overlap_area_m2(obstacle.outline, rectangle_of(shape, square));
    }
    if (on_obstacles_m2 > 0.5 * shape.area_m2[at(square)]) std::swap(taken_m2[at(square)], shape.area_m2[at(square)]);
  }
  for (int square = 0; square < n; ++square) {
    if (taken_m2[at(square)] <= 0.0) continue;
    // All squares at the least distance share, so that no side is favoured.
    double nearest_m = closed;
    std::vector<int> nearest;
    for (int other = 0; other < n; ++other) {
      if (shape.area_m2[at(other)] <= 0.0) continue;
      const double away_m = distance_m(middle_of(shape, square), middle_of(shape, other));
      if (away_m < nearest_m - 1.0e-9) nearest.clear();
      if (away_m < nearest_m + 1.0e-9) {
        nearest_m = std::min(nearest_m, away_m);
        nearest.push_back(other);
      }
    }
    for (const int other : nearest) {
      levels.shed_m2[at(other)] += taken_m2[at(square)] / static_cast<double>(nearest.size());
    }
  }
}

void set_sills(const std::vector<Bowl>& bowls, DeckShape& shape) {
  const std::size_t n = shape.level_m.size();
  std::vector<std::vector<bool>> is_in(bowls.size(), std::vector<bool>(n));
  for (std::size_t b = 0; b < bowls.size(); ++b) {
    for (std::size_t k = 0; k < n; ++k) {
      is_in[b][k] = geometry::contains(bowls[b].hollow->outline, middle_of(shape, static_cast<int>(k)));
    }
  }
  const auto sill_m = [&](int one, int other) {
    double level_m = std::max(shape.level_m[at(one)], shape.level_m[at(other)]);
    // The water's edge of a puddle lies between two middles: it is a sill even where both are lower.
    for (std::size_t b = 0; b < bowls.size(); ++b) {
      if (is_in[b][at(one)] != is_in[b][at(other)]) level_m = std::max(level_m, bowls[b].edge_level_m);
    }
    return level_m;
  };
  for (int j = 0; j < shape.rows; ++j) {
    for (int i = 0; i + 1 < shape.columns; ++i) {
      shape.sill_x_m.push_back(sill_m(i + j * shape.columns, i + 1 + j * shape.columns));
    }
  }
  for (int j = 0; j + 1 < shape.rows; ++j) {
    for (int i = 0; i < shape.columns; ++i) {
      shape.sill_y_m.push_back(sill_m(i + j * shape.columns, i + (j + 1) * shape.columns));
    }
  }
}

}  // namespace

geometry::PointM middle_of(const DeckShape& shape, int square) {
  return {shape.left_m + (square % shape.columns + 0.5) * shape.width_m,
          shape.bottom_m + (square / shape.columns + 0.5) * shape.height_m};
}

geometry::RectangleM rectangle_of(const DeckShape& shape, int square) {
  const int i = square % shape.columns;
  const int j = square / shape.columns;
  return {shape.left_m + i * shape.width_m, shape.bottom_m + j * shape.height_m, shape.left_m + (i + 1) * shape.width_m,
          shape.bottom_m + (j + 1) * shape.height_m};
}

int square_at(const DeckShape& shape, geometry::PointM point) {
  int nearest = -1;
  double nearest_m = closed;
  for (int square = 0; square < shape.columns * shape.rows; ++square) {
    if (shape.area_m2[at(square)] <= 0.0) continue;
    const double away_m = distance_m(middle_of(shape, square), point);
    if (away_m < nearest_m) {
      nearest_m = away_m;
      nearest = square;
    }
  }
  expects(nearest >= 0, "a square of the roof");
  return nearest;
}

results::Interval level_error_mm(const design::Design& design) {
  if (design.drainage.level_error_mm) return results::exactly(*design.drainage.level_error_mm);
  return {2.0, 5.0, 10.0};
}

DeckLevels make_deck_levels(const design::ValidDesign& design, const LevelOptions& options) {
  expects(options.square_m > 0.0 && options.most_squares >= 1, "squares with a size");
  DeckLevels levels;
  levels.shape = make_grid(design->roof.outline, options);
  levels.level_error_mm = level_error_mm(*design);
  DeckShape& shape = levels.shape;
  const int n = shape.columns * shape.rows;
  BaseDeck base(*design);
  levels.from = base.from();
  levels.leave_one_out_mm = base.leave_one_out_m() / metres_per_mm;
  const double error_m = metres_per_mm * levels.level_error_mm.high;
  const double rougher_m = options.unevenness == Unevenness::rough    ? error_m
                           : options.unevenness == Unevenness::smooth ? -error_m
                                                                      : 0.0;
  base.roughen(rougher_m);
  std::vector<Bowl> bowls;
  for (const design::Hollow& hollow : design->roof.hollows) {
    bowls.push_back(make_bowl(hollow, base, std::max(0.0, metres_per_mm * hollow.depth_mm + rougher_m)));
  }
  if (!bowls.empty()) levels.from += fmt::format(", {} puddle{}", bowls.size(), bowls.size() == 1 ? "" : "s");
  levels.shed_m2.assign(at(n), 0.0);
  double lowest_m = closed;
  for (int square = 0; square < n; ++square) {
    shape.area_m2.push_back(area_on_roof_m2(design->roof.outline, shape, square));
    shape.level_m.push_back(base.level_m(middle_of(shape, square)));
    if (shape.area_m2.back() < geometry::least_area_m2) shape.area_m2.back() = 0.0;
    if (shape.area_m2.back() > 0.0) lowest_m = std::min(lowest_m, shape.level_m.back());
  }
  // Near zero, rounding of levels stays far below what drives water.
  for (double& level_m : shape.level_m) level_m -= lowest_m;
  for (Bowl& bowl : bowls) bowl.edge_level_m -= lowest_m;
  for (int square = 0; square < n; ++square) {
    for (const Bowl& bowl : bowls) {
      const PointM p = middle_of(shape, square);
      if (!geometry::contains(bowl.hollow->outline, p)) continue;
      shape.level_m[at(square)] = std::min(shape.level_m[at(square)], level_in_bowl_m(bowl, p));
    }
  }
  take_out_obstacles(design->roof, levels);
  set_sills(bowls, shape);
  return levels;
}

}  // namespace houseleek::plan
