// Several comparisons judged together: Holm's steps, and the confidence each comparison's interval needs.
#include "stats/holm.hpp"

#include <algorithm>
#include <cstddef>
#include <numeric>

#include "base/contract.hpp"

namespace houseleek::stats {

std::vector<HolmStep> holm_steps(std::span<const double> two_sided_shares, double confidence_frac) {
  expects(confidence_frac > 0.0 && confidence_frac < 1.0, "a confidence between 0 and 1");
  for (const double share : two_sided_shares) expects(share >= 0.0 && share <= 1.0, "shares from 0 to 1");
  const std::size_t m = two_sided_shares.size();
  std::vector<std::size_t> order(m);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return two_sided_shares[a] < two_sided_shares[b]; });
  const double error_frac = 1.0 - confidence_frac;
  std::vector<HolmStep> steps(m);
  bool has_stopped = false;
  double adjusted = 0.0;
  double step_error_frac = error_frac;
  for (std::size_t i = 0; i < m; ++i) {
    const auto n_left = static_cast<double>(m - i);
    const double share = two_sided_shares[order[i]];
    adjusted = std::max(adjusted, std::min(1.0, n_left * share));
    if (!has_stopped) {
      step_error_frac = error_frac / n_left;
      has_stopped = share > step_error_frac;
    }
    steps[order[i]] = {
        .is_told_apart = !has_stopped, .adjusted_share = adjusted, .interval_confidence_frac = 1.0 - step_error_frac};
  }
  return steps;
}

}  // namespace houseleek::stats
