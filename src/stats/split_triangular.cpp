// Numbers drawn from a figure of which a low end, a likely value and a high end are known and nothing else.
#include "stats/split_triangular.hpp"

#include "base/contract.hpp"
#include "numerics/elementary.hpp"

namespace houseleek::stats {
namespace {

double between(double low, double likely, double high, double share_frac) {
  if (share_frac <= 0.5) return likely - (likely - low) * (1.0 - numerics::sqrt(2.0 * share_frac));
  return likely + (high - likely) * (1.0 - numerics::sqrt(2.0 * (1.0 - share_frac)));
}

}  // namespace

double split_triangular_quantile(const Ends& ends, double share_frac) {
  expects(share_frac > 0.0 && share_frac < 1.0, "a share between 0 and 1");
  expects(0.0 <= ends.low && ends.low <= ends.likely && ends.likely <= ends.high, "ends that rise from zero or more");
  // Exact where nothing is uncertain: exp(log(x)) is not x to the last bit.
  if (ends.low == ends.high) return ends.likely;
  if (ends.low == 0.0) return between(ends.low, ends.likely, ends.high, share_frac);
  return numerics::exp(
      between(numerics::log(ends.low), numerics::log(ends.likely), numerics::log(ends.high), share_frac));
}

}  // namespace houseleek::stats
