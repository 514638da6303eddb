// Numbers that carry their slopes, so that the second program's Newton steps need no derivative written by hand.
#pragma once
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

namespace houseleek::tests::second_opinion {

/// A value and its derivatives by N unknowns.
template <std::size_t N>
struct Dual {
  double value = 0.0;
  std::array<double, N> slope{};

  Dual() = default;
  Dual(double constant) : value(constant) {}  // NOLINT(*explicit*): constants mix freely with duals
  static Dual unknown(double at, std::size_t index) {
    Dual result(at);
    result.slope[index] = 1.0;
    return result;
  }
};

template <std::size_t N>
Dual<N> chain(const Dual<N>& x, double value, double derivative) {
  Dual<N> result(value);
  for (std::size_t i = 0; i < N; ++i) result.slope[i] = derivative * x.slope[i];
  return result;
}

template <std::size_t N>
Dual<N> operator+(const Dual<N>& a, const Dual<N>& b) {
  Dual<N> result(a.value + b.value);
  for (std::size_t i = 0; i < N; ++i) result.slope[i] = a.slope[i] + b.slope[i];
  return result;
}
template <std::size_t N>
Dual<N> operator-(const Dual<N>& a, const Dual<N>& b) {
  Dual<N> result(a.value - b.value);
  for (std::size_t i = 0; i < N; ++i) result.slope[i] = a.slope[i] - b.slope[i];
  return result;
}
template <std::size_t N>
Dual<N> operator*(const Dual<N>& a, const Dual<N>& b) {
  Dual<N> result(a.value * b.value);
  for (std::size_t i = 0; i < N; ++i) result.slope[i] = a.slope[i] * b.value + a.value * b.slope[i];
  return result;
}
template <std::size_t N>
Dual<N> operator/(const Dual<N>& a, const Dual<N>& b) {
  const double quotient = a.value / b.value;
  Dual<N> result(quotient);
  for (std::size_t i = 0; i < N; ++i) result.slope[i] = (a.slope[i] - quotient * b.slope[i]) / b.value;
  return result;
}
template <std::size_t N>
Dual<N> operator+(const Dual<N>& a, double b) {
  return chain(a, a.value + b, 1.0);
}
template <std::size_t N>
Dual<N> operator+(double a, const Dual<N>& b) {
  return chain(b, a + b.value, 1.0);
}
template <std::size_t N>
Dual<N> operator-(const Dual<N>& a, double b) {
  return chain(a, a.value - b, 1.0);
}
template <std::size_t N>
Dual<N> operator-(double a, const Dual<N>& b) {
  return chain(b, a - b.value, -1.0);
}
template <std::size_t N>
Dual<N> operator*(double a, const Dual<N>& b) {
  return chain(b, a * b.value, a);
}

template <std::size_t N>
Dual<N> operator/(double a, const Dual<N>& b) {
  return chain(b, a / b.value, -a / (b.value * b.value));
}

template <std::size_t N>
Dual<N> exp(const Dual<N>& x) {
  const double value = std::exp(x.value);
  return chain(x, value, value);
}
/// For x > 0 only.
template <std::size_t N>
Dual<N> pow(const Dual<N>& x, double exponent) {
  const double value = std::pow(x.value, exponent);
  return chain(x, value, exponent * value / x.value);
}
/// For x > 0 only.
template <std::size_t N>
Dual<N> cbrt(const Dual<N>& x) {
  const double value = std::cbrt(x.value);
  return chain(x, value, value / (3.0 * x.value));
}

inline double value_of(double x) { return x; }
template <std::size_t N>
double value_of(const Dual<N>& x) {
  return x.value;
}

/// Solves the N by N system slopes * step = residuals in place by elimination with row exchange; false if singular.
template <std::size_t N>
bool solve_small(std::array<std::array<double, N>, N>& matrix, std::array<double, N>& right, std::size_t n) {
  for (std::size_t column = 0; column < n; ++column) {
    std::size_t pivot = column;
    for (std::size_t row = column + 1; row < n; ++row) {
      if (std::abs(matrix[row][column]) > std::abs(matrix[pivot][column])) pivot = row;
    }
    if (!(std::abs(matrix[pivot][column]) > 0.0)) return false;
    std::swap(matrix[pivot], matrix[column]);
    std::swap(right[pivot], right[column]);
    for (std::size_t row = column + 1; row < n; ++row) {
      const double factor = matrix[row][column] / matrix[column][column];
      for (std::size_t k = column; k < n; ++k) matrix[row][k] -= factor * matrix[column][k];
      right[row] -= factor * right[column];
    }
  }
  for (std::size_t row = n; row-- > 0;) {
    for (std::size_t k = row + 1; k < n; ++k) right[row] -= matrix[row][k] * right[k];
    right[row] /= matrix[row][row];
  }
  return true;
}

}  // namespace houseleek::tests::second_opinion
