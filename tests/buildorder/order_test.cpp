// The order in which to build against brute force on small roofs, and its rules one by one.
#include "buildorder/order.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "random_problems.hpp"

namespace houseleek::buildorder {
namespace {

using tests::KindCost;
using tests::random_problem;
using tests::RandomProblem;

// ---- By hand, without the code that is judged.

double plain_gain(const Problem& problem, unsigned set) {
  double all = 0.0;
  for (std::size_t room = 0; room < problem.responses.size(); ++room) {
    const Response& response = problem.responses[room];
    double at = response.covered_m2[0];
    for (std::size_t i = 0; i < problem.places.size(); ++i) {
      if (((set >> i) & 1U) == 0U) continue;
      for (const RoomShare& share : problem.places[i].over) {
        if (share.room == static_cast<int>(room)) at += share.area_m2;
      }
    }
    double gain = response.gain.back();
    for (std::size_t k = 1; k < response.gain.size(); ++k) {
      if (at > response.covered_m2[k]) continue;
      const double from_m2 = response.covered_m2[k - 1];
      const double slope = (response.gain[k] - response.gain[k - 1]) / (response.covered_m2[k] - from_m2);
      gain = response.gain[k - 1] + slope * (at - from_m2);
      break;
    }
    all += gain - response.gain[0];
  }
  return all;
}

double plain_cost(const Problem& problem, const std::vector<KindCost>& kinds, unsigned set) {
  double cost = 0.0;
  std::vector<int> laid(kinds.size(), 0);
  for (std::size_t i = 0; i < problem.places.size(); ++i) {
    if (((set >> i) & 1U) == 0U) continue;
    const auto kind = static_cast<std::size_t>(problem.places[i].kind);
    cost += laid[kind] < kinds[kind].n_in_stock ? kinds[kind].stock_price : kinds[kind].shop_price;
    ++laid[kind];
  }
  return cost;
}

bool plain_allowed(const Problem& problem, unsigned set) {
  for (const Condition& condition : problem.conditions) {
    double sum = 0.0;
    for (std::size_t i = 0; i < problem.places.size(); ++i) {
      if (((set >> i) & 1U) != 0U) sum += condition.take[i];
    }
    if (sum > condition.room) return false;
  }
  return true;
}

int plain_pins(const Problem& problem, unsigned set) {
  int pins = 0;
  for (std::size_t i = 0; i < problem.places.size(); ++i) {
    pins += ((set >> i) & 1U) != 0U && problem.places[i].is_pinned ? 1 : 0;
  }
  return pins;
}

struct Brute {
  const RandomProblem& made;
  std::vector<double> gain;
  std::vector<double> cost;
  std::vector<bool> allowed;
  int best_pins = -1;
  double best_value = -1e300;

  explicit Brute(const RandomProblem& of) : made(of) {
    for (unsigned set = 0; set < 1U << of.problem.places.size(); ++set) {
      gain.push_back(plain_gain(of.problem, set));
      cost.push_back(plain_cost(of.problem, of.kinds, set));
      allowed.push_back(plain_allowed(of.problem, set));
    }
    look(0, 0, 0.0, 0, 0.0);
  }

