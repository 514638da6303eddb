// Quantiles of a sample: what share of like cases would lie below.
#include "stats/quantile.hpp"

#include <algorithm>

#include "base/contract.hpp"

namespace houseleek::stats {

double quantile(std::vector<double> sample, double share_frac) {
  expects(!sample.empty(), "a sample with a value");
  expects(share_frac >= 0.0 && share_frac <= 1.0, "a share between 0 and 1");
  std::sort(sample.begin(), sample.end());
  const double place = static_cast<double>(sample.size()) * share_frac + (share_frac + 1.0) / 3.0;
  if (place <= 1.0) return sample.front();
  if (place >= static_cast<double>(sample.size())) return sample.back();
  const auto below = static_cast<std::size_t>(place);
  const double part = place - static_cast<double>(below);
  const double low = sample[below - 1];
  // Written so that equal neighbours give themselves, to the last bit.
  return low + part * (sample[below] - low);
}

}  // namespace houseleek::stats
