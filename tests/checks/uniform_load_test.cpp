// Soaked loads against an engineer's figure: the verdict's words, and no verdict without the figure.
#include "checks/uniform_load.hpp"

#include <gtest/gtest.h>

#include "support/small_design.hpp"

namespace houseleek::checks {
namespace {

using tests::edited;
using tests::small_design_text;
using tests::valid_design;

UniformLoad load_of(const std::vector<tests::Edit>& edits) {
  return check_uniform_load(valid_design(edited(small_design_text(), edits)));
}

TEST(UniformLoad, HeaviestSquareInKilonewtons) {
  const UniformLoad load = load_of({});
  // 102.525 kg/m2 soaked.
  EXPECT_NEAR(load.heaviest_kn_per_m2.likely, 102.525 * 9.80665 / 1000.0, 1e-12);
  EXPECT_EQ(load.averaging_area_m2, 0.0);
  ASSERT_EQ(load.patches.size(), 1U);
  EXPECT_EQ(load.patches[0].soaked_kn_per_m2, load.heaviest_kn_per_m2);
}

TEST(UniformLoad, WithinSaysWhoAndWhen) {
  const UniformLoad load = load_of({});
  EXPECT_EQ(load.verdict, LoadVerdict::within);
  EXPECT_NEAR(load.utilisation_frac->likely, 102.525 * 9.80665 / 2000.0, 1e-12);
  EXPECT_EQ(load.statement,
            "Soaked, the heaviest square brings 1.01 kN/m2 (0.90 to 1.12): within the 2 kN/m2 that A. Engineer wrote "
            "down on 2024-03-01 (old screed).");
}

TEST(UniformLoad, NotShownWhereOnlyTheHighEndIsAbove) {
  const UniformLoad load = load_of({{"load_kn_per_m2 = 2.0", "load_kn_per_m2 = 1.05"}});
  EXPECT_EQ(load.verdict, LoadVerdict::not_shown);
  EXPECT_NE(load.statement.find(": not shown to stay within the 1.05 kN/m2 that A. Engineer"), std::string::npos);
}

TEST(UniformLoad, Above) {
  const UniformLoad load = load_of({{"load_kn_per_m2 = 2.0", "load_kn_per_m2 = 0.75"}});
  EXPECT_EQ(load.verdict, LoadVerdict::above);
  EXPECT_NE(load.statement.find(": above the 0.75 kN/m2 that A. Engineer"), std::string::npos);
}

TEST(UniformLoad, AnythingMissingGivesWeightsAndNoVerdict) {
  struct Case {
    tests::Edit edit;
    std::string_view missing;
  };
  const Case cases[] = {{{"load_kn_per_m2 = 2.0\n", ""}, "the figure itself"},
                        {{"who = \"A. Engineer\"\n", ""}, "who wrote it down"},
                        {{"who = \"A. Engineer\"\n", "who = \"  \"\n"}, "who wrote it down"},
                        {{"when = 2024-03-01\n", ""}, "when"},
                        {{"includes = \"old screed\"\n", ""}, "what it already includes"}};
  for (const Case& one : cases) {
    const UniformLoad load = load_of({one.edit});
    EXPECT_EQ(load.verdict, LoadVerdict::none) << one.missing;
    EXPECT_FALSE(load.utilisation_frac) << one.missing;
    ASSERT_EQ(load.missing.size(), 1U) << one.missing;
    EXPECT_EQ(load.missing[0], one.missing);
    EXPECT_EQ(load.statement,
              "Soaked, the heaviest square brings 1.01 kN/m2 (0.90 to 1.12); no verdict, because nobody "
              "wrote down " +
                  std::string(one.missing) + ".");
    EXPECT_NEAR(load.heaviest_kn_per_m2.likely, 1.0054, 1e-4);
  }
}

TEST(UniformLoad, NoTableAtAllMissesEverything) {
  const UniformLoad load =
      load_of({{"[roof.allowable_load]\nload_kn_per_m2 = 2.0\nwho = \"A. Engineer\"\nwhen = 2024-03-01\nincludes = "
                "\"old screed\"\n",
                ""}});
  EXPECT_EQ(load.missing.size(), 4U);
  EXPECT_EQ(load.verdict, LoadVerdict::none);
}

TEST(UniformLoad, AnAveragingAreaThinsTheLoadByTheOpenRoofBetween) {
  // Four modules of 1 m2, 50 mm apart: a square of 2.05 m side holds all four and 0.2025 m2 of open roof.
  const UniformLoad load = load_of({{"load_kn_per_m2 = 2.0", "load_kn_per_m2 = 2.0\naveraging_area_m2 = 4.2025"}});
  EXPECT_NEAR(load.averaging_area_m2, 4.2025, 1e-12);
  EXPECT_NEAR(load.heaviest_kn_per_m2.likely, 4.0 / 4.2025 * 102.525 * 9.80665 / 1000.0, 1e-12);
}

TEST(UniformLoad, ASquareSmallerThanAModuleBearsAllOfIt) {
  const UniformLoad load = load_of({{"load_kn_per_m2 = 2.0", "load_kn_per_m2 = 2.0\naveraging_area_m2 = 0.5"}});
  EXPECT_NEAR(load.heaviest_kn_per_m2.likely, 102.525 * 9.80665 / 1000.0, 1e-12);
}

TEST(UniformLoad, ASquareWiderThanTheRoofIsNarrowed) {
  const UniformLoad load = load_of({{"load_kn_per_m2 = 2.0", "load_kn_per_m2 = 2.0\naveraging_area_m2 = 100"}});
  EXPECT_NEAR(load.averaging_area_m2, 9.0, 1e-12);  // the roof is 4 m by 3 m
  EXPECT_NEAR(load.heaviest_kn_per_m2.likely, 4.0 / 9.0 * 102.525 * 9.80665 / 1000.0, 1e-12);
}

TEST(UniformLoad, GreatestMeanAgainstManySquares) {
  // Two recipes of unlike weight, one turned out of line with the other; every position of the square on a fine grid.
  const std::vector<tests::Edit> edits = {{"load_kn_per_m2 = 2.0", "load_kn_per_m2 = 2.0\naveraging_area_m2 = 1.44"},
                                          {"[rivals]", R"([[recipe]]
name = "gravel tray"
length_mm = 600
width_mm = 400
[[recipe.layer]]
role = "medium"
material = "sand"
thickness_mm = 60
[[patch]]
recipe = "gravel tray"
columns = 1
rows = 2
origin = [2.7, 0.55]
spacing_mm = 100
[rivals])"}};
  const design::ValidDesign design = valid_design(edited(small_design_text(), edits));
  const UniformLoad load = check_uniform_load(design);
  double best = 0.0;
  const double side_m = 1.2;
  for (int i = 0; i <= 280; ++i) {
    for (int j = 0; j <= 180; ++j) {
      const double x_m = 0.01 * i;
      const double y_m = 0.01 * j;
      double sum = 0.0;
      for (const design::ModulePlace& place : design->modules) {
        const double width = std::min(place.rectangle.right_m, x_m + side_m) - std::max(place.rectangle.left_m, x_m);
        const double height = std::min(place.rectangle.top_m, y_m + side_m) - std::max(place.rectangle.bottom_m, y_m);
        if (width <= 0.0 || height <= 0.0) continue;
        sum += width * height * load.patches[static_cast<std::size_t>(place.patch)].soaked_kn_per_m2.likely;
      }
      best = std::max(best, sum / (side_m * side_m));
    }
  }
  EXPECT_GE(load.heaviest_kn_per_m2.likely, best - 1e-12);
  EXPECT_NEAR(load.heaviest_kn_per_m2.likely, best, 0.01 * best);
}

TEST(UniformLoad, NothingLaid) {
  const UniformLoad load = load_of({{R"([[patch]]
recipe = "thin stonecrop"
columns = 2
rows = 2
origin = [0.5, 0.4]
spacing_mm = 50
)",
                                     ""}});
  EXPECT_EQ(load.heaviest_kn_per_m2.high, 0.0);
  EXPECT_EQ(load.statement, "No modules are laid yet, so nothing is added to the roof.");
}

}  // namespace
}  // namespace houseleek::checks
