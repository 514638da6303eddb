// The heaviest square of a given side anywhere on a plan of loaded rectangles.
#include "checks/heaviest_mean.hpp"

#include <algorithm>
#include <vector>

namespace houseleek::checks {
namespace {

double shared_length_m(double low_a, double high_a, double low_b, double high_b) {
  return std::max(0.0, std::min(high_a, high_b) - std::max(low_a, low_b));
}

struct Greatest {
  double load_kn = 0.0;
  double from_m = 0.0;
};

/// Load left of x on a line of stretches with loads: piecewise linear, so known by its corners.
class RunningSum {
 public:
  void clear() { changes_.clear(); }
  void add(double low_m, double high_m, double load_kn_per_m) {
    changes_.push_back({low_m, load_kn_per_m});
    changes_.push_back({high_m, -load_kn_per_m});
  }
  /// Greatest load between y and y + side over all y, and that y.
  [[nodiscard]] Greatest greatest(double side_m) {
    std::sort(changes_.begin(), changes_.end(), [](const Change& a, const Change& b) { return a.at_m < b.at_m; });
    at_m_.clear();
    sum_.clear();
    double slope = 0.0;
    double sum = 0.0;
    for (std::size_t i = 0; i < changes_.size(); ++i) {
      if (i > 0) sum += slope * (changes_[i].at_m - changes_[i - 1].at_m);
      slope += changes_[i].load;
      at_m_.push_back(changes_[i].at_m);
      sum_.push_back(sum);
    }
    Greatest best;
    for (const double y_m : at_m_) {
      for (const double from_m : {y_m, y_m - side_m}) {
        const double load_kn = value_at(from_m + side_m) - value_at(from_m);
        if (load_kn > best.load_kn) best = {load_kn, from_m};
      }
    }
    return best;
  }

 private:
  struct Change {
    double at_m;
    double load;
  };
  [[nodiscard]] double value_at(double y_m) const {
    if (at_m_.empty() || y_m <= at_m_.front()) return 0.0;
    if (y_m >= at_m_.back()) return sum_.back();
    const std::size_t above =
        static_cast<std::size_t>(std::upper_bound(at_m_.begin(), at_m_.end(), y_m) - at_m_.begin());
    const double length_m = at_m_[above] - at_m_[above - 1];
    const double share = length_m > 0.0 ? (y_m - at_m_[above - 1]) / length_m : 0.0;
    return sum_[above - 1] + share * (sum_[above] - sum_[above - 1]);
  }
  std::vector<Change> changes_;
  std::vector<double> at_m_;
  std::vector<double> sum_;
};

}  // namespace

HeaviestMean find_heaviest_mean(std::span<const LoadedRectangle> loaded, double side_m) {
  std::vector<double> lefts_m;
  for (const LoadedRectangle& one : loaded) {
    lefts_m.push_back(one.rectangle.left_m);
    lefts_m.push_back(one.rectangle.right_m - side_m);
  }
  std::sort(lefts_m.begin(), lefts_m.end());
  lefts_m.erase(std::unique(lefts_m.begin(), lefts_m.end()), lefts_m.end());
  double best_kn = 0.0;
  HeaviestMean best;
  RunningSum line;
  for (const double left_m : lefts_m) {
    line.clear();
    for (const LoadedRectangle& one : loaded) {
      const geometry::RectangleM& r = one.rectangle;
      const double width_m = shared_length_m(r.left_m, r.right_m, left_m, left_m + side_m);
      if (width_m > 0.0) line.add(r.bottom_m, r.top_m, width_m * one.load_kn_per_m2);
    }
    const Greatest greatest = line.greatest(side_m);
    if (greatest.load_kn <= best_kn) continue;
    best_kn = greatest.load_kn;
    best.square = {left_m, greatest.from_m, left_m + side_m, greatest.from_m + side_m};
  }
  best.load_kn_per_m2 = best_kn / (side_m * side_m);
  return best;
}

}  // namespace houseleek::checks
