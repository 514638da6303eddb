// A rectangular slab that rests on walls all round: bending both ways under a patch load, by sine series.
#pragma once
#include <span>
#include <vector>

#include "base/contract.hpp"

namespace houseleek::physics {

/// torsion 1: a plate; 0: beam strips both ways that share the load where they cross and pass on no twist.
struct SlabPanel {
  double length_x_m = 0.0;
  double length_y_m = 0.0;
  double poisson = 0.0;
  double torsion = 1.0;
};

struct SlabPatch {
  double from_x_m = 0.0;
  double to_x_m = 0.0;
  double from_y_m = 0.0;
  double to_y_m = 0.0;
  double load_kn_per_m2 = 0.0;
};

/// Bending on a metre of width: x pulls along x.
struct SlabMoments {
  double x_knm_per_m = 0.0;
  double y_knm_per_m = 0.0;
};

inline constexpr int slab_terms = 60;  // each way

/// Bending at the points where lines across x and lines across y meet.
/// Equation: M_x = sum q_mn (a2 + nu b2) / (a4 + 2 t a2 b2 + b4) sin a x sin b y, a = m pi/l_x, b = n pi/l_y;
///           q_mn = 4 q/(l_x l_y) times the integral of sin a x sin b y over the patches
/// Symbols:  nu: Poisson's ratio; t: torsion
/// Shape:    any number of patches; one result a point, all x of the first y first. m and n to 60.
/// Units:    m, kN/m2, kNm/m.
/// Valid:    simple supports that also hold the corners down, equal stiffness both ways, thin slab.
/// Errors:   of the 60 terms: below 0.2 % of the bending in the middle for patches down to a tenth of the span;
///           ContractViolation for a panel without sides or a patch turned round.
/// Source:   [timoshenko1959] section 30 (Navier's series), section 86 (unequal stiffness).
/// Checked by: LOAD-30 to LOAD-39.
[[nodiscard]] std::vector<SlabMoments> slab_moments(const SlabPanel& panel, std::span<const SlabPatch> patches,
                                                    std::span<const double> xs_m, std::span<const double> ys_m);

}  // namespace houseleek::physics
