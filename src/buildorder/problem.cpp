// What to choose from when building on: places over rooms, what they gain, what they cost, what keeps them apart.
#include "buildorder/problem.hpp"

#include <algorithm>

#include "base/contract.hpp"

namespace houseleek::buildorder {

double gain_at(const Response& response, double covered_m2) {
  const std::vector<double>& x = response.covered_m2;
  expects(!x.empty() && x.size() == response.gain.size(), "a point of the response");
  if (covered_m2 <= x.front()) return response.gain.front();
  if (covered_m2 >= x.back()) return response.gain.back();
  const auto above = static_cast<std::size_t>(std::upper_bound(x.begin(), x.end(), covered_m2) - x.begin());
  const double part = (covered_m2 - x[above - 1]) / (x[above] - x[above - 1]);
  return response.gain[above - 1] + part * (response.gain[above] - response.gain[above - 1]);
}

double gain_of(const Problem& problem, std::span<const int> chosen) {
  std::vector<double> covered_m2(problem.responses.size(), 0.0);
  for (const int i : chosen) {
    for (const RoomShare& share : problem.places[static_cast<std::size_t>(i)].over) {
      covered_m2[static_cast<std::size_t>(share.room)] += share.area_m2;
    }
  }
  double gain = 0.0;
  for (std::size_t room = 0; room < covered_m2.size(); ++room) {
    const Response& response = problem.responses[room];
    gain += gain_at(response, response.covered_m2.front() + covered_m2[room]) - response.gain.front();
  }
  return gain;
}

double cost_of(const Problem& problem, std::span<const int> chosen) {
  std::vector<int> n_by_kind(static_cast<std::size_t>(problem.n_kinds), 0);
  for (const int i : chosen) {
    ++n_by_kind[static_cast<std::size_t>(problem.places[static_cast<std::size_t>(i)].kind)];
  }
  return problem.cost_of(n_by_kind);
}

bool is_allowed(const Problem& problem, std::span<const int> chosen) {
  for (const Condition& condition : problem.conditions) {
    double taken = 0.0;
    for (const int i : chosen) taken += condition.take[static_cast<std::size_t>(i)];
    if (taken > condition.room) return false;
  }
  const auto has = [chosen](int place) { return std::find(chosen.begin(), chosen.end(), place) != chosen.end(); };
  return std::none_of(problem.excluded.begin(), problem.excluded.end(),
                      [&](const auto& pair) { return has(pair.first) && has(pair.second); });
}

}  // namespace houseleek::buildorder
