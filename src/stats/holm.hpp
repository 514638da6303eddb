// Several comparisons judged together: Holm's steps, and the confidence each comparison's interval needs.
#pragma once
#include <span>
#include <vector>

namespace houseleek::stats {

struct HolmStep {
  bool is_told_apart = false;
  double adjusted_share = 1.0;  // Holm's p: told apart where it is at most 1 - confidence
  // Of the interval that leaves zero out exactly where the comparison is told apart.
  double interval_confidence_frac = 0.95;
  bool operator==(const HolmStep&) const = default;
};

/// Holm's procedure over two-sided shares (p), in the order given.
/// Equation: p sorted upwards, p_(i) held against a / (m - i + 1), stop at the first above it; adjusted
///           p_(i) = max over k <= i of min(1, (m - k + 1) p_(k))
/// Symbols:  m number of comparisons, a = 1 - confidence; ties keep their order
/// Shape:    m shares in, m steps out in the same order; pure.
/// Units:    pure numbers.
/// Valid:    every share within 0 to 1 (else a contract violation).
/// Errors:   none; the chance of any false "told apart" is at most a, whatever hangs together.
/// Source:   [holm1979]; the intervals' confidence is ours: after the stop all have that of the stop.
/// Checked by: HLM-01
[[nodiscard]] std::vector<HolmStep> holm_steps(std::span<const double> two_sided_shares, double confidence_frac);

}  // namespace houseleek::stats
