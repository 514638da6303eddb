// A barrel by yield after spillage: a case worked by hand, and its books.
#include "planting/barrel.hpp"

#include <gtest/gtest.h>

#include <vector>

#include "base/contract.hpp"
#include "support/reference_check.hpp"

namespace houseleek::planting {
namespace {

using tests::check_reference;

// 100 l, 40 in it; the rule's equations on paper:
// day 1: Q 30, D 20: Y = 20, V = min(40+30-20, 100-20) = 50
// day 2: Q 90, D 30: Y = 30, V = min(50+90-30, 100-30) = 70, spilled 40
// day 3: Q  0, D 80: Y = 70, V = 0
// day 4: Q 25, D 10: Y =  0, V = 25
// day 5: Q  0, D 10: Y = 10, V = 15
const std::vector<double> inflow_l = {30, 90, 0, 25, 0};
const std::vector<double> demand_l = {20, 30, 80, 10, 10};

void check_by_hand(const char* id, const char* what, double expected, double got) {
  check_reference({.id = id,
                   .what = what,
                   .source = "[fewkes2000] equations of the rule (text seen in a review); recomputed by hand",
                   .expected = expected,
                   .got = got,
                   .tolerance = 1e-12,
                   .reason = "rounding",
                   .function = "planting::follow_barrel",
                   .scale = 100.0});
}

TEST(Barrel, FiveDaysByHand) {
  const std::vector<BarrelDay> days = follow_barrel(inflow_l, demand_l, 100.0, 40.0);
  ASSERT_EQ(days.size(), 5U);
  check_by_hand("BRL-01", "taken on day 1, l", 20.0, days[0].taken_l);
  check_by_hand("BRL-02", "held after day 1, l", 50.0, days[0].held_l);
  check_by_hand("BRL-03", "taken on day 2, l", 30.0, days[1].taken_l);
  check_by_hand("BRL-04", "spilled on day 2, l", 40.0, days[1].spilled_l);
  check_by_hand("BRL-05", "held after day 2, l", 70.0, days[1].held_l);
  check_by_hand("BRL-06", "taken on day 3, l", 70.0, days[2].taken_l);
  check_by_hand("BRL-07", "held after day 3, l", 0.0, days[2].held_l);
  check_by_hand("BRL-08", "taken on day 4, for its rain is not there yet, l", 0.0, days[3].taken_l);
  check_by_hand("BRL-09", "held after day 4, l", 25.0, days[3].held_l);
  check_by_hand("BRL-10", "taken on day 5, l", 10.0, days[4].taken_l);
  check_by_hand("BRL-11", "held after day 5, l", 15.0, days[4].held_l);
}

TEST(Barrel, ConservesWaterAndNeverCoversLessWhenLarger) {
  std::vector<double> rain;
  std::vector<double> wanted;
  for (int i = 0; i < 365; ++i) {
    rain.push_back(i % 7 == 0 ? (i * 29) % 400 : 0.0);
    wanted.push_back(i % 3 == 0 ? 35.0 : 0.0);
  }
  double before = 0.0;
  for (const double size_l : {0.0, 50.0, 120.0, 400.0, 2000.0}) {
    const std::vector<BarrelDay> days = follow_barrel(rain, wanted, size_l, 0.5 * size_l);
    double in = 0.5 * size_l;
    double out = 0.0;
    for (std::size_t i = 0; i < days.size(); ++i) {
      in += rain[i];
      out += days[i].taken_l + days[i].spilled_l;
      EXPECT_GE(days[i].held_l, 0.0);
      EXPECT_LE(days[i].held_l, size_l);
      EXPECT_GE(days[i].spilled_l, 0.0);
    }
    EXPECT_NEAR(in, out + days.back().held_l, 1e-9);
    const double covered = covered_share_frac(rain, wanted, size_l);
    EXPECT_GE(covered, before);
    EXPECT_LE(covered, 1.0);
    before = covered;
  }
  EXPECT_EQ(covered_share_frac(rain, wanted, 0.0), 0.0);
  EXPECT_EQ(covered_share_frac(rain, std::vector<double>(365, 0.0), 100.0), 1.0);
  EXPECT_THROW((void)follow_barrel(rain, wanted, 10.0, 11.0), ContractViolation);
}

}  // namespace
}  // namespace houseleek::planting
