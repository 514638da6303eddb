// Damp: what must hold of any deck: slopes, balances, order, sealed decks, frost.
#include "simulation/damp.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>
#include <string>
#include <vector>

#include "base/contract.hpp"
#include "physics/porous.hpp"

namespace houseleek::simulation {
namespace {

physics::Porous wood_like() {
  return {.density_kg_per_m3 = 600.0,
          .heat_capacity_j_per_kg_k = 1600.0,
          .conductivity_w_per_m_k = 0.13,
          .moisture_conversion = 2.0,
          .sorption = physics::sorption_through({50.0, 90.0, 400.0}),
          .water_absorption_kg_per_m2_s05 = 0.005,
          .vapour_resistance_factor_dry = 200.0,
          .vapour_resistance_factor_wet = 50.0};
}

physics::Porous wool_like() {
  return {.density_kg_per_m3 = 60.0,
          .heat_capacity_j_per_kg_k = 1030.0,
          .conductivity_w_per_m_k = 0.036,
          .moisture_conversion = 4.0,
          .sorption = physics::sorption_through({0.1, 0.3, 300.0}),
          .vapour_resistance_factor_dry = 1.0,
          .vapour_resistance_factor_wet = 1.0};
}

/// Days that go up and down, winters with frost: nobody's weather.
DampClimate rough_climate(int n_hours) {
  DampClimate climate;
  for (int hour = 0; hour <= n_hours; ++hour) {
    const double day = std::cos(2.0 * 3.14159265358979 * (hour - 15) / 24.0);
    const double year = -std::cos(2.0 * 3.14159265358979 * hour / 8760.0);
    climate.top.temperature_c.push_back(8.0 + 14.0 * year + 9.0 * day);
    climate.top.vapour_pressure_pa.push_back(500.0 + 200.0 * year);
    climate.bottom.temperature_c.push_back(20.5 + 1.5 * year + 0.5 * day);
    climate.bottom.vapour_pressure_pa.push_back(1200.0 + 250.0 * year);
  }
  climate.top.vapour_film_resistance_m2_s_pa_per_kg = 1.0 / 7.5e-8;
  climate.bottom.heat_film_resistance_m2_k_per_w = 0.1;
  climate.bottom.vapour_film_resistance_m2_s_pa_per_kg = 1.0 / 2.5e-8;
  return climate;
}

struct LightDeck {
  physics::PorousLaw wood{wood_like()};
  physics::PorousLaw wool{wool_like()};
  DampDeck deck;
  LightDeck() {
    deck.layers = {{&wood, 0.022, 6, 0.8, 15.0}, {&wool, 0.18, 12, 0.8, 18.0}, {&wood, 0.012, 4, 0.6, 20.0}};
    deck.sheets.resize(4);
    deck.sheets[0] = {0.05, 9.0 * 50000.0 * 0.001 / 2e-10, false};  // two felts
    deck.sheets[2] = {0.0, 2.0 / 2e-10, false};                     // a foil that resists as 2 m of air
  }
};

TEST(PorousLaw, SlopesAreThoseOfItsValues) {
  for (const physics::Porous& material : {wood_like(), wool_like()}) {
    const physics::PorousLaw law(material);
    for (const double temperature_c : {-20.0, -0.3, 10.0, 45.0}) {
      for (const double share : {0.02, 0.2, 0.6, 0.97, 1.2}) {
        const double water = share * material.sorption.free_water_kg_per_m3;
        const double dw = 1e-6 * water;
        const double dk = 1e-5;
        const physics::DampPoint p = law.at(water, temperature_c);
        const physics::DampPoint up = law.at(water + dw, temperature_c);
        const physics::DampPoint down = law.at(water - dw, temperature_c);
        const physics::DampPoint warm = law.at(water, temperature_c + dk);
        const physics::DampPoint cold = law.at(water, temperature_c - dk);
        const auto expect_slope = [&](const char* what, double got, double high, double low, double step) {
          const double slope = (high - low) / (2.0 * step);
          const double rounding = 1e-9 * std::max(std::abs(high), std::abs(low)) / step;
          EXPECT_NEAR(got, slope, 1e-5 * std::abs(slope) + rounding)
              << what << " at " << share << ", " << temperature_c << " degC";
        };
        expect_slope("humidity by w", p.humidity_by_w, up.humidity, down.humidity, dw);
        expect_slope("pressure by w", p.capillary_pressure_by_w, up.capillary_pressure_pa, down.capillary_pressure_pa,
                     dw);
        expect_slope("pressure by k", p.capillary_pressure_by_k, warm.capillary_pressure_pa, cold.capillary_pressure_pa,
                     dk);
        expect_slope("vapour by w", p.vapour_permeability_by_w, up.vapour_permeability_kg_per_m_s_pa,
                     down.vapour_permeability_kg_per_m_s_pa, dw);
        expect_slope("vapour by k", p.vapour_permeability_by_k, warm.vapour_permeability_kg_per_m_s_pa,
                     cold.vapour_permeability_kg_per_m_s_pa, dk);
        expect_slope("diffusivity by w", p.liquid_diffusivity_by_w, up.liquid_diffusivity_m2_per_s,
                     down.liquid_diffusivity_m2_per_s, dw);
        expect_slope("diffusivity by k", p.liquid_diffusivity_by_k, warm.liquid_diffusivity_m2_per_s,
                     cold.liquid_diffusivity_m2_per_s, dk);
        expect_slope("liquid by w", p.liquid_conductivity_by_w, up.liquid_conductivity_kg_per_m_s_pa,
                     down.liquid_conductivity_kg_per_m_s_pa, dw);
        expect_slope("liquid by k", p.liquid_conductivity_by_k, warm.liquid_conductivity_kg_per_m_s_pa,
                     cold.liquid_conductivity_kg_per_m_s_pa, dk);
        expect_slope("conductivity by w", p.conductivity_by_w, up.conductivity_w_per_m_k, down.conductivity_w_per_m_k,
                     dw);
        expect_slope("heat by w", p.heat_by_w, up.heat_j_per_m3, down.heat_j_per_m3, dw);
        expect_slope("heat by k", p.heat_by_k, warm.heat_j_per_m3, cold.heat_j_per_m3, dk);
      }
    }
  }
}

TEST(AirPermeability, TheTableIsTheFunction) {
  const physics::AirPermeability table(91000.0);
  for (double temperature_c = -60.0; temperature_c <= 120.0; temperature_c += 0.37) {
    const double exact = physics::air_vapour_permeability_kg_per_m_s_pa(temperature_c, 91000.0);
    EXPECT_NEAR(table.at(temperature_c), exact, 1e-12 * exact) << temperature_c;
  }
  EXPECT_THROW((void)table.at(121.0), ContractViolation);
}

TEST(DampRun, BooksOfTwoRoughYearsClose) {
  const LightDeck light;
  constexpr int n_hours = 2 * 8760;
  const DampRun run = run_damp(light.deck, rough_climate(n_hours), {.n_hours = n_hours});
  EXPECT_LT(std::abs(run.water_residual_kg_per_m2), 1e-9);
  EXPECT_LT(run.heat_residual_frac, 1e-9);
  EXPECT_GT(std::abs(run.came_in_below_kg_per_m2), 0.01);  // something moved
}

TEST(DampRun, ASealedDeckKeepsItsWater) {
  LightDeck light;
  light.deck.sheets.front() = {0.0, 1e30, false};
  light.deck.sheets.back() = {0.0, 1e30, false};
  constexpr int n_hours = 2000;
  const DampRun run = run_damp(light.deck, rough_climate(n_hours), {.n_hours = n_hours});
  EXPECT_NEAR(run.water_end_kg_per_m2, run.water_start_kg_per_m2, 1e-9);
  EXPECT_NEAR(run.came_in_below_kg_per_m2, 0.0, 1e-12);
}

/// Water of the top layer after a spring.
double water_of_top_layer(const DampOptions& options) {
  const LightDeck light;
  const DampMesh mesh = make_damp_mesh(light.deck, options.refinement);
  double sum = 0.0;
  (void)run_damp(light.deck, rough_climate(options.n_hours), options, [&](const DampMoment& moment) {
    if (moment.hour != options.n_hours) return;
    for (std::size_t i = 0; i < mesh.layer.size(); ++i) {
      if (mesh.layer[i] == 0) sum += mesh.thickness_m[i] * moment.water_kg_per_m3[i];
    }
  });
  return sum;
}

TEST(DampRun, FinerStepsAndSlicesChangeLittleAndLess) {
  constexpr int n_hours = 1500;
  const double finest = water_of_top_layer({.n_hours = n_hours, .steps_per_hour = 4, .refinement = 4});
  const double usual = water_of_top_layer({.n_hours = n_hours});
  const double finer = water_of_top_layer({.n_hours = n_hours, .steps_per_hour = 2, .refinement = 2});
  EXPECT_NEAR(usual, finest, 0.002 * finest);
  EXPECT_LT(std::abs(finer - finest), 0.5 * std::abs(usual - finest) + 1e-6);
}

TEST(DampRun, WithoutALawOrWithTooFewMarksIsRefused) {
  LightDeck light;
  DampClimate climate = rough_climate(10);
  EXPECT_THROW((void)run_damp(light.deck, climate, {.n_hours = 11}), ContractViolation);
  light.deck.sheets.pop_back();
  EXPECT_THROW((void)run_damp(light.deck, climate, {.n_hours = 10}), ContractViolation);
}

}  // namespace
}  // namespace houseleek::simulation
