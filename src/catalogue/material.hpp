// What a material is to this program: each property a range with its source.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "catalogue/spread.hpp"
#include "catalogue/words.hpp"

namespace houseleek::catalogue {

/// How conductivity changes with water.
enum class WetRule {
  none,            // takes up no water that matters
  mineral_medium,  // Cote and Konrad's form with the solids' conductivity of light aggregate
  fibrous          // unchanged below 20 % moisture by mass, above it a straight line towards water as an upper bound
};

/// Water figures are shares of the whole volume (m3 of water in m3 of material). Absent: the property is not known,
/// and validation refuses a use that needs it.
struct Material {
  std::string name;     // what a design says
  std::string form;     // board, loose, 0-12 mm ...
  bool is_own = false;  // from the design itself, not from the catalogue
  WetRule wet_rule = WetRule::none;

  Spread density_kg_per_m3;         // dry, in bulk
  Spread conductivity_w_per_m_k;    // dry
  Spread heat_capacity_j_per_kg_k;  // dry

  std::optional<Spread> solids_conductivity_w_per_m_k;    // of the grains alone: mineral_medium needs it
  std::optional<Spread> cote_konrad_k;                    // shape of the rise with water: mineral_medium needs it
  std::optional<Spread> organic_frac;                     // share of the solids' volume
  std::optional<Spread> porosity_frac;                    // all pores, air included
  std::optional<Spread> saturated_water_frac;             // all reachable pores full
  std::optional<Spread> field_capacity_frac;              // drained
  std::optional<Spread> wilting_water_frac;               // below it plants get none
  std::optional<Spread> residual_water_frac;              // below it nothing drains or evaporates
  std::optional<Spread> saturated_conductivity_mm_per_h;  // K_s of K = K_s Se^b, Se between residual and saturated
  std::optional<Spread> brooks_corey_exponent;            // b

  std::optional<Spread> albedo_dry;  // as an upper surface
  std::optional<Spread> albedo_wet;
  std::optional<Spread> emissivity;

  std::optional<Spread> solar_transmittance_frac;  // as a screen: shade cloth, cover sheet
  std::optional<Spread> solar_reflectance_frac;
  std::optional<Spread> open_area_frac;  // holes, as seen from above: wind, vapour and long-wave pass there

  std::optional<Spread> service_life_years;         // in its usual place: covered, shaded or buried
  std::optional<Spread> service_life_in_sun_years;  // uncovered in full sun

  std::optional<Spread> conductivity_wet_w_per_m_k;    // drained, where somebody measured it
  std::optional<Spread> vapour_resistance_factor_dry;  // times that of still air, dry cup
  std::optional<Spread> vapour_resistance_factor_wet;  // wet cup
  std::optional<Spread> vapour_air_layer_m;            // of a sheet as sold: the still air that resists as much
  // What damp does in it (physics/porous.hpp). A layer without them is a resistance to vapour and holds no water.
  std::optional<Spread> water_at_50_percent_kg_per_m3;  // held at 50 % humidity
  std::optional<Spread> water_at_80_percent_kg_per_m3;
  std::optional<Spread> free_water_kg_per_m3;            // taken up freely from standing water
  std::optional<Spread> water_absorption_kg_per_m2_s05;  // over the root of time; 0: does not suck
  std::optional<Spread> moisture_conversion_m3_per_m3;   // f of conductivity times exp(f w), w by volume
  std::optional<Spread> thickness_in_use_frac;          // after the first season, wet and loaded, over thickness bought
  std::optional<Spread> thickness_loss_per_year_frac;   // of what is there, each later year
  std::optional<Spread> lasting_pressure_kpa;           // what may stand on it for years, warm and wet
  std::optional<Spread> solar_transmittance_aged_frac;  // as a screen, near the end of its life in sun
  std::optional<Spread> solar_reflectance_aged_frac;    // the same
  std::optional<Spread> longwave_transmittance_frac;    // of the sheet's solid part, to heat radiation
  std::optional<Spread> carbon_kg_per_kg;               // CO2 equivalent of making it, carbon in plants not counted
  std::optional<Spread> combustible_frac;               // of the dry mass
  std::optional<Spread> heat_of_combustion_mj_per_kg;   // of the whole dry mass, ash and stones included
  std::optional<Spread> plastic_frac;                   // of the dry mass

  std::optional<Family> family;
  std::vector<Hazard> hazards;
  std::optional<NearFood> near_food;
  std::string preparation;  // before it goes into a module: dry, sieve, rinse
  Origin words_from;        // of family, hazards, near_food and preparation
  bool operator==(const Material&) const = default;
};

/// True if the layer takes part in the water balance.
[[nodiscard]] inline bool holds_water(const Material& material) { return material.wet_rule != WetRule::none; }

}  // namespace houseleek::catalogue
