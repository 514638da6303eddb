// Bending both ways, shear and what the supports carry, section by section: the second of two tests of the load.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "checks/allowance.hpp"
#include "checks/footprints.hpp"
#include "checks/sections.hpp"
#include "design/parse.hpp"

namespace houseleek::checks {

enum class SpanModel {
  none_given,     // nobody said how the deck carries
  engineer_only,  // this kind of deck has no model here
  computed
};

/// One metre of slab, or one joist, between the supports that carry it.
struct BeamLine {
  design::SpanAxis along = design::SpanAxis::x;
  double across_from_m = 0.0;  // the strip of roof it stands for
  double across_to_m = 0.0;
  double load_width_m = 1.0;  // of roof whose even load it carries
  physics::Beam beam;
  SpanAllowance allowance;
  std::vector<int> footprints;  // what lies on it, by index
  std::vector<double> shares;   // of each one's weight, all of it that lies on this line
  std::vector<physics::BeamResponse> of_one_kn;
};

/// The nearest sections of one beam line: figures of the greatest weights.
struct LineSections {
  int line = 0;  // index into SpanLoad::lines
  std::array<Section, 6> sections;
};

/// Bending of a slab panel between walls all round, at the point that comes nearest to the allowance's own.
struct PanelSection {
  double at_x_m = 0.0;
  double at_y_m = 0.0;
  bool is_along_x = true;
  bool is_plate = true;  // or beam strips without torsion
  double demand_knm_per_m = 0.0;
  double allowance_knm_per_m = 0.0;
};

struct SpanLoad {
  SpanModel model = SpanModel::none_given;
  std::vector<std::string> missing;  // of the engineer's figure
  std::vector<BeamLine> lines;
  std::vector<LineSections> worst;   // one a line; without a complete figure the allowance in them is zero
  std::vector<PanelSection> panels;  // of two-way slabs, one a panel
  std::vector<int> not_modelled;     // footprints that reach past supports or lie by a hole in the deck
  double duration_factor = 1.0;      // joists: strength for the figure's duration over that for a load that stays
  bool is_by_turns_known = false;    // the engineer said whether the figure may stand on single spans
  LoadVerdict verdict = LoadVerdict::none;
  std::string statement;  // one or more sentences
};

/// Test 2 of the load. It never excuses test 1, nor is it excused by it.
/// Equation: one-way slab: every strip between neighbouring sides of footprints as a beam of 1 m width, no spreading
///           across; joists: each carries what lies within a spacing of it in proportion to nearness; two-way slab: strips
///           both ways, each under the whole load, and the plate with and without torsion. Weights anywhere between the
///           lightest dry and the heaviest soaked, times the duration factor where they press
/// Shape:    design in; pure.
/// Units:    m, kN, kNm.
/// Valid:    screening by elastic beams on walls that do not give. Spans that lie wholly on the roof and off holes.
/// Errors:   none: what has no model is said.
/// Source:   docs/equations/load.md.   Checked by: tests/checks/span_load_test.cpp.
[[nodiscard]] SpanLoad check_span_load(const design::ValidDesign& design);

/// The same with other things on the roof, and with an even load that may lie on any of the spans.
[[nodiscard]] SpanLoad check_span_load(const design::ValidDesign& design, std::span<const Footprint> footprints,
                                       const results::Interval& everywhere_kn_per_m2 = {});

/// Both tests: the worse of the two. Where one has none the other may refuse, and cannot clear.
[[nodiscard]] LoadVerdict both_tests(LoadVerdict uniform, LoadVerdict spans);

}  // namespace houseleek::checks
