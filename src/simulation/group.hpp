// What the stepper is told: stacks (layers under a square), the rooms below them, and the links between both.
#pragma once
#include <array>
#include <string>
#include <vector>

namespace houseleek::simulation {

// Temperatures here are in degrees Celsius because enthalpy is counted from liquid water at 0 degC; all else is SI.

/// One layer of a module or a deck, top to bottom. Equal neighbours are merged before slicing.
struct Layer {
  double thickness_m = 0.0;
  double conductivity_dry_w_per_m_k = 1.0;
  double heat_capacity_dry_j_per_m3_k = 1.0e6;
  // Wet conductivity: dry + wet_rise * x / (1 + wet_bend * x), x = max(0, theta - wet_from_frac) / saturated_frac.
  double wet_rise_w_per_m_k = 0.0;
  double wet_bend = 0.0;
  double wet_from_frac = 0.0;
  // Water by volume; saturated_frac = 0 means the layer holds none.
  double saturated_frac = 0.0;
  double holds_frac = 0.0;  // below it nothing drains (container capacity over a coarse layer, or the residual)
  double field_capacity_frac = 0.0;
  double wilting_frac = 0.0;
  double residual_frac = 0.0;
  double saturated_conductivity_m_per_s = 0.0;
  double drainage_exponent = 3.0;
  double initial_water_frac = 0.0;
  double root_frac = 0.0;  // share of the roots in this layer; over a stack they sum to one where there are plants
  bool is_medium = false;  // the top 20 mm of a medium get the finer slices
  bool operator==(const Layer&) const = default;
};

struct Canopy {
  double cover_frac = 0.0;
  double leaf_area_index = 2.0;  // over the covered part
  double extinction_short = 0.6;
  double extinction_long = 0.9;
  double leaf_albedo = 0.23;
  double leaf_emissivity = 0.96;
  double ground_resistance_s_per_m = 60.0;  // from the medium's surface to the canopy's air
  double stomatal_min_s_per_m = 200.0;
  double stomatal_max_s_per_m = 5000.0;
  double leaf_heat_capacity_j_per_m2_k = 8000.0;  // over the covered part
  bool operator==(const Canopy&) const = default;
};

struct Surface {
  double albedo = 0.2;
  double emissivity = 0.95;
  bool is_evaporating = false;            // a medium; a membrane, a board or a sheet is not
  double cover_resistance_s_per_m = 0.0;  // what a sheet on the medium adds against vapour
  bool operator==(const Surface&) const = default;
};

/// A shade net stretched above everything else.
struct Net {
  double transmittance = 0.5;
  double reflectance = 0.1;
  double emissivity = 0.6;       // closed share for long-wave; the rest is open sky
  double wind_below_frac = 0.7;  // wind under the net over wind above it
  bool operator==(const Net&) const = default;
};

enum class Under { nothing, contact, closed_gap, ventilated_gap };

/// How the module lies on the deck.
struct Gap {
  double contact_resistance_m2_k_per_w = 0.01;
  double height_m = 0.02;
  double length_m = 1.0;  // along the air's way
  double emissivity_above = 0.9;
  double emissivity_below = 0.9;
  double wind_frac = 0.1;             // gap air speed over roof wind
  double still_speed_m_per_s = 0.02;  // drift without wind
  bool operator==(const Gap&) const = default;
};

/// Outside film: forced convection over a flat plate of the roof's length, with natural convection; or a fixed value (tests, tables).
struct OutsideFilm {
  double roof_length_m = 8.0;
  double wind_to_roof_frac = 0.6;  // roof wind over the weather's wind
  bool is_fixed = false;
  double fixed_w_per_m2_k = 25.0;
  bool operator==(const OutsideFilm&) const = default;
};

/// Inside film of the ceiling: convection by the direction of heat, radiation to the room's surfaces; or fixed convection alone.
struct InsideFilm {
  double radiative_w_per_m2_k = 5.14;
  bool is_fixed = false;
  double fixed_w_per_m2_k = 10.0;
  bool operator==(const InsideFilm&) const = default;
};

/// One rule of watering: a depth of water given at an hour of the day, in a season.
struct Watering {
  double depth_mm = 0.0;  // 0: never
  int hour = 7;
  int every_days = 0;                  // 0: by the store
  double when_store_below_frac = 0.0;  // of the water between wilting and field capacity over the root zone
  int first_day = 0;                   // day of the year, from 0; watering also wraps past the year's end
  int last_day = 364;
  bool operator==(const Watering&) const = default;
};

struct Stack {
  std::string name;
  double area_m2 = 1.0;
  int room = 0;  // index into Group::rooms
  bool has_canopy = false;
  bool has_net = false;
  Canopy canopy;
  Surface surface;
  Net net;
  Under under = Under::nothing;
  Gap gap;
  OutsideFilm outside_film;
  InsideFilm inside_film;
  std::vector<Watering> waterings;  // each followed by itself; what they give at one hour adds up
  std::vector<Layer> module;        // empty: the surface is the deck's own
  std::vector<Layer> deck;
  double initial_temperature_c = 15.0;
  bool operator==(const Stack&) const = default;
};

/// Sideways conduction between the decks of two stacks whose decks have the same layers.
struct SideLink {
  int first = 0;
  int second = 0;
  double edge_length_m = 0.0;  // shared edge
  double distance_m = 0.1;     // between the strips' middles
  bool operator==(const SideLink&) const = default;
};

/// One rule for the windows: opened smoothly above a temperature, only when outside is cooler, between two hours of the day.
struct WindowRule {
  double open_above_c = 24.0;
  double extra_per_h = 0.0;  // 0: never
  int from_hour = 0;
  int to_hour = 24;
  bool only_when_outside_cooler = true;
  bool operator==(const WindowRule&) const = default;
};

/// The room as air, surfaces and mass (five resistances, one capacity).
struct Room {
  std::string name;
  double floor_area_m2 = 10.0;
  double volume_m3 = 25.0;
  double mass_to_surface_w_per_k = 0.0;  // H_ms
  double surface_to_air_w_per_k = 0.0;   // H_is
  double mass_to_outside_w_per_k = 0.0;  // H_em: opaque walls
  double window_w_per_k = 0.0;           // H_w
  double heat_capacity_j_per_k = 1.0;    // C_m
  double total_surface_m2 = 1.0;         // all inner surfaces, ceiling included
  double mass_area_m2 = 1.0;             // A_m
  double infiltration_per_h = 0.5;
  WindowRule window_rule;
  std::array<double, 24> internal_gain_w{};  // by hour of the day
  std::vector<double> solar_gain_w;          // by hour of the year; empty: none
  bool is_held = false;                      // with machines: the air is kept between the two temperatures
  double heat_below_c = 20.0;
  double cool_above_c = 26.0;
  bool is_prescribed = false;  // tests: air and surfaces stay at this temperature
  double prescribed_c = 20.0;
  double initial_temperature_c = 20.0;
  bool operator==(const Room&) const = default;
};

struct Partition {
  int first = 0;
  int second = 0;
  double conductance_w_per_k = 0.0;  // between the rooms' surface nodes
  bool operator==(const Partition&) const = default;
};

/// Everything that is solved together.
struct Group {
  std::vector<Stack> stacks;
  std::vector<SideLink> side_links;
  std::vector<Room> rooms;
  std::vector<Partition> partitions;
  double pressure_pa = 101325.0;
  bool operator==(const Group&) const = default;
};

}  // namespace houseleek::simulation
