// A small house for tests of answers: one room, four modules, every figure that matters given.
#include "support/small_design.hpp"

#include <fmt/format.h>

#include <stdexcept>

#include "base/issue_text.hpp"
#include "support/catalogue_files.hpp"

namespace houseleek::tests {

std::string small_design_text() {
  return R"toml(format = 1
name = "Small house"

[site]
latitude_deg = 40.0
longitude_deg = 15.0
elevation_m = 100
time_zone = "Europe/Rome"
surroundings = "suburb"

[climate]
seed = 7
# Invented so that the end of March is the end of summer and 1 April begins the cold quarter: a few days show both.
[climate.normals]
max_c = [32, 32, 31, 14, 13, 14, 18, 20, 22, 24, 26, 28]
min_c = [21, 21, 20, 5, 4, 5, 9, 10, 12, 14, 16, 18]
rain_mm = [60, 60, 90, 90, 60, 60, 60, 60, 60, 60, 60, 60]
rain_days = [9, 9, 15, 15, 9, 9, 9, 9, 9, 9, 9, 9]
relative_humidity_percent = [50, 50, 50, 60, 60, 60, 60, 60, 60, 60, 60, 60]
wind_m_per_s = [2, 2, 2, 2, 2, 2, 2, 2, 2, 2, 2, 2]

[roof]
outline = [[0, 0], [4, 0], [4, 3], [0, 3]]
finish = { albedo = 0.2, emissivity = 0.9 }
[[roof.deck]]
material = "bitumen felt"
thickness_mm = 8
[[roof.deck]]
material = "reinforced concrete"
thickness_mm = 120
[[roof.outlet]]
at = [3.8, 2.8]
diameter_mm = 80

[roof.allowable_load]
load_kn_per_m2 = 2.0
who = "A. Engineer"
when = 2024-03-01
includes = "old screed"

[[room]]
name = "bedroom"
outline = [[0, 0], [4, 0], [4, 3], [0, 3]]
height_m = 2.6
thermal_mass = "medium"
infiltration_per_h = 0.5
gains_day_w = 120
gains_night_w = 80
heat_to_c = 20
cool_to_c = 26
is_bedroom = true
fan = { air_speed_m_per_s = 0.9, power_w = 45 }
[room.window_rule]
open_above_c = 24
opening_per_h = 2
from_hour = 20
to_hour = 8
[[room.window]]
area_m2 = 1.5
u_value_w_per_m2_k = 2.8
g_value = 0.6
facing_deg = 180
shading_frac = 0.3
[[room.wall]]
area_m2 = 9
facing_deg = 180
u_value_w_per_m2_k = 1.5
solar_absorptance = 0.6

[[recipe]]
name = "thin stonecrop"
length_mm = 1000
width_mm = 1000
placed = "raised"
contact_m2_k_per_w = 0.01
[[recipe.layer]]
role = "medium"
material = "crushed brick"
thickness_mm = 40
[[recipe.layer]]
role = "core"
material = "horticultural mineral wool"
thickness_mm = 30
[recipe.cover]
material = "jute fabric"
thickness_mm = 2
vapour_resistance_s_per_m = 100
[recipe.spacer]
height_mm = 20
edges = "open"
blocked_frac = 0.2
gap_wind_frac = 0.1
mass_kg_per_module = 0.5
[[recipe.plant]]
name = "Sedum album"
cover_frac = 0.8
[recipe.watering]
when_store_below_frac = 0.6
litres_per_module = 6
hour = 7

[[patch]]
recipe = "thin stonecrop"
columns = 2
rows = 2
origin = [0.5, 0.4]
spacing_mm = 50

[rivals]
white_albedo_new = 0.8
white_albedo_aged = 0.6
white_emissivity = 0.9
net_height_mm = 300
board_thickness_mm = 80
ballast_thickness_mm = 50
)toml";
}

std::string edited(std::string text, const std::vector<Edit>& edits) {
  for (const Edit& edit : edits) {
    const std::size_t at = text.find(edit.from);
    if (at == std::string::npos || text.find(edit.from, at + 1) != std::string::npos) {
      throw std::runtime_error("not exactly once in the design: " + std::string(edit.from));
    }
    text.replace(at, edit.from.size(), edit.to);
  }
  return text;
}

std::vector<Edit> wool_without_a_price() {
  return {{"[rivals]", R"([[material]]
name = "rag wool"
wet_rule = "fibrous"
density_kg_per_m3 = 60
conductivity_w_per_m_k = 0.04
heat_capacity_j_per_kg_k = 1000
porosity_frac = 0.95
saturated_water_frac = 0.9
field_capacity_frac = 0.5
wilting_water_frac = 0.05
residual_water_frac = 0.02
saturated_conductivity_mm_per_h = 1000
brooks_corey_exponent = 20
[rivals])"},
          {"\"horticultural mineral wool\"", "\"rag wool\""}};
}

std::string price_items(const std::vector<PriceRow>& rows) {
  std::string text;
  for (const PriceRow& row : rows) {
    text += fmt::format("[[prices.item]]\nname = \"{}\"\nprice_{} = {}\n", row.name, row.unit, row.price);
    if (row.life_years > 0.0) text += fmt::format("service_life_years = {}\n", row.life_years);
  }
  return text;
}

design::ValidDesign valid_design(const std::string& toml_text) {
  Result<design::ValidDesign> read = design::read_design(toml_text, "small.toml", shipped_catalogue());
  if (!read) throw std::runtime_error(text_from_issues(read.error(), toml_text));
  return std::move(read).value();
}

}  // namespace houseleek::tests
