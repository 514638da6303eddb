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

TEST(Barrel, FiveDaysByHand) {
  const std::vector<BarrelDay> days = follow_barrel(inflow_l, demand_l, 100.0, 40.0);
  const std::vector<BarrelDay> by_hand = {{20, 0, 50}, {30, 40, 70}, {70, 0, 0}, {0, 0, 25}, {10, 0, 15}};
  ASSERT_EQ(days.size(), by_hand.size());
  for (std::size_t i = 0; i < days.size(); ++i) {
    const auto check = [&](const std::string& id, const char* what, double expected, double got) {
      check_reference({.id = id + std::to_string(i + 1),
                       .what = what + std::string(" on day ") + std::to_string(i + 1) + ", l",
                       .source = "[fewkes2000] equations of the rule (text seen in a review); recomputed by hand",
                       .expected = expected,
                       .got = got,
                       .tolerance = 1e-12,
                       .reason = "rounding",
                       .function = "planting::follow_barrel",
                       .scale = 100.0});
    };
    check("BRL-Y", "taken", by_hand[i].taken_l, days[i].taken_l);
    check("BRL-S", "spilled", by_hand[i].spilled_l, days[i].spilled_l);
    check("BRL-V", "held", by_hand[i].held_l, days[i].held_l);
  }
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
