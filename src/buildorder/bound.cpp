// What no order can pass: Lagrange's multipliers for money and conditions, concave hulls for responses and costs.
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "buildorder/search.hpp"

namespace houseleek::buildorder {
namespace {

struct Point {
  double x = 0.0;
  double y = 0.0;
};

/// Upper hull of points that rise in x.
std::vector<Point> upper_hull(const std::vector<Point>& points) {
  std::vector<Point> hull;
  for (const Point& point : points) {
    while (hull.size() >= 2) {
      const Point& a = hull[hull.size() - 2];
      const Point& b = hull.back();
      if ((b.y - a.y) * (point.x - a.x) > (point.y - a.y) * (b.x - a.x)) break;
      hull.pop_back();
    }
    hull.push_back(point);
  }
  return hull;
}

/// A piece of a hull: so much area, each square metre gaining so much.
struct Slope {
  double area_m2 = 0.0;
  double gain_per_m2 = 0.0;
};

std::vector<Slope> slopes_of(const Response& response) {
  std::vector<Point> points;
  for (std::size_t i = 0; i < response.gain.size(); ++i) {
    points.push_back({response.covered_m2[i] - response.covered_m2.front(), response.gain[i] - response.gain.front()});
  }
  const std::vector<Point> hull = upper_hull(points);
  std::vector<Slope> slopes;
  for (std::size_t i = 1; i < hull.size(); ++i) {
    slopes.push_back({hull[i].x - hull[i - 1].x, (hull[i].y - hull[i - 1].y) / (hull[i].x - hull[i - 1].x)});
  }
  return slopes;
}

/// A straight line that the cost of one kind never lies below.
struct CostLine {
  double fixed = 0.0;
  double per_module = 0.0;
};

/// Touches the lower hull of the kind's own cost, all stock to itself, at so many modules.
CostLine line_below(const Problem& problem, int kind, int n_at) {
  const auto n_most = static_cast<int>(std::count_if(problem.places.begin(), problem.places.end(),
                                                     [kind](const Place& one) { return one.kind == kind; }));
  std::vector<Point> points;  // upside down: the lower hull is the upper one of the negative
  std::vector<int> n_by_kind(static_cast<std::size_t>(problem.n_kinds), 0);
  for (int n = 0; n <= n_most; ++n) {
    n_by_kind[static_cast<std::size_t>(kind)] = n;
    points.push_back({static_cast<double>(n), -problem.cost_of(n_by_kind)});
  }
  const std::vector<Point> hull = upper_hull(points);
  if (hull.size() < 2) return {};
  std::size_t i = 1;
  while (i + 1 < hull.size() && hull[i].x <= n_at) ++i;
  const double slope = -(hull[i].y - hull[i - 1].y) / (hull[i].x - hull[i - 1].x);
  return {-hull[i].y - slope * hull[i].x, slope};
}

/// One part of a place over one room.
struct Piece {
  std::size_t place = 0;
  std::size_t room = 0;
  double area_m2 = 0.0;
  double share = 0.0;  // of the place's covered area
};

/// One season by itself, with all money that has come by its end.
class SeasonBound {
 public:
  SeasonBound(const Problem& problem, const std::vector<int>& laid, double money) : problem_(problem) {
    for (const Response& response : problem.responses) slopes_.push_back(slopes_of(response));
    for (std::size_t i = 0; i < problem.places.size(); ++i) {
      double all_m2 = 0.0;
      for (const RoomShare& share : problem.places[i].over) all_m2 += share.area_m2;
      for (const RoomShare& share : problem.places[i].over) {
        if (share.area_m2 <= 0.0) continue;
        pieces_.push_back({i, static_cast<std::size_t>(share.room), share.area_m2, share.area_m2 / all_m2});
      }
    }
    std::vector<double> cost(problem.places.size());
    double fixed = 0.0;
    for (int kind = 0; kind < problem.n_kinds; ++kind) {
      const auto n_at = static_cast<int>(std::count_if(
          laid.begin(), laid.end(), [&](int i) { return problem.places[static_cast<std::size_t>(i)].kind == kind; }));
      const CostLine line = line_below(problem, kind, n_at);
      fixed += line.fixed;
      for (std::size_t i = 0; i < cost.size(); ++i) {
        if (problem.places[i].kind == kind) cost[i] = line.per_module;
      }
    }
    rows_.push_back({std::move(cost), money - fixed});
    rows_.insert(rows_.end(), problem.conditions.begin(), problem.conditions.end());
  }

