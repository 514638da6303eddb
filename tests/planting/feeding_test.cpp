// What media lose with age, and what ties up nitrogen: sums by hand and signs.
#include "planting/feeding.hpp"

#include <gtest/gtest.h>

#include "base/contract.hpp"
#include "support/reference_check.hpp"

namespace houseleek::planting {
namespace {

using tests::check_reference;

catalogue::Spread spread(double low, double likely, double high) {
  catalogue::Spread one;
  one.low = low;
  one.likely = likely;
  one.high = high;
  return one;
}

TEST(Settling, ByHand) {
  const SettlingLayer layer{100.0, spread(0.7, 0.8, 0.9), spread(0.1, 0.2, 0.3)};
  const results::Interval depth = settled_depth_mm(layer, 2.0);
  check_reference({.id = "FED-01",
                   .what = "depth of 100 mm after two years, likely, mm",
                   .source = "definition, recomputed by hand: 100 0.8 0.8^2",
                   .expected = 51.2,
                   .got = depth.likely,
                   .tolerance = 1e-9,
                   .reason = "rounding",
                   .function = "planting::settled_depth_mm"});
  check_reference({.id = "FED-02",
                   .what = "the same, low end, mm",
                   .source = "definition, recomputed by hand: 100 0.7 0.7^2",
                   .expected = 34.3,
                   .got = depth.low,
                   .tolerance = 1e-9,
                   .reason = "rounding",
                   .function = "planting::settled_depth_mm"});
  EXPECT_GT(depth.high, depth.likely);
  EXPECT_THROW((void)settled_depth_mm(layer, -1.0), ContractViolation);
}

TEST(Nitrogen, StrawTiesUpBarkHardly) {
  const CarbonRich* straw = find_carbon_rich("straw");
  const CarbonRich* cones = find_carbon_rich("pine cones");
  ASSERT_NE(straw, nullptr);
  ASSERT_NE(cones, nullptr);
  EXPECT_EQ(find_carbon_rich("expanded clay"), nullptr);
  check_reference(
      {.id = "FED-03",
       .what = "nitrogen tied up by a kilo of straw in its first year, g",
       .source = "textbook balance, from memory, not confirmed; recomputed by hand: 480 0.6 (0.4/10 - 1/80)",
       .expected = 7.92,
       .got = nitrogen_tied_g_per_kg(*straw).likely,
       .tolerance = 1e-9,
       .reason = "rounding",
       .function = "planting::nitrogen_tied_g_per_kg"});
  // Common practice, no source: straw pales plants far more than cones do.
  EXPECT_GT(nitrogen_tied_g_per_kg(*straw).likely, 5.0 * nitrogen_tied_g_per_kg(*cones).likely);
  EXPECT_GE(nitrogen_tied_g_per_kg(*straw).low, 0.0);
}

}  // namespace
}  // namespace houseleek::planting
