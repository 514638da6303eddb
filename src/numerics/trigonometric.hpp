// Sines, tangents and their inverses for lanes from + - * / sqrt and bit patterns alone.
#pragma once
#include "numerics/exponential.hpp"

namespace houseleek::numerics {

inline constexpr double pi = 0x1.921fb54442d18p+1;

template <LaneType L>
struct SinCos {
  L sin;
  L cos;
};

/// Sine and cosine of one angle, for little more than the price of one.
/// Equation: x = n pi/2 + r, |r| <= pi/4, r as two doubles; polynomials in r; quadrant n mod 4 swaps and signs
/// Symbols:  pi/2 = p1 + p2 + p3, the first two of 36 bits so that n p1 and n p2 are exact for n < 2^17
/// Shape:    one value or lanes; pure, branch-free.
/// Units:    x in radians.
/// Valid:    |x| <= 2e5; beyond it not a number.
/// Errors:   at most 0.8 ulp measured, the doubles nearest to every multiple of pi/2 included.
/// Source:   [cody1980] chapter 8 (reduction); own minimax coefficients.
/// Checked by: Elementary.DenseSweepsStayBelowTheStatedErrors, Elementary.SineAndCosineNextToEveryMultipleOfHalfPi,
///           Lanes.ElementaryFunctionsGiveEqualBits
template <LaneType L>
[[nodiscard]] inline SinCos<L> sin_cos(L x) {
  namespace d = elementary_detail;
  const L shifted = x * L(0x1.45f306dc9c883p-1) + L(d::round_shift);
  const L n = shifted - L(d::round_shift);
  const L high = x - n * L(0x1.921fb5444p+0);
  const L middle = n * L(0x1.68c234c4cp-39);
  // high - middle with its rounding error, whichever is larger
  const L difference = high - middle;
  const L back = high - difference;
  const L lost = (back - middle) + (high - (difference + back));
  const L tail = lost - n * L(0x1.98a2e03707345p-77);
  const L r = difference + tail;
  const L c = (difference - r) + tail;
  const L z = r * r;
  const L sine_rest = d::polynomial(z, 0x1.111111110f881p-7, -0x1.a01a019c1264cp-13, 0x1.71de35786b382p-19,
                                    -0x1.ae5e66cc2a373p-26, 0x1.5d932c7c57775p-33);
  const L sine = r + (z * r * (L(-0x1.5555555555549p-3) + z * sine_rest) + c * (L(1.0) - L(0.5) * z));
  const L cosine_rest = d::polynomial(z, 0x1.555555555554cp-5, -0x1.6c16c16c15184p-10, 0x1.a01a019cb26f3p-16,
                                      -0x1.27e4f80a762c7p-22, 0x1.1ee9ec4753e2dp-29, -0x1.8faecedefad9dp-37);
  const L half_z = L(0.5) * z;
  const L one_less = L(1.0) - half_z;
  const L cosine = one_less + (((L(1.0) - one_less) - half_z) + (z * z * cosine_rest - r * c));
  // Odd quadrants swap; the sign bits follow from n and n + 1.
  const BitsOf<L> quadrant = bits_of(shifted);
  const BitsOf<L> odd = BitsOf<L>{} - (quadrant & 1ULL);
  const BitsOf<L> sine_bits = bits_of(sine);
  const BitsOf<L> cosine_bits = bits_of(cosine);
  const BitsOf<L> swap = (sine_bits ^ cosine_bits) & odd;
  const L s = from_bits<L>((sine_bits ^ swap) ^ ((quadrant & 2ULL) << 62));
  const L co = from_bits<L>((cosine_bits ^ swap) ^ (((quadrant + 1ULL) & 2ULL) << 62));
  const MaskOf<L> in_range = abs(x) <= L(2e5);
  return {select(in_range, s, L(d::not_a_number)), select(in_range, co, L(d::not_a_number))};
}

/// Sine of x radians; range and errors as `sin_cos`.
template <LaneType L>
[[nodiscard]] inline L sin(L x) {
  return sin_cos(x).sin;
}

/// Cosine of x radians; range and errors as `sin_cos`.
template <LaneType L>
[[nodiscard]] inline L cos(L x) {
  return sin_cos(x).cos;
}

/// Tangent of x radians as sin / cos: at most 2.4 ulp measured for |x| <= 2e5; beyond it not a number.
template <LaneType L>
[[nodiscard]] inline L tan(L x) {
  const SinCos<L> both = sin_cos(x);
  return both.sin / both.cos;
}

/// Angle of the point (x, y) from the x axis, -pi to pi.
/// Equation: t = a/b or (a - b)/(a + b) with a the smaller and b the larger of |x|, |y|; atan t by a polynomial in t^2
/// Symbols:  the second form where a > tan(pi/8) b, so that |t| <= tan(pi/8)
/// Shape:    one value or lanes each; pure, branch-free.
/// Units:    result in radians.
/// Valid:    finite x, y whose sum does not overflow; both zero gives 0 or pi by the sign of x (a zero x counts as
///           positive); infinite arguments give not a number.
/// Errors:   at most 2.4 ulp measured.
/// Source:   [cody1980] chapter 11 (reduction); own minimax coefficients.
/// Checked by: Elementary.AnglesOfPoints, Lanes.ElementaryFunctionsGiveEqualBits
template <LaneType L>
[[nodiscard]] inline L atan2(L y, L x) {
  namespace d = elementary_detail;
  const L ax = abs(x);
  const L ay = abs(y);
  const L small = min(ax, ay);
  const L large = max(ax, ay);
  const MaskOf<L> is_middle = small > L(0x1.a827999fcef32p-2) * large;
  const L above = select(is_middle, small - large, small);
  const L below = select(is_middle, small + large, large);
  const L t = above / select(large > L(0.0), below, L(1.0));
  const L z = t * t;
  const L p = t + t * (z * d::polynomial(z, -0x1.555555555553dp-2, 0x1.99999999958f9p-3, -0x1.24924922b1809p-3,
                                         0x1.c71c70e7ca346p-4, -0x1.745cf90fce7aap-4, 0x1.3b111cbb70a90p-4,
                                         -0x1.10ebe19a0e374p-4, 0x1.df11a3104623dp-5, -0x1.9cdd39c32d76ap-5,
                                         0x1.37f009d7e8bd4p-5, -0x1.25a382e3f2430p-6));
  // eighths: the angle is eighths pi/4 + sign p
  L eighths = select(is_middle, L(1.0), L(0.0));
  L sign = L(1.0);
  const MaskOf<L> is_steep = ay > ax;
  eighths = select(is_steep, L(2.0) - eighths, eighths);
  sign = select(is_steep, -sign, sign);
  const MaskOf<L> is_left = x < L(0.0);
  eighths = select(is_left, L(4.0) - eighths, eighths);
  sign = select(is_left, -sign, sign);
  const L angle = eighths * L(0x1.921fb54442d18p-1) + (sign * p + eighths * L(0x1.1a62633145c07p-55));
  const L signed_angle = from_bits<L>(bits_of(angle) ^ (bits_of(y) & 0x8000000000000000ULL));
  // min and max lose what is not a number
  return select(mask_and(ax <= L(d::largest), ay <= L(d::largest)), signed_angle, L(d::not_a_number));
}

/// Angle whose tangent is x, -pi/2 to pi/2; finite x; at most 2.4 ulp measured.
template <LaneType L>
[[nodiscard]] inline L atan(L x) {
  return atan2(x, L(1.0));
}

/// Angle whose sine is x; |x| <= 1, beyond it not a number; at most 3 ulp measured.
template <LaneType L>
[[nodiscard]] inline L asin(L x) {
  return atan2(x, sqrt((L(1.0) - x) * (L(1.0) + x)));
}

/// Angle whose cosine is x, 0 to pi; |x| <= 1, beyond it not a number; at most 3 ulp measured.
template <LaneType L>
[[nodiscard]] inline L acos(L x) {
  return atan2(sqrt((L(1.0) - x) * (L(1.0) + x)), x);
}

}  // namespace houseleek::numerics
