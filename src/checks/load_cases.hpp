// The cases of the load by name: dry, drained, soaked, snow, hail, a blocked outlet, a stack being moved, a person.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "checks/span_load.hpp"

namespace houseleek::checks {

// EN 1990, sets A and B: shown beside each case. The engineer's figure is compared without them.
inline constexpr double permanent_factor = 1.35;
inline constexpr double variable_factor = 1.5;

struct LoadCase {
  std::string name;
  std::string because;  // why nothing is worked out, or what is left out; may be empty
  bool is_computed = false;
  bool is_apart = false;                 // what it adds is carried besides the engineer's figure
  results::Interval added_kn_per_m2;     // on an even square of roof; of a stack or person: on the averaging area
  results::Interval heaviest_kn_per_m2;  // modules and containers of this case with what it adds
  results::Interval whole_roof_kn;       // modules and containers, and what is added on the whole roof
  results::Interval factored_kn_per_m2;  // 1.35 of what stays and 1.5 of what comes and goes
  LoadVerdict uniform = LoadVerdict::none;
  LoadVerdict spans = LoadVerdict::none;  // none too where the case is not worked out along the spans
  std::string statement;
};

/// All cases, in this order: dry, drained, soaked, snow, drifted snow, hail, blocked outlet, hail on a blocked outlet,
/// stack, person.
/// Equation: snow s = 0.8 C s_k, drifted mu_2 C s_k; hail d rho g, rho 400 to 900 kg/m3; pool d 9.81 kN/m3. All lie on soaked modules
/// Shape:    design in; pure.
/// Units:    kN/m2, kN.
/// Valid:    a drift counts with its deepest on everything; none from a higher roof or wall beside. A pool lies on everything with its whole
///           depth: more than the water that has room beside soaked modules.
/// Errors:   none; a case without its input says what is missing.
/// Source:   [en1991_1_3] 5.3.2 and 6.2, [en1991_1_1] 6.3.4, [en1990] A1.3; hail: our own estimate.
/// Checked by: tests/checks/load_cases_test.cpp.
/// `pool_kn_per_m2`: of the water behind blocked outlets, mean over the roof, where the design does not give its depth.
[[nodiscard]] std::vector<LoadCase> compute_load_cases(
    const design::ValidDesign& design, const std::optional<results::Interval>& pool_kn_per_m2 = std::nullopt);

}  // namespace houseleek::checks
