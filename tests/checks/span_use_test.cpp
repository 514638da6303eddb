// How much of the engineer's figure the spans take: sums by hand, scaling, and where there is no share.
#include "checks/span_use.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "support/small_design.hpp"

namespace houseleek::checks {
namespace {

using tests::edited;
using tests::small_design_text;
using tests::valid_design;

constexpr const char* slab_along_x = R"([roof.structure]
kind = "one_way_slab"
spans_along = "x"
supports_at_m = [0, 4]
[[room]]
)";

design::ValidDesign with_slab(const std::vector<tests::Edit>& more = {}) {
  std::vector<tests::Edit> edits = more;
  edits.push_back({"[[room]]\n", slab_along_x});
  return valid_design(edited(small_design_text(), edits));
}

SpanUse use_of(const design::ValidDesign& design) { return find_span_use(design, find_footprints(design)); }

TEST(SpanUse, OneSpanByHand) {
  const design::ValidDesign design = with_slab();
  const SpanUse use = use_of(design);
  ASSERT_TRUE(use.use_frac) << use.because;
  // Two modules of 1 m and w kN, from 0.5 to 1.5 and 1.55 to 2.55 m, on 4 m: bending is greatest where shear is none.
  // Left reaction w (3.0 + 1.95)/4; used up most of the even figure's bending 2 x (4 - x)/2 where the ratio is greatest.
  const double w_kn = find_footprints(design)[0].soaked_kn.high;
  const double reaction_kn = w_kn * (3.0 + 1.95) / 4.0;
  // Of the support; and of shear right of both modules, where the figure on the part to the left brings 2 x^2/8.
  double greatest = std::max(reaction_kn / 4.0, w_kn * (1.0 + 2.05) / 4.0 / (2.0 * 2.55 * 2.55 / 8.0));
  for (double x_m = 0.001; x_m < 4.0; x_m += 0.001) {
    const auto part = [x_m](double from_m) { return std::clamp(x_m - from_m, 0.0, 1.0); };
    const auto moment_of = [&](double from_m) {
      const double on_m = part(from_m);
      return w_kn * on_m * (x_m - from_m - 0.5 * on_m);
    };
    const double demand_knm = reaction_kn * x_m - moment_of(0.5) - moment_of(1.55);
    const double allowance_knm = 2.0 * x_m * (4.0 - x_m) / 2.0;
    greatest = std::max(greatest, demand_knm / allowance_knm);
  }
  EXPECT_NEAR(use.use_frac->high, greatest, 2e-3 * greatest);
  EXPECT_LT(use.use_frac->low, use.use_frac->likely);
  EXPECT_LT(use.use_frac->likely, use.use_frac->high);
}

TEST(SpanUse, IsTheVerdictsOwnBorder) {
  const double high = use_of(with_slab()).use_frac->high;
  const std::string more = fmt::format("load_kn_per_m2 = {:.6f}", 2.0 * high * 1.001);
  const std::string less = fmt::format("load_kn_per_m2 = {:.6f}", 2.0 * high * 0.999);
  EXPECT_EQ(check_span_load(with_slab({{"load_kn_per_m2 = 2.0", more}})).verdict, LoadVerdict::within);
  EXPECT_NE(check_span_load(with_slab({{"load_kn_per_m2 = 2.0", less}})).verdict, LoadVerdict::within);
}

TEST(SpanUse, HalvesWithTwiceTheFigure) {
  const double one = use_of(with_slab()).use_frac->likely;
  const double two = use_of(with_slab({{"load_kn_per_m2 = 2.0", "load_kn_per_m2 = 4.0"}})).use_frac->likely;
  EXPECT_NEAR(two, 0.5 * one, 1e-6);
}

TEST(SpanUse, WithoutFigureOrModelThereIsNone) {
  EXPECT_FALSE(use_of(with_slab({{"who = \"A. Engineer\"\n", ""}})).use_frac);
  EXPECT_FALSE(use_of(valid_design(small_design_text())).use_frac);
  EXPECT_FALSE(use_of(valid_design(small_design_text())).because.empty());
}

TEST(SpanUse, NothingLaidUsesNothing) {
  const SpanUse use = find_span_use(with_slab(), {});
  ASSERT_TRUE(use.use_frac);
  EXPECT_EQ(use.use_frac->high, 0.0);
}

}  // namespace
}  // namespace houseleek::checks
