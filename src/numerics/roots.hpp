// Cube, fourth and fifth roots for lanes without a division: a guess from the bit pattern, then polynomials.
#pragma once
#include "numerics/lane.hpp"

namespace houseleek::numerics {

/// Cube root of any sign.
/// Equation: y = guess of |x|^(-1/3); h = 1 - |x| y^3; y (1 - h)^(-1/3) by a polynomial; t = |x| y^2 cut to 26 bits;
///           t + d + d^2 y, d = (|x| - t^3) y^2 / 3 with the residual exact
/// Symbols:  the guess reads the exponent and mantissa bits as one number and divides it by -3: |h| <= 0.103
/// Shape:    one value or lanes; pure, branch-free.
/// Units:    pure numbers.
/// Valid:    0 (gives 0 of the same sign) and 1e-290 <= |x| <= 1e300; smaller |x| gives something below 1e-96 of no
///           stated accuracy, infinity gives not a number.
/// Errors:   at most 0.56 ulp measured.
/// Source:   [muller2016] (Newton with exact residual); own minimax coefficients.
/// Checked by: Elementary.DenseSweepsStayBelowTheStatedErrors, Lanes.ElementaryFunctionsGiveEqualBits
template <LaneType L>
[[nodiscard]] inline L cbrt(L x) {
  const L a = abs(x);
  const L read = from_bits<L>((bits_of(a) >> 20) | 0x4330000000000000ULL);
  const L guess = from_bits<L>(bits_of(L(6010657546494629.0) - read * L(1.0 / 3.0)) << 20);
  const L h = L(1.0) - ((a * guess) * guess) * guess;
  const L h2 = h * h;
  const L p = (L(0x1.5555562461568p-2) + h * L(0x1.c71c762b9df54p-3)) +
              h2 * ((L(0x1.61f4af263056fp-3) + h * L(0x1.26f2ba6241648p-3)) +
                    h2 * (L(0x1.036c0554a7a53p-3) + h * L(0x1.cf37d52dbce62p-4)));
  const L y = guess + guess * (h * p);
  const L y2 = y * y;
  const L t = from_bits<L>(bits_of(a * y2) & 0xfffffffff8000000ULL);
  const L square = t * t;  // exact
  const L square_high = from_bits<L>(bits_of(square) & 0xfffffffff8000000ULL);
  const L residual = (a - square_high * t) - (square - square_high) * t;
  const L d = residual * (y2 * L(1.0 / 3.0));
  const L root = t + (d + (d * y) * d);
  return from_bits<L>(bits_of(root) | (bits_of(x) & 0x8000000000000000ULL));
}

/// x^0.8 (the speed law of turbulent films).
/// Equation: x^(4/5) = x y, y = x^(-1/5): guess from the bits, h = 1 - x y^5, y (1 - h)^(-1/5) by a polynomial, then a
///           Newton step
/// Symbols:  the guess reads the exponent and mantissa bits as one number and divides it by -5: |h| <= 0.155
/// Shape:    one value or lanes; pure, branch-free.
/// Units:    pure numbers.
/// Valid:    0 and 1e-300 <= x <= 1e300; negative x not a number.
/// Errors:   at most 1.6 ulp measured.
/// Source:   [muller2016]; own minimax coefficients.
/// Checked by: Elementary.DenseSweepsStayBelowTheStatedErrors, Lanes.ElementaryFunctionsGiveEqualBits
template <LaneType L>
[[nodiscard]] inline L power_four_fifths(L x) {
  const L read = from_bits<L>((bits_of(x) >> 20) | 0x4330000000000000ULL);
  const L guess = from_bits<L>(bits_of(L(5409591789482934.0) - read * L(0.2)) << 20);
  const L guess2 = guess * guess;
  const L h = L(1.0) - ((x * guess) * guess2) * guess2;
  const L h2 = h * h;
  const L p = (L(0x1.9999a28cc7039p-3) + h * L(0x1.eb854fcbfe4a2p-4)) +
              h2 * ((L(0x1.685a81da7f185p-4) + h * L(0x1.20352f4d89a7fp-4)) +
                    h2 * (L(0x1.f4511562e8154p-5) + h * L(0x1.b6002abb8221fp-5)));
  const L y = guess + guess * (h * p);
  const L y2 = y * y;
  const L power = x * y;
  const L residual = L(1.0) - (power * y2) * y2;
  const L root = power + power * (residual * L(0.2));
  return select(x >= L(0.0), root, L(__builtin_nan("")));
}

/// x^(1/4) for x >= 0; negative x not a number. Two correctly rounded square roots: at most 0.85 ulp measured.
template <LaneType L>
[[nodiscard]] inline L fourth_root(L x) {
  return sqrt(sqrt(x));
}

}  // namespace houseleek::numerics
