// How far mould gets on a face that is damp and warm by the hour: an index from 0 (none) to 6 (all covered).
#pragma once

namespace houseleek::physics {

/// How readily a face grows mould.
enum class MouldClass { very_sensitive, sensitive, medium_resistant };

/// What the index depends on besides the present hour.
struct MouldState {
  double index = 0.0;
  double hours_unfit = 0.0;  // since it last could grow
};

/// Humidity from which mould grows, a share.
/// Equation: max(RH_min, -0.00267 T^3 + 0.160 T^2 - 3.13 T + 100) %, T limited to 20 degC; RH_min 80 (sensitive classes)
///           or 85 %
/// Symbols:  T: temperature
/// Shape:    enum and scalar; pure.
/// Units:    degC; share of saturation.
/// Valid:    any temperature; below 0 degC the value of 0 degC, 1.
/// Errors:   none.
/// Source:   [hukka1999], [viitanen2007].   Checked by: DAMP-40
[[nodiscard]] double critical_mould_humidity(MouldClass sensitivity, double temperature_c);

/// The index an hour later.
/// Equation: fit (0 < T < 50 degC, RH >= RH_crit): dM/dt = k1 k2 / [7 d exp(-0.68 ln T - 13.9 ln RH + 66.02)], k1 by class
///           and M below 1 or not, k2 = max(0, 1 - exp(2.3 (M - M_max))), M_max = A + B x - C x^2, x = (RH_crit -
///           RH)/(RH_crit - 100). Unfit: -0.032 a day in the first 6 h, 0 to 24 h, -0.016 a day after, times c
/// Symbols:  RH in %; d: a day; c = decline_frac
/// Shape:    one state and one hour in, a state out; pure.
/// Units:    degC, share of saturation.
/// Valid:    decline_frac 0 to 1; humidity 0 to 1.
/// Errors:   ContractViolation outside `Valid`.
/// Source:   [hukka1999], [viitanen2007]: the constants as a public text by others has them (text seen), the
///           papers themselves not.   Checked by: DAMP-41, DAMP-42
[[nodiscard]] MouldState mould_after_hour(MouldClass sensitivity, const MouldState& before, double temperature_c,
                                          double humidity, double decline_frac);

}  // namespace houseleek::physics
