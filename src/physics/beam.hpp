// Beams over any number of rigid supports: bending, shear, reactions and sag under loads anywhere on them.
#pragma once
#include <span>
#include <vector>

namespace houseleek::physics {

/// A beam of one stiffness all along. Its outer ends rest on the first and last support, or are built in there.
struct Beam {
  std::vector<double> supports_m;  // rising; one more than spans
  bool is_built_in = false;        // at both outer ends
};

/// A load spread evenly from one place to another; at one place where both are the same. Downwards positive.
struct BeamLoad {
  double from_m = 0.0;
  double to_m = 0.0;
  double total_kn = 0.0;
};

/// A load and what the supports answer to it.
struct BeamResponse {
  BeamLoad load;
  std::vector<double> support_moments_knm;  // one a support; below zero: the top is pulled
  std::vector<double> reactions_kn;         // upwards positive
};

/// Solves the beam under one load; loads add up by superposition.
/// Equation: for each inner support k between spans L and R of lengths l and r:
///           M_(k-1) l + 2 M_k (l + r) + M_(k+1) r = -A_L - B_R; A_L = w/l [l2 x2/2 - x4/4], x from the span's left end
///           over the loaded stretch; B_R the same from its right end; of a load at one place A = P x (l2 - x2)/l. A
///           resting end has M = 0, a built-in one 2 M_0 r + M_1 r = -B_R
/// Symbols:  M: bending over a support; w: load on a metre; P: load at one place
/// Shape:    one load in; per support one moment and one reaction out. Reactions add up to the load.
/// Units:    m, kN, kNm.
/// Valid:    small sags, rigid supports that also hold down, equal stiffness; the load lies on the beam.
/// Errors:   ContractViolation without a span, with supports that do not rise, or with a load beyond the beam.
/// Conserves: sum of reactions = load, and their moment, to rounding.
/// Source:   [timoshenko1955] Vol. I, three-moment equation.   Checked by: LOAD-01 to LOAD-24.
[[nodiscard]] BeamResponse solve_beam(const Beam& beam, const BeamLoad& load);

/// Bending at a place, below zero where the top is pulled.
/// Equation: M = M_l (1 - s) + M_r s + M_0; M_0 of the span taken alone: R x - w (x - a)2/2 within the stretch
/// Symbols:  s = x/l: share of the span from its left end
/// Shape:    scalar out; pure.
/// Units:    m, kNm.
/// Valid:    from the first support to the last.
/// Errors:   ContractViolation outside.
/// Source:   [timoshenko1955] Vol. I.   Checked by: LOAD-01 to LOAD-24.
[[nodiscard]] double beam_moment_knm(const Beam& beam, const BeamResponse& response, double x_m);

/// Shear just right of a place: what the part on its left pushes up.
/// Equation: V = (M_r - M_l)/l + V_0
/// Symbols:  V_0: of the span taken alone; M_l, M_r: over its supports
/// Shape:    scalar out; pure. Jumps at supports and at loads at one place.
/// Units:    m, kN.
/// Valid:    from the first support to the last; at the last one, the value left of it.
/// Errors:   ContractViolation outside.
/// Source:   [timoshenko1955] Vol. I.   Checked by: LOAD-04, LOAD-05.
[[nodiscard]] double beam_shear_kn(const Beam& beam, const BeamResponse& response, double x_m);

/// Sag at a place.
/// Equation: u = integral over the span of M m ds/(E I), m the bending of the span alone under 1 at the place
/// Symbols:  E I: stiffness
/// Shape:    sum over the responses; scalar out; pure. Exact: Gauss with two points on pieces where M is quadratic.
/// Units:    m; kN m2.
/// Valid:    bending alone, no shear sag; downwards positive.
/// Errors:   ContractViolation if the stiffness is not above zero.
/// Source:   [timoshenko1955] Vol. I, unit load.   Checked by: LOAD-25, LOAD-26.
[[nodiscard]] double beam_sag_m(const Beam& beam, std::span<const BeamResponse> responses, double x_m,
                                double stiffness_knm2);

}  // namespace houseleek::physics
