// What outlets, openings in an upstand, edges, gutters and pipes take at a given head.
#pragma once
#include <optional>

namespace houseleek::physics {

inline constexpr double gravity_m_per_s2 = 9.80665;  // by definition, CGPM 1901

/// A flow and how fast it rises with the head.
struct HeadFlow {
  double l_per_s = 0.0;
  double l_per_s_per_mm = 0.0;
};

struct RoundOutlet {
  double diameter_mm = 0.0;
  bool has_grate = true;  // or a strainer
};

/// An opening in an upstand, or the upstand's own top where `height_mm` is absent.
struct Opening {
  double width_mm = 0.0;
  std::optional<double> height_mm;
};

/// Flow into a round outlet in a flat roof.
/// Equation: h <= D/2: Q = k0 D h^1.5/7500; above: Q = k0 D^2 h^0.5/15000
/// Symbols:  h = head_mm above the outlet's rim; D: diameter; k0: 1, with a grate or strainer 0.5
/// Shape:    struct and scalar in, struct out; pure. The two laws meet at h = D/2, their slopes do not.
/// Units:    mm in; l/s and l/(s mm) out.
/// Valid:    any head; zero or less: no flow.
/// Errors:   ContractViolation if the diameter is not positive or the head not finite.
/// Source:   [en12056] Table 7 (from memory).   Checked by: OUTLET-01 to OUTLET-03, OutletFlow.RisesAndMeets.
[[nodiscard]] HeadFlow round_outlet_flow(const RoundOutlet& outlet, double head_mm);

/// Flow through an opening in an upstand, or over an edge.
/// Equation: the lesser of L h^1.5/24000 and A h^0.5/12000
/// Symbols:  h = head_mm above the sill; L: width; A: width times height of the opening; an open top has no second law
/// Shape:    struct and scalar in, struct out; pure.
/// Units:    mm in; l/s and l/(s mm) out.
/// Valid:    any head; zero or less: no flow. L h^1.5/24000 is 1.318 L h^1.5 in metres: a rough edge, not a weir plate.
/// Errors:   ContractViolation if a size is not positive or the head not finite.
/// Source:   [en12056] Table 7, outlets of other shapes (from memory).   Checked by: OUTLET-04 to OUTLET-06.
[[nodiscard]] HeadFlow opening_flow(const Opening& opening, double head_mm);

/// Head at which an opening with an open top takes a flow: the inverse of opening_flow.
/// Equation: h = (24000 Q/L)^(2/3)
/// Symbols:  Q = flow_l_per_s; L = width_mm
/// Shape:    scalars in, scalar out; pure.
/// Units:    mm and l/s in; mm out.
/// Valid:    width positive, flow zero or more.
/// Errors:   ContractViolation outside the range.
/// Source:   [en12056] Table 7 (from memory).   Checked by: OUTLET-07.
[[nodiscard]] double open_edge_head_mm(double width_mm, double flow_l_per_s);

/// Flow over an ideal broad crest: the upper bound of any edge.
/// Equation: Q = (2/3)^1.5 sqrt(g) L H^1.5
/// Symbols:  L = width_m; H = head_m; g: gravity
/// Shape:    scalars in, scalar out; pure.
/// Units:    m in; l/s out.
/// Valid:    zero or more; no friction, no approach speed.
/// Errors:   ContractViolation if negative.
/// Source:   [chow1959] section 3-6, critical depth over the crest.   Checked by: OUTLET-08.
[[nodiscard]] double broad_crest_flow_l_per_s(double width_m, double head_m);

/// Flow over a sharp plate.
/// Equation: Q = (2/3) C_d sqrt(2 g) L H^1.5
/// Symbols:  C_d = 0.62; L = width_m; H = head_m
/// Shape:    scalars in, scalar out; pure.
/// Units:    m in; l/s out.
/// Valid:    zero or more; air below the jet.
/// Errors:   ContractViolation if negative.
/// Source:   [chow1959] section 14-1 (from memory).   Checked by: OUTLET-09.
[[nodiscard]] double sharp_crest_flow_l_per_s(double width_m, double head_m);

/// Flow through a round hole with its middle below water.
/// Equation: Q = C_d pi D^2/4 sqrt(2 g h)
/// Symbols:  C_d = 0.6; D: diameter; h: head above the hole's middle
/// Shape:    scalars in, scalar out; pure.
/// Units:    mm in; l/s out.
/// Valid:    zero or more.
/// Errors:   ContractViolation if negative.
/// Source:   [chow1959] (from memory).   Checked by: OUTLET-10.
[[nodiscard]] double orifice_flow_l_per_s(double diameter_mm, double head_mm);

/// What an upright rainwater pipe takes.
/// Equation: Q = 2.5e-4 k^-0.167 d^2.667 f^1.667
/// Symbols:  k = 0.25 mm, roughness; d = diameter_mm, inner; f = filled_frac of the cross-section
/// Shape:    scalars in, scalar out; pure.
/// Units:    mm and fraction in; l/s out.
/// Valid:    d from 20 mm to 500 mm; f up to 0.33.
/// Errors:   ContractViolation outside the range.
/// Source:   [wyly1961] as in [en12056] Table 8 (from memory, recomputed).   Checked by: OUTLET-11 to OUTLET-13.
[[nodiscard]] double upright_pipe_flow_l_per_s(double diameter_mm, double filled_frac);

/// The filling that the standard allows where nothing else is known.
inline constexpr double usual_pipe_filling_frac = 0.33;

enum class Gutter { half_round, rectangular_eaves, valley };

/// The share of a gutter's nominal flow that it is designed for, [en12056] section 5 (from memory).
inline constexpr double gutter_design_frac = 0.9;

/// Nominal flow of a level gutter with a free outlet.
/// Equation: Q = c A^1.25
/// Symbols:  c: 2.78e-5 half round, 3.48e-5 rectangular at the eaves, 3.89e-5 in a valley or behind a parapet;
///           A = area_mm2 of the cross-section below the spill-over
/// Shape:    enum and scalar in, scalar out; pure.
/// Units:    mm2 in; l/s out.
/// Valid:    short gutters: length up to 50 water depths.
/// Errors:   ContractViolation if the area is not positive.
/// Source:   [en12056] section 5 (from memory).   Checked by: OUTLET-14.
[[nodiscard]] double gutter_flow_l_per_s(Gutter gutter, double area_mm2);

}  // namespace houseleek::physics
