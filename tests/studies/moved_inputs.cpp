// Changes of the small house's description, each of which must move some number of its study.
#include "studies/moved_inputs.hpp"

namespace houseleek::tests {

std::vector<Change> all_changes() {
  return {
      {"more gains", {{"gains_day_w = 120", "gains_day_w = 500"}, {"gains_night_w = 80", "gains_night_w = 900"}}},
      {"darker roof", {{"albedo = 0.2,", "albedo = 0.05,"}}},
      {"hotter summer", {{"max_c = [32, 32, 31,", "max_c = [36, 36, 35,"}}},
      {"colder winter", {{"14, 13, 14, 18, 20", "9, 8, 9, 18, 20"}, {"5, 4, 5, 9, 10", "0, -1, 0, 9, 10"}}},
      {"bitter winter", {{"14, 13, 14, 18, 20", "-4, -4, -4, 18, 20"}, {"5, 4, 5, 9, 10", "-14, -14, -14, 9, 10"}}},
      {"hot quarter turned round",
       {{"max_c = [32, 32, 31, 14, 13, 14, 18, 20, 22, 24, 26, 28]",
         "max_c = [18, 20, 22, 14, 13, 14, 33, 33, 33, 24, 26, 28]"},
        {"min_c = [21, 21, 20, 5, 4, 5, 9, 10, 12, 14, 16, 18]",
         "min_c = [9, 10, 12, 5, 4, 5, 21, 21, 21, 14, 16, 18]"}}},
      {"cold quarter turned round",
       {{"max_c = [32, 32, 31, 14, 13, 14, 18, 20, 22, 24, 26, 28]",
         "max_c = [32, 32, 31, 28, 26, 24, 22, 20, 18, 14, 13, 14]"},
        {"min_c = [21, 21, 20, 5, 4, 5, 9, 10, 12, 14, 16, 18]",
         "min_c = [21, 21, 20, 18, 16, 14, 12, 10, 9, 5, 4, 5]"}}},
      {"more rain", {{"rain_mm = [60, 60, 90, 90,", "rain_mm = [60, 60, 180, 180,"}}},
      {"drier air", {{"relative_humidity_percent = [50, 50, 50, 60", "relative_humidity_percent = [50, 50, 25, 30"}}},
      {"thicker concrete", {{"thickness_mm = 120", "thickness_mm = 240"}}},
      {"thicker medium", {{"thickness_mm = 40", "thickness_mm = 80"}}},
      {"fewer modules", {{"columns = 2", "columns = 1"}}},
      {"larger roof and room",
       {{"[roof]\noutline = [[0, 0], [4, 0], [4, 3], [0, 3]]", "[roof]\noutline = [[0, 0], [4, 0], [4, 4], [0, 4]]"},
        {"name = \"bedroom\"\noutline = [[0, 0], [4, 0], [4, 3], [0, 3]]",
         "name = \"bedroom\"\noutline = [[0, 0], [4, 0], [4, 4], [0, 4]]"}}},
      {"higher allowable", {{"load_kn_per_m2 = 2.0", "load_kn_per_m2 = 3.0"}}},
      {"a thin medium, no rain and no water",
       {{"rain_mm = [60, 60, 90, 90,", "rain_mm = [0, 0, 0, 0,"},
        {"thickness_mm = 40", "thickness_mm = 4"},
        {"material = \"horticultural mineral wool\"", "material = \"EPS board\""},
        {"[recipe.watering]\nwhen_store_below_frac = 0.6\nlitres_per_module = 6\nhour = 7\n", ""}}},
      {"watered earlier", {{"when_store_below_frac = 0.6", "when_store_below_frac = 0.95"}}},
      {"no plants' cover", {{"cover_frac = 0.8", "cover_frac = 0.2"}}},
      {"whiter paint", {{"white_albedo_aged = 0.6", "white_albedo_aged = 0.75"}}},
      {"denser net", {{"[rivals]", R"([[material]]
name = "HDPE shade cloth"
density_kg_per_m3 = 300
solar_transmittance_frac = 0.2
open_area_frac = 0.2
[rivals])"}}},
      {"thicker board", {{"board_thickness_mm = 80", "board_thickness_mm = 120"}}},
      {"thinner board", {{"board_thickness_mm = 80", "board_thickness_mm = 20"}}},
      {"heavier ballast", {{"ballast_thickness_mm = 50", "ballast_thickness_mm = 80"}}},
      {"dear rivals", {{"[rivals]", R"([prices]
[[prices.item]]
name = "white paint"
price_per_m2 = 90
service_life_years = 6
[[prices.item]]
name = "net frame"
price_per_m2 = 90
service_life_years = 12
[[prices.item]]
name = "XPS board"
price_per_m3 = 1900
[rivals])"}}},
      {"cheap rivals", {{"[rivals]", R"([prices]
[[prices.item]]
name = "white paint"
price_per_m2 = 0.1
[[prices.item]]
name = "net frame"
price_per_m2 = 0.1
[[prices.item]]
name = "HDPE shade cloth"
price_per_m2 = 0.1
[[prices.item]]
name = "XPS board"
price_per_m3 = 1
[[prices.item]]
name = "gravel 16/32"
price_per_m3 = 1
[rivals])"}}},
      {"dear wool",
       {{"[rivals]",
         "[prices]\n[[prices.item]]\nname = \"horticultural mineral wool\"\nprice_per_m3 = 1400\n[rivals]"}}},
      {"dear water",
       {{"[tariff]\n", "[tariff]\nwater_per_m3 = 9\n"},
        {"when_store_below_frac = 0.6", "when_store_below_frac = 0.95"}}},
      {"said to be invented", {{"name = \"Small house\"\n", "name = \"Small house\"\ninvented = true\n"}}},
      {"no fan", {{"fan = { air_speed_m_per_s = 0.9, power_w = 45 }\n", ""}}},
      {"stronger fan motor", {{"power_w = 45", "power_w = 60"}}},
      {"no bedroom", {{"is_bedroom = true", "is_bedroom = false"}}},
      {"higher spacers", {{"height_mm = 20", "height_mm = 40"}}},
      {"no spacers",
       {{"placed = \"raised\"", "placed = \"flat\""},
        {"[recipe.spacer]\nheight_mm = 20\nedges = \"open\"\nblocked_frac = 0.2\ngap_wind_frac = 0.1\n"
         "mass_kg_per_module = 0.5\n",
         ""},
        {"[recipe.spacer.feet]\ncount = 4\narea_mm2 = 2500\n", ""}}},
      {"more snow and hail",
       {{"ground_snow_kn_per_m2 = 0.3", "ground_snow_kn_per_m2 = 0.34"}, {"hail_mm = 20", "hail_mm = 40"}}},
      {"higher parapet", {{"parapet_height_mm = 150", "parapet_height_mm = 250"}}},
      {"lower spacers", {{"height_mm = 20", "height_mm = 15"}}},
      {"longer modules", {{"length_mm = 1000", "length_mm = 1100"}}},
      {"stronger membrane", {{"membrane_kpa = 400", "membrane_kpa = 500"}}},
      {"wider strips", {{"edge_mm = 0", "edge_mm = 900"}, {"outlet_mm = 100", "outlet_mm = 3000"}}},
      {"windier place", {{"basic_wind_m_per_s = 25", "basic_wind_m_per_s = 30"}}},
      {"harder rain", {{"intensity_mm_per_h = 90", "intensity_mm_per_h = 140"}}},
      {"longer and rarer rain", {{"return_years = 10", "return_years = 30"}, {"duration_min = 5", "duration_min = 8"}}},
      {"a puddle",
       {{"[[roof.outlet]]",
         "[[roof.hollow]]\noutline = [[1, 1], [2, 1], [2, 2], [1, 2]]\ndepth_mm = 12\n[[roof.outlet]]"}}},
      {"roof far to the left",
       {{"[roof]\noutline = [[0, 0], [4, 0], [4, 3], [0, 3]]",
         "[roof]\noutline = [[-17, -1], [4, -1], [4, 3], [-17, 3]]"}}},
      {"modules farther right", {{"origin = [0.5, 0.4]", "origin = [1.7, 0.7]"}}},
      {"thicker jute", {{"thickness_mm = 2\n", "thickness_mm = 4\n"}}},
      {"fewer plants", {{"cover_frac = 0.8", "cover_frac = 0.4"}}},
      {"another seed", {{"seed = 7", "seed = 8"}}},
      {"dear electricity", {{"electricity_per_kwh = 0.25", "electricity_per_kwh = 0.5"}}},
      {"larger bills",
       {{"cooling_kwh_per_year = 900", "cooling_kwh_per_year = 1800"},
        {"heating_kwh_per_year = 2000", "heating_kwh_per_year = 4000"}}},
      {"bills too small to pay",
       {{"cooling_kwh_per_year = 900", "cooling_kwh_per_year = 1"},
        {"heating_kwh_per_year = 2000", "heating_kwh_per_year = 1"}}},
      {"bills that pay", {{"cooling_kwh_per_year = 900", "cooling_kwh_per_year = 90000"}}},
      {"a wage", {{"wage_per_h = 1", "wage_per_h = 5"}}},
      {"more own hours", {{"[money]", "[money]\nown_hours_per_module = 9"}}},
      {"more years counted", {{"years_counted = 10", "years_counted = 12"}}},
      {"more leaks", {{"[money]", "[money]\nleak_per_year_frac = 0.2"}}},
      {"membrane about to go", {{"[money]", "[money]\nmembrane_life_years = 5\nmembrane_age_years = 12"}}},
      {"dear disposal", {{"[rivals]", "[prices]\n[[prices.item]]\nname = \"disposal\"\nprice_per_kg = 2\n[rivals]"}}},
      {"dirty electricity", {{"electricity_kg_per_kwh = 0.2", "electricity_kg_per_kwh = 0.9"}}},
      {"stock for nothing",
       {{"[rivals]", "[[stock]]\nname = \"horticultural mineral wool\"\namount_m3 = 9\n[rivals]"}}},
      {"a ban", {{"[rivals]", "[order]\n[[order.ban]]\nat = [3.0, 0.5]\n[rivals]"}}},
      {"one patch more", {{"[rivals]", R"([[patch]]
recipe = "thin stonecrop"
columns = 1
rows = 1
origin = [2.7, 0.4]
[rivals])"}}},
      {"a day more", {}, [](studies::StudyOptions& options) { options.run.n_hours += 24; }},
      {"a day later", {}, [](studies::StudyOptions& options) { options.run.first_hour += 24; }},
      {"longer settling", {}, [](studies::StudyOptions& options) { options.run.spin_up_hours += 24; }},
      {"tighter bound", {}, [](studies::StudyOptions& options) { options.run.error_bound_k = 0.02; }},
      {"a second year", {}, [](studies::StudyOptions& options) { options.n_years = 2; }},
      {"in Spain", {{"surroundings = \"suburb\"\n", "surroundings = \"suburb\"\ncountry = \"ES\"\n"}}},
      {"hardly ever watered", {{"when_store_below_frac = 0.6", "when_store_below_frac = 0.01"}}},
      {"more draws", {}, [](studies::StudyOptions& options) { options.n_draws = 300; }},
  };
}

}  // namespace houseleek::tests
