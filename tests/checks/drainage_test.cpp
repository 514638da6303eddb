// Rain on a design's roof: capacity, storms, blocked outlets, low edges, hollows, canes; what is said, and what never is.
#include "checks/drainage.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "checks/drainage_answers.hpp"
#include "support/example_house.hpp"
#include "support/small_design.hpp"

namespace houseleek::checks {
namespace {

using tests::edited;
using tests::expect_ordered;
using tests::find_case;
using tests::rain_table;
using tests::small_design_text;
using tests::valid_design;
using tests::with_text;

DrainageOptions coarse() {
  DrainageOptions options;
  options.levels.square_m = 0.5;
  return options;
}

/// The small house with a fall of 12 mm/m towards its outlet's side, and a parapet of 100 mm.
std::string small_house(const std::string& roof_lines = "", const std::string& tables = "") {
  return edited(small_design_text(),
                {{"finish = { albedo = 0.2, emissivity = 0.9 }\n",
                  "finish = { albedo = 0.2, emissivity = 0.9 }\nfall_mm_per_m = 12\nfall_towards_deg = 0\n"
                  "parapet_height_mm = 100\n" +
                      roof_lines}}) +
         tables;
}

TEST(Drainage, WithoutATableThereIsACapacityAndNoStorm) {
  const DrainageCheck check = check_drainage(valid_design(small_house()), coarse());
  const DrainageCase* capacity = find_case(check, DrainageKind::capacity);
  ASSERT_NE(capacity, nullptr);
  EXPECT_EQ(find_case(check, DrainageKind::storm), nullptr);
  EXPECT_EQ(find_case(check, DrainageKind::blocked_in_rain), nullptr);
  EXPECT_EQ(capacity->statement.rfind("Takes up to ", 0), 0U) << capacity->statement;
  EXPECT_NE(check.rain_note.find("no table of rain intensities"), std::string::npos);
  expect_ordered(*capacity->rain_mm_per_h, "rain");
  EXPECT_GT(capacity->rain_mm_per_h->low, 0.0);
  // At the capacity the least room is gone.
  EXPECT_NEAR(capacity->freeboard_mm->likely, 0.0, 0.5);
}

TEST(Drainage, CapacityGrowsWithTheOutletAndTheSpacer) {
  const auto capacity_of = [](const std::string& text) {
    return find_case(check_drainage(valid_design(text), coarse()), DrainageKind::capacity)->rain_mm_per_h->likely;
  };
  const double base = capacity_of(small_house());
  EXPECT_GT(capacity_of(with_text(small_house(), "diameter_mm = 80\n", "diameter_mm = 110\n")), base);
  EXPECT_LT(capacity_of(with_text(small_house(), "diameter_mm = 80\n", "diameter_mm = 50\n")), base);
  EXPECT_GT(capacity_of(with_text(small_house(), "diameter_mm = 80\n", "diameter_mm = 80\nhas_grate = false\n")), base);
  EXPECT_LT(capacity_of(with_text(small_house(), "diameter_mm = 80\n", "diameter_mm = 80\nrim_mm = 10\n")), base);
  EXPECT_GT(capacity_of(with_text(small_house(), "height_mm = 20\nedges", "height_mm = 35\nedges")), base);
  // A pipe of 40 mm takes less than the outlet above it.
  EXPECT_LT(capacity_of(with_text(small_house(), "diameter_mm = 80\n", "diameter_mm = 80\npipe_diameter_mm = 30\n")),
            base);
}

TEST(Drainage, SiltTakesFromTheGap) {
  const auto freeboard_of = [](const std::string& months) {
    const std::string text =
        small_house("", rain_table + ("\n[drainage]\nsilt_mm_per_year = 4\nmonths_since_cleaning = " + months + "\n"));
    return find_case(check_drainage(valid_design(text), coarse()), DrainageKind::storm)->freeboard_mm->likely;
  };
  const double clean_mm = freeboard_of("0");
  EXPECT_LE(freeboard_of("24"), clean_mm - 8.0 + 1e-9);
  EXPECT_EQ(silt_mm(*valid_design(small_house("", "\n[drainage]\nsilt_mm_per_year = 4\nmonths_since_cleaning = 24\n"))),
            (results::Interval{8, 8, 8}));
  const results::Interval assumed = silt_mm(*valid_design(small_house()));
  EXPECT_EQ(assumed.low, 0.0);
  EXPECT_EQ(assumed.likely, 2.0);
  EXPECT_EQ(assumed.high, 18.0);
}

TEST(Drainage, RecipesThatStillTakeSomeKeepTheWaterLower) {
  const design::ValidDesign design = valid_design(small_house("", rain_table));
  DrainageOptions options = coarse();
  const DrainageCheck wet = check_drainage(design, options);
  options.still_takes_mm = {{6.0, 8.0, 12.0}};
  const DrainageCheck dry = check_drainage(design, options);
  const DrainageCase* soaked = find_case(wet, DrainageKind::storm);
  const DrainageCase* thirsty = find_case(dry, DrainageKind::storm);
  EXPECT_LT(thirsty->max_depth_mm.likely, soaked->max_depth_mm.likely);
  EXPECT_LT(thirsty->max_depth_mm.high, soaked->max_depth_mm.high);
}

TEST(Drainage, BlockedOutletsPoolUpToTheLowestLip) {
  const auto pool_of = [](const std::string& text) {
    return *find_case(check_drainage(valid_design(text), coarse()), DrainageKind::blocked);
  };
  // Parapet of 100 mm above the deck beside it: at the foot of the fall, over the lowest row of squares.
  const DrainageCase high = pool_of(small_house());
  EXPECT_NEAR(high.max_depth_mm.likely, 100.0, 1e-6);
  // Mean depth over 12 m2: the lip lies 100 mm over the lowest row, 33.6 mm of fall less on the highest of 9 rows...
  EXPECT_GT(high.water_kn.likely, 9.80665 * 12.0 * 0.06);
  EXPECT_LT(high.water_kn.likely, 9.80665 * 12.0 * 0.10);
  EXPECT_NEAR(high.heaviest_kn_per_m2.likely, 0.980665, 0.05);
  EXPECT_NE(high.statement.find("Dry modules float there."), std::string::npos) << high.statement;
  // A stretch of 40 mm at the foot; or an overflow whose sill is lower still.
  const DrainageCase low =
      pool_of(small_house("", "\n[[drainage.edge]]\nfrom = [0, 3]\nto = [1, 3]\nheight_mm = 40\n"));
  EXPECT_NEAR(low.max_depth_mm.likely, 40.0, 1e-6);
  const DrainageCase spout = pool_of(small_house(
      "",
      "\n[[drainage.edge]]\nfrom = [0, 3]\nto = [1, 3]\nheight_mm = 40\n[[drainage.overflow]]\nat = [3, 3]\n"
      "width_mm = 100\nsill_mm = 25\n"));
  EXPECT_NEAR(spout.max_depth_mm.likely, 25.0, 1e-6);
  EXPECT_EQ(spout.statement.find("float"), std::string::npos) << spout.statement;
}

TEST(Drainage, ADryModuleIsShownToFloatWhereThePoolRisesPastIt) {
  // By hand: crushed brick, wool, cloth, plants and spacers of the small house weigh 52.625 kg dry on one square metre,
  // which is what 52.625 mm of water weigh (Archimedes); the spacers lift it by 20 mm.
  constexpr double floats_at_mm = 20.0 + 52.625;
  int n_floating_before = 0;
  int n_seen_below = 0;
  int n_seen_above = 0;
  for (int sill_mm = 10; sill_mm <= 100; sill_mm += 5) {
    const std::string overflow =
        "\n[[drainage.overflow]]\nat = [3, 3]\nwidth_mm = 100\nsill_mm = " + std::to_string(sill_mm) + "\n";
    const DrainageCheck check = check_drainage(valid_design(small_house("", overflow)), coarse());
    const DrainageCase* pool = find_case(check, DrainageKind::blocked);
    ASSERT_FALSE(pool->squares.empty());
    int n_floating = 0;
    for (const SquareDepth& square : pool->squares) {
      const double depth_mm = square.above_deck_mm.likely;
      n_seen_below += depth_mm < floats_at_mm ? 1 : 0;
      n_seen_above += depth_mm > floats_at_mm ? 1 : 0;
      if (square.buoyancy == Buoyancy::floats) {
        EXPECT_GT(depth_mm, floats_at_mm) << sill_mm;
        ++n_floating;
      } else {
        EXPECT_LE(depth_mm, floats_at_mm) << sill_mm;
      }
      if (square.buoyancy == Buoyancy::stays) {
        EXPECT_LT(square.above_deck_mm.high, floats_at_mm) << sill_mm;
      }
    }
    EXPECT_EQ(pool->statement.find("Dry modules float there.") != std::string::npos, n_floating > 0) << sill_mm;
    EXPECT_GE(n_floating, n_floating_before) << "a higher pool lifts no fewer";
    n_floating_before = n_floating;
  }
  EXPECT_GT(n_seen_below, 0);
  EXPECT_GT(n_seen_above, 0);
  EXPECT_GT(n_floating_before, 0);
}

TEST(Drainage, RainOnBlockedOutletsStandsHigherThanTheLip) {
  const std::string low = "\n[[drainage.overflow]]\nat = [3, 3]\nwidth_mm = 100\nsill_mm = 25\n";
  const DrainageCheck check = check_drainage(valid_design(small_house("", low + rain_table)), coarse());
  const DrainageCase* still = find_case(check, DrainageKind::blocked);
  const DrainageCase* rained = find_case(check, DrainageKind::blocked_in_rain);
  ASSERT_NE(rained, nullptr);
  // 12 m2 under the critical storm through 100 mm: head (24000 Q/100)^(2/3).
  const double flow_l_per_s = rained->rain_mm_per_h->likely / 3600.0 * 12.0;
  const double head_mm = std::pow(24000.0 * flow_l_per_s / 100.0, 2.0 / 3.0);
  EXPECT_NEAR(rained->max_depth_mm.likely - still->max_depth_mm.likely, head_mm, 0.3);
  EXPECT_GT(rained->water_kn.likely, still->water_kn.likely);
}

TEST(Drainage, DeepPoolsBehindBlockedOutletsComeToRest) {
  // Levels of a deep pool are never quieter than their last bits; water stands just above the parapet all round.
  for (const int parapet_mm : {20, 150, 250, 400, 1000}) {
    const std::string parapet = "parapet_height_mm = " + std::to_string(parapet_mm) + "\n";
    const std::string text = with_text(small_house("", rain_table), "parapet_height_mm = 100\n", parapet);
    const DrainageCheck check = check_drainage(valid_design(text), {});
    const DrainageCase* still = find_case(check, DrainageKind::blocked);
    const DrainageCase* rained = find_case(check, DrainageKind::blocked_in_rain);
    ASSERT_NE(rained, nullptr) << parapet_mm;
    EXPECT_GE(rained->max_depth_mm.likely, still->max_depth_mm.likely) << parapet_mm;
    EXPECT_LT(rained->max_depth_mm.likely - still->max_depth_mm.likely, 5.0) << parapet_mm;
  }
}

TEST(Drainage, HailWeighsOnTheBlockedRoof) {
  const std::string text = small_house("", "\n[roof.actions]\nhail_mm = 40\n");
  const DrainageCheck check = check_drainage(valid_design(text), coarse());
  const DrainageCase* hail = find_case(check, DrainageKind::hail);
  const DrainageCase* still = find_case(check, DrainageKind::blocked);
  ASSERT_NE(hail, nullptr);
  // 40 mm of grains at 400 to 700 kg/m3 on 12 m2.
  EXPECT_NEAR(hail->water_kn.likely - still->water_kn.likely, 12.0 * 0.040 * 550.0 * 9.80665e-3, 1e-9);
  EXPECT_NEAR(hail->heaviest_kn_per_m2.high - still->heaviest_kn_per_m2.high, 0.040 * 700.0 * 9.80665e-3, 1e-9);
}

TEST(Drainage, CanesAcrossTheFallRaiseTheWater) {
  // Modules are square and the fall runs along y: canes along the length lie across it.
  // The outlet is wide enough not to back up to them, and the modules touch from wall to wall: water cannot run
  // round them.
  const auto depth_of = [](const std::string& lines) {
    const std::string text = with_text(
        with_text(small_house("", rain_table), "diameter_mm = 80\n", "diameter_mm = 200\nhas_grate = false\n"),
        "height_mm = 20\nedges", "height_mm = 20\n" + lines + "edges");
    const DrainageCheck check =
        check_drainage(valid_design(with_text(text, "columns = 2\nrows = 2\norigin = [0.5, 0.4]\nspacing_mm = 50",
                                              "columns = 4\nrows = 2\norigin = [0, 0.4]\nspacing_mm = 0")),
                       coarse());
    const DrainageCase* storm = find_case(check, DrainageKind::storm);
    double deepest_mm = 0.0;
    for (const SquareDepth& square : storm->squares) deepest_mm = std::max(deepest_mm, square.depth_mm.likely);
    return deepest_mm;
  };
  const double feet_mm = depth_of("");
  const double along_mm = depth_of("slat_height_mm = 12\nslats_along = \"width\"\n");
  const double across_mm = depth_of("slat_height_mm = 12\nslats_along = \"length\"\n");
  EXPECT_GT(across_mm, feet_mm + 3.0);
  EXPECT_LT(along_mm, across_mm - 3.0);
}

TEST(Drainage, TurnedModulesTurnTheirCanes) {
  const std::string text = with_text(small_house(), "height_mm = 20\nedges",
                                     "height_mm = 20\nslat_height_mm = 12\nslats_along = \"length\"\nedges");
  const plan::LevelOptions options{.square_m = 0.25, .most_squares = 120, .unevenness = plan::Unevenness::likely};
  const auto dams_of = [&](const std::string& design) {
    const DrainageDeck deck = make_drainage_deck(valid_design(design), options, DrainageEnd::likely);
    for (std::size_t k = 0; k < deck.modules.size(); ++k) {
      if (deck.modules[k].recipe >= 0) return std::pair(deck.squares.cover[k].dam_x_m, deck.squares.cover[k].dam_y_m);
    }
    return std::pair(-1.0, -1.0);
  };
  EXPECT_EQ(dams_of(text), std::pair(0.0, 0.012));
  EXPECT_EQ(dams_of(with_text(text, "spacing_mm = 50\n", "spacing_mm = 50\nturned = true\n")), std::pair(0.012, 0.0));
}

TEST(Drainage, MaximaGiveAStormWithItsRange) {
  const std::string maxima =
      "\n[design_rain]\nsource = \"invented\"\n[design_rain.annual_maxima]\nduration_min = 15\nreturn_years = 10\n"
      "depths_mm = [15.1, 18.2, 9.6, 22.4, 12.8, 30.5, 16.7, 14.3, 19.9, 25.2, 11.4, 13.6, 17.5, 21, 28.3, 10.7, 16, "
      "12.1, "
      "20.4, 23.6]\n";
  const DrainageCheck check = check_drainage(valid_design(small_house("", maxima)), coarse());
  const DrainageCase* storm = find_case(check, DrainageKind::storm);
  ASSERT_NE(storm, nullptr);
  EXPECT_NEAR(storm->rain_mm_per_h->likely, 4.0 * 25.729, 0.01);
  EXPECT_NEAR(storm->rain_mm_per_h->high, 4.0 * (25.729 + 4.71527), 0.01);
  EXPECT_EQ(storm->duration_min, 15.0);
  expect_ordered(storm->max_depth_mm, "depth");
  EXPECT_LT(storm->max_depth_mm.low, storm->max_depth_mm.high);
  EXPECT_NE(check.rain_note.find("20 years of 15-minute rain (invented)"), std::string::npos) << check.rain_note;
}

TEST(Drainage, AMirroredHouseHasTheSameAnswerToTheLastBit) {
  const auto house = [](const char* outlet, const char* origin, const char* hollow, const char* edge) {
    std::string text = small_house(std::string("[[roof.hollow]]\noutline = ") + hollow + "\ndepth_mm = 16\n",
                                   std::string("\n[[drainage.edge]]\n") + edge + "height_mm = 50\n" + rain_table);
    text = with_text(text, "at = [3.8, 2.8]", outlet);
    return valid_design(with_text(text, "origin = [0.5, 0.4]\nspacing_mm = 50", origin));
  };
  const DrainageCheck one =
      check_drainage(house("at = [3.75, 2.75]", "origin = [0.5, 0.5]\nspacing_mm = 62.5",
                           "[[1.5, 1.5], [3.25, 1.75], [2.25, 2.5]]", "from = [0, 3]\nto = [1, 3]\n"),
                     coarse());
  const DrainageCheck other =
      check_drainage(house("at = [0.25, 2.75]", "origin = [1.4375, 0.5]\nspacing_mm = 62.5",
                           "[[2.5, 1.5], [0.75, 1.75], [1.75, 2.5]]", "from = [4, 3]\nto = [3, 3]\n"),
                     coarse());
  ASSERT_EQ(one.cases.size(), other.cases.size());
  EXPECT_EQ(one.standing_mm, other.standing_mm);
  for (std::size_t k = 0; k < one.cases.size(); ++k) {
    EXPECT_EQ(one.cases[k].max_depth_mm, other.cases[k].max_depth_mm) << one.cases[k].name;
    EXPECT_EQ(one.cases[k].rain_mm_per_h, other.cases[k].rain_mm_per_h) << one.cases[k].name;
    EXPECT_EQ(one.cases[k].freeboard_mm->likely, other.cases[k].freeboard_mm->likely) << one.cases[k].name;
    EXPECT_EQ(one.cases[k].minutes_to_drain, other.cases[k].minutes_to_drain) << one.cases[k].name;
    EXPECT_EQ(one.cases[k].statement, other.cases[k].statement);
  }
}

TEST(Drainage, ARoofWithoutOutletsSaysSoUnlessItHasEaves) {
  const std::string text = with_text(small_house(), "[[roof.outlet]]\nat = [3.8, 2.8]\ndiameter_mm = 80\n", "");
  const DrainageCheck check = check_drainage(valid_design(text), coarse());
  ASSERT_EQ(check.cases.size(), 1U);
  EXPECT_FALSE(check.cases[0].rain_mm_per_h);
  EXPECT_EQ(check.cases[0].statement.rfind("No outlet is described", 0), 0U);
  // An edge without an upstand at the foot of the fall is a gutter's place.
  const DrainageCheck eaves =
      check_drainage(valid_design(text + "\n[[drainage.edge]]\nfrom = [0, 3]\nto = [4, 3]\nheight_mm = 0\n"), coarse());
  EXPECT_GT(eaves.cases[0].rain_mm_per_h->likely, 50.0);
}

TEST(Drainage, DeckWalledInByObstaclesIsLeftOutAndCounted) {
  // Four walls round a yard of 0.5 m by 0.5 m, without an outlet.
  std::string walls;
  for (const char* outline : {"[[2.75, 0.5], [3.75, 0.5], [3.75, 0.75], [2.75, 0.75]]",
                              "[[2.75, 1.25], [3.75, 1.25], [3.75, 1.5], [2.75, 1.5]]",
                              "[[2.75, 0.75], [3.0, 0.75], [3.0, 1.25], [2.75, 1.25]]",
                              "[[3.5, 0.75], [3.75, 0.75], [3.75, 1.25], [3.5, 1.25]]"}) {
    walls += std::string("[[roof.obstacle]]\nname = \"wall\"\noutline = ") + outline + "\n";
  }
  DrainageOptions options = coarse();
  options.levels.square_m = 0.25;
  const DrainageCheck check = check_drainage(valid_design(small_house(walls)), options);
  EXPECT_NEAR(check.walled_in_m2, 0.25 + 0.5 * 8 * 0.0625, 1e-9);  // half of what the walls beside it shed
  EXPECT_GT(check.cases.front().rain_mm_per_h->likely, 0.0);
}

TEST(Drainage, AssumptionsAreListedUnlessSaid) {
  const auto paths = [](const std::string& text) {
    std::vector<std::string> found;
    for (const design::Assumption& row : assumed_drainage(valid_design(text))) {
      EXPECT_LE(row.low, row.likely);
      EXPECT_LE(row.likely, row.high);
      found.push_back(row.path);
    }
    return found;
  };
  const std::vector<std::string> bare = paths(small_design_text());
  EXPECT_EQ(bare.size(), 6U);
  const std::vector<std::string> said =
      paths(small_house("", "\n[drainage]\nlevel_error_mm = 3\nmonths_since_cleaning = 2\nsilt_mm_per_year = 1\n"));
  EXPECT_EQ(said, (std::vector<std::string>{"drainage.roughness_open", "drainage.roughness_gap"}));
}

}  // namespace
}  // namespace houseleek::checks
