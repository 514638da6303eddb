// What rain, wind and fire ask of the roof, against the checks themselves and sums by hand; the squares and their names.
#include "studies/roof_answers.hpp"

#include <gtest/gtest.h>

#include <set>

#include "checks/drainage.hpp"
#include "checks/wind_uplift.hpp"
#include "studies/load_answer.hpp"
#include "studies/roof_squares.hpp"
#include "studies/small_study.hpp"

namespace houseleek::studies {
namespace {

using tests::checked_design_text;
using tests::edited;
using tests::small_design_text;
using tests::valid_design;

design::ValidDesign checked(const std::vector<tests::Edit>& edits = {}) {
  return valid_design(edited(checked_design_text(), edits));
}

TEST(RoofSquares, AreNamedLikeAChessBoard) {
  EXPECT_EQ(square_name(0, 0), "A1");
  EXPECT_EQ(square_name(25, 8), "Z9");
  EXPECT_EQ(square_name(26, 0), "AA1");
  EXPECT_EQ(square_name(51, 11), "AZ12");
  EXPECT_EQ(square_name(52, 0), "BA1");
}

TEST(RoofSquares, CoverTheRoofAndAreNeverTooMany) {
  const report::SquareGrid small = make_square_grid(checked()->roof);
  EXPECT_EQ(small.side_m, 1.0);
  EXPECT_EQ(small.columns, 4);
  EXPECT_EQ(small.rows, 3);
  design::Roof school;
  school.outline = {{-3.0, 2.0}, {57.5, 2.0}, {57.5, 20.0}, {-3.0, 20.0}};
  const report::SquareGrid large = make_square_grid(school);
  EXPECT_EQ(large.side_m, 4.0);  // 60.5 m in sixteen
  EXPECT_EQ(large.columns, 16);
  EXPECT_EQ(large.rows, 5);
  EXPECT_EQ(large.left_m, -3.0);
  EXPECT_EQ(square_name_at(large, {-3.0, 2.0}), "A1");
  EXPECT_EQ(square_name_at(large, {57.5, 20.0}), "P5");
  EXPECT_EQ(square_name_at(large, {1.0, 6.0}), "B2");
}

TEST(DrainageAnswer, SaysWhatTheCheckFound) {
  const design::ValidDesign design = checked();
  const checks::DrainageCheck check = checks::check_drainage(design, {});
  const report::DrainageAnswer answer = answer_drainage(design);
  ASSERT_EQ(answer.cases.size(), check.cases.size());
  std::set<std::string> kinds;
  for (std::size_t i = 0; i < check.cases.size(); ++i) {
    kinds.insert(answer.cases[i].kind);
    EXPECT_EQ(answer.cases[i].statement, check.cases[i].statement);
    EXPECT_EQ(*answer.cases[i].max_depth_mm.value, check.cases[i].max_depth_mm.likely);
    EXPECT_EQ(answer.cases[i].water_kn.range->high, check.cases[i].water_kn.high);
    EXPECT_EQ(answer.cases[i].freeboard_mm.range->low, check.cases[i].freeboard_mm->low);
  }
  EXPECT_EQ(kinds, (std::set<std::string>{"capacity", "storm", "blocked", "blocked_in_rain", "hail"}));
  // Four modules over squares of 1 m from 0.5 to 2.55 and 0.4 to 2.45 m.
  EXPECT_EQ(answer.squares.size(), 9U);
  EXPECT_EQ(answer.squares_case, answer.cases[1].name);
  double deepest_mm = 0.0;
  double of_check_mm = 0.0;
  for (const report::WaterSquareAnswer& one : answer.squares) deepest_mm = std::max(deepest_mm, *one.depth_mm.value);
  for (const checks::SquareDepth& one : check.cases[1].squares) {
    of_check_mm = std::max(of_check_mm, one.depth_mm.likely);
  }
  EXPECT_EQ(deepest_mm, of_check_mm);
}

TEST(DrainageAnswer, WithoutATableOfRainThereIsACapacityAndNoStorm) {
  const report::DrainageAnswer answer = answer_drainage(valid_design(small_design_text()));
  EXPECT_EQ(answer.cases.front().kind, "capacity");
  EXPECT_EQ(answer.squares_case, answer.cases.front().name);
  for (const report::DrainageCaseAnswer& one : answer.cases) EXPECT_NE(one.kind, "storm");
  EXPECT_NE(answer.rain_note.find("no table"), std::string::npos);
}

TEST(DrainageAnswer, APuddleHigherThanTheSpacersAsksForHigherOnes) {
  const report::DrainageAnswer answer = answer_drainage(
      checked({{"height_mm = 20", "height_mm = 5"},
               {"[[roof.outlet]]",
                "[[roof.hollow]]\noutline = [[1, 1], [2, 1], [2, 2], [1, 2]]\ndepth_mm = 25\n[[roof.outlet]]"}}));
  ASSERT_EQ(answer.advice.size(), 1U);
  EXPECT_EQ(answer.advice[0].spacer_mm, 5.0);
  EXPECT_GT(answer.advice[0].needs_spacer_mm, 25.0);
  EXPECT_NE(answer.advice[0].statement.find("now 5 mm"), std::string::npos) << answer.advice[0].statement;
}

TEST(DrainageAnswer, WhereNoSpacerReachesItIsBetterLeftEmpty) {
  const report::DrainageAnswer answer = answer_drainage(
      checked({{"[[roof.outlet]]",
                "[[roof.hollow]]\noutline = [[1, 1], [2, 1], [2, 2], [1, 2]]\ndepth_mm = 140\n[[roof.outlet]]"}}));
  ASSERT_EQ(answer.advice.size(), 1U);
  EXPECT_TRUE(answer.advice[0].is_better_empty);
  EXPECT_NE(answer.advice[0].statement.find("leave it empty"), std::string::npos);
}

TEST(WindAnswer, TheWeakestIsTheLeastOfAllModules) {
  const design::ValidDesign design = checked();
  const checks::WindUplift check = checks::check_wind_uplift(design);
  const report::WindAnswer answer = answer_wind(design);
  double least = 1e9;
  for (const checks::ModuleWind& one : check.modules) least = std::min(least, one.gust_km_per_h.low);
  EXPECT_EQ(answer.not_shown_above_km_per_h.range->low, least);
  double of_squares = 1e9;
  for (const report::WindSquareAnswer& one : answer.squares) {
    of_squares = std::min(of_squares, one.not_shown_above_km_per_h.range->low);
  }
  EXPECT_EQ(of_squares, least);
  EXPECT_EQ(answer.squares.size(), 9U);
  ASSERT_EQ(answer.patches.size(), 1U);
  EXPECT_EQ(answer.patches[0].not_shown_above_km_per_h.range->low, least);
  EXPECT_TRUE(answer.patches[0].ballast_kg_per_m2.value);
}

TEST(WindAnswer, WithoutAPlaceOrModulesItSaysWhy) {
  const report::WindAnswer unknown = answer_wind(valid_design(small_design_text()));
  EXPECT_FALSE(unknown.gust_of_place_km_per_h.value);
  EXPECT_FALSE(unknown.gust_of_place_km_per_h.because.empty());
  EXPECT_FALSE(unknown.patches[0].ballast_kg_per_m2.value);
  EXPECT_FALSE(unknown.taken_severest.empty());
  const report::WindAnswer empty = answer_wind(checked({{R"([[patch]]
recipe = "thin stonecrop"
columns = 2
rows = 2
origin = [0.5, 0.4]
spacing_mm = 50
)",
                                                         ""}}));
  EXPECT_FALSE(empty.not_shown_above_km_per_h.value);
  EXPECT_EQ(empty.not_shown_above_km_per_h.because, "no modules are laid yet");
  EXPECT_TRUE(empty.squares.empty());
}

TEST(FireAnswer, CountsWhatReachesIntoAStrip) {
  EXPECT_EQ(answer_fire(checked()).strips[0].n_reached_into, 0);
  const report::FireAnswer wide = answer_fire(checked({{"edge_mm = 0", "edge_mm = 450"}}));
  EXPECT_EQ(wide.strips[0].beside, "the edge of the roof");
  EXPECT_EQ(wide.strips[0].n_reached_into, 2);  // the lower row begins at 0.4 m
  EXPECT_NEAR(*wide.strips[0].nearest_mm.value, 400.0, 1e-6);
}

TEST(LoadAnswer, CasesTakeTheWaterBehindBlockedOutlets) {
  const design::ValidDesign design = checked();
  const report::DrainageAnswer drainage = answer_drainage(design);
  const report::LoadAnswer load = answer_load(design, drainage);
  const auto blocked = std::find_if(load.cases.begin(), load.cases.end(),
                                    [](const report::LoadCaseAnswer& one) { return one.name == "blocked outlet"; });
  ASSERT_NE(blocked, load.cases.end());
  const auto pool = std::find_if(drainage.cases.begin(), drainage.cases.end(),
                                 [](const report::DrainageCaseAnswer& one) { return one.kind == "blocked"; });
  EXPECT_NEAR(*blocked->added_kn_per_m2.value, *pool->water_kn.value / 12.0, 1e-12);
  // What the design says of the pool comes first: 50 mm of 9.81 kN/m3.
  const design::ValidDesign said = checked({{"hail_mm = 20", "hail_mm = 20\nblocked_outlet_mm = 50"}});
  const report::LoadAnswer of_design = answer_load(said, answer_drainage(said));
  for (const report::LoadCaseAnswer& one : of_design.cases) {
    if (one.name == "blocked outlet") {
      EXPECT_NEAR(*one.added_kn_per_m2.value, 0.05 * 9.81, 1e-12);
    }
  }
}

TEST(LoadAnswer, JoistsSagAndOthersSayThatTheyHaveNone) {
  const report::LoadAnswer slab = answer_load(checked(), answer_drainage(checked()));
  EXPECT_FALSE(slab.sag.first_mm.value);
  const design::ValidDesign timber = checked({{"kind = \"one_way_slab\"", "kind = \"joists\""},
                                              {"[roof.bearing]",
                                               "[roof.structure.joist]\nspacing_mm = 500\nfirst_at_m = 0.25\n"
                                               "width_mm = 80\nheight_mm = 220\nmodulus_n_per_mm2 = 11000\n"
                                               "[roof.bearing]"}});
  const report::LoadAnswer joists = answer_load(timber, answer_drainage(timber));
  ASSERT_TRUE(joists.sag.first_mm.value);
  EXPECT_GT(*joists.sag.final_mm.value, *joists.sag.first_mm.value);
  EXPECT_GT(*joists.sag.with_water_mm.value, *joists.sag.final_mm.value);
}

TEST(RoofChecks, WhatTheyAssumeIsListed) {
  std::set<std::string> paths;
  for (const design::Assumption& one : assumed_roof_checks(checked())) paths.insert(one.path);
  for (const char* path : {"drainage.level_error_mm", "drainage.roughness_gap", "drainage.evaporation_mm_per_day",
                           "wind.pressure_below_frac", "fire.plant_dry_matter_frac"}) {
    EXPECT_TRUE(paths.contains(path)) << path;
  }
  std::set<std::string> flat;
  for (const design::Assumption& one : assumed_roof_checks(checked({{"placed = \"raised\"", "placed = \"flat\""}}))) {
    flat.insert(one.path);
  }
  EXPECT_FALSE(flat.contains("wind.pressure_below_frac"));
}

}  // namespace
}  // namespace houseleek::studies
