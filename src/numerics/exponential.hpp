// exp, log and pow for lanes from + - * / and bit patterns alone, so that every machine and width gives the same bits.
//
// Minimax coefficients are made by tests/numerics/coefficients.py; largest errors are measured in tests/numerics.
#pragma once
#include <limits>

#include "numerics/lane.hpp"

namespace houseleek::numerics {

namespace elementary_detail {

inline constexpr double log2_e = 0x1.71547652b82fep+0;
inline constexpr double ln2_high = 0x1.62e42fefa3800p-1;  // 42 bits: a product with any exponent is exact
inline constexpr double ln2_low = 0x1.ef35793c76730p-45;
inline constexpr double round_shift = 0x1.8p+52;  // adding it leaves the nearest whole number in the low bits
inline constexpr double least_normal = std::numeric_limits<double>::min();
inline constexpr double largest = std::numeric_limits<double>::max();
inline constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

/// c0 + x c1 + x^2 c2 + ..., each coefficient in turn (Horner). Always inline: a call would carry a dozen arguments.
template <LaneType L>
[[gnu::always_inline]] inline L polynomial(L, double c) {
  return L(c);
}
template <LaneType L, class... Rest>
[[gnu::always_inline]] inline L polynomial(L x, double c, Rest... rest) {
  return L(c) + x * polynomial(x, rest...);
}

/// The leading 26 bits, so that a product of two such numbers is exact.
template <LaneType L>
inline L leading_26_bits(L x) {
  return from_bits<L>(bits_of(x) & 0xfffffffff8000000ULL);
}

/// exp(r) 2^k from the shifted whole number that carries k, for |r| <= ln 2 / 2 and a small correction `c` to r.
template <LaneType L>
inline L exp_reduced(L r, L c, L shifted) {
  const L r2 = r * r;
  const L r4 = r2 * r2;
  // Pairs instead of Horner: half the chain of waiting.
  const L p01 = L(0x1.000000000000bp-1) + r * L(0x1.5555555555561p-3);
  const L p23 = L(0x1.55555555500acp-5) + r * L(0x1.111111110d630p-7);
  const L p45 = L(0x1.6c16c185907fdp-10) + r * L(0x1.a01a01baec114p-13);
  const L p67 = L(0x1.a01996c9fc2d7p-16) + r * L(0x1.71dddfa8ad6f9p-19);
  const L p89 = L(0x1.28b01bfa56f11p-22) + r * L(0x1.af85cfd9efa31p-26);
  const L q = (p01 + r2 * p23) + r4 * ((p45 + r2 * p67) + r4 * p89);
  const L near_one = L(1.0) + (r + (r2 * q + c));
  return from_bits<L>(bits_of(near_one) + (bits_of(shifted) << 52));
}

/// `y` where `x` is within the range of exp; 0 below it; infinity above; not a number for not a number.
template <LaneType L>
inline L exp_limits(L x, L y) {
  const L low = select(x >= L(-0x1.6232bdd7abcd2p+9), y, L(0.0));
  return select(x <= L(0x1.62e42fefa39efp+9), low, x * L(largest));
}

}  // namespace elementary_detail

/// e^x.
/// Equation: x = k ln 2 + r, |r| <= ln 2 / 2; e^x = 2^k (1 + r + r^2 Q(r)), Q of degree 9
/// Symbols:  k whole; ln 2 held as two doubles, the first short enough that k times it is exact
/// Shape:    one value or lanes; pure, branch-free.
/// Units:    pure numbers.
/// Valid:    -708.39 <= x <= 709.78; below it 0 (no subnormals), above it infinity.
/// Errors:   at most 0.93 ulp measured.
/// Source:   [cody1980] chapter 6 (reduction); own minimax coefficients.
/// Checked by: Elementary.DenseSweepsStayBelowTheStatedErrors, Lanes.ElementaryFunctionsGiveEqualBits
template <LaneType L>
[[nodiscard]] inline L exp(L x) {
  namespace d = elementary_detail;
  const L shifted = x * L(d::log2_e) + L(d::round_shift);
  const L k = shifted - L(d::round_shift);
  const L high = x - k * L(d::ln2_high);
  const L low = k * L(d::ln2_low);
  const L r = high - low;
  return d::exp_limits(x, d::exp_reduced(r, (high - r) - low, shifted));
}

/// Natural logarithm.
/// Equation: x = 2^k (1 + f), sqrt(1/2) <= 1 + f < sqrt(2); s = f / (2 + f); log(1 + f) = f - f^2/2 + s (f^2/2 +
/// R(s^2)) Symbols:  k whole; R minimax of degree 7 without constant Shape:    one value or lanes; pure, branch-free.
/// Units:    pure numbers.
/// Valid:    normal positive finite x (2.3e-308 and above); elsewhere (0, negative, subnormal, infinite) not a number.
/// Errors:   at most 0.9 ulp measured.
/// Source:   [muller2016] (odd series in s); own minimax coefficients.
/// Checked by: Elementary.DenseSweepsStayBelowTheStatedErrors, Lanes.ElementaryFunctionsGiveEqualBits
template <LaneType L>
[[nodiscard]] inline L log(L x) {
  namespace d = elementary_detail;
  // 0x3fe6a09e... is sqrt(1/2): the exponent then counts from there.
  const BitsOf<L> from_root_half = bits_of(x) - 0x3fe6a09e00000000ULL;
  const L k =
      from_bits<L>(((from_root_half + 0x3ff0000000000000ULL) >> 52) | 0x4330000000000000ULL) - L(0x1p52 + 1023.0);
  const L f = from_bits<L>((from_root_half & 0x000fffffffffffffULL) + 0x3fe6a09e00000000ULL) - L(1.0);
  const L s = f / (L(2.0) + f);
  const L z = s * s;
  const L z2 = z * z;
  const L r_odd = (L(0x1.5555555555592p-1) +
                   z2 * (L(0x1.24924941f1b18p-2) + z2 * (L(0x1.74663f050f78cp-3) + z2 * L(0x1.2f0581f19ff19p-3))));
  const L r_even = (L(0x1.999999997fdb2p-2) + z2 * (L(0x1.c71c5208d9561p-3) + z2 * L(0x1.39a1b7bf1e71dp-3)));
  const L half_f2 = L(0.5) * f * f;
  const L r = z * r_odd + z2 * r_even;
  const L y = k * L(d::ln2_high) - ((half_f2 - (s * (half_f2 + r) + k * L(d::ln2_low))) - f);
  return select(mask_and(x >= L(d::least_normal), x <= L(d::largest)), y, L(d::not_a_number));
}

/// x^y.
/// Equation: x^y = exp(y log x), log x and the product carried as two doubles
/// Symbols:  x = 2^k m; s = (m - 1) / (m + 1); log m = (2/3) s (3 + s^2 + s^4 P(s^2))
/// Shape:    one value or lanes each; pure, branch-free.
/// Units:    pure numbers.
/// Valid:    x > 0 normal and finite, or x = 0 with y > 0 (gives 0); |y| <= 1e100; results below 2.3e-308 are 0.
/// Elsewhere
///           not a number.
/// Errors:   at most 1.3 ulp measured where |y log x| <= 700 (0.93 where it is <= 200).
/// Source:   [muller2016]; splitting of products [dekker1971]; own minimax coefficients.
/// Checked by: Elementary.PowersStayBelowTheStatedErrors, Lanes.ElementaryFunctionsGiveEqualBits
template <LaneType L>
[[nodiscard]] inline L pow(L x, L y) {
  namespace d = elementary_detail;
  const BitsOf<L> from_root_half = bits_of(x) - 0x3fe6a09e00000000ULL;
  const L k =
      from_bits<L>(((from_root_half + 0x3ff0000000000000ULL) >> 52) | 0x4330000000000000ULL) - L(0x1p52 + 1023.0);
  const L m = from_bits<L>((from_root_half & 0x000fffffffffffffULL) + 0x3fe6a09e00000000ULL);
  // s as two doubles: the second from the exact remainder of the division.
  const L f = m - L(1.0);
  const L sum = m + L(1.0);
  const L sum_high = d::leading_26_bits(sum);
  const L sum_low = m - (sum_high - L(1.0));
  const L inverse = L(1.0) / sum;
  const L s = f * inverse;
  const L s_high = d::leading_26_bits(s);
  const L s_low = ((f - s_high * sum_high) - s_high * sum_low) * inverse;
  const L z_high = s_high * s_high;
  const L z = s * s;
  const L z2 = z * z;
  const L p01 = L(0x1.3333333333330p-1) + z * L(0x1.b6db6db6dc84ep-2);
  const L p23 = L(0x1.5555555420679p-2) + z * L(0x1.1745d225b204ep-2);
  const L p45 = L(0x1.d89d141786968p-3) + z * L(0x1.99b10f764c709p-3);
  const L p67 = L(0x1.66a6a8cf0f873p-3) + z * L(0x1.704c2d39027e4p-3);
  const L rest = s_low * (s_high + s) + z2 * ((p01 + z2 * p23) + (z2 * z2) * (p45 + z2 * p67));
  const L t_high = d::leading_26_bits(L(3.0) + z_high + rest);
  const L t_low = rest - ((t_high - L(3.0)) - z_high);
  const L u = s_high * t_high;
  const L v = s_low * t_high + t_low * s;
  const L p_high = d::leading_26_bits(u + v);
  const L p_low = v - (p_high - u);
  const L whole = k * L(d::ln2_high);
  const L part = p_high * L(0x1.555555p-1);  // 26 bits of 2/3
  const L log_high = whole + part;
  const L log_low = ((whole - log_high) + part) +
                    (p_high * L(0x1.5555555555555p-27) + p_low * L(0x1.5555555555555p-1) + k * L(d::ln2_low));
  // y log x as two doubles.
  const L y_high = d::leading_26_bits(y);
  const L y_low = y - y_high;
  const L log_lead = d::leading_26_bits(log_high);
  const L log_tail = (log_high - log_lead) + log_low;
  const L product_high = y_high * log_lead;
  const L product_low = y * log_tail + y_low * log_lead;
  const L product = product_high + product_low;
  const L shifted = product * L(d::log2_e) + L(d::round_shift);
  const L n = shifted - L(d::round_shift);
  const L high = product_high - n * L(d::ln2_high);
  const L low = product_low - n * L(d::ln2_low);
  const L r = high + low;
  const L power = d::exp_limits(product, d::exp_reduced(r, (high - r) + low, shifted));
  const L valid = select(mask_and(x >= L(d::least_normal), x <= L(d::largest)), power, L(d::not_a_number));
  return select(mask_and(abs(x) <= L(0.0), y > L(0.0)), L(0.0), valid);
}

}  // namespace houseleek::numerics
