// The reader against the same examples as the JSON Schema (tests/schema/design.test.mjs), and its keys and limits against
// the schema's own.
#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <set>

#include "catalogue/properties.hpp"
#include "design/climate_limits.hpp"
#include "design/drainage_limits.hpp"
#include "design/load_limits.hpp"
#include "design/money_limits.hpp"
#include "design/trial_limits.hpp"
#include "small_design.hpp"

namespace houseleek::design {
namespace {

using nlohmann::json;
using tests::shipped_catalogue;
using tests::source_file_text;

std::vector<std::string> designs_in(const std::string& folder) {
  std::vector<std::string> paths;
  for (const auto& entry : std::filesystem::directory_iterator(std::string(HOUSELEEK_SOURCE_DIR) + "/" + folder)) {
    if (entry.path().extension() == ".toml") paths.push_back(folder + "/" + entry.path().filename().string());
  }
  std::sort(paths.begin(), paths.end());
  return paths;
}

const json& schema() {
  static const json parsed = json::parse(source_file_text("schema/design.schema.json"));
  return parsed;
}

TEST(DesignSchema, ValidExamplesAreAccepted) {
  const catalogue::Catalogue catalogue = shipped_catalogue();
  const std::vector<std::string> paths = designs_in("schema/valid");
  EXPECT_GE(paths.size(), 3U);
  for (const std::string& path : paths) {
    const std::string text = source_file_text(path);
    const Result<ValidDesign> read = read_design(text, path, catalogue);
    EXPECT_TRUE(read) << (read ? "" : text_from_issues(read.error(), text));
  }
}

TEST(DesignSchema, InvalidExamplesAreRefusedWithAPlace) {
  const catalogue::Catalogue catalogue = shipped_catalogue();
  int n_refused = 0;
  for (const char* folder : {"schema/invalid/shape", "schema/invalid/sense"}) {
    for (const std::string& path : designs_in(folder)) {
      const std::string text = source_file_text(path);
      const Result<ValidDesign> read = read_design(text, path, catalogue);
      EXPECT_FALSE(read) << path;
      if (read) continue;
      ++n_refused;
      for (const Issue& issue : read.error()) EXPECT_GE(issue.line, 1) << path << ": " << issue.message;
    }
  }
  EXPECT_GE(n_refused, 50);
}

struct Place {
  const char* header;   // of valid/everything.toml; the unknown key goes under its first occurrence
  const char* pointer;  // to the schema's properties
};

// An unknown key under each table makes the reader list the keys it knows there: they must be the schema's.
TEST(DesignSchema, KeysAreTheReadersKeys) {
  const Place places[] = {{"", "/properties"},
                          {"[site]", "/properties/site/properties"},
                          {"[climate]", "/properties/climate/properties"},
                          {"[climate.normals]", "/$defs/normals/properties"},
                          {"[roof]", "/properties/roof/properties"},
                          {"[roof.finish]", "/properties/roof/properties/finish/oneOf/1/properties"},
                          {"[[roof.deck]]", "/$defs/deck_layer/properties"},
                          {"[[roof.outlet]]", "/$defs/outlet/properties"},
                          {"[[roof.obstacle]]", "/$defs/obstacle/properties"},
                          {"[[roof.hollow]]", "/$defs/hollow/properties"},
                          {"[drainage]", "/$defs/drainage/properties"},
                          {"[[drainage.level]]", "/$defs/spot_level/properties"},
                          {"[[drainage.overflow]]", "/$defs/overflow/properties"},
                          {"[[drainage.edge]]", "/$defs/edge/properties"},
                          {"[design_rain]", "/$defs/design_rain/properties"},
                          {"[[design_rain.intensity]]", "/$defs/rain_intensity/properties"},
                          {"[roof.allowable_load]", "/$defs/allowable_load/properties"},
                          {"[roof.structure]", "/$defs/structure/properties"},
                          {"[roof.structure.joist]", "/$defs/joist/properties"},
                          {"[roof.bearing]", "/$defs/bearing/properties"},
                          {"[roof.actions]", "/$defs/actions/properties"},
                          {"[roof.clear_strips]", "/$defs/clear_strips/properties"},
                          {"[recipe.spacer.feet]", "/$defs/feet/properties"},
                          {"[[container]]", "/$defs/container/properties"},
                          {"[wind]", "/$defs/wind/properties"},
                          {"[container.plant]", "/$defs/container_plant/properties"},
                          {"[planting]", "/$defs/planting/properties"},
                          {"[[room]]", "/$defs/room/properties"},
                          {"[room.window_rule]", "/$defs/window_rule/properties"},
                          {"[room.fan]", "/$defs/fan/properties"},
                          {"[[room.window]]", "/$defs/window/properties"},
                          {"[[room.wall]]", "/$defs/wall/properties"},
                          {"[[partition]]", "/$defs/partition/properties"},
                          {"[[recipe]]", "/$defs/recipe/properties"},
                          {"[recipe.spacer]", "/$defs/spacer/properties"},
                          {"[recipe.cover]", "/$defs/cover/properties"},
                          {"[recipe.net]", "/$defs/net/properties"},
                          {"[[recipe.layer]]", "/$defs/layer/properties"},
                          {"[[recipe.plant]]", "/$defs/plant/properties"},
                          {"[recipe.canopy]", "/$defs/canopy/properties"},
                          {"[recipe.weighed]", "/$defs/weighed/properties"},
                          {"[recipe.watering]", "/$defs/watering/properties"},
                          {"[[patch]]", "/$defs/patch/properties"},
                          {"[prices]", "/properties/prices/properties"},
                          {"[[prices.item]]", "/$defs/price_item/properties"},
                          {"[[stock]]", "/$defs/stock_item/properties"},
                          {"[money]", "/properties/money/properties"},
                          {"[bills]", "/properties/bills/properties"},
                          {"[carbon]", "/properties/carbon/properties"},
                          {"[order]", "/properties/order/properties"},
                          {"[[order.pin]]", "/$defs/wish/properties"},
                          {"[[order.ban]]", "/$defs/wish/properties"},
                          {"[tariff]", "/properties/tariff/properties"},
                          {"[rivals]", "/properties/rivals/properties"},
                          {"[[trial]]", "/$defs/trial/properties"},
                          {"[trial.spread]", "/$defs/trial_spread/properties"},
                          {"[[trial.side]]", "/$defs/trial_side/properties"},
                          {"[[trial.place]]", "/$defs/trial_place/properties"},
                          {"[[material]]", "/$defs/material/properties"}};
  const catalogue::Catalogue catalogue = shipped_catalogue();
  const std::string whole = source_file_text("schema/valid/everything.toml");
  for (const Place& place : places) {
    const std::string header = std::string("\n") + place.header + "\n";
    const std::string text = tests::with_change(whole, header, header + "zzz = 1\n");
    const Result<ValidDesign> read = read_design(text, "x", catalogue);
    ASSERT_FALSE(read) << place.header;
    Issues unknown;
    for (const Issue& issue : read.error()) {
      if (issue.severity == Severity::error) unknown.push_back(issue);
    }
    ASSERT_EQ(unknown.size(), 1U) << place.header << "\n" << text_from_issues(read.error(), text);
    std::set<std::string> in_schema;
    for (const auto& [key, property] : schema().at(json::json_pointer(place.pointer)).items()) in_schema.insert(key);
    std::set<std::string> in_reader;
    std::string names = unknown.front().limit + ", ";
    for (std::size_t at = 0; at < names.size();) {
      const std::size_t comma = names.find(", ", at);
      in_reader.insert(names.substr(at, comma - at));
      at = comma + 2;
    }
    EXPECT_EQ(in_reader, in_schema) << place.header;
  }
}

void expect_same_limits(const json& property, const NumberRule& rule, const std::string& what) {
  EXPECT_EQ(property.at("maximum").get<double>(), rule.most) << what;
  EXPECT_EQ(property.at(rule.is_least_open ? "exclusiveMinimum" : "minimum").get<double>(), rule.least) << what;
}

TEST(DesignSchema, LimitsAreTheReadersLimits) {
  struct Limit {
    const char* pointer;
    NumberRule rule;
  };
  const Limit all[] = {
      {"/properties/site/properties/latitude_deg", limits::latitude_deg},
      {"/properties/site/properties/longitude_deg", limits::longitude_deg},
      {"/properties/site/properties/elevation_m", limits::elevation_m},
      {"/properties/site/properties/wind_factor", limits::wind_factor},
      {"/properties/climate/properties/seed", limits::seed},
      {"/properties/climate/properties/year", limits::weather_year},
      {"/$defs/weather_layout/properties/header_line", limits::header_line},
      {"/$defs/file_column/oneOf/1", limits::column_number},
      {"/$defs/normals/properties/max_c/items", limits::temperature_c},
      {"/$defs/normals/properties/min_c/items", limits::temperature_c},
      {"/$defs/normals/properties/dew_point_c/items", limits::temperature_c},
      {"/$defs/normals/properties/rain_mm/items", limits::rain_mm},
      {"/$defs/normals/properties/rain_days/items", limits::rain_days},
      {"/$defs/normals/properties/sunshine_h/items", limits::sunshine_h},
      {"/$defs/normals/properties/global_mj_per_m2_d/items", limits::global_mj_per_m2_d},
      {"/$defs/normals/properties/relative_humidity_percent/items", limits::relative_humidity_percent},
      {"/$defs/normals/properties/wind_m_per_s/items", limits::wind_m_per_s},
      {"/$defs/normals/properties/month_mean_sd_k/items", limits::month_mean_sd_k},
      {"/$defs/normals/properties/month_rain_sd_mm/items", limits::month_rain_sd_mm},
      {"/$defs/point/items", limits::coordinate_m},
      {"/properties/roof/properties/north_deg", limits::bearing_deg},
      {"/properties/roof/properties/fall_mm_per_m", limits::fall_mm_per_m},
      {"/properties/roof/properties/fall_towards_deg", limits::bearing_deg},
      {"/properties/roof/properties/parapet_height_mm", limits::parapet_height_mm},
      {"/properties/roof/properties/finish/oneOf/1/properties/albedo/oneOf/0", limits::albedo},
      {"/properties/roof/properties/finish/oneOf/1/properties/emissivity", limits::emissivity},
      {"/$defs/deck_layer/properties/thickness_mm", limits::deck_thickness_mm},
      {"/$defs/outlet/properties/diameter_mm", limits::outlet_diameter_mm},
      {"/$defs/outlet/properties/pipe_diameter_mm", limits::pipe_diameter_mm},
      {"/$defs/outlet/properties/rim_mm", limits::rim_mm},
      {"/$defs/drainage/properties/fall_to_outlets_mm_per_m", limits::fall_to_outlets_mm_per_m},
      {"/$defs/drainage/properties/level_error_mm", limits::level_error_mm},
      {"/$defs/drainage/properties/months_since_cleaning", limits::months_since_cleaning},
      {"/$defs/drainage/properties/silt_mm_per_year", limits::silt_mm_per_year},
      {"/$defs/spot_level/properties/level_mm", limits::level_mm},
      {"/$defs/overflow/properties/width_mm", limits::overflow_width_mm},
      {"/$defs/overflow/properties/sill_mm", limits::sill_mm},
      {"/$defs/overflow/properties/height_mm", limits::overflow_height_mm},
      {"/$defs/edge/properties/height_mm", limits::edge_height_mm},
      {"/$defs/rain_intensity/properties/return_years", limits::return_years},
      {"/$defs/rain_intensity/properties/duration_min", limits::duration_min},
      {"/$defs/rain_intensity/properties/intensity_mm_per_h", limits::intensity_mm_per_h},
      {"/$defs/annual_maxima/properties/return_years", limits::return_years},
      {"/$defs/annual_maxima/properties/duration_min", limits::duration_min},
      {"/$defs/annual_maxima/properties/depths_mm/items", limits::maximum_mm},
      {"/$defs/spacer/properties/slat_height_mm", limits::slat_height_mm},
      {"/$defs/obstacle/properties/height_mm", limits::obstacle_height_mm},
      {"/$defs/hollow/properties/depth_mm", limits::hollow_depth_mm},
      {"/$defs/allowable_load/properties/load_kn_per_m2", limits::load_kn_per_m2},
      {"/$defs/allowable_load/properties/averaging_area_m2", limits::averaging_area_m2},
      {"/$defs/supports/items", limits::support_at_m},
      {"/$defs/joist/properties/spacing_mm", limits::joist_spacing_mm},
      {"/$defs/joist/properties/first_at_m", limits::joist_first_at_m},
      {"/$defs/joist/properties/width_mm", limits::joist_width_mm},
      {"/$defs/joist/properties/height_mm", limits::joist_height_mm},
      {"/$defs/joist/properties/modulus_n_per_mm2", limits::modulus_n_per_mm2},
      {"/$defs/joist/properties/service_class", limits::service_class},
      {"/$defs/bearing/properties/membrane_kpa", limits::bearing_kpa},
      {"/$defs/bearing/properties/insulation_kpa", limits::bearing_kpa},
      {"/$defs/actions/properties/ground_snow_kn_per_m2", limits::ground_snow_kn_per_m2},
      {"/$defs/actions/properties/snow_exposure", limits::snow_exposure},
      {"/$defs/actions/properties/hail_mm", limits::hail_mm},
      {"/$defs/actions/properties/blocked_outlet_mm", limits::blocked_outlet_mm},
      {"/$defs/actions/properties/stack_modules", limits::stack_modules},
      {"/$defs/actions/properties/person_kn", limits::person_kn},
      {"/$defs/clear_strips/properties/edge_mm", limits::strip_mm},
      {"/$defs/clear_strips/properties/opening_mm", limits::strip_mm},
      {"/$defs/clear_strips/properties/outlet_mm", limits::strip_mm},
      {"/$defs/clear_strips/properties/flue_mm", limits::strip_mm},
      {"/$defs/clear_strips/properties/equipment_mm", limits::strip_mm},
      {"/$defs/clear_strips/properties/wall_mm", limits::strip_mm},
      {"/$defs/feet/properties/count", limits::feet_count},
      {"/$defs/feet/properties/area_mm2", limits::foot_area_mm2},
      {"/$defs/container/properties/diameter_mm", limits::diameter_mm},
      {"/$defs/container/properties/length_mm", limits::container_length_mm},
      {"/$defs/container/properties/width_mm", limits::container_width_mm},
      {"/$defs/container/properties/fill_mm", limits::fill_mm},
      {"/$defs/container/properties/empty_kg", limits::empty_kg},
      {"/$defs/container/properties/plant_kg", limits::plant_kg},
      {"/$defs/wind/properties/roof_height_m", limits::roof_height_m},
      {"/$defs/wind/properties/basic_wind_m_per_s", limits::basic_wind_m_per_s},
      {"/$defs/room/properties/height_m", limits::room_height_m},
      {"/$defs/room/properties/infiltration_per_h", limits::infiltration_per_h},
      {"/$defs/room/properties/gains_day_w", limits::gains_w},
      {"/$defs/room/properties/gains_night_w", limits::gains_w},
      {"/$defs/room/properties/gains_day_w_per_m2", limits::gains_w_per_m2},
      {"/$defs/room/properties/gains_night_w_per_m2", limits::gains_w_per_m2},
      {"/$defs/room/properties/heat_to_c", limits::heat_to_c},
      {"/$defs/room/properties/cool_to_c", limits::cool_to_c},
      {"/$defs/window_rule/properties/open_above_c", limits::open_above_c},
      {"/$defs/window_rule/properties/opening_per_h", limits::opening_per_h},
      {"/$defs/window_rule/properties/from_hour", limits::hour},
      {"/$defs/window_rule/properties/to_hour", limits::hour},
      {"/$defs/fan/properties/air_speed_m_per_s", limits::fan_speed_m_per_s},
      {"/$defs/fan/properties/power_w", limits::fan_power_w},
      {"/$defs/window/properties/area_m2", limits::area_m2},
      {"/$defs/window/properties/u_value_w_per_m2_k", limits::u_value_w_per_m2_k},
      {"/$defs/window/properties/g_value", limits::g_value},
      {"/$defs/window/properties/shading_frac", limits::shading_frac},
      {"/$defs/wall/properties/length_m", limits::length_m},
      {"/$defs/wall/properties/solar_absorptance", limits::solar_absorptance},
      {"/$defs/partition/properties/area_m2", limits::area_m2},
      {"/properties/money/properties/years_counted", limits::years_counted},
      {"/properties/money/properties/real_interest_frac/oneOf/0", limits::real_interest_frac},
      {"/properties/money/properties/energy_price_rise_frac/oneOf/0", limits::energy_price_rise_frac},
      {"/properties/money/properties/wage_per_h/oneOf/0", limits::wage_per_h},
      {"/properties/money/properties/own_hours_per_module/oneOf/0", limits::own_hours_per_module},
      {"/properties/money/properties/own_hours_per_m2/oneOf/0", limits::own_hours_per_m2},
      {"/properties/money/properties/leak_per_year_frac/oneOf/0", limits::leak_per_year_frac},
      {"/properties/money/properties/membrane_life_years/oneOf/0", limits::membrane_life_years},
      {"/properties/money/properties/membrane_age_years/oneOf/0", limits::membrane_age_years},
      {"/properties/money/properties/life_shape/oneOf/0", limits::life_shape},
      {"/properties/carbon/properties/electricity_kg_per_kwh/oneOf/0", limits::electricity_kg_per_kwh},
      {"/properties/carbon/properties/heating_kg_per_kwh/oneOf/0", limits::heating_kg_per_kwh},
      {"/properties/bills/properties/cooling_kwh_per_year/oneOf/0", limits::bill_kwh},
      {"/properties/bills/properties/cooling_per_year/oneOf/0", limits::bill_money},
      {"/properties/bills/properties/heating_kwh_per_year/oneOf/0", limits::bill_kwh},
      {"/properties/bills/properties/heating_per_year/oneOf/0", limits::bill_money},
      {"/$defs/stock_item/properties/amount_m2", limits::stock_amount},
      {"/$defs/stock_item/properties/price_per_m2/oneOf/0", limits::stock_price},
      {"/$defs/recipe/properties/length_mm", limits::module_length_mm},
      {"/$defs/recipe/properties/width_mm", limits::module_width_mm},
      {"/$defs/recipe/properties/contact_m2_k_per_w", limits::contact_m2_k_per_w},
      {"/$defs/layer/then/properties/thickness_mm", limits::sheet_thickness_mm},
      {"/$defs/layer/else/properties/thickness_mm", limits::layer_thickness_mm},
      {"/$defs/cover/properties/thickness_mm", limits::sheet_thickness_mm},
      {"/$defs/cover/properties/vapour_resistance_s_per_m", limits::vapour_resistance_s_per_m},
      {"/$defs/net/properties/height_mm", limits::net_height_mm},
      {"/$defs/net/properties/wind_below_frac", limits::wind_below_frac},
      {"/$defs/plant/properties/cover_frac", limits::cover_frac},
      {"/$defs/canopy/properties/ground_resistance_s_per_m", limits::ground_resistance_s_per_m},
      {"/$defs/canopy/properties/extinction_short", limits::extinction_short},
      {"/$defs/canopy/properties/extinction_long", limits::extinction_long},
      {"/$defs/spacer/properties/height_mm", limits::spacer_height_mm},
      {"/$defs/spacer/properties/blocked_frac", limits::blocked_frac},
      {"/$defs/spacer/properties/gap_wind_frac/oneOf/0", limits::gap_wind_frac},
      {"/$defs/spacer/properties/mass_kg_per_module", limits::spacer_mass_kg},
      {"/$defs/watering/properties/summer_every_days", limits::every_days},
      {"/$defs/watering/properties/between_every_days", limits::every_days},
      {"/$defs/watering/properties/winter_every_days", limits::every_days},
      {"/$defs/watering/properties/when_store_below_frac", limits::store_frac},
      {"/$defs/watering/properties/litres_per_module", limits::litres_per_module},
      {"/$defs/watering/properties/hour", limits::hour},
      {"/$defs/patch/properties/columns", limits::columns},
      {"/$defs/patch/properties/rows", limits::rows},
      {"/$defs/patch/properties/spacing_mm", limits::spacing_mm},
      {"/$defs/trial/properties/wanted_difference", limits::wanted_difference},
      {"/$defs/trial/properties/base_c", limits::base_c},
      {"/$defs/trial/properties/confidence_frac", limits::trial_confidence_frac},
      {"/$defs/trial/properties/power_frac", limits::power_frac},
      {"/$defs/trial/properties/most_days", limits::most_days},
      {"/$defs/trial/properties/morning_hour", limits::trial_hour},
      {"/$defs/trial/properties/seed", limits::trial_seed},
      {"/$defs/trial_spread/properties/module_sd", limits::spread_sd},
      {"/$defs/trial_spread/properties/day_correlation", limits::day_correlation},
      {"/$defs/trial_place/properties/row", limits::trial_row},
      {"/properties/rivals/properties/net_height_mm", limits::rival_net_height_mm},
      {"/properties/rivals/properties/board_thickness_mm", limits::board_thickness_mm},
      {"/properties/rivals/properties/ballast_thickness_mm", limits::ballast_thickness_mm},
  };
  for (const Limit& limit : all) {
    expect_same_limits(schema().at(json::json_pointer(limit.pointer)), limit.rule, limit.pointer);
  }
  for (const catalogue::MaterialProperty& property : catalogue::material_properties()) {
    const std::string key(property.rule.key);
    expect_same_limits(schema().at(json::json_pointer("/$defs/material/properties/" + key + "/oneOf/0")), property.rule,
                       key);
  }
  for (const catalogue::FoliageProperty& property : catalogue::foliage_properties()) {
    const std::string key(property.rule.key);
    if (key == "cover_frac") continue;  // a plant's, above; a canopy has the sum
    expect_same_limits(schema().at(json::json_pointer("/$defs/canopy/properties/" + key + "/oneOf/0")), property.rule,
                       key);
  }
  const json& definitions = schema().at("$defs");
  std::set<std::string> column_keys;
  for (const WeatherColumnWords& words : weather_column_words) column_keys.emplace(words.key);
  std::set<std::string> column_keys_of_schema;
  for (const auto& [key, property] : definitions.at("weather_columns").at("properties").items()) {
    column_keys_of_schema.insert(key);
  }
  EXPECT_EQ(column_keys, column_keys_of_schema);
  EXPECT_EQ(definitions.at("outline").at("maxItems").get<std::size_t>(), limits::most_corners);
  EXPECT_EQ(schema().at("properties").at("room").at("maxItems").get<std::size_t>(), limits::most_rooms);
  EXPECT_EQ(schema().at("properties").at("recipe").at("maxItems").get<std::size_t>(), limits::most_recipes);
  EXPECT_EQ(schema().at("properties").at("patch").at("maxItems").get<std::size_t>(), limits::most_patches);
  EXPECT_EQ(schema().at("properties").at("trial").at("maxItems").get<std::size_t>(), limits::most_trials);
  EXPECT_EQ(definitions.at("trial").at("properties").at("side").at("maxItems").get<std::size_t>(), limits::most_sides);
  EXPECT_EQ(definitions.at("trial").at("properties").at("place").at("maxItems").get<std::size_t>(),
            limits::most_trial_places);
}

}  // namespace
}  // namespace houseleek::design
