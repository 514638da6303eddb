// Nothing but shape is a defect: for every number of an answer, an input that must move it, and which way.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <map>
#include <set>

#include "report/study_json.hpp"
#include "studies/small_study.hpp"

namespace houseleek::studies {
namespace {

using report::Json;
using tests::Edit;

// ---- Numbers of a document by their path.

using Numbers = std::map<std::string, double>;

/// What stands for an item of a list: its name, or its place.
std::string item_words(const Json& item, std::size_t index) {
  if (!item.is_object() || !item.contains("name")) return std::to_string(index);
  std::string words = item.at("name").get<std::string>();
  for (const char* more : {"form", "extent"}) {
    if (item.contains(more)) words += fmt::format("/{}", item.at(more).get<std::string>());
  }
  return words;
}

/// Numbers and flags; of a figure its value alone. Texts, and fields without a value, are left out.
void collect(const Json& node, const std::string& path, Numbers& numbers) {
  if (node.is_boolean()) numbers[path] = node.get<bool>() ? 1.0 : 0.0;
  if (node.is_number()) numbers[path] = node.get<double>();
  if (node.is_object()) {
    for (const auto& [key, child] : node.items()) {
      if (key == "low" || key == "high") continue;
      collect(child, key == "value" ? path : (path.empty() ? key : path + "." + key), numbers);
    }
  }
  if (node.is_array()) {
    for (std::size_t i = 0; i < node.size(); ++i) {
      collect(node[i], fmt::format("{}[{}]", path, item_words(node[i], i)), numbers);
    }
  }
}

Numbers numbers_of(Json document) {
  document.erase("assumed");  // the inputs again
  Numbers numbers;
  collect(document, "", numbers);
  return numbers;
}

/// '*' stands for any letters.
bool is_match(std::string_view pattern, std::string_view text) {
  if (pattern.empty()) return text.empty();
  if (pattern.front() != '*') {
    return !text.empty() && pattern.front() == text.front() && is_match(pattern.substr(1), text.substr(1));
  }
  for (std::size_t skipped = 0; skipped <= text.size(); ++skipped) {
    if (is_match(pattern.substr(1), text.substr(skipped))) return true;
  }
  return false;
}

// ---- What is changed.

struct Change {
  std::string_view name;
  std::vector<Edit> edits;
  void (*options)(StudyOptions&) = nullptr;
};

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
      {"a day more", {}, [](StudyOptions& options) { options.run.n_hours += 24; }},
      {"a day later", {}, [](StudyOptions& options) { options.run.first_hour += 24; }},
      {"longer settling", {}, [](StudyOptions& options) { options.run.spin_up_hours += 24; }},
      {"tighter bound", {}, [](StudyOptions& options) { options.run.error_bound_k = 0.02; }},
      {"a second year", {}, [](StudyOptions& options) { options.n_years = 2; }},
      {"in Spain", {{"surroundings = \"suburb\"\n", "surroundings = \"suburb\"\ncountry = \"ES\"\n"}}},
      {"hardly ever watered", {{"when_store_below_frac = 0.6", "when_store_below_frac = 0.01"}}},
      {"more draws", {}, [](StudyOptions& options) { options.n_draws = 300; }},
  };
}

// ---- Which way what moves.

enum class Way { up, down, any };

struct Row {
  std::string_view pattern;
  std::string_view change;
  Way way = Way::any;
};

