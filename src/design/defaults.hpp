// What is assumed where a person does not say: each default once, with its range and where it comes from.
#pragma once
#include <string_view>

#include "catalogue/spread.hpp"
#include "design/room.hpp"
#include "design/site.hpp"

namespace houseleek::design {

struct Default {
  std::string_view words = "";
  double low = 0.0;
  double likely = 0.0;
  double high = 0.0;
  std::string_view source = "";
  catalogue::Certainty certainty = catalogue::Certainty::estimate;
};

namespace defaults {

using catalogue::Certainty;
inline constexpr std::string_view own = "our own estimate";
inline constexpr std::string_view trade = "common knowledge of the trade, no text at hand";

// Mean wind at 7 m in each terrain over that at 10 m in open land: v = k_r ln(z / z_0), k_r = 0.19 (z_0 / 0.05)^0.07,
// z_0 = 0.05, 0.3 and 1.0 m, from 10 m upwards only for the last.
inline constexpr std::string_view wind_source =
    "EN 1991-1-4, mean wind profile as remembered, worked out for a roof at 7 m; the range is our own estimate";
inline constexpr Default wind_open{
    "wind at the roof over open wind", 0.80, 0.93, 1.00, wind_source, Certainty::recomputed};
inline constexpr Default wind_suburb{
    "wind at the roof over open wind", 0.50, 0.67, 0.85, wind_source, Certainty::recomputed};
inline constexpr Default wind_town{
    "wind at the roof over open wind", 0.35, 0.54, 0.75, wind_source, Certainty::recomputed};

inline constexpr std::string_view finish_name = "bitumen, weathered";

inline constexpr Default outlet_diameter_mm{"diameter of the outlet", 60, 80, 100, trade, Certainty::from_memory};

inline constexpr Default room_height_m{"height of the room", 2.4, 2.6, 3.0, trade, Certainty::from_memory};
// kJ/(m2 K) of the classes light, medium and heavy.
inline constexpr Default thermal_mass_kj_per_m2_k{"heat stored in walls and floor (class medium; light to heavy)",
                                                  110,
                                                  165,
                                                  260,
                                                  "ISO 13790, classes of the simple hourly method",
                                                  Certainty::text_seen};
inline constexpr Default wall_u_value{
    "U-value of the wall", 0.5, 1.9, 2.5, "ISO 6946 for 240 mm of brick, plastered; the range is our own estimate",
    Certainty::estimate};
inline constexpr Default wall_absorptance{"sun taken up by the wall", 0.3, 0.6, 0.8, trade, Certainty::from_memory};
inline constexpr Default window_u_value{"U-value of the window", 1.3, 2.9, 5.7, trade, Certainty::from_memory};
inline constexpr Default window_g_value{"sun let through by the glass", 0.5, 0.7, 0.85, trade, Certainty::from_memory};
inline constexpr Default window_shading{"sun kept off the window", 0.0, 0.2, 0.6, own, Certainty::estimate};
inline constexpr Default infiltration{"air change through cracks", 0.2, 0.5, 1.5, trade, Certainty::from_memory};
inline constexpr Default open_above_c{"windows are opened above", 22, 24, 26, own, Certainty::estimate};
inline constexpr Default opening_per_h{"air change by open windows", 0.5, 2, 6, own, Certainty::estimate};
inline constexpr Default gains_day{"people and appliances by day", 2, 4, 8, own, Certainty::estimate};
inline constexpr Default gains_night{"people and appliances by night", 1, 3, 5, own, Certainty::estimate};
inline constexpr Default fan_power{"power of the fan", 25, 45, 75, trade, Certainty::from_memory};
inline constexpr Default heat_to{"heated to, in the figure with machines",
                                 18,
                                 20,
                                 22,
                                 "EN 16798-1, category II, as remembered",
                                 Certainty::from_memory};
inline constexpr Default cool_to{"cooled to, in the figure with machines",
                                 24,
                                 26,
                                 28,
                                 "EN 16798-1, category II, as remembered",
                                 Certainty::from_memory};
inline constexpr Default partition_u_value{"U-value of the partition", 1.0, 2.0, 3.0, trade, Certainty::from_memory};

inline constexpr Default sheet_thickness_mm{"thickness of the sheet", 0.5, 1, 3, own, Certainty::estimate};
inline constexpr Default wind_below_net{"wind below the net over wind above", 0.5, 0.7, 0.9, own, Certainty::estimate};
inline constexpr Default cover_vapour_resistance{
    "resistance of the cover sheet to vapour", 20, 100, 500, own, Certainty::estimate};
inline constexpr Default blocked{"share of the gap that spacers close", 0.05, 0.2, 0.5, own, Certainty::estimate};
// The figure a planted roof's gain hangs on most, and nobody has measured it for this roof.
inline constexpr Default gap_wind{
    "air speed in the gap over wind at the roof", 0.03, 0.1, 0.3, own, Certainty::estimate};
inline constexpr Default spacer_mass{"weight of the spacers", 0.1, 0.5, 1.5, own, Certainty::estimate};
inline constexpr Default contact{
    "thermal contact between module and roof", 0.002, 0.01, 0.05, own, Certainty::estimate};
inline constexpr Default ground_resistance{"air resistance between medium and leaves",
                                           40,
                                           60,
                                           150,
                                           "range usual in papers on planted roofs, as remembered",
                                           Certainty::from_memory};
inline constexpr Default extinction_short{
    "dimming of sun by leaves", 0.5, 0.6, 0.7, "range usual in papers on planted roofs, as remembered",
    Certainty::from_memory};
inline constexpr Default extinction_long{"dimming of heat radiation by leaves",
                                         0.8,
                                         0.9,
                                         0.95,
                                         "range usual in papers on planted roofs, as remembered",
                                         Certainty::from_memory};
inline constexpr Default watering_hour{"hour of watering", 5, 7, 21, own, Certainty::estimate};

inline constexpr int years_counted = 20;
inline constexpr Default real_interest{
    "interest a year above the rise of prices", 0.0, 0.02, 0.05, own, Certainty::estimate};
inline constexpr Default energy_price_rise{
    "rise a year of the price of energy above other prices", -0.01, 0.0, 0.03, own, Certainty::estimate};
inline constexpr Default own_hours_per_module{
    "own hours to make and lay a module", 1, 2.5, 5, own, Certainty::estimate};
inline constexpr Default own_hours_per_m2{
    "own hours to put up a square metre of a rival", 0.1, 0.3, 0.8, own, Certainty::estimate};
inline constexpr Default leak_per_year{
    "chance a year that what lies on the roof makes it leak", 0.0, 0.005, 0.02, own, Certainty::estimate};
inline constexpr Default membrane_life{
    "half of such membranes last longer than", 15, 25, 35, trade, Certainty::from_memory};
inline constexpr Default membrane_age{"age of the membrane today", 0, 10, 25, own, Certainty::estimate};
inline constexpr Default life_shape{
    "how alike lives of one thing are (shape of Weibull's law)", 1, 2.5, 6, own, Certainty::estimate};
inline constexpr std::string_view emissions_source =
    "figures seen for the EU in 2023 (0.24, original source not shown); the range, from hydropower to coal, is our own "
    "estimate";
inline constexpr Default electricity_carbon{
    "CO2 of a kWh of electricity", 0.03, 0.24, 0.8, emissions_source, Certainty::estimate};
inline constexpr Default heating_carbon{
    "CO2 of a kWh of energy for heating",
    0.02,
    0.2,
    0.35,
    "IPCC 2006 for natural gas (0.202), as remembered; the range, from wood to coal, is our own estimate",
    Certainty::from_memory};

}  // namespace defaults
}  // namespace houseleek::design
