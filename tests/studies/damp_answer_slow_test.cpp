// Damp in a timber deck through five years: what the garage example says, and which way an input moves it.
#include <gtest/gtest.h>

#include <cmath>
#include <regex>

#include "report/damp_json.hpp"
#include "studies/damp_answer.hpp"
#include "studies/damp_cases.hpp"
#include "studies/small_study.hpp"
#include "studies/weather.hpp"
#include "support/catalogue_files.hpp"
#include "support/small_design.hpp"

namespace houseleek::studies {
namespace {

using report::DampAnswer;
using report::DampCover;
using report::Figure;

DampAnswer damp_of(const std::string& text) {
  const design::ValidDesign design = tests::valid_design(text);
  const climate::WeatherYear weather = make_weather(design, std::nullopt).value();
  return answer_damp({.design = design,
                      .layout = plan::make_layout(design),
                      .weather = weather,
                      .weather_of_draw = [&design](int draw) { return make_weather(design, std::nullopt, draw); },
                      .n_years = 1,
                      .options = {}},
                     run_in_turn, {});
}

std::string garage_text() { return tests::source_file_text("examples/02-garage-studio/roof.toml"); }

const DampAnswer& garage() {
  static const DampAnswer answer = damp_of(garage_text());
  return answer;
}

void expect_within(const Figure& figure) {
  ASSERT_TRUE(figure.value && figure.range);
  EXPECT_LE(figure.range->low, *figure.value);
  EXPECT_LE(*figure.value, figure.range->high);
  EXPECT_FALSE(figure.range->from.empty());
}

TEST(DampOfTheGarage, IsToldBareFlatAndRaisedAndNeverClears) {
  const DampAnswer& answer = garage();
  ASSERT_TRUE(answer.is_run) << answer.because;
  ASSERT_EQ(answer.covers.size(), 3U);
  EXPECT_EQ(answer.covers[0].form, "bare");
  EXPECT_EQ(answer.covers[1].form, "flat");
  EXPECT_EQ(answer.covers[2].form, "raised");
  EXPECT_EQ(answer.room, "studio") << "the room under the modules";
  EXPECT_NE(answer.professional.find("building physicist"), std::string::npos);
  EXPECT_NE(answer.short_statement.find("no all-clear"), std::string::npos);
  EXPECT_EQ(answer.n_runs, 33) << "three covers, eleven cases";
  EXPECT_LT(answer.water_residual_kg_per_m2, 1e-9);
  EXPECT_LT(answer.heat_residual_frac, 1e-9);
  const std::regex promise(R"(\b(safe|safely|ok|okay|pass|passes|passed|fine)\b)", std::regex::icase);
  EXPECT_FALSE(std::regex_search(report::json_from(answer).dump(), promise));
  for (const DampCover& cover : answer.covers) {
    EXPECT_EQ(cover.n_dries + cover.n_wetter + cover.n_not_shown, static_cast<int>(cover.cases.size()));
    EXPECT_NE(cover.statement.find("None of this clears it."), std::string::npos);
    for (const Figure* one :
         {&cover.wood_percent, &cover.wood_months_above_20, &cover.driest_humidity_percent, &cover.left_kg_per_m2,
          &cover.mould_index, &cover.steady.most_kg_per_m2, &cover.steady.left_kg_per_m2}) {
      expect_within(*one);
    }
    ASSERT_EQ(cover.series.likely_kg_per_m2.size(), 60U);
    for (std::size_t month = 0; month < 60; ++month) {
      EXPECT_LE(cover.series.low_kg_per_m2[month], cover.series.likely_kg_per_m2[month]);
      EXPECT_LE(cover.series.likely_kg_per_m2[month], cover.series.high_kg_per_m2[month]);
    }
    EXPECT_EQ(cover.steady.statement.rfind("At risk", 0), 0U) << "wool without vapour control in a cold winter";
  }
}

// What shades the membrane takes its summer's heat from the deck below.
TEST(DampOfTheGarage, DriesLessUnderModulesThanBare) {
  const DampAnswer& answer = garage();
  for (std::size_t i = 1; i < answer.covers.size(); ++i) {
    EXPECT_GT(*answer.covers[i].driest_humidity_percent.value, *answer.covers[0].driest_humidity_percent.value + 3.0);
    EXPECT_GT(*answer.covers[i].wood_percent.value, *answer.covers[0].wood_percent.value);
  }
}

TEST(DampOfTheGarage, IsMovedByAFoilBelowTheWool) {
  const DampAnswer tight = damp_of(tests::edited(
      garage_text(), {{"[[roof.deck]]\nmaterial = \"plasterboard\"",
                       "[[roof.deck]]\nmaterial = \"PE vapour barrier\"\nthickness_mm = 0.5\n[[roof.deck]]\nmaterial = "
                       "\"plasterboard\""}}));
  const DampAnswer& open = garage();
  EXPECT_EQ(tight.n_runs, 27) << "the vapour control is described: two cases less";
  EXPECT_NE(tight.deck.find("vapour control lies below"), std::string::npos);
  EXPECT_NE(open.deck.find("no vapour control"), std::string::npos);
  for (std::size_t i = 0; i < open.covers.size(); ++i) {
    const DampCover& a = open.covers[i];
    const DampCover& b = tight.covers[i];
    EXPECT_LT(*b.wood_percent.value, *a.wood_percent.value);
    EXPECT_LT(*b.wood_months_above_20.value, *a.wood_months_above_20.value);
    EXPECT_LT(*b.mould_index.value, *a.mould_index.value);
    EXPECT_GT(*b.driest_humidity_percent.value, *a.driest_humidity_percent.value);
    EXPECT_LT(*b.steady.most_kg_per_m2.value, *a.steady.most_kg_per_m2.value);
    EXPECT_NE(*b.left_kg_per_m2.value, *a.left_kg_per_m2.value);
    EXPECT_NE(b.series.likely_kg_per_m2.back(), a.series.likely_kg_per_m2.back());
  }
}

// With nothing but the heat and vapour of its first year the deck repeats itself.
TEST(DampOfTheGarage, SettlesWhereTheSameYearComesFiveTimes) {
  const DampCover& bare = garage().covers[0];
  for (std::size_t month = 48; month < 60; ++month) {
    EXPECT_NEAR(bare.series.likely_kg_per_m2[month], bare.series.likely_kg_per_m2[month - 12], 0.02);
  }
}

}  // namespace
}  // namespace houseleek::studies