  /// The least bound that a walk along subgradients finds, beginning from nothing.
  [[nodiscard]] double least(double reached) const {
    std::vector<double> multipliers(rows_.size(), 0.0);
    std::vector<double> slack(rows_.size());
    double best = std::numeric_limits<double>::infinity();
    double boldness = 1.0;
    int n_without = 0;
    constexpr int n_rounds = 400;
    for (int round = 0; round < n_rounds; ++round) {
      const double bound = at(multipliers, slack);
      if (bound < best) {
        best = bound;
        n_without = 0;
      } else if (++n_without >= 10) {
        boldness *= 0.5;
        n_without = 0;
      }
      double length = 0.0;
      for (std::size_t i = 0; i < slack.size(); ++i) {
        // Slack at a multiplier of nothing leads nowhere.
        if (multipliers[i] == 0.0 && slack[i] > 0.0) continue;
        length += slack[i] * slack[i];
      }
      if (length == 0.0 || bound - reached <= 0.0) break;
      const double step = boldness * (bound - reached) / length;
      for (std::size_t i = 0; i < slack.size(); ++i) {
        multipliers[i] = std::max(0.0, multipliers[i] - step * slack[i]);
      }
    }
    return best;
  }

 private:
  /// Equation: sum_r max over x_r in [0, 1] of (G_r(sum a x) - sum p x) + sum of multiplier times room
  [[nodiscard]] double at(const std::vector<double>& multipliers, std::vector<double>& slack) const {
    std::vector<double> price(problem_.places.size(), 0.0);
    double bound = 0.0;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      slack[i] = rows_[i].room;
      bound += multipliers[i] * rows_[i].room;
      if (multipliers[i] == 0.0) continue;
      for (std::size_t place = 0; place < price.size(); ++place) price[place] += multipliers[i] * rows_[i].take[place];
    }
    std::vector<std::size_t> order(pieces_.size());
    std::iota(order.begin(), order.end(), 0);
    const auto per_m2 = [&](std::size_t i) { return price[pieces_[i].place] * pieces_[i].share / pieces_[i].area_m2; };
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return per_m2(a) < per_m2(b); });
    std::vector<std::size_t> slope_at(slopes_.size(), 0);
    std::vector<double> used_m2(slopes_.size(), 0.0);  // of the slope at hand
    for (const std::size_t i : order) {
      const Piece& piece = pieces_[i];
      double left_m2 = piece.area_m2;
      while (left_m2 > 0.0) {
        std::size_t& k = slope_at[piece.room];
        if (k == slopes_[piece.room].size()) break;
        const Slope& slope = slopes_[piece.room][k];
        if (slope.gain_per_m2 <= per_m2(i)) break;
        const double taken_m2 = std::min(left_m2, slope.area_m2 - used_m2[piece.room]);
        bound += taken_m2 * (slope.gain_per_m2 - per_m2(i));
        left_m2 -= taken_m2;
        used_m2[piece.room] += taken_m2;
        if (used_m2[piece.room] >= slope.area_m2) {
          ++k;
          used_m2[piece.room] = 0.0;
        }
        if (taken_m2 <= 0.0) break;
      }
      const double share = piece.share * (piece.area_m2 - left_m2) / piece.area_m2;
      if (share <= 0.0) continue;
      for (std::size_t row = 0; row < rows_.size(); ++row) slack[row] -= share * rows_[row].take[piece.place];
    }
    return bound;
  }

  const Problem& problem_;
  std::vector<std::vector<Slope>> slopes_;
  std::vector<Piece> pieces_;
  std::vector<Condition> rows_;  // money first
};

}  // namespace

double most_possible(const Problem& problem, const Sequence& found) {
  double sum = 0.0;
  double money = 0.0;
  std::vector<int> laid;
  for (std::size_t season = 0; season < found.seasons.size(); ++season) {
    money += problem.budgets[season];
    laid.insert(laid.end(), found.seasons[season].begin(), found.seasons[season].end());
    const double reached = gain_of(problem, laid);
    const double bound = SeasonBound(problem, laid, money).least(reached);
    // Sums of many products: what rounding could take from the bound is given back.
    constexpr double rounding = 1e-9;
    sum += std::max(reached, bound + rounding * std::fabs(bound));
  }
  return sum;
}

}  // namespace houseleek::buildorder
