// Values brought to a wanted sum by one factor, none passing its own limit.
#include "climate/scale_to_sum.hpp"

#include "base/contract.hpp"

namespace houseleek::climate {

std::optional<std::vector<double>> scaled_to_sum(const std::vector<LimitedValue>& values, double wanted_sum) {
  expects(wanted_sum >= 0.0, "a sum of zero or more");
  double most = 0.0;
  double unscaled = 0.0;
  for (const LimitedValue& v : values) {
    expects(v.value >= 0.0 && v.limit >= 0.0 && v.weight >= 0.0, "values, limits and weights of zero or more");
    most += v.limit * v.weight;
    unscaled += v.value * v.weight;
  }
  if (wanted_sum > most) return std::nullopt;

  std::vector<double> scaled(values.size());
  std::vector<bool> is_at_limit(values.size(), false);
  bool is_settled = false;
  while (!is_settled) {
    is_settled = true;
    double at_limit = 0.0;
    double free_sum = 0.0;
    const auto value_of = [&](const LimitedValue& v) { return unscaled > 0.0 ? v.value : 1.0; };
    for (std::size_t i = 0; i < values.size(); ++i) {
      (is_at_limit[i] ? at_limit : free_sum) +=
          (is_at_limit[i] ? values[i].limit : value_of(values[i])) * values[i].weight;
    }
    const double factor = free_sum > 0.0 && wanted_sum > at_limit ? (wanted_sum - at_limit) / free_sum : 0.0;
    for (std::size_t i = 0; i < values.size(); ++i) {
      if (is_at_limit[i]) continue;
      scaled[i] = factor * value_of(values[i]);
      if (scaled[i] <= values[i].limit) continue;
      scaled[i] = values[i].limit;
      is_at_limit[i] = true;
      is_settled = false;
    }
  }
  return scaled;
}

}  // namespace houseleek::climate
