// Gauss-Legendre integrals of fixed order: the same points and order of summation every time.
#pragma once
#include <array>

namespace houseleek::numerics {

namespace quadrature_detail {

struct NodeWeight {
  double node;
  double weight;
};

/// Nonnegative nodes on (-1, 1) with their weights; node 0 first where the order is odd.
template <int order>
inline constexpr std::array<NodeWeight, 0> gauss_legendre{};
template <>
inline constexpr std::array<NodeWeight, 1> gauss_legendre<2>{{{0.57735026918962576, 1.0}}};
template <>
inline constexpr std::array<NodeWeight, 2> gauss_legendre<3>{
    {{0.0, 0.88888888888888889}, {0.77459666924148338, 0.55555555555555556}}};
template <>
inline constexpr std::array<NodeWeight, 2> gauss_legendre<4>{
    {{0.33998104358485626, 0.65214515486254614}, {0.86113631159405258, 0.34785484513745386}}};
template <>
inline constexpr std::array<NodeWeight, 3> gauss_legendre<5>{{{0.0, 0.56888888888888889},
                                                              {0.53846931010568309, 0.47862867049936647},
                                                              {0.90617984593866399, 0.23692688505618909}}};
template <>
inline constexpr std::array<NodeWeight, 3> gauss_legendre<6>{{{0.23861918608319691, 0.46791393457269105},
                                                              {0.66120938646626451, 0.36076157304813861},
                                                              {0.93246951420315203, 0.17132449237917035}}};
template <>
inline constexpr std::array<NodeWeight, 4> gauss_legendre<8>{{{0.1834346424956498, 0.36268378337836198},
                                                              {0.52553240991632899, 0.31370664587788729},
                                                              {0.79666647741362674, 0.22238103445337447},
                                                              {0.96028985649753623, 0.10122853629037626}}};
template <>
inline constexpr std::array<NodeWeight, 5> gauss_legendre<10>{{{0.14887433898163121, 0.29552422471475287},
                                                               {0.43339539412924719, 0.26926671930999636},
                                                               {0.67940956829902441, 0.21908636251598204},
                                                               {0.86506336668898451, 0.14945134915058059},
                                                               {0.97390652851717172, 0.066671344308688138}}};
template <>
inline constexpr std::array<NodeWeight, 8> gauss_legendre<16>{{{0.09501250983763744, 0.1894506104550685},
                                                               {0.28160355077925891, 0.18260341504492359},
                                                               {0.45801677765722739, 0.16915651939500254},
                                                               {0.61787624440264375, 0.14959598881657673},
                                                               {0.75540440835500303, 0.12462897125553387},
                                                               {0.86563120238783174, 0.095158511682492785},
                                                               {0.94457502307323258, 0.062253523938647893},
                                                               {0.98940093499164993, 0.027152459411754095}}};

}  // namespace quadrature_detail

/// Integral of f from `low` to `high`.
/// Equation: (h/2) sum w_i (f(m + h x_i / 2) + f(m - h x_i / 2)), h = high - low, m the middle
/// Symbols:  x_i, w_i nodes and weights of Gauss-Legendre quadrature of the order 2, 3, 4, 5, 6, 8, 10 or 16
/// Shape:    `order` calls of f.
/// Units:    those of f times those of its argument.
/// Valid:    f smooth on the interval; exact for polynomials of degree 2 order - 1.
/// Errors:   rounding alone for such polynomials; else proportional to the derivative of order 2 `order`.
/// Source:   [abramowitz1964] 25.4.30 and Table 25.4; digits recomputed to 40 places.
/// Checked by: Quadrature.ExactForPolynomialsOfItsDegreeAndNoFurther
template <int order, class F>
[[nodiscard]] inline double integrate(const F& f, double low, double high) {
  static_assert(!quadrature_detail::gauss_legendre<order>.empty(), "an order that is tabulated");
  const double middle = 0.5 * (low + high);
  const double half = 0.5 * (high - low);
  double sum = 0.0;
  for (const auto& [node, weight] : quadrature_detail::gauss_legendre<order>) {
    if (node > 0.0) {
      sum += weight * (f(middle + half * node) + f(middle - half * node));
    } else {
      sum += weight * f(middle);
    }
  }
  return half * sum;
}

}  // namespace houseleek::numerics
