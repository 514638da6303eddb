// Assumptions at their ends: read through the one door, run where a run reads them, ranked by what they move.
#include "studies/one_at_a_time.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "base/contract.hpp"
#include "base/issue_text.hpp"
#include "report/study_text.hpp"
#include "studies/one_at_a_time_vary.hpp"
#include "studies/small_study.hpp"
#include "studies/tried_assumptions.hpp"
#include "support/catalogue_files.hpp"

namespace houseleek::studies {
namespace {

using tests::edited;
using tests::effect_on;
using tests::open_text;
using tests::raw_of;
using tests::shipped_catalogue;
using tests::small_design_text;
using tests::tried;

Result<design::ValidDesign> varied(const std::string& text, const std::vector<PlacedFigure>& figures) {
  return read_varied(raw_of(text), tests::valid_design(text), shipped_catalogue(), figures);
}

// ---- The door.

TEST(ReadVaried, IsTheDesignWithTheFigureWritten) {
  const std::string text = edited(small_design_text(), {{"infiltration_per_h = 0.5\n", ""},
                                                        {"gap_wind_frac = 0.1\n", ""},
                                                        {"vapour_resistance_s_per_m = 100\n", ""},
                                                        {"finish = { albedo = 0.2, emissivity = 0.9 }\n", ""}});
  const Result<design::ValidDesign> design = varied(text, {{"room[0].infiltration_per_h", 0.7},
                                                           {"recipe[0].spacer.gap_wind_frac", 0.3},
                                                           {"recipe[0].cover.vapour_resistance_s_per_m", 50.0},
                                                           {"recipe[0].canopy.leaf_area_index", 3.25},
                                                           {"site.wind_factor", 0.5},
                                                           {"roof.finish.albedo", 0.08},
                                                           {"material[crushed brick].density_kg_per_m3", 950.0}});
  ASSERT_TRUE(design) << text_from_issues(design.error(), text);
  EXPECT_EQ(design.value()->rooms[0].infiltration_per_h, 0.7);
  EXPECT_EQ(design.value()->recipes[0].spacer.gap_wind_frac, 0.3);
  EXPECT_EQ(design.value()->recipes[0].cover->vapour_resistance_s_per_m, 50.0);
  EXPECT_EQ(design.value()->recipes[0].canopy.leaf_area_index, 3.25);
  EXPECT_EQ(design.value()->site.wind_factor, 0.5);
  EXPECT_EQ(design.value()->roof.finish.albedo, 0.08);
  EXPECT_EQ(design.value()->recipes[0].layers[0].layer.material.density_kg_per_m3.likely, 950.0);
  // And everything else is as it was.
  design::Design same = *design.value();
  const design::ValidDesign before_read = tests::valid_design(text);
  const design::Design& before = *before_read;
  EXPECT_EQ(same.roof.finish.emissivity, before.roof.finish.emissivity);
  EXPECT_EQ(same.patches, before.patches);
  EXPECT_EQ(same.partitions, before.partitions);
  same.rooms[0].infiltration_per_h = before.rooms[0].infiltration_per_h;
  EXPECT_EQ(same.rooms, before.rooms);
}

TEST(ReadVaried, TheClassOfMassIsWrittenAsItsWord) {
  const std::string text = edited(small_design_text(), {{"thermal_mass = \"medium\"\n", ""}});
  const Result<design::ValidDesign> light = varied(text, {{"room[0].thermal_mass", 110.0}});
  ASSERT_TRUE(light);
  EXPECT_EQ(light.value()->rooms[0].thermal_mass, design::ThermalMass::light);
  EXPECT_THROW((void)varied(text, {{"room[0].thermal_mass", 111.0}}), ContractViolation);
}

TEST(ReadVaried, AFigureBeyondItsLimitsIsRefusedAsAnyOther) {
  const Result<design::ValidDesign> design = varied(small_design_text(), {{"site.wind_factor", 7.0}});
  ASSERT_FALSE(design);
  EXPECT_EQ(design.error().front().path, "site.wind_factor");
}

// ---- Effects.

const report::EffectFigure& figure_on(const report::AssumedEffect& effect, std::string_view on) {
  const auto found = std::find_if(effect.figures.begin(), effect.figures.end(),
                                  [on](const report::EffectFigure& figure) { return figure.on == on; });
  if (found == effect.figures.end()) throw std::runtime_error("no effect on " + std::string(on));
  return *found;
}

// One study for all of these, because the runs are their cost.
TEST(OneAtATime, EffectsOfTheSmallHouse) {
  const report::StudyAnswer answer = tried(open_text());
  ASSERT_EQ(answer.assumed_effects.size(), answer.assumed.size());

  // A paler roof takes in less heat, bare more so than planted.
  const report::AssumedEffect& albedo = effect_on(answer, "roof.finish.albedo");
  const report::EffectFigure& bare_gain = figure_on(albedo, "house.bare.heat_gain_summer_kwh");
  EXPECT_GT(*bare_gain.low_gives, bare_gain.likely_gives);
  EXPECT_LT(*bare_gain.high_gives, bare_gain.likely_gives);
  const report::EffectFigure& planted_gain = figure_on(albedo, "house.planted.heat_gain_summer_kwh");
  EXPECT_GT(*bare_gain.low_gives - *bare_gain.high_gives, *planted_gain.low_gives - *planted_gain.high_gives);

  // The gap's air changes nothing of the bare house.
  const report::AssumedEffect& gap = effect_on(answer, "recipe[0].spacer.gap_wind_frac");
  const report::EffectFigure& gap_bare = figure_on(gap, "house.bare.degree_hours_above_k_h");
  EXPECT_EQ(*gap_bare.low_gives, gap_bare.likely_gives);
  EXPECT_EQ(*gap_bare.high_gives, gap_bare.likely_gives);
  const report::EffectFigure& gap_planted = figure_on(gap, "house.planted.degree_hours_above_k_h");
  EXPECT_NE(*gap_planted.low_gives, *gap_planted.high_gives);

  // Differences are differences, and figures of every effect start from the same likely ones.
  for (const report::AssumedEffect& effect : answer.assumed_effects) {
    if (effect.figures.empty()) {
      EXPECT_FALSE(effect.none_because.empty());
      continue;
    }
    EXPECT_FALSE(effect.from.empty());
    const report::EffectFigure& less = figure_on(effect, "house.planted_minus_bare.degree_hours_above_k_h");
    const report::EffectFigure& planted = figure_on(effect, "house.planted.degree_hours_above_k_h");
    const report::EffectFigure& bare = figure_on(effect, "house.bare.degree_hours_above_k_h");
    EXPECT_EQ(less.likely_gives, planted.likely_gives - bare.likely_gives);
    EXPECT_EQ(bare.likely_gives, gap_bare.likely_gives);
    if (less.low_gives) {
      EXPECT_EQ(*less.low_gives, *planted.low_gives - *bare.low_gives);
    }
  }

  // What no run reads says so.
  EXPECT_NE(effect_on(answer, "room[0].heat_to_c").none_because.find("read anything else"), std::string::npos);
  EXPECT_NE(effect_on(answer, "prices[jute fabric]").none_because.find("draws of money"), std::string::npos);
  EXPECT_NE(effect_on(answer, "rivals.net.wind_below_frac").none_because.find("rivals alone"), std::string::npos);
  EXPECT_NE(effect_on(answer, "material[jute fabric].service_life_in_sun_years").none_because.find("draws of money"),
            std::string::npos);
  EXPECT_FALSE(effect_on(answer, "room[0].infiltration_per_h").figures.empty());
  EXPECT_FALSE(effect_on(answer, "material[reinforced concrete].conductivity_w_per_m_k").figures.empty());

  // What the door refuses at one end is said, and no figure is made up for it: fewer pores than water.
  bool has_refused = false;
  for (std::size_t i = 0; i < answer.assumed.size(); ++i) {
    const report::AssumedEffect& effect = answer.assumed_effects[i];
    for (const report::EffectFigure& figure : effect.figures) {
      if (figure.low_gives && figure.high_gives) continue;
      has_refused = true;
      EXPECT_NE(effect.from.find("the description would be refused"), std::string::npos) << answer.assumed[i].path;
    }
  }
  EXPECT_TRUE(has_refused);

  // The five that move the difference most, the first most of all; no other moves it more than the fifth.
  const std::vector<report::RankedAssumption>& most = answer.assumed_ranked.most;
  ASSERT_EQ(most.size(), most_ranked);
  const auto spread_of = [](const report::EffectFigure& figure) {
    const double low = figure.low_gives.value_or(figure.likely_gives);
    const double high = figure.high_gives.value_or(figure.likely_gives);
    return std::max({low, figure.likely_gives, high}) - std::min({low, figure.likely_gives, high});
  };
  for (std::size_t i = 1; i < most.size(); ++i) EXPECT_GE(spread_of(most[i - 1].effect), spread_of(most[i].effect));
  int n_above_fifth = 0;
  for (const report::AssumedEffect& effect : answer.assumed_effects) {
    if (!effect.figures.empty() && spread_of(effect.figures.front()) > spread_of(most.back().effect)) ++n_above_fifth;
  }
  EXPECT_LE(n_above_fifth, 4);
  EXPECT_GT(spread_of(most.front().effect), 0.0);

  // Named on the screen, below the 24 lines of the other answers.
  const std::string text = report::text_of_questions(answer);
  EXPECT_NE(text.find("Unsure of?   most hangs on "), std::string::npos) << text;
  EXPECT_LE(std::count(text.begin(), text.end(), '\n'), 24 + 1) << text;
}

TEST(OneAtATime, WithoutADescriptionNothingIsTriedAndItSaysSo) {
  const report::StudyAnswer answer = tests::study_of(small_design_text());
  EXPECT_TRUE(answer.assumed_ranked.most.empty());
  EXPECT_NE(answer.assumed_ranked.from.find("not tried"), std::string::npos);
  for (const report::AssumedEffect& effect : answer.assumed_effects) {
    EXPECT_TRUE(effect.figures.empty());
    EXPECT_NE(effect.none_because.find("not tried"), std::string::npos);
  }
}

}  // namespace
}  // namespace houseleek::studies
