// What things cost in one draw: every price, life and quantity that is not known exactly, drawn between its ends.
#include "money/draws.hpp"

#include "base/contract.hpp"
#include "stats/split_triangular.hpp"

namespace houseleek::money {

double drawn(const Factor& factor, const Draw& draw) {
  const results::Interval& range = factor.range;
  if (range.low == range.high) return range.likely;
  expects(!factor.path.empty(), "a figure with a range has a place");
  return stats::random_split_triangular(random_variable(draw.seed, "money:" + factor.path), {.draw = draw.number},
                                        {range.low, range.likely, range.high});
}

DrawnCost draw_cost(const Cost& cost, const Draw& draw) {
  expects(cost.unpriced.empty(), "a price of everything");
  DrawnCost sums;
  for (const CostPart& part : cost.parts) {
    double product = part.amount * drawn(part.price, draw);
    for (const Factor& factor : part.factors) product *= drawn(factor, draw);
    sums.outlay += product;
    if (part.life_years) sums.replacement_per_year += product / drawn(*part.life_years, draw);
  }
  return sums;
}

}  // namespace houseleek::money
