// Sums and products of figures with low and high ends: plain interval arithmetic, wide because all ends come at once.
#pragma once

namespace houseleek::results {

/// A figure that is not negative, with its seldom passed ends.
struct Interval {
  double low = 0.0;
  double likely = 0.0;
  double high = 0.0;
  bool operator==(const Interval&) const = default;
};

[[nodiscard]] constexpr Interval exactly(double value) { return {value, value, value}; }

[[nodiscard]] constexpr Interval operator+(const Interval& a, const Interval& b) {
  return {a.low + b.low, a.likely + b.likely, a.high + b.high};
}

/// Both not negative.
[[nodiscard]] constexpr Interval operator*(const Interval& a, const Interval& b) {
  return {a.low * b.low, a.likely * b.likely, a.high * b.high};
}

/// By a factor that is exact and not negative.
[[nodiscard]] constexpr Interval operator*(double factor, const Interval& a) {
  return {factor * a.low, factor * a.likely, factor * a.high};
}

/// The divisor is positive.
[[nodiscard]] constexpr Interval operator/(const Interval& a, const Interval& b) {
  return {a.low / b.high, a.likely / b.likely, a.high / b.low};
}

}  // namespace houseleek::results
