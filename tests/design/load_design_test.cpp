// What carries the roof and what presses on it, as read: figures in place, and each wrong one with its line and column.
#include <gtest/gtest.h>

#include <numbers>

#include "design/parse.hpp"
#include "small_design.hpp"

namespace houseleek::design {
namespace {

using tests::shipped_catalogue;
using tests::spelled_out_design_text;

/// The small design with lines after its end; they begin at line 57.
Result<ValidDesign> read_with(const std::string& lines) {
  return read_design(spelled_out_design_text() + lines, "roof.toml", shipped_catalogue());
}

struct Wrong {
  std::string lines;
  int line;
  int column;
  std::string path;
  std::string message;
};

constexpr int first_line = 57;

TEST(LoadDesign, WrongFiguresHaveAPlace) {
  const std::string pot =
      "[[container]]\nname = \"pot\"\nmedium = \"crushed brick\"\nfill_mm = 300\nempty_kg = 3\nplant_kg = 2\n";
  const Wrong all[] = {
      {"[roof.structure]\nkind = \"one_way_slab\"\nspans_along = \"x\"\nsupports_at_m = [0, 6, 3]\n", first_line + 3,
       24, "roof.structure.supports_at_m[2]",
       "roof.structure.supports_at_m[2] makes a span of -3 m; spans are from 0.3 to 40 m"},
      {"[roof.structure]\nkind = \"boards\"\nspans_along = \"x\"\n", first_line + 2, 15, "roof.structure.spans_along",
       "roof.structure.spans_along belongs to kind = \"one_way_slab\" or \"joists\" only"},
      {"[roof.actions]\nperson_kn = 80\n", first_line + 1, 13, "roof.actions.person_kn",
       "roof.actions.person_kn is 80; it must be from 0.5 to 5 kN"},
      {"[roof.bearing]\nmembrane_kpa = 0\n", first_line + 1, 16, "roof.bearing.membrane_kpa",
       "roof.bearing.membrane_kpa is 0; it must be from 1 to 50000 kPa"},
      {"[wind]\nterrain = \"forest\"\n", first_line + 1, 11, "wind.terrain", ""},
      {pot + "at = [4.5, 0.2]\nlength_mm = 500\nwidth_mm = 500\n", first_line + 6, 6, "container[0].at",
       "container[0] reaches outside the roof"},
      {pot + "at = [1.5, 1]\ndiameter_mm = 300\n", first_line + 6, 6, "container[0].at",
       "container[0] overlaps modules of patch[0]"},
      {pot + "at = [0.5, 3.5]\ndiameter_mm = 300\n", first_line + 6, 6, "container[0].at",
       "container[0] stands on the obstacle \"chimney\""},
      {pot + "at = [5.8, 3.7]\ndiameter_mm = 300\n", first_line + 6, 6, "container[0].at",
       "container[0] stands on an outlet"},
  };
  for (const Wrong& one : all) {
    const Result<ValidDesign> read = read_with(one.lines);
    ASSERT_FALSE(read) << one.lines;
    ASSERT_EQ(read.error().size(), 1U) << text_from_issues(read.error(), spelled_out_design_text() + one.lines);
    const Issue& issue = read.error().front();
    EXPECT_EQ(issue.line, one.line) << one.lines;
    EXPECT_EQ(issue.column, one.column) << one.lines;
    EXPECT_EQ(issue.path, one.path);
    if (!one.message.empty()) {
      EXPECT_EQ(issue.message, one.message);
    }
  }
}

TEST(LoadDesign, ARoundContainerIsTheSquareOfTheSameArea) {
  const Result<ValidDesign> read = read_with(
      "[[container]]\nname = \"pot\"\nat = [5, 1]\ndiameter_mm = 600\nmedium = \"crushed brick\"\nfill_mm = "
      "300\nempty_kg = 3\nplant_kg = 2\n");
  ASSERT_TRUE(read);
  const Container& pot = read.value()->containers.at(0);
  const double side_m = pot.rectangle.right_m - pot.rectangle.left_m;
  EXPECT_NEAR(side_m * side_m, std::numbers::pi * 0.09, 1e-12);
  EXPECT_NEAR(0.5 * (pot.rectangle.left_m + pot.rectangle.right_m), 5.0, 1e-12);
}

TEST(LoadDesign, NothingSaidIsNothingAssumed) {
  const Result<ValidDesign> read = read_with("");
  ASSERT_TRUE(read);
  EXPECT_FALSE(read.value()->roof.structure);
  EXPECT_FALSE(read.value()->wind);
  EXPECT_TRUE(read.value()->containers.empty());
  EXPECT_EQ(read.value()->roof.bearing, Bearing{});
  EXPECT_EQ(read.value()->roof.actions, Actions{});
}

}  // namespace
}  // namespace houseleek::design
