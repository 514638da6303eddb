// Materials and recipes as the stepper sees them: layers, canopy, surfaces, net, gap, watering
// (docs/equations/covers.md).
#include "simulation/cover_layers.hpp"

#include <algorithm>

#include "base/contract.hpp"
#include "climate/calendar.hpp"
#include "climate/summary.hpp"
#include "numerics/elementary.hpp"

namespace houseleek::simulation {
namespace {

constexpr double metres_per_mm = 0.001;
constexpr double water_conductivity_w_per_m_k = 0.60;
constexpr double water_heat_j_per_kg_k = 4190.0;
constexpr double seconds_per_hour = 3600.0;
// Moisture by mass up to which a fibre keeps its dry conductivity.
constexpr double fibre_unchanged_kg_per_kg = 0.20;
// A published line for wet fibres is an upper bound (water and fibre side by side); the central value takes this
// share of its rise. Range 0 to 1.
constexpr double fibre_share_of_bound = 0.5;
// Water contents that coincide leave the ramps between them no width.
constexpr double least_available_frac = 0.001;
constexpr double least_draining_frac = 0.01;
// Faces without any resistance between them would be one face.
constexpr double least_contact_m2_k_per_w = 1e-4;
constexpr double usual_emissivity = 0.9;  // of building and garden materials that are no metal

double likely(const std::optional<catalogue::Spread>& figure) {
  expects(figure.has_value(), "a figure of the material that validation asked for");
  return figure->likely;
}

/// Water contents in the order the stepper needs.
void set_water_contents(const catalogue::Material& material, Layer& layer) {
  layer.residual_frac = likely(material.residual_water_frac);
  layer.wilting_frac = std::max(layer.residual_frac, likely(material.wilting_water_frac));
  layer.field_capacity_frac = std::max(likely(material.field_capacity_frac), layer.wilting_frac + least_available_frac);
  layer.saturated_frac =
      std::max(likely(material.saturated_water_frac), layer.field_capacity_frac + least_draining_frac);
  layer.holds_frac = layer.field_capacity_frac;
  layer.initial_water_frac = layer.field_capacity_frac;
}

/// The exponent counted from field capacity that lets as much through, halfway between field capacity and saturation,
/// as the material's own counted
/// from the residual water.
double exponent_above_field_capacity(const Layer& layer, double exponent) {
  const double middle_frac = 0.5 * (layer.field_capacity_frac + layer.saturated_frac);
  const double effective = (middle_frac - layer.residual_frac) / (layer.saturated_frac - layer.residual_frac);
  return std::max(1.0, exponent * numerics::log(effective) / numerics::log(0.5));
}

void set_mineral_conductivity(const catalogue::Material& material, Layer& layer) {
  const double pores = likely(material.porosity_frac);
  const double shape = likely(material.cote_konrad_k);
  const double saturated_w_per_m_k = numerics::pow(likely(material.solids_conductivity_w_per_m_k), 1.0 - pores) *
                                     numerics::pow(water_conductivity_w_per_m_k, pores);
  // The stepper counts water in shares of what the layer reaches when soaked, the equation in shares of all pores.
  const double reached_frac = pores > 0.0 ? std::min(1.0, layer.saturated_frac / pores) : 1.0;
  layer.wet_rise_w_per_m_k = shape * reached_frac * (saturated_w_per_m_k - layer.conductivity_dry_w_per_m_k);
  layer.wet_bend = (shape - 1.0) * reached_frac;
  layer.wet_from_frac = 0.0;
}

void set_fibre_conductivity(const catalogue::Material& material, Layer& layer) {
  layer.wet_from_frac = fibre_unchanged_kg_per_kg * material.density_kg_per_m3.likely / 1000.0;
  const double wet_span_frac = layer.saturated_frac - layer.wet_from_frac;
  if (wet_span_frac <= 0.0) return;  // a fibre too dense to get that wet
  const double bound_w_per_m_k =
      (water_conductivity_w_per_m_k - layer.conductivity_dry_w_per_m_k) * layer.saturated_frac;
  layer.wet_rise_w_per_m_k =
      std::max(0.0, fibre_share_of_bound * bound_w_per_m_k) * layer.saturated_frac / wet_span_frac;
}

bool takes_water(const design::RecipeLayer& layer) {
  const bool is_store = layer.role == design::LayerRole::medium || layer.role == design::LayerRole::core;
  return is_store && catalogue::holds_water(layer.layer.material);
}

/// Neighbours that are the same but for their thickness count as one layer, so that how a person splits one changes
/// nothing.
std::vector<design::RecipeLayer> merged(const std::vector<design::RecipeLayer>& layers) {
  std::vector<design::RecipeLayer> out;
  for (const design::RecipeLayer& layer : layers) {
    if (!out.empty() && out.back().role == layer.role && out.back().layer.material == layer.layer.material) {
      out.back().layer.thickness_mm += layer.layer.thickness_mm;
    } else {
      out.push_back(layer);
    }
  }
  return out;
}

/// Roots evenly by depth from the top of the first medium, in layers that hold water.
void spread_roots(const std::vector<design::RecipeLayer>& layers, double root_depth_mm, std::vector<Layer>& made) {
  double top_mm = 0.0;
  bool is_below_top = false;
  std::vector<double> rooted_mm(layers.size(), 0.0);
  double all_mm = 0.0;
  for (std::size_t i = 0; i < layers.size(); ++i) {
    is_below_top = is_below_top || layers[i].role == design::LayerRole::medium;
    if (!is_below_top) continue;
    const double left_mm = std::max(0.0, root_depth_mm - top_mm);
    if (takes_water(layers[i])) rooted_mm[i] = std::min(left_mm, layers[i].layer.thickness_mm);
    all_mm += rooted_mm[i];
    top_mm += layers[i].layer.thickness_mm;
  }
  if (all_mm <= 0.0) return;
  for (std::size_t i = 0; i < layers.size(); ++i) made[i].root_frac = rooted_mm[i] / all_mm;
}

/// Albedo of a surface below a sheet that lets some sun through, all reflections between them counted.
double albedo_below_sheet(double below_frac, double transmittance_frac, double reflectance_frac) {
  if (transmittance_frac == 0.0) return reflectance_frac;
  return reflectance_frac +
         transmittance_frac * transmittance_frac * below_frac / (1.0 - reflectance_frac * below_frac);
}

Surface top_surface(const design::Recipe& recipe, bool is_evaporating) {
  const catalogue::Material& top = recipe.layers.front().layer.material;
  Surface surface;
  const double dry_frac = likely(top.albedo_dry);
  surface.albedo = is_evaporating ? 0.5 * (dry_frac + likely(top.albedo_wet)) : dry_frac;
  surface.emissivity = likely(top.emissivity);
  surface.is_evaporating = is_evaporating;
  if (!recipe.cover) return surface;
  const catalogue::Material& sheet = recipe.cover->material;
  surface.albedo =
      albedo_below_sheet(surface.albedo, likely(sheet.solar_transmittance_frac), likely(sheet.solar_reflectance_frac));
  const double open_frac = likely(sheet.open_area_frac);
  surface.emissivity = open_frac * surface.emissivity + (1.0 - open_frac) * likely(sheet.emissivity);
  surface.cover_resistance_s_per_m = recipe.cover->vapour_resistance_s_per_m;
  return surface;
}

Canopy canopy_from(const design::Canopy& plants) {
  Canopy canopy;
  canopy.cover_frac = plants.cover_frac;
  canopy.leaf_area_index = plants.leaf_area_index;
  canopy.extinction_short = plants.extinction_short;
  canopy.extinction_long = plants.extinction_long;
  canopy.leaf_albedo = plants.leaf_albedo;
  canopy.leaf_emissivity = plants.longwave_emissivity;
  canopy.ground_resistance_s_per_m = plants.ground_resistance_s_per_m;
  canopy.stomatal_min_s_per_m = plants.least_stomatal_resistance_s_per_m;
  canopy.stomatal_max_s_per_m = std::max(canopy.stomatal_max_s_per_m, canopy.stomatal_min_s_per_m);
  canopy.leaf_heat_capacity_j_per_m2_k = plants.leaf_water_kg_per_m2 * water_heat_j_per_kg_k;
  return canopy;
}

/// Waterings of one season: `every` days from its first day on.
Watering season_rule(double depth_mm, double every_days, int first_day, int last_day) {
  const int whole_days = std::max(1, static_cast<int>(every_days + 0.5));
  Watering rule;
  rule.depth_mm = depth_mm * whole_days / every_days;
  rule.every_days = whole_days;
  rule.first_day = first_day;
  rule.last_day = last_day;
  return rule;
}

}  // namespace

Layer dry_layer(const catalogue::Material& material, double thickness_mm) {
  Layer layer;
  layer.thickness_m = metres_per_mm * thickness_mm;
  layer.conductivity_dry_w_per_m_k = material.conductivity_w_per_m_k.likely;
  layer.heat_capacity_dry_j_per_m3_k = material.density_kg_per_m3.likely * material.heat_capacity_j_per_kg_k.likely;
  return layer;
}

Layer wet_layer(const catalogue::Material& material, double thickness_mm) {
  Layer layer = dry_layer(material, thickness_mm);
  set_water_contents(material, layer);
  layer.saturated_conductivity_m_per_s =
      metres_per_mm * likely(material.saturated_conductivity_mm_per_h) / seconds_per_hour;
  layer.drainage_exponent = exponent_above_field_capacity(layer, likely(material.brooks_corey_exponent));
  switch (material.wet_rule) {
    case catalogue::WetRule::mineral_medium:
      set_mineral_conductivity(material, layer);
      return layer;
    case catalogue::WetRule::fibrous:
      set_fibre_conductivity(material, layer);
      return layer;
    case catalogue::WetRule::none:
      break;
  }
  expects(false, "a material that takes up water");
  return layer;
}

std::vector<Layer> deck_layers(const design::Roof& roof) {
  std::vector<Layer> layers;
  const catalogue::Material* before = nullptr;
  for (const design::Layer& one : roof.deck) {
    if (before != nullptr && *before == one.material) {
      layers.back().thickness_m += metres_per_mm * one.thickness_mm;
    } else {
      layers.push_back(dry_layer(one.material, one.thickness_mm));
    }
    before = &one.material;
  }
  return layers;
}

Stack module_stack(const design::Recipe& recipe) {
  Stack stack;
  const std::vector<design::RecipeLayer> layers = merged(recipe.layers);
  for (const design::RecipeLayer& one : layers) {
    Layer layer = takes_water(one) ? wet_layer(one.layer.material, one.layer.thickness_mm)
                                   : dry_layer(one.layer.material, one.layer.thickness_mm);
    layer.is_medium = one.role == design::LayerRole::medium;
    stack.module.push_back(layer);
  }
  stack.has_canopy = recipe.canopy.cover_frac > 0.0;
  if (stack.has_canopy) {
    stack.canopy = canopy_from(recipe.canopy);
    spread_roots(layers, recipe.canopy.root_depth_mm, stack.module);
  }
  stack.surface = top_surface(recipe, takes_water(layers.front()));
  stack.has_net = recipe.net.has_value();
  if (recipe.net) stack.net = net_from_screen(*recipe.net);
  return stack;
}

ModuleSeat module_seat(const design::Recipe& recipe, design::Placed placed, double deck_emissivity, double length_m) {
  ModuleSeat seat;
  if (placed == design::Placed::flat) {
    seat.under = Under::contact;
    seat.gap.contact_resistance_m2_k_per_w = std::max(least_contact_m2_k_per_w, recipe.contact_m2_k_per_w);
    return seat;
  }
  expects(recipe.spacer.height_mm > 0.0, "a spacer under a raised module");
  const std::optional<catalogue::Spread>& bottom = recipe.layers.back().layer.material.emissivity;
  seat.under = recipe.spacer.edges == design::Edges::closed ? Under::closed_gap : Under::ventilated_gap;
  seat.gap.height_m = metres_per_mm * recipe.spacer.height_mm;
  seat.gap.length_m = length_m;
  seat.gap.emissivity_above = bottom ? bottom->likely : usual_emissivity;
  seat.gap.emissivity_below = deck_emissivity;
  seat.gap.wind_frac = recipe.spacer.gap_wind_frac * (1.0 - recipe.spacer.blocked_frac);
  return seat;
}

double module_height_m(const design::Recipe& recipe) {
  double sum_mm = 0.0;
  for (const design::RecipeLayer& one : recipe.layers) sum_mm += one.layer.thickness_mm;
  return metres_per_mm * sum_mm;
}

Net net_from_screen(const design::Screen& screen) {
  const catalogue::Material& material = screen.material;
  Net net;
  net.transmittance = likely(material.solar_transmittance_frac);
  net.reflectance = likely(material.solar_reflectance_frac);
  net.emissivity = likely(material.emissivity) * (1.0 - likely(material.open_area_frac));
  net.wind_below_frac = screen.wind_below_frac;
  return net;
}

std::array<Season, 12> seasons_of(const design::Climate& climate, const climate::WeatherYear& year) {
  climate::MonthlyNormals normals;
  if (climate.normals) {
    normals.max_c = climate.normals->max_c;
    normals.min_c = climate.normals->min_c;
  } else {
    const climate::YearSummary summary = climate::summarise(year);
    normals.max_c = summary.max_c;
    normals.min_c = summary.min_c;
  }
  std::array<Season, 12> seasons{};
  seasons.fill(Season::between);
  for (const int month : climate::hottest_months(normals)) seasons[static_cast<std::size_t>(month)] = Season::summer;
  for (const int month : climate::coldest_months(normals)) seasons[static_cast<std::size_t>(month)] = Season::winter;
  return seasons;
}

std::vector<Watering> watering_rules(const design::Recipe& recipe, const std::array<Season, 12>& seasons) {
  if (!recipe.watering) return {};
  const design::Watering& given = *recipe.watering;
  const int hour = static_cast<int>(given.hour) % 24;
  const double depth_mm =
      given.litres_per_module / (metres_per_mm * recipe.length_mm * metres_per_mm * recipe.width_mm);
  if (given.when_store_below_frac) {
    Watering rule;
    rule.depth_mm = depth_mm;
    rule.hour = hour;
    rule.when_store_below_frac = *given.when_store_below_frac;
    return {rule};
  }
  std::array<double, 12> every_days{};
  for (std::size_t month = 0; month < 12; ++month) {
    const std::optional<double>& days = seasons[month] == Season::summer   ? given.summer_every_days
                                        : seasons[month] == Season::winter ? given.winter_every_days
                                                                           : given.between_every_days;
    every_days[month] = days.value_or(0.0);
  }
  std::vector<Watering> rules;
  // A season may run over the year's end: months are walked round the year from where one begins.
  int start = 0;
  while (start < 12 &&
         every_days[static_cast<std::size_t>(start)] == every_days[static_cast<std::size_t>((start + 11) % 12)]) {
    ++start;
  }
  if (start == 12) start = 0;
  for (int i = 0; i < 12;) {
    const int first_month = (start + i) % 12;
    const double days = every_days[static_cast<std::size_t>(first_month)];
    int length = 1;
    while (i + length < 12 && every_days[static_cast<std::size_t>((first_month + length) % 12)] == days) ++length;
    const int last_month = (first_month + length - 1) % 12;
    if (days > 0.0) {
      rules.push_back(season_rule(depth_mm, days, climate::first_day_of_month[static_cast<std::size_t>(first_month)],
                                  climate::first_day_of_month[static_cast<std::size_t>(last_month) + 1] - 1));
      rules.back().hour = hour;
    }
    i += length;
  }
  return rules;
}

}  // namespace houseleek::simulation
