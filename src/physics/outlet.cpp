// What outlets, openings in an upstand, edges, gutters and pipes take at a given head.
#include "physics/outlet.hpp"

#include <limits>

#include "base/contract.hpp"
#include "numerics/elementary.hpp"
#include "physics/constants.hpp"

namespace houseleek::physics {
namespace {

constexpr double litres_per_m3 = 1000.0;

void expect_finite(double value, const char* what) {
  expects(value > -std::numeric_limits<double>::infinity() && value < std::numeric_limits<double>::infinity(), what);
}

/// c h^1.5 and its slope.
HeadFlow weir(double factor, double head_mm) {
  const double root = numerics::sqrt(head_mm);
  return {factor * head_mm * root, 1.5 * factor * root};
}

/// c h^0.5 and its slope.
HeadFlow hole(double factor, double head_mm) {
  const double root = numerics::sqrt(head_mm);
  return {factor * root, 0.5 * factor / root};
}

}  // namespace

HeadFlow round_outlet_flow(const RoundOutlet& outlet, double head_mm) {
  expects(outlet.diameter_mm > 0.0, "an outlet with a diameter");
  expect_finite(head_mm, "a finite head");
  if (head_mm <= 0.0) return {};
  const double k0 = outlet.has_grate ? 0.5 : 1.0;
  const double diameter_mm = outlet.diameter_mm;
  if (head_mm <= 0.5 * diameter_mm) return weir(k0 * diameter_mm / 7500.0, head_mm);
  return hole(k0 * diameter_mm * diameter_mm / 15000.0, head_mm);
}

HeadFlow opening_flow(const Opening& opening, double head_mm) {
  expects(opening.width_mm > 0.0 && (!opening.height_mm || *opening.height_mm > 0.0), "an opening with a size");
  expect_finite(head_mm, "a finite head");
  if (head_mm <= 0.0) return {};
  const HeadFlow over = weir(opening.width_mm / 24000.0, head_mm);
  if (!opening.height_mm) return over;
  const HeadFlow through = hole(opening.width_mm * *opening.height_mm / 12000.0, head_mm);
  return over.l_per_s <= through.l_per_s ? over : through;
}

double open_edge_head_mm(double width_mm, double flow_l_per_s) {
  expects(width_mm > 0.0 && flow_l_per_s >= 0.0, "a width and a flow that is not negative");
  const double root = numerics::cbrt(24000.0 * flow_l_per_s / width_mm);
  return root * root;
}

double broad_crest_flow_l_per_s(double width_m, double head_m) {
  expects(width_m >= 0.0 && head_m >= 0.0, "sizes that are not negative");
  const double critical_m = head_m * (2.0 / 3.0);
  return litres_per_m3 * width_m * critical_m * numerics::sqrt(gravity_m_per_s2 * critical_m);
}

double sharp_crest_flow_l_per_s(double width_m, double head_m) {
  expects(width_m >= 0.0 && head_m >= 0.0, "sizes that are not negative");
  return litres_per_m3 * (2.0 / 3.0) * 0.62 * width_m * head_m * numerics::sqrt(2.0 * gravity_m_per_s2 * head_m);
}

double orifice_flow_l_per_s(double diameter_mm, double head_mm) {
  expects(diameter_mm >= 0.0 && head_mm >= 0.0, "sizes that are not negative");
  const double area_m2 = 0.25e-6 * pi * diameter_mm * diameter_mm;
  return litres_per_m3 * 0.6 * area_m2 * numerics::sqrt(2.0 * gravity_m_per_s2 * 0.001 * head_mm);
}

double upright_pipe_flow_l_per_s(double diameter_mm, double filled_frac) {
  expects(diameter_mm >= 20.0 && diameter_mm <= 500.0, "a pipe of 20 mm to 500 mm");
  expects(filled_frac >= 0.0 && filled_frac <= usual_pipe_filling_frac, "a filling of up to a third");
  if (filled_frac == 0.0) return 0.0;
  return 2.5e-4 * numerics::pow(0.25, -0.167) * numerics::pow(diameter_mm, 2.667) * numerics::pow(filled_frac, 1.667);
}

double gutter_flow_l_per_s(Gutter gutter, double area_mm2) {
  expects(area_mm2 > 0.0, "a gutter with a cross-section");
  const double factor = gutter == Gutter::half_round          ? 2.78e-5
                        : gutter == Gutter::rectangular_eaves ? 3.48e-5
                                                              : 3.89e-5;
  return factor * area_mm2 * numerics::sqrt(numerics::sqrt(area_mm2));
}

}  // namespace houseleek::physics
