// A year taken as a ring: its end is the neighbour of its beginning.
#include "climate/ring.hpp"

#include <algorithm>

#include "base/contract.hpp"

namespace houseleek::climate {

std::vector<double> filled_on_ring(std::vector<double> values, const std::vector<bool>& is_known) {
  expects(values.size() == is_known.size(), "a flag for each value");
  const auto first = std::find(is_known.begin(), is_known.end(), true);
  expects(first != is_known.end(), "at least one known value");
  const std::size_t n = values.size();
  const std::size_t start = static_cast<std::size_t>(first - is_known.begin());
  std::size_t before = start;  // not brought back into the ring
  for (std::size_t behind = start + 1; behind <= start + n; ++behind) {
    if (!is_known[behind % n]) continue;
    const double from = values[before % n];
    const double rise = values[behind % n] - from;
    for (std::size_t i = before + 1; i < behind; ++i) {
      values[i % n] = from + rise * (static_cast<double>(i - before) / static_cast<double>(behind - before));
    }
    before = behind;
  }
  return values;
}

}  // namespace houseleek::climate
