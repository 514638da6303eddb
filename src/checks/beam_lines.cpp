// The deck cut into beams: strips of slab or joists, each with the supports and the loads that are its own.
#include "checks/beam_lines.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace houseleek::checks {
namespace {

using geometry::RectangleM;

constexpr double rounding_m = 1e-6;

/// A rectangle seen along the spans (from, to) and across them (left, right).
struct Turned {
  double from_m = 0.0;
  double to_m = 0.0;
  double left_m = 0.0;
  double right_m = 0.0;
};

Turned turned(const RectangleM& r, design::SpanAxis along) {
  return along == design::SpanAxis::x ? Turned{r.left_m, r.right_m, r.bottom_m, r.top_m}
                                      : Turned{r.bottom_m, r.top_m, r.left_m, r.right_m};
}

RectangleM plan_rectangle(const Turned& t, design::SpanAxis along) {
  return along == design::SpanAxis::x ? RectangleM{t.from_m, t.left_m, t.to_m, t.right_m}
                                      : RectangleM{t.left_m, t.from_m, t.right_m, t.to_m};
}

bool is_hole(const design::Obstacle& obstacle) {
  return obstacle.kind == design::ObstacleKind::hatch || obstacle.kind == design::ObstacleKind::rooflight;
}

/// The deck runs unbroken from support to support over this strip.
bool is_whole_span(const design::Roof& roof, const Turned& span, design::SpanAxis along) {
  const RectangleM place = plan_rectangle(span, along);
  if (!geometry::is_inside(roof.outline, place)) return false;
  return std::none_of(roof.obstacles.begin(), roof.obstacles.end(), [&place](const design::Obstacle& obstacle) {
    return is_hole(obstacle) && geometry::is_overlapping(obstacle.outline, place);
  });
}

/// Beams over the unbroken runs of spans of one strip.
std::vector<physics::Beam> runs_of(const design::Roof& roof, design::SpanAxis along, std::span<const double> supports_m,
                                   double left_m, double right_m) {
  const bool is_built_in = roof.structure->ends == design::BeamEnds::built_in;
  std::vector<physics::Beam> runs;
  bool is_open = false;
  for (std::size_t k = 0; k + 1 < supports_m.size(); ++k) {
    if (!is_whole_span(roof, {supports_m[k], supports_m[k + 1], left_m, right_m}, along)) {
      is_open = false;
      continue;
    }
    if (!is_open) runs.push_back({{supports_m[k]}, is_built_in});
    runs.back().supports_m.push_back(supports_m[k + 1]);
    is_open = true;
  }
  return runs;
}

/// What of a footprint comes on a line: its share of the weight per metre of the footprint's own length.
struct OnLine {
  int footprint = 0;
  double share = 0.0;  // of its weight, if all its length lies on the beam
};

/// The strip a line stands for, and the widths of roof whose allowance and whose even load it counts.
struct LineWidth {
  double from_m = 0.0;
  double to_m = 0.0;
  double allowance_m = 0.0;
  double load_m = 0.0;
};

/// Puts the loads on the runs; says which footprint has a part on no run.
void add_lines(const std::vector<physics::Beam>& runs, const std::vector<OnLine>& loads,
               std::span<const Footprint> footprints, design::SpanAxis along, const LineWidth& width,
               double load_kn_per_m2, bool is_by_turns, BeamLines& to, std::set<int>& not_modelled) {
  std::vector<double> carried_m(loads.size(), 0.0);
  for (const physics::Beam& beam : runs) {
    BeamLine line;
    line.along = along;
    line.across_from_m = width.from_m;
    line.across_to_m = width.to_m;
    line.load_width_m = width.load_m;
    line.beam = beam;
    line.allowance = make_even_allowance(beam, width.allowance_m * load_kn_per_m2, is_by_turns);
    for (std::size_t i = 0; i < loads.size(); ++i) {
      const Turned place = turned(footprints[static_cast<std::size_t>(loads[i].footprint)].rectangle, along);
      const double from_m = std::max(place.from_m, beam.supports_m.front());
      const double to_m = std::min(place.to_m, beam.supports_m.back());
      if (to_m - from_m <= rounding_m) continue;
      carried_m[i] += to_m - from_m;
      line.footprints.push_back(loads[i].footprint);
      line.shares.push_back(loads[i].share * (to_m - from_m) / (place.to_m - place.from_m));
      line.of_one_kn.push_back(physics::solve_beam(beam, {from_m, to_m, 1.0}));
    }
    if (!line.footprints.empty()) to.lines.push_back(std::move(line));
  }
  for (std::size_t i = 0; i < loads.size(); ++i) {
    const Turned place = turned(footprints[static_cast<std::size_t>(loads[i].footprint)].rectangle, along);
    if (carried_m[i] < place.to_m - place.from_m - rounding_m) not_modelled.insert(loads[i].footprint);
  }
}

BeamLines strips_of(const design::Roof& roof, design::SpanAxis along, std::span<const double> supports_m,
                    std::span<const Footprint> footprints, double load_kn_per_m2, bool is_by_turns) {
  std::vector<double> sides_m;
  for (const Footprint& one : footprints) {
    const Turned place = turned(one.rectangle, along);
    sides_m.push_back(place.left_m);
    sides_m.push_back(place.right_m);
  }
  std::sort(sides_m.begin(), sides_m.end());
  BeamLines lines;
  std::set<int> not_modelled;
  for (std::size_t s = 0; s + 1 < sides_m.size(); ++s) {
    const double left_m = sides_m[s];
    const double right_m = sides_m[s + 1];
    if (right_m - left_m <= rounding_m) continue;
    const double middle_m = 0.5 * (left_m + right_m);
    std::vector<OnLine> loads;
    for (std::size_t i = 0; i < footprints.size(); ++i) {
      const Turned place = turned(footprints[i].rectangle, along);
      if (place.left_m < middle_m && place.right_m > middle_m) {
        loads.push_back({static_cast<int>(i), 1.0 / (place.right_m - place.left_m)});  // on 1 m of width
      }
    }
    if (loads.empty()) continue;
    add_lines(runs_of(roof, along, supports_m, left_m, right_m), loads, footprints, along, {left_m, right_m, 1.0, 1.0},
              load_kn_per_m2, is_by_turns, lines, not_modelled);
  }
  lines.not_modelled.assign(not_modelled.begin(), not_modelled.end());
  return lines;
}

/// Integral from a to b of a joist's share: 1 above it, falling to 0 at its neighbours; beyond the outermost joist it
/// stays 1.
double share_between(double joist_m, double spacing_m, bool is_first, bool is_last, double a_m, double b_m) {
  const auto primitive = [&](double t_m) {
    const double u = std::clamp((t_m - joist_m) / spacing_m, -1.0, 1.0);
    if (u < 0.0 && is_first) return t_m - joist_m;
    if (u > 0.0 && is_last) return t_m - joist_m;
    return spacing_m * (u - 0.5 * u * std::fabs(u));
  };
  return primitive(b_m) - primitive(a_m);
}

/// How far the roof reaches across the spans.
struct Reach {
  double from_m = 0.0;
  double to_m = 0.0;
};

Reach reach_across(const design::Roof& roof, design::SpanAxis along) {
  Reach reach = {1e9, -1e9};
  for (const geometry::PointM& corner : roof.outline) {
    const double across_m = along == design::SpanAxis::x ? corner.y_m : corner.x_m;
    reach = {std::min(reach.from_m, across_m), std::max(reach.to_m, across_m)};
  }
  return reach;
}

std::vector<double> joists_on(const design::Joists& joists, const Reach& reach) {
  const double spacing_m = 0.001 * joists.spacing_mm;
  const double from = std::ceil((reach.from_m - joists.first_at_m) / spacing_m - rounding_m);
  const double to = std::floor((reach.to_m - joists.first_at_m) / spacing_m + rounding_m);
  std::vector<double> at_m;
  for (double i = from; i <= to; i += 1.0) at_m.push_back(joists.first_at_m + i * spacing_m);
  return at_m;
}

BeamLines joists_of(const design::Roof& roof, design::SpanAxis along, std::span<const double> supports_m,
                    std::span<const Footprint> footprints, double load_kn_per_m2, bool is_by_turns) {
  const double spacing_m = 0.001 * roof.structure->joists->spacing_mm;
  const Reach reach = reach_across(roof, along);
  const std::vector<double> at_m = joists_on(*roof.structure->joists, reach);
  BeamLines lines;
  std::set<int> not_modelled;
  if (at_m.empty()) {
    for (std::size_t i = 0; i < footprints.size(); ++i) lines.not_modelled.push_back(static_cast<int>(i));
    return lines;
  }
  for (std::size_t j = 0; j < at_m.size(); ++j) {
    const bool is_first = j == 0;
    const bool is_last = j + 1 == at_m.size();
    // The figure on an outermost joist counts on its inner side alone: less than it carries, never more.
    const double width_m = (is_first ? 0.0 : 0.5 * spacing_m) + (is_last ? 0.0 : 0.5 * spacing_m);
    std::vector<OnLine> loads;
    for (std::size_t i = 0; i < footprints.size(); ++i) {
      const Turned place = turned(footprints[i].rectangle, along);
      const double share_m = share_between(at_m[j], spacing_m, is_first, is_last, place.left_m, place.right_m);
      if (share_m > rounding_m) loads.push_back({static_cast<int>(i), share_m / (place.right_m - place.left_m)});
    }
    if (loads.empty()) continue;
    // A joist is there where the roof is: a millimetre along its middle, inside the outline.
    const double left_m = is_first && !is_last ? at_m[j] : at_m[j] - 0.0005;
    const double right_m = is_last && !is_first ? at_m[j] : at_m[j] + 0.0005;
    const LineWidth width = {at_m[j] - 0.5 * spacing_m, at_m[j] + 0.5 * spacing_m, width_m,
                             share_between(at_m[j], spacing_m, is_first, is_last, reach.from_m, reach.to_m)};
    add_lines(runs_of(roof, along, supports_m, left_m, right_m), loads, footprints, along, width, load_kn_per_m2,
              is_by_turns, lines, not_modelled);
  }
  lines.not_modelled.assign(not_modelled.begin(), not_modelled.end());
  return lines;
}

}  // namespace

BeamLines make_beam_lines(const design::Roof& roof, design::SpanAxis along, std::span<const double> supports_m,
                          std::span<const Footprint> footprints, double load_kn_per_m2) {
  const bool is_by_turns = roof.allowable_load && roof.allowable_load->is_by_turns.value_or(false);
  if (roof.structure->joists) {
    return joists_of(roof, along, supports_m, footprints, load_kn_per_m2, is_by_turns);
  }
  return strips_of(roof, along, supports_m, footprints, load_kn_per_m2, is_by_turns);
}

}  // namespace houseleek::checks
