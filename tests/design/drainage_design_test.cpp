// Levels, overflows, low edges, slats and hard rain as a design says them: where they land, and what is refused.
#include <gtest/gtest.h>

#include "small_design.hpp"

namespace houseleek::design {
namespace {

using tests::shipped_catalogue;
using tests::shown;
using tests::small_with;
using tests::source_file_text;
using tests::spelled_out_design_text;

ValidDesign valid(const std::string& text) {
  Result<ValidDesign> read = read_design(text, "roof.toml", shipped_catalogue());
  if (!read) throw std::runtime_error(text_from_issues(read.error(), text));
  return std::move(read).value();
}

TEST(DrainageDesign, EverythingLandsWhereItBelongs) {
  const ValidDesign design = valid(source_file_text("schema/valid/everything.toml"));
  const Outlet& outlet = design->roof.outlets.at(0);
  EXPECT_FALSE(outlet.has_grate);
  EXPECT_EQ(outlet.pipe_diameter_mm, 80.0);
  EXPECT_EQ(outlet.rim_mm, 3.0);
  const Drainage& drainage = design->drainage;
  EXPECT_EQ(drainage.level_error_mm, 4.0);
  EXPECT_EQ(drainage.months_since_cleaning, 18.0);
  EXPECT_EQ(drainage.silt_mm_per_year, 1.5);
  EXPECT_FALSE(drainage.fall_to_outlets_mm_per_m);
  EXPECT_EQ(drainage.levels, (std::vector<SpotLevel>{{{5, 2}, -1210}}));
  EXPECT_EQ(drainage.overflows, (std::vector<Overflow>{{"spout", {10, 1}, 150, 60, 100.0}}));
  EXPECT_EQ(drainage.edges, (std::vector<EdgeHeight>{{{6, 5}, {10, 5}, 90}}));
  EXPECT_EQ(design->design_rain.source, "invented");
  EXPECT_EQ(design->design_rain.intensities, (std::vector<RainIntensity>{{5, 10, 84}}));
  const Spacer& spacer = design->recipes.at(0).spacer;
  EXPECT_EQ(spacer.slat_height_mm, 12.0);
  EXPECT_EQ(spacer.slats_along, SlatsAlong::width);
}

TEST(DrainageDesign, NothingSaidIsNothingKnown) {
  const ValidDesign design = valid(spelled_out_design_text());
  EXPECT_EQ(design->drainage, Drainage{});
  EXPECT_EQ(design->design_rain, DesignRain{});
  EXPECT_TRUE(design->roof.outlets.at(0).has_grate);
  EXPECT_FALSE(design->roof.outlets.at(0).pipe_diameter_mm);
  EXPECT_EQ(design->recipes.at(0).spacer.slat_height_mm, 0.0);
}

TEST(DrainageDesign, RowsOfRainAreSorted) {
  const std::string text = spelled_out_design_text() +
                           "[design_rain]\nsource = \"s\"\n"
                           "[[design_rain.intensity]]\nreturn_years = 10\nduration_min = 5\nintensity_mm_per_h = 120\n"
                           "[[design_rain.intensity]]\nreturn_years = 2\nduration_min = 30\nintensity_mm_per_h = 40\n"
                           "[[design_rain.intensity]]\nreturn_years = 2\nduration_min = 5\nintensity_mm_per_h = 90\n";
  EXPECT_EQ(valid(text)->design_rain.intensities, (std::vector<RainIntensity>{{2, 5, 90}, {2, 30, 40}, {10, 5, 120}}));
}

std::string first_line(const std::string& text) { return text.substr(0, text.find('\n')); }

TEST(DrainageDesign, EachMistakeIsSaidInItsPlace) {
  struct Case {
    std::string lines;
    std::string message;
  };
  const Case cases[] = {
      {"[[drainage.level]]\nat = [7, 1]\nlevel_mm = 3\n",
       "roof.toml:58:6: error: drainage.level[0].at lies outside the roof"},
      {"[[drainage.overflow]]\nat = [6, 1]\nwidth_mm = 100\n",
       "roof.toml:57:1: error: drainage.overflow[0].sill_mm is missing"},
      {"[[drainage.edge]]\nfrom = [0, 0]\nto = [6, 4]\nheight_mm = 20\n",
       "roof.toml:58:8: error: drainage.edge[0] does not run along one side of the roof"},
      {"[drainage]\nlevel_error_mm = 40\n",
       "roof.toml:58:18: error: drainage.level_error_mm is 40; it must be from 0 to 30 mm"},
      {"[design_rain]\nsource = \"s\"\n", "roof.toml:57:1: error: design_rain says not how hard it rains"},
      {"[design_rain]\nsource = \"s\"\n[[design_rain.intensity]]\nreturn_years = 5\nduration_min = 5\n"
       "intensity_mm_per_h = 90\n[[design_rain.intensity]]\nreturn_years = 5\nduration_min = 10\n"
       "intensity_mm_per_h = 40\n",
       "roof.toml:59:1: error: design_rain.intensity: 40 mm/h over 10 min once in 5 years brings less than the shorter "
       "rain"},
      {"[design_rain]\nsource = \"s\"\n[[design_rain.intensity]]\nreturn_years = 5\nduration_min = 5\n"
       "intensity_mm_per_h = 90\n[[design_rain.intensity]]\nreturn_years = 20\nduration_min = 5\n"
       "intensity_mm_per_h = 80\n",
       "roof.toml:59:1: error: design_rain.intensity: 80 mm/h over 5 min once in 20 years is thinner than the more "
       "frequent rain"},
  };
  for (const Case& one : cases) EXPECT_EQ(first_line(shown(spelled_out_design_text() + one.lines)), one.message);
  EXPECT_EQ(first_line(shown(small_with("spacer = { height_mm = 20 }",
                                        "spacer = { height_mm = 20, slat_height_mm = 24, slats_along = \"width\" }"))),
            "roof.toml:39:45: error: recipe[0].spacer.slat_height_mm is 24; the spacers are 20 mm high in all");
}

}  // namespace
}  // namespace houseleek::design
