// Where plants come from, sun and spray of the roof, as read; wrong words with their line and column; lists as warnings.
#include <gtest/gtest.h>

#include "base/civil_time.hpp"
#include "design/parse.hpp"
#include "small_design.hpp"
#include "support/small_design.hpp"

namespace houseleek::design {
namespace {

using tests::shipped_catalogue;
using tests::spelled_out_design_text;

constexpr int first_line = 57;  // after the end of the small design
const std::string pot =
    "[[container]]\nname = \"pot\"\nmedium = \"crushed brick\"\nfill_mm = 300\nempty_kg = 3\nplant_kg = 2\n"
    "at = [0.5, 0.5]\ndiameter_mm = 200\n[container.plant]\n";

Result<ValidDesign> read_with(const std::string& lines) {
  return read_design(spelled_out_design_text() + lines, "roof.toml", shipped_catalogue());
}

TEST(PlantingDesign, WrongWordsHaveAPlace) {
  struct Wrong {
    std::string lines;
    int line;
    int column;
    std::string path;
    std::string message;
  };
  const Wrong all[] = {
      {"[planting]\nsun = \"some\"\n", first_line + 1, 7, "planting.sun", "\"some\""},
      {"[planting]\nsalt_spray = 3\n", first_line + 1, 14, "planting.salt_spray", "planting.salt_spray is 3"},
      {"[planting]\nshade = \"half\"\n", first_line + 1, 1, "planting.shade", "planting.shade"},
      {pot + "origin = \"new\"\n", first_line + 8, 1, "container[0].plant.name", "container[0].plant.name is missing"},
      {pot + "name = \"olif\"\n", first_line + 9, 8, "container[0].plant.name", "\"olif\""},
      {pot + "name = \"olive\"\norigin = \"gift\"\n", first_line + 10, 10, "container[0].plant.origin", "\"gift\""},
      {pot + "name = \"olive\"\nsince = \"last year\"\n", first_line + 10, 9, "container[0].plant.since",
       "container[0].plant.since is \"last year\"; it must be a date"},
      {pot + "name = \"olive\"\nage = 3\n", first_line + 10, 1, "container[0].plant.age", "container[0].plant.age"},
  };
  for (const Wrong& one : all) {
    const Result<ValidDesign> read = read_with(one.lines);
    ASSERT_FALSE(read) << one.lines;
    ASSERT_EQ(read.error().size(), 1U) << text_from_issues(read.error(), spelled_out_design_text() + one.lines);
    const Issue& issue = read.error().front();
    EXPECT_EQ(issue.line, one.line) << one.lines;
    EXPECT_EQ(issue.column, one.column) << one.lines;
    EXPECT_EQ(issue.path, one.path);
    EXPECT_NE(issue.message.find(one.message), std::string::npos) << issue.message;
  }
}

TEST(PlantingDesign, WhatIsSaidIsRead) {
  const Result<ValidDesign> read = read_with("[planting]\nsun = \"half\"\nsalt_spray = \"strong\"\n" + pot +
                                             "name = \"olive\"\norigin = \"already_here\"\nsince = 2024-03-01\n");
  ASSERT_TRUE(read) << text_from_issues(read.error(), "");
  const Design& design = *read.value();
  EXPECT_EQ(design.planting.sun, RoofSun::half);
  EXPECT_EQ(design.planting.salt_spray, SaltSpray::strong);
  ASSERT_TRUE(design.containers.front().plant.has_value());
  EXPECT_EQ(design.containers.front().plant->name, "Olea europaea");
  EXPECT_EQ(design.containers.front().plant->origin, PlantOrigin::already_here);
  EXPECT_EQ(text_from_day(*design.containers.front().plant->since), "2024-03-01");
  EXPECT_FALSE(read_with("").value()->planting.sun.has_value());
}

/// The small house of other tests in Spain, with one more plant.
Issues warnings_with(const std::string& plant) {
  std::string text = tests::edited(tests::small_design_text(),
                                   {{"surroundings = \"suburb\"\n", "surroundings = \"suburb\"\ncountry = \"ES\"\n"},
                                    {"[recipe.watering]\n", plant + "[recipe.watering]\n"}});
  const Result<ValidDesign> read = read_design(text, "roof.toml", shipped_catalogue());
  EXPECT_TRUE(read) << (read ? "" : text_from_issues(read.error(), text));
  Issues found;
  if (!read) return found;
  for (const Issue& issue : read.value().warnings()) {
    if (issue.message.find("Carpobrotus") != std::string::npos && issue.path.find(".name") != std::string::npos) {
      found.push_back(issue);
    }
  }
  return found;
}

TEST(PlantingDesign, ListsWarnAtThePlantsName) {
  const std::string fig = "[[recipe.plant]]\nname = \"Carpobrotus edulis\"\ncover_frac = 0.1\n";
  for (const char* origin : {"", "origin = \"new\"\n"}) {
    const Issues fresh = warnings_with(fig + origin);
    ASSERT_EQ(fresh.size(), 1U);
    EXPECT_EQ(fresh.front().severity, Severity::warning);
    EXPECT_EQ(fresh.front().path, "recipe[0].plant[1].name");
    EXPECT_GT(fresh.front().line, 1);
    EXPECT_EQ(fresh.front().column, 8);
    EXPECT_NE(fresh.front().message.find("refused in ES: Real Decreto 630/2013"), std::string::npos)
        << fresh.front().message;
    EXPECT_NE(fresh.front().message.find("as remembered"), std::string::npos);
    EXPECT_NE(fresh.front().hint.find("already_here"), std::string::npos);
  }
  EXPECT_TRUE(warnings_with(fig + "origin = \"already_here\"\n").empty());
  const Issues wild = warnings_with(fig + "origin = \"from_wild\"\n");
  ASSERT_EQ(wild.size(), 1U);
  EXPECT_NE(wild.front().message.find("taken from the wild; that is refused"), std::string::npos);
}

}  // namespace
}  // namespace houseleek::design
