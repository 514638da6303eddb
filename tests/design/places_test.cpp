// Modules placed one by one: read where they are said to lie, and every mistake found in one pass.
#include <gtest/gtest.h>

#include "design/small_design.hpp"
#include "support/catalogue_files.hpp"

namespace houseleek::tests {
namespace {

constexpr const char* block_text = "columns = 2\nrows = 3\norigin = [1.0, 0.5]\nspacing_mm = 50\n";

std::string placed_text(const std::string& where) {
  std::string text = spelled_out_design_text();
  const std::size_t found = text.find(block_text);
  if (found == std::string::npos) throw std::runtime_error("the small design has another patch");
  return text.replace(found, std::string(block_text).size(), where);
}

std::string issues_of(const std::string& text) {
  const auto read = design::read_design(text, "roof.toml", shipped_catalogue());
  std::string all;
  if (read) return all;
  for (const Issue& issue : read.error()) {
    all +=
        issue.path + " " + std::to_string(issue.line) + ":" + std::to_string(issue.column) + " " + issue.message + "\n";
  }
  return all;
}

TEST(Places, ModulesLieWhereTheyAreSaidTo) {
  const auto read = design::read_design(placed_text("at = [[1.0, 0.5], [3.2, 2.1], [4.5, 0.5]]\nturned = true\n"),
                                        "roof.toml", shipped_catalogue());
  ASSERT_TRUE(read);
  const design::Design& design = *read.value();
  ASSERT_EQ(design.modules.size(), 3U);
  EXPECT_EQ(design::module_count(design.patches.front()), 3U);
  const design::Recipe& recipe = design.recipes[static_cast<std::size_t>(design.patches.front().recipe)];
  EXPECT_EQ(design.modules[1].rectangle.left_m, 3.2);
  EXPECT_EQ(design.modules[1].rectangle.bottom_m, 2.1);
  EXPECT_NEAR(design.modules[1].rectangle.right_m, 3.2 + 0.001 * recipe.width_mm, 1e-12);
  EXPECT_NEAR(design.modules[1].rectangle.top_m, 2.1 + 0.001 * recipe.length_mm, 1e-12);
  EXPECT_EQ(design.modules[2].column, 2);
}

TEST(Places, ABlockAndTheSamePlacesAreTheSameModules) {
  const auto block = design::read_design(placed_text("columns = 2\nrows = 1\norigin = [1.0, 0.5]\n"), "roof.toml",
                                         shipped_catalogue());
  ASSERT_TRUE(block);
  const geometry::RectangleM& second = block.value()->modules[1].rectangle;
  const auto placed =
      design::read_design(placed_text("at = [[1.0, 0.5], [" + std::to_string(second.left_m) + ", 0.5]]\n"), "roof.toml",
                          shipped_catalogue());
  ASSERT_TRUE(placed);
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_EQ(placed.value()->modules[i].rectangle, block.value()->modules[i].rectangle);
  }
}

TEST(Places, EveryMistakeIsFoundInOnePassWithItsPlace) {
  const std::string twice = issues_of(placed_text("at = [[1.0, 0.5]]\ncolumns = 2\nspacing_mm = 50\n"));
  EXPECT_NE(twice.find("patch[0].columns"), std::string::npos) << twice;
  EXPECT_NE(twice.find("patch[0].spacing_mm"), std::string::npos) << twice;
  const std::string off = issues_of(placed_text("at = [[1.0, 0.5], [1.1, 0.6], [90, 0.5]]\n"));
  EXPECT_NE(off.find("patch[0].at[2]"), std::string::npos) << off;
  EXPECT_NE(off.find("1 of 3 modules reach outside the roof; the first is the one at number 3 of at"),
            std::string::npos)
      << off;
  EXPECT_NE(off.find("patch[0].at[1]"), std::string::npos) << off;
  EXPECT_NE(off.find("1 of 3 modules overlap modules of patch[0]; the first is the one at number 2 of at"),
            std::string::npos)
      << off;
  const std::string shapes = issues_of(placed_text("at = [[1.0, 0.5], [1.0], \"here\"]\n"));
  EXPECT_NE(shapes.find("patch[0].at[1]"), std::string::npos) << shapes;
  EXPECT_NE(shapes.find("patch[0].at[2]"), std::string::npos) << shapes;
  EXPECT_NE(issues_of(placed_text("at = []\n")).find("patch[0].at must be a list of points"), std::string::npos);
  // Neither: what a block needs is asked for.
  const std::string neither = issues_of(placed_text(""));
  EXPECT_NE(neither.find("patch[0].columns"), std::string::npos) << neither;
  EXPECT_NE(neither.find("patch[0].origin"), std::string::npos) << neither;
}

}  // namespace
}  // namespace houseleek::tests
