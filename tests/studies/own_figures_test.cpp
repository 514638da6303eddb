// What a logbook measured takes the place of what a design would assume, and moves the answers.
#include "studies/own_figures.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>

#include "base/civil_time.hpp"
#include "checks/weights.hpp"
#include "logbook/read_event.hpp"
#include "money/plain_sums.hpp"
#include "studies/recipe_answers.hpp"
#include "support/catalogue_files.hpp"
#include "support/small_design.hpp"

namespace houseleek::tests {
namespace {

using Fields = std::vector<std::pair<std::string, std::string>>;

struct Logbook {
  std::vector<logbook::EventRecord> records;
  void note(const std::string& kind, const Fields& fields) {
    const Result<logbook::Event> event =
        logbook::read_event({kind, fields}, {"Europe/Berlin", std::int64_t{2'000'000'000}, "EUR"});
    ASSERT_TRUE(event.has_value()) << event.error().front().message;
    logbook::EventRecord record;
    record.number = static_cast<std::int64_t>(records.size()) + 1;
    record.event = event.value();
    records.push_back(record);
  }
  void weigh(const std::string& module, const std::string& wetness, const std::string& mass_kg) {
    note("weighed", {{"module", module}, {"wetness", wetness}, {"mass_kg", mass_kg}, {"at", "2025-03-01"}});
  }
};

std::int64_t end_of(const std::string& day) {
  return moment_from_text(day, "Europe/Berlin", "day").value().utc_s + n_seconds_in_civil_day / 2;
}

/// The small house with what the logbook says written into it.
struct Measured {
  catalogue::Catalogue catalogue = shipped_catalogue();
  design::RawDesign description = design::parse_design(small_design_text(), "small.toml").value();
  design::ValidDesign before = valid_design(small_design_text());
  studies::OwnFigures own;

  explicit Measured(const Logbook& log) {
    own = studies::find_own_figures(log.records, before, catalogue, end_of("2025-06-01"));
  }
  [[nodiscard]] design::ValidDesign after() const {
    return design::validate_design(studies::with_own_figures(description, *before, own.figures), catalogue).value();
  }
};

Logbook made_modules(int n_modules) {
  Logbook log;
  for (int i = 1; i <= n_modules; ++i) {
    log.note("made", {{"module", fmt::format("M{}", i)}, {"recipe", "thin stonecrop"}, {"at", "2024-03-01"}});
  }
  return log;
}

TEST(OwnWeights, WeighedModulesReplaceTheEstimate) {
  Logbook log = made_modules(3);
  log.weigh("M1", "soaked", "90");
  log.weigh("M2", "soaked", "94");
  log.weigh("M3", "soaked", "98");
  const Measured house(log);
  ASSERT_EQ(house.own.figures.size(), 1U);
  const catalogue::Spread& soaked = house.own.figures.front().value;
  EXPECT_EQ(house.own.figures.front().path, "recipe[0].weighed.soaked_kg_per_m2");
  EXPECT_NEAR(soaked.likely, 94.0, 1e-12);
  // Nine in ten modules: t(0.95, 2) = 2.9200 (table of Student's t, from memory), s = 4, sqrt(1 + 1/3).
  EXPECT_NEAR(soaked.high - soaked.likely, 2.9200 * 4.0 * std::sqrt(4.0 / 3.0), 0.01);
  EXPECT_NE(soaked.source.find("measured on this roof, from 3 weighings"), std::string::npos) << soaked.source;

  const design::ValidDesign after = house.after();
  const report::RecipeAnswer recipe = studies::answer_recipes(after).front();
  EXPECT_NEAR(*recipe.mass_soaked_kg_per_m2.value, 94.5, 1e-9);  // and half a kilogram of spacers
  EXPECT_NE(recipe.mass_soaked_kg_per_m2.range->from.find("from 3 weighings"), std::string::npos);
  EXPECT_NE(recipe.mass_dry_kg_per_m2.range->from.find("soaked weight (measured on this roof"), std::string::npos);
  // Dry and drained follow by the water between.
  const checks::ModuleWeights estimate = checks::compute_weights(house.before, 0, design::Placed::raised);
  EXPECT_NEAR(*recipe.mass_soaked_kg_per_m2.value - *recipe.mass_dry_kg_per_m2.value,
              estimate.soaked_kg_per_m2.likely - estimate.dry_kg_per_m2.likely, 1e-9);
}

TEST(OwnWeights, OneWeighingKeepsTheSpreadOfTheMaterials) {
  Logbook log = made_modules(1);
  log.weigh("M1", "drained", "60");
  const Measured house(log);
  ASSERT_EQ(house.own.figures.size(), 1U);
  const catalogue::Spread& drained = house.own.figures.front().value;
  const results::Interval estimate = checks::compute_weights(house.before, 0, design::Placed::flat).drained_kg_per_m2;
  EXPECT_NEAR(drained.likely, 60.0, 1e-12);
  EXPECT_NEAR(drained.high / drained.likely, estimate.high / estimate.likely, 1e-12);
  EXPECT_NE(drained.source.find("from 1 weighing; how modules differ is still guessed"), std::string::npos);
  // The soaked weight is heavier by the water that fills what drains.
  const checks::ModuleWeights before = checks::compute_weights(house.before, 0, design::Placed::raised);
  const checks::ModuleWeights after = checks::compute_weights(house.after(), 0, design::Placed::raised);
  EXPECT_NEAR(after.soaked_kg_per_m2.likely - after.drained_kg_per_m2.likely,
              before.soaked_kg_per_m2.likely - before.drained_kg_per_m2.likely, 1e-9);
}

TEST(OwnWeights, WhatCannotBeUsedIsSaid) {
  Logbook log = made_modules(2);
  log.weigh("M1", "drained", "90");
  log.weigh("M2", "soaked", "70");
  log.note("weighed", {{"module", "M1"}, {"mass_kg", "80"}, {"at", "2025-03-01"}});
  const Measured house(log);
  EXPECT_TRUE(house.own.figures.empty());
  ASSERT_EQ(house.own.left_out.size(), 2U);
  EXPECT_NE(house.own.left_out[0].find("1 weighing without a recipe"), std::string::npos);
  EXPECT_NE(house.own.left_out[1].find("wetter ones are lighter"), std::string::npos);
}

TEST(OwnLives, FiveFailuresReplaceTheLifeInMoney) {
  const auto torn = [](int n_torn) {
    Logbook log = made_modules(12);
    for (int i = 1; i <= n_torn; ++i) {
      for (const char* part : {"tie", "cover sheet"}) {
        log.note("replaced",
                 {{"module", fmt::format("M{}", i)}, {"part", part}, {"condition", "torn"}, {"at", "2024-06-01"}});
      }
    }
    return log;
  };
  const Measured few(torn(4));
  EXPECT_TRUE(few.own.figures.empty());
  const Measured enough(torn(9));
  ASSERT_EQ(enough.own.figures.size(), 2U);
  const design::ValidDesign after = enough.after();
  const auto yearly = [](const design::ValidDesign& design) {
    return *money::planted_outlay(design).replacement_per_year.value;
  };
  EXPECT_GT(yearly(after), 1.05 * yearly(enough.before));  // they lasted a quarter of a year, not one
  const design::Recipe& recipe = after->recipes.front();
  EXPECT_NE(recipe.cover->material.service_life_in_sun_years->source.find("measured on this roof, from 9 failures"),
            std::string::npos);
  // Prices stay what they were, and stay known as what they are.
  EXPECT_EQ(*money::planted_outlay(after).outlay.value, *money::planted_outlay(enough.before).outlay.value);
  const auto is_ties = [](const design::Assumption& one) { return one.path == "prices[ties]"; };
  EXPECT_EQ(std::count_if(after.assumed().begin(), after.assumed().end(), is_ties), 1);
}

}  // namespace
}  // namespace houseleek::tests