constexpr Row rows[] = {
    {"is_invented", "said to be invented", Way::up},
    {"engine.seed", "another seed", Way::up},
    {"engine.first_hour", "a day later", Way::up},
    {"engine.n_hours", "a day more", Way::up},
    {"engine.spin_up_hours", "longer settling", Way::up},
    {"engine.n_runs", "no spacers", Way::down},
    {"engine.n_stacks", "one patch more", Way::up},
    {"engine.n_slices", "thicker medium", Way::up},
    {"engine.n_steps", "a day more", Way::up},
    {"engine.n_newton_iterations", "a day more", Way::up},
    {"engine.n_hours_redone", "tighter bound", Way::up},
    {"engine.largest_split", "tighter bound", Way::up},
    {"engine.largest_error_k", "tighter bound", Way::down},
    {"engine.n_years", "a second year", Way::up},
    {"engine.n_runs", "a second year", Way::up},
    {"engine.n_draws", "more draws", Way::up},
    {"engine.heat_residual_frac", "another seed"},
    {"engine.water_residual_m", "another seed"},
    {"weather.summer_months*", "hot quarter turned round"},
    {"weather.winter_months*", "cold quarter turned round"},
    {"weather.air_max_c", "hotter summer", Way::up},
    {"weather.air_min_c", "colder winter", Way::down},
    {"plants.coldest_night_c", "colder winter", Way::down},
    {"plants.places*.medium_depth_mm", "thicker medium", Way::up},
    {"plants.places*.dry_days", "hardly ever watered", Way::up},
    {"plants.places*.counts.likely", "thicker medium", Way::up},
    {"plants.places*.counts.doubtful", "thicker medium"},
    {"plants.places*.counts.no", "thicker medium", Way::down},
    {"plants.places*.counts.refused", "in Spain", Way::up},
    {"roof.area_m2", "larger roof and room", Way::up},
    {"roof.covered_m2", "fewer modules", Way::down},
    {"roof.modules", "fewer modules", Way::down},
    {"roof.bare.u_value_w_per_m2_k", "thicker concrete", Way::down},
    {"roof.bare.decrement_factor", "thicker concrete", Way::down},
    {"roof.bare.time_lag_h", "thicker concrete", Way::up},
    {"load.allowable_kn_per_m2", "higher allowable", Way::up},
    {"load.soaked_max_kn_per_m2", "thicker medium", Way::up},
    {"load.utilisation_local_max_frac", "higher allowable", Way::down},
    {"load.utilisation_local_max_frac", "thicker medium", Way::up},
    {"load.patches[0].soaked_kn_per_m2", "thicker medium", Way::up},
    {"roof.squares.left_m", "roof far to the left", Way::down},
    {"roof.squares.bottom_m", "roof far to the left", Way::down},
    {"roof.squares.side_m", "roof far to the left", Way::up},
    {"roof.squares.columns", "roof far to the left", Way::up},
    {"roof.squares.rows", "larger roof and room", Way::up},
    {"load.utilisation_span_max_frac", "higher allowable", Way::down},
    {"load.utilisation_span_max_frac", "thicker medium", Way::up},
    {"load.cases*.heaviest_kn_per_m2", "thicker medium", Way::up},
    {"load.cases*.whole_roof_kn", "thicker medium", Way::up},
    {"load.cases*.factored_kn_per_m2", "thicker medium", Way::up},
    {"load.cases[soaked with snow].added_kn_per_m2", "more snow and hail", Way::up},
    {"load.cases[soaked with drifted snow].added_kn_per_m2", "higher parapet", Way::up},
    {"load.cases[soaked with hail].added_kn_per_m2", "more snow and hail", Way::up},
    {"load.cases[*blocked outlet].added_kn_per_m2", "higher parapet", Way::up},
    {"load.cases[a stack*].added_kn_per_m2", "thicker medium", Way::up},
    {"load.feet*.soaked_kpa", "thicker medium", Way::up},
    {"load.feet*.uneven_kpa", "thicker medium", Way::up},
    {"load.feet*.limit_kpa", "stronger membrane", Way::up},
    {"load.next*.left_m", "modules farther right"},
    {"load.next*.bottom_m", "roof far to the left"},
    {"load.squares*", "thicker medium", Way::up},
    {"drainage.outlets*.catchment_m2", "larger roof and room", Way::up},
    {"drainage.standing_mm", "a puddle", Way::up},
    {"drainage.days_to_dry", "a puddle", Way::up},
    {"drainage.cases[0].rain_mm_per_h", "higher spacers", Way::up},
    {"drainage.cases[1].rain_mm_per_h", "harder rain", Way::up},
    {"drainage.cases[3].rain_mm_per_h", "harder rain", Way::up},
    {"drainage.cases[1].duration_min", "longer and rarer rain", Way::up},
    {"drainage.cases[1].return_years", "longer and rarer rain", Way::up},
    {"drainage.cases[0].*_mm", "higher spacers"},
    {"drainage.cases[0].water_kn", "higher spacers", Way::up},
    {"drainage.cases[0].heaviest_kn_per_m2", "higher spacers", Way::up},
    {"drainage.cases[1].max_depth_mm", "harder rain", Way::up},
    {"drainage.cases[1].water_kn", "harder rain", Way::up},
    {"drainage.cases[1].heaviest_kn_per_m2", "harder rain", Way::up},
    {"drainage.cases[1].minutes_to_drain", "longer and rarer rain"},
    {"drainage.cases*.freeboard_mm", "higher spacers"},
    {"drainage.cases[2].*", "higher parapet"},
    {"drainage.cases[3].*_mm", "higher parapet"},
    {"drainage.cases[3].water_kn", "harder rain", Way::up},
    {"drainage.cases[3].heaviest_kn_per_m2", "harder rain", Way::up},
    {"drainage.cases[4].*", "higher parapet"},
    {"drainage.cases[4].water_kn", "more snow and hail", Way::up},
    {"drainage.advice*.needs_spacer_mm", "harder rain", Way::up},
    {"drainage.advice*.spacer_mm", "lower spacers", Way::down},
    {"drainage.squares*.depth_mm", "harder rain", Way::up},
    {"drainage.squares*.freeboard_mm", "higher spacers", Way::up},
    {"wind.gust_of_place_km_per_h", "windier place", Way::up},
    {"wind.peak_pressure_kn_per_m2", "windier place", Way::up},
    {"wind.not_shown_above_km_per_h", "thicker medium", Way::up},
    {"wind.edge_m", "roof far to the left", Way::up},
    {"wind.patches*.suction_coefficient", "longer modules", Way::down},
    {"wind.patches*.dry_kn_per_m2", "thicker medium", Way::up},
    {"wind.patches*.not_shown_above_km_per_h", "thicker medium", Way::up},
    {"wind.patches*.linked_*", "thicker medium", Way::up},
    {"wind.patches*.ballast_kg_per_m2", "windier place", Way::up},
    {"wind.squares*.suction_coefficient", "longer modules", Way::down},
    {"wind.squares*.not_shown_above_km_per_h", "thicker medium", Way::up},
    {"fire.recipes*.fuel_mj_per_m2", "thicker jute", Way::up},
    {"fire.recipes*.plants_mj_per_m2", "fewer plants", Way::down},
    {"fire.recipes*.burning_frac", "thicker medium"},
    {"fire.recipes*.mineral_mm", "thicker medium", Way::up},
    {"fire.strips*.width_mm", "wider strips", Way::up},
    {"fire.strips*.reached_into", "wider strips", Way::up},
    {"fire.left_m2", "wider strips", Way::down},
    {"damp.surface.needed_factor", "bitter winter", Way::up},
    {"damp.surface.deck_factor", "thicker concrete", Way::up},
    {"damp.surface.month", "cold quarter turned round"},
    {"recipes*.modules", "fewer modules", Way::down},
    {"recipes*.mass_*", "thicker medium", Way::up},
    {"recipes*.flat.u_value_dry_w_per_m2_k", "thicker medium", Way::down},
    {"recipes*.flat.u_value_wet_w_per_m2_k", "thicker medium", Way::down},
    {"recipes*.flat.decrement_factor", "thicker medium", Way::down},
    {"recipes*.flat.time_lag_h", "thicker medium", Way::up},
    {"recipes*.raised.u_value_*", "thicker concrete", Way::down},
    {"recipes*.raised.decrement_factor", "thicker concrete", Way::down},
    {"recipes*.raised.time_lag_h", "thicker concrete", Way::up},
    {"recipes*.floats_at_mm", "higher spacers", Way::up},
    {"stacks*.membrane_max_c", "hotter summer", Way::up},
    {"stacks*.membrane_min_c", "colder winter", Way::down},
    {"stacks*.ceiling_max_c", "more gains", Way::up},
    {"stacks*.heat_gain_summer_kwh_per_m2", "more gains", Way::down},
    {"stacks*.heat_loss_winter_kwh_per_m2", "more gains", Way::up},
    {"stacks[bare/bare].membrane_max_c", "darker roof", Way::up},
    {"stacks[bare/bare].heat_gain_summer_kwh_per_m2", "darker roof", Way::up},
    {"stacks[white/rival].heat_gain_summer_kwh_per_m2", "whiter paint", Way::down},
    {"stacks[net/rival].heat_gain_summer_kwh_per_m2", "denser net", Way::down},
    {"stacks[board/rival].heat_loss_winter_kwh_per_m2", "thinner board", Way::up},
    {"stacks[thin stonecrop/*].fire_dry_days", "a thin medium, no rain and no water", Way::up},
    {"stacks[thin stonecrop/flat].heat_loss_winter_kwh_per_m2", "thicker medium", Way::down},
    {"stacks*.evapotranspiration_mm", "drier air", Way::up},
    {"stacks*.heat_residual_frac", "another seed"},
    {"stacks*.water_residual_m", "another seed"},
    {"rooms*.is_bedroom", "no bedroom", Way::down},
    {"rooms*.has_fan", "no fan", Way::down},
    {"rooms*.operative_max_c", "more gains", Way::up},
    {"rooms*.operative_min_c", "more gains", Way::up},
    {"rooms*.hours_above_limit", "more gains", Way::up},
    {"rooms*.hours_above_limit_with_fan", "more gains", Way::up},
    {"rooms*.hours_below_limit", "more gains", Way::down},
    {"rooms*.hours_without_limit", "bitter winter", Way::up},
    {"rooms*.degree_hours_above_k_h", "more gains", Way::up},
    {"rooms*.heat_to_add_kwh", "more gains", Way::down},
    {"rooms*.heat_to_remove_kwh", "more gains", Way::up},
    {"rooms*.fan_energy_kwh", "more gains", Way::up},
    {"rooms*.bare.fan_energy_kwh", "stronger fan motor", Way::up},
    {"rooms*.heat_gain_summer_kwh", "more gains", Way::down},
    {"rooms*.planted_minus_bare.operative_*", "fewer modules"},
    {"rooms*.planted_minus_bare.hours_*", "fewer modules"},
    {"rooms*.planted_minus_bare.degree_hours_above_k_h", "fewer modules", Way::up},
    {"rooms*.planted_minus_bare.heat_*", "fewer modules"},
    {"rooms*.planted_minus_bare.fan_energy_kwh", "fewer modules"},
    {"rooms*.planted_minus_bare.night.*", "hotter summer"},
    {"rooms[bedroom].bare.operative_max_c", "darker roof", Way::up},
    {"rooms[bedroom].bare.degree_hours_above_k_h", "darker roof", Way::up},
    {"rooms[bedroom].planted.degree_hours_above_k_h", "fewer modules", Way::up},
    {"rooms[bedroom].white.*.operative_max_c", "whiter paint", Way::down},
    {"rooms[bedroom].white.*.heat_to_remove_kwh", "whiter paint", Way::down},
    {"rooms[bedroom].net.*.operative_max_c", "denser net", Way::down},
    {"rooms[bedroom].net.*.heat_to_remove_kwh", "denser net", Way::down},
    {"rooms[bedroom].board.*.heat_to_add_kwh", "thinner board", Way::up},
    {"house.is_bedroom", "no bedroom", Way::down},
    {"house.has_fan", "no fan", Way::down},
    {"house*.operative_max_c", "more gains", Way::up},
    {"house*.operative_min_c", "more gains", Way::up},
    {"house*.hours_above_limit", "more gains", Way::up},
    {"house*.hours_above_limit_with_fan", "more gains", Way::up},
    {"house*.hours_below_limit", "more gains", Way::down},
    {"house*.hours_without_limit", "bitter winter", Way::up},
    {"house*.degree_hours_above_k_h", "more gains", Way::up},
    {"house*.heat_to_add_kwh", "more gains", Way::down},
    {"house*.heat_to_remove_kwh", "more gains", Way::up},
    {"house*.fan_energy_kwh", "more gains", Way::up},
    {"house*.bare.fan_energy_kwh", "stronger fan motor", Way::up},
    {"house*.heat_gain_summer_kwh", "more gains", Way::down},
    {"house.planted_minus_bare.operative_*", "fewer modules"},
    {"house.planted_minus_bare.hours_*", "fewer modules"},
    {"house.planted_minus_bare.degree_hours_above_k_h", "fewer modules", Way::up},
    {"house.planted_minus_bare.heat_*", "fewer modules"},
    {"house.planted_minus_bare.fan_energy_kwh", "fewer modules"},
    {"house.planted_minus_bare.night.*", "hotter summer"},
    {"water.rain_mm", "more rain", Way::up},
    {"water*.retained_frac", "more rain", Way::down},
    {"water*.watering_l_per_module", "watered earlier", Way::up},
    {"water*.can_wait_days_by_month*", "watered earlier", Way::down},
    {"money.outlay", "dear wool", Way::up},
    {"money.replacement_per_year", "dear wool", Way::up},
    {"money.water_per_year", "dear water", Way::up},
    {"money.comfort_kwh_per_year", "darker roof", Way::up},
    {"money.heating_less_kwh_per_year", "fewer modules", Way::down},
    {"money.recipes*.modules", "fewer modules", Way::down},
    {"money.recipes*.per_module", "dear wool", Way::up},
    {"money.recipes*.outlay", "dear wool", Way::up},
    {"money.recipes*.replacement_per_year", "dear wool", Way::up},
    {"planted_degree_hours_less_per_outlay_k_h", "dear wool", Way::down},
    {"money.cash_saving_per_year", "larger bills", Way::up},
    {"money.net_present_value", "dear wool", Way::down},
    {"money.net_present_value", "bills that pay", Way::up},
    {"money.pays_back.draws", "bills too small to pay", Way::down},
    {"money.pays_back.of", "more draws", Way::up},
    {"money.years_counted", "more years counted", Way::up},
    {"money.own_hours.hours", "more own hours", Way::up},
    {"money.own_hours.wage_per_h", "a wage", Way::up},
    {"money.internal_rates.draws_without", "bills too small to pay", Way::up},
    {"money.internal_rates.draws_with_one", "bills too small to pay", Way::down},
    {"money.flow*.out", "dear wool", Way::up},
    {"money.flow*.saved", "larger bills"},
    {"money.flow*.balance", "dear wool", Way::down},
    {"money.over_all_years.outlay", "dear wool", Way::up},
    {"money.over_all_years.own_hours", "a wage", Way::up},
    {"money.over_all_years.renewal", "dear wool", Way::up},
    {"money.over_all_years.water", "dear water", Way::up},
    {"money.over_all_years.leaks", "more leaks", Way::up},
    {"money.over_all_years.lifting", "membrane about to go", Way::up},
    {"money.over_all_years.disposal", "dear disposal", Way::up},
    {"money.sensitivities*", "bills that pay"},
    {"money.break_even*.is_reached", "bills too small to pay", Way::down},
    {"money.break_even*.electricity_per_kwh", "dear wool", Way::up},
    {"money.break_even*.cooling_kwh_per_year", "dear wool", Way::up},
    {"money.break_even*.outlay", "bills that pay", Way::up},
    {"money.quick_payback*.cost_per_m2", "dear wool", Way::up},
    {"money.quick_payback*.electricity_per_kwh", "dear electricity", Way::up},
    {"money.quick_payback*.cooling_kwh_for_*", "dear electricity", Way::down},
    {"carbon.made_kg", "thicker medium", Way::up},
    {"carbon.renewed_kg_per_year", "thicker jute", Way::up},
    {"carbon.saved_kg_per_year", "larger bills"},
    // More is made, and more is saved: which wins is not said.
    {"carbon.left_kg", "thicker medium"},
    {"carbon.pays_back.draws", "bills too small to pay", Way::down},
    {"carbon.pays_back.of", "more draws", Way::up},
    {"money.internal_rates.draws_with_several", "dear disposal", Way::up},
    {"carbon.years.likely", "larger bills"},
    {"money.payback_years.likely", "larger bills", Way::down},
    {"money.discounted_payback_years.likely", "larger bills", Way::down},
    {"money.internal_rates.likely_frac*", "larger bills", Way::up},
    {"money.internal_rates.rate_frac", "larger bills", Way::up},
    {"rivals*.payback_years.likely", "larger bills"},
    {"rivals*.discounted_payback_years.likely", "larger bills"},
    {"order*.left_m", "roof far to the left"},
    {"order*.bottom_m", "roof far to the left"},
    {"order*.cost", "dear wool", Way::up},
    {"order*.gain_k_h", "hotter summer"},
    {"order_about.places", "a ban"},
    {"order_about.cost", "dear wool", Way::up},
    {"order_about.gain_k_h", "hotter summer", Way::up},
    {"order_about.responses*", "fewer modules"},
    {"rivals*.cash_saving_per_year", "larger bills"},
    {"rivals*.net_present_value", "dear rivals", Way::down},
    {"rivals*.pays_back.of", "more draws", Way::up},
    {"rivals*.pays_back.draws", "bills too small to pay"},
    {"rivals*/same_squares].area_m2", "fewer modules", Way::down},
    {"rivals*/whole_roof].area_m2", "larger roof and room", Way::up},
    {"rivals*.outlay", "dear rivals", Way::up},
    {"rivals*.replacement_per_year", "dear rivals", Way::up},
    {"rivals[net*.mass_soaked_kg_per_m2", "denser net", Way::up},
    {"rivals[board*.mass_soaked_kg_per_m2", "heavier ballast", Way::up},
    {"rivals*.degree_hours_less_per_outlay_k_h", "dear rivals", Way::down},
    {"rivals*.better_for_its_money.of", "more draws", Way::up},
    {"rivals[white*.better_for_its_money.draws", "dear rivals", Way::down},
    {"rivals[net*.better_for_its_money.draws", "cheap rivals", Way::up},
    {"rivals[board*.better_for_its_money.draws", "cheap rivals", Way::up},
    {"rivals[white*.is_better_for_its_money", "dear rivals", Way::down},
    {"rivals[net*.is_better_for_its_money", "cheap rivals", Way::up},
    {"rivals[board*.is_better_for_its_money", "cheap rivals", Way::up},
};

