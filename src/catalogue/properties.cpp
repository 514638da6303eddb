// Every figure of a material, part, foliage and plant: its key, unit, limits and words; one list for reading, checking,
// showing.
#include "catalogue/properties.hpp"

#include <array>

namespace houseleek::catalogue {
namespace {

// Limits are wide enough for any building or garden material (aerogel to steel, down to dry, up to flooded) and
// narrow enough to catch a slip of units by a factor of 1000.
constexpr std::array all_material_properties{
    MaterialProperty{.rule = {.key = "density_kg_per_m3", .least = 5, .most = 9000, .unit = "kg/m3"},
                     .words = "density, dry",
                     .required = &Material::density_kg_per_m3},
    MaterialProperty{.rule = {.key = "conductivity_w_per_m_k", .least = 0.01, .most = 500, .unit = "W/(m K)"},
                     .words = "thermal conductivity, dry",
                     .required = &Material::conductivity_w_per_m_k},
    MaterialProperty{.rule = {.key = "heat_capacity_j_per_kg_k", .least = 300, .most = 5000, .unit = "J/(kg K)"},
                     .words = "heat capacity, dry",
                     .required = &Material::heat_capacity_j_per_kg_k},
    MaterialProperty{.rule = {.key = "solids_conductivity_w_per_m_k", .least = 0.1, .most = 10, .unit = "W/(m K)"},
                     .words = "thermal conductivity of the grains",
                     .optional = &Material::solids_conductivity_w_per_m_k},
    MaterialProperty{.rule = {.key = "cote_konrad_k", .least = 0.1, .most = 10},
                     .words = "shape of conductivity's rise with water",
                     .optional = &Material::cote_konrad_k},
    MaterialProperty{.rule = {.key = "organic_frac", .least = 0, .most = 1, .unit = "share"},
                     .words = "organic share of the solids",
                     .optional = &Material::organic_frac},
    MaterialProperty{.rule = {.key = "porosity_frac", .least = 0, .most = 1, .unit = "share"},
                     .words = "pores",
                     .optional = &Material::porosity_frac},
    MaterialProperty{.rule = {.key = "saturated_water_frac", .least = 0, .most = 1, .unit = "share"},
                     .words = "water when soaked",
                     .optional = &Material::saturated_water_frac},
    MaterialProperty{.rule = {.key = "field_capacity_frac", .least = 0, .most = 1, .unit = "share"},
                     .words = "water when drained",
                     .optional = &Material::field_capacity_frac},
    MaterialProperty{.rule = {.key = "wilting_water_frac", .least = 0, .most = 1, .unit = "share"},
                     .words = "water that plants cannot get",
                     .optional = &Material::wilting_water_frac},
    MaterialProperty{.rule = {.key = "residual_water_frac", .least = 0, .most = 1, .unit = "share"},
                     .words = "water that stays when dried by air",
                     .optional = &Material::residual_water_frac},
    MaterialProperty{.rule = {.key = "saturated_conductivity_mm_per_h", .least = 0.1, .most = 1e6, .unit = "mm/h"},
                     .words = "flow of water when soaked",
                     .optional = &Material::saturated_conductivity_mm_per_h},
    MaterialProperty{.rule = {.key = "brooks_corey_exponent", .least = 1, .most = 200},
                     .words = "exponent of drainage",
                     .optional = &Material::brooks_corey_exponent},
    MaterialProperty{.rule = {.key = "albedo_dry", .least = 0, .most = 1, .unit = "share"},
                     .words = "sun thrown back, dry",
                     .optional = &Material::albedo_dry},
    MaterialProperty{.rule = {.key = "albedo_wet", .least = 0, .most = 1, .unit = "share"},
                     .words = "sun thrown back, wet",
                     .optional = &Material::albedo_wet},
    MaterialProperty{.rule = {.key = "emissivity", .least = 0.02, .most = 1, .unit = "share"},
                     .words = "emissivity",
                     .optional = &Material::emissivity},
    MaterialProperty{.rule = {.key = "solar_transmittance_frac", .least = 0, .most = 1, .unit = "share"},
                     .words = "sun let through",
                     .optional = &Material::solar_transmittance_frac},
    MaterialProperty{.rule = {.key = "solar_reflectance_frac", .least = 0, .most = 1, .unit = "share"},
                     .words = "sun thrown back by the sheet",
                     .optional = &Material::solar_reflectance_frac},
    MaterialProperty{.rule = {.key = "open_area_frac", .least = 0, .most = 1, .unit = "share"},
                     .words = "holes in the sheet",
                     .optional = &Material::open_area_frac},
    MaterialProperty{
        .rule = {.key = "service_life_years", .least = 0, .most = 200, .unit = "years", .is_least_open = true},
        .words = "service life",
        .optional = &Material::service_life_years},
    MaterialProperty{
        .rule = {.key = "service_life_in_sun_years", .least = 0, .most = 200, .unit = "years", .is_least_open = true},
        .words = "service life in full sun",
        .optional = &Material::service_life_in_sun_years},
    MaterialProperty{.rule = {.key = "conductivity_wet_w_per_m_k", .least = 0.01, .most = 500, .unit = "W/(m K)"},
                     .words = "thermal conductivity, drained",
                     .optional = &Material::conductivity_wet_w_per_m_k},
    MaterialProperty{.rule = {.key = "vapour_resistance_factor_dry", .least = 1, .most = 1e8},
                     .words = "resistance to vapour over that of still air, dry",
                     .optional = &Material::vapour_resistance_factor_dry,
                     .is_of_damp = true},
    MaterialProperty{.rule = {.key = "vapour_resistance_factor_wet", .least = 1, .most = 1e8},
                     .words = "resistance to vapour over that of still air, wet",
                     .optional = &Material::vapour_resistance_factor_wet,
                     .is_of_damp = true},
    MaterialProperty{.rule = {.key = "vapour_air_layer_m", .least = 0.001, .most = 1e5, .unit = "m"},
                     .words = "still air that resists vapour as the sheet does",
                     .optional = &Material::vapour_air_layer_m,
                     .is_of_damp = true},
    MaterialProperty{.rule = {.key = "water_at_50_percent_kg_per_m3", .least = 0.001, .most = 500, .unit = "kg/m3"},
                     .words = "water held at 50 % humidity",
                     .optional = &Material::water_at_50_percent_kg_per_m3,
                     .is_of_damp = true},
    MaterialProperty{.rule = {.key = "water_at_80_percent_kg_per_m3", .least = 0.001, .most = 800, .unit = "kg/m3"},
                     .words = "water held at 80 % humidity",
                     .optional = &Material::water_at_80_percent_kg_per_m3,
                     .is_of_damp = true},
    MaterialProperty{.rule = {.key = "free_water_kg_per_m3", .least = 0.01, .most = 990, .unit = "kg/m3"},
                     .words = "water taken up freely",
                     .optional = &Material::free_water_kg_per_m3,
                     .is_of_damp = true},
    MaterialProperty{.rule = {.key = "water_absorption_kg_per_m2_s05", .least = 0, .most = 2, .unit = "kg/(m2 s^0.5)"},
                     .words = "water sucked up over the root of time",
                     .optional = &Material::water_absorption_kg_per_m2_s05,
                     .is_of_damp = true},
    MaterialProperty{.rule = {.key = "moisture_conversion_m3_per_m3", .least = 0, .most = 20, .unit = "m3/m3"},
                     .words = "rise of conductivity with water by volume",
                     .optional = &Material::moisture_conversion_m3_per_m3,
                     .is_of_damp = true},
    MaterialProperty{.rule = {.key = "thickness_in_use_frac", .least = 0.1, .most = 1, .unit = "share"},
                     .words = "thickness once wet and loaded over thickness bought",
                     .optional = &Material::thickness_in_use_frac},
    MaterialProperty{.rule = {.key = "thickness_loss_per_year_frac", .least = 0, .most = 0.9, .unit = "share"},
                     .words = "thickness lost in each later year",
                     .optional = &Material::thickness_loss_per_year_frac},
    MaterialProperty{
        .rule = {.key = "lasting_pressure_kpa", .least = 0, .most = 1e5, .unit = "kPa", .is_least_open = true},
        .words = "pressure that it bears for years",
        .optional = &Material::lasting_pressure_kpa},
    MaterialProperty{.rule = {.key = "solar_transmittance_aged_frac", .least = 0, .most = 1, .unit = "share"},
                     .words = "sun let through when old",
                     .optional = &Material::solar_transmittance_aged_frac},
    MaterialProperty{.rule = {.key = "solar_reflectance_aged_frac", .least = 0, .most = 1, .unit = "share"},
                     .words = "sun thrown back by the sheet when old",
                     .optional = &Material::solar_reflectance_aged_frac},
    MaterialProperty{.rule = {.key = "longwave_transmittance_frac", .least = 0, .most = 1, .unit = "share"},
                     .words = "heat radiation let through",
                     .optional = &Material::longwave_transmittance_frac},
    MaterialProperty{.rule = {.key = "carbon_kg_per_kg", .least = 0, .most = 100, .unit = "kg/kg"},
                     .words = "CO2 equivalent of making it",
                     .optional = &Material::carbon_kg_per_kg},
    MaterialProperty{.rule = {.key = "combustible_frac", .least = 0, .most = 1, .unit = "share"},
                     .words = "share of the dry mass that burns",
                     .optional = &Material::combustible_frac},
    MaterialProperty{.rule = {.key = "heat_of_combustion_mj_per_kg", .least = 0, .most = 50, .unit = "MJ/kg"},
                     .words = "heat set free in a fire",
                     .optional = &Material::heat_of_combustion_mj_per_kg},
    MaterialProperty{.rule = {.key = "plastic_frac", .least = 0, .most = 1, .unit = "share"},
                     .words = "share of the dry mass that is plastic",
                     .optional = &Material::plastic_frac},
};

constexpr std::array all_part_properties{
    PartProperty{.rule = {.key = "mass_kg", .least = 0, .most = 200, .unit = "kg", .is_least_open = true},
                 .words = "weight of one piece, dry and empty",
                 .required = &Part::mass_kg},
    PartProperty{.rule = {.key = "carbon_kg_per_kg", .least = 0, .most = 100, .unit = "kg/kg"},
                 .words = "CO2 equivalent of making it",
                 .required = &Part::carbon_kg_per_kg},
    PartProperty{.rule = {.key = "plastic_frac", .least = 0, .most = 1, .unit = "share"},
                 .words = "share of the mass that is plastic",
                 .required = &Part::plastic_frac},
    PartProperty{.rule = {.key = "service_life_years", .least = 0, .most = 200, .unit = "years", .is_least_open = true},
                 .words = "service life in the shade",
                 .required = &Part::service_life_years},
    PartProperty{
        .rule = {.key = "service_life_in_sun_years", .least = 0, .most = 200, .unit = "years", .is_least_open = true},
        .words = "service life in full sun",
        .optional = &Part::service_life_in_sun_years},
    PartProperty{.rule = {.key = "pieces_per_module", .least = 0, .most = 200, .unit = "pieces", .is_least_open = true},
                 .words = "pieces that one module needs",
                 .optional = &Part::pieces_per_module},
    PartProperty{.rule = {.key = "volume_l", .least = 0.05, .most = 1000, .unit = "l"},
                 .words = "volume, filled",
                 .optional = &Part::volume_l},
    PartProperty{.rule = {.key = "height_mm", .least = 1, .most = 2000, .unit = "mm"},
                 .words = "height",
                 .optional = &Part::height_mm},
    PartProperty{.rule = {.key = "foot_area_cm2", .least = 0.1, .most = 10000, .unit = "cm2"},
                 .words = "area of one piece on the roof",
                 .optional = &Part::foot_area_cm2},
    PartProperty{.rule = {.key = "blocked_frac", .least = 0, .most = 1, .unit = "share"},
                 .words = "share of the gap that the spacers close",
                 .optional = &Part::blocked_frac},
    PartProperty{.rule = {.key = "breaking_force_n", .least = 1, .most = 1e5, .unit = "N"},
                 .words = "force that breaks it, new",
                 .optional = &Part::breaking_force_n},
};

constexpr std::array all_foliage_properties{
    FoliageProperty{.rule = {.key = "height_mm", .least = 5, .most = 5000, .unit = "mm"},
                    .words = "height of the plants",
                    .figure = &Foliage::height_mm},
    FoliageProperty{.rule = {.key = "root_depth_mm", .least = 5, .most = 2000, .unit = "mm"},
                    .words = "depth of the roots",
                    .figure = &Foliage::root_depth_mm},
    FoliageProperty{.rule = {.key = "cover_frac", .least = 0, .most = 1, .unit = "share", .is_least_open = true},
                    .words = "share of the module covered",
                    .figure = &Foliage::cover_frac},
    FoliageProperty{.rule = {.key = "leaf_area_index", .least = 0.05, .most = 12, .unit = "m2/m2"},
                    .words = "leaf area over the covered part",
                    .figure = &Foliage::leaf_area_index},
    FoliageProperty{.rule = {.key = "leaf_albedo", .least = 0.01, .most = 0.8, .unit = "share"},
                    .words = "sun thrown back by the leaves",
                    .figure = &Foliage::leaf_albedo},
    FoliageProperty{.rule = {.key = "longwave_emissivity", .least = 0.5, .most = 1, .unit = "share"},
                    .words = "emissivity of the leaves",
                    .figure = &Foliage::longwave_emissivity},
    FoliageProperty{.rule = {.key = "leaf_water_kg_per_m2", .least = 0.05, .most = 50, .unit = "kg/m2"},
                    .words = "water in the leaves",
                    .figure = &Foliage::leaf_water_kg_per_m2},
    FoliageProperty{.rule = {.key = "fresh_mass_kg_per_m2", .least = 0.05, .most = 100, .unit = "kg/m2"},
                    .words = "weight of the plants",
                    .figure = &Foliage::fresh_mass_kg_per_m2},
    FoliageProperty{.rule = {.key = "least_stomatal_resistance_s_per_m", .least = 20, .most = 5000, .unit = "s/m"},
                    .words = "least stomatal resistance",
                    .figure = &Foliage::least_stomatal_resistance_s_per_m},
};

constexpr std::array all_plant_properties{
    PlantProperty{.rule = {.key = "medium_depth_mm", .least = 5, .most = 3000, .unit = "mm"},
                  .words = "depth of medium",
                  .figure = &Plant::medium_depth_mm,
                  .is_needed = true},
    PlantProperty{.rule = {.key = "width_mm", .least = 10, .most = 20000, .unit = "mm"},
                  .words = "width of one grown plant",
                  .figure = &Plant::width_mm,
                  .is_needed = true},
    PlantProperty{.rule = {.key = "lowest_temperature_c", .least = -60, .most = 20, .unit = "degC"},
                  .words = "cold that it lives through",
                  .figure = &Plant::lowest_temperature_c,
                  .is_needed = true},
    PlantProperty{.rule = {.key = "dry_spell_days", .least = 0, .most = 365, .unit = "days"},
                  .words = "days without water that it lives through",
                  .figure = &Plant::dry_spell_days,
                  .is_needed = true},
    PlantProperty{.rule = {.key = "easy_water_frac", .least = 0.05, .most = 0.95, .unit = "share"},
                  .words = "share of its water that it takes without harm",
                  .figure = &Plant::easy_water_frac},
    PlantProperty{.rule = {.key = "salt_threshold_ds_per_m", .least = 0.1, .most = 30, .unit = "dS/m"},
                  .words = "salt in the soil before yield falls",
                  .figure = &Plant::salt_threshold_ds_per_m},
    PlantProperty{
        .rule = {.key = "leave_roof_after_years", .least = 0, .most = 50, .unit = "years", .is_least_open = true},
        .words = "years until it must leave the roof",
        .figure = &Plant::leave_roof_after_years},
};

}  // namespace

std::span<const MaterialProperty> material_properties() { return all_material_properties; }
std::span<const PartProperty> part_properties() { return all_part_properties; }
std::span<const FoliageProperty> foliage_properties() { return all_foliage_properties; }
std::span<const PlantProperty> plant_properties() { return all_plant_properties; }

namespace {

const Spread* address_of(const std::optional<Spread>& figure) { return figure ? &*figure : nullptr; }

}  // namespace

const Spread* find_property(const Material& material, const MaterialProperty& property) {
  if (property.required != nullptr) return &(material.*property.required);
  return address_of(material.*property.optional);
}

const Spread* find_property(const Part& part, const PartProperty& property) {
  if (property.required != nullptr) return &(part.*property.required);
  return address_of(part.*property.optional);
}

const Spread* find_property(const Plant& plant, const PlantProperty& property) {
  return address_of(plant.*property.figure);
}

}  // namespace houseleek::catalogue
