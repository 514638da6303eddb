// Drawn costs: plain sums where nothing is uncertain, one price for one thing, ranges that follow their spreads.
#include "money/draws.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "base/contract.hpp"
#include "stats/quantile.hpp"
#include "support/small_design.hpp"

namespace houseleek::money {
namespace {

using design::Placed;
using tests::edited;
using tests::small_design_text;
using tests::valid_design;

Cost module_cost() { return cost_of_module(valid_design(small_design_text()), 0, Placed::raised); }

/// The cost with the range of one figure taken away.
Cost without_range(Cost cost, const std::string& path) {
  for (CostPart& part : cost.parts) {
    for (Factor& factor : part.factors) {
      if (factor.path == path) factor.range = results::exactly(factor.range.likely);
    }
    if (part.price.path == path) part.price.range = results::exactly(part.price.range.likely);
    if (part.life_years && part.life_years->path == path) {
      part.life_years->range = results::exactly(part.life_years->range.likely);
    }
  }
  return cost;
}

/// Paths of all figures with a range.
std::set<std::string> paths_of(const Cost& cost) {
  std::set<std::string> paths;
  for (const CostPart& part : cost.parts) {
    for (const Factor& factor : part.factors) {
      if (factor.range.low < factor.range.high) paths.insert(factor.path);
    }
    if (part.price.range.low < part.price.range.high) paths.insert(part.price.path);
    if (part.life_years && part.life_years->range.low < part.life_years->range.high) {
      paths.insert(part.life_years->path);
    }
  }
  return paths;
}

Cost without_any_range(Cost cost) {
  for (const std::string& path : paths_of(cost)) cost = without_range(std::move(cost), path);
  return cost;
}

double variance_of(const std::vector<double>& values) {
  double mean = 0.0;
  for (const double value : values) mean += value / static_cast<double>(values.size());
  double sum = 0.0;
  for (const double value : values) sum += (value - mean) * (value - mean);
  return sum / static_cast<double>(values.size() - 1);
}

std::vector<double> draws_of(const Cost& cost, double DrawnCost::*what, std::uint32_t n_draws) {
  std::vector<double> values;
  for (std::uint32_t i = 0; i < n_draws; ++i) values.push_back(draw_cost(cost, {.seed = 3, .number = i}).*what);
  return values;
}

TEST(Draws, WithoutRangesTheyAreThePlainSums) {
  const Cost cost = without_any_range(module_cost());
  for (const std::uint32_t number : {0U, 1U, 77U}) {
    const DrawnCost drawn_cost = draw_cost(cost, {.seed = 1, .number = number});
    EXPECT_NEAR(drawn_cost.outlay, 12.34, 1e-9);
    EXPECT_NEAR(drawn_cost.replacement_per_year, 2.914, 1e-9);
  }
}

TEST(Draws, StayBetweenTheEndsOfAllPricesTogether) {
  const Cost cost = module_cost();
  const results::Interval outlay = *outlay_of(cost);
  const results::Interval per_year = *replacement_per_year(cost);
  for (std::uint32_t i = 0; i < 500; ++i) {
    const DrawnCost drawn_cost = draw_cost(cost, {.seed = 3, .number = i});
    EXPECT_GT(drawn_cost.outlay, outlay.low);
    EXPECT_LT(drawn_cost.outlay, outlay.high);
    EXPECT_GT(drawn_cost.replacement_per_year, per_year.low);
    EXPECT_LT(drawn_cost.replacement_per_year, per_year.high);
  }
  // And a range of draws is narrower than all ends at once.
  const std::vector<double> drawn_outlays = draws_of(cost, &DrawnCost::outlay, 500);
  EXPECT_LT(stats::quantile(drawn_outlays, 0.9) - stats::quantile(drawn_outlays, 0.1), outlay.high - outlay.low);
}

TEST(Draws, TheSameSeedAndNumberGiveTheSameCost) {
  const Cost cost = module_cost();
  const Draw draw{.seed = 3, .number = 5};
  EXPECT_EQ(draw_cost(cost, draw).outlay, draw_cost(module_cost(), draw).outlay);
  EXPECT_NE(draw_cost(cost, draw).outlay, draw_cost(cost, {.seed = 4, .number = 5}).outlay);
  EXPECT_NE(draw_cost(cost, draw).outlay, draw_cost(cost, {.seed = 3, .number = 6}).outlay);
}

TEST(Draws, OneThingHasOnePriceInModulesAndRivals) {
  // A recipe whose raised net is the rivals' net: cloth and frame cost the same by the square metre, draw by draw.
  const design::ValidDesign design = valid_design(
      edited(small_design_text(),
             {{"[recipe.spacer]", "[recipe.net]\nmaterial = \"HDPE shade cloth\"\nheight_mm = 300\n[recipe.spacer]"}}));
  const auto part_of = [](const Cost& cost, std::string_view name) {
    const auto found =
        std::find_if(cost.parts.begin(), cost.parts.end(), [name](const CostPart& part) { return part.name == name; });
    EXPECT_NE(found, cost.parts.end()) << name;
    return Cost{.parts = {*found}, .unpriced = {}, .without_life = {}};
  };
  const Cost modules = cost_of_module(design, 0, Placed::raised);  // of one square metre
  const Cost rival = cost_of_net_per_m2(design);
  for (std::uint32_t i = 0; i < 50; ++i) {
    for (const std::string_view name : {"HDPE shade cloth", "net frame"}) {
      const DrawnCost here = draw_cost(part_of(modules, name), {.seed = 3, .number = i});
      const DrawnCost there = draw_cost(part_of(rival, name), {.seed = 3, .number = i});
      EXPECT_EQ(here.outlay, there.outlay) << name << i;
      EXPECT_EQ(here.replacement_per_year, there.replacement_per_year) << name << i;
    }
  }
}

TEST(Draws, TakingAwayAnySpreadNarrowsTheRange) {
  constexpr std::uint32_t n_draws = 20000;
  const Cost cost = module_cost();
  const double outlay_variance = variance_of(draws_of(cost, &DrawnCost::outlay, n_draws));
  const double per_year_variance = variance_of(draws_of(cost, &DrawnCost::replacement_per_year, n_draws));
  const std::set<std::string> paths = paths_of(cost);
  EXPECT_GE(paths.size(), 12U);
  for (const std::string& path : paths) {
    const Cost narrower = without_range(cost, path);
    if (path.find("life") == std::string::npos) {
      EXPECT_LT(variance_of(draws_of(narrower, &DrawnCost::outlay, n_draws)), outlay_variance) << path;
    } else {
      EXPECT_LT(variance_of(draws_of(narrower, &DrawnCost::replacement_per_year, n_draws)), per_year_variance) << path;
    }
  }
}

TEST(Draws, WithoutAPriceThereIsNoSum) {
  Cost cost = module_cost();
  cost.unpriced.push_back("rag wool");
  EXPECT_THROW((void)draw_cost(cost, {.seed = 1, .number = 0}), ContractViolation);
}

}  // namespace
}  // namespace houseleek::money
