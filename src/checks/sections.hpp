// A beam under loads that come and go against the same beam under an allowance: every section, both signs.
#pragma once
#include <array>
#include <span>
#include <string_view>
#include <vector>

#include "physics/beam.hpp"

namespace houseleek::checks {

enum class Effect { sagging, hogging, shear_up, shear_down, reaction, lift };
inline constexpr std::array<Effect, 6> all_effects = {Effect::sagging,    Effect::hogging,  Effect::shear_up,
                                                      Effect::shear_down, Effect::reaction, Effect::lift};
/// In words, and whether the figure is kNm (bending) or kN.
[[nodiscard]] std::string_view words_from(Effect effect);
[[nodiscard]] constexpr bool is_bending(Effect effect) {
  return effect == Effect::sagging || effect == Effect::hogging;
}

/// A load whose weight may be anything between two figures, like a module between dry and soaked.
struct ChangingLoad {
  physics::BeamResponse of_one_kn;
  double least_kn = 0.0;
  double greatest_kn = 0.0;
};

/// What the engineer's figure brings: one response a span of the beam, each evenly under the whole figure.
struct SpanAllowance {
  std::vector<physics::BeamResponse> spans;
  std::vector<double> least_turns_kn;        // a span: least of (M_r - M_l)/l with the figure on any right part of it
  std::vector<physics::BeamResponse> parts;  // eight a span, if the figure may stand by turns: for bending
  bool is_by_turns =
      false;  // the figure may stand on any of the spans or of their eighths; otherwise on all spans or none
};

/// The figure evenly on every span. Least turns from 64 parts of each span: within 0.1 % of the span's own shear.
[[nodiscard]] SpanAllowance make_even_allowance(const physics::Beam& beam, double load_kn_per_m, bool is_by_turns);

/// The section of one effect where the demand comes nearest to what the allowance brings there, or passes it most.
struct Section {
  Effect effect = Effect::sagging;
  double at_m = 0.0;
  double demand = 0.0;     // kNm or kN, not below zero
  double allowance = 0.0;  // at the same section
  double excess = 0.0;     // demand - allowance
  double scale = 0.0;      // greatest of the allowance of this kind anywhere on the beam
};

/// Excess over the scale below which two sections count as equal: rounding.
inline constexpr double section_rounding = 1e-9;
[[nodiscard]] inline bool is_beyond(const Section& one) { return one.excess > section_rounding * one.scale; }

/// Compares all sections.
/// Equation: demand+ = sum over loads of max(least e, greatest e), e what 1 kN of it brings; demand- with min.
///           Allowance by turns: sum of max(0, e) over eighths of spans; else max(0, sum of e); the other sign likewise. Shear: the
///           figure may also stand on the part right or left of the section alone, and either sign serves for both
/// Shape:    six sections out, one an effect, in the order of all_effects; pure. Demand and allowance are quadratic
///           between supports, ends of loads and the places where an e changes its sign or two parts of the allowance
///           meet: there the greatest excess is found exactly, not by samples.
/// Units:    kN, kNm, m.
/// Errors:   ContractViolation for weights below zero or upside down, or without one allowance a span.
/// Source:   docs/equations/load.md.   Checked by: tests/checks/sections_test.cpp.
[[nodiscard]] std::array<Section, 6> compare_sections(const physics::Beam& beam, std::span<const ChangingLoad> loads,
                                                      const SpanAllowance& allowance);

/// What 1 kN brings of one effect at one place of the beam, signed so that more of it is worse. A load that lies on the
/// place of a shear counts on its worse side.
[[nodiscard]] double effect_of_one_kn(const physics::Beam& beam, const physics::BeamResponse& of_one_kn, Effect effect,
                                      double at_m);

}  // namespace houseleek::checks
