// A rectangular slab that rests on walls all round: bending both ways under a patch load, by sine series.
#include "physics/slab_panel.hpp"

#include <array>
#include <cstddef>
#include <numbers>

#include "numerics/elementary.hpp"

namespace houseleek::physics {
namespace {

constexpr auto n_terms = static_cast<std::size_t>(slab_terms);
using Terms = std::array<double, n_terms>;

double wave_per_m(std::size_t index, double length_m) {
  return static_cast<double>(index + 1) * std::numbers::pi / length_m;
}

/// 2/l times the integral of each sine over the stretch.
Terms integrals(double length_m, double from_m, double to_m) {
  Terms terms{};
  for (std::size_t m = 0; m < n_terms; ++m) {
    const double wave = wave_per_m(m, length_m);
    terms[m] = 2.0 / length_m * (numerics::cos(wave * from_m) - numerics::cos(wave * to_m)) / wave;
  }
  return terms;
}

Terms sines(double length_m, double at_m) {
  Terms terms{};
  for (std::size_t m = 0; m < n_terms; ++m) terms[m] = numerics::sin(wave_per_m(m, length_m) * at_m);
  return terms;
}

}  // namespace

std::vector<SlabMoments> slab_moments(const SlabPanel& panel, std::span<const SlabPatch> patches,
                                      std::span<const double> xs_m, std::span<const double> ys_m) {
  expects(panel.length_x_m > 0.0 && panel.length_y_m > 0.0, "a panel with two sides");
  std::vector<double> loads(n_terms * n_terms, 0.0);
  for (const SlabPatch& patch : patches) {
    expects(patch.from_x_m <= patch.to_x_m && patch.from_y_m <= patch.to_y_m, "a patch that is not turned round");
    const Terms along_x = integrals(panel.length_x_m, patch.from_x_m, patch.to_x_m);
    const Terms along_y = integrals(panel.length_y_m, patch.from_y_m, patch.to_y_m);
    for (std::size_t m = 0; m < n_terms; ++m) {
      for (std::size_t n = 0; n < n_terms; ++n) {
        loads[m * n_terms + n] += patch.load_kn_per_m2 * along_x[m] * along_y[n];
      }
    }
  }
  std::vector<Terms> x_sines;
  for (const double x_m : xs_m) x_sines.push_back(sines(panel.length_x_m, x_m));
  std::vector<SlabMoments> moments;
  for (const double y_m : ys_m) {
    const Terms y_sines = sines(panel.length_y_m, y_m);
    Terms of_x{};
    Terms of_y{};
    for (std::size_t m = 0; m < n_terms; ++m) {
      const double a2 = wave_per_m(m, panel.length_x_m) * wave_per_m(m, panel.length_x_m);
      for (std::size_t n = 0; n < n_terms; ++n) {
        const double b2 = wave_per_m(n, panel.length_y_m) * wave_per_m(n, panel.length_y_m);
        const double share = loads[m * n_terms + n] * y_sines[n] / (a2 * a2 + 2.0 * panel.torsion * a2 * b2 + b2 * b2);
        of_x[m] += share * (a2 + panel.poisson * b2);
        of_y[m] += share * (b2 + panel.poisson * a2);
      }
    }
    for (const Terms& x_sine : x_sines) {
      SlabMoments sum;
      for (std::size_t m = 0; m < n_terms; ++m) {
        sum.x_knm_per_m += of_x[m] * x_sine[m];
        sum.y_knm_per_m += of_y[m] * x_sine[m];
      }
      moments.push_back(sum);
    }
  }
  return moments;
}

}  // namespace houseleek::physics
