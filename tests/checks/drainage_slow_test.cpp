// Rain on the terrace house: its hollow, its two outlets, one of them blocked; what is said, and what never is.
#include <gtest/gtest.h>

#include <algorithm>
#include <regex>
#include <string>

#include "checks/drainage.hpp"
#include "checks/drainage_answers.hpp"
#include "support/example_house.hpp"

namespace houseleek::checks {
namespace {

using tests::expect_ordered;
using tests::find_case;
using tests::rain_table;
using tests::read_valid;
using tests::terrace_house_text;
using tests::with_text;

DrainageOptions coarse() {
  DrainageOptions options;
  options.levels.most_squares = 120;
  return options;
}

// --- the terrace house: one hollow, two outlets, hatch and tank

TEST(DrainageOfTheTerraceHouse, WithOneOfTwoOutletsBlocked) {
  const DrainageCheck check = check_drainage(read_valid(terrace_house_text() + rain_table), coarse());
  ASSERT_EQ(check.outlet_catchments_m2.size(), 2U);
  EXPECT_NEAR(check.outlet_catchments_m2[0] + check.outlet_catchments_m2[1], 63.84, 1e-6);
  const DrainageCase* storm = find_case(check, DrainageKind::storm);
  ASSERT_NE(storm, nullptr);
  int n_blocked = 0;
  for (const DrainageCase& one : check.cases) {
    expect_ordered(one.max_depth_mm, one.name);
    expect_ordered(one.water_kn, one.name);
    if (one.kind != DrainageKind::one_blocked) continue;
    ++n_blocked;
    EXPECT_GT(one.max_depth_mm.likely, storm->max_depth_mm.likely) << one.name;
    EXPECT_LT(one.freeboard_mm->likely, storm->freeboard_mm->likely) << one.name;
    EXPECT_LT(one.max_depth_mm.likely, find_case(check, DrainageKind::blocked)->max_depth_mm.likely) << one.name;
  }
  EXPECT_EQ(n_blocked, 2);
  // The puddle is 18 mm, drawn with chalk; squares of more than half a metre blur it.
  EXPECT_GT(check.standing_mm.likely, 10.0);
  EXPECT_LE(check.standing_mm.likely, 18.0);
  EXPECT_NEAR(check.standing_mm.high - check.standing_mm.likely, check.standing_mm.likely - check.standing_mm.low,
              1e-9);
  expect_ordered(check.days_to_dry, "days");
  EXPECT_TRUE(check.advice.empty());  // its modules lie far up the fall
}

TEST(DrainageOfTheTerraceHouse, LowSquareByAnOutletNeedsAHigherSpacer) {
  // One more patch, raised by 30 mm, between the east outlet and the puddle's edge.
  const std::string text = terrace_house_text() + rain_table +
                           "\n[[patch]]\nrecipe = \"thin stonecrop\"\ncolumns = 1\nrows = 1\norigin = [6.8, 6.2]\n";
  const DrainageCheck check = check_drainage(read_valid(text), coarse());
  ASSERT_FALSE(check.advice.empty());
  for (const SquareAdvice& one : check.advice) {
    EXPECT_EQ(one.patch, 4);
    EXPECT_EQ(one.spacer_mm, 30.0);
    EXPECT_GT(one.needs_spacer_mm, 30.0);
    EXPECT_FALSE(one.is_better_empty);
  }
  DrainageOptions options = coarse();
  options.highest_spacer_mm = 25.0;
  for (const SquareAdvice& one : check_drainage(read_valid(text), options).advice) EXPECT_TRUE(one.is_better_empty);
}

TEST(DrainageOfTheTerraceHouse, AHollowAsDeepAsTheSpacersIsLeftOutOfTheCapacityAndNamed) {
  const std::string text = with_text(terrace_house_text(), "depth_mm = 18", "depth_mm = 60") +
                           "\n[[patch]]\nrecipe = \"thin stonecrop\"\ncolumns = 1\nrows = 1\norigin = [5.1, 5.8]\n";
  const DrainageCheck check = check_drainage(read_valid(text), coarse());
  const DrainageCase* capacity = find_case(check, DrainageKind::capacity);
  EXPECT_NE(capacity->statement.find("left out: a puddle"), std::string::npos) << capacity->statement;
  EXPECT_FALSE(check.advice.empty());
}

TEST(DrainageOfTheTerraceHouse, EdgesRunOnlyAlongTheRoof) {
  // No edge beside the hatch or the tank: what stands there sheds its rain onto the deck.
  const plan::LevelOptions options{.square_m = 0.25, .most_squares = 2000, .unevenness = plan::Unevenness::likely};
  const DrainageDeck deck = make_drainage_deck(read_valid(terrace_house_text()), options, DrainageEnd::likely);
  double length_m = 0.0;
  for (std::size_t e = deck.n_outlets + deck.n_overflows; e < deck.squares.exits.size(); ++e) {
    length_m += deck.squares.exits[e].opening->width_mm / 1000.0;
  }
  EXPECT_NEAR(length_m, 2.0 * (8.4 + 7.6), 1e-9);
  double area_m2 = 0.0;
  for (std::size_t k = 0; k < deck.levels.shed_m2.size(); ++k) {
    area_m2 += deck.levels.shed_m2[k] + deck.squares.deck.area_m2[k];
  }
  EXPECT_NEAR(area_m2, 63.84, 1e-9);
}

TEST(DrainageOfTheTerraceHouse, NoSentenceBlessesAnything) {
  const std::regex blessing("\\b(safe|safely|ok|okay|pass|passes|passed)\\b", std::regex::icase);
  const std::string text = terrace_house_text() + rain_table +
                           "\n[[patch]]\nrecipe = \"thin stonecrop\"\ncolumns = 1\nrows = 1\norigin = [6.8, 6.2]\n";
  for (const std::string& design : {text, terrace_house_text()}) {
    for (const DrainageCase& one : check_drainage(read_valid(design), coarse()).cases) {
      EXPECT_FALSE(one.statement.empty());
      EXPECT_FALSE(std::regex_search(one.statement, blessing)) << one.statement;
    }
  }
}

}  // namespace
}  // namespace houseleek::checks
