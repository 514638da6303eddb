// Beams over any number of rigid supports: bending, shear, reactions and sag under loads anywhere on them.
#include "physics/beam.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "base/contract.hpp"

namespace houseleek::physics {
namespace {

constexpr double rounding_m = 1e-9;  // a load may end past a support by what coordinates round off

/// What of a load lies on one span, measured from its left end.
struct SpanPart {
  double from_m = 0.0;
  double to_m = 0.0;
  double total_kn = 0.0;
};

double span_m(const Beam& beam, std::size_t k) { return beam.supports_m[k + 1] - beam.supports_m[k]; }

/// The span that holds a place; a place on a support counts to the span on its right, the last one excepted.
std::size_t span_at(const Beam& beam, double x_m) {
  const auto above = std::upper_bound(beam.supports_m.begin(), beam.supports_m.end(), x_m);
  const auto index = static_cast<std::size_t>(above - beam.supports_m.begin());
  return std::min(std::max<std::size_t>(index, 1) - 1, beam.supports_m.size() - 2);
}

SpanPart part_on(const Beam& beam, const BeamLoad& load, std::size_t k) {
  const double left_m = beam.supports_m[k];
  const double right_m = beam.supports_m[k + 1];
  const double length_m = load.to_m - load.from_m;
  if (length_m <= 0.0) {
    if (span_at(beam, load.from_m) != k) return {};
    return {load.from_m - left_m, load.from_m - left_m, load.total_kn};
  }
  const double from_m = std::max(load.from_m, left_m);
  const double to_m = std::min(load.to_m, right_m);
  if (to_m <= from_m) return {};
  return {from_m - left_m, to_m - left_m, load.total_kn * (to_m - from_m) / length_m};
}

/// A of the equation, for distances from one end.
double load_term(double length_m, double from_m, double to_m, double total_kn) {
  if (total_kn == 0.0) return 0.0;
  if (to_m <= from_m) return total_kn * from_m * (length_m * length_m - from_m * from_m) / length_m;
  const double w = total_kn / (to_m - from_m);
  const auto primitive = [length_m](double x) { return x * x * (0.5 * length_m * length_m - 0.25 * x * x); };
  return w / length_m * (primitive(to_m) - primitive(from_m));
}

double alone_moment_knm(const SpanPart& part, double length_m, double x_m) {
  if (part.total_kn == 0.0) return 0.0;
  const double middle_m = 0.5 * (part.from_m + part.to_m);
  const double left_kn = part.total_kn * (length_m - middle_m) / length_m;
  if (x_m <= part.from_m) return left_kn * x_m;
  if (x_m >= part.to_m) return (part.total_kn - left_kn) * (length_m - x_m);
  const double reach_m = x_m - part.from_m;
  return left_kn * x_m - 0.5 * part.total_kn / (part.to_m - part.from_m) * reach_m * reach_m;
}

double alone_shear_kn(const SpanPart& part, double length_m, double x_m) {
  if (part.total_kn == 0.0) return 0.0;
  const double middle_m = 0.5 * (part.from_m + part.to_m);
  const double left_kn = part.total_kn * (length_m - middle_m) / length_m;
  if (x_m < part.from_m) return left_kn;
  if (x_m >= part.to_m) return left_kn - part.total_kn;
  return left_kn - part.total_kn * (x_m - part.from_m) / (part.to_m - part.from_m);
}

void expect_beam(const Beam& beam) {
  expects(beam.supports_m.size() >= 2, "a beam with a span");
  for (std::size_t k = 0; k + 1 < beam.supports_m.size(); ++k) expects(span_m(beam, k) > 0.0, "supports that rise");
}

void expect_place(const Beam& beam, double x_m) {
  expects(x_m >= beam.supports_m.front() - rounding_m && x_m <= beam.supports_m.back() + rounding_m,
          "a place on the beam");
}

}  // namespace

BeamResponse solve_beam(const Beam& beam, const BeamLoad& load) {
  expect_beam(beam);
  expect_place(beam, load.from_m);
  expect_place(beam, load.to_m);
  expects(load.from_m <= load.to_m, "a load from left to right");
  const std::size_t n_spans = beam.supports_m.size() - 1;
  std::vector<SpanPart> parts;
  for (std::size_t k = 0; k < n_spans; ++k) parts.push_back(part_on(beam, load, k));
  // Tridiagonal and diagonally dominant: Thomas without pivoting.
  const std::size_t n = n_spans + 1;
  std::vector<double> below(n, 0.0), diagonal(n, 1.0), above(n, 0.0), right(n, 0.0);
  for (std::size_t k = 0; k < n; ++k) {
    const bool is_outer = k == 0 || k == n_spans;
    if (is_outer && !beam.is_built_in) continue;
    diagonal[k] = 0.0;
    if (k > 0) {
      const double length_m = span_m(beam, k - 1);
      below[k] = length_m;
      diagonal[k] += 2.0 * length_m;
      right[k] -= load_term(length_m, parts[k - 1].from_m, parts[k - 1].to_m, parts[k - 1].total_kn);
    }
    if (k < n_spans) {
      const double length_m = span_m(beam, k);
      above[k] = length_m;
      diagonal[k] += 2.0 * length_m;
      right[k] -= load_term(length_m, length_m - parts[k].to_m, length_m - parts[k].from_m, parts[k].total_kn);
    }
  }
  for (std::size_t k = 1; k < n; ++k) {
    const double factor = below[k] / diagonal[k - 1];
    diagonal[k] -= factor * above[k - 1];
    right[k] -= factor * right[k - 1];
  }
  BeamResponse response{load, std::vector<double>(n, 0.0), std::vector<double>(n, 0.0)};
  for (std::size_t k = n; k-- > 0;) {
    const double next = k + 1 < n ? above[k] * response.support_moments_knm[k + 1] : 0.0;
    response.support_moments_knm[k] = (right[k] - next) / diagonal[k];
  }
  for (std::size_t k = 0; k < n_spans; ++k) {
    const double length_m = span_m(beam, k);
    const double turn_kn = (response.support_moments_knm[k + 1] - response.support_moments_knm[k]) / length_m;
    const double middle_m = 0.5 * (parts[k].from_m + parts[k].to_m);
    const double left_kn = parts[k].total_kn * (length_m - middle_m) / length_m;
    response.reactions_kn[k] += left_kn + turn_kn;
    response.reactions_kn[k + 1] += parts[k].total_kn - left_kn - turn_kn;
  }
  return response;
}

double beam_moment_knm(const Beam& beam, const BeamResponse& response, double x_m) {
  expect_place(beam, x_m);
  const std::size_t k = span_at(beam, x_m);
  const double length_m = span_m(beam, k);
  const double along_m = x_m - beam.supports_m[k];
  const double share = along_m / length_m;
  return response.support_moments_knm[k] * (1.0 - share) + response.support_moments_knm[k + 1] * share +
         alone_moment_knm(part_on(beam, response.load, k), length_m, along_m);
}

double beam_shear_kn(const Beam& beam, const BeamResponse& response, double x_m) {
  expect_place(beam, x_m);
  const std::size_t k = span_at(beam, x_m);
  const double length_m = span_m(beam, k);
  return (response.support_moments_knm[k + 1] - response.support_moments_knm[k]) / length_m +
         alone_shear_kn(part_on(beam, response.load, k), length_m, x_m - beam.supports_m[k]);
}

double beam_sag_m(const Beam& beam, std::span<const BeamResponse> responses, double x_m, double stiffness_knm2) {
  expect_place(beam, x_m);
  expects(stiffness_knm2 > 0.0, "a stiffness above zero");
  const std::size_t k = span_at(beam, x_m);
  const double left_m = beam.supports_m[k];
  const double length_m = span_m(beam, k);
  const double at_m = x_m - left_m;
  const auto unit_moment_m = [length_m, at_m](double s) {
    return s <= at_m ? s * (length_m - at_m) / length_m : at_m * (length_m - s) / length_m;
  };
  double sag_m = 0.0;
  for (const BeamResponse& one : responses) {
    const SpanPart part = part_on(beam, one.load, k);
    std::vector<double> cuts = {0.0, part.from_m, part.to_m, at_m, length_m};
    std::sort(cuts.begin(), cuts.end());
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
      const double half_m = 0.5 * (cuts[i + 1] - cuts[i]);
      if (half_m <= 0.0) continue;
      const double middle_m = 0.5 * (cuts[i + 1] + cuts[i]);
      const double offset_m = half_m / std::sqrt(3.0);
      for (const double s : {middle_m - offset_m, middle_m + offset_m}) {
        const double share = s / length_m;
        const double moment_knm = one.support_moments_knm[k] * (1.0 - share) + one.support_moments_knm[k + 1] * share +
                                  alone_moment_knm(part, length_m, s);
        sag_m += half_m * moment_knm * unit_moment_m(s);
      }
    }
  }
  return sag_m / stiffness_knm2;
}

}  // namespace houseleek::physics
