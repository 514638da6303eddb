// A module through single days: its books, and what moves its store.
#include "planting/module_days.hpp"

#include <gtest/gtest.h>

#include <numeric>

#include "climate/known_days.hpp"
#include "plan/layout.hpp"
#include "studies/weather.hpp"
#include "support/small_design.hpp"

namespace houseleek::planting {
namespace {

struct Roof {
  design::ValidDesign design;
  plan::Layout layout;
  climate::WeatherYear weather;
};

const Roof& roof() {
  static const Roof one = [] {
    design::ValidDesign design = tests::valid_design(tests::small_design_text());
    plan::Layout layout = plan::make_layout(design);
    climate::WeatherYear weather = studies::make_weather(design, std::nullopt).value();
    return Roof{std::move(design), std::move(layout), std::move(weather)};
  }();
  return one;
}

ModuleQuestion question() {
  const Roof& one = roof();
  return {.design = one.design,
          .layout = one.layout,
          .weather = one.weather,
          .recipe = 0,
          .placed = design::Placed::flat,
          .span = {190, 20, 5},
          .watering = {{{2, 7, 60.0}}, {}}};
}

double rain_on(const climate::WeatherYear& weather, int day) {
  double mm = 0.0;
  for (int slot = day * 144; slot < (day + 1) * 144; ++slot)
    mm += weather.rain_mm_per_10_min[static_cast<std::size_t>(slot)];
  return mm;
}

TEST(ModuleDays, BooksCloseAtEveryFactor) {
  for (const double factor : {0.6, 1.0, 1.4}) {
    ModuleQuestion asked = question();
    asked.evapotranspiration_factor = factor;
    const ModuleDays days = run_module_days(asked);
    for (std::size_t day = 1; day < days.water_mm.size(); ++day) {
      const double change = days.water_mm[day] - days.water_mm[day - 1];
      const double in = rain_on(asked.weather, 190 + static_cast<int>(day)) + days.watered_mm[day];
      EXPECT_NEAR(change, in - days.evapotranspiration_mm[day] - days.left_mm[day], 1e-6) << "day " << day;
    }
    EXPECT_NEAR(days.watered_mm[2], 60.0, 1e-9);
    EXPECT_NEAR(std::accumulate(days.watered_mm.begin(), days.watered_mm.end(), 0.0), 60.0, 1e-9);
  }
}

TEST(ModuleDays, AHigherFactorDriesFaster) {
  std::vector<double> after;
  for (const double factor : {0.6, 1.0, 1.4}) {
    ModuleQuestion asked = question();
    asked.evapotranspiration_factor = factor;
    after.push_back(run_module_days(asked).store_frac[8]);
  }
  EXPECT_GT(after[0], after[1]);
  EXPECT_GT(after[1], after[2]);
}

TEST(ModuleDays, WateringFillsAndTheDaysAfterEmpty) {
  const ModuleDays days = run_module_days(question());
  EXPECT_GT(days.store_frac[2], 0.85);
  EXPECT_LT(days.store_frac[12], days.store_frac[3]);
  EXPECT_GT(days.held_mm, days.rooted_mm);
}

TEST(KnownDays, TakeTheirPlace) {
  const climate::WeatherYear& year = roof().weather;
  const std::vector<climate::KnownDay> known = {{40.0, 25.0, 12.0}, {std::nullopt, std::nullopt, 0.0}};
  const climate::WeatherYear weather = climate::with_known_days(year, 200, known);
  double max_c = -100.0;
  double min_c = 100.0;
  for (std::size_t hour = 200 * 24; hour < 201 * 24; ++hour) {
    max_c = std::max(max_c, weather.air_temperature_c[hour]);
    min_c = std::min(min_c, weather.air_temperature_c[hour]);
  }
  EXPECT_NEAR(max_c, 40.0, 1e-9);
  EXPECT_NEAR(min_c, 25.0, 1e-9);
  EXPECT_NEAR(rain_on(weather, 200), 12.0, 1e-9);
  EXPECT_EQ(rain_on(weather, 201), 0.0);
  EXPECT_EQ(rain_on(weather, 202), rain_on(year, 202));
  EXPECT_EQ(weather.air_temperature_c[203 * 24], year.air_temperature_c[203 * 24]);
}

}  // namespace
}  // namespace houseleek::planting
