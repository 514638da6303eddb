// Materials, as both the catalogue and a design's own entries write them.
#include "catalogue/read_material.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <utility>
#include <vector>

#include "catalogue/columns.hpp"
#include "catalogue/properties.hpp"

namespace houseleek::catalogue {
namespace {

constexpr std::pair<std::string_view, WetRule> wet_rule_words[] = {
    {"none", WetRule::none}, {"mineral_medium", WetRule::mineral_medium}, {"fibrous", WetRule::fibrous}};

struct NamedFigure {
  const char* key;
  const std::optional<Spread>* figure;
};

void check_needed(FieldReader& reader, const TableView& table, const Material& material) {
  std::vector<NamedFigure> needed;
  if (material.wet_rule != WetRule::none) {
    needed = {{"porosity_frac", &material.porosity_frac},
              {"saturated_water_frac", &material.saturated_water_frac},
              {"field_capacity_frac", &material.field_capacity_frac},
              {"wilting_water_frac", &material.wilting_water_frac},
              {"residual_water_frac", &material.residual_water_frac},
              {"saturated_conductivity_mm_per_h", &material.saturated_conductivity_mm_per_h},
              {"brooks_corey_exponent", &material.brooks_corey_exponent}};
  }
  if (material.wet_rule == WetRule::mineral_medium) {
    needed.push_back({"solids_conductivity_w_per_m_k", &material.solids_conductivity_w_per_m_k});
    needed.push_back({"cote_konrad_k", &material.cote_konrad_k});
  }
  for (const NamedFigure& one : needed) {
    // A figure that is there but wrong has its own issue.
    if (!*one.figure && find_member(*table.node, one.key) == nullptr) {
      (void)has_field(reader, table, one.key, "a material with a wet_rule takes up water and needs this figure");
    }
  }
}

/// What two shares of one whole are together.
void check_sum(FieldReader& reader, const TableView& table, const NamedFigure& one, const NamedFigure& other) {
  if (!*one.figure || !*other.figure || (*one.figure)->likely + (*other.figure)->likely <= 1.0) return;
  const std::string path = path_from(table, one.key);
  add_issue(reader, IssueCode::inconsistent, member_or_table(table, one.key), path,
            fmt::format("1 together with {}", other.key),
            fmt::format("{} and {} are more than 1 together", path, other.key), "");
}

void check_not_above(FieldReader& reader, const TableView& table, const NamedFigure& lower, const NamedFigure& upper) {
  if (!*lower.figure || !*upper.figure || (*lower.figure)->likely <= (*upper.figure)->likely) return;
  const std::string path = path_from(table, lower.key);
  add_issue(
      reader, IssueCode::inconsistent, member_or_table(table, lower.key), path, fmt::format("at most {}", upper.key),
      fmt::format("{} ({}) is above {} ({})", path, (*lower.figure)->likely, upper.key, (*upper.figure)->likely), "");
}

void check_below(FieldReader& reader, const TableView& table, const NamedFigure& lower, const NamedFigure& upper) {
  if (!*lower.figure || !*upper.figure || (*lower.figure)->likely < (*upper.figure)->likely) return;
  const std::string path = path_from(table, lower.key);
  add_issue(
      reader, IssueCode::inconsistent, member_or_table(table, lower.key), path, fmt::format("below {}", upper.key),
      fmt::format("{} ({}) is not below {} ({})", path, (*lower.figure)->likely, upper.key, (*upper.figure)->likely),
      "");
}

/// Water held at rising humidity must rise; damp asks for all three and for the uptake.
void check_damp(FieldReader& reader, const TableView& table, const Material& material) {
  const NamedFigure needed[] = {{"water_at_50_percent_kg_per_m3", &material.water_at_50_percent_kg_per_m3},
                                {"water_at_80_percent_kg_per_m3", &material.water_at_80_percent_kg_per_m3},
                                {"free_water_kg_per_m3", &material.free_water_kg_per_m3},
                                {"water_absorption_kg_per_m2_s05", &material.water_absorption_kg_per_m2_s05},
                                {"moisture_conversion_m3_per_m3", &material.moisture_conversion_m3_per_m3}};
  const bool has_some =
      std::any_of(std::begin(needed), std::end(needed), [](const NamedFigure& one) { return one.figure->has_value(); });
  for (const NamedFigure& one : needed) {
    // A figure that is there but wrong has its own issue.
    if (has_some && !*one.figure && find_member(*table.node, one.key) == nullptr) {
      (void)has_field(reader, table, one.key, "a material that holds damp needs all five figures of it");
    }
  }
  check_below(reader, table, needed[0], needed[1]);
  check_below(reader, table, needed[1], needed[2]);
}

/// Figures of one material must follow from one another.
void check_order(FieldReader& reader, const TableView& table, const Material& material) {
  const NamedFigure rising[] = {{"residual_water_frac", &material.residual_water_frac},
                                {"wilting_water_frac", &material.wilting_water_frac},
                                {"field_capacity_frac", &material.field_capacity_frac},
                                {"saturated_water_frac", &material.saturated_water_frac},
                                {"porosity_frac", &material.porosity_frac}};
  const NamedFigure* below = nullptr;
  for (const NamedFigure& one : rising) {
    if (!*one.figure) continue;
    if (below != nullptr && (*below->figure)->likely > (*one.figure)->likely) {
      const std::string path = path_from(table, below->key);
      add_issue(reader, IssueCode::inconsistent, member_or_table(table, below->key), path,
                fmt::format("at most {}", one.key),
                fmt::format("{} ({}) is above {} ({})", path, (*below->figure)->likely, one.key, (*one.figure)->likely),
                "water rises from residual, wilting, field capacity and saturated to porosity");
    }
    below = &one;
  }
  if (material.wet_rule != WetRule::none && material.saturated_water_frac && material.residual_water_frac &&
      material.saturated_water_frac->likely <= material.residual_water_frac->likely) {
    const std::string path = path_from(table, "saturated_water_frac");
    add_issue(reader, IssueCode::inconsistent, member_or_table(table, "saturated_water_frac"), path,
              "above residual_water_frac", fmt::format("{} leaves no room for water above residual_water_frac", path),
              "");
  }
  check_sum(reader, table, {"solar_transmittance_frac", &material.solar_transmittance_frac},
            {"solar_reflectance_frac", &material.solar_reflectance_frac});
  check_sum(reader, table, {"solar_transmittance_aged_frac", &material.solar_transmittance_aged_frac},
            {"solar_reflectance_aged_frac", &material.solar_reflectance_aged_frac});
  check_sum(reader, table, {"longwave_transmittance_frac", &material.longwave_transmittance_frac},
            {"emissivity", &material.emissivity});
  check_not_above(reader, table, {"vapour_resistance_factor_wet", &material.vapour_resistance_factor_wet},
                  {"vapour_resistance_factor_dry", &material.vapour_resistance_factor_dry});
  check_damp(reader, table, material);
  check_not_above(reader, table, {"service_life_in_sun_years", &material.service_life_in_sun_years},
                  {"service_life_years", &material.service_life_years});
  check_not_above(reader, table, {"plastic_frac", &material.plastic_frac},
                  {"combustible_frac", &material.combustible_frac});
  const std::optional<Spread> dry = material.conductivity_w_per_m_k;
  check_not_above(reader, table, {"conductivity_w_per_m_k", &dry},
                  {"conductivity_wet_w_per_m_k", &material.conductivity_wet_w_per_m_k});
}

/// Family, hazards, use near food and preparation; the catalogue says where they come from.
void read_said(FieldReader& reader, const TableView& table, const FigureContext& context, Material& material) {
  bool has_words = false;
  for (const std::string_view key : {"family", "hazards", "near_food", "preparation"}) {
    has_words = has_words || find_member(*table.node, key) != nullptr;
  }
  if (const std::optional<Family> family = read_choice<Family>(reader, table, "family", family_words)) {
    material.family = family;
  }
  if (find_member(*table.node, "hazards") != nullptr) {
    material.hazards = read_words<Hazard>(reader, table, "hazards", hazard_words);
  }
  if (const std::optional<NearFood> use = read_choice<NearFood>(reader, table, "near_food", near_food_words)) {
    material.near_food = use;
  }
  material.preparation = read_text(reader, table, "preparation").value_or(material.preparation);
  if (context.entry == Entry::catalogue) {
    (void)has_field(reader, table, "family", "say what it is made of: mineral, wood, polyethylene ...");
    material.words_from = read_origin(reader, table, context);
  } else if (has_words) {
    material.words_from = read_origin(reader, table, context);
  }
}

}  // namespace

Material read_material(FieldReader& reader, const TableView& table, const FigureContext& context,
                       const Material* base) {
  check_keys(reader, table, material_keys());
  Material material = base == nullptr ? Material{} : *base;
  material.is_own = context.entry == Entry::own;
  material.name = read_required_text(reader, table, "name", "add name = \"what recipes and decks call it\"");
  material.form = read_text(reader, table, "form").value_or(material.form);
  material.wet_rule = read_choice<WetRule>(reader, table, "wet_rule", wet_rule_words).value_or(material.wet_rule);
  for (const MaterialProperty& property : material_properties()) {
    const bool is_needed = base == nullptr && property.required != nullptr;
    const std::optional<Spread> figure = is_needed ? read_required_spread(reader, table, property.rule, context)
                                                   : read_spread(reader, table, property.rule, context);
    if (!figure) continue;
    if (property.required != nullptr) {
      material.*property.required = *figure;
    } else {
      material.*property.optional = *figure;
    }
  }
  read_said(reader, table, context, material);
  check_needed(reader, table, material);
  check_order(reader, table, material);
  return material;
}

}  // namespace houseleek::catalogue
