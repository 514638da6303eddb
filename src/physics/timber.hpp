// Timber joists under a load that stays: strength lost with time, creep, and water that gathers in the sag.
#pragma once

namespace houseleek::physics {

/// EN 1995-1-1: how long a load acts.
enum class TimberDuration { permanent, long_term, medium_term, short_term };

/// Share of its short-time strength that solid timber keeps under a load of some duration.
/// Equation: k_mod by table: service class 1 and 2: 0.60, 0.70, 0.80, 0.90; class 3: 0.50, 0.55, 0.65, 0.70
/// Symbols:  k_mod
/// Shape:    scalar out; pure.
/// Units:    share.
/// Valid:    solid timber; service class 1 to 3.
/// Errors:   ContractViolation for another class.
/// Source:   [en1995] Table 3.1.   Checked by: LOAD-40, LOAD-41.
[[nodiscard]] double timber_strength_frac(TimberDuration duration, int service_class);

/// What creep adds to the sag of solid timber under a load that stays.
/// Equation: k_def: 0.60, 0.80, 2.00 for service class 1, 2, 3
/// Symbols:  u_final = u (1 + k_def)
/// Shape:    scalar out; pure.
/// Units:    share of the first sag.
/// Valid:    solid timber; service class 1 to 3.
/// Errors:   ContractViolation for another class.
/// Source:   [en1995] Table 3.2.   Checked by: LOAD-42.
[[nodiscard]] double timber_creep_frac(int service_class);

/// Stiffness of a rectangular joist.
/// Equation: E I = E b h3/12
/// Symbols:  E: mean modulus; b, h: width and height
/// Shape:    scalar out; pure.
/// Units:    mm, N/mm2; kN m2.
/// Valid:    a whole section without notches.
/// Errors:   none.
/// Source:   [timoshenko1955] Vol. I.   Checked by: LOAD-43.
[[nodiscard]] double joist_stiffness_knm2(double width_mm, double height_mm, double modulus_n_per_mm2);

/// Water that gathers in a sag over the stiffness against it; at 1 and above every drop makes room for the next.
/// Equation: C = gamma s l4/(pi4 E I)
/// Symbols:  gamma = 9.81 kN/m3; s: spacing of the joists; l: span; the sag a half sine wave
/// Shape:    scalar out; pure. Sag with its water: u/(1 - C).
/// Units:    m, kN m2; pure number.
/// Valid:    one span on resting ends, level deck with no fall.
/// Errors:   ContractViolation if the stiffness is not above zero.
/// Source:   docs/equations/load.md.   Checked by: LOAD-44.
[[nodiscard]] double ponding_frac(double spacing_m, double span_m, double stiffness_knm2);

}  // namespace houseleek::physics
