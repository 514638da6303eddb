// The most and the least that a design may say, each with its reason. Outside: an issue, never a clamp.
#pragma once
#include <cstddef>

#include "base/toml_fields.hpp"

namespace houseleek::design::limits {

// --- the file
inline constexpr TomlLimits file{
    .max_bytes = 1'000'000,   // the largest example has 20 kB; a thousand patches with comments have 200
    .max_line_bytes = 16384,  // nobody reads on; keeps excerpts and key depths small
    .max_depth = 16           // a design needs four levels; the rest is for values inside lists
};

// --- how many: a large school roof has about a tenth of each
inline constexpr std::size_t most_corners = 100;
inline constexpr std::size_t most_rooms = 40;
inline constexpr std::size_t most_walls = 30;  // walls or windows of one room
inline constexpr std::size_t most_partitions = 200;
inline constexpr std::size_t most_recipes = 30;
inline constexpr std::size_t most_layers = 20;
inline constexpr std::size_t most_plants = 30;  // kinds in one recipe
inline constexpr std::size_t most_patches = 1000;
inline constexpr std::size_t most_modules = 5000;   // compared pair by pair: 12 million comparisons
inline constexpr std::size_t most_obstacles = 100;  // obstacles, hollows or outlets
inline constexpr std::size_t most_materials = 200;
inline constexpr std::size_t most_prices = 500;

// --- the place
inline constexpr NumberRule latitude_deg{.key = "latitude_deg",
                                         .least = -90,
                                         .most = 90,
                                         .unit = "degrees",
                                         .hint = "degrees and decimals; north is positive, south negative"};
inline constexpr NumberRule longitude_deg{.key = "longitude_deg",
                                          .least = -180,
                                          .most = 180,
                                          .unit = "degrees",
                                          .hint = "degrees and decimals; east is positive, west negative"};
// From the Dead Sea's shore to the highest towns.
inline constexpr NumberRule elevation_m{.key = "elevation_m", .least = -450, .most = 5500, .unit = "m"};
// A court yard gives a tenth; a hill top adds a half.
inline constexpr NumberRule wind_factor{.key = "wind_factor", .least = 0.05, .most = 1.6};
inline constexpr double most_zone_mismatch_h = 4.5;  // western China keeps the time of Beijing, about 3 h off

// --- the climate: beyond every station's monthly normal
inline constexpr NumberRule temperature_c{.key = "", .least = -60, .most = 60, .unit = "degC"};
inline constexpr NumberRule rain_mm{.key = "rain_mm", .least = 0, .most = 4000, .unit = "mm"};
inline constexpr NumberRule rain_days{.key = "rain_days", .least = 0, .most = 31, .unit = "days"};
inline constexpr NumberRule sunshine_h{.key = "sunshine_h", .least = 0, .most = 744, .unit = "h"};
inline constexpr double longest_day_mean_h = 16.0;  // twelve numbers below it are hours a day, not sums of months
inline constexpr NumberRule global_mj_per_m2_d{.key = "global_mj_per_m2_d",
                                               .least = 0,
                                               .most = 45,
                                               .unit = "MJ/(m2 d)"};  // 45: above the sun outside the air in June
inline constexpr NumberRule relative_humidity_percent{
    .key = "relative_humidity_percent", .least = 1, .most = 100, .unit = "%", .hint = "per cent, 65 and not 0.65"};
inline constexpr NumberRule wind_m_per_s{.key = "wind_m_per_s", .least = 0, .most = 30, .unit = "m/s"};
inline constexpr NumberRule month_mean_sd_k{.key = "month_mean_sd_k",
                                            .least = 0,
                                            .most = 8,  // 5 K in the coldest months inland
                                            .unit = "K",
                                            .hint = "standard deviation between years of the month's mean temperature"};
inline constexpr NumberRule month_rain_sd_mm{.key = "month_rain_sd_mm", .least = 0, .most = 4000, .unit = "mm"};
inline constexpr double most_rain_sd_times = 5.0;  // of the month's rain; the driest months have two to three
// 2^53: every JSON and TOML reader keeps it whole.
inline constexpr NumberRule seed{.key = "seed", .least = 0, .most = 9007199254740992.0};

// --- the roof
inline constexpr NumberRule coordinate_m{.key = "", .least = -1000, .most = 1000, .unit = "m"};
inline constexpr double least_roof_m2 = 1.0;     // one module
inline constexpr double most_roof_m2 = 20000.0;  // a large school has 5000
inline constexpr NumberRule bearing_deg{.key = "",
                                        .least = 0,
                                        .most = 360,
                                        .unit = "degrees",
                                        .hint = "compass bearing: 0 north, 90 east, 180 south, 270 west"};
inline constexpr NumberRule fall_mm_per_m{
    .key = "fall_mm_per_m", .least = 0, .most = 180, .unit = "mm/m"};  // 10 degrees
inline constexpr NumberRule parapet_height_mm{.key = "parapet_height_mm", .least = 0, .most = 4000, .unit = "mm"};
inline constexpr NumberRule albedo{.key = "albedo", .least = 0, .most = 1, .unit = "share"};
inline constexpr NumberRule emissivity{.key = "emissivity", .least = 0.02, .most = 1, .unit = "share"};
// 0.5 mm: the thinnest membrane; below it somebody wrote metres. 2 m: a vault.
inline constexpr NumberRule deck_thickness_mm{.key = "thickness_mm", .least = 0.5, .most = 2000, .unit = "mm"};
inline constexpr NumberRule outlet_diameter_mm{.key = "diameter_mm", .least = 20, .most = 500, .unit = "mm"};
inline constexpr NumberRule obstacle_height_mm{.key = "height_mm", .least = 0, .most = 10000, .unit = "mm"};
inline constexpr NumberRule hollow_depth_mm{.key = "depth_mm", .least = 1, .most = 200, .unit = "mm"};
inline constexpr NumberRule load_kn_per_m2{.key = "load_kn_per_m2", .least = 0.1, .most = 50, .unit = "kN/m2"};
inline constexpr NumberRule averaging_area_m2{.key = "averaging_area_m2", .least = 0.1, .most = 1000, .unit = "m2"};

// --- the rooms
inline constexpr double least_room_m2 = 1.0;
inline constexpr NumberRule room_height_m{.key = "height_m", .least = 1.5, .most = 12, .unit = "m"};
inline constexpr NumberRule length_m{.key = "length_m", .least = 0.1, .most = 200, .unit = "m"};
inline constexpr NumberRule area_m2{.key = "area_m2", .least = 0.01, .most = 2000, .unit = "m2"};
// From the best insulated wall to a single pane in a steel frame.
inline constexpr NumberRule u_value_w_per_m2_k{
    .key = "u_value_w_per_m2_k", .least = 0.05, .most = 7, .unit = "W/(m2 K)"};
inline constexpr NumberRule g_value{.key = "g_value", .least = 0, .most = 1, .unit = "share"};
inline constexpr NumberRule shading_frac{.key = "shading_frac", .least = 0, .most = 1, .unit = "share"};
inline constexpr NumberRule solar_absorptance{.key = "solar_absorptance", .least = 0, .most = 1, .unit = "share"};
inline constexpr NumberRule infiltration_per_h{.key = "infiltration_per_h", .least = 0, .most = 20, .unit = "1/h"};
inline constexpr NumberRule opening_per_h{.key = "opening_per_h", .least = 0, .most = 50, .unit = "1/h"};
inline constexpr NumberRule open_above_c{.key = "open_above_c", .least = 10, .most = 45, .unit = "degC"};
inline constexpr NumberRule hour{.key = "", .least = 0, .most = 24, .unit = "h"};
inline constexpr NumberRule gains_w_per_m2{.key = "", .least = 0, .most = 200, .unit = "W/m2"};
inline constexpr NumberRule gains_w{.key = "", .least = 0, .most = 50000, .unit = "W"};
inline constexpr NumberRule fan_speed_m_per_s{.key = "air_speed_m_per_s", .least = 0.1, .most = 3, .unit = "m/s"};
inline constexpr NumberRule fan_power_w{.key = "power_w", .least = 0.5, .most = 1000, .unit = "W"};
inline constexpr NumberRule heat_to_c{.key = "heat_to_c", .least = 5, .most = 30, .unit = "degC"};
inline constexpr NumberRule cool_to_c{.key = "cool_to_c", .least = 15, .most = 40, .unit = "degC"};

// --- the recipes
// What one person still turns over, and what a flower pot is.
inline constexpr NumberRule module_length_mm{.key = "length_mm", .least = 100, .most = 3000, .unit = "mm"};
inline constexpr NumberRule module_width_mm{.key = "width_mm", .least = 100, .most = 3000, .unit = "mm"};
// Below 3 mm a layer is a sheet, or somebody wrote metres.
inline constexpr NumberRule layer_thickness_mm{.key = "thickness_mm", .least = 3, .most = 1000, .unit = "mm"};
inline constexpr NumberRule sheet_thickness_mm{.key = "thickness_mm", .least = 0.05, .most = 30, .unit = "mm"};
inline constexpr NumberRule net_height_mm{.key = "height_mm", .least = 20, .most = 3000, .unit = "mm"};
inline constexpr NumberRule wind_below_frac{.key = "wind_below_frac", .least = 0, .most = 1, .unit = "share"};
inline constexpr NumberRule vapour_resistance_s_per_m{
    .key = "vapour_resistance_s_per_m", .least = 0, .most = 1e6, .unit = "s/m"};
// Below 3 mm nothing flows; above 500 it is a table.
inline constexpr NumberRule spacer_height_mm{.key = "height_mm", .least = 3, .most = 500, .unit = "mm"};
inline constexpr NumberRule blocked_frac{.key = "blocked_frac", .least = 0, .most = 0.95, .unit = "share"};
inline constexpr NumberRule gap_wind_frac{.key = "gap_wind_frac", .least = 0, .most = 1, .unit = "share"};
inline constexpr NumberRule weighed_kg_per_m2{
    .key = "soaked_kg_per_m2", .least = 0, .most = 2000, .unit = "kg/m2", .is_least_open = true};
inline constexpr NumberRule spacer_mass_kg{.key = "mass_kg_per_module", .least = 0, .most = 100, .unit = "kg"};
inline constexpr NumberRule contact_m2_k_per_w{.key = "contact_m2_k_per_w", .least = 0, .most = 1, .unit = "m2 K/W"};
inline constexpr NumberRule cover_frac{
    .key = "cover_frac", .least = 0, .most = 1, .unit = "share", .is_least_open = true};
inline constexpr NumberRule ground_resistance_s_per_m{
    .key = "ground_resistance_s_per_m", .least = 5, .most = 1000, .unit = "s/m"};
inline constexpr NumberRule extinction_short{.key = "extinction_short", .least = 0.1, .most = 1.5};
inline constexpr NumberRule extinction_long{.key = "extinction_long", .least = 0.1, .most = 1.5};
inline constexpr NumberRule every_days{.key = "", .least = 0, .most = 365, .unit = "days"};
inline constexpr NumberRule store_frac{.key = "when_store_below_frac", .least = 0, .most = 1, .unit = "share"};
inline constexpr NumberRule litres_per_module{
    .key = "litres_per_module", .least = 0, .most = 500, .unit = "l", .is_least_open = true};

// --- the patches
inline constexpr NumberRule columns{.key = "columns", .least = 1, .most = 500};
inline constexpr NumberRule rows{.key = "rows", .least = 1, .most = 500};
inline constexpr NumberRule spacing_mm{.key = "spacing_mm", .least = 0, .most = 10000, .unit = "mm"};

// --- the rivals
inline constexpr NumberRule board_thickness_mm{.key = "board_thickness_mm", .least = 5, .most = 500, .unit = "mm"};
inline constexpr NumberRule ballast_thickness_mm{.key = "ballast_thickness_mm", .least = 5, .most = 300, .unit = "mm"};
inline constexpr NumberRule rival_net_height_mm{.key = "net_height_mm", .least = 20, .most = 3000, .unit = "mm"};

/// The same limits under another key.
[[nodiscard]] constexpr NumberRule with_key(NumberRule rule, std::string_view key) {
  rule.key = key;
  return rule;
}

}  // namespace houseleek::design::limits
