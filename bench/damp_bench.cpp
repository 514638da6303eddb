// Five years of damp in the deck of the garage example, by the hour, on one core.
#include <cmath>
#include <cstdio>
#include <ctime>
#include <string>

#include "design/parse.hpp"
#include "simulation/damp_deck.hpp"
#include "support/catalogue_files.hpp"

namespace {

using namespace houseleek;

constexpr double bar_s = 2.0;
constexpr int n_years = 5;
constexpr int hours_a_year = 8760;

/// Processor time of this process: other work on the machine does not count.
double now_s() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

/// Days that go up and down, winters with frost, a face that radiates to the sky: nobody's weather.
simulation::DampClimate rough_climate(int n_hours) {
  simulation::DampClimate climate;
  for (int hour = 0; hour <= n_hours; ++hour) {
    const double day = std::cos(2.0 * 3.14159265358979 * (hour - 14) / 24.0);
    const double week = std::cos(2.0 * 3.14159265358979 * hour / 170.0);
    const double year = std::cos(2.0 * 3.14159265358979 * hour / hours_a_year);  // begins warm
    const double gust = std::cos(2.1 * hour) + std::cos(0.77 * hour);
    climate.top.temperature_c.push_back(9.0 + 12.0 * year + (9.0 + 7.0 * year) * day + 4.0 * week + gust);
    climate.top.vapour_pressure_pa.push_back(900.0 + 450.0 * year);
    climate.bottom.temperature_c.push_back(21.5 + 2.0 * year + 0.5 * day);
    climate.bottom.vapour_pressure_pa.push_back(1150.0 + 350.0 * year + 40.0 * day);
  }
  climate.top.vapour_film_resistance_m2_s_pa_per_kg = 1.0 / 7.5e-8;
  climate.bottom.heat_film_resistance_m2_k_per_w = 0.1;
  climate.bottom.vapour_film_resistance_m2_s_pa_per_kg = 1.0 / 2.5e-8;
  return climate;
}

}  // namespace

int main() {
  const auto raw = design::parse_design(tests::source_file_text("examples/02-garage-studio/roof.toml"), "roof.toml");
  const auto design = design::validate_design(raw.value(), tests::shipped_catalogue());
  const simulation::DampBuildUp built = simulation::make_damp_build_up(design.value()->roof, {}, 101325.0);
  constexpr int n_hours = n_years * hours_a_year;
  const simulation::DampClimate climate = rough_climate(n_hours);
  // The finer run says how accurate the usual one is.
  const auto last_water = [&](const simulation::DampOptions& options, double& took_s, simulation::DampRun& run) {
    const double before_s = now_s();
    run = simulation::run_damp(built.deck, climate, options);
    took_s = now_s() - before_s;
    return run.water_end_kg_per_m2;
  };
  double took_s = 0.0;
  double finer_s = 0.0;
  simulation::DampRun run;
  simulation::DampRun finer;
  const double water = last_water({.n_hours = n_hours}, took_s, run);
  const double finer_water = last_water({.n_hours = n_hours, .steps_per_hour = 2, .refinement = 2}, finer_s, finer);
  const std::size_t n_slices = simulation::make_damp_mesh(built.deck, 1).thickness_m.size();
  std::printf("five years, %zu slices: %.2f s (bar %.1f s); %ld steps, %ld Newton iterations; residual %.1e kg/m2\n",
              n_slices, took_s, bar_s, run.n_steps, run.n_newton_iterations, run.water_residual_kg_per_m2);
  std::printf("water at the end %.4f kg/m2, with half the steps and slices %.4f (%.2f s)\n", water, finer_water,
              finer_s);
  return took_s <= bar_s ? 0 : 1;
}