/// Numbers that no input of today may move, each with its reason. The list may only become shorter.
constexpr std::string_view fixed[] = {
    "engine.n_years_failed",  // no change of this list makes a year fail; tests/studies/ensemble_test.cpp does
    "is_valid",               // an answer with issues is another document
    "money.flow[0].saved",    // nothing is saved before anything is built
    "money.flow*.year",
    "money.break_even*.years",  // those that are asked for
    "order_about.is_exact",     // the places of this roof are few enough; tests/buildorder have more
    "order_about.most_loss_k_h",
    "order*.season",          // a study looks at one; tests/buildorder have several
    "load.patches[0].patch",  // the place in the design's list
    "wind.patches[0].patch", "drainage.advice[0].patch",
    "drainage.advice[0].is_better_empty",  // no rain of this list stands above 100 mm; tests/studies/roof_answers_test.cpp
    "damp.surface.edge_factor",            // one estimate for all upstands
    // Nothing in this concrete deck rots; tests/studies/damp_answer_slow_test.cpp runs decks in which something does.
    "damp.is_run", "damp.first_month", "damp.years", "damp.runs", "damp.water_residual_kg_per_m2",
    "damp.heat_residual_frac",
    "drainage.walled_in_m2",  // no obstacle of this roof cuts anything off; tests/checks/drainage_test.cpp does
};

