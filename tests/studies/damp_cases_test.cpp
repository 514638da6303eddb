// Damp: which roofs are run, how a case is judged, what is changed, mould on inner faces.
#include "studies/damp_cases.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "studies/damp_answer.hpp"
#include "studies/damp_surface.hpp"
#include "studies/weather.hpp"
#include "support/small_design.hpp"

namespace houseleek::studies {
namespace {

using tests::edited;
using tests::small_design_text;
using tests::valid_design;

constexpr int a_year = 8760;

/// Sixty months that swing between two values, with a rise a year.
std::vector<double> swinging(double low, double high, double rise_a_year) {
  std::vector<double> months;
  for (int month = 0; month < n_damp_months; ++month) {
    const double share = 0.5 + 0.5 * std::cos(2.0 * 3.14159265358979 * (month - 4) / 12.0);
    months.push_back(low + (high - low) * share + rise_a_year * month / 12.0);
  }
  return months;
}

TEST(JudgeDamp, TellsDryingFromRisingAndFromNeither) {
  const std::vector<double> level = swinging(1.0, 4.0, 0.0);
  EXPECT_EQ(judge_damp(level, swinging(0.5, 0.98, 0.0)), DampSays::dries_every_summer);
  EXPECT_EQ(judge_damp(level, swinging(0.81, 0.98, 0.0)), DampSays::not_shown_to_dry);
  EXPECT_EQ(judge_damp(swinging(1.0, 4.0, 0.05), swinging(0.5, 0.98, 0.0)), DampSays::wetter_each_winter)
      << "wetter each winter even where summers are dry";
  EXPECT_EQ(judge_damp(swinging(1.0, 4.0, 0.005), swinging(0.5, 0.98, 0.0)), DampSays::dries_every_summer);
  // One summer that does not dry is enough.
  std::vector<double> once = swinging(0.5, 0.98, 0.0);
  for (std::size_t month = 24; month < 36; ++month) once[month] = std::max(once[month], 0.85);
  EXPECT_EQ(judge_damp(level, once), DampSays::not_shown_to_dry);
}

std::string with_deck(const std::string& layers) {
  return edited(small_design_text(), {{"[[roof.deck]]\nmaterial = \"bitumen felt\"\nthickness_mm = 8\n[[roof.deck]]\n"
                                       "material = \"reinforced concrete\"\nthickness_mm = 120\n",
                                       layers}});
}

std::string layer(const std::string& material, double thickness_mm) {
  return "[[roof.deck]]\nmaterial = \"" + material + "\"\nthickness_mm = " + std::to_string(thickness_mm) + "\n";
}

TEST(DampAnswer, AConcreteRoofIsNotTroubledWithIt) {
  const design::ValidDesign design = valid_design(small_design_text());
  EXPECT_NE(no_damp_because(*design, a_year).find("no timber and no insulation"), std::string::npos);
  EXPECT_EQ(damp_runs_of(*design, 1, a_year), 0.0);
  const climate::WeatherYear weather = make_weather(design, std::nullopt).value();
  const report::DampAnswer answer = answer_damp({.design = design,
                                                 .layout = plan::make_layout(design),
                                                 .weather = weather,
                                                 .weather_of_draw = {},
                                                 .n_years = 1,
                                                 .options = {}},
                                                run_in_turn, {});
  EXPECT_FALSE(answer.is_run);
  EXPECT_EQ(answer.short_statement, "");
  EXPECT_EQ(answer.professional, "");
  EXPECT_EQ(answer.n_runs, 0);
  EXPECT_TRUE(answer.covers.empty());
  EXPECT_FALSE(answer.surface.statement.empty()) << "mould on inner faces is looked at everywhere";
}

TEST(DampAnswer, TimberOrInsulationIsEnoughToBeRun) {
  for (const std::string& deck :
       {layer("bitumen felt", 8) + layer("softwood", 24),
        layer("bitumen felt", 8) + layer("EPS board", 100) + layer("reinforced concrete", 120),
        layer("EPDM membrane", 1.2) + layer("wood fibre board", 60) + layer("plywood", 18)}) {
    EXPECT_EQ(no_damp_because(*valid_design(with_deck(deck)), a_year), "") << deck;
  }
}

TEST(DampAnswer, APartOfAYearIsNotEnough) {
  const design::ValidDesign design = valid_design(with_deck(layer("bitumen felt", 8) + layer("softwood", 24)));
  EXPECT_NE(no_damp_because(*design, a_year - 1).find("nothing is cleared"), std::string::npos);
}

// Of a material without figures nothing is made up; the professional stays.
TEST(DampAnswer, SaysWhatIsMissingAndClearsNothing) {
  const std::string deck = layer("bitumen felt", 8) + layer("softwood", 24) + layer("straw", 200);
  const design::ValidDesign design = valid_design(with_deck(deck));
  EXPECT_NE(no_damp_because(*design, a_year).find("how much water straw holds"), std::string::npos);
  const climate::WeatherYear weather = make_weather(design, std::nullopt).value();
  const report::DampAnswer answer = answer_damp({.design = design,
                                                 .layout = plan::make_layout(design),
                                                 .weather = weather,
                                                 .weather_of_draw = {},
                                                 .n_years = 1,
                                                 .options = {}},
                                                run_in_turn, {});
  EXPECT_FALSE(answer.is_run);
  EXPECT_NE(answer.short_statement.find("no all-clear"), std::string::npos);
  EXPECT_NE(answer.professional.find("building physicist"), std::string::npos);
}

TEST(DampChanges, FollowWhatTheDeckDescribes) {
  const std::string open =
      layer("bitumen felt", 8) + layer("OSB", 22) + layer("building mineral wool", 160) + layer("plasterboard", 12.5);
  const std::string tight = layer("bitumen felt", 8) + layer("OSB", 22) + layer("building mineral wool", 160) +
                            layer("PE vapour barrier", 0.5) + layer("plasterboard", 12.5);
  const std::string thin = layer("acrylic coating", 1) + layer("OSB", 22) + layer("building mineral wool", 160);
  const auto n_changes = [](const std::string& deck, std::size_t n_years) {
    return damp_changes(valid_design(with_deck(deck))->roof, n_years).size();
  };
  EXPECT_EQ(n_changes(open, 1), 11U);
  EXPECT_EQ(n_changes(tight, 1), 9U) << "the vapour control is described";
  EXPECT_EQ(n_changes(thin, 1), 13U) << "through a membrane that lets vapour out its range counts";
  EXPECT_EQ(n_changes(open, 9), 11U);
  EXPECT_EQ(n_changes(open, 10), 12U) << "five other years";
  EXPECT_EQ(first_damp_month(true), 10);
  EXPECT_EQ(first_damp_month(false), 4);
}

TEST(DampForms, AreOfTheRecipeThatIsLaid) {
  const std::vector<DampForm> forms = damp_forms(*valid_design(small_design_text()));
  ASSERT_EQ(forms.size(), 3U);
  EXPECT_EQ(forms[1].form, "flat");
  EXPECT_EQ(forms[2].form, "raised");
  EXPECT_EQ(forms[2].name, "thin stonecrop");
}

TEST(DampSurface, AsksMoreOfFacesInAColderWinterAndADamperRoom) {
  const auto surface_of = [](const std::string& text) {
    const design::ValidDesign design = valid_design(text);
    return answer_surface(*design, make_weather(design, std::nullopt).value());
  };
  const report::DampSurface mild = surface_of(small_design_text());
  const report::DampSurface cold = surface_of(edited(
      small_design_text(), {{"14, 13, 14, 18, 20", "-4, -4, -4, 18, 20"}, {"5, 4, 5, 9, 10", "-14, -14, -14, 9, 10"}}));
  EXPECT_GT(*cold.needed_factor.value, *mild.needed_factor.value);
  EXPECT_LT(cold.needed_factor.range->low, cold.needed_factor.range->high);
  EXPECT_NE(cold.statement.find("at risk"), std::string::npos) << "bare concrete in a hard winter";
  EXPECT_EQ(mild.month, 5) << "the invented climate's coldest month";
  const report::DampSurface insulated =
      surface_of(with_deck(layer("bitumen felt", 8) + layer("EPS board", 200) + layer("reinforced concrete", 120)));
  EXPECT_GT(*insulated.deck_factor.value, *mild.deck_factor.value + 0.3);
  for (const report::DampSurface* one : {&mild, &cold, &insulated}) {
    EXPECT_TRUE(one->statement.find("at risk") != std::string::npos ||
                one->statement.find("nothing is cleared") != std::string::npos)
        << one->statement;
  }
}

}  // namespace
}  // namespace houseleek::studies
