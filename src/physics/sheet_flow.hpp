// Rain that runs off over a deck in a thin sheet, or through a coarse layer that lies on it.
#pragma once

namespace houseleek::physics {

/// Flow of a wide sheet over a plane.
/// Equation: q = h^(5/3) sqrt(S)/n
/// Symbols:  h = depth_m; S = slope; n = roughness_s_per_m13, Manning's
/// Shape:    scalars in, scalar out; pure.
/// Units:    m, m/m and s/m^(1/3) in; m2/s out, per metre of width.
/// Valid:    depth and slope zero or more, roughness positive; turbulent flow. Films below about 2 mm are laminar and
///           run slower: the roughness in use stands for that too.
/// Errors:   ContractViolation outside the range.
/// Source:   [chow1988] Eq. 9.3.12 (from memory).   Checked by: SHEET-01.
[[nodiscard]] double sheet_flow_m2_per_s(double depth_m, double slope, double roughness_s_per_m13);

/// A plane under steady rain.
struct RainedPlane {
  double length_m = 0.0;  // along the fall
  double slope = 0.0;
  double roughness_s_per_m13 = 0.0;
  double rain_mm_per_h = 0.0;
};

/// Depth at the foot of a plane once the flow is steady.
/// Equation: h = (i L n/sqrt(S))^0.6
/// Symbols:  i: rain; L: length; n: roughness; S: slope
/// Shape:    struct in, scalar out; pure.
/// Units:    see the fields; m out.
/// Valid:    all positive; the kinematic wave: depth small against the fall over the length.
/// Errors:   ContractViolation if a field is not positive.
/// Source:   [chow1988] section 5.6 (from memory).   Checked by: SHEET-01, RoofFlow.SteadyPlaneIsKinematic.
[[nodiscard]] double sheet_depth_at_foot_m(const RainedPlane& plane);

/// Time from the start of a steady rain until all of a plane runs.
/// Equation: t = L^0.6 n^0.6/(i^0.4 S^0.3)
/// Symbols:  as above
/// Shape:    struct in, scalar out; pure.
/// Units:    see the fields; s out.
/// Valid:    as above; the plane is dry before.
/// Errors:   ContractViolation if a field is not positive.
/// Source:   [henderson1964], [woolhiser1967] (from memory).   Checked by: SHEET-02.
[[nodiscard]] double time_until_all_runs_s(const RainedPlane& plane);

/// A coarse layer that carries steady rain along a deck to its free edge.
struct DrainedLayer {
  double length_m = 0.0;  // from the ridge to the edge
  double conductivity_m_per_s = 0.0;
  double rain_mm_per_h = 0.0;
};

/// Greatest depth of water in a layer on a level deck.
/// Equation: h = L sqrt(i/K)
/// Symbols:  i: rain; L: length; K: conductivity
/// Shape:    struct in, scalar out; pure.
/// Units:    see the fields; m out.
/// Valid:    all positive, as long as the depth is within the layer; Darcy's law, no depth at the edge.
/// Errors:   ContractViolation if a field is not positive.
/// Source:   [bear1972] section 8.2, flow with a level base under uniform recharge (from memory).
///           Checked by: SHEET-03, RoofFlow.DrainedLayer.
[[nodiscard]] double level_layer_depth_m(const DrainedLayer& layer);

/// Depth of water at the foot of a layer on a falling deck.
/// Equation: h = i L/(K S)
/// Symbols:  as above; S = slope
/// Shape:    struct and scalar in, scalar out; pure.
/// Units:    see the fields; m out.
/// Valid:    all positive; depth small against the fall over the length, and within the layer.
/// Errors:   ContractViolation if a field is not positive.
/// Source:   [bear1972] (from memory).   Checked by: SHEET-04.
[[nodiscard]] double sloping_layer_depth_m(const DrainedLayer& layer, double slope);

/// Flow along the deck that a layer must carry at its edge.
/// Equation: q = i L C
/// Symbols:  C = runoff_frac of the rain that arrives
/// Shape:    scalars in, scalar out; pure.
/// Units:    mm/h, m, fraction in; l/(s m) out.
/// Valid:    zero or more.
/// Errors:   ContractViolation if negative.
/// Source:   definition.   Checked by: SHEET-05.
[[nodiscard]] double layer_demand_l_per_s_m(double rain_mm_per_h, double length_m, double runoff_frac);

}  // namespace houseleek::physics
