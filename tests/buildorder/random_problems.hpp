// Seeded problems of building on: places over rooms, concave or bent responses, stock that runs out, loads.
#pragma once
#include <cstdint>
#include <memory>
#include <random>
#include <vector>

#include "buildorder/order.hpp"

namespace houseleek::tests {

/// Modules of one kind: so many at the stock's price, the others at the shop's.
struct KindCost {
  int n_in_stock = 0;
  double stock_price = 0.0;
  double shop_price = 1.0;
};

struct RandomProblem {
  buildorder::Problem problem;
  std::vector<KindCost> kinds;
};

struct RandomWishes {
  int n_places = 8;
  int n_rooms = 3;
  int n_seasons = 1;
  bool is_concave = true;
  bool has_pins = false;
  int n_conditions = 2;
};

inline RandomProblem random_problem(std::uint64_t seed, const RandomWishes& wishes) {
  std::mt19937_64 random(seed);
  const auto between = [&random](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  const auto upto = [&random](int most) { return std::uniform_int_distribution<int>(0, most)(random); };
  RandomProblem made;
  made.kinds.resize(2);
  for (KindCost& kind : made.kinds) {
    kind = {upto(4), between(0.0, 5.0), between(8.0, 30.0)};
  }
  buildorder::Problem& problem = made.problem;
  problem.n_kinds = 2;
  problem.cost_of = [kinds = made.kinds](std::span<const int> n_by_kind) {
    double cost = 0.0;
    for (std::size_t k = 0; k < kinds.size(); ++k) {
      const int from_stock = std::min(n_by_kind[k], kinds[k].n_in_stock);
      cost += from_stock * kinds[k].stock_price + (n_by_kind[k] - from_stock) * kinds[k].shop_price;
    }
    return cost;
  };
  for (int i = 0; i < wishes.n_places; ++i) {
    buildorder::Place place;
    place.kind = upto(1);
    const int room = upto(wishes.n_rooms - 1);
    const double area_m2 = between(0.6, 1.2);
    const double part = upto(3) == 0 ? between(0.2, 0.8) : 1.0;
    place.over.push_back({room, part * area_m2});
    if (part < 1.0) place.over.push_back({(room + 1) % wishes.n_rooms, (1.0 - part) * area_m2});
    place.is_pinned = wishes.has_pins && upto(5) == 0;
    problem.places.push_back(std::move(place));
  }
  for (int room = 0; room < wishes.n_rooms; ++room) {
    const double today_m2 = between(0.0, 3.0);
    const double step_m2 = 0.5 * wishes.n_places / wishes.n_rooms;
    buildorder::Response response{{today_m2}, {0.0}};
    double slope = between(20.0, 200.0);
    for (int k = 1; k <= 3; ++k) {
      response.covered_m2.push_back(today_m2 + k * step_m2);
      response.gain.push_back(response.gain.back() + slope * step_m2);
      slope = wishes.is_concave ? slope * between(0.2, 1.0) : between(-20.0, 200.0);
    }
    problem.responses.push_back(std::move(response));
  }
  const double all_cost = 15.0 * wishes.n_places;
  for (int season = 0; season < wishes.n_seasons; ++season) {
    problem.budgets.push_back(between(0.2, 0.7) * all_cost / wishes.n_seasons);
  }
  for (int c = 0; c < wishes.n_conditions; ++c) {
    buildorder::Condition condition;
    double sum = 0.0;
    for (int i = 0; i < wishes.n_places; ++i) {
      condition.take.push_back(upto(2) == 0 ? 0.0 : between(0.2, 1.0));
      sum += condition.take.back();
    }
    condition.room = between(0.3, 0.8) * sum;
    problem.conditions.push_back(std::move(condition));
  }
  return made;
}

}  // namespace houseleek::tests