bool is_fixed(const std::string& path) {
  return std::any_of(std::begin(fixed), std::end(fixed),
                     [&](std::string_view pattern) { return is_match(pattern, path); });
}

/// Differences move their own way: rows mean them by name only.
bool names(const Row& row, std::string_view path) {
  constexpr std::string_view difference = "planted_minus_bare";
  const bool is_meant =
      path.find(difference) == std::string_view::npos || row.pattern.find(difference) != std::string_view::npos;
  return is_meant && is_match(row.pattern, path);
}

std::string words_of(const Row& row) { return fmt::format("\"{}\" by \"{}\"", row.pattern, row.change); }

struct Runs {
  Numbers base;
  std::map<std::string_view, Numbers> changed;
};

/// With bills, so that there is cash to be saved.
std::string text_with_bills() {
  return tests::edited(tests::checked_design_text(), {{"[rivals]", R"([bills]
cooling_kwh_per_year = 900
heating_kwh_per_year = 2000
[money]
years_counted = 10
wage_per_h = 1
[carbon]
electricity_kg_per_kwh = 0.2
[tariff]
electricity_per_kwh = 0.25
[rivals])"}});
}

Runs run_all() {
  Runs runs;
  runs.base = numbers_of(report::json_from(tests::study_of(text_with_bills())));
  for (const Change& change : all_changes()) {
    StudyOptions options = tests::short_options();
    if (change.options != nullptr) change.options(options);
    const std::string text = tests::edited(text_with_bills(), change.edits);
    runs.changed[change.name] = numbers_of(report::json_from(tests::study_of(text, options)));
  }
  return runs;
}

void expect_moved(const Row& row, const Runs& runs) {
  ASSERT_TRUE(runs.changed.contains(row.change)) << words_of(row);
  const Numbers& after = runs.changed.at(row.change);
  int n_named = 0;
  for (const auto& [path, before] : runs.base) {
    if (!names(row, path) || is_fixed(path)) continue;
    ++n_named;
    const auto found = after.find(path);
    if (found == after.end()) {
      ADD_FAILURE() << words_of(row) << ": " << path << " is gone";
      continue;
    }
    const double moved = found->second - before;
    const bool is_right = row.way == Way::up ? moved > 0.0 : row.way == Way::down ? moved < 0.0 : moved != 0.0;
    EXPECT_TRUE(is_right) << words_of(row) << ": " << path << " from " << before << " to " << found->second;
  }
  EXPECT_GT(n_named, 0) << words_of(row) << " names nothing";
}

// One test, because the runs are its cost.
TEST(Moves, EveryNumberOfTheAnswerIsMovedByAnInputAndTheRightWay) {
  const Runs runs = run_all();
  for (const Row& row : rows) expect_moved(row, runs);
  for (const auto& [path, value] : runs.base) {
    if (is_fixed(path)) continue;
    bool has_row = false;
    for (const Row& row : rows) has_row = has_row || names(row, path);
    EXPECT_TRUE(has_row) << path << " = " << value << ": nothing is said to move it";
  }
  for (const std::string_view pattern : fixed) {
    int n_named = 0;
    for (const auto& [path, value] : runs.base) {
      if (!is_match(pattern, path)) continue;
      ++n_named;
      for (const auto& [name, numbers] : runs.changed) {
        const auto found = numbers.find(path);
        if (found == numbers.end()) continue;
        EXPECT_EQ(found->second, value) << path << ": " << name;
      }
    }
    EXPECT_GT(n_named, 0) << pattern << " names nothing";
  }
}

TEST(MovesTable, SeesAFieldThatNothingMoves) {
  EXPECT_TRUE(is_match("rooms*.night.*", "rooms[a].bare.night.hours"));
  EXPECT_FALSE(is_match("rooms*.hours", "rooms[a].hours_above"));
  Numbers numbers;
  collect(Json{{"a", {{"value", 3.0}, {"low", 1.0}, {"high", 4.0}, {"from", "x"}}}, {"b", nullptr}, {"c", true}}, "",
          numbers);
  EXPECT_EQ(numbers, (Numbers{{"a", 3.0}, {"c", 1.0}}));
}

}  // namespace
}  // namespace houseleek::studies
