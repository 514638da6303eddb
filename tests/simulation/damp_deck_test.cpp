// From a roof's deck to damp layers and sheets, and whether their slices are fine enough.
#include "simulation/damp_deck.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"
#include "catalogue/catalogue.hpp"
#include "support/catalogue_files.hpp"

namespace houseleek::simulation {
namespace {

design::Roof roof_of(const std::vector<std::pair<std::string, double>>& layers) {
  static const catalogue::Catalogue catalogue = tests::shipped_catalogue();
  design::Roof roof;
  for (const auto& [name, thickness_mm] : layers) {
    roof.deck.push_back({name, thickness_mm, *catalogue::find_material(catalogue, name)});
  }
  return roof;
}

design::Roof light_roof() {
  return roof_of(
      {{"polymer bitumen sheet", 9.0}, {"OSB", 22.0}, {"building mineral wool", 180.0}, {"plasterboard", 12.5}});
}

TEST(DampDeck, SheetsLieBetweenTheLayersThatHoldWater) {
  const DampBuildUp built = make_damp_build_up(light_roof(), {}, 101325.0);
  EXPECT_EQ(built.names, (std::vector<std::string>{"OSB", "building mineral wool", "plasterboard"}));
  EXPECT_EQ(built.is_wood, (std::vector<bool>{true, false, false}));
  ASSERT_EQ(built.deck.sheets.size(), 4U);
  // 9 mm that resist 40000 times as much as still air: 360 m; the permeability at 10 degC by hand 1.8828e-10.
  EXPECT_NEAR(built.deck.sheets[0].vapour_resistance_m2_s_pa_per_kg, 360.0 / 1.8828e-10, 2e9);
  EXPECT_EQ(built.deck.sheets[1].vapour_resistance_m2_s_pa_per_kg, 0.0);
  EXPECT_TRUE(built.deck.sheets[1].lets_liquid_through);
  double heat = 0.0;
  double vapour = 0.0;
  for (const physics::SteadyLayer& one : built.steady) {
    EXPECT_LE(one.heat_resistance_m2_k_per_w, 0.25 + 1e-12);
    heat += one.heat_resistance_m2_k_per_w;
    vapour += one.vapour_resistance_m2_s_pa_per_kg;
  }
  EXPECT_GT(heat, 4.7);
  // By hand: 360 + 0.022 50 + 0.18 1 + 0.0125 10 m over 2e-10.
  EXPECT_NEAR(vapour, (360.0 + 1.1 + 0.18 + 0.125) / 2e-10, 1e6);
}

TEST(DampDeck, AChoiceMovesWhatItNames) {
  const design::Roof roof = light_roof();
  const auto membrane = [&](const DampChoice& choice) {
    return make_damp_build_up(roof, choice, 101325.0).deck.sheets[0].vapour_resistance_m2_s_pa_per_kg;
  };
  EXPECT_LT(membrane({.membrane = RangeEnd::low}), membrane({}));
  EXPECT_GT(membrane({.membrane = RangeEnd::high}), membrane({}));
  const auto at_80 = [&](const DampChoice& choice) {
    return make_damp_build_up(roof, choice, 101325.0).laws[0]->water_kg_per_m3(0.8, 20.0);
  };
  EXPECT_NEAR(at_80({}), 80.0, 1e-6) << "OSB at 80 %";
  EXPECT_NEAR(at_80({.holds = RangeEnd::high}), 100.0, 1e-6);
  const DampBuildUp foil = make_damp_build_up(roof, {.retarder_air_layer_m = 100.0}, 101325.0);
  EXPECT_GT(foil.deck.sheets[2].vapour_resistance_m2_s_pa_per_kg, 5e11) << "below the wool";
  EXPECT_FALSE(foil.deck.sheets[2].lets_liquid_through);
}

TEST(DampDeck, KnowsTimberInsulationAndVapourControl) {
  EXPECT_TRUE(has_timber(light_roof()));
  EXPECT_TRUE(has_insulation(light_roof()));
  EXPECT_FALSE(has_vapour_control(light_roof()));
  EXPECT_TRUE(
      has_vapour_control(roof_of({{"EPDM membrane", 1.2}, {"EPS board", 100.0}, {"reinforced concrete", 120.0}})))
      << "120 mm of concrete resist as 16 m of air";
  const design::Roof bare = roof_of({{"bitumen felt", 8.0}, {"reinforced concrete", 120.0}, {"gypsum plaster", 15.0}});
  EXPECT_FALSE(has_timber(bare));
  EXPECT_FALSE(has_insulation(bare));
  EXPECT_EQ(damp_figures_missing(bare), "");
  EXPECT_NE(damp_figures_missing(roof_of({{"straw", 200.0}})), "");
  EXPECT_EQ(damp_figures_missing(roof_of({{"aluminium sheet", 1.0}})), "no layer of the deck holds water");
  EXPECT_THROW((void)make_damp_build_up(roof_of({{"straw", 200.0}}), {}, 101325.0), ContractViolation);
}

// Every material of the catalogue that names its figures has curves at both ends of its ranges.
TEST(DampDeck, EveryMaterialWithFiguresCanBeRun) {
  int n_run = 0;
  for (const catalogue::Material& material : tests::shipped_catalogue().materials) {
    if (!material.free_water_kg_per_m3) continue;
    EXPECT_EQ(damp_figures_missing(roof_of({{material.name, 50.0}})), "") << material.name;
    ++n_run;
  }
  EXPECT_GT(n_run, 30);
}

DampClimate hard_winter(int n_hours) {
  DampClimate climate;
  for (int hour = 0; hour <= n_hours; ++hour) {
    const double day = std::cos(2.0 * 3.14159265358979 * (hour - 14) / 24.0);
    climate.top.temperature_c.push_back(-4.0 + 5.0 * day);
    climate.top.vapour_pressure_pa.push_back(400.0);
    climate.bottom.temperature_c.push_back(20.0);
    climate.bottom.vapour_pressure_pa.push_back(950.0);
  }
  climate.top.vapour_film_resistance_m2_s_pa_per_kg = 1.0 / 7.5e-8;
  climate.bottom.heat_film_resistance_m2_k_per_w = 0.1;
  climate.bottom.vapour_film_resistance_m2_s_pa_per_kg = 1.0 / 2.5e-8;
  return climate;
}

TEST(DampDeck, FourTimesTheSlicesChangeTheWaterLittle) {
  const DampBuildUp built = make_damp_build_up(light_roof(), {}, 101325.0);
  constexpr int n_hours = 24 * 120;
  const DampClimate climate = hard_winter(n_hours);
  const double usual = run_damp(built.deck, climate, {.n_hours = n_hours}).water_end_kg_per_m2;
  const double finest = run_damp(built.deck, climate, {.n_hours = n_hours, .refinement = 4}).water_end_kg_per_m2;
  EXPECT_NEAR(usual, finest, 0.05 * finest);
  EXPECT_GT(finest, 1.0) << "a winter's water";
}

TEST(DampDeck, OnlyAWetWinterIsDriedByASummerInTheSteadyMethod) {
  std::vector<physics::SteadyLayer> layers = make_damp_build_up(light_roof(), {}, 101325.0).steady;
  layers.push_back({0.1, 0.0});
  std::array<physics::SteadySides, 12> months;
  std::array<double, 12> month_s{};
  month_s.fill(30.0 * 86400.0);
  for (std::size_t month = 0; month < 12; ++month) {
    const bool is_winter = month < 3 || month > 9;
    months[month] =
        is_winter ? physics::SteadySides{-2.0, 450.0, 20.0, 1100.0} : physics::SteadySides{28.0, 1400.0, 23.0, 1500.0};
  }
  const physics::SteadyYear year = physics::steady_damp_year(layers, months, month_s);
  EXPECT_TRUE(year.has_condensation);
  EXPECT_EQ(year.first_month, 10U) << "November comes first";
  EXPECT_GT(year.most_kg_per_m2, 1.0);
  EXPECT_EQ(year.left_kg_per_m2, 0.0);
  for (std::size_t month = 3; month < 10; ++month) months[month] = {10.0, 900.0, 20.0, 1250.0};
  EXPECT_GT(physics::steady_damp_year(layers, months, month_s).left_kg_per_m2, 1.0) << "no summer, no drying";
  months.fill({28.0, 1400.0, 23.0, 1500.0});
  EXPECT_FALSE(physics::steady_damp_year(layers, months, month_s).has_condensation);
}

}  // namespace
}  // namespace houseleek::simulation
