// Every figure of a material and of a foliage: its key, unit, limits and words; one list for reading, checking, showing.
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

}  // namespace

std::span<const MaterialProperty> material_properties() { return all_material_properties; }
std::span<const FoliageProperty> foliage_properties() { return all_foliage_properties; }

const Spread* find_property(const Material& material, const MaterialProperty& property) {
  if (property.required != nullptr) return &(material.*property.required);
  const std::optional<Spread>& figure = material.*property.optional;
  return figure ? &*figure : nullptr;
}

}  // namespace houseleek::catalogue
