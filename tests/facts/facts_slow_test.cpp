// What is commonly said of planted roofs beside what the program gives; inputs are fixed, nothing here is tuned or asserted but that it ran.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>
#include <string>
#include <vector>

#include "climate/summary.hpp"
#include "design/parse.hpp"
#include "plan/layout.hpp"
#include "simulation/covers.hpp"
#include "simulation/run.hpp"
#include "studies/weather.hpp"
#include "support/catalogue_files.hpp"
#include "support/reported_fact.hpp"

namespace houseleek::tests {
namespace {

std::string text(const char* format, double a, double b, double c = 0.0) {
  char buffer[200];
  std::snprintf(buffer, sizeof buffer, format, a, b, c);
  return buffer;
}

/// Mean over June to August of a column at one hour of the day.
double summer_mean(const std::vector<double>& column, int hour) {
  double sum = 0.0;
  int n = 0;
  for (int day = 151; day < 243; ++day, ++n) sum += column[static_cast<std::size_t>(day * 24 + hour)];
  return sum / n;
}

class TerraceHouse : public ::testing::Test {
 protected:
  static design::ValidDesign read() {
    auto read =
        design::read_design(source_file_text("examples/01-terrace-house/roof.toml"), "roof.toml", shipped_catalogue());
    if (!read) throw std::runtime_error("the terrace house does not read");
    return std::move(read).value();
  }
  static climate::WeatherYear weather_of(const design::ValidDesign& design) {
    auto weather = studies::make_weather(design, {});
    if (!weather) throw std::runtime_error("the terrace house's weather does not read");
    return std::move(weather).value();
  }
};

TEST_F(TerraceHouse, DayAndNightUnderAThinModule) {
  const design::ValidDesign design = read();
  const climate::WeatherYear weather = weather_of(design);
  const plan::Layout layout = plan::make_layout(design);
  const climate::ForcingSource source = [&](int hour, double fraction) {
    return climate::forcing_at(weather, hour, fraction);
  };
  const auto run = [&](const simulation::CoverGroup& cover) { return simulation::run_group(cover.group, source, {}); };
  const auto raised = run(simulation::make_recipe_group(design, layout, weather, 0, design::Placed::raised));
  const auto flat = run(simulation::make_recipe_group(design, layout, weather, 0, design::Placed::flat));
  const auto bare = run(simulation::make_cover_group(design, layout, weather, simulation::Cover::bare, {}));
  const std::vector<double>& under_raised = raised.stacks[0].membrane_c;
  const std::vector<double>& under_flat = flat.stacks[0].membrane_c;
  const std::vector<double>& open = bare.stacks[0].membrane_c;
  const std::string setting =
      "terrace house (invented), generated year, June to August, membrane under the middle of closed thin stonecrop";

  const double day_open = summer_mean(open, 14), day_raised = summer_mean(under_raised, 14);
  report_fact({.id = "FACT-01",
               .setting = setting + ", 15 h",
               .commonly = "the deck is cooler than bare by day in summer sun (common practice, no source)",
               .found = text("bare %.1f, under raised modules %.1f degC", day_open, day_raised),
               .agrees = day_raised < day_open});
  const double night_open = summer_mean(open, 4), night_raised = summer_mean(under_raised, 4),
               night_flat = summer_mean(under_flat, 4);
  report_fact({.id = "FACT-02",
               .setting = setting + ", 5 h",
               .commonly = "the deck is warmer than bare by night (common practice, no source)",
               .found = text("bare %.1f, under raised modules %.1f, lying flat %.1f degC", night_open, night_raised,
                             night_flat),
               .agrees = night_raised > night_open && night_flat > night_open});
  report_fact({.id = "FACT-03",
               .setting = setting + ", 5 h",
               .commonly = "raising modules lowers the night excess (common practice, no source)",
               .found = text("excess over bare: raised %.2f K, flat %.2f K", night_raised - night_open,
                             night_flat - night_open),
               .agrees = night_raised < night_flat});

  // Watering left out in July, from the store full: days until a quarter is left.
  simulation::CoverGroup dry = simulation::make_recipe_group(design, layout, weather, 0, design::Placed::raised);
  for (simulation::Stack& stack : dry.group.stacks) stack.waterings.clear();
  simulation::RunOptions july;
  july.first_hour = 181 * 24;
  july.n_hours = 31 * 24;
  july.spin_up_hours = 0;
  const auto drying = simulation::run_group(dry.group, source, july);
  const std::vector<double>& store = drying.stacks[0].root_store_frac;
  const auto low = std::find_if(store.begin(), store.end(), [](double frac) { return frac < 0.25; });
  const double days = static_cast<double>(low - store.begin()) / 24.0;
  report_fact(
      {.id = "FACT-04",
       .setting = "terrace house (invented), thin stonecrop, July, store full at the start, days until a quarter of it "
                  "is left",
       .commonly =
           "thin succulent modules want water about once a week in a hot dry summer (common practice, no source)",
       .found = low == store.end() ? "not within the month"
                                   : text("%.1f days (evaporation %.1f mm by then)", days,
                                          drying.stacks[0].water_mm.front() -
                                              drying.stacks[0].water_mm[static_cast<std::size_t>(low - store.begin())]),
       .agrees = days >= 4.0 && days <= 10.0});
}

/// A sunny day of the wet tropics, invented: 27 to 33 degC, 2900 Pa of vapour, light wind, 900 W/m2 at noon.
climate::Forcing tropical(int hour, double fraction) {
  const double hours = hour % 24 + fraction;
  climate::Forcing now;
  now.air_temperature_c = 30.0 - 3.0 * std::cos((hours - 3.0) * std::numbers::pi / 12.0);
  now.vapour_pressure_pa = 2900.0;
  now.wind_m_per_s = 1.5 + std::max(0.0, std::sin((hours - 8.0) * std::numbers::pi / 12.0));
  now.global_w_per_m2 = 900.0 * std::max(0.0, std::sin((hours - 6.0) * std::numbers::pi / 12.0));
  now.sky_longwave_w_per_m2 = 425.0;
  return now;
}

simulation::Layer plain(double thickness_m, double conductivity, double density, double heat) {
  simulation::Layer layer;
  layer.thickness_m = thickness_m;
  layer.conductivity_dry_w_per_m_k = conductivity;
  layer.heat_capacity_dry_j_per_m3_k = density * heat;
  return layer;
}

TEST(Tropics, ThinDryStonecropOnAHumidSunnyDay) {
  // Fixed before the first run: 150 mm concrete, room kept at 26 degC, 40 mm of dry light mineral medium lying flat, sparse stonecrop.
  simulation::Stack bare;
  bare.deck = {plain(0.005, 0.23, 1100.0, 1000.0), plain(0.150, 2.0, 2400.0, 1000.0),
               plain(0.015, 0.57, 1300.0, 1000.0)};
  bare.surface = {.albedo = 0.25, .emissivity = 0.9};  // grey tiles
  simulation::Stack planted = bare;
  planted.room = 1;
  planted.under = simulation::Under::contact;
  planted.surface = {.albedo = 0.2, .emissivity = 0.95, .is_evaporating = true};
  simulation::Layer medium = plain(0.040, 0.18, 800.0, 1000.0);
  medium.is_medium = true;
  medium.wet_rise_w_per_m_k = 2.5;
  medium.wet_bend = 3.6;
  medium.saturated_frac = 0.60;
  medium.holds_frac = 0.35;
  medium.field_capacity_frac = 0.35;
  medium.wilting_frac = 0.08;
  medium.residual_frac = 0.03;
  medium.saturated_conductivity_m_per_s = 1e-4;
  medium.initial_water_frac = 0.11;  // a little above wilting
  medium.root_frac = 1.0;
  planted.module = {medium};
  planted.has_canopy = true;
  planted.canopy.cover_frac = 0.6;
  planted.canopy.leaf_area_index = 1.5;
  planted.canopy.stomatal_min_s_per_m = 500.0;
  simulation::Group group;
  group.rooms.resize(2);
  for (simulation::Room& room : group.rooms) {
    room.is_prescribed = true;
    room.prescribed_c = 26.0;
  }
  bare.initial_temperature_c = planted.initial_temperature_c = 30.0;
  group.stacks = {bare, planted};
  simulation::RunOptions options;
  options.hours_in_year = 24;
  options.first_hour = 0;
  options.spin_up_hours = 5 * 24;
  options.n_hours = 24;
  const auto day = simulation::run_group(group, tropical, options);
  const auto gain = [&](std::size_t i) {
    double inward = 0.0;
    for (const double flux : day.stacks[i].ceiling_flux_w_per_m2) inward += std::max(0.0, flux);
    return inward;
  };
  const auto net = [&](std::size_t i) {
    double sum = 0.0;
    for (const double flux : day.stacks[i].ceiling_flux_w_per_m2) sum += flux;
    return sum;
  };
  report_fact(
      {.id = "FACT-05",
       .setting = "thin dry stonecrop flat on uninsulated concrete, sunny humid tropical day, room at 26 degC (inputs "
                  "in the test)",
       .commonly = "[jim2014] measured MORE ceiling heat gain under thin stonecrop than under the bare control, "
                   "uninsulated block in Hong Kong "
                   "(abstract and quoted results seen)",
       .found = text("inward heat at the ceiling in the day: bare %.0f, planted %.0f Wh/m2; ", gain(0), gain(1)) +
                text("bare both ways %.0f, planted both ways %.0f Wh/m2", net(0), net(1)),
       .agrees = gain(1) > gain(0)});
  EXPECT_GT(gain(0) + gain(1), 0.0);
}

}  // namespace
}  // namespace houseleek::tests
