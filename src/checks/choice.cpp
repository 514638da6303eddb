// The best choice of at most so many things under linear conditions and pairs that exclude each other.
#include "checks/choice.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace houseleek::checks {
namespace {

constexpr double rounding = 1e-9;

class Search {
 public:
  Search(std::span<const double> values, std::span<const Condition> conditions,
         std::span<const std::pair<int, int>> excluded, int most, long most_branches)
      : values_(values), conditions_(conditions), most_(most), branches_left_(most_branches) {
    order_.resize(values.size());
    std::iota(order_.begin(), order_.end(), 0);
    std::stable_sort(order_.begin(), order_.end(), [&values](int a, int b) {
      return values[static_cast<std::size_t>(a)] > values[static_cast<std::size_t>(b)];
    });
    excluded_.resize(values.size());
    for (const auto& [a, b] : excluded) {
      excluded_[static_cast<std::size_t>(a)].push_back(b);
      excluded_[static_cast<std::size_t>(b)].push_back(a);
    }
    n_blocked_.resize(values.size(), 0);
    used_.resize(conditions.size(), 0.0);
  }

  Choice run() {
    go(0, 0.0);
    best_.is_exact = branches_left_ > 0;
    std::sort(best_.chosen.begin(), best_.chosen.end());
    return best_;
  }

 private:
  /// The most that things from here on could add.
  [[nodiscard]] double bound_from(std::size_t depth) const {
    double sum = 0.0;
    int room = most_ - static_cast<int>(chosen_.size());
    for (std::size_t i = depth; i < order_.size() && room > 0; ++i) {
      const auto thing = static_cast<std::size_t>(order_[i]);
      if (n_blocked_[thing] > 0) continue;
      sum += values_[thing];
      --room;
    }
    return sum;
  }

  [[nodiscard]] bool fits(std::size_t thing) const {
    for (std::size_t c = 0; c < conditions_.size(); ++c) {
      const Condition& condition = conditions_[c];
      if (used_[c] + condition.take[thing] > condition.room + rounding * std::fabs(condition.room)) return false;
    }
    return true;
  }

  void put(std::size_t thing, double sign) {
    for (std::size_t c = 0; c < conditions_.size(); ++c) used_[c] += sign * conditions_[c].take[thing];
    for (const int other : excluded_[thing]) n_blocked_[static_cast<std::size_t>(other)] += sign > 0.0 ? 1 : -1;
  }

  void go(std::size_t depth, double value) {
    if (value > best_.value + rounding) {
      best_.value = value;
      best_.chosen = chosen_;
    }
    if (depth == order_.size() || static_cast<int>(chosen_.size()) == most_ || branches_left_ <= 0) return;
    if (value + bound_from(depth) <= best_.value + rounding) return;
    --branches_left_;
    const auto thing = static_cast<std::size_t>(order_[depth]);
    if (n_blocked_[thing] == 0 && fits(thing)) {
      put(thing, 1.0);
      chosen_.push_back(order_[depth]);
      go(depth + 1, value + values_[thing]);
      chosen_.pop_back();
      put(thing, -1.0);
    }
    go(depth + 1, value);
  }

  std::span<const double> values_;
  std::span<const Condition> conditions_;
  std::vector<std::vector<int>> excluded_;
  int most_;
  long branches_left_;
  std::vector<int> order_;
  std::vector<int> n_blocked_;
  std::vector<double> used_;
  std::vector<int> chosen_;
  Choice best_;
};

}  // namespace

Choice choose_best(std::span<const double> values, std::span<const Condition> conditions,
                   std::span<const std::pair<int, int>> excluded, int most, long most_branches) {
  return Search(values, conditions, excluded, most, most_branches).run();
}

int most_that_fit(std::span<const Condition> conditions, int n_things, int most) {
  int fewest = std::min(n_things, most);
  for (const Condition& condition : conditions) {
    std::vector<double> takes = condition.take;
    std::sort(takes.begin(), takes.end());
    double used = 0.0;
    int n = 0;
    for (const double take : takes) {
      used += take;
      if (used > condition.room + rounding * std::fabs(condition.room)) break;
      ++n;
    }
    fewest = std::min(fewest, n);
  }
  return fewest;
}

}  // namespace houseleek::checks
