// The bound on the loss against integer programs of larger roofs, solved by COIN-OR's cbc.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "buildorder/order.hpp"
#include "random_problems.hpp"
#include "support/temporary_folder.hpp"

namespace houseleek::buildorder {
namespace {

using tests::random_problem;
using tests::RandomProblem;

/// Least of minus the value, in the format of CPLEX's LP files. x: laid by the end of a season; y: modules of a kind from
/// stock and from the shop; z: covered area on each slope of a room's response.
std::string lp_text(const RandomProblem& made) {
  const Problem& problem = made.problem;
  std::ostringstream goal, rows, bounds, whole;
  double money = 0.0;
  for (std::size_t s = 0; s < problem.budgets.size(); ++s) {
    money += problem.budgets[s];
    for (std::size_t r = 0; r < problem.responses.size(); ++r) {
      const Response& response = problem.responses[r];
      std::ostringstream area;
      for (std::size_t k = 1; k < response.gain.size(); ++k) {
        const double length = response.covered_m2[k] - response.covered_m2[k - 1];
        goal << fmt::format(" - {:.12f} z_{}_{}_{}\n", (response.gain[k] - response.gain[k - 1]) / length, s, r, k);
        bounds << fmt::format(" 0 <= z_{}_{}_{} <= {:.12f}\n", s, r, k, length);
        area << fmt::format(" + z_{}_{}_{}", s, r, k);
      }
      for (std::size_t i = 0; i < problem.places.size(); ++i) {
        for (const RoomShare& share : problem.places[i].over) {
          if (share.room == static_cast<int>(r)) area << fmt::format(" - {:.12f} x_{}_{}", share.area_m2, s, i);
        }
      }
      rows << fmt::format(" area_{}_{}:{} <= 0\n", s, r, area.str());
    }
    std::ostringstream cost;
    for (std::size_t k = 0; k < made.kinds.size(); ++k) {
      cost << fmt::format(" + {:.12f} ystock_{}_{} + {:.12f} yshop_{}_{}", made.kinds[k].stock_price, s, k,
                          made.kinds[k].shop_price, s, k);
      bounds << fmt::format(" 0 <= ystock_{}_{} <= {}\n", s, k, made.kinds[k].n_in_stock);
      std::ostringstream count;
      count << fmt::format(" ystock_{}_{} + yshop_{}_{}", s, k, s, k);
      for (std::size_t i = 0; i < problem.places.size(); ++i) {
        if (problem.places[i].kind == static_cast<int>(k)) count << fmt::format(" - x_{}_{}", s, i);
      }
      rows << fmt::format(" count_{}_{}:{} = 0\n", s, k, count.str());
    }
    rows << fmt::format(" money_{}:{} <= {:.12f}\n", s, cost.str(), money);
    for (std::size_t c = 0; c < problem.conditions.size(); ++c) {
      std::ostringstream taken;
      for (std::size_t i = 0; i < problem.places.size(); ++i) {
        taken << fmt::format(" + {:.12f} x_{}_{}", problem.conditions[c].take[i], s, i);
      }
      rows << fmt::format(" load_{}_{}:{} <= {:.12f}\n", s, c, taken.str(), problem.conditions[c].room);
    }
    for (std::size_t i = 0; i < problem.places.size(); ++i) {
      whole << fmt::format(" x_{}_{}\n", s, i);
      if (s > 0) rows << fmt::format(" stays_{}_{}: x_{}_{} - x_{}_{} >= 0\n", s, i, s, i, s - 1, i);
    }
  }
  return "Minimize\n value:\n" + goal.str() + "Subject To\n" + rows.str() + "Bounds\n" + bounds.str() + "Binaries\n" +
         whole.str() + "End\n";
}

struct Solved {
  double value = 0.0;
  bool is_optimal = false;
  std::string said;
};

Solved solve(const std::string& lp) {
  const tests::TemporaryFolder folder;
  const std::string model = folder.path() + "/model.lp";
  const std::string solution = folder.path() + "/solution.txt";
  std::ofstream(model) << lp;
  // A relative gap of 1e-7; a minute is far more than these need.
  const std::string command = fmt::format("cbc '{}' ratio 1e-7 sec 60 solve solution '{}' > '{}/said.txt' 2>&1", model,
                                          solution, folder.path());
  Solved solved;
  const int code = std::system(command.c_str());
  std::ifstream file(solution);
  std::getline(file, solved.said);
  // "Optimal - objective value -12.5", or the same "(within gap tolerance)".
  const std::string before_value = "objective value ";
  const std::size_t at = solved.said.find(before_value);
  solved.is_optimal = code == 0 && solved.said.starts_with("Optimal") && at != std::string::npos;
  if (solved.is_optimal) solved.value = -std::strtod(solved.said.c_str() + at + before_value.size(), nullptr);
  if (!solved.is_optimal) solved.said += fmt::format(" (exit {}; is cbc installed: package coinor-cbc?)", code);
  return solved;
}

TEST(OrderByIntegerProgramming, TheLossIsNeverAboveItsBound) {
  double worst_loss_frac = 0.0;
  double worst_bound_frac = 0.0;
  for (std::uint64_t seed = 0; seed < 18; ++seed) {
    const RandomProblem made = random_problem(5000 + seed, {.n_places = 16 + static_cast<int>(seed),
                                                            .n_rooms = 4,
                                                            .n_seasons = 1 + static_cast<int>(seed % 3),
                                                            .is_concave = true,
                                                            .has_pins = false,
                                                            .n_conditions = static_cast<int>(seed % 4)});
    const Order order = find_order(made.problem);
    ASSERT_FALSE(order.is_exact);
    const Solved best = solve(lp_text(made));
    ASSERT_TRUE(best.is_optimal) << seed << ": " << best.said;
    const double tolerance = 1e-6 * best.value;  // cbc's own, and 12 digits in the file
    EXPECT_LE(order.value, best.value + tolerance) << seed;
    EXPECT_LE(best.value - order.value, order.most_loss() + tolerance) << seed;
    worst_loss_frac = std::max(worst_loss_frac, (best.value - order.value) / best.value);
    worst_bound_frac = std::max(worst_bound_frac, order.most_loss() / best.value);
  }
  RecordProperty("worst_loss_frac", fmt::format("{:.4f}", worst_loss_frac));
  RecordProperty("worst_bound_frac", fmt::format("{:.4f}", worst_bound_frac));
  EXPECT_LT(worst_loss_frac, 0.05);
  EXPECT_LT(worst_bound_frac, 0.15) << "a bound that says something";
}

TEST(OrderByIntegerProgramming, AgreesWithTheExactSearch) {
  for (std::uint64_t seed = 0; seed < 6; ++seed) {
    const RandomProblem made = random_problem(7000 + seed, {.n_places = 12,
                                                            .n_rooms = 3,
                                                            .n_seasons = 1 + static_cast<int>(seed % 2),
                                                            .is_concave = true,
                                                            .has_pins = false,
                                                            .n_conditions = 2});
    const Order order = find_order(made.problem);
    ASSERT_TRUE(order.is_exact);
    const Solved best = solve(lp_text(made));
    ASSERT_TRUE(best.is_optimal) << best.said;
    EXPECT_NEAR(order.value, best.value, 1e-6 * best.value) << seed;
  }
}

}  // namespace
}  // namespace houseleek::buildorder
