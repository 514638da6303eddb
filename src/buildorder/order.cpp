// In which order to build: the best gain for the money of every season, one module at a time.
#include "buildorder/order.hpp"

#include <algorithm>

#include "base/contract.hpp"
#include "buildorder/search.hpp"

namespace houseleek::buildorder {

Order find_order(const Problem& asked, const OrderOptions& options) {
  expects(asked.cost_of != nullptr && !asked.budgets.empty(), "a cost function and a season");
  Problem problem = asked;
  std::optional<Sequence> sequence;
  if (problem.places.size() <= options.most_exact) sequence = search_all(problem, options);
  Order order;
  order.is_exact = sequence.has_value();
  if (!sequence) sequence = search_stepwise(problem, options);
  std::vector<int> laid;
  for (std::size_t season = 0; season < sequence->seasons.size(); ++season) {
    for (const int place : sequence->seasons[season]) {
      const double gain_before = gain_of(problem, laid);
      const double cost_before = cost_of(problem, laid);
      laid.push_back(place);
      order.steps.push_back({.place = place,
                             .season = static_cast<int>(season),
                             .cost = cost_of(problem, laid) - cost_before,
                             .gain = gain_of(problem, laid) - gain_before});
    }
  }
  order.value = value_of(problem, *sequence);
  order.most_possible = order.is_exact ? order.value : most_possible(problem, *sequence);
  for (std::size_t i = 0; i < problem.places.size(); ++i) {
    const bool is_laid = std::find(laid.begin(), laid.end(), static_cast<int>(i)) != laid.end();
    if (problem.places[i].is_pinned && !is_laid) order.pins_left_out.push_back(static_cast<int>(i));
  }
  order.conditions = std::move(problem.conditions);
  return order;
}

}  // namespace houseleek::buildorder