  /// Every set that holds the one before, season by season.
  void look(std::size_t season, unsigned before, double money, int pins, double value) {
    if (season == made.problem.budgets.size()) {
      if (pins > best_pins || (pins == best_pins && value > best_value)) {
        best_pins = pins;
        best_value = value;
      }
      return;
    }
    money += made.problem.budgets[season];
    for (unsigned set = 0; set < gain.size(); ++set) {
      if ((set & before) != before || !allowed[set] || cost[set] > money) continue;
      look(season + 1, set, money, pins + plain_pins(made.problem, set), value + gain[set]);
    }
  }
};

/// Gain of each step times all spent by then, for one order of places behind a set.
double lateness(const Brute& brute, unsigned set, const std::vector<int>& order) {
  double sum = 0.0;
  for (const int place : order) {
    const unsigned with = set | (1U << place);
    sum += (brute.gain[with] - brute.gain[set]) * brute.cost[with];
    set = with;
  }
  return sum;
}

void check_against_brute_force(const RandomProblem& made, const std::string& which) {
  const Order order = find_order(made.problem);
  const Brute brute(made);
  EXPECT_TRUE(order.is_exact) << which;
  int pins = 0;
  double value = 0.0;
  double money = 0.0;
  unsigned set = 0;
  std::size_t step = 0;
  for (std::size_t season = 0; season < made.problem.budgets.size(); ++season) {
    money += made.problem.budgets[season];
    const unsigned before = set;
    std::vector<int> of_season;
    for (; step < order.steps.size() && order.steps[step].season == static_cast<int>(season); ++step) {
      const int place = order.steps[step].place;
      const unsigned with = set | (1U << place);
      ASSERT_NE(with, set) << which << ": laid twice";
      EXPECT_NEAR(order.steps[step].gain, brute.gain[with] - brute.gain[set], 1e-9) << which;
      EXPECT_NEAR(order.steps[step].cost, brute.cost[with] - brute.cost[set], 1e-9) << which;
      EXPECT_TRUE(brute.allowed[with]) << which;
      of_season.push_back(place);
      set = with;
    }
    EXPECT_LE(brute.cost[set], money) << which;
    pins += plain_pins(made.problem, set);
    value += brute.gain[set];
    // The same places in every other order.
    const double mine = lateness(brute, before, of_season);
    double least = mine;
    std::vector<int> other = of_season;
    std::sort(other.begin(), other.end());
    do {
      least = std::min(least, lateness(brute, before, other));
    } while (std::next_permutation(other.begin(), other.end()));
    EXPECT_LE(mine, least + 1e-9 * std::fabs(least)) << which;
  }
  EXPECT_EQ(step, order.steps.size()) << which;
  EXPECT_EQ(pins, brute.best_pins) << which;
  EXPECT_NEAR(value, brute.best_value, 1e-9 * std::fabs(brute.best_value) + 1e-12) << which;
  EXPECT_NEAR(order.value, value, 1e-9) << which;
  EXPECT_EQ(order.most_loss(), 0.0) << which;
}

TEST(Order, BruteForceFindsNoBetterOneOnTwoHundredRoofsOfUpToEightSquares) {
  for (std::uint64_t seed = 0; seed < 200; ++seed) {
    const int n_places = 1 + static_cast<int>(seed % 8);
    const RandomProblem made = random_problem(seed, {.n_places = n_places,
                                                     .n_rooms = 1 + static_cast<int>(seed % 3),
                                                     .n_seasons = 1 + static_cast<int>(seed / 8 % 3),
                                                     .is_concave = seed % 2 == 0,
                                                     .has_pins = seed % 5 == 0,
                                                     .n_conditions = static_cast<int>(seed % 3)});
    check_against_brute_force(made, fmt::format("seed {}", seed));
  }
}

TEST(Order, StepwiseIsNeverAboveTheBestAndItsBoundNeverBelow) {
  int n_exact_too = 0;
  for (std::uint64_t seed = 1000; seed < 1200; ++seed) {
    const RandomProblem made = random_problem(seed, {.n_places = 8,
                                                     .n_rooms = 3,
                                                     .n_seasons = 1 + static_cast<int>(seed % 3),
                                                     .is_concave = seed % 2 == 0,
                                                     .has_pins = false,
                                                     .n_conditions = static_cast<int>(seed % 3)});
    const Order order = find_order(made.problem, {.most_exact = 0});
    const Brute brute(made);
    EXPECT_FALSE(order.is_exact);
    EXPECT_LE(order.value, brute.best_value * (1.0 + 1e-9) + 1e-9) << seed;
    EXPECT_LE(brute.best_value - order.value, order.most_loss()) << seed;
    if (order.value > brute.best_value * (1.0 - 1e-9)) ++n_exact_too;
  }
  EXPECT_GT(n_exact_too, 100) << "step by step finds the best on most of such roofs";
}

/// One room of four squares, each gaining less than the one before; every module costs 10.
Problem plain_problem(int n_places) {
  Problem problem;
  for (int i = 0; i < n_places; ++i) problem.places.push_back({.over = {{0, 1.0}}, .kind = 0, .is_pinned = false});
  problem.responses = {{{0.0, 2.0, 10.0}, {0.0, 20.0, 28.0}}};
  problem.budgets = {35.0};
  problem.cost_of = [](std::span<const int> n) { return 10.0 * n[0]; };
  return problem;
}

TEST(Order, MoneyThatIsLeftServesTheNextSeason) {
  Problem problem = plain_problem(8);
  problem.budgets = {15.0, 15.0};
  for (const std::size_t most_exact : {0UL, 14UL}) {
    const Order order = find_order(problem, {.most_exact = most_exact});
    ASSERT_EQ(order.steps.size(), 3U);
    EXPECT_EQ(order.steps[0].season, 0);
    EXPECT_EQ(order.steps[1].season, 1);
    EXPECT_EQ(order.steps[2].season, 1);
    EXPECT_NEAR(order.value, 10.0 + 21.0, 1e-9);
  }
}

TEST(Order, APinComesFirstAndAHarmfulSquareNever) {
  Problem problem = plain_problem(3);
  problem.responses.push_back({{0.0, 1.0}, {0.0, -5.0}});
  problem.places[2].over = {{1, 1.0}};
  for (const std::size_t most_exact : {0UL, 14UL}) {
    const Order without = find_order(problem, {.most_exact = most_exact});
    EXPECT_EQ(without.steps.size(), 2U) << "what does harm is not laid for being payable";
    problem.places[2].is_pinned = true;
    const Order with = find_order(problem, {.most_exact = most_exact});
    ASSERT_EQ(with.steps.size(), 3U);
    EXPECT_TRUE(std::any_of(with.steps.begin(), with.steps.end(), [](const Step& one) { return one.place == 2; }));
    problem.places[2].is_pinned = false;
  }
}

TEST(Order, APinThatCannotBeIsNamed) {
  Problem problem = plain_problem(3);
  problem.places[1].is_pinned = true;
  problem.conditions = {{{0.0, 2.0, 0.0}, 1.0}};
  for (const std::size_t most_exact : {0UL, 14UL}) {
    EXPECT_EQ(find_order(problem, {.most_exact = most_exact}).pins_left_out, std::vector<int>{1});
  }
}

TEST(Order, OverlappingPlacesAreNotBothLaid) {
  Problem problem = plain_problem(3);
  problem.excluded = {{0, 1}, {1, 2}};
  for (const std::size_t most_exact : {0UL, 14UL}) {
    const Order order = find_order(problem, {.most_exact = most_exact});
    ASSERT_EQ(order.steps.size(), 2U);
    EXPECT_NE(order.steps[0].place, 1);
    EXPECT_NE(order.steps[1].place, 1);
  }
}

TEST(Order, WhatTheJudgeForbidsOnTheWayIsNotLaid) {
  // The first place holds the others down: without it nothing may be laid, and no condition says so.
  Problem problem = plain_problem(4);
  problem.places[0].over = {{0, 0.1}};
  problem.judge = [](std::span<const int> chosen) {
    const bool has_first = std::find(chosen.begin(), chosen.end(), 0) != chosen.end();
    return Judgement{.is_within = chosen.empty() || has_first, .broken = std::nullopt};
  };
  const Order order = find_order(problem);
  EXPECT_TRUE(order.is_exact);
  ASSERT_EQ(order.steps.size(), 3U);
  EXPECT_EQ(order.steps[0].place, 0);
  std::vector<int> laid;
  for (const Step& step : order.steps) {
    laid.push_back(step.place);
    EXPECT_TRUE(problem.judge(laid).is_within);
  }
}

TEST(Order, ConditionsThatTheJudgeNamesEnterTheBound) {
  Problem problem = plain_problem(30);
  problem.responses = {{{0.0, 30.0}, {0.0, 300.0}}};
  problem.budgets = {1000.0};
  problem.judge = [](std::span<const int> chosen) {
    Judgement judgement;
    judgement.is_within = chosen.size() <= 5;
    if (!judgement.is_within) judgement.broken = Condition{std::vector<double>(30, 1.0), 5.0};
    return judgement;
  };
  const Order order = find_order(problem);
  EXPECT_FALSE(order.is_exact);
  EXPECT_EQ(order.steps.size(), 5U);
  EXPECT_NEAR(order.value, 50.0, 1e-9);
  EXPECT_NEAR(order.most_possible, 50.0, 0.1) << "without the condition it would be 300";
}

TEST(Order, NoMoneyNoModules) {
  Problem problem = plain_problem(3);
  problem.budgets = {0.0};
  EXPECT_TRUE(find_order(problem).steps.empty());
  problem.places.clear();
  EXPECT_TRUE(find_order(problem).steps.empty());
}

}  // namespace
}  // namespace houseleek::buildorder
